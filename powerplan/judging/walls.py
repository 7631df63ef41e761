"""The room's walls one by one, each with the side on which the floor is."""

from __future__ import annotations

import math
from dataclasses import dataclass

from powerplan.judging.convex import Convex, convex
from powerplan.model.geometry import Point
from powerplan.model.spec import Room


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """A wall from its start to its end; ``inward`` is square to it, into the room. [m]"""

    id: str
    start: Point
    end: Point
    inward: tuple[float, float]

    @property
    def length_m(self) -> float:
        """End to end. [m]"""
        return math.dist(self.start, self.end)

    def at(self, along_m: float, inward_m: float) -> Point:
        """Return a place so far along the wall and so far into the room. [m]"""
        share = along_m / self.length_m
        (x, y), (to_x, to_y) = self.start, self.end
        return (
            x + share * (to_x - x) + inward_m * self.inward[0],
            y + share * (to_y - y) + inward_m * self.inward[1],
        )


def faces(room: Room) -> tuple[Face, ...]:
    """Return every wall of a room. The walls of a rectangle run from the left or the back. [m]"""
    found: list[Face] = []
    middle = (room.width_m / 2, room.depth_m / 2)
    for line in room.lines:
        long = math.dist(line.start, line.end)
        left = ((line.start[1] - line.end[1]) / long, (line.end[0] - line.start[0]) / long)
        to_middle = (middle[0] - line.start[0]) * left[0] + (middle[1] - line.start[1]) * left[1]
        away = not room.walls and to_middle < 0.0
        inward = (-left[0] + 0.0, -left[1] + 0.0) if away else (left[0] + 0.0, left[1] + 0.0)
        found.append(Face(id=line.id, start=line.start, end=line.end, inward=inward))
    return tuple(found)


def along(wall: Face, start_m: float, end_m: float, deep_m: float) -> Convex | None:
    """Return the floor along part of a wall, so deep into the room. [m]"""
    return convex(
        (
            wall.at(start_m, 0.0),
            wall.at(end_m, 0.0),
            wall.at(end_m, deep_m),
            wall.at(start_m, deep_m),
        )
    )
