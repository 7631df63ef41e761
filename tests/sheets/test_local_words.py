"""Reports speak the words of the country; names that people gave stay as they are."""

import re

import pytest
from abroad import IEC, LOUNGE, plan_of
from support import NEC

from powerplan.planning.phone import QuickQuestion
from powerplan.planning.quick import quick_answer
from powerplan.sheets.documents import set_of_sheets, views_of
from powerplan.sheets.local import local_words, localizer
from powerplan.sheets.pages.quick import quick_sheet
from powerplan.sheets.pages.rules import rules_sheet
from powerplan.sheets.paper import PAPERS
from powerplan.sheets.scene import Dimension, Text
from powerplan.sheets.views import CORDS, DECIDE, MARK, PLAN, plan_sheet
from powerplan.sheets.writers.text import sheet_text

_AT_HOME = re.compile(
    r"(?<![\w\[-])(breakers?|outlets?|panels?|receptacles?|home runs?|extension cords?|ground(?:ing"
    r"|ed)?|GFCI|AFCI|AWG|NEC|inch(?:es)?|feet|3 h|for hours|80 %|125 %)(?![\w\]]|-[a-z]| = )",
    re.IGNORECASE,
)
_NAMES = re.compile(r"Panel road lounge|outlet side|breaker lamp|arm panels?")


def foreign(text: str) -> list[str]:
    """The words of the US in a report, less the names that the plan file gave."""
    return _AT_HOME.findall(_NAMES.sub("", " ".join(text.split())))


@pytest.mark.parametrize("view", [PLAN, DECIDE, MARK, CORDS])
def test_no_word_of_the_us_is_left_in_a_report(view: str):
    text = sheet_text(plan_sheet(plan_of(), view), "utf-8")
    assert foreign(text) == []
    assert "socket-outlet" in text
    assert not re.search(r"[0-9] (in|ft)\b", text)


def test_names_that_people_gave_stay():
    text = sheet_text(plan_sheet(plan_of(), PLAN), "utf-8")
    assert "Panel road lounge" in text
    assert "outlet side" in text


def test_no_word_of_the_us_is_left_on_paper_or_in_a_drawing():
    plan = plan_of(LOUNGE.replace('"1,4 A"', '"15 A"'))
    sheets = set_of_sheets(plan, paper=PAPERS["a4"], revision="A", date="2026-03-01")
    assert foreign(repr([page._replace(parts=()) for page in sheets.pages])) == []
    parts = [part for page in sheets.pages for part in page.parts if not hasattr(part, "view")]
    assert foreign(repr(parts)) == []
    words = [
        item.words
        for view in views_of(sheets)
        for item in view.items
        if isinstance(item, Text | Dimension)
    ]
    told = [view.description + " " + view.title for view in views_of(sheets)]
    assert foreign("\n".join((*words, *told))) == []
    assert any("distribution board" in word for word in words)


def test_the_phone_answers_in_the_words_of_the_country():
    question = QuickQuestion(chairs=4, input_a=IEC.exact("usual_socket") / 8)
    text = sheet_text(quick_sheet(quick_answer(question, IEC), IEC), "utf-8")
    assert foreign(text) == []
    assert "method A2" in text


def test_rules_are_shown_in_the_words_of_the_country():
    assert foreign(sheet_text(rules_sheet(IEC), "utf-8")) == []


def test_the_us_reads_as_it_was_written():
    assert local_words(NEC.id) == {}
    assert localizer(NEC.id) is str


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("Outlet W1 is on the panel.", "Socket-outlet W1 is on the distribution board."),
        ("read the breaker", "read the circuit-breaker"),
        ("wire-matches-breaker: the arm panel", "wire-matches-breaker: the arm panel"),
        ('write breaker = "16 A" in [outlet.W1]', 'write breaker = "16 A" in [outlet.W1]'),
        ("3 outlets, home run 4 m", "3 socket-outlets, supply run 4 m"),
        ("GFCI", "RCD"),
        ("An outlet with a breaker", "A socket-outlet with a circuit-breaker"),
        ("a ground and an extension cord", "an earth and an extension lead"),
        ("an arm panel and a box", "an arm panel and a box"),
        ("a duplex receptacle is two", "a double socket-outlet is two"),
    ],
)
def test_whole_words_are_told_in_the_country_s_way(text: str, told: str):
    assert localizer(IEC.id)(text) == told


def test_a_word_is_turned_once_only():
    local = localizer(IEC.id)
    for words in (LOUNGE, "breaker, outlet and panel", "Receptacles and GROUND"):
        assert local(local(words)) == local(words)
