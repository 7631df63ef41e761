"""The shape of a rule set: numbers, tables and rules, each with source and standing.

The rule sets themselves are data in ``powerplan/rulebook``; they arrive here as arguments. All are
named tuples, five times quicker to create than dataclasses: the phone question waits for them.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import NamedTuple

from powerplan.model.findings import Rule, Source


class Number(NamedTuple):
    """One number a rule set uses. ``value`` is exact, in ``unit`` (lengths in metres)."""

    name: str
    meaning: str
    value: Fraction
    unit: str
    source: Source


class Wire(NamedTuple):
    """One size of wire, copper. Currents in amperes; ``None`` where the rule set gives none.

    ``rank`` orders sizes from thin to thick. ``max_breaker_a`` is the largest breaker for the wire
    as a branch circuit; ``cord_a`` its ampacity as a flexible cord with two loaded wires;
    ``set_short_a`` and ``set_long_a`` the rating of an extension set of this size up to, and
    beyond, the set-length limit.
    """

    name: str
    rank: int
    ohm_per_m: float
    max_breaker_a: Fraction | None
    cord_a: Fraction | None
    set_short_a: Fraction | None
    set_long_a: Fraction | None
    source: Source


class SocketLimit(NamedTuple):
    """What one socket of ``socket_a`` may carry on a circuit of ``circuit_a``. [A]"""

    circuit_a: Fraction
    socket_a: Fraction
    limit_a: Fraction
    source: Source


class RuleSet(NamedTuple):
    """A country's or code's numbers and rules, as data.

    ``breakers_a`` are the ratings a circuit with several outlets comes in, rising; ``sold_m`` the
    cord lengths commonly sold, rising; ``resistance_basis`` says for print what the resistances
    are (metal, temperature, table).
    """

    id: str
    title: str
    edition: str
    numbers: Mapping[str, Number]
    rules: Mapping[str, Rule]
    wires: Mapping[str, Wire]
    sockets: tuple[SocketLimit, ...]
    breakers_a: tuple[Fraction, ...]
    sold_m: tuple[float, ...]
    resistance_basis: str

    def exact(self, name: str) -> Fraction:
        """Return a number exactly, in its own unit."""
        return self.numbers[name].value

    def length_m(self, name: str) -> float:
        """Return a number that is a length, as a float. [m]"""
        number = self.numbers[name]
        if number.unit != "m":
            raise ValueError(f"{name} is in {number.unit}, not in metres")
        return float(number.value)

    def socket_limit_a(self, circuit_a: Fraction, socket_a: Fraction) -> Fraction | None:
        """Return what one socket may carry, or None where that pairing is not allowed. [A]"""
        for row in self.sockets:
            if row.circuit_a == circuit_a and row.socket_a == socket_a:
                return row.limit_a
        return None
