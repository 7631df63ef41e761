"""The engine against brute force: every way of covering the seats, tried one by one."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from hypothesis import example, given
from hypothesis import strategies as st
from laws import law

from powerplan.planning.engine import NEW, Choice, Pick, Table, Terms, choose


def _choice(first: int, after: int, **changes: Any) -> Choice:
    base = Choice(
        first=first,
        after=after,
        feed="box",
        outlet=None,
        circuit=None,
        floor_box=True,
        breaks=0,
        extensions=0,
        bought_um=0,
        routed_um=1,
        ids=f"{first}-{after}",
        option=(),
    )
    return replace(base, **changes)


def _by_seat(seats: int, choices: list[Choice]) -> tuple[tuple[Choice, ...], ...]:
    return tuple(tuple(c for c in choices if c.first == seat) for seat in range(seats))


@st.composite
def tables(draw: st.DrawFn) -> Table:
    seats = draw(st.integers(1, 5))
    circuits = draw(st.integers(0, 2))
    outlets = draw(st.integers(0, 2)) if circuits else 0
    costs = st.integers(0, 3)
    plugs, groups = [], []
    for first in range(seats):
        for after in range(first + 1, min(seats, first + 3) + 1):
            for outlet in range(outlets):
                if draw(st.booleans()):
                    plugs.append(
                        _choice(
                            first,
                            after,
                            feed=f"W{outlet}",
                            outlet=outlet,
                            circuit=outlet % circuits,
                            floor_box=False,
                            extensions=draw(st.integers(0, 1)),
                            bought_um=draw(costs),
                            routed_um=draw(costs),
                        )
                    )
            if draw(st.integers(0, 3)):
                groups.append(
                    _choice(
                        first,
                        after,
                        floor_box=draw(st.booleans()),
                        bought_um=draw(costs),
                        routed_um=draw(costs),
                    )
                )
    demand = tuple(draw(st.integers(1, 4)) for _ in range(seats))
    bolted = tuple(draw(st.booleans()) for _ in range(seats))
    rooms = tuple(draw(st.integers(0, 9)) for _ in range(circuits))
    return Table(
        demand=demand,
        fastened=tuple(d if b else 0 for d, b in zip(demand, bolted, strict=True)),
        plugs=_by_seat(seats, plugs),
        groups={
            **dict.fromkeys(range(circuits), _by_seat(seats, groups)),
            NEW: _by_seat(seats, groups),
        },
        room=rooms,
        half=tuple(draw(st.integers(1, 6)) for _ in range(circuits)),
        feeds_other=tuple(draw(st.booleans()) for _ in range(circuits)),
        uncertain=tuple(draw(st.booleans()) for _ in range(circuits)),
        free=tuple(draw(st.integers(0, 2)) for _ in range(outlets)),
        new_room=draw(st.integers(3, 9)),
        new_half=draw(st.integers(1, 5)),
    )


def _covers(table: Table, seat: int) -> Iterator[list[tuple[Choice, int | str]]]:
    """Every list of choices from this seat on, each with every circuit it could have."""
    if seat == len(table.demand):
        yield []
        return
    options: list[tuple[Choice, int | str]] = [
        (choice, choice.circuit) for choice in table.plugs[seat] if choice.circuit is not None
    ]
    for circuit, by_seat in table.groups.items():
        if circuit == NEW:
            options += [(c, f"new {n}") for c in by_seat[seat] for n in range(len(table.demand))]
        else:
            options += [(c, circuit) for c in by_seat[seat]]
    for choice, circuit in options:
        for rest in _covers(table, choice.after):
            yield [(choice, circuit), *rest]


def _rank(table: Table, terms: Terms, picked: list[tuple[Choice, int | str]]) -> Any:
    """The rank of one complete list, or None where a rule forbids it."""
    seats_on: dict[int | str, list[int]] = {}
    plugs_in: dict[int, int] = {}
    for choice, circuit in picked:
        seats_on.setdefault(circuit, []).extend(range(choice.first, choice.after))
        if choice.outlet is not None:
            plugs_in[choice.outlet] = plugs_in.get(choice.outlet, 0) + 1
    if any(count > table.free[outlet] for outlet, count in plugs_in.items()):
        return None
    for circuit, seats in seats_on.items():
        new = isinstance(circuit, str)
        room = table.new_room if new else table.room[circuit]
        half = table.new_half if new else table.half[circuit]
        loose = any(table.fastened[seat] == 0 for seat in seats)
        other = loose or (not new and table.feeds_other[circuit])
        if sum(table.demand[seat] for seat in seats) > room:
            return None
        if other and sum(table.fastened[seat] for seat in seats) > half:
            return None
    new_circuits = sum(isinstance(circuit, str) for circuit in seats_on)
    boxes = [choice for choice, _ in picked if choice.outlet is None]
    if len(boxes) < terms.outlets_at_least or new_circuits < terms.circuits_at_least:
        return None
    if new_circuits > terms.circuits_at_most:
        return None
    return (
        0,
        0,
        sum(table.uncertain[c] for c in seats_on if not isinstance(c, str)),
        new_circuits,
        sum(choice.extensions for choice, _ in picked),
        len(boxes),
        sum(choice.floor_box for choice in boxes),
        sum(choice.bought_um for choice, _ in picked),
        sum(choice.routed_um for choice, _ in picked),
        sum(not isinstance(circuit, str) for circuit in seats_on),
        tuple(choice.ids for choice, _ in picked),
    )


TERMS = st.builds(
    Terms,
    outlets_at_least=st.integers(0, 1),
    circuits_at_least=st.integers(0, 1),
    circuits_at_most=st.integers(1, 3),
)


@law(tables(), TERMS, usual=20, many=400)
def test_the_engine_finds_what_brute_force_finds(table: Table, terms: Terms) -> None:
    ranks = [_rank(table, terms, picked) for picked in _covers(table, 0)]
    best = min((rank for rank in ranks if rank is not None), default=None)
    pick = choose(table, terms)
    assert (None if pick is None else pick.rank) == best


@law(tables(), TERMS, usual=20, many=400)
def test_what_is_picked_covers_every_seat_once_within_its_circuits(
    table: Table, terms: Terms
) -> None:
    pick = choose(table, terms)
    if pick is None:
        return
    seats = [seat for choice in pick.choices for seat in range(choice.first, choice.after)]
    assert seats == list(range(len(table.demand)))
    assert _rank(table, terms, list(zip(pick.choices, pick.circuits, strict=True))) == pick.rank


@law(tables(), TERMS, usual=20, many=400)
def test_more_room_on_a_circuit_never_worsens_the_answer(table: Table, terms: Terms) -> None:
    before = choose(table, terms)
    roomier = replace(table, room=tuple(room + 1 for room in table.room))
    after = choose(roomier, terms)
    if before is not None:
        assert after is not None
        assert after.rank <= before.rank


@law(tables(), TERMS, usual=20, many=400)
def test_a_heavier_seat_never_improves_the_answer(table: Table, terms: Terms) -> None:
    before = choose(table, terms)
    heavier = replace(table, demand=(table.demand[0] + 1, *table.demand[1:]))
    after = choose(heavier, terms)
    if after is not None:
        assert before is not None
        assert before.rank <= after.rank


@law(tables(), TERMS, st.integers(2, 5), usual=20, many=400)
def test_scaling_every_current_and_limit_changes_nothing(
    table: Table, terms: Terms, factor: int
) -> None:
    def scaled(values: tuple[int, ...]) -> tuple[int, ...]:
        return tuple(value * factor for value in values)

    scaled_table = replace(
        table,
        demand=scaled(table.demand),
        fastened=scaled(table.fastened),
        room=scaled(table.room),
        half=scaled(table.half),
        new_room=table.new_room * factor,
        new_half=table.new_half * factor,
    )
    before, after = choose(table, terms), choose(scaled_table, terms)
    assert (before and before.rank) == (after and after.rank)


@given(tables())
@example(
    Table(
        demand=(2,),
        fastened=(0,),
        plugs=((),),
        groups={NEW: ((_choice(0, 1),),)},
        room=(),
        half=(),
        feeds_other=(),
        uncertain=(),
        free=(),
        new_room=2,
        new_half=1,
    )
)
def test_few_states_give_an_answer_that_is_not_called_proved(table: Table) -> None:
    wide = choose(table, Terms(circuits_at_most=3))
    narrow = choose(table, Terms(circuits_at_most=3, max_states=1))
    if narrow is not None:
        assert wide is not None
        assert wide.rank <= narrow.rank
        assert narrow.rank == wide.rank or not narrow.proved


def test_a_seat_nothing_covers_has_no_answer() -> None:
    table = Table(
        demand=(1, 1),
        fastened=(0, 0),
        plugs=((), ()),
        groups={NEW: ((_choice(0, 1),), ())},
        room=(),
        half=(),
        feeds_other=(),
        uncertain=(),
        free=(),
        new_room=9,
        new_half=9,
    )
    assert choose(table, Terms(circuits_at_most=2)) is None


def test_equal_to_the_limit_passes_and_one_more_does_not() -> None:
    def pick(room: int) -> Pick | None:
        table = Table(
            demand=(5, 5),
            fastened=(0, 0),
            plugs=((), ()),
            groups={NEW: ((_choice(0, 2),), ())},
            room=(),
            half=(),
            feeds_other=(),
            uncertain=(),
            free=(),
            new_room=room,
            new_half=9,
        )
        return choose(table, Terms(circuits_at_most=1))

    assert pick(10) is not None
    assert pick(9) is None
