"""Where along a cord its tag had best stand: where it lies alone, and near its middle."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from powerplan.model.geometry import Point

_SPOTS = 24
_KEPT = 7
_ALONE_MM = 3.0


def tag_anchors(
    path: Sequence[Point], others: Sequence[Sequence[Point]], mm_per_m: float
) -> tuple[Point, ...]:
    """Return places on a path, the best for a tag first.

    Parameters
    ----------
    path : sequence of Point
        The cord. [m]
    others : sequence of sequence of Point
        Every other cord of the drawing. [m]
    mm_per_m : float
        Paper for a meter of floor. [mm/m]
    """
    spots = _spots(path)
    near = [min(_ALONE_MM, _apart(spot, others) * mm_per_m) for _, spot in spots]
    order = sorted(
        range(len(spots)), key=lambda n: (-round(near[n], 1), round(abs(spots[n][0] - 0.5), 6), n)
    )
    kept: list[Point] = []
    for number in order:
        spot = spots[number][1]
        if all(math.dist(spot, other) * mm_per_m > _ALONE_MM for other in kept):
            kept.append(spot)
        if len(kept) == _KEPT:
            break
    return tuple(kept)


def _spots(path: Sequence[Point]) -> list[tuple[float, Point]]:
    """Points evenly along a path, each with the part of the way to it."""
    pieces = [(start, end, math.dist(start, end)) for start, end in pairwise(path)]
    whole = sum(length for _, _, length in pieces)
    if whole == 0:
        return [(0.5, path[0])]
    spots = []
    for number in range(1, _SPOTS):
        part = number / _SPOTS
        left = part * whole
        for start, end, length in pieces:
            if left <= length and length > 0:
                at = left / length
                x, y = start[0] + (end[0] - start[0]) * at, start[1] + (end[1] - start[1]) * at
                spots.append((part, (x, y)))
                break
            left -= length
    return spots


def _apart(spot: Point, others: Sequence[Sequence[Point]]) -> float:
    return min(
        (to_piece(spot, start, end) for other in others for start, end in pairwise(other)),
        default=math.inf,
    )


def to_piece(spot: Point, start: Point, end: Point) -> float:
    """Return how far a point is from a straight piece. [m]"""
    across, up = end[0] - start[0], end[1] - start[1]
    size = across * across + up * up
    if size == 0:
        return math.dist(spot, start)
    part = ((spot[0] - start[0]) * across + (spot[1] - start[1]) * up) / size
    part = min(1.0, max(0.0, part))
    return math.dist(spot, (start[0] + across * part, start[1] + up * part))
