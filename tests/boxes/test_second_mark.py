"""Unknown framing: two marks, one of them clear wherever the joists lie."""

from dataclasses import replace

import pytest
from box_world import EIGHTH, World, half_um, marked
from hypothesis import given
from hypothesis import strategies as st
from laws import held_over
from support import (
    inch,
    make_area,
    make_chair,
    make_framing,
    make_joists,
    make_new_work,
    make_riser,
    make_row,
    make_spec,
)

from powerplan.engineering.boxes.marks import BoxSpot, NoSpot
from powerplan.model.findings import Outcome
from powerplan.model.spec import ClearZone, Size

RUNS = ("back to screen", "side to side")


def spec_of(floor, **changes):
    return make_spec(**{"rows": (make_row(seats=1),), "floor": floor, **changes})


def framing_of(spot):
    (found,) = (f for f in spot.findings if f.rule == "box-clears-framing")
    return found


def spot_of(point):
    return half_um(point[0]), half_um(point[1])


@pytest.mark.parametrize(
    ("floor", "words"),
    [
        (make_framing(), "what the floor is built of"),
        (make_joists(first_joist_m=None), "where the first one lies"),
        (make_joists(spacing_m=None), "their spacing"),
        (make_joists(joists_run=None), "which way they run"),
        (make_joists(joist_width_m=None), "their width"),
    ],
)
def test_unknown_framing_is_not_checked_and_told_what_to_find_out(floor, words):
    spot = marked(spec_of(floor))
    finding = framing_of(spot)
    assert spot.provisional
    assert finding.outcome is Outcome.NOT_CHECKED
    assert finding.hangs
    assert words in finding.note


@pytest.mark.parametrize(
    "floor",
    [
        make_framing(),
        make_joists(spacing_m=None),
        make_joists(joist_width_m=None, first_joist_m=None),
        make_joists(first_joist_m=None, spacing_m=inch("13.875")),
        make_joists(first_joist_m=None, joists_run="side to side"),
    ],
)
def test_no_second_mark_is_promised_where_nothing_can_be(floor):
    # In turn: nothing known; spacing unknown; width unknown; joists too close for two cut-outs;
    # and a clear zone 12 in deep, in which middles are at most 6 in apart where 7 in are needed.
    spot = marked(spec_of(floor))
    assert spot.second_mark is None
    assert spot.mark == spot.ideal


def test_two_marks_lie_evenly_about_the_ideal_the_left_one_first():
    # A joist of 1 1/2 in forbids 4 in of cut-out and twice 3/4 in more: 7 in.
    spot = marked(spec_of(make_joists(first_joist_m=None)))
    assert spot.mark == pytest.approx((inch("116.5"), inch(29)), abs=1e-9)
    assert spot.second_mark == pytest.approx((inch("123.5"), inch(29)), abs=1e-9)
    assert "two marks" in spot.moved_because


def test_what_takes_floor_elsewhere_is_not_said_to_move_the_first_of_two_marks():
    far, near = make_area("far", 100, 34, 40, 10), make_area("near", 100, 31, 40, 10)
    floor = make_joists(first_joist_m=None)
    assert "far" not in marked(spec_of(floor, no_cut=(far,))).moved_because
    assert "no-cut area near and two marks" in marked(spec_of(floor, no_cut=(near,))).moved_because


@pytest.mark.parametrize(("less_m", "found"), [(0.0, True), (2e-6, False)])
def test_joists_twice_the_forbidden_strip_apart_just_allow_two_marks(less_m, found):
    floor = make_joists(first_joist_m=None, spacing_m=inch(14) - less_m)
    assert (marked(spec_of(floor)).second_mark is not None) is found


@pytest.mark.parametrize(("less_m", "found"), [(0.0, True), (2e-6, False)])
def test_a_clear_zone_as_wide_as_the_forbidden_strip_and_the_lid_just_allows_two(less_m, found):
    # 7 in of strip and 6 in of lid.
    clear = ClearZone(from_m=inch(9), to_m=inch(21), width_m=inch(13) - less_m, height_m=inch(3))
    spec = spec_of(make_joists(first_joist_m=None), chairs=(make_chair(clear=clear),))
    assert (marked(spec).second_mark is not None) is found


