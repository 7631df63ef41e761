"""Straight stretches against upright rectangles."""

from __future__ import annotations

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
