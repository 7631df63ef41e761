"""Parts of a current in print, so that they add up to the printed whole where digits allow."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

_DIGITS = (2, 3, 4)


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
