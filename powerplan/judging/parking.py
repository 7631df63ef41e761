"""Where the rest of a cord is parked: in the room, flat, and never under a mechanism."""

from __future__ import annotations

from collections.abc import Iterator

from powerplan.judging.case import AGREES, LENIENT_M, Case
from powerplan.judging.convex import (
    Convex,
    apart_m,
    convex,
    depth_inside_m,
    of_rect,
    pieces,
    point_to_segment_m,
    room_left_m,
    separation_m,
    thickness_m,
    without,
)
from powerplan.judging.outlines import depth_m
from powerplan.judging.outlines import room_left_m as outline_left_m
from powerplan.judging.paths import path_length_m, path_to_m, segments
from powerplan.model.findings import Finding
from powerplan.model.geometry import Point
from powerplan.model.plan import Cord


def judge_parking(case: Case, cord: Cord) -> Iterator[Finding]:
    """Hold what is left over of a cord to the floor it is parked on, and its coil to its size."""
    if cord.park_m is None:
        return
    coil = None if cord.coil_m is None else _coil(cord.park_m, cord.coil_m)
    if coil is None:
        yield from _at_a_point(case, cord, cord.park_m)
    else:
        yield from _coiled(case, cord, coil)
    if cord.coil_m is not None:
        yield from _size(case, cord, cord.coil_m)
    if cord.tail_m:
        yield from _tail(case, cord, cord.park_m)


def _coil(middle: Point, size: Point) -> Convex | None:
    (x, y), (wide, deep) = middle, (size[0] / 2, size[1] / 2)
    return convex(
        ((x - wide, y - deep), (x + wide, y - deep), (x + wide, y + deep), (x - wide, y + deep))
    )


def _at_a_point(case: Case, cord: Cord, at: Point) -> Iterator[Finding]:
    subject = f"cord {cord.id}"
    for name, piece in case.floor.solids:
        if depth_inside_m(piece, at) > LENIENT_M:
            note = f"its spare is parked in {name}"
            yield case.broken("cord-clear-of-mechanism", subject, note)
    if depth_m(case.floor.outline, at) < -LENIENT_M:
        yield case.hold("cord-has-a-way", subject, 0, 1, note="its spare is parked outside")


def _coiled(case: Case, cord: Cord, coil: Convex) -> Iterator[Finding]:
    subject, keep_m = f"cord {cord.id}", case.rules.length_m("cord_clearance")
    for name, piece in case.floor.solids:
        if apart_m(piece, coil) < keep_m - LENIENT_M:
            note = f"its spare is parked in {name}, or nearer to it than a cord may lie"
            yield case.broken("cord-clear-of-mechanism", subject, note)
    if outline_left_m(case.floor.outline, coil) < -LENIENT_M:
        yield case.hold("cord-has-a-way", subject, 0, 1, note="its spare is parked outside")
    for area in case.plan.spec.walkways:
        if any(separation_m(piece, coil) < -LENIENT_M for piece in pieces(of_rect(area.rect))):
            yield case.broken("cord-in-walkway", subject, f"spare parked in walkway {area.id}")
    for name, piece in case.floor.doorways:
        if separation_m(piece, coil) < -LENIENT_M:
            yield case.broken("cord-through-doorway", subject, f"spare parked in door {name}")
    bare = without(coil, case.floor.covered)
    if any(thickness_m(piece) > 2 * LENIENT_M for piece in bare):
        yield case.broken("cord-on-open-floor", subject, "its spare is parked on open floor")
    for riser, _ in case.floor.decks:
        deck = of_rect(riser.rect)
        across = deck is not None and separation_m(deck, coil) < -LENIENT_M
        if deck is not None and across and room_left_m(deck, coil) < -LENIENT_M:
            note = f"its spare is parked across the edge of riser {riser.id}"
            yield case.broken("cord-has-a-way", subject, note)


def _tail(case: Case, cord: Cord, park: Point) -> Iterator[Finding]:
    """Hold what goes from a cord's way to its coil and back to the floor and to its length."""
    subject, tail = f"cord {cord.id}", cord.tail_m
    keep_m = case.rules.length_m("cord_clearance")
    if min(point_to_segment_m(tail[0], piece) for piece in segments(cord.path_m)) > LENIENT_M:
        yield case.broken(AGREES, subject, "its tail does not start on its way")
    wide_m, deep_m = cord.coil_m or (0.0, 0.0)
    off_m = (abs(tail[-1][0] - park[0]) - wide_m / 2, abs(tail[-1][1] - park[1]) - deep_m / 2)
    if max(off_m) > LENIENT_M:
        yield case.broken(AGREES, subject, "its tail does not end at its coil")
    for name, piece in case.floor.solids:
        if path_to_m(tail, piece) < keep_m - LENIENT_M:
            yield case.broken("cord-clear-of-mechanism", subject, f"its tail goes through {name}")
    spare_m = cord.bought_m - cord.length_m - 2 * path_length_m(tail)
    if spare_m < -LENIENT_M * (1 + len(tail)):
        yield case.broken("cord-length", subject, "it is too short to go to its coil and back")


def _size(case: Case, cord: Cord, size: Point) -> Iterator[Finding]:
    subject = f"cord {cord.id}"
    least_m, most_m = case.rules.length_m("coil_depth"), case.rules.length_m("coil_width")
    if min(size) < least_m - LENIENT_M:
        yield case.broken(AGREES, subject, "its spare is parked in tighter loops than is usual")
    if max(size) > most_m + LENIENT_M:
        yield case.broken(AGREES, subject, "its spare is parked in wider loops than is usual")
