"""Text with a unit, read exactly: the only place where a quantity is still text.

A small grammar stands in front; only a single unknown unit *word* ever reaches pint, which knows
the long tail of units from a definitions file of our own.
"""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, NamedTuple

from powerplan.inputs.saying import found, nearest, shown
from powerplan.inputs.unit_words import IS_A, KNOWN, MARKS
from powerplan.model.lengths import FOOT_M, INCH_M, amps_text, length_text

if TYPE_CHECKING:
    import pint

_LONGEST = 40
_LOW_VOLTAGE_V = 60

_AMOUNT = (
    r"[0-9]{1,7}[ -][0-9]{1,3}/[0-9]{1,3}|[0-9]{1,4}/[0-9]{1,4}"
    r"|[0-9]{0,7}\.[0-9]{1,9}|[0-9]{1,7}"
)
_SIGN = r"([+-]?) ?"
_FOOT = r"(?:ft|feet|foot|')"
_INCH = r"(?:in|inch|inches|\")"
# Patterns are compiled when they are first asked: most texts need the first alone.
_USUAL = r"([0-9]{1,7}(?:\.[0-9]{1,9})?) ?([A-Za-z]{1,12})"
_FEET_INCHES = rf"(?i){_SIGN}([0-9.]{{1,12}}) ?{_FOOT}(?:\.? ?|-)({_AMOUNT}) ?{_INCH}\.?"
_SINGLE = rf"{_SIGN}({_AMOUNT}) ?([A-Za-z]{{1,12}}|['\"])\.?"
_BARE = rf"{_SIGN}({_AMOUNT})"
# "1.200,5" and "1,200,000"; and "1,200", which may be 1.2 or 1200 where 0,200 and 1,20 may not.
_TWO_MARKS = r"[0-9]+[.,][0-9]+[.,][0-9.,]*[0-9]"
_THOUSANDS = r"(?<![0-9.,])([1-9][0-9]{0,2}),([0-9]{3})(?![0-9])"
_FEET_BARE = rf"(?i){_SIGN}[0-9.]{{1,12}} ?{_FOOT}\.?[ -]?(?:{_AMOUNT})"
_EXPONENT = r"[+-]?[0-9.]+[eE][+-]?[0-9]+(?:[^0-9].*)?"
_VOLTS = r"(?<![a-z0-9.])([0-9]{1,6}(?:\.[0-9]{1,3})?) ?(?:v|volts?|vdc|vac)(?![a-z])"
_DIRECT = r"(?<![a-z])(?:v?dc|output)(?![a-z])|\u2393"


_SIGNS = {"power": "W", "voltage": "V", "resistance": "ohm"}


class QuantityError(ValueError):
    """A text that is not the quantity wanted; its words say what would be."""


class Kind(NamedTuple):
    """What is being read: its bounds in SI, and what is wanted, in words."""

    name: str
    least: Fraction
    most: Fraction
    wanted: str

    def text(self, value: Fraction) -> str:
        """Return a bound as people read it."""
        if self.name == "length":
            return length_text(float(value), "ft-in", step=64)
        if self.name == "current":
            return amps_text(value)
        return f"{float(value):g} {_SIGNS[self.name]}"


def read_length_m(
    text: object,
    *,
    zero: bool = False,
    negative: bool = False,
    least_m: Fraction = Fraction(1, 10_000),
    most_m: Fraction = 3000 * FOOT_M,
    wanted: str = 'a length such as "5 ft 10 in" is wanted',
) -> Fraction:
    """Return a length, exactly. [m]

    Parameters
    ----------
    text : object
        Such as ``15 ft 6 in``, ``7 1/4 in``, ``5'10"`` or ``1.8 m``.
    zero, negative : bool
        Whether these are allowed too.
    least_m, most_m : Fraction
        Bounds of its size, unless it is an allowed zero. [m]
    wanted : str
        What is wanted, in words.

    Raises
    ------
    QuantityError
        Saying what was found and what is wanted.
    """
    kind = Kind(name="length", least=least_m, most=most_m, wanted=wanted)
    return read_quantity(text, kind, zero=zero, negative=negative)


def read_current_a(
    text: object,
    *,
    zero: bool = False,
    least_a: Fraction = Fraction(1, 1000),
    most_a: Fraction = Fraction(1000),
    wanted: str = 'amperes such as "15 A" are wanted',
) -> Fraction:
    """Return a current, exactly. [A]

    Parameters
    ----------
    text : object
        Such as ``1.8 A`` or ``500 mA``.
    zero : bool
        Whether zero is allowed too.
    least_a, most_a : Fraction
        Bounds. [A]
    wanted : str
        What is wanted, in words.

    Raises
    ------
    QuantityError
        Saying what was found and what is wanted; the OUTPUT of a power supply is told as such.
    """
    kind = Kind(name="current", least=least_a, most=most_a, wanted=wanted)
    return read_quantity(text, kind, zero=zero, negative=False)


