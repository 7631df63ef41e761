"""The room surveyed: chairs seated, zones marked, places for new outlets found, ways known."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from fractions import Fraction

from powerplan.engineering.boxes.marks import BoxSpot, NoSpot, mark_box
from powerplan.engineering.circuits.found import outlet_findings, use_findings
from powerplan.engineering.circuits.hazards import existing_findings
from powerplan.engineering.circuits.load import breaker_or_least_a, demand_a, known_load_a
from powerplan.engineering.cords.paths import Router
from powerplan.engineering.cords.route import Route
from powerplan.engineering.seating.covered import covered_floor, doorways
from powerplan.engineering.seating.frames import Outline
from powerplan.engineering.seating.poses import SeatedChair, SeatedRow, seat_rows
from powerplan.engineering.seating.walls import along_m, straight_behind
from powerplan.engineering.seating.zones import Zones, mark_zones
from powerplan.engineering.supplies.ground import Ground, loose_ground
from powerplan.engineering.supplies.places import NoPlace, Spot
from powerplan.model.findings import Finding, hold
from powerplan.model.geometry import Point
from powerplan.model.lengths import micrometers
from powerplan.model.rules import RuleSet
from powerplan.model.spec import Circuit, Outlet, PlanSpec, Riser

FLOOR_BOX = "floor box"
WALL_OUTLET = "wall outlet"
OUTLET = "outlet"


@dataclass(frozen=True, slots=True, kw_only=True)
class Feed:
    """Where cords can start. ``circuit`` is None for a new outlet, whose circuit is chosen later;
    ``chair`` is the chair a new outlet hides under or stands behind. ``broken`` is what makes the
    place itself unfit; a plan never uses such a feed, only the account of why a step fails does.
    ``deck`` is the riser that a box is cut into, ``deck_m`` how high it is. [m]
    """

    id: str
    kind: str
    place: Point
    rise_m: float
    circuit: str | None
    sockets: int
    rating_a: Fraction
    chair: str | None
    broken: tuple[Finding, ...]
    deck: str | None = None
    deck_m: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """The room as the planner sees it. ``ground`` is where supplies and outlet units may lie, None
    where the plan has none; ``lying`` the places found for each. ``splits`` remembers where
    extensions end, by feed, by chair or supply, and by their places; ``plugs`` what was found of
    plugs alike. ``looks`` is what was found, or has to be, at circuits and outlets; it matters only
    where a chair is on them."""

    spec: PlanSpec
    rules: RuleSet
    rows: tuple[SeatedRow, ...]
    zones: Zones
    spots: dict[str, BoxSpot | NoSpot]
    router: Router
    outlets: tuple[Feed, ...]
    floor_boxes: tuple[Feed, ...]
    wall_outlets: tuple[Feed, ...]
    hazards: tuple[Finding, ...]
    looks: tuple[Finding, ...] = ()
    ground: Ground | None = None
    lying: dict[tuple[str, ...], tuple[Spot, ...] | NoPlace] = field(default_factory=dict)
    splits: dict[tuple[str, Point, str, Point], tuple[Route, Route] | None] = field(
        default_factory=dict
    )
    plugs: dict[tuple[str, int, Fraction, Fraction], tuple[Finding, ...]] = field(
        default_factory=dict
    )

    @property
    def chairs(self) -> tuple[SeatedChair, ...]:
        """Every chair, row by row, left to right."""
        return tuple(chair for row in self.rows for chair in row.chairs)

    @property
    def powered(self) -> tuple[SeatedChair, ...]:
        """Every chair that needs a feed, row by row, left to right."""
        return tuple(chair for row in self.rows for chair in row.powered)

    @property
    def under_chairs(self) -> tuple[Outline, ...]:
        """Floor under chairs that is open to a cord; no joint of two cords lies there."""
        return tuple(opening.outline for opening in self.zones.openings)

    def breaker_a(self, circuit: Circuit) -> Fraction:
        """The breaker, or the least there is where nobody knows. [A]"""
        return breaker_or_least_a(circuit, self.rules)

    def unsafe_circuits(self) -> frozenset[str]:
        """The existing circuits with a hazard of their own."""
        stopped = {finding.subject for finding in self.hazards if finding.stops}
        return frozenset(c.id for c in self.spec.circuits if f"circuit {c.id}" in stopped)

    def unsafe_outlets(self) -> frozenset[str]:
        """The existing outlets with a hazard of their own."""
        stopped = {finding.subject for finding in self.hazards if finding.stops}
        return frozenset(o.id for o in self.spec.outlets if f"outlet {o.id}" in stopped)


def survey(spec: PlanSpec, rules: RuleSet) -> Site:
    """Return the room surveyed, ready for choosing."""
    rows = seat_rows(spec)
    zones = mark_zones(spec, rows, rules)
    spots = {chair.id: mark_box(spec, chair, zones, rules) for row in rows for chair in row.powered}
    router = Router(
        spec, rows, zones, covered_floor(spec, rows, rules), doorways(spec, rules), rules
    )
    loose = bool(spec.supplies or spec.outlet_units)
    return Site(
        spec=spec,
        rules=rules,
        rows=rows,
        zones=zones,
        spots=spots,
        router=router,
        ground=loose_ground(spec, rows, zones, router.floor, rules) if loose else None,
        outlets=_existing(spec, rows, rules),
        floor_boxes=_floor_boxes(spec, rows, spots),
        wall_outlets=_wall_outlets(spec, rows, rules),
        hazards=existing_findings(spec, rules) + _overfull(spec, rules),
        looks=_looks(spec, rules),
    )


def _looks(spec: PlanSpec, rules: RuleSet) -> tuple[Finding, ...]:
    """What was found at circuits and outlets, or has to be, before a chair is on them."""
    found = [held for circuit in spec.circuits for held in use_findings(circuit, rules)]
    for outlet in spec.outlets:
        found.extend(outlet_findings(outlet, spec.circuit(outlet.circuit), rules))
    return tuple(found)


def _overfull(spec: PlanSpec, rules: RuleSet) -> tuple[Finding, ...]:
    """Circuits that carry too much before any chair is plugged in."""
    findings = []
    for circuit in spec.circuits:
        if circuit.breaker_a is None:
            continue
        asks_a = demand_a(*known_load_a(circuit), rules)
        if asks_a > circuit.breaker_a:
            note = "It carries too much before any chair is plugged in; take something off it."
            rule = rules.rules["circuit-load"]
            findings.append(
                hold(rule, f"circuit {circuit.id}", asks_a, circuit.breaker_a, note=note)
            )
    return tuple(findings)


def _existing(spec: PlanSpec, rows: tuple[SeatedRow, ...], rules: RuleSet) -> tuple[Feed, ...]:
    return tuple(
        Feed(
            id=outlet.id,
            kind=OUTLET,
            place=(outlet.x_m, outlet.y_m),
            rise_m=outlet.height_m,
            circuit=outlet.circuit,
            sockets=outlet.free,
            rating_a=outlet.rating_a,
            chair=None,
            broken=_plug_too_high(spec, rows, outlet, rules) + _ungrounded(spec, outlet, rules),
        )
        for outlet in spec.outlets
    )


def _ungrounded(spec: PlanSpec, outlet: Outlet, rules: RuleSet) -> tuple[Finding, ...]:
    """An outlet without a ground feeds no chair."""
    held = outlet_findings(outlet, spec.circuit(outlet.circuit), rules)
    return tuple(finding for finding in held if finding.stops)


def _plug_too_high(
    spec: PlanSpec, rows: tuple[SeatedRow, ...], outlet: Outlet, rules: RuleSet
) -> tuple[Finding, ...]:
    """A floor outlet under a chair must leave its plug room below the mechanism."""
    x_m, y_m, plug_m = outlet.x_m, outlet.y_m, spec.new_work.plug_height_m
    for chair in (chair for row in rows for chair in row.chairs):
        clear, zone = chair.clear, chair.kind.clear
        if outlet.wall is not None or clear is None or zone is None:
            continue
        if clear.has(chair.frame.place((x_m, y_m))):
            rule = rules.rules["box-plug-height"]
            held = hold(rule, f"outlet {outlet.id}", plug_m, zone.height_m)
            return (held,) if held.stops else ()
    return ()


def _floor_boxes(
    spec: PlanSpec, rows: tuple[SeatedRow, ...], spots: dict[str, BoxSpot | NoSpot]
) -> tuple[Feed, ...]:
    feeds = []
    for row in rows:
        for chair in row.powered:
            spot = spots[chair.id]
            if isinstance(spot, NoSpot) and chair.clear is None:
                continue
            unfit = isinstance(spot, NoSpot)
            middle = chair.frame.point(chair.clear.middle) if chair.clear else None
            place = middle if unfit and middle else spot_mark(spot)
            feeds.append(
                _new_feed(
                    spec,
                    f"box {chair.id}",
                    FLOOR_BOX,
                    place,
                    0.0,
                    chair.id,
                    tuple(f for f in spot.findings if f.stops) if unfit else (),
                    next((one for one in spec.risers if one.id == chair.riser), None),
                )
            )
    return tuple(feeds)


def spot_mark(spot: BoxSpot | NoSpot) -> Point:
    """Return where a box is marked; only for a spot that there is."""
    if isinstance(spot, NoSpot):
        raise ValueError(f"there is no place for a box under {spot.chair}")
    return spot.mark


def _new_feed(
    spec: PlanSpec,
    name: str,
    kind: str,
    place: Point,
    rise_m: float,
    chair: str,
    broken: tuple[Finding, ...],
    riser: Riser | None = None,
) -> Feed:
    return Feed(
        id=name,
        kind=kind,
        place=place,
        rise_m=rise_m,
        circuit=None,
        sockets=spec.new_work.sockets_per_box,
        rating_a=spec.new_work.socket_rating_a,
        chair=chair,
        broken=broken,
        deck=None if riser is None else riser.id,
        deck_m=0.0 if riser is None else riser.height_m,
    )


def _wall_outlets(spec: PlanSpec, rows: tuple[SeatedRow, ...], rules: RuleSet) -> tuple[Feed, ...]:
    """A new outlet on the wall straight behind each chair that stands near one."""
    height_m = rules.length_m("wall_outlet_height")
    near = micrometers(rules.length_m("covered_gap"))
    feeds = []
    for chair in (chair for row in rows for chair in row.powered):
        place = _behind(spec, chair, near)
        if place is not None:
            feeds.append(
                _new_feed(spec, f"wall {chair.id}", WALL_OUTLET, place, height_m, chair.id, ())
            )
    return tuple(feeds)


def _behind(spec: PlanSpec, chair: SeatedChair, near: int) -> Point | None:
    """The place on the wall behind a chair that is nearer than ``near`` micrometers, if it is no
    door. [um]"""
    spot = (chair.x_m, chair.y_m)
    found = straight_behind(spec.room, spot, chair.angle_rad)
    if found is None or micrometers(math.dist(spot, found[1])) >= near:
        return None
    wall, place = found
    at_m = along_m(wall, place)
    doors = (door for door in spec.doors if door.wall == wall.id)
    return None if any(door.start_m <= at_m <= door.end_m for door in doors) else place
