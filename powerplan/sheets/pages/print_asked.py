"""What the makers of chairs are asked: where spare cord has no room, and where a link goes in."""

from __future__ import annotations

from powerplan.model.lengths import at_least_text, joined, length_text
from powerplan.model.plan import Cord, Plan
from powerplan.sheets.pages.box_reach import farthest_m
from powerplan.sheets.pages.print_rows import number_m
from powerplan.sheets.pages.print_spare import cords_named, homeless
from powerplan.sheets.pages.print_tags import (
    LINK,
    ends_text,
    in_bags,
    link_fed,
    tag_numbers,
    tag_text,
)
from powerplan.sheets.parts import Items, Part

# A hand's breadth: a cord that is shorter by less leaves as much to be tied. (common practice, no
# source)
_HAND_M = 0.1
_TIED = "where on the chair's fixed frame the rest is tied"

_LINK_GOES_IN = "so that a link can be plugged into its inlet"


def asked_of_makers(plan: Plan) -> tuple[tuple[Cord, str], ...]:
    """Return each cord of which its maker is asked before it is ordered or laid, and what.

    Parameters
    ----------
    plan : Plan
        The plan.
    """
    without, linked = homeless(plan), link_fed(plan)
    found = []
    for cord in in_bags(plan):
        asked = [f"{_shorter(cord, plan)}{_TIED}"] if cord in without else []
        if cord.kind == LINK and cord.to in linked:
            asked.append(f"whether {cord.to}'s own lead comes off, {_LINK_GOES_IN}")
        if asked:
            found.append((cord, f"{ends_text(cord, plan)}: {'; and '.join(asked)}"))
    return tuple(found)


def _shorter(cord: Cord, plan: Plan) -> str:
    """The shorter cord that is asked for; nothing where it saves less than a hand's breadth."""
    if cord.bought_m - _enough_m(cord, plan) < _HAND_M:
        return ""
    enough = at_least_text(_enough_m(cord, plan), plan.spec.project.units)
    return f"{_in_place(cord, plan)}, {enough} or as little more as there is; and "


def _enough_m(cord: Cord, plan: Plan) -> float:
    """How long a cord must be wherever in its rectangle the box was cut that it starts from. [m]"""
    boxes = [box for box in plan.boxes if box.id == cord.from_]
    if not boxes:
        return cord.needed_m
    return cord.needed_m + number_m(plan, "slack_factor") * farthest_m(boxes[0])


def _in_place(cord: Cord, plan: Plan) -> str:
    what = "lead" if cord.kind == "own" else "cord"
    return f"a shorter {what} in place of {length_text(cord.bought_m, plan.spec.project.units)}"


def to_ask_for(plan: Plan) -> list[Part]:
    """Return what the maker is asked for cords with no room for a coil, and for chairs that links
    feed; nothing where there is neither."""
    cords, numbers, units = homeless(plan), tag_numbers(plan), plan.spec.project.units
    linked = link_fed(plan)
    if not (cords or linked):
        return []
    alike: dict[str, list[str]] = {}
    for cord in cords:
        if _shorter(cord, plan):
            told = f"{tag_text(numbers[cord.id])}, {at_least_text(_enough_m(cord, plan), units)}"
            alike.setdefault(_in_place(cord, plan), []).append(told)
    cut = " (from a box: wherever in its rectangle it is cut)" if plan.boxes else ""
    items = [
        f"For {what}, as little over what will do as there is{cut}: {'; '.join(told)}."
        for what, told in alike.items()
    ]
    if cords:
        items.append(f"Of {cords_named(cords, plan)}: {_TIED}.")
    if linked:
        items.append(
            f"Of {joined(list(linked))}: whether the chair's own lead comes off, {_LINK_GOES_IN}."
        )
    lead = "To ask the maker before these cords are ordered or laid:"
    return [Items(lead=lead, items=tuple(items))]
