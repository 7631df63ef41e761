"""Pages and sheets: every page that is named is there, and every sheet that is named is the one."""

import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
import strategies
from laws import law, planned
from page_words import words
from sample_plan import sample_plan
from support import inch

from powerplan.inputs.record_file import read_record
from powerplan.model.plan import Plan
from powerplan.sheets.documents import set_of_sheets
from powerplan.sheets.layout import PaperSheet, sheets_of_paper
from powerplan.sheets.paper import A4, LETTER, TABLOID, Paper
from powerplan.sheets.part_texts import texts_of
from powerplan.sheets.parts import Contents
from powerplan.sheets.printed import SetOfSheets, SheetPage
from powerplan.sheets.sheet_numbers import contents_of, numbered
from powerplan.sheets.typeset.ink import Letters, Picture
from powerplan.sheets.writers.html import html_text

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.record.json"))
NAMED = re.compile(r"[Pp]ages? (\d+)(?: ([A-Z][a-z]+))?")


def issued(plan: Plan, paper: Paper = LETTER) -> SetOfSheets:
    return set_of_sheets(plan, paper=paper, revision="A", date="2026-03-09")


def said(sheet: PaperSheet) -> list[str]:
    return [ink.words for ink in sheet.ink if isinstance(ink, Letters)]


def hold_names(sheets: SetOfSheets) -> None:
    """Every page that a text names is one of the set, by number and by title."""
    pages = {page.number: page.name for page in sheets.pages}
    for page in sheets.pages:
        for text in texts_of(page):
            for found in NAMED.finditer(text):
                assert (
                    text[found.start() :].lower().startswith(f"page {pages[found[1]].lower()}")
                ), text


def hold_sheets(sheets: SetOfSheets, paper: Paper) -> None:
    """What page 1 lists are the sheets; a drawing that comes later is where it is said to be."""
    spread = sheets_of_paper(sheets, paper)
    of_page: dict[str, list[PaperSheet]] = {}
    for sheet in spread:
        of_page.setdefault(sheet.page.number, []).append(sheet)
    (listed,) = (part for part in spread[0].page.parts if isinstance(part, Contents))
    assert [name for name, _, _ in listed.rows] == [page.name for page in sheets.pages]
    for (name, reader, span), own in zip(listed.rows, of_page.values(), strict=True):
        numbers = [sheet.number for sheet in own]
        told = [int(number) for number in span.split("-")]
        assert told == sorted({numbers[0], numbers[-1]})
        assert own[0].page.reader == reader
        for count, sheet in enumerate(own, 1):
            which = f", {count} of {len(own)}" if len(own) > 1 else ""
            assert said(sheet)[0].startswith(f"{name}{which}")
            assert f"{sheet.number} of {len(spread)}" in said(sheet)
        hold_drawing(own)


def hold_drawing(own: list[PaperSheet]) -> None:
    drawn = [s.number for s in own if any(isinstance(ink, Picture) for ink in s.ink)]
    lines = [line for sheet in own for line in said(sheet) if "The drawing starts" in line]
    late = bool(drawn) and drawn[0] != own[0].number
    assert lines == ([f"The drawing starts on sheet {drawn[0]}."] if late else [])
    assert not late or lines[0] in said(own[0])


@pytest.mark.parametrize("record", EXAMPLES, ids=lambda path: path.name.partition(".")[0])
@pytest.mark.parametrize("paper", [LETTER, A4, TABLOID], ids=lambda paper: paper.name)
def test_examples_name_pages_and_sheets_that_are_there(record, paper):
    sheets = issued(read_record(record), paper)
    hold_names(sheets)
    hold_sheets(sheets, paper)


@law(strategies.rooms(), usual=5, many=100)
def test_any_room_names_pages_and_sheets_that_are_there(spec):
    sheets = issued(planned(spec))
    hold_names(sheets)
    hold_sheets(sheets, LETTER)


def test_in_the_words_of_another_country_pages_are_named_as_they_are_headed():
    (record,) = (path for path in EXAMPLES if path.name.startswith("metric-lounge"))
    plan = read_record(record)
    sheets = issued(replace(plan, boxes=(), cords=()))
    assert sheets.pages[1].name == "2 The room and its socket-outlets"
    hold_names(sheets)
    assert "page 2 The room and its socket-outlets" in words(sheets.pages[0])


def test_the_floor_plan_is_on_the_first_sheet_of_page_2_of_every_example():
    for record in EXAMPLES:
        spread = sheets_of_paper(issued(read_record(record)), LETTER)
        first = next(sheet for sheet in spread if sheet.page.number == "2")
        assert any(isinstance(ink, Picture) for ink in first.ink), record.name
        proof = " ".join(said(first))
        assert "First prove the room" in proof or "cut nothing" in proof or "DO NOT CUT" in proof


def test_a_room_too_large_for_a_sheet_says_on_the_first_where_its_drawing_starts():
    plan = sample_plan()
    room = replace(plan.spec.room, width_m=inch(2400), depth_m=inch(2000))
    large = replace(plan, spec=replace(plan.spec, room=room))
    sheets = issued(large)
    hold_sheets(sheets, LETTER)


def test_naming_the_sheets_may_take_one_more_and_is_right_all_the_same():
    # so many readers that the list of pages itself fills sheets
    reader = "everybody who " * 300
    first = SheetPage("1", "Decision", "client", ())
    others = tuple(SheetPage(f"{n}", "Cords", reader, ()) for n in range(2, 5))
    page = first._replace(parts=(contents_of((first, *others)),))
    sheets = issued(sample_plan())._replace(pages=(page, *others))
    spread = sheets_of_paper(sheets, LETTER)
    (listed,) = (part for part in spread[0].page.parts if isinstance(part, Contents))
    own = sum(sheet.page.number == "1" for sheet in spread)
    assert own > 1
    assert [span for _, _, span in listed.rows] == [f"1-{own}", *(f"{own + n}" for n in (1, 2, 3))]


def test_a_page_without_a_drawing_says_nothing_of_one():
    page = SheetPage("5", "Findings", "anyone", ())
    assert numbered([page], [[False, False]]) == [page]


def linked(sheets: SetOfSheets) -> Iterator[tuple[str, str]]:
    """The links of a web page of a set: to which part, and their words."""
    for found in re.finditer(r'<a href="#page-(\d+)">([^<]*)</a>', html_text(sheets)):
        yield found[1], found[2]


def test_on_the_screen_every_page_that_is_named_is_a_link_to_it():
    sheets = issued(sample_plan())
    links = list(linked(sheets))
    for place, told in links:
        page = sheets.pages[int(place) - 1]
        assert told.startswith(f"page {page.name}")
    inner = [told for _, told in links if "(for " not in told]
    text = "\n".join(
        line
        for page in sheets.pages
        for line in words(page).split("\n")
        if "|" not in line and not line.startswith("[")  # tables and titles of drawings
    )
    assert len(inner) == len(NAMED.findall(text)) > 2


def test_a_name_with_signs_of_the_web_is_linked_and_harmless():
    sheets = issued(sample_plan())
    first, *others = sheets.pages
    odd = others[1]._replace(title="Cords & <bags>")
    changed = sheets._replace(pages=(first, others[0], odd, *others[2:]))
    text = html_text(changed)
    assert "<bags>" not in text
    assert '<a href="#page-3">page 3 Cords &amp; &lt;bags&gt; (for installers)</a>' in text
