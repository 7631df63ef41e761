"""The kinds of value that a key of a plan file can hold, each with its bounds.

Bounds keep out slips such as feet for inches; they are not rules of the trade.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction
from typing import Annotated, Any

from pydantic import BeforeValidator, Field, PlainValidator, ValidationInfo

from powerplan.inputs.saying import found, nearest, shown
from powerplan.inputs.shapes import TEXT, note_shape, quantity, shape_of, shaped
from powerplan.inputs.units import read_current_a, read_length_m, read_power_w

Reader = Callable[[object], Any]

UNKNOWN = "unknown"
_LONGEST_LABEL = 100
_ONCE = 'bare_numbers = "mm" at the top of the file'
_SMALL_NUMBERS = frozenset(str(number) for number in range(1000))


def needed(hint: str) -> Any:
    """Return a field that has to be written; ``hint`` says what it is when it is missing.

    Its default is None, so that a table with one fault can still be looked at for others; whoever
    reads the table reports what is missing.
    """
    return Field(default=None, description=hint, json_schema_extra={"needed": True})


def or_unknown(reader: Reader) -> Reader:
    """Return a reader that also takes ``"unknown"``, as None."""

    def read(value: object) -> Any:
        return None if value == UNKNOWN else reader(value)

    return shaped(read, anyOf=[shape_of(reader), {"const": UNKNOWN}])


def _unknown_to_none(value: object) -> object:
    return None if value == UNKNOWN else value


OR_UNKNOWN = BeforeValidator(_unknown_to_none)


def length(least: str, most: str, *, zero: bool = False, negative: bool = False) -> Reader:
    """Return a reader of lengths between two bounds.

    Parameters
    ----------
    least, most : str
        Bounds, as text.
    zero, negative : bool
        Whether these are allowed too.
    """
    least_m, most_m = read_length_m(least), read_length_m(most)

    def read(value: object) -> Fraction:
        return read_length_m(value, zero=zero, negative=negative, least_m=least_m, most_m=most_m)

    number = {"type": "number"} if negative else {"type": "number", "minimum": 0}
    text = quantity("", negative=negative)
    return shaped(read, anyOf=[text, number])


def current(least: str, most: str, *, zero: bool = False, wanted: str = "") -> Reader:
    """Return a reader of currents between two bounds.

    Parameters
    ----------
    least, most : str
        Bounds, as text.
    zero : bool
        Whether zero is allowed too.
    wanted : str
        What is wanted, in words, where the usual words do not do.
    """
    least_a, most_a = read_current_a(least), read_current_a(most)
    words = wanted or 'amperes such as "15 A" are wanted'

    def read(value: object) -> Fraction:
        return read_current_a(value, zero=zero, least_a=least_a, most_a=most_a, wanted=words)

    return shaped(read, **quantity("[aA]"))


def count(least: int, most: int) -> Reader:
    """Return a reader of whole numbers between two bounds."""

    def read(value: object) -> int:
        if isinstance(value, str) and value in _SMALL_NUMBERS:
            raise ValueError(f"{found(value)} stands in quotes; write {value} without them")
        if isinstance(value, bool) or not isinstance(value, int):
            raise ValueError(f"{found(value)} is not a whole number such as {max(least, 2)}")
        if value < least:
            raise ValueError(f"{found(value)} is not at least {least}")
        if value > most:
            raise ValueError(f"{found(value)} is more than {most}")
        return value

    return shaped(read, type="integer", minimum=least, maximum=most)


def choice(*words: str) -> Reader:
    """Return a reader that takes one of some words."""

    def read(value: object) -> str:
        if isinstance(value, str) and value in words:
            return value
        close = nearest(value, words) if isinstance(value, str) else None
        hint = f'; did you mean "{close}"?' if close else ""
        told = ", ".join(f'"{word}"' for word in words)
        raise ValueError(f"{found(value)} is not one of {told}{hint}")

    return shaped(read, enum=list(words))


def yes_or_no(value: object) -> bool:
    """Read true or false, without quotes."""
    if value in ("true", "false"):
        raise ValueError(f"{found(value)} stands in quotes; write {value} without them")
    if not isinstance(value, bool):
        raise ValueError(f"{found(value)} is not true or false (written without quotes)")
    return value


def text(value: object) -> str:
    """Read a line of text that prints."""
    if isinstance(value, int | float) and not isinstance(value, bool):
        raise ValueError(f'{found(value)} is not text; write "{shown(value)}"')
    if not isinstance(value, str):
        raise ValueError(f"{found(value)} is not text in quotes")
    if not value.strip():
        raise ValueError("the text is empty")
    if not value.isprintable():
        raise ValueError(f"{found(value)} has a character that does not print")
    if len(value) > _LONGEST_LABEL:
        raise ValueError(f"{found(value)} is longer than {_LONGEST_LABEL} characters")
    return value.strip()


def power_factor(value: object) -> Fraction:
    """Read a power factor: a bare number above 0, up to 1."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise ValueError(f"{found(value)} is not a number such as 0.6")
    if not 0.1 <= value <= 1:
        raise ValueError(f"{found(value)} is not between 0.1 and 1")
    return Fraction(repr(value))


