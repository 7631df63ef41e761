"""Wires and cords held against published tables and against copper itself."""

import math
from fractions import Fraction

import pytest
from support import NEC, make_chair

from powerplan.engineering.circuits.plugs import extension_findings, run_findings
from powerplan.model.findings import Outcome

COPY = "published copy"
FOOT_M = 0.3048
KFT_M = 304.8

COPPER_20_C = 1 / 58  # ohm mm2/m
WARMER_75_C = 1 + 0.00393 * 55
TABLE_8_SOLID = {18: 7.77, 16: 4.89, 14: 3.07, 12: 1.93, 10: 1.21, 8: 0.764}
TABLE_8_CMIL = {18: 1620, 16: 2580, 14: 4110, 12: 6530, 10: 10380, 8: 16510, 6: 26240}


def area_mm2(gauge: int) -> float:
    """ASTM B258: each gauge is 92^(1/39) thinner, 36 AWG is 0.005 in."""
    diameter_mm = 0.005 * 25.4 * 92 ** ((36 - gauge) / 39)
    return math.pi / 4 * diameter_mm**2


def solid_75_c(gauge: int) -> float:
    """Ohm per 1000 ft of solid copper at 75 C, from physics alone."""
    return COPPER_20_C / area_mm2(gauge) * KFT_M * WARMER_75_C


def ours(gauge: int) -> float:
    """Ohm per 1000 ft in the rule set."""
    return NEC.wires[f"{gauge} AWG"].ohm_per_m * KFT_M


def set_limit(wire: str, feet: float) -> float | None:
    return extension_findings(Fraction(1), feet * FOOT_M, wire, "home", "", NEC)[0].limit


def cord_outcome(wire: str, current: str) -> Outcome:
    kind = make_chair(input_a=Fraction(current), continuous_a=Fraction(0), lead_wire=wire)
    found = run_findings(kind, 1, Fraction(50), Fraction(50), "", NEC)
    return next(finding.outcome for finding in found if finding.rule == "cord-wire")


@pytest.mark.published(source="NEC 2023 chapter 9 table 8, uncoated, stranded, 75 C", standing=COPY)
@pytest.mark.parametrize(("gauge", "ohm"), [(18, 7.95), (16, 4.99), (14, 3.14), (12, 1.98)])
def test_resistances_are_those_of_the_table(gauge, ohm):
    assert ours(gauge) == pytest.approx(ohm, rel=1e-9)


@pytest.mark.published(
    source="NEC 2023 chapter 9 table 8, uncoated, stranded, 75 C", standing="from memory"
)
@pytest.mark.parametrize(("gauge", "ohm"), [(10, 1.24), (8, 0.778), (6, 0.491)])
def test_resistances_of_thick_wire_are_those_remembered(gauge, ohm):
    assert ours(gauge) == pytest.approx(ohm, rel=1e-9)


@pytest.mark.published(
    source="NEC 2023 chapter 9 table 8, uncoated, ohm/km: 18 26.1, 16 16.4, 14 10.3, 12 6.50",
    standing=COPY,
)
@pytest.mark.parametrize(("gauge", "ohm_per_km"), [(18, 26.1), (16, 16.4), (14, 10.3), (12, 6.50)])
def test_resistances_agree_with_the_metric_column(gauge, ohm_per_km):
    assert NEC.wires[f"{gauge} AWG"].ohm_per_m * 1000 == pytest.approx(ohm_per_km, rel=5e-3)


@pytest.mark.published(
    source="IEC 60028 (1/58 ohm mm2/m at 20 C, 0.00393 a kelvin) and ASTM B258, against "
    "NEC 2023 chapter 9 table 8, solid",
    standing="derived",
)
@pytest.mark.parametrize("gauge", [18, 16, 14, 12, 10, 8])
def test_copper_physics_reproduces_the_solid_column(gauge):
    assert solid_75_c(gauge) == pytest.approx(TABLE_8_SOLID[gauge], rel=5e-3)


