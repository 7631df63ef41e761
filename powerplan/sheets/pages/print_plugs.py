"""Room for a plug and the bend of its cord between a wall outlet and the chair in front of it."""

from __future__ import annotations

from typing import NamedTuple

from powerplan.model.geometry import Point
from powerplan.model.lengths import FOOT_M, at_least_text, at_most_text, micrometers
from powerplan.model.plan import Plan
from powerplan.sheets.parts import Items
from powerplan.sheets.placed import Placed, placed_of

_NEAR_UM = micrometers(float(FOOT_M))
_PLUG = "plug_height"


class _Behind(NamedTuple):
    """A chair whose back comes near an outlet: how far it stays away, leaned back. [m]"""

    away_m: float
    chair: str


def plugs_behind(plan: Plan) -> list[Items]:
    """Return for each wall outlet with a plug in it, close behind a chair, what to check.

    No rule asks how deep the floor behind a chair must be there, so it is a check and no must.
    """
    plugged = {cord.from_ for cord in plan.cords}
    places = {one.id: (one.x_m, one.y_m) for one in plan.spec.outlets if one.wall is not None}
    places |= {box.id: (box.x_m, box.y_m) for box in plan.boxes if box.kind != "floor box"}
    chairs = [one for row in plan.spec.rows for one in placed_of(plan, row)]
    told = []
    for name, at in places.items():
        behind = _nearest(at, chairs)
        if name in plugged and behind is not None and micrometers(behind.away_m) < _NEAR_UM:
            told.append(_told(name, behind, plan))
    return [Items(lead="Plugs behind the chairs:", items=tuple(told))] if told else []


def _nearest(at: Point, chairs: list[Placed]) -> _Behind | None:
    """The chair that stays least away from an outlet behind it, moved back all the way."""
    found = []
    for one in chairs:
        right_m, ahead_m = one.seen_from(at)
        if abs(right_m) <= one.kind.seat_width_m / 2 + one.kind.arm_width_m and ahead_m < 0:
            found.append(_Behind(-ahead_m - one.kind.back_travel_m, one.chair.id))
    return min(found, default=None)


def _told(name: str, behind: _Behind, plan: Plan) -> str:
    units = plan.spec.project.units
    plug = next((number for number in plan.rules.numbers if number.name == _PLUG), None)
    away = at_most_text(max(0.0, behind.away_m), units)
    text = (
        f"{name[:1].upper()}{name[1:]}, behind {behind.chair}: {away} stay between the wall and "
        f"the headrest moved back all the way"
    )
    check = "with the plug in, move the chair back and look that nothing touches plug or cord"
    if plug is None:
        return f"{text}: {check}."
    takes = f"a plug and the bend of its cord take about {at_least_text(plug.value, units)}"
    takes += f" ({plug.standing.value})"
    if micrometers(behind.away_m) < micrometers(plug.value):
        return (
            f"{text}, and {takes}: TOO LITTLE. Use another outlet or a flat plug, or move the row "
            f"forward; {check}."
        )
    return f"{text}; {takes}. Before the chair is used, {check}."
