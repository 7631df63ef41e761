"""Walls measured to their studs: what the finish on them takes off the room."""

from __future__ import annotations

from fractions import Fraction

from powerplan.inputs import written as w
from powerplan.inputs.corners import crossing, doubled_area
from powerplan.inputs.frame import FileWall
from powerplan.inputs.reading import Reading, grid_m
from powerplan.inputs.saying import meant, named
from powerplan.inputs.tables import Table
from powerplan.model.faces import FINISH, STUDS, moved_outline
from powerplan.model.geometry import Point

_ALL, _FLOOR = "all", "floor"


def faces_of(reading: Reading, table: Table[w.Room]) -> tuple[str, str]:
    """Return the face that the file measures to, and the one that the sheets print to."""
    it = table.it
    measured = it.measured_to or FINISH
    if it.build_up is not None and it.measured_to is None and table.sound("measured_to"):
        reading.assume("room", "what the plan file measures from walls is to their finished face")
    return measured, it.print_to or measured


def build_ups(
    reading: Reading, table: Table[w.Room], walls: tuple[FileWall, ...]
) -> dict[str, Fraction] | None:
    """Return the finish on every wall and on the floor that was given, or None where a fault is
    noted; with studs on one side it is wanted of every wall. [m]"""
    if not table.sound("build_up", "measured_to", "print_to"):
        return None
    written = table.it.build_up or {}
    known = [wall.id for wall in walls]
    sound = True
    for name in written:
        if name not in (*known, _ALL, _FLOOR):
            hint = meant(name, [*known, _ALL, _FLOOR])
            words = f"no wall is called {named(name)}{hint}"
            reading.faults.add((*table.at("build_up"), name), words)
            sound = False
    usual = written.get(_ALL)
    given = {name: written.get(name, usual) for name in known}
    missing = [name for name, value in given.items() if value is None]
    if missing and STUDS in faces_of(reading, table):
        words = f"the finish on the studs is missing for {', '.join(missing)}: with studs, write "
        words += '[room.build_up] with all = "5/8 in", or each wall\'s own; "0 in" where there is '
        words += "none. Look at it where a wall is open, or ask who builds it"
        reading.faults.add(table.at("build_up"), words)
        sound = False
    if not sound:
        return None
    ups = {name: value for name, value in given.items() if value is not None}
    return ups | ({_FLOOR: written[_FLOOR]} if _FLOOR in written else {})


def finished_corners(
    reading: Reading,
    table: Table[w.Room],
    walls: tuple[FileWall, ...],
    ups: dict[str, Fraction],
) -> tuple[Point, ...] | None:
    """Return the corners of the finished walls, in the file's frame and order, counter-clockwise
    walls; None where the finish leaves no room. [m]"""
    corners = [(float(wall.start[0]), float(wall.start[1])) for wall in walls]
    inward = [float(ups[wall.id]) for wall in walls]
    try:
        moved = moved_outline(corners, inward)
    except ValueError:
        words = "two walls run on in one line, so their finish has to be as thick; a step between "
        words += "them wants two corners more"
        reading.faults.add(table.at("build_up"), words)
        return None
    return moved if _still_a_room(reading, table, walls, moved) else None


def _still_a_room(
    reading: Reading, table: Table[w.Room], walls: tuple[FileWall, ...], moved: tuple[Point, ...]
) -> bool:
    spots = [(Fraction(grid_m(Fraction(x))), Fraction(grid_m(Fraction(y)))) for x, y in moved]
    now = tuple(
        FileWall(id=wall.id, label=wall.label, start=start, end=end)
        for wall, start, end in zip(walls, spots, [*spots[1:], spots[0]], strict=True)
    )
    gone = [one for one, two in zip(walls, now, strict=True) if _turned_round(one, two)]
    if gone:
        words = f"the finish on the walls beside it leaves nothing of {gone[0].id}"
    elif doubled_area(spots) <= 0 or crossing(now) is not None:
        words = "the finish on the walls leaves no room between them"
    else:
        return True
    reading.faults.add(table.at("build_up"), words)
    return False


def _turned_round(one: FileWall, two: FileWall) -> bool:
    ways = [(wall.end[0] - wall.start[0], wall.end[1] - wall.start[1]) for wall in (one, two)]
    return ways[0][0] * ways[1][0] + ways[0][1] * ways[1][1] <= 0
