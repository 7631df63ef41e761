"""The room as the file measures it, and the way from there to the finished walls."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from powerplan.model.spec import Room

Spot = tuple[Fraction, Fraction]

_FINEST = 10**6


@dataclass(frozen=True, slots=True, kw_only=True)
class FileWall:
    """One wall to the face that the file measures to, from its own corner to the next one. [m]"""

    id: str
    label: str
    start: Spot
    end: Spot

    @property
    def across(self) -> bool:
        """True where it runs square, left to right."""
        return self.start[1] == self.end[1]

    @property
    def ahead(self) -> bool:
        """True where it runs square, back to screen."""
        return self.start[0] == self.end[0]

    @property
    def length_m(self) -> Fraction:
        """From corner to corner; a slanted wall's to a billionth. [m]"""
        across, ahead = self.end[0] - self.start[0], self.end[1] - self.start[1]
        if not across or not ahead:
            return abs(across + ahead)
        return Fraction(math.hypot(across, ahead)).limit_denominator(10**9)

    def at(self, along_m: Fraction) -> Spot:
        """Return a place by its distance from the wall's own corner. [m]"""
        share = along_m / self.length_m
        return (
            self.start[0] + (self.end[0] - self.start[0]) * share,
            self.start[1] + (self.end[1] - self.start[1]) * share,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """A room and its walls as written. ``shift`` is where the finished room's frame begins, from
    the file's own back-left corner: nothing where the file measures to the finish. ``cornered``
    where the file has corners. [m]"""

    room: Room
    walls: tuple[FileWall, ...]
    shift: Spot
    cornered: bool

    def wall(self, name: str) -> FileWall:
        """Return the wall of that name, which there is."""
        return next(wall for wall in self.walls if wall.id == name)

    def inside(self, spot: Spot) -> Spot:
        """Return a place in the frame of the finished room. [m]"""
        return (spot[0] - self.shift[0], spot[1] - self.shift[1])

    def along_m(self, wall: str, spot: Spot) -> Fraction:
        """Return how far along a finished wall, from its start in the room's list of walls, a
        place stands square to it, no further than its ends. [m]"""
        line = self.room.line(wall)
        start = (Fraction(line.start[0]), Fraction(line.start[1]))
        run = (Fraction(line.end[0]) - start[0], Fraction(line.end[1]) - start[1])
        here = self.inside(spot)
        off = (here[0] - start[0], here[1] - start[1])
        square = not run[0] or not run[1]
        length = abs(run[0] + run[1]) if square else Fraction(math.hypot(*run))
        along = (off[0] * run[0] + off[1] * run[1]) / length
        return min(max(along, Fraction(0)), length)

    def on_wall(self, wall: str, along_m: Fraction) -> tuple[float, float]:
        """Return a place on a finished wall on the grid of one micrometer, never outside. [m]"""
        line = self.room.line(wall)
        length_m = math.dist(line.start, line.end)
        ways = ((line.end[0] - line.start[0]) / length_m, (line.end[1] - line.start[1]) / length_m)
        x_m = line.start[0] + ways[0] * float(along_m)
        y_m = line.start[1] + ways[1] * float(along_m)
        if not ways[0] or not ways[1]:
            return (round(x_m, 6) + 0.0, round(y_m, 6) + 0.0)
        around = [
            ((math.floor(x_m * _FINEST) + i) / _FINEST, (math.floor(y_m * _FINEST) + j) / _FINEST)
            for i in (-1, 0, 1, 2)
            for j in (-1, 0, 1, 2)
        ]
        inner = [
            spot
            for spot in around
            if ways[0] * (spot[1] - line.start[1]) - ways[1] * (spot[0] - line.start[0]) >= 0.0
        ]
        return min(inner, key=lambda spot: (math.dist(spot, (x_m, y_m)), spot))
