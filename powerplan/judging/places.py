"""Chairs where they stand and what the record says of each; the zones drawn under them."""

from __future__ import annotations

from collections.abc import Iterator

from powerplan.judging.case import AGREES, LENIENT_UM, Case
from powerplan.judging.feeding import LINK
from powerplan.judging.seats import LaidRow, Seat
from powerplan.judging.shapes import area_m2, bounds_of, gap_m, room_left_m
from powerplan.model.findings import Finding
from powerplan.model.geometry import Rect
from powerplan.model.lengths import micrometres
from powerplan.model.plan import PlacedChair, Zone

_PINCH = "pinch"
_OPEN_KINDS = ("clear", "rear strip", "arm strip")


def judge_chairs(case: Case) -> Iterator[Finding]:
    """Hold every chair's place, currents and supply to the spec and to the cords."""
    names = [chair.id for chair in case.plan.chairs]
    for name in case.seats:
        if names.count(name) != 1:
            note = f"the record places this chair {names.count(name)} times"
            yield case.broken(AGREES, f"chair {name}", note)
    for chair in case.plan.chairs:
        seat = case.seats.get(chair.id)
        if seat is None:
            note = "the plan file seats no such chair"
            yield case.broken(AGREES, f"chair {chair.id}", note)
        else:
            yield from _place(case, chair, seat)
            yield from _supply(case, chair, seat)


def _place(case: Case, chair: PlacedChair, seat: Seat) -> Iterator[Finding]:
    subject = f"chair {chair.id}"
    yield case.same_words(subject, "row", chair.row, seat.row.id)
    yield case.same_words(subject, "seat", chair.seat, seat.number)
    yield case.same_length(subject, "x_m", chair.x_m, seat.x_m)
    yield case.same_length(subject, "y_m", chair.y_m, seat.y_m)
    yield case.same_number(subject, "angle_rad", chair.angle_rad, 0.0)


def _supply(case: Case, chair: PlacedChair, seat: Seat) -> Iterator[Finding]:
    subject = f"chair {chair.id}"
    yield case.same_number(subject, "input_a", chair.input_a, seat.input_a)
    yield case.same_number(subject, "continuous_a", chair.continuous_a, seat.continuous_a)
    yield case.same_words(subject, "fed_by", chair.fed_by, _fed_by(case, chair.id))
    branch = case.branch_of(case.feeding.feed_of(chair.id))
    yield case.same_words(subject, "circuit", chair.circuit, branch.id if branch else None)


def _fed_by(case: Case, chair: str) -> str | None:
    """The outlet, box or chair that the followed cord comes from, or its extension does."""
    into = case.feeding.into[chair]
    if not into:
        return None
    cord = case.plan.cords[into[0]]
    return cord.from_ if cord.kind == LINK else case.feeding.feed_of(chair)


def judge_zones(case: Case) -> Iterator[Finding]:
    """Hold the drawn zones to the recomputed ones: each opening by its sides, pinch by its area."""
    for row in case.rows:
        yield from _row_zones(case, row)
    for zone in case.plan.zones:
        subject = f"zone of chair {zone.chair}"
        if zone.chair not in case.seats:
            yield case.broken(AGREES, subject, "the plan file seats no such chair")
        if zone.kind not in (_PINCH, *_OPEN_KINDS):
            yield case.broken(AGREES, subject, f"{zone.kind!r:.40} is not a kind of zone")
        if len(zone.outline_m) < 3:
            yield case.broken(AGREES, subject, f"a {zone.kind:.40} zone without floor")


def _row_zones(case: Case, row: LaidRow) -> Iterator[Finding]:
    subject = f"zones of row {row.row.id}"
    names = {seat.id for seat in row.seats}
    zones = [zone for zone in case.plan.zones if zone.chair in names and zone.outline_m]
    allowed = {(opening.chair, opening.kind): opening.rect for opening in row.openings}
    for zone in (zone for zone in zones if zone.kind in _OPEN_KINDS):
        rect = allowed.get((zone.chair, zone.kind))
        if rect is None or not _fills(zone, rect):
            note = f"the {zone.kind} of chair {zone.chair} is not what was measured"
            yield case.broken(AGREES, subject, note)
    drawn = [(zone.chair, zone.kind) for zone in zones if zone.kind in _OPEN_KINDS]
    yield case.same_words(subject, "openings", sorted(drawn), sorted(allowed))
    pinch = [zone for zone in zones if zone.kind == _PINCH]
    yield _pinch_area(case, subject, row, pinch)
    for zone in pinch:
        bounds = bounds_of(zone.outline_m)
        stray = _um(room_left_m(row.floor, bounds)) < -LENIENT_UM
        whole = abs(area_m2(zone.outline_m) - bounds.width_m * bounds.depth_m) < 1e-9
        over = whole and any(_um(gap_m(bounds, rect)) < -LENIENT_UM for rect in allowed.values())
        if stray or over:
            note = f"a pinch zone of chair {zone.chair} lies where none is"
            yield case.broken(AGREES, subject, note)


def _pinch_area(case: Case, subject: str, row: LaidRow, pinch: list[Zone]) -> Finding:
    stated_m2 = sum(area_m2(zone.outline_m) for zone in pinch)
    follows_m2 = sum(piece.width_m * piece.depth_m for piece in row.pinch)
    around_m = 2 * (row.floor.width_m + row.floor.depth_m)
    around_m += sum(2 * (o.rect.width_m + o.rect.depth_m) for o in row.openings)
    around_m += 2 * len(pinch) * row.floor.depth_m
    if abs(stated_m2 - follows_m2) <= LENIENT_UM * 1e-6 * around_m:
        return case.hold(AGREES, subject, 0, 0)
    note = f"pinch zone: {stated_m2:.6f} m2 drawn; {follows_m2:.6f} m2 follows"
    return case.broken(AGREES, subject, note)


def _fills(zone: Zone, rect: Rect) -> bool:
    bounds = bounds_of(zone.outline_m)
    sides = (room_left_m(bounds, rect), room_left_m(rect, bounds))
    same = all(_um(side) >= -LENIENT_UM for side in sides)
    return same and abs(area_m2(zone.outline_m) - bounds.width_m * bounds.depth_m) < 1e-9


def _um(length_m: float) -> int:
    return micrometres(length_m)
