"""Single cords: how each would lie, how long it must be, and what is asked of the floor under it.

A lead that is too short is first sought longer from its maker, then with an extension cord.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

import shapely

from powerplan.engineering.circuits.plugs import extension_findings
from powerplan.engineering.cords.floor import COVER_M, grown
from powerplan.engineering.cords.lengths import (
    needed_lead_m,
    sold_length_m,
    split_for_extension,
)
from powerplan.engineering.cords.paths import NoWay, Route
from powerplan.model.findings import Bound, Finding, Outcome, hold
from powerplan.model.geometry import Point
from powerplan.model.lengths import MICROMETER_M, at_least_text, length_text, micrometers
from powerplan.model.loose import CHAIR_CORD, UNIT_CORD, WALL_CORD
from powerplan.model.spec import ChairKind
from powerplan.planning.site import Site

OWN, LINK, EXTENSION = "own", "link", "extension"
_BOX = "box "
_GUESS = "Nobody measured under these chairs: the way is a straight guess."
_NAMES = {
    OWN: "lead",
    LINK: "link",
    EXTENSION: "extension",
    WALL_CORD: "wall cord",
    CHAIR_CORD: "chair cord",
    UNIT_CORD: "outlet unit's cord",
}

Laid = tuple[tuple["Leg", ...], tuple[Finding, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Leg:
    """One cord as it would lie. ``current_a`` is all that flows through it. [m, A]"""

    kind: str
    from_: str
    to: str
    path: tuple[Point, ...]
    rises_m: float
    length_m: float
    needed_m: float
    bought_m: float
    wire: str | None
    current_a: Fraction
    open_floor_m: float
    clearance_m: float
    longer: bool = False

    @property
    def id(self) -> str:
        """The cord's name: where it starts and where it ends."""
        return f"{self.from_}-{self.to}"


@dataclass(frozen=True, slots=True, kw_only=True)
class End:
    """Where a cord starts or ends; ``rise_m`` is what an outlet's height adds. [m]"""

    id: str
    place: Point
    rise_m: float = 0.0


def lay_lead(
    site: Site,
    start: End,
    end: End,
    kind: ChairKind,
    current_a: Fraction,
    *,
    as_: str = OWN,
    chair: str,
    extend: bool,
) -> Laid:
    """Return a chair's lead, or its supply's wall cord, with an extension cord where one helps.

    Where the usual one is too short, the shortest longer one that its maker sells and that is long
    enough is taken; only where there is none does an extension cord come in.

    Parameters
    ----------
    site : Site
        The room surveyed.
    start, end : End
        The socket, and the chair or the supply. [m]
    kind : ChairKind
        Lends the length and wire of the lead, and longer ones.
    current_a : Fraction
        What flows through it. [A]
    as_ : str
        The kind of cord: own, or wall cord.
    chair : str
        The chair whose name a joint takes.
    extend : bool
        Whether an extension cord may help.
    """
    way = site.router.route(start.place, end.place)
    guessed = isinstance(way, NoWay) and _may_guess(site, start.id, chair)
    guessed = guessed and _in_the_room(site, start.place, end.place)
    if guessed:
        way = site.router.guessed(start.place, end.place)
    if isinstance(way, NoWay):
        return (), (no_way(site, way, f"{start.id}-{end.id}"),)
    needed_m = needed_lead_m(way.way_m + start.rise_m, site.rules)
    bought_m = lead_to_use_m(kind, needed_m)
    if micrometers(needed_m) > micrometers(bought_m) and extend:
        extended = _with_extension(site, start, end, kind, current_a, as_, chair, way)
        if extended is not None:
            return extended
    lead = leg(way, as_, start.id, end.id, current_a, rise_m=start.rise_m)
    lead = replace(
        lead,
        needed_m=needed_m,
        bought_m=bought_m,
        wire=kind.lead_wire,
        longer=bought_m != kind.lead_m,
    )
    longest_m = max(kind.longer_leads_m, default=None)
    enough = long_enough(site, lead, "cord-length", longest_m)
    if guessed and enough.stops:
        enough = replace(enough, outcome=Outcome.NOT_CHECKED, note=_GUESS)
    return (lead,), (enough, *lying(site, lead, guessed=guessed))


def _may_guess(site: Site, feed: str, chair: str) -> bool:
    """True from a box under a chair that is not measured, to that chair or the one beside it."""
    seats = {seated.id: seated for seated in site.chairs}
    over, to = seats.get(feed.removeprefix(_BOX)), seats.get(chair)
    if not feed.startswith(_BOX) or over is None or to is None or over.row != to.row:
        return False
    return abs(over.seat - to.seat) <= 1 and not (over.kind.measured or to.kind.measured)


def _in_the_room(site: Site, start: Point, end: Point) -> bool:
    """False where a straight way leaves the room: the chair stands in a wall, or round a corner."""
    line = shapely.LineString((start, end))
    return bool(shapely.covers(grown(site.router.floor.room, COVER_M), line))


def lead_to_use_m(kind: ChairKind, needed_m: float) -> float:
    """Return the lead to use: the usual one where it, or none that is sold, is long enough.

    Parameters
    ----------
    kind : ChairKind
        Its lead, and the longer ones that its maker sells. [m]
    needed_m : float
        Least length. [m]
    """
    if micrometers(needed_m) <= micrometers(kind.lead_m):
        return kind.lead_m
    longer_m = sold_length_m(needed_m, kind.longer_leads_m)
    return kind.lead_m if longer_m is None else longer_m


