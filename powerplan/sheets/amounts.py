"""What a chair asks, and parts of a current in print that add up to the printed whole where digits
allow."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from powerplan.model.plan import PlacedChair, Plan

_DIGITS = (2, 3, 4)
_FACTOR = "continuous_factor"


def factor_of(plan: Plan) -> float:
    """Return by how much what lasts counts; 1 where the rule set does not weigh it."""
    return next((number.value for number in plan.rules.numbers if number.name == _FACTOR), 1.0)


def asked_a(chair: PlacedChair, plan: Plan) -> float:
    """Return what a chair asks of its circuit: factor x what lasts + the rest. [A]"""
    return factor_of(plan) * chair.continuous_a + (chair.input_a - chair.continuous_a)


def amps_parts(parts_a: Sequence[float], whole_a: float) -> tuple[str, ...]:
    """Return parts of a whole as people read them.

    With as few digits as let the parts add up to the whole, which is printed to two decimals and
    rounded up. Where none do, each to two decimals and rounded up too. Equal parts read the same.

    Parameters
    ----------
    parts_a : sequence of float
        The parts. [A]
    whole_a : float
        Their sum. [A]
    """
    exact = [Fraction(part).limit_denominator(10**9) for part in parts_a]
    whole = -(-Fraction(whole_a).limit_denominator(10**9) * 100 // 1)
    for digits in _DIGITS:
        scale = 10**digits
        rounded = [round(part * scale) for part in exact]
        if sum(rounded) * 100 == whole * scale:
            return tuple(_text(part, scale) for part in rounded)
    return tuple(_text(-int(-part * 100 // 1), 100) for part in exact)


def _text(part: int, scale: int) -> str:
    digits = len(str(scale)) - 1
    return f"{part / scale:.{digits}f}".rstrip("0").rstrip(".") + " A"
