"""The shortest way: closed forms, what blocks it, and what it has to keep."""

import math
import os
import subprocess
import sys
from dataclasses import replace

import pytest
from cord_rooms import KEEP_M, all_covered, at, bare_room, chairs_of, found, make_router, refused
from support import inch, make_area, make_chair, make_door, make_riser, make_row, make_spec

from powerplan.model.spec import Wall


def test_a_way_with_nothing_in_it_is_straight():
    way = found(all_covered(bare_room()).route(at(10, 10), at(110, 85)))
    assert way.path == (at(10, 10), at(110, 85))
    assert way.length_m == pytest.approx(125 * 0.0254, abs=1e-9)
    assert way.open_floor_m == 0.0


def test_without_zones_the_clearance_is_the_rooms_diagonal():
    way = found(all_covered(bare_room()).route(at(10, 10), at(110, 85)))
    assert way.clearance_m == pytest.approx(math.hypot(240, 186) * 0.0254, abs=1e-9)


def test_a_way_around_a_square_obstacle_is_the_hand_worked_length():
    # A 20 in square; ends 30 in left and right of its middle, on the middle line.
    way = found(all_covered(bare_room((100, 80, 20, 20))).route(at(80, 90), at(140, 90)))
    half = 10 * 0.0254 + KEEP_M
    slanted = math.hypot(30 * 0.0254 - half, half)
    assert way.length_m == pytest.approx(2 * slanted + 2 * half, abs=1e-6)
    assert way.clearance_m == pytest.approx(0.025, abs=1e-6)


def test_a_link_between_neighbors_goes_out_behind_when_the_arm_gap_is_a_quarter_inch():
    spec = make_spec()
    chairs = chairs_of(spec)
    way = found(make_router(spec).route(chairs["A1"].lead_from, chairs["A2"].lead_from))
    # Rear of base 18 in off the wall, leads 25 in; clear zones 14 in wide and 30 in apart.
    out = math.hypot(7 * 0.0254 - KEEP_M, 7 * 0.0254 + KEEP_M)
    along = 30 * 0.0254 - 2 * (7 * 0.0254 - KEEP_M)
    assert way.length_m == pytest.approx(2 * out + along, abs=1e-6)
    assert min(y for _, y in way.path) == pytest.approx(18 * 0.0254 - KEEP_M, abs=1e-6)


def test_an_arm_gap_of_an_inch_and_a_half_lets_a_link_through_sideways():
    spec = make_spec(chairs=(make_chair(arm_gap_m=inch("3/2"), lead_from=(0.0, inch(15))),))
    chairs = chairs_of(spec)
    way = found(make_router(spec).route(chairs["A1"].lead_from, chairs["A2"].lead_from))
    assert way.path == (chairs["A1"].lead_from, chairs["A2"].lead_from)
    assert way.length_m == pytest.approx(30 * 0.0254, abs=1e-6)


def test_a_pair_without_an_arm_has_no_way_sideways():
    kind = make_chair(arm_gap_m=inch("3/2"), lead_from=(0.0, inch(15)))
    spec = make_spec(chairs=(kind,), rows=(make_row(no_arm_between=((1, 2),)),))
    chairs = chairs_of(spec)
    way = found(make_router(spec).route(chairs["A1"].lead_from, chairs["A2"].lead_from))
    assert min(y for _, y in way.path) < inch(18)


@pytest.mark.parametrize(("more_um", "straight"), [(2, True), (0, True), (-2, False)])
def test_a_gap_is_a_way_from_twice_the_clearance_on(more_um: int, straight: bool):
    spec = bare_room((0, 80, 100, 10), (120, 80, 60, 10))
    left, right = spec.obstacles
    edge_m = left.rect.right_m + round(2 * KEEP_M, 6) + more_um * 1e-6
    moved = replace(right, rect=replace(right.rect, left_m=edge_m))
    router = all_covered(replace(spec, obstacles=(left, moved)))
    middle_m = (left.rect.right_m + edge_m) / 2
    way = found(router.route((middle_m, inch(70)), (middle_m, inch(100))))
    assert (len(way.path) == 2) is straight
    assert way.clearance_m >= 0.025 - 2e-6


