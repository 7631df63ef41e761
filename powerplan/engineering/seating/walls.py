"""Walls of a room with corners: what stands behind and ahead of a row, strips, and doorways."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import shapely

from powerplan.engineering.seating.frames import Outline, polygon
from powerplan.engineering.seating.rects import on_grid
from powerplan.engineering.seating.shapes import room_shape, solid_parts
from powerplan.model.geometry import Point
from powerplan.model.lengths import MICROMETER_M, micrometers
from powerplan.model.spec import Door, Room, WallLine


@dataclass(frozen=True, slots=True, kw_only=True)
class Doorway:
    """Floor inside a door opening in a wall of an outline, called as the door is. [m]"""

    id: str
    outline: Outline


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """A wall that stands behind what is ahead of it, as far from the back as its nearest end to
    the screen; ``square`` where all of it is as far. [m]"""

    left_m: float
    right_m: float
    y_m: float
    square: bool
    label: str


def faces_behind(room: Room, left_m: float, right_m: float, y_m: float) -> tuple[Face, ...]:
    """Return the parts of walls that stand behind a stretch, floor ahead of them, nearest first.

    Parameters
    ----------
    room : Room
        The room. [m]
    left_m, right_m : float
        The stretch, left to right. [m]
    y_m : float
        How far it is from the back. [m]
    """
    if not room.walls:
        return (Face(left_m=left_m, right_m=right_m, y_m=0.0, square=True, label=room.back_wall),)
    behind = [line for line in room.walls if line.start[0] < line.end[0]]
    faces = [_part(line, left_m, right_m, max) for line in behind]
    found = [face for face in faces if face and micrometers(face.y_m) <= micrometers(y_m)]
    return tuple(sorted(found, key=lambda face: (-face.y_m, face.left_m)))


def wall_behind(room: Room, left_m: float, right_m: float, y_m: float) -> tuple[float, str]:
    """Return the first wall straight behind a stretch, whichever way it faces: one in which a row
    stands counts too.

    Parameters
    ----------
    room : Room
        The room. [m]
    left_m, right_m : float
        The stretch, left to right. [m]
    y_m : float
        How far its front is from the back. [m]

    Returns
    -------
    tuple of (float, str)
        Its distance from the back where it is nearest, and what it is called. [m]
    """
    found = []
    for line in room.walls:
        if line.start[0] == line.end[0]:
            continue
        near, far = (_part(line, left_m, right_m, pick) for pick in (max, min))
        if near is not None and far is not None and micrometers(far.y_m) <= micrometers(y_m):
            found.append((min(near.y_m, y_m), line.label))
    return max(found, default=(0.0, room.back_wall))


def wall_ahead(room: Room, left_m: float, right_m: float, y_m: float) -> tuple[float, str]:
    """Return the first wall straight ahead of a stretch of headrests.

    Parameters
    ----------
    room : Room
        The room. [m]
    left_m, right_m : float
        The stretch, left to right. [m]
    y_m : float
        How far it is from the back. [m]

    Returns
    -------
    tuple of (float, str)
        Its distance from the back where it is nearest, and what it is called. [m]
    """
    found: list[tuple[float, str]] = []
    for line in room.walls:
        face = _part(line, left_m, right_m, min) if line.start[0] > line.end[0] else None
        if face is not None and micrometers(face.y_m) >= micrometers(y_m):
            found.append((face.y_m, line.label))
    return min(found, default=(room.depth_m, room.screen_wall))


def _part(line: WallLine, left_m: float, right_m: float, of_two: Any) -> Face | None:
    """The part of a wall over a stretch; ``of_two`` picks which of its ends tells how far."""
    (x1, y1), (x2, y2) = sorted((line.start, line.end))
    left, right = max(x1, left_m), min(x2, right_m)
    if micrometers(right) <= micrometers(left):
        return None
    ends = [y1 + (x - x1) * (y2 - y1) / (x2 - x1) for x in (left, right)]
    square = y1 == y2
    y_m = y1 if square else of_two(ends)
    return Face(left_m=left, right_m=right, y_m=y_m, square=square, label=line.label)


def straight_behind(room: Room, spot: Point, angle_rad: float) -> tuple[WallLine, Point] | None:
    """Return the first wall straight behind a place, and where on it, on the grid and inside.

    Parameters
    ----------
    room : Room
        The room. [m]
    spot : Point
        A place inside it. [m]
    angle_rad : float
        Which way is ahead: 0 is to the screen, positive further left. [rad]
    """
    back = (math.sin(angle_rad), -math.cos(angle_rad))
    best: tuple[float, WallLine] | None = None
    for line in room.lines:
        run = (line.end[0] - line.start[0], line.end[1] - line.start[1])
        turn = back[0] * run[1] - back[1] * run[0]
        if abs(turn) < 1e-12:
            continue
        off = (line.start[0] - spot[0], line.start[1] - spot[1])
        away = (off[0] * run[1] - off[1] * run[0]) / turn
        share = (off[0] * back[1] - off[1] * back[0]) / turn
        if away >= 0.0 and 0.0 <= share <= 1.0 and (best is None or away < best[0]):
            best = (away, line)
    if best is None:
        return None
    away, line = best
    return line, _inside(line, (spot[0] + back[0] * away, spot[1] + back[1] * away))


def _inside(line: WallLine, spot: Point) -> Point:
    """A place on a wall on the grid of lengths, and for a slanted wall never outside the room."""
    x_m, y_m = on_grid(spot[0]), on_grid(spot[1])
    if line.start[0] == line.end[0]:
        return (line.start[0], y_m)
    if line.start[1] == line.end[1]:
        return (x_m, line.start[1])
    around = [
        (on_grid(x_m + i * MICROMETER_M), on_grid(y_m + j * MICROMETER_M))
        for i in (-2, -1, 0, 1, 2)
        for j in (-2, -1, 0, 1, 2)
    ]
    inner = [place for place in around if _inward_m(line, place) >= 0.0]
    return min(inner, key=lambda place: (math.dist(place, spot), place))


def along_m(line: WallLine, place: Point) -> float:
    """Return how far along a wall a place is, from the wall's start.

    Parameters
    ----------
    line : WallLine
        The wall. [m]
    place : Point
        The place. [m]
    """
    run = (line.end[0] - line.start[0], line.end[1] - line.start[1])
    off = (place[0] - line.start[0], place[1] - line.start[1])
    return (run[0] * off[0] + run[1] * off[1]) / math.hypot(*run)


def _inward_m(line: WallLine, place: Point) -> float:
    """How far inside a wall of an outline a place is. [m]"""
    run = (line.end[0] - line.start[0], line.end[1] - line.start[1])
    off = (place[0] - line.start[0], place[1] - line.start[1])
    return (run[0] * off[1] - run[1] * off[0]) / math.hypot(*run)


def strip_on(line: WallLine, start_m: float, end_m: float, deep_m: float) -> Outline:
    """Return the rectangle of floor on a part of a wall of an outline, uncut.

    Parameters
    ----------
    line : WallLine
        The wall. [m]
    start_m, end_m : float
        The part, from the wall's start. [m]
    deep_m : float
        How far it reaches into the room, square to the wall. [m]
    """
    length_m = math.dist(line.start, line.end)
    run = ((line.end[0] - line.start[0]) / length_m, (line.end[1] - line.start[1]) / length_m)

    def place(along: float, inward: float) -> Point:
        x_m = line.start[0] + run[0] * along - run[1] * inward
        return (x_m, line.start[1] + run[1] * along + run[0] * inward)

    corners = ((start_m, 0.0), (end_m, 0.0), (end_m, deep_m), (start_m, deep_m))
    return tuple(place(*corner) for corner in corners)


def doorways_of(room: Room, doors: Sequence[Door], deep_m: float) -> tuple[Doorway, ...]:
    """Return the floor just inside each door opening of an outline, cut to the room.

    Parameters
    ----------
    room : Room
        A room with corners. [m]
    doors : sequence of Door
        Its doors. [m]
    deep_m : float
        How far the keep-out reaches into the room. [m]
    """
    found: list[Doorway] = []
    for door in doors:
        strip = strip_on(room.line(door.wall), door.start_m, door.end_m, deep_m)
        part = shapely.intersection(room_shape(room), polygon(strip))
        found.extend(Doorway(id=door.id, outline=piece) for piece in _outlines(part))
    return tuple(found)


def wall_strips(room: Room, doorways: Sequence[Doorway], deep_m: float) -> tuple[Outline, ...]:
    """Return the strips along the walls of an outline, less its doorways.

    Parameters
    ----------
    room : Room
        A room with corners. [m]
    doorways : sequence of Doorway
        Floor inside its door openings. [m]
    deep_m : float
        How far a strip reaches into the room, square to its wall. [m]
    """
    taken = shapely.union_all([polygon(one.outline) for one in doorways])
    found: list[Outline] = []
    for line in room.walls:
        length_m = math.dist(line.start, line.end)
        strip = polygon(strip_on(line, 0.0, length_m, deep_m))
        inside = shapely.intersection(room_shape(room), strip)
        found.extend(_outlines(shapely.difference(inside, taken)))
    return tuple(found)


def spare_in_room(room: Room, outlines: Sequence[Outline]) -> tuple[float, tuple[str, ...]]:
    """Return how far pieces of floor are from the walls of a room with corners.

    Parameters
    ----------
    room : Room
        The room. [m]
    outlines : sequence of outlines
        Simple pieces of floor. [m]

    Returns
    -------
    tuple of (float, tuple of str)
        The least distance to a wall, negative by how far they reach past walls, and what those
        walls are called. [m]
    """
    floor = room_shape(room)
    whole = shapely.union_all([polygon(outline) for outline in outlines])
    parts = _outlines(shapely.difference(whole, floor))
    deep = [(part, _past_m(part, floor, whole, room)) for part in parts]
    past = [(part, past_m) for part, past_m in deep if past_m > MICROMETER_M / 2]
    if not past:
        return float(shapely.distance(whole, shapely.boundary(floor))), ()
    over = shapely.union_all([polygon(part) for part, _ in past])
    crossed = [
        line.label
        for line in room.walls
        if shapely.length(shapely.intersection(_line(line), shapely.buffer(over, 1e-7))) > 1e-5
    ]
    return -max(past_m for _, past_m in past), tuple(dict.fromkeys(crossed))


def _past_m(part: Outline, floor: Any, whole: Any, room: Room) -> float:
    """How far a part of some floor is past the walls: by its corners, or by a corner of the room
    that stands in that floor. [m]"""
    past = [shapely.distance(floor, shapely.Point(corner)) for corner in part]
    edge, around = shapely.boundary(whole), shapely.buffer(polygon(part), MICROMETER_M)
    for corner in map(shapely.Point, room.outline):
        if shapely.contains_properly(whole, corner) and shapely.covers(around, corner):
            past.append(shapely.distance(edge, corner))
    return float(max(past))


def _line(line: WallLine) -> Any:
    return shapely.LineString((line.start, line.end))


def _outlines(shape: Any) -> tuple[Outline, ...]:
    """Simple outlines, counter-clockwise; a strip or a rectangle cut to a room has no holes."""
    rings = [
        shapely.geometry.polygon.orient(part).exterior.coords[:-1] for part in solid_parts(shape)
    ]
    return tuple(tuple((float(x), float(y)) for x, y in ring) for ring in rings)
