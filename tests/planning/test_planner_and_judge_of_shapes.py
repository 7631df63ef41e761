"""The planner and the judge, who share no code, over rooms and rows of every shape."""

import json
from dataclasses import replace

import pytest
from hypothesis import given, settings
from laws import held_over
from outlined import room_of
from shaped_rooms import shaped_rooms
from support import NEC, inch, make_row, make_spec

from powerplan.judging.judge import judge
from powerplan.model.codec import plan_from_plain, to_plain
from powerplan.model.spec import PlanSpec
from powerplan.planning.pipeline import make_plan


def _agree(spec: PlanSpec) -> None:
    plan = make_plan(spec, NEC, "0" * 64)
    own = {finding.rule for finding in plan.findings if finding.stops}
    record = plan_from_plain(json.loads(json.dumps(to_plain(plan), allow_nan=False)))
    report = judge(record, NEC)
    found = {(f.rule, f.subject, f.note) for f in report.findings if f.stops}
    assert {entry for entry in found if entry[0] not in own} == set()
    if "row-fits-walls" in {rule for rule, _, _ in found}:
        own -= {"headrest-clears-wall"}  # which of a row's sides it is that is too near
    if "row-on-one-level" in {rule for rule, _, _ in found}:
        own -= {"footrest-on-riser"}  # on which of two levels a mixed row stands
    assert own <= {rule for rule, _, _ in found}
    assert report.disputed == ()


def test_a_box_beside_a_wall_at_a_slant_is_right_for_both() -> None:
    corners = ((0, 0), (240, 0), (240, 186), (180, 186), (60, 100), (0, 100))
    row = make_row(seats=3, headrest_to_wall_m=inch(100))
    spec = make_spec(rows=(row,), outlets=(), circuits=(), doors=())
    _agree(replace(spec, room=room_of(corners)))


@held_over(12)
@given(shaped_rooms())
def test_the_judge_agrees_with_plans_of_every_shape(spec: PlanSpec) -> None:
    _agree(spec)


@pytest.mark.slow
@settings(max_examples=1000)
@given(shaped_rooms())
def test_the_judge_agrees_with_very_many_plans_of_every_shape(spec: PlanSpec) -> None:
    _agree(spec)