def test_two_obstacles_that_touch_leave_no_way_between():
    router = all_covered(bare_room((100, 80, 20, 10), (120, 80, 20, 10)))
    way = found(router.route(at(120, 70), at(120, 100)))
    assert way.length_m > 40 * 0.0254


def test_a_cord_may_lie_on_a_wall():
    way = found(make_router(make_spec()).route((inch(30), 0.0), (inch(200), 0.0)))
    assert way.path == ((inch(30), 0.0), (inch(200), 0.0))
    assert way.open_floor_m == 0.0


def test_an_obstacle_against_the_wall_is_gone_around():
    way = found(all_covered(bare_room((100, 0, 10, 10))).route((inch(60), 0.0), (inch(150), 0.0)))
    assert max(y for _, y in way.path) == pytest.approx(10 * 0.0254 + KEEP_M, abs=1e-6)


def test_a_way_from_a_place_to_itself_has_no_length():
    way = found(all_covered(bare_room()).route(at(10, 10), at(10, 10)))
    assert (way.path, way.length_m, way.rises_m) == ((at(10, 10), at(10, 10)), 0.0, 0.0)


def test_going_up_and_down_a_riser_adds_its_height_each_time():
    spec = bare_room(risers=(make_riser(60, 60, 60, 60),))
    router = all_covered(spec)
    up = found(router.route(at(90, 20), at(90, 90)))
    assert (up.length_m, up.rises_m) == (
        pytest.approx(70 * 0.0254, abs=1e-9),
        pytest.approx(10 * 0.0254, abs=1e-9),
    )
    over = found(router.route(at(90, 50), at(90, 130)))
    assert over.rises_m == pytest.approx(20 * 0.0254, abs=1e-9)


def test_a_way_goes_around_a_riser_where_that_is_shorter_than_over_it():
    spec = bare_room(risers=(make_riser(60, 60, 60, 10),))
    way = found(all_covered(spec).route(at(65, 50), at(65, 80)))
    assert way.rises_m == 0.0
    assert way.path == (at(65, 50), at(60, 60), at(60, 70), at(65, 80))


def test_a_riser_edge_on_a_wall_is_no_step():
    spec = bare_room(risers=(make_riser(40, 0, 100, 80),))
    router = all_covered(spec)
    assert found(router.route(at(60, 0), at(90, 40))).rises_m == 0.0
    assert found(router.route(at(60, 0), at(100, 0))).rises_m == 0.0
    assert found(router.route(at(20, 0), at(100, 0))).rises_m == pytest.approx(0.254, abs=1e-9)


def test_a_way_along_a_risers_edge_is_on_the_lower_floor():
    spec = bare_room(risers=(make_riser(60, 60, 60, 60),))
    way = found(all_covered(spec).route(at(60, 40), at(60, 150)))
    assert (way.rises_m, way.length_m) == (0.0, pytest.approx(110 * 0.0254, abs=1e-9))


def test_a_walkway_across_the_room_stops_a_cord_and_is_named():
    spec = bare_room(walkways=(make_area("aisle", 100, 0, 36, 186),))
    no = refused(all_covered(spec).route(at(50, 50), at(200, 50)))
    assert (no.rule, no.limit) == ("cord-in-walkway", 0.0)
    assert no.value == pytest.approx(36 * 0.0254, abs=1e-5)
    assert "walkway aisle" in no.words


def test_a_walkway_that_ends_is_gone_around_and_may_be_touched():
    spec = bare_room(walkways=(make_area("aisle", 100, 0, 36, 100),))
    way = found(all_covered(spec).route(at(50, 100), at(200, 100)))
    assert way.path == (at(50, 100), at(200, 100))
    below = found(all_covered(spec).route(at(90, 90), at(146, 90)))
    assert below.path == (at(90, 90), at(100, 100), at(136, 100), at(146, 90))


