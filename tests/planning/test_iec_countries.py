"""Planner and judge under the rules of IEC countries."""

import json
from dataclasses import replace
from fractions import Fraction

import pytest
from abroad import IEC, LOUNGE, abroad, plan_of, read
from laws import judged, law, planned
from strategies import rooms
from support import NEC

from powerplan.judging.judge import judge
from powerplan.model.codec import plan_from_plain, to_plain
from powerplan.model.findings import Outcome
from powerplan.model.plan import NEW_OUTLETS, Plan
from powerplan.model.spec import PlanSpec

ABSENT = set(NEC.rules) - set(IEC.rules)


def _held(plan: Plan) -> set[str]:
    steps = [finding for step in plan.decision.steps for finding in step.findings]
    return {finding.rule for finding in (*plan.findings, *steps)}


def test_the_lounge_is_planned_and_passes_its_judge():
    plan = plan_of()
    assert plan.decision.verdict == NEW_OUTLETS
    report = judged(plan)
    assert list(report.disputed) == []
    assert not _held(plan) & ABSENT
    assert not {f.rule for f in report.findings} & ABSENT


@pytest.mark.published(
    source="BS 7671:2018 411.3.3: 30 mA for socket-outlets rated 32 A or less",
    standing="published copy",
)
@pytest.mark.parametrize("place", ["home", "business", None])
def test_every_new_outlet_asks_for_a_30_ma_device_wherever_it_is(place: str | None):
    spec = read(LOUNGE)
    for gfci, outcome in (
        (None, Outcome.NOT_CHECKED),
        (True, Outcome.MET),
        (False, Outcome.NOT_MET),
    ):
        circuits = tuple(replace(one, gfci=gfci) for one in spec.circuits)
        there = replace(spec.project, place=place)
        plan = planned(replace(spec, project=there, circuits=circuits))
        [note] = [one for one in plan.findings if one.rule == "rcd-new-outlets"]
        assert note.outcome is outcome
        assert "kind of place" not in note.note
        assert judged(plan).disputed == ()


def test_a_record_that_leaves_the_30_ma_device_out_is_disputed():
    plan = plan_of()
    left = tuple(one for one in plan.findings if one.rule != "rcd-new-outlets")
    assert judged(replace(plan, findings=left)).disputed


def test_a_circuit_is_asked_for_the_plain_sum_of_currents():
    # 4 chairs of 0.9 A, 1.4 A and 0.2 A: 5.2 A, whatever lasts
    (use,) = (use for use in plan_of().circuits if use.id == "5")
    assert use.asks_a == 5.2
    assert use.may_give_a == 16.0


def test_equal_to_the_breaker_passes_and_a_hair_more_does_not():
    base = LOUNGE.replace('wire = "1,5 mm\u00b2"', 'wire = "2.5 mm2"')
    full = base.replace('"screen" = "1,4 A"', '"screen" = "12.2 A"')
    over = base.replace('"screen" = "1,4 A"', '"screen" = "12.201 A"')
    assert next(u.asks_a for u in plan_of(full).circuits if u.id == "5") == 16.0
    assert plan_of(full).decision.verdict == NEW_OUTLETS
    assert plan_of(over).decision.verdict == "new circuits"


def test_16_a_on_1_5_mm2_hangs_on_how_it_is_laid():
    plan = plan_of()
    (condition,) = plan.decision.depends_on
    assert condition.kind == "laying"
    assert condition.sentence.startswith("the 1.5 mm2 of circuit 5 is laid well enough")
    assert plan.decision.exit_code == 4


def test_the_judge_misses_a_condition_on_laying_that_was_cut_out():
    plain = to_plain(plan_of())
    plain["decision"]["depends_on"] = []
    plain["decision"]["exit_code"] = 0
    report = judge(plan_from_plain(json.loads(json.dumps(plain))), IEC)
    told = [f.note for f in report.findings if f.stops and f.rule == "record-agrees"]
    assert any("a condition on the laying of circuit 5" in note for note in told)


def test_a_record_from_before_laying_had_a_kind_of_its_own_still_passes():
    plain = to_plain(plan_of())
    assert plain["decision"]["depends_on"][0]["kind"] == "laying"
    plain["decision"]["depends_on"][0]["kind"] = "wire"
    report = judge(plan_from_plain(json.loads(json.dumps(plain))), IEC)
    assert not report.disputed


def test_20_a_on_1_5_mm2_stops_what_is_there():
    plan = plan_of(LOUNGE.replace('breaker = "16 A"', 'breaker = "20 A"'))
    stops = {(f.rule, f.subject) for step in plan.decision.steps for f in step.findings if f.stops}
    assert ("wire-matches-breaker", "circuit 5") in stops
    assert ("socket-matches-circuit", "outlet W1") in stops


def test_a_new_circuit_is_16_a_on_2_5_mm2():
    plan = plan_of(LOUNGE.replace('"1,4 A"', '"15 A"'))
    (new,) = (use for use in plan.circuits if use.new)
    assert (new.breaker_a, new.wire) == (16.0, "2.5 mm2")


def test_the_wiring_method_is_told_as_an_assumption():
    told = [one.words for one in plan_of().spec.assumed if one.subject == "wiring"]
    assert told == [IEC.wiring_method]
    assert "method A2" in told[0]


def test_nothing_is_assumed_about_lasting_or_bolts():
    words = " ".join(one.words for one in plan_of().spec.assumed)
    assert "3 h" not in words
    assert "bolted" not in words


@law(rooms(), usual=7, many=400)
def test_the_judge_agrees_with_every_plan_abroad(spec: PlanSpec):
    plan = planned(abroad(spec))
    report = judged(plan)
    own = {finding.rule for finding in plan.findings if finding.stops}
    assert {f.rule for f in report.findings if f.stops} <= own
    assert not report.disputed
    assert not (_held(plan) | {f.rule for f in report.findings}) & ABSENT


@law(rooms(), usual=4, many=100)
def test_what_lasts_changes_nothing_abroad(spec: PlanSpec):
    spec = abroad(spec)
    brief = replace(
        spec,
        chairs=tuple(
            replace(kind, continuous_a=Fraction(0), continuous_said=True) for kind in spec.chairs
        ),
    )
    one, other = planned(spec), planned(brief)
    assert one.decision.verdict == other.decision.verdict
    assert one.cords == other.cords
    assert [use.asks_a for use in one.circuits] == [use.asks_a for use in other.circuits]
