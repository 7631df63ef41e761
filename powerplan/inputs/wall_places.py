"""Places on walls: by the two walls beside them, or by the corner where their own wall begins."""

from __future__ import annotations

from fractions import Fraction

from powerplan.inputs import written as w
from powerplan.inputs.fields import choice
from powerplan.inputs.frame import FileWall, Frame
from powerplan.inputs.places import ACROSS, AHEAD, Axis, start_m
from powerplan.inputs.reading import Reading, grid_m, micro
from powerplan.inputs.saying import named
from powerplan.inputs.tables import Table
from powerplan.model.geometry import Point

_KEYS = ("from_left", "from_right", "from_back", "from_screen")

OnWall = Table[w.Door] | Table[w.Outlet]


def wall_of(reading: Reading, table: OnWall) -> FileWall | None:
    """Return the wall that something is on, or None where there is none of that name."""
    if reading.frame is None or table.it.wall is None:
        return None
    known = [wall.id for wall in reading.frame.walls]
    try:
        return reading.frame.wall(choice(*known)(table.it.wall))
    except ValueError as fault:
        reading.faults.add(table.at("wall"), str(fault))
        return None


def span_on_wall(
    reading: Reading, table: OnWall, wall: FileWall, width_m: Fraction | None
) -> tuple[float, float] | None:
    """Return where a door begins and ends along its finished wall, from the wall's start in the
    room's list of walls, or None where a fault is noted. [m]"""
    near = _from_own_corner_m(reading, table, wall, width_m, "a door")
    frame = reading.frame
    if near is None or width_m is None or frame is None:
        return None
    ends = [frame.along_m(wall.id, wall.at(along)) for along in (near, near + width_m)]
    start, end = grid_m(min(ends)), grid_m(max(ends))
    if start >= end:
        words = f"it lies wholly in the finish of the wall beside {_told(wall)}"
        reading.faults.add(table.path, words)
        return None
    return start, end


def point_on_wall(reading: Reading, table: OnWall, wall: FileWall) -> Point | None:
    """Return where an outlet is on its finished wall, or None where a fault is noted. [m]"""
    along = _from_own_corner_m(reading, table, wall, Fraction(0), "an outlet")
    if along is None or reading.frame is None:
        return None
    place = reading.frame.along_m(wall.id, wall.at(along))
    return reading.frame.on_wall(wall.id, place)


def _from_own_corner_m(
    reading: Reading, table: OnWall, wall: FileWall, width_m: Fraction | None, what: str
) -> Fraction | None:
    """How far from the corner at which its wall is written something begins. [m]"""
    frame = reading.frame
    if frame is None or not table.sound("from_corner", *_KEYS):
        return None
    if table.it.from_corner is not None:
        return _said_from_corner(reading, table, frame, wall, width_m)
    if not (wall.across or wall.ahead):
        _refuse_slanted(reading, table, wall, what)
        return None
    axis = ACROSS if wall.across else AHEAD
    if _refuse_other_axis(reading, table, frame, wall, axis, what):
        return None
    why = ", or from_corner" if frame.cornered else ""
    start = start_m(reading, table, axis, width_m, why)
    if start is None or width_m is None:
        return None
    n = 0 if wall.across else 1
    low, high = sorted((wall.start[n], wall.end[n]))
    past = max(low - start, start + width_m - high)
    if micro(past) > 0:
        key = axis.low_key if getattr(table.it, axis.low_key) is not None else axis.high_key
        words = f"this reaches {reading.text(past)} past the end of {_told(wall)}, which runs from "
        words += f"{reading.text(low)} to {reading.text(high)} {axis.low_key}"
        reading.faults.add(table.at(key), words)
        return None
    return start - low if wall.start[n] == low else high - start - width_m


def _said_from_corner(
    reading: Reading, table: OnWall, frame: Frame, wall: FileWall, width_m: Fraction | None
) -> Fraction | None:
    near = table.it.from_corner
    others = [key for key in _KEYS if getattr(table.it, key) is not None]
    if not frame.cornered:
        words = "from_corner counts from a [[room.corner]], and this room is given by its width and"
        words += " depth; write from_left, from_right, from_back or from_screen"
        reading.faults.add(table.at("from_corner"), words)
        return None
    for key in others:
        words = "from_corner is written too; one of the two is wanted"
        reading.faults.add(table.at(key), words)
    if others or near is None or width_m is None:
        return None
    past = near + width_m - wall.length_m
    if micro(past) > 0:
        words = f"this reaches {reading.text(past)} past the end of {_told(wall)}, which is "
        words += f"{reading.text(wall.length_m)} long"
        reading.faults.add(table.at("from_corner"), words)
        return None
    return min(near, wall.length_m - width_m)


def _refuse_slanted(reading: Reading, table: OnWall, wall: FileWall, what: str) -> None:
    corner = f"the corner where it is written, {reading.text(wall.start[0])} from_left and "
    corner += f"{reading.text(wall.start[1])} from_back"
    wrong = [key for key in _KEYS if getattr(table.it, key) is not None]
    words = f"{_told(wall)} runs at a slant, so this does not place {what} on it"
    words += f"; write from_corner, along the wall from {corner}"
    for key in wrong:
        reading.faults.add(table.at(key), words)
    if not wrong:
        words = f"from_corner is missing: along {_told(wall)} from {corner}"
        reading.faults.add(table.path, words)


def _refuse_other_axis(
    reading: Reading, table: OnWall, frame: Frame, wall: FileWall, along: Axis, what: str
) -> bool:
    """Note keys that cannot place something on a wall; return True where there were any."""
    other = AHEAD if along is ACROSS else ACROSS
    wrong = [key for key in (other.low_key, other.high_key) if getattr(table.it, key) is not None]
    on = _told(wall) if frame.cornered else f"the {wall.id} wall"
    for key in wrong:
        words = f"this does not place {what} on {on}"
        words += f"; {along.low_key} or {along.high_key} does"
        reading.faults.add(table.at(key), words)
    return bool(wrong)


def _told(wall: FileWall) -> str:
    return wall.id if wall.id.startswith("wall ") else f"the wall {named(wall.id)}"
