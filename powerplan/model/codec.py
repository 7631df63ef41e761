"""Frozen dataclasses to plain JSON values and back, checked both ways."""

from __future__ import annotations

import math
import types
import typing
from dataclasses import MISSING, fields, is_dataclass
from enum import Enum
from fractions import Fraction
from functools import cache
from typing import Any, TypeVar

from powerplan.model.errors import RecordError
from powerplan.model.plan import RECORD_VERSION, Plan

T = TypeVar("T")

_FINEST = 10**6


def to_plain(value: Any) -> Any:
    """Return a value of the model as dicts, lists, text, numbers, booleans and None.

    Fractions become floats, from which :func:`from_plain` finds the same fraction again as long as
    its denominator is at most one million.
    """
    if is_dataclass(value) and not isinstance(value, type):
        return {f.name.rstrip("_"): to_plain(getattr(value, f.name)) for f in fields(value)}
    names = getattr(value, "_fields", None)
    if isinstance(value, tuple) and names is not None:
        return {name: to_plain(item) for name, item in zip(names, value, strict=True)}
    if isinstance(value, tuple):
        return [to_plain(item) for item in value]
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, Fraction):
        return float(value)
    return value


def from_plain(kind: type[T], value: Any, where: str = "record") -> T:
    """Return the model's value of that kind from plain JSON values.

    Parameters
    ----------
    kind : type
        A dataclass of the model, or any type its fields use.
    value : object
        What ``json.loads`` gave.
    where : str
        How to name the place in an error.

    Raises
    ------
    RecordError
        Naming the first place where the value is not of our form.
    """
    return typing.cast(T, _read(kind, value, where))


def plan_from_plain(value: Any) -> Plan:
    """Return the ``Plan`` that a record holds; a RecordError says what is wrong with it."""
    if not isinstance(value, dict) or "record" not in value:
        raise RecordError('this is not a plan record: a JSON object with "record" is wanted')
    if value["record"] != RECORD_VERSION or isinstance(value["record"], bool):
        raise RecordError(
            f"record is {value['record']!r}; this program reads record {RECORD_VERSION}"
        )
    return from_plain(Plan, value)


@cache
def _hints(kind: type) -> dict[str, Any]:
    return typing.get_type_hints(kind)


def _read(kind: Any, value: Any, where: str) -> Any:
    origin = typing.get_origin(kind)
    if origin in (types.UnionType, typing.Union):
        inner = [part for part in typing.get_args(kind) if part is not type(None)]
        return None if value is None else _read(inner[0], value, where)
    if origin is tuple:
        return _read_tuple(typing.get_args(kind), value, where)
    if is_dataclass(kind):
        return _read_dataclass(kind, value, where)
    if isinstance(kind, type) and issubclass(kind, Enum):
        try:
            return kind(value)
        except ValueError:
            allowed = ", ".join(str(item.value) for item in kind)
            raise RecordError(f"{where}: {value!r} is not one of {allowed}") from None
    return _read_scalar(kind, value, where)


def _read_tuple(args: tuple[Any, ...], value: Any, where: str) -> tuple[Any, ...]:
    if not isinstance(value, list):
        raise RecordError(f"{where}: a list is wanted, not {value!r:.60}")
    if len(args) == 2 and args[1] is Ellipsis:
        return tuple(_read(args[0], item, f"{where}[{n}]") for n, item in enumerate(value))
    if len(value) != len(args):
        raise RecordError(f"{where}: {len(args)} values are wanted, not {len(value)}")
    pairs = zip(args, value, strict=True)
    return tuple(_read(arg, item, f"{where}[{n}]") for n, (arg, item) in enumerate(pairs))


def _read_dataclass(kind: Any, value: Any, where: str) -> Any:
    if not isinstance(value, dict):
        raise RecordError(f"{where}: an object is wanted, not {value!r:.60}")
    hints = _hints(kind)
    names = {name.rstrip("_"): name for name in hints}
    later = {f.name.rstrip("_") for f in fields(kind) if f.default is not MISSING}
    for key in value:
        if key not in names:
            raise RecordError(f"{where}: the key {key!r:.60} is not known")
    for key in names:
        if key not in value and key not in later:
            raise RecordError(f"{where}: the key {key!r} is missing")
    given = {key: name for key, name in names.items() if key in value}
    return kind(
        **{name: _read(hints[name], value[key], f"{where}.{key}") for key, name in given.items()}
    )


def _read_scalar(kind: Any, value: Any, where: str) -> Any:
    if kind in (float, Fraction):
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise RecordError(f"{where}: a number is wanted, not {value!r:.60}")
        try:
            number = float(value)
        except OverflowError:
            number = math.inf
        if not math.isfinite(number):
            raise RecordError(f"{where}: the number is too large or not a number")
        return number if kind is float else Fraction(number).limit_denominator(_FINEST)
    if type(value) is not kind:
        raise RecordError(f"{where}: {kind.__name__} is wanted, not {value!r:.60}")
    return value
