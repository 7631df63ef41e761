"""Chairs from above: upright, and where they reach when they recline."""

from __future__ import annotations

from powerplan.model.geometry import Point, Rect
from powerplan.sheets.drawings.sketch import Sketch
from powerplan.sheets.pages.print_rows import SetRow
from powerplan.sheets.stands import Stand

_BACK_PART = 0.3


def draw_upright(sketch: Sketch, row: SetRow) -> None:
    """Draw a row upright: the bases as one, a line at each side of a cushion, and the backs."""
    if row.plain:
        _draw_as_one(sketch, row)
    for one in row.stands:
        if not row.plain:
            sketch.line(one.base, "chair", closed=True)
        if one.seat is not None:
            half_m = one.seat.seat_width_m / 2
            deep_m = one.seat.depth_m * _BACK_PART
            back = ((-half_m, deep_m), (-half_m, 0.0), (half_m, 0.0), (half_m, deep_m))
            sketch.line([one.at(*corner) for corner in back], "chair", closed=True)


def _draw_as_one(sketch: Sketch, row: SetRow) -> None:
    base = Rect(left_m=row.left_m, right_m=row.right_m, back_m=row.line_m, front_m=row.front_m)
    sketch.line(base.outline, "chair", closed=True)
    half = row.kind.seat_width_m / 2
    sides = {round(chair.x_m + side, 6) for chair in row.chairs for side in (-half, half)}
    for x_m in sorted(sides):
        if row.left_m < x_m < row.right_m:
            sketch.line(((x_m, row.line_m), (x_m, row.front_m)), "chair")


def draw_reclined(sketch: Sketch, row: SetRow) -> None:
    """Draw how far each chair of a row reaches behind and ahead when it reclines."""
    for one in row.stands:
        if one.seat is None:
            continue
        half_m, kind = one.seat.seat_width_m / 2, one.seat
        for near, far in ((0.0, -kind.back_travel_m), (kind.depth_m, kind.reclined_reach_m)):
            ends = ((-half_m, near), (-half_m, far), (half_m, far), (half_m, near))
            sketch.line([one.at(*end) for end in ends], "reclined")


def name_chairs(sketch: Sketch, row: SetRow) -> None:
    """Write each chair's name in it, near its front, and each table's."""
    for one in row.stands:
        key = f"table {row.id} {one.name}" if one.seat is None else f"chair {one.name}"
        sketch.label(key, (one.name,), _inside(one), on=True, home=True)


def _inside(one: Stand) -> list[Point]:
    deep = one.front_m - one.rear_m
    if one.seat is None:
        return [one.at(0.0, one.rear_m + deep * part) for part in (0.5, 0.66, 0.34)]
    aside = one.seat.seat_width_m / 4
    spots = ((0.0, 0.84), (-1, 0.84), (1, 0.84), (0, 0.66), (-1, 0.66), (1, 0.66), (0, 0.2))
    return [one.at(side * aside, one.rear_m + deep * part) for side, part in spots]
