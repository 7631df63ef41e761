"""Lengths as they are compared; lengths, currents and other values as people read them."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

INCH_M = Fraction(254, 10000)
FOOT_M = 12 * INCH_M
MICROMETER_M = 1e-6
_EIGHTH_UM, _MILLIMETER_UM = 3175, 1000


def micrometers(length_m: float) -> int:
    """Return a length as whole micrometers, the unit in which lengths are compared.

    Parameters
    ----------
    length_m : float
        Any length. [m]

    Returns
    -------
    int
        The same length, rounded. [um]
    """
    return round(length_m * 1e6)


@lru_cache(maxsize=1 << 12)
def length_text(length_m: float, units: str, *, step: int = 8) -> str:
    """Return a length as a tape shows it.

    Parameters
    ----------
    length_m : float
        Any length; negative gets a leading minus. [m]
    units : str
        ft-in, in, mm or m.
    step : int
        The fraction of an inch to round to (8: eighths).

    Returns
    -------
    str
        Such as ``6 ft 3 1/4 in``, ``75 1/4 in``, ``1911 mm`` or ``1.911 m``.
    """
    sign = "-" if length_m < 0 else ""
    size = abs(length_m)
    if units in ("mm", "m"):
        millimeters = round(size * 1000)
        sign = sign if millimeters else ""
        return f"{sign}{millimeters} mm" if units == "mm" else f"{sign}{millimeters / 1000:.3f} m"
    parts = round(Fraction(size) / INCH_M * step)
    sign = sign if parts else ""
    whole, part = divmod(parts, step)
    feet, inches = divmod(whole, 12) if units == "ft-in" else (0, whole)
    fraction = str(Fraction(part, step)) if part else ""
    # "8 ft 0 1/2 in": without the 0 a hurried reader takes 8 1/2 ft.
    whole_text = str(inches) if inches or feet or not fraction else ""
    inch_text = " ".join(text for text in (whole_text, fraction) if text)
    if feet and inch_text == "0":
        return f"{sign}{feet} ft"
    return f"{sign}{feet} ft {inch_text} in" if feet else f"{sign}{inch_text} in"


def mark_um(units: str) -> int:
    """Return the distance between a tape's marks that we print. [um]

    Parameters
    ----------
    units : str
        ft-in, in, mm or m.
    """
    return _MILLIMETER_UM if units in ("mm", "m") else _EIGHTH_UM


def at_mark_m(length_m: float, units: str, finer: int = 1) -> float:
    """Return a length at the mark of a tape that it prints as.

    Parameters
    ----------
    length_m : float
        Any length. [m]
    units : str
        ft-in, in, mm or m.
    finer : int
        Into how many the marks are parted.
    """
    mark_m = Fraction(mark_um(units), 10**6) / finer
    return float(round(Fraction(length_m) / mark_m) * mark_m)


def at_most_m(length_m: float, units: str) -> float:
    """Return a length at the mark of a tape that is no longer; a hair (1 um) under a mark counts as
    the mark. [m]"""
    step_um = mark_um(units)
    return (micrometers(length_m) + 1) // step_um * step_um / 1e6


def at_least_m(length_m: float, units: str) -> float:
    """Return a length at the mark of a tape that is no shorter; a hair (1 um) over a mark counts as
    the mark. [m]"""
    step_um = mark_um(units)
    return -((1 - micrometers(length_m)) // step_um) * step_um / 1e6


def at_most_text(length_m: float, units: str) -> str:
    """Return a length as a tape shows it, rounded down: what is promised is there.

    Parameters
    ----------
    length_m : float
        Any length. [m]
    units : str
        ft-in, in, mm or m.
    """
    return length_text(at_most_m(length_m, units), units)


def at_least_text(length_m: float, units: str) -> str:
    """Return a length as a tape shows it, rounded up: what is asked for is enough.

    Parameters
    ----------
    length_m : float
        Any length. [m]
    units : str
        ft-in, in, mm or m.
    """
    return length_text(at_least_m(length_m, units), units)


def amps_text(current_a: float | Fraction, *, down: bool = False, up: bool = False) -> str:
    """Return a current to two decimals without trailing zeros, such as ``1.8 A``.

    ``down=True`` rounds down: for what may still be added, never promise more than is true.
    ``up=True`` rounds up: for what is asked, so that with what is left it makes up the whole.
    """
    scaled = Fraction(current_a).limit_denominator(10**9) * 100
    hundredths = round(scaled)
    if down or up:
        hundredths = -(-scaled.numerator // scaled.denominator)
        hundredths -= int(down and hundredths != scaled)
    return f"{hundredths / 100:.2f}".rstrip("0").rstrip(".") + " A"


def plural(count: int, noun: str) -> str:
    """Return ``1 box``, ``2 boxes``, ``0 chairs``."""
    ending = "" if count == 1 else ("es" if noun.endswith(("x", "ch", "sh", "s")) else "s")
    return f"{count} {noun}{ending}"


def joined(names: list[str] | tuple[str, ...], word: str = "and") -> str:
    """Return ``A1``, ``A1 and A2``, ``A1, A2 and A3``."""
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} {word} {names[-1]}"


def few(names: list[str], most: int = 3) -> str:
    """Return the first names of a list and how many more there are; one more is named too."""
    if len(names) <= most + 1:
        return joined(names)
    return joined([*names[:most], f"{len(names) - most} more"])
