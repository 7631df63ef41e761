"""A run: neighbouring chairs on one plug, with every cord it needs and every rule it meets."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise

from powerplan.engineering.circuits.plugs import extension_findings, run_findings
from powerplan.engineering.cords.lengths import (
    needed_lead_m,
    needed_link_m,
    sold_length_m,
    split_for_extension,
)
from powerplan.engineering.cords.paths import NoWay, Route
from powerplan.engineering.seating.poses import SeatedChair
from powerplan.model.findings import Bound, Finding, hold
from powerplan.model.geometry import Point
from powerplan.model.lengths import MICROMETRE_M, length_text, micrometres
from powerplan.planning.site import Feed, Site

OWN, LINK, EXTENSION = "own", "link", "extension"
_PLUG = "this plug"  # stands for the chair or chain in findings that many runs share


@dataclass(frozen=True, slots=True, kw_only=True)
class Leg:
    """One cord as it would lie. ``chairs`` is how many chairs draw through it. [m]"""

    kind: str
    from_: str
    to: str
    path: tuple[Point, ...]
    rises_m: float
    length_m: float
    needed_m: float
    bought_m: float
    wire: str | None
    chairs: int
    open_floor_m: float
    clearance_m: float

    @property
    def id(self) -> str:
        """The cord's name: where it starts and where it ends."""
        return f"{self.from_}-{self.to}"


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

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Every rule held against this run, of its way and of its plug."""
        named = f"chain {_span(self.chairs)}" if len(self.chairs) > 1 else _alone(self.chairs)
        plug = (replace(f, subject=f.subject.replace(_PLUG, named)) for f in self.plug_findings)
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
        return " ".join(leg.id for leg in self.legs) or f"{self.feed.id}-{self.chairs[0].id}"


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
        One chair on its own cord, or neighbours of one row in the order of the chain.
    circuit_a : Fraction
        The breaker behind the feed. [A]
    extend : bool
        Whether an extension cord may help where the first lead does not reach.
    """
    kind = chairs[0].kind
    legs, findings = _first_cord(site, feed, chairs, extend)
    for before, after in pairwise(chairs):
        more_legs, more = _link(site, before, after, chairs)
        legs, findings = legs + more_legs, findings + more
    plug = (kind.id, len(chairs), circuit_a, feed.rating_a)
    if plug not in site.plugs:
        site.plugs[plug] = run_findings(
            kind, len(chairs), circuit_a, feed.rating_a, _PLUG, site.rules
        )
    extensions = sum(leg.kind == EXTENSION for leg in legs)
    return Run(
        feed=feed,
        chairs=chairs,
        legs=legs,
        way_findings=feed.broken + findings,
        plug_findings=site.plugs[plug],
        extensions=extensions,
        bought_um=sum(micrometres(leg.bought_m) for leg in legs if leg.kind != OWN),
        routed_um=sum(micrometres(leg.length_m) for leg in legs),
    )


def _alone(chairs: tuple[SeatedChair, ...]) -> str:
    return f"chair {chairs[0].id}"


def _span(chairs: tuple[SeatedChair, ...]) -> str:
    return f"{chairs[0].id}-{chairs[-1].id}"


def _first_cord(
    site: Site, feed: Feed, chairs: tuple[SeatedChair, ...], extend: bool
) -> tuple[tuple[Leg, ...], tuple[Finding, ...]]:
    chair = chairs[0]
    way = site.router.route(feed.place, chair.lead_from)
    cord = f"{feed.id}-{chair.id}"
    if isinstance(way, NoWay):
        return (), (_no_way(site, way, cord),)
    needed_m = needed_lead_m(way.way_m + feed.rise_m, site.rules)
    reaches = micrometres(needed_m) <= micrometres(chair.kind.lead_m)
    if not reaches and extend:
        extended = _with_extension(site, feed, chairs, way)
        if extended is not None:
            return extended
    lead = _leg(way, OWN, feed.id, chair.id, len(chairs), rise_m=feed.rise_m)
    lead = replace(lead, needed_m=needed_m, bought_m=chair.kind.lead_m, wire=chair.kind.lead_wire)
    return (lead,), (_long_enough(site, lead, "cord-length"), *_lying(site, lead))


