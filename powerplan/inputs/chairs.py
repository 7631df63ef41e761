"""Kinds of chair as the spec has them, and what must hold among their measures."""

from __future__ import annotations

from collections.abc import Mapping

from powerplan.inputs import written as w
from powerplan.inputs.moving_parts import parts_of
from powerplan.inputs.power import WITHOUT, ReadSupply, power_of
from powerplan.inputs.reading import (
    Reading,
    grid_m,
    grid_or_unknown_m,
    limit_a,
    limit_or_unknown_a,
)
from powerplan.inputs.tables import PlanTables, Table
from powerplan.model.geometry import Point
from powerplan.model.seats import ELSEWHERE
from powerplan.model.spec import Chain, ChairKind, ClearZone


def chairs_of(
    reading: Reading, tables: PlanTables, supplies: Mapping[str, ReadSupply]
) -> tuple[ChairKind, ...]:
    """Return every kind of chair that could be read, with the supplies they name. [m, A]"""
    if not tables.chairs and not tables.written("chair"):
        reading.faults.add((), "no [chair.NAME] is written; one kind of chair is wanted at least")
    kinds = (_chair(reading, tables, table, supplies) for table in tables.chairs)
    return tuple(kind for kind in kinds if kind is not None)


def _chair(
    reading: Reading,
    tables: PlanTables,
    table: Table[w.Chair],
    supplies: Mapping[str, ReadSupply],
) -> ChairKind | None:
    it = table.it
    _check_measures(reading, table)
    _check_clear(reading, table)
    _check_lead_from(reading, table)
    powered = it.powered is not False
    _check_power(reading, table)
    names = [table.name for table in tables.supplies]
    power = power_of(reading, table, supplies, names) if powered else WITHOUT
    chain = _chain(reading, table)
    parts = parts_of(reading, tables, table.name)
    if table.spoiled or power is None:
        return None
    away = it.battery is not None and it.battery.charged == ELSEWHERE
    if powered and not away and it.lead_from is None:
        return None
    return ChairKind(
        id=table.name,
        seat_width_m=grid_m(it.seat_width),
        arm_width_m=grid_m(it.arm_width),
        depth_m=grid_m(it.depth),
        rear_of_base_m=grid_m(it.rear_of_base),
        back_travel_m=grid_m(it.back_travel),
        reclined_reach_m=grid_m(it.reclined_reach),
        clear=_middle_of_seat(it) if it.measured is False else _clear_zone(it.clear),
        arm_gap_m=grid_or_unknown_m(it.arm_gap),
        rear_gap_m=grid_or_unknown_m(it.rear_gap),
        input_a=power.load.input_a,
        continuous_a=power.load.continuous_a,
        continuous_said=power.load.continuous_said,
        lead_m=power.lead_m,
        lead_wire=power.lead_wire,
        coupler_a=limit_or_unknown_a(it.coupler),
        lead_from=_lead_from(reading, it),
        chain=chain,
        supply=power.supply,
        longer_leads_m=power.longer_leads_m,
        battery=power.battery,
        powered=powered,
        measured=it.measured is not False,
        parts=parts,
    )


_OF_POWER = (
    *("input", "power", "power_factor", "continuous", "lead", "longer_cords", "chain"),
    *("supply", "battery"),
)


def _check_power(reading: Reading, table: Table[w.Chair]) -> None:
    """A powered chair says where its cord is and how long; one without power says neither."""
    it, faults = table.it, reading.faults
    if it.powered is False:
        for key in _OF_POWER:
            if getattr(it, key) is not None:
                words = "powered = false says that it has no motor; leave this out"
                faults.add(table.at(key), words)
        return
    if not table.sound("supply", "battery"):
        return  # whether a lead is wanted hangs on these
    away = it.battery is not None and it.battery.charged == ELSEWHERE
    for key, hint in (
        ("lead", 'plug to where the cord leaves the chair, such as "6 ft"'),
        (
            "lead_from",
            'where the cord leaves the chair, such as { right = "0 in", forward = "10 in" }',
        ),
    ):
        asked = not away and (key == "lead_from" or it.supply is None)
        if asked and getattr(it, key) is None and table.sound(key):
            faults.add(table.path, f"{key} is missing: {hint}")


def _lead_from(reading: Reading, it: w.Chair) -> Point:
    """Where the cord leaves; of a chair not measured just behind it, as near as cords may come."""
    if it.measured is False:
        rules = reading.rules
        return (0.0, -grid_m(rules.exact("cord_clearance") + rules.exact("cord_diameter")))
    if it.lead_from is None:
        return (0.0, grid_m(it.rear_of_base))
    return (grid_m(it.lead_from.right), grid_m(it.lead_from.forward))


