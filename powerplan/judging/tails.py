"""The tail of a parked cord: the floor it takes from its way to its coil, and back."""

from __future__ import annotations

from collections.abc import Iterator

from powerplan.judging.case import AGREES, LENIENT_M, Case
from powerplan.judging.convex import Convex, of_rect, pieces, point_to_m, point_to_segment_m
from powerplan.judging.outlines import depth_m, length_beyond_m, moved_out
from powerplan.judging.paths import (
    edge_crossings,
    length_inside_any_m,
    length_outside_m,
    path_length_m,
    path_to_m,
    segments,
)
from powerplan.model.findings import Finding
from powerplan.model.plan import Cord

_OPEN_FLOOR_M = 20e-6
_EDGE_M = 2e-6


def judge_tail(
    case: Case, cord: Cord, coil: Convex, others: tuple[tuple[str, Convex], ...]
) -> Iterator[Finding]:
    """Hold a tail to its ends, to its length, and to the floor that a cord may lie on.

    Parameters
    ----------
    case : Case
        The record on the bench.
    cord : Cord
        A cord with a coil.
    coil : Convex
        The floor of that coil. [m]
    others : tuple of (str, Convex)
        What else lies on the floor, by name: no tail goes over it. [m]

    Yields
    ------
    Finding
        What is not met, and nothing else.
    """
    subject, tail = f"cord {cord.id}", cord.tail_m
    if not tail:
        if path_to_m(cord.path_m, coil) > LENIENT_M:
            yield case.broken(AGREES, subject, "its coil is not on its way, and it has no tail")
        return
    if min(point_to_segment_m(tail[0], piece) for piece in segments(cord.path_m)) > LENIENT_M:
        yield case.broken(AGREES, subject, "its tail does not start on its way")
    if point_to_m(tail[-1], coil) > LENIENT_M:
        yield case.broken(AGREES, subject, "its tail does not end at its coil")
    spare_m = cord.bought_m - cord.length_m - 2 * path_length_m(tail)
    if spare_m < -LENIENT_M * (1 + len(tail)):
        yield case.broken("cord-length", subject, "it is too short to go to its coil and back")
    yield from _on_the_floor(case, cord)
    for name, piece in others:
        if length_inside_any_m(tail, (piece,), -LENIENT_M) > LENIENT_M:
            yield case.broken("cord-has-a-way", subject, f"its tail goes over {name}")


def _on_the_floor(case: Case, cord: Cord) -> Iterator[Finding]:
    subject, tail = f"cord {cord.id}", cord.tail_m
    keep_m = case.rules.length_m("cord_clearance") + case.plan.spec.cords.diameter_m / 2
    for name, piece in case.floor.solids:
        if path_to_m(tail, piece) < keep_m - LENIENT_M:
            yield case.broken("cord-clear-of-mechanism", subject, f"its tail goes through {name}")
    for area in case.plan.spec.walkways:
        if length_inside_any_m(tail, pieces(of_rect(area.rect)), -LENIENT_M) > LENIENT_M:
            yield case.broken("cord-in-walkway", subject, f"its tail is in walkway {area.id}")
    for name, piece in case.floor.doorways:
        if length_inside_any_m(tail, (piece,), -LENIENT_M) > LENIENT_M:
            yield case.broken("cord-through-doorway", subject, f"its tail is in door {name}")
    beyond_m = length_beyond_m(tail, moved_out(case.floor.outline, LENIENT_M))
    if beyond_m > LENIENT_M or min(depth_m(case.floor.outline, at) for at in tail) < -LENIENT_M:
        yield case.hold("cord-has-a-way", subject, 0, 1, note="its tail leaves the room")
    open_m = length_outside_m(tail, case.floor.covered, LENIENT_M)
    if open_m > _OPEN_FLOOR_M * len(tail):
        yield case.broken("cord-on-open-floor", subject, "its tail lies on open floor")
    for riser, deck in case.floor.decks:
        if edge_crossings(tail, deck, _EDGE_M):
            note = f"its tail goes over the edge of riser {riser.id}"
            yield case.broken("cord-has-a-way", subject, note)
