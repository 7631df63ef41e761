"""Where along a cord its tag had best stand: where it lies alone, and near its middle."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby, pairwise
from typing import NamedTuple

from powerplan.model.geometry import Point

_SPOTS = 24
_KEPT = 7
_ALONE_MM = 3.0
# Cords nearer than this lie on one line; a shared stretch that is shorter on paper has no tag.
_SAME_M, _SHARED_MM = 0.002, 8.0
_LEAVING_MM = 70.0


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


class Tagged(NamedTuple):
    """A stretch of floor and the cords that lie along it, one or more side by side. [m]"""

    cords: tuple[str, ...]
    path: tuple[Point, ...]


def tagged_stretches(
    seen: Sequence[tuple[str, Sequence[Point]]],
    whole: Mapping[str, Sequence[Point]],
    mm_per_m: float,
) -> tuple[Tagged, ...]:
    """Return the stretches that ask for a tag: of each cord one where it lies alone, and one where
    cords lie on one line, so that a tag never reads as if one followed on another.

    Parameters
    ----------
    seen : sequence of (str, sequence of Point)
        Each piece of a cord that is drawn, with its name. [m]
    whole : mapping
        Every cord of the drawing by name, from end to end. [m]
    mm_per_m : float
        Paper for a meter of floor. [mm/m]
    """
    longest: dict[tuple[str, ...], Tagged] = {}
    for name, path in seen:
        for run in _runs(name, path, whole):
            known = longest.get(run.cords)
            if known is None or _long_m(run.path) > _long_m(known.path) + _SAME_M:
                longest[run.cords] = run
    kept, named = list[Tagged](), set[str]()
    for run in sorted(longest.values(), key=lambda one: (len(one.cords), one.cords)):
        new = not named.issuperset(run.cords)
        if len(run.cords) == 1 or new or _long_m(run.path) * mm_per_m >= _SHARED_MM:
            kept.append(run)
            named.update(run.cords)
    return tuple(kept)


def leaving(
    seen: Sequence[tuple[str, Sequence[Point]]],
    whole: Mapping[str, Sequence[Point]],
    tagged: Sequence[Tagged],
    mm_per_m: float,
) -> tuple[Tagged, ...]:
    """Return a short stretch before each place where cords leave the drawing, but on a short piece
    that has its tag already.

    Parameters
    ----------
    seen : sequence of (str, sequence of Point)
        Each piece of a cord that is drawn, with its name. [m]
    whole : mapping
        Every cord of the drawing by name, from end to end. [m]
    tagged : sequence of Tagged
        The stretches that have a tag. [m]
    mm_per_m : float
        Paper for a meter of floor. [mm/m]
    """
    found = dict[tuple[tuple[str, ...], float, float], Tagged]()
    for name, path in seen:
        near = _long_m(path) * mm_per_m < _LEAVING_MM
        for way, end in ((path[::-1], whole[name][-1]), (path, whole[name][0])):
            if math.dist(way[0], end) <= _SAME_M:
                continue
            run = next(_runs(name, way, whole))
            told = any(
                one.cords == run.cords and _apart(one.path[0], (path,)) < _SAME_M for one in tagged
            )
            if not (near and told):
                key = (run.cords, round(way[0][0], 3), round(way[0][1], 3))
                found.setdefault(key, Tagged(run.cords, run.path[: _SPOTS // 5]))
    return tuple(found.values())


def _runs(
    name: str, path: Sequence[Point], whole: Mapping[str, Sequence[Point]]
) -> Iterator[Tagged]:
    """A path parted where other cords come to lie on it, or leave it."""
    told = [(_along(at, name, whole), at) for _, at in _spots(path)]
    for cords, run in groupby(told, key=lambda one: one[0]):
        spots = tuple(at for _, at in run)
        yield Tagged(cords, spots if len(spots) > 1 else (*spots, *spots))


def _along(at: Point, name: str, whole: Mapping[str, Sequence[Point]]) -> tuple[str, ...]:
    """The cords that lie at a place of a cord, itself first of all."""
    return tuple(
        other for other, path in whole.items() if other == name or _apart(at, (path,)) < _SAME_M
    )


def _long_m(path: Sequence[Point]) -> float:
    return math.fsum(math.dist(*piece) for piece in pairwise(path))
