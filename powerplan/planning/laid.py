"""Supplies and outlet units as they would lie, with their cords and every rule they meet."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction

from powerplan.engineering.cords.lengths import needed_lead_m
from powerplan.engineering.cords.paths import NoWay
from powerplan.engineering.seating.poses import SeatedChair
from powerplan.engineering.supplies.low_volts import (
    chair_cord_findings,
    low_drop_finding,
    low_drop_percent,
)
from powerplan.engineering.supplies.places import Loose, NoPlace, Spot, places
from powerplan.model.findings import Finding, hold
from powerplan.model.geometry import Point
from powerplan.model.lengths import length_text, micrometers
from powerplan.model.loose import CHAIR_CORD, WALL_CORD
from powerplan.model.spec import OutletUnitKind, SupplyKind
from powerplan.planning.leads import (
    EXTENSION,
    End,
    Laid,
    Leg,
    lay_lead,
    leg,
    long_enough,
    lying,
    no_way,
)
from powerplan.planning.site import Site

_UNDER_BACK = "supply-under-back"


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidSupply:
    """A supply where it lies, and the chairs it feeds. ``drop_percent`` is of its output. [%]"""

    id: str
    kind: SupplyKind
    chairs: tuple[str, ...]
    spot: Spot
    drop_percent: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidUnit:
    """An outlet unit where it lies, the chairs behind it, and what they take. [A]"""

    id: str
    kind: OutletUnitKind
    chairs: tuple[str, ...]
    spot: Spot
    current_a: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Parts:
    """What one plug takes on the floor: cords from the plug on, supplies, and what was held."""

    legs: tuple[Leg, ...]
    findings: tuple[Finding, ...]
    supplies: tuple[LaidSupply, ...] = ()

    @property
    def rank(self) -> tuple[int, int, int, int, int]:
        """What makes one way better than another: musts not met, things under a reclining back,
        extension cords, bought and routed cord. [um]"""
        return (
            sum(finding.stops for finding in self.findings),
            sum(finding.rule == _UNDER_BACK and finding.hangs for finding in self.findings),
            sum(cord.kind == EXTENSION for cord in self.legs),
            sum(micrometers(cord.bought_m) for cord in self.legs if cord.longer),
            sum(micrometers(cord.length_m) for cord in self.legs),
        )


def supply_name(chairs: tuple[SeatedChair, ...]) -> str:
    """Return what the supply of one or two chairs is called."""
    return f"supply {'/'.join(chair.id for chair in chairs)}"


def lay_supply(
    site: Site,
    start: End,
    chairs: tuple[SeatedChair, ...],
    lid: Point | None,
    extend: bool,
    taken: tuple[Spot, ...] = (),
) -> Parts:
    """Return the supply of one or two chairs with its cords, at the best of the places tried.

    Tried are the place nearest to the chairs, behind the bases and in a clear zone, and where those
    do not do a few more, from the socket outward; no claim is made beyond these.

    Parameters
    ----------
    site : Site
        The room surveyed.
    start : End
        The socket. [m]
    chairs : tuple of SeatedChair
        Those that the supply feeds.
    lid : Point, optional
        The middle of the new box under one of them, whose lid stays free. [m]
    extend : bool
        Whether an extension cord may help the wall cord.
    taken : tuple of Spot
        What lies on the floor already. [m]
    """
    kind, name = site.spec.supply(chairs[0].kind.supply or ""), supply_name(chairs)
    found = _beside(spots_for(site, chairs, kind, lid), taken)
    if isinstance(found, NoPlace):
        return Parts(legs=(), findings=no_spot(site, name, kind, found))
    best: Parts | None = None
    for spot in _tried(site, found, start, chairs, kind):
        parts = _at(site, start, chairs, kind, spot, extend)
        if best is None or parts.rank < best.rank:
            best = parts
        if parts.rank[:4] == (0, 0, 0, 0):
            break
    if best is None:
        raise ValueError(f"no place was tried for {name}")
    return best


def spots_for(
    site: Site, chairs: tuple[SeatedChair, ...], kind: Loose, lid: Point | None
) -> tuple[Spot, ...] | NoPlace:
    """Return the places for a thing that belongs to some chairs, from memory where known.

    Parameters
    ----------
    site : Site
        The room surveyed.
    chairs : tuple of SeatedChair
        Whose it is.
    kind : SupplyKind or OutletUnitKind
        What it is.
    lid : Point, optional
        The middle of a box whose lid stays free. [m]
    """
    if site.ground is None:
        raise ValueError("the plan has nothing that lies loose")
    key = (kind.id, type(kind).__name__, str(lid), *(chair.id for chair in chairs))
    if key not in site.lying:
        shapes = () if lid is None else (site.ground.lid(lid),)
        units = site.spec.project.units
        site.lying[key] = places(site.ground, chairs, kind, units, taken=shapes)
    return site.lying[key]


def _beside(
    found: tuple[Spot, ...] | NoPlace, taken: tuple[Spot, ...]
) -> tuple[Spot, ...] | NoPlace:
    """Those places that are clear of what lies there already."""
    if isinstance(found, NoPlace) or not taken:
        return found
    lying_there = [spot.shape for spot in taken]
    left = tuple(
        spot
        for spot in found
        if not any(spot.shape.intersection(other).area > 0.0 for other in lying_there)
    )
    if left:
        return left
    return NoPlace(words="What else lies on the floor there takes every place for it.", low=())


def no_spot(site: Site, name: str, kind: Loose, why: NoPlace) -> tuple[Finding, ...]:
    """Return the must that leaves a supply or an outlet unit without a place."""
    rules = site.rules.rules
    if why.low:
        _, height_m = why.low[0]
        return (hold(rules["supply-height"], name, kind.height_m, height_m, note=why.words),)
    return (hold(rules["supply-has-a-place"], name, 0.0, 1.0, note=why.words),)


def spot_findings(
    site: Site, name: str, kind: Loose, spot: Spot, chairs: tuple[SeatedChair, ...]
) -> tuple[Finding, ...]:
    """Return what is held of a place that was found."""
    rules = site.rules.rules
    placed = hold(rules["supply-has-a-place"], name, 1.0, 1.0)
    back = hold(
        rules[_UNDER_BACK], name, None if spot.backed else 0.0, 0.0, note=_backed(site, kind, spot)
    )
    zone = next((chair.kind.clear for chair in chairs if chair.id == spot.under), None)
    if zone is None:
        return (placed, back)
    return (placed, back, hold(rules["supply-height"], name, kind.height_m, zone.height_m))


def _backed(site: Site, kind: Loose, spot: Spot) -> str:
    """What is measured where a back reclines over a place."""
    if not spot.backed:
        return ""
    high = length_text(kind.height_m, site.spec.project.units)
    return (
        "It lies under a back that reclines, and nobody has said how high that stays over the "
        f"floor: recline the chair, loaded, and measure. It is {high} high, and its cords leave it."
    )


def _tried(
    site: Site,
    found: tuple[Spot, ...],
    start: End,
    chairs: tuple[SeatedChair, ...],
    kind: SupplyKind,
) -> tuple[Spot, ...]:
    """The places nearest to the chairs, then others from the socket outward."""
    first: list[Spot] = []
    others: list[Spot] = []
    leads = _leads(chairs)
    sorts = ((False, False), (True, False), (False, True))
    for under, backed in sorts:
        spots = [s for s in found if (s.under is not None, s.backed) == (under, backed)]
        first += spots[:1]
        near = _thinned(spots, lambda spot: _from_leads_mm(spot, leads), _MOST)
        near = [spot for spot in near if _reaches(site, spot, leads, kind)]
        others += _thinned(near, lambda spot: _from_socket_mm(spot, start), _OTHERS)
    return tuple(dict.fromkeys(first + others))


def some_of(
    found: tuple[Spot, ...], start: End, chairs: tuple[SeatedChair, ...]
) -> tuple[Spot, ...]:
    """Return a few of the places that were found, those nearest to the chairs first.

    Parameters
    ----------
    found : tuple of Spot
        The places. [m]
    start : End
        The socket. [m]
    chairs : tuple of SeatedChair
        Whose it is.
    """
    leads = _leads(chairs)
    near = [spot for spot in found if not spot.backed] or list(found)
    near = _thinned(near, lambda spot: _from_leads_mm(spot, leads), _MOST)
    far = _thinned(near, lambda spot: _from_socket_mm(spot, start), 2)
    return tuple(dict.fromkeys((found[0], *far)))


def _thinned(spots: list[Spot], apart_mm: Callable[[Spot], int], most: int) -> list[Spot]:
    """Some of them from near to far, evenly; of those equally far all or none, so that a room and
    its mirror image try the same."""
    by_distance: dict[int, list[Spot]] = {}
    for spot in spots:
        by_distance.setdefault(apart_mm(spot), []).append(spot)
    steps = sorted(by_distance)
    kept = steps[:: max(1, -(-len(steps) // most))]
    return [spot for step in kept for spot in by_distance[step]]


_MOST = 24
_OTHERS = 4  # behind the bases, and as many in clear zones


def _from_socket_mm(spot: Spot, start: End) -> int:
    return round(math.dist(spot.middle, start.place) * 1000)


def _leads(chairs: tuple[SeatedChair, ...]) -> tuple[Point, ...]:
    """Where their leads leave. [m]"""
    return tuple(chair.lead_from for chair in chairs)


def _from_leads_mm(spot: Spot, leads: tuple[Point, ...]) -> int:
    return round(max(math.dist(spot.middle, lead) for lead in leads) * 1000)


def _reaches(site: Site, spot: Spot, leads: tuple[Point, ...], kind: SupplyKind) -> bool:
    """True where a straight chair cord would reach every chair."""
    needed_m = max(needed_lead_m(math.dist(spot.middle, lead), site.rules) for lead in leads)
    return micrometers(needed_m) <= micrometers(kind.chair_cord_m)


def _at(
    site: Site,
    start: End,
    chairs: tuple[SeatedChair, ...],
    kind: SupplyKind,
    spot: Spot,
    extend: bool,
) -> Parts:
    name = supply_name(chairs)
    end = End(id=name, place=spot.middle)
    current_a = sum((chair.input_a for chair in chairs), Fraction(0))
    legs, findings = lay_lead(
        site,
        start,
        end,
        chairs[0].kind,
        current_a,
        as_=WALL_CORD,
        chair=name,
        extend=extend,
    )
    for chair in chairs:
        more_legs, more = _chair_cord(site, end, chair, kind)
        legs, findings = legs + more_legs, findings + more
    findings += spot_findings(site, name, kind, spot, chairs)
    findings += (low_drop_finding(kind, name, site.rules),)
    supply = LaidSupply(
        id=name,
        kind=kind,
        chairs=tuple(chair.id for chair in chairs),
        spot=spot,
        drop_percent=low_drop_percent(kind, site.rules),
    )
    return Parts(legs=legs, findings=findings, supplies=(supply,))


def _chair_cord(site: Site, start: End, chair: SeatedChair, kind: SupplyKind) -> Laid:
    way = site.router.route(start.place, chair.lead_from)
    if isinstance(way, NoWay):
        return (), (no_way(site, way, f"{start.id}-{chair.id}"),)
    cord = leg(way, CHAIR_CORD, start.id, chair.id, kind.output_a)
    cord = replace(
        cord,
        needed_m=needed_lead_m(way.way_m, site.rules),
        bought_m=kind.chair_cord_m,
        wire=kind.chair_cord_wire,
    )
    return (cord,), (
        long_enough(site, cord, "cord-length"),
        *lying(site, cord),
        *chair_cord_findings(kind, f"cord {cord.id}", site.rules),
    )
