import json
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sample_plan import sample_decision, sample_findings, sample_plan

from powerplan.model.codec import plan_from_plain
from powerplan.model.findings import Outcome
from powerplan.model.lengths import at_least_text, at_most_text
from powerplan.model.plan import CAUTION, EXISTING, LADDER, NEW_CIRCUITS, NOT_POSSIBLE
from powerplan.sheets.caution import CAUTION as SHORT_CAUTION
from powerplan.sheets.pages.findings import in_order, tightest
from powerplan.sheets.views import judged_sheet, plan_sheet, verdict_line
from powerplan.sheets.words import measure, numbers_text
from powerplan.sheets.writers.columns import columns
from powerplan.sheets.writers.json import plain_text, record_text
from powerplan.sheets.writers.text import sheet_text

VIEWS = ("plan", "decide", "mark", "cords")


def squeezed(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize("view", VIEWS)
@pytest.mark.parametrize("seats", [(2,), (12, 12)])
def test_no_line_is_wider_than_eighty_columns(view: str, seats: tuple[int, ...]):
    text = sheet_text(plan_sheet(sample_plan(seats), view))
    assert max(map(len, text.splitlines())) <= 80


@settings(max_examples=25, suppress_health_check=[HealthCheck.too_slow])
@given(st.text(max_size=400), st.sampled_from(VIEWS), st.sampled_from(["utf-8", "cp437", "ascii"]))
def test_hostile_names_keep_the_width_and_harm_no_terminal(name: str, view: str, encoding: str):
    plan = sample_plan((2,))
    room = replace(plan.spec.room, left_wall=name, back_wall=name)
    decision = replace(plan.decision, sentence=name)
    boxes = tuple(replace(box, id=name, under=name, moved_because=name) for box in plan.boxes)
    cords = tuple(replace(cord, id=name, from_=name, to=name) for cord in plan.cords)
    findings = tuple(replace(one, subject=name, note=name) for one in plan.findings)
    plan = replace(
        plan,
        project=name,
        spec=replace(plan.spec, room=room),
        decision=decision,
        boxes=boxes,
        cords=cords,
        findings=findings,
    )
    text = sheet_text(plan_sheet(plan, view), encoding)
    assert all(columns(line) <= 80 and line.isprintable() for line in text.split("\n"))
    text.encode(encoding)
    assert text.rstrip("\n").split("\n")[-1].startswith("Verdict: new circuits")


@pytest.mark.parametrize("view", VIEWS)
def test_every_view_carries_the_caution(view: str):
    assert CAUTION in squeezed(sheet_text(plan_sheet(sample_plan(), view)))


def test_a_caution_taken_out_of_a_record_is_put_back():
    assert CAUTION in squeezed(sheet_text(plan_sheet(sample_plan(caution=""), "plan")))


@pytest.mark.parametrize("view", VIEWS)
def test_the_last_line_is_the_verdict(view: str):
    last = sheet_text(plan_sheet(sample_plan(), view)).splitlines()[-1]
    assert last == "Verdict: new circuits (1 of 20 A on 12 AWG), if what is still unknown holds."


@pytest.mark.parametrize("verdict", [*LADDER, NOT_POSSIBLE])
@pytest.mark.parametrize("code", [0, 1, 3, 4])
def test_every_verdict_fits_on_its_line_uncut(verdict: str, code: int):
    line = verdict_line(sample_plan(decision=sample_decision(verdict, code)))
    assert len(line) <= 80
    assert verdict in line


def test_the_exit_code_is_said_in_words():
    said = {
        code: verdict_line(sample_plan(decision=sample_decision(EXISTING, code)))
        for code in (0, 1, 4)
    }
    assert said[0] == "Verdict: existing outlets."
    assert said[1] == "Verdict: existing outlets, but NOT MET: wire-matches-breaker."
    assert said[4] == "Verdict: existing outlets, if what is still unknown holds."


def test_every_step_says_whether_it_works_and_why_not():
    text = squeezed(sheet_text(plan_sheet(sample_plan(), "decide")))
    assert "1. existing outlets: DOES NOT WORK" in text
    assert "16.2 A, limit 15 A, over by 1.2 A" in text
    assert "4. new circuits: WORKS (CHOSEN)" in text
    assert "1 new circuit, 2 new outlets, 0 extension cords" in text


def test_a_step_that_is_not_allowed_says_so():
    decision = sample_decision()
    steps = tuple(replace(step, allowed=False) for step in decision.steps)
    plan = sample_plan(decision=replace(decision, steps=steps, verdict=NOT_POSSIBLE))
    assert "WOULD WORK, but the plan file does not allow it" in squeezed(
        sheet_text(plan_sheet(plan, "decide"))
    )


def test_a_hazard_in_what_is_there_comes_before_the_steps():
    hazard = replace(sample_findings()[2], subject="circuit 7")
    text = sheet_text(plan_sheet(sample_plan(findings=(hazard,)), "decide"))
    assert text.index("HAZARD in what is there now") < text.index("1. existing outlets")


def test_what_it_hangs_on_and_where_it_turns_are_told():
    text = squeezed(sheet_text(plan_sheet(sample_plan(), "decide")))
    assert "no more than 4.5 A for hours, or 5.6 A now and then" in text
    assert "existing outlets: It turns." in text
    assert "fastened is not said: counts as bolted down" in text


def test_what_is_left_is_never_rounded_up():
    assert "10.62 A" in sheet_text(plan_sheet(sample_plan(), "decide"))
    assert "10.63" not in sheet_text(plan_sheet(sample_plan(), "decide"))


def test_boxes_are_measured_from_walls_as_people_on_site_call_them():
    text = sheet_text(plan_sheet(sample_plan(findings=()), "mark"))
    assert "from stair side (left)" in text
    assert "from back wall" in text
    row = next(line for line in text.splitlines() if line.startswith("box A2"))
    assert row.split("  ")[:2] == ["box A2", "A2"]
    assert "7 ft 6 in" in row
    assert "2 ft 5 in" in row


def test_a_provisional_mark_a_second_mark_and_a_moved_box_are_told():
    box = replace(
        sample_plan().boxes[0],
        provisional=True,
        second_mark_m=(1.0, 1.0),
        moved_because="a joist",
        deck="rear",
    )
    text = squeezed(sheet_text(plan_sheet(sample_plan(boxes=(box,)), "mark")))
    assert "PROVISIONAL: do not cut" in text
    assert "second mark 3 ft 3 3/8 in from stair side (left)" in text
    assert "not at its best place: a joist" in text
    assert "deck of riser rear" in text


def test_the_buying_list_counts_extensions_by_length_and_links():
    cords = sample_plan().cords[:3]
    bought = (
        replace(cords[0], kind="extension", bought_m=2.7432, wire="14 AWG"),
        replace(cords[1], kind="extension", bought_m=2.7432, wire="14 AWG"),
        replace(cords[2], kind="link", bought_m=1.2192),
    )
    text = sheet_text(plan_sheet(sample_plan(cords=bought), "cords"))
    rows = [squeezed(line) for line in text.splitlines()]
    assert "extension cord 9 ft 14 AWG 2" in rows
    assert "chair maker's link cord 4 ft 16 AWG 1" in rows
    assert "BUY 9 ft" in text
    assert "BUY 4 ft (link)" in text


def test_open_floor_is_shouted():
    cord = replace(sample_plan().cords[0], open_floor_m=0.3048)
    assert "1 ft OPEN FLOOR" in squeezed(
        sheet_text(plan_sheet(sample_plan(cords=(cord,)), "cords"))
    )


def test_findings_come_not_met_first_then_not_checked_then_met():
    order = [finding.outcome for finding in in_order(reversed(sample_findings()))]
    assert order == [
        Outcome.NOT_MET,
        Outcome.NOT_MET,
        Outcome.NOT_CHECKED,
        Outcome.MET,
        Outcome.MET,
    ]


def test_a_must_that_is_not_met_comes_before_advice_that_is_not():
    first, second, *_ = in_order(reversed(sample_findings()))
    assert (first.rule, second.rule) == ("wire-matches-breaker", "passage-in-front")


def test_met_rules_come_with_the_least_to_spare_first():
    assert [finding.rule for finding, _ in tightest(sample_findings())] == [
        "cord-length",
        "circuit-load",
    ]


def test_every_finding_shows_its_source_and_standing():
    text = squeezed(sheet_text(judged_sheet(sample_plan(), sample_findings(), (), "Verdict: x.")))
    for finding in sample_findings():
        assert f"source: {finding.source} [{finding.standing.value}]" in text


def test_what_the_judge_cannot_judge_is_told():
    sheet = judged_sheet(sample_plan(), sample_findings(), ("The home run is unknown.",), "x")
    assert "- The home run is unknown." in sheet_text(sheet)


def test_outcomes_are_words():
    text = sheet_text(plan_sheet(sample_plan(), "plan"))
    assert "NOT MET  " in text
    assert "NOT CHECKED  " in text
    assert "\x1b" not in text


def test_two_values_that_round_alike_are_shown_in_full():
    finding = replace(sample_findings()[0], value=15.000001, limit=15.0, margin=-0.000001)
    assert numbers_text(finding, "in") == "15.000001 A, limit 15 A, over by 0.000001 A"


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [
        (1.0, "supplies", "1 supply"),
        (2.0, "chairs", "2 chairs"),
        (2.5, "%", "2.5 %"),
        (None, "A", "unknown"),
        (0.3048, "m", "1 ft"),
    ],
)
def test_values_read_as_people_say_them(value: float | None, unit: str, text: str):
    assert measure(value, unit, "ft-in") == text


