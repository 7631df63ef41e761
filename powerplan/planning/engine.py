"""Choose the best set of plugs and groups, exactly, from a table that holds all the physics.

The engine knows nothing of rooms. It walks the seats from first to last; every choice covers the
next few seats, and a state is what the choices so far have used. Of equal states only the best is
kept, which loses nothing because costs add up and what may follow depends on the state alone. So
the answer is exact over the table unless a position holds more states than ``max_states``; then
only the best are kept and the answer says that it is not proved.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from heapq import nsmallest
from typing import Any

NEW = "new"

Load = tuple[int, int, bool]
"""Demand and fastened amperes in the table's unit, and whether loose seats are on it too."""

Cost = tuple[int, int, int, int, int, int, tuple[str, ...]]
"""Broken rules, extensions, new outlets, floor boxes, bought and routed cord [um], ids."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """Seats ``first`` up to but not including ``after``, fed from one feed.

    ``circuit`` is the index of an existing circuit for an existing outlet, ``None`` for a new
    outlet, whose circuit is chosen here. ``sockets`` are the sockets taken of an existing outlet.
    ``option`` is whatever the caller wants back.
    """

    first: int
    after: int
    feed: str
    outlet: int | None
    circuit: int | None
    floor_box: bool
    breaks: int
    extensions: int
    bought_um: int
    routed_um: int
    ids: str
    option: Any = field(compare=False, hash=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Everything the engine may know.

    Shapes: ``demand``, ``fastened`` one entry a seat; ``plugs`` choices at existing outlets by
    first seat; ``groups`` choices at new outlets by circuit (index, or ``NEW``) and first seat;
    ``room``, ``half``, ``feeds_other``, ``uncertain`` one entry an existing circuit; ``free`` one
    an existing outlet. Currents are whole numbers in the plan's common unit.
    """

    demand: tuple[int, ...]
    fastened: tuple[int, ...]
    plugs: tuple[tuple[Choice, ...], ...]
    groups: Mapping[int | str, tuple[tuple[Choice, ...], ...]]
    room: tuple[int, ...]
    half: tuple[int, ...]
    feeds_other: tuple[bool, ...]
    uncertain: tuple[bool, ...]
    free: tuple[int, ...]
    new_room: int
    new_half: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Terms:
    """What a step of the ladder asks: rules to leave aside, and how much must or may be new."""

    ignore: frozenset[str] = frozenset()
    outlets_at_least: int = 0
    circuits_at_least: int = 0
    circuits_at_most: int = 0
    max_states: int = 20_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Pick:
    """The best choice. ``circuits`` holds, one a choice, the index of an existing circuit or the
    name of a new one ("new 1"). ``rank`` is what was minimised, most important first."""

    choices: tuple[Choice, ...]
    circuits: tuple[int | str, ...]
    rank: tuple[Any, ...]
    proved: bool


_State = tuple[tuple[Load, ...], tuple[int, ...], tuple[Load, ...], int]
"""What the choices so far have used: loads on existing circuits, sockets of existing outlets, loads
on new circuits (sorted: their names do not matter), and new outlets as far as a step asks any."""

_Trail = tuple[Any, ...] | None
_EMPTY: Load = (0, 0, False)


def choose(table: Table, terms: Terms) -> Pick | None:
    """Return the best set of choices that covers every seat once, or None if there is none.

    The order is: broken rules (only those in ``terms.ignore`` may be broken), overload (likewise),
    circuits of which something is unknown, new circuits, extensions, new outlets, floor boxes,
    bought cord, routed cord, existing circuits in use, ids.

    Guarantee: exact over the table when ``proved``; otherwise feasible, with no claim.
    """
    seats = len(table.demand)
    start: _State = ((_EMPTY,) * len(table.room), (0,) * len(table.free), (), 0)
    frontier: list[dict[_State, tuple[Cost, _Trail]]] = [{} for _ in range(seats + 1)]
    frontier[0][start] = ((0, 0, 0, 0, 0, 0, ()), None)
    proved = True
    walk = _Walk(table, terms)
    for seat in range(seats):
        states, frontier[seat] = frontier[seat], {}
        if len(states) > terms.max_states:
            proved = False
            states = dict(nsmallest(terms.max_states, states.items(), key=lambda item: item[1][0]))
        for state, (cost, trail) in states.items():
            for choice, circuit, following, extra in walk.steps(seat, state):
                total = _add(cost, choice, extra)
                known = frontier[choice.after].get(following)
                if known is None or total < known[0]:
                    frontier[choice.after][following] = (total, (trail, choice, circuit))
    return _best(table, terms, frontier[seats], proved)


def _add(cost: Cost, choice: Choice, extra: int) -> Cost:
    new_outlet = choice.outlet is None
    return (
        cost[0] + choice.breaks + extra,
        cost[1] + choice.extensions,
        cost[2] + new_outlet,
        cost[3] + choice.floor_box,
        cost[4] + choice.bought_um,
        cost[5] + choice.routed_um,
        (*cost[6], choice.ids),
    )


