"""Upright rectangles and straight paths: the judge's own geometry, on plain numbers.

All lengths are metres in the room frame. Nothing here is shared with the planner.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from powerplan.model.geometry import Point, Rect

Segment = tuple[Point, Point]

_SLIVER_M = 1e-9


def segments(path: Sequence[Point]) -> Iterator[Segment]:
    """Give the straight pieces of a path; a single point is a piece without length. [m]"""
    if len(path) == 1:
        yield path[0], path[0]
    yield from pairwise(path)


def path_length_m(path: Sequence[Point]) -> float:
    """Return the length of a path in plan. [m]"""
    return math.fsum(math.dist(start, end) for start, end in segments(path))


def grown(rect: Rect, by_m: float) -> Rect:
    """Return the rectangle with every side moved out, or in where ``by_m`` is negative. [m]"""
    return Rect(
        left_m=rect.left_m - by_m,
        right_m=rect.right_m + by_m,
        back_m=rect.back_m - by_m,
        front_m=rect.front_m + by_m,
    )


def around(middle: Point, width_m: float, depth_m: float) -> Rect:
    """Return the rectangle of that size around a point. [m]"""
    return Rect(
        left_m=middle[0] - width_m / 2,
        right_m=middle[0] + width_m / 2,
        back_m=middle[1] - depth_m / 2,
        front_m=middle[1] + depth_m / 2,
    )


def gap_m(one: Rect, other: Rect) -> float:
    """Return how far two rectangles are apart, sideways or in depth; negative: they overlap. [m]"""
    return max(
        one.left_m - other.right_m,
        other.left_m - one.right_m,
        one.back_m - other.front_m,
        other.back_m - one.front_m,
    )


def room_left_m(outer: Rect, inner: Rect) -> float:
    """Return the least distance from inner's sides out to outer's; negative: it sticks out. [m]"""
    return min(
        inner.left_m - outer.left_m,
        outer.right_m - inner.right_m,
        inner.back_m - outer.back_m,
        outer.front_m - inner.front_m,
    )


def depth_inside_m(rect: Rect, point: Point) -> float:
    """Return how far inside the rectangle a point lies; negative: outside. [m]"""
    x, y = point
    return min(x - rect.left_m, rect.right_m - x, y - rect.back_m, rect.front_m - y)


def clip(segment: Segment, rect: Rect) -> tuple[float, float] | None:
    """Return the part of a segment that lies in a rectangle, edges included.

    Returns
    -------
    tuple of float, or None
        Where it enters and leaves, as shares of the segment from 0 to 1; None if it misses.
    """
    if rect.left_m > rect.right_m or rect.back_m > rect.front_m:
        return None
    (x, y), (to_x, to_y) = segment
    enters, leaves = 0.0, 1.0
    for at, step, low, high in (
        (x, to_x - x, rect.left_m, rect.right_m),
        (y, to_y - y, rect.back_m, rect.front_m),
    ):
        if step == 0.0:
            if not low <= at <= high:
                return None
            continue
        shares = sorted(((low - at) / step, (high - at) / step))
        enters, leaves = max(enters, shares[0]), min(leaves, shares[1])
        if enters > leaves:
            return None
    return enters, leaves


def length_inside_m(path: Sequence[Point], rect: Rect) -> float:
    """Return how much of a path lies in a rectangle. [m]"""
    total = 0.0
    for segment in segments(path):
        part = clip(segment, rect)
        if part is not None:
            total += (part[1] - part[0]) * math.dist(*segment)
    return total


def length_outside_m(path: Sequence[Point], rects: Iterable[Rect]) -> float:
    """Return how much of a path lies in none of the rectangles, which may overlap. [m]"""
    pieces = tuple(rects)
    total = 0.0
    for segment in segments(path):
        parts = sorted(part for rect in pieces if (part := clip(segment, rect)) is not None)
        bare, reached = 0.0, 0.0
        for enters, leaves in parts:
            bare += max(0.0, enters - reached)
            reached = max(reached, leaves)
        total += (bare + max(0.0, 1.0 - reached)) * math.dist(*segment)
    return total


def point_to_rect_m(point: Point, rect: Rect) -> float:
    """Return the distance from a point to a rectangle, 0 inside. [m]"""
    x, y = point
    return math.hypot(
        max(rect.left_m - x, 0.0, x - rect.right_m),
        max(rect.back_m - y, 0.0, y - rect.front_m),
    )


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


def segment_to_rect_m(segment: Segment, rect: Rect) -> float:
    """Return the distance from a straight piece to a rectangle, 0 where they touch. [m]"""
    if clip(segment, rect) is not None:
        return 0.0
    ends = (point_to_rect_m(end, rect) for end in segment)
    corners = (point_to_segment_m(corner, segment) for corner in rect.outline)
    return min(*ends, *corners)


def path_to_rect_m(path: Sequence[Point], rect: Rect) -> float:
    """Return the least distance from a path to a rectangle; infinite for an empty path. [m]"""
    return min((segment_to_rect_m(piece, rect) for piece in segments(path)), default=math.inf)


def edge_crossings(path: Sequence[Point], rect: Rect, hair_m: float) -> int:
    """Return how often a path goes in or out of a rectangle; its edge counts as outside.

    Parameters
    ----------
    path : sequence of Point
        The path. [m]
    rect : Rect
        The rectangle. [m]
    hair_m : float
        A path no deeper inside than this is still on the edge. [m]

    Returns
    -------
    int
        Ways in and out together.
    """
    inner = grown(rect, -hair_m)
    count = 0
    for segment in segments(path):
        starts, ends = (depth_inside_m(inner, point) > 0.0 for point in segment)
        part = clip(segment, inner)
        if starts != ends:
            count += 1
        elif not starts and part and (part[1] - part[0]) * math.dist(*segment) > hair_m:
            count += 2
    return count


def area_m2(outline: Sequence[Point]) -> float:
    """Return the area inside a simple outline. [m2]"""
    corners = list(zip(outline, [*outline[1:], *outline[:1]], strict=True))
    return abs(math.fsum(a[0] * b[1] - b[0] * a[1] for a, b in corners)) / 2


def bounds_of(outline: Sequence[Point]) -> Rect:
    """Return the upright rectangle around an outline of at least one point. [m]"""
    return Rect(
        left_m=min(x for x, _ in outline),
        right_m=max(x for x, _ in outline),
        back_m=min(y for _, y in outline),
        front_m=max(y for _, y in outline),
    )


def without(rect: Rect, holes: Iterable[Rect]) -> tuple[Rect, ...]:
    """Return what is left of a rectangle, as rectangles that do not overlap. [m]

    The holes may overlap and may stick out. Pieces come in columns from the left, back to front.
    """
    cut = [hole for hole in holes if gap_m(rect, hole) < 0.0]
    sides = {rect.left_m, rect.right_m}
    sides |= {x for hole in cut for x in (hole.left_m, hole.right_m)}
    columns = sorted(x for x in sides if rect.left_m <= x <= rect.right_m)
    left: list[Rect] = []
    for x, to_x in pairwise(columns):
        if to_x - x < _SLIVER_M:
            continue
        here = sorted(
            (hole.back_m, hole.front_m) for hole in cut if hole.left_m <= x and to_x <= hole.right_m
        )
        y = rect.back_m
        for back, front in [*here, (rect.front_m, rect.front_m)]:
            if back - y > _SLIVER_M:
                left.append(Rect(left_m=x, right_m=to_x, back_m=y, front_m=back))
            y = max(y, front)
    return tuple(left)
