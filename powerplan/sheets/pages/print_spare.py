"""What is left over of each cord, and where it lies: never under what moves."""

from __future__ import annotations

from enum import Enum

from powerplan.model.lengths import at_least_text, at_most_text, joined, length_text, micrometers
from powerplan.model.plan import Cord, Plan
from powerplan.model.spare import loops_of, spare_m
from powerplan.model.spec import Wall
from powerplan.sheets.keep_off import key_of
from powerplan.sheets.levels import faces
from powerplan.sheets.pages.print_places import place_words
from powerplan.sheets.pages.print_rows import SetRow, number_m, row_of, set_rows
from powerplan.sheets.pages.print_sums import sums_of
from powerplan.sheets.pages.print_tags import (
    LINK,
    bag_of,
    ends_text,
    in_bags,
    plug_text,
    tag_numbers,
    tag_text,
)
from powerplan.sheets.pages.print_taped import on_floor_of
from powerplan.sheets.pages.print_told import Places
from powerplan.sheets.pages.print_ways import legs_text
from powerplan.sheets.pages.print_words import capital
from powerplan.sheets.parts import Items, Part, Table
from powerplan.sheets.stands import Stand

_ROW = "{row}"
NOT_COILED = "Spare cord that is not coiled"


class Lies(Enum):
    """Where what is left over of a cord lies."""

    NOTHING_LEFT = "nothing is left over"
    COILED = "in a coil"
    NOT_MEASURED = "nobody has measured where floor stays clear"
    NO_ROOM = "it asks for a coil, and there is no room for one"
    ALONG = "it is little, and lies along its way"


def lies(cord: Cord, plan: Plan) -> Lies:
    """Return where what is left over of a cord lies.

    Parameters
    ----------
    cord : Cord
        The cord.
    plan : Plan
        For the chairs' openings and the numbers.
    """
    over_m, chair = spare_m(cord), bag_of(cord, plan)
    if micrometers(over_m) <= 0:
        return Lies.NOTHING_LEFT
    if cord.park_m is not None:
        return Lies.COILED
    if not any(zone.chair == chair and zone.kind != "pinch" for zone in plan.zones):
        return Lies.NOT_MEASURED
    if micrometers(over_m) > micrometers(number_m(plan, "park_over")):
        return Lies.NO_ROOM
    return Lies.ALONG


def homeless(plan: Plan) -> tuple[Cord, ...]:
    """Return the cords of which more is left over than may lie loose, with no room for a coil."""
    return tuple(cord for cord in in_bags(plan) if lies(cord, plan) is Lies.NO_ROOM)


def cords_named(cords: tuple[Cord, ...], plan: Plan) -> str:
    """Return some cords by the numbers on their tags: "cord 1", "cords 1, 2 and 5"."""
    numbers = tag_numbers(plan)
    if len(cords) == 1:
        return tag_text(numbers[cords[0].id])
    return f"cords {joined([str(numbers[cord.id]) for cord in cords])}"


def spare_text(cord: Cord, row: SetRow, places: Places) -> str:
    """Return how much of a cord is left over, and in a few words where it lies.

    Parameters
    ----------
    cord : Cord
        The cord.
    row : SetRow
        The row that it serves.
    places : Places
        Where places are told to be; the chairs' openings and the units.
    """
    plan = places.plan
    chair, where = bag_of(cord, plan), lies(cord, plan)
    units = plan.spec.project.units
    size = length_text(sums_of(cord, units).left_m, units)
    told = {
        Lies.COILED: _coiled(cord, row, places),
        Lies.NOT_MEASURED: (
            f"NO PLACE IS KNOWN for it: nobody has measured where floor stays clear under {chair}. "
            "Measure before it is laid"
        ),
        Lies.NO_ROOM: "NO ROOM for a coil, see below",
        Lies.ALONG: "slack along its way, see below",
    }
    return "none" if where is Lies.NOTHING_LEFT else f"{size}: {told[where]}"


def _to_the_coil(cord: Cord, row: SetRow, places: Places) -> str:
    """Where a cord leaves its way to its coil, and how much of it that takes."""
    if len(cord.tail_m) < 2:
        return ""
    units = places.plan.spec.project.units
    sums = sums_of(cord, units)
    far, left = (length_text(m, units) for m in (sums.tail_m, sums.coiled_m))
    leaves = _leaves(cord, row, places)
    if len(cord.tail_m) > 2:
        leaves += f", {legs_text(cord.tail_m, row, places)}"
    return f"it leaves its way {leaves}: {far} to the coil, {far} back, {left} of it "


def _coiled(cord: Cord, row: SetRow, places: Places) -> str:
    """How a cord goes to its coil, and behind which chair that is: its own, or a neighbor."""
    if cord.park_m is None:
        return ""
    park_m = cord.park_m
    seats = [one for one in row.stands if one.seat is not None]
    near = min(seats, key=lambda one: (round(abs(one.place(park_m)[0]), 6), one.name))
    there = f"{_to_the_coil(cord, row, places)}coiled behind {near.name}"
    if len(cord.tail_m) < 2:
        return f"{there} on its way (the cord itself is coiled here), see below"
    side = "toward the screen" if cord.tail_m[-1][1] > park_m[1] else "toward the back"
    return f"{there}, in at the middle of the coil's side {side}, see below"


