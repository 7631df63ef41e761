"""Rooms whose chairs have supplies on the floor, or an outlet unit, for tests and laws."""

from dataclasses import replace
from fractions import Fraction
from typing import Any

from hypothesis import strategies as st
from strategies import rooms
from support import inch, make_chair, make_outlet, make_row, make_spec

from powerplan.model.spec import ChairKind, OutletUnitKind, PlanSpec, Row, SupplyKind


def make_supply(**changes: Any) -> SupplyKind:
    """A supply of 7 by 3 by 2 in, 6 ft to the wall and 6 ft to the chair, 29 V and 2 A."""
    base = SupplyKind(
        id="brick",
        width_m=inch(7),
        depth_m=inch(3),
        height_m=inch(2),
        wall_cord_m=inch(72),
        wall_cord_wire="18 AWG",
        longer_cords_m=(),
        chair_cord_m=inch(72),
        chair_cord_wire="18 AWG",
        chair_cord_ohm=None,
        output_v=Fraction(29),
        output_a=Fraction(2),
        feeds=1,
    )
    return replace(base, **changes)


def make_unit(**changes: Any) -> OutletUnitKind:
    """An outlet unit of 12 by 3 by 2 in: four sockets, 12 A, 6 ft of 14 AWG, listed."""
    base = OutletUnitKind(
        id="strip",
        width_m=inch(12),
        depth_m=inch(3),
        height_m=inch(2),
        sockets=4,
        rating_a=Fraction(12),
        cord_m=inch(72),
        cord_wire="14 AWG",
        listed=True,
    )
    return replace(base, **changes)


def on_supply(kind: ChairKind, supply: SupplyKind) -> ChairKind:
    """The chair on that supply: its lead is the supply's wall cord, and it is in no chain."""
    return replace(
        kind,
        supply=supply.id,
        lead_m=supply.wall_cord_m,
        lead_wire=supply.wall_cord_wire,
        longer_leads_m=supply.longer_cords_m,
        chain=None,
    )


def pairs(row: Row) -> Row:
    """The row with its seats sharing supplies by two, from the left."""
    return replace(row, shared_supplies=tuple((left, left + 1) for left in range(1, row.seats, 2)))


def supply_spec(*, seats: int = 1, shared: bool = False, **changes: Any) -> PlanSpec:
    """One row in front of two outlets, each chair on a supply, or two on one."""
    supply = make_supply(feeds=2 if shared else 1, **changes)
    row = make_row(seats=seats)
    return make_spec(
        chairs=(on_supply(make_chair(), supply),),
        supplies=(supply,),
        rows=(pairs(row) if shared else row,),
        outlets=(make_outlet(x_m=inch(105)), make_outlet(id="W2", x_m=inch(140))),
    )


@st.composite
def supply_rooms(draw: st.DrawFn) -> PlanSpec:
    """Rooms as they are planned, every chair on a supply of some size."""
    spec = draw(rooms())
    supply = make_supply(
        width_m=inch(draw(st.sampled_from([4, 7, 11]))),
        depth_m=inch(draw(st.sampled_from([2, 3, 5]))),
        height_m=inch(draw(st.sampled_from([2, 3, 4]))),
        wall_cord_m=inch(draw(st.sampled_from([48, 72, 120]))),
        longer_cords_m=draw(st.sampled_from([(), (inch(144),)])),
        chair_cord_m=inch(draw(st.sampled_from([48, 72, 108]))),
        chair_cord_wire=draw(st.sampled_from(["18 AWG", None])),
        feeds=draw(st.integers(1, 2)),
    )
    rows = tuple(pairs(row) if supply.feeds == 2 else row for row in spec.rows)
    kinds = tuple(on_supply(kind, supply) for kind in spec.chairs)
    return replace(spec, chairs=kinds, rows=rows, supplies=(supply,))
