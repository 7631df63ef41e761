"""The JSON Schema of what each reader of a value takes: never stricter than the reader."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

Shape = dict[str, Any]
R = TypeVar("R", bound=Callable[..., Any])

TEXT: Shape = {"type": "string", "pattern": r"\S", "maxLength": 100}

_SHAPES: dict[Any, Shape] = {}
_SIZE = r"[0-9.,\u00bc-\u00be\u215b-\u215e]"


def note_shape(reader: Any, shape: Shape) -> None:
    """Note the JSON Schema of what a reader takes."""
    _SHAPES[reader] = shape


def shaped(reader: R, **shape: Any) -> R:
    """Return the same reader, with the JSON Schema of what it takes noted."""
    note_shape(reader, shape)
    return reader


def shape_of(reader: Any) -> Shape:
    """Return the JSON Schema of what a reader takes; anything at all where none is noted."""
    return dict(_SHAPES.get(reader, {}))


def quantity(unit: str, *, negative: bool = False) -> Shape:
    """Text that starts with a number and goes on to a unit.

    Parameters
    ----------
    unit : str
        A pattern that the unit has in it.
    negative : bool
        Whether a minus may stand in front.
    """
    sign = r"[-+\u2010-\u2014\u2212]?" if negative else r"\+?"
    return {"type": "string", "maxLength": 40, "pattern": rf"^\s*{sign}\s*{_SIZE}.*{unit}"}
