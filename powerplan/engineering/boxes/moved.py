"""Why a mark is not at the middle of the clear zone, in plain words."""

from __future__ import annotations

from fractions import Fraction

from powerplan.engineering.boxes.constraints import Constraint, region_of
from powerplan.engineering.boxes.region import Cell, Spot, meters, nearest, pieces, squared
from powerplan.model.lengths import INCH_M, MICROMETER_M, joined, length_text

_TICKS_PER_M = 2_000_000
_EIGHTH = int(INCH_M / 8 * _TICKS_PER_M)
_FIVE_MM = int(Fraction(5, 1000) * _TICKS_PER_M)
_SIXTEENTH, _MILLIMETER = _EIGHTH // 2, _FIVE_MM // 5
# Fine enough to tell what rounding to eighths of an inch moves.
_FINE = 32


def tape_step(units: str) -> int:
    """Return the step of the tape that people mark with: 1/8 in, or 5 mm.

    Parameters
    ----------
    units : str
        How lengths print: ft-in, in, mm or m.

    Returns
    -------
    int
        The step. [half micrometer]
    """
    return _FIVE_MM if units in ("mm", "m") else _EIGHTH


def fine_step(units: str) -> int:
    """Return the finest step a tape shows, for a place too narrow for the usual one.

    Parameters
    ----------
    units : str
        How lengths print: ft-in, in, mm or m.

    Returns
    -------
    int
        1/16 in, or 1 mm. [half micrometer]
    """
    return _MILLIMETER if units in ("mm", "m") else _SIXTEENTH


def moved_because(
    mark: Spot,
    ideal: Spot,
    clip: Cell,
    constraints: tuple[Constraint, ...],
    two: bool,
    units: str,
) -> str:
    """Return by how much a mark is off the ideal and what moved it; "" where it is at the ideal.

    Parameters
    ----------
    mark, ideal : tuple of int
        Where the box goes, and where it would go best. [half micrometer]
    clip : Cell
        The clear zone less half the lid all round. [half micrometer]
    constraints : tuple of Constraint
        What moved it, if anything did. [half micrometer]
    two : bool
        True where the mark is one of two of which one is clear of joists.
    units : str
        How lengths print.
    """
    off = _off(mark, ideal, units)
    if not off:
        return ""
    step = tape_step(units)
    if any(place % step for place in mark):
        step = fine_step(units)
    on_tape = not any(place % step for place in mark)
    reasons = _movers(mark, ideal, clip, constraints, step if on_tape else 1, two)
    if two:
        reasons.append("two marks, one of them clear wherever the joists lie")
    if not on_tape:
        reasons.append("no mark of the tape lies in the place that is left, so this is exact")
    if not reasons:
        return f"rounded to the tape: {off}"
    return f"{joined(reasons)}: {off}"


def _movers(
    mark: Spot,
    ideal: Spot,
    clip: Cell,
    constraints: tuple[Constraint, ...],
    step: int,
    two: bool,
) -> list[str]:
    """The constraints that exclude the best mark, or without which the mark would be nearer."""
    best = nearest((clip,), ideal, step)
    if best == mark:
        return []
    names = []
    for one in constraints:
        others = [other for other in constraints if other is not one]
        freer = nearest(pieces(region_of(clip, others)), ideal, step)
        nearer = not two and freer is not None and squared(freer, ideal) < squared(mark, ideal)
        if nearer or (best is not None and one.excludes(best)):
            names.append(one.name)
    return names


def _off(mark: Spot, ideal: Spot, units: str) -> str:
    """How far a mark is from the ideal, in words; "" within a micrometer, which is rounding."""
    aside, ahead = meters(mark[0] - ideal[0]), meters(mark[1] - ideal[1])
    words = []
    if abs(aside) > MICROMETER_M:
        side = "left" if aside < 0 else "right"
        words.append(f"{length_text(abs(aside), units, step=_FINE)} to the {side}")
    if abs(ahead) > MICROMETER_M:
        way = "toward the back" if ahead < 0 else "toward the screen"
        words.append(f"{length_text(abs(ahead), units, step=_FINE)} {way}")
    return joined(words)
