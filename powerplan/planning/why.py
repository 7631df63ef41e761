"""Why a step of the ladder fails: the musts that stop it, with their numbers."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Protocol

from powerplan.engineering.circuits.found import extend_findings
from powerplan.model.findings import Finding, hold
from powerplan.model.lengths import plural
from powerplan.model.plan import EXISTING, EXTENSIONS, NEW_CIRCUITS, NEW_OUTLETS
from powerplan.planning.loads import Way, circuit_loads, load_findings
from powerplan.planning.site import Feed, Site

BENT = frozenset(
    {
        "cord-length",
        "cord-on-open-floor",
        "link-length",
        "sockets-free",
        "circuit-load",
        "fastened-half",
        "plug-share",
        "socket-limit",
        "socket-matches-circuit",
        "cord-wire",
        "coupler-rating",
        "chain-current",
        "extension-rating",
        "extension-temporary",
        "cord-has-a-way",
        "cord-clear-of-mechanism",
        "cord-in-walkway",
        "cord-through-doorway",
        "unit-rating",
        "unit-listed",
        "supply-has-a-place",
        "supply-height",
        "box-has-a-place",
        "box-clears-framing",
        "box-clears-no-cut",
        "box-clears-riser-edge",
        "box-plug-height",
        "grounded-outlet",
        "shared-neutral",
        "aluminum-wire",
    }
)
"""Rules that may be broken while looking for the nearest miss."""


class Ways(Protocol):
    """What is asked of the ladder: the best way with some rules left aside."""

    site: Site

    def candidates(self) -> tuple[Feed, ...]:
        """Return the new outlets that are offered."""

    def way(
        self,
        step: str,
        ignore: frozenset[str] = frozenset(),
        continuous_a: Mapping[str, Fraction] | None = None,
    ) -> Way | None:
        """Return the best way for a step."""


class Why:
    """Finds out what stops a step, by leaving each rule aside in turn."""

    def __init__(self, ladder: Ways) -> None:
        self._ladder = ladder
        self._site = ladder.site

    def explain(self, step: str) -> tuple[Finding, ...]:
        """Return the musts that the nearest miss breaks: the way that breaks the fewest."""
        nothing = self._nothing_to_use(step)
        if nothing:
            return nothing
        nearest = self._ladder.way(step, ignore=BENT)
        return () if nearest is None else _once(self._broken(nearest))

    def _nothing_to_use(self, step: str) -> tuple[Finding, ...]:
        site, rule = self._site, self._site.rules.rules["outlet-there"]
        if step in (EXISTING, EXTENSIONS) and not site.outlets:
            return (hold(rule, "room", 0, 1, note="The plan shows no outlet."),)
        if step == NEW_OUTLETS and not site.spec.circuits:
            note = "The plan shows no circuit that a new outlet could be wired to."
            return (hold(rule, "circuits", 0, 1, note=note),)
        if step in (NEW_OUTLETS, NEW_CIRCUITS) and not self._ladder.candidates():
            found = stopping(tuple(f for spot in site.spots.values() for f in spot.findings))
            note = "No row stands near enough to the back wall for an outlet on it."
            return found or (hold(rule, "new outlets", 0, 1, note=note),)
        return ()

    def _broken(self, way: Way) -> list[Finding]:
        """The musts that a relaxed way breaks."""
        findings = [finding for fed in way.fed for run in fed.runs for finding in run.broken]
        findings.extend(self._extended(way))
        findings.extend(self._sockets_over(way))
        for load in circuit_loads(self._site, way):
            findings.extend(f for f in load_findings(self._site, load) if f.stops)
        return findings

    def _extended(self, way: Way) -> list[Finding]:
        """What forbids that new outlets are wired on from the circuits that they are on."""
        names = dict.fromkeys(fed.circuit for fed in way.new_outlets if not fed.new_circuit)
        circuits = (self._site.spec.circuit(name) for name in names)
        return [held for one in circuits for held in extend_findings(one, self._site.rules)]

    def _sockets_over(self, way: Way) -> list[Finding]:
        findings = []
        for feed in {fed.feed.id: fed.feed for fed in way.fed}.values():
            plugs = sum(len(fed.runs) for fed in way.fed if fed.feed.id == feed.id)
            if plugs > feed.sockets:
                name = f"outlet {feed.id}" if feed.circuit is not None else feed.id
                note = f"{plural(plugs, 'plug')}, and {plural(feed.sockets, 'socket')} free."
                rule = self._site.rules.rules["sockets-free"]
                findings.append(hold(rule, name, plugs, feed.sockets, note=note))
        return findings


def stopping(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Return those that stop: musts not met."""
    return tuple(finding for finding in findings if finding.stops)


def _once(findings: list[Finding]) -> tuple[Finding, ...]:
    return tuple(dict.fromkeys(findings))