def _middle_of_seat(it: w.Chair) -> ClearZone:
    """Where a mark goes under a chair not measured: the middle half of it, with no height clear."""
    return ClearZone(
        from_m=grid_m(it.depth / 4),
        to_m=grid_m(it.depth * 3 / 4),
        width_m=grid_m(it.seat_width / 2),
        height_m=0.0,
    )


def _clear_zone(clear: w.Clear | None) -> ClearZone | None:
    if clear is None:
        return None
    return ClearZone(
        from_m=grid_m(clear.from_),
        to_m=grid_m(clear.to),
        width_m=grid_m(clear.width),
        height_m=grid_m(clear.height),
    )


def _check_measures(reading: Reading, table: Table[w.Chair]) -> None:
    it, text = table.it, reading.text
    if table.has("rear_of_base", "depth") and it.rear_of_base >= it.depth:
        words = f"{text(it.rear_of_base)} is not less than the chair's depth of {text(it.depth)}"
        reading.faults.add(table.at("rear_of_base"), words)
    if table.has("depth", "reclined_reach") and it.reclined_reach < it.depth:
        words = f"{text(it.reclined_reach)} is less than the chair's depth of {text(it.depth)}"
        words += "; it is measured from the upright headrest too"
        reading.faults.add(table.at("reclined_reach"), words)


def _check_clear(reading: Reading, table: Table[w.Chair]) -> None:
    """The clear zone lies under the seat, inside the base."""
    it, text, clear = table.it, reading.text, table.it.clear
    if clear is None:
        return
    if clear.from_ >= clear.to:
        words = f"from {text(clear.from_)} is not less than to {text(clear.to)}"
        reading.faults.add((*table.at("clear"), "from"), words)
    base_is_sane = table.has("rear_of_base", "depth") and it.rear_of_base < it.depth
    if base_is_sane and clear.from_ < it.rear_of_base:
        words = f"{text(clear.from_)} is behind the rear of the base at {text(it.rear_of_base)}"
        reading.faults.add((*table.at("clear"), "from"), words)
    if table.has("depth") and clear.to > it.depth:
        words = f"{text(clear.to)} is ahead of the front of the base at {text(it.depth)}"
        reading.faults.add((*table.at("clear"), "to"), words)
    if table.has("seat_width") and clear.width > it.seat_width:
        words = (
            f"{text(clear.width)} is more than the seat's {text(it.seat_width)} between the arms"
        )
        reading.faults.add((*table.at("clear"), "width"), words)


def _check_lead_from(reading: Reading, table: Table[w.Chair]) -> None:
    """The cord leaves behind the base or in the clear zone, never in the mechanism."""
    it, text = table.it, reading.text
    if it.lead_from is None or not table.has("rear_of_base") or not table.sound("clear"):
        return
    right, forward, clear = abs(it.lead_from.right), it.lead_from.forward, it.clear
    path = table.at("lead_from")
    if forward <= it.rear_of_base:
        if table.has("seat_width", "arm_width"):
            half = it.seat_width / 2 + it.arm_width
            if right > half:
                words = f"{text(right)} from the middle is beside the chair, which ends at"
                reading.faults.add((*path, "right"), f"{words} {text(half)}")
        return
    if clear is None:
        words = f"{text(forward)} is ahead of the rear of the base at {text(it.rear_of_base)}"
        words += ", and no clear zone is known; measure clear, or where the cord leaves"
        reading.faults.add((*path, "forward"), words)
    elif not clear.from_ <= forward <= clear.to:
        words = f"{text(forward)} is neither behind the base (up to {text(it.rear_of_base)}) nor"
        words += f" in the clear zone ({text(clear.from_)} to {text(clear.to)})"
        reading.faults.add((*path, "forward"), words)
    elif right > clear.width / 2:
        words = f"{text(right)} from the middle is outside the clear zone, which is"
        reading.faults.add((*path, "right"), f"{words} {text(clear.width / 2)} to either side")


def _chain(reading: Reading, table: Table[w.Chair]) -> Chain | None:
    chain = table.it.chain
    if chain is None:
        return None
    if table.it.coupler is None and table.sound("coupler"):
        words = "coupler is missing: beside chain the least rating of plug, lead and inlet is"
        reading.faults.add(table.at("coupler"), f'{words} needed, such as "10 A"')
    return Chain(
        current_a=limit_a(chain.current),
        chairs=chain.chairs,
        link_m=grid_m(chain.link),
        wire=reading.wire((*table.at("chain"), "wire"), chain.wire),
    )
