"""Spare cord lies in flat ovals behind the base, in reach of nothing that moves."""

import math
from itertools import combinations

import pytest
import shapely
import strategies
from hypothesis import given
from hypothesis import strategies as st
from laws import law, planned
from support import NEC, inch, make_area, make_chain, make_chair, make_riser, make_row, make_spec

from powerplan.judging.judge import judge
from powerplan.model.plan import Cord, Plan
from powerplan.planning.pipeline import make_plan
from powerplan.planning.spare import coil_size_m, loop_m

USUAL_M, WIDEST_M = inch(4), inch(12)


def plan(**changes: object) -> Plan:
    usual = {"rows": (make_row(seats=1),), "outlets": ()}
    return make_plan(make_spec(**{**usual, **changes}), NEC, "0" * 64)


def oval(cord: Cord) -> shapely.Polygon:
    """The floor of a coil: two half circles and what is between them."""
    assert cord.park_m is not None
    assert cord.coil_m is not None
    (x, y), (width, depth) = cord.park_m, cord.coil_m
    half = (width - depth) / 2
    return shapely.LineString(((x - half, y), (x + half, y))).buffer(depth / 2)


@given(st.floats(inch(24), inch(400)))
def test_loops_of_one_size_take_up_all_that_is_spare_and_as_few_as_can_be(spare_m: float) -> None:
    width_m, depth_m = coil_size_m(spare_m, NEC)
    assert depth_m == pytest.approx(USUAL_M)
    assert depth_m <= width_m <= WIDEST_M + 1e-6
    # a loop of a running track: two half circles and two straights
    one_m = math.pi * depth_m + 2 * (width_m - depth_m)
    assert one_m == pytest.approx(loop_m(width_m, depth_m))
    loops = round(spare_m / one_m)
    assert loops * one_m == pytest.approx(spare_m, abs=2e-5)
    assert loops == math.ceil(spare_m / (math.pi * USUAL_M + 2 * (WIDEST_M - USUAL_M)) - 1e-9)


def test_where_there_is_room_it_lies_behind_the_reclined_headrest() -> None:
    # Headrest 14 in off the wall, back travel 5 in: 9 in stay free, less 25 mm that cords keep from
    # what moves: 203.6 mm, and 101.8 mm is their middle.
    (cord,) = plan().cords
    assert cord.park_m == pytest.approx((inch(120), 0.1018))
    # The inlet is 25 in off the wall and the near edge of the oval 152.6 mm: 482.4 mm there, as
    # much back. Of 72 in less 4 in, 1727.2 mm, two loops of 381.2 mm are left.
    assert cord.tail_m == ((inch(120), inch(25)), (inch(120), pytest.approx(0.1526)))
    straight_m = (0.3812 - math.pi * USUAL_M) / 2
    assert cord.coil_m == pytest.approx((USUAL_M + straight_m, USUAL_M), abs=1e-6)


def test_close_to_a_wall_there_is_none_under_the_reclining_back() -> None:
    # Headrest 6 in off, back travel 5 in: 1 in stays free.
    (cord,) = plan(rows=(make_row(seats=1, headrest_to_wall_m=inch(6)),)).cords
    assert cord.park_m is None
    assert cord.tail_m == ()


def test_a_coil_keeps_off_the_wall() -> None:
    # 4 in deep, 25 mm kept: with 4 in behind the reclined headrest there is no room, with 5 is
    for free_in, parked in ((4, False), (5, True)):
        row = make_row(seats=1, headrest_to_wall_m=inch(5 + free_in))
        (cord,) = plan(rows=(row,)).cords
        assert (cord.park_m is not None) == parked
        if parked:
            assert oval(cord).bounds[1] >= 0.025 - 1e-6


def test_no_place_is_told_where_there_is_no_room_for_loops() -> None:
    chair = make_chair(rear_of_base_m=inch(1), back_travel_m=inch("1/2"))
    row = make_row(seats=1, headrest_to_wall_m=inch(3))
    (cord,) = plan(chairs=(chair,), rows=(row,)).cords
    assert cord.park_m is None
    assert cord.coil_m is None


def test_a_lead_that_cannot_come_out_to_the_rear_is_parked_nowhere() -> None:
    (cord,) = plan(chairs=(make_chair(rear_gap_m=None),)).cords
    assert cord.park_m is None


