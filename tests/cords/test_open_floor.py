"""Leaving covered floor: the least open floor first, then the length."""

import math

import pytest
from cord_rooms import at, bare_room, chairs_of, found, make_router
from hypothesis import given, settings
from hypothesis import strategies as st
from support import inch, make_area, make_outlet, make_row, make_spec, rect

from powerplan.engineering.cords.paths import Router


def _pieces(*pieces: tuple[float, float, float, float], **changes) -> Router:
    return make_router(bare_room(**changes), tuple(rect(*piece) for piece in pieces))


def test_open_floor_is_crossed_square_to_the_edge_not_from_corner_to_corner():
    # From the near strip's corners to the far piece's corners it is never under 50 in.
    router = _pieces((10, 10, 160, 20), (70, 70, 40, 30))
    way = found(router.route(at(20, 20), at(90, 90)))
    assert way.open_floor_m == pytest.approx(40 * 0.0254, abs=1e-6)


def test_a_covered_way_of_any_length_goes_before_a_short_open_one():
    around = [(0, 0, 6, 186), (0, 180, 240, 6), (234, 0, 6, 186), (0, 0, 100, 6), (110, 0, 130, 6)]
    way = found(_pieces(*around).route(at(95, 0), at(115, 0)))
    assert way.open_floor_m == 0.0
    assert way.length_m > 2 * 180 * 0.0254


def test_the_longer_way_with_less_open_floor_is_taken():
    # Straight over: 60 in of open floor. By the stepping stone to the right: 2 x 10 in.
    router = _pieces((0, 0, 240, 20), (0, 80, 240, 20), (200, 30, 20, 40))
    way = found(router.route(at(10, 10), at(10, 90)))
    assert way.open_floor_m == pytest.approx(20 * 0.0254, abs=1e-6)
    assert way.length_m > 380 * 0.0254


def test_between_parallel_strips_the_crossing_is_where_the_whole_is_shortest():
    # Taking the 40 in of open floor out, the rest is one straight line: 100 in by 15 in.
    router = _pieces((0, 0, 240, 20), (0, 60, 240, 20))
    way = found(router.route(at(50, 10), at(150, 65)))
    assert way.open_floor_m == pytest.approx(40 * 0.0254, abs=1e-6)
    assert way.length_m == pytest.approx((40 + math.hypot(100, 15)) * 0.0254, abs=1e-5)


def test_an_end_on_open_floor_goes_straight_to_the_nearest_cover():
    router = _pieces((0, 0, 240, 20))
    way = found(router.route(at(100, 50), at(200, 10)))
    assert way.open_floor_m == pytest.approx(30 * 0.0254, abs=1e-6)


def test_two_ends_on_open_floor_without_cover_are_joined_straight():
    way = found(_pieces().route(at(100, 50), at(200, 50)))
    assert way.path == (at(100, 50), at(200, 50))
    assert way.open_floor_m == pytest.approx(100 * 0.0254, abs=1e-6)


def test_an_obstacle_in_open_floor_is_gone_around_and_all_of_that_is_open():
    router = make_router(bare_room((90, 40, 20, 20)), (rect(90, 0, 20, 10), rect(90, 90, 20, 10)))
    keep = 0.18 + 25 / 25.4
    # A strip's corner may lie beside the obstacle's grown corner: aside by `keep` only.
    up = math.hypot(keep, 40 - keep - 10)
    on = math.hypot(keep, 90 - 60 - keep)
    way = found(router.route(at(100, 5), at(100, 95)))
    assert way.open_floor_m == pytest.approx((up + 20 + 2 * keep + on) * 0.0254, abs=1e-5)


def test_pieces_of_cover_that_share_only_an_edge_are_one():
    way = found(_pieces((0, 0, 50, 20), (50, 0, 50, 20)).route(at(10, 20), at(90, 20)))
    assert way.open_floor_m == 0.0
    assert way.path == (at(10, 20), at(90, 20))


def test_a_row_away_from_the_wall_is_reached_over_the_open_strip_between():
    # Strip 6 in, reclined headrests 30 - 5 = 25 in off the wall: 19 in open.
    spec = make_spec(rows=(make_row(headrest_to_wall_m=inch(30)),))
    router, outlet = make_router(spec), make_outlet()
    for chair in chairs_of(spec).values():
        way = found(router.route((outlet.x_m, outlet.y_m), chair.lead_from))
        assert way.open_floor_m == pytest.approx(19 * 0.0254, abs=1e-6)


def test_a_row_near_the_wall_is_reached_without_open_floor():
    spec = make_spec(rows=(make_row(headrest_to_wall_m=inch("35/2")),))
    way = found(make_router(spec).route((inch(108), 0.0), chairs_of(spec)["A3"].lead_from))
    assert way.open_floor_m == 0.0


def test_a_walkway_is_kept_out_of_on_open_floor_too():
    aisle = make_area("aisle", 60, 30, 100, 20)
    router = _pieces((0, 0, 240, 20), (0, 60, 240, 20), walkways=(aisle,))
    way = found(router.route(at(100, 10), at(100, 70)))
    assert way.open_floor_m == pytest.approx(40 * 0.0254, abs=1e-6)
    assert min(abs(x - inch(60)) for x, _ in way.path) < 1e-6 or any(
        x < inch(60) or x > inch(160) for x, _ in way.path
    )


_STRIPS = st.tuples(st.integers(5, 40), st.integers(60, 150), st.integers(5, 30))


@given(_STRIPS, st.integers(0, 240), st.integers(0, 240))
@settings(max_examples=25)
def test_open_floor_between_two_strips_is_what_lies_between_them(strips, left_in, right_in):
    first, back, depth = strips
    router = _pieces((0, 0, 240, first), (0, back, 240, depth))
    way = found(router.route(at(left_in, 2), at(right_in, back + 3)))
    gap = back - first
    assert way.open_floor_m == pytest.approx(gap * 0.0254, abs=2e-6)
    short = math.hypot(right_in - left_in, first - 2 + 3)
    assert way.length_m == pytest.approx((gap + short) * 0.0254, abs=1e-5)


@given(st.integers(0, 240), st.integers(0, 186), st.integers(0, 240), st.integers(0, 186))
@settings(max_examples=25)
def test_open_floor_is_the_same_both_ways_and_never_more_than_straight(x, y, to_x, to_y):
    router = _pieces((20, 20, 60, 30), (120, 90, 60, 40), (30, 120, 40, 40))
    there = found(router.route(at(x, y), at(to_x, to_y)))
    back = found(router.route(at(to_x, to_y), at(x, y)))
    assert there.path == back.path[::-1]
    assert there.open_floor_m <= math.dist(at(x, y), at(to_x, to_y)) + 1e-6
