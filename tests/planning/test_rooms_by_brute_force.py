"""Small rooms: the ladder's choice against every choice there is."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import strategies as st
from laws import law
from support import (
    NEC,
    inch,
    make_chain,
    make_chair,
    make_circuit,
    make_load,
    make_new_work,
    make_outlet,
    make_row,
    make_spec,
)

from powerplan.model.lengths import micrometers
from powerplan.model.plan import EXISTING, EXTENSIONS, NEW_CIRCUITS, NEW_OUTLETS
from powerplan.model.spec import PlanSpec
from powerplan.planning.ladder import Ladder
from powerplan.planning.runs import Run, make_run
from powerplan.planning.site import Feed, Site, survey

Plug = tuple[Run, str]


def _every_way(site: Site, step: str, seat: int) -> Iterator[list[Plug]]:
    """Every list of plugs, each with its circuit, that covers the chairs from this seat on."""
    chairs = site.chairs
    if seat == len(chairs):
        yield []
        return
    kind = chairs[seat].kind
    longest = 1 if kind.chain is None else kind.chain.chairs
    for after in range(seat + 1, min(len(chairs), seat + longest) + 1):
        run = chairs[seat:after]
        if run[0].row != run[-1].row:
            continue
        for order in {run, run[::-1]}:
            for feed, circuit, rating in _feeds(site, step):
                plug = make_run(site, feed, order, rating, step == EXTENSIONS)
                if not plug.broken:
                    for rest in _every_way(site, step, after):
                        yield [(plug, circuit), *rest]


def _feeds(site: Site, step: str) -> Iterator[tuple[Feed, str, Fraction]]:
    breakers = {c.id: c.breaker_a or Fraction(15) for c in site.spec.circuits}
    for outlet in site.outlets:
        if outlet.circuit is not None:
            yield outlet, outlet.circuit, breakers[outlet.circuit]
    if step in (NEW_OUTLETS, NEW_CIRCUITS):
        for box in site.floor_boxes:
            for circuit, rating in breakers.items():
                yield box, circuit, rating
            if step == NEW_CIRCUITS:
                for name in ("new a", "new b", "new c"):
                    yield box, name, site.spec.new_work.breaker_a


def _rank(site: Site, step: str, plugs: list[Plug]) -> tuple[Any, ...] | None:
    """What the ladder minimises, or None where something forbids this way."""
    by_feed: dict[str, list[Plug]] = {}
    demand: dict[str, Fraction] = {}
    for run, circuit in plugs:
        by_feed.setdefault(run.feed.id, []).append((run, circuit))
        for chair in run.chairs:
            lasting = chair.kind.continuous_a
            asks = Fraction(5, 4) * lasting + chair.kind.input_a - lasting
            demand[circuit] = demand.get(circuit, Fraction(0)) + asks
    for held in by_feed.values():
        feed = held[0][0].feed
        if len(held) > feed.sockets or len({circuit for _, circuit in held}) > 1:
            return None
        if feed.circuit is None:
            ids = [chair.id for run, _ in held for chair in run.chairs]
            seats = sorted(int(name[1:]) for name in ids)
            one_row = len({name[0] for name in ids}) == 1
            if not one_row or seats != list(range(seats[0], seats[-1] + 1)):
                return None
            if feed.chair not in ids:
                return None
    existing = {circuit.id: circuit for circuit in site.spec.circuits}
    for circuit, asked in demand.items():
        if circuit in existing:
            loads = existing[circuit].already_on_it or ()
            already = sum(
                (load.current_a * (Fraction(5, 4) if load.continuous else 1) for load in loads),
                Fraction(0),
            )
            if asked + already > (existing[circuit].breaker_a or 0):
                return None
        elif asked > site.spec.new_work.breaker_a:
            return None
    new_circuits = {circuit for circuit in demand if circuit not in existing}
    new_outlets = [held[0][0] for held in by_feed.values() if held[0][0].feed.circuit is None]
    if step == NEW_OUTLETS and not new_outlets:
        return None
    if step == NEW_CIRCUITS and not new_circuits:
        return None
    cords = [leg for run, _ in plugs for leg in run.legs]
    return (
        sum(circuit in existing and existing[circuit].already_on_it is None for circuit in demand),
        len(new_circuits),
        sum(leg.kind == "extension" for leg in cords),
        len(new_outlets),
        sum(run.feed.kind == "floor box" for run in new_outlets),
        sum(micrometers(leg.bought_m) for leg in cords if leg.kind != "own"),
        sum(micrometers(leg.length_m) for leg in cords),
        sum(circuit in existing for circuit in demand),
    )


@st.composite
def rooms(draw: st.DrawFn) -> PlanSpec:
    chained = draw(st.booleans())
    chair = make_chair(
        chain=make_chain(chairs=draw(st.integers(2, 3))) if chained else None,
        arm_gap_m=inch(draw(st.sampled_from(["1/4", "3/2"]))),
        input_a=draw(st.sampled_from([Fraction(9, 5), Fraction(3), Fraction(5)])),
        lead_m=inch(draw(st.sampled_from([72, 96]))),
    )
    seats = draw(st.integers(1, 3))
    rows = [make_row(seats=seats)]
    if seats < 3 and draw(st.booleans()):
        rows.append(make_row(id="B", seats=1, headrest_to_wall_m=inch(100)))
    circuits = [
        make_circuit(
            id=str(number),
            already_on_it=draw(st.sampled_from([(), (make_load("rack", "5", True),), None])),
        )
        for number in range(draw(st.integers(1, 2)))
    ]
    outlets = [
        make_outlet(
            id=f"W{number}",
            circuit=draw(st.sampled_from([circuit.id for circuit in circuits])),
            x_m=inch(draw(st.integers(80, 160))),
            free=draw(st.integers(1, 2)),
        )
        for number in range(draw(st.integers(0, 2)))
    ]
    return make_spec(
        chairs=(chair,),
        rows=tuple(rows),
        circuits=tuple(circuits),
        outlets=tuple(outlets),
        new_work=make_new_work(sockets_per_box=draw(st.integers(1, 2))),
    )


@pytest.mark.parametrize("step", [EXISTING, EXTENSIONS, NEW_OUTLETS, NEW_CIRCUITS])
@law(rooms(), usual=5, many=150)
def test_no_way_is_better_than_the_one_chosen(step: str, spec: PlanSpec) -> None:
    site = survey(spec, NEC)
    ranks = (_rank(site, step, plugs) for plugs in _every_way(site, step, 0))
    known = [rank for rank in ranks if rank is not None]
    way = Ladder(site).way(step)
    assert (None if way is None else way.rank[2:10]) == min(known, default=None)
