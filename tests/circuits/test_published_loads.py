"""Loads, breakers and sockets held against published examples and tables."""

import math
from fractions import Fraction

import pytest
from support import NEC, make_chair, make_circuit, make_outlet, make_spec

from powerplan.engineering.circuits.hazards import existing_findings
from powerplan.engineering.circuits.load import chair_demand_a, demand_a, more_chairs, usual_wire
from powerplan.engineering.circuits.plugs import run_findings
from powerplan.model.findings import Outcome, hold

COPY = "published copy"
LOAD = NEC.rules["circuit-load"]


def lasting(current: str | Fraction):
    return demand_a(Fraction(current), Fraction(0), NEC)


def next_breaker(ask: Fraction) -> int:
    sizes = (size for size in NEC.breakers_a if hold(LOAD, "", ask, size).outcome is Outcome.MET)
    return int(next(sizes))


def chair_of(current: str, continuous: str):
    return make_chair(input_a=Fraction(current), continuous_a=Fraction(continuous))


@pytest.mark.published(
    source="NEC 2023 210.20(A), worked example: 9 ballasts of 1.5 A, continuous", standing=COPY
)
def test_nine_continuous_ballasts_of_1_5_a_need_a_20_a_breaker():
    assert 9 * Fraction("1.5") == Fraction("13.5")
    assert lasting("13.5") == Fraction("16.875")
    assert next_breaker(lasting("13.5")) == 20


@pytest.mark.published(
    source="NEC 2023 210.20(A), worked example: 16 A continuous needs 20 A", standing=COPY
)
def test_16_a_continuous_fills_a_20_a_breaker_exactly():
    assert lasting("16") == 20
    assert next_breaker(lasting("16")) == 20


@pytest.mark.published(
    source="NEC 2023 422.13 and 210.19(A), worked example: 6 kW water heater on 240 V",
    standing=COPY,
)
def test_a_6_kw_continuous_heater_asks_31_25_a():
    assert lasting(Fraction(6000, 240)) == Fraction("31.25")


@pytest.mark.published(
    source="NEC 2017 220.12 and 210.20(A), worked example: 5000 sq ft office at 3.5 VA, continuous",
    standing=COPY,
)
def test_17500_va_of_continuous_lighting_take_ten_20_a_circuits():
    circuits = lasting(Fraction(17500, 120)) / 20
    assert round(float(circuits), 2) == 9.11
    assert math.ceil(circuits) == 10


@pytest.mark.published(
    source="NEC 2023 annex D, example D3: 8500 VA of continuous lighting", standing=COPY
)
@pytest.mark.parametrize(("volts", "amperes"), [(240, 44), (120, 88)])
def test_the_store_example_asks_44_a_on_three_wires_and_88_a_on_two(volts, amperes):
    asks_a = lasting(Fraction(8500, volts))
    assert asks_a * volts == 10625
    assert math.floor(asks_a) == amperes


@pytest.mark.published(
    source="NEC 2023 220.14(I), worked example: 180 VA a yoke, 120 V, not continuous", standing=COPY
)
@pytest.mark.parametrize(("breaker", "yokes"), [(15, 10), (20, 13)])
def test_a_circuit_carries_as_many_yokes_of_180_va_as_published(breaker, yokes):
    yoke = make_chair(input_a=Fraction(180, 120), continuous_a=Fraction(0))
    assert more_chairs(Fraction(breaker), yoke, NEC) == yokes


@pytest.mark.published(
    source="NEC 2023 210.20(A), inverse form: an all-continuous load within 80 %", standing=COPY
)
@pytest.mark.parametrize(("breaker", "most"), [(15, 12), (20, 16), (30, 24)])
def test_an_all_continuous_load_may_be_four_fifths_of_the_breaker(breaker, most):
    assert lasting(str(most)) == breaker
    over = lasting(Fraction(most) + Fraction(1, 10**6))
    assert hold(LOAD, "", over, Fraction(breaker)).outcome is Outcome.NOT_MET


@pytest.mark.published(
    source="NEC 2023 210.23(B)(1), worked example: 17 A cord-connected copier", standing=COPY
)
def test_a_17_a_plug_needs_a_30_a_circuit_and_not_25_a():
    copier = chair_of("17", "0")

    def share_met(circuit_a: Fraction) -> bool:
        share = run_findings(copier, 1, circuit_a, circuit_a, "copier", NEC)[0]
        assert share.rule == "plug-share"
        return share.outcome is Outcome.MET

    assert next(int(size) for size in NEC.breakers_a if share_met(size)) == 30
    assert Fraction(25) not in NEC.breakers_a


@pytest.mark.published(
    source="NEC 2023 210.23(B)(2), worked example: 8.5 A of fixed equipment on 20 A", standing=COPY
)
def test_8_5_a_fastened_on_20_a_is_within_half_and_leaves_11_5_a():
    half_a = NEC.exact("fastened_share") * 20
    fastened = Fraction("8.5")
    assert hold(NEC.rules["fastened-half"], "", fastened, half_a).outcome is Outcome.MET
    assert 20 - demand_a(Fraction(0), fastened, NEC) == Fraction("11.5")


