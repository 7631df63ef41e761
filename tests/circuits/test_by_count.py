"""Leakage and switch-on by count: notes; equal passes a breaker, but may trip a ground fault."""

from fractions import Fraction

import pytest
from support import NEC

from powerplan.engineering.circuits.by_count import leakage_finding, switch_on_finding
from powerplan.model.findings import Force, Outcome


@pytest.mark.published(
    source="UL 943 class A: may trip from 4 mA on; UL 101: 0.5 mA each, so 8 supplies are 4 mA",
    standing="from memory",
)
@pytest.mark.parametrize(("supplies", "outcome"), [(7, Outcome.MET), (8, Outcome.NOT_MET)])
def test_seven_supplies_pass_behind_one_device_and_eight_may_trip_it(supplies, outcome):
    held = leakage_finding("circuit 7", supplies, NEC)
    assert (held.force, held.outcome) == (Force.NOTE, outcome)
    assert held.value == supplies / 2
    assert ("no more than 7 chairs" in held.note) == (outcome is Outcome.NOT_MET)


@pytest.mark.published(
    source="common practice, no source: 10 x 15 A = 150 A = 10 supplies of 15 A",
    standing="common practice",
)
@pytest.mark.parametrize(("supplies", "outcome"), [(10, Outcome.MET), (11, Outcome.NOT_MET)])
def test_ten_supplies_just_come_on_together_on_15_a(supplies, outcome):
    held = switch_on_finding("circuit 7", supplies, Fraction(15), NEC)
    assert (held.force, held.outcome) == (Force.NOTE, outcome)
    over = outcome is Outcome.NOT_MET
    assert ("nobody reaches under a chair" in held.note) == over
    assert ("The electrician chooses" in held.note) == over
    assert "plug" not in held.note.replace("to a plug", "")
