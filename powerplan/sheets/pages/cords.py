"""For the installers: how every cord runs, what is bought, and where the left-over goes."""

from __future__ import annotations

from collections.abc import Mapping

from powerplan.model.geometry import Point
from powerplan.model.lengths import at_least_text, at_most_text, joined, length_text, micrometers
from powerplan.model.plan import NOT_POSSIBLE, Cord, Plan
from powerplan.model.spec import Wall
from powerplan.sheets.bought import Bought, bought, bought_as, is_bought
from powerplan.sheets.off_walls import from_back, from_left, place_words, to_finish
from powerplan.sheets.pages.loose import where_things_lie
from powerplan.sheets.pages.print_tags import in_bags
from powerplan.sheets.pages.print_told import Places, places_of
from powerplan.sheets.pages.print_words import not_yet
from powerplan.sheets.parts import Items, Page, Part, Say, Table
from powerplan.sheets.words import DO_NOT_LAY, FINE, from_wall, if_measured

_SIDES = ((0, from_left), (1, from_back))
_HEAD = ("cord (from-to)", "way", "needed", "use", "floor")


def cords_page(plan: Plan, *, ways: bool = False) -> Page:
    """Return the table of cords and the buying list; with ``ways`` every turn as well."""
    title = "How the cords run"
    if not plan.cords:
        if plan.decision.verdict == NOT_POSSIBLE:
            text = "None is laid: the job is not possible as drawn."
        else:
            text = "There is no cord to lay."
        return Page(title=title, parts=(Say(text=text),))
    plan = to_finish(plan)
    units = plan.spec.project.units
    rows = tuple(_row(cord, units) for cord in plan.cords)
    parts: list[Part] = [
        *not_yet(f"{DO_NOT_LAY}: the ways change when this is mended:", plan),
        Table(caption="Each cord", head=_HEAD, rows=rows),
        *where_things_lie(plan),
        buying_list(plan),
    ]
    parked = tuple(_parked(cord, plan) for cord in plan.cords if cord.park_m is not None)
    if parked:
        lead = "Park what is left over, coiled loosely, never under a mechanism:"
        parts.append(Items(lead=lead, items=parked))
    if ways:
        places = places_of(plan)
        parts.append(
            Items(
                lead=f"Every turn, as {from_wall(plan.spec.room, Wall.LEFT)} / "
                f"{from_wall(plan.spec.room, Wall.BACK)}:",
                items=tuple(_way(cord, places) for cord in plan.cords),
            )
        )
    return Page(title=title, parts=tuple(parts))


def _row(cord: Cord, units: str) -> tuple[str, ...]:
    return (
        cord.id,
        length_text(cord.length_m, units),
        at_least_text(cord.needed_m, units),
        _which(cord, units),
        _lies_on(cord, units),
    )


def _which(cord: Cord, units: str) -> str:
    length = length_text(cord.bought_m, units)
    if is_bought(cord):
        named = "" if cord.kind in ("extension", "own") else f" ({cord.kind})"
        return f"BUY {length}{named}"
    return f"{cord.kind}, {length}"


def _lies_on(cord: Cord, units: str) -> str:
    words = "covered"
    if micrometers(cord.open_floor_m) > 0:
        words += f"; {length_text(cord.open_floor_m, units)} OPEN FLOOR"
    if micrometers(cord.rises_m) > 0:
        words += f"; {length_text(cord.rises_m, units)} rise"
    return words


def buying_list(plan: Plan, names: Mapping[str, str] | None = None) -> Part:
    """Return what is bought, of each length and wire how many; as which cords, where these have
    names on paper.

    Parameters
    ----------
    plan : Plan
        The plan.
    names : mapping, optional
        What each cord is called, by its id.
    """
    units = plan.spec.project.units
    counts = bought(plan)
    if not counts:
        text = f"No cord has to be bought: the chairs' own cords reach{if_measured(plan)}."
        return Say(text=text)
    rows = tuple(
        (
            what,
            length_text(length_m, units),
            wire or "wire unknown",
            str(count),
            *(() if names is None else (_bought_as((what, length_m, wire), plan, names),)),
        )
        for (what, length_m, wire), count in counts.items()
    )
    head = ("what", "length", "wire", "how many")
    return Table(caption="Buying list", head=head if names is None else (*head, "as"), rows=rows)


def _bought_as(what: Bought, plan: Plan, names: Mapping[str, str]) -> str:
    """The cords as which one entry of the list is bought."""
    return joined(
        [names[cord.id] for cord in in_bags(plan) if is_bought(cord) and bought_as(cord) == what]
    )


def _parked(cord: Cord, plan: Plan) -> str:
    assert cord.park_m is not None
    return f"{cord.id}: {place_words(cord.park_m, plan)}"


def _way(cord: Cord, places: Places) -> str:
    plan = places.plan
    units, room = plan.spec.project.units, plan.spec.room

    def place(point: Point) -> str:
        # a place in a narrow passage may stand at a part of a mark
        left, back = (tell(room, point[axis], units, step=FINE) for axis, tell in _SIDES)
        return f"{left} / {back}"

    turns = "; then ".join(place(places.in_room(point)) for point in cord.path_m)
    return f"{cord.id}: {turns}. Keeps {at_most_text(cord.clearance_m, units)} clear of mechanisms."