@pytest.mark.published(source="NEC 2023 210.23(B)(2), half of the circuit", standing=COPY)
@pytest.mark.parametrize(("breaker", "half"), [(15, "7.5"), (20, "10")])
def test_half_a_circuit_is_7_5_and_10_a(breaker, half):
    assert NEC.exact("fastened_share") * breaker == Fraction(half)


@pytest.mark.published(source="NEC 2023 210.18 and table 210.24, circuit ratings", standing=COPY)
def test_circuits_with_several_outlets_come_in_five_sizes():
    assert [int(size) for size in NEC.breakers_a] == [15, 20, 30, 40, 50]


@pytest.mark.published(source="NEC 2023 table 210.21(B)(2)", standing=COPY)
@pytest.mark.parametrize(
    ("circuit", "socket", "most"), [(15, 15, 12), (20, 15, 12), (20, 20, 16), (30, 30, 24)]
)
def test_each_socket_may_carry_what_the_table_says(circuit, socket, most):
    assert NEC.socket_limit_a(Fraction(circuit), Fraction(socket)) == most
    found = run_findings(chair_of(str(most), "0"), 1, Fraction(circuit), Fraction(socket), "", NEC)
    limit = next(finding for finding in found if finding.rule == "socket-limit")
    assert (limit.outcome, limit.margin) == (Outcome.MET, 0.0)


@pytest.mark.published(source="NEC 2023 table 210.21(B)(3)", standing=COPY)
@pytest.mark.parametrize(
    ("circuit", "allowed"), [(15, {15}), (20, {15, 20}), (30, {30}), (40, {40, 50}), (50, {50})]
)
def test_an_outlet_on_a_circuit_may_have_the_ratings_of_the_table(circuit, allowed):
    def met(rating: int) -> bool:
        spec = make_spec(
            circuits=(make_circuit(breaker_a=Fraction(circuit), wire="6 AWG"),),
            outlets=(make_outlet(rating_a=Fraction(rating)),),
        )
        return existing_findings(spec, NEC)[-1].outcome is Outcome.MET

    assert {rating for rating in (15, 20, 30, 40, 50) if met(rating)} == allowed


@pytest.mark.published(source="NEC 2023 table 210.24, smallest copper wire", standing=COPY)
@pytest.mark.parametrize(
    ("breaker", "wire"),
    [(15, "14 AWG"), (20, "12 AWG"), (30, "10 AWG"), (40, "8 AWG"), (50, "6 AWG")],
)
def test_each_circuit_has_the_smallest_wire_of_the_table(breaker, wire):
    assert usual_wire(Fraction(breaker), NEC).name == wire


@pytest.mark.published(source="NEC 2023 240.4(D), small conductors, copper", standing=COPY)
@pytest.mark.parametrize(("wire", "most"), [("14 AWG", 15), ("12 AWG", 20), ("10 AWG", 30)])
def test_small_wire_is_held_to_its_largest_breaker(wire, most):
    def outcome(breaker: int) -> Outcome:
        circuit = make_circuit(breaker_a=Fraction(breaker), wire=wire)
        found = existing_findings(make_spec(circuits=(circuit,), outlets=()), NEC)
        return next(f.outcome for f in found if f.rule == "wire-matches-breaker")

    assert outcome(most) is Outcome.MET
    assert outcome(most + 5) is Outcome.NOT_MET


@pytest.mark.published(
    source="load checks worked from NEC 2023 210.20(A), factor 5/4", standing="derived"
)
@pytest.mark.parametrize(
    ("continuous", "other", "asks", "breaker", "outcome"),
    [
        ("6", "5", "12.5", 15, Outcome.MET),
        ("8", "6", "16", 15, Outcome.NOT_MET),
        ("8", "6", "16", 20, Outcome.MET),
        ("12", "0", "15", 15, Outcome.MET),
        ("12.1", "0", "15.125", 15, Outcome.NOT_MET),
        ("16", "0", "20", 20, Outcome.MET),
        ("16.01", "0", "20.0125", 20, Outcome.NOT_MET),
    ],
)
def test_load_checks_come_out_as_worked_by_hand(continuous, other, asks, breaker, outcome):
    asks_a = demand_a(Fraction(continuous), Fraction(other), NEC)
    assert asks_a == Fraction(asks)
    assert hold(LOAD, "", asks_a, Fraction(breaker)).outcome is outcome


@pytest.mark.published(source="common practice, no source", standing="common practice")
@pytest.mark.parametrize(("breaker", "chairs"), [(15, 6), (20, 8)])
def test_at_2_a_a_chair_15_a_carries_six_and_20_a_eight(breaker, chairs):
    kind = chair_of("2", "2")
    each_a = chair_demand_a(kind, NEC)
    assert more_chairs(Fraction(breaker), kind, NEC) == chairs
    assert hold(LOAD, "", chairs * each_a, Fraction(breaker)).outcome is Outcome.MET
    assert hold(LOAD, "", (chairs + 1) * each_a, Fraction(breaker)).outcome is Outcome.NOT_MET