def longest_lead_m(kind: ChairKind) -> float:
    """Return the longest lead there is for a kind of chair. [m]"""
    return max(kind.lead_m, *kind.longer_leads_m, 0.0)


def _with_extension(
    site: Site,
    start: End,
    end: End,
    kind: ChairKind,
    current_a: Fraction,
    as_: str,
    chair: str,
    way: Route,
) -> Laid | None:
    """The same way with an extension cord; None where no cord that is sold would do."""
    cords = site.spec.cords
    # By place too: a supply is tried at several.
    key = (start.id, start.place, end.id, end.place)
    if key not in site.splits:
        site.splits[key] = split_for_extension(
            way, start.rise_m, kind.lead_m, site.under_chairs, site.rules
        )
    parts = site.splits[key]
    if parts is None:
        return None
    first, last = parts
    joint = f"{start.id}+{chair}"
    needed_m = needed_lead_m(first.way_m, site.rules)
    bought_m = sold_length_m(needed_m, cords.lengths_m)
    if bought_m is None:
        return None
    cord = leg(first, EXTENSION, start.id, joint, current_a)
    cord = replace(cord, needed_m=needed_m, bought_m=bought_m, wire=cords.wire)
    lead = leg(last, as_, joint, end.id, current_a)
    lead = replace(
        lead,
        needed_m=needed_lead_m(last.way_m, site.rules),
        bought_m=kind.lead_m,
        wire=kind.lead_wire,
    )
    findings = (
        long_enough(site, cord, "cord-length"),
        long_enough(site, lead, "cord-length"),
        *lying(site, cord),
        *lying(site, lead),
        *extension_findings(
            current_a,
            bought_m,
            cords.wire,
            site.spec.project.place,
            f"extension {cord.id}",
            site.rules,
        ),
    )
    return (cord, lead), findings


def leg(
    way: Route, kind: str, from_: str, to: str, current_a: Fraction, *, rise_m: float = 0.0
) -> Leg:
    """Return a cord along a way, not yet with a length of its own.

    Parameters
    ----------
    way : Route
        The way. [m]
    kind : str
        The kind of cord.
    from_, to : str
        What its ends are called.
    current_a : Fraction
        What flows through it. [A]
    rise_m : float
        What an outlet's height adds. [m]
    """
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
        current_a=current_a,
        open_floor_m=way.open_floor_m,
        clearance_m=way.clearance_m,
    )


def no_way(site: Site, way: NoWay, cord: str) -> Finding:
    """Return the must that leaves a cord without a way."""
    rule = site.rules.rules[way.rule]
    if way.value is None or way.limit is None:
        none, one = (0.0, 1.0) if rule.bound is Bound.AT_LEAST else (1.0, 0.0)
        return hold(rule, f"cord {cord}", none, one, note=way.words)
    return hold(rule, f"cord {cord}", way.value, way.limit, note=way.words)


def long_enough(site: Site, cord: Leg, rule: str, longest_m: float | None = None) -> Finding:
    """Hold a cord's length against what its way needs.

    Parameters
    ----------
    site : Site
        The room surveyed.
    cord : Leg
        The cord. [m]
    rule : str
        The rule's name.
    longest_m : float, optional
        The longest that could be bought, where that is longer than the cord. [m]
    """
    units = site.spec.project.units
    note = ""
    if micrometers(cord.needed_m - cord.bought_m) > 0:
        note = (
            f"The {_NAMES[cord.kind]} is {length_text(cord.bought_m, units)}; from {cord.from_} to "
            f"{cord.to} it must measure {at_least_text(cord.needed_m, units)}."
        )
        if longest_m is not None:
            note += f" The longest that its maker sells is {length_text(longest_m, units)}."
    return hold(site.rules.rules[rule], f"cord {cord.id}", cord.bought_m, cord.needed_m, note=note)


def lying(site: Site, cord: Leg, *, guessed: bool = False) -> tuple[Finding, ...]:
    """Return what is asked of the floor under a cord; a guessed way proves nothing."""
    rules, accepted_m = site.rules.rules, site.spec.cords.open_floor_m
    units = site.spec.project.units
    note = ""
    if micrometers(cord.open_floor_m) > micrometers(accepted_m):
        note = (
            f"{length_text(cord.open_floor_m, units)} of cord would lie where people walk; "
            f"{length_text(accepted_m, units)} is accepted."
        )
    wanted_m = site.rules.length_m("cord_clearance")
    # The router keeps clear to within a micrometer; what lies on that line is exactly clear.
    on_the_line = abs(cord.clearance_m - wanted_m) <= 2 * MICROMETER_M
    clearance = hold(
        rules["cord-clear-of-mechanism"],
        f"cord {cord.id}",
        None if guessed else wanted_m if on_the_line else cord.clearance_m,
        wanted_m,
        note=_GUESS if guessed else "",
    )
    floor = hold(
        rules["cord-on-open-floor"], f"cord {cord.id}", cord.open_floor_m, accepted_m, note=note
    )
    return clearance, floor
