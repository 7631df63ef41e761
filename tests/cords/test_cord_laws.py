"""Laws of shortest ways, on rooms nobody chose, and an outside program's lengths."""

import heapq
import math
from dataclasses import replace
from itertools import pairwise

import pytest
from cord_rooms import (
    KEEP_M,
    OBSTACLES,
    PLACES,
    all_covered,
    at,
    bare_room,
    chairs_of,
    enters,
    make_router,
    path_to_rect_m,
    rounded,
)
from extremitypathfinder import PolygonEnvironment
from hypothesis import assume, given
from hypothesis import strategies as st
from laws import held_over
from support import inch, make_chair, make_spec

from powerplan.engineering.cords.paths import NoWay, Route
from powerplan.model.geometry import Point, Rect

_SAME_M = 2e-6


def _way(way: Route | NoWay) -> Route:
    assume(isinstance(way, Route))
    assert isinstance(way, Route)
    return way


def _grown(rect: Rect, by_m: float) -> Rect:
    return Rect(
        left_m=rect.left_m - by_m,
        right_m=rect.right_m + by_m,
        back_m=rect.back_m - by_m,
        front_m=rect.front_m + by_m,
    )


@given(OBSTACLES, PLACES, PLACES)
@held_over(40)
def test_a_rounded_way_keeps_clear_of_raw_obstacles(sizes, start, end):
    spec = bare_room(*sizes)
    way = _way(all_covered(spec).route(start, end))
    least = min(path_to_rect_m(rounded(way.path), area.rect) for area in spec.obstacles)
    assert least >= KEEP_M - 2e-6
    assert way.clearance_m == pytest.approx(
        min(path_to_rect_m(way.path, area.rect) for area in spec.obstacles) - 0.18 * 0.0254,
        abs=1e-9,
    )


@given(OBSTACLES, PLACES, PLACES)
@held_over(25)
def test_a_way_is_at_least_straight_and_its_mirror_is_as_long(sizes, start, end):
    way = _way(all_covered(bare_room(*sizes)).route(start, end))
    assert way.length_m >= math.dist(start, end) - _SAME_M
    assert way.length_m == pytest.approx(
        sum(math.dist(*segment) for segment in pairwise(way.path)), abs=1e-9
    )
    mirrored = bare_room(*((240 - left - w, back, w, d) for left, back, w, d in sizes))
    twin = all_covered(mirrored).route((6.096 - start[0], start[1]), (6.096 - end[0], end[1]))
    assert isinstance(twin, Route)
    assert twin.length_m == pytest.approx(way.length_m, abs=_SAME_M)


@given(OBSTACLES, PLACES, PLACES)
@held_over(25)
def test_the_way_back_is_the_way_there(sizes, start, end):
    spec = bare_room(*sizes)
    there = _way(all_covered(spec).route(start, end))
    back = all_covered(spec).route(end, start)
    assert isinstance(back, Route)
    assert back.path == there.path[::-1]
    assert (back.length_m, back.rises_m, back.clearance_m) == (
        there.length_m,
        there.rises_m,
        there.clearance_m,
    )


@given(OBSTACLES, PLACES, PLACES, st.integers(1, 40))
@held_over(25)
def test_a_thicker_cord_never_has_a_shorter_way(sizes, start, end, more_mm):
    spec = bare_room(*sizes)
    thin = _way(all_covered(spec).route(start, end))
    cords = replace(spec.cords, diameter_m=round(spec.cords.diameter_m + more_mm / 1000, 6))
    thick = _way(all_covered(replace(spec, cords=cords)).route(start, end))
    assert thick.length_m >= thin.length_m - _SAME_M


@given(OBSTACLES, PLACES, PLACES)
@held_over(25)
def test_one_more_obstacle_never_makes_a_way_shorter(sizes, start, end):
    fewer = all_covered(bare_room(*sizes[1:])).route(start, end)
    more = _way(all_covered(bare_room(*sizes)).route(start, end))
    assert isinstance(fewer, Route)
    assert more.length_m >= fewer.length_m - _SAME_M


@given(OBSTACLES, PLACES, PLACES, PLACES)
@held_over(25)
def test_a_way_through_a_third_place_is_never_shorter(sizes, start, end, third):
    router = all_covered(bare_room(*sizes))
    direct = _way(router.route(start, end))
    by_way = _way(router.route(start, third)).length_m + _way(router.route(third, end)).length_m
    assert direct.length_m <= by_way + _SAME_M


@given(OBSTACLES, PLACES, PLACES)
@held_over(25)
def test_a_way_bends_only_at_grown_corners_and_around_them(sizes, start, end):
    spec = bare_room(*sizes)
    way = _way(all_covered(spec).route(start, end))
    xs = {x for a in spec.obstacles for x in (a.rect.left_m - KEEP_M, a.rect.right_m + KEEP_M)}
    ys = {y for a in spec.obstacles for y in (a.rect.back_m - KEEP_M, a.rect.front_m + KEEP_M)}
    for x, y in way.path[1:-1]:
        assert min(abs(x - other) for other in xs) < 1e-6
        assert min(abs(y - other) for other in ys) < 1e-6


