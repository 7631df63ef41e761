"""Chairs from above: upright, and where they reach when they recline."""

from __future__ import annotations

from powerplan.model.geometry import Point, Rect
from powerplan.sheets.drawings.sketch import Sketch
from powerplan.sheets.pages.print_rows import SetRow

_BACK_PART = 0.3


def draw_upright(sketch: Sketch, row: SetRow) -> None:
    """Draw a row upright: the bases as one, a line at each side of a cushion, and the backs."""
    for one in row.others:
        kind, half = one.kind, one.kind.seat_width_m / 2
        around = one.outline(one.half_m, kind.rear_of_base_m, kind.depth_m)
        sketch.line(around, "chair", closed=True)
        sketch.line(one.outline(half, 0.0, kind.depth_m * _BACK_PART), "chair", closed=True)
    if row.others:
        return
    base = Rect(left_m=row.left_m, right_m=row.right_m, back_m=row.line_m, front_m=row.front_m)
    sketch.line(base.outline, "chair", closed=True)
    half = row.kind.seat_width_m / 2
    sides = {round(chair.x_m + side, 6) for chair in row.chairs for side in (-half, half)}
    for x_m in sorted(sides):
        if row.left_m < x_m < row.right_m:
            sketch.line(((x_m, row.line_m), (x_m, row.front_m)), "chair")
    for chair in row.chairs:
        deep = row.kind.depth_m * _BACK_PART
        back = ((-half, deep), (-half, 0.0), (half, 0.0), (half, deep))
        sketch.line([(chair.x_m + x, chair.y_m + y) for x, y in back], "chair", closed=True)


def draw_reclined(sketch: Sketch, row: SetRow) -> None:
    """Draw how far each chair of a row reaches behind and ahead when it reclines."""
    for one in row.others:
        wide, kind = one.kind.seat_width_m / 2, one.kind
        for near, far in ((0.0, -kind.back_travel_m), (kind.depth_m, kind.reclined_reach_m)):
            ends = ((-wide, near), (-wide, far), (wide, far), (wide, near))
            sketch.line([one.at(x, y) for x, y in ends], "reclined")
    if row.others:
        return
    half = row.kind.seat_width_m / 2
    for chair in row.chairs:
        back_m = chair.y_m - row.kind.back_travel_m
        front_m = chair.y_m + row.kind.reclined_reach_m
        for near, far in ((chair.y_m, back_m), (row.front_m, front_m)):
            sides = ((-half, near), (-half, far), (half, far), (half, near))
            sketch.line([(chair.x_m + x, y) for x, y in sides], "reclined")


def name_chairs(sketch: Sketch, row: SetRow) -> None:
    """Write each chair's name in it, near its front."""
    for chair in row.chairs:
        sketch.label(f"chair {chair.id}", (chair.id,), _inside(row, chair.x_m), on=True, home=True)


def _inside(row: SetRow, x_m: float) -> list[Point]:
    deep = row.front_m - row.line_m
    aside = row.kind.seat_width_m / 4
    spots = ((0.0, 0.84), (-1, 0.84), (1, 0.84), (0, 0.66), (-1, 0.66), (1, 0.66), (0, 0.2))
    return [(x_m + side * aside, row.line_m + deep * part) for side, part in spots]
