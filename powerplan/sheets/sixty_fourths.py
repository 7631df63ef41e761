"""A length, its limit and what is left, where eighths of an inch would hide or bend them.

25 mm is 63/64 in, and reads as 1 in to the nearest eighth; 1 1/8 in less 1 in is no 3 mm. In
sixty-fourths the three say what they are, in one unit, and add up.
"""

from __future__ import annotations

from math import ceil
from typing import NamedTuple

from powerplan.model.findings import Finding
from powerplan.model.lengths import INCH_M, length_text, micrometers

STEP = 64
LESS = "less than 1/64 in"
_STEP_UM = micrometers(float(INCH_M)) / STEP
_EIGHTH_UM = micrometers(float(INCH_M / 8))
_OFF_UM = _STEP_UM / 2
_SMALL_UM = micrometers(float(6 * INCH_M))
_HAIR = 0.01  # of a sixty-fourth: 4 um


class Three(NamedTuple):
    """What a finding has, what is allowed and the room left, as people read them."""

    has: str
    limit: str
    left: str


def are_wanted(finding: Finding, units: str) -> bool:
    """Return whether a length is told in sixty-fourths of an inch: its limit is small and no mark
    of a tape, or eighths would show no difference where there is one.

    Parameters
    ----------
    finding : Finding
        Any finding.
    units : str
        ft-in, in, mm or m.
    """
    known = finding.value is not None and finding.limit is not None and finding.margin is not None
    if units not in ("ft-in", "in") or finding.unit != "m" or not known:
        return False
    assert finding.value is not None
    assert finding.limit is not None
    assert finding.margin is not None
    limit_um, margin_um = abs(micrometers(finding.limit)), abs(micrometers(finding.margin))
    beside_um = limit_um % _EIGHTH_UM
    off = min(beside_um, _EIGHTH_UM - beside_um) > _OFF_UM and limit_um < _SMALL_UM
    return off or 1 < margin_um < _EIGHTH_UM


def three_of(finding: Finding, units: str) -> Three:
    """Return the three texts. Each is rounded to the side that cannot hurt, and the room left is
    the difference of the two others.

    Parameters
    ----------
    finding : Finding
        A finding whose length, limit and margin are known. [m]
    units : str
        ft-in or in.
    """
    assert finding.value is not None
    assert finding.limit is not None
    assert finding.margin is not None
    ceiling = (finding.limit - finding.value) * finding.margin > 0
    value, limit = (micrometers(one) / _STEP_UM for one in (finding.value, finding.limit))
    if finding.margin == 0:
        has = most = round(limit)
    elif ceiling:
        has, most = _up(value), int(limit + _HAIR)
    else:
        has, most = int(value + _HAIR), _up(limit)
    left = most - has if ceiling else has - most
    size = _told(abs(left), units) if left * finding.margin > 0 else LESS
    return Three(_told(has, units), _told(most, units), size)


def _up(steps: float) -> int:
    return ceil(steps - _HAIR)


def down_text(length_m: float, units: str) -> str:
    """Return a length rounded down to a sixty-fourth of an inch, or to a millimeter.

    Parameters
    ----------
    length_m : float
        No less than 0; a hair (4 um) under a mark counts as the mark. [m]
    units : str
        ft-in, in, mm or m.
    """
    if units not in ("ft-in", "in"):
        return length_text((micrometers(length_m) + 1) // 1000 / 1000, units)
    return _told(int(micrometers(length_m) / _STEP_UM + _HAIR), units)


def _told(steps: int, units: str) -> str:
    return length_text(float(INCH_M) * steps / STEP, units, step=STEP)