def _grid_length_m(spec, start: Point, end: Point, step_in: int) -> float:
    """Dijkstra over points of a grid that are clear, moving to all eight sides."""
    zones = [_grown(area.rect, KEEP_M) for area in spec.obstacles]
    best = {start: 0.0}
    queue = [(0.0, start)]
    while queue:
        length_m, here = heapq.heappop(queue)
        if here == end:
            return length_m
        if length_m > best[here]:
            continue
        across, ahead = round(here[0] / 0.0254), round(here[1] / 0.0254)
        for right in (-step_in, 0, step_in):
            for front in (-step_in, 0, step_in):
                x, y = across + right, ahead + front
                on = at(x, y)
                if not (0 <= x <= 240 and 0 <= y <= 186) or on == here:
                    continue
                if any(enters(here, on, zone) for zone in zones):
                    continue
                far = length_m + math.dist(here, on)
                if far < best.get(on, math.inf):
                    best[on] = far
                    heapq.heappush(queue, (far, on))
    return math.inf


_EVEN = st.tuples(st.integers(0, 60), st.integers(0, 46)).map(lambda p: at(4 * p[0], 4 * p[1]))


@given(OBSTACLES, _EVEN, _EVEN)
@held_over(6)
def test_no_way_over_a_grid_is_shorter(sizes, start, end):
    spec = bare_room(*sizes)
    way = _way(all_covered(spec).route(start, end))
    assert way.length_m <= _grid_length_m(spec, start, end, 4) + _SAME_M


_APART = st.lists(
    st.tuples(st.integers(0, 3), st.integers(0, 2)), min_size=1, max_size=8, unique=True
)


@pytest.mark.published(source="extremitypathfinder, shortest paths in polygons", standing="derived")
@given(_APART, st.data())
@held_over(30)
def test_lengths_equal_those_of_a_shortest_path_program(cells, data):
    # One obstacle in each chosen cell of a 4 by 3 board, so that grown ones stay apart.
    sizes = [
        (
            8 + 57 * column + data.draw(st.integers(0, 12)),
            8 + 57 * row + data.draw(st.integers(0, 12)),
            data.draw(st.integers(5, 36)),
            data.draw(st.integers(5, 36)),
        )
        for column, row in cells
    ]
    start, end = data.draw(PLACES), data.draw(PLACES)
    spec = bare_room(*sizes)
    way = _way(all_covered(spec).route(start, end))
    holes = [list(reversed(_grown(a.rect, KEEP_M).outline)) for a in spec.obstacles]
    room = [(0.0, 0.0), (6.096, 0.0), (6.096, 4.7244), (0.0, 4.7244)]
    environment = PolygonEnvironment()
    environment.store(room, holes)
    _, length_m = environment.find_shortest_path(start, end)
    assert length_m is not None
    assert way.length_m == pytest.approx(length_m, abs=1e-5)


@given(
    st.sampled_from(["1/4", "3/2"]),
    st.sampled_from(["3/2", "2"]),
    st.integers(8, 40),
    OBSTACLES,
    st.integers(0, 240),
)
@held_over(12)
def test_ways_under_a_row_keep_clear_of_its_mechanism(arm, rear, wall_in, sizes, outlet_in):
    kind = make_chair(arm_gap_m=inch(arm), rear_gap_m=inch(rear))
    row = replace(make_spec().rows[0], headrest_to_wall_m=inch(wall_in))
    spec = replace(bare_room(*sizes[:2]), chairs=(kind,), rows=(row,))
    router = make_router(spec)
    for chair in chairs_of(spec).values():
        way = router.route((inch(outlet_in), 0.0), chair.lead_from)
        if isinstance(way, NoWay):
            continue
        path = rounded(way.path)
        for area in spec.obstacles:
            assert path_to_rect_m(path, area.rect) >= KEEP_M - 2e-6
        for solid in _solid_parts(chairs_of(spec), arm == "3/2"):
            assert path_to_rect_m(path, solid) >= KEEP_M - 2e-6


def _solid_parts(chairs, arms_open: bool) -> list[Rect]:
    """What a row stands on and sweeps, less clear zones and strips, as plain rectangles."""
    seats = list(chairs.values())
    back_m, front_m = seats[0].floor.back_m, seats[0].floor.front_m
    clear_back_m = seats[0].y_m + inch(9)
    clear_front_m = seats[0].y_m + inch(21)
    left_m, right_m = seats[0].floor.left_m, seats[-1].floor.right_m
    edges = [left_m]
    for chair in seats:
        edges += [chair.x_m - inch(7), chair.x_m + inch(7)]
    edges.append(right_m)
    between = list(zip(edges[::2], edges[1::2], strict=True))
    solid = [Rect(left_m=left_m, right_m=right_m, back_m=clear_front_m, front_m=front_m)]
    for n, (start_m, end_m) in enumerate(between):
        solid.append(Rect(left_m=start_m, right_m=end_m, back_m=back_m, front_m=clear_back_m))
        if not arms_open or n in (0, len(between) - 1):
            solid.append(
                Rect(left_m=start_m, right_m=end_m, back_m=clear_back_m, front_m=clear_front_m)
            )
    return solid