def read_power_w(
    text: object,
    *,
    least_w: Fraction = Fraction(1, 10),
    most_w: Fraction = Fraction(100_000),
    wanted: str = 'watts such as "130 W" are wanted',
) -> Fraction:
    """Return a power, exactly; volt-amperes are refused. [W]

    Parameters
    ----------
    text : object
        Such as ``130 W``.
    least_w, most_w : Fraction
        Bounds. [W]
    wanted : str
        What is wanted, in words.

    Raises
    ------
    QuantityError
        Saying what was found and what is wanted.
    """
    kind = Kind(name="power", least=least_w, most=most_w, wanted=wanted)
    return read_quantity(text, kind, zero=False, negative=False)


def read_quantity(text: object, kind: Kind, *, zero: bool, negative: bool) -> Fraction:
    """Return a quantity of some kind, exactly, in SI; see the readers above."""
    plain = _plain(text, kind)
    value = _usual(plain, kind)
    if value is None:
        _refuse_known_slips(text, plain, kind)
        value = _feet_and_inches(text, plain, kind)
    if value is None:
        value = _amount_and_word(text, plain, kind)
    return _bounded(text, value, kind, zero=zero, negative=negative)


def _usual(plain: str, kind: Kind) -> Fraction | None:
    """A plain number and a well-known unit of the right kind, without a look at any slip."""
    shape = re.fullmatch(_USUAL, plain)
    unit = None if shape is None else KNOWN.get(shape[2].lower())
    if shape is None or unit is None or unit[0] != kind.name:
        return None
    return Fraction(shape[1]) * unit[1]


def _plain(text: object, kind: Kind) -> str:
    """Return the text with plain marks and single spaces."""
    if not isinstance(text, str):
        number = isinstance(text, int | float) and not isinstance(text, bool)
        why = "has no unit" if number else "is not text with a unit"
        raise QuantityError(f"{shown(text)} {why}; {kind.wanted}")
    if len(text) > _LONGEST:
        raise QuantityError(f"{found(text)} is longer than {_LONGEST} characters; {kind.wanted}")
    plain = re.sub(" {2,}", " ", text.translate(MARKS).replace("''", '"')).strip(" ")
    if not plain:
        raise QuantityError(f"{found(text)} is empty; {kind.wanted}")
    return _with_points(text, re.sub("^([+-]) ", r"\1", plain), kind)


def _with_points(text: object, plain: str, kind: Kind) -> str:
    """Return the text with a point for a decimal comma; refused where it could mean thousands."""
    if "," not in plain and plain.count(".") < 2:
        return plain
    both = re.search(_TWO_MARKS, plain)
    if both:
        whole, part = re.split("[.,](?=[0-9]*$)", both[0])
        meant = re.sub("[.,]", "", whole) + f".{part}"
        if len(part) == 3 and both[0].count(",") != 1:
            meant = re.sub("[.,]", "", both[0])
        raise QuantityError(
            f"{found(text)} has more than one mark in its number; write one point or comma for "
            f'decimals and nothing between thousands: is it "{plain.replace(both[0], meant)}"?'
        )
    thousands = re.search(_THOUSANDS, plain)
    if thousands:
        small = f"{thousands[1]}.{thousands[2]}".rstrip("0").rstrip(".")
        readings = (
            plain.replace(thousands[0], one) for one in (small, thousands[1] + thousands[2])
        )
        one, other = readings
        raise QuantityError(
            f'{found(text)} can be read two ways; write "{one}" or "{other}", whichever it is'
        )
    return re.sub("(?<=[0-9]),(?=[0-9])", ".", plain)


def _refuse_known_slips(text: object, plain: str, kind: Kind) -> None:
    """Give the common slips a sentence each."""
    small = plain.lower()
    if small == "unknown":
        raise QuantityError(f'"unknown" is not accepted here; {kind.wanted}')
    if kind.name == "current":
        _refuse_volts_beside_amperes(text, small)
    if "," in plain:
        raise QuantityError(f"{found(text)} has a comma that is no decimal comma; {kind.wanted}")
    if re.fullmatch(_EXPONENT, plain):
        raise QuantityError(f"{found(text)} has an exponent; write the number out: {kind.wanted}")
    if re.fullmatch(_BARE, plain):
        raise QuantityError(f"{found(text)} has no unit; {kind.wanted}")
    if re.fullmatch(_FEET_BARE, plain):
        raise QuantityError(
            f'{found(text)} has a number without a unit; for feet and inches write "5 ft 10 in"'
        )