def _leaves(cord: Cord, row: SetRow, places: Places) -> str:
    """Where a cord leaves its way: at one of its ends, at a bend, or between."""
    start, link = cord.tail_m[0], cord.kind == LINK
    for end, name, last in ((-1, cord.to, True), (0, cord.from_, False)):
        if key_of(cord.path_m[end]) == key_of(start):
            return f"at {plug_text(name, places.plan, last=last, link=link)}"
    named = places.named(start, row)
    return f"at {named}" if named else place_words(start, row, places)


def coils(places: Places, numbers: dict[str, int]) -> list[Part]:
    """Return where spare cord is coiled, how a coil lies, and what to do with spare that no coil
    takes; nothing where there is none.

    Parameters
    ----------
    places : Places
        Where places are told to be.
    numbers : dict
        The number on each cord's tag, by its id.
    """
    plan, rows = places.plan, places.rows
    coiled = [cord for cord in in_bags(plan) if lies(cord, plan) is Lies.COILED]
    loose = _not_coiled(plan, numbers)
    if not coiled:
        return loose
    lines = tuple(_coil_row(cord, row_of(cord, rows, plan), places, numbers) for cord in coiled)
    head = ("cord", "in the coil", "lies as", "its middle", "watch")
    return [
        Table(caption="Where spare cord is coiled, behind the bases", head=head, rows=lines),
        Items(
            lead="How a coil lies:",
            items=(
                "Flat on the floor, in loose loops of one size, tied once and not tightly; nothing "
                "else laid over it.",
                "Never under a mechanism, never under a reclining back, never on edge. No coil is "
                "ever hung between a headrest and the wall.",
                "The line in the drawing from a cord to its coil is the cord on its way there and "
                "back, side by side, flat on the floor.",
                "Off walkways and doorways, and off the edge of a riser.",
            ),
        ),
        *loose,
    ]


def _not_coiled(plan: Plan, numbers: dict[str, int]) -> list[Part]:
    """What to do with spare that no coil takes."""
    items: list[str] = []
    without = homeless(plan)
    if without:
        items.append(
            f"NO ROOM for a coil: {_why_none(without, plan)} Before such a cord is laid, ask its "
            "maker what the list below says. Put no power on before it is known where on the "
            "chair's fixed frame the rest is tied. Never coil it under the back or the chair, nor "
            "on floor where people walk."
        )
    if any(lies(cord, plan) is Lies.ALONG for cord in plan.cords):
        items.append(
            "Slack along its way: the cord is that much longer than its way. It lies in no coil: "
            "flat on the floor, in gentle bends to both sides of its way where the drawing has the "
            "sign for slack, as far as the floor there is not hatched. Where so much does not lie "
            "flat there, tie it to the fixed frame of the chair that it enters, out of what moves."
        )
    return [Items(lead=f"{NOT_COILED}:", items=tuple(items))] if items else []


def _why_none(cords: tuple[Cord, ...], plan: Plan) -> str:
    """Why coils have no room, row by row: by what stands behind it, as far as that tells."""
    alike: dict[str, tuple[list[str], list[Cord]]] = {}
    for row in set_rows(plan):
        chairs = {chair.id for chair in row.chairs}
        own = [cord for cord in cords if bag_of(cord, plan) in chairs]
        if own:
            rows, of_them = alike.setdefault(_why(row, plan), ([], []))
            rows.append(row.id)
            of_them.extend(own)
    return " ".join(
        f"{capital(cords_named(tuple(of_them), plan))}: "
        + why.replace(_ROW, f"row{'' if len(rows) == 1 else 's'} {joined(rows)}")
        for why, (rows, of_them) in alike.items()
    )


def _behind_m(row: SetRow, plan: Plan) -> tuple[str, float, float]:
    """The face behind a straight row, how far it is from the headrests, and what the reclined
    backs leave of that. [m]"""
    middle = on_floor_of(row, row.middle_of_line)
    face = faces(plan, middle.seen)[Wall.BACK]
    gap_m = row.line_m - row.kind.rear_of_base_m - face.at_m
    return face.words, gap_m, gap_m - row.kind.back_travel_m


def _coil_asks_m(plan: Plan) -> float:
    """How deep floor must be for a coil and what it keeps off. [m]"""
    return number_m(plan, "coil_depth") + number_m(plan, "cord_clearance")


