"""What every part of the reader needs while a plan file becomes a spec."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from fractions import Fraction

from powerplan.inputs.faults import Faults, Path
from powerplan.inputs.frame import Frame
from powerplan.inputs.saying import found
from powerplan.model.lengths import length_text
from powerplan.model.rules import RuleSet
from powerplan.model.spec import Assumption

_FINEST = 10**6


@dataclass(slots=True, kw_only=True)
class Reading:
    """One reading of one file: its rule set, its faults, and what was filled in.

    ``width_m`` and ``depth_m`` are the room's to the face that the file measures to, and ``frame``
    leads from there to the finished walls; None where they could not be read. [m]
    """

    rules: RuleSet
    faults: Faults
    units: str
    width_m: Fraction | None = None
    depth_m: Fraction | None = None
    frame: Frame | None = None
    assumed: list[Assumption] = field(default_factory=list)

    def assume(self, subject: str, words: str) -> None:
        """Note a default that was filled in."""
        self.assumed.append(Assumption(subject=subject, words=words))

    def text(self, length_m: Fraction) -> str:
        """Return a length in the units of the plan file. [m]"""
        return length_text(float(length_m), self.units)

    def wire(self, path: Path, written: str | None) -> str | None:
        """Return the rule set's name of a size of wire; None where unknown or not a size."""
        if written is None:
            return None
        name = self.rules.wire_named(written)
        if name is None:
            self.faults.add(path, f"{found(written)} is not one of {', '.join(self.rules.wires)}")
        return name


def grid_m(length_m: Fraction) -> float:
    """Return a length on the grid of one micrometer. [m]"""
    return round(length_m * _FINEST) / _FINEST


def micro(length_m: Fraction) -> int:
    """Return a length in whole micrometers, in which lengths are compared. [um]"""
    return round(length_m * _FINEST)


def load_a(current_a: Fraction) -> Fraction:
    """Return a load whose denominator does not exceed a million, rounded up. [A]"""
    fine = current_a.denominator > _FINEST
    return Fraction(math.ceil(current_a * _FINEST), _FINEST) if fine else current_a


def limit_a(current_a: Fraction) -> Fraction:
    """Return a limit whose denominator does not exceed a million, rounded down. [A]"""
    fine = current_a.denominator > _FINEST
    return Fraction(math.floor(current_a * _FINEST), _FINEST) if fine else current_a


def limit_or_unknown_a(current_a: Fraction | None) -> Fraction | None:
    """Return the same of a limit that may be unknown. [A]"""
    return None if current_a is None else limit_a(current_a)


def grid_or_unknown_m(length_m: Fraction | None) -> float | None:
    """Return a length that may be unknown on the grid of one micrometer. [m]"""
    return None if length_m is None else grid_m(length_m)
