"""What records of earlier versions said otherwise: the first knew fewer numbers, and no coils."""

from __future__ import annotations

from powerplan.model.plan import Plan

_FIRST_NUMBERS = frozenset(
    (
        *("continuous_factor", "nominal_voltage", "one_plug_share", "fastened_share"),
        *("drop_percent", "usual_breaker", "usual_socket", "set_long", "framing_margin"),
        *("plug_height", "usual_cut_out", "usual_lid", "wall_outlet_height", "cord_clearance"),
        *("gap_over_cord", "cord_diameter", "slack", "slack_factor", "park_over"),
        *("covered_gap", "wall_strip", "passage"),
    )
)
# Requirements that are spelled otherwise now.
_SPELLED = {"row centred on the room": "row centered on the room"}


def is_first(plan: Plan) -> bool:
    """Return True for a record that states the numbers of the first version, all and no others.

    One that also tells a coil, a tail, or anything on the floor is of a later version: the first
    knew none of these.
    """
    later = any(cord.coil_m is not None or cord.tail_m for cord in plan.cords)
    later = later or bool(plan.supplies or plan.outlet_units)
    return not later and {number.name for number in plan.rules.numbers} == _FIRST_NUMBERS


def numbers_known(plan: Plan, known: frozenset[str]) -> frozenset[str]:
    """Return the names of the numbers that a record of its version states.

    Parameters
    ----------
    plan : Plan
        The record.
    known : frozenset of str
        The numbers of its rule set as it is now.
    """
    return _FIRST_NUMBERS if is_first(plan) else known


def requirement_now(text: str) -> str:
    """Return a requirement as it is spelled now.

    Parameters
    ----------
    text : str
        The requirement as a record states it.
    """
    return _SPELLED.get(text, text)
