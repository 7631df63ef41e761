"""Where a shortest path can bend: the corners of a shape that point into it."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

import shapely
from shapely.geometry.polygon import orient

from powerplan.engineering.cords.floor import Shape
from powerplan.model.geometry import Point

Wedge = tuple[Point, Point]

# Directions whose sine is smaller than this are one direction.
_STRAIGHT = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Corner:
    """A place where a path may bend.

    ``wedges`` are the two directions of the edges that meet there; a shortest path bends only
    around them. Without wedges it may bend in any way. [m]
    """

    point: Point
    wedges: tuple[Wedge, ...] = ()

    def taut(self, toward: Point) -> bool:
        """Return True when a taut cord from here toward another place can bend here.

        Parameters
        ----------
        toward : Point
            Where it goes. [m]
        """
        if not self.wedges:
            return True
        way = (toward[0] - self.point[0], toward[1] - self.point[1])
        least = _STRAIGHT * math.hypot(*way)
        for one, other in self.wedges:
            left, right = _cross(way, one), _cross(way, other)
            if abs(left) <= least or abs(right) <= least or (left > 0) == (right > 0):
                return True
        return False


def bends(shape: Shape) -> dict[Point, tuple[Wedge, ...]]:
    """Return the corners of a shape that point into it, with the edges that meet there.

    A point where the shape touches itself or another of its parts is one too, without edges: a
    path may pass there in any way.

    Parameters
    ----------
    shape : shapely geometry
        Floor with areas only. [m]

    Returns
    -------
    dict
        Wedges by place. [m]
    """
    found: dict[Point, list[Wedge]] = {}
    seen: Counter[Point] = Counter()
    for ring in rings(shape):
        seen.update(ring)
        for n, here in enumerate(ring):
            back, on = _unit(here, ring[n - 1]), _unit(here, ring[(n + 1) % len(ring)])
            if _cross(back, on) > _STRAIGHT:
                found.setdefault(here, []).append((back, on))
    touching = {point: () for point, count in seen.items() if count > 1}
    return {point: tuple(wedges) for point, wedges in found.items()} | touching


def rings(shape: Shape) -> Iterable[tuple[Point, ...]]:
    """Yield every ring of a shape, its floor on the left hand as one goes round.

    Parameters
    ----------
    shape : shapely geometry
        Floor with areas only. [m]
    """
    for part in map(orient, shapely.get_parts(shape)):
        for ring in (part.exterior, *part.interiors):
            yield tuple((float(x), float(y)) for x, y in ring.coords[:-1])


def straightened(path: Iterable[Point]) -> tuple[Point, ...]:
    """Return a path without repeated points and without points at which it does not bend.

    Parameters
    ----------
    path : iterable of Point
        A path of at least one point. [m]

    Returns
    -------
    tuple of Point
        At least two points, the first and last as they were. [m]
    """
    points = list(path)
    kept = [points[0]]
    for here, on in pairwise(points[1:]):
        back = kept[-1]
        if here in (back, on):
            continue
        if abs(_cross(_unit(back, here), _unit(here, on))) > _STRAIGHT:
            kept.append(here)
    return (*kept, points[-1])


def _unit(start: Point, end: Point) -> Point:
    length_m = math.dist(start, end)
    return ((end[0] - start[0]) / length_m, (end[1] - start[1]) / length_m)


def _cross(one: Point, other: Point) -> float:
    return one[0] * other[1] - one[1] * other[0]
