"""Straight stretches against upright rectangles."""

from __future__ import annotations

import math

import shapely

from powerplan.engineering.seating.frames import Outline, polygon, upright
from powerplan.model.geometry import Point, Rect

Segment = tuple[Point, Point]


def span_inside(segment: Segment, rect: Rect) -> tuple[float, float] | None:
    """Return the part of a straight stretch that lies in a rectangle.

    Parameters
    ----------
    segment : tuple of Point
        The stretch. [m]
    rect : Rect
        The rectangle. [m]

    Returns
    -------
    tuple of float or None
        Where the part begins and ends, as shares of the stretch from 0 to 1; None where no point
        of it is inside. A stretch along an edge is not. [1]
    """
    (x, y), (to_x, to_y) = segment
    first, last = 0.0, 1.0
    for at, step, low, high in (
        (x, to_x - x, rect.left_m, rect.right_m),
        (y, to_y - y, rect.back_m, rect.front_m),
    ):
        if step == 0.0:
            if not low < at < high:
                return None
            continue
        near, far = sorted(((low - at) / step, (high - at) / step))
        first, last = max(first, near), min(last, far)
    return (first, last) if first <= last else None


def grown_by(rect: Rect, by_m: float) -> Rect:
    """Return a rectangle grown on every side.

    Parameters
    ----------
    rect : Rect
        The rectangle. [m]
    by_m : float
        How far. [m]
    """
    return Rect(
        left_m=rect.left_m - by_m,
        right_m=rect.right_m + by_m,
        back_m=rect.back_m - by_m,
        front_m=rect.front_m + by_m,
    )


def spans_within(
    segment: Segment, outline: Outline, by_m: float
) -> tuple[tuple[float, float], ...]:
    """Return the parts of a straight stretch that lie in an outline grown on every side.

    Parameters
    ----------
    segment : tuple of Point
        The stretch. [m]
    outline : outline
        A simple outline. [m]
    by_m : float
        How far it is grown; shrunk where negative. [m]

    Returns
    -------
    tuple of tuple of float
        Where each part begins and ends, as shares of the stretch from 0 to 1. [1]
    """
    rect = upright(outline)
    if rect is not None:
        span = span_inside(segment, grown_by(rect, by_m))
        return () if span is None else (span,)
    length_m = math.dist(*segment)
    if length_m == 0.0:
        return ()
    shape = shapely.buffer(polygon(outline), by_m, join_style="mitre", mitre_limit=1000.0)
    met = shapely.intersection(shapely.LineString(segment), shape)
    spans = []
    for part in shapely.get_parts(met):
        places = [math.dist(segment[0], (x, y)) for x, y in shapely.get_coordinates(part)]
        if places:
            spans.append((min(places) / length_m, max(places) / length_m))
    return tuple(sorted(spans))
