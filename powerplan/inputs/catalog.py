"""The generic kinds of chair that ship: invented examples, never a measured chair."""

from __future__ import annotations

import csv
from functools import cache
from importlib.resources import files

_DATA = "generic-chairs.csv"


def generic_kinds() -> tuple[str, ...]:
    """Return the names of the kinds that ship, in the order of their table."""
    return tuple(_kinds())


def generic_values(kind: str) -> dict[str, object]:
    """Return what a generic kind says, by key, as a plan file would have it.

    Raises
    ------
    KeyError
        If no kind that ships has that name.
    """
    return dict(_kinds()[kind])


@cache
def _kinds() -> dict[str, dict[str, object]]:
    kinds: dict[str, dict[str, object]] = {}
    with (files("powerplan.inputs") / "data" / _DATA).open(encoding="utf-8") as stream:
        for row in csv.DictReader(stream):
            several = row["value"].split("; ")
            value: object = several if row["key"] == "row_widths" else row["value"]
            kinds.setdefault(row["kind"], {})[row["key"]] = value
    return kinds
