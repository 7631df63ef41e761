"""What a mark is called, which rules each view shows, and names that stay as they were given."""

import csv
import io
from dataclasses import fields, is_dataclass, replace

import pytest
from abroad import IEC, LOUNGE, plan_of
from page_words import table, words
from sample_plan import sample_plan
from support import NEC, inch, make_area, make_joists, make_load, make_outlet

from powerplan.model.findings import Force, hold
from powerplan.model.plan import NOT_POSSIBLE, Plan
from powerplan.model.rules import RuleSet
from powerplan.sheets.documents import set_of_sheets, views_of
from powerplan.sheets.names import given_names, names_of
from powerplan.sheets.pages.boxes import boxes_page
from powerplan.sheets.paper import LETTER
from powerplan.sheets.scene import Dimension
from powerplan.sheets.views import CORDS, DECIDE, MARK, PLAN, plan_sheet
from powerplan.sheets.words import DO_NOT_CUT, FIRM, PROVISIONAL, layout_faults, mark_word
from powerplan.sheets.writers.csv import csv_files
from powerplan.sheets.writers.text import sheet_text

JUDGE_ALONE = {"fed-once", "ends-meet", "record-agrees"}  # what only the judge of a record holds
LAYOUT = {
    *("row-fits-walls", "row-clears-obstacle", "rows-apart", "seats-clear-of-each-other"),
    *("headrest-clears-wall", "footrest-clears-row-ahead", "footrest-on-riser"),
    *("row-on-one-level", "door-free", "reading-agrees"),
}


def rows(plan: Plan, name: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(csv_files(plan)[name], newline="")))


@pytest.mark.parametrize("rules", [NEC, IEC], ids=lambda one: one.id)
def test_every_rule_is_shown_by_one_of_the_short_views(rules: RuleSet):
    noted = (hold(rule, "a thing", None, 1, force=Force.NOTE) for rule in rules.rules.values())
    plan = sample_plan(findings=tuple(noted))
    told = {view: sheet_text(plan_sheet(plan, view)) for view in (DECIDE, MARK, CORDS, PLAN)}
    for rule in rules.rules:
        shown = [view for view in (DECIDE, MARK, CORDS) if f" {rule} (note)" in told[view]]
        assert bool(shown) != (rule in JUDGE_ALONE), rule
        assert f" {rule} (note)" in told[PLAN]


@pytest.mark.parametrize("rule", sorted(LAYOUT))
def test_marks_move_with_every_must_of_the_layout(rule: str):
    fault = hold(NEC.rules[rule], "row A", 1, 2, force=Force.MUST)
    fault = replace(fault, outcome=type(fault.outcome).NOT_MET)
    assert layout_faults(sample_plan(findings=(fault,))) == (fault,)


def marked(*, stops: bool = False, provisional: bool = False, possible: bool = True) -> Plan:
    plan = sample_plan(findings=())
    boxes = tuple(replace(box, provisional=provisional) for box in plan.boxes)
    plan = replace(plan, boxes=boxes)
    if not possible:
        plan = replace(plan, decision=replace(plan.decision, verdict=NOT_POSSIBLE))
    if not stops:
        return plan
    fault = hold(NEC.rules["headrest-clears-wall"], "row A", inch(4), inch(5), note="Move it.")
    return replace(plan, findings=(fault,))


@pytest.mark.parametrize(
    ("plan", "word"),
    [
        (marked(), FIRM),
        (marked(provisional=True), PROVISIONAL),
        (marked(stops=True), DO_NOT_CUT),
        (marked(stops=True, provisional=True), DO_NOT_CUT),
        (marked(possible=False), DO_NOT_CUT),
    ],
)
def test_table_text_and_drawings_call_a_mark_by_one_word(plan: Plan, word: str):
    assert {mark_word(box, plan) for box in plan.boxes} == {word}
    assert plan.decision.depends_on  # so that even a firm mark waits
    told = f"{FIRM} but DO NOT CUT YET" if word == FIRM else word
    assert {row["mark"] for row in rows(plan, "boxes.csv")} == {told}
    sheets = set_of_sheets(plan, paper=LETTER, revision="A", date="2026-03-09")
    floor, *large = [view for view in views_of(sheets) if "loor box" in view.title][:2]
    if plan.decision.verdict != NOT_POSSIBLE:
        (told,) = {row[-1] for row in table(_as_page(plan), "The middle").rows}
        assert told == word
        assert floor.title.count(DO_NOT_CUT) == 1
        assert floor.title.endswith("DO NOT CUT YET") == (word == FIRM)
        assert (PROVISIONAL in floor.title) == (word == PROVISIONAL)
        said = [item.words for view in large for item in view.items if hasattr(item, "words")]
        assert any(DO_NOT_CUT in one for one in said) == (word != FIRM)
        assert any(PROVISIONAL in one for one in said) == (word == PROVISIONAL)


