"""What is left over of each cord, and where it lies: never under what moves."""

from __future__ import annotations

import math

from powerplan.model.lengths import length_text, micrometres
from powerplan.model.plan import Cord, Plan
from powerplan.sheets.pages.print_rows import SetRow, number_m, room_behind_m
from powerplan.sheets.pages.print_tags import bag_of, ends_text, in_bags, tag_numbers, tag_text
from powerplan.sheets.pages.print_ways import place_words, row_of
from powerplan.sheets.parts import Items, Part, Table
from powerplan.sheets.words import at_least_text

_REAR_STRIP = "rear strip"


def spare_m(cord: Cord) -> float:
    """Return how much of a cord does not lie on its way. [m]"""
    return (micrometres(cord.bought_m) - micrometres(cord.length_m)) / 1e6


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
        return f"{size}: coiled behind {chair}, see below"
    much = micrometres(over_m) > micrometres(number_m(plan, "park_over"))
    behind = _reaches_rear(cord, chair, row, plan) and _has_room(row, plan)
    if behind and not much:
        return f"{size}: flat in loops behind {chair}"
    where = f"flat in loops on the floor shown white under {chair}"
    if much:
        return f"{size}: NO ROOM for a coil behind {chair}. Best a shorter cord; else {where}"
    return f"{size}: {where}"


def coils(rows: tuple[SetRow, ...], plan: Plan) -> list[Part]:
    """Return the table of spare cord that is coiled, and how a coil lies; empty where none is."""
    coiled = [cord for cord in in_bags(plan) if cord.park_m is not None]
    if not coiled:
        return []
    lines = tuple(_coil_row(cord, row_of(cord, rows, plan), plan) for cord in coiled)
    head = ("cord", "left over", "lies as", "its middle", "watch")
    return [
        Table(caption="Where spare cord is coiled, behind the bases", head=head, rows=lines),
        Items(
            lead="How a coil lies:",
            items=(
                "Flat on the floor, in loose loops of one size, tied once and not tightly; nothing "
                "laid over it.",
                "Never under a mechanism, never on edge, never hung between a headrest and the "
                "wall.",
                "Off walkways and doorways, and off the edge of a riser.",
            ),
        ),
    ]


def loops_of(cord: Cord) -> int:
    """Return in how many loops the spare of a parked cord lies; 1 where its oval is not known."""
    if cord.coil_m is None:
        return 1
    wide_m, deep_m = max(cord.coil_m), min(cord.coil_m)
    return max(1, round(spare_m(cord) / (math.pi * deep_m + 2 * (wide_m - deep_m))))


def coil_height_m(cord: Cord, plan: Plan) -> float:
    """Return how high a coil is at most, each loop on the one before. [m]"""
    return loops_of(cord) * plan.spec.cords.diameter_m


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
        length_text(spare_m(cord), units),
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
    least_m = coil_height_m(cord, plan) + number_m(plan, "gap_over_cord")
    least = at_least_text(least_m, plan.spec.project.units)
    return f"the back comes over it: reclined, {least} or more from floor to back, or move it aside"


def _reaches_rear(cord: Cord, chair: str, row: SetRow, plan: Plan) -> bool:
    """Whether a cord can come out to the floor behind its chair."""
    if any(y <= row.line_m for _, y in cord.path_m):
        return True
    return any(zone.kind == _REAR_STRIP and zone.chair == chair for zone in plan.zones)


def _has_room(row: SetRow, plan: Plan) -> bool:
    """Whether loops of the usual depth fit on covered floor behind a row's bases."""
    deep_m = number_m(plan, "coil_depth") + number_m(plan, "cord_clearance")
    return room_behind_m(row, plan) >= deep_m
