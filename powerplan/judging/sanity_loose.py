"""What must hold of supplies and outlet units in a spec before anything can be recomputed."""

from __future__ import annotations

from collections.abc import Iterator

from powerplan.model.loose import OutletUnitKind, SupplyKind
from powerplan.model.spec import PlanSpec, Row


def loose_faults(spec: PlanSpec) -> Iterator[str]:
    """Say why what lies on the floor cannot be judged: one sentence a fault."""
    names = {kind.id for kind in spec.supplies}
    for what, things in (("supply", spec.supplies), ("outlet unit", spec.outlet_units)):
        ids = [thing.id for thing in things]
        for name in sorted({name for name in ids if ids.count(name) > 1}):
            yield f"spec: {what} {name!r} is there twice"
    for kind in spec.chairs:
        if kind.supply is not None and kind.supply not in names:
            yield f"spec: chair {kind.id!r} has supply {kind.supply!r}, which is not there"
        if kind.supply is not None and (kind.chain is not None or kind.battery is not None):
            yield f"spec: chair {kind.id!r} has a supply on the floor, and a chain or a battery too"
    unit = spec.cords.outlet_unit
    if unit is not None and unit not in {known.id for known in spec.outlet_units}:
        yield f"spec: outlet unit {unit!r} is not there"
    for supply in spec.supplies:
        yield from _supply(supply)
    for thing in spec.outlet_units:
        yield from _unit(thing)
    for row in spec.rows:
        yield from _pairs(spec, row)


def _supply(kind: SupplyKind) -> Iterator[str]:
    where = f"spec: supply {kind.id!r}"
    if min(kind.width_m, kind.depth_m) <= 0.0 or kind.height_m < 0.0:
        yield f"{where} has no size"
    if min(kind.wall_cord_m, kind.chair_cord_m) < 0.0 or (kind.chair_cord_ohm or 0.0) < 0.0:
        yield f"{where} has a negative cord"
    if kind.output_v <= 0 or kind.output_a <= 0:
        yield f"{where} gives nothing"
    if kind.feeds not in (1, 2):
        yield f"{where} feeds {kind.feeds} seats"


def _unit(kind: OutletUnitKind) -> Iterator[str]:
    where = f"spec: outlet unit {kind.id!r}"
    if min(kind.width_m, kind.depth_m) <= 0.0 or kind.height_m < 0.0:
        yield f"{where} has no size"
    if kind.sockets < 1 or kind.rating_a <= 0 or kind.cord_m < 0.0:
        yield f"{where} has no socket, no rating or a negative cord"


def _pairs(spec: PlanSpec, row: Row) -> Iterator[str]:
    where = f"spec: row {row.id!r}"
    seats = [seat for pair in row.shared_supplies for seat in pair]
    near = all(1 <= left < row.seats and right == left + 1 for left, right in row.shared_supplies)
    if not near or len(set(seats)) < len(seats):
        yield f"{where}: shared_supplies does not name pairs of neighbors once each"
        return
    feeds = {supply.id: supply.feeds for supply in spec.supplies}
    kinds = {kind.id: kind for kind in spec.chairs}
    for left, right in row.shared_supplies:
        names = {kinds[name].supply for name in _kinds_of(row, (left, right)) if name in kinds}
        if len(names) != 1 or feeds.get(next(iter(names)) or "") != 2:
            yield f"{where}: seats {left} and {right} have no supply that two may share"


def _kinds_of(row: Row, seats: tuple[int, int]) -> list[str]:
    mixed = [piece.kind or row.chair for piece in row.pieces if piece.what == "seat"]
    return [mixed[seat - 1] if seat <= len(mixed) else row.chair for seat in seats]
