"""Demand, what is left, and how many more chairs: exact, and equal passes."""

from fractions import Fraction

import pytest
from support import NEC, make_chair, make_circuit, make_load

from powerplan.engineering.circuits.load import (
    breaker_or_least_a,
    chair_demand_a,
    demand_a,
    existing_load_a,
    more_chairs,
    unknown_limits_a,
    usual_wire,
    wires_for_breaker,
)
from powerplan.model.findings import Outcome, hold


def all_continuous(current: str):
    return make_chair(input_a=Fraction(current), continuous_a=Fraction(current))


def test_demand_is_a_fraction_without_rounding():
    assert demand_a(Fraction(1, 3), Fraction(1, 7), NEC) == Fraction(5, 12) + Fraction(1, 7)


def test_a_chair_weighs_only_its_lasting_part():
    assert chair_demand_a(make_chair(), NEC) == Fraction(15, 10) + Fraction(3, 10) * Fraction(5, 4)


@pytest.mark.parametrize(("lasting", "other"), [(-1, 0), (0, -1)])
def test_a_load_below_zero_is_refused(lasting, other):
    with pytest.raises(ValueError, match="cannot be negative"):
        demand_a(Fraction(lasting), Fraction(other), NEC)


def test_a_load_nobody_knows_is_none_and_not_zero():
    assert existing_load_a(make_circuit(already_on_it=None)) is None
    assert existing_load_a(make_circuit(already_on_it=())) == (0, 0)


def test_existing_loads_are_split_by_whether_they_last():
    loads = (make_load("rack", "2.5", True), make_load("lamp", "0.5", False))
    assert existing_load_a(make_circuit(already_on_it=loads)) == (Fraction(5, 2), Fraction(1, 2))


def test_an_unknown_breaker_counts_as_the_smallest():
    assert breaker_or_least_a(make_circuit(breaker_a=None), NEC) == 15
    assert breaker_or_least_a(make_circuit(breaker_a=Fraction(20)), NEC) == 20


def test_an_unmeasured_load_may_be_less_if_it_lasts():
    # 15 A less 7.5 A leaves 7.5 A; for hours only 7.5 / 1.25 = 6 A
    assert unknown_limits_a(Fraction(15, 2), NEC) == (6, Fraction(15, 2))


def test_unknown_limits_use_up_the_breaker_exactly():
    lasting, passing = unknown_limits_a(Fraction(7, 3), NEC)
    assert demand_a(lasting, Fraction(0), NEC) == Fraction(7, 3)
    assert demand_a(Fraction(0), passing, NEC) == Fraction(7, 3)


def test_eight_chairs_of_1_2_a_on_15_a_leave_room_for_two_more():
    kind = all_continuous("1.2")
    spare_a = 15 - 8 * chair_demand_a(kind, NEC)
    assert spare_a == 3
    assert more_chairs(spare_a, kind, NEC) == 2


def test_a_chair_that_fits_exactly_is_counted_and_one_hair_less_is_not():
    kind = all_continuous("1.2")
    assert more_chairs(Fraction(3, 2), kind, NEC) == 1
    assert more_chairs(Fraction(3, 2) - Fraction(1, 10**6), kind, NEC) == 0


def test_an_overloaded_circuit_has_room_for_none():
    assert more_chairs(Fraction(-1, 2), make_chair(), NEC) == 0


def test_a_chair_that_asks_for_nothing_has_no_last_one():
    with pytest.raises(ValueError, match="club asks for no current"):
        more_chairs(Fraction(1), all_continuous("0"), NEC)


def test_the_thinnest_wire_is_offered_first_and_cords_never():
    assert [wire.name for wire in wires_for_breaker(Fraction(15), NEC)] == [
        "14 AWG",
        "12 AWG",
        "10 AWG",
        "8 AWG",
        "6 AWG",
    ]
    assert usual_wire(Fraction(16), NEC).name == "12 AWG"


def test_a_breaker_larger_than_every_wire_is_refused_in_words():
    with pytest.raises(ValueError, match="no wire of us-nec-2023 may stand behind a 60 A breaker"):
        usual_wire(Fraction(60), NEC)


def test_five_bolted_chairs_of_1_8_a_break_the_half_rule_on_15_a_and_four_keep_it():
    half_a = NEC.exact("fastened_share") * 15
    rule = NEC.rules["fastened-half"]
    assert hold(rule, "circuit 7", 5 * Fraction("1.8"), half_a).outcome is Outcome.NOT_MET
    assert hold(rule, "circuit 7", 4 * Fraction("1.8"), half_a).outcome is Outcome.MET
