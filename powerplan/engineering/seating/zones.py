"""Pinch zones, and the openings that are left in them."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from powerplan.engineering.seating.frames import Outline, hull
from powerplan.engineering.seating.openings import (
    ARM_STRIP,
    CLEAR,
    REAR_STRIP,
    Opening,
    wide_enough,
)
from powerplan.engineering.seating.parts import SweptPart, openings_left, swept_parts
from powerplan.engineering.seating.pieces import GAP, SEAT, Slot
from powerplan.engineering.seating.poses import SeatedChair, SeatedRow
from powerplan.engineering.seating.rects import grid_rect, on_grid, tiles
from powerplan.engineering.seating.shapes import floor_less
from powerplan.model.geometry import Rect
from powerplan.model.lengths import micrometers
from powerplan.model.rules import RuleSet
from powerplan.model.spec import ChairKind, Piece, PlanSpec

__all__ = [
    "ARM_STRIP",
    "CLEAR",
    "REAR_STRIP",
    "Opening",
    "Zones",
    "clear_for_cords",
    "least_gap_for_cords_m",
    "mark_zones",
    "wide_enough",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Zones:
    """The pinch zone as (chair id, outline) pieces, all openings, and what parts sweep.

    A shared arm is split at its middle between its two chairs. Pieces of a straight row do not
    overlap, but for floor that moving parts add. [m]
    """

    pinch: tuple[tuple[str, Outline], ...]
    openings: tuple[Opening, ...]
    parts: tuple[SweptPart, ...] = ()


def mark_zones(spec: PlanSpec, rows: tuple[SeatedRow, ...], rules: RuleSet) -> Zones:
    """Return every chair's share of the pinch zone and the openings in it.

    A rear or arm strip is open only where its gap was measured and is at least the cord's diameter
    plus the rule set's ``gap_over_cord``. Between two seats that share a cushion nobody measured a
    gap, so it is closed. A chair without a measured clear zone, or with one lower than such a gap,
    has no opening at all. Moving parts only ever add: what they sweep is pinch zone too, in an
    opening where their least gap lets no cord through.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read; the cord is ``spec.cords.diameter_m`` thick. [m]
    rows : tuple of SeatedRow
        Every row of the room. [m]
    rules : RuleSet
        The numbers.

    Returns
    -------
    Zones
        Pieces and openings, rows in order, chairs from the left. [m]
    """
    least_gap_m = least_gap_for_cords_m(spec, rules)
    pinch: list[tuple[str, Outline]] = []
    openings: list[Opening] = []
    parts = swept_parts(rows)
    for row in rows:
        found = _openings(spec, row, least_gap_m)
        if parts:
            found = openings_left(found, parts, least_gap_m)
            pinch.extend(_pinch_with_parts(row, found, parts))
        else:
            pinch.extend(_pinch(row, found))
        openings.extend(found)
    return Zones(pinch=tuple(pinch), openings=tuple(openings), parts=parts)


def _pinch(row: SeatedRow, openings: tuple[Opening, ...]) -> list[tuple[str, Outline]]:
    if row.row.curve is not None:
        around = tuple(opening.outline for opening in openings)
        return [
            (chair.id, piece)
            for chair in row.chairs
            for piece in floor_less(chair.outline(chair.floor), around, chair.frame)
        ]
    holes = tuple(opening.rect for opening in openings)
    return [
        (chair.id, row.frame.outline(tile))
        for chair, share in _shares(row)
        for tile in tiles((share,), holes)
    ]


def _pinch_with_parts(
    row: SeatedRow, openings: tuple[Opening, ...], parts: tuple[SweptPart, ...]
) -> list[tuple[str, Outline]]:
    """The pinch zone where parts move; what parts add may overlap the floor of neighbors."""
    curved = row.row.curve is not None
    shares = [(chair, chair.floor) for chair in row.chairs] if curved else _shares(row)
    around = tuple(opening.outline for opening in openings)
    found: list[tuple[str, Outline]] = []
    for chair, share in shares:
        drawn = (*around, chair.outline(chair.floor))
        pieces = [*floor_less(chair.outline(share), around, chair.frame)]
        for part in parts:
            if part.chair == chair.id:
                pieces += floor_less(part.outline, drawn, chair.frame)
                drawn = (*drawn, part.outline)
        found += [(chair.id, piece) for piece in pieces]
    return found


def _openings(spec: PlanSpec, row: SeatedRow, least_gap_m: float) -> tuple[Opening, ...]:
    found: list[Opening] = []
    for chair, neighbor in pairwise((*row.chairs, None)):
        if chair is None:
            continue
        clear = chair.clear
        if clear is None or not clear_for_cords(chair.kind, least_gap_m):
            continue
        found.append(Opening(chair=chair.id, kind=CLEAR, rect=clear, frame=chair.frame))
        rear_open = wide_enough(chair.kind.rear_gap_m, least_gap_m)
        if rear_open and micrometers(chair.floor.back_m) < micrometers(clear.back_m):
            strip = grid_rect(clear.left_m, clear.right_m, chair.floor.back_m, clear.back_m)
            found.append(Opening(chair=chair.id, kind=REAR_STRIP, rect=strip, frame=chair.frame))
        if neighbor is not None and clear_for_cords(neighbor.kind, least_gap_m):
            between = _between(row, chair.seat)
            if _open_between(spec, between, least_gap_m):
                found.extend(_arm_strip(chair, neighbor))
    return tuple(found)


def least_gap_for_cords_m(spec: PlanSpec, rules: RuleSet) -> float:
    """Return the least height or width that lets a cord through. [m]

    Parameters
    ----------
    spec : PlanSpec
        The plan as read; a cord is ``spec.cords.diameter_m`` thick. [m]
    rules : RuleSet
        The numbers; ``gap_over_cord`` is what a gap has over the cord.
    """
    return spec.cords.diameter_m + rules.length_m("gap_over_cord")


def clear_for_cords(kind: ChairKind, least_gap_m: float) -> bool:
    """Return True where a kind's clear zone was measured and is as high as a gap must be.

    Parameters
    ----------
    kind : ChairKind
        The chairs' kind. [m]
    least_gap_m : float
        The least gap that is open to a cord. [m]
    """
    known = kind.measured and kind.clear is not None
    return known and kind.clear is not None and wide_enough(kind.clear.height_m, least_gap_m)


def _between(row: SeatedRow, seat: int) -> tuple[Slot, ...]:
    """A seat, what stands to its right, and the next seat."""
    first = next(n for n, slot in enumerate(row.pieces) if slot.seat == seat)
    last = next(n for n, slot in enumerate(row.pieces) if slot.seat == seat + 1)
    return row.pieces[first : last + 1]


def _open_between(spec: PlanSpec, slots: tuple[Slot, ...], least_gap_m: float) -> bool:
    """True where a cord may pass under every arm and table between two neighbors.

    A seat without an arm on that side has no measured gap there.
    """
    arms: tuple[Piece | None, ...] = (slots[0].right_arm, slots[-1].left_arm)
    for arm in arms:
        gap_m = None if arm is None else spec.chair(arm.kind or "").arm_gap_m
        if not wide_enough(gap_m, least_gap_m):
            return False
    tables = (slot for slot in slots if slot.what not in (SEAT, GAP))
    return all(wide_enough(spec.table(slot.kind or "").under_m, least_gap_m) for slot in tables)


def _arm_strip(chair: SeatedChair, right: SeatedChair) -> tuple[Opening, ...]:
    """The strip from one clear zone to the next, over the depth that both share."""
    clear, next_clear = chair.clear, right.clear
    if clear is None or next_clear is None:
        return ()
    back_m, front_m = max(clear.back_m, next_clear.back_m), min(clear.front_m, next_clear.front_m)
    if micrometers(back_m) >= micrometers(front_m):
        return ()
    if chair.frame == right.frame:
        if micrometers(clear.right_m) >= micrometers(next_clear.left_m):
            return ()
        rect = grid_rect(clear.right_m, next_clear.left_m, back_m, front_m)
        return (Opening(chair=chair.id, kind=ARM_STRIP, rect=rect, frame=chair.frame),)
    corners = [chair.frame.point((clear.right_m, v_m)) for v_m in (back_m, front_m)]
    corners += [right.frame.point((next_clear.left_m, v_m)) for v_m in (back_m, front_m)]
    far_m = min(chair.frame.place(corner)[0] for corner in corners[2:])
    if micrometers(clear.right_m) >= micrometers(far_m):
        return ()
    rect = grid_rect(clear.right_m, far_m, back_m, front_m)
    return (
        Opening(chair=chair.id, kind=ARM_STRIP, rect=rect, frame=chair.frame, bent=hull(corners)),
    )


def _shares(row: SeatedRow) -> tuple[tuple[SeatedChair, Rect], ...]:
    """Each chair's own part of a straight row's swept floor, shared arms split at their middle."""
    lefts = [chair.floor.left_m for chair in row.chairs]
    rights = [chair.floor.right_m for chair in row.chairs]
    for n, (left, right) in enumerate(pairwise(row.chairs)):
        if micrometers(left.floor.right_m) > micrometers(right.floor.left_m):
            rights[n] = lefts[n + 1] = on_grid((left.floor.right_m + right.floor.left_m) / 2)
    if row.pieces[0].what == SEAT:
        lefts[0] = row.left_m
    if row.pieces[-1].what == SEAT:
        rights[-1] = row.right_m
    return tuple(
        (chair, grid_rect(left_m, right_m, chair.floor.back_m, chair.floor.front_m))
        for chair, left_m, right_m in zip(row.chairs, lefts, rights, strict=True)
    )
