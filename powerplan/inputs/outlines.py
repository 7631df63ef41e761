"""The room's walls: a rectangle by its width and depth, or an outline by its corners."""

from __future__ import annotations

from fractions import Fraction

from powerplan.inputs import written as w
from powerplan.inputs.build_ups import build_ups, faces_of, finished_corners
from powerplan.inputs.corners import SIDES, doubled_area, outline_of
from powerplan.inputs.frame import FileWall, Frame
from powerplan.inputs.reading import Reading, grid_m, micro
from powerplan.inputs.tables import Table
from powerplan.model.geometry import Point
from powerplan.model.spec import Room, WallLine

_NOTHING = Fraction(0)
_LEAST_M = Fraction(254, 10000) * 20
_FAR = {
    "left": "leftmost corner",
    "right": "rightmost corner",
    "back": "rearmost corner",
    "screen": "foremost corner",
}


def frame_of(reading: Reading, table: Table[w.Room]) -> Frame | None:
    """Return the room with its walls, or None where its size could not be read; the reading then
    knows how wide and deep it is to the face that the file measures to. [m]"""
    it = table.it
    if it.corner is not None or not table.sound("corner"):
        walls = outline_of(reading, table)
        return None if walls is None else _cornered(reading, table, walls)
    for key, what in (
        ("width", 'the length of the back wall, such as "20 ft"'),
        ("depth", 'back wall to screen wall, such as "15 ft 6 in"'),
    ):
        if getattr(it, key) is None and table.sound(key):
            words = f"{key} is missing: {what}; or write the room's corners, [[room.corner]]"
            reading.faults.add(table.path, words)
    reading.width_m, reading.depth_m = it.width, it.depth
    if it.width is None or it.depth is None:
        return None
    return _rectangle(reading, table, it.width, it.depth)


def _rectangle(
    reading: Reading, table: Table[w.Room], wide: Fraction, deep: Fraction
) -> Frame | None:
    zero = _NOTHING
    ends = {
        "left": ((zero, zero), (zero, deep)),
        "right": ((wide, zero), (wide, deep)),
        "back": ((zero, zero), (wide, zero)),
        "screen": ((zero, deep), (wide, deep)),
    }
    labels = _side_labels(table)
    walls = tuple(
        FileWall(id=name, label=labels[name], start=ends[name][0], end=ends[name][1])
        for name in SIDES
    )
    ups = build_ups(reading, table, walls)
    if ups is None:
        return None
    measured, printed = faces_of(reading, table)
    takes = ups if measured == "studs" else {}
    left, back = takes.get("left", zero), takes.get("back", zero)
    size = (
        wide - left - takes.get("right", zero),
        deep - back - takes.get("screen", zero),
    )
    for key, inside in zip(("width", "depth"), size, strict=True):
        if takes and inside < _LEAST_M:
            words = f"the finish on the walls leaves {reading.text(inside)} of it"
            reading.faults.add(table.at(key), words)
            return None
    room = _room(table, labels, (grid_m(size[0]), grid_m(size[1])), (), (measured, printed), ups)
    return Frame(room=room, walls=walls, shift=(left, back), cornered=False)


def _cornered(reading: Reading, table: Table[w.Room], walls: tuple[FileWall, ...]) -> Frame | None:
    reading.width_m = max(wall.start[0] for wall in walls)
    reading.depth_m = max(wall.start[1] for wall in walls)
    sized = [_agrees(reading, table, key) for key in ("width", "depth")]
    ups = build_ups(reading, table, walls)
    if ups is None or not all(sized):
        return None
    measured, printed = faces_of(reading, table)
    round_left = _counter_clockwise(walls)
    shift = (_NOTHING, _NOTHING)
    corners = tuple((grid_m(wall.start[0]), grid_m(wall.start[1])) for wall in round_left)
    if measured == "studs":
        moved = finished_corners(reading, table, round_left, ups)
        if moved is None:
            return None
        shift = (_least(moved, 0), _least(moved, 1))
        corners = tuple(
            (grid_m(Fraction(x) - shift[0]), grid_m(Fraction(y) - shift[1])) for x, y in moved
        )
    lines = tuple(
        WallLine(id=wall.id, label=wall.label, start=start, end=end)
        for wall, start, end in zip(round_left, corners, [*corners[1:], corners[0]], strict=True)
    )
    size = (max(x for x, _ in corners), max(y for _, y in corners))
    labels = _cornered_labels(table, lines, size)
    room = _room(table, labels, size, lines, (measured, printed), ups)
    return Frame(room=room, walls=walls, shift=shift, cornered=True)


def _agrees(reading: Reading, table: Table[w.Room], key: str) -> bool:
    """A width or depth beside corners says the same again."""
    written = getattr(table.it, key)
    reached = reading.width_m if key == "width" else reading.depth_m
    if written is None or reached is None or micro(written) == micro(reached):
        return True
    words = f"this is {reading.text(written)}, but the corners reach {reading.text(reached)}: "
    words += f"mend the one that is wrong, or leave {key} out"
    reading.faults.add(table.at(key), words)
    return False


def _counter_clockwise(walls: tuple[FileWall, ...]) -> tuple[FileWall, ...]:
    """The walls with the floor on the left hand, each from its start to its end."""
    if doubled_area([wall.start for wall in walls]) > 0:
        return walls
    return tuple(
        FileWall(id=wall.id, label=wall.label, start=wall.end, end=wall.start)
        for wall in reversed(walls)
    )


def _least(corners: tuple[Point, ...], axis: int) -> Fraction:
    return Fraction(min(corner[axis] for corner in corners)).limit_denominator(10**9)


def _side_labels(table: Table[w.Room]) -> dict[str, str]:
    return {side: getattr(table.it, f"{side}_wall") or f"{side} wall" for side in SIDES}


def _cornered_labels(
    table: Table[w.Room], lines: tuple[WallLine, ...], size: tuple[float, float]
) -> dict[str, str]:
    """What from_left, from_right, from_back and from_screen count from, as people call it: the
    wall of that name, else the longest wall on that side, else a corner."""
    labels = {}
    for side in SIDES:
        axis = 0 if side in ("left", "right") else 1
        place = {"right": size[0], "screen": size[1]}.get(side, 0.0)
        there = [line for line in lines if line.start[axis] == place == line.end[axis]]
        longest = max(
            there,
            key=lambda line: (
                line.id == side,
                abs(line.end[0] - line.start[0]) + abs(line.end[1] - line.start[1]),
            ),
            default=None,
        )
        usual = _FAR[side] if longest is None else longest.label
        labels[side] = getattr(table.it, f"{side}_wall") or usual
    return labels


def _room(
    table: Table[w.Room],
    labels: dict[str, str],
    size: tuple[float, float],
    lines: tuple[WallLine, ...],
    faces: tuple[str, str],
    ups: dict[str, Fraction],
) -> Room:
    return Room(
        width_m=size[0],
        depth_m=size[1],
        left_wall=labels["left"],
        right_wall=labels["right"],
        back_wall=labels["back"],
        screen_wall=labels["screen"],
        walls=lines,
        measured_to=faces[0],
        print_to=faces[1],
        build_up_m=tuple((name, grid_m(up)) for name, up in ups.items() if name != "floor"),
        floor_build_up_m=grid_m(ups.get("floor", _NOTHING)),
    )
