"""Holding a rule against one thing: unknown is not checked, NaN is never met, equal passes."""

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from powerplan.model.findings import Bound, Force, Outcome, Rule, Source, Standing, hold

SOURCE = Source(cite="the plan itself", standing=Standing.DERIVED)
AT_MOST = Rule(
    id="some-rule",
    requirement="no more than this",
    bound=Bound.AT_MOST,
    unit="A",
    force=Force.MUST,
    source=SOURCE,
)
AT_LEAST = AT_MOST._replace(bound=Bound.AT_LEAST)
METERS = AT_MOST._replace(unit="m")
EXACT = st.fractions(min_value=-1000, max_value=1000, max_denominator=10**6)


def outcome(rule, value, limit):
    return hold(rule, "thing", value, limit).outcome


@pytest.mark.parametrize("rule", [AT_MOST, AT_LEAST, METERS])
@pytest.mark.parametrize(
    ("value", "limit"), [(math.nan, 1.0), (1.0, math.nan), (math.nan, math.nan)]
)
def test_nan_is_never_met(rule, value, limit):
    finding = hold(rule, "thing", value, limit)
    assert finding.outcome is Outcome.NOT_MET
    assert finding.margin is None
    assert finding.stops


@pytest.mark.parametrize("rule", [AT_MOST, AT_LEAST, METERS])
@pytest.mark.parametrize(("value", "limit"), [(None, 1.0), (1.0, None), (None, None)])
def test_none_is_not_checked(rule, value, limit):
    finding = hold(rule, "thing", value, limit)
    assert finding.outcome is Outcome.NOT_CHECKED
    assert finding.hangs
    assert not finding.stops


def test_unknown_goes_before_nan():
    assert outcome(AT_MOST, None, math.nan) is Outcome.NOT_CHECKED


@given(value=EXACT)
def test_equal_passes_on_either_side(value):
    assert outcome(AT_MOST, value, value) is Outcome.MET
    assert outcome(AT_LEAST, value, value) is Outcome.MET


@given(value=EXACT, limit=EXACT)
def test_fractions_are_compared_exactly(value, limit):
    assert (outcome(AT_MOST, value, limit) is Outcome.MET) == (value <= limit)
    assert (outcome(AT_LEAST, value, limit) is Outcome.MET) == (value >= limit)


def test_a_fraction_too_fine_for_a_float_still_decides():
    hair = Fraction(1, 10**30)
    assert outcome(AT_MOST, Fraction(15) + hair, Fraction(15)) is Outcome.NOT_MET
    assert outcome(AT_LEAST, Fraction(15) - hair, Fraction(15)) is Outcome.NOT_MET


def test_three_tenths_added_up_in_fractions_are_three_tenths():
    total = Fraction(1, 10) + Fraction(2, 10)
    assert outcome(AT_MOST, total, Fraction(3, 10)) is Outcome.MET
    assert outcome(AT_MOST, 0.1 + 0.2, 0.3) is Outcome.NOT_MET


def test_meters_are_compared_as_whole_micrometers():
    assert outcome(METERS, 1.0000004, 1.0) is Outcome.MET
    assert outcome(METERS, 1.000001, 1.0) is Outcome.NOT_MET
    assert outcome(METERS._replace(bound=Bound.AT_LEAST), 0.1 + 0.2 - 0.3, 0.0) is Outcome.MET


def test_amperes_get_no_such_tolerance():
    assert outcome(AT_MOST, 1.0000004, 1.0) is Outcome.NOT_MET


@pytest.mark.parametrize(
    ("rule", "margin"), [(AT_MOST, 2.0), (AT_LEAST, -2.0)], ids=["at most", "at least"]
)
def test_margin_is_the_room_left(rule, margin):
    assert hold(rule, "thing", Fraction(10), Fraction(12)).margin == margin


def test_an_endless_limit_is_written_as_none_and_still_decides():
    finding = hold(AT_LEAST, "thing", Fraction(20), math.inf)
    assert (finding.limit, finding.margin) == (None, None)
    assert finding.outcome is Outcome.NOT_MET
    assert outcome(METERS, 1.0, math.inf) is Outcome.MET


def test_numbers_are_written_with_six_decimals_and_no_negative_zero():
    finding = hold(AT_MOST, "thing", Fraction(1, 3), Fraction(1, 3))
    assert finding.value == 0.333333
    assert math.copysign(1.0, hold(AT_MOST, "thing", -0.0, 0.0).value) == 1.0


def test_a_value_known_in_part_is_not_checked_but_shows_its_numbers():
    finding = hold(AT_MOST, "thing", Fraction(1), Fraction(2), checked=False)
    assert finding.outcome is Outcome.NOT_CHECKED
    assert (finding.value, finding.limit, finding.margin) == (1.0, 2.0, 1.0)


def test_force_and_source_may_be_those_of_the_case():
    maker = Source(cite="the chair maker", standing=Standing.MAKERS_DATA)
    finding = hold(AT_MOST, "thing", 3.0, 2.0, force=Force.ADVICE, source=maker, note="So it is.")
    assert finding.force is Force.ADVICE
    assert (finding.source, finding.standing) == ("the chair maker", Standing.MAKERS_DATA)
    assert finding.note == "So it is."
    assert not finding.stops


def test_a_finding_carries_its_rule_in_words():
    finding = hold(AT_MOST, "circuit 7", 1.0, 2.0)
    assert (finding.rule, finding.subject) == ("some-rule", "circuit 7")
    assert (finding.requirement, finding.unit) == ("no more than this", "A")
    assert (finding.source, finding.standing) == ("the plan itself", Standing.DERIVED)


@pytest.mark.parametrize("force", [Force.ADVICE, Force.NOTE])
def test_advice_and_notes_neither_stop_nor_hang(force):
    assert not hold(AT_MOST, "thing", 3.0, 2.0, force=force).stops
    assert not hold(AT_MOST, "thing", None, 2.0, force=force).hangs
