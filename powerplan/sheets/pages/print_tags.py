"""What cords and their ends are called on paper: a number on the tag, and names for both ends."""

from __future__ import annotations

from powerplan.model.plan import Cord, Plan

LINK = "link"
EXTENSION = "extension"
JOINT = "+"


def bag_of(cord: Cord, plan: Plan) -> str:
    """Return the chair in whose bag a cord is: the one that it serves, at its end or further on."""
    name = cord.to.rpartition(JOINT)[2]
    served = {supply.id: supply.chairs for supply in plan.supplies}
    served |= {unit.id: unit.chairs for unit in plan.outlet_units}
    return next(iter(served.get(name, ())), name)


def in_bags(plan: Plan) -> tuple[Cord, ...]:
    """Return every cord in the order of its bag, row by row from the left."""
    order = {chair.id: number for number, chair in enumerate(plan.chairs)}
    return tuple(sorted(plan.cords, key=lambda cord: order.get(bag_of(cord, plan), len(order))))


def link_fed(plan: Plan) -> tuple[str, ...]:
    """Return the chairs that a link feeds, from the left, row by row: the own lead that each comes
    with is not used, and a link finds no free inlet where that lead is fixed."""
    chairs = {chair.id for chair in plan.chairs}
    return tuple(c.to for c in in_bags(plan) if c.kind == LINK and c.to in chairs)


def tag_numbers(plan: Plan) -> dict[str, int]:
    """Return the number on each cord's tag, counted bag by bag."""
    return {cord.id: number for number, cord in enumerate(in_bags(plan), 1)}


def tag_text(number: int) -> str:
    """Return what stands on a tag, on paper and on the cord."""
    return f"cord {number}"


def end_name(name: str, plan: Plan) -> str:
    """Return what one end of a cord is called, so that no cord reads like a box.

    Parameters
    ----------
    name : str
        An outlet, a box, a chair, a supply, an outlet unit or a joint.
    plan : Plan
        For what there is.
    """
    if JOINT in name:
        return f"joint at {name.rpartition(JOINT)[2]}"
    if name in {chair.id for chair in plan.chairs}:
        return f"chair {name}"
    if name in {outlet.id for outlet in plan.spec.outlets}:
        return f"outlet {name}"
    return name


def ends_text(cord: Cord, plan: Plan) -> str:
    """Return both ends of a cord: "box A2 to chair A1"."""
    return f"{end_name(cord.from_, plan)} to {end_name(cord.to, plan)}"


def plug_text(name: str, plan: Plan, *, last: bool, link: bool) -> str:
    """Return what one end of a cord is plugged into.

    Parameters
    ----------
    name : str
        What the end is at.
    plan : Plan
        For what there is.
    last : bool
        True for the end toward the chair.
    link : bool
        True for a link from chair to chair.
    """
    if JOINT in name:
        joint = name.rpartition(JOINT)[2]
        return f"the lead of {joint}" if last else "its extension cord"
    if name in {chair.id for chair in plan.chairs}:
        return f"{name}'s link socket" if link and not last else f"{name}'s inlet"
    return end_name(name, plan)
