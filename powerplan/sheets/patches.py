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
    (x, y), (to_x, to_y) = start, end
    left, bottom, right, top = patch
    low, high = 0.0, 1.0
    for at, way, least, most in ((x, to_x - x, left, right), (y, to_y - y, bottom, top)):
        if way == 0:
            if not least <= at <= most:
                return None
            continue
        one, two = (least - at) / way, (most - at) / way
        if one > two:
            one, two = two, one
        if one > low:
            low = one
        if two < high:
            high = two
    return (low, high) if low < high else None


def span(start: Point, end: Point) -> Patch:
    """Return the smallest upright rectangle around two points. [mm]"""
    (x, y), (to_x, to_y) = start, end
    if x > to_x:
        x, to_x = to_x, x
    return Patch(x, y, to_x, to_y) if y <= to_y else Patch(x, to_y, to_x, y)


def any_over(patch: Patch, others: Iterable[Patch]) -> bool:
    """True when any of several rectangles shares paper with one; touching is not sharing."""
    left, low, right, high = patch
    for a, b, c, d in others:
        if a >= right or left >= c or b >= high or low >= d:
            continue
        return True
    return False


def those_near(patch: Patch, others: Iterable[Patch]) -> list[Patch]:
    """Return those of several rectangles that share paper with one, or touch it. [mm]"""
    left, low, right, high = patch
    return [
        other
        for other in others
        if other[0] <= right and left <= other[2] and other[1] <= high and low <= other[3]
    ]


class Shelf(Generic[T]):
    """Many things with a rectangle each, found by where they lie."""

    def __init__(self) -> None:
        self._cells: dict[tuple[int, int], list[tuple[Patch, T]]] = {}

    def put(self, thing: T, patch: Patch) -> None:
        """Keep a thing under every cell that its rectangle touches. [mm]"""
        for cell in _cells(patch):
            self._cells.setdefault(cell, []).append((patch, thing))

    def near(self, patch: Patch) -> list[T]:
        """Return each thing once whose rectangle overlaps or touches another. [mm]"""
        left, low, right, high = patch
        seen: dict[int, T] = {}
        for cell in _cells(patch):
            for (a, b, c, d), thing in self._cells.get(cell, ()):
                if a <= right and left <= c and b <= high and low <= d:
                    seen[id(thing)] = thing
        return list(seen.values())


def _cells(patch: Patch) -> list[tuple[int, int]]:
    left, low, right, high = patch
    lines = range(int(low / CELL_MM), int(high / CELL_MM) + 1)
    columns = range(int(left / CELL_MM), int(right / CELL_MM) + 1)
    return [(column, line) for column in columns for line in lines]
