"""Fold all physics of one group into one table, of which the engine sees only numbers."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from math import hypot, lcm

from powerplan.engineering.circuits.found import extend_findings, hangs_on_a_look
from powerplan.engineering.circuits.load import demand_a, known_load_a
from powerplan.engineering.cords.lengths import needed_lead_m
from powerplan.engineering.seating.poses import SeatedChair, SeatedRow
from powerplan.model.lengths import micrometers
from powerplan.model.rules import RuleSet
from powerplan.model.spec import Circuit
from powerplan.planning.chaining import longest_chain, may_share_plug
from powerplan.planning.engine import NEW, Choice, Table
from powerplan.planning.leads import longest_lead_m
from powerplan.planning.runs import Run, make_run
from powerplan.planning.site import FLOOR_BOX, Feed, Site
from powerplan.planning.unit_runs import (
    make_unit_run,
    may_share_unit,
    most_behind_unit,
    unit_kind,
)

_NO_SHARE = Fraction(1000)  # no share of a circuit is kept from bolted-down seats
_RunKey = tuple[str, tuple[str, ...], Fraction, bool]
_Best = tuple[tuple[int, int, int, int, str], tuple[Run, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Scope:
    """What a step may use, and which rules are left aside while asking why it fails.

    ``continuous_a`` replaces a chair kind's continuous part, by kind, to find where an answer
    flips. [A]
    """

    extend: bool
    new_outlets: tuple[Feed, ...]
    new_circuits: bool
    ignore: frozenset[str]
    continuous_a: Mapping[str, Fraction]


class GroupTable:
    """Makes tables for the engine; runs are worked out once and kept."""

    def __init__(self, site: Site) -> None:
        self.site = site
        self._runs: dict[_RunKey, Run] = {}
        self._unit = unit_kind(site)
        self._behind_unit = most_behind_unit(site)

    def run(
        self, feed: Feed, chairs: tuple[SeatedChair, ...], circuit_a: Fraction, extend: bool
    ) -> Run:
        """Return the run of those chairs from that feed, from memory where it was asked before."""
        key = (feed.id, tuple(chair.id for chair in chairs), circuit_a, extend)
        if key not in self._runs:
            self._runs[key] = make_run(self.site, feed, chairs, circuit_a, extend)
        return self._runs[key]

    def unit_run(self, feed: Feed, chairs: tuple[SeatedChair, ...], circuit_a: Fraction) -> Run:
        """Return the run of those chairs through an outlet unit, from memory where known."""
        key = (f"unit {feed.id}", tuple(chair.id for chair in chairs), circuit_a, False)
        if key not in self._runs:
            self._runs[key] = make_unit_run(self.site, feed, chairs, circuit_a)
        return self._runs[key]

    def circuits(self, scope: Scope) -> tuple[Circuit, ...]:
        """Return the existing circuits that may be used: those without a hazard of their own."""
        unsafe = self.site.unsafe_circuits()
        if "wire-matches-breaker" in scope.ignore:
            unsafe = frozenset()
        return tuple(c for c in self.site.spec.circuits if c.id not in unsafe)

    def table(self, scope: Scope) -> Table:
        """Return the engine's table for a scope."""
        site, rules = self.site, self.site.rules
        circuits = self.circuits(scope)
        breakers = tuple(site.breaker_a(circuit) for circuit in circuits)
        share = rules.exact("fastened_share") if rules.has("fastened-half") else _NO_SHARE
        new_a = site.spec.new_work.breaker_a
        demand = tuple(self._demand_a(chair, scope) for chair in site.powered)
        fastened = tuple(self._fastened_a(row, chair) for row in site.rows for chair in row.powered)
        room = tuple(
            breaker - self._already_a(circuit)
            for circuit, breaker in zip(circuits, breakers, strict=True)
        )
        half = tuple(share * breaker for breaker in breakers)
        scale = lcm(
            *(f.denominator for f in (*demand, *fastened, *room, *half, new_a, share * new_a))
        )

        def whole(amounts: tuple[Fraction, ...]) -> tuple[int, ...]:
            return tuple(int(amount * scale) for amount in amounts)

        return Table(
            demand=whole(demand),
            fastened=whole(fastened),
            plugs=self._plugs(scope, circuits),
            groups=self._groups(scope, circuits),
            room=whole(room),
            half=whole(half),
            feeds_other=tuple(circuit.already_on_it != () for circuit in circuits),
            uncertain=tuple(_uncertain(circuit, rules) for circuit in circuits),
            free=tuple(outlet.sockets for outlet in site.outlets),
            new_room=int(new_a * scale),
            new_half=int(share * new_a * scale),
        )

    def _demand_a(self, chair: SeatedChair, scope: Scope) -> Fraction:
        kind = chair.kind
        continuous_a = scope.continuous_a.get(kind.id, kind.continuous_a) * chair.share
        return demand_a(continuous_a, chair.input_a - continuous_a, self.site.rules)

    def _fastened_a(self, row: SeatedRow, chair: SeatedChair) -> Fraction:
        return Fraction(0) if row.row.fastened is False else chair.input_a

    def _already_a(self, circuit: Circuit) -> Fraction:
        return demand_a(*known_load_a(circuit), self.site.rules)

    def _plugs(self, scope: Scope, circuits: tuple[Circuit, ...]) -> tuple[tuple[Choice, ...], ...]:
        index = {circuit.id: number for number, circuit in enumerate(circuits)}
        unsafe = self.site.unsafe_outlets()
        by_seat: list[list[Choice]] = [[] for _ in self.site.powered]
        for number, feed in enumerate(self.site.outlets):
            if feed.circuit not in index or feed.id in unsafe:
                continue
            circuit = index[feed.circuit]
            circuit_a = self.site.breaker_a(circuits[circuit])
            for first, chairs in self._stretches():
                best = self._best_run(feed, chairs, circuit_a, scope)
                if best is not None:
                    by_seat[first].append(
                        _choice(first, feed, best, outlet=number, circuit=circuit)
                    )
        return tuple(tuple(choices) for choices in by_seat)

    def _best_run(
        self, feed: Feed, chairs: tuple[SeatedChair, ...], circuit_a: Fraction, scope: Scope
    ) -> _Best | None:
        """The better of the two directions in which current may pass along the chairs."""
        alone = len(chairs) == 1 or chairs[0].kind.supply is not None
        runs = []
        if may_share_plug(chairs):
            ways = (chairs,) if alone else (chairs, chairs[::-1])
            runs = [self.run(feed, way, circuit_a, scope.extend) for way in ways]
        if may_share_unit(self._unit, chairs):
            runs.append(self.unit_run(feed, chairs, circuit_a))
        found = []
        for run in runs:
            broken = run.broken_rules
            if scope.ignore.issuperset(broken):
                cost = (len(broken), run.extensions, run.bought_um, run.routed_um, run.ids)
                found.append((cost, (run,)))
        return min(found, key=lambda entry: entry[0], default=None)

    def _groups(
        self, scope: Scope, circuits: tuple[Circuit, ...]
    ) -> dict[int | str, tuple[tuple[Choice, ...], ...]]:
        if not scope.new_outlets:
            return {}
        by_rating: dict[Fraction, tuple[tuple[Choice, ...], ...]] = {}

        def groups(circuit_a: Fraction) -> tuple[tuple[Choice, ...], ...]:
            if circuit_a not in by_rating:
                by_rating[circuit_a] = self._groups_at(circuit_a, scope)
            return by_rating[circuit_a]

        table: dict[int | str, tuple[tuple[Choice, ...], ...]] = {}
        for number, circuit in enumerate(circuits):
            broken = extend_findings(circuit, self.site.rules)
            if scope.ignore.issuperset(finding.rule for finding in broken):
                found = groups(self.site.breaker_a(circuit))
                table[number] = _each_breaks(found, len(broken)) if broken else found
        if scope.new_circuits:
            table[NEW] = groups(self.site.spec.new_work.breaker_a)
        return table

    def _groups_at(self, circuit_a: Fraction, scope: Scope) -> tuple[tuple[Choice, ...], ...]:
        """The best group for each stretch of chairs at a circuit of that rating, by first seat."""
        best: dict[tuple[int, int], tuple[tuple[int | str, ...], Choice]] = {}
        offset = 0
        for row in self.site.rows:
            for feed in scope.new_outlets:
                place = next((n for n, c in enumerate(row.powered) if c.id == feed.chair), None)
                if place is None:
                    continue
                for first, found in self._around(row, feed, place, circuit_a, scope):
                    choice = _choice(offset + first, feed, found)
                    rank = (choice.floor_box, *found[0])
                    key = (choice.first, choice.after)
                    if key not in best or rank < best[key][0]:
                        best[key] = (rank, choice)
            offset += len(row.powered)
        by_seat: list[list[Choice]] = [[] for _ in self.site.powered]
        for (first, _), (_, choice) in sorted(best.items()):
            by_seat[first].append(choice)
        return tuple(tuple(choices) for choices in by_seat)

    def _around(
        self, row: SeatedRow, feed: Feed, place: int, circuit_a: Fraction, scope: Scope
    ) -> Iterator[tuple[int, _Best]]:
        """Every stretch of the row that holds the feed's own chair, split into runs at its best."""
        longest = max(longest_chain(row.powered), self._behind_unit)
        sockets = feed.sockets  # never bent: another box is as near
        reach = sockets * longest
        runs: dict[tuple[int, int], _Best] = {}
        for first in range(max(0, place - reach), min(len(row.powered), place + reach + 1)):
            for after in range(first + 1, min(len(row.powered), first + longest) + 1):
                chairs = row.powered[first:after]
                if self._may_share(chairs) and self._near(feed, chairs, scope):
                    found = self._best_run(feed, chairs, circuit_a, scope)
                    if found is not None:
                        runs[first, after] = found
        for first in range(max(0, place - reach + 1), place + 1):
            splits = _split(first, len(row.powered), sockets, longest, runs)
            for after, found in splits.items():
                if after > place:
                    yield first, found

    def _may_share(self, chairs: tuple[SeatedChair, ...]) -> bool:
        return may_share_plug(chairs) or may_share_unit(self._unit, chairs)

    def _stretches(self) -> Iterator[tuple[int, tuple[SeatedChair, ...]]]:
        """Every stretch of neighbors that may share a socket, with its first seat's number."""
        offset = 0
        for row in self.site.rows:
            powered = row.powered
            longest = max(longest_chain(powered), self._behind_unit)
            for first in range(len(powered)):
                for after in range(first + 1, min(len(powered), first + longest) + 1):
                    if self._may_share(powered[first:after]):
                        yield offset + first, powered[first:after]
            offset += len(powered)

    def _reach_m(self, chair: SeatedChair) -> float:
        """How far a chair's cords reach at most, laid straight. [m]"""
        name = chair.kind.supply
        beyond_m = 0.0 if name is None else self.site.spec.supply(name).chair_cord_m
        unit_m = 0.0 if self._unit is None else self._unit.cord_m
        return longest_lead_m(chair.kind) + beyond_m + unit_m

    def _near(self, feed: Feed, chairs: tuple[SeatedChair, ...], scope: Scope) -> bool:
        """False where even a straight cord would be too short from either end."""
        if scope.extend:
            return True
        return any(
            micrometers(needed_lead_m(_straight_m(feed, end), self.site.rules))
            <= micrometers(self._reach_m(end))
            for end in (chairs[0], chairs[-1])
        )


