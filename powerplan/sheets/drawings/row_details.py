"""What lies behind a row at a large scale, where tags, coils and supplies crowd its drawing."""

from __future__ import annotations

import math
from itertools import pairwise

import shapely

from powerplan.engineering.seating.frames import polygon
from powerplan.model.geometry import Point, Rect
from powerplan.model.lengths import plural
from powerplan.model.plan import NOT_POSSIBLE, Cord, Plan
from powerplan.sheets.drawings.chairs import draw_reclined, draw_upright
from powerplan.sheets.drawings.loose import draw_loose, loose_of, outline_of
from powerplan.sheets.drawings.lying import (
    cords_of,
    draw_bends,
    draw_cords,
    draw_feeds,
    draw_slack,
)
from powerplan.sheets.drawings.room import draw_floor, draw_walls
from powerplan.sheets.drawings.sketch import Sketch
from powerplan.sheets.local import local_of
from powerplan.sheets.off_walls import to_finish
from powerplan.sheets.pages.print_rows import SetRow
from powerplan.sheets.pages.print_tags import tag_numbers
from powerplan.sheets.pages.print_told import Places, places_of
from powerplan.sheets.scene import View
from powerplan.sheets.words import lay_word

FEET_SCALES, METER_SCALES = (12, 16), (10, 20)
_AROUND_M, _WALL_M = 0.1, 0.06
_NAMES_MM = 7.0
# Things nearer than this on paper crowd one another, and so many of them a drawing.
_NEAR_MM, _MANY = 9.0, 4
_DEEP_PART = 0.5


def with_row_details(
    plan: Plan, views: tuple[View, ...], rooms_mm: tuple[tuple[float, float], ...]
) -> tuple[View, ...]:
    """Return the installers' drawings, each that is crowded followed by what lies behind its row at
    a large scale, in as many parts as the paper asks.

    Parameters
    ----------
    plan : Plan
        The plan.
    views : tuple of View
        The drawings of its rows, in the plan's order, after a key plan where there is one.
    rooms_mm : tuple of (float, float)
        Width and height of paper for each, the one that text stands on first. [mm]
    """
    if plan.decision.verdict == NOT_POSSIBLE:
        return views
    places = places_of(to_finish(plan))
    before = len(views) - len(places.rows)
    found = [*views[:before]]
    for row, view in zip(places.rows, views[before:], strict=True):
        found.append(view)
        if is_crowded(row, places, view.scale):
            found += _details(row, places, view.scale, rooms_mm)
    return tuple(found)


def is_crowded(row: SetRow, places: Places, scale: int) -> bool:
    """Return True where too much lies too near together to be told apart at a scale.

    Parameters
    ----------
    row : SetRow
        The row.
    places : Places
        What lies there, and the bends with letters.
    scale : int
        Of the row's drawing.
    """
    things = _things(row, places)
    near_m = _NEAR_MM * scale / 1000
    crowd = [
        one
        for one in things
        if any(other is not one and math.dist(one, other) < near_m for other in things)
    ]
    return len(crowd) >= _MANY


def _things(row: SetRow, places: Places) -> list[Point]:
    """Where tags, coils, supplies, units, letters and the feeds of cords stand."""
    cords = cords_of(places.plan, row)
    found = [cord.park_m for cord in cords if cord.park_m is not None]
    found += [(thing.x_m, thing.y_m) for thing in loose_of(places.plan, row)]
    found += [at for cord in cords for at in (_half_way(cord), cord.path_m[0])]
    for cord in cords:
        found += [at for at in places.bends_of(cord) if places.named(at, row)]
    return list(dict.fromkeys(found))


def _half_way(cord: Cord) -> Point:
    line = shapely.LineString(cord.path_m)
    at = shapely.line_interpolate_point(line, 0.5, normalized=True)
    return (at.x, at.y)


def _details(
    row: SetRow, places: Places, scale: int, rooms_mm: tuple[tuple[float, float], ...]
) -> tuple[View, ...]:
    """The drawings of the first way in which they fit, first of all on paper that lies as text
    does; none where that would be no larger than the row's own drawing."""
    units, whole = places.plan.spec.project.units, _whole(row, places.plan)
    large, small = FEET_SCALES if units in ("ft-in", "in") else METER_SCALES
    for room_mm in rooms_mm:
        for larger, most in ((large, 1), (large, 2), (small, 1), (small, 2), (small, 4)):
            widest_m = (room_mm[0] - 2 * _NAMES_MM) * larger / 1000
            deep_mm = whole.depth_m * 1000 / larger + 2 * _NAMES_MM
            count = math.ceil(whole.width_m / widest_m - 1e-9)
            if larger >= scale or count > most or deep_mm > room_mm[1]:
                continue
            parts = _parts(row, whole, widest_m, count)
            told = [f", part {n} of {count}" if count > 1 else "" for n in range(1, count + 1)]
            return tuple(
                _view(row, places, larger, part, words)
                for part, words in zip(parts, told, strict=True)
            )
    return ()


