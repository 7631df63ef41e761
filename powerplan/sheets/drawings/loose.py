"""Supplies and outlet units on the floor, drawn as they lie."""

from __future__ import annotations

import math

from powerplan.model.geometry import Point
from powerplan.model.loose import OutletUnit, Supply
from powerplan.model.plan import Plan
from powerplan.sheets.drawings.sketch import Sketch
from powerplan.sheets.pages.print_rows import SetRow

_LAYER = "supply"


def draw_loose(sketch: Sketch, plan: Plan, row: SetRow) -> None:
    """Draw every supply and outlet unit of a row: a rectangle with a bar across, and its name.

    Parameters
    ----------
    sketch : Sketch
        The drawing.
    plan : Plan
        The plan.
    row : SetRow
        The row.
    """
    for thing in loose_of(plan, row):
        if not sketch.sees((thing.x_m, thing.y_m)):
            continue
        corners = outline_of(thing)
        sketch.line(corners, _LAYER, closed=True)
        sketch.line((corners[0], corners[2]), _LAYER)
        sketch.label(thing.id, (thing.id,), ((thing.x_m, thing.y_m),), clear_mm=2.0)


def loose_of(plan: Plan, row: SetRow) -> tuple[Supply | OutletUnit, ...]:
    """Return the supplies and outlet units that feed chairs of a row."""
    names = {chair.id for chair in row.chairs}
    things: tuple[Supply | OutletUnit, ...] = (*plan.supplies, *plan.outlet_units)
    return tuple(thing for thing in things if names & set(thing.chairs))


def outline_of(thing: Supply | OutletUnit) -> tuple[Point, ...]:
    """Return the four corners of a thing on the floor. [m]"""
    sine, cosine = math.sin(thing.angle_rad), math.cos(thing.angle_rad)
    wide, deep = thing.width_m / 2, thing.depth_m / 2
    corners = ((-wide, -deep), (wide, -deep), (wide, deep), (-wide, deep))
    return tuple(
        (thing.x_m + u * cosine - v * sine, thing.y_m + u * sine + v * cosine) for u, v in corners
    )
