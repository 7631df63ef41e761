"""The lines that installers snap, the order in which they set chairs, and the walls in sight."""

from __future__ import annotations

import math

from powerplan.model.geometry import Point
from powerplan.model.lengths import length_text
from powerplan.model.plan import Plan
from powerplan.model.spec import Wall
from powerplan.sheets.chalk import marks_on
from powerplan.sheets.drawings.measures import STEP_MM, Datum, Mark, measure
from powerplan.sheets.drawings.room import WALL_MM, clear_of_doors
from powerplan.sheets.drawings.sketch import Sketch
from powerplan.sheets.drawings.symbols import arrow, number
from powerplan.sheets.fonts import text_width_mm
from powerplan.sheets.levels import faces
from powerplan.sheets.off_walls import from_back, from_left
from powerplan.sheets.pages.print_rows import SetRow, outward
from powerplan.sheets.pages.print_taped import on_floor_of, two_walls
from powerplan.sheets.scene import Text
from powerplan.sheets.stands import Stand
from powerplan.sheets.words import from_wall, wall_name

_PAST_MM = 5.0
_END_MM = 2.5
_ARROW_MM = 6.0
_NAME_MM = 4.5
_NAME_HIGH_MM = 2.2
_FRONT_MM = 3.6
_STOP_MM = 8.0
_TICK_MM = 1.2
_TABLE_HIGH_MM = 1.8
_ENDS = ("left end", "right end")
_STOP = ("NOT POSSIBLE AS DRAWN", "DO NOT SET OUT")


def draw_order(sketch: Sketch, row: SetRow) -> None:
    """Number what stands in a row in the order it is set, from the middle outward, and name it."""
    for turn, one in enumerate(outward(row), 1):
        if one.seat is None:
            _order_of_table(sketch, one, turn)
        elif row.plain:
            _order_along(sketch, one, turn)
        else:
            _order_of_chair(sketch, one, turn)


def _order_along(sketch: Sketch, one: Stand, turn: int) -> None:
    """The number and the name of a chair side by side, near the front of a row of one kind."""
    assert one.seat is not None
    inset, deep = sketch.meters(_FRONT_MM), one.front_m - one.rear_m
    aside = one.seat.seat_width_m / 4
    number(sketch, one.at(-aside, one.front_m - inset), turn)
    anchors = [one.at(aside, one.front_m - inset)]
    anchors += [
        one.at(side * aside, one.rear_m + deep * part)
        for side, part in ((0, 0.6), (1, 0.6), (-1, 0.6), (0, 0.45), (1, 0.45), (-1, 0.45))
    ]
    if sketch.meters(text_width_mm(one.name, _NAME_HIGH_MM)) < 2 * aside - sketch.meters(1.0):
        high = _NAME_HIGH_MM
        name = Text(at=anchors[0], words=one.name, layer="text", height_mm=high, mask=True)
        sketch.words(name)
        return
    label = f"chair {one.name}"
    sketch.label(label, (one.name,), anchors, on=True, height_mm=_NAME_HIGH_MM, home=True)


def _order_of_chair(sketch: Sketch, one: Stand, turn: int) -> None:
    """The same in a row of several kinds, or one that is turned or curved."""
    assert one.seat is not None
    deep, aside = one.seat.depth_m, one.seat.seat_width_m / 4
    number(sketch, one.at(-aside, deep * 0.8), turn)
    anchors = [one.at(side * aside, deep * part) for side, part in ((1, 0.8), (0, 0.6))]
    label = f"chair {one.name}"
    sketch.label(label, (one.name,), anchors, on=True, height_mm=_NAME_HIGH_MM, home=True)


def _order_of_table(sketch: Sketch, one: Stand, turn: int) -> None:
    """The number of a table in it, its name in it or beside it."""
    deep = one.front_m - one.rear_m
    number(sketch, one.at(0.0, one.front_m - sketch.meters(_FRONT_MM)), turn)
    anchors = [one.at(0.0, one.rear_m + deep * part) for part in (0.4, 0.5, 0.3)]
    label = f"table {one.name}"
    sketch.label(label, (one.name,), anchors, on=True, height_mm=_TABLE_HIGH_MM, home=True)


def draw_stop(sketch: Sketch, row: SetRow) -> None:
    """Write over a row that nobody sets it out."""
    middle = ((row.left_m + row.right_m) / 2, row.front_m + sketch.meters(_STOP_MM))
    sketch.label("stop", _STOP, (middle,), on=True, height_mm=3.0, home=True)