def _as_page(plan: Plan):
    return boxes_page(plan)


def test_a_mark_under_a_chair_that_nobody_measured_is_not_firm():
    plan = marked()
    unknown = hold(NEC.rules["chair-measured"], "chair club", None, 1, note="Measure one.")
    assert {mark_word(box, replace(plan, findings=(unknown,))) for box in plan.boxes} == {
        PROVISIONAL
    }


def test_a_box_has_the_same_measures_on_every_page():
    # 82 1/2 in less 1/16 in, and half an inch and 3/16 in from the back
    plan = marked()
    box = replace(plan.boxes[0], x_m=inch("1319/16"), y_m=inch("467/16"))
    plan = replace(plan, boxes=(box,))
    sheets = set_of_sheets(plan, paper=LETTER, revision="A", date="2026-03-09")
    left, back = "6 ft 10 7/16 in", "2 ft 5 3/16 in"
    places = table(sheets.pages[1], "Where the middle").rows[0]
    assert (places[2], places[4]) == (left, back)
    assert places[6] == "3 ft 1 9/16 in left"  # of the middle at 120 in
    middle = table(_as_page(plan), "The middle").rows[0]
    assert middle[2:4] == (left, back)
    (row,) = rows(plan, "boxes.csv")
    assert (row["from_left"], row["from_back"]) == (left, back)
    drawn = {item.words for item in views_of(sheets)[0].items if isinstance(item, Dimension)}
    assert {left, back, "3 ft 1 9/16 in"} <= drawn
    assert "to the nearest 1/16 in" in words(sheets.pages[1])


def _ids(thing: object) -> set[str]:
    """Every id, name and label in a record, wherever it stands."""
    found: set[str] = set()
    if is_dataclass(thing):
        for field in fields(thing):
            value = getattr(thing, field.name)
            if field.name in ("id", "label", "name") and isinstance(value, str):
                found.add(value)
            found |= _ids(value)
    elif isinstance(thing, tuple):
        for one in thing:
            found |= _ids(one)
    return found


def test_every_name_in_a_plan_is_known_as_one():
    plan = sample_plan()
    circuit = replace(
        plan.spec.circuits[0],
        already_on_it=None,
        partly_on_it=(make_load("av_rack", "2", True),),
        not_measured=("mini_bar",),
    )
    plan = replace(plan, spec=replace(plan.spec, circuits=(circuit,)))
    used = {"rules"}  # the numbers of the rule set are no names that people gave
    ids = {
        one
        for field in fields(plan)
        if field.name not in used
        for one in _ids(getattr(plan, field.name))
    }
    assert ids - names_of(plan) == set()
    assert "mini_bar" in given_names(plan)
    assert {box.id for box in plan.boxes} <= names_of(plan) - given_names(plan)


def test_names_with_underscores_stay_and_words_of_the_program_go_on_every_page():
    plan = sample_plan()
    outlet = make_outlet(id="side_w", circuit="7")
    area = make_area("air_duct", 40, 28, 14, 72)
    floor = replace(make_joists(), first_joist_m=None)
    spec = replace(plan.spec, outlets=(outlet,), no_cut=(area,), floor=floor)
    rule = NEC.rules["headrest-clears-wall"]
    note = hold(rule, "row A", inch(4), inch(5), note="Write first_joist here.")
    plan = replace(plan, spec=spec, findings=(*plan.findings, note))
    sheets = set_of_sheets(plan, paper=LETTER, revision="A", date="2026-03-09")
    pages = [words(page) for page in sheets.pages]
    assert ["first joist here" in page for page in pages] == [True, True, True, False, True]
    told = "\n".join(pages)
    assert "first_joist" not in told
    assert "side_w" in told
    assert "Air_duct" in told or "air_duct" in told


def test_tables_for_a_spreadsheet_speak_the_words_of_the_country():
    plan = plan_of(LOUNGE.replace('"1,4 A"', '"15 A"'))
    files = csv_files(plan)
    assert "circuit_breaker_A" in files["circuits.csv"].splitlines()[0]
    assert "supply_run" in files["circuits.csv"].splitlines()[0]
    assert not {"breaker_A", "home_run"} & set(files["circuits.csv"].splitlines()[0].split(","))
    assert "distribution board" in {row["wired_from"] for row in rows(plan, "boxes.csv")}
    for text in files.values():
        assert "receptacle" not in text
        assert ",panel" not in text
    at_home = csv_files(sample_plan())["circuits.csv"].splitlines()[0]
    assert {"breaker_A", "home_run"} <= set(at_home.split(","))
