"""Notes that hang on the kind of place and on how many supplies there are: each once.

A place that is not said gets every note that some place would get, each saying which. Notes decide
nothing: they tell the electrician and the authority what to look at.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from math import ceil

from powerplan.engineering.circuits.by_count import leakage_finding, switch_on_finding
from powerplan.engineering.seating.row_width import row_width_m
from powerplan.model.findings import Finding, Outcome, hold
from powerplan.model.lengths import joined, length_text
from powerplan.model.spec import Circuit
from powerplan.planning.loads import CircuitLoad, Way
from powerplan.planning.site import Site

BASEMENT = "home, basement"
EVERYWHERE = ("home", BASEMENT, "business", "assembly")
PLACES = {
    "rcd-new-outlets": EVERYWHERE,
    "gfci-basement": (BASEMENT,),
    "afci-room": ("home", BASEMENT),
    "cord-fire-code": ("business", "assembly"),
    "wiring-method": ("business", "assembly"),
    "row-width-assembly": ("assembly",),
}
"""The kinds of place in which each note applies."""

_GROUND_FAULT = ("rcd-new-outlets", "gfci-basement")
_ASKED = {
    "rcd-new-outlets": (
        "ground-fault",
        "A new outlet rated 32 A or less has ground-fault protection that trips at 30 mA",
    ),
    "gfci-basement": ("ground-fault", "A new outlet in a basement has ground-fault protection"),
    "afci-room": (
        "arc-fault",
        "A circuit that is new, or extended, in a living or recreation room of a home has "
        "arc-fault protection",
    ),
}
_CALLED = {
    ("home", BASEMENT): "a home",
    (BASEMENT,): "a home's basement",
    ("business", "assembly"): "a business, or a place where people gather",
    ("assembly",): "a place where people gather (assembly)",
}


def place_notes(site: Site, way: Way, layout: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Return the notes of this kind of place, each once and only where it applies.

    Parameters
    ----------
    site : Site
        The room surveyed.
    way : Way
        The way that was chosen.
    layout : tuple of Finding
        What was found of the rows; widths are taken from it. [m]
    """
    told = []
    makers: dict[str, Callable[[], Finding | None]] = {
        "rcd-new-outlets": lambda: _protection(site, way, "rcd-new-outlets"),
        "gfci-basement": lambda: _protection(site, way, "gfci-basement"),
        "afci-room": lambda: _protection(site, way, "afci-room"),
        "cord-fire-code": lambda: _cords(site, way),
        "wiring-method": lambda: _method(site, way),
        "row-width-assembly": lambda: _narrowest(site, layout),
    }
    for rule, make in makers.items():
        note = make() if site.rules.has(rule) and applies(site, rule) else None
        if note is not None:
            sure = site.spec.project.place or PLACES[rule] == EVERYWHERE
            told.append(note if sure else _if_so(note))
    return tuple(told)


def applies(site: Site, rule: str) -> bool:
    """Return whether a note is for this kind of place; for every kind where it is not said."""
    place = site.spec.project.place
    return place is None or place in PLACES[rule]


def _if_so(note: Finding) -> Finding:
    """The note as it is told where nobody has said what kind of place this is."""
    words = f"The kind of place is not said. If this is {_CALLED[PLACES[note.rule]]}: {note.note}"
    met = note.outcome is Outcome.MET
    return replace(note, outcome=note.outcome if met else Outcome.NOT_CHECKED, note=words)


def _protection(site: Site, way: Way, rule: str) -> Finding | None:
    """Protection of new outlets against ground faults, or of their circuits against arcs."""
    feeds = {fed.feed.id: fed.circuit for fed in way.new_outlets}
    if not feeds:
        return None
    kind, asked = _ASKED[rule]
    said = {name: _said(site.spec.circuits, name, rule) for name in feeds.values()}
    protected = [feed for feed, circuit in feeds.items() if said[circuit]]
    open_ = [feed for feed, circuit in feeds.items() if not said[circuit]]
    note = f"Its circuit is said to have {kind} protection."
    if open_:
        note = f"{asked}: the electrician fits it for {joined(open_)}."
    without = any(so is False for so in said.values())
    sure = without or not open_
    return hold(
        site.rules.rules[rule],
        joined(list(feeds)),
        len(protected),
        len(feeds),
        note=note,
        checked=sure,
    )


