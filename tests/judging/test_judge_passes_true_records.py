import ast
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import Any

import hand_made
import pytest
from hand_made import edited, found, judged, refused
from support import NEC, inch, make_circuit, make_joists, make_load, make_new_work

import powerplan.judging
from powerplan.judging.judge import judge
from powerplan.model.findings import Outcome
from powerplan.model.plan import Condition, Plan

TRUE = ("chained", "boxed", "wired_on", "extended", "raised", "impossible")


def make(name: str) -> Plan:
    record = getattr(hand_made, name)()
    assert isinstance(record, Plan)
    return record


@pytest.mark.parametrize("name", TRUE)
def test_a_record_made_by_hand_is_passed(name: str) -> None:
    report = judged(make(name))
    assert refused(report) == set()
    assert report.agrees
    assert report.disputed == ()


@pytest.mark.parametrize("name", TRUE)
def test_nothing_hangs_where_everything_is_known(name: str) -> None:
    assert [f for f in judged(make(name)).findings if f.hangs] == []


def test_each_subject_has_one_met_finding_for_all_its_stated_values() -> None:
    findings = judged(hand_made.chained()).findings
    agreed = [f.subject for f in findings if f.rule == "record-agrees"]
    assert len(agreed) == len(set(agreed))
    assert {"chair A1", "cord W1-A1", "circuit 7", "rules", "zones of row A"} <= set(agreed)


def test_a_load_known_to_the_last_fraction_may_fill_the_breaker() -> None:
    def fill(plain: Any) -> None:
        # 9.375 A of chairs and 5.625 A of lamp: 15 A on a 15 A breaker
        lamp = {"name": "lamp", "current_a": 5.625, "continuous": False}
        plain["spec"]["circuits"][0]["already_on_it"] = [lamp]

    finding = found(edited(hand_made.chained(), fill), "circuit-load", "circuit 7")
    assert (finding.value, finding.limit, finding.outcome) == (15.0, 15.0, Outcome.MET)


def test_a_load_over_by_a_millionth_is_refused() -> None:
    def fill(plain: Any) -> None:
        lamp = {"name": "lamp", "current_a": 5.625001, "continuous": False}
        plain["spec"]["circuits"][0]["already_on_it"] = [lamp]

    assert ("circuit-load", "circuit 7") in refused(edited(hand_made.chained(), fill))


def test_a_length_short_by_its_own_rounding_is_forgiven() -> None:
    def shorten(plain: Any) -> None:
        plain["spec"]["chairs"][0]["chain"]["link_m"] -= 2e-6
        for cord in plain["cords"][1:]:
            cord["bought_m"] -= 2e-6

    assert refused(edited(hand_made.chained(), shorten)) == set()


def test_a_link_short_by_a_hundredth_of_a_millimeter_is_refused() -> None:
    def shorten(plain: Any) -> None:
        plain["spec"]["chairs"][0]["chain"]["link_m"] -= 1e-5
        for cord in plain["cords"][1:]:
            cord["bought_m"] -= 1e-5

    assert ("link-length", "cord A1-A2") in refused(edited(hand_made.chained(), shorten))


def test_voltage_at_the_last_chair_equals_the_sum_worked_by_hand() -> None:
    report = judged(hand_made.chained())
    finding = found(report, "voltage-drop", "circuit 7")
    assert finding.value == pytest.approx(3.97044 / 120 * 100, abs=1e-6)
    assert finding.outcome is Outcome.NOT_MET
    assert report.agrees, "a drop is advice"


def test_what_cannot_be_judged_is_said() -> None:
    said = " ".join(judged(hand_made.impossible()).not_judged)
    assert "impossible as drawn is the planner's word" in said
    assert "makers' data" in said
    assert "under floors" in said
    assert "impossible" not in " ".join(judged(hand_made.chained()).not_judged)


def unknown_load(record: Plan) -> Plan:
    """Circuit 7 with a load that nobody knows: 15 - 9.375 = 5.625 A now and then, 4.5 A lasting."""
    condition = Condition(
        kind="load",
        subject="circuit 7",
        circuit="7",
        if_continuous_a=4.5,
        if_not_continuous_a=5.625,
        sentence="By hand.",
    )
    spare = replace(record.decision.spare[0], spare_a=None, more_chairs=None)
    return replace(
        record,
        spec=replace(record.spec, circuits=(make_circuit(already_on_it=None),)),
        chairs=tuple(replace(c, volts=None, drop_percent=None) for c in record.chairs),
        circuits=(replace(record.circuits[0], load_known=False, drop_percent=None),),
        decision=replace(record.decision, exit_code=4, depends_on=(condition,), spare=(spare,)),
    )


def test_an_unknown_load_hangs_and_is_passed_when_the_record_says_so() -> None:
    report = judged(unknown_load(hand_made.chained()))
    assert refused(report) == set()
    assert found(report, "circuit-load", "circuit 7").outcome is Outcome.NOT_CHECKED
    assert any("circuit 7" in words for words in report.not_judged)


