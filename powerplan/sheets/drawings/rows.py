"""The installers' drawings: each row large enough to read, and a key plan of several rows."""

from __future__ import annotations

from functools import cache

from powerplan.model.geometry import Rect
from powerplan.model.lengths import joined, plural
from powerplan.model.plan import NOT_POSSIBLE, Cord, Plan
from powerplan.model.spec import Wall
from powerplan.sheets.drawings.chairs import draw_reclined, draw_upright, name_chairs
from powerplan.sheets.drawings.key_plan import key_view
from powerplan.sheets.drawings.loose import draw_loose, loose_of, outline_of
from powerplan.sheets.drawings.lying import (
    cords_of,
    draw_bends,
    draw_cords,
    draw_feeds,
    draw_pinch,
    draw_slack,
)
from powerplan.sheets.drawings.room import draw_floor, draw_walls
from powerplan.sheets.drawings.row_lines import draw_chalk, draw_order, draw_stop, name_walls
from powerplan.sheets.drawings.scales import row_scales
from powerplan.sheets.drawings.sketch import Sketch
from powerplan.sheets.local import local_of
from powerplan.sheets.off_walls import from_back, to_finish
from powerplan.sheets.pages.print_rows import SetRow
from powerplan.sheets.pages.print_tags import JOINT, tag_numbers
from powerplan.sheets.pages.print_told import Places, places_of
from powerplan.sheets.scene import View
from powerplan.sheets.words import from_wall, lay_word

_AROUND_M = 0.15
_WALL_M = 0.12
_MARGIN_MM = (30.0, 26.0)


def cord_views(
    plan: Plan, room_mm: tuple[float, float], turned_mm: tuple[float, float] | None = None
) -> tuple[View, ...]:
    """Return a drawing of each row with its cords, after a key plan where there are several.

    A row is drawn at the largest of its scales at which it fits the paper one way or the other; one
    that fits at none is drawn at the smallest and split by whoever sets it on paper. Where the job
    is not possible as drawn the rows are shown as they would stand, and say so.

    Parameters
    ----------
    plan : Plan
        The plan.
    room_mm : tuple of float
        Width and height of paper for each. [mm]
    turned_mm : tuple of float, optional
        The same for the paper lying the other way. [mm]
    """
    plan = to_finish(plan)
    places = places_of(plan)
    rows = places.rows
    rooms_mm = (room_mm,) if turned_mm is None else (room_mm, turned_mm)
    views = tuple(_row_view(places, row, rooms_mm) for row in rows)
    return views if len(rows) < 2 else (key_view(plan, rows, room_mm), *views)


def _row_view(places: Places, row: SetRow, rooms_mm: tuple[tuple[float, float], ...]) -> View:
    plan = places.plan
    core = _core(plan, row)
    *larger, small = row_scales(plan.spec.project.units)

    @cache
    def sketched(scale: int, window: Rect) -> Sketch:
        return _sketched(places, row, scale, window)

    @cache
    def viewed(scale: int, window: Rect) -> View:
        return _viewed(sketched(scale, window), plan, row)

    for scale in larger:
        for room_mm in rooms_mm:
            for window in (_with_walls(plan, core, scale, room_mm), core):
                if _may_fit(window, scale, room_mm) and (
                    _is_within(sketched(scale, window).least_mm, room_mm)
                    and _is_within(viewed(scale, window).size_mm, room_mm)
                ):
                    return viewed(scale, window)
    return viewed(small, _with_walls(plan, core, small, rooms_mm[0]))


def _may_fit(window: Rect, scale: int, room_mm: tuple[float, float]) -> bool:
    """False where the floor alone is too large for the paper."""
    return _is_within((window.width_m * 1000 / scale, window.depth_m * 1000 / scale), room_mm)


def _is_within(size_mm: tuple[float, float], room_mm: tuple[float, float]) -> bool:
    return size_mm[0] <= room_mm[0] and size_mm[1] <= room_mm[1]


