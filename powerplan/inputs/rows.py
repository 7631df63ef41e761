"""Rows as the spec has them, and the names of their chairs."""

from __future__ import annotations

from powerplan.inputs import written as w
from powerplan.inputs.reading import Reading, grid_m, grid_or_unknown_m
from powerplan.inputs.row_pieces import Made, made_of, seat_count
from powerplan.inputs.row_places import check_stands
from powerplan.inputs.row_standing import Standing, names_again, stand_rows
from powerplan.inputs.saying import named
from powerplan.inputs.shared import Pairs, shared_supplies
from powerplan.inputs.tables import PlanTables, Table, natural
from powerplan.model.lengths import joined, micrometers
from powerplan.model.seats import TABLE
from powerplan.model.spec import Curve, Row, TableKind

_MOST_SEATS = 200


def tables_of(tables: PlanTables) -> tuple[TableKind, ...]:
    """Return every kind of console or table that could be read. [m]"""
    return tuple(
        TableKind(
            id=table.name,
            width_m=grid_m(table.it.width),
            rear_m=grid_m(table.it.rear),
            front_m=grid_m(table.it.rear + table.it.depth),
            under_m=grid_or_unknown_m(table.it.under),
        )
        for table in tables.tables
        if not table.spoiled
    )


def rows_of(reading: Reading, tables: PlanTables) -> tuple[Row, ...]:
    """Return every row that could be read, and those made like them. [m]"""
    if not tables.rows and not tables.written("row"):
        reading.faults.add((), "no [row.NAME] is written; one row is wanted at least")
    stands = stand_rows(reading, tables)
    rows: list[Row] = []
    for table in tables.rows:
        made = made_of(reading, tables, table)
        _check_curve(reading, tables, table, made)
        pairs: Pairs = ()
        if made is not None:
            pairs = shared_supplies(reading, tables, table, list(made.kinds))
        for name in (table.name, *names_again(table)):
            row = _row(reading, table, name, made, stands.get(name), pairs)
            if row is not None:
                rows.append(row)
    _check_total(reading, tables)
    _check_outlet_names(reading, tables)
    _check_powered(reading, tables, rows)
    return tuple(sorted(rows, key=lambda row: natural(row.id)))


def _row(
    reading: Reading,
    table: Table[w.Row],
    name: str,
    made: Made | None,
    stands: Standing | None,
    pairs: Pairs,
) -> Row | None:
    it = table.it
    half = reading.rules.has("fastened-half")
    if it.fastened is None and table.sound("fastened") and half:
        reading.assume(f"row {name}", "counts as bolted down")
    if name == table.name:
        check_stands(reading, table, None if stands is None else stands.x_m)
    if table.spoiled or made is None or stands is None:
        return None
    curve = None
    if it.curve is not None:
        curve = Curve(radius_m=grid_m(it.curve.radius), touch=it.curve.touch)
    return Row(
        id=name,
        chair=made.kinds[0],
        seats=len(made.kinds),
        headrest_to_wall_m=grid_m(stands.y_m),
        center_x_m=grid_m(stands.x_m),
        no_arm_between=tuple(sorted(it.no_arm_between or ())),
        fastened=it.fastened,
        pieces=made.pieces,
        angle_rad=stands.angle_rad,
        curve=curve,
        shared_supplies=pairs,
    )


def _check_curve(
    reading: Reading, tables: PlanTables, table: Table[w.Row], made: Made | None
) -> None:
    """A curved row touches at one depth, and takes half a circle at most."""
    curve = table.it.curve
    if curve is None or made is None:
        return
    if micrometers(made.width_m) > 2 * micrometers(grid_m(curve.radius)):
        words = f"{reading.text(curve.radius)} is less than half of the row's width; take a larger"
        reading.faults.add((*table.at("curve"), "radius"), f"{words} radius")
    front = curve.touch == "front"
    depths = {}
    for chair in tables.chairs:
        if chair.name in made.kinds and chair.has("depth", "rear_of_base"):
            depths[chair.name] = chair.it.depth if front else chair.it.rear_of_base
    stands = {piece.kind for piece in made.pieces if piece.what == TABLE}
    for stand in tables.tables:
        if stand.name in stands and stand.has("rear", "depth"):
            it = stand.it
            depths[stand.name] = it.rear + it.depth if front else it.rear
    if len(set(depths.values())) > 1:
        told = joined([f"{name} {reading.text(depth)}" for name, depth in depths.items()])
        what = "depth" if front else "rear"
        words = f"what touches at the {curve.touch} of a curved row has one {what}; here are {told}"
        reading.faults.add(table.at("curve"), words)


def _check_total(reading: Reading, tables: PlanTables) -> None:
    total = 0
    for table in tables.rows:
        seats = seat_count(table, tables) * (1 + len(names_again(table)))
        total += seats
        if total > _MOST_SEATS >= total - seats:
            words = f"{total} seats with the rows before; at most {_MOST_SEATS} in all are planned"
            key = "made_of" if table.it.made_of is not None else "seats"
            reading.faults.add(table.at(key), words)


def _check_outlet_names(reading: Reading, tables: PlanTables) -> None:
    """An outlet may not be called like a chair: cords are named by their ends."""
    chairs = {
        f"{name}{seat}"
        for table in tables.rows
        for name in (table.name, *names_again(table))
        for seat in range(1, seat_count(table, tables) + 1)
    }
    for table in tables.outlets:
        if table.name in chairs:
            words = f"a seat is called {named(table.name)} too; give the outlet another name"
            reading.faults.add(table.path, words)


def _check_powered(reading: Reading, tables: PlanTables, rows: list[Row]) -> None:
    still = {table.name for table in tables.chairs if table.it.powered is False}
    if rows and not reading.faults and all(kind in still for row in rows for kind in row.kinds):
        words = "no chair of any row is powered; there is nothing to plan"
        reading.faults.add(("row",), words)
