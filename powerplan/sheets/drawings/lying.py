"""What lies on the floor of a row: pinch zones, feeds, cords, joints and spare."""

from __future__ import annotations

import math
from itertools import pairwise

from powerplan.engineering.seating.frames import Outline, covers, upright
from powerplan.model.geometry import Point, Rect
from powerplan.model.lengths import joined, micrometers
from powerplan.model.plan import Cord, Plan
from powerplan.sheets.drawings.outlets import draw_outlets
from powerplan.sheets.drawings.sketch import Sketch
from powerplan.sheets.drawings.symbols import (
    BOX_MM,
    OUTLET_MM,
    dot,
    floor_box,
    joint,
    outlet,
    slack,
    spare,
)
from powerplan.sheets.drawings.tags import leaving, tag_anchors, tagged_stretches
from powerplan.sheets.pages.print_rows import SetRow
from powerplan.sheets.pages.print_spare import Lies, lies
from powerplan.sheets.pages.print_tags import bag_of, tag_text
from powerplan.sheets.pages.print_told import Places

_END_MM = 0.9
_BELOW_MM = 5.2
_SLACK_PART = 0.35
_MESH_MM, _MESH_WEIGHT = 6.0, 6.0
_LAYERS = {"own": "cord", "link": "link", "extension": "extension"}


def draw_pinch(sketch: Sketch, plan: Plan, row: SetRow) -> None:
    """Hatch the pinch zones of a row; what is clear stays white. Labels had better not blank it."""
    names = {chair.id for chair in row.chairs}
    for zone in plan.zones:
        if zone.kind == "pinch" and zone.chair in names:
            xs, ys = zip(*zone.outline_m, strict=True)
            rect = Rect(left_m=min(xs), right_m=max(xs), back_m=min(ys), front_m=max(ys))
            if row.plain:
                sketch.hatch(rect, "pinch")
            else:
                sketch.fill(zone.outline_m, "pinch", spacing_mm=1.5)
            _keep_hatched(sketch, rect, zone.outline_m)


def _keep_hatched(sketch: Sketch, rect: Rect, outline: Outline) -> None:
    """Make it costly for a label to stand on a hatched outline, wherever in it."""
    step = sketch.meters(_MESH_MM)
    whole = upright(outline) is not None
    across = max(1, math.ceil(rect.width_m / step))
    deep = max(1, math.ceil(rect.depth_m / step))
    for column in range(across):
        for line in range(deep):
            left, back = rect.left_m + column * step, rect.back_m + line * step
            cell = Rect(
                left_m=left,
                right_m=min(left + step, rect.right_m),
                back_m=back,
                front_m=min(back + step, rect.front_m),
            )
            if whole or covers(outline, cell.middle):
                sketch.avoid(cell, _MESH_WEIGHT)


def draw_feeds(sketch: Sketch, plan: Plan, row: SetRow, cords: tuple[Cord, ...]) -> None:
    """Draw every outlet that is in sight, and the new ones of the row."""
    names = {chair.id for chair in row.chairs} | {cord.from_ for cord in cords}
    for box in plan.boxes:
        at = (box.x_m, box.y_m)
        if (box.under not in names and box.id not in names) or not sketch.sees(at):
            continue
        if box.kind == "floor box":
            floor_box(sketch, at)
            sketch.label(box.id, (box.id,), (at,), clear_mm=BOX_MM + 0.4)
        else:
            outlet(sketch, at)
            sketch.label(box.id, (box.id,), (at,), clear_mm=OUTLET_MM + 0.8)
    draw_outlets(sketch, plan, for_plugs=True)


def draw_slack(sketch: Sketch, plan: Plan, cords: tuple[Cord, ...]) -> None:
    """Draw where cords lie in gentle bends that are a little longer than their ways.

    Parameters
    ----------
    sketch : Sketch
        The drawing.
    plan : Plan
        For the numbers.
    cords : tuple of Cord
        The cords that are drawn.
    """
    for cord in cords:
        if lies(cord, plan) is not Lies.ALONG:
            continue
        pieces = (*pairwise(cord.path_m), (cord.path_m[0], cord.path_m[0]))
        start, end = max(pieces, key=lambda piece: math.dist(*piece))
        right, ahead = end[0] - start[0], end[1] - start[1]
        at = (start[0] + right * _SLACK_PART, start[1] + ahead * _SLACK_PART)
        if sketch.sees(at):
            slack(sketch, at, math.atan2(ahead, right))


def cords_of(plan: Plan, row: SetRow) -> tuple[Cord, ...]:
    """Return the cords in the bags of a row's chairs: all that lies on the way to them."""
    names = {chair.id for chair in row.chairs}
    return tuple(cord for cord in plan.cords if bag_of(cord, plan) in names)