def test_two_walkways_side_by_side_leave_no_way_along_their_seam():
    aisles = (make_area("one", 100, 0, 20, 186), make_area("two", 120, 0, 20, 186))
    no = refused(all_covered(bare_room(walkways=aisles)).route(at(50, 50), at(200, 50)))
    assert no.value == pytest.approx(40 * 0.0254, abs=1e-5)


def test_a_seam_finer_than_any_tape_is_no_way():
    one, two = make_area("one", 0, 0, 20, 186), make_area("two", 120, 0, 20, 186)
    one = replace(one, rect=replace(one.rect, left_m=2.5, right_m=0.1 * 3 + 2.5))
    two = replace(two, rect=replace(two.rect, left_m=2.8 + 1e-12))
    no = refused(all_covered(bare_room(walkways=(one, two))).route(at(50, 50), at(200, 50)))
    assert no.rule == "cord-in-walkway"


def test_where_two_walkways_touch_at_a_corner_a_cord_passes_and_bends():
    aisles = (make_area("one", 0, 0, 100, 50), make_area("two", 100, 50, 140, 136))
    way = found(all_covered(bare_room(walkways=aisles)).route(at(50, 60), at(110, 20)))
    assert way.path == (at(50, 60), at(100, 50), at(110, 20))


def test_a_socket_in_a_walkway_is_refused_with_how_deep_it_lies():
    spec = bare_room(walkways=(make_area("aisle", 100, 0, 36, 186),))
    no = refused(all_covered(spec).route(at(110, 0), at(20, 20)))
    assert no.rule == "cord-in-walkway"
    assert no.value == pytest.approx(10 * 0.0254, abs=1e-5)


def test_a_socket_in_a_doorway_is_refused():
    spec = bare_room(doors=(make_door(Wall.BACK, 100, 32),))
    no = refused(make_router(spec).route(at(110, 0), at(20, 0)))
    assert no.rule == "cord-through-doorway"
    assert "door hall" in no.words


def test_a_cord_along_a_wall_leaves_it_at_a_door():
    spec = bare_room(doors=(make_door(Wall.BACK, 100, 32),))
    way = found(all_covered(spec).route(at(90, 0), at(142, 0)))
    assert way.path == (at(90, 0), at(100, 6), at(132, 6), at(142, 0))


def test_covered_floor_all_around_the_room_goes_before_a_short_way_past_a_door():
    spec = bare_room(doors=(make_door(Wall.BACK, 100, 32),))
    way = found(make_router(spec).route(at(90, 0), at(142, 0)))
    assert way.open_floor_m == 0.0
    assert way.length_m > 2 * 180 * 0.0254


def test_past_a_door_where_no_covered_floor_goes_around_the_floor_is_open():
    aisle = make_area("aisle", 110, 150, 6, 36)
    spec = bare_room(doors=(make_door(Wall.BACK, 100, 32),), walkways=(aisle,))
    way = found(make_router(spec).route(at(90, 0), at(142, 0)))
    assert way.path == (at(90, 0), at(100, 6), at(132, 6), at(142, 0))
    assert way.open_floor_m == pytest.approx(32 * 0.0254, abs=1e-5)


def test_a_doorway_that_closes_the_only_way_is_named():
    # An obstacle stands square in front of the door, so only the keep-out is left.
    spec = bare_room((100, 4, 32, 182), doors=(make_door(Wall.BACK, 100, 32),))
    no = refused(make_router(spec).route(at(50, 50), at(200, 50)))
    assert no.rule == "cord-through-doorway"
    assert no.value is not None
    assert no.value > 0


def test_an_end_too_near_an_obstacle_is_refused_with_the_measured_distance():
    router = all_covered(bare_room((100, 80, 20, 20)))
    no = refused(router.route(at(99, 90), at(20, 20)))
    assert (no.rule, no.limit) == ("cord-clear-of-mechanism", pytest.approx(0.025))
    assert no.value == pytest.approx(1 * 0.0254 - 0.18 * 0.0254, abs=1e-6)
    assert "1 in from obstacle o1" in no.words


