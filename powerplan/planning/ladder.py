"""The ladder: every step solved, each with why it works or fails, and where its answer flips."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from powerplan.model.findings import Finding, Outcome, hold
from powerplan.model.lengths import amps_text
from powerplan.model.plan import EXISTING, EXTENSIONS, NEW_CIRCUITS, NEW_OUTLETS
from powerplan.planning.engine import Pick, Table, Terms, choose
from powerplan.planning.gaps import shared_gaps
from powerplan.planning.loads import Fed, Way, single_sockets
from powerplan.planning.ratings import better_first, other_rating, with_each_rating
from powerplan.planning.site import Feed, Site
from powerplan.planning.table import GroupTable, Scope
from powerplan.planning.why import Why, stopping

FEW_SEATS = 24
STATES_FEW, STATES_MANY = 20_000, 300
_STATES_MISS = 60  # a nearest miss explains; it need not be proved the nearest


@dataclass(frozen=True, slots=True, kw_only=True)
class Solved:
    """One step of the ladder. ``way`` is the best way, if there is one; ``why`` the musts that
    stop it: what exists is unsafe, or what the nearest miss breaks. Where several ratings of new
    circuit are offered, ``rated`` is the room with the one taken, and ``others`` says of each that
    was passed over what it would take."""

    step: str
    way: Way | None
    allowed: bool
    why: tuple[Finding, ...]
    rated: Site | None = None
    others: tuple[str, ...] = ()

    @property
    def works(self) -> bool:
        """True when a way was found and nothing else stops it."""
        return self.way is not None and not self.why


class Ladder:
    """Solves the steps for one surveyed room."""

    def __init__(self, site: Site) -> None:
        self.site = site
        self.groups = GroupTable(site)
        few = len(site.powered) <= FEW_SEATS
        self._max_states = STATES_FEW if few else STATES_MANY
        self._rated = tuple(Ladder(one) for one in with_each_rating(site))

    def steps(self) -> tuple[str, ...]:
        """Return the steps that this job asks: a new build starts with new outlets."""
        asked = (EXISTING, EXTENSIONS, NEW_OUTLETS, NEW_CIRCUITS)
        return asked if self.site.spec.project.job == "retrofit" else asked[2:]

    def solve(self, step: str) -> Solved:
        """Return the step solved, with what stops it if anything does."""
        if step == NEW_CIRCUITS and self._rated:
            return self._best_rated()
        way = self.way(step)
        hazards = self.proposal_hazards() if step == NEW_CIRCUITS else stopping(self.site.hazards)
        if way is None:
            why = Why(self).explain(step)
        else:
            why = stopping(shared_gaps(self.site, way) + single_sockets(self.site, way))
        told = tuple(dict.fromkeys(hazards + why))
        return Solved(step=step, way=way, allowed=self._allowed(step, way), why=told)

    def _best_rated(self) -> Solved:
        """New circuits at the rating that takes the fewest, the smallest of equals.

        A rating whose wire may not have it is left out where another may. Where none does, the
        largest explains why.
        """
        fit = [one for one in self._rated if not one.proposal_hazards()]
        solved = {one: one.solve(NEW_CIRCUITS) for one in fit or self._rated}
        ways = {one: found.way for one, found in solved.items() if found.works and found.way}
        best = min(
            ways, key=lambda one: better_first(ways[one], one.site), default=list(solved)[-1]
        )
        taken = ways.get(best)
        others = tuple(
            other_rating(one.site, ways.get(one), taken) for one in solved if one is not best
        )
        return replace(solved[best], rated=best.site, others=others if ways else ())

    def way(
        self,
        step: str,
        ignore: frozenset[str] = frozenset(),
        continuous_a: Mapping[str, Fraction] | None = None,
    ) -> Way | None:
        """Return the best way for a step, leaving some rules aside.

        Parameters
        ----------
        step : str
            A step of the ladder.
        ignore : frozenset of str
            Rules that may be broken; the way with the fewest breaks is chosen.
        continuous_a : mapping of str to Fraction, optional
            The continuous part of a kind of chair, instead of the plan's. [A]
        """
        if step == NEW_CIRCUITS and self._rated:
            ways = (one.way(step, ignore, continuous_a) for one in self._rated)
            return next((found for found in ways if found is not None), None)
        new = step in (NEW_OUTLETS, NEW_CIRCUITS)
        candidates = self.candidates() if new else ()
        if new and not candidates:
            return None
        scope = Scope(
            extend=step == EXTENSIONS
            or (step != EXISTING and self.site.spec.cords.extensions == "yes"),
            new_outlets=candidates,
            new_circuits=step == NEW_CIRCUITS,
            ignore=ignore,
            continuous_a=continuous_a or {},
        )
        table = self.groups.table(scope)
        few = _STATES_MISS if ignore else self._max_states
        terms = Terms(ignore=ignore, max_states=few)
        if step == NEW_CIRCUITS:
            pick = _fewest_circuits(table, terms)
        else:
            pick = choose(table, replace(terms, outlets_at_least=int(step == NEW_OUTLETS)))
        return None if pick is None else self._as_way(scope, pick)

    def _as_way(self, scope: Scope, pick: Pick) -> Way:
        circuits = self.groups.circuits(scope)
        feeds = {feed.id: feed for feed in self.site.outlets + scope.new_outlets}
        fed = tuple(
            Fed(
                feed=feeds[choice.feed],
                runs=choice.option,
                circuit=circuit if isinstance(circuit, str) else circuits[circuit].id,
                new_circuit=isinstance(circuit, str),
            )
            for choice, circuit in zip(pick.choices, pick.circuits, strict=True)
        )
        return Way(fed=fed, rank=pick.rank, proved=pick.proved)

    def candidates(self) -> tuple[Feed, ...]:
        """New outlets offered; floor boxes where none is, so that a step is solved all the same."""
        work, site = self.site.spec.new_work, self.site
        walls = site.wall_outlets if work.wall_outlets else ()
        boxes = site.floor_boxes if work.floor_boxes or not work.wall_outlets else ()
        return walls + boxes

    def _allowed(self, step: str, way: Way | None) -> bool:
        spec = self.site.spec
        offered = spec.new_work.floor_boxes or spec.new_work.wall_outlets
        if step == EXTENSIONS:
            return spec.cords.extensions != "no"
        if step == NEW_OUTLETS:
            return offered
        if step == NEW_CIRCUITS:
            spaces = spec.new_work.circuits
            needed = 1 if way is None else len(way.new_circuits)
            return offered and (spaces is None or needed <= spaces)
        return True

    def proposal_hazards(self) -> tuple[Finding, ...]:
        """A new circuit drawn with too thin a wire, or with a breaker that is not made for it."""
        work, rules = self.site.spec.new_work, self.site.rules
        findings = []
        if work.breaker_a not in rules.breakers_a:
            allowed = min(rules.breakers_a, key=lambda rating: abs(rating - work.breaker_a))
            note = f"Circuits with several outlets do not come in {amps_text(work.breaker_a)}."
            rule = rules.rules["breaker-size"]
            findings.append(
                replace(
                    hold(rule, "new circuits", work.breaker_a, allowed, note=note),
                    outcome=Outcome.NOT_MET,
                )
            )
        if work.wire is not None:
            limit_a = rules.wires[work.wire].max_breaker_a or Fraction(0)
            note = f"{work.wire} is too thin for a {amps_text(work.breaker_a)} breaker."
            rule = rules.rules["wire-matches-breaker"]
            findings.append(hold(rule, "new circuits", work.breaker_a, limit_a, note=note))
        return stopping(tuple(findings))


def _fewest_circuits(table: Table, terms: Terms) -> Pick | None:
    """The best way with new circuits; sure ones first, then as few as will do.

    Existing circuits of which something is unknown are used only where new ones alone cannot do
    it, so that this step's answer hangs on nothing that can be avoided.
    """
    closed = tuple(
        -1 if unsure else room for room, unsure in zip(table.room, table.uncertain, strict=True)
    )
    sure = replace(table, room=closed)
    loose = terms.ignore | {"circuit-load", "fastened-half"}
    one = replace(terms, ignore=loose, circuits_at_least=1, circuits_at_most=1)
    if choose(sure, one) is not None:
        left = sum(table.demand) - sum(max(0, room) for room in sure.room)
        least = max(1, -(-left // table.new_room))
        for circuits in range(least, len(table.demand) + 1):
            pick = choose(sure, replace(terms, circuits_at_least=1, circuits_at_most=circuits))
            if pick is not None:
                return pick
    if not any(table.uncertain):
        return None
    return choose(table, replace(terms, circuits_at_least=1, circuits_at_most=len(table.demand)))
