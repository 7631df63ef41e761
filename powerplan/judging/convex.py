"""Convex pieces of floor, kept as corners and as the straight sides around them.

All lengths are meters in the room frame. Nothing here is shared with the planner.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from powerplan.model.geometry import Point, Rect

Side = tuple[float, float, float]
Segment = tuple[Point, Point]

_SAME_M = 1e-9
_SLIVER_M = 2e-7


@dataclass(frozen=True, slots=True)
class Convex:
    """A convex piece of floor. ``corners`` go counter-clockwise; each of ``sides`` is a unit vector
    pointing out of the piece and how far along it the side lies. [m]"""

    corners: tuple[Point, ...]
    sides: tuple[Side, ...]

    @property
    def area_m2(self) -> float:
        """Its floor. [m2]"""
        return signed_area_m2(self.corners)

    @property
    def around_m(self) -> float:
        """The length of its edge. [m]"""
        return math.fsum(math.dist(a, b) for a, b in edges(self.corners))

    @property
    def middle(self) -> Point:
        """The mean of its corners: the middle of a rectangle, turned or not. [m]"""
        count = len(self.corners)
        return (
            math.fsum(x for x, _ in self.corners) / count,
            math.fsum(y for _, y in self.corners) / count,
        )


def edges(corners: Sequence[Point]) -> list[Segment]:
    """Return the straight pieces around an outline. [m]"""
    return list(pairwise([*corners, *corners[:1]]))


def signed_area_m2(corners: Sequence[Point]) -> float:
    """Return the area inside an outline, negative where it goes clockwise. [m2]"""
    return math.fsum(a[0] * b[1] - b[0] * a[1] for a, b in edges(corners)) / 2


def side_of(start: Point, end: Point) -> Side:
    """Return the side along a straight piece, pointing to its right hand. [m]"""
    along_x, along_y = end[0] - start[0], end[1] - start[1]
    long = math.hypot(along_x, along_y)
    out_x, out_y = along_y / long, -along_x / long
    return out_x, out_y, out_x * start[0] + out_y * start[1]


def convex(corners: Iterable[Point]) -> Convex | None:
    """Return the piece with those corners in order, None where they hold no floor. [m]"""
    kept: list[Point] = []
    for corner in corners:
        if not kept or math.dist(corner, kept[-1]) > _SAME_M:
            kept.append(corner)
    while len(kept) > 1 and math.dist(kept[0], kept[-1]) <= _SAME_M:
        kept.pop()
    if len(kept) < 3:
        return None
    area_m2 = signed_area_m2(kept)
    if abs(area_m2) < _SAME_M * _SAME_M:
        return None
    if area_m2 < 0.0:
        kept.reverse()
    return Convex(tuple(kept), tuple(side_of(a, b) for a, b in edges(kept)))


def pieces(*found: Convex | None) -> tuple[Convex, ...]:
    """Return those pieces that are there."""
    return tuple(piece for piece in found if piece is not None)


def of_rect(rect: Rect) -> Convex | None:
    """Return an upright rectangle as a piece. [m]"""
    return convex(rect.outline)


def hull(points: Iterable[Point]) -> Convex | None:
    """Return the smallest piece around some points. [m]"""
    ordered = sorted(set(points))
    halves: list[list[Point]] = []
    for run in (ordered, ordered[::-1]):
        half: list[Point] = []
        for point in run:
            while len(half) > 1 and _turns(half[-2], half[-1], point) <= 0.0:
                half.pop()
            half.append(point)
        halves.append(half[:-1])
    return convex([*halves[0], *halves[1]])


def _turns(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def cut(piece: Convex | None, side: Side) -> Convex | None:
    """Return what of a piece lies on the near hand of a straight line. [m]"""
    if piece is None:
        return None
    out_x, out_y, reach = side
    heights = [out_x * x + out_y * y - reach for x, y in piece.corners]
    if max(heights) <= 0.0:
        return piece
    kept: list[Point] = []
    around = list(zip(piece.corners, heights, strict=True))
    for (a, over_a), (b, over_b) in pairwise([*around, around[0]]):
        if over_a <= 0.0:
            kept.append(a)
        if over_a * over_b < 0.0:
            share = over_a / (over_a - over_b)
            kept.append((a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])))
    return convex(kept)


def cut_by(piece: Convex | None, sides: Iterable[Side]) -> Convex | None:
    """Return what of a piece lies on the near hand of every line. [m]"""
    for side in sides:
        piece = cut(piece, side)
    return piece


def common(one: Convex, other: Convex) -> Convex | None:
    """Return the floor that two pieces share. [m]"""
    return cut_by(one, other.sides)


def moved_in(piece: Convex, by_m: Iterable[float]) -> Convex | None:
    """Return the piece with each of its sides moved in by its own distance. [m]"""
    moved = zip(piece.sides, by_m, strict=True)
    return cut_by(piece, ((x, y, reach - by) for (x, y, reach), by in moved))


def without(piece: Convex, holes: Iterable[Convex]) -> tuple[Convex, ...]:
    """Return what is left of a piece, in pieces that do not overlap. [m]

    The holes may overlap and may stick out; what is left thinner than a hair is dropped.
    """
    left = [piece]
    for hole in holes:
        left = [rest for part in left for rest in _less(part, hole)]
    return tuple(left)


def _less(piece: Convex, hole: Convex) -> list[Convex]:
    if _off_one_side(piece, hole) or _off_one_side(hole, piece):
        return [piece]
    left: list[Convex] = []
    inner: Convex | None = piece
    for out_x, out_y, reach in hole.sides:
        outside = cut(inner, (-out_x, -out_y, -reach))
        if outside is not None and thickness_m(outside) > _SLIVER_M:
            left.append(outside)
        inner = cut(inner, (out_x, out_y, reach))
    return left


def _off_one_side(one: Convex, other: Convex) -> bool:
    """Whether a piece lies, but for a hair, beyond one side of another; mostly the first tells."""
    return any(
        min([x * a + y * b for a, b in other.corners]) - reach > -_SLIVER_M
        for x, y, reach in one.sides
    )


def thickness_m(piece: Convex) -> float:
    """Return how thick a piece is where it is thinnest. [m]"""
    return min(max(reach - x * a - y * b for a, b in piece.corners) for x, y, reach in piece.sides)


def depth_inside_m(piece: Convex, point: Point) -> float:
    """Return how far inside a piece a point lies; negative: outside. [m]"""
    return min(reach - x * point[0] - y * point[1] for x, y, reach in piece.sides)


def room_left_m(outer: Convex, inner: Convex) -> float:
    """Return the least distance from inner's corners out to outer's sides; negative: out. [m]"""
    return min(depth_inside_m(outer, corner) for corner in inner.corners)


def separation_m(one: Convex, other: Convex) -> float:
    """Return how far two pieces are apart, square to one of their sides; negative: overlap. [m]"""
    return max(_beyond_m(one, other), _beyond_m(other, one))


def _beyond_m(one: Convex, other: Convex) -> float:
    return max(min(x * a + y * b for a, b in other.corners) - reach for x, y, reach in one.sides)


def apart_m(one: Convex, other: Convex) -> float:
    """Return the least distance between two pieces; negative: how deep they overlap. [m]"""
    square_m = separation_m(one, other)
    if square_m <= 0.0:
        return square_m
    return min(
        *(point_to_m(corner, other) for corner in one.corners),
        *(point_to_m(corner, one) for corner in other.corners),
    )


def point_to_m(point: Point, piece: Convex) -> float:
    """Return the distance from a point to a piece, 0 inside. [m]"""
    if depth_inside_m(piece, point) >= 0.0:
        return 0.0
    return min(point_to_segment_m(point, edge) for edge in edges(piece.corners))


def point_to_segment_m(point: Point, segment: Segment) -> float:
    """Return the distance from a point to a straight piece. [m]"""
    (x, y), (to_x, to_y) = segment
    step_x, step_y = to_x - x, to_y - y
    square = step_x * step_x + step_y * step_y
    if square == 0.0:
        return math.dist(point, segment[0])
    share = ((point[0] - x) * step_x + (point[1] - y) * step_y) / square
    share = min(1.0, max(0.0, share))
    return math.dist(point, (x + share * step_x, y + share * step_y))


def part_inside(
    segment: Segment, piece: Convex, wider_m: float = 0.0
) -> tuple[float, float] | None:
    """Return the part of a straight piece of way that lies in a piece of floor, edges included.

    Parameters
    ----------
    segment : Segment
        The way. [m]
    piece : Convex
        The floor. [m]
    wider_m : float
        How far out every side is moved first. [m]

    Returns
    -------
    tuple of float, or None
        Where it enters and leaves, as shares of the way from 0 to 1; None if it misses.
    """
    (x, y), (to_x, to_y) = segment
    enters, leaves = 0.0, 1.0
    for out_x, out_y, reach in piece.sides:
        over = out_x * x + out_y * y - reach - wider_m
        gains = out_x * (to_x - x) + out_y * (to_y - y)
        if abs(gains) < 1e-15:
            if over > 0.0:
                return None
        elif gains > 0.0:
            leaves = min(leaves, -over / gains)
        else:
            enters = max(enters, -over / gains)
        if enters > leaves:
            return None
    return enters, leaves