def _core(plan: Plan, row: SetRow) -> Rect:
    """The floor that a row's drawing must show: the row, reclined, its cords and what they feed."""
    cords = cords_of(plan, row)
    points = [point for cord in cords for point in (*cord.path_m, *cord.tail_m)]
    points += [cord.park_m for cord in cords if cord.park_m is not None]
    points += [corner for thing in loose_of(plan, row) for corner in outline_of(thing)]
    swept = row.swept
    xs = [swept.left_m, swept.right_m, *(x for x, _ in points)]
    ys = [swept.back_m, swept.front_m, *(y for _, y in points)]
    return Rect(
        left_m=min(xs) - _AROUND_M,
        right_m=max(xs) + _AROUND_M,
        back_m=min(ys) - _AROUND_M,
        front_m=max(ys) + _AROUND_M,
    )


def _with_walls(plan: Plan, core: Rect, scale: int, room_mm: tuple[float, float]) -> Rect:
    """The window, reaching to each wall that can be had without leaving the paper."""
    room = plan.spec.room
    sides = [core.left_m, core.right_m, core.back_m, core.front_m]
    walls = (-_WALL_M, room.width_m + _WALL_M, -_WALL_M, room.depth_m + _WALL_M)
    most_w = (room_mm[0] - _MARGIN_MM[0]) * scale / 1000
    most_d = (room_mm[1] - _MARGIN_MM[1]) * scale / 1000
    for side, outward in ((2, -1), (0, -1), (1, 1)):
        wider = list(sides)
        wider[side] = (
            min(sides[side], walls[side]) if outward < 0 else max(sides[side], walls[side])
        )
        if wider[1] - wider[0] <= most_w and wider[3] - wider[2] <= most_d:
            sides = wider
    return Rect(left_m=sides[0], right_m=sides[1], back_m=sides[2], front_m=sides[3])


def _sketched(places: Places, row: SetRow, scale: int, window: Rect) -> Sketch:
    plan = places.plan
    sketch = Sketch(scale, window, local_of(plan))
    cords = cords_of(plan, row)
    draw_pinch(sketch, plan, row)
    draw_walls(sketch, plan)
    draw_floor(sketch, plan, framing=False, apart=(row.swept,))
    draw_reclined(sketch, row)
    draw_upright(sketch, row)
    if plan.decision.verdict == NOT_POSSIBLE:
        name_chairs(sketch, row)
    else:
        draw_order(sketch, row)
    draw_feeds(sketch, plan, row, cords)
    draw_loose(sketch, plan, row)
    draw_slack(sketch, plan, cords)
    draw_cords(sketch, cords, tag_numbers(plan))
    draw_bends(sketch, row, places)
    draw_chalk(sketch, plan, row)
    name_walls(sketch, plan)
    if plan.decision.verdict == NOT_POSSIBLE:
        draw_stop(sketch, row)
    return sketch


def _viewed(sketch: Sketch, plan: Plan, row: SetRow) -> View:
    cords = cords_of(plan, row)
    if plan.decision.verdict == NOT_POSSIBLE:
        title = f"Row {row.id} as it would stand. NOT POSSIBLE AS DRAWN: DO NOT SET OUT"
        return sketch.view(title, _description(plan, row, cords))
    word = lay_word(plan)
    title = f"Row {row.id} and its cords{f'. {word}' if word else ''}"
    return sketch.view(title, _description(plan, row, cords))


def _description(plan: Plan, row: SetRow, cords: tuple[Cord, ...]) -> str:
    units = plan.spec.project.units
    line = from_back(plan.spec.room, row.line_m, units)
    feeds = tuple(dict.fromkeys(c.from_ for c in cords if JOINT not in c.from_))
    fed = f"fed from {joined(feeds)}" if feeds else "with no cord"
    return (
        f"Row {row.id} from above, screen at the top: {plural(len(row.chairs), 'chair')}, the "
        f"{'' if row.square else 'rearmost '}rear of the bases {line} "
        f"{from_wall(plan.spec.room, Wall.BACK)}, {fed}; "
        f"{plural(len(cords), 'cord')}. Every cord is also in the table of cord bags."
    )
