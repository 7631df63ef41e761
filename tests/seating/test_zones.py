"""Pinch zones and openings."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from mirrored import mirrored, mirrored_rect
from shapely import box
from shapely.ops import unary_union
from support import NEC, inch, make_chair, make_row, make_spec, rect

from powerplan.engineering.seating.poses import seat_rows
from powerplan.engineering.seating.zones import ARM_STRIP, CLEAR, REAR_STRIP, mark_zones
from powerplan.model.geometry import Rect

# A cord of 0.36 in lies in a gap of 0.61 in or more.
JUST_ENOUGH_M = inch("0.61")


def zones_of(**changes):
    spec = make_spec(**changes)
    return mark_zones(spec, seat_rows(spec), NEC)


def rects_of(zones, kind):
    return [opening.rect for opening in zones.openings if opening.kind == kind]


def rect_of(outline):
    """The rectangle with these four corners."""
    left, right = min(x for x, _ in outline), max(x for x, _ in outline)
    back, front = min(y for _, y in outline), max(y for _, y in outline)
    made = Rect(left_m=left, right_m=right, back_m=back, front_m=front)
    assert set(made.outline) == set(outline)
    return made


def as_shape(rects):
    return unary_union([box(r.left_m, r.back_m, r.right_m, r.front_m) for r in rects])


def one_chair(**changes):
    return zones_of(rows=(make_row(seats=1),), chairs=(make_chair(**changes),))


def test_a_single_chair_pinches_all_around_its_clear_zone_and_its_rear_strip():
    zones = one_chair()
    swept = as_shape([rect(120 - 37 / 2, 18, 37, 62)])
    opening = as_shape([rect(113, 23, 14, 12), rect(113, 18, 14, 5)])
    pinch = as_shape([rect_of(tile) for _, tile in zones.pinch])
    assert pinch.symmetric_difference(swept - opening).area < 1e-9
    assert len(zones.pinch) == 3
    assert {chair for chair, _ in zones.pinch} == {"A1"}


def test_a_chair_whose_clear_zone_nobody_measured_pinches_everywhere():
    zones = one_chair(clear=None, rear_gap_m=inch(3), arm_gap_m=inch(3))
    assert zones.openings == ()
    assert [rect_of(tile) for _, tile in zones.pinch] == [rect(120 - 37 / 2, 18, 37, 62)]


@pytest.mark.parametrize(
    ("gap_m", "count"),
    [(JUST_ENOUGH_M, 5), (JUST_ENOUGH_M - 1e-6, 0), (None, 0), (inch("3/2"), 5)],
)
def test_a_rear_strip_is_open_from_the_cords_thickness_and_a_quarter_inch(gap_m, count):
    zones = zones_of(chairs=(make_chair(rear_gap_m=gap_m),))
    assert len(rects_of(zones, REAR_STRIP)) == count
    assert len(rects_of(zones, CLEAR)) == 5


@pytest.mark.parametrize(
    ("gap_m", "count"), [(JUST_ENOUGH_M, 4), (JUST_ENOUGH_M - 1e-6, 0), (None, 0)]
)
def test_an_arm_strip_is_open_from_the_cords_thickness_and_a_quarter_inch(gap_m, count):
    assert len(rects_of(zones_of(chairs=(make_chair(arm_gap_m=gap_m),)), ARM_STRIP)) == count


def test_an_arm_strip_goes_from_clear_zone_to_clear_zone_and_belongs_to_the_left_chair():
    zones = zones_of(rows=(make_row(seats=2),), chairs=(make_chair(arm_gap_m=inch("3/2")),))
    (strip,) = (opening for opening in zones.openings if opening.kind == ARM_STRIP)
    assert strip.chair == "A1"
    # The chairs stand at 105 in and 135 in; their clear zones reach 7 in to either side.
    assert strip.rect == rect(112, 23, 16, 12)


def test_between_seats_that_share_a_cushion_there_is_no_arm_strip():
    zones = zones_of(
        rows=(make_row(no_arm_between=((2, 3),)),),
        chairs=(make_chair(arm_gap_m=inch("3/2")),),
    )
    assert [o.chair for o in zones.openings if o.kind == ARM_STRIP] == ["A1", "A3", "A4"]


def test_a_thicker_cord_closes_a_strip_that_a_thin_one_may_use():
    spec = make_spec(chairs=(make_chair(rear_gap_m=inch("3/4")),))
    thick = replace(spec, cords=replace(spec.cords, diameter_m=inch("0.51")))
    assert rects_of(mark_zones(spec, seat_rows(spec), NEC), REAR_STRIP)
    assert not rects_of(mark_zones(thick, seat_rows(thick), NEC), REAR_STRIP)


def test_a_shared_arm_is_split_at_its_middle_between_its_chairs():
    zones = zones_of(rows=(make_row(seats=2),))
    left = as_shape([rect_of(tile) for chair, tile in zones.pinch if chair == "A1"])
    right = as_shape([rect_of(tile) for chair, tile in zones.pinch if chair == "A2"])
    assert left.bounds[2] == right.bounds[0] == inch(120)


GAPS = st.sampled_from([None, inch("1/4"), inch("3/4"), inch(2)])


@given(
    seats=st.integers(1, 6),
    apart=st.sets(st.integers(1, 5)),
    arm_gap=GAPS,
    rear_gap=GAPS,
    width=st.integers(6, 20),
    start=st.integers(4, 12),
)
def test_pinch_and_openings_are_the_swept_floor_without_overlap_and_mirror(
    seats, apart, arm_gap, rear_gap, width, start
):
    kind = make_chair(arm_gap_m=arm_gap, rear_gap_m=rear_gap)
    clear = replace(kind.clear, width_m=inch(width), from_m=inch(start))
    row = make_row(
        seats=seats, no_arm_between=tuple((n, n + 1) for n in sorted(apart) if n < seats)
    )
    spec = make_spec(rows=(row,), chairs=(replace(kind, clear=clear),))
    (seated,) = seat_rows(spec)
    zones = mark_zones(spec, (seated,), NEC)
    tiles = [rect_of(tile) for _, tile in zones.pinch]
    opened = as_shape([opening.rect for opening in zones.openings])
    floor = as_shape([chair.floor for chair in seated.chairs])
    assert as_shape(tiles).union(opened).symmetric_difference(floor).area < 1e-9
    assert as_shape(tiles).intersection(opened).area < 1e-9
    assert sum(t.width_m * t.depth_m for t in tiles) == pytest.approx(as_shape(tiles).area)
    twin_spec = mirrored(spec)
    twin = mark_zones(twin_spec, seat_rows(twin_spec), NEC)
    back = [mirrored_rect(rect_of(tile), spec.room.width_m) for _, tile in twin.pinch]
    assert as_shape(back).symmetric_difference(as_shape(tiles)).area < 1e-4
