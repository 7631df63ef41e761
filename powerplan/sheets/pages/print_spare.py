"""What is left over of each cord, and where it lies: never under what moves."""

from __future__ import annotations

import math
from itertools import pairwise

from powerplan.model.lengths import length_text, micrometres
from powerplan.model.plan import Cord, Plan
from powerplan.sheets.pages.print_rows import SetRow, number_m
from powerplan.sheets.pages.print_tags import bag_of, ends_text, in_bags, tag_numbers, tag_text
from powerplan.sheets.pages.print_ways import place_words, row_of
from powerplan.sheets.parts import Items, Part, Table
from powerplan.sheets.words import at_least_text


def spare_m(cord: Cord) -> float:
    """Return how much of a cord does not lie on its way. [m]"""
    return (micrometres(cord.bought_m) - micrometres(cord.length_m)) / 1e6


_NO_ROOM = "NO ROOM for a coil"
_SLACK = "slack along its way"


def tail_m(cord: Cord) -> float:
    """Return how far a cord goes from its way to its coil, one way. [m]"""
    return math.fsum(math.dist(*piece) for piece in pairwise(cord.tail_m))


def coiled_m(cord: Cord) -> float:
    """Return how much of a cord lies in its coil: less what goes there and comes back. [m]"""
    return spare_m(cord) - 2 * tail_m(cord)


def spare_text(cord: Cord, row: SetRow, plan: Plan) -> str:
    """Return how much of a cord is left over, and in a few words where it lies.

    Parameters
    ----------
    cord : Cord
        The cord.
    row : SetRow
        The row that it serves.
    plan : Plan
        For the chairs' openings and the units.
    """
    over_m, chair = spare_m(cord), bag_of(cord, plan)
    if micrometres(over_m) <= 0:
        return "none"
    size = length_text(over_m, plan.spec.project.units)
    if cord.park_m is not None:
        return f"{size}: {_to_the_coil(cord, row, plan)}coiled behind {chair}, see below"
    if not any(zone.chair == chair and zone.kind != "pinch" for zone in plan.zones):
        return (
            f"{size}: NO PLACE IS KNOWN for it: nobody has measured where floor stays clear under "
            f"{chair}. Measure before it is laid"
        )
    if micrometres(over_m) > micrometres(number_m(plan, "park_over")):
        return f"{size}: {_NO_ROOM} behind {chair}, see below"
    return f"{size}: {_SLACK}, see below"


def _to_the_coil(cord: Cord, row: SetRow, plan: Plan) -> str:
    """Where a cord leaves its way to its coil, and how much of it that takes."""
    if len(cord.tail_m) < 2:
        return ""
    units = plan.spec.project.units
    far, left = (length_text(m, units) for m in (tail_m(cord), coiled_m(cord)))
    leaves = place_words(cord.tail_m[0], row, plan)
    return f"it leaves its way {leaves}: {far} to the coil, {far} back, {left} of it "


def coils(rows: tuple[SetRow, ...], plan: Plan) -> list[Part]:
    """Return the table of spare cord that is coiled, and how a coil lies; empty where none is."""
    loose = _not_coiled(rows, plan)
    coiled = [cord for cord in in_bags(plan) if cord.park_m is not None]
    if not coiled:
        return loose
    lines = tuple(_coil_row(cord, row_of(cord, rows, plan), plan) for cord in coiled)
    head = ("cord", "in the coil", "lies as", "its middle", "watch")
    return [
        Table(caption="Where spare cord is coiled, behind the bases", head=head, rows=lines),
        Items(
            lead="How a coil lies:",
            items=(
                "Flat on the floor, in loose loops of one size, tied once and not tightly; nothing "
                "laid over it.",
                "Never under a mechanism, never under a reclining back, never on edge. No coil is "
                "ever hung between a headrest and the wall.",
                "The thin line in the drawing is the cord on its way to the coil and back, side by "
                "side, flat on the floor.",
                "Off walkways and doorways, and off the edge of a riser.",
            ),
        ),
        *loose,
    ]


def _not_coiled(rows: tuple[SetRow, ...], plan: Plan) -> list[Part]:
    """What to do with spare that no coil takes."""
    told = [spare_text(cord, row_of(cord, rows, plan), plan) for cord in plan.cords]
    items = []
    if any(_NO_ROOM in text for text in told):
        items.append(
            f"{_NO_ROOM}: there is no covered floor, in reach of the cord and clear of the "
            "reclining back and the walls, where a coil could lie. Ask the maker for a shorter "
            "cord before this one is laid; where none is listed, ask the maker where the rest may "
            "lie, and put no power on before that is known. Never coil it under the back or "
            "the chair."
        )
    if any(_SLACK in text for text in told):
        items.append(
            f"{_SLACK}: the cord is that much longer than its way. It lies in no coil: flat, in "
            "gentle bends beside its way, off the hatched floor; tied to the fixed frame, out of "
            "what moves."
        )
    return [Items(lead="Spare cord that is not coiled:", items=tuple(items))] if items else []


def loops_of(cord: Cord) -> int:
    """Return in how many loops the spare of a parked cord lies; 1 where its oval is not known."""
    if cord.coil_m is None:
        return 1
    wide_m, deep_m = max(cord.coil_m), min(cord.coil_m)
    return max(1, round(coiled_m(cord) / (math.pi * deep_m + 2 * (wide_m - deep_m))))


def _coil_row(cord: Cord, row: SetRow, plan: Plan) -> tuple[str, ...]:
    units = plan.spec.project.units
    assert cord.park_m is not None
    loops = loops_of(cord)
    how = f"{loops} loop{'' if loops == 1 else 's'}"
    if cord.coil_m is not None:
        wide, deep = (at_least_text(size_m, units) for size_m in cord.coil_m)
        how += f", an oval {wide} left to right, {deep} deep"
    return (
        f"{tag_text(tag_numbers(plan)[cord.id])} ({ends_text(cord, plan)})",
        length_text(coiled_m(cord), units),
        how,
        place_words(cord.park_m, row, plan),
        _watch(cord, row, plan),
    )


def _watch(cord: Cord, row: SetRow, plan: Plan) -> str:
    """What the reclining back must keep off a coil; nothing where it never comes over it."""
    assert cord.park_m is not None
    deep_m = 0.0 if cord.coil_m is None else cord.coil_m[1]
    reclined_m = row.chairs[0].y_m - row.kind.back_travel_m
    if row.plain and micrometres(cord.park_m[1] + deep_m / 2) <= micrometres(reclined_m):
        return "it lies behind the reclined back"
    if not row.plain:
        return "behind the reclined back: look once, reclined, that nothing comes over it"
    return "NO COIL HERE: the reclining back comes over it"