def _with_extension(
    site: Site, feed: Feed, chairs: tuple[SeatedChair, ...], way: Route
) -> tuple[tuple[Leg, ...], tuple[Finding, ...]] | None:
    """The same way with an extension cord; None where no cord that is sold would do."""
    chair, cords = chairs[0], site.spec.cords
    key = (feed.id, chair.id)
    if key not in site.splits:
        site.splits[key] = split_for_extension(
            way, feed.rise_m, chair.kind.lead_m, site.under_chairs, site.rules
        )
    parts = site.splits[key]
    if parts is None:
        return None
    first, last = parts
    joint = f"{feed.id}+{chair.id}"
    needed_m = needed_lead_m(first.way_m, site.rules)
    bought_m = sold_length_m(needed_m, cords.lengths_m)
    if bought_m is None:
        return None
    cord = _leg(first, EXTENSION, feed.id, joint, len(chairs))
    cord = replace(cord, needed_m=needed_m, bought_m=bought_m, wire=cords.wire)
    lead = _leg(last, OWN, joint, chair.id, len(chairs))
    lead = replace(
        lead,
        needed_m=needed_lead_m(last.way_m, site.rules),
        bought_m=chair.kind.lead_m,
        wire=chair.kind.lead_wire,
    )
    findings = (
        _long_enough(site, cord, "cord-length"),
        _long_enough(site, lead, "cord-length"),
        *_lying(site, cord),
        *_lying(site, lead),
        *extension_findings(
            len(chairs) * chair.kind.input_a,
            bought_m,
            cords.wire,
            site.spec.project.place,
            f"extension {cord.id}",
            site.rules,
        ),
    )
    return (cord, lead), findings


def _link(
    site: Site, before: SeatedChair, after: SeatedChair, chairs: tuple[SeatedChair, ...]
) -> tuple[tuple[Leg, ...], tuple[Finding, ...]]:
    chain = before.kind.chain
    way = site.router.route(before.lead_from, after.lead_from)
    if isinstance(way, NoWay):
        return (), (_no_way(site, way, f"{before.id}-{after.id}"),)
    if chain is None:
        return (), ()
    drawing = len(chairs) - chairs.index(after)
    link = _leg(way, LINK, before.id, after.id, drawing)
    link = replace(
        link,
        needed_m=needed_link_m(way.way_m),
        bought_m=chain.link_m,
        wire=chain.wire,
    )
    return (link,), (_long_enough(site, link, "link-length"), *_lying(site, link))


def _leg(way: Route, kind: str, from_: str, to: str, chairs: int, *, rise_m: float = 0.0) -> Leg:
    rises_m = way.rises_m + rise_m
    return Leg(
        kind=kind,
        from_=from_,
        to=to,
        path=way.path,
        rises_m=rises_m,
        length_m=way.length_m + rises_m,
        needed_m=0.0,
        bought_m=0.0,
        wire=None,
        chairs=chairs,
        open_floor_m=way.open_floor_m,
        clearance_m=way.clearance_m,
    )


def _no_way(site: Site, way: NoWay, cord: str) -> Finding:
    rule = site.rules.rules[way.rule]
    if way.value is None or way.limit is None:
        none, one = (0.0, 1.0) if rule.bound is Bound.AT_LEAST else (1.0, 0.0)
        return hold(rule, f"cord {cord}", none, one, note=way.words)
    return hold(rule, f"cord {cord}", way.value, way.limit, note=way.words)


def _long_enough(site: Site, leg: Leg, rule: str) -> Finding:
    units = site.spec.project.units
    short_m = leg.needed_m - leg.bought_m
    note = ""
    if micrometres(short_m) > 0:
        name = "link" if leg.kind == LINK else ("extension" if leg.kind == EXTENSION else "lead")
        note = (
            f"The {name} is {length_text(leg.bought_m, units)}; from {leg.from_} to {leg.to} it "
            f"must measure {length_text(leg.needed_m, units)}."
        )
    return hold(site.rules.rules[rule], f"cord {leg.id}", leg.bought_m, leg.needed_m, note=note)


def _lying(site: Site, leg: Leg) -> tuple[Finding, ...]:
    """What is asked of the floor under a cord."""
    rules, accepted_m = site.rules.rules, site.spec.cords.open_floor_m
    units = site.spec.project.units
    note = ""
    if micrometres(leg.open_floor_m) > micrometres(accepted_m):
        note = (
            f"{length_text(leg.open_floor_m, units)} of cord would lie where people walk; "
            f"{length_text(accepted_m, units)} is accepted."
        )
    wanted_m = site.rules.length_m("cord_clearance")
    # The router keeps clear to within a micrometre; what lies on that line is exactly clear.
    on_the_line = abs(leg.clearance_m - wanted_m) <= 2 * MICROMETRE_M
    clearance = hold(
        rules["cord-clear-of-mechanism"],
        f"cord {leg.id}",
        wanted_m if on_the_line else leg.clearance_m,
        wanted_m,
    )
    floor = hold(
        rules["cord-on-open-floor"], f"cord {leg.id}", leg.open_floor_m, accepted_m, note=note
    )
    return clearance, floor
