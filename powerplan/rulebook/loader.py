"""Read the rule sets that ship with the program."""

from __future__ import annotations

import csv
import os
from fractions import Fraction
from functools import cache

from powerplan.model.errors import RulebookError
from powerplan.model.findings import Bound, Force, Rule, Source, Standing
from powerplan.model.lengths import FOOT_M, INCH_M
from powerplan.model.rules import Number, RuleSet, SocketLimit, Wire

# Tables at a plain path: a TOML parser, pathlib or importlib.resources would each cost a quick
# answer 10 ms or more.
_DATA = os.path.join(os.path.dirname(__file__), "data")
_SET = "set-"
_FEET_PER_KFT = 1000


def rule_set_ids() -> tuple[str, ...]:
    """Return the names of every rule set that ships, in order."""
    names = os.listdir(_DATA)
    found = (name for name in names if name.startswith(_SET))
    return tuple(sorted(name.removeprefix(_SET).removesuffix(".csv") for name in found))


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
    about = {row["key"]: row for row in _rows(f"{_SET}{name}.csv")}
    for key, row in about.items():
        _source(key, row)
    breakers_a = tuple(Fraction(text) for text in about["breakers"]["value"].split())
    hot = Fraction(about["resistance_factor"]["value"]) if "resistance_factor" in about else 1
    sold = about["sold"]
    return RuleSet(
        id=name,
        title=about["title"]["value"],
        edition=about["edition"]["value"],
        numbers={row["name"]: _number(row["name"], row) for row in _rows(f"numbers-{name}.csv")},
        rules={row["name"]: _rule(row["name"], row) for row in _rows(f"rules-{name}.csv")},
        wires={
            row["name"]: _wire(row, Fraction(hot), breakers_a) for row in _rows(f"wires-{name}.csv")
        },
        sockets=tuple(_socket(row) for row in _rows(f"sockets-{name}.csv")),
        breakers_a=breakers_a,
        sold_m=tuple(_sold_m(f"{text} {sold['unit']}") for text in sold["value"].split()),
        resistance_basis=about["resistance_basis"]["value"],
        wiring_method=about["wiring_method"]["value"] if "wiring_method" in about else "",
        units=about["units"]["value"] if "units" in about else "ft-in",
        aluminum=_aluminum(f"aluminum-{name}.csv", breakers_a),
    )


def _aluminum(filename: str, breakers_a: tuple[Fraction, ...]) -> dict[str, Wire]:
    """Aluminum wire by size; nothing where the rule set has no table of it."""
    if not os.path.exists(os.path.join(_DATA, filename)):
        return {}
    rows = _rows(filename)
    hot = Fraction(1)
    return {row["name"].removesuffix(" aluminum"): _wire(row, hot, breakers_a) for row in rows}


def _sold_m(text: str) -> float:
    return round(float(_meters(text)), 6)


def _source(where: str, row: dict[str, str]) -> Source:
    cite = row.get("source", "").strip()
    if not cite:
        raise RulebookError(f"{where} has no source")
    try:
        return Source(cite=cite, standing=Standing(row.get("standing", "")))
    except ValueError:
        raise RulebookError(f"{where} has no standing that we know") from None


def _number(name: str, row: dict[str, str]) -> Number:
    value = _meters(row["value"]) if row["unit"] == "m" else Fraction(row["value"])
    return Number(
        name=name,
        meaning=row["meaning"],
        value=value,
        unit=row["unit"],
        source=_source(f"number {name}", row),
    )


def _meters(text: str) -> Fraction:
    """Read ``50 ft``, ``2 1/4 in``, ``0.36 in`` or ``25 mm`` exactly."""
    *parts, unit = text.split()
    scale = {"ft": FOOT_M, "in": INCH_M, "mm": Fraction(1, 1000), "m": Fraction(1)}[unit]
    return sum((Fraction(part) for part in parts), Fraction(0)) * scale


def _rule(name: str, row: dict[str, str]) -> Rule:
    return Rule(
        id=name,
        requirement=row["requirement"],
        bound=Bound(row["bound"]),
        unit=row["unit"],
        force=Force(row["force"]),
        source=_source(f"rule {name}", row),
    )


def _rows(filename: str) -> list[dict[str, str]]:
    with open(os.path.join(_DATA, filename), encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _wire(row: dict[str, str], hot: Fraction, breakers_a: tuple[Fraction, ...]) -> Wire:
    """Read a wire: ohm/kft hot and a breaker, or ohm/km at 20 C and what it carries."""

    def amps(key: str) -> Fraction | None:
        return Fraction(row[key]) if row.get(key) else None

    def breaker_within(key: str) -> Fraction | None:
        carries_a = amps(key)
        within = [size for size in breakers_a if carries_a is not None and size <= carries_a]
        return max(within, default=None)

    if "ohm_per_kft" in row:
        ohm = cord_ohm = Fraction(row["ohm_per_kft"]) / (_FEET_PER_KFT * FOOT_M)
    else:
        ohm, cord_ohm = (
            Fraction(row[key]) * hot / 1000 for key in ("ohm_per_km", "cord_ohm_per_km")
        )

    return Wire(
        name=row["name"],
        rank=int(row["rank"]),
        ohm_per_m=float(ohm),
        cord_ohm_per_m=float(cord_ohm),
        max_breaker_a=amps("max_breaker_a") or breaker_within("carries_a"),
        best_breaker_a=breaker_within("carries_at_best_a"),
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