class _Walk:
    """The states that follow a state, with what each adds."""

    def __init__(self, table: Table, terms: Terms) -> None:
        self._table = table
        self._terms = terms
        self._demand = _running(table.demand)
        self._fastened = _running(table.fastened)
        self._loose = _running(tuple(int(amps == 0) for amps in table.fastened))
        self._any_load = "circuit-load" in terms.ignore
        self._any_half = "fastened-half" in terms.ignore
        self._any_sockets = "sockets-free" in terms.ignore

    def steps(self, seat: int, state: _State) -> Iterator[tuple[Choice, int | Load, _State, int]]:
        """Yield each choice from this seat, its circuit, the state after it, sockets over.

        A new circuit is told by what was on it before.
        """
        loads, sockets, new, outlets = state
        for choice in self._table.plugs[seat]:
            yield from self._plug(choice, state)
        outlets = min(outlets + 1, self._terms.outlets_at_least)
        for circuit, by_seat in self._table.groups.items():
            for choice in by_seat[seat]:
                if isinstance(circuit, int):
                    fuller = self._loaded(loads, circuit, choice)
                    if fuller is not None:
                        yield choice, circuit, (fuller, sockets, new, outlets), 0
                else:
                    for load, after in self._new(choice, new):
                        yield choice, load, (loads, sockets, after, outlets), 0

    def _plug(
        self, choice: Choice, state: _State
    ) -> Iterator[tuple[Choice, int | Load, _State, int]]:
        loads, sockets, new, outlets = state
        outlet, circuit = choice.outlet, choice.circuit
        if outlet is None or circuit is None:
            raise ValueError("a plug needs an outlet and its circuit")
        over = sockets[outlet] >= self._table.free[outlet]
        if over and not self._any_sockets:
            return
        fuller = self._loaded(loads, circuit, choice)
        if fuller is not None:
            taken = _put(sockets, outlet, sockets[outlet] + 1)
            yield choice, circuit, (fuller, taken, new, outlets), int(over)

    def _new(
        self, choice: Choice, new: tuple[Load, ...]
    ) -> Iterator[tuple[Load, tuple[Load, ...]]]:
        """Each different new circuit that would take the choice, and all of them after it."""
        bins = list(dict.fromkeys(new))
        if len(new) < self._terms.circuits_at_most:
            bins.append(_EMPTY)
        for load in bins:
            fuller = self.fuller(load, choice)
            if self._fits(fuller, self._table.new_room, self._table.new_half, False):
                others = list(new)
                if load != _EMPTY:
                    others.remove(load)
                others.append(fuller)
                others.sort()
                yield load, tuple(others)

    def _loaded(
        self, loads: tuple[Load, ...], circuit: int, choice: Choice
    ) -> tuple[Load, ...] | None:
        table = self._table
        fuller = self.fuller(loads[circuit], choice)
        room, half = table.room[circuit], table.half[circuit]
        if self._fits(fuller, room, half, table.feeds_other[circuit]):
            return _put(loads, circuit, fuller)
        return None

    def fuller(self, load: Load, choice: Choice) -> Load:
        """Return a circuit's load with the choice's seats added."""
        first, after = choice.first, choice.after
        return (
            load[0] + self._demand[after] - self._demand[first],
            load[1] + self._fastened[after] - self._fastened[first],
            load[2] or self._loose[after] > self._loose[first],
        )

    def _fits(self, load: Load, room: int, half: int, feeds_other: bool) -> bool:
        if load[0] > room and not self._any_load:
            return False
        return self._any_half or load[1] <= half or not (feeds_other or load[2])


def _running(amounts: tuple[int, ...]) -> tuple[int, ...]:
    sums = [0]
    for amount in amounts:
        sums.append(sums[-1] + amount)
    return tuple(sums)


def _put(values: tuple[Any, ...], index: int, value: Any) -> tuple[Any, ...]:
    return (*values[:index], value, *values[index + 1 :])


def _best(
    table: Table, terms: Terms, final: Mapping[_State, tuple[Cost, _Trail]], proved: bool
) -> Pick | None:
    ranked = []
    for state, (cost, trail) in final.items():
        loads, _, new, outlets = state
        if outlets < terms.outlets_at_least or len(new) < terms.circuits_at_least:
            continue
        uncertain = sum(
            load != _EMPTY and unsure for load, unsure in zip(loads, table.uncertain, strict=True)
        )
        touched = sum(load != _EMPTY for load in loads)
        over = _overload(table, state)
        rank = (cost[0], over, uncertain, len(new), *cost[1:6], touched, cost[6])
        ranked.append((rank, state, trail))
    if not ranked:
        return None
    rank, _, trail = min(ranked, key=lambda entry: entry[0])
    steps: list[tuple[Choice, int | Load]] = []
    while trail is not None:
        trail, choice, circuit = trail
        steps.append((choice, circuit))
    steps.reverse()
    return Pick(
        choices=tuple(choice for choice, _ in steps),
        circuits=_name_new(_Walk(table, terms), steps),
        rank=rank,
        proved=proved,
    )


def _overload(table: Table, state: _State) -> int:
    """How far load and half rules are broken in all; nothing unless they were left aside."""
    loads, _, new, _ = state
    over = sum(max(0, load[0] - table.new_room) for load in new)
    for load, room, half, other in zip(
        loads, table.room, table.half, table.feeds_other, strict=True
    ):
        over += max(0, load[0] - room)
        if other or load[2]:
            over += max(0, load[1] - half)
    return over


def _name_new(walk: _Walk, steps: list[tuple[Choice, int | Load]]) -> tuple[int | str, ...]:
    """Name the new circuits in the order in which they are first used.

    The walk keeps new circuits only by what is on them; each step says what was on its circuit
    before, so walking the same steps again finds the circuit (equal ones are interchangeable).
    """
    bins: list[Load] = []
    named: list[int | str] = []
    for choice, circuit in steps:
        if isinstance(circuit, int):
            named.append(circuit)
            continue
        if circuit == _EMPTY:
            bins.append(_EMPTY)
        number = len(bins) - 1 if circuit == _EMPTY else bins.index(circuit)
        bins[number] = walk.fuller(circuit, choice)
        named.append(f"{NEW} {number + 1}")
    return tuple(named)