def test_an_end_exactly_at_the_clearance_is_accepted():
    router = all_covered(bare_room((100, 80, 20, 20)))
    end = (round(inch(100) - KEEP_M, 6), inch(90))
    assert found(router.route(end, at(20, 20))).clearance_m == pytest.approx(0.025, abs=1e-6)
    nearer = (end[0] + 2e-6, end[1])
    assert refused(router.route(nearer, at(20, 20))).rule == "cord-clear-of-mechanism"


def test_a_lead_under_the_rail_of_a_closed_chair_is_named_by_its_chair():
    spec = make_spec(chairs=(make_chair(clear=None),))
    no = refused(make_router(spec).route((inch(108), 0.0), chairs_of(spec)["A3"].lead_from))
    assert no.rule == "cord-clear-of-mechanism"
    assert no.value == pytest.approx(-0.18 * 0.0254, abs=1e-6)
    assert "is in the pinch zone of chair A3" in no.words


def test_a_chair_with_closed_gaps_is_told_which_gap_is_too_small():
    kind = make_chair(rear_gap_m=inch("1/4"), lead_from=(0.0, inch(15)))
    spec = make_spec(chairs=(kind,))
    no = refused(make_router(spec).route((inch(108), 0.0), chairs_of(spec)["A3"].lead_from))
    assert (no.rule, no.value, no.limit) == ("cord-has-a-way", 0.0, 1.0)
    assert "A3" in no.words
    # A cord of 0.36 in and 1/4 in over it: 0.61 in, on a tape 5/8 in.
    assert "rear rail is only 1/4 in" in no.words
    assert "5/8 in is needed" in no.words


def test_a_gap_that_nobody_measured_is_closed_and_said_so():
    kind = make_chair(rear_gap_m=None, lead_from=(0.0, inch(15)))
    spec = make_spec(chairs=(kind,))
    no = refused(make_router(spec).route((inch(108), 0.0), chairs_of(spec)["A3"].lead_from))
    assert "rear rail was not measured" in no.words


def test_an_end_outside_the_room_is_refused():
    no = refused(all_covered(bare_room()).route(at(-5, 10), at(20, 20)))
    assert no.rule == "cord-has-a-way"
    assert "outside the room" in no.words


def test_obstacles_that_close_a_room_are_named():
    no = refused(all_covered(bare_room((100, 0, 10, 186))).route(at(50, 50), at(200, 50)))
    assert no.rule == "cord-has-a-way"
    assert "o1" in no.words


def test_one_rows_footrests_close_the_opening_of_another_under_them():
    # Row B stands so far back that it sweeps over row A's clear zones: faulty, but never open.
    rows = (make_row(), make_row(id="B", headrest_to_wall_m=inch(12), center_x_m=inch(135)))
    no = refused(
        make_router(make_spec(rows=rows)).route(
            (inch(108), 0.0), chairs_of(make_spec(rows=rows))["A3"].lead_from
        )
    )
    assert no.rule in ("cord-clear-of-mechanism", "cord-has-a-way")


@pytest.mark.slow  # in the suite the records of whole rooms are held to it
def test_routes_do_not_depend_on_the_hash_seed():
    code = (
        "from cord_rooms import *\n"
        "spec = make_spec()\n"
        "router, chairs = make_router(spec), chairs_of(spec)\n"
        "for one in chairs.values():\n"
        "    for other in chairs.values():\n"
        "        print(router.route(one.lead_from, other.lead_from))\n"
        "    print(router.route((2.0, 4.0), one.lead_from))\n"
    )
    here = os.path.dirname(__file__)
    told = set()
    for seed in ("0", "1", "2"):
        path = os.pathsep.join([here, os.path.dirname(here)])
        env = {**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": path}
        run = subprocess.run(
            [sys.executable, "-c", code], env=env, capture_output=True, text=True, check=True
        )
        told.add(run.stdout)
    assert len(told) == 1
    assert "Route(" in told.pop()
