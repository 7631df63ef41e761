"""Simple outlines that need not be convex: the room's walls, and zones as a record draws them."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise

from powerplan.judging.convex import (
    Convex,
    Segment,
    convex,
    depth_inside_m,
    edges,
    part_inside,
    point_to_m,
    side_of,
    signed_area_m2,
    without,
)
from powerplan.judging.paths import segments, to_outline_m
from powerplan.model.geometry import Point

_THIN_M = 1e-9


def inside(outline: Sequence[Point], point: Point) -> bool:
    """True where a ray from the point to the right leaves the outline an odd number of times."""
    x, y = point
    odd = False
    for (ax, ay), (bx, by) in edges(outline):
        if (ay > y) != (by > y) and x < ax + (y - ay) * (bx - ax) / (by - ay):
            odd = not odd
    return odd


def depth_m(outline: Sequence[Point], point: Point) -> float:
    """Return how far inside an outline a point lies; negative: outside. [m]"""
    off_m = to_outline_m(point, outline)
    return off_m if inside(outline, point) else -off_m


def slices(outline: Sequence[Point]) -> tuple[Convex, ...]:
    """Return the floor inside an outline, cut side to side at each of its corners. [m]"""
    levels = sorted({y for _, y in outline})
    found: list[Convex] = []
    for low, high in pairwise(levels):
        if high - low < _THIN_M:
            continue
        across = sorted(
            (_at(edge, (low + high) / 2), _at(edge, low), _at(edge, high))
            for edge in edges(outline)
            if min(edge[0][1], edge[1][1]) <= low and high <= max(edge[0][1], edge[1][1])
        )
        for (_, a, b), (_, c, d) in zip(across[::2], across[1::2], strict=False):
            piece = convex([(a, low), (c, low), (d, high), (b, high)])
            if piece is not None:
                found.append(piece)
    return tuple(found)


def _at(edge: Segment, y: float) -> float:
    (ax, ay), (bx, by) = edge
    return ax if by == ay else ax + (y - ay) * (bx - ax) / (by - ay)


def moved_out(outline: Sequence[Point], by_m: float) -> tuple[Point, ...]:
    """Return a counter-clockwise outline with every edge moved out a little. [m]"""
    sides = [side_of(a, b) for a, b in edges(outline)]
    moved: list[Point] = []
    for (ax, ay, a), (bx, by, b), corner in zip(
        [sides[-1], *sides[:-1]], sides, outline, strict=True
    ):
        turn = ax * by - ay * bx
        if abs(turn) < 1e-6:  # two walls in one line
            moved.append((corner[0] + bx * by_m, corner[1] + by * by_m))
            continue
        p, q = a + by_m, b + by_m
        moved.append(((p * by - q * ay) / turn, (ax * q - bx * p) / turn))
    return tuple(moved)


def length_beyond_m(path: Sequence[Point], outline: Sequence[Point]) -> float:
    """Return how much of a path lies outside an outline. [m]"""
    total = 0.0
    for start, end in segments(path):
        long_m = math.dist(start, end)
        shares = sorted({0.0, 1.0, *_meets((start, end), outline)})
        for a, b in pairwise(shares):
            half = (a + b) / 2
            at = (start[0] + half * (end[0] - start[0]), start[1] + half * (end[1] - start[1]))
            if not inside(outline, at):
                total += (b - a) * long_m
    return total


def _meets(segment: Segment, outline: Sequence[Point]) -> Iterable[float]:
    """Shares of a straight way at which it meets the lines of an outline's edges."""
    (x, y), (to_x, to_y) = segment
    for a, b in edges(outline):
        out_x, out_y, reach = side_of(a, b)
        gains = out_x * (to_x - x) + out_y * (to_y - y)
        if gains == 0.0:
            continue
        share = (reach - out_x * x - out_y * y) / gains
        if 0.0 < share < 1.0:
            yield share


def room_left_m(outline: Sequence[Point], piece: Convex) -> float:
    """Return the least distance from a piece out to an outline; negative: it sticks out. [m]

    A corner of the outline that stands inside the piece counts as deep as it stands, and a wall
    right through the piece as half of what it cuts off.
    """
    least_m = min(depth_m(outline, corner) for corner in piece.corners)
    for corner in outline:
        deep_m = depth_inside_m(piece, corner)
        least_m = min(least_m, -deep_m if deep_m > 0.0 else point_to_m(corner, piece))
    for wall in edges(outline):
        part = part_inside(wall, piece, -2e-6)
        if part is not None and part[1] > part[0]:
            (x, y), (to_x, to_y) = wall
            half = (part[0] + part[1]) / 2
            at = (x + half * (to_x - x), y + half * (to_y - y))
            least_m = min(least_m, -depth_inside_m(piece, at))
    return least_m


def unlike_m2(
    drawn: Iterable[Sequence[Point]], must: Iterable[Convex], may: Iterable[Convex]
) -> tuple[float, float]:
    """Return what is missing of some floor as it is drawn, and what is drawn beyond or twice. [m2]

    Parameters
    ----------
    drawn : iterable of outlines
        The floor as drawn. [m]
    must, may : iterable of Convex
        What has to be drawn at least, and at most. [m]

    Returns
    -------
    tuple of float
        Missing, and beyond or twice. [m2]
    """
    shown = [piece for outline in drawn for piece in slices(outline)]
    allowed = tuple(may)
    missing = math.fsum(left.area_m2 for piece in must for left in without(piece, shown))
    beyond = math.fsum(left.area_m2 for piece in shown for left in without(piece, allowed))
    beyond += math.fsum(
        piece.area_m2 - math.fsum(left.area_m2 for left in without(piece, shown[:n]))
        for n, piece in enumerate(shown)
    )
    return missing, beyond


def area_m2(outline: Sequence[Point]) -> float:
    """Return the area inside a simple outline. [m2]"""
    return abs(signed_area_m2(outline))


def around_m(outline: Sequence[Point]) -> float:
    """Return the length of an outline. [m]"""
    return math.fsum(math.dist(a, b) for a, b in edges(outline))
