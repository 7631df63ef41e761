"""A run: neighboring chairs on one plug, with every cord it needs and every rule it meets."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise

from powerplan.engineering.circuits.plugs import run_findings
from powerplan.engineering.cords.lengths import needed_link_m
from powerplan.engineering.cords.paths import NoWay
from powerplan.engineering.seating.poses import SeatedChair
from powerplan.engineering.supplies.places import Spot
from powerplan.model.findings import Finding
from powerplan.model.geometry import Point
from powerplan.model.lengths import micrometers
from powerplan.model.loose import CHAIR_CORD, WALL_CORD
from powerplan.planning.chaining import as_one_kind
from powerplan.planning.laid import LaidSupply, LaidUnit, Parts, lay_supply, supply_name
from powerplan.planning.leads import (
    EXTENSION,
    LINK,
    OWN,
    End,
    Laid,
    Leg,
    lay_lead,
    leg,
    long_enough,
    lying,
    no_way,
)
from powerplan.planning.site import FLOOR_BOX, Feed, Site

__all__ = ["EXTENSION", "LINK", "OWN", "Leg", "Run", "make_run"]

_PLUG = "this plug"  # stands for the chair or chain in findings that many runs share


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """Chairs in the order in which current reaches them, from one socket of one feed."""

    feed: Feed
    chairs: tuple[SeatedChair, ...]
    legs: tuple[Leg, ...]
    way_findings: tuple[Finding, ...]
    plug_findings: tuple[Finding, ...]
    extensions: int
    bought_um: int
    routed_um: int
    supplies: tuple[LaidSupply, ...] = ()
    unit: LaidUnit | None = None

    @property
    def name(self) -> str:
        """What people call it: a chair, a chain, a supply, or an outlet unit."""
        if self.unit is not None:
            return self.unit.id
        if self.chairs[0].kind.supply is not None:
            return supply_name(self.chairs)
        if len(self.chairs) > 1:
            return f"chain {self.chairs[0].id}-{self.chairs[-1].id}"
        return f"chair {self.chairs[0].id}"

    def taken_at(self, chair: SeatedChair) -> str:
        """Return where a chair's current is taken from the mains: the chair, or its supply."""
        feeding = (supply.id for supply in self.supplies if chair.id in supply.chairs)
        return next(feeding, chair.id)

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Every rule held against this run, of its way and of its plug."""
        plug = (replace(f, subject=f.subject.replace(_PLUG, self.name)) for f in self.plug_findings)
        return self.way_findings + tuple(plug)

    @property
    def broken_rules(self) -> tuple[str, ...]:
        """The rules of the musts that this run does not meet, one entry a finding."""
        return tuple(f.rule for f in self.way_findings + self.plug_findings if f.stops)

    @property
    def broken(self) -> tuple[Finding, ...]:
        """The musts that this run does not meet."""
        return tuple(finding for finding in self.findings if finding.stops)

    @property
    def ids(self) -> str:
        """A name that orders equal runs: the cords, from the plug on."""
        return " ".join(cord.id for cord in self.legs) or f"{self.feed.id}-{self.chairs[0].id}"


def make_run(
    site: Site, feed: Feed, chairs: tuple[SeatedChair, ...], circuit_a: Fraction, extend: bool
) -> Run:
    """Return the run of those chairs from that feed, whether or not it meets every rule.

    Parameters
    ----------
    site : Site
        The room surveyed.
    feed : Feed
        Where the plug goes.
    chairs : tuple of SeatedChair
        One chair on its own cord, or neighbors of one row in the order of the chain.
    circuit_a : Fraction
        The breaker behind the feed. [A]
    extend : bool
        Whether an extension cord may help where the first lead does not reach.
    """
    kind = chairs[0].kind
    start = End(id=feed.id, place=feed.place, rise_m=feed.rise_m)
    parts = lay_plug(site, start, chairs, lid_of(feed, chairs), extend)
    draws = 1 if kind.supply is not None else len(chairs)
    one = as_one_kind([chair.kind for chair in chairs], site.rules)
    names = kind.id if one == kind else " + ".join(chair.kind.id for chair in chairs)
    plug = (names, draws, circuit_a, feed.rating_a)
    if plug not in site.plugs:
        site.plugs[plug] = run_findings(one, draws, circuit_a, feed.rating_a, _PLUG, site.rules)
    return run_of(feed, chairs, parts, site.plugs[plug])


def run_of(
    feed: Feed,
    chairs: tuple[SeatedChair, ...],
    parts: Parts,
    plug_findings: tuple[Finding, ...],
    unit: LaidUnit | None = None,
) -> Run:
    """Return a run with what it costs.

    Parameters
    ----------
    feed : Feed
        Where its plug goes.
    chairs : tuple of SeatedChair
        The chairs.
    parts : Parts
        Its cords and supplies, and what was held of them.
    plug_findings : tuple of Finding
        What was held of its plug.
    unit : LaidUnit, optional
        The outlet unit that it goes through.
    """
    return Run(
        feed=feed,
        chairs=chairs,
        legs=parts.legs,
        way_findings=feed.broken + parts.findings,
        plug_findings=plug_findings,
        extensions=sum(cord.kind == EXTENSION for cord in parts.legs),
        bought_um=sum(micrometers(cord.bought_m) for cord in parts.legs if is_bought(cord)),
        routed_um=sum(micrometers(cord.length_m) for cord in parts.legs),
        supplies=parts.supplies,
        unit=unit,
    )


def lay_plug(
    site: Site,
    start: End,
    chairs: tuple[SeatedChair, ...],
    lid: Point | None,
    extend: bool,
    taken: tuple[Spot, ...] = (),
) -> Parts:
    """Return every cord behind one plug: a lead, a chain, or a supply with its cords.

    Parameters
    ----------
    site : Site
        The room surveyed.
    start : End
        The socket. [m]
    chairs : tuple of SeatedChair
        The chairs, in the order in which current reaches them.
    lid : Point, optional
        The middle of the new box under one of them. [m]
    extend : bool
        Whether an extension cord may help.
    taken : tuple of Spot
        What lies on the floor already. [m]
    """
    if chairs[0].kind.supply is not None:
        return lay_supply(site, start, chairs, lid, extend, taken)
    end = End(id=chairs[0].id, place=chairs[0].lead_from)
    current_a = sum((chair.input_a for chair in chairs), Fraction(0))
    legs, findings = lay_lead(
        site, start, end, chairs[0].kind, current_a, chair=chairs[0].id, extend=extend
    )
    for before, after in pairwise(chairs):
        more_legs, more = _link(site, before, after, chairs)
        legs, findings = legs + more_legs, findings + more
    return Parts(legs=legs, findings=findings)


def lid_of(feed: Feed, chairs: tuple[SeatedChair, ...]) -> Point | None:
    """Return the middle of a new floor box under one of these chairs. [m]"""
    under = feed.kind == FLOOR_BOX and feed.chair in {chair.id for chair in chairs}
    return feed.place if under else None


def is_bought(cord: Leg) -> bool:
    """Return True for a cord that is bought: all but what comes with a chair or its supply."""
    return cord.longer or cord.kind not in (OWN, WALL_CORD, CHAIR_CORD)


def _link(
    site: Site, before: SeatedChair, after: SeatedChair, chairs: tuple[SeatedChair, ...]
) -> Laid:
    chain = before.kind.chain
    way = site.router.route(before.lead_from, after.lead_from)
    if isinstance(way, NoWay):
        return (), (no_way(site, way, f"{before.id}-{after.id}"),)
    if chain is None:
        return (), ()
    drawing = chairs[chairs.index(after) :]
    current_a = sum((chair.input_a for chair in drawing), Fraction(0))
    link = leg(way, LINK, before.id, after.id, current_a)
    link = replace(
        link,
        needed_m=needed_link_m(way.way_m),
        bought_m=chain.link_m,
        wire=chain.wire,
    )
    return (link,), (long_enough(site, link, "link-length"), *lying(site, link))