@pytest.mark.parametrize("key", ["if_continuous_a", "if_not_continuous_a"])
def test_a_condition_too_generous_by_a_millionth_is_refused(key: str) -> None:
    def edit(plain: Any) -> None:
        plain["decision"]["depends_on"][0][key] += 1e-6

    report = edited(unknown_load(hand_made.chained()), edit)
    assert ("record-agrees", "depends on load of circuit 7") in refused(report)


def test_a_condition_is_rounded_down_never_up() -> None:
    # chairs of 1.7 A, 1/7 A of it lasting
    record = unknown_load(hand_made.chained())
    kind = replace(record.spec.chairs[0], input_a=Fraction(17, 10), continuous_a=Fraction(1, 7))
    # 5 x (1.25 / 7 + 1.7 - 1 / 7) = 8.678571..., leaving 6.321428571... and 5.057142857...
    spec = replace(record.spec, chairs=(kind,))
    condition = replace(
        record.decision.depends_on[0], if_continuous_a=5.057142, if_not_continuous_a=6.321428
    )
    for wanted, up in ((False, 0.0), (True, 1e-6)):
        told = replace(condition, if_continuous_a=round(5.057142 + up, 6))
        decision = replace(record.decision, depends_on=(told,))
        report = judged(replace(record, spec=spec, decision=decision))
        missed = ("record-agrees", "depends on load of circuit 7") in refused(report)
        assert missed is wanted


def test_an_unknown_load_without_its_condition_is_refused() -> None:
    def drop(plain: Any) -> None:
        plain["decision"]["depends_on"] = []

    report = edited(unknown_load(hand_made.chained()), drop)
    assert ("record-agrees", "depends on") in refused(report)


def test_an_unknown_load_told_as_simply_working_is_refused() -> None:
    def claim(plain: Any) -> None:
        plain["decision"]["exit_code"] = 0

    report = edited(unknown_load(hand_made.chained()), claim)
    assert ("record-agrees", "decision") in refused(report)


def test_known_joists_that_the_box_clears_are_passed() -> None:
    # joists at 112 and 128 in: the cut-out ends 4 + 6 - 0.75 = 5.25 in from either
    record = hand_made.boxed()
    floor = make_joists(first_joist_m=0.0)
    report = judged(replace(record, spec=replace(record.spec, floor=floor)))
    assert refused(report) == set()
    assert found(report, "box-clears-framing", "box A3").value == inch("21/4")


def test_a_lamp_in_the_plan_file_has_to_show_in_the_sums() -> None:
    record = hand_made.chained()
    busy = make_circuit(already_on_it=(make_load("lamp", "0.5", False),))
    report = judged(replace(record, spec=replace(record.spec, circuits=(busy,))))
    assert ("record-agrees", "circuit 7") in refused(report)


def test_a_layout_fault_that_the_record_owns_up_to_is_not_disputed() -> None:
    # the room ends 76 in from the back wall: 4 in short of the footrests
    record = hand_made.chained()
    room = replace(record.spec.room, depth_m=inch(76))
    report = judged(replace(record, spec=replace(record.spec, room=room)))
    wall = found(report, "row-fits-walls", "row A")
    assert wall.value == inch(-4)
    owned = replace(
        record,
        spec=replace(record.spec, room=room),
        findings=(*record.findings, wall),
        decision=replace(record.decision, exit_code=1),
    )
    again = judged(owned)
    assert not again.agrees
    assert again.disputed == ()


def test_a_panel_of_unknown_size_hangs_on_it() -> None:
    record = hand_made.boxed()
    condition = Condition(
        kind="panel",
        subject="panel",
        circuit=None,
        if_continuous_a=None,
        if_not_continuous_a=None,
        sentence="By hand.",
    )
    decision = replace(record.decision, exit_code=4, depends_on=(condition,))
    spec = replace(record.spec, new_work=make_new_work(circuits=None))
    assert refused(judged(replace(record, spec=spec, decision=decision))) == set()
    bare = replace(record.decision, exit_code=4)
    assert ("record-agrees", "depends on") in refused(
        judged(replace(record, spec=spec, decision=bare))
    )


def test_the_judge_leaves_the_record_as_it_is() -> None:
    record = hand_made.boxed()
    judge(record, NEC)
    assert record == hand_made.boxed()


def test_the_judge_imports_nothing_but_the_model() -> None:
    allowed = ("powerplan.model", "powerplan.judging")
    folder = Path(powerplan.judging.__file__).parent
    names: set[str] = set()
    for path in folder.glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ImportFrom):
                names.add(node.module or "")
            elif isinstance(node, ast.Import):
                names |= {alias.name for alias in node.names}
    standard = {"__future__", "collections.abc", "dataclasses", "fractions", "itertools", "math"}
    rest = {name for name in names if not name.startswith(allowed)}
    assert rest <= standard | {"typing"}
