"""Why a step of the ladder fails: the musts that stop it, with their numbers."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Protocol

from powerplan.model.findings import Finding, hold
from powerplan.model.plan import EXISTING, EXTENSIONS, NEW_CIRCUITS, NEW_OUTLETS
from powerplan.planning.loads import Way, circuit_loads, load_findings
from powerplan.planning.site import Feed, Site

RELAXED = (
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
    "box-has-a-place",
    "box-clears-framing",
    "box-clears-no-cut",
    "box-clears-riser-edge",
    "box-plug-height",
)
"""Rules that are left aside one by one to find out which of them stops a step."""


class Ways(Protocol):
    """What is asked of the ladder: the best way with some rules left aside."""

    site: Site

    def candidates(self) -> tuple[Feed, ...]:
        """Return the new outlets that are offered."""

    def seen_broken(self) -> frozenset[str]:
        """Return the rules that some run looked at so far does not meet."""

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

    def explain(self, step: str) -> tuple[tuple[Finding, ...], bool]:
        """Return the musts that stop a step, and whether mending any one alone would do."""
        nothing = self._nothing_to_use(step)
        if nothing:
            return nothing, False
        everything = self._ladder.way(step, ignore=frozenset(RELAXED))
        if everything is None:
            return (), False
        in_play = [rule for rule in RELAXED if rule in self._could_stop(step)]
        told: list[Finding] = []
        for rule in in_play:
            way = self._ladder.way(step, ignore=frozenset({rule}))
            if way is not None:
                told.extend(self._broken(way))
        if told:
            return _once(told), True
        return _once(self._broken(everything)), False

    def _could_stop(self, step: str) -> frozenset[str]:
        """Rules that anything at all can break in this step; the others need no try."""
        always = {"sockets-free", "circuit-load", "fastened-half", "cord-length"}
        if step in (NEW_OUTLETS, NEW_CIRCUITS):
            always |= {rule for rule in RELAXED if rule.startswith("box-")}
        return frozenset(always) | self._ladder.seen_broken()

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
        findings.extend(self._sockets_over(way))
        for load in circuit_loads(self._site, way):
            findings.extend(f for f in load_findings(self._site, load) if f.stops)
        return findings

    def _sockets_over(self, way: Way) -> list[Finding]:
        findings = []
        for feed in {fed.feed.id: fed.feed for fed in way.fed}.values():
            plugs = sum(len(fed.runs) for fed in way.fed if fed.feed.id == feed.id)
            if plugs > feed.sockets:
                name = f"outlet {feed.id}" if feed.circuit is not None else feed.id
                note = f"{plugs} plugs, and {feed.sockets} free at {name}."
                rule = self._site.rules.rules["sockets-free"]
                findings.append(hold(rule, name, plugs, feed.sockets, note=note))
        return findings


def stopping(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Return those that stop: musts not met."""
    return tuple(finding for finding in findings if finding.stops)


def _once(findings: list[Finding]) -> tuple[Finding, ...]:
    return tuple(dict.fromkeys(findings))
