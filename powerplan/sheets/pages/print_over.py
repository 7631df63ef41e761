"""What a chair or table passes over while it is set or moved: what is plugged in or lies there."""

from __future__ import annotations

from dataclasses import dataclass

from powerplan.model.geometry import Point
from powerplan.model.lengths import at_least_text, at_most_text, joined, micrometers
from powerplan.model.plan import Plan
from powerplan.sheets.pages.print_order import corners_of, is_under, lies_under, loose_things
from powerplan.sheets.pages.print_rows import SetRow
from powerplan.sheets.pages.print_tags import plug_text
from powerplan.sheets.stands import Stand

_BACK = "back"


@dataclass(frozen=True, slots=True, kw_only=True)
class Passed:
    """What lies under a base when it is moved: things that stand up, what each is called and how
    high it is, and whether a cord lies there. ``gap_m`` is the least room under the rail that goes
    over them, None where nobody has measured it; ``rail`` is what that rail is called. [m]"""

    things: tuple[tuple[str, float], ...]
    cords: bool
    gap_m: float | None
    rail: str

    @property
    def lifted(self) -> bool:
        """True where something stands as high as the gap, or the gap is not known."""
        if not self.things:
            return False
        return self.gap_m is None or any(
            micrometers(high_m) >= micrometers(self.gap_m) for _, high_m in self.things
        )


def passed(stand: Stand, laid: frozenset[str], row: SetRow, plan: Plan) -> Passed:
    """Return what a chair or table passes over, once some cords are laid.

    A chair is moved straight ahead and back, so that its rear rail goes over what lies under its
    base. One with tapered arms comes from behind: its front goes over all that, and over what lies
    behind it, and nobody has measured the gap under a front.

    Parameters
    ----------
    stand : Stand
        The chair or table.
    laid : frozenset of str
        The ids of the cords that are laid.
    row : SetRow
        Its row.
    plan : Plan
        For cords, boxes and what lies on the floor.
    """
    cords = [cord for cord in plan.cords if cord.id in laid]
    ends = {end for cord in cords for end in (cord.from_, cord.to)}
    work, from_behind = plan.spec.new_work, row.chalk.touch == _BACK
    plugs = {box.id: box.under for box in plan.boxes if box.kind == "floor box"}
    plugs |= {
        one.id: stand.name
        for one in plan.spec.outlets
        if one.wall is None and is_under((one.x_m, one.y_m), stand)
    }
    found = [
        (f"the plug in {plug_text(name, plan, last=False, link=False)}", work.plug_height_m)
        for name, over in plugs.items()
        if name in ends and over == stand.name and micrometers(work.plug_height_m) > 0
    ]
    found += [
        (one.id, one.height_m)
        for one in loose_things(plan)
        if one.id in ends
        and any(_in_the_way(at, stand, from_behind=from_behind) for at in corners_of(one))
    ]
    gap_m, rail = _gap(stand, plan)
    return Passed(
        things=tuple(found),
        cords=any(lies_under(cord, stand, plan) for cord in cords),
        gap_m=None if from_behind else gap_m,
        rail="its front" if from_behind else rail,
    )


def _in_the_way(point: Point, stand: Stand, *, from_behind: bool) -> bool:
    """Whether a place lies under a base, or behind one that comes from behind."""
    if not from_behind:
        return is_under(point, stand)
    right_m, ahead_m = stand.place(point)
    return -stand.left_m < right_m < stand.right_m and ahead_m < stand.front_m


def _gap(stand: Stand, plan: Plan) -> tuple[float | None, str]:
    if stand.seat is not None:
        return stand.seat.rear_gap_m, "its rear"
    return plan.spec.table(stand.kind).under_m, "it"


def heights_text(over: Passed, plan: Plan) -> str:
    """Return how high each thing is and what gap there is to pass it."""
    units = plan.spec.project.units
    high = [f"{name} is {at_least_text(high_m, units)} high" for name, high_m in over.things]
    if over.gap_m is None:
        return f"{joined(high)}, and nobody has measured the gap under {over.rail}"
    return f"{joined(high)}, the gap under {over.rail} {at_most_text(over.gap_m, units)}"


def how_text(over: Passed, plan: Plan, name: str = "") -> str:
    """Return how a chair or table is moved over what lies there; nothing where nothing does.

    Parameters
    ----------
    over : Passed
        What lies there.
    plan : Plan
        For the units.
    name : str
        What is moved, where it is not "it".
    """
    part = over.rail
    if name:
        part = name if part == "it" else f"the {part.removeprefix('its ')} of {name}"
    if over.lifted:
        return f"LIFT {name or 'it'} over, two people; do not slide it: {heights_text(over, plan)}"
    if over.things:
        return (
            f"lift {part} over all that, do not push it over them; look "
            f"({heights_text(over, plan)})"
        )
    if over.cords:
        return f"lift {part} over the cords, do not push it over them; look"
    return ""
