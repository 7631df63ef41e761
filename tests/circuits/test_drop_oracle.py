"""Voltages held against an independent power-flow program.

A single-phase circuit, out and back, is the balanced three-phase twin with the line voltage times
the square root of three, the same loop resistance in each phase, and three times the load.
"""

import math
import random
import warnings

import pytest
from support import NEC

from powerplan.engineering.circuits.drop import Piece, drops_v

VOLTS = 120.0


def twin_drops_v(pieces: list[Piece]) -> dict[str, float]:
    """The same tree solved by a Newton power flow with constant-current loads."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        import pandapower

        net = pandapower.create_empty_network(sn_mva=1e-2)
        line_kv = math.sqrt(3) * VOLTS / 1000
        buses = {None: pandapower.create_bus(net, vn_kv=line_kv)}
        pandapower.create_ext_grid(net, buses[None])
        for piece in pieces:  # each hangs on an earlier one
            buses[piece.id] = pandapower.create_bus(net, vn_kv=line_kv)
            pandapower.create_line_from_parameters(
                net,
                buses[piece.after],
                buses[piece.id],
                length_km=piece.length_m / 1000,
                r_ohm_per_km=2 * piece.wire.ohm_per_m * 1000,
                x_ohm_per_km=0.0,
                c_nf_per_km=0.0,
                max_i_ka=1.0,
            )
            pandapower.create_load(
                net,
                buses[piece.id],
                p_mw=3 * VOLTS * piece.current_a / 1e6,
                const_i_p_percent=100.0,
                const_i_q_percent=100.0,
            )
        pandapower.runpp(net, numba=False, init="flat", tolerance_mva=1e-10)
        return {
            piece.id: VOLTS * (1 - float(net.res_bus.vm_pu.at[buses[piece.id]])) for piece in pieces
        }


def random_tree(seed: int, size: int) -> list[Piece]:
    dice = random.Random(seed)
    wires = sorted(NEC.wires.values(), key=lambda wire: wire.rank)
    return [
        Piece(
            id=f"piece {number}",
            after=f"piece {dice.randrange(number)}" if number else None,
            length_m=dice.uniform(0.5, 6.0),
            wire=dice.choice(wires),
            current_a=dice.uniform(0.1, 1.5),
        )
        for number in range(size)
    ]


@pytest.mark.published(
    source="balanced three-phase power flow with constant-current loads, by an independent program",
    standing="derived",
)
def test_a_fork_of_three_pieces_agrees_with_a_power_flow():
    pieces = [
        Piece(id="run", after=None, length_m=15.0, wire=NEC.wires["14 AWG"], current_a=0.5),
        Piece(id="left", after="run", length_m=2.0, wire=NEC.wires["16 AWG"], current_a=2.0),
        Piece(id="right", after="run", length_m=4.0, wire=NEC.wires["18 AWG"], current_a=1.5),
    ]
    assert drops_v(pieces) == pytest.approx(twin_drops_v(pieces), rel=1e-6)


@pytest.mark.slow
@pytest.mark.published(
    source="balanced three-phase power flow with constant-current loads, by an independent program",
    standing="derived",
)
@pytest.mark.parametrize("seed", range(40))
def test_forty_random_trees_agree_with_a_power_flow(seed):
    pieces = random_tree(seed, size=3 + seed % 12)
    assert drops_v(pieces) == pytest.approx(twin_drops_v(pieces), rel=1e-6)
