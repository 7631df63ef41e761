"""A way that was found for a cord, or why there is none."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Protocol

from powerplan.model.geometry import Point


class Measurer(Protocol):
    """What can say how long and how clear a path is."""

    def measure(self, path: tuple[Point, ...]) -> Route:
        """Return the path with everything that was measured along it.

        Parameters
        ----------
        path : tuple of Point
            At least two points. [m]
        """


@dataclass(frozen=True, slots=True, kw_only=True)
class Route:
    """A path for a cord's center line.

    ``length_m`` is in plan and ``rises_m`` is what steps add; the height of a wall outlet is in
    neither. ``clearance_m`` is the least distance from the path to raw pinch zones and obstacles,
    less the cord's radius; the room's diagonal where there are none. ``floor`` can measure any
    part of the path again. [m]
    """

    path: tuple[Point, ...]
    length_m: float
    rises_m: float
    open_floor_m: float
    clearance_m: float
    floor: Measurer | None = field(default=None, repr=False, compare=False)

    @property
    def way_m(self) -> float:
        """Length in plan and steps together. [m]"""
        return self.length_m + self.rises_m


@dataclass(frozen=True, slots=True, kw_only=True)
class NoWay:
    """Why no cord can run here: the rule that stops it, the value found and the limit, in the
    rule's unit, and one sentence for the reader."""

    rule: str
    value: float | None
    limit: float | None
    words: str
