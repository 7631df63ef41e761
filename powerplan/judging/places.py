"""Chairs where they stand and what the record says of each; the zones drawn under them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from powerplan.judging.case import AGREES, LENIENT_UM, Case
from powerplan.judging.convex import Convex, without
from powerplan.judging.feeding import LINK
from powerplan.judging.outlines import around_m, unlike_m2
from powerplan.judging.rows import LaidRow
from powerplan.judging.seats import Seat
from powerplan.judging.standing import normal_rad
from powerplan.model.findings import Finding
from powerplan.model.plan import PlacedChair, Zone

_PINCH = "pinch"
_ANGLE_WITHIN_RAD = Fraction(1, 10**8)
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
    yield case.same_length(subject, "x_m", chair.x_m, seat.pose.x_m)
    yield case.same_length(subject, "y_m", chair.y_m, seat.pose.y_m)
    off_rad = normal_rad(chair.angle_rad - seat.pose.angle_rad)
    follows_rad = chair.angle_rad - off_rad
    yield case.same_number(
        subject, "angle_rad", chair.angle_rad, follows_rad, within=_ANGLE_WITHIN_RAD
    )


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
    """Hold the drawn zones to the recomputed ones, floor by floor."""
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
    allowed = {(opening.chair, opening.kind): opening.pieces for opening in row.openings}
    drawn: dict[tuple[str, str], list[Zone]] = {}
    for zone in (zone for zone in zones if zone.kind in _OPEN_KINDS):
        drawn.setdefault((zone.chair, zone.kind), []).append(zone)
    for (chair, kind), found in drawn.items():
        floor = allowed.get((chair, kind), ())
        if max(_off(found, floor, floor)) > 0.0:
            note = f"the {kind} of chair {chair} is not what was measured"
            yield case.broken(AGREES, subject, note)
    follows = sorted(key for key, floor in allowed.items() if floor)
    yield case.same_words(subject, "openings", sorted(drawn), follows)
    yield _pinch(case, subject, row, [zone for zone in zones if zone.kind == _PINCH])


def _pinch(case: Case, subject: str, row: LaidRow, drawn: list[Zone]) -> Finding:
    """Every chair's own share of the pinch zone is drawn, and nothing but pinch zone, once."""
    holes = [piece for opening in row.openings for piece in opening.pieces]
    must = [part for seat in row.seats for floor in seat.must for part in without(floor, holes)]
    must += [piece for seat in row.seats for piece in seat.added]
    missing, _ = _off(drawn, must, ())
    if missing > 0.0:
        return case.broken(AGREES, subject, f"pinch zone: {missing:.6f} m2 of it are not drawn")
    for seat in row.seats:
        own = [zone for zone in drawn if zone.chair == seat.id]
        floors = seat.must if row.uniform else seat.floor
        may = [part for floor in floors for part in without(floor, holes)]
        _, beyond = _off(own, (), (*may, *seat.added))
        if beyond > 0.0:
            note = f"a pinch zone of chair {seat.id} lies where none is, by {beyond:.6f} m2"
            return case.broken(AGREES, subject, note)
    return case.hold(AGREES, subject, 0, 0)


def _off(drawn: list[Zone], must: Iterable[Convex], may: Iterable[Convex]) -> tuple[float, float]:
    """Floor that is missing, and floor drawn beyond, past what rounding explains. [m2]"""
    outlines = [zone.outline_m for zone in drawn if len(zone.outline_m) > 2]
    wanted, allowed = tuple(must), tuple(may)
    missing, beyond = unlike_m2(outlines, wanted, allowed)
    edge_m = sum(around_m(outline) for outline in outlines)
    edge_m += sum(piece.around_m for piece in (*wanted, *allowed))
    hair = LENIENT_UM * 1e-6 * edge_m
    return max(0.0, missing - hair), max(0.0, beyond - hair)
