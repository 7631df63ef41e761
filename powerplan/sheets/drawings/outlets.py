"""Outlets that are there already."""

from __future__ import annotations

from powerplan.model.plan import Plan
from powerplan.model.spec import Wall
from powerplan.sheets.drawings.sketch import Sketch
from powerplan.sheets.drawings.symbols import OUTLET_MM, outlet


def draw_outlets(
    sketch: Sketch, plan: Plan, *, mark_unused: bool = False, for_plugs: bool = False
) -> None:
    """Draw existing outlets with name and circuit.

    Parameters
    ----------
    sketch : Sketch
        The drawing.
    plan : Plan
        The plan.
    mark_unused : bool
        True to say of an outlet into which nothing is plugged that it is not used.
    for_plugs : bool
        True for those who plug in: what no cord goes to is not used, whatever is wired on from it.
    """
    plugged = {cord.from_ for cord in plan.cords}
    used = plugged | {box.wired_from for box in plan.boxes}
    for one in plan.spec.outlets:
        at = (one.x_m, one.y_m)
        if not sketch.sees(at):
            continue
        outlet(sketch, at, level=one.wall in (Wall.LEFT, Wall.RIGHT))
        lines: tuple[str, ...] = (one.id, f"circuit {one.circuit}")
        if mark_unused and one.id not in used:
            lines = (*lines, "not used")
        if for_plugs and plugged and one.id not in plugged:
            lines = (f"{one.id} not used:", "plug nothing here")
        sketch.label(f"outlet {one.id}", lines, (at,), clear_mm=OUTLET_MM + 0.8)
