"""Where the rest of a cord is parked: in the room, flat, and never under what moves."""

from __future__ import annotations

import math
from collections.abc import Iterator

from powerplan.judging.case import AGREES, LENIENT_M, Case
from powerplan.judging.convex import (
    Convex,
    apart_m,
    convex,
    depth_inside_m,
    of_rect,
    pieces,
    room_left_m,
    separation_m,
    thickness_m,
    without,
)
from powerplan.judging.loose import floor_of
from powerplan.judging.outlines import depth_m
from powerplan.judging.outlines import room_left_m as outline_left_m
from powerplan.judging.paths import length_inside_any_m, path_length_m
from powerplan.judging.tails import judge_tail
from powerplan.judging.versions import is_first
from powerplan.model.findings import Finding
from powerplan.model.geometry import Point
from powerplan.model.plan import Cord

_CLEAR, _WAY = "cord-clear-of-mechanism", "cord-has-a-way"
_LOOP_WITHIN_M = 4e-6


def judge_parking(case: Case, cord: Cord) -> Iterator[Finding]:
    """Hold what is left over of a cord to the floor it is parked on, and its coil to its size."""
    subject, coil = f"cord {cord.id}", coil_of(cord)
    if cord.park_m is None:
        if cord.coil_m is not None or cord.tail_m:
            yield case.broken(AGREES, subject, "it has a coil, and nothing says where that is")
        return
    if coil is None or cord.coil_m is None:
        yield from _at_a_point(case, cord, cord.park_m)
        if not is_first(case.plan):
            note = "its spare is parked, and nothing says how much floor that takes"
            yield case.broken(AGREES, subject, note)
        return
    yield from _on_the_floor(case, cord, coil)
    yield from _over_others(case, cord, coil)
    yield from _size(case, cord, cord.coil_m)
    yield from judge_tail(case, cord, coil, _others(case, cord))


def coil_of(cord: Cord) -> Convex | None:
    """Return the floor that a cord's coil takes, None where none is told. [m]"""
    if cord.park_m is None or cord.coil_m is None:
        return None
    (x, y), (wide, deep) = cord.park_m, (cord.coil_m[0] / 2, cord.coil_m[1] / 2)
    return convex(
        ((x - wide, y - deep), (x + wide, y - deep), (x + wide, y + deep), (x - wide, y + deep))
    )


def _at_a_point(case: Case, cord: Cord, at: Point) -> Iterator[Finding]:
    subject = f"cord {cord.id}"
    for name, piece in case.floor.solids:
        if depth_inside_m(piece, at) > LENIENT_M:
            yield case.broken(_CLEAR, subject, f"its spare is parked in {name}")
    if depth_m(case.floor.outline, at) < -LENIENT_M:
        yield case.hold(_WAY, subject, 0, 1, note="its spare is parked outside")


def _on_the_floor(case: Case, cord: Cord, coil: Convex) -> Iterator[Finding]:
    subject = f"cord {cord.id}"
    keep_m = case.rules.length_m("cord_clearance") + case.plan.spec.cords.diameter_m / 2
    for name, piece in case.floor.solids:
        if apart_m(piece, coil) < keep_m - LENIENT_M:
            note = f"its spare is parked in {name}, or nearer to it than a cord may lie"
            yield case.broken(_CLEAR, subject, note)
    for row in case.rows:
        if any(_over(body.swept, coil) for body in row.bodies):
            note = f"its spare is parked where a chair of row {row.row.id} comes over it"
            yield case.broken(_CLEAR, subject, note)
    if outline_left_m(case.floor.outline, coil) < -LENIENT_M:
        yield case.hold(_WAY, subject, 0, 1, note="its spare is parked outside")
    for area in case.plan.spec.walkways:
        if any(_over(piece, coil) for piece in pieces(of_rect(area.rect))):
            yield case.broken("cord-in-walkway", subject, f"spare parked in walkway {area.id}")
    for name, piece in case.floor.doorways:
        if _over(piece, coil):
            yield case.broken("cord-through-doorway", subject, f"spare parked in door {name}")
    bare = without(coil, case.floor.covered)
    if any(thickness_m(piece) > 2 * LENIENT_M for piece in bare):
        yield case.broken("cord-on-open-floor", subject, "its spare is parked on open floor")
    for riser, _ in case.floor.decks:
        deck = of_rect(riser.rect)
        if deck is not None and _over(deck, coil) and room_left_m(deck, coil) < -LENIENT_M:
            note = f"its spare is parked across the edge of riser {riser.id}"
            yield case.broken(_WAY, subject, note)


def _over(piece: Convex, coil: Convex) -> bool:
    return separation_m(piece, coil) < -LENIENT_M


def _others(case: Case, cord: Cord) -> tuple[tuple[str, Convex], ...]:
    """What gets warm, or is in loops itself: other coils, supplies and outlet units."""
    coils = [
        (f"the coil of cord {other.id}", coil_of(other))
        for other in case.plan.cords
        if other is not cord
    ]
    lying = [(thing.id, floor_of(thing)) for thing in case.plan.supplies]
    lying += [(thing.id, floor_of(thing)) for thing in case.plan.outlet_units]
    return tuple((name, piece) for name, piece in (*coils, *lying) if piece is not None)


def _over_others(case: Case, cord: Cord, coil: Convex) -> Iterator[Finding]:
    for name, piece in _others(case, cord):
        if _over(piece, coil):
            yield case.broken(_WAY, f"cord {cord.id}", f"its spare is parked on {name}")
    for other in case.plan.cords:
        in_line = other is cord and not cord.tail_m
        if not in_line and length_inside_any_m(other.path_m, (coil,), -LENIENT_M) > LENIENT_M:
            note = f"its spare is parked on the way of cord {other.id}"
            yield case.broken(_WAY, f"cord {cord.id}", note)


def _size(case: Case, cord: Cord, size: Point) -> Iterator[Finding]:
    """An oval of usual size that holds what is left, in whole loops."""
    subject = f"cord {cord.id}"
    least_m, most_m = case.rules.length_m("coil_depth"), case.rules.length_m("coil_width")
    if min(size) < least_m - LENIENT_M:
        yield case.broken(AGREES, subject, "its spare is parked in tighter loops than is usual")
        return
    if max(size) > most_m + LENIENT_M:
        yield case.broken(AGREES, subject, "its spare is parked in wider loops than is usual")
        return
    loop_m = math.pi * min(size) + 2 * (max(size) - min(size))
    there_m = path_length_m(cord.tail_m) if cord.tail_m else 0.0
    left_m = cord.bought_m - cord.length_m - 2 * there_m
    loops = max(1, round(left_m / loop_m))
    hair_m = _LOOP_WITHIN_M * (loops + len(cord.path_m) + len(cord.tail_m))
    if abs(left_m - loops * loop_m) > hair_m:
        note = f"coil_m: {left_m:.6f} m are left, and a loop of that oval takes {loop_m:.6f} m"
        yield case.broken(AGREES, subject, note)