def pair(value: object) -> tuple[int, int]:
    """Read two neighboring seats, counted from the left."""
    seats = sorted(seat for seat in value if type(seat) is int) if isinstance(value, list) else []
    if not isinstance(value, list) or len(value) != 2 or len(seats) != 2:
        raise ValueError("two seat numbers such as [2, 3] are wanted")
    left, right = seats
    if right != left + 1 or left < 1:
        raise ValueError(f"seats {found(left)} and {found(right)} are not neighbors")
    return left, right


def wire(value: object) -> str:
    """Read a size of wire as text; the rule set knows which there are."""
    if not isinstance(value, str) or len(value) > _LONGEST_LABEL:
        raise ValueError(f'{found(value)} is not a size of wire such as "14 AWG" or "2.5 mm2"')
    return value


def corner_list(value: object) -> object:
    """Pass on a list of corners; one table of that name is a slip."""
    if isinstance(value, dict):
        raise ValueError("write [[room.corner]], with two brackets, once for each corner")
    return value


def power(value: object) -> Fraction:
    """Read the watts of a label. [W]"""
    return read_power_w(
        value,
        least_w=Fraction(1),
        most_w=Fraction(10_000),
        wanted='watts from the label such as "130 W" are wanted, or its amperes as input',
    )


for _reader, _shape in (
    (yes_or_no, {"type": "boolean"}),
    (text, TEXT),
    (power_factor, {"type": "number", "minimum": 0.1, "maximum": 1}),
    (pair, {"type": "array", "items": {"type": "integer"}, "minItems": 2, "maxItems": 2}),
    (wire, TEXT),
    (power, quantity("[a-zA-Z]")),
):
    shaped(_reader, **_shape)

_INPUT_A = current(
    "0.01 A",
    "50 A",
    wanted='amperes from the label\'s INPUT line are wanted, such as "2 A", '
    "or power with power_factor",
)


def one_or_many(reader: Reader) -> Reader:
    """Return a reader of one value or of a list of them, as a tuple."""

    def read(value: object) -> tuple[Any, ...]:
        if not isinstance(value, list):
            return (reader(value),)
        if not value:
            raise ValueError("the list is empty; leave it out, or write one value at least")
        return tuple(reader(one) for one in value)

    one = shape_of(reader)
    return shaped(read, anyOf=[one, {"type": "array", "items": one, "minItems": 1}])


def _length(*bounds: str, zero: bool = False, negative: bool = False) -> PlainValidator:
    return _spanned(length(bounds[0], bounds[1], zero=zero, negative=negative))


def _gap(*bounds: str) -> PlainValidator:
    return _spanned(or_unknown(length(bounds[0], bounds[1], zero=True)))


def _length_or_unknown(*bounds: str) -> PlainValidator:
    return _spanned(or_unknown(length(bounds[0], bounds[1])))


def _spanned(reader: Reader) -> PlainValidator:
    return PlainValidator(in_a_file(reader))


def in_a_file(reader: Reader) -> Callable[[object, ValidationInfo], Any]:
    """Return a reader of lengths to which a bare number is millimeters where the file says so."""

    def read(value: object, info: ValidationInfo) -> Any:
        bare = _bare(value)
        if bare is None:
            return reader(value)
        if (info.context or {}).get("bare_numbers") == "mm":
            return reader(f"{bare} mm")
        try:
            return reader(value)
        except ValueError as fault:
            raise ValueError(
                f"{fault}; or say once that bare numbers are millimeters: {_ONCE}"
            ) from None

    note_shape(read, shape_of(reader))
    return read


def _bare(value: object) -> str | None:
    """Return a number without a unit as text, None for anything else."""
    if isinstance(value, str):
        return value.strip() if re.fullmatch(r"\s*[+-]?[0-9]+(?:[.,][0-9]+)?\s*", value) else None
    if isinstance(value, bool) or not isinstance(value, int | float):
        return None
    plain = shown(value)
    return plain if re.fullmatch(r"-?[0-9]+(?:\.[0-9]+)?", plain) else None


Text = Annotated[str, PlainValidator(text)]
TextOrUnknown = Annotated[str | None, PlainValidator(or_unknown(text))]
Flag = Annotated[bool, PlainValidator(yes_or_no)]
FlagOrUnknown = Annotated[bool | None, PlainValidator(or_unknown(yes_or_no))]
Wire = Annotated[str, PlainValidator(wire)]
WireOrUnknown = Annotated[str | None, PlainValidator(or_unknown(wire))]
Pair = Annotated[tuple[int, int], PlainValidator(pair)]

