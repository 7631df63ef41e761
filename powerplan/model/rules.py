"""The shape of a rule set: numbers, tables and rules, each with source and standing.

The rule sets themselves are data in ``powerplan/rulebook``; they arrive here as arguments. All are
named tuples, five times quicker to create than dataclasses: the phone question waits for them.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from types import MappingProxyType
from typing import NamedTuple

from powerplan.model.findings import Rule, Source

_GAUGE = r"(?:# ?([0-9]{1,2})(?: ?awg)?|([0-9]{1,2}) ?(?:awg|ga|gauge))\.?"
_AREA = r"([0-9]{1,3}(?:[.,][0-9]{1,2})?) ?(?:sq\.? ?mm|mm(?:2|\^2|\u00b2))"


class Number(NamedTuple):
    """One number a rule set uses. ``value`` is exact, in ``unit`` (lengths in meters)."""

    name: str
    meaning: str
    value: Fraction
    unit: str
    source: Source


class Wire(NamedTuple):
    """One size of wire. Currents in amperes; ``None`` where the rule set gives none.

    ``rank`` orders sizes from thin to thick. ``max_breaker_a`` is the largest breaker for the wire
    as a branch circuit, however it is laid; ``best_breaker_a`` the largest where it is laid as well
    as can be: between the two an electrician has to look. ``cord_a`` is its ampacity as a flexible
    cord with two loaded wires, ``cord_ohm_per_m`` its resistance as one; ``set_short_a`` and
    ``set_long_a`` the rating of an extension set of this size up to, and beyond, the set-length
    limit.
    """

    name: str
    rank: int
    ohm_per_m: float
    cord_ohm_per_m: float
    max_breaker_a: Fraction | None
    best_breaker_a: Fraction | None
    cord_a: Fraction | None
    set_short_a: Fraction | None
    set_long_a: Fraction | None
    source: Source

    def hangs_on_laying(self, breaker_a: Fraction) -> bool:
        """True where the wire may stand behind that breaker only if it is laid well. [A]"""
        least, best = self.max_breaker_a, self.best_breaker_a
        return least is not None and best is not None and least < breaker_a <= best


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
    are (metal, temperature, table), ``wiring_method`` how wire was taken to be laid, where the set
    says so, ``units`` how its country's tapes read (ft-in or mm). ``aluminum`` holds aluminum wire
    by the name of its size. A set has no rule, and no number, that its country does not have.
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
    wiring_method: str = ""
    units: str = "ft-in"
    aluminum: Mapping[str, Wire] = MappingProxyType({})

    @property
    def continuous_factor(self) -> Fraction:
        """How many times a load that lasts counts; 1 where the country has no such rule."""
        known = self.numbers.get("continuous_factor")
        return Fraction(1) if known is None else known.value

    @property
    def weighs_lasting(self) -> bool:
        """True where it matters how long a load lasts."""
        return self.continuous_factor != 1

    def has(self, rule: str) -> bool:
        """True where the country has this rule; one that it has not is never held."""
        return rule in self.rules

    def wire_named(self, text: str) -> str | None:
        """Return the size of wire that a text means, None where it is none of the set's.

        ``14 AWG``, ``#14``, ``14 ga``, ``2.5 mm2``, ``2,5mm\u00b2`` and ``1.0 mm2`` all read.
        """
        plain = " ".join(text.lower().split())
        gauge, area = re.fullmatch(_GAUGE, plain), re.fullmatch(_AREA, plain)
        if gauge is not None:
            plain = f"{int(gauge[1] or gauge[2])} awg"
        elif area is not None:
            plain = f"{float(area[1].replace(',', '.')):g} mm2"
        return {known.lower(): known for known in self.wires}.get(plain)

    def exact(self, name: str) -> Fraction:
        """Return a number exactly, in its own unit."""
        return self.numbers[name].value

    def length_m(self, name: str) -> float:
        """Return a number that is a length, as a float. [m]"""
        number = self.numbers[name]
        if number.unit != "m":
            raise ValueError(f"{name} is in {number.unit}, not in meters")
        return float(number.value)

    def socket_limit_a(self, circuit_a: Fraction, socket_a: Fraction) -> Fraction | None:
        """Return what one socket may carry, or None where that pairing is not allowed. [A]"""
        for row in self.sockets:
            if row.circuit_a == circuit_a and row.socket_a == socket_a:
                return row.limit_a
        return None
