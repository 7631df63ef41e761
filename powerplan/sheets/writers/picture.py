"""A text picture of the room: about to scale, screen at the top, plain ASCII, with a legend."""

from __future__ import annotations

from dataclasses import dataclass

from powerplan.model.geometry import Rect
from powerplan.model.lengths import length_text
from powerplan.model.plan import PlacedChair, Plan
from powerplan.model.spec import ChairKind, Door, Wall
from powerplan.sheets.placed import Placed, is_plain, placed_of
from powerplan.sheets.writers.canvas import Canvas
from powerplan.sheets.writers.outline_cells import draw_opening, draw_outside, wall_cell

WIDE = 78
_BOX, _WALL_OUTLET, _OUTLET, _CORD = "X", "@", "o", "*"
_RISER, _OBSTACLE, _WALKWAY, _DOOR, _RECLINED = ":", "#", "~", "=", "."
_OUTSIDE = "%"
_NAME = 24
_NAME_AHEAD = 0.7
_LISTED = 6
_LIGHT = " ~.:"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Drawn:
    """A row of chairs on the canvas: where it stands, and how its chairs are named."""

    chairs: tuple[PlacedChair, ...]
    rect: Rect
    reach: Rect


def picture_lines(plan: Plan) -> tuple[str, ...]:
    """Return the picture and its legend, no line wider than 78 columns."""
    room = plan.spec.room
    canvas = Canvas(room.width_m, room.depth_m)
    rows = _rows(plan)
    _draw_floor(canvas, plan, rows)
    for row in rows:
        _draw_row(canvas, row)
    others = [one for row in plan.spec.rows if not is_plain(row) for one in placed_of(plan, row)]
    _draw_others(canvas, others)
    for cord in plan.cords:
        canvas.path(cord.path_m, _CORD)
    named = [_name_chairs(canvas, row) for row in rows]
    for one in others:
        x_m, y_m = one.at(0.0, one.kind.depth_m * _NAME_AHEAD)
        name = _ascii(one.chair.id)
        canvas.text(canvas.line(y_m), canvas.column(x_m) - len(name) // 2, name)
    below, above = _draw_outlets(canvas, plan)
    _draw_boxes(canvas, plan, {_name_line(canvas, row) for row in rows})
    lines = [
        _ascii(room.screen_wall).center(canvas.wide + 2),
        *above,
        *canvas.lines,
        *below,
        *_wall_names(plan, canvas.wide + 2),
        "",
        *_legend(plan, canvas, named),
    ]
    return tuple(line.rstrip()[:WIDE] for line in lines)


def _rows(plan: Plan) -> tuple[_Drawn, ...]:
    kinds = {kind.id: kind for kind in plan.spec.chairs}
    plain = (row for row in plan.spec.rows if is_plain(row))
    chair_of = {row.id: kinds[row.chair] for row in plain if row.chair in kinds}
    names = dict.fromkeys(chair.row for chair in plan.chairs if chair.row in chair_of)
    rows = []
    for name in names:
        chairs = sorted((c for c in plan.chairs if c.row == name), key=lambda chair: chair.x_m)
        rows.append(_drawn(tuple(chairs), chair_of[name]))
    return tuple(rows)


def _drawn(chairs: tuple[PlacedChair, ...], kind: ChairKind) -> _Drawn:
    side_m = kind.seat_width_m / 2 + kind.arm_width_m
    left_m, right_m = chairs[0].x_m - side_m, chairs[-1].x_m + side_m
    y_m = chairs[0].y_m
    return _Drawn(
        chairs=chairs,
        rect=Rect(left_m=left_m, right_m=right_m, back_m=y_m, front_m=y_m + kind.depth_m),
        reach=Rect(
            left_m=left_m,
            right_m=right_m,
            back_m=y_m - kind.back_travel_m,
            front_m=y_m + kind.reclined_reach_m,
        ),
    )


def _draw_others(canvas: Canvas, others: list[Placed]) -> None:
    """Draw chairs of mixed, turned and curved rows one by one."""
    for one in others:
        reach = one.outline(one.half_m, -one.kind.back_travel_m, one.kind.reclined_reach_m)
        canvas.path((*reach, reach[0]), _RECLINED, over=" ~")
    for one in others:
        base = one.outline(one.half_m, 0.0, one.kind.depth_m)
        canvas.path((*base, base[0]), "+", over=_LIGHT)


def _draw_floor(canvas: Canvas, plan: Plan, rows: tuple[_Drawn, ...]) -> None:
    draw_outside(canvas, plan.spec.room, _OUTSIDE)
    for walkway in plan.spec.walkways:
        canvas.fill(walkway.rect, _WALKWAY, every=2)
    for riser in plan.spec.risers:
        canvas.outline(riser.rect, _RISER)
    for row in rows:
        canvas.outline(row.reach, _RECLINED, over=" ~")
    for obstacle in plan.spec.obstacles:
        canvas.fill(obstacle.rect, _OBSTACLE, over=_LIGHT)
    for door in plan.spec.doors:
        if plan.spec.room.walls:
            draw_opening(canvas, plan.spec.room, door, _DOOR)
        else:
            _draw_door(canvas, door)


def _draw_door(canvas: Canvas, door: Door) -> None:
    if door.wall in (Wall.BACK, Wall.SCREEN):
        line = canvas.tall + 1 if door.wall == Wall.BACK else 0
        for column in range(canvas.column(door.start_m), canvas.column(door.end_m) + 1):
            canvas.put(line, column, _DOOR)
        return
    column = 0 if door.wall == Wall.LEFT else canvas.wide + 1
    for line in range(canvas.line(door.end_m), canvas.line(door.start_m) + 1):
        canvas.put(line, column, _DOOR)


def _draw_row(canvas: Canvas, row: _Drawn) -> None:
    front, back = _ends(canvas, row)
    left, right = canvas.column(row.rect.left_m), canvas.column(row.rect.right_m)
    arms = {left, right}
    if _pitch(canvas, row) >= 3:
        for one, other in zip(row.chairs, row.chairs[1:], strict=False):
            arms.add(canvas.column((one.x_m + other.x_m) / 2))
    for line in range(front, back + 1):
        across = line in (front, back) and back - front >= 2
        for column in range(left, right + 1):
            if column in arms:
                canvas.put(line, column, "+" if across else "|", over=_LIGHT)
            else:
                canvas.put(line, column, "-" if across else " ", over=_LIGHT)


def _ends(canvas: Canvas, row: _Drawn) -> tuple[int, int]:
    """The line of a row's front and that of its back."""
    front, back = canvas.line(row.rect.front_m), canvas.line(row.rect.back_m)
    return min(front, back), max(front, back)


def _pitch(canvas: Canvas, row: _Drawn) -> float:
    """Columns from chair to chair; a row of one has its own width."""
    span_m = row.rect.right_m - row.rect.left_m
    return span_m / len(row.chairs) / canvas.width_m * canvas.wide


def _name_chairs(canvas: Canvas, row: _Drawn) -> str:
    """Write the names that fit, and return what the legend has to say of them."""
    room = int(_pitch(canvas, row)) - 1
    names = [_ascii(chair.id) for chair in row.chairs]
    said = ""
    if max(map(len, names)) > room:
        names = [str(chair.seat) for chair in row.chairs]
        said = f"row {_ascii(row.chairs[0].row)[:_NAME]}: seats by number"
    longest = max(map(len, names))
    every = max(1, -(-(longest + 1) // max(1, int(_pitch(canvas, row)))))
    if every > 1:
        said += f", every {every}. named"
    line = _name_line(canvas, row)
    for chair, name in list(zip(row.chairs, names, strict=True))[::every]:
        canvas.text(line, canvas.column(chair.x_m) - len(name) // 2, name)
    return said


def _name_line(canvas: Canvas, row: _Drawn) -> int:
    front, back = _ends(canvas, row)
    return front + 1 if back - front >= 2 else front


def _draw_boxes(canvas: Canvas, plan: Plan, names: set[int]) -> None:
    """Mark the new outlets, none on a line that has the names of chairs."""
    for box in plan.boxes:
        line, column = canvas.line(box.y_m), canvas.column(box.x_m)
        if box.kind != "floor box":
            place = wall_cell(canvas, plan.spec.room, (box.x_m, box.y_m))
            canvas.put(*place, _WALL_OUTLET)
            continue
        if line in names and line < canvas.tall:
            line += 1
        canvas.put(line, column, _BOX)


def _draw_outlets(canvas: Canvas, plan: Plan) -> tuple[list[str], list[str]]:
    """Mark the outlets; return the lines of their names below and above the room."""
    below: dict[int, str] = {}
    above: dict[int, str] = {}
    for outlet in plan.spec.outlets:
        line, column = canvas.line(outlet.y_m), canvas.column(outlet.x_m)
        if outlet.wall is not None:
            line, column = wall_cell(canvas, plan.spec.room, (outlet.x_m, outlet.y_m))
        if line == canvas.tall + 1:
            below[column] = _ascii(outlet.id)
        elif line == 0:
            above[column] = _ascii(outlet.id)
        canvas.put(line, column, _OUTLET)
    return _name_row(below), _name_row(above)


def _name_row(names: dict[int, str]) -> list[str]:
    """One line of names at their columns; a name that would touch the one before is left out."""
    line = ""
    for column, name in sorted(names.items()):
        start = max(0, min(column - len(name) // 2, WIDE - len(name)))
        if line and start <= len(line):
            continue
        line = line.ljust(start) + name
    return [line] if line else []


def _wall_names(plan: Plan, wide: int) -> list[str]:
    room = plan.spec.room
    left, right = f"<- {_ascii(room.left_wall)}", f"{_ascii(room.right_wall)} ->"
    back = _ascii(room.back_wall)
    if len(left) + len(back) + len(right) + 4 <= wide:
        side = max(len(left), len(right))
        middle = back.center(wide - 2 * side)
        if len(back) <= wide - 2 * side:
            return [left.ljust(side) + middle + right.rjust(side)]
        return [f"{left}  {back.center(wide - len(left) - len(right) - 4)}  {right}"]
    return [f"{left[:WIDE]}", back.center(wide)[:WIDE], right[:WIDE].rjust(wide)]


def _legend(plan: Plan, canvas: Canvas, named: list[str]) -> list[str]:
    """Lines of symbol and meaning, of the symbols that are in the drawing."""
    spec, units = plan.spec, plan.spec.project.units
    floor_boxes = sum(box.kind == "floor box" for box in plan.boxes)
    outlets = [f"{o.id}{'' if o.wall else ' (in the floor)'}" for o in spec.outlets]
    doors = [f"{door.id} ({door.wall})" for door in spec.doors]
    risers = [f"{r.id} ({length_text(r.height_m, units)} high)" for r in spec.risers]
    listed: tuple[tuple[str, str, list[str] | None], ...] = (
        (_BOX, "floor box", [] if floor_boxes else None),
        (_WALL_OUTLET, "new wall outlet", [] if len(plan.boxes) > floor_boxes else None),
        (_OUTLET, "outlet", outlets or None),
        (_CORD, "cord", [] if plan.cords else None),
        (_RECLINED, "reclined", [] if plan.chairs else None),
        (_RISER, "riser", risers or None),
        (_OBSTACLE, "obstacle", [area.id for area in spec.obstacles] or None),
        (_WALKWAY, "walkway, no cord", [area.id for area in spec.walkways] or None),
        (_DOOR, "door", doors or None),
        (_OUTSIDE, "not part of the room", [] if spec.room.walls else None),
    )
    drawn = "".join(canvas.lines)
    entries = [
        f"{mark} {_told(words, names)}"
        for mark, words, names in listed
        if names is not None and mark in drawn
    ]
    return _packed([*entries, *filter(None, named)])


def _told(words: str, names: list[str]) -> str:
    shown = [_ascii(name)[:_NAME] for name in names[:_LISTED]]
    if len(names) > _LISTED:
        shown.append(f"{len(names) - _LISTED} more")
    return f"{words} {', '.join(shown)}" if shown else words


def _packed(entries: list[str]) -> list[str]:
    """Entries side by side as long as they fit, three blanks between; a long one is wrapped."""
    lines = [""]
    for entry in entries:
        if lines[-1] and len(lines[-1]) + 3 + len(entry) <= WIDE:
            lines[-1] += f"   {entry}"
            continue
        while len(entry) > WIDE:
            at = entry.rfind(" ", 0, WIDE) if " " in entry[2:WIDE] else WIDE
            lines.append(entry[:at])
            entry = "  " + entry[at:].strip()
        lines.append(entry)
    return [line for line in lines if line]


def _ascii(text: str) -> str:
    """A name as the drawing can hold it: one column a character."""
    return "".join(char if char.isascii() and char.isprintable() else "?" for char in text)[:WIDE]
