"""Existing circuits as the spec has them: breaker, wire, what is on them, what was found."""

from __future__ import annotations

from fractions import Fraction

from powerplan.inputs import written as w
from powerplan.inputs.fields import text
from powerplan.inputs.on_it import Item
from powerplan.inputs.reading import Reading, grid_or_unknown_m, limit_or_unknown_a, load_a
from powerplan.inputs.saying import meant, named
from powerplan.inputs.tables import PlanTables, Table, natural
from powerplan.model.lengths import amps_text
from powerplan.model.spec import Circuit, Load


def circuits_of(reading: Reading, tables: PlanTables) -> tuple[Circuit, ...]:
    """Return every existing circuit. [A, m]"""
    for table in tables.circuits:
        _check_first_outlet(reading, table, tables)
    return tuple(_circuit(reading, table) for table in tables.circuits)


def _circuit(reading: Reading, table: Table[w.Circuit]) -> Circuit:
    it = table.it
    known, not_measured = _loads(reading, table)
    whole = it.already_on_it is not None and not not_measured
    return Circuit(
        id=table.name,
        breaker_a=limit_or_unknown_a(it.breaker),
        wire=reading.wire(table.at("wire"), it.wire),
        home_run_m=grid_or_unknown_m(it.home_run),
        already_on_it=known if whole else None,
        partly_on_it=() if whole else known,
        not_measured=not_measured,
        shared_neutral=it.shared_neutral,
        switched=it.switched,
        ground=it.ground,
        conductor=it.conductor,
        gfci=it.gfci,
        afci=it.afci,
        first_outlet=it.first_outlet,
    )


def _check_first_outlet(reading: Reading, table: Table[w.Circuit], tables: PlanTables) -> None:
    first = table.it.first_outlet
    if first is None:
        return
    mine = [one.name for one in tables.outlets if one.it.circuit == table.name]
    if first not in mine:
        words = f"outlet {named(first)} is not on circuit {named(table.name)}"
        hint = meant(first, mine) or "; write [outlet.NAME] with this circuit for it"
        reading.faults.add(table.at("first_outlet"), f"{words}{hint}")


def _loads(reading: Reading, table: Table[w.Circuit]) -> tuple[tuple[Load, ...], tuple[str, ...]]:
    """What is on it as far as it is known, and the names of what is not."""
    known, not_measured = [], []
    written = table.it.already_on_it or {}
    for name in sorted(written, key=natural):
        try:
            text(name)
        except ValueError as fault:
            reading.faults.add((*table.at("already_on_it"), name), str(fault))
        current_a = _current_a(reading, table.name, name, written[name])
        if current_a is None:
            not_measured.append(name)
            continue
        lasts = written[name].lasts
        if lasts is None and current_a and reading.rules.weighs_lasting:
            words = f"{name}, {amps_text(current_a)}, counts as lasting 3 h or more"
            reading.assume(f"circuit {table.name}", words)
        known.append(Load(name=name, current_a=current_a, continuous=lasts is not False))
    return tuple(known), tuple(not_measured)


def _current_a(reading: Reading, circuit: str, name: str, item: Item) -> Fraction | None:
    """Return the amperes of all of it, rounded up where finer than a microampere. [A]"""
    each_a = item.current_a
    if item.power_w is not None and item.power_factor is not None:
        volts = reading.rules.exact("nominal_voltage")
        each_a = load_a(item.power_w / (volts * item.power_factor))
        words = f"{name}: {float(item.power_w):g} W at {float(volts):g} V and power factor"
        words += f" {float(item.power_factor):g} draws {amps_text(each_a)}"
        reading.assume(f"circuit {circuit}", words)
    return None if each_a is None else load_a(each_a * item.pieces)
