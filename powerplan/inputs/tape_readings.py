"""Readings that a plan does not need, taken to check it: between two places of the floor."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from fractions import Fraction

from powerplan.inputs import written as w
from powerplan.inputs.frame import Frame, Spot
from powerplan.inputs.reading import Reading, grid_m
from powerplan.inputs.saying import meant, named
from powerplan.inputs.tables import PlanTables, Table
from powerplan.model.faces import STUDS, build_up_m
from powerplan.model.geometry import Point
from powerplan.model.spec import Door, Outlet, TapeReading, Wall

_FROM = ("from_left", "from_right", "from_back", "from_screen")
_TO = ("to_left", "to_right", "to_back", "to_screen")
_SIDES = {"back left": (0, 0), "back right": (1, 0), "screen left": (0, 1), "screen right": (1, 1)}
_NUMBERED = re.compile(r"corner ([0-9]{1,3})")


def tape_readings_of(
    reading: Reading, tables: PlanTables, doors: Iterable[Door], outlets: Iterable[Outlet]
) -> tuple[TapeReading, ...]:
    """Return every tape reading that could be read.

    Parameters
    ----------
    reading : Reading
        The reading of the file, whose faults are noted.
    tables : PlanTables
        Every table.
    doors : iterable of Door
        Doors that a tape may be held to. [m]
    outlets : iterable of Outlet
        Outlets that a tape may be held to. [m]

    Returns
    -------
    tuple of TapeReading
        In the frame of the finished room. [m]
    """
    if reading.frame is None:
        return ()
    things = _things(reading.frame, tables, doors, outlets)
    found = (_reading(reading, table, things) for table in tables.readings)
    return tuple(one for one in found if one is not None)


def _things(
    frame: Frame, tables: PlanTables, doors: Iterable[Door], outlets: Iterable[Outlet]
) -> dict[str, tuple[Point, ...] | None]:
    """What ``between`` can name: corners, outlets by their place, doors by both sides of their
    opening; None for what is written but could not be placed."""
    things: dict[str, tuple[Point, ...] | None] = {}
    for name, spot in _corners(frame).items():
        x_m, y_m = frame.inside(spot)
        things[name] = ((grid_m(x_m), grid_m(y_m)),)
    things |= {f"door {table.name}": None for table in tables.doors}
    things |= {f"outlet {table.name}": None for table in tables.outlets}
    for door in doors:
        jambs = (Fraction(door.start_m), Fraction(door.end_m))
        places = (frame.on_wall(door.wall, along) for along in jambs)
        things[f"door {door.id}"] = tuple(_at_face(frame, door.wall, place) for place in places)
    for outlet in outlets:
        place = (outlet.x_m, outlet.y_m)
        on_wall = place if outlet.wall is None else _at_face(frame, outlet.wall, place)
        things[f"outlet {outlet.id}"] = (on_wall,)
    return things


def _at_face(frame: Frame, wall: str, place: Point) -> Point:
    """A place on a finished wall, straight out to the face that the file measures to. [m]"""
    if frame.room.measured_to != STUDS:
        return place
    line, out_m = frame.room.line(wall), build_up_m(frame.room, wall)
    length_m = math.dist(line.start, line.end)
    across = (line.end[1] - line.start[1]) / length_m
    ahead = (line.start[0] - line.end[0]) / length_m
    if not frame.cornered:  # two walls of a rectangle run with the floor on the right hand
        turned = -1.0 if wall in (Wall.LEFT, Wall.SCREEN) else 1.0
        across, ahead = across * turned, ahead * turned
    return (round(place[0] + across * out_m, 6), round(place[1] + ahead * out_m, 6))


def _corners(frame: Frame) -> dict[str, Spot]:
    wide = max(max(wall.start[0], wall.end[0]) for wall in frame.walls)
    deep = max(max(wall.start[1], wall.end[1]) for wall in frame.walls)
    sides = {name: (wide * x, deep * y) for name, (x, y) in _SIDES.items()}
    if not frame.cornered:
        return sides
    corners = {f"corner {n}": wall.start for n, wall in enumerate(frame.walls, start=1)}
    there = set(corners.values())
    return corners | {name: spot for name, spot in sides.items() if spot in there}


def _reading(
    reading: Reading,
    table: Table[w.TapeReading],
    things: dict[str, tuple[Point, ...] | None],
) -> TapeReading | None:
    keys = [key for key in (*_FROM, *_TO) if getattr(table.it, key) is not None]
    if table.it.between is not None:
        for key in keys:
            words = "between is written too; one way of saying the two places is wanted"
            reading.faults.add(table.at(key), words)
        ends = None if keys else _between(reading, table, things)
    else:
        ends = _by_distances(reading, table) if table.sound("between", *_FROM, *_TO) else None
    if ends is None or not table.sound("reads"):
        return None
    if ends[0] == ends[1]:
        reading.faults.add(table.path, "both ends are the same place")
        return None
    return TapeReading(
        id=table.name,
        start=ends[0],
        end=ends[1],
        length_m=grid_m(table.it.reads),
        ends=_in_words(reading, table),
    )


def _in_words(reading: Reading, table: Table[w.TapeReading]) -> str:
    """The two ends of a reading, as they are looked for in the room."""
    if table.it.between is not None:
        one, two = (_called(" ".join(name.split())) for name in table.it.between)
        return f"from {one} to {two}"
    one, two = (_distances(reading, table, keys) for keys in (_FROM, _TO))
    return f"from the place {one} to the place {two}"


def _called(name: str) -> str:
    """A place that has a name."""
    if name in _SIDES:
        return f"the {name} corner"
    return f"the nearer edge of {name}" if name.startswith("door ") else name


def _distances(reading: Reading, table: Table[w.TapeReading], keys: tuple[str, ...]) -> str:
    """A place by its distances from two walls."""
    said = ((key, getattr(table.it, key)) for key in keys)
    return " and ".join(
        f"{reading.text(length)} from the {key.partition('_')[2]}"
        for key, length in said
        if length is not None
    )


def _between(
    reading: Reading,
    table: Table[w.TapeReading],
    things: dict[str, tuple[Point, ...] | None],
) -> tuple[Point, Point] | None:
    names = table.it.between or ()
    if len(names) != 2:
        words = 'two places are wanted, such as ["back left", "screen right"]'
        reading.faults.add(table.at("between"), words)
        return None
    ends = []
    for n, name in enumerate(names):
        plain = " ".join(name.split())
        if plain not in things:
            reading.faults.add((*table.at("between"), n), _not_a_place(plain, things))
        ends.append(things.get(plain))
    one, two = ends
    if one is None or two is None:
        return None
    # A tape to a door goes to the nearer side of its opening.
    return min(((a, b) for a in one for b in two), key=lambda pair: (math.dist(*pair), pair))


def _not_a_place(name: str, things: dict[str, tuple[Point, ...] | None]) -> str:
    words = f"{named(name)} is no place that is known"
    if name in _SIDES:
        known = ", ".join(one for one in things if one in _SIDES or _NUMBERED.fullmatch(one))
        return f"the room has no corner at the {name}; its corners are {known}"
    if _NUMBERED.fullmatch(name) and not any(map(_NUMBERED.fullmatch, things)):
        words = f"{named(name)} wants a room with [[room.corner]]"
    return words + meant(name, things)


def _by_distances(reading: Reading, table: Table[w.TapeReading]) -> tuple[Point, Point] | None:
    one = _place(reading, table, _FROM)
    two = _place(reading, table, _TO)
    return None if one is None or two is None else (one, two)


def _place(
    reading: Reading, table: Table[w.TapeReading], keys: tuple[str, str, str, str]
) -> Point | None:
    frame, sizes = reading.frame, (reading.width_m, reading.depth_m)
    spot = []
    for (low_key, high_key), size in zip((keys[:2], keys[2:]), sizes, strict=True):
        low, high = getattr(table.it, low_key), getattr(table.it, high_key)
        if low is None and high is None:
            words = f"{low_key} or {high_key} is missing: each end is said from two walls, or both "
            words += 'by their names, such as between = ["back left", "outlet W1"]'
            reading.faults.add(table.path, words)
            return None
        if low is not None and high is not None:
            words = f"{low_key} is written too; one of the two is wanted"
            reading.faults.add(table.at(high_key), words)
            return None
        if size is None or frame is None:
            return None
        place = low if low is not None else size - high
        if not 0 <= place <= size:
            key = low_key if low is not None else high_key
            words = f"this lies past the walls; the room reaches {reading.text(size)} there"
            reading.faults.add(table.at(key), words)
            return None
        spot.append(place)
    if frame is None:
        return None
    x_m, y_m = frame.inside((spot[0], spot[1]))
    return (grid_m(x_m), grid_m(y_m))
