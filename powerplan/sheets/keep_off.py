"""To which sides a place of a cord may be rounded: off hatched floor and walkways, never nearer."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import pairwise
from typing import Any, NamedTuple

import shapely

from powerplan.model.geometry import Point
from powerplan.model.lengths import micrometers
from powerplan.model.plan import Plan

_TOUCH_M = 1e-6
_REACH_M = 0.02

Key = tuple[int, int]


class Body(NamedTuple):
    """A straight piece of cord, or the floor of a coil, and the places that are told of it.

    ``line`` is the piece's two ends or the coil's outline; ``told`` are the ends of the piece that
    are told, or the middle of the coil. [m]
    """

    line: tuple[Point, ...]
    told: tuple[Point, ...]


class Kept(NamedTuple):
    """Floor that is kept off: its outline, how far off it cords are, how far off it is better, and
    how far it moves with the chair that is set on marks of a tape. [m]"""

    outline: tuple[Point, ...]
    keep_m: float
    better_m: float
    moved_m: Point = (0.0, 0.0)


class Side(NamedTuple):
    """A half-plane that a told place stays in: at least ``least_m`` along a way of unit length, and
    better ``better_m``. [m]"""

    way: Point
    least_m: float
    better_m: float

    def over_m(self, spot: Point, *, better: bool = False) -> float:
        """Return how far inside a place is; negative outside. [m]"""
        along_m = self.way[0] * spot[0] + self.way[1] * spot[1]
        return along_m - (self.better_m if better else self.least_m)


Sides = Mapping[Key, tuple[Side, ...]]


def key_of(point: Point) -> Key:
    """Return a place in whole micrometers. [um]"""
    return (micrometers(point[0]), micrometers(point[1]))


def sides_of(
    bodies: Iterable[Body], hatched: Iterable[Kept], plan: Plan
) -> dict[Key, tuple[Side, ...]]:
    """Return for each told place the half-planes in which it may be rounded.

    Between two things that are apart, a strip as wide as they are apart lies square to the shortest
    line between them. As long as every told end of a piece stays on its own side of the strip, the
    whole piece does.

    Parameters
    ----------
    bodies : iterable of Body
        What is laid. [m]
    hatched : iterable of Kept
        Outlines that are kept off, by each of their sides. [m]
    plan : Plan
        For its walkways.
    """
    laid, found = tuple(bodies), dict[Key, list[Side]]()
    for body, side in (*_off_hatched(laid, tuple(hatched)), *_off_walkways(laid, plan)):
        for told in body.told:
            within_m = _beyond_m(told, body, side.way)
            moved = Side(side.way, side.least_m + within_m, side.better_m + within_m)
            found.setdefault(key_of(told), []).append(moved)
    return {key: tuple(sides) for key, sides in found.items()}


def _beyond_m(told: Point, body: Body, way: Point) -> float:
    """How far the told middle of a coil is beyond its nearest side; an end of a piece is told
    itself. [m]"""
    if told in body.line:
        return 0.0
    return _along(told, way) - min(_along(corner, way) for corner in body.line)


def _off_hatched(bodies: tuple[Body, ...], hatched: tuple[Kept, ...]) -> list[tuple[Body, Side]]:
    edges = [(kept, edge) for kept in hatched for edge in _edges(kept.outline)]
    lines = [_shape(body.line) for body in bodies]
    if not edges or not lines:
        return []
    shapes = shapely.linestrings([edge for _, edge in edges])
    reach_m = max(kept.better_m for kept in hatched) + _REACH_M
    tree = shapely.STRtree(shapes)
    pairs = tree.query(lines, predicate="dwithin", distance=reach_m).T
    between = shapely.shortest_line([lines[i] for i, _ in pairs], shapes[[j for _, j in pairs]])
    found = []
    for (i, j), line in zip(pairs, between, strict=True):
        apart_m = float(line.length)
        if apart_m <= _TOUCH_M:
            continue
        (x, y), (edge_x, edge_y) = line.coords
        way, kept = ((x - edge_x) / apart_m, (y - edge_y) / apart_m), edges[j][0]
        at_m = _along((edge_x, edge_y), way) + max(0.0, _along(kept.moved_m, way))
        least_m = min(apart_m, kept.keep_m)
        better_m = kept.better_m if apart_m >= kept.keep_m - _TOUCH_M else least_m
        found.append((bodies[i], Side(way, at_m + least_m, at_m + better_m)))
    return found


def _off_walkways(bodies: tuple[Body, ...], plan: Plan) -> list[tuple[Body, Side]]:
    """Along a walkway a cord may touch it: the side of it on which the piece lies, or the piece's
    own line where it passes a corner."""
    found = []
    for body in bodies:
        ways = [(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0)]
        (x, y), (to_x, to_y) = body.line[:2]
        long_m = max(((to_x - x) ** 2 + (to_y - y) ** 2) ** 0.5, _TOUCH_M)
        across = ((y - to_y) / long_m, (to_x - x) / long_m)
        for area in plan.spec.walkways:
            for way in (*ways, across, (-across[0], -across[1])):
                at_m = max(_along(corner, way) for corner in area.rect.outline)
                off_m = min(_along(point, way) for point in body.line) - at_m
                if -_TOUCH_M <= off_m <= _REACH_M:
                    found.append((body, Side(way, at_m, at_m)))
                if off_m >= -_TOUCH_M:
                    break
    return found


def _along(point: Point, way: Point) -> float:
    return point[0] * way[0] + point[1] * way[1]


def _edges(outline: tuple[Point, ...]) -> list[tuple[Point, Point]]:
    return [edge for edge in pairwise((*outline, outline[0])) if edge[0] != edge[1]]


def _shape(line: tuple[Point, ...]) -> Any:
    return shapely.LineString(line) if len(line) == 2 else shapely.Polygon(line)
