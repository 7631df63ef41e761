"""Where chairs stand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from mirrored import mirrored, mirrored_rect
from support import inch, make_chair, make_riser, make_row, make_spec, rect

from powerplan.engineering.seating.poses import seat_rows

SEATS = st.integers(1, 9)
INCHES = st.integers(1, 400).map(lambda eighths: eighths / 8)


@st.composite
def rows(draw):
    seats = draw(SEATS)
    shared = draw(st.sets(st.integers(1, seats - 1))) if seats > 1 else set()
    return make_row(
        seats=seats,
        center_x_m=inch(draw(st.integers(40, 200))),
        headrest_to_wall_m=inch(draw(INCHES)),
        no_arm_between=tuple((left, left + 1) for left in sorted(shared)),
    )


@pytest.mark.published(source="common practice, no source", standing="common practice")
@pytest.mark.parametrize("seats", [1, 3, 5, 7])
def test_an_odd_row_has_its_middle_chair_on_the_center_line(seats):
    (row,) = seat_rows(make_spec(rows=(make_row(seats=seats),)))
    assert row.chairs[seats // 2].x_m == pytest.approx(inch(120), abs=1e-6)


@pytest.mark.published(source="common practice, no source", standing="common practice")
@pytest.mark.parametrize("seats", [2, 4, 6])
def test_an_even_row_has_its_middle_armrest_on_the_center_line(seats):
    (row,) = seat_rows(make_spec(rows=(make_row(seats=seats),)))
    left, right = row.chairs[seats // 2 - 1], row.chairs[seats // 2]
    arm = (right.floor.left_m, left.floor.right_m)
    assert sum(arm) / 2 == pytest.approx(inch(120), abs=1e-6)
    assert arm[1] - arm[0] == pytest.approx(inch(7), abs=1e-6)


def test_a_row_of_five_is_five_seats_and_six_arms_wide():
    (row,) = seat_rows(make_spec())
    assert row.right_m - row.left_m == pytest.approx(inch(5 * 23 + 6 * 7), abs=1e-6)
    assert row.left_m == pytest.approx(inch(120 - 157 / 2), abs=1e-6)
    assert row.riser is None


def test_chairs_are_called_by_row_and_seat_from_the_left():
    (row,) = seat_rows(make_spec())
    assert [chair.id for chair in row.chairs] == ["A1", "A2", "A3", "A4", "A5"]
    assert [chair.seat for chair in row.chairs] == [1, 2, 3, 4, 5]
    assert [c.x_m for c in row.chairs] == sorted(c.x_m for c in row.chairs)


def test_a_pair_without_an_arm_stands_one_arm_width_closer():
    (row,) = seat_rows(make_spec(rows=(make_row(no_arm_between=((2, 3),)),)))
    second, third = row.chairs[1], row.chairs[2]
    assert third.x_m - second.x_m == pytest.approx(inch(23), abs=1e-6)
    assert second.floor.right_m == third.floor.left_m
    assert row.right_m - row.left_m == pytest.approx(inch(5 * 23 + 5 * 7), abs=1e-6)


def test_a_chair_by_itself_stands_arm_to_arm_from_rear_of_base_to_reclined_footrest():
    (row,) = seat_rows(make_spec(rows=(make_row(seats=1),)))
    (chair,) = row.chairs
    assert chair.floor == rect(120 - 37 / 2, 14 + 4, 37, 66 - 4)
    assert chair.base == rect(120 - 37 / 2, 14 + 4, 37, 39 - 4)
    assert chair.reclined == rect(120 - 37 / 2, 14 - 5, 37, 66 + 5)


def test_clear_zone_and_lead_are_carried_from_the_chair_into_the_room():
    (row,) = seat_rows(make_spec(chairs=(make_chair(lead_from=(inch(-2), inch(11))),)))
    chair = row.chairs[2]
    assert chair.clear == rect(120 - 7, 14 + 9, 14, 12)
    assert chair.lead_from == (inch(118), inch(25))


def test_a_chair_without_a_measured_clear_zone_has_none():
    (row,) = seat_rows(make_spec(chairs=(make_chair(clear=None),)))
    assert row.chairs[0].clear is None


@pytest.mark.parametrize(("depth", "riser"), [(36, "rear"), (90, "rear"), (35, None), (17, None)])
def test_a_row_stands_on_the_riser_that_carries_most_of_its_bases(depth, riser):
    # The bases reach from 18 in to 53 in: half of them is past 35 1/2 in.
    (row,) = seat_rows(make_spec(risers=(make_riser(0, 0, 240, depth),)))
    assert row.riser == riser
    assert {chair.riser for chair in row.chairs} == {riser}


@given(rows())
def test_neighbors_share_an_arm_or_a_cushion_edge_and_the_row_is_centered(row):
    (seated,) = seat_rows(make_spec(rows=(row,)))
    assert (seated.left_m + seated.right_m) / 2 == pytest.approx(row.center_x_m, abs=2e-6)
    assert seated.chairs[0].floor.left_m == seated.left_m
    assert seated.chairs[-1].floor.right_m == pytest.approx(seated.right_m, abs=2e-6)
    for left, right in zip(seated.chairs, seated.chairs[1:], strict=False):
        arm_m = 0.0 if (left.seat, right.seat) in row.no_arm_between else inch(7)
        assert left.floor.right_m - right.floor.left_m == pytest.approx(arm_m, abs=2e-6)


@given(rows())
def test_a_row_in_a_mirror_is_the_mirror_of_the_row(row):
    spec = make_spec(rows=(row,), chairs=(make_chair(lead_from=(inch(2), inch(11))),))
    width_m = spec.room.width_m
    (seated,), (twin,) = seat_rows(spec), seat_rows(mirrored(spec))
    for chair, other in zip(seated.chairs, reversed(twin.chairs), strict=True):
        assert other.x_m == pytest.approx(width_m - chair.x_m, abs=2e-6)
        assert _near(other.floor, mirrored_rect(chair.floor, width_m))
        assert other.lead_from == pytest.approx(
            (width_m - chair.lead_from[0], chair.lead_from[1]), abs=2e-6
        )


def _near(one, other):
    sides = ("left_m", "right_m", "back_m", "front_m")
    return all(abs(getattr(one, side) - getattr(other, side)) <= 2e-6 for side in sides)