@pytest.mark.published(
    source="IEC 60028 and ASTM B258, against the rule set: the lay of seven strands adds about 2 %",
    standing="derived",
)
@pytest.mark.parametrize("gauge", [18, 16, 14, 12, 10, 8, 6])
def test_every_wire_is_a_little_more_than_solid_copper(gauge):
    assert 1.015 < ours(gauge) / solid_75_c(gauge) < 1.03


@pytest.mark.published(
    source="NEC 2023 chapter 9 table 8: resistance times circular mils is 12.9 for stranded copper",
    standing="derived",
)
@pytest.mark.parametrize("gauge", sorted(TABLE_8_CMIL))
def test_resistance_times_area_is_the_constant_of_the_formula(gauge):
    assert ours(gauge) * TABLE_8_CMIL[gauge] / 1000 == pytest.approx(12.9, rel=6e-3)


@pytest.mark.published(
    source="IEC 60028, 0.00393 a kelvin at 20 C: stranded copper at 20 C and at 75 C",
    standing="derived",
)
@pytest.mark.parametrize(
    ("gauge", "at_20_c"), [(18, 6.538), (16, 4.104), (14, 2.582), (12, 1.628), (10, 1.020)]
)
def test_the_rule_set_is_at_75_c_and_says_so(gauge, at_20_c):
    assert ours(gauge) == pytest.approx(at_20_c * WARMER_75_C, rel=6e-4)
    assert "75 C" in NEC.resistance_basis


@pytest.mark.published(
    source="NEC 2023 table 400.5(A)(1), column B (two loaded wires)", standing=COPY
)
@pytest.mark.parametrize(
    ("wire", "amperes"),
    [("18", 10), ("16", 13), ("14", 18), ("12", 25), ("10", 30), ("8", 40), ("6", 55)],
)
def test_a_cord_carries_what_column_b_says_and_no_more(wire, amperes):
    assert cord_outcome(f"{wire} AWG", str(amperes)) is Outcome.MET
    assert cord_outcome(f"{wire} AWG", f"{amperes}.000001") is Outcome.NOT_MET


@pytest.mark.published(
    source="NEC 2023 table 400.5(A)(1), worked example: 12 AWG, hot, neutral and ground",
    standing=COPY,
)
def test_a_12_awg_cord_of_a_chair_carries_25_a_and_not_the_20_a_of_column_a():
    assert NEC.wires["12 AWG"].cord_a == 25


@pytest.mark.published(source="UL 817, cord set ratings: 16 AWG", standing=COPY)
@pytest.mark.parametrize(("feet", "most"), [(6, 13), (50, 13), (50.01, 10), (100, 10)])
def test_a_16_awg_set_carries_13_a_to_50_ft_and_10_a_beyond(feet, most):
    assert set_limit("16 AWG", feet) == most


@pytest.mark.published(
    source="CPSC guidance on extension cords: 13 A is 1560 W at 120 V", standing=COPY
)
def test_a_16_awg_set_carries_1560_w():
    short_a = NEC.wires["16 AWG"].set_short_a
    assert short_a is not None
    assert short_a * NEC.exact("nominal_voltage") == 1560


@pytest.mark.published(source="UL 817, cord set ratings: a 15 A set", standing=COPY)
@pytest.mark.parametrize(("feet", "wire"), [(25, "14 AWG"), (50, "14 AWG"), (51, "12 AWG")])
def test_a_15_a_set_is_14_awg_to_50_ft_and_12_awg_beyond(feet, wire):
    able = [
        name
        for name in sorted(NEC.wires, key=lambda name: NEC.wires[name].rank)
        if (set_limit(name, feet) or 0) >= 15
    ]
    assert able[0] == wire


@pytest.mark.published(source="NEMA WD 6, 5-15: 15 A, 125 V", standing=COPY)
def test_the_usual_socket_is_the_15_a_one():
    assert NEC.exact("usual_socket") == 15
