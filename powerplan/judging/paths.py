"""Paths over the floor: how long they are, inside and outside of pieces, and how near they come."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from powerplan.judging.convex import (
    Convex,
    Segment,
    depth_inside_m,
    edges,
    part_inside,
    point_to_m,
    point_to_segment_m,
)
from powerplan.model.geometry import Point


def segments(path: Sequence[Point]) -> Iterator[Segment]:
    """Give the straight pieces of a path; a single point is a piece without length. [m]"""
    if len(path) == 1:
        yield path[0], path[0]
    yield from pairwise(path)


def path_length_m(path: Sequence[Point]) -> float:
    """Return the length of a path in plan. [m]"""
    return math.fsum(math.dist(start, end) for start, end in segments(path))


def length_inside_m(path: Sequence[Point], piece: Convex, wider_m: float = 0.0) -> float:
    """Return how much of a path lies in a piece, its sides moved out by so much. [m]"""
    return length_inside_any_m(path, (piece,), wider_m)


def length_inside_any_m(
    path: Sequence[Point], pieces: Iterable[Convex], wider_m: float = 0.0
) -> float:
    """Return how much of a path lies in any of the pieces, which may overlap. [m]"""
    held = tuple(pieces)
    return math.fsum(
        math.dist(*segment) * math.fsum(b - a for a, b in _held(segment, held, wider_m))
        for segment in segments(path)
    )


def length_outside_m(
    path: Sequence[Point], pieces: Iterable[Convex], wider_m: float = 0.0
) -> float:
    """Return how much of a path lies in none of the pieces, which may overlap. [m]"""
    held = tuple(pieces)
    return math.fsum(
        math.dist(*segment) * (1.0 - math.fsum(b - a for a, b in _held(segment, held, wider_m)))
        for segment in segments(path)
    )


def _held(
    segment: Segment, pieces: tuple[Convex, ...], wider_m: float
) -> list[tuple[float, float]]:
    """The parts of a straight way that lie in any piece, apart from each other and in order."""
    parts = sorted(
        part for piece in pieces if (part := part_inside(segment, piece, wider_m)) is not None
    )
    merged: list[tuple[float, float]] = []
    for enters, leaves in parts:
        if merged and enters <= merged[-1][1]:
            merged[-1] = (merged[-1][0], max(merged[-1][1], leaves))
        else:
            merged.append((enters, leaves))
    return merged


def segment_to_m(segment: Segment, piece: Convex) -> float:
    """Return the distance from a straight way to a piece, 0 where they touch. [m]"""
    if part_inside(segment, piece) is not None:
        return 0.0
    ends = (point_to_m(end, piece) for end in segment)
    corners = (point_to_segment_m(corner, segment) for corner in piece.corners)
    return min(*ends, *corners)


def path_to_m(path: Sequence[Point], piece: Convex) -> float:
    """Return the least distance from a path to a piece; infinite for an empty path. [m]"""
    return min((segment_to_m(segment, piece) for segment in segments(path)), default=math.inf)


def edge_crossings(path: Sequence[Point], pieces: Sequence[Convex], hair_m: float) -> int:
    """Return how often a path goes in or out of some floor; its edge counts as outside.

    Parameters
    ----------
    path : sequence of Point
        The path. [m]
    pieces : sequence of Convex
        The floor, in pieces that overlap where they meet. [m]
    hair_m : float
        A path no deeper inside than this is still on the edge. [m]

    Returns
    -------
    int
        Ways in and out together.
    """
    held = tuple(pieces)
    count = 0
    for segment in segments(path):
        starts, ends = (
            any(depth_inside_m(piece, point) > hair_m for piece in held) for point in segment
        )
        long_m = math.dist(*segment)
        runs = sum(1 for a, b in _held(segment, held, -hair_m) if (b - a) * long_m > hair_m)
        if starts or ends:
            runs = max(runs, 1)
        count += 2 * runs - starts - ends
    return count


def to_outline_m(point: Point, outline: Sequence[Point]) -> float:
    """Return the distance from a point to the nearest edge of an outline. [m]"""
    return min(point_to_segment_m(point, edge) for edge in edges(outline))
