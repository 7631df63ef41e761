"""The lines that installers snap, the order in which they set chairs, and the walls in sight."""

from __future__ import annotations

from powerplan.model.geometry import Point
from powerplan.model.lengths import length_text
from powerplan.model.plan import Plan
from powerplan.model.spec import Wall
from powerplan.sheets.drawings.measures import STEP_MM, Datum, Mark, measure
from powerplan.sheets.drawings.room import WALL_MM, clear_of_doors
from powerplan.sheets.drawings.sketch import Sketch
from powerplan.sheets.drawings.symbols import arrow, number
from powerplan.sheets.fonts import text_width_mm
from powerplan.sheets.off_walls import from_back, from_left
from powerplan.sheets.pages.print_rows import SetRow, outward, riser_behind
from powerplan.sheets.scene import Text
from powerplan.sheets.words import from_wall, wall_name

_PAST_MM = 5.0
_END_MM = 2.5
_ARROW_MM = 6.0
_NAME_MM = 4.5
_NAME_HIGH_MM = 2.2
_FRONT_MM = 3.6
_STOP_MM = 8.0
_STOP = ("NOT POSSIBLE AS DRAWN", "DO NOT SET OUT")


def draw_order(sketch: Sketch, row: SetRow) -> None:
    """Number the chairs in the order they are set, from the middle outward, and name them."""
    inset, deep = sketch.metres(_FRONT_MM), row.front_m - row.line_m
    if row.others:
        _order_of_others(sketch, row)
        return
    for turn, chair in enumerate(outward(row), 1):
        aside = row.kind.seat_width_m / 4
        number(sketch, (chair.x_m - aside, row.front_m - inset), turn)
        anchors = [(chair.x_m + aside, row.front_m - inset)]
        anchors += [
            (chair.x_m + side * aside, row.line_m + deep * part)
            for side, part in ((0, 0.6), (1, 0.6), (-1, 0.6), (0, 0.45), (1, 0.45), (-1, 0.45))
        ]
        if sketch.metres(text_width_mm(chair.id, _NAME_HIGH_MM)) < 2 * aside - sketch.metres(1.0):
            sketch.words(
                Text(
                    at=anchors[0],
                    words=chair.id,
                    layer="text",
                    height_mm=_NAME_HIGH_MM,
                    mask=True,
                )
            )
            continue
        label = f"chair {chair.id}"
        sketch.label(label, (chair.id,), anchors, on=True, height_mm=_NAME_HIGH_MM, home=True)


def _order_of_others(sketch: Sketch, row: SetRow) -> None:
    """The same where each chair is set by its own measures."""
    placed = {one.chair.id: one for one in row.others}
    for turn, chair in enumerate(outward(row), 1):
        one = placed[chair.id]
        deep, aside = one.kind.depth_m, one.kind.seat_width_m / 4
        number(sketch, one.at(-aside, deep * 0.8), turn)
        anchors = [one.at(side * aside, deep * part) for side, part in ((1, 0.8), (0, 0.6))]
        label = f"chair {chair.id}"
        sketch.label(label, (chair.id,), anchors, on=True, height_mm=_NAME_HIGH_MM, home=True)


def draw_stop(sketch: Sketch, row: SetRow) -> None:
    """Write over a row that nobody sets it out."""
    middle = ((row.left_m + row.right_m) / 2, row.front_m + sketch.metres(_STOP_MM))
    sketch.label("stop", _STOP, (middle,), on=True, height_mm=3.0, home=True)


def draw_chalk(sketch: Sketch, plan: Plan, row: SetRow) -> None:
    """Draw the chalk line with its ends, measured from the walls or with the measures in words."""
    if row.others:
        return
    past, end = sketch.metres(_PAST_MM), sketch.metres(_END_MM)
    y_m = row.line_m
    sketch.line(((row.left_m - past, y_m), (row.right_m + past, y_m)), "chalk", cut=False)
    for x_m in (row.left_m, row.right_m):
        sketch.line(((x_m, y_m - end), (x_m, y_m + end)), "chalk", cut=False)
    _line_from_back(sketch, plan, row, (row.left_m - past, y_m))
    _ends_from_left(sketch, plan, row)


