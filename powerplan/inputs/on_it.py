"""What is already on a circuit, as it is written: a table of names, or a list of tables."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from typing import Annotated, Any, NamedTuple

from pydantic import BeforeValidator, PlainValidator

from powerplan.inputs import fields as f
from powerplan.inputs.saying import found, meant, named, shown
from powerplan.inputs.shapes import note_shape, quantity, shape_of


class Item(NamedTuple):
    """One thing on a circuit. ``current_a`` and ``power_w`` both None: not measured. ``lasts``
    None: not said. ``pieces`` is how many there are of it. [A, W]"""

    current_a: Fraction | None
    power_w: Fraction | None
    power_factor: Fraction | None
    lasts: bool | None
    pieces: int


_LASTS = {
    "3 h or more": True,
    "continuous": True,
    "now and then": False,
    "less than 3 h": False,
}
_MANY = 1000
_LOAD_A = f.current(
    "0.001 A",
    "400 A",
    zero=True,
    wanted='amperes such as "2.5 A, continuous" are wanted, or "unknown"',
)


def _said(value: object) -> Item:
    """Read the short form: ``"2.5 A"``, ``"2.5 A, continuous"``, ``"0.5 A, now and then"``."""
    if value == f.UNKNOWN:
        return Item(None, None, None, None, 1)
    amps, lasts = value, None
    if isinstance(value, str) and re.search(r",\s*[a-z]", value, re.IGNORECASE):
        amps, said = (
            part.strip() for part in re.split(r",(?=\s*[a-z])", value, maxsplit=1, flags=re.I)
        )
        kinds = {"continuous": True, "now and then": False}
        if said.lower() not in kinds:
            raise ValueError(
                f'{found(value)}: after the comma "continuous" or "now and then" is wanted'
            )
        lasts = kinds[said.lower()]
    return Item(_LOAD_A(amps), None, None, lasts, 1)


def _lasts(value: object) -> bool | None:
    if value == f.UNKNOWN:
        return None
    if isinstance(value, str) and value.lower() in _LASTS:
        return _LASTS[value.lower()]
    raise ValueError(f'{found(value)} is not one of "3 h or more", "now and then", "unknown"')


_KEYS: Mapping[str, Any] = {
    "name": f.text,
    "input": f.or_unknown(_LOAD_A),
    "power": f.or_unknown(f.power),
    "power_factor": f.power_factor,
    "lasts": _lasts,
    "count": f.count(1, _MANY),
}


def _tabled(value: Mapping[str, object]) -> Item:
    """Read the long form: a table with ``input``, or ``power`` and ``power_factor``."""
    read: dict[str, Any] = {}
    for key, one in value.items():
        if key not in _KEYS:
            raise ValueError(f"the key {named(key)} is not known{meant(key, tuple(_KEYS))}")
        try:
            read[key] = _KEYS[key](one)
        except ValueError as fault:
            raise ValueError(f"{key}: {fault}") from None
    if "input" in read and "power" in read:
        raise ValueError("input and power are both written; one of the two is wanted")
    if "input" not in read and "power" not in read:
        raise ValueError(
            'input is missing: amperes such as "2.5 A", or power with power_factor, or "unknown"'
        )
    if read.get("power") is not None and "power_factor" not in read:
        raise ValueError("power_factor is missing beside power: watts alone do not give amperes")
    if "input" in read and "power_factor" in read:
        raise ValueError("power_factor goes with power, and input is written; leave it out")
    return Item(
        read.get("input"),
        read.get("power"),
        read.get("power_factor"),
        read.get("lasts"),
        read.get("count", 1),
    )


def _item(value: object) -> Item:
    return _tabled(value) if isinstance(value, dict) else _said(value)


def _by_name(value: object) -> object:
    """Turn a list of tables into one table by name; what is unknown into None."""
    if value == f.UNKNOWN:
        return None
    if not isinstance(value, list):
        return value
    by_name: dict[str, object] = {}
    for number, one in enumerate(value, start=1):
        if not isinstance(one, dict):
            words = 'a table such as { name = "rack", input = "2.5 A" } is wanted'
            raise ValueError(f"item {number}: {words}, not {found(one)}")
        name = one.get("name")
        if not isinstance(name, str) or not name.strip():
            raise ValueError(f'item {number}: name is missing: what it is, such as name = "rack"')
        if name.strip() in by_name:
            raise ValueError(
                f'"{shown(name.strip())}" is there twice: write count = 2, or another name'
            )
        by_name[name.strip()] = one
    return by_name


_UNKNOWN = {"const": f.UNKNOWN}
_TABLE = {
    "type": "object",
    "properties": {
        **{key: shape_of(reader) for key, reader in _KEYS.items() if key != "lasts"},
        "lasts": {"type": "string"},
    },
    "additionalProperties": False,
}
note_shape(_item, {"anyOf": [quantity("[aA]"), _UNKNOWN, _TABLE]})
note_shape(_by_name, {"type": "array", "items": {**_TABLE, "required": ["name"]}})

AlreadyOnIt = Annotated[
    dict[str, Annotated[Item, PlainValidator(_item)]] | None, BeforeValidator(_by_name)
]