def test_the_decks_framing_decides_for_a_row_on_a_riser():
    riser = make_riser(0, 0, 240, 90, framing=make_joists(first_joist_m=None))
    spot = marked(spec_of(make_framing(build="slab"), risers=(riser,)))
    assert spot.second_mark is not None
    assert "the deck of riser rear" in framing_of(spot).note


@st.composite
def specs(draw):
    run = draw(st.sampled_from([*RUNS, None]))
    floor = make_framing(
        build=draw(st.sampled_from(["joists", None])),
        joists_run=run,
        spacing_m=inch(draw(st.integers(8, 24))),
        joist_width_m=inch(draw(st.sampled_from(["3/2", "5/2", "7/4"]))),
    )
    clear = ClearZone(
        from_m=inch(9),
        to_m=inch(9 + draw(st.integers(9, 18))),
        width_m=inch(draw(st.integers(9, 20))),
        height_m=inch(3),
    )
    duct = make_area(
        "duct", draw(st.integers(105, 125)), draw(st.integers(15, 40)), 3, draw(st.integers(2, 30))
    )
    return spec_of(
        floor,
        chairs=(make_chair(clear=clear),),
        no_cut=(duct,) if draw(st.booleans()) else (),
        new_work=make_new_work(
            cut_out=Size(width_m=inch(draw(st.integers(2, 4))), depth_m=inch(3)),
            lid=Size(width_m=inch(5), depth_m=inch(5)),
        ),
    )


def with_joists(spec, run, first_m):
    floor = replace(spec.floor, build="joists", joists_run=run, first_joist_m=first_m)
    return World(replace(spec, floor=floor))


def runs_of(spec):
    return RUNS if spec.floor.joists_run is None else (spec.floor.joists_run,)


@held_over(60)
@given(specs())
def test_one_of_two_marks_is_clear_wherever_the_joists_lie(spec):
    spot = marked(spec)
    if isinstance(spot, NoSpot) or spot.second_mark is None:
        return
    marks = spot_of(spot.mark), spot_of(spot.second_mark)
    for run in runs_of(spec):
        for sixteenths in range(int(spec.floor.spacing_m / inch("1/16")) + 1):
            world = with_joists(spec, run, inch("1/16") * sixteenths)
            assert any(map(world.allows, marks)), (run, sixteenths)
    assert World(spec).off(marks[0]) <= World(spec).off(marks[1])


@held_over(60)
@given(specs())
def test_within_its_drift_a_first_mark_keeps_the_promise_of_the_two(spec):
    spot = marked(spec)
    if isinstance(spot, NoSpot) or spot.second_mark is None:
        return
    (x, y), second = spot_of(spot.mark), spot_of(spot.second_mark)
    drift = [half_um(d) for d in (spot.drift.left_m, spot.drift.right_m)]
    depth = [half_um(d) for d in (spot.drift.back_m, spot.drift.screen_m)]
    moved = [(x - drift[0], y - depth[0]), (x + drift[1], y + depth[1])]
    for run in runs_of(spec):
        for eighths in range(int(spec.floor.spacing_m / inch("1/8")) + 1):
            world = with_joists(spec, run, inch("1/8") * eighths)
            for first in moved:
                assert world.allows(first) or world.allows(second)


@held_over(25)
@given(specs())
def test_no_pair_of_tape_marks_does_it_where_none_is_given(spec):
    spot = marked(spec)
    if isinstance(spot, NoSpot) or spot.second_mark is not None:
        return
    world = World(spec)
    allowed = [s for s in world.tape_spots() if world.allows(s, joists=False)]
    spacing, wood = half_um(spec.floor.spacing_m), half_um(spec.floor.joist_width_m)
    offsets = {
        (b[0] - a[0], b[1] - a[1]) for a in allowed[:: max(1, len(allowed) // 30)] for b in allowed
    }
    for across, along in offsets:
        parted = []
        for run in runs_of(spec):
            axis = 0 if run == RUNS[0] else 1
            strip = wood + 2 * (world.cut[axis] + world.margin)
            apart = (across, along)[axis] % spacing
            parted.append(strip <= apart <= spacing - strip)
        assert not all(parted)


@held_over(30)
@given(specs())
def test_two_marks_lie_on_the_tape_where_they_can(spec):
    spot = marked(spec)
    if isinstance(spot, BoxSpot) and spot.second_mark is not None:
        for place in (spot.mark, spot.second_mark):
            on_tape = all(half_um(length) % EIGHTH == 0 for length in place)
            assert on_tape or "no mark of the tape" in spot.moved_because
