"""The kinds of value that only what lies loose on the floor has, each with its bounds."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Annotated

from pydantic import PlainValidator

from powerplan.inputs.fields import choice, count, or_unknown
from powerplan.inputs.output_units import read_resistance_ohm, read_voltage_v
from powerplan.inputs.shapes import quantity, shaped
from powerplan.inputs.units import read_current_a


def output_v(value: object) -> Fraction:
    """Read the volts on the OUTPUT line of a supply that feeds a chair. [V]"""
    return read_voltage_v(
        value,
        least_v=Fraction(3),
        most_v=Fraction(60),
        wanted='the volts on the OUTPUT line of the supply\'s label are wanted, such as "29 V"',
    )


def output_a(value: object) -> Fraction:
    """Read the amperes on the OUTPUT line of a supply. [A]"""
    wanted = 'the amperes on the OUTPUT line of the supply\'s label are wanted, such as "2 A"'
    plain = re.sub(r"(?i) ?dc$", "", value) if isinstance(value, str) else value
    return read_current_a(plain, least_a=Fraction(1, 100), most_a=Fraction(40), wanted=wanted)


def cord_ohm(value: object) -> Fraction:
    """Read what a whole cord measures, out and back. [ohm]"""
    return read_resistance_ohm(value, least_ohm=Fraction(1, 10**4), most_ohm=Fraction(20))


for _reader, _shape in (
    (output_v, quantity("[vV]")),
    (output_a, quantity("[aA]")),
    (cord_ohm, quantity("[a-zA-Z\u2126\u03a9]")),
):
    shaped(_reader, **_shape)

OutputVolts = Annotated[Fraction, PlainValidator(output_v)]
OutputAmps = Annotated[Fraction, PlainValidator(output_a)]
CordOhm = Annotated[Fraction | None, PlainValidator(or_unknown(cord_ohm))]
SeatsFed = Annotated[int, PlainValidator(count(1, 2))]
Charged = Annotated[str, PlainValidator(choice("in place", "elsewhere"))]
