"""A run behind an outlet unit: neighboring chairs, each with a plug of its own in the unit."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from powerplan.engineering.circuits.plugs import HOMES, run_findings
from powerplan.engineering.cords.lengths import needed_lead_m
from powerplan.engineering.cords.paths import NoWay
from powerplan.engineering.seating.poses import SeatedChair
from powerplan.engineering.supplies.places import NoPlace, Spot
from powerplan.model.findings import Finding, Force, hold
from powerplan.model.geometry import Point
from powerplan.model.loose import UNIT_CORD
from powerplan.model.spec import OutletUnitKind
from powerplan.planning.laid import LaidUnit, Parts, no_spot, some_of, spot_findings, spots_for
from powerplan.planning.leads import End, Laid, leg, long_enough, lying, no_way
from powerplan.planning.runs import Run, lay_plug, lid_of, run_of
from powerplan.planning.site import Feed, Site

_OF_A_LEAD = ("cord-wire", "coupler-rating")
_FEWEST = 2  # for one chair it would only be an extension cord by another name


def unit_kind(site: Site) -> OutletUnitKind | None:
    """Return the outlet unit that the plan offers, if any."""
    name = site.spec.cords.outlet_unit
    return None if name is None else site.spec.outlet_unit(name)


def plugs_of(chairs: tuple[SeatedChair, ...]) -> tuple[tuple[SeatedChair, ...], ...]:
    """Return chairs by plug: those that share a supply together, all others alone."""
    plugs: list[tuple[SeatedChair, ...]] = []
    for chair in chairs:
        if plugs and plugs[-1][-1].mate == chair.seat and len(plugs[-1]) == 1:
            plugs[-1] = (*plugs[-1], chair)
        else:
            plugs.append((chair,))
    return tuple(plugs)


def may_share_unit(kind: OutletUnitKind | None, chairs: tuple[SeatedChair, ...]) -> bool:
    """Return True where a unit has a socket for each plug and no pair is parted.

    Parameters
    ----------
    kind : OutletUnitKind, optional
        The unit that is offered.
    chairs : tuple of SeatedChair
        Powered chairs of one row, from the left.
    """
    if kind is None:
        return False
    plugs = plugs_of(chairs)
    whole = all(len(plug) == 2 or plug[0].mate is None for plug in plugs)
    return whole and _FEWEST <= len(plugs) <= kind.sockets


def most_behind_unit(site: Site) -> int:
    """Return how many chairs one unit of the plan may feed at most; 1 where there is none."""
    kind = unit_kind(site)
    return 1 if kind is None else 2 * kind.sockets


def make_unit_run(
    site: Site, feed: Feed, chairs: tuple[SeatedChair, ...], circuit_a: Fraction
) -> Run:
    """Return the run of those chairs from that feed through an outlet unit.

    Parameters
    ----------
    site : Site
        The room surveyed; the plan offers a unit.
    feed : Feed
        The fixed outlet that the unit's own plug goes into.
    chairs : tuple of SeatedChair
        Neighbors of one row, from the left.
    circuit_a : Fraction
        The breaker behind the feed. [A]
    """
    kind = unit_kind(site)
    if kind is None:
        raise ValueError("the plan offers no outlet unit")
    name = f"unit {chairs[0].id}-{chairs[-1].id}"
    start = End(id=feed.id, place=feed.place, rise_m=feed.rise_m)
    lid = lid_of(feed, chairs)
    found = spots_for(site, chairs, kind, lid)
    unit = None
    if isinstance(found, NoPlace):
        parts = Parts(legs=(), findings=no_spot(site, name, kind, found))
    else:
        tried = [
            (_at(site, start, chairs, kind, name, spot, lid), spot)
            for spot in some_of(found, start, chairs)
        ]
        parts, spot = min(tried, key=lambda one: one[0].rank)
        unit = LaidUnit(
            id=name,
            kind=kind,
            chairs=tuple(chair.id for chair in chairs),
            spot=spot,
            current_a=_whole_a(chairs),
        )
    held = (*_rated(site, kind, chairs, name), *_plug(site, feed, chairs, circuit_a, name))
    return run_of(feed, chairs, parts, held, unit)


def _whole_a(chairs: tuple[SeatedChair, ...]) -> Fraction:
    return sum((chair.input_a for chair in chairs), Fraction(0))


def _at(
    site: Site,
    start: End,
    chairs: tuple[SeatedChair, ...],
    kind: OutletUnitKind,
    name: str,
    spot: Spot,
    lid: Point | None,
) -> Parts:
    end = End(id=name, place=spot.middle)
    legs, findings = _unit_cord(site, start, end, kind, _whole_a(chairs))
    findings += spot_findings(site, name, kind, spot, chairs)
    parts = Parts(legs=legs, findings=findings)
    taken: tuple[Spot, ...] = (spot,)
    for plug in plugs_of(chairs):
        more = lay_plug(site, end, plug, lid, False, taken)
        taken += tuple(supply.spot for supply in more.supplies)
        parts = Parts(
            legs=parts.legs + more.legs,
            findings=parts.findings + more.findings,
            supplies=parts.supplies + more.supplies,
        )
    return parts


def _unit_cord(site: Site, start: End, end: End, kind: OutletUnitKind, current_a: Fraction) -> Laid:
    way = site.router.route(start.place, end.place)
    if isinstance(way, NoWay):
        return (), (no_way(site, way, f"{start.id}-{end.id}"),)
    cord = leg(way, UNIT_CORD, start.id, end.id, current_a, rise_m=start.rise_m)
    cord = replace(
        cord,
        needed_m=needed_lead_m(way.way_m + start.rise_m, site.rules),
        bought_m=kind.cord_m,
        wire=kind.cord_wire,
    )
    return (cord,), (long_enough(site, cord, "cord-length"), *lying(site, cord))


def _rated(
    site: Site, kind: OutletUnitKind, chairs: tuple[SeatedChair, ...], name: str
) -> tuple[Finding, ...]:
    """What is asked of the unit itself; its listing is a must anywhere but in a home."""
    rules, whole_a = site.rules.rules, _whole_a(chairs)
    note = ""
    if whole_a > kind.rating_a:
        note = f"{float(whole_a):g} A is more than the {float(kind.rating_a):g} A on its label."
    listed, words = (None if kind.listed is None else int(kind.listed)), ""
    if not kind.listed:
        words = (
            "Read its label: an outlet unit that is listed for furniture, with an overcurrent "
            "device of its own, is wanted."
        )
    force = Force.ADVICE if site.spec.project.place in HOMES else Force.MUST
    return (
        hold(rules["unit-into-outlet"], name, 0, 0),
        hold(rules["unit-rating"], name, whole_a, kind.rating_a, note=note),
        hold(rules["unit-listed"], name, listed, 1, note=words, force=force),
        hold(rules["sockets-free"], name, len(plugs_of(chairs)), kind.sockets),
    )


def _plug(
    site: Site,
    feed: Feed,
    chairs: tuple[SeatedChair, ...],
    circuit_a: Fraction,
    name: str,
) -> tuple[Finding, ...]:
    """The unit's own plug in its outlet, and each chair's cord."""
    unit = unit_kind(site)
    wire = None if unit is None else unit.cord_wire
    all_as_one = replace(
        chairs[0].kind,
        input_a=_whole_a(chairs),
        continuous_a=Fraction(0),
        coupler_a=None,
        chain=None,
        lead_wire=wire,
    )
    found = run_findings(all_as_one, 1, circuit_a, feed.rating_a, name, site.rules)
    for plug in plugs_of(chairs):
        kind = plug[0].kind
        each = run_findings(kind, 1, circuit_a, feed.rating_a, f"chair {plug[0].id}", site.rules)
        found += tuple(finding for finding in each if finding.rule in _OF_A_LEAD)
    return found
