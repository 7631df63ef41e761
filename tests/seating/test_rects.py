"""Cutting, tiling and measuring rectangles."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import box
from shapely.ops import unary_union

from powerplan.engineering.seating.rects import gap_m, shared, spans_less, tiles
from powerplan.model.geometry import Rect


def make(left, right, back, front):
    return Rect(left_m=left, right_m=right, back_m=back, front_m=front)


@st.composite
def rects(draw):
    left, back = draw(st.integers(0, 8)), draw(st.integers(0, 8))
    return make(left, left + draw(st.integers(1, 6)), back, back + draw(st.integers(1, 6)))


def as_polygon(one):
    return box(one.left_m, one.back_m, one.right_m, one.front_m)


@given(st.lists(rects(), max_size=4), st.lists(rects(), max_size=4))
def test_tiles_are_the_floor_less_its_holes_and_never_overlap(floor, holes):
    found = tiles(floor, holes)
    wanted = unary_union([as_polygon(r) for r in floor]).difference(
        unary_union([as_polygon(r) for r in holes])
    )
    assert sum(tile.width_m * tile.depth_m for tile in found) == pytest.approx(wanted.area)
    union = unary_union([as_polygon(tile) for tile in found])
    assert union.symmetric_difference(wanted).area == pytest.approx(0)
    for n, tile in enumerate(found):
        assert not any(tile.overlaps(other) for other in found[:n])


@pytest.mark.parametrize(
    ("holes", "count"),
    [
        ((), 1),
        ((make(3, 5, 3, 5),), 4),
        ((make(3, 5, 0, 5),), 3),
        ((make(0, 9, 3, 5),), 2),
        ((make(0, 5, 3, 5),), 3),
        ((make(0, 9, 3, 5), make(3, 5, 0, 3)), 3),
        ((make(0, 9, 0, 9),), 0),
    ],
)
def test_tiles_are_as_few_as_can_be_for_the_openings_of_a_chair(holes, count):
    assert len(tiles((make(0, 9, 0, 9),), holes)) == count


def test_gaps_are_straight_across_slanting_past_a_corner_and_negative_in_an_overlap():
    one = make(0, 2, 0, 2)
    assert gap_m(one, make(5, 6, 0, 9)) == 3
    assert gap_m(one, make(5, 6, 6, 9)) == 5
    assert gap_m(one, make(2, 6, 0, 9)) == 0
    assert gap_m(one, make(1.5, 6, 0, 9)) == -0.5


def test_shared_floor_is_none_at_a_shared_edge():
    assert shared(make(0, 2, 0, 2), make(2, 4, 0, 2)) is None
    assert shared(make(0, 2, 0, 2), make(1, 4, -1, 1)) == make(1, 2, 0, 1)


def test_stretches_taken_out_leave_the_rest():
    assert spans_less((0, 10), [(2, 3), (2.5, 4), (8, 12)]) == ((0, 2), (4, 8))
    assert spans_less((0, 10), [(-1, 11)]) == ()
    assert spans_less((0, 10), [(12, 13)]) == ((0, 10),)
