"""The floor a cord lies on: clear of what moves, of walkways and doorways, covered, not crowded."""

from __future__ import annotations

import math
from collections.abc import Iterator
from fractions import Fraction

from powerplan.judging.case import LENIENT_M, Case
from powerplan.judging.convex import depth_inside_m, of_rect, pieces
from powerplan.judging.feeding import EXTENSION
from powerplan.judging.measured import is_guess
from powerplan.judging.openings import Opening
from powerplan.judging.outlines import depth_m, length_beyond_m, moved_out
from powerplan.judging.parking import judge_parking
from powerplan.judging.paths import (
    length_inside_any_m,
    length_inside_m,
    length_outside_m,
    path_to_m,
)
from powerplan.model.findings import Finding
from powerplan.model.plan import Cord

_CLEARANCE_UM = 5
_OPEN_FLOOR_UM = 20


def judge_ways(case: Case) -> Iterator[Finding]:
    """Hold the way of every cord to the floor it may lie on."""
    for cord in case.plan.cords:
        if cord.path_m:
            yield from _clearance(case, cord)
            yield from _forbidden(case, cord)
            yield from _open_floor(case, cord)
            yield from _joint(case, cord)
            yield from judge_parking(case, cord)
    yield from _shared_gaps(case)


def clearance_m(case: Case, cord: Cord) -> tuple[float, str]:
    """Return the least room between a cord's surface and what it keeps off, and what that is. [m]

    Infinite where there is nothing to keep off.
    """
    radius_m = case.plan.spec.cords.diameter_m / 2
    apart = [(path_to_m(cord.path_m, piece), name) for name, piece in case.floor.solids]
    nearest_m, name = min(apart, default=(math.inf, "nothing"))
    return nearest_m - radius_m, name


def _clearance(case: Case, cord: Cord) -> Iterator[Finding]:
    subject, (clear_m, nearest) = f"cord {cord.id}", clearance_m(case, cord)
    if not math.isfinite(clear_m):
        return
    limit_m = case.rules.length_m("cord_clearance")
    note = f"nearest to {nearest}"
    if is_guess(case, cord):
        yield case.hold("cord-clear-of-mechanism", subject, None, limit_m)
    else:
        yield case.hold("cord-clear-of-mechanism", subject, clear_m, limit_m, note=note)
    yield case.same_length(
        subject, "clearance_m", cord.clearance_m, clear_m, within_um=_CLEARANCE_UM
    )


def _forbidden(case: Case, cord: Cord) -> Iterator[Finding]:
    subject = f"cord {cord.id}"
    for area in case.plan.spec.walkways:
        inside_m = length_inside_any_m(cord.path_m, pieces(of_rect(area.rect)), -LENIENT_M)
        note = f"walkway {area.id}"
        yield case.hold("cord-in-walkway", subject, inside_m, 0.0, note=note)
    for name, piece in case.floor.doorways:
        inside_m = length_inside_m(cord.path_m, piece, -LENIENT_M)
        yield case.hold("cord-through-doorway", subject, inside_m, 0.0, note=f"door {name}")
    least_m = min(depth_m(case.floor.outline, point) for point in cord.path_m)
    beyond_m = length_beyond_m(cord.path_m, moved_out(case.floor.outline, LENIENT_M))
    if least_m < -LENIENT_M or beyond_m > LENIENT_M:
        yield case.hold("cord-has-a-way", subject, 0, 1, note="this cord leaves the room")


def _open_floor(case: Case, cord: Cord) -> Iterator[Finding]:
    subject = f"cord {cord.id}"
    open_m = length_outside_m(cord.path_m, case.floor.covered, LENIENT_M)
    within_um = _OPEN_FLOOR_UM * max(1, len(cord.path_m) - 1)
    yield case.hold(
        "cord-on-open-floor",
        subject,
        open_m,
        case.plan.spec.cords.open_floor_m,
        lenient_um=within_um,
    )
    yield case.same_length(subject, "open_floor_m", cord.open_floor_m, open_m, within_um=within_um)


def _joint(case: Case, cord: Cord) -> Iterator[Finding]:
    """A plug does not fit under a rail or an arm: no joint lies in a measured gap."""
    if cord.kind != EXTENSION:
        return
    for strip in _strips(case):
        if any(depth_inside_m(piece, cord.path_m[-1]) > LENIENT_M for piece in strip.pieces):
            note = f"the joint lies in the {strip.kind} of chair {strip.chair}"
            yield case.broken("cord-clear-of-mechanism", f"cord {cord.id}", note)


def _strips(case: Case) -> tuple[Opening, ...]:
    return tuple(
        opening for row in case.rows for opening in row.openings if opening.kind != "clear"
    )


def _shared_gaps(case: Case) -> Iterator[Finding]:
    """All cords in one gap fit side by side, each side keeping its clearance; a tail lies twice."""
    diameter_m = case.plan.spec.cords.diameter_m
    aside_m = 2 * case.rules.length_m("cord_clearance")
    for strip in _strips(case):
        inside = [
            cord.id
            for cord in case.plan.cords
            for way in (cord.path_m, cord.tail_m, cord.tail_m)
            if length_inside_any_m(way, strip.pieces, -LENIENT_M) > LENIENT_M
        ]
        if not inside:
            continue
        needed_m = Fraction(len(inside)) * Fraction(diameter_m) + Fraction(aside_m)
        subject = f"{strip.kind} of chair {strip.chair}"
        yield case.hold(
            "gap-shared", subject, float(needed_m), strip.across_m, note=", ".join(inside)
        )