def draw_chalk(sketch: Sketch, plan: Plan, row: SetRow) -> None:
    """Draw the chalk line with its ends, and the arc over it where the row stands on one; measured
    from the walls, or with the measures in words."""
    past, end = sketch.meters(_PAST_MM), sketch.meters(_END_MM)
    chalk = row.chalk
    tips = (chalk.at(-past, 0.0), chalk.at(chalk.length_m + past, 0.0))
    sketch.line(tips, "chalk", cut=False)
    for along_m in (0.0, chalk.length_m):
        sketch.line((chalk.at(along_m, -end), chalk.at(along_m, end)), "chalk", cut=False)
    if row.square:
        _line_from_back(sketch, plan, row, tips)
        _ends_from_left(sketch, plan, row)
        return
    if row.curved:
        _arc(sketch, plan, row)
    else:
        sketch.label("chalk line", ("chalk line:", "rear of bases"), tips, clear_mm=0.5)
    for name, at, tip in zip(_ENDS, (chalk.left, chalk.right), tips, strict=True):
        words = two_walls(on_floor_of(row, at), plan)
        # narrow, so that it has room beside the row and not only on it
        lines = (part for told in words for part in told.replace(" from ", "\nfrom ").split("\n"))
        sketch.label(f"{name} of the line", (f"{name}:", *lines), (tip, at), clear_mm=2.7)


def _arc(sketch: Sketch, plan: Plan, row: SetRow) -> None:
    """The chalk arc, a tick at each of its marks, and its radius in words."""
    assert row.row.curve is not None
    chalk, tick = row.chalk, sketch.meters(_TICK_MM)
    stations = chalk.stations()
    sketch.line(stations, "chalk_arc", cut=False)
    for mark in marks_on(row.stands, row.row.curve):
        (x, y), (mid_x, mid_y) = mark.at, chalk.middle
        away_m = math.dist(mark.at, chalk.middle)
        over = ((x - mid_x) / away_m * tick, (y - mid_y) / away_m * tick)
        ends = ((x - over[0], y - over[1]), (x + over[0], y + over[1]))
        sketch.line(ends, "chalk_arc", cut=False)
    radius = length_text(chalk.radius_m or 0.0, plan.spec.project.units)
    lines = ("chalk arc,", f"radius {radius}")
    sketch.label("chalk arc", lines, (stations[0], stations[-1]), clear_mm=0.5)


def _line_from_back(sketch: Sketch, plan: Plan, row: SetRow, tips: tuple[Point, Point]) -> None:
    units, (tip, y_m) = plan.spec.project.units, tips[0]
    words = from_back(plan.spec.room, y_m, units)
    lines: tuple[str, ...] = ("chalk line:", "rear of bases")
    if sketch.window.back_m < 0:
        first = min(0.0, sketch.window.left_m) - sketch.meters(_NAME_MM + STEP_MM)
        measure(sketch, Datum("y", 0.0, tip, first, -1.0), [Mark(y_m, tip, words)])
    else:
        arrow(sketch, tips[0], (tip, y_m - sketch.meters(_ARROW_MM)), "dimension")
        lines = ("chalk line:", words, from_wall(plan.spec.room, Wall.BACK))
        place = on_floor_of(row, row.middle_of_line)
        face = faces(plan, place.seen)[Wall.BACK]
        if not face.is_wall:
            lines = (*lines, f"or {length_text(y_m - face.at_m, units)}", f"from {face.words}")
    sketch.label("chalk line", lines, tips, clear_mm=0.5)


def _ends_from_left(sketch: Sketch, plan: Plan, row: SetRow) -> None:
    """The ends from the left wall, or from the edge of a riser where a step lies between."""
    units, y_m = plan.spec.project.units, row.chalk.left[1]
    places = (row.chalk.left, row.chalk.right)
    left, right = (faces(plan, on_floor_of(row, end).seen)[Wall.LEFT] for end in places)
    edge = None if left.is_wall or left != right else left
    from_m, wall = (0.0, from_wall(plan.spec.room, Wall.LEFT))
    if edge is not None:
        from_m, wall = edge.at_m, f"from {edge.words}"
    ends = [
        Mark(x_m, y_m, from_left(plan.spec.room, x_m, units))
        if edge is None
        else Mark(x_m, y_m, length_text(x_m - from_m, units))
        for x_m, _ in places
    ]
    if sketch.window.left_m < from_m:
        below = min(0.0, sketch.window.back_m) - sketch.meters(_NAME_MM + STEP_MM * 0.6)
        if sketch.window.back_m >= 0:
            below = sketch.window.back_m - sketch.meters(STEP_MM)
        foot = 0.0 if sketch.window.back_m < 0 and edge is None else y_m
        measure(sketch, Datum("x", from_m, foot, below, -1.0), ends)
        return
    for name, mark in zip(_ENDS, ends, strict=True):
        key = f"{name} of the line"
        sketch.label(key, (f"{name}:", mark.words, wall), ((mark.at, y_m),), clear_mm=2.7)


def name_walls(sketch: Sketch, plan: Plan) -> None:
    """Write the name of each wall in sight along it, and where the screen is."""
    room, window = plan.spec.room, sketch.window
    away = sketch.meters(WALL_MM + _NAME_MM / 2)
    across = (max(0.0, window.left_m), min(room.width_m, window.right_m))
    deep = (max(0.0, window.back_m), min(room.depth_m, window.front_m))

    def along(wall: Wall, ends: tuple[float, float]) -> float:
        half_mm = text_width_mm(wall_name(room, wall), _NAME_HIGH_MM) / 2
        return clear_of_doors(plan, wall, ends, sketch.meters(half_mm + 1.0))

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
