"""The floor a cord lies on: clear of what moves, of walkways and doorways, covered, not crowded."""

from __future__ import annotations

import math
from collections.abc import Iterator
from fractions import Fraction

from powerplan.judging.case import AGREES, LENIENT_M, Case
from powerplan.judging.feeding import EXTENSION
from powerplan.judging.seats import Opening
from powerplan.judging.shapes import (
    around,
    depth_inside_m,
    gap_m,
    grown,
    length_inside_m,
    length_outside_m,
    path_to_rect_m,
    room_left_m,
    without,
)
from powerplan.model.findings import Finding
from powerplan.model.geometry import Rect
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
            yield from _parked(case, cord)
    yield from _shared_gaps(case)


def clearance_m(case: Case, cord: Cord) -> tuple[float, str]:
    """Return the least room between a cord's surface and what it keeps off, and what that is. [m]

    Infinite where there is nothing to keep off.
    """
    radius_m = case.plan.spec.cords.diameter_m / 2
    apart = [(path_to_rect_m(cord.path_m, rect), name) for name, rect in case.floor.solids]
    nearest_m, name = min(apart, default=(math.inf, "nothing"))
    return nearest_m - radius_m, name


def _clearance(case: Case, cord: Cord) -> Iterator[Finding]:
    subject, (clear_m, nearest) = f"cord {cord.id}", clearance_m(case, cord)
    if not math.isfinite(clear_m):
        return
    limit_m = case.rules.length_m("cord_clearance")
    note = f"nearest to {nearest}"
    yield case.hold("cord-clear-of-mechanism", subject, clear_m, limit_m, note=note)
    yield case.same_length(
        subject, "clearance_m", cord.clearance_m, clear_m, within_um=_CLEARANCE_UM
    )


def _forbidden(case: Case, cord: Cord) -> Iterator[Finding]:
    subject = f"cord {cord.id}"
    for area in case.plan.spec.walkways:
        inside_m = length_inside_m(cord.path_m, grown(area.rect, -LENIENT_M))
        note = f"walkway {area.id}"
        yield case.hold("cord-in-walkway", subject, inside_m, 0.0, note=note)
    for area in case.floor.doorways:
        inside_m = length_inside_m(cord.path_m, grown(area.rect, -LENIENT_M))
        note = f"door {area.id}"
        yield case.hold("cord-through-doorway", subject, inside_m, 0.0, note=note)
    least_m = min(depth_inside_m(case.floor.room, point) for point in cord.path_m)
    if least_m < -LENIENT_M:
        yield case.hold("cord-has-a-way", subject, 0, 1, note="this cord leaves the room")


def _open_floor(case: Case, cord: Cord) -> Iterator[Finding]:
    subject = f"cord {cord.id}"
    covered = [grown(rect, LENIENT_M) for rect in case.floor.covered]
    open_m = length_outside_m(cord.path_m, covered)
    pieces = max(1, len(cord.path_m) - 1)
    within_um = _OPEN_FLOOR_UM * pieces
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
        if depth_inside_m(grown(strip.rect, -LENIENT_M), cord.path_m[-1]) > 0.0:
            note = f"the joint lies in the {strip.kind} of chair {strip.chair}"
            yield case.broken("cord-clear-of-mechanism", f"cord {cord.id}", note)


def _parked(case: Case, cord: Cord) -> Iterator[Finding]:
    """What is left over of a cord is parked in the room, flat and in loops that are not too tight,
    on covered floor of one level, and never under a mechanism."""
    if cord.park_m is None:
        return
    subject, coil = f"cord {cord.id}", around(cord.park_m, *(cord.coil_m or (0.0, 0.0)))
    keep_m = case.rules.length_m("cord_clearance") if cord.coil_m else 0.0
    for name, rect in case.floor.solids:
        if gap_m(grown(rect, keep_m - LENIENT_M), coil) < 0.0:
            note = f"its spare is parked in {name}, or nearer to it than a cord may lie"
            yield case.broken("cord-clear-of-mechanism", subject, note)
    if room_left_m(case.floor.room, coil) < -LENIENT_M:
        yield case.hold("cord-has-a-way", subject, 0, 1, note="its spare is parked outside")
    if cord.coil_m is not None:
        yield from _coil(case, cord, coil)


def _coil(case: Case, cord: Cord, coil: Rect) -> Iterator[Finding]:
    """The floor under a coil, and the oval itself."""
    subject, inner = f"cord {cord.id}", grown(coil, -LENIENT_M)
    for area in case.plan.spec.walkways:
        if gap_m(area.rect, inner) < 0.0:
            yield case.broken("cord-in-walkway", subject, f"spare parked in walkway {area.id}")
    for area in case.floor.doorways:
        if gap_m(area.rect, inner) < 0.0:
            yield case.broken("cord-through-doorway", subject, f"spare parked in door {area.id}")
    if without(inner, [grown(rect, LENIENT_M) for rect in case.floor.covered]):
        yield case.broken("cord-on-open-floor", subject, "its spare is parked on open floor")
    for riser, _ in case.floor.decks:
        if gap_m(riser.rect, inner) < 0.0 and room_left_m(riser.rect, inner) < 0.0:
            note = f"its spare is parked across the edge of riser {riser.id}"
            yield case.broken("cord-has-a-way", subject, note)
    least_m, most_m = case.rules.length_m("coil_depth"), case.rules.length_m("coil_width")
    if min(coil.width_m, coil.depth_m) < least_m - LENIENT_M:
        yield case.broken(AGREES, subject, "its spare is parked in tighter loops than is usual")
    if max(coil.width_m, coil.depth_m) > most_m + LENIENT_M:
        yield case.broken(AGREES, subject, "its spare is parked in wider loops than is usual")


def _strips(case: Case) -> tuple[Opening, ...]:
    return tuple(
        opening for row in case.rows for opening in row.openings if opening.kind != "clear"
    )


def _shared_gaps(case: Case) -> Iterator[Finding]:
    """All cords in one gap fit side by side, each side keeping its clearance."""
    diameter_m = case.plan.spec.cords.diameter_m
    aside_m = 2 * case.rules.length_m("cord_clearance")
    for strip in _strips(case):
        inner = grown(strip.rect, -LENIENT_M)
        inside = [
            cord.id for cord in case.plan.cords if length_inside_m(cord.path_m, inner) > LENIENT_M
        ]
        if not inside:
            continue
        across_m = strip.rect.width_m if strip.kind == "rear strip" else strip.rect.depth_m
        needed_m = Fraction(len(inside)) * Fraction(diameter_m) + Fraction(aside_m)
        subject = f"{strip.kind} of chair {strip.chair}"
        yield case.hold("gap-shared", subject, float(needed_m), across_m, note=", ".join(inside))
