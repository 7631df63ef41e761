"""Lengths whose eighths would hide a difference, or bend a limit, are told in sixty-fourths."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support import NEC, inch

from powerplan.model.findings import Outcome, hold
from powerplan.sheets.sixty_fourths import down_text
from powerplan.sheets.words import numbers_text

CLEAR = NEC.rules["cord-clear-of-mechanism"]


def inches(text: str) -> Fraction:
    """A printed length below a foot, back as inches."""
    return sum((Fraction(part) for part in text.removesuffix(" in").split()), Fraction(0))


@pytest.mark.published(source="1 in is 25.4 mm: 25 mm is 62.992 sixty-fourths", standing="derived")
@pytest.mark.parametrize(
    ("value_m", "told"),
    [
        (0.025, "63/64 in, limit 63/64 in, just enough"),
        # 28.167 mm are 70.97 sixty-fourths, down to 1 3/32; 70 less 63 are 7
        (0.028167, "1 3/32 in, limit 63/64 in, 7/64 in to spare"),
        (0.0251, "63/64 in, limit 63/64 in, less than 1/64 in to spare"),
        (0.0245, "61/64 in, limit 63/64 in, short by 1/32 in"),
    ],
)
def test_a_limit_of_25_mm_is_printed_as_it_is(value_m, told):
    assert numbers_text(hold(CLEAR, "cord 1", value_m, 0.025), "ft-in") == told


def test_a_limit_on_an_eighth_stays_in_eighths():
    held = hold(CLEAR, "cord 1", inch(2), inch(1))
    assert numbers_text(held, "ft-in") == "2 in, limit 1 in, 1 in to spare"


def test_sheets_in_millimeters_stay_in_millimeters():
    told = numbers_text(hold(CLEAR, "cord 1", 0.0281674, 0.025), "mm")
    assert told == "28 mm, limit 25 mm, 3 mm to spare"


@given(st.integers(1, 200_000), st.integers(1, 140_000))
def test_the_three_add_up_in_one_unit_and_promise_no_more_than_there_is(value_um, limit_um):
    value_m, limit_m = value_um / 1e6, limit_um / 1e6
    held = hold(CLEAR, "cord 1", value_m, limit_m)
    told = numbers_text(held, "in")
    assert "mm" not in told
    if "/64" not in told or "less than" in told:
        return
    has, limit, room = told.split(", ")
    size = room.removesuffix(" to spare").removeprefix("short by ")
    if size == "just enough":
        return
    gap = inches(has) - inches(limit.removeprefix("limit "))
    assert gap == (inches(size) if held.outcome is Outcome.MET else -inches(size))
    hair = Fraction(5, 25_400)
    assert inches(has) <= Fraction(value_um, 25_400) + hair
    assert inches(limit.removeprefix("limit ")) >= Fraction(limit_um, 25_400) - hair


def test_rounded_down_is_never_more():
    assert down_text(0.025, "ft-in") == "63/64 in"
    assert down_text(inch("63/64") - 5e-5, "in") == "31/32 in"
    assert down_text(0.0259, "mm") == "25 mm"
