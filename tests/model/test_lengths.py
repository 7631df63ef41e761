"""Lengths as a tape shows them, currents that promise no more than is true."""

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support import inch

from powerplan.model.lengths import INCH_M, amps_text, joined, length_text, plural

SHAPE = re.compile(r"(-?)(?:(\d+) ft ?)?(?:((?:\d+ )?(?:\d+/)?\d+) in)?")


def read_back_m(text: str) -> Fraction:
    """A reader of our own for feet and inches, apart from the program's."""
    found = SHAPE.fullmatch(text)
    assert found is not None, text
    minus, feet, rest = found.groups()
    inches = 12 * int(feet or 0) + sum(Fraction(part) for part in (rest or "0").split())
    return (-inches if minus else inches) * INCH_M


@pytest.mark.parametrize(
    ("inches", "text"),
    [
        ("0", "0 in"),
        ("1/8", "1/8 in"),
        ("1/2", "1/2 in"),
        ("6", "6 in"),
        ("11 7/8", "11 7/8 in"),
        ("11 61/64", "1 ft"),
        ("12", "1 ft"),
        ("12 1/2", "1 ft 0 1/2 in"),
        ("13", "1 ft 1 in"),
        ("23 31/32", "2 ft"),
        ("75 1/4", "6 ft 3 1/4 in"),
        ("240", "20 ft"),
        ("-3 1/2", "-3 1/2 in"),
        ("-1/32", "0 in"),
    ],
)
def test_feet_and_inches_read_as_a_tape(inches, text):
    minus = inches.startswith("-")
    value = sum(Fraction(part) for part in inches.removeprefix("-").split())
    assert length_text(inch(-value if minus else value), "ft-in") == text


def test_inches_alone_never_turn_into_feet():
    assert length_text(inch("301/4"), "in") == "75 1/4 in"


def test_a_finer_step_is_kept_when_asked_for():
    assert length_text(inch("191/16"), "ft-in", step=16) == "11 15/16 in"


@pytest.mark.parametrize(
    ("meters", "units", "text"),
    [
        (1.9113, "mm", "1911 mm"),
        (1.9113, "m", "1.911 m"),
        (-0.25, "m", "-0.250 m"),
        (-0.0001, "mm", "0 mm"),
        (-0.0001, "m", "0.000 m"),
        (0.0, "m", "0.000 m"),
    ],
)
def test_metric_lengths_are_whole_millimeters(meters, units, text):
    assert length_text(meters, units) == text


@given(
    length=st.floats(min_value=-200.0, max_value=200.0),
    units=st.sampled_from(["ft-in", "in"]),
    step=st.sampled_from([2, 4, 8, 16, 32]),
)
def test_text_reads_back_within_half_a_step(length, units, step):
    back_m = read_back_m(length_text(length, units, step=step))
    assert abs(back_m - Fraction(length)) <= INCH_M / step / 2


@given(length=st.floats(min_value=-200.0, max_value=200.0))
def test_millimeters_read_back_within_half_of_one(length):
    millimeters = int(length_text(length, "mm").removesuffix(" mm"))
    assert abs(millimeters / 1000 - length) <= 0.0005 + 1e-12


@given(length=st.floats(min_value=-200.0, max_value=200.0))
def test_twelve_inches_are_never_printed_after_feet(length):
    text = length_text(length, "ft-in")
    assert not re.search(r"\b(1[2-9]|[2-9]\d) (\d/\d )?in", text)
    assert not text.startswith("-0 ")


@pytest.mark.parametrize(
    ("current", "text"),
    [
        (Fraction(9, 5), "1.8 A"),
        (Fraction(0), "0 A"),
        (100, "100 A"),
        (1.005, "1 A"),
        (Fraction(1, 3), "0.33 A"),
        (Fraction(2, 3), "0.67 A"),
        (0.1 + 0.2, "0.3 A"),
    ],
)
def test_currents_have_two_decimals_at_most(current, text):
    assert amps_text(current) == text


@pytest.mark.parametrize(
    ("current", "text"),
    [(Fraction(2, 3), "0.66 A"), (Fraction("4.56"), "4.56 A"), (4.56, "4.56 A")],
)
def test_what_may_be_added_is_rounded_down(current, text):
    assert amps_text(current, down=True) == text


@given(st.fractions(min_value=0, max_value=1000, max_denominator=10**6))
def test_rounding_down_never_promises_more_and_loses_under_a_hundredth(current):
    promised = Fraction(amps_text(current, down=True).removesuffix(" A"))
    assert promised <= current < promised + Fraction(1, 100)


@given(st.fractions(min_value=0, max_value=1000, max_denominator=10**6))
def test_plain_rounding_is_within_half_a_hundredth(current):
    assert abs(Fraction(amps_text(current).removesuffix(" A")) - current) <= Fraction(1, 200)


@pytest.mark.parametrize(
    ("count", "noun", "text"),
    [(1, "box", "1 box"), (2, "box", "2 boxes"), (0, "chair", "0 chairs"), (3, "inch", "3 inches")],
)
def test_nouns_are_counted(count, noun, text):
    assert plural(count, noun) == text


@pytest.mark.parametrize(
    ("names", "text"),
    [((), ""), (("A1",), "A1"), (("A1", "A2"), "A1 and A2"), (("A", "B", "C"), "A, B and C")],
)
def test_names_are_joined_as_people_say_them(names, text):
    assert joined(names) == text


def test_names_are_joined_by_the_word_given():
    assert joined(["15", "20"], "or") == "15 or 20"
