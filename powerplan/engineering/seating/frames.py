"""Places of chairs and rows that are turned, and outlines of floor in the room."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import shapely

from powerplan.engineering.seating.rects import gap_m, on_grid
from powerplan.model.geometry import Point, Rect

Outline = tuple[Point, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """Where measures of a chair or a row are taken from: its origin in the room, and how far it is
    turned, positive where sitters look further left. [m, rad]"""

    x_m: float = 0.0
    y_m: float = 0.0
    angle_rad: float = 0.0

    @property
    def is_room(self) -> bool:
        """True for the room's own frame."""
        return (self.x_m, self.y_m, self.angle_rad) == (0.0, 0.0, 0.0)

    def point(self, place: Point) -> Point:
        """Return the room's point for a place in this frame, on the grid of lengths. [m]"""
        if self.is_room:
            return place
        sine, cosine = math.sin(self.angle_rad), math.cos(self.angle_rad)
        u, v = place
        x_m = self.x_m + u * cosine - v * sine
        y_m = self.y_m + u * sine + v * cosine
        return (on_grid(x_m), on_grid(y_m))

    def place(self, point: Point) -> Point:
        """Return where a point of the room is in this frame. [m]"""
        if self.is_room:
            return point
        sine, cosine = math.sin(self.angle_rad), math.cos(self.angle_rad)
        x_m, y_m = point[0] - self.x_m, point[1] - self.y_m
        return (x_m * cosine + y_m * sine, -x_m * sine + y_m * cosine)

    def outline(self, shape: Rect | Outline) -> Outline:
        """Return the room's outline of a rectangle or outline in this frame. [m]"""
        corners = shape.outline if isinstance(shape, Rect) else shape
        return tuple(map(self.point, corners))

    def moved(self, right_m: float, ahead_m: float, turned_rad: float = 0.0) -> Frame:
        """Return a frame whose origin is at a place of this one, and that is turned further. [m,
        rad]"""
        sine, cosine = math.sin(self.angle_rad), math.cos(self.angle_rad)
        return Frame(
            x_m=self.x_m + right_m * cosine - ahead_m * sine,
            y_m=self.y_m + right_m * sine + ahead_m * cosine,
            angle_rad=normal_rad(self.angle_rad + turned_rad),
        )


ROOM = Frame()


def normal_rad(angle_rad: float) -> float:
    """Return an angle above minus half a turn and up to half a turn. [rad]"""
    turned = math.remainder(angle_rad, math.tau)
    return math.pi if turned == -math.pi else turned + 0.0


def upright(outline: Outline) -> Rect | None:
    """Return the rectangle whose corners an outline is, or None where it is another shape.

    Parameters
    ----------
    outline : tuple of Point
        A simple outline. [m]
    """
    xs, ys = sorted({x for x, _ in outline}), sorted({y for _, y in outline})
    if len(outline) != 4 or len(xs) != 2 or len(ys) != 2 or len(set(outline)) != 4:
        return None
    if any(one[0] != other[0] and one[1] != other[1] for one, other in pairwise(outline)):
        return None
    return Rect(left_m=xs[0], right_m=xs[1], back_m=ys[0], front_m=ys[1])


def bounds(outlines: Sequence[Outline]) -> Rect:
    """Return the upright rectangle around outlines.

    Parameters
    ----------
    outlines : sequence of outlines
        One at least. [m]
    """
    xs = [x for outline in outlines for x, _ in outline]
    ys = [y for outline in outlines for _, y in outline]
    return Rect(left_m=min(xs), right_m=max(xs), back_m=min(ys), front_m=max(ys))


def covers(outline: Outline, point: Point) -> bool:
    """Return True for a point inside a simple outline or on its edge. [m]"""
    rect = upright(outline)
    if rect is not None:
        return rect.has(point)
    return bool(shapely.covers(polygon(outline), shapely.Point(point)))


def polygon(outline: Outline) -> Any:
    """Return an outline as a shapely shape. [m]"""
    return shapely.Polygon(outline)


def apart_m(one: Outline, other: Outline) -> float:
    """Return how far two convex outlines are apart; negative is the least shift that parts them.

    Parameters
    ----------
    one, other : outlines
        Convex outlines. [m]

    Returns
    -------
    float
        Distance, 0 where they touch, negative where they overlap. [m]
    """
    rects = upright(one), upright(other)
    if rects[0] is not None and rects[1] is not None:
        return gap_m(rects[0], rects[1])
    best = max(_past_an_edge_m(one, other), _past_an_edge_m(other, one))
    if best <= 0.0:
        return best
    return float(shapely.distance(polygon(one), polygon(other)))


def least_apart_m(some: Sequence[Outline], others: Sequence[Outline]) -> float:
    """Return how far the nearest two of convex outlines are apart; see ``apart_m``. [m]

    Parameters
    ----------
    some, others : sequence of outlines
        One at least of each. [m]
    """
    return min(apart_m(one, other) for one in some for other in others)


def _past_an_edge_m(one: Outline, other: Outline) -> float:
    """The most by which all of one outline lies past an edge of another. [m]"""
    turn = 1.0 if area_m2(other) >= 0.0 else -1.0
    best = -math.inf
    for start, end in pairwise((*other, other[0])):
        length_m = math.dist(start, end)
        if length_m == 0.0:
            continue
        out = (turn * (end[1] - start[1]) / length_m, turn * (start[0] - end[0]) / length_m)
        past = min((x - start[0]) * out[0] + (y - start[1]) * out[1] for x, y in one)
        best = max(best, past)
    return best


def area_m2(outline: Outline) -> float:
    """Return the area of a simple outline, positive where it goes counter-clockwise. [m2]"""
    pairs = pairwise((*outline, outline[0]))
    return math.fsum(a[0] * b[1] - b[0] * a[1] for a, b in pairs) / 2


def cut(outline: Outline, start: Point, end: Point) -> Outline:
    """Return the part of a convex outline on the left hand of a line.

    Parameters
    ----------
    outline : outline
        Convex, counter-clockwise. [m]
    start, end : Point
        Two points of the line. [m]

    Returns
    -------
    outline
        Empty where nothing is on that side. [m]
    """
    kept: list[Point] = []
    sides = [_side(start, end, point) for point in outline]
    for n, here in enumerate(outline):
        back, side, was = outline[n - 1], sides[n], sides[n - 1]
        if side * was < 0.0:
            share = was / (was - side)
            kept.append(
                (back[0] + share * (here[0] - back[0]), back[1] + share * (here[1] - back[1]))
            )
        if side >= 0.0:
            kept.append(here)
    return tuple(kept)


def _side(start: Point, end: Point, point: Point) -> float:
    return (end[0] - start[0]) * (point[1] - start[1]) - (end[1] - start[1]) * (point[0] - start[0])


def left_of_m(start: Point, end: Point, point: Point) -> float:
    """Return how far a point is on the left hand of a line. [m]"""
    return _side(start, end, point) / math.dist(start, end)


def hull(points: Sequence[Point]) -> Outline:
    """Return the convex outline around points, counter-clockwise. [m]"""
    shape = shapely.convex_hull(shapely.MultiPoint(list(points)))
    if shape.geom_type != "Polygon":
        return ()
    ring = shapely.geometry.polygon.orient(shape).exterior.coords[:-1]
    return tuple((float(x), float(y)) for x, y in ring)