def _line_from_back(sketch: Sketch, plan: Plan, row: SetRow, tip: Point) -> None:
    words = from_back(plan.spec.room, row.line_m, plan.spec.project.units)
    lines: tuple[str, ...] = ("chalk line:", "rear of bases")
    if sketch.window.back_m < 0:
        first = min(0.0, sketch.window.left_m) - sketch.metres(_NAME_MM + STEP_MM)
        measure(sketch, Datum("y", 0.0, tip[0], first, -1.0), [Mark(row.line_m, tip[0], words)])
    else:
        down = (tip[0], tip[1] - sketch.metres(_ARROW_MM))
        arrow(sketch, tip, down, "dimension")
        lines = ("chalk line:", words, from_wall(plan.spec.room, Wall.BACK))
        riser = riser_behind(row, plan)
        if riser is not None:
            off = length_text(row.line_m - riser.rect.front_m, plan.spec.project.units)
            lines = (*lines, "or " + off, f"from riser {riser.id}")
    right = (row.right_m + sketch.metres(_PAST_MM), row.line_m)
    sketch.label("chalk line", lines, (tip, right), clear_mm=0.5)


def _ends_from_left(sketch: Sketch, plan: Plan, row: SetRow) -> None:
    units = plan.spec.project.units
    ends = [
        Mark(x_m, row.line_m, from_left(plan.spec.room, x_m, units))
        for x_m in (row.left_m, row.right_m)
    ]
    if sketch.window.left_m < 0:
        below = min(0.0, sketch.window.back_m) - sketch.metres(_NAME_MM + STEP_MM * 0.6)
        if sketch.window.back_m >= 0:
            below = sketch.window.back_m - sketch.metres(STEP_MM)
        foot = 0.0 if sketch.window.back_m < 0 else row.line_m
        measure(sketch, Datum("x", 0.0, foot, below, -1.0), ends)
        return
    wall = from_wall(plan.spec.room, Wall.LEFT)
    for name, mark in zip(("left end", "right end"), ends, strict=True):
        key = f"{name} of the line"
        sketch.label(key, (f"{name}:", mark.words, wall), ((mark.at, row.line_m),), clear_mm=2.7)


def name_walls(sketch: Sketch, plan: Plan) -> None:
    """Write the name of each wall in sight along it, and where the screen is."""
    room, window = plan.spec.room, sketch.window
    away = sketch.metres(WALL_MM + _NAME_MM / 2)
    across = (max(0.0, window.left_m), min(room.width_m, window.right_m))
    deep = (max(0.0, window.back_m), min(room.depth_m, window.front_m))

    def along(wall: Wall, ends: tuple[float, float]) -> float:
        half_mm = text_width_mm(wall_name(room, wall), _NAME_HIGH_MM) / 2
        return clear_of_doors(plan, wall, ends, sketch.metres(half_mm + 1.0))

    if window.back_m < 0:
        at = (along(Wall.BACK, across), -away)
        _name(sketch, wall_name(room, Wall.BACK), at, 0.0)
    if window.left_m < 0:
        at = (-away, along(Wall.LEFT, deep))
        _name(sketch, wall_name(room, Wall.LEFT), at, 90.0)
    if window.right_m > room.width_m:
        at = (room.width_m + away, along(Wall.RIGHT, deep))
        _name(sketch, wall_name(room, Wall.RIGHT), at, 90.0)
    top = (sum(across) / 2, max(deep[1], window.front_m) + away)
    _name(sketch, f"toward the {_screen(wall_name(room, Wall.SCREEN))}", top, 0.0)


def _screen(name: str) -> str:
    return name if "screen" in name.lower() else f"screen ({name})"


def _name(sketch: Sketch, words: str, at: Point, angle_deg: float) -> None:
    sketch.words(
        Text(
            at=at,
            words=words,
            layer="text",
            height_mm=_NAME_HIGH_MM,
            angle_deg=angle_deg,
            mask=True,
        )
    )
