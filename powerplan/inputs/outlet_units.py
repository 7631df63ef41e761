"""Outlet units as the spec has them."""

from __future__ import annotations

from powerplan.inputs import written_loose as wl
from powerplan.inputs.reading import Reading, grid_m, limit_a
from powerplan.inputs.tables import PlanTables, Table
from powerplan.model.spec import OutletUnitKind


def outlet_units_of(reading: Reading, tables: PlanTables) -> tuple[OutletUnitKind, ...]:
    """Return every kind of outlet unit that could be read. [m, A]"""
    units = (_unit(reading, table) for table in tables.outlet_units)
    return tuple(unit for unit in units if unit is not None)


def _unit(reading: Reading, table: Table[wl.OutletUnit]) -> OutletUnitKind | None:
    it = table.it
    wire = None
    if table.has("cord"):
        wire = reading.wire((*table.at("cord"), "wire"), it.cord.wire)
    if table.spoiled:
        return None
    return OutletUnitKind(
        id=table.name,
        width_m=grid_m(it.size.width),
        depth_m=grid_m(it.size.depth),
        height_m=grid_m(it.size.height),
        sockets=it.sockets,
        rating_a=limit_a(it.rating),
        cord_m=grid_m(it.cord.length),
        cord_wire=wire,
        listed=it.listed,
    )
