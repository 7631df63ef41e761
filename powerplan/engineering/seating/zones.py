"""Pinch zones, and the openings that are left in them."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from powerplan.engineering.seating.poses import SeatedChair, SeatedRow
from powerplan.engineering.seating.rects import grid_rect, on_grid, tiles
from powerplan.model.geometry import Rect
from powerplan.model.lengths import micrometres
from powerplan.model.rules import RuleSet
from powerplan.model.spec import ChairKind, PlanSpec

CLEAR = "clear"
REAR_STRIP = "rear strip"
ARM_STRIP = "arm strip"


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """Floor under a row where a cord may lie: ``kind`` is clear, rear strip or arm strip.

    An arm strip belongs to the chair on its left. [m]
    """

    chair: str
    kind: str
    rect: Rect


@dataclass(frozen=True, slots=True, kw_only=True)
class Zones:
    """The pinch zone as (chair id, rectangle) tiles that do not overlap, and all openings.

    A shared arm is split at its middle between its two chairs. [m]
    """

    pinch: tuple[tuple[str, Rect], ...]
    openings: tuple[Opening, ...]


def mark_zones(spec: PlanSpec, rows: tuple[SeatedRow, ...], rules: RuleSet) -> Zones:
    """Return every chair's share of the pinch zone and the openings in it.

    A rear or arm strip is open only where its gap was measured and is at least the cord's diameter
    plus the rule set's ``gap_over_cord``. Between two seats that share a cushion nobody measured a
    gap, so it is closed. A chair without a measured clear zone, or with one lower than such a gap,
    has no opening at all.

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
        Tiles and openings, rows in order, chairs from the left. [m]
    """
    least_gap_m = spec.cords.diameter_m + rules.length_m("gap_over_cord")
    pinch: list[tuple[str, Rect]] = []
    openings: list[Opening] = []
    for row in rows:
        found = _openings(row, least_gap_m)
        openings.extend(found)
        holes = tuple(opening.rect for opening in found)
        for chair, share in _shares(row):
            pinch.extend((chair.id, tile) for tile in tiles((share,), holes))
    return Zones(pinch=tuple(pinch), openings=tuple(openings))


def _openings(row: SeatedRow, least_gap_m: float) -> tuple[Opening, ...]:
    rear_open = _wide_enough(row.kind.rear_gap_m, least_gap_m)
    arm_open = _wide_enough(row.kind.arm_gap_m, least_gap_m)
    found: list[Opening] = []
    for chair, neighbour in pairwise((*row.chairs, None)):
        if chair is None:
            continue
        clear = chair.clear
        if clear is None or not clear_for_cords(row.kind, least_gap_m):
            continue
        found.append(Opening(chair=chair.id, kind=CLEAR, rect=clear))
        if rear_open and micrometres(chair.floor.back_m) < micrometres(clear.back_m):
            strip = grid_rect(clear.left_m, clear.right_m, chair.floor.back_m, clear.back_m)
            found.append(Opening(chair=chair.id, kind=REAR_STRIP, rect=strip))
        if arm_open and neighbour is not None:
            found.extend(_arm_strip(row, chair, neighbour))
    return tuple(found)


def clear_for_cords(kind: ChairKind, least_gap_m: float) -> bool:
    """Return True where a kind's clear zone was measured and is as high as a gap must be.

    Parameters
    ----------
    kind : ChairKind
        The chairs' kind. [m]
    least_gap_m : float
        The least gap that is open to a cord. [m]
    """
    return kind.clear is not None and _wide_enough(kind.clear.height_m, least_gap_m)


def _arm_strip(row: SeatedRow, chair: SeatedChair, right: SeatedChair) -> tuple[Opening, ...]:
    """The strip from one clear zone to the next, under the arm that the two chairs share."""
    clear, next_clear = chair.clear, right.clear
    if clear is None or next_clear is None:
        return ()
    if (chair.seat, right.seat) in row.row.no_arm_between:
        return ()
    if micrometres(clear.right_m) >= micrometres(next_clear.left_m):
        return ()
    rect = grid_rect(clear.right_m, next_clear.left_m, clear.back_m, clear.front_m)
    return (Opening(chair=chair.id, kind=ARM_STRIP, rect=rect),)


def _wide_enough(measured_m: float | None, least_gap_m: float) -> bool:
    return measured_m is not None and micrometres(measured_m) >= micrometres(least_gap_m)


def _shares(row: SeatedRow) -> tuple[tuple[SeatedChair, Rect], ...]:
    """Each chair's own part of the row's swept floor, shared arms split at their middle."""
    middles = [
        on_grid((left.floor.right_m + right.floor.left_m) / 2)
        for left, right in pairwise(row.chairs)
    ]
    edges = [row.left_m, *middles, row.right_m]
    return tuple(
        (chair, grid_rect(left_m, right_m, chair.floor.back_m, chair.floor.front_m))
        for chair, (left_m, right_m) in zip(row.chairs, pairwise(edges), strict=True)
    )
