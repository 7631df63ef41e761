"""What is printed in other words, and what cannot be printed at all."""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st
from page_words import words
from pdf_letters import first_sheets
from sample_plan import sample_plan
from support import NEC, make_row, make_spec

from powerplan.planning.pipeline import make_plan
from powerplan.sheets.documents import set_of_sheets
from powerplan.sheets.fonts import REPLACEMENT, lacking
from powerplan.sheets.paper import LETTER
from powerplan.sheets.part_texts import plain_page, texts_of
from powerplan.sheets.parts import Items, Marked, Say, Table, Ticks
from powerplan.sheets.printed import SheetPage
from powerplan.sheets.writers.html import html_text

NAMES = (
    "\u05d7\u05d3\u05e8 \u05e7\u05d5\u05dc\u05e0\u05d5\u05e2",
    "\u0633\u064a\u0646\u0645\u0627",
    "\U0001f3ac\U0001f37f",
)
NOTE = "not printable here: see the screen page"


def page(*parts):
    return SheetPage(number="5", title="Findings", reader="anyone", parts=parts)


def test_words_of_the_program_become_plain_words():
    plan = sample_plan()
    parts = (
        Say("because center_from_left puts it so"),
        Items("first_joist", ("headrest_to_wall", "x")),
        Ticks("no_cut", ("rear_gap",)),
        Marked("arm_gap", ("lead_from",)),
        Table("cut_out", ("plug_height",), (("home_run",),)),
    )
    told = words(plain_page(page(*parts), plan))
    assert "_" not in told
    assert "because center from left puts it so" in told
    assert "headrest to wall" in told


def test_a_name_that_people_gave_stays_as_it_is():
    plan = make_plan(make_spec(rows=(make_row(id="front_row"),)), NEC, "0" * 64)
    told = words(plain_page(page(Say("front_row1 and headrest_to_wall of front_row")), plan))
    assert told == "front_row1 and headrest to wall of front_row"


@settings(max_examples=30)
@given(st.text(max_size=20))
def test_every_text_of_a_page_is_looked_at(text):
    parts = (Say(text), Table("c", ("h",), ((text,),)), Marked("m", (text, text)))
    assert list(texts_of(page(*parts))).count(text) >= 4


def test_a_name_that_these_letters_lack_is_told_honestly_and_right_on_the_screen():
    for name in NAMES:
        plan = replace(sample_plan(), project=name)
        room = replace(plan.spec.room, left_wall=name)
        plan = replace(plan, spec=replace(plan.spec, room=room))
        sheets = set_of_sheets(plan, paper=LETTER, revision="A", date="2026-03-09")
        assert lacking(name) > 0
        assert name in html_text(sheets)
        printed = first_sheets(sheets)
        assert all(NOTE in told for told in printed.values())  # the title block
        boxes = printed["2"]
        assert f"{REPLACEMENT} stands for a letter that is {NOTE}" in boxes


def test_a_name_in_these_letters_needs_no_note():
    plan = replace(sample_plan(), project="Caf\u00e9 \u0141\u00f3d\u017a")
    sheets = set_of_sheets(plan, paper=LETTER, revision="A", date="2026-03-09")
    assert not any("not printable" in told for told in first_sheets(sheets).values())
