"""A whole set: five pages, and drawings where there is something to draw."""

import re
from dataclasses import replace

import pytest
from page_words import words
from sample_plan import sample_plan
from support import NEC, make_new_work, make_spec

from powerplan.model.plan import CAUTION, Plan
from powerplan.planning.pipeline import make_plan
from powerplan.sheets.documents import set_of_sheets, views_of
from powerplan.sheets.paper import A4, LETTER
from powerplan.sheets.parts import Figure
from powerplan.sheets.printed import SetOfSheets
from powerplan.sheets.scene import Text


def issued(plan: Plan) -> SetOfSheets:
    return set_of_sheets(plan, paper=LETTER, revision="B", date="2026-03-09")


@pytest.fixture(scope="module")
def plan() -> Plan:
    return make_plan(make_spec(), NEC, "ab" * 32)


def figures(sheets: SetOfSheets) -> list[int]:
    return [sum(isinstance(p, Figure) for p in page.parts) for page in sheets.pages]


def test_there_are_five_pages_each_for_its_reader(plan: Plan):
    pages = issued(plan).pages
    assert [(page.number, page.title) for page in pages] == [
        ("1", "Decision"),
        ("2", "Floor boxes"),
        ("3", "Cords"),
        ("4", "Circuits"),
        ("5", "Findings"),
    ]
    assert all(page.reader and page.parts for page in pages)


def test_the_title_block_has_all_that_tells_one_set_from_another(plan: Plan):
    sheets = issued(plan)
    assert (sheets.project, sheets.revision, sheets.date) == ("A test room", "B", "2026-03-09")
    assert sheets.plan_hash == "ab" * 32
    assert sheets.rules.endswith("(us-nec-2023)")
    assert sheets.caution == CAUTION
    assert sheets.scale_words.endswith("= 1'-0\"")


def test_the_caution_comes_back_if_it_was_taken_out(plan: Plan):
    assert issued(replace(plan, caution="")).caution == CAUTION


def test_floor_and_rows_are_drawn_and_views_come_in_the_order_of_the_pages(plan: Plan):
    sheets = issued(plan)
    counts = figures(sheets)
    assert counts[0] == 0
    assert counts[1] == 3  # the drawing, the boxes at a large scale, and what the lines mean
    assert counts[2] == 2 + len(behind(sheets))
    assert len(views_of(sheets)) == sum(counts)


def behind(sheets: SetOfSheets) -> list[str]:
    """The titles of what is drawn again at a large scale."""
    return [view.title for view in views_of(sheets) if view.title.startswith("Behind row ")]


def test_two_rows_have_a_drawing_each():
    sheets = issued(sample_plan((4, 4)))
    # a key plan, two rows, a legend, and what lies behind a crowded row
    assert figures(sheets)[2] == 4 + len(behind(sheets))
    titles = [view.title for view in views_of(sheets)]
    for title in behind(sheets):  # each after the drawing of its own row
        row = title.split()[2].rstrip(",.")
        own = next(n for n, one in enumerate(titles) if one.startswith(f"Row {row} "))
        assert titles[own + 1].startswith(f"Behind row {row}, larger")


def test_a_room_that_is_not_possible_still_has_every_page_and_no_marks():
    work = make_new_work(floor_boxes=False, circuits=0)
    sheets = issued(make_plan(make_spec(new_work=work, outlets=(), circuits=()), NEC, "0" * 64))
    assert len(sheets.pages) == 5
    assert figures(sheets)[1:3] == [2, 2]  # as they would stand
    assert views_of(sheets)[0].title == "NOT POSSIBLE AS DRAWN: do not cut"
    assert all(page.parts for page in sheets.pages)


def test_no_order_of_work_is_shown_where_nothing_may_be_done():
    work = make_new_work(floor_boxes=False, circuits=0)
    spec = make_spec(new_work=work, outlets=(), circuits=())
    stopped = issued(make_plan(spec, NEC, "0" * 64))
    for view in views_of(stopped):
        said = [item.words for item in view.items if isinstance(item, Text)]
        assert not [words for words in said if words.isdigit() or "order of work" in words]
        if view.title.startswith("Row "):
            assert {"A1", "A2", "A3", "A4", "A5"} <= set(said)  # named all the same
    for page in stopped.pages:
        assert not re.search(r"[Oo]rder of work|turn in the order", words(page))


def test_a_metric_plan_has_a_metric_scale(plan: Plan):
    project = replace(plan.spec.project, units="mm")
    metric = replace(plan, spec=replace(plan.spec, project=project))
    sheets = set_of_sheets(metric, paper=A4, revision="A", date="2026-03-09")
    assert sheets.scale_words in ("1:20", "1:50", "1:100")
