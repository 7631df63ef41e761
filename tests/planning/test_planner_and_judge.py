"""The planner and the judge, who share no code, over generated rooms and over edits by hand."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from laws import judged, law, planned
from strategies import rooms

from powerplan.judging.judge import Report
from powerplan.model.codec import to_plain
from powerplan.model.plan import Plan
from powerplan.model.spec import PlanSpec

LOFT = Path(__file__).parents[2] / "examples" / "media-loft.record.json"
DEN = LOFT.with_name("small-den.record.json")

Record = dict[str, Any]


def stopped(report: Report) -> set[tuple[str, str]]:
    return {(finding.rule, finding.subject) for finding in report.findings if finding.stops}


def _agree(plan: Plan) -> None:
    own = {finding.rule for finding in plan.findings if finding.stops}
    found = stopped(judged(to_plain(plan)))
    assert {entry for entry in found if entry[0] not in own} == set()
    assert own <= {rule for rule, _ in found}


@law(rooms(), usual=10, many=1500)
def test_the_judge_agrees_with_every_plan(spec: PlanSpec) -> None:
    _agree(planned(spec))


def _record(path: Path = LOFT) -> Record:
    plain: Record = json.loads(path.read_text(encoding="utf-8"))
    return plain


def _cord(record: Record, kind: str) -> Record:
    cord: Record = next(cord for cord in record["cords"] if cord["kind"] == kind)
    return cord


def _drag_through_a_rail(record: Record) -> None:
    cord = _cord(record, "link")
    (x, y), end = cord["path_m"][0], cord["path_m"][-1]
    cord["path_m"] = [[x, y], [x, y + 0.5], end]


def _move_the_box_out(record: Record) -> None:
    record["boxes"][0]["x_m"] += 0.2


def _shorten_a_cord(record: Record) -> None:
    cord = _cord(record, "link")
    cord["bought_m"] = cord["length_m"] - 0.05


def _leave_a_chair_unfed(record: Record) -> None:
    record["cords"] = [cord for cord in record["cords"] if cord["to"] != "A6"]


def _two_on_one_socket(record: Record) -> None:
    record["boxes"][0]["sockets"] = 1


def _understate_a_chair(record: Record) -> None:
    record["chairs"][0]["input_a"] = 1.0


def _understate_a_circuit(record: Record) -> None:
    use = next(use for use in record["circuits"] if use["new"])
    use["asks_a"] = 9.0


def _rename_a_circuit(record: Record) -> None:
    use = next(use for use in record["circuits"] if use["new"])
    use["id"] = "new 7"


def _hide_a_condition(record: Record) -> None:
    record["spec"]["circuits"][0]["already_on_it"] = None
    record["decision"]["exit_code"] = 0


EDITS: dict[Callable[[Record], None], str] = {
    _drag_through_a_rail: "cord-clear-of-mechanism",
    _move_the_box_out: "box-has-a-place",
    _shorten_a_cord: "link-length",
    _leave_a_chair_unfed: "fed-once",
    _two_on_one_socket: "sockets-free",
    _understate_a_chair: "record-agrees",
    _understate_a_circuit: "record-agrees",
    _rename_a_circuit: "record-agrees",
}


def test_the_record_as_it_stands_passes() -> None:
    assert stopped(judged(_record())) == set()


@pytest.mark.parametrize("edit", EDITS, ids=lambda edit: edit.__name__.strip("_"))
def test_an_edit_by_hand_is_caught(edit: Callable[[Record], None]) -> None:
    record = _record()
    edit(record)
    assert EDITS[edit] in {rule for rule, _ in stopped(judged(record))}


def test_a_condition_that_was_taken_out_is_caught() -> None:
    record = _record(DEN)
    assert stopped(judged(record)) == set()
    _hide_a_condition(record)
    assert stopped(judged(record)) != set()
