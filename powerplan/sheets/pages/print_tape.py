"""Two lengths at marks of a tape that tell a place, rounded off what is kept off."""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import product
from typing import NamedTuple

from powerplan.model.geometry import Point
from powerplan.model.lengths import at_mark_m, length_text, mark_um
from powerplan.sheets.keep_off import Side

_AROUND = 3
_FINER = (1, 2)
_HAIR_M = 1e-7


class Told(NamedTuple):
    """Two printed lengths, the place that they lead to, and whether it keeps off all it should.
    [m]"""

    lengths_m: tuple[float, float]
    at: Point
    safe: bool


def tape_text(length_m: float, units: str) -> str:
    """Return a length that stands at a mark, or at a part of one, as it prints. [m]"""
    return length_text(length_m, units, step=16)


def told_at(
    lengths_m: tuple[float, float],
    leads_to: Callable[[float, float], Point | None],
    sides: tuple[Side, ...],
    units: str,
) -> Told | None:
    """Return the lengths to print in place of two true ones: the nearest at whole marks whose place
    keeps to all sides, else at half marks; else those that come nearest to that.

    Parameters
    ----------
    lengths_m : tuple of float
        The true lengths. [m]
    leads_to : callable
        The place that two lengths lead to, None where they lead to none. [m]
    sides : tuple of Side
        What the place should keep to. [m]
    units : str
        ft-in, in, mm or m.
    """
    if not sides:
        one, other = (at_mark_m(length_m, units) for length_m in lengths_m)
        spot = leads_to(one, other)
        return None if spot is None else Told((one, other), spot, True)
    true, nearest = leads_to(*lengths_m), None
    if true is None:
        return None
    for finer in _FINER if units in ("ft-in", "in") else _FINER[:1]:
        tried = _around(lengths_m, true, leads_to, units, finer)
        for better in (True, False):
            for lengths, spot in tried:
                if all(side.over_m(spot, better=better) >= -_HAIR_M for side in sides):
                    return Told(lengths, spot, True)
        if tried:
            nearest = max(tried, key=lambda one: min(side.over_m(one[1]) for side in sides))
    return None if nearest is None else Told(*nearest, False)


def _around(
    lengths_m: tuple[float, float],
    true: Point,
    leads_to: Callable[[float, float], Point | None],
    units: str,
    finer: int,
) -> list[tuple[tuple[float, float], Point]]:
    """Lengths at marks about two true ones with their places, the nearest place first."""
    mark_m = mark_um(units) / 1e6 / finer
    steps = sorted(range(-_AROUND, _AROUND + 1), key=abs)
    found = []
    for one, other in product(steps, steps):
        lengths = (
            at_mark_m(lengths_m[0] + one * mark_m, units, finer),
            at_mark_m(lengths_m[1] + other * mark_m, units, finer),
        )
        spot = leads_to(*lengths)
        if spot is not None:
            found.append((lengths, spot))
    return sorted(found, key=lambda one: (round(math.dist(one[1], true), 9), one[0]))
