"""Volts and ohms of the low-voltage side of a supply, read exactly."""

from __future__ import annotations

import re
from fractions import Fraction

from powerplan.inputs.units import Kind, read_quantity


def read_voltage_v(
    text: object,
    *,
    least_v: Fraction,
    most_v: Fraction,
    wanted: str = 'volts such as "29 V" are wanted',
) -> Fraction:
    """Return a voltage, exactly; "DC" may stand behind it. [V]

    Parameters
    ----------
    text : object
        Such as ``29 V`` or ``29 V DC``.
    least_v, most_v : Fraction
        Bounds. [V]
    wanted : str
        What is wanted, in words.

    Raises
    ------
    QuantityError
        Saying what was found and what is wanted.
    """
    kind = Kind(name="voltage", least=least_v, most=most_v, wanted=wanted)
    plain = re.sub(r"(?i) ?(?:dc|d\.c\.|\u2393)$", "", text) if isinstance(text, str) else text
    return read_quantity(plain, kind, zero=False, negative=False)


def read_resistance_ohm(
    text: object,
    *,
    least_ohm: Fraction,
    most_ohm: Fraction,
    wanted: str = 'a resistance such as "0.2 ohm" is wanted',
) -> Fraction:
    """Return a resistance, exactly. [ohm]

    Parameters
    ----------
    text : object
        Such as ``0.2 ohm`` or ``200 mohm``.
    least_ohm, most_ohm : Fraction
        Bounds. [ohm]
    wanted : str
        What is wanted, in words.

    Raises
    ------
    QuantityError
        Saying what was found and what is wanted.
    """
    kind = Kind(name="resistance", least=least_ohm, most=most_ohm, wanted=wanted)
    return read_quantity(text, kind, zero=False, negative=False)
