"""The layers that drawings are made of, as data: CAD name, line weight, dash and meaning."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import MappingProxyType

_TABLE = Path(__file__).parent / "data" / "layers.csv"


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """One layer. ``dash_mm`` is ink, gap, ink, gap along the line; empty is unbroken. [mm]"""

    key: str
    cad: str
    weight_mm: float
    dash_mm: tuple[float, ...]
    meaning: str


def layer(key: str) -> Layer:
    """Return the layer of that key.

    Raises
    ------
    KeyError
        If there is none.
    """
    return _layers()[key]


def all_layers() -> tuple[Layer, ...]:
    """Return every layer, in the order of the table."""
    return tuple(_layers().values())


@cache
def _layers() -> MappingProxyType[str, Layer]:
    with _TABLE.open(encoding="utf-8", newline="") as file:
        return MappingProxyType({row["key"]: _layer(row) for row in csv.DictReader(file)})


def _layer(row: dict[str, str]) -> Layer:
    return Layer(
        key=row["key"],
        cad=row["cad"],
        weight_mm=float(row["weight_mm"]),
        dash_mm=tuple(float(part) for part in row["dash_mm"].split()),
        meaning=row["meaning"],
    )