def rows_that_may_move(plan: Plan) -> tuple[SetRow, ...]:
    """Return the rows over new outlets that may have to stand further off the wall, so that the
    spare of their cords has a place: with such a row its outlets move.

    Parameters
    ----------
    plan : Plan
        The plan.
    """
    over, bags = {box.under for box in plan.boxes}, {bag_of(one, plan) for one in homeless(plan)}
    found = []
    for row in set_rows(plan):
        chairs = {chair.id for chair in row.chairs}
        if row.plain and over & chairs and bags & chairs and _backs_too_near(row, plan):
            found.append(row)
    return tuple(found)


def _backs_too_near(row: SetRow, plan: Plan) -> bool:
    """Whether the backs of a straight row recline too near to what is behind it for any coil."""
    _, gap_m, leaves_m = _behind_m(row, plan)
    covered = micrometers(gap_m) < micrometers(number_m(plan, "covered_gap"))
    return covered and micrometers(leaves_m) < micrometers(_coil_asks_m(plan))


def _why(row: SetRow, plan: Plan) -> str:
    """Why a coil behind a row has no room, with a blank for its name."""
    units = plan.spec.project.units
    if row.plain:
        words, gap_m, leaves_m = _behind_m(row, plan)
        asks_m = _coil_asks_m(plan)
        if micrometers(gap_m) >= micrometers(number_m(plan, "covered_gap")):
            return _walked(row, words, gap_m, plan)
        if _backs_too_near(row, plan):
            enough = at_least_text(asks_m + row.kind.back_travel_m, units)
            return (
                f"behind {_ROW} the reclined backs leave {at_most_text(leaves_m, units)} to "
                f"the {words}, and a coil asks for {at_least_text(asks_m, units)}: planned "
                f"again with its headrests {enough} off it or more, the row may have room."
            )
    free = "no free floor" if row.plain else "no floor where nobody walks has room for one, or none"
    return (
        f"behind {_ROW} {free} is near enough: the cord is too short to go there and back "
        "and lie in a loop."
    )


def _walked(row: SetRow, words: str, gap_m: float, plan: Plan) -> str:
    """Why no coil lies where people walk: between headrests and the next thing behind them."""
    units, rests_m = plan.spec.project.units, row.line_m - row.kind.rear_of_base_m
    fronts = {
        rests_m - other.front_m: other.id
        for other in set_rows(plan)
        if other.id != row.id
        and micrometers(other.front_m) <= micrometers(rests_m)
        and other.left_m < row.right_m
        and row.left_m < other.right_m
    }
    near_m = min(fronts, default=gap_m)
    if near_m < gap_m:
        return (
            f"people may walk in the {at_most_text(near_m, units)} between the headrests of {_ROW} "
            f"and the bases of row {fronts[near_m]} behind: no coil lies there."
        )
    covered = at_least_text(number_m(plan, "covered_gap"), units)
    return (
        f"people may walk in the {at_most_text(gap_m, units)} between the headrests of {_ROW} and "
        f"the {words}: no coil lies there. Were they nearer than {covered}, coils might have room."
    )


def _coil_row(cord: Cord, row: SetRow, places: Places, numbers: dict[str, int]) -> tuple[str, ...]:
    plan = places.plan
    units = plan.spec.project.units
    assert cord.park_m is not None
    loops = loops_of(cord)
    how = f"{loops} loop{'' if loops == 1 else 's'}"
    if cord.coil_m is not None:
        wide, deep = (at_least_text(size_m, units) for size_m in cord.coil_m)
        how += f", an oval {wide} left to right, {deep} deep"
        how += "" if row.square else ", square to the room"
    return (
        f"{tag_text(numbers[cord.id])} ({ends_text(cord, plan)})",
        length_text(sums_of(cord, units).coiled_m, units),
        how,
        place_words(cord.park_m, row, places),
        _watch(cord, row, plan),
    )


def _watch(cord: Cord, row: SetRow, plan: Plan) -> str:
    """What the reclining back must keep off a coil; nothing where it never comes over it."""
    chair = bag_of(cord, plan)
    under = [one.name for one in row.stands if one.seat is not None and _comes_over(one, cord)]
    if not under:
        return "it lies behind the reclined back"
    if chair in under:
        return "NO COIL HERE: the reclining back comes over it"
    return f"look once, with {joined(under)} reclined, that nothing comes over it"


def _comes_over(one: Stand, cord: Cord) -> bool:
    """Whether a reclining chair comes over the floor around a coil, seen from its own frame."""
    assert cord.park_m is not None
    assert one.seat is not None
    (x, y), (wide, deep) = cord.park_m, cord.coil_m or (0.0, 0.0)
    corners = [
        one.place((x + across * wide / 2, y + along * deep / 2))
        for across in (-1, 1)
        for along in (-1, 1)
    ]
    behind_um = micrometers(max(v for _, v in corners)) + micrometers(one.seat.back_travel_m)
    half_um = micrometers(one.seat.seat_width_m / 2)
    aside = min(u for u, _ in corners), max(u for u, _ in corners)
    beside = micrometers(aside[0]) >= half_um or micrometers(aside[1]) <= -half_um
    return behind_um > 0 and not beside
