"""Cords over each other, and cords through one gap."""

from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from support import NEC, inch, rect

from powerplan.engineering.cords.crossings import (
    crossings,
    gap_use,
    gap_width_m,
    width_for_cords_m,
)
from powerplan.engineering.seating.zones import Opening


def test_an_x_is_one_crossing_and_says_where():
    (crossing,) = crossings([("a", ((0.0, 0.0), (2.0, 2.0))), ("b", ((0.0, 2.0), (2.0, 0.0)))])
    assert (crossing.one, crossing.other, crossing.place) == ("a", "b", (1.0, 1.0))


def test_two_cords_that_meet_twice_cross_twice():
    wave = ((0.0, -1.0), (1.0, 1.0), (2.0, 1.0), (3.0, -1.0))
    assert len(crossings([("a", ((-1.0, 0.0), (4.0, 0.0))), ("b", wave)])) == 2


def test_cords_from_one_socket_do_not_cross_there():
    assert crossings([("a", ((0.0, 0.0), (1.0, 1.0))), ("b", ((0.0, 0.0), (1.0, -1.0)))]) == ()


def test_a_cord_that_starts_under_another_does_not_cross_it():
    assert crossings([("a", ((0.0, 0.0), (2.0, 0.0))), ("b", ((1.0, 0.0), (1.0, 1.0)))]) == ()


def test_cords_that_touch_at_one_corner_and_turn_away_do_not_cross():
    first = ((0.0, 0.0), (1.0, 1.0), (2.0, 0.0))
    second = ((0.0, 2.0), (1.0, 1.0), (2.0, 2.0))
    assert crossings([("a", first), ("b", second)]) == ()


def test_cords_that_change_sides_at_one_corner_cross():
    first = ((0.0, 0.0), (1.0, 1.0), (2.0, 0.5))
    second = ((0.0, 0.5), (1.0, 1.0), (2.0, 0.0))
    assert len(crossings([("a", first), ("b", second)])) == 1
    inner = ((0.0, -0.5), (1.0, 1.0), (2.0, 0.0))
    assert crossings([("a", first), ("b", inner)]) == ()


def test_cords_that_lie_along_each_other_share_and_do_not_cross():
    assert crossings([("a", ((0.0, 0.0), (3.0, 0.0))), ("b", ((1.0, 0.0), (5.0, 0.0)))]) == ()


def test_a_cord_crosses_every_cord_that_it_goes_over():
    bars = [(f"b{n}", ((float(n), -1.0), (float(n), 1.0))) for n in range(1, 4)]
    assert len(crossings([("a", ((0.0, 0.0), (4.0, 0.0))), *bars])) == 3


_PATHS = st.lists(
    st.tuples(st.integers(0, 9), st.integers(0, 9)).map(lambda p: (float(p[0]), float(p[1]))),
    min_size=2,
    max_size=4,
    unique_by=lambda p: p[0],
).map(lambda points: tuple(sorted(points)))


@given(_PATHS, _PATHS)
def test_crossings_are_the_same_from_either_cord_and_either_end(one, other):
    there = [c.place for c in crossings([("a", one), ("b", other)])]
    back = [c.place for c in crossings([("b", other[::-1]), ("a", one[::-1])])]
    assert len(there) == len(back)
    for place, twin in zip(there, back, strict=True):
        assert twin == pytest.approx(place, abs=1e-9)


@given(_PATHS, _PATHS)
def test_paths_that_part_sides_cross_an_odd_number_of_times(one, other):
    # Both run from left to right; compare heights at the ends of their common stretch.
    start, end = max(one[0][0], other[0][0]), min(one[-1][0], other[-1][0])
    assume(start < end)
    before = _height(one, start) - _height(other, start)
    after = _height(one, end) - _height(other, end)
    apart = [_height(one, x) - _height(other, x) for x, _ in (*one, *other) if start < x < end]
    assume(min(abs(gap) for gap in (before, after, *apart)) > 1e-6)
    assert len(crossings([("a", one), ("b", other)])) % 2 == (before > 0) ^ (after > 0)


def _height(path, x: float) -> float:
    for (left, low), (right, high) in pairwise(path):
        if left <= x <= right:
            return low + (high - low) * (x - left) / (right - left)
    raise AssertionError


def test_a_gap_holds_the_cords_that_pass_through_it_and_no_others():
    strips = tuple(rect(left, 10, 14, 5).outline for left in (10, 40, 70))
    through = ("a", ((inch(15), 0.0), (inch(15), inch(30))))
    both = ("b", ((inch(12), inch(12)), (inch(50), inch(12))))
    along = ("c", ((0.0, inch(15)), (inch(90), inch(15))))
    assert gap_use([through, both, along], strips) == {0: ("a", "b"), 1: ("b",)}


def test_cords_in_a_gap_take_their_thickness_and_25_mm_at_each_side():
    assert width_for_cords_m(3, 0.010, NEC) == pytest.approx(0.080, abs=1e-12)
    assert width_for_cords_m(1, 0.36 * 0.0254, NEC) == pytest.approx(0.059144, abs=1e-9)


def test_a_rear_strip_is_as_wide_as_it_is_and_an_arm_strip_as_it_is_deep():
    strip = rect(0, 0, 14, 5)
    rear = Opening(chair="A1", kind="rear strip", rect=strip)
    arm = Opening(chair="A1", kind="arm strip", rect=strip)
    assert gap_width_m(rear) == pytest.approx(14 * 0.0254, abs=1e-9)
    assert gap_width_m(arm) == pytest.approx(5 * 0.0254, abs=1e-9)