def draw_cords(
    sketch: Sketch, cords: tuple[Cord, ...], numbers: dict[str, int], *, cut: bool = False
) -> None:
    """Draw cords with the numbers on their tags, their joints, and where their spare is coiled.

    Parameters
    ----------
    sketch : Sketch
        The drawing.
    cords : tuple of Cord
        The cords to draw.
    numbers : dict
        The number on each cord's tag, by its id.
    cut : bool
        True to draw no more of them than the window shows.
    """
    for cord in cords:
        for path in (cord.path_m, cord.tail_m):
            if len(path) > 1:
                sketch.line(path, _LAYERS.get(cord.kind, "cord"), cut=cut)
        for end in (cord.path_m[0], cord.path_m[-1]):
            sketch.keep_free(sketch.about(end, _END_MM))
        if cut and not sketch.sees(cord.path_m[-1]):
            continue
        if cord.kind == "extension":
            joint(sketch, cord.path_m[-1])
            sketch.label(f"joint {cord.to}", ("joint",), cord.path_m[-1:], clear_mm=1.0)
        else:
            dot(sketch, cord.path_m[-1], "cord")
    _draw_tags(sketch, cords, numbers, cut=cut)
    for at, parked in _parked(cords).items():
        if not cut or sketch.sees(at):
            _draw_coil(sketch, at, parked, numbers)


def _draw_tags(
    sketch: Sketch, cords: tuple[Cord, ...], numbers: dict[str, int], *, cut: bool
) -> None:
    """Write the numbers of cords along them: once where a cord lies alone, once where several lie
    on one line, and where one leaves the drawing."""
    mm_per_m = 1000 / sketch.scale
    whole = {cord.id: cord.path_m for cord in sorted(cords, key=lambda one: numbers[one.id])}
    seen = [
        (cord.id, path)
        for cord in cords
        for path in (sketch.seen(cord.path_m) if cut else (cord.path_m,))
    ]
    tagged = tagged_stretches(seen, whole, mm_per_m)
    told = [("", one) for one in tagged]
    if cut:
        left = leaving(seen, whole, tagged, mm_per_m)
        told += [(f" leaves {turn}", one) for turn, one in enumerate(left)]
    for where, one in told:
        others = [path for name, path in whole.items() if name not in one.cords]
        tags = [str(numbers[name]) for name in one.cords]
        words = tag_text(numbers[one.cords[0]]) if len(tags) == 1 else f"cords {joined(tags)}"
        anchors = tag_anchors(one.path, others, mm_per_m)
        key = f"cord {' '.join(one.cords)}{where}"
        sketch.label(key, (words,), anchors, clear_mm=0.4, on=True)


def _draw_coil(sketch: Sketch, at: Point, parked: list[Cord], numbers: dict[str, int]) -> None:
    wide, deep = parked[0].coil_m or (0.0, 0.0)
    spare(sketch, at, (wide, deep))
    sketch.reach((at[0], at[1] - deep / 2 - sketch.meters(_BELOW_MM)))
    ends = [at, *((at[0] + side * wide / 2, at[1]) for side in (-1, 1))]
    told = joined([str(number) for number in sorted(numbers[cord.id] for cord in parked)])
    lines = (f"coil {told}",)
    clear_mm = max(1.6, deep * 500 / sketch.scale + 0.4)
    sketch.label(f"spare {parked[0].id}", lines, ends, clear_mm=clear_mm, height_mm=1.8)


def draw_bends(sketch: Sketch, row: SetRow, places: Places) -> None:
    """Write its letter at each bend that has one.

    Parameters
    ----------
    sketch : Sketch
        The drawing.
    row : SetRow
        The row.
    places : Places
        The letters of bends.
    """
    drawn = set()
    for cord in cords_of(places.plan, row):
        for at in places.bends_of(cord):
            name = places.named(at, row)
            if name is None or name in drawn or not sketch.sees(at):
                continue
            drawn.add(name)
            letter = (name.removeprefix("bend "),)
            sketch.label(name, letter, (at,), clear_mm=0.7, height_mm=1.8)


def _parked(cords: tuple[Cord, ...]) -> dict[Point, list[Cord]]:
    """Each place where spare is parked, with the cords it is of."""
    places: dict[tuple[int, int], tuple[Point, list[Cord]]] = {}
    for cord in cords:
        if cord.park_m is not None:
            key = (micrometers(cord.park_m[0]), micrometers(cord.park_m[1]))
            places.setdefault(key, (cord.park_m, []))[1].append(cord)
    return dict(places.values())
