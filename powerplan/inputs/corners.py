"""A room's outline from its corners, one after the other round the room."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations

from powerplan.inputs import written as w
from powerplan.inputs.fields import UNKNOWN
from powerplan.inputs.frame import FileWall, Spot
from powerplan.inputs.names import name_fault
from powerplan.inputs.reading import Reading, micro
from powerplan.inputs.saying import named
from powerplan.inputs.tables import Table

_MOST = 100
_SHORTEST_M = Fraction(254, 10000) / 8
_KEPT = ("all", "floor", UNKNOWN)
SIDES = ("left", "right", "back", "screen")


def outline_of(reading: Reading, table: Table[w.Room]) -> tuple[FileWall, ...] | None:
    """Return the walls in the order of their corners, or None where a fault is noted. [m]"""
    corners = table.it.corner
    if corners is None:
        return None
    spots = [(corner.from_left, corner.from_back) for corner in corners]
    if not 3 <= len(spots) <= _MOST:
        words = f"{len(spots)} corners are no room that is planned; 3 to {_MOST} are wanted"
        reading.faults.add(table.at("corner"), words)
        return None
    names = _names(reading, table, corners)
    if not _at_nothing(reading, table, spots) or names is None:
        return None
    walls = tuple(
        FileWall(id=name, label=_label(table, name), start=start, end=end)
        for name, start, end in zip(names, spots, [*spots[1:], spots[0]], strict=True)
    )
    sound = _walls_long(reading, table, walls) and _one_room(reading, table, walls)
    sides = [_on_its_side(reading, table, walls, n) for n in range(len(walls))]
    return walls if sound and all(sides) else None


def doubled_area(spots: list[Spot]) -> Fraction:
    """Return twice the area of an outline, negative where it goes clockwise. [m2]"""
    pairs = zip(spots, [*spots[1:], spots[0]], strict=True)
    return sum((one[0] * two[1] - two[0] * one[1] for one, two in pairs), Fraction(0))


def crossing(walls: tuple[FileWall, ...]) -> tuple[FileWall, FileWall] | None:
    """Return two walls that cross, touch or lie on each other where they should not, or None."""
    for one, two in combinations(range(len(walls)), 2):
        pair = (walls[one], walls[two])
        if two == one + 1 and not _doubles_back(*pair):
            continue
        if one == 0 and two == len(walls) - 1 and not _doubles_back(pair[1], pair[0]):
            continue
        if _meet(*pair):
            return pair
    return None


def _names(
    reading: Reading, table: Table[w.Room], corners: tuple[w.Corner, ...]
) -> list[str] | None:
    names = [corner.wall or f"wall {n}" for n, corner in enumerate(corners, start=1)]
    sound = True
    for n, (name, corner) in enumerate(zip(names, corners, strict=True)):
        path = (*table.at("corner"), n, "wall")
        words = name_fault("wall", name)
        if name in _KEPT:
            words = f"{named(name)} is kept for other things; give the wall another name"
        if name in names[:n]:
            other = names.index(name) + 1
            words = f"the wall at corner {other} is called {named(name)} too"
            words += "; give one of them another name"
        if words is not None:
            sound = False
            reading.faults.add(path if corner.wall else path[:-1], words)
    return names if sound else None


def _label(table: Table[w.Room], name: str) -> str:
    if name in SIDES:
        return getattr(table.it, f"{name}_wall") or f"{name} wall"
    return name if "wall" in name.lower() else f"{name} wall"


def _at_nothing(reading: Reading, table: Table[w.Room], spots: list[Spot]) -> bool:
    """The leftmost corner stands at 0 from the left, the rearmost at 0 from the back."""
    sound = True
    for axis, key, most in ((0, "from_left", "leftmost"), (1, "from_back", "rearmost")):
        least = min(spot[axis] for spot in spots)
        if least:
            sound = False
            at = next(n for n, spot in enumerate(spots) if spot[axis] == least)
            change = "add {} to" if least < 0 else "take {} off"
            words = f"this is the {most} corner, and {key} counts from it: "
            words += f"{change.format(reading.text(abs(least)))} {key} of every corner"
            reading.faults.add((*table.at("corner"), at, key), words)
    return sound


def _walls_long(reading: Reading, table: Table[w.Room], walls: tuple[FileWall, ...]) -> bool:
    sound = True
    for n, wall in enumerate(walls):
        if wall.length_m < _SHORTEST_M:
            sound = False
            following = (n + 1) % len(walls) + 1
            words = (
                f"corner {following} is at the same place, or nearly; every corner is written once"
            )
            reading.faults.add((*table.at("corner"), n), words)
    return sound


def _one_room(reading: Reading, table: Table[w.Room], walls: tuple[FileWall, ...]) -> bool:
    if not micro(doubled_area([wall.start for wall in walls])):
        words = "the corners lie in one line, or the walls take back what they enclose"
        reading.faults.add(table.at("corner"), words)
        return False
    pair = crossing(walls)
    if pair is None:
        return True
    words = f"{_told(pair[0])} and {_told(pair[1])} cross or touch"
    words += "; write the corners one after the other as you go round the room"
    reading.faults.add(table.at("corner"), words)
    return False


def _told(wall: FileWall) -> str:
    return wall.id if wall.id.startswith("wall ") else f"the wall {named(wall.id)}"


def _on_its_side(
    reading: Reading, table: Table[w.Room], walls: tuple[FileWall, ...], n: int
) -> bool:
    """A wall called left is where from_left counts from, and so for the other three."""
    wall = walls[n]
    if wall.id not in SIDES:
        return True
    axis = 0 if wall.id in ("left", "right") else 1
    places = [one.start[axis] for one in walls]
    side = max(places) if wall.id in ("right", "screen") else min(places)
    if wall.start[axis] == side == wall.end[axis]:
        return True
    far = {"left": "leftmost", "right": "rightmost", "back": "rearmost", "screen": "foremost"}
    words = f"a wall called {named(wall.id)} is the {far[wall.id]} one, and runs square to the room"
    words += f", since from_{wall.id} counts from it; give this wall another name"
    reading.faults.add((*table.at("corner"), n, "wall"), words)
    return False


def _turn(one: Spot, two: Spot, three: Spot) -> int:
    turn = (two[0] - one[0]) * (three[1] - one[1]) - (two[1] - one[1]) * (three[0] - one[0])
    return (turn > 0) - (turn < 0)


def _meet(one: FileWall, two: FileWall) -> bool:
    """True where two stretches have a point in common, ends included; exact."""
    sides = (
        _turn(one.start, one.end, two.start) * _turn(one.start, one.end, two.end),
        _turn(two.start, two.end, one.start) * _turn(two.start, two.end, one.end),
    )
    if max(sides) > 0:
        return False
    return all(
        max(min(one.start[axis], one.end[axis]), min(two.start[axis], two.end[axis]))
        <= min(max(one.start[axis], one.end[axis]), max(two.start[axis], two.end[axis]))
        for axis in (0, 1)
    )


def _doubles_back(one: FileWall, two: FileWall) -> bool:
    """True where the second wall runs back along the first."""
    run = (one.end[0] - one.start[0], one.end[1] - one.start[1])
    on = (two.end[0] - two.start[0], two.end[1] - two.start[1])
    return run[0] * on[1] == run[1] * on[0] and run[0] * on[0] + run[1] * on[1] < 0
