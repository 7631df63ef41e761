"""The chalk line of a row, or the arc on which it stands and the straight line under the arc."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from powerplan.model.geometry import Point
from powerplan.model.spec import Curve
from powerplan.sheets.stands import Stand

_MEET_M = 1e-4
_STATION_RAD = math.radians(2.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Chalk:
    """A straight chalk line from ``left`` to ``right``, as sitters look.

    Of a straight row it lies along the rear of the bases. Of a row on an arc it is the straight
    line between the arc's two ends; ``radius_m`` is then the arc's radius, ``middle`` its middle,
    and ``touch`` tells whether neighbors touch on it at the front or the back. [m]
    """

    left: Point
    right: Point
    radius_m: float | None = None
    middle: Point = (0.0, 0.0)
    touch: str = ""

    @property
    def length_m(self) -> float:
        """From end to end, straight. [m]"""
        return math.dist(self.left, self.right)

    def place(self, point: Point) -> Point:
        """Return how far along the line from its left end a point is, and how far ahead of it.
        [m]"""
        (right, ahead), (x, y) = self._way, point
        x, y = x - self.left[0], y - self.left[1]
        return (x * right + y * ahead, -x * ahead + y * right)

    def at(self, along_m: float, ahead_m: float) -> Point:
        """Return the room's point for a place along and ahead of the line. [m]"""
        right, ahead = self._way
        x, y = self.left
        return (x + along_m * right - ahead_m * ahead, y + along_m * ahead + ahead_m * right)

    @property
    def _way(self) -> Point:
        long_m = self.length_m
        return (
            (self.right[0] - self.left[0]) / long_m,
            (self.right[1] - self.left[1]) / long_m,
        )

    @property
    def deepest_m(self) -> float:
        """How far behind the straight line an arc is at its deepest; 0 for a line. [m]"""
        if self.radius_m is None:
            return 0.0
        return self.radius_m - self.place(self.middle)[1]

    def stations(self) -> tuple[Point, ...]:
        """Return points along the arc from left to right, close enough to draw it. [m]"""
        if self.radius_m is None:
            return (self.left, self.right)
        x, y = self.middle
        start, end = (math.atan2(p[1] - y, p[0] - x) for p in (self.left, self.right))
        turn = (end - start) % math.tau
        steps = max(1, math.ceil(turn / _STATION_RAD))
        angles = (start + turn * step / steps for step in range(steps + 1))
        return tuple(
            (x + self.radius_m * math.cos(a), y + self.radius_m * math.sin(a)) for a in angles
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """A place on an arc where things touch, and what is on its two sides: empty for none. [m]"""

    left_of_it: str
    right_of_it: str
    at: Point


def chalk_of(stands: Sequence[Stand], curve: Curve | None) -> Chalk:
    """Return the chalk line of a row, or its arc with the straight line under it.

    Parameters
    ----------
    stands : sequence of Stand
        What stands in the row, from the left; one at least.
    curve : Curve, optional
        The arc, where it stands on one. [m]
    """
    first, last = stands[0], stands[-1]
    if curve is None:
        rear_m = min(one.rear_m for one in stands)
        return Chalk(left=first.at(-first.left_m, rear_m), right=last.at(last.right_m, rear_m))
    chair = next(one for one in stands if one.seat is not None)
    touch_m = _touch_m(stands, curve)
    deep_m = math.sqrt(max(0.0, curve.radius_m**2 - (chair.width_m / 2) ** 2))
    return Chalk(
        left=first.at(-first.left_m, touch_m),
        right=last.at(last.right_m, touch_m),
        radius_m=curve.radius_m,
        middle=chair.at((chair.right_m - chair.left_m) / 2, touch_m + deep_m),
        touch=curve.touch,
    )


def marks_on(stands: Sequence[Stand], curve: Curve) -> tuple[Mark, ...]:
    """Return the places on an arc where what stands there touches, from the left.

    Parameters
    ----------
    stands : sequence of Stand
        What stands in the row, from the left.
    curve : Curve
        The arc. [m]
    """
    touch_m = _touch_m(stands, curve)
    found = [
        Mark(left_of_it="", right_of_it=stands[0].name, at=stands[0].at(-stands[0].left_m, touch_m))
    ]
    for one, other in pairwise(stands):
        ends = (one.at(one.right_m, touch_m), other.at(-other.left_m, touch_m))
        if math.dist(*ends) < _MEET_M:
            found.append(Mark(left_of_it=one.name, right_of_it=other.name, at=ends[0]))
        else:
            found.append(Mark(left_of_it=one.name, right_of_it="", at=ends[0]))
            found.append(Mark(left_of_it="", right_of_it=other.name, at=ends[1]))
    last = stands[-1]
    found.append(Mark(left_of_it=last.name, right_of_it="", at=last.at(last.right_m, touch_m)))
    return tuple(found)


def _touch_m(stands: Sequence[Stand], curve: Curve) -> float:
    """How far ahead of the headrests neighbors touch: by the kind of the first seat. [m]"""
    chair = next(one for one in stands if one.seat is not None)
    return chair.front_m if curve.touch == "front" else chair.rear_m
