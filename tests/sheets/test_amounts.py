"""Parts in print add up to the whole in print, where digits allow."""

import re
from fractions import Fraction
from math import ceil

import strategies
from hypothesis import given
from hypothesis import strategies as st
from laws import law, planned

from powerplan.model.lengths import amps_text
from powerplan.sheets.amounts import amps_parts
from powerplan.sheets.pages.circuits import circuits_page

PARTS = st.lists(st.integers(1, 10**7).map(lambda n: n / 10**6), min_size=1, max_size=30)


def number(text: str) -> Fraction:
    return Fraction(text.removesuffix(" A"))


@given(PARTS)
def test_printed_parts_add_up_or_are_rounded_up(parts):
    whole = sum(Fraction(part).limit_denominator(10**6) for part in parts)
    texts = amps_parts(parts, float(whole))
    told = [number(text) for text in texts]
    if sum(told) != Fraction(ceil(whole * 100), 100):
        exact = [Fraction(part).limit_denominator(10**6) for part in parts]
        assert told == [Fraction(ceil(part * 100), 100) for part in exact]
    for text, part in zip(told, parts, strict=True):
        assert abs(float(text) - part) < 0.01 + 1e-9


@given(st.integers(1, 10**7).map(lambda n: n / 10**6), st.integers(1, 12))
def test_equal_parts_read_the_same(part, many):
    assert len(set(amps_parts([part] * many, part * many))) == 1


def test_eight_times_a_part_of_three_decimals():
    # 8 x 1.875 = 15, where 8 x 1.88 = 15.04
    assert amps_parts([1.875] * 8, 15.0) == ("1.875 A",) * 8


@given(st.integers(0, 10**8), st.integers(1, 40))
def test_what_is_asked_and_what_is_left_make_up_the_breaker(millionths, breaker):
    asks = Fraction(millionths, 10**6) % breaker
    left = breaker - asks
    assert number(amps_text(asks, up=True)) + number(amps_text(left, down=True)) == breaker


@law(strategies.rooms(), usual=7, many=150)
def test_on_every_circuit_asks_and_left_add_up(spec):
    plan = planned(spec)
    if not plan.circuits:
        return
    for row in circuits_page(plan).parts[0].rows:
        if all(re.fullmatch(r"[0-9.]+ A", cell) for cell in row[1:4]):
            assert number(row[1]) + number(row[3]) == number(row[2])
