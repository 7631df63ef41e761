"""Lengths of one cord as they are printed, so that what stands in one row adds up."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from powerplan.model.lengths import at_mark_m, mark_um
from powerplan.model.plan import Cord
from powerplan.model.spare import spare_told_m, tail_m


class Leg(NamedTuple):
    """A piece of a way: how far it is, how far between the places told for its ends, and whether
    it slants, so that no place of it tells its length. [m]"""

    length_m: float
    told_m: float
    slants: bool


class Sums(NamedTuple):
    """What is printed of a cord: what lies on its way, what is left over, how far it goes to its
    coil, one way, and what of it is in the coil. [m]"""

    lies_m: float
    left_m: float
    tail_m: float
    coiled_m: float


def sums_of(cord: Cord, units: str) -> Sums:
    """Return what is printed of a cord's lengths; the last three are differences of printed ones.

    Parameters
    ----------
    cord : Cord
        The cord.
    units : str
        ft-in, in, mm or m.
    """
    left_m = spare_told_m(cord.bought_m, cord.length_m, units)
    far_m = at_mark_m(tail_m(cord), units)
    return Sums(at_mark_m(cord.length_m, units), left_m, far_m, max(0.0, left_m - 2 * far_m))


def added_up(legs: Sequence[Leg], whole_m: float, units: str) -> tuple[float, ...]:
    """Return what is printed of each piece, so that all together are what is printed of the whole.

    Each begins as it is told. Mark by mark those change of which the true length is farthest that
    way, slanting ones first: of those no two places tell how long they are.

    Parameters
    ----------
    legs : sequence of Leg
        The pieces. [m]
    whole_m : float
        What is printed of all together. [m]
    units : str
        ft-in, in, mm or m.
    """
    mark = Fraction(mark_um(units), 10**6)
    told = [round(Fraction(leg.told_m) / mark) for leg in legs]
    off = round(Fraction(whole_m) / mark) - sum(told)
    step = 1 if off > 0 else -1

    def wants(number: int) -> tuple[Fraction, int]:
        leg = legs[number]
        gap = (Fraction(leg.length_m) / mark - told[number]) * step
        return (gap + (1 if leg.slants else 0), -number)

    for _ in range(abs(off) if legs else 0):
        free = [number for number in range(len(legs)) if told[number] + step >= 0]
        told[max(free, key=wants)] += step
    return tuple(float(count * mark) for count in told)
