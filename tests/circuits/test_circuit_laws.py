"""Laws that hold for every load, chain and tree."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support import NEC, make_chain, make_chair

from powerplan.engineering.circuits.drop import Piece, drops_v, voltage_drop_v
from powerplan.engineering.circuits.load import chair_demand_a, demand_a, more_chairs
from powerplan.engineering.circuits.plugs import extension_findings, run_findings
from powerplan.model.findings import Outcome, hold

amperes = st.fractions(min_value=0, max_value=40, max_denominator=1000)
some_amperes = st.fractions(min_value=Fraction(1, 100), max_value=20, max_denominator=100)
meters = st.floats(min_value=0.0, max_value=200.0)
breakers = st.sampled_from(NEC.breakers_a)
gauges = st.sampled_from(tuple(NEC.wires.values()))
LOAD = NEC.rules["circuit-load"]


@st.composite
def trees(draw):
    count = draw(st.integers(min_value=1, max_value=8))
    return tuple(
        Piece(
            id=str(number),
            after=str(draw(st.integers(min_value=0, max_value=number - 1))) if number else None,
            length_m=draw(meters),
            wire=draw(gauges),
            current_a=draw(st.floats(min_value=0.0, max_value=20.0)),
        )
        for number in range(count)
    )


@given(current=st.floats(0.0, 50.0), length=meters, wire=gauges)
def test_doubling_the_length_doubles_the_drop(current, length, wire):
    once = voltage_drop_v(current, length, wire.ohm_per_m)
    assert voltage_drop_v(current, 2 * length, wire.ohm_per_m) == pytest.approx(2 * once)


@given(tree=trees())
def test_doubling_all_lengths_doubles_all_drops(tree):
    longer = [replace(piece, length_m=2 * piece.length_m) for piece in tree]
    once = drops_v(tree)
    assert drops_v(longer) == pytest.approx({name: 2 * lost for name, lost in once.items()})


@given(tree=trees(), seed=st.randoms(use_true_random=False))
def test_the_order_of_pieces_changes_no_drop(tree, seed):
    mixed = list(tree)
    seed.shuffle(mixed)
    assert drops_v(mixed) == pytest.approx(drops_v(tree))


@given(tree=trees(), more=st.floats(0.0, 20.0), at=st.integers(0, 7))
def test_more_load_anywhere_raises_no_voltage(tree, more, at):
    at %= len(tree)
    heavier = [
        replace(piece, current_a=piece.current_a + more) if number == at else piece
        for number, piece in enumerate(tree)
    ]
    before, after = drops_v(tree), drops_v(heavier)
    assert all(after[name] >= lost * (1 - 1e-9) for name, lost in before.items())


@given(tree=trees())
def test_the_drop_never_shrinks_away_from_the_panel(tree):
    lost = drops_v(tree)
    assert all(lost[piece.id] >= lost[piece.after] for piece in tree if piece.after)


@given(tree=trees())
def test_the_power_lost_in_the_wire_is_the_drop_times_each_load(tree):
    lost = drops_v(tree)
    by_loads = sum(lost[piece.id] * piece.current_a for piece in tree)
    carried = {piece.id: piece.current_a for piece in tree}
    for piece in reversed(tree):  # a piece always hangs on an earlier one
        if piece.after:
            carried[piece.after] += carried[piece.id]
    by_heat = sum(2 * p.length_m * p.wire.ohm_per_m * carried[p.id] ** 2 for p in tree)
    assert by_loads == pytest.approx(by_heat, abs=1e-9)


@given(continuous=amperes, other=amperes, more=amperes)
def test_demand_never_falls_when_a_load_grows_or_lasts_longer(continuous, other, more):
    now = demand_a(continuous, other, NEC)
    assert demand_a(continuous + more, other, NEC) >= now
    assert demand_a(continuous, other + more, NEC) >= now
    lasting = demand_a(continuous + other, Fraction(0), NEC)
    assert lasting >= now


@given(spare=amperes, current=some_amperes)
def test_as_many_more_chairs_fit_as_told_and_not_one_more(spare, current):
    kind = make_chair(input_a=current, continuous_a=current)
    count, each_a = more_chairs(spare, kind, NEC), chair_demand_a(kind, NEC)
    assert count * each_a <= spare < (count + 1) * each_a


@given(
    ask=amperes,
    limit=amperes,
    scale=st.fractions(min_value=Fraction(1, 50), max_value=50, max_denominator=50),
)
def test_scaling_load_and_limit_together_keeps_the_outcome(ask, limit, scale):
    assert hold(LOAD, "", ask, limit).outcome is hold(LOAD, "", ask * scale, limit * scale).outcome


@given(limit=amperes)
def test_a_load_equal_to_its_limit_passes_and_any_more_does_not(limit):
    assert hold(LOAD, "", limit, limit).outcome is Outcome.MET
    over = limit + Fraction(1, 10**12)
    assert hold(LOAD, "", over, limit).outcome is Outcome.NOT_MET


@given(current=some_amperes, chairs=st.integers(1, 8), circuit=st.sampled_from([15, 20, 30]))
def test_one_more_chair_on_a_plug_never_mends_a_broken_rule(current, chairs, circuit):
    kind = make_chair(
        input_a=current, continuous_a=current, chain=make_chain(current_a=Fraction(12), chairs=5)
    )

    def broken(count: int) -> set[tuple[str, str]]:
        found = run_findings(kind, count, Fraction(circuit), Fraction(15), "plug", NEC)
        return {(f.rule, f.subject) for f in found if f.outcome is not Outcome.MET}

    assert broken(chairs) <= broken(chairs + 1)


@given(current=some_amperes, length=meters, longer=meters, wire=gauges)
def test_a_longer_extension_is_never_rated_higher(current, length, longer, wire):
    def limit(meters_long: float) -> float:
        found = extension_findings(current, meters_long, wire.name, "home", "", NEC)[0].limit
        assert found is not None
        return found

    assert limit(length + longer) <= limit(length)
