"""Upright rectangles of paper, and a way to find quickly which of them lie near."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Generic, NamedTuple, TypeVar

from powerplan.model.geometry import Point

CELL_MM = 12.0

T = TypeVar("T")


class Patch(NamedTuple):
    """An upright rectangle of paper. [mm]"""

    left: float
    low: float
    right: float
    high: float

    @property
    def middle(self) -> Point:
        """Its middle. [mm]"""
        return ((self.left + self.right) / 2, (self.low + self.high) / 2)

    def overlaps(self, other: Patch) -> bool:
        """True when the two share paper; touching is not sharing."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.low < other.high
            and other.low < self.high
        )

    def holds(self, other: Patch) -> bool:
        """True when ``other`` lies wholly inside."""
        return (
            self.left <= other.left
            and other.right <= self.right
            and self.low <= other.low
            and other.high <= self.high
        )

    def grown(self, by_mm: float) -> Patch:
        """The rectangle with so much more on every side. [mm]"""
        return Patch(self.left - by_mm, self.low - by_mm, self.right + by_mm, self.high + by_mm)

    def nearest(self, point: Point) -> Point:
        """The place of the rectangle nearest to a point. [mm]"""
        x, y = point
        return (min(max(x, self.left), self.right), min(max(y, self.low), self.high))


def around(points: Iterable[Point]) -> Patch:
    """Return the smallest upright rectangle around points. [mm]"""
    xs, ys = zip(*points, strict=True)
    return Patch(min(xs), min(ys), max(xs), max(ys))


def within(start: Point, end: Point, patch: Patch) -> tuple[float, float] | None:
    """Return which part of a straight piece lies in a rectangle, 0 at its start and 1 at its end.

    None where none of it does. [any length, one unit]
    """
    low, high = 0.0, 1.0
    for axis, (least, most) in enumerate(((patch.left, patch.right), (patch.low, patch.high))):
        way = end[axis] - start[axis]
        if way == 0:
            if not least <= start[axis] <= most:
                return None
            continue
        one, two = (least - start[axis]) / way, (most - start[axis]) / way
        low, high = max(low, min(one, two)), min(high, max(one, two))
    return (low, high) if low < high else None


class Shelf(Generic[T]):
    """Things with a rectangle each, found by where they lie."""

    def __init__(self) -> None:
        self._cells: dict[tuple[int, int], list[tuple[Patch, T]]] = {}

    def put(self, thing: T, patch: Patch) -> None:
        """Keep a thing under every cell that its rectangle touches. [mm]"""
        for cell in _cells(patch):
            self._cells.setdefault(cell, []).append((patch, thing))

    def drop(self, thing: T, patch: Patch) -> None:
        """Take back what was put. [mm]"""
        for cell in _cells(patch):
            self._cells[cell].remove((patch, thing))

    def near(self, patch: Patch) -> list[T]:
        """Return each thing once whose rectangle overlaps or touches another. [mm]"""
        left, low, right, high = patch
        seen: dict[int, T] = {}
        for cell in _cells(patch):
            for (a, b, c, d), thing in self._cells.get(cell, ()):
                if a <= right and left <= c and b <= high and low <= d:
                    seen[id(thing)] = thing
        return list(seen.values())

    def any_over(self, patch: Patch) -> bool:
        """True when the rectangle of anything shares paper with another. [mm]"""
        left, low, right, high = patch
        for cell in _cells(patch):
            for (a, b, c, d), _ in self._cells.get(cell, ()):
                if a < right and left < c and b < high and low < d:
                    return True
        return False


def _cells(patch: Patch) -> list[tuple[int, int]]:
    # Asked tens of thousands of times for a set of sheets; nearly always for one to four cells.
    left, low, right, high = patch
    lines = range(int(low // CELL_MM), int(high // CELL_MM) + 1)
    columns = range(int(left // CELL_MM), int(right // CELL_MM) + 1)
    return [(column, line) for column in columns for line in lines]
