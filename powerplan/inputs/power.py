"""What a chair takes and through which lead: of its own, of a supply on the floor, or of a pack."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from powerplan.inputs import written as w
from powerplan.inputs import written_loose as wl
from powerplan.inputs.reading import Reading, grid_m, load_a, micro
from powerplan.inputs.saying import meant, named
from powerplan.inputs.tables import PlanTables, Table
from powerplan.model.lengths import amps_text
from powerplan.model.seats import ELSEWHERE
from powerplan.model.spec import Battery, SupplyKind


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadLoad:
    """What is drawn from a circuit, and the part of it that lasts. [A]"""

    input_a: Fraction
    continuous_a: Fraction
    continuous_said: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadSupply:
    """A kind of supply and what it draws."""

    kind: SupplyKind
    load: ReadLoad


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadPower:
    """What a kind of chair draws, its lead, and where that comes from. [m]"""

    load: ReadLoad
    lead_m: float
    lead_wire: str | None
    longer_leads_m: tuple[float, ...]
    supply: str | None = None
    battery: Battery | None = None


WITHOUT = ReadPower(
    load=ReadLoad(input_a=Fraction(0), continuous_a=Fraction(0), continuous_said=True),
    lead_m=0.0,
    lead_wire=None,
    longer_leads_m=(),
)
"""What a chair without a motor takes: nothing."""

_OF_THE_SUPPLY = (
    *("input", "power", "power_factor", "continuous", "lead", "lead_wire", "longer_cords"),
    *("chain", "battery"),
)
_OF_THE_CHARGER = ("input", "power", "power_factor", "continuous", "chain")


def supplies_of(reading: Reading, tables: PlanTables) -> dict[str, ReadSupply]:
    """Return every kind of supply that could be read, by its name."""
    read = {table.name: _supply(reading, table) for table in tables.supplies}
    return {name: supply for name, supply in read.items() if supply is not None}


def _supply(reading: Reading, table: Table[wl.Supply]) -> ReadSupply | None:
    it = table.it
    load = _load(reading, table)
    cords = [it.wall_cord, it.chair_cord]
    wires = [
        None if cord is None else reading.wire((*table.at(key), "wire"), cord.wire)
        for key, cord in zip(("wall_cord", "chair_cord"), cords, strict=True)
    ]
    wall_m = it.wall_cord.length if table.has("wall_cord") else None
    longer = _longer_m(reading, table, "wall cord", wall_m)
    if table.has("chair_cord") and it.chair_cord.wire and it.chair_cord.resistance:
        words = "wire is written too; the resistance that was measured is wanted alone"
        reading.faults.add((*table.at("chair_cord"), "resistance"), words)
    if table.spoiled or load is None:
        return None
    ohm = it.chair_cord.resistance
    kind = SupplyKind(
        id=table.name,
        width_m=grid_m(it.size.width),
        depth_m=grid_m(it.size.depth),
        height_m=grid_m(it.size.height),
        wall_cord_m=grid_m(it.wall_cord.length),
        wall_cord_wire=wires[0],
        longer_cords_m=longer,
        chair_cord_m=grid_m(it.chair_cord.length),
        chair_cord_wire=wires[1],
        chair_cord_ohm=None if ohm is None else round(float(ohm), 6),
        output_v=load_a(it.output),
        output_a=load_a(it.output_current),
        feeds=it.feeds or 1,
    )
    return ReadSupply(kind=kind, load=load)


def power_of(
    reading: Reading,
    table: Table[w.Chair],
    supplies: Mapping[str, ReadSupply],
    names: list[str],
) -> ReadPower | None:
    """Return what feeds a kind of chair, or None where that could not be read.

    Parameters
    ----------
    reading : Reading
        Where faults and assumptions are noted.
    table : Table
        The chair's table.
    supplies : mapping of str to ReadSupply
        The supplies that could be read.
    names : list of str
        The names of all supplies that are written.
    """
    if not table.sound("supply", "battery"):
        return None  # what else is wanted hangs on these
    if table.it.supply is not None:
        return _from_supply(reading, table, supplies, names)
    battery = table.it.battery
    if battery is not None:
        _refuse(reading, table, _OF_THE_CHARGER, "the pack's charger is what draws current")
    load = _load(reading, table) if battery is None else _charger(reading, table, battery)
    lead_wire = reading.wire(table.at("lead_wire"), table.it.lead_wire)
    longer = _longer_m(reading, table, "lead", table.it.lead)
    away = battery is not None and battery.charged == ELSEWHERE
    if load is None or (table.it.lead is None and not away):
        return None
    return ReadPower(
        load=load,
        lead_m=0.0 if table.it.lead is None else grid_m(table.it.lead),
        lead_wire=lead_wire,
        longer_leads_m=longer,
        battery=None
        if battery is None
        else Battery(charger_a=load.input_a, charged=battery.charged),
    )


def _from_supply(
    reading: Reading,
    table: Table[w.Chair],
    supplies: Mapping[str, ReadSupply],
    names: list[str],
) -> ReadPower | None:
    name = table.it.supply or ""
    if name not in names:
        hint = meant(name, names) if names else "; write [supply.NAME] for it"
        reading.faults.add(table.at("supply"), f"supply {named(name)} is not written{hint}")
    _refuse(reading, table, _OF_THE_SUPPLY, f"[supply.{name}] says that")
    read = supplies.get(name)
    if read is None:
        return None
    return ReadPower(
        load=read.load,
        lead_m=read.kind.wall_cord_m,
        lead_wire=read.kind.wall_cord_wire,
        longer_leads_m=read.kind.longer_cords_m,
        supply=name,
    )


def _refuse(reading: Reading, table: Table[w.Chair], keys: tuple[str, ...], why: str) -> None:
    for key in keys:
        if getattr(table.it, key) is not None:
            reading.faults.add(table.at(key), f"{why}; take this line out")


def _charger(reading: Reading, table: Table[w.Chair], battery: w.Battery) -> ReadLoad:
    charger_a = load_a(battery.charger_input)
    words = f"all of its charger's {amps_text(charger_a)} counts as lasting while it is plugged in"
    reading.assume(_named(table), words)
    return ReadLoad(input_a=charger_a, continuous_a=charger_a, continuous_said=True)


def _load(reading: Reading, table: Table[Any]) -> ReadLoad | None:
    input_a = _input_a(reading, table)
    continuous_a = _continuous_a(reading, table, input_a)
    if input_a is None or continuous_a is None:
        return None
    said = table.it.continuous is not None
    return ReadLoad(input_a=input_a, continuous_a=continuous_a, continuous_said=said)


def _named(table: Table[Any]) -> str:
    return f"{table.path[0]} {table.name}"


def _longer_m(
    reading: Reading, table: Table[Any], usual: str, usual_m: Fraction | None
) -> tuple[float, ...]:
    """Return the longer cords that a maker sells, rising; each is longer than the usual. [m]"""
    longer = table.it.longer_cords or ()
    for number, length in enumerate(longer):
        if usual_m is not None and micro(length) <= micro(usual_m):
            words = f"{reading.text(length)} is not longer than the {usual} of"
            path = (*table.at("longer_cords"), number)
            reading.faults.add(path, f"{words} {reading.text(usual_m)}; name only longer ones")
    return tuple(sorted({grid_m(length) for length in longer}))


def _input_a(reading: Reading, table: Table[Any]) -> Fraction | None:
    """Return the amperes of one chair or supply, rounded up where finer than a microampere. [A]"""
    it, faults = table.it, reading.faults
    if not table.sound("input", "power", "power_factor"):
        return None
    if it.input is not None:
        for key in ("power", "power_factor"):
            if getattr(it, key) is not None:
                faults.add(table.at(key), "input is written too; one of the two is wanted")
        return load_a(it.input)
    if it.power is None and it.power_factor is None:
        words = 'input is missing: amperes on the INPUT line of the label, such as "1.8 A"'
        faults.add(table.path, words)
        return None
    if it.power is None or it.power_factor is None:
        key, other = ("power", "power_factor") if it.power else ("power_factor", "power")
        words = f"{other} is missing beside it: watts alone do not give amperes"
        faults.add(table.at(key), f"{words}; write both, or input with the label's amperes")
        return None
    volts = reading.rules.exact("nominal_voltage")
    input_a = load_a(it.power / (volts * it.power_factor))
    words = f"{float(it.power):g} W at {float(volts):g} V and power factor"
    words += f" {float(it.power_factor):g} draws {amps_text(input_a)}"
    reading.assume(_named(table), words)
    return input_a


def _continuous_a(reading: Reading, table: Table[Any], input_a: Fraction | None) -> Fraction | None:
    if input_a is None or not table.sound("continuous"):
        return None
    if table.it.continuous is None:
        if reading.rules.weighs_lasting:
            words = f"all of its {amps_text(input_a)} counts as lasting 3 h or more"
            reading.assume(_named(table), words)
        return input_a
    continuous_a = load_a(table.it.continuous)
    if continuous_a > input_a:
        whose = f"the {table.path[0]}'s input of {amps_text(input_a)}"
        words = f"{amps_text(continuous_a)} is more than {whose}"
        reading.faults.add(table.at("continuous"), words)
    return continuous_a
