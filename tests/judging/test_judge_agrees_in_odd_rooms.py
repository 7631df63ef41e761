"""Rooms in which planner and judge once differed, smallest form."""

from dataclasses import replace
from fractions import Fraction

import pytest
from abroad import IEC, abroad
from outlined import room_of
from support import (
    NEC,
    inch,
    make_chain,
    make_chair,
    make_circuit,
    make_new_work,
    make_outlet,
    make_row,
    make_spec,
)

from powerplan.judging.judge import judge
from powerplan.model.findings import Force
from powerplan.model.seats import MovingPart
from powerplan.planning.pipeline import make_plan


def _part(back: float, front: float, half: float) -> MovingPart:
    corners = ((-half, back), (half, back), (half, front), (-half, front))
    outline = tuple((inch(u), inch(v)) for u, v in corners)
    return MovingPart(id="bar", outlines=(outline, outline), least_gap_m=None)


@pytest.mark.parametrize(("back", "front", "half"), [(1, 40, 4), (30, 70, 4), (9, 12, 20)])
def test_floor_of_a_moving_part_is_drawn_once(back: float, front: float, half: float) -> None:
    spec = make_spec(chairs=(make_chair(parts=(_part(back, front, half),)),))
    plan = make_plan(spec, NEC, "0" * 64)
    assert judge(plan, NEC).disputed == ()


def test_the_wall_that_a_row_stands_through_is_not_the_one_behind_it() -> None:
    # the front of the bases is past the slanted wall at the left; the headrests are in the room
    room = room_of(((0, 0), (240, 0), (240, 186), (120, 186), (0, 129)))
    row = make_row(seats=2, headrest_to_wall_m=inch(130), center_x_m=inch(110))
    plan = make_plan(make_spec(room=room, rows=(row,), outlets=()), NEC, "0" * 64)
    assert "row-fits-walls" in {f.rule for f in plan.findings if f.stops}
    report = judge(plan, NEC)
    assert "row-fits-walls" in {f.rule for f in report.findings if f.stops}
    assert report.disputed == ()


def test_a_socket_too_small_for_its_circuit_is_a_must_even_where_nothing_is_plugged_in() -> None:
    spec = abroad(
        make_spec(
            circuits=(make_circuit(breaker_a=Fraction(20), wire="12 AWG"),),
            outlets=(make_outlet(),),
            new_work=make_new_work(circuits=0),
        )
    )
    spec = replace(spec, circuits=tuple(replace(c, breaker_a=Fraction(20)) for c in spec.circuits))
    plan = make_plan(spec, IEC, "0" * 64)
    for findings in (plan.findings, judge(plan, IEC).findings):
        forces = {f.force for f in findings if f.rule == "socket-matches-circuit" and f.stops}
        assert forces == {Force.MUST}


def test_half_of_the_smallest_breaker_is_enough_where_the_breaker_is_not_known() -> None:
    # 4 x 1.8 A bolted down is 7.2 A: within half of 15 A, and what the breaker is hangs on its own
    spec = make_spec(
        circuits=(make_circuit(breaker_a=None, wire="12 AWG", already_on_it=None),),
        chairs=(make_chair(chain=make_chain()),),
        rows=(make_row(seats=4, fastened=True),),
    )
    plan = make_plan(spec, NEC, "0" * 64)
    assert {chair.circuit for chair in plan.chairs} == {"7"}
    assert "breaker" in {condition.kind for condition in plan.decision.depends_on}
    assert "fastening" not in {condition.kind for condition in plan.decision.depends_on}
    assert judge(plan, NEC).disputed == ()
