"""Voltage drop along a tree of wires and cords, single phase, out and back."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from powerplan.model.rules import Wire


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One piece of wire or cord; ``after`` is the piece nearer the panel, None for the home run.

    ``current_a`` is what is taken at its far end, not what it passes on. A length or wire of None
    is unknown; ``cord`` is True for a flexible cord. [m, A]
    """

    id: str
    after: str | None
    length_m: float | None
    wire: Wire | None
    current_a: float
    cord: bool = False


def voltage_drop_v(current_a: float, length_m: float, ohm_per_m: float) -> float:
    """Return the volts lost out and back along two equal wires.

    Parameters
    ----------
    current_a : float
        Steady current, not negative. [A]
    length_m : float
        One-way length as laid, not the straight line. [m]
    ohm_per_m : float
        Resistance of one wire. [ohm/m]

    Returns
    -------
    float
        Drop between both ends. [V]

    Raises
    ------
    ValueError
        If any argument is negative or not finite.

    Notes
    -----
    Resistive only: good for small wires at unity power factor.

    Source: Ohm's law, out and back (first principles).
    """
    for name, value in (("current", current_a), ("length", length_m), ("resistance", ohm_per_m)):
        if not math.isfinite(value) or value < 0:
            raise ValueError(f"{name} is {value}; a finite number of at least 0 is wanted")
    return 2.0 * current_a * length_m * ohm_per_m


def drops_v(pieces: Sequence[Piece]) -> dict[str, float | None]:
    """Return the volts lost from the panel to the far end of every piece.

    Parameters
    ----------
    pieces : sequence of Piece
        A tree, or several, in any order.

    Returns
    -------
    dict of str to float or None
        By piece, in the order given. None where a length or wire on the way is unknown. [V]

    Raises
    ------
    ValueError
        If two pieces share an id, one hangs on a piece that is not there, they form a loop, or a
        current or length is negative or not finite.

    Notes
    -----
    Each piece carries everything that is taken at its far end and beyond. Loads draw a constant
    current whatever their voltage.
    """
    by_id = {piece.id: piece for piece in pieces}
    if len(by_id) != len(pieces):
        raise ValueError("two pieces of wire have the same id")
    outward = _outward(pieces, by_id)
    carried = {piece.id: piece.current_a for piece in pieces}
    for piece in reversed(outward):
        if piece.after is not None:
            carried[piece.after] += carried[piece.id]
    lost: dict[str, float | None] = {}
    for piece in outward:
        before = 0.0 if piece.after is None else lost[piece.after]
        lost[piece.id] = _beyond(before, piece, carried[piece.id])
    return {piece.id: lost[piece.id] for piece in pieces}


def _beyond(before_v: float | None, piece: Piece, current_a: float) -> float | None:
    """The volts lost up to a piece's far end, from those lost up to its near end."""
    length_m = 0.0 if piece.length_m is None else piece.length_m
    ohm_per_m = 0.0
    if piece.wire is not None:
        ohm_per_m = piece.wire.cord_ohm_per_m if piece.cord else piece.wire.ohm_per_m
    own_v = voltage_drop_v(current_a, length_m, ohm_per_m)
    if before_v is None or piece.length_m is None or piece.wire is None:
        return None
    return before_v + own_v


def _outward(pieces: Sequence[Piece], by_id: dict[str, Piece]) -> list[Piece]:
    """Every piece after the one it hangs on; refuses loops, loose ends and currents below zero."""
    beyond: dict[str | None, list[Piece]] = {}
    for piece in pieces:
        if piece.after is not None and piece.after not in by_id:
            raise ValueError(f"{piece.id} hangs on {piece.after}, which is not there")
        if not math.isfinite(piece.current_a) or piece.current_a < 0:
            raise ValueError(f"{piece.id} takes {piece.current_a} A; at least 0 is wanted")
        beyond.setdefault(piece.after, []).append(piece)
    found = list(beyond.get(None, ()))
    for piece in found:
        found.extend(beyond.get(piece.id, ()))
    if len(found) != len(pieces):
        raise ValueError("the pieces of wire form a loop")
    return found
