"""Upright rectangles, on plain numbers. Lengths are meters in the room frame."""

from __future__ import annotations

from powerplan.model.geometry import Point, Rect


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


def wider(rect: Rect, aside_m: float, ahead_m: float) -> Rect:
    """Return the rectangle with its sides moved out, or in where negative. [m]"""
    return Rect(
        left_m=rect.left_m - aside_m,
        right_m=rect.right_m + aside_m,
        back_m=rect.back_m - ahead_m,
        front_m=rect.front_m + ahead_m,
    )
