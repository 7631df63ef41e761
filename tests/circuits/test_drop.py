"""Voltage drop: Ohm's law out and back, added up along a tree."""

import math

import pytest
from support import NEC

from powerplan.engineering.circuits.drop import Piece, drops_v, voltage_drop_v

WIRE = NEC.wires["14 AWG"]


def piece(name, after=None, length=1.0, wire=WIRE, current=0.0):
    return Piece(id=name, after=after, length_m=length, wire=wire, current_a=current)


@pytest.mark.published(
    source="Ohm's law: 10 A x 30 m x 0.01 ohm/m, out and back, is 6 V", standing="derived"
)
def test_drop_counts_both_ways():
    assert voltage_drop_v(10.0, 30.0, 0.01) == pytest.approx(6.0, rel=1e-12)


@pytest.mark.parametrize("bad", [-1.0, math.nan, math.inf])
@pytest.mark.parametrize("at", [0, 1, 2])
def test_a_negative_or_endless_number_is_refused(bad, at):
    numbers = [1.0, 1.0, 1.0]
    numbers[at] = bad
    with pytest.raises(ValueError, match="finite number of at least 0"):
        voltage_drop_v(*numbers)


def test_a_piece_carries_what_is_taken_beyond_it_and_no_more():
    ohm = WIRE.ohm_per_m
    lost = drops_v(
        (
            piece("left", "run", 2.0, current=1.0),
            piece("run", None, 10.0, current=0.5),
            piece("right", "run", 3.0, current=2.0),
        )
    )
    run_v = 2 * 3.5 * 10.0 * ohm
    assert lost["run"] == pytest.approx(run_v)
    assert lost["left"] == pytest.approx(run_v + 2 * 1.0 * 2.0 * ohm)
    assert lost["right"] == pytest.approx(run_v + 2 * 2.0 * 3.0 * ohm)
    assert list(lost) == ["left", "run", "right"]


@pytest.mark.parametrize("gap", [{"length": None}, {"wire": None}])
def test_nothing_is_known_beyond_an_unknown_piece_but_all_before_and_beside_it(gap):
    lost = drops_v(
        (
            piece("run", current=1.0),
            piece("gap", "run", current=1.0, **gap),
            piece("beyond", "gap", current=1.0),
            piece("beside", "run", current=1.0),
        )
    )
    assert lost["gap"] is None
    assert lost["beyond"] is None
    assert lost["run"] == pytest.approx(2 * 4.0 * WIRE.ohm_per_m)
    assert lost["beside"] == pytest.approx(2 * 5.0 * WIRE.ohm_per_m)


@pytest.mark.published(
    source="Ohm's law: n equal loads of I on equal pieces of loop R lose R I n (n + 1) / 2",
    standing="derived",
)
@pytest.mark.parametrize("count", [1, 2, 7, 2000])
def test_a_chain_of_equal_loads_follows_the_closed_form(count):
    chain = [piece(str(n), str(n - 1) if n else None, 1.5, current=0.75) for n in range(count)]
    loop_ohm = 2 * 1.5 * WIRE.ohm_per_m
    expected = loop_ohm * 0.75 * count * (count + 1) / 2
    assert drops_v(chain)[str(count - 1)] == pytest.approx(expected, rel=1e-9)


def test_no_pieces_lose_nothing():
    assert drops_v(()) == {}


@pytest.mark.parametrize(
    ("pieces", "words"),
    [
        ((piece("a"), piece("a")), "same id"),
        ((piece("a", "z"),), "a hangs on z, which is not there"),
        ((piece("a", "b"), piece("b", "a")), "form a loop"),
        ((piece("a", "a"),), "form a loop"),
        ((piece("a", current=-1.0),), "a takes -1.0 A"),
        ((piece("a", current=math.nan),), "a takes nan A"),
        ((piece("a", length=-1.0),), "length is -1.0"),
        ((piece("a", length=math.nan, wire=None),), "length is nan"),
    ],
)
def test_what_is_no_tree_is_refused_in_words(pieces, words):
    with pytest.raises(ValueError, match=words):
        drops_v(pieces)
