"""The parts of a record, each from what the planner knows of it."""

from __future__ import annotations

from typing import Any

from powerplan.engineering.boxes.marks import BoxSpot
from powerplan.engineering.seating.poses import SeatedChair
from powerplan.model.lengths import micrometers
from powerplan.model.loose import OutletUnit, Supply
from powerplan.model.plan import Box, CircuitUse, Cord, Drift, PlacedChair, Zone
from powerplan.planning.loads import CircuitLoad, Fed, Way
from powerplan.planning.runs import LINK, Leg
from powerplan.planning.site import FLOOR_BOX, Site
from powerplan.planning.spare import Coil, coils
from powerplan.planning.volts import CircuitVolts, Wiring

_NOWHERE = Drift(left_m=0.0, right_m=0.0, back_m=0.0, screen_m=0.0)


def placed_chairs(
    site: Site, way: Way | None, volts: dict[str, CircuitVolts]
) -> tuple[PlacedChair, ...]:
    """Return every chair where it stands, and what feeds it."""
    fed_by: dict[str, tuple[str, str]] = {}
    for fed in way.fed if way else ():
        for run in fed.runs:
            before = fed.feed.id
            for chair in run.chairs:
                fed_by[chair.id] = (fed.circuit, before)
                if any(leg.kind == LINK for leg in run.legs):
                    before = chair.id
    return tuple(_placed(site, chair, fed_by.get(chair.id), volts) for chair in site.chairs)


def _placed(
    site: Site,
    chair: SeatedChair,
    fed_by: tuple[str, str] | None,
    volts: dict[str, CircuitVolts],
) -> PlacedChair:
    nominal_v = float(site.rules.exact("nominal_voltage"))
    circuit, before = fed_by or (None, None)
    lost_v = volts[circuit].lost_v[chair.id] if circuit is not None else None
    return PlacedChair(
        id=chair.id,
        row=chair.row,
        seat=chair.seat,
        x_m=chair.x_m,
        y_m=chair.y_m,
        angle_rad=chair.angle_rad,
        input_a=float(chair.input_a),
        continuous_a=float(chair.continuous_a),
        circuit=circuit,
        fed_by=before,
        volts=None if lost_v is None else nominal_v - lost_v,
        drop_percent=None if lost_v is None else lost_v / nominal_v * 100,
    )


def boxes(site: Site, way: Way, wired: dict[str, Wiring]) -> tuple[Box, ...]:
    """Return every new outlet, in the order of the chairs."""
    return tuple(_box(site, fed, wired[fed.feed.id]) for fed in way.new_outlets)


def _box(site: Site, fed: Fed, wired: Wiring) -> Box:
    feed, chair = fed.feed, fed.feed.chair or ""
    spot = site.spots.get(chair)
    told: dict[str, Any] = {
        "ideal_m": feed.place,
        "may_sit_m": (),
        "drift": _NOWHERE,
        "moved_because": "",
        "provisional": False,
        "second_mark_m": None,
        "deck": None,
    }
    if feed.kind == FLOOR_BOX and isinstance(spot, BoxSpot):
        told = {
            "ideal_m": spot.ideal,
            "may_sit_m": spot.may_sit,
            "drift": spot.drift,
            "moved_because": spot.moved_because,
            "provisional": spot.provisional,
            "second_mark_m": spot.second_mark,
            "deck": spot.deck,
        }
    return Box(
        id=feed.id,
        kind=feed.kind,
        x_m=feed.place[0],
        y_m=feed.place[1],
        height_m=feed.rise_m,
        under=chair,
        circuit=fed.circuit,
        sockets=feed.sockets,
        rating_a=float(feed.rating_a),
        wired_from=wired.from_,
        wiring_m=wired.length_m,
        **told,
    )


def cords(site: Site, way: Way) -> tuple[Cord, ...]:
    """Return every cord, feed by feed, from the plug on."""
    legs = tuple((run, leg) for fed in way.fed for run in fed.runs for leg in run.legs)
    parked = coils(site, legs)
    return tuple(_cord(leg, parked.get(leg.id)) for _, leg in legs)


