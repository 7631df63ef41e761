"""Wiring on to new outlets, and the voltage that is lost on the way to each chair."""

from __future__ import annotations

import math
from dataclasses import dataclass

from powerplan.engineering.circuits.drop import Piece, drops_v
from powerplan.engineering.circuits.found import circuit_wire, is_grounded, is_switched
from powerplan.engineering.circuits.load import existing_load_a, wires_for_breaker
from powerplan.model.findings import Finding, hold
from powerplan.model.loose import CHAIR_CORD, WALL_CORD
from powerplan.model.rules import Wire
from powerplan.model.spec import Circuit
from powerplan.planning.loads import CircuitLoad, Way
from powerplan.planning.runs import Run
from powerplan.planning.site import Feed, Site

PANEL = "panel"


@dataclass(frozen=True, slots=True, kw_only=True)
class Wiring:
    """Where an outlet is wired from, and the estimated length of that wiring. [m]"""

    from_: str
    length_m: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class CircuitVolts:
    """A circuit's wire and what each of its chairs loses, and the longest home run with which the
    farthest keeps within the advised drop. None where something is unknown. [V, %, m]"""

    wire: str | None
    lost_v: dict[str, float | None]
    worst_percent: float | None
    home_run_most_m: float | None


def wiring(site: Site, way: Way) -> dict[str, Wiring]:
    """Return how each new outlet is wired: square with drops, an estimate for print.

    On an existing circuit each from the nearest outlet, old or new, that is wired already. On a new
    one the home run ends at the first new outlet and goes on in the same way.
    """
    by_circuit: dict[str, list[Feed]] = {}
    for fed in way.new_outlets:
        if fed.new_circuit:
            by_circuit.setdefault(fed.circuit, []).append(fed.feed)
    told: dict[str, Wiring] = {}
    for first, *left in by_circuit.values():
        told[first.id] = Wiring(from_=PANEL, length_m=site.spec.new_work.home_run_m)
        told |= _by_nearest([first], left)
    for circuit in site.spec.circuits:
        new = [fed.feed for fed in way.new_outlets if fed.circuit == circuit.id]
        told |= _wired_on(site, circuit.id, new)
    return told


def _wired_on(site: Site, circuit: str, new: list[Feed]) -> dict[str, Wiring]:
    """New outlets of an existing circuit.

    Nothing is wired on from an outlet without a ground or behind a wall switch.
    """
    told: dict[str, Wiring] = {}
    there = site.spec.circuit(circuit)
    sound = {
        outlet.id
        for outlet in site.spec.outlets
        if not is_switched(outlet, there) and is_grounded(outlet, there) is not False
    }
    wired = [feed for feed in site.outlets if feed.circuit == circuit and feed.id in sound]
    left = list(new)
    if left and not wired:
        first = left.pop(0)
        told[first.id] = Wiring(from_=f"circuit {circuit}", length_m=None)
        wired.append(first)
    return told | _by_nearest(wired, left)


def _by_nearest(wired: list[Feed], left: list[Feed]) -> dict[str, Wiring]:
    """Each next the new outlet that is nearest to one wired already; equal ones by name.

    That is the least wiring there can be from outlet to outlet.
    """
    told: dict[str, Wiring] = {}
    wired, left = [*wired], [*left]
    while left:
        length_m, source, _, feed = min(
            ((_square_m(one, feed), one.id, feed.id, feed) for one in wired for feed in left),
            key=lambda entry: entry[:3],
        )
        told[feed.id] = Wiring(from_=source, length_m=length_m)
        wired.append(feed)
        left.remove(feed)
    return told


def _square_m(one: Feed, other: Feed) -> float:
    """Across, along, down and up again: from outlets to the floor, from decks to under it."""
    across = abs(one.place[0] - other.place[0]) + abs(one.place[1] - other.place[1])
    one_deck = one.deck == other.deck
    decks_m = 0.0 if one_deck else one.deck_m + other.deck_m
    return round(across + one.rise_m + other.rise_m + decks_m, 6)


def circuit_volts(site: Site, way: Way, load: CircuitLoad) -> CircuitVolts:
    """Return what the chairs of one circuit lose, and the wire that was given or chosen.

    A new circuit whose wire is left open gets the thinnest that its breaker may protect and that
    keeps the farthest chair within the advised drop; where none does, the thickest.
    """
    wires = site.rules.wires
    if load.existing is not None:
        return _volts(site, way, load, circuit_wire(load.existing, site.rules))
    if site.spec.new_work.wire is not None:
        return _volts(site, way, load, wires[site.spec.new_work.wire])
    advised = float(site.rules.exact("drop_percent"))
    tried = [
        _volts(site, way, load, wire) for wire in wires_for_breaker(load.breaker_a, site.rules)
    ]
    fits = (v for v in tried if v.worst_percent is None or v.worst_percent <= advised)
    return next(fits, tried[-1])


def _volts(site: Site, way: Way, load: CircuitLoad, wire: Wire | None) -> CircuitVolts:
    home_run_m = _home_run_m(site, load)
    by_chair = _lost_v(site, way, load, wire, home_run_m)
    return CircuitVolts(
        wire=None if wire is None else wire.name,
        lost_v=by_chair,
        worst_percent=_worst_percent(site, by_chair),
        home_run_most_m=_home_run_most_m(site, way, load, wire),
    )


def _home_run_m(site: Site, load: CircuitLoad) -> float | None:
    """The home run; not known where nobody knows all that it carries."""
    if load.existing is None:
        return site.spec.new_work.home_run_m
    return None if existing_load_a(load.existing) is None else load.existing.home_run_m


