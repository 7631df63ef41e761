"""Records as the planner makes them, of what no record made by hand has: supplies and an outlet
unit on the floor, and a row on an arc, each with spare cord in coils."""

from dataclasses import replace
from functools import cache

from loose_rooms import make_unit, supply_spec
from support import NEC, inch, make_chair, make_outlet, make_row, make_spec

from powerplan.model.plan import Plan
from powerplan.model.seats import Curve
from powerplan.planning.pipeline import make_plan

__all__ = ["curved", "supplied", "with_a_unit"]


@cache
def supplied() -> Plan:
    """Three chairs, two of them on one supply, and wall cords of 10 ft."""
    return make_plan(supply_spec(seats=3, shared=True, wall_cord_m=inch(120)), NEC, "0" * 64)


@cache
def with_a_unit() -> Plan:
    """Two chairs on an outlet unit, as one socket is free."""
    spec = make_spec(
        chairs=(make_chair(lead_m=inch(84)),),
        rows=(make_row(seats=2),),
        outlets=(make_outlet(x_m=inch(105), sockets=1, free=1),),
        outlet_units=(make_unit(cord_m=inch(96)),),
    )
    return make_plan(replace(spec, cords=replace(spec.cords, outlet_unit="strip")), NEC, "0" * 64)


@cache
def curved() -> Plan:
    """Three chairs on an arc, each with a lead of 10 ft."""
    spec = make_spec(
        chairs=(make_chair(lead_m=inch(120)),),
        rows=(make_row(seats=3, curve=Curve(radius_m=inch(200), touch="front")),),
        outlets=(make_outlet(), make_outlet(id="W2", x_m=inch(140))),
    )
    return make_plan(spec, NEC, "0" * 64)
