"""Walls to their studs and to their finish: outlines moved in or out, and distances as printed."""

from __future__ import annotations

import math
from collections.abc import Sequence

from powerplan.model.geometry import Point
from powerplan.model.places import Room, Wall, WallLine

STUDS = "studs"
FINISH = "finish"

# Two walls that turn by less than this run on in one line. [rad]
_STRAIGHT = 1e-9
# What lies this near to a side of the rectangle around the room lies on it. [m]
_ON_SIDE_M = 2e-6


def moved_outline(corners: Sequence[Point], inward_m: Sequence[float]) -> tuple[Point, ...]:
    """Return an outline with each wall moved square to itself, corners where walls meet again.

    Parameters
    ----------
    corners : sequence of Point
        Counter-clockwise; wall n goes from corner n to the next. [m]
    inward_m : sequence of float
        How far each wall moves into the room; negative is outward. [m]

    Raises
    ------
    ValueError
        Where two walls that run on in one line would move by different lengths.
    """
    walls = [_heading(corners, n) for n in range(len(corners))]
    moved = []
    for n, corner in enumerate(corners):
        before, here = walls[n - 1], walls[n]
        out, by = inward_m[n - 1], inward_m[n]
        turn = before[0] * here[1] - before[1] * here[0]
        if abs(turn) < _STRAIGHT:
            if out != by:
                raise ValueError("walls in one line move by different lengths")
            moved.append((corner[0] - here[1] * by, corner[1] + here[0] * by))
            continue
        moved.append(
            (
                corner[0] + (here[0] * out - before[0] * by) / turn,
                corner[1] + (here[1] * out - before[1] * by) / turn,
            )
        )
    return tuple(moved)


def build_up_m(room: Room, wall: str) -> float:
    """Return the finish on the studs of one wall, 0 where none was given. [m]"""
    return dict(room.build_up_m).get(wall, 0.0)


def side_line(room: Room, side: str) -> WallLine | None:
    """Return the wall that lies on one side of the rectangle around the room, the one of that
    name first, then the longest; None where only a corner touches that side.

    Parameters
    ----------
    room : Room
        The room.
    side : str
        left, right, back or screen.
    """
    axis = 0 if side in (Wall.LEFT, Wall.RIGHT) else 1
    place_m = {Wall.RIGHT: room.width_m, Wall.SCREEN: room.depth_m}.get(Wall(side), 0.0)
    there = [
        line
        for line in room.lines
        if all(abs(end[axis] - place_m) <= _ON_SIDE_M for end in (line.start, line.end))
    ]
    return max(
        there,
        key=lambda line: (line.id == side, math.dist(line.start, line.end)),
        default=None,
    )


def printed_from_m(room: Room, side: str, distance_m: float) -> float:
    """Return a distance from one side of the room to the face that the sheets print to.

    Parameters
    ----------
    room : Room
        The room; ``print_to`` is that face.
    side : str
        left, right, back or screen.
    distance_m : float
        From the finished wall. [m]

    Returns
    -------
    float
        The same place from the finish, or from the studs behind it. [m]
    """
    if room.print_to != STUDS:
        return distance_m
    line = side_line(room, side)
    if line is not None:
        return round(distance_m + build_up_m(room, line.id), 6)
    axis = 0 if side in (Wall.LEFT, Wall.RIGHT) else 1
    out = [-build_up_m(room, one.id) for one in room.walls]
    places = [corner[axis] for corner in moved_outline(room.outline, out)]
    beyond_m = -min(places)
    if side in (Wall.RIGHT, Wall.SCREEN):
        beyond_m = max(places) - (room.width_m if axis == 0 else room.depth_m)
    return round(distance_m + beyond_m, 6)


def _heading(corners: Sequence[Point], n: int) -> Point:
    start, end = corners[n], corners[(n + 1) % len(corners)]
    length_m = math.dist(start, end)
    return ((end[0] - start[0]) / length_m, (end[1] - start[1]) / length_m)
