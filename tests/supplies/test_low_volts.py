"""The low-voltage side of a supply, against published and hand-worked drops."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from loose_rooms import make_supply
from support import NEC

from powerplan.engineering.supplies.low_volts import (
    chair_cord_findings,
    low_drop_finding,
    low_drop_percent,
)
from powerplan.model.findings import Force, Outcome, Standing

FOOT_M = 0.3048


@pytest.mark.published(
    source="NEC 2023 chapter 9 table 8, worked example: 16 AWG, 100 ft, 4 A, 24 V",
    standing="published copy",
)
def test_16_awg_loses_a_sixth_of_24_v_over_100_ft():
    supply = make_supply(
        output_v=Fraction(24),
        output_a=Fraction(4),
        chair_cord_m=100 * FOOT_M,
        chair_cord_wire="16 AWG",
    )
    assert low_drop_percent(supply, NEC) == pytest.approx(16.7, abs=0.1)


@pytest.mark.published(
    source="29 V, 3 A, 10 ft of 18 AWG at 7.95 ohm per 1000 ft, out and back: 0.477 V, 1.645 %",
    standing="derived",
)
def test_18_awg_over_10_ft_loses_what_was_worked_by_hand():
    supply = make_supply(output_a=Fraction(3), chair_cord_m=10 * FOOT_M)
    assert low_drop_percent(supply, NEC) == pytest.approx(1.645, abs=5e-4)


@pytest.mark.published(source="2 A x 0.725 ohm = 1.45 V of 29 V: 5 %", standing="derived")
@pytest.mark.parametrize(("ohm", "outcome"), [(0.725, Outcome.MET), (0.73, Outcome.NOT_MET)])
def test_a_measured_resistance_goes_before_the_wire_and_equal_passes(ohm, outcome):
    supply = make_supply(chair_cord_ohm=ohm, chair_cord_wire=None)
    found = low_drop_finding(supply, "supply A1", NEC)
    assert found.value == pytest.approx(2 * ohm / 29 * 100)
    assert (found.rule, found.outcome, found.force) == (
        "low-voltage-drop", outcome, Force.ADVICE,
    )  # fmt: skip


def test_an_unknown_wire_is_not_checked_and_never_met():
    found = low_drop_finding(make_supply(chair_cord_wire=None), "supply A1", NEC)
    assert found.outcome is Outcome.NOT_CHECKED
    assert "wire size" in found.note
    assert chair_cord_findings(make_supply(chair_cord_wire=None), "cord", NEC) == ()


def test_the_limit_says_that_it_is_common_practice():
    number = NEC.numbers["low_voltage_drop_percent"]
    assert number.source.standing is Standing.COMMON_PRACTICE
    assert NEC.rules["low-voltage-drop"].source.standing is Standing.COMMON_PRACTICE


def test_a_chair_cord_carries_no_more_than_its_wire_may():
    supply = make_supply(output_a=Fraction(11))
    [found] = chair_cord_findings(supply, "cord supply A1-A1", NEC)
    assert (found.rule, found.outcome, found.limit) == ("cord-wire", Outcome.NOT_MET, 10.0)


@given(st.integers(1, 40), st.integers(1, 20))
def test_twice_the_cord_or_the_current_loses_twice_as_much(feet: int, tenths: int) -> None:
    supply = make_supply(chair_cord_m=feet * FOOT_M, output_a=Fraction(tenths, 10))
    once = low_drop_percent(supply, NEC)
    longer = low_drop_percent(replace(supply, chair_cord_m=2 * feet * FOOT_M), NEC)
    more = low_drop_percent(replace(supply, output_a=Fraction(tenths, 5)), NEC)
    assert once is not None
    assert longer == pytest.approx(2 * once)
    assert more == pytest.approx(2 * once)
