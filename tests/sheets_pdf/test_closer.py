"""A page that ends just over a sheet is set closer, so that no sheet holds a few lines alone."""

import pytest
from pdf_set import make_set, page

from powerplan.sheets.layout import PaperSheet, sheets_of_paper
from powerplan.sheets.paper import LETTER
from powerplan.sheets.parts import Say
from powerplan.sheets.typeset.ink import Letters


def baselines(sheets: tuple[PaperSheet, ...]) -> dict[str, float]:
    """How high each told paragraph stands. [mm]"""
    return {
        ink.words: ink.at_mm[1]
        for sheet in sheets
        for ink in sheet.ink
        if isinstance(ink, Letters) and ink.words.startswith("told")
    }


def test_a_page_that_ends_just_over_a_sheet_is_set_closer_and_one_that_is_longer_is_not():
    def spread(count: int) -> tuple[PaperSheet, ...]:
        parts = tuple(Say(f"told{number}") for number in range(count))
        return sheets_of_paper(make_set(page("1", *parts)), LETTER)

    counts = [len(spread(count)) for count in range(1, 80)]
    assert counts == sorted(counts)
    most = counts.count(1)  # the last that goes on one sheet, closer
    step = {count: baselines(spread(count)) for count in (2, most, most + 1)}
    gap = {count: told["told1"] - told["told0"] for count, told in step.items()}
    assert len(step[most]) == most
    assert gap[most] < gap[2] == gap[most + 1]
    # the usual space is 3.2 mm, and half of that when it is closer
    assert gap[2] - gap[most] == pytest.approx(1.6)