def _said(circuits: tuple[Circuit, ...], name: str, rule: str) -> bool | None:
    there = next((circuit for circuit in circuits if circuit.id == name), None)
    if there is None:
        return None
    return there.gfci if rule in _GROUND_FAULT else there.afci


def _cords(site: Site, way: Way) -> Finding | None:
    cords = sum(len(run.legs) for fed in way.fed for run in fed.runs)
    if not cords:
        return None
    note = (
        f"{cords} cords lie in this room: the fire officer may ask to see that each goes straight "
        "into a fixed outlet, and that none lies under carpet, through a door or in place of "
        "wiring."
    )
    return hold(site.rules.rules["cord-fire-code"], "all cords", None, 0, note=note)


def _method(site: Site, way: Way) -> Finding | None:
    feeds = joined([fed.feed.id for fed in way.new_outlets])
    if not feeds:
        return None
    note = (
        "The electrician confirms with the authority how it may be wired (metal raceway or cable, "
        "where a hundred people or more gather or the building is fire-rated): cable for homes is "
        "not taken for granted."
    )
    return hold(site.rules.rules["wiring-method"], f"wiring to {feeds}", None, 1, note=note)


def _narrowest(site: Site, layout: tuple[Finding, ...]) -> Finding | None:
    """Of all rows the one with the least room left, reclined, by its own length."""
    ways = {f.subject: f.value for f in layout if f.rule == "passage-in-front"}
    rule, units = site.rules.rules["row-width-assembly"], site.spec.project.units
    held = []
    for row in site.spec.rows:
        value = ways.get(f"row {row.id}")
        wanted_m = row_width_m(row.seats, site.rules)
        note = (
            f"Reclined chairs were measured, and an aisle at one end taken: {row.seats} seats ask "
            f"{length_text(wanted_m, units)}. Ask the authority in which position chairs count."
        )
        if value is not None:
            held.append(hold(rule, f"row {row.id}", value, wanted_m, note=note))
    return min(held, key=lambda one: one.margin or 0.0, default=None)


def count_notes(site: Site, way: Way, loads: tuple[CircuitLoad, ...]) -> tuple[Finding, ...]:
    """Return the notes on many supplies at once, each for the circuit that it troubles most.

    Parameters
    ----------
    site : Site
        The room surveyed.
    way : Way
        The way that was chosen.
    loads : tuple of CircuitLoad
        Every circuit as this way loads it. [A]
    """
    rules, told = site.rules, []
    leaks = [
        leakage_finding(f"circuit {load.id}", behind, rules)
        for load in loads
        if (behind := _behind_a_device(site, way, load)) and rules.has("leakage-by-count")
    ]
    rushes = [
        switch_on_finding(
            f"circuit {load.id}", _supplies(load), load.breaker_a, rules, built_in=_built_in(load)
        )
        for load in loads
        if load.chairs and rules.has("switch-on-by-count")
    ]
    for found in (leaks, rushes):
        if found:
            told.append(min(found, key=lambda one: one.margin or 0.0))
    return tuple(told)


def _supplies(load: CircuitLoad) -> int:
    return ceil(sum((chair.share for chair in load.chairs), Fraction(0)))


def _built_in(load: CircuitLoad) -> bool:
    """Whether no supply of a circuit's chairs lies on the floor."""
    return all(chair.kind.supply is None for chair in load.chairs)


def _behind_a_device(site: Site, way: Way, load: CircuitLoad) -> int:
    """How many supplies hang behind one ground-fault device, at most; none where there is none."""
    if load.existing is not None and load.existing.gfci:
        return _supplies(load)
    new = {fed.feed.id for fed in way.new_outlets if fed.circuit == load.id}
    if new and any(site.rules.has(rule) and applies(site, rule) for rule in _GROUND_FAULT):
        return _supplies(load)
    guarded = {outlet.id for outlet in site.spec.outlets if outlet.gfci}
    chairs = [c for fed in way.fed if fed.feed.id in guarded for c in fed.chairs]
    on_it = [chair.share for chair in chairs if chair in load.chairs]
    return ceil(sum(on_it, Fraction(0)))
