"""The kinds of value that keys of rows and of moving parts can hold."""

from __future__ import annotations

import math
import re
from fractions import Fraction
from typing import Annotated, NamedTuple

from pydantic import PlainValidator, ValidationInfo

from powerplan.inputs.fields import choice, in_a_file, length, text
from powerplan.inputs.saying import found
from powerplan.inputs.shapes import TEXT, note_shape, shape_of


def row_thing(value: object, info: ValidationInfo) -> str | Fraction:
    """Read a thing of a row: the name of a chair or table, or a gap such as { gap = "6 in" }."""
    if isinstance(value, dict):
        if set(value) != {"gap"}:
            raise ValueError('a gap is written { gap = "6 in" }')
        gap_m: Fraction = _GAP_M(value["gap"], info)
        return gap_m
    return text(value)


class PartBox(NamedTuple):
    """A position of a moving part that is a rectangle, in the chair frame. [m]"""

    back: Fraction
    front: Fraction
    left: Fraction
    right: Fraction


def part_position(
    value: object, info: ValidationInfo
) -> PartBox | tuple[tuple[Fraction, Fraction], ...]:
    """Read where a part is: a rectangle, or corners as right and ahead. [m]"""
    if isinstance(value, dict):
        if set(value) != {"from", "to", "left", "right"}:
            raise ValueError(
                'a position is { from = "30 in", to = "39 in", left = "9 in", right = "9 in" }, '
                "from the headrest and from the middle of the chair"
            )
        return PartBox(*(_CORNER_M(value[key], info) for key in ("from", "to", "left", "right")))
    corners = value if isinstance(value, list) else []
    if len(corners) < _FEWEST or not all(isinstance(c, list) and len(c) == 2 for c in corners):
        raise ValueError(
            "a position is a table with from, to, left and right, or three corners or more such as "
            '["-9 in", "30 in"]: right of the middle of the chair, and ahead of its headrest'
        )
    return tuple((_CORNER_M(right, info), _CORNER_M(ahead, info)) for right, ahead in corners)


_FEWEST = 3


def turned(value: object) -> float:
    """Read how far a row is turned, such as "12 deg left", as sitters look. [rad]"""
    said = _TURNED.fullmatch(" ".join(value.lower().split())) if isinstance(value, str) else None
    if said is None:
        raise ValueError(
            f'{found(value)} is not a turn such as "12 deg left" or "5 deg right", as sitters look'
        )
    degrees = float(said[1])
    if degrees > _HALF_TURN:
        raise ValueError(f"{found(value)} is more than half a turn, 180 deg")
    angle_rad = min(round(math.radians(degrees), 9), math.floor(math.pi * 1e9) / 1e9)
    return angle_rad if said[2] == "left" else 0.0 - angle_rad


_TURNED = re.compile(r"([0-9]{1,3}(?:\.[0-9]{1,4})?) ?(?:deg|degree|degrees|°),? (left|right)")
_HALF_TURN = 180.0
_CORNER_M = in_a_file(length("1/64 in", "12 ft", zero=True, negative=True))
_GAP_M = in_a_file(length("1/8 in", "100 ft"))


_ANY_LENGTH = shape_of(_CORNER_M)
_BOX = dict.fromkeys(("from", "to", "left", "right"), _ANY_LENGTH)
note_shape(
    row_thing,
    {
        "anyOf": [
            TEXT,
            {
                "type": "object",
                "properties": {"gap": shape_of(_GAP_M)},
                "required": ["gap"],
                "additionalProperties": False,
            },
        ]
    },
)
note_shape(
    part_position,
    {
        "anyOf": [
            {
                "type": "object",
                "properties": _BOX,
                "required": list(_BOX),
                "additionalProperties": False,
            },
            {
                "type": "array",
                "minItems": 3,
                "items": {"type": "array", "items": _ANY_LENGTH, "minItems": 2, "maxItems": 2},
            },
        ]
    },
)
note_shape(turned, {"type": "string", "pattern": "[0-9]"})

RowThing = Annotated[str | Fraction, PlainValidator(row_thing)]
PartPosition = Annotated[
    PartBox | tuple[tuple[Fraction, Fraction], ...], PlainValidator(part_position)
]
Travel = Annotated[str, PlainValidator(choice("straight", "swings"))]
Turned = Annotated[float, PlainValidator(turned)]
Arms = Annotated[str, PlainValidator(choice("shared", "own"))]
Touch = Annotated[str, PlainValidator(choice("front", "back"))]
Pitch = Annotated[Fraction, PlainValidator(in_a_file(length("12 in", "100 ft")))]
Radius = Annotated[Fraction, PlainValidator(in_a_file(length("3 ft", "1000 ft")))]