def test_a_plan_without_chairs_boxes_or_cords_still_reads():
    plan = sample_plan(
        chairs=(),
        boxes=(),
        cords=(),
        circuits=(),
        findings=(),
        decision=sample_decision(NOT_POSSIBLE, 3),
    )
    text = sheet_text(plan_sheet(plan, "plan"))
    assert "None is marked: the job is not possible as drawn." in text
    assert text.splitlines()[-1] == "Verdict: not possible as drawn."


def test_nothing_to_find_out_is_said():
    plan = sample_plan(findings=(), decision=replace(sample_decision(), depends_on=()))
    assert "Nothing that the answer hangs on is unknown." in sheet_text(plan_sheet(plan, "plan"))


def test_the_record_reads_back_as_the_same_plan():
    plan = sample_plan((5, 3))
    text = record_text(plan)
    assert plan_from_plain(json.loads(text)) == plan
    assert text.endswith("}\n")
    assert text.isascii()


def test_a_record_is_the_same_bytes_each_time():
    assert record_text(sample_plan()) == record_text(sample_plan())


def test_a_record_never_holds_nan():
    with pytest.raises(ValueError, match="not JSON compliant"):
        plain_text({"value": float("nan")})


def test_new_circuits_of_two_kinds_are_not_told_as_one():
    plan = sample_plan()
    odd = replace(plan.circuits[1], id="new 2", wire="10 AWG")
    line = verdict_line(replace(plan, circuits=(*plan.circuits, odd)))
    assert line.startswith(f"Verdict: {NEW_CIRCUITS}, if")


