"""Read the rule sets that ship with the program."""

from __future__ import annotations

import csv
import io
import tomllib
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

from powerplan.model.errors import RulebookError
from powerplan.model.findings import Bound, Force, Rule, Source, Standing
from powerplan.model.lengths import FOOT_M, INCH_M
from powerplan.model.rules import Number, RuleSet, SocketLimit, Wire

_DATA = Path(__file__).parent / "data"  # importlib.resources would cost a quick answer 20 ms
_FEET_PER_KFT = 1000


def rule_set_ids() -> tuple[str, ...]:
    """Return the names of every rule set that ships, in order."""
    names = (entry.name for entry in _DATA.iterdir())
    return tuple(sorted(name.removesuffix(".toml") for name in names if name.endswith(".toml")))


@cache
def rule_set(name: str) -> RuleSet:
    """Return a rule set by name.

    Raises
    ------
    RulebookError
        If no rule set has that name, or if one of its rows has no source.
    """
    if name not in rule_set_ids():
        raise RulebookError(f"no rule set is called {name!r}; there is {', '.join(rule_set_ids())}")
    data = tomllib.loads((_DATA / f"{name}.toml").read_text(encoding="utf-8"))
    return RuleSet(
        id=data["id"],
        title=data["title"],
        edition=data["edition"],
        numbers={key: _number(key, row) for key, row in data["number"].items()},
        rules={key: _rule(key, row) for key, row in data["rule"].items()},
        wires={row["name"]: _wire(row) for row in _rows(f"wires-{name}.csv")},
        sockets=tuple(_socket(row) for row in _rows(f"sockets-{name}.csv")),
        breakers_a=tuple(Fraction(text) for text in data["breakers"]),
        sold_m=tuple(round(float(feet * FOOT_M), 6) for feet in data["sold_ft"]),
        resistance_basis=data["resistance_basis"],
    )


def _source(where: str, row: dict[str, Any]) -> Source:
    cite = row.get("source", "").strip()
    if not cite:
        raise RulebookError(f"{where} has no source")
    try:
        return Source(cite=cite, standing=Standing(row.get("standing", "")))
    except ValueError:
        raise RulebookError(f"{where} has no standing that we know") from None


def _number(name: str, row: dict[str, Any]) -> Number:
    value = _metres(row["value"]) if row["unit"] == "m" else Fraction(row["value"])
    return Number(
        name=name,
        meaning=row["meaning"],
        value=value,
        unit=row["unit"],
        source=_source(f"number {name}", row),
    )


def _metres(text: str) -> Fraction:
    """Read ``50 ft``, ``2 1/4 in``, ``0.36 in`` or ``25 mm`` exactly."""
    *parts, unit = text.split()
    scale = {"ft": FOOT_M, "in": INCH_M, "mm": Fraction(1, 1000), "m": Fraction(1)}[unit]
    return sum((Fraction(part) for part in parts), Fraction(0)) * scale


def _rule(name: str, row: dict[str, Any]) -> Rule:
    return Rule(
        id=name,
        requirement=row["requirement"],
        bound=Bound(row["bound"]),
        unit=row["unit"],
        force=Force(row["force"]),
        source=_source(f"rule {name}", row),
    )


def _rows(filename: str) -> list[dict[str, str]]:
    text = (_DATA / filename).read_text(encoding="utf-8")
    return list(csv.DictReader(io.StringIO(text)))


def _wire(row: dict[str, str]) -> Wire:
    def amps(key: str) -> Fraction | None:
        return Fraction(row[key]) if row[key] else None

    return Wire(
        name=row["name"],
        rank=int(row["rank"]),
        ohm_per_m=float(Fraction(row["ohm_per_kft"]) / (_FEET_PER_KFT * FOOT_M)),
        max_breaker_a=amps("max_breaker_a"),
        cord_a=amps("cord_a"),
        set_short_a=amps("set_short_a"),
        set_long_a=amps("set_long_a"),
        source=_source(f"wire {row['name']}", row),
    )


def _socket(row: dict[str, str]) -> SocketLimit:
    return SocketLimit(
        circuit_a=Fraction(row["circuit_a"]),
        socket_a=Fraction(row["socket_a"]),
        limit_a=Fraction(row["limit_a"]),
        source=_source(f"socket {row['socket_a']} A", row),
    )
