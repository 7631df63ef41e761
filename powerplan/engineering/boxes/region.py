"""Exact floor arithmetic for box middles, in whole half-micrometers.

Halves of lids, cut-outs and joists of whole micrometers are whole numbers here, so that "exactly
fits" is exact. Allowed floor is closed: a middle may stand on its very edge, and what is left of it
may be a line or a point. Holes are open.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise
from typing import NamedTuple

from powerplan.model.geometry import Point, Rect

TICKS_PER_UM = 2
_TICKS_PER_M = 2_000_000

Spot = tuple[int, int]
_Span = tuple[int, int]


class Cell(NamedTuple):
    """An upright rectangle in ticks; it may be as thin as a line or a point. [tick]"""

    left: int
    right: int
    back: int
    front: int

    def grown(self, sides: int, ends: int) -> Cell:
        """The cell with ``sides`` more left and right and ``ends`` more back and front. [tick]"""
        return Cell(self.left - sides, self.right + sides, self.back - ends, self.front + ends)

    def holds(self, spot: Spot) -> bool:
        """True for a spot inside or on the edge. [tick]"""
        return self.left <= spot[0] <= self.right and self.back <= spot[1] <= self.front

    def surrounds(self, spot: Spot) -> bool:
        """True for a spot strictly inside. [tick]"""
        return self.left < spot[0] < self.right and self.back < spot[1] < self.front

    def cuts_into(self, other: Cell) -> bool:
        """True where the inside of this one takes something away from the other, closed. [tick]"""
        return (
            self.left < other.right
            and other.left < self.right
            and self.back < other.front
            and other.back < self.front
            and self.left < self.right
            and self.back < self.front
        )

    @property
    def empty(self) -> bool:
        """True when not even a point is left."""
        return self.left > self.right or self.back > self.front


class Region(NamedTuple):
    """Where a middle may stand: a closed cell less open holes. [tick]"""

    clip: Cell
    holes: tuple[Cell, ...]

    def holds(self, spot: Spot) -> bool:
        """True where a middle may stand. [tick]"""
        return self.clip.holds(spot) and not any(hole.surrounds(spot) for hole in self.holes)


def ticks(length_m: float) -> int:
    """Return a length in half-micrometers.

    Parameters
    ----------
    length_m : float
        Any length on the plan's grid of one micrometer, or half of one. [m]
    """
    return round(length_m * _TICKS_PER_M)


def meters(length: int) -> float:
    """Return half-micrometers as meters.

    Parameters
    ----------
    length : int
        Any length. [half micrometer]
    """
    return length / _TICKS_PER_M


def cell(rect: Rect) -> Cell:
    """Return a rectangle in ticks.

    Parameters
    ----------
    rect : Rect
        The rectangle. [m]
    """
    return Cell(ticks(rect.left_m), ticks(rect.right_m), ticks(rect.back_m), ticks(rect.front_m))


def place(spot: Spot) -> Point:
    """Return a spot as a point of the room.

    Parameters
    ----------
    spot : tuple of int
        The spot. [half micrometer]
    """
    return (meters(spot[0]), meters(spot[1]))


def pieces(region: Region) -> tuple[Cell, ...]:
    """Return closed cells whose union is a region; lines and points that are left count too.

    Rows of cells and columns of cells are both tried and the fewer are given.

    Parameters
    ----------
    region : Region
        Where a middle may stand. [half micrometer]

    Returns
    -------
    tuple of Cell
        From the left, then the back; they may touch, never overlap. [half micrometer]
    """
    if region.clip.empty:
        return ()
    rows = _rows(region)
    turned = _rows(Region(_turned(region.clip), tuple(map(_turned, region.holes))))
    columns = [_turned(one) for one in turned]
    return tuple(sorted(rows if len(rows) <= len(columns) else columns))


def nearest(parts: Iterable[Cell], ideal: Spot, step: int) -> Spot | None:
    """Return the spot of a step's grid nearest an ideal, ties to the left, then to the back.

    Parameters
    ----------
    parts : iterable of Cell
        Where a middle may stand, as ``pieces`` gives it. [half micrometer]
    ideal : tuple of int
        Where it would stand best. [half micrometer]
    step : int
        The grid from the room's back-left corner; 1 for every spot. [half micrometer]

    Returns
    -------
    tuple of int or None
        None where no spot of the grid lies in any part. [half micrometer]
    """
    spots = []
    for part in parts:
        x = nearest_step(part.left, part.right, ideal[0], step)
        y = nearest_step(part.back, part.front, ideal[1], step)
        if x is not None and y is not None:
            spots.append((x, y))
    return min(spots, key=lambda spot: (squared(spot, ideal), spot), default=None)


def nearest_step(low: int, high: int, ideal: int, step: int) -> int | None:
    """Return the multiple of a step within limits that is nearest an ideal, ties to the lower.

    Parameters
    ----------
    low, high : int
        The limits, both allowed. [half micrometer]
    ideal : int
        What it should be near. [half micrometer]
    step : int
        The step. [half micrometer]
    """
    first, last = -(-low // step) * step, high // step * step
    if first > last:
        return None
    wanted = min(max(ideal, first), last)
    below = wanted // step * step
    return below if 2 * (wanted - below) <= step else below + step


def squared(spot: Spot, other: Spot) -> int:
    """Return the square of the distance between two spots.

    Parameters
    ----------
    spot, other : tuple of int
        The spots. [half micrometer]
    """
    return (spot[0] - other[0]) ** 2 + (spot[1] - other[1]) ** 2


def largest_around(region: Region, spot: Spot) -> Cell:
    """Return the cell of largest area that holds a spot and lies wholly in a region.

    Every width between edges of the clip and the holes is tried, at its deepest. Of equal areas the
    one with the longer sides wins, then the one that leaves most on its tightest side, then the one
    more to the left and back.

    Parameters
    ----------
    region : Region
        Where a middle may stand. [half micrometer]
    spot : tuple of int
        A spot of the region. [half micrometer]
    """
    clip = region.clip
    holes = tuple(hole for hole in region.holes if hole.cuts_into(clip))
    across = {x for hole in holes for x in (hole.left, hole.right) if clip.left <= x <= clip.right}
    across |= {clip.left, clip.right, spot[0]}
    found = (_deepest(clip, holes, spot, span) for span in _around(across, spot[0]))
    return max((one for one in found if one is not None), key=lambda one: _worth(one, spot))


def _around(edges: set[int], middle: int) -> list[_Span]:
    return [(a, b) for a in edges if a <= middle for b in edges if b >= middle]


def _deepest(clip: Cell, holes: tuple[Cell, ...], spot: Spot, span: _Span) -> Cell | None:
    """The deepest free cell of one width that holds a spot; None where a hole is in its way."""
    (left, right), (back, front) = span, (clip.back, clip.front)
    for hole in holes:
        if hole.left >= right or hole.right <= left:
            continue
        if hole.back < spot[1] < hole.front:
            return None
        if hole.front <= spot[1]:
            back = max(back, hole.front)
        else:
            front = min(front, hole.back)
    return Cell(left, right, back, front)


def _worth(one: Cell, spot: Spot) -> tuple[int, ...]:
    width, depth = one.right - one.left, one.front - one.back
    sides = (spot[0] - one.left, one.right - spot[0], spot[1] - one.back, one.front - spot[1])
    return (width * depth, width + depth, min(sides), -one.left, -one.back)


def _rows(region: Region) -> list[Cell]:
    """Cells as wide as they can be, joined toward the front where their sides are the same."""
    clip, holes = region
    ends = {y for hole in holes for y in (hole.back, hole.front) if clip.back < y < clip.front}
    lines = sorted(ends | {clip.back, clip.front})
    done: list[Cell] = []
    for back, front in pairwise(lines):
        spans = _spans(clip, holes, back + front, 2)
        joined: list[Cell] = []
        for left, right in spans:
            behind = next(
                (c for c in done if (c.left, c.right, c.front) == (left, right, back)), None
            )
            if behind is not None:
                done.remove(behind)
            start = back if behind is None else behind.back
            joined.append(Cell(left, right, start, front))
        done.extend(joined)
    for line in lines:
        for left, right in _spans(clip, holes, line, 1):
            if not _covered(left, right, line, done):
                done.append(Cell(left, right, line, line))
    return done


def _spans(clip: Cell, holes: tuple[Cell, ...], level: int, scale: int) -> list[_Span]:
    """The closed stretches left at the depth ``level / scale``, holes being open."""
    cuts = sorted(
        (hole.left, hole.right)
        for hole in holes
        if hole.back * scale < level < hole.front * scale and hole.left < hole.right
    )
    spans: list[_Span] = []
    start = clip.left
    for left, right in cuts:
        if right <= start:
            continue
        if left >= start:
            spans.append((start, min(left, clip.right)))
        start = max(start, right)
        if start > clip.right:
            break
    if start <= clip.right:
        spans.append((start, clip.right))
    return [span for span in spans if span[0] <= span[1]]


def _covered(left: int, right: int, line: int, cells: list[Cell]) -> bool:
    """True when cells that reach a line hold all of a stretch of it between them."""
    reach = left
    spans = sorted((c.left, c.right) for c in cells if c.back <= line <= c.front)
    touched = False
    for start, end in spans:
        if start > reach or end < reach:
            continue
        touched, reach = True, max(reach, end)
    return touched and reach >= right


def _turned(one: Cell) -> Cell:
    return Cell(one.back, one.front, one.left, one.right)
