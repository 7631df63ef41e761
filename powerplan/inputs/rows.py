"""Rows as the spec has them, and the names of their chairs."""

from __future__ import annotations

from powerplan.inputs import written as w
from powerplan.inputs.reading import Reading, grid_m, micro
from powerplan.inputs.row_places import center_x_m, check_stands
from powerplan.inputs.saying import meant, named
from powerplan.inputs.tables import PlanTables, Table
from powerplan.model.spec import Row

_MOST_SEATS = 200


def rows_of(reading: Reading, tables: PlanTables) -> tuple[Row, ...]:
    """Return every row that could be read. [m]"""
    if not tables.rows and not tables.written("row"):
        reading.faults.add((), "no [row.NAME] is written; one row is wanted at least")
    kinds = [table.name for table in tables.chairs]
    rows = tuple(row for row in (_row(reading, table, kinds) for table in tables.rows) if row)
    _check_total(reading, tables)
    _check_outlet_names(reading, tables)
    return rows


def _row(reading: Reading, table: Table[w.Row], kinds: list[str]) -> Row | None:
    it = table.it
    if table.has("chair") and it.chair not in kinds:
        words = f"chair {named(it.chair)} is not written{meant(it.chair, kinds)}"
        reading.faults.add(table.at("chair"), words)
    _check_inside(reading, table)
    _check_pairs(reading, table)
    half = reading.rules.has("fastened-half")
    if it.fastened is None and table.sound("fastened") and half:
        reading.assume(f"row {table.name}", "counts as bolted down")
    center = center_x_m(reading, table)
    check_stands(reading, table, center)
    if table.spoiled or center is None:
        return None
    return Row(
        id=table.name,
        chair=it.chair,
        seats=it.seats,
        headrest_to_wall_m=grid_m(it.headrest_to_wall),
        center_x_m=grid_m(center),
        no_arm_between=tuple(sorted(it.no_arm_between or ())),
        fastened=it.fastened,
    )


def _check_inside(reading: Reading, table: Table[w.Row]) -> None:
    """Only slips are caught here; whether the row fits is for the plan to say."""
    it, text = table.it, reading.text
    if it.center_from_left is not None and reading.width_m is not None:
        past = it.center_from_left - reading.width_m
        if micro(past) > 0:
            words = f"this is {text(past)} past the right wall; the room is"
            reading.faults.add(
                table.at("center_from_left"), f"{words} {text(reading.width_m)} wide"
            )
    if table.has("headrest_to_wall") and reading.depth_m is not None:
        past = it.headrest_to_wall - reading.depth_m
        if micro(past) >= 0:
            words = f"this is {text(past)} past the screen wall; the room is"
            reading.faults.add(
                table.at("headrest_to_wall"), f"{words} {text(reading.depth_m)} deep"
            )


def _check_pairs(reading: Reading, table: Table[w.Row]) -> None:
    pairs = table.it.no_arm_between or ()
    for number, pair in enumerate(pairs):
        path = (*table.at("no_arm_between"), number)
        if pair in pairs[:number]:
            reading.faults.add(path, f"seats {pair[0]} and {pair[1]} are written twice")
        elif table.has("seats") and pair[1] > table.it.seats:
            words = f"there is no seat {pair[1]}; the row has {table.it.seats}"
            reading.faults.add(path, words)


def _check_total(reading: Reading, tables: PlanTables) -> None:
    total = 0
    for table in tables.rows:
        seats = table.it.seats if table.has("seats") else 0
        total += seats
        if total > _MOST_SEATS >= total - seats:
            words = f"{total} seats with the rows before; at most {_MOST_SEATS} in all are planned"
            reading.faults.add(table.at("seats"), words)


def _check_outlet_names(reading: Reading, tables: PlanTables) -> None:
    """An outlet may not be called like a chair: cords are named by their ends."""
    chairs = {
        f"{table.name}{seat}"
        for table in tables.rows
        if table.has("seats")
        for seat in range(1, table.it.seats + 1)
    }
    for table in tables.outlets:
        if table.name in chairs:
            words = f"a seat is called {named(table.name)} too; give the outlet another name"
            reading.faults.add(table.path, words)
