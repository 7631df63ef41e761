"""Where things are: distances from two walls as written, turned into the room frame."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from powerplan.inputs import written as w
from powerplan.inputs.inside import touches_room
from powerplan.inputs.reading import Reading, grid_m, micro
from powerplan.inputs.tables import Table
from powerplan.model.geometry import Rect


@dataclass(frozen=True, slots=True, kw_only=True)
class Axis:
    """One direction of the room: its two keys, and what stands at either end."""

    low_key: str
    high_key: str
    low_wall: str
    high_wall: str
    long: str

    def size_m(self, reading: Reading) -> Fraction | None:
        """Return how far apart its walls are. [m]"""
        return reading.width_m if self.long == "wide" else reading.depth_m


ACROSS = Axis(
    low_key="from_left",
    high_key="from_right",
    low_wall="left wall",
    high_wall="right wall",
    long="wide",
)
AHEAD = Axis(
    low_key="from_back",
    high_key="from_screen",
    low_wall="back wall",
    high_wall="screen wall",
    long="deep",
)


def start_m(
    reading: Reading, table: Table[w.Placed], axis: Axis, extent_m: Fraction | None, why: str = ""
) -> Fraction | None:
    """Return where something starts along one axis, from the left or back wall. [m]

    Parameters
    ----------
    reading : Reading
        The reading, whose faults are noted.
    table : Table
        What is placed.
    axis : Axis
        Left to right, or back to screen.
    extent_m : Fraction or None
        How long it is in that direction; None where that could not be read. [m]
    why : str
        Added where the place is missing.

    Returns
    -------
    Fraction or None
        None where it cannot be said, and then a fault is noted somewhere. [m]
    """
    low, high = getattr(table.it, axis.low_key), getattr(table.it, axis.high_key)
    if not table.sound(axis.low_key, axis.high_key):
        return None
    if low is None and high is None:
        words = f"{axis.low_key} or {axis.high_key} is missing{why}"
        reading.faults.add(table.path, words)
        return None
    if low is not None and high is not None:
        words = f"{axis.low_key} is written too; one of the two is wanted"
        reading.faults.add(table.at(axis.high_key), words)
        return None
    total = axis.size_m(reading)
    if total is None or extent_m is None:
        return None
    start: Fraction = low if low is not None else total - high - extent_m
    key = axis.low_key if low is not None else axis.high_key
    inside = _inside(reading, table, axis, key, (start, start + extent_m))
    return start if inside else None


def _inside(
    reading: Reading,
    table: Table[w.Placed],
    axis: Axis,
    key: str,
    ends: tuple[Fraction, Fraction],
) -> bool:
    total = axis.size_m(reading) or Fraction(0)
    size = f"the room is {reading.text(total)} {axis.long}"
    sides = ((-ends[0], axis.low_wall), (ends[1] - total, axis.high_wall))
    for past, wall in sides:
        if micro(past) > 0:
            words = f"this reaches {reading.text(past)} past the {wall}; {size}"
            reading.faults.add(table.at(key), words)
            return False
    return True


def rect_of(reading: Reading, table: Table[w.Floorspace]) -> Rect | None:
    """Return the floor that something takes inside the finished walls, or None where a fault is
    noted. [m]"""
    width = table.it.width if table.sound("width") else None
    depth = table.it.depth if table.sound("depth") else None
    left = start_m(reading, table, ACROSS, width)
    back = start_m(reading, table, AHEAD, depth)
    if left is None or back is None or width is None or depth is None or reading.frame is None:
        return None
    room = reading.frame.room
    start = reading.frame.inside((left, back))
    end = reading.frame.inside((left + width, back + depth))
    rect = Rect(
        left_m=grid_m(max(start[0], Fraction(0))),
        right_m=min(grid_m(end[0]), room.width_m),
        back_m=grid_m(max(start[1], Fraction(0))),
        front_m=min(grid_m(end[1]), room.depth_m),
    )
    if rect.left_m >= rect.right_m or rect.back_m >= rect.front_m:
        reading.faults.add(table.path, "it lies wholly in the finish of a wall")
        return None
    if not touches_room(room.outline, rect):
        reading.faults.add(table.path, "it lies wholly outside the room's walls")
        return None
    return rect
