"""Cords: where they end, how long they must be, what was bought, and what they carry."""

from __future__ import annotations

import math
from collections.abc import Iterator

from powerplan.judging.case import AGREES, FLOOR_BOX, LENIENT_UM, Case
from powerplan.judging.feeding import EXTENSION, LINK, OWN
from powerplan.judging.measured import is_guess
from powerplan.judging.paths import edge_crossings, path_length_m
from powerplan.judging.plugs import downstream_a
from powerplan.model.findings import Finding
from powerplan.model.geometry import Point
from powerplan.model.lengths import MICROMETER_M, micrometers
from powerplan.model.loose import CHAIR_CORD, UNIT_CORD, WALL_CORD
from powerplan.model.plan import Cord

_EDGE_M = 2 * MICROMETER_M
_KINDS = (OWN, LINK, EXTENSION, WALL_CORD, CHAIR_CORD, UNIT_CORD)


def judge_cords(case: Case) -> Iterator[Finding]:
    """Hold every cord's ends, lengths, purchase and current."""
    names = [cord.id for cord in case.plan.cords]
    for n, cord in enumerate(case.plan.cords):
        subject = f"cord {cord.id}"
        if names.count(cord.id) > 1:
            yield case.broken(AGREES, subject, "two cords have this name")
        if cord.kind not in _KINDS:
            yield case.broken(AGREES, subject, f"{cord.kind!r:.40} is not a kind of cord")
        else:
            name = f"{cord.from_}-{cord.to}"
            yield case.same_words(subject, "id", cord.id, name)
        current = downstream_a(case, n)
        yield case.same_number(subject, "current_a", cord.current_a, current)
        yield from _ends(case, cord)
        yield from _lengths(case, cord)
        yield from _bought(case, cord)


def length_um_forgiven(cord: Cord) -> int:
    """Return how far a length may be off: each corner of a path was rounded. [um]"""
    return LENIENT_UM * max(1, len(cord.path_m) - 1)


def way_m(case: Case, cord: Cord) -> tuple[float, float]:
    """Return a cord's length in plan, and what it climbs: riser edges, and its socket's height.

    Returns
    -------
    tuple of float
        Plan length and rises. [m]
    """
    climbs = [
        riser.height_m * edge_crossings(cord.path_m, deck, _EDGE_M)
        for riser, deck in case.floor.decks
    ]
    return path_length_m(cord.path_m), math.fsum([*climbs, _start_height_m(case, cord)])


def _start_height_m(case: Case, cord: Cord) -> float:
    if cord.kind == LINK:
        return 0.0
    if cord.from_ in case.outlets:
        return case.outlets[cord.from_].height_m
    return case.boxes[cord.from_].height_m if cord.from_ in case.boxes else 0.0


def _lengths(case: Case, cord: Cord) -> Iterator[Finding]:
    subject, off_um = f"cord {cord.id}", length_um_forgiven(cord)
    plan_m, rises_m = way_m(case, cord)
    total_m = plan_m + rises_m
    needed_m = total_m
    rule = "link-length"
    if cord.kind != LINK:
        rule = "cord-length"
        factor = float(case.rules.exact("slack_factor"))
        needed_m = (total_m + case.rules.length_m("slack")) * factor
    yield case.same_length(subject, "rises_m", cord.rises_m, rises_m)
    yield case.same_length(subject, "length_m", cord.length_m, total_m, within_um=off_um)
    yield case.same_length(subject, "needed_m", cord.needed_m, needed_m, within_um=off_um + 1)
    sure = cord.bought_m >= needed_m or not is_guess(case, cord)
    yield case.hold(rule, subject, cord.bought_m, needed_m, checked=sure, lenient_um=off_um + 1)
    over_m = cord.bought_m - total_m
    allowed_m = case.rules.length_m("park_over")
    if cord.park_m is None:
        yield case.hold("spare-parked", subject, max(over_m, 0.0), allowed_m, lenient_um=off_um)


def _bought(case: Case, cord: Cord) -> Iterator[Finding]:
    """Hold what was bought to what is sold, or what came with the chair."""
    subject = f"cord {cord.id}"
    if cord.kind == EXTENSION:
        offered = case.plan.spec.cords
        yield case.same_words(subject, "wire", cord.wire, offered.wire)
        sold = min(offered.lengths_m, key=lambda m: abs(m - cord.bought_m), default=None)
        yield case.same_length(subject, "bought_m", cord.bought_m, sold)
        wanted = "yes" if cord.from_ in case.boxes else "if needed"
        if offered.extensions not in ("yes", wanted):
            note = f"extensions are {offered.extensions!r} and this one starts at {cord.from_}"
            yield case.broken(AGREES, subject, note)
        return
    if cord.kind in (WALL_CORD, CHAIR_CORD):
        yield from _of_a_supply(case, cord)
        return
    if cord.kind == UNIT_CORD:
        for unit in case.plan.spec.outlet_units:
            if cord.to in case.units and case.units[cord.to].kind == unit.id:
                yield from _of_its_maker(case, cord, unit.cord_m, ())
                yield case.same_words(subject, "wire", cord.wire, unit.cord_wire)
        return
    seat = case.seats.get(cord.to)
    if seat is None:
        return
    if cord.kind == OWN:
        yield from _of_its_maker(case, cord, seat.kind.lead_m, seat.kind.longer_leads_m)
        yield case.same_words(subject, "wire", cord.wire, seat.kind.lead_wire)
        return
    before = case.seats.get(cord.from_)  # a link comes with the chair that it leaves
    if before is not None and before.kind.chain is not None:
        yield case.same_length(subject, "bought_m", cord.bought_m, before.kind.chain.link_m)
        yield case.same_words(subject, "wire", cord.wire, before.kind.chain.wire)