def test_reports_without_a_plan_carry_the_same_caution():
    assert SHORT_CAUTION == CAUTION


@pytest.mark.parametrize(
    ("length_m", "units", "down", "up"),
    [
        (0.0254, "in", "1 in", "1 in"),
        (0.025, "in", "7/8 in", "1 in"),
        (0.0254 - 0.000001, "in", "1 in", "1 in"),
        (0.0254 + 0.00001, "in", "1 in", "1 1/8 in"),
        (0.0019, "in", "0 in", "1/8 in"),
        (0.3047, "ft-in", "11 7/8 in", "1 ft"),
        (0.0126, "mm", "12 mm", "13 mm"),
    ],
)
def test_what_is_promised_is_rounded_down_and_what_is_asked_up(
    length_m: float, units: str, down: str, up: str
):
    assert at_most_text(length_m, units) == down
    assert at_least_text(length_m, units) == up


def test_how_far_a_box_may_move_is_never_rounded_up():
    box = sample_plan().boxes[0]
    box = replace(box, drift=replace(box.drift, screen_m=0.0252))
    text = sheet_text(plan_sheet(sample_plan(boxes=(box,), cords=()), "mark"))
    moves = [line for line in text.splitlines() if line.startswith("box A2")][1]
    assert moves.endswith("  7/8 in")