def _cord(leg: Leg, coil: Coil | None) -> Cord:
    return Cord(
        id=leg.id,
        kind=leg.kind,
        from_=leg.from_,
        to=leg.to,
        path_m=leg.path,
        rises_m=leg.rises_m,
        length_m=leg.length_m,
        needed_m=leg.needed_m,
        bought_m=leg.bought_m,
        wire=leg.wire,
        current_a=float(leg.current_a),
        longer=leg.longer,
        open_floor_m=leg.open_floor_m,
        clearance_m=leg.clearance_m,
        park_m=None if coil is None else coil.middle,
        tail_m=() if coil is None else coil.tail,
        coil_m=None if coil is None else (coil.width_m, coil.depth_m),
    )


def supplies(way: Way) -> tuple[Supply, ...]:
    """Return every supply on the floor, where it lies."""
    laid = (supply for fed in way.fed for run in fed.runs for supply in run.supplies)
    return tuple(
        Supply(
            id=supply.id,
            kind=supply.kind.id,
            chairs=supply.chairs,
            x_m=supply.spot.middle[0],
            y_m=supply.spot.middle[1],
            angle_rad=supply.spot.angle_rad,
            width_m=supply.spot.width_m,
            depth_m=supply.spot.depth_m,
            height_m=supply.kind.height_m,
            under=supply.spot.under,
            drop_percent=supply.drop_percent,
        )
        for supply in laid
    )


def outlet_units(way: Way) -> tuple[OutletUnit, ...]:
    """Return every outlet unit, where it lies."""
    laid = (run.unit for fed in way.fed for run in fed.runs if run.unit is not None)
    return tuple(
        OutletUnit(
            id=unit.id,
            kind=unit.kind.id,
            chairs=unit.chairs,
            x_m=unit.spot.middle[0],
            y_m=unit.spot.middle[1],
            angle_rad=unit.spot.angle_rad,
            width_m=unit.spot.width_m,
            depth_m=unit.spot.depth_m,
            height_m=unit.kind.height_m,
            under=unit.spot.under,
            sockets=unit.kind.sockets,
            rating_a=float(unit.kind.rating_a),
            current_a=float(unit.current_a),
        )
        for unit in laid
    )


def left_over_m(leg: Leg) -> float:
    """Return how much longer a cord is than it must be. [m]"""
    return (micrometers(leg.bought_m) - micrometers(leg.needed_m)) / 1e6


def park_over_m(site: Site) -> float:
    """Return how much may be left over before it needs a place. [m]"""
    return site.rules.length_m("park_over")


def circuit_uses(
    loads: tuple[CircuitLoad, ...], volts: dict[str, CircuitVolts], site: Site
) -> tuple[CircuitUse, ...]:
    """Return every circuit that is there or is needed."""
    return tuple(_circuit_use(load, volts.get(load.id), site) for load in loads)


def _circuit_use(load: CircuitLoad, volts: CircuitVolts | None, site: Site) -> CircuitUse:
    existing, work = load.existing, site.spec.new_work
    breaker_a = work.breaker_a if existing is None else existing.breaker_a
    wire = existing.wire if existing is not None else (volts.wire if volts else work.wire)
    return CircuitUse(
        id=load.id,
        new=existing is None,
        breaker_a=None if breaker_a is None else float(breaker_a),
        wire=wire,
        home_run_m=work.home_run_m if existing is None else existing.home_run_m,
        continuous_a=float(load.continuous_a),
        other_a=float(load.other_a),
        load_known=load.load_known,
        asks_a=float(load.asks_a),
        may_give_a=None if breaker_a is None else float(breaker_a),
        drop_percent=volts.worst_percent if volts and load.chairs else None,
        home_run_most_m=volts.home_run_most_m if volts and load.chairs else None,
    )


def zones(site: Site) -> tuple[Zone, ...]:
    """Return every piece of floor that belongs to a chair."""
    pinch = tuple(
        Zone(chair=chair, kind="pinch", outline_m=outline) for chair, outline in site.zones.pinch
    )
    openings = tuple(
        Zone(chair=opening.chair, kind=opening.kind, outline_m=opening.outline)
        for opening in site.zones.openings
    )
    return pinch + openings
