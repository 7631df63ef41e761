"""Covered floor and the keep-outs inside doors."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Point, Polygon, box
from shapely.ops import unary_union
from support import NEC, inch, make_door, make_riser, make_row, make_spec, rect

from powerplan.engineering.seating.covered import covered_floor, doorways
from powerplan.engineering.seating.poses import seat_rows
from powerplan.model.spec import Wall


def covered(**changes):
    spec = make_spec(**changes)
    pieces = covered_floor(spec, seat_rows(spec), NEC)
    return unary_union([Polygon(outline) for outline in pieces])


def holds(shape, left, back, width, depth):
    """True when a rectangle, in inches, is covered all over."""
    one = rect(left, back, width, depth)
    whole = box(one.left_m, one.back_m, one.right_m, one.front_m)
    return whole.difference(shape).area < 1e-9


def is_open(shape, left, back, width, depth):
    """True when none of a rectangle, in inches, is covered."""
    one = rect(left, back, width, depth)
    return box(one.left_m, one.back_m, one.right_m, one.front_m).intersection(shape).area < 1e-9


# Row A is five clubs: 157 in wide, from 41 1/2 in to 198 1/2 in.
LEFT, WIDTH = 41.5, 157


def test_a_row_covers_floor_from_reclined_headrests_to_front_of_bases():
    far = covered(rows=(make_row(headrest_to_wall_m=inch(60)),))
    assert holds(far, LEFT, 55, WIDTH, 5 + 39)
    assert is_open(far, LEFT, 99, WIDTH, 20)
    assert is_open(far, LEFT, 7, WIDTH, 48)


@pytest.mark.parametrize(("headrest_m", "is_covered"), [(inch(18) - 1e-6, True), (inch(18), False)])
def test_the_gap_behind_a_row_is_covered_under_18_in_and_not_at_18_in(headrest_m, is_covered):
    shape = covered(rows=(make_row(headrest_to_wall_m=headrest_m),))
    assert holds(shape, LEFT, 6, WIDTH, 6) is is_covered
    assert is_open(shape, LEFT, 6, WIDTH, 6.5) is not is_covered


def test_a_higher_riser_behind_a_row_counts_as_its_wall_over_its_own_width():
    riser = make_riser(0, 0, 120, 50)
    shape = covered(rows=(make_row(headrest_to_wall_m=inch(65)),), risers=(riser,))
    assert holds(shape, LEFT, 50, 120 - LEFT, 10)
    assert is_open(shape, 126, 50, 70, 10)


def test_the_riser_a_row_stands_on_is_no_wall_behind_it():
    riser = make_riser(0, 40, 240, 60)
    shape = covered(rows=(make_row(headrest_to_wall_m=inch(50)),), risers=(riser,))
    assert is_open(shape, LEFT, 7, WIDTH, 26)
    assert is_open(shape, LEFT, 40, WIDTH, 5)


def test_a_lower_riser_behind_a_row_is_no_wall_behind_it():
    low = make_riser(0, 0, 240, 40, id="low")
    high = make_riser(0, 40, 240, 80, height_m=inch(20))
    shape = covered(rows=(make_row(headrest_to_wall_m=inch(55)),), risers=(low, high))
    assert is_open(shape, LEFT, 41, WIDTH, 9)


def test_behind_a_row_the_gap_ends_at_the_nearest_face_and_not_at_the_wall():
    shape = covered(rows=(make_row(headrest_to_wall_m=inch(16)),), risers=(_shelf(),))
    assert holds(shape, LEFT, 10, WIDTH, 6)
    assert is_open(shape, LEFT, 6, WIDTH, 4)


def _shelf():
    return make_riser(0, 0, 240, 10, id="shelf")


def test_strips_6_in_wide_run_along_every_wall():
    shape = covered()
    assert holds(shape, 0, 0, 240, 6)
    assert holds(shape, 0, 180, 240, 6)
    assert holds(shape, 0, 0, 6, 186)
    assert holds(shape, 234, 0, 6, 186)
    assert is_open(shape, 6, 100, 228, 80)


def test_strips_run_at_the_foot_of_a_risers_faces_and_not_on_top():
    shape = covered(risers=(make_riser(0, 0, 200, 100),))
    assert holds(shape, 0, 100, 200, 6)
    assert holds(shape, 200, 0, 6, 100)
    assert is_open(shape, 7, 54, 190, 46)


def test_between_two_risers_of_one_height_there_is_no_face_to_run_along():
    left, right = make_riser(0, 80, 120, 40), make_riser(120, 80, 120, 40, id="other")
    shape = covered(risers=(left, right))
    assert is_open(shape, 110, 87, 20, 30)


def test_a_lower_riser_in_front_has_a_strip_on_it_at_the_higher_face():
    high = make_riser(0, 60, 240, 30, height_m=inch(20))
    low = make_riser(0, 90, 240, 30, id="step")
    shape = covered(risers=(high, low))
    assert holds(shape, 6, 90, 228, 6)
    assert is_open(shape, 7, 84, 220, 6)


@pytest.mark.parametrize(
    ("wall", "opening"),
    [
        (Wall.LEFT, (0, 100, 6, 32)),
        (Wall.RIGHT, (234, 100, 6, 32)),
        (Wall.BACK, (100, 0, 32, 6)),
        (Wall.SCREEN, (100, 180, 32, 6)),
    ],
)
def test_a_wall_strip_stops_at_a_door_where_the_keep_out_lies(wall, opening):
    door = make_door(wall, 100, 32)
    far_row = make_row(headrest_to_wall_m=inch(60), seats=1)
    assert is_open(covered(doors=(door,), rows=(far_row,)), *opening)
    (keep_out,) = doorways(make_spec(doors=(door,)), NEC)
    assert keep_out.id == "hall"
    assert keep_out.rect == rect(*opening)


@given(st.integers(1, 300), st.integers(20, 220), st.integers(1, 8))
def test_covered_floor_stays_inside_the_room_and_a_larger_row_never_covers_less(
    headrest, center, seats
):
    def shape(count):
        return covered(
            rows=(
                make_row(seats=count, headrest_to_wall_m=inch(headrest), center_x_m=inch(center)),
            )
        )

    one, more = shape(seats), shape(seats + 1)
    assert one.difference(box(0, 0, inch(240), inch(186))).area < 1e-9
    assert one.difference(more).area < 1e-9


def test_half_of_a_shared_arm_is_covered_where_it_is_narrow_behind_one_seat_only():
    """Headrests of two seats, 17 in off the wall in their middle, turned by 0.279 to the right.

    Behind the right one the wall is nearer than 18 in everywhere, behind the left one it is not. An
    inch to either side of the middle of the arm that they share, 7 in behind the headrests, floor
    is covered on the right only: reclined backs end 5 in behind, the strip by the wall lies below.
    """
    floor = covered(rows=(make_row(seats=2, angle_rad=-0.279, headrest_to_wall_m=inch(17)),))
    cos, sin = math.cos(-0.279), math.sin(-0.279)
    places = [Point(inch(120 + u * cos + 7 * sin), inch(17 + u * sin - 7 * cos)) for u in (-1, 1)]
    assert all(place.y > inch(6) for place in places)
    assert [floor.covers(place) for place in places] == [False, True]
