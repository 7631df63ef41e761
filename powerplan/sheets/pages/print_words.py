"""Places, ways and blanks in the words that several printed pages share."""

from __future__ import annotations

import re

from powerplan.model.geometry import Point
from powerplan.model.lengths import length_text, micrometers
from powerplan.model.plan import Box, Plan
from powerplan.model.spec import Outlet, Size
from powerplan.sheets.off_walls import on_wall_words, place_words
from powerplan.sheets.parts import Items
from powerplan.sheets.words import FINE, layout_faults

BLANK = "____________"
_HAIR_M = 1e-6


def capital(text: str) -> str:
    """Return a text with its first letter large."""
    return text[:1].upper() + text[1:]


def degrees(text: str) -> str:
    """Return a text with the sign of degrees in its temperatures."""
    return re.sub(r"(?<= \d\d) C\b", " \N{DEGREE SIGN}C", text)


def from_center(x_m: float, plan: Plan, *, step: int = 8) -> str:
    """Return how far a place is from the room's center line, and on which side.

    Parameters
    ----------
    x_m : float
        From the left wall. [m]
    plan : Plan
        For the room and the units.
    step : int
        The fraction of an inch to round to.
    """
    off_um = micrometers(x_m) - micrometers(plan.spec.room.width_m / 2)
    if not off_um:
        return "on it"
    side = "right" if off_um > 0 else "left"
    away = length_text(abs(off_um) / 1e6, plan.spec.project.units, step=step)
    return f"{away} {side}"


def not_yet(lead: str, plan: Plan) -> list[Items]:
    """Return a warning where the rows will have to move, and marks and cords with them."""
    found = []
    faults = layout_faults(plan)
    if faults:
        told = (f"{capital(fault.subject)}: {fault.note or fault.requirement}" for fault in faults)
        found.append(Items(lead=lead, items=tuple(told)))
    unmeasured = [finding for finding in plan.findings if finding.rule == "chair-measured"]
    if unmeasured:
        first = lead.partition(":")[0]
        told = (f"{capital(finding.subject)}: {finding.note}." for finding in unmeasured)
        found.append(Items(lead=f"{first}: nobody has measured this:", items=tuple(told)))
    return found


def outlet_place(outlet: Outlet, plan: Plan) -> str:
    """Return where an existing outlet is, as an electrician would look for it."""
    if outlet.wall is None:
        return f"in the floor, {place_words((outlet.x_m, outlet.y_m), plan, step=FINE)}"
    up = length_text(outlet.height_m, plan.spec.project.units)
    return f"{on_wall_words(outlet, plan)}, {up} up{_over_what(outlet, plan)}"


def _over_what(outlet: Outlet, plan: Plan) -> str:
    """From what the height of an outlet counts, in a room that has more floors than one: a cord
    comes down to the deck where a riser stands at the outlet's wall."""
    if not plan.spec.risers:
        return ""
    for riser in plan.spec.risers:
        rect = riser.rect
        across = rect.left_m - _HAIR_M <= outlet.x_m <= rect.right_m + _HAIR_M
        if across and rect.back_m - _HAIR_M <= outlet.y_m <= rect.front_m + _HAIR_M:
            return f" from the deck of riser {riser.id}"
    return " from the floor"


def size_text(size: Size | None, units: str) -> str:
    """Return a size, left to right by back to screen, or that it is not known. [m]"""
    if size is None:
        return "unknown"
    return f"{length_text(size.width_m, units)} x {length_text(size.depth_m, units)}"


def cord_exit(box: Box, plan: Plan) -> str:
    """Return to which sides the cords leave a box: left, right, back or screen."""
    sides: list[str] = []
    for cord in plan.cords:
        if cord.from_ != box.id:
            continue
        start = cord.path_m[0]
        ahead = next((p for p in cord.path_m[1:] if _apart(start, p)), start)
        sides.append(_side(ahead[0] - start[0], ahead[1] - start[1]))
    return " and ".join(dict.fromkeys(sides)) or "none"


def _apart(one: Point, other: Point) -> bool:
    return any(micrometers(a) != micrometers(b) for a, b in zip(one, other, strict=True))


def _side(right_m: float, ahead_m: float) -> str:
    if abs(right_m) >= abs(ahead_m):
        return "right" if right_m > 0 else "left"
    return "screen" if ahead_m > 0 else "back"
