"""Unit words and marks that people write every day, known without any library."""

from __future__ import annotations

from fractions import Fraction

from powerplan.model.lengths import FOOT_M, INCH_M

MARKS = str.maketrans(
    {
        **dict.fromkeys("\u2033\u201c\u201d\u201f", '"'),
        **dict.fromkeys("\u2032\u2018\u2019\u201b", "'"),
        **dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2212", "-"),
        **dict.fromkeys("\t\u00a0\u2007\u2009\u202f", " "),
        **dict.fromkeys("\u00b5\u03bc", "u"),
        "\u2044": "/",
        **dict.fromkeys("\u2126\u03a9", "ohm"),
        "\u00bd": " 1/2",
        "\u00bc": " 1/4",
        "\u00be": " 3/4",
        "\u215b": " 1/8",
        "\u215c": " 3/8",
        "\u215d": " 5/8",
        "\u215e": " 7/8",
    }
)

_ONE, _MILLI, _CENTI, _KILO = Fraction(1), Fraction(1, 1000), Fraction(1, 100), Fraction(1000)


def _words(kind: str, factor: Fraction, text: str) -> dict[str, tuple[str, Fraction]]:
    return dict.fromkeys(text.split(), (kind, factor))


KNOWN: dict[str, tuple[str, Fraction]] = {
    **_words("length", INCH_M, 'in inch inches "'),
    **_words("length", FOOT_M, "ft foot feet '"),
    **_words("length", _MILLI, "mm millimeter millimeters millimetre millimetres"),
    **_words("length", _CENTI, "cm centimeter centimeters centimetre centimetres"),
    **_words("length", _ONE, "m meter meters metre metres"),
    **_words("current", _ONE, "a amp amps ampere amperes"),
    **_words("current", _MILLI, "ma milliamp milliamps milliampere milliamperes"),
    **_words("power", _ONE, "w watt watts"),
    **_words("power", _KILO, "kw kilowatt kilowatts"),
    **_words("apparent", _ONE, "va voltamp voltamps"),
    **_words("apparent", _KILO, "kva"),
    **_words("voltage", _ONE, "v volt volts vac vdc"),
    **_words("resistance", _ONE, "ohm ohms"),
    **_words("resistance", _MILLI, "mohm mohms milliohm milliohms"),
}

IS_A = {
    "length": "a length",
    "current": "a current",
    "power": "a power",
    "apparent": "in volt-amperes",
    "voltage": "a voltage",
    "resistance": "a resistance",
    "energy": "an energy",
    "area": "an area",
    "angle": "an angle",
}