def _home_run_most_m(site: Site, way: Way, load: CircuitLoad, wire: Wire | None) -> float | None:
    """The drop grows with the home run in a straight line: two points of it tell where it meets
    what is advised. Down to a micrometer; 0 where none is short enough. [m]"""
    if load.existing is not None and existing_load_a(load.existing) is None:
        return None
    none, meter = (
        _worst_percent(site, _lost_v(site, way, load, wire, home_run_m))
        for home_run_m in (0.0, 1.0)
    )
    if none is None or meter is None or meter <= none:
        return None
    most_m = (float(site.rules.exact("drop_percent")) - none) / (meter - none)
    return max(0.0, math.floor(most_m * 1e6) / 1e6)


def _lost_v(
    site: Site, way: Way, load: CircuitLoad, wire: Wire | None, home_run_m: float | None
) -> dict[str, float | None]:
    lost = drops_v(_pieces(site, way, load, wire, home_run_m))
    return {
        chair.id: lost[f"cord to {run.taken_at(chair)}"]
        for fed in way.fed
        if fed.circuit == load.id
        for run in fed.runs
        for chair in run.chairs
    }


def _worst_percent(site: Site, by_chair: dict[str, float | None]) -> float | None:
    known = [volts for volts in by_chair.values() if volts is not None]
    nominal_v = float(site.rules.exact("nominal_voltage"))
    complete = bool(known) and len(known) == len(by_chair)
    return max(known) / nominal_v * 100 if complete else None


def _pieces(
    site: Site, way: Way, load: CircuitLoad, wire: Wire | None, home_run_m: float | None
) -> tuple[Piece, ...]:
    """The circuit as a tree: home run, wiring on to each outlet, then every cord."""
    home, already_a = f"circuit {load.id}", 0.0
    if load.existing is not None:
        already_a = float(sum(existing_load_a(load.existing) or ()))
    pieces = [Piece(id=home, after=None, length_m=home_run_m, wire=wire, current_a=already_a)]
    pieces += _outlet_pieces(site, way, load, home, wire)
    for fed in way.fed:
        if fed.circuit == load.id:
            for run in fed.runs:
                pieces += _cord_pieces(site, run)
    return tuple(pieces)


def _outlet_pieces(
    site: Site, way: Way, load: CircuitLoad, home: str, wire: Wire | None
) -> list[Piece]:
    pieces = []
    outlets = [feed for feed in site.outlets if feed.circuit == load.id]
    for outlet in outlets:
        on_m = _beyond_first_m(outlet, outlets, load.existing)
        pieces.append(
            Piece(id=f"at {outlet.id}", after=home, length_m=on_m, wire=wire, current_a=0.0)
        )
    told = wiring(site, way)
    for fed in way.new_outlets:
        if fed.circuit != load.id:
            continue
        wired = told[fed.feed.id]
        first = wired.from_ in (PANEL, home)
        pieces.append(
            Piece(
                id=f"at {fed.feed.id}",
                after=home if first else f"at {wired.from_}",
                length_m=0.0 if wired.from_ == PANEL else wired.length_m,
                wire=wire,
                current_a=0.0,
            )
        )
    return pieces


def _beyond_first_m(outlet: Feed, outlets: list[Feed], circuit: Circuit | None) -> float:
    """Wire from a circuit's first outlet on to another; the longest there may be where nobody has
    said which is first. [m]"""
    first = None if circuit is None else circuit.first_outlet
    firsts = [one for one in outlets if first in (None, one.id) and one is not outlet]
    return max((_square_m(one, outlet) for one in firsts), default=0.0)


def _cord_pieces(site: Site, run: Run) -> list[Piece]:
    """Each cord at its whole bought length; the current of a chair is taken where its cord ends,
    and that of a supply at the supply."""
    pieces, before = [], {leg.to: leg.from_ for leg in run.legs}
    places = {chair.id: chair for chair in run.chairs}
    for leg in run.legs:
        if leg.kind == CHAIR_CORD:
            continue
        taken_a = 0.0
        if leg.kind == WALL_CORD:
            taken_a = float(leg.current_a)
        elif leg.to in places:
            taken_a = float(places[leg.to].input_a)
        after = f"cord to {leg.from_}" if leg.from_ in before else f"at {run.feed.id}"
        wire = None if leg.wire is None else site.rules.wires[leg.wire]
        pieces.append(
            Piece(
                id=f"cord to {leg.to}",
                after=after,
                length_m=leg.bought_m,
                wire=wire,
                current_a=taken_a,
                cord=True,
            )
        )
    return pieces


def drop_finding(site: Site, load: CircuitLoad, volts: CircuitVolts) -> Finding:
    """Hold the farthest chair's drop against the advice."""
    note = ""
    if volts.worst_percent is None:
        note = f"Not known: {_unknown(site, load, volts)}."
    elif volts.worst_percent > float(site.rules.exact("drop_percent")):
        note = "A thicker wire or a nearer outlet would lessen it."
    return hold(
        site.rules.rules["voltage-drop"],
        f"circuit {load.id}",
        volts.worst_percent,
        site.rules.exact("drop_percent"),
        note=note,
    )


def _unknown(site: Site, load: CircuitLoad, volts: CircuitVolts) -> str:
    if load.existing is None:
        return "its home run" if site.spec.new_work.home_run_m is None else "a chair's lead wire"
    unknown = []
    if load.existing.home_run_m is None:
        unknown.append("its home run")
    if volts.wire is None:
        unknown.append("its wire")
    if not load.load_known:
        unknown.append("what is on it already")
    return ", ".join(unknown) or "a cord's wire or the wiring to an outlet"