def _whole(row: SetRow, plan: Plan) -> Rect:
    """The floor on which the cords of a row lie, with the rear of its bases."""
    cords = cords_of(plan, row)
    points = [point for cord in cords for point in (*cord.path_m, *cord.tail_m)]
    for cord in cords:
        if cord.park_m is not None:
            (x, y), (wide, deep) = cord.park_m, cord.coil_m or (0.0, 0.0)
            points += [(x - wide / 2, y - deep / 2), (x + wide / 2, y + deep / 2)]
    points += [corner for thing in loose_of(plan, row) for corner in outline_of(thing)]
    names = {cord.from_ for cord in cords} | {cord.to for cord in cords}
    used = [one for one in row.stands if one.name in names]
    for one in used:
        deep_m = one.rear_m + (one.front_m - one.rear_m) * _DEEP_PART
        points += one.corners(one.rear_m, deep_m)
    xs, ys = [x for x, _ in points], [y for _, y in points]
    room = plan.spec.room
    return Rect(
        left_m=max(min(xs) - _AROUND_M, -_WALL_M),
        right_m=min(max(xs) + _AROUND_M, room.width_m + _WALL_M),
        back_m=max(min(ys) - _AROUND_M, -_WALL_M),
        front_m=max(ys) + _AROUND_M,
    )


def _parts(row: SetRow, whole: Rect, widest_m: float, count: int) -> tuple[Rect, ...]:
    """The floor in parts no wider than the paper, parted between chairs where one can be."""
    seams = [(one.x_m + other.x_m) / 2 for one, other in pairwise(row.stands)]
    cuts = [whole.left_m]
    for number in range(1, count):
        even_m = whole.left_m + whole.width_m * number / count
        near = [
            at
            for at in seams
            if cuts[-1] + _AROUND_M < at <= cuts[-1] + widest_m
            and whole.right_m - at <= (count - number) * widest_m
        ]
        cuts.append(min(near, key=lambda at: abs(at - even_m), default=even_m))
    return tuple(
        Rect(left_m=left, right_m=right, back_m=whole.back_m, front_m=whole.front_m)
        for left, right in pairwise((*cuts, whole.right_m))
    )


def _view(row: SetRow, places: Places, scale: int, window: Rect, part: str) -> View:
    plan = places.plan
    sketch = Sketch(scale, window, local_of(plan))
    cords = cords_of(plan, row)
    _draw_pinch(sketch, row, plan)
    draw_walls(sketch, plan)
    draw_floor(sketch, plan, framing=False, apart=(row.swept,))
    draw_reclined(sketch, row)
    draw_upright(sketch, row)
    sketch.line((row.chalk.left, row.chalk.right), "chalk")
    _name(sketch, row)
    draw_feeds(sketch, plan, row, cords)
    draw_loose(sketch, plan, row)
    draw_slack(sketch, plan, cords)
    draw_cords(sketch, cords, tag_numbers(plan), cut=True)
    draw_bends(sketch, row, places)
    word = lay_word(plan)
    title = f"Behind row {row.id}, larger{part}{f'. {word}' if word else ''}"
    return sketch.view(
        title,
        f"What lies behind row {row.id} from above, screen at the top: {plural(len(cords), 'cord')}"
        ". Every cord is also in the table of cord bags.",
    )


def _draw_pinch(sketch: Sketch, row: SetRow, plan: Plan) -> None:
    """Hatch pinch zones as far as the window goes."""
    names = {chair.id for chair in row.chairs}
    window = polygon(sketch.window.outline)
    for zone in plan.zones:
        if zone.kind != "pinch" or zone.chair not in names:
            continue
        for piece in shapely.get_parts(shapely.intersection(polygon(zone.outline_m), window)):
            if piece.geom_type == "Polygon" and piece.area > 0.0:
                outline = tuple((x, y) for x, y in piece.exterior.coords[:-1])
                sketch.fill(outline, "pinch", spacing_mm=1.5)


def _name(sketch: Sketch, row: SetRow) -> None:
    """The name of each chair and table in sight, near the front of what is seen of it."""
    for one in row.stands:
        deep_m = one.rear_m + (one.front_m - one.rear_m) * (_DEEP_PART - 0.1)
        spots = [one.at(side * one.width_m / 4, deep_m) for side in (0.0, 1.0, -1.0)]
        seen = [at for at in spots if sketch.sees(at)]
        if seen:
            sketch.label(f"chair {one.name}", (one.name,), seen, on=True, height_mm=2.2, home=True)