def _straight_m(feed: Feed, chair: SeatedChair) -> float:
    x_m, y_m = chair.lead_from
    return hypot(x_m - feed.place[0], y_m - feed.place[1])


def _split(
    first: int, seats: int, sockets: int, longest: int, runs: Mapping[tuple[int, int], _Best]
) -> dict[int, _Best]:
    """The best split into at most ``sockets`` runs of the seats from ``first`` on, by end."""
    layer: dict[int, _Best] = {first: ((0, 0, 0, 0, ""), ())}
    best: dict[int, _Best] = {}
    for _ in range(sockets):
        following: dict[int, _Best] = {}
        for start, (cost, done) in layer.items():
            for after in range(start + 1, min(seats, start + longest) + 1):
                if (start, after) not in runs:
                    continue
                more, run = runs[start, after]
                total = (
                    cost[0] + more[0],
                    cost[1] + more[1],
                    cost[2] + more[2],
                    cost[3] + more[3],
                    f"{cost[4]} {more[4]}",
                )
                if after not in following or total < following[after][0]:
                    following[after] = (total, done + run)
        if not following:
            break
        for after, found in following.items():
            if after not in best or found[0] < best[after][0]:
                best[after] = found
        layer = following
    return best


def _each_breaks(
    groups: tuple[tuple[Choice, ...], ...], broken: int
) -> tuple[tuple[Choice, ...], ...]:
    """The same groups on a circuit from which nothing new may be wired on."""
    return tuple(tuple(replace(c, breaks=c.breaks + broken) for c in seat) for seat in groups)


def _uncertain(circuit: Circuit, rules: RuleSet) -> bool:
    if circuit.already_on_it is None or circuit.breaker_a is None or circuit.wire is None:
        return True
    if hangs_on_a_look(circuit):
        return True
    return rules.wires[circuit.wire].hangs_on_laying(circuit.breaker_a)


def _choice(
    first: int, feed: Feed, best: _Best, *, outlet: int | None = None, circuit: int | None = None
) -> Choice:
    (breaks, extensions, bought_um, routed_um, ids), runs = best
    return Choice(
        first=first,
        after=first + sum(len(run.chairs) for run in runs),
        feed=feed.id,
        outlet=outlet,
        circuit=circuit,
        floor_box=feed.kind == FLOOR_BOX,
        breaks=breaks,
        extensions=extensions,
        bought_um=bought_um,
        routed_um=routed_um,
        ids=ids,
        option=runs,
    )
