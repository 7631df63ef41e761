"""Floor inside a row on which a cord may lie, less the moving parts that come down on it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from powerplan.judging.convex import Convex, hull, separation_m, without
from powerplan.judging.seats import Seat, is_open
from powerplan.judging.standing import ARM, SEAT, TABLE
from powerplan.model.lengths import MICROMETER_M, micrometers
from powerplan.model.spec import Piece, PlanSpec


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """Floor inside a row on which a cord may lie: "clear", "rear strip" or "arm strip".

    ``pieces`` is what moving parts leave of it, ``across_m`` how many cords it is wide for. [m]
    """

    chair: str
    kind: str
    pieces: tuple[Convex, ...]
    across_m: float


def _before(one_m: float, other_m: float) -> bool:
    return micrometers(one_m) < micrometers(other_m)


def openings_of(
    spec: PlanSpec, listed: tuple[Piece, ...], seats: tuple[Seat, ...], needed_m: float
) -> Iterable[Opening]:
    """Give every opening of a row, chair by chair: its pieces, the arms and tables between seats.

    A gap lets a cord pass from ``needed_m`` on. [m]
    """
    parts = [part for seat in seats for part in seat.parts]
    for seat, after in zip(seats, (*seats[1:], None), strict=True):
        clear, zone = seat.clear, seat.kind.clear
        if clear is None or zone is None or not _opens(seat, needed_m):
            continue
        yield _opening(seat, "clear", clear, parts, zone.width_m)
        rear_m, half_m = seat.kind.rear_of_base_m, zone.width_m / 2
        if is_open(seat.kind.rear_gap_m, needed_m) and _before(rear_m, zone.from_m):
            rear = seat.pose.box(-half_m, half_m, rear_m, zone.from_m)
            if rear is not None:
                yield _opening(seat, "rear strip", rear, parts, zone.width_m)
        if after is not None and _passes(spec, listed, seat.number, needed_m):
            yield from _arm_strip(seat, after, parts, needed_m)


def _opens(seat: Seat, needed_m: float) -> bool:
    """True where the clear zone was measured, and is high enough for a cord."""
    zone = seat.kind.clear
    return seat.kind.measured and zone is not None and is_open(zone.height_m, needed_m)


def _passes(spec: PlanSpec, listed: tuple[Piece, ...], number: int, needed_m: float) -> bool:
    """True where a cord may pass under all that stands between a seat and the next.

    Each of the two needs an arm with a measured gap on that side: nobody measured the side of a
    cushion.
    """
    kinds = {kind.id: kind for kind in spec.chairs}
    tables = {table.id: table for table in spec.tables}
    places = [n for n, piece in enumerate(listed) if piece.what == SEAT]
    between = listed[places[number - 1] + 1 : places[number]]
    if not between or between[0].what != ARM or between[-1].what != ARM:
        return False
    for piece in between:
        if piece.what == ARM and not is_open(kinds[piece.kind or ""].arm_gap_m, needed_m):
            return False
        if piece.what == TABLE and not is_open(tables[piece.kind or ""].under_m, needed_m):
            return False
    return True


def _arm_strip(seat: Seat, after: Seat, parts: list[Convex], needed_m: float) -> Iterable[Opening]:
    one, other, zone, beside = seat.clear, after.clear, seat.kind.clear, after.kind.clear
    if one is None or other is None or zone is None or beside is None:
        return
    if not _opens(after, needed_m) or separation_m(one, other) < MICROMETER_M / 2:
        return
    from_m, to_m = max(zone.from_m, beside.from_m), min(zone.to_m, beside.to_m)
    if not _before(from_m, to_m):
        return
    right_m, left_m = zone.width_m / 2, -beside.width_m / 2
    strip = hull(
        (
            *(seat.pose.at(right_m, v) for v in (from_m, to_m)),
            *(after.pose.at(left_m, v) for v in (from_m, to_m)),
        )
    )
    if strip is not None:
        yield _opening(seat, "arm strip", strip, parts, to_m - from_m)


def _opening(seat: Seat, kind: str, whole: Convex, parts: list[Convex], across_m: float) -> Opening:
    """An opening less the parts that come down into it, and as narrow as they leave it at least."""
    inside = [part for part in parts if separation_m(part, whole) < -MICROMETER_M]
    axis = 1 if kind == "arm strip" else 0
    for part in inside:
        along = [seat.pose.back(corner)[axis] for corner in part.corners]
        span = [seat.pose.back(corner)[axis] for corner in whole.corners]
        across_m -= max(0.0, min(max(along), max(span)) - max(min(along), min(span)))
    left = without(whole, inside)
    return Opening(chair=seat.id, kind=kind, pieces=left, across_m=max(across_m, 0.0))