def _refuse_volts_beside_amperes(text: object, small: str) -> None:
    volts = re.search(_VOLTS, small)
    low = volts is not None and Fraction(volts[1]) < _LOW_VOLTAGE_V
    beside = volts is not None and volts[0] != small
    if re.search(_DIRECT, small) or (low and beside):
        raise QuantityError(
            f"{found(text)} reads like the OUTPUT of a power supply; amperes from the INPUT line "
            'of its label are wanted, such as "1.8 A"'
        )
    if beside:
        raise QuantityError(
            f'{found(text)} has volts in it; write the amperes alone, such as "1.8 A"'
        )


def _feet_and_inches(text: object, plain: str, kind: Kind) -> Fraction | None:
    shape = re.fullmatch(_FEET_INCHES, plain)
    if shape is None:
        return None
    sign, feet_text, inch_text = shape.groups()
    if kind.name != "length":
        raise QuantityError(f"{found(text)} is a length; {kind.wanted}")
    if not feet_text.isdigit():
        raise QuantityError(f'{found(text)}: feet before inches are whole, as in "5 ft 10 in"')
    feet, inches = int(feet_text), _number(text, inch_text)
    if inches >= 12:
        more, rest = divmod(inches, 12)
        right = length_text(float((feet + more) * FOOT_M + rest * INCH_M), "ft-in", step=64)
        raise QuantityError(
            f"{found(text)} has 12 inches or more after the feet; fewer than 12 are wanted: "
            f'is it "{right}"?'
        )
    size = feet * FOOT_M + inches * INCH_M
    return -size if sign == "-" else size


def _amount_and_word(text: object, plain: str, kind: Kind) -> Fraction:
    shape = re.fullmatch(_SINGLE, plain)
    if shape is None:
        raise QuantityError(f"{found(text)} is not a number and a unit; {kind.wanted}")
    sign, amount_text, word = shape.groups()
    size = _number(text, amount_text)
    unit = KNOWN.get(word.lower()) or _looked_up(word)
    if unit is None:
        known = [name for name, (what, _) in KNOWN.items() if what == kind.name and len(name) > 1]
        close = nearest(word, known)
        hint = f"did you mean {close!r}?" if close else kind.wanted
        raise QuantityError(f"{found(text)}: the unit {word!r} is not known; {hint}")
    name, factor = unit
    if name != kind.name:
        what = IS_A.get(name, f"a {name}")
        if (name, kind.name) == ("apparent", "power"):
            what += ", which are not watts"
        raise QuantityError(f"{found(text)} is {what}; {kind.wanted}")
    return size * (-factor if sign == "-" else factor)


def _number(text: object, amount: str) -> Fraction:
    """Read ``7``, ``7.25``, ``1/4``, ``7 1/4`` or ``7-1/4``."""
    *whole, part = re.split("[ -]", amount)
    if "/" in part:
        top, bottom = (int(digits) for digits in part.split("/"))
        if bottom == 0 or (whole and top >= bottom):
            raise QuantityError(f'{found(text)}: {part} is not a fraction such as "1/4"')
        return Fraction(int(whole[0]) if whole else 0) + Fraction(top, bottom)
    return Fraction(part)


def _bounded(text: object, value: Fraction, kind: Kind, *, zero: bool, negative: bool) -> Fraction:
    if value == 0:
        if zero:
            return value
        raise QuantityError(f"{found(text)} is zero; more than zero is wanted")
    if value < 0 and not negative:
        least = "zero or more" if zero else "more than zero"
        raise QuantityError(f"{found(text)} is negative; {least} is wanted")
    if abs(value) > kind.most:
        raise QuantityError(f"{found(text)} is too large; at most {kind.text(kind.most)} is wanted")
    if abs(value) < kind.least:
        raise QuantityError(
            f"{found(text)} is too small; at least {kind.text(kind.least)} is wanted"
        )
    return value


@cache
def _registry() -> pint.UnitRegistry[Fraction]:
    from importlib.resources import as_file, files

    import pint

    with as_file(files("powerplan.inputs") / "data" / "units.txt") as path:
        return pint.UnitRegistry(str(path), non_int_type=Fraction)


def _looked_up(word: str) -> tuple[str, Fraction] | None:
    """Return the kind and size of a unit that only pint knows, or None. Letters only."""
    tries = [word] if len(word) < 4 else [word, word.lower()]
    for spelled in tries:
        try:
            registry = _registry()
            unit = registry.parse_units(spelled)
            kinds = dict(unit.dimensionality)
            factor, _ = registry.get_root_units(unit)
        except Exception:  # pint lets many kinds escape; whatever it cannot read is not known
            continue
        if len(kinds) == 1 and next(iter(kinds.values())) == 1:
            return next(iter(kinds)).strip("[]"), Fraction(str(factor))
    return None
