"""Laws over rooms of every kind at once: corners, risers, rows of every shape, both rule sets."""

import json
from dataclasses import replace

import pytest
from any_files import UNITS, in_unit, plan_files
from any_rooms import any_rooms
from hypothesis import HealthCheck
from laws import judged, law, planned, told
from mirrored import mirrored
from moved import QUARTER, turn
from support import make_framing

from powerplan.inputs.plan_file import read_plan_text
from powerplan.model.codec import plan_from_plain, to_plain
from powerplan.model.plan import Plan
from powerplan.model.spec import PlanSpec
from powerplan.rulebook.loader import rule_set

SLOW_TO_DRAW = [HealthCheck.too_slow, HealthCheck.data_too_large]
ROOMS = law(any_rooms(), usual=4, many=400, suppress_health_check=SLOW_TO_DRAW)
FILES = law(plan_files(), usual=4, many=400, suppress_health_check=SLOW_TO_DRAW)


def read(text: str) -> PlanSpec:
    return read_plan_text(text.encode(), "drawn.toml", rule_set).spec


def _agree(spec: PlanSpec) -> None:
    """Planned, written, read and judged: nobody finds what the other does not."""
    plan = planned(spec)
    assert plan_from_plain(json.loads(json.dumps(to_plain(plan), allow_nan=False))) == plan
    report = judged(plan)
    assert [(f.rule, f.subject, f.note) for f in report.disputed] == []
    own = {finding.rule for finding in plan.findings if finding.stops}
    found = {finding.rule for finding in report.findings if finding.stops}
    if "row-on-one-level" in found:
        own -= {"footrest-on-riser"}  # on which of two levels a mixed row stands
    if "row-fits-walls" in found:
        own -= {"headrest-clears-wall"}  # which of a row's sides it is that is in the wall
    assert own <= found


@ROOMS
def test_planner_and_judge_agree_on_rooms_of_every_kind(spec: PlanSpec) -> None:
    _agree(spec)


@FILES
def test_planner_and_judge_agree_on_plan_files_of_every_kind(text: str) -> None:
    _agree(read(in_unit(text, "in")))


def _on_slab(spec: PlanSpec) -> PlanSpec:
    slab = make_framing(build="slab")
    risers = tuple(replace(one, framing=slab) for one in spec.risers)
    return replace(spec, floor=slab, risers=risers)


@ROOMS
def test_a_room_of_any_kind_in_a_mirror_gets_the_mirrored_answer(spec: PlanSpec) -> None:
    """On a slab: framing is counted from one side, and marks from the left to an eighth or 5 mm. A
    mark half way between two goes left in both, and a supply may then have no room beside its lid.
    """
    slab = _on_slab(spec)
    one, other = planned(slab), planned(mirrored(slab))
    assert other.decision.verdict == one.decision.verdict
    assert other.decision.exit_code == one.decision.exit_code
    assert told(other) == told(one)
    if any(kind.supply is not None for kind in slab.chairs):
        return
    for step, twin in zip(one.decision.steps, other.decision.steps, strict=True):
        if step.cord_m is not None and twin.cord_m is not None:
            marks = 2 * 0.005 * len(one.chairs)
            assert abs(step.cord_m - twin.cord_m) <= marks


_IN_A_WALL = {"headrest-clears-wall", "row-fits-walls"}


def _stopping(plan: Plan) -> set[str]:
    """The rules that stop a plan. Which of its sides a row is in a wall with is told otherwise of a
    turned row, so that counts as one."""
    rules = {finding.rule for finding in plan.findings if finding.stops}
    return rules - _IN_A_WALL | {"in a wall"} if rules & _IN_A_WALL else rules


@ROOMS
def test_a_room_of_any_kind_turned_by_a_quarter_gets_the_same_answer(spec: PlanSpec) -> None:
    """Turned on paper, its rows with it: each is a turned row now."""
    one = planned(_on_slab(spec))
    other = planned(turn(one, QUARTER).spec)
    assert other.decision.verdict == one.decision.verdict
    assert other.decision.exit_code == one.decision.exit_code
    assert told(other) == told(one)
    assert _stopping(other) == _stopping(one)


@pytest.mark.published(source="1 in is 25.4 mm, exactly, since 1959", standing="published copy")
@FILES
def test_the_same_file_in_any_unit_gives_the_same_plan(text: str) -> None:
    specs = [read(in_unit(text, unit)) for unit in UNITS]
    for spec in specs[1:]:
        assert replace(spec, assumed=specs[0].assumed) == specs[0]
    inches = replace(specs[0], project=replace(specs[0].project, units="in"))
    one, other = planned(specs[0]), planned(inches)
    assert other.decision.verdict == one.decision.verdict
    assert told(other) == told(one)
