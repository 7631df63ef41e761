"""Is something inside the room's walls: only slips are caught with this."""

from __future__ import annotations

from powerplan.model.geometry import Point, Rect

_HAIR_M = 1e-6


def holds(outline: tuple[Point, ...], spot: Point) -> bool:
    """Return True for a place inside an outline; on its very edge, either answer.

    Parameters
    ----------
    outline : tuple of Point
        Its corners. [m]
    spot : Point
        The place. [m]
    """
    x, y = spot
    odd = False
    for (x1, y1), (x2, y2) in _edges(outline):
        if (y1 > y) != (y2 > y) and x < x1 + (y - y1) * (x2 - x1) / (y2 - y1):
            odd = not odd
    return odd


def near(outline: tuple[Point, ...], spot: Point) -> bool:
    """Return True for a place inside an outline or on its edge, to a micrometer.

    Parameters
    ----------
    outline : tuple of Point
        Its corners. [m]
    spot : Point
        The place. [m]
    """
    x, y = spot
    around = Rect(left_m=x - _HAIR_M, right_m=x + _HAIR_M, back_m=y - _HAIR_M, front_m=y + _HAIR_M)
    return touches_room(outline, around)


def touches_room(outline: tuple[Point, ...], rect: Rect) -> bool:
    """Return True where a rectangle of floor shares floor with the inside of an outline.

    Parameters
    ----------
    outline : tuple of Point
        The room's corners. [m]
    rect : Rect
        The rectangle. [m]
    """
    if holds(outline, rect.middle):
        return True
    return any(_passes_through(one, two, rect) for one, two in _edges(outline))


def _edges(outline: tuple[Point, ...]) -> list[tuple[Point, Point]]:
    return list(zip(outline, (*outline[1:], outline[0]), strict=True))


def _passes_through(one: Point, two: Point, rect: Rect) -> bool:
    """True where part of a straight stretch is strictly inside a rectangle."""
    low, high = 0.0, 1.0
    sides = ((rect.left_m, rect.right_m), (rect.back_m, rect.front_m))
    for here, there, (least, most) in zip(one, two, sides, strict=True):
        run = there - here
        if not run:
            if not least < here < most:
                return False
            continue
        first, last = sorted(((least - here) / run, (most - here) / run))
        low, high = max(low, first), min(high, last)
    return low < high