def test_a_coil_moves_aside_for_what_stands_behind_the_chair() -> None:
    column = make_area("column", 118, 0, 4, 9)
    (cord,) = plan(obstacles=(column,)).cords
    assert cord.park_m is not None
    assert oval(cord).distance(shapely.box(inch(118), 0, inch(122), inch(9))) > 0.025


def test_where_its_own_chair_has_no_room_a_coil_lies_behind_a_neighbor() -> None:
    # The two middles are at 105 and 135 in; a locker takes all the floor behind A1's back.
    locker = make_area("locker", 85, 0, 35, 9)
    made = plan(
        rows=(make_row(seats=2),), chairs=(make_chair(lead_m=inch(120)),), obstacles=(locker,)
    )
    assert judge(made, NEC).disputed == ()
    first = next(cord for cord in made.cords if cord.to == "A1")
    assert first.park_m is not None
    # it lies behind A2, past the locker, with what is asked of cords kept to it
    assert oval(first).bounds[0] >= inch(120) + 0.025 - 1e-6
    # and behind the reclined back: headrests at 14 in that move back 5 in
    assert oval(first).bounds[3] <= inch(9) + 1e-6
    second = next(cord for cord in made.cords if cord.to == "A2")
    assert second.park_m is not None
    assert oval(first).distance(oval(second)) > 0.0


def test_no_coil_lies_behind_a_neighbor_where_people_walk() -> None:
    locker, aisle = make_area("locker", 85, 0, 35, 9), make_area("aisle", 120, 0, 60, 9)
    made = plan(
        rows=(make_row(seats=2),),
        chairs=(make_chair(lead_m=inch(120)),),
        obstacles=(locker,),
        walkways=(aisle,),
    )
    assert made.cords
    assert all(cord.park_m is None for cord in made.cords)


def test_a_coil_never_lies_over_the_edge_of_a_riser() -> None:
    riser = make_riser(0, 6, 240, 100)
    row = make_row(seats=1, headrest_to_wall_m=inch(17))
    (cord,) = plan(risers=(riser,), rows=(row,)).cords
    assert oval(cord).bounds[1] >= inch(6) - 1e-6


@law(strategies.rooms(), usual=7, many=150)
def test_coils_keep_off_what_moves_off_each_other_and_in_the_room(spec) -> None:
    made = planned(spec)
    ovals = [oval(cord) for cord in made.cords if cord.park_m is not None]
    pinch = [shapely.Polygon(z.outline_m) for z in made.zones if z.kind == "pinch"]
    room = shapely.box(0, 0, spec.room.width_m, spec.room.depth_m).buffer(1e-5)
    for one in ovals:
        assert room.covers(one)
        assert all(one.distance(zone) >= 0.025 - 1e-5 for zone in pinch)
        for area in (*spec.obstacles, *spec.walkways):
            r = area.rect
            assert one.buffer(-1e-5).disjoint(shapely.box(r.left_m, r.back_m, r.right_m, r.front_m))
    for one, other in combinations(ovals, 2):
        assert one.buffer(-1e-5).disjoint(other)


def test_what_does_not_reach_its_place_and_back_is_coiled_nowhere() -> None:
    # A way of 4 in; the nearest oval begins 9 in off the wall, the inlet is at 25 in: 32 in there
    # and back. The least oval takes 4 pi = 12.57 in.
    for lead_in, parked in ((48, False), (49, True)):
        (cord,) = plan(chairs=(make_chair(lead_m=inch(lead_in)),)).cords
        assert (cord.park_m is not None) == parked


def test_links_that_do_not_reach_the_floor_behind_and_back_are_not_coiled_there() -> None:
    chair = make_chair(chain=make_chain(link_m=inch(60)), arm_gap_m=inch("3/2"))
    made = plan(chairs=(chair,), rows=(make_row(seats=3),))
    links = [cord for cord in made.cords if cord.kind == "link"]
    assert links
    assert all(cord.park_m is None for cord in links)


@law(strategies.rooms(), usual=7, many=150)
def test_way_tail_there_and_back_and_loops_take_the_whole_cord(spec) -> None:
    for cord in planned(spec).cords:
        if cord.coil_m is None:
            assert cord.tail_m == ()
            continue
        tail_m = shapely.LineString(cord.tail_m).length if cord.tail_m else 0.0
        left_m = cord.bought_m - cord.length_m - 2 * tail_m
        one_m = loop_m(*cord.coil_m)
        assert round(left_m / one_m) >= 1
        assert round(left_m / one_m) * one_m == pytest.approx(left_m, abs=1e-4)
