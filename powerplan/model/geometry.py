"""Plain shapes in the room frame.

The room frame has its origin at the back-left corner of the room: x to the right along the back
wall, y from the back wall toward the screen, both in meters. People never see these axes.
"""

from __future__ import annotations

from dataclasses import dataclass

from powerplan.model.lengths import micrometers

Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rect:
    """An upright rectangle of floor; ``left_m < right_m`` and ``back_m < front_m``. [m]"""

    left_m: float
    right_m: float
    back_m: float
    front_m: float

    @property
    def width_m(self) -> float:
        """Left to right. [m]"""
        return self.right_m - self.left_m

    @property
    def depth_m(self) -> float:
        """Back to front. [m]"""
        return self.front_m - self.back_m

    @property
    def middle(self) -> Point:
        """The middle of the rectangle. [m]"""
        return ((self.left_m + self.right_m) / 2, (self.back_m + self.front_m) / 2)

    @property
    def outline(self) -> tuple[Point, ...]:
        """Four corners, counter-clockwise from the back left. [m]"""
        return (
            (self.left_m, self.back_m),
            (self.right_m, self.back_m),
            (self.right_m, self.front_m),
            (self.left_m, self.front_m),
        )

    def has(self, point: Point) -> bool:
        """True when a point lies inside or on an edge. [m]"""
        x, y = point
        return self.left_m <= x <= self.right_m and self.back_m <= y <= self.front_m

    def overlaps(self, other: Rect) -> bool:
        """True when the two share floor; a shared edge is not shared floor (to 1 um)."""
        return (
            micrometers(self.left_m) < micrometers(other.right_m)
            and micrometers(other.left_m) < micrometers(self.right_m)
            and micrometers(self.back_m) < micrometers(other.front_m)
            and micrometers(other.back_m) < micrometers(self.front_m)
        )

    def holds(self, other: Rect) -> bool:
        """True when ``other`` lies wholly inside, edges included (to 1 um)."""
        return (
            micrometers(self.left_m) <= micrometers(other.left_m)
            and micrometers(other.right_m) <= micrometers(self.right_m)
            and micrometers(self.back_m) <= micrometers(other.back_m)
            and micrometers(other.front_m) <= micrometers(self.front_m)
        )
