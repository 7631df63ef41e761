"""Laws that hold for every room."""

import json
from dataclasses import replace
from fractions import Fraction

from laws import HASH, law, told, works
from laws import planned as plan
from mirrored import mirrored
from strategies import rooms
from support import NEC, make_circuit, make_framing

from powerplan.model.codec import plan_from_plain, to_plain
from powerplan.model.plan import NOT_POSSIBLE, Plan
from powerplan.model.spec import PlanSpec
from powerplan.planning.pipeline import make_plan

LAW = law(rooms(), usual=6, many=150, start=1)


def no_worse(before: Plan, after: Plan) -> bool:
    """Every step that worked before works after."""
    now = works(after)
    return all(now[step] for step, worked in works(before).items() if worked)


@LAW
def test_reading_back_what_was_written_gives_an_equal_plan(spec: PlanSpec) -> None:
    made = plan(spec)
    text = json.dumps(to_plain(made), allow_nan=False)
    assert plan_from_plain(json.loads(text)) == made


@LAW
def test_the_same_room_gives_the_same_plan(spec: PlanSpec) -> None:
    assert make_plan(spec, NEC, HASH) == plan(spec)


@LAW
def test_a_mirror_image_gets_the_same_answer(spec: PlanSpec) -> None:
    # Framing is measured from the left and marks sit on a tape from the left: on a slab both
    # rooms are alike but for the tape, which moves a cord by an eighth of an inch at most.
    slab = replace(
        spec,
        floor=make_framing(build="slab"),
        risers=tuple(replace(r, framing=make_framing(build="slab")) for r in spec.risers),
    )
    one, other = plan(slab), plan(mirrored(slab))
    assert one.decision.exit_code == other.decision.exit_code
    assert one.decision.verdict == other.decision.verdict
    assert told(one) == told(other)


@LAW
def test_less_load_never_worsens(spec: PlanSpec) -> None:
    lighter = tuple(
        replace(kind, input_a=kind.input_a / 2, continuous_a=kind.continuous_a / 2)
        for kind in spec.chairs
    )
    assert no_worse(plan(spec), plan(replace(spec, chairs=lighter)))


@LAW
def test_a_longer_lead_never_worsens(spec: PlanSpec) -> None:
    longer = tuple(replace(kind, lead_m=kind.lead_m * 2) for kind in spec.chairs)
    assert no_worse(plan(spec), plan(replace(spec, chairs=longer)))


@LAW
def test_fewer_outlets_never_improve(spec: PlanSpec) -> None:
    assert no_worse(plan(replace(spec, outlets=spec.outlets[1:])), plan(spec))


@LAW
def test_a_walkway_less_never_worsens(spec: PlanSpec) -> None:
    assert no_worse(plan(spec), plan(replace(spec, walkways=())))


@LAW
def test_an_unknown_load_is_never_better_than_an_empty_circuit(spec: PlanSpec) -> None:
    def with_loads(loads: tuple[()] | None) -> PlanSpec:
        return replace(spec, circuits=tuple(replace(c, already_on_it=loads) for c in spec.circuits))

    unknown, empty = plan(with_loads(None)), plan(with_loads(()))
    assert no_worse(unknown, empty)
    used = {chair.circuit for chair in unknown.chairs} & {c.id for c in spec.circuits}
    if used:
        assert unknown.decision.exit_code in (1, 4)


@LAW
def test_the_exit_code_says_what_the_findings_say(spec: PlanSpec) -> None:
    made = plan(spec)
    code = made.decision.exit_code
    assert (code == 3) == (made.decision.verdict == NOT_POSSIBLE)
    stops = any(finding.stops for finding in made.findings)
    hangs = any(finding.hangs for finding in made.findings)
    if code == 0:
        assert not stops
        assert not hangs
    if code == 1:
        assert stops
    if code == 4:
        assert made.decision.depends_on
    if code != 3:
        assert all(chair.fed_by is not None for chair in made.chairs)


@LAW
def test_no_circuit_is_asked_more_than_it_may_give(spec: PlanSpec) -> None:
    made = plan(spec)
    if made.decision.verdict != NOT_POSSIBLE:
        for use in made.circuits:
            if any(chair.circuit == use.id for chair in made.chairs):
                limit = use.may_give_a if use.may_give_a is not None else 15.0
                assert Fraction(use.asks_a) <= Fraction(limit)


@LAW
def test_what_rows_are_called_changes_nothing_but_names(spec: PlanSpec) -> None:
    other = {"A": "B", "B": "A"}
    renamed = tuple(replace(row, id=other[row.id]) for row in reversed(spec.rows))
    assert told(plan(replace(spec, rows=renamed))) == told(plan(spec))


@LAW
def test_one_more_circuit_never_worsens(spec: PlanSpec) -> None:
    one_more = (*spec.circuits, make_circuit(id="99", wire="12 AWG"))
    assert no_worse(plan(spec), plan(replace(spec, circuits=one_more)))
