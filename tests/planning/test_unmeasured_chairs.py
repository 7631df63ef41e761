"""Plans with chairs that nobody measured: they hang on measuring, and say so."""

import json
from dataclasses import replace

import pytest
from abroad import plan_of
from laws import judged

from powerplan.judging.judge import judge
from powerplan.model.codec import plan_from_plain, to_plain
from powerplan.model.findings import Outcome
from powerplan.model.plan import NEW_CIRCUITS, NOT_POSSIBLE, Plan
from powerplan.rulebook.loader import rule_set
from powerplan.sheets.pages.print_cords import cords_sheet
from powerplan.sheets.parts import Say
from powerplan.sheets.views import PLAN, plan_sheet
from powerplan.sheets.writers.text import sheet_text

HALL = """\
plan_file = 1
[project]
job = "new"
place = "home"
[room]
width = "18 ft"
depth = "15 ft"
[floor]
build = "slab"
[chair.guess]
like = "generic-recliner"
lead = "{lead}"
[row.A]
chair = "guess"
seats = 4
headrest_to_wall = "12 in"
[new_work]
circuits = 2
home_run = "40 ft"
cut_out = {{ width = "4 in", depth = "4 in" }}
lid = {{ width = "6 in", depth = "6 in" }}
"""


def hall(lead: str = "5 ft") -> Plan:
    return plan_of(HALL.format(lead=lead))


@pytest.mark.parametrize("lead", ["5 ft", "8 ft", "12 ft"])
def test_the_judge_agrees_and_every_answer_hangs_on_measuring(lead: str):
    plan = hall(lead)
    assert plan.decision.verdict == NEW_CIRCUITS
    assert plan.decision.exit_code == 4
    report = judged(plan)
    assert list(report.disputed) == []
    assert "chair-measured" in {f.rule for f in report.findings if f.hangs}


def test_every_mark_is_provisional_and_in_the_middle_of_its_seat():
    plan = hall()
    chairs = {chair.id: chair for chair in plan.chairs}
    assert plan.boxes
    for box in plan.boxes:
        assert box.provisional
        # wall to headrest, and half of the 39 in of the chair
        assert box.ideal_m[1] == pytest.approx(0.3048 + 39 * 0.0254 / 2, abs=1e-6)
        assert box.ideal_m[0] == pytest.approx(chairs[box.under].x_m, abs=1e-6)


def test_that_a_lid_fits_under_a_chair_not_measured_is_never_called_met():
    plan = hall()
    report = judged(plan)
    for findings in (plan.findings, report.findings):
        places = [f for f in findings if f.rule == "box-has-a-place"]
        assert {f.subject for f in places} == {box.id for box in plan.boxes}
        assert {f.outcome for f in places} == {Outcome.NOT_CHECKED}
    (condition,) = plan.decision.depends_on  # one thing to find out: the chair, not the lid as well
    assert condition.subject == "chair guess"


def test_a_lid_that_leaves_the_guessed_zone_is_still_refused():
    plan = hall()
    box = replace(plan.boxes[0], x_m=plan.boxes[0].x_m + 0.3)
    report = judged(replace(plan, boxes=(box, *plan.boxes[1:])))
    assert any(f.rule == "box-has-a-place" and f.stops for f in report.disputed)


def test_nothing_under_a_chair_not_measured_is_open():
    assert {zone.kind for zone in hall().zones} == {"pinch"}


def test_what_is_still_needed_is_told_most_useful_first():
    (condition,) = hall().decision.depends_on
    assert condition.sentence.index("clear zone") < condition.sentence.index("seat and arms")
    text = sheet_text(plan_sheet(hall(), PLAN), "utf-8")
    assert "ASSUMED: all floor under it is pinch zone" in text
    first = " ".join(text[text.index("WHAT TO FIND OUT FIRST") :].split())
    assert "clear zone under the seat" in first


def test_a_cord_too_short_even_in_a_straight_line_is_no_way():
    # mid seat is 19 1/2 in ahead of the headrest: (19.5 + 24) x 1.1 is 48 in at least
    plan = hall("3 ft")
    assert plan.decision.verdict == NOT_POSSIBLE
    assert list(judged(plan).disputed) == []


def test_a_judge_misses_the_condition_when_it_was_cut_out():
    plain = to_plain(hall())
    plain["decision"]["depends_on"] = []
    plain["decision"]["exit_code"] = 0
    report = judge(plan_from_plain(json.loads(json.dumps(plain))), rule_set("us-nec-2023"))
    assert [f for f in report.findings if f.stops and f.rule == "record-agrees"]


def test_a_mark_called_firm_is_refused():
    plain = to_plain(hall())
    plain["boxes"][0]["provisional"] = False
    report = judge(plan_from_plain(json.loads(json.dumps(plain))), rule_set("us-nec-2023"))
    told = [f.note for f in report.findings if f.stops and f.subject == plain["boxes"][0]["id"]]
    assert any("provisional" in note for note in told)


def test_a_provisional_mark_may_not_drift():
    for box in hall().boxes:
        drift = box.drift
        assert (drift.left_m, drift.right_m, drift.back_m, drift.screen_m) == (0, 0, 0, 0)


def test_installers_are_told_to_lay_nothing_yet():
    text = " ".join(sheet_text(plan_sheet(hall(), PLAN), "utf-8").split())
    assert "DO NOT LAY YET: nobody has measured this: - Chair guess: Known from a" in text


def test_that_no_cord_is_bought_hangs_on_measuring():
    told = [part.text for part in cords_sheet(hall(), ()).parts if isinstance(part, Say)]
    bought = [text for text in told if text.startswith("No cord has to be bought")]
    assert bought
    assert all(text.endswith("if measuring shows nothing else.") for text in bought)
    assert cords_sheet(hall(), ()).title == "Cords. DO NOT LAY YET"