def _of_a_supply(case: Case, cord: Cord) -> Iterator[Finding]:
    """A wall cord and a chair cord are those of the supply between them."""
    subject = f"cord {cord.id}"
    name = cord.to if cord.kind == WALL_CORD else cord.from_
    kind = case.supply_kinds.get(name)
    if kind is None:
        yield case.broken(AGREES, subject, f"no supply is called {name!r:.60}")
    elif cord.kind == WALL_CORD:
        yield from _of_its_maker(case, cord, kind.wall_cord_m, kind.longer_cords_m)
        yield case.same_words(subject, "wire", cord.wire, kind.wall_cord_wire)
    else:
        yield from _of_its_maker(case, cord, kind.chair_cord_m, ())
        yield case.same_words(subject, "wire", cord.wire, kind.chair_cord_wire)


def _of_its_maker(
    case: Case, cord: Cord, usual_m: float, longer_m: tuple[float, ...]
) -> Iterator[Finding]:
    """A cord that comes with a chair or supply has its usual length, or one its maker sells."""
    made_m = longer_m if cord.longer else (usual_m,)
    if not made_m:
        yield case.broken(AGREES, f"cord {cord.id}", "longer: its maker sells no longer one")
        return
    nearest_m = min(made_m, key=lambda one: abs(one - cord.bought_m))
    yield case.same_length(f"cord {cord.id}", "bought_m", cord.bought_m, nearest_m)


def _ends(case: Case, cord: Cord) -> Iterator[Finding]:
    subject = f"cord {cord.id}"
    if not cord.path_m:
        yield case.broken("ends-meet", subject, "this cord has no path")
        return
    ends = (
        (cord.from_, _start(case, cord), cord.path_m[0]),
        (cord.to, _end(case, cord), cord.path_m[-1]),
    )
    for name, place, point in ends:
        if place is None:
            note = f"no outlet, box, chair or joint that this end could meet is called {name!r:.60}"
            yield case.broken("ends-meet", subject, note)
        else:
            apart_m = math.dist(place, point)
            note = f"this end is not at {name}" if micrometers(apart_m) > LENIENT_UM else ""
            yield case.hold("ends-meet", subject, apart_m, 0.0, note=note)
    if cord.kind == LINK:
        yield from _neighbors(case, cord)


def _start(case: Case, cord: Cord) -> Point | None:
    if cord.kind == LINK:
        return case.seats[cord.from_].lead_from if cord.from_ in case.seats else None
    if cord.from_ in case.outlets:
        outlet = case.outlets[cord.from_]
        return outlet.x_m, outlet.y_m
    if cord.from_ in case.boxes:
        box = case.boxes[cord.from_]
        return box.x_m, box.y_m
    if cord.from_ in case.supplies or cord.from_ in case.units:
        return _loose(case, cord.from_)
    before = (c for c in case.plan.cords if c.kind == EXTENSION and c.to == cord.from_ and c.path_m)
    return next((other.path_m[-1] for other in before), None)


def _loose(case: Case, name: str) -> Point | None:
    """The middle of a supply or an outlet unit. [m]"""
    thing = case.supplies.get(name) or case.units.get(name)
    return None if thing is None else (thing.x_m, thing.y_m)


def _end(case: Case, cord: Cord) -> Point | None:
    if cord.kind in (WALL_CORD, UNIT_CORD):
        return _loose(case, cord.to)
    if cord.kind != EXTENSION:
        return case.seats[cord.to].lead_from if cord.to in case.seats else None
    after = (c for c in case.plan.cords if c.from_ == cord.to and c.kind != LINK and c.path_m)
    return next((other.path_m[0] for other in after), None)


def _neighbors(case: Case, cord: Cord) -> Iterator[Finding]:
    """A link goes from a chair to the next one of its row, and only where the maker lists it."""
    subject = f"cord {cord.id}"
    one, other = case.seats.get(cord.from_), case.seats.get(cord.to)
    if one is None or other is None:
        return
    if one.row.id != other.row.id or abs(one.number - other.number) != 1:
        yield case.broken(AGREES, subject, "a link joins neighbors of one row; these are not")
    if other.kind.chain is None:
        note = f"chair {other.kind.id!r} has no link listed by its maker"
        yield case.broken("chain-count", subject, note)


def box_height_m(case: Case, kind: str) -> float:
    """Return the height of a new outlet over its floor. [m]"""
    return 0.0 if kind == FLOOR_BOX else case.rules.length_m("wall_outlet_height")