Input = Annotated[Fraction, PlainValidator(_INPUT_A)]
Power = Annotated[Fraction, PlainValidator(power)]
PowerFactor = Annotated[Fraction, PlainValidator(power_factor)]
ContinuousOrUnknown = Annotated[
    Fraction | None, PlainValidator(or_unknown(current("0.001 A", "50 A", zero=True)))
]
Rating = Annotated[Fraction, PlainValidator(current("1 A", "400 A"))]
RatingOrUnknown = Annotated[Fraction | None, PlainValidator(or_unknown(current("1 A", "400 A")))]

Ratings = Annotated[
    tuple[Fraction, ...] | None, PlainValidator(one_or_many(current("1 A", "400 A")))
]
Wires = Annotated[tuple[str | None, ...] | None, PlainValidator(one_or_many(or_unknown(wire)))]

RoomSide = Annotated[Fraction, _length("20 in", "330 ft")]
Away = Annotated[Fraction, _length("1/64 in", "330 ft", zero=True)]
CornerPlace = Annotated[Fraction, _length("1/64 in", "330 ft", zero=True, negative=True)]
BuildUp = Annotated[Fraction, _length("1/64 in", "2 ft", zero=True)]
Extent = Annotated[Fraction, _length("1/8 in", "330 ft")]
DoorWidth = Annotated[Fraction, _length("12 in", "40 ft")]
Step = Annotated[Fraction, _length("1/2 in", "6 ft")]
Spacing = Annotated[Fraction | None, _length_or_unknown("3 in", "10 ft")]
FirstJoist = Annotated[Fraction | None, _gap("1/64 in", "330 ft")]
JoistWidth = Annotated[Fraction | None, _length_or_unknown("1/4 in", "2 ft")]
SeatWidth = Annotated[Fraction, _length("8 in", "10 ft")]
ArmWidth = Annotated[Fraction, _length("1/8 in", "3 ft", zero=True)]
ChairDepth = Annotated[Fraction, _length("12 in", "12 ft")]
Ahead = Annotated[Fraction, _length("1/64 in", "12 ft", zero=True)]
Sideways = Annotated[Fraction, _length("1/64 in", "6 ft", zero=True, negative=True)]
ClearSide = Annotated[Fraction, _length("1/2 in", "10 ft")]
ClearHeight = Annotated[Fraction, _length("1/8 in", "3 ft")]
Gap = Annotated[Fraction | None, _gap("1/64 in", "2 ft")]
CordLength = Annotated[Fraction, _length("6 in", "200 ft")]
CordDiameter = Annotated[Fraction, _length("1/16 in", "2 in")]
HomeRun = Annotated[Fraction | None, _length_or_unknown("1 ft", "1000 ft")]
OutletHeight = Annotated[Fraction, _length("1/8 in", "20 ft", zero=True)]
BoxSide = Annotated[Fraction, _length("1 in", "3 ft")]
LooseSide = Annotated[Fraction, _length("1/2 in", "3 ft")]
Small = Annotated[Fraction, _length("1/64 in", "1 ft", zero=True)]

Seats = Annotated[int, PlainValidator(count(1, 200))]
ChainChairs = Annotated[int, PlainValidator(count(2, 100))]
Sockets = Annotated[int, PlainValidator(count(1, 24))]
FreeSockets = Annotated[int, PlainValidator(count(0, 24))]
PanelSpacesOrUnknown = Annotated[int | None, PlainValidator(or_unknown(count(0, 200)))]

Face = Annotated[str, PlainValidator(choice("finish", "studs"))]
CornerList = BeforeValidator(corner_list)
Swings = Annotated[str, PlainValidator(choice("in", "out", "slides"))]
Job = Annotated[str, PlainValidator(choice("retrofit", "new"))]
PlaceOrUnknown = Annotated[
    str | None,
    PlainValidator(or_unknown(choice("home", "home, basement", "business", "assembly"))),
]
BareNumbers = Annotated[str, PlainValidator(choice("mm"))]
Units = Annotated[str, PlainValidator(choice("ft-in", "in", "mm", "m"))]
Build = Annotated[str | None, PlainValidator(or_unknown(choice("joists", "slab")))]
JoistsRun = Annotated[
    str | None, PlainValidator(or_unknown(choice("back to screen", "side to side")))
]
Conductor = Annotated[str | None, PlainValidator(or_unknown(choice("copper", "aluminum")))]
Extensions = Annotated[str, PlainValidator(choice("no", "if needed", "yes"))]
