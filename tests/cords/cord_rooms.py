"""Rooms for cords, and plain arithmetic to hold their routes against."""

import math
from itertools import pairwise
from typing import Any

from hypothesis import strategies as st
from support import NEC, inch, make_area, make_spec

from powerplan.engineering.cords.paths import NoWay, Route, Router
from powerplan.engineering.seating.covered import covered_floor, doorways
from powerplan.engineering.seating.poses import SeatedChair, seat_rows
from powerplan.engineering.seating.zones import mark_zones
from powerplan.model.geometry import Point, Rect
from powerplan.model.spec import PlanSpec

# A cord of 0.36 in, half of it, and 25 mm.
KEEP_M = 0.36 * 0.0254 / 2 + 0.025


def make_router(spec: PlanSpec, covered: tuple[Rect, ...] | None = None) -> Router:
    """A router with the room's own covered floor, or with the pieces given."""
    rows = seat_rows(spec)
    given = None if covered is None else tuple(piece.outline for piece in covered)
    pieces = covered_floor(spec, rows, NEC) if given is None else given
    zones = mark_zones(spec, rows, NEC)
    return Router(spec, rows, zones, pieces, doorways(spec, NEC), NEC)


def all_covered(spec: PlanSpec) -> Router:
    """A router in whose room every bit of floor is covered."""
    room = Rect(left_m=0.0, right_m=spec.room.width_m, back_m=0.0, front_m=spec.room.depth_m)
    return make_router(spec, (room,))


def bare_room(*obstacles: tuple[float, float, float, float], **changes: Any) -> PlanSpec:
    """The usual room without rows, with obstacles from inches: left, back, width, depth."""
    areas = tuple(make_area(f"o{n}", *sizes) for n, sizes in enumerate(obstacles, start=1))
    return make_spec(**{"rows": (), "obstacles": areas, **changes})


def chairs_of(spec: PlanSpec) -> dict[str, SeatedChair]:
    """Every chair by its id."""
    return {chair.id: chair for row in seat_rows(spec) for chair in row.chairs}


def found(way: Route | NoWay) -> Route:
    """The way, which has to be there."""
    assert isinstance(way, Route), way
    return way


def refused(way: Route | NoWay) -> NoWay:
    """The refusal, which has to be there."""
    assert isinstance(way, NoWay), way
    return way


def at(left: float, back: float) -> Point:
    """A point from inches."""
    return (inch(left), inch(back))


def point_to_rect_m(point: Point, rect: Rect) -> float:
    """Distance from a point to a rectangle; 0 inside."""
    aside = max(rect.left_m - point[0], 0.0, point[0] - rect.right_m)
    ahead = max(rect.back_m - point[1], 0.0, point[1] - rect.front_m)
    return math.hypot(aside, ahead)


def point_to_segment_m(point: Point, start: Point, end: Point) -> float:
    """Distance from a point to a straight stretch."""
    step = (end[0] - start[0], end[1] - start[1])
    squared = step[0] ** 2 + step[1] ** 2
    share = 0.0
    if squared:
        along = (point[0] - start[0]) * step[0] + (point[1] - start[1]) * step[1]
        share = min(max(along / squared, 0.0), 1.0)
    return math.dist(point, (start[0] + share * step[0], start[1] + share * step[1]))


def enters(start: Point, end: Point, rect: Rect) -> bool:
    """True when a straight stretch has a point inside a rectangle."""
    low, high = 0.0, 1.0
    sides = (
        (start[0], end[0], rect.left_m, rect.right_m),
        (start[1], end[1], rect.back_m, rect.front_m),
    )
    for a, b, least, most in sides:
        if a == b:
            if not least < a < most:
                return False
            continue
        cuts = sorted(((least - a) / (b - a), (most - a) / (b - a)))
        low, high = max(low, cuts[0]), min(high, cuts[1])
    return low < high


def path_to_rect_m(path: tuple[Point, ...], rect: Rect) -> float:
    """Distance from a path to a rectangle; 0 where it enters."""
    least = math.inf
    for start, end in pairwise(path):
        if enters(start, end, rect):
            return 0.0
        least = min(least, point_to_rect_m(start, rect), point_to_rect_m(end, rect))
        least = min([least, *(point_to_segment_m(c, start, end) for c in rect.outline)])
    return least


def rounded(path: tuple[Point, ...]) -> tuple[Point, ...]:
    """A path as the record holds it."""
    return tuple((round(x, 6), round(y, 6)) for x, y in path)


SIZES = st.tuples(
    st.integers(0, 220), st.integers(0, 170), st.integers(2, 60), st.integers(2, 60)
).map(lambda s: (s[0], s[1], min(s[2], 240 - s[0]), min(s[3], 186 - s[1])))
OBSTACLES = st.lists(SIZES, min_size=1, max_size=6)
PLACES = st.tuples(st.integers(0, 240), st.integers(0, 186)).map(lambda p: at(*p))
