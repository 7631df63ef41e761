"""Supplies and outlet units on the floor: that each is there once, where it lies, what it loses."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from powerplan.judging.case import AGREES, LENIENT_M, Case
from powerplan.judging.convex import Convex, of_rect, separation_m, thickness_m, without
from powerplan.judging.outlet_units import judge_unit
from powerplan.judging.outlines import slices
from powerplan.judging.seats import Seat
from powerplan.judging.standing import Pose
from powerplan.model.findings import Finding
from powerplan.model.geometry import Point, Rect
from powerplan.model.lengths import micrometers
from powerplan.model.loose import CHAIR_CORD, WALL_CORD, OutletUnit, Supply, SupplyKind
from powerplan.model.spec import OutletUnitKind

Loose = Supply | OutletUnit

_HAS_A_PLACE = "supply-has-a-place"
_TOLERANCE = Fraction(1, 10**4)


def judge_loose(case: Case) -> Iterator[Finding]:
    """Hold every supply and outlet unit to the spec, to its chairs and to the floor it lies on."""
    yield from _one_each(case)
    for supply in case.plan.supplies:
        kind = case.supply_kinds.get(supply.id)
        if kind is None or kind.id != supply.kind:
            note = f"{supply.kind!r:.60} is no supply of the plan file"
            yield case.broken(AGREES, supply.id, note)
            continue
        yield from _size(case, supply, kind)
        yield from _place(case, supply)
        yield from _cords(case, supply, kind)
        yield from _low_volts(case, supply, kind)
    for unit in case.plan.outlet_units:
        offered = case.plan.spec.cords.outlet_unit
        known = next((k for k in case.plan.spec.outlet_units if k.id == unit.kind == offered), None)
        if known is None:
            note = f"{unit.kind!r:.60} is not the outlet unit that the plan file offers"
            yield case.broken(AGREES, unit.id, note)
            continue
        yield from _size(case, unit, known)
        yield from _place(case, unit)
        yield from judge_unit(case, unit, known)


def _one_each(case: Case) -> Iterator[Finding]:
    """Every chair with a supply on the floor has one, shared with whom the plan file says."""
    names = [supply.id for supply in case.plan.supplies]
    names += [unit.id for unit in case.plan.outlet_units]
    for name in sorted({name for name in names if names.count(name) > 1}):
        yield case.broken(AGREES, name, "two things on the floor have this name")
    laid = bool(case.plan.cords)
    for seat in case.seats.values():
        having = [supply for supply in case.plan.supplies if seat.id in supply.chairs]
        wanted = 1 if seat.kind.supply is not None and laid else 0
        subject = f"chair {seat.id}"
        yield case.same_words(subject, "supplies on the floor", len(having), wanted)
        if len(having) == 1:
            yield case.same_words(subject, "supply", having[0].kind, seat.kind.supply)
            mates = sorted(_mates(case, seat))
            yield case.same_words(having[0].id, "chairs", sorted(having[0].chairs), mates)


def _mates(case: Case, seat: Seat) -> list[str]:
    """The chairs that one supply feeds, as the plan file pairs them."""
    numbers = next((p for p in seat.row.shared_supplies if seat.number in p), (seat.number,))
    return [
        other.id
        for other in case.seats.values()
        if other.row.id == seat.row.id and other.number in numbers
    ]


def _size(case: Case, thing: Loose, kind: SupplyKind | OutletUnitKind) -> Iterator[Finding]:
    said = sorted((micrometers(thing.width_m), micrometers(thing.depth_m)))
    follows = sorted((micrometers(kind.width_m), micrometers(kind.depth_m)))
    yield case.same_words(thing.id, "width and depth [um]", said, follows)
    yield case.same_length(thing.id, "height_m", thing.height_m, kind.height_m)


def _place(case: Case, thing: Loose) -> Iterator[Finding]:
    """Whole on covered floor, off everything that moves or is kept free, on one level."""
    seats = [case.seats[name] for name in thing.chairs if name in case.seats]
    turns = {round(seat.pose.angle_rad, 5) for seat in seats}
    if round(thing.angle_rad, 5) not in turns:
        yield case.broken(AGREES, thing.id, "it is turned as none of its chairs is")
    inner = floor_of(thing, LENIENT_M)
    if inner is None:
        yield case.broken(AGREES, thing.id, "it takes no floor")
        return
    wrong = [*_in_the_way(case, thing, inner), *_off_cover(case, inner)]
    wrong += _under(case, thing, inner, seats)
    note = "; ".join(wrong[:3])
    yield case.hold(_HAS_A_PLACE, thing.id, 0 if wrong else 1, 1, note=note)
    yield _under_back(case, thing, inner)
    zone = next((seat.kind.clear for seat in seats if seat.id == thing.under), None)
    if zone is not None:
        yield case.hold("supply-height", thing.id, thing.height_m, zone.height_m)


def _under_back(case: Case, thing: Loose, inner: Convex) -> Finding:
    """Behind a base nobody has said how high a reclined back stays over the floor."""
    backs = [
        body
        for row in case.rows
        for body in row.bodies
        if separation_m(inner, body.swept) < -LENIENT_M
    ]
    under = thing.under is None and bool(backs)
    note = "a back reclines over it at a height that nobody has said" if under else ""
    return case.hold("supply-under-back", thing.id, None if under else 0, 0, note=note)


def floor_of(thing: Loose, less_m: float = 0.0) -> Convex | None:
    """Return the floor that it takes, each side moved in by so much. [m]"""
    wide, deep = thing.width_m / 2 - less_m, thing.depth_m / 2 - less_m
    return Pose(thing.x_m, thing.y_m, thing.angle_rad).box(-wide, wide, -deep, deep)


def _in_the_way(case: Case, thing: Loose, inner: Convex) -> list[str]:
    keep_m, spec = case.rules.length_m("cord_clearance"), case.plan.spec
    wrong = []
    for name, solid in case.floor.solids:
        needed_m = keep_m if name.startswith("the pinch zone") else 0.0
        if separation_m(inner, solid) < needed_m:
            wrong.append(f"it lies in or too near to {name}")
    areas = [(f"walkway {area.id}", of_rect(area.rect)) for area in spec.walkways]
    areas += [(f"the doorway of {name}", area) for name, area in case.floor.doorways]
    areas += [(name, of_rect(lid)) for name, lid in _lids(case)]
    others: tuple[Loose, ...] = (*case.plan.supplies, *case.plan.outlet_units)
    areas += [(other.id, floor_of(other)) for other in others if other is not thing]
    for name, area in areas:
        if area is not None and separation_m(inner, area) < 0.0:
            wrong.append(f"it lies on {name}")
    for riser, deck in case.floor.decks:
        on_it = any(separation_m(inner, piece) < 0.0 for piece in deck)
        if on_it and _left_over(inner, deck):
            wrong.append(f"it lies over the edge of riser {riser.id}")
    return wrong


def _left_over(inner: Convex, pieces: Iterable[Convex]) -> bool:
    """True where some of its floor is in none of the pieces."""
    return any(thickness_m(rest) > LENIENT_M for rest in without(inner, pieces))


def _lids(case: Case) -> Iterator[tuple[str, Rect]]:
    lid, usual_m = case.plan.spec.new_work.lid, case.rules.length_m("usual_lid")
    width_m, depth_m = (usual_m, usual_m) if lid is None else (lid.width_m, lid.depth_m)
    for outlet in case.outlets.values():
        if outlet.wall is None:
            yield f"outlet {outlet.id}", _around((outlet.x_m, outlet.y_m), width_m, depth_m)
    for box in case.boxes.values():
        if box.kind == "floor box":
            yield box.id, _around((box.x_m, box.y_m), width_m, depth_m)


def _around(middle: Point, width_m: float, depth_m: float) -> Rect:
    (x, y), wide, deep = middle, width_m / 2, depth_m / 2
    return Rect(left_m=x - wide, right_m=x + wide, back_m=y - deep, front_m=y + deep)


def _off_cover(case: Case, inner: Convex) -> list[str]:
    wrong = ["it lies on open floor"] if _left_over(inner, case.floor.covered) else []
    if _left_over(inner, slices(case.floor.outline)):
        wrong.append("it lies outside the room")
    return wrong


def _under(case: Case, thing: Loose, inner: Convex, seats: Sequence[Seat]) -> list[str]:
    """In the one clear zone that it names, whole; or on no floor of any row."""
    openings = [o for row in case.rows for o in row.openings]
    if thing.under is None:
        keep_m = case.rules.length_m("cord_clearance")
        return [
            f"it lies in the {o.kind} of {o.chair}"
            for o in openings
            if any(separation_m(inner, piece) < keep_m for piece in o.pieces)
        ]
    zone = next((o for o in openings if o.chair == thing.under and o.kind == "clear"), None)
    if zone is None or thing.under not in {seat.id for seat in seats}:
        return [f"{thing.under} has no clear zone for it"]
    if _left_over(inner, zone.pieces):
        return [f"it is not whole in the clear zone of {thing.under}"]
    return []


def _cords(case: Case, supply: Supply, kind: SupplyKind) -> Iterator[Finding]:
    into = [c for c in case.plan.cords if c.kind == WALL_CORD and c.to == supply.id]
    out = [c.to for c in case.plan.cords if c.kind == CHAIR_CORD and c.from_ == supply.id]
    yield case.same_words(supply.id, "wall cords", len(into), 1)
    yield case.same_words(supply.id, "chair cords to", sorted(out), sorted(supply.chairs))
    if len(out) > kind.feeds:
        yield case.broken(
            AGREES, supply.id, f"it feeds {len(out)} chairs and may feed {kind.feeds}"
        )


def _low_volts(case: Case, supply: Supply, kind: SupplyKind) -> Iterator[Finding]:
    """Direct current out and back along one chair cord, at all that the supply gives."""
    ohm = kind.chair_cord_ohm
    wire = case.wire(kind.chair_cord_wire)
    if ohm is None and wire is not None:
        ohm = 2 * wire.cord_ohm_per_m * kind.chair_cord_m
    percent = None
    if ohm is not None:
        percent = 100 * ohm * float(kind.output_a) / float(kind.output_v)
    yield case.same_number(
        supply.id, "drop_percent", supply.drop_percent, percent, within=_TOLERANCE
    )
    limit = case.rules.exact("low_voltage_drop_percent")
    yield case.hold("low-voltage-drop", supply.id, percent, limit)
