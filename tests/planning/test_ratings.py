"""Several ratings of new circuit: the fewest circuits, then the smallest rating that does."""

from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest
from laws import agreed as plan
from laws import law, planned
from strategies import rooms
from support import NEC, inch, make_chain, make_chair, make_new_work, make_row, make_spec

from powerplan.judging.judge import judge
from powerplan.model.codec import plan_from_plain, to_plain
from powerplan.model.plan import NEW_CIRCUITS, NOT_POSSIBLE, Plan
from powerplan.model.spec import NewRating, PlanSpec


def rating(breaker: int, wire: str | None = None, socket: int = 15) -> NewRating:
    return NewRating(breaker_a=Fraction(breaker), wire=wire, socket_rating_a=Fraction(socket))


def room(seats: int, *ratings: NewRating, **work: object) -> PlanSpec:
    """Chairs of 1.2 A for hours, so 1.5 A of a breaker each; no circuit is there."""
    kind = make_chair(
        seat_width_m=inch(18),
        arm_width_m=inch(3),
        input_a=Fraction(6, 5),
        continuous_a=Fraction(6, 5),
        lead_m=inch(120),
        chain=make_chain(),
    )
    first = ratings[0]
    return make_spec(
        chairs=(kind,),
        rows=(make_row(seats=seats),),
        circuits=(),
        outlets=(),
        new_work=make_new_work(
            breaker_a=first.breaker_a,
            wire=first.wire,
            socket_rating_a=first.socket_rating_a,
            ratings=ratings if len(ratings) > 1 else (),
            **work,
        ),
    )


def news(made: Plan) -> list[float | None]:
    return [use.breaker_a for use in made.circuits if use.new]


@pytest.mark.published(
    source="NEC 2023 210.20(A): 10 x 1.2 A x 1.25 = 15 A fits 15 A exactly; 11 need 16.5 A",
    standing="derived",
)
@pytest.mark.parametrize(("seats", "breaker"), [(10, 15.0), (11, 20.0)])
def test_the_smallest_rating_that_does_with_the_fewest_circuits(seats, breaker):
    made = plan(room(seats, rating(15), rating(20)))
    assert made.decision.verdict == NEW_CIRCUITS
    assert news(made) == [breaker]


def test_what_was_passed_over_is_told():
    small = plan(room(10, rating(15), rating(20))).decision.steps[-1].sentence
    assert "Of the ratings offered, 20 A would take as many." in small
    large = plan(room(11, rating(15), rating(20))).decision.steps[-1].sentence
    assert "1 new 20 A circuit" in large
    assert "Of the ratings offered, 15 A would take 2 new circuits." in large


def test_wire_and_sockets_are_those_of_the_rating():
    offered = (rating(15, "14 AWG", 15), rating(20, "10 AWG", 20))
    small, large = plan(room(10, *offered)), plan(room(11, *offered))
    assert (small.circuits[0].wire, large.circuits[0].wire) == ("14 AWG", "10 AWG")
    assert {box.rating_a for box in small.boxes} == {15.0}
    assert {box.rating_a for box in large.boxes} == {20.0}


def test_a_rating_that_its_wire_may_not_have_is_left_out():
    made = plan(room(10, rating(15, "14 AWG"), rating(20, "14 AWG")))
    assert news(made) == [15.0]
    alone = plan(room(11, rating(15, "14 AWG"), rating(20, "14 AWG")))
    assert news(alone) == [15.0, 15.0]


def test_where_no_rating_does_the_largest_explains():
    made = plan(room(10, rating(15), rating(20), plug_height_m=inch(4)))
    assert made.decision.verdict == NOT_POSSIBLE
    assert "box-plug-height" in {f.rule for f in made.decision.steps[-1].findings}


def test_a_record_of_several_ratings_reads_back():
    made = plan(room(10, rating(15), rating(20)))
    assert plan_from_plain(to_plain(made)) == made


def _changed(made: Plan, edit: dict[str, Any], part: str) -> set[tuple[str, str]]:
    plain = to_plain(made)
    plain[part][0].update(edit)
    return {(f.rule, f.subject) for f in judge(plan_from_plain(plain), NEC).findings if f.stops}


def test_the_judge_refuses_a_rating_that_is_not_offered():
    made = plan(room(10, rating(15, "14 AWG"), rating(20, "12 AWG")))
    wrong = _changed(made, {"breaker_a": 30.0, "may_give_a": 30.0}, "circuits")
    assert ("record-agrees", "circuit new 1") in wrong


def test_the_judge_refuses_the_wire_or_socket_of_another_rating():
    made = plan(room(10, rating(15, "14 AWG", 15), rating(20, "12 AWG", 20)))
    wire = _changed(made, {"wire": "12 AWG"}, "circuits")
    assert ("record-agrees", "circuit new 1") in wire
    assert ("record-agrees", made.boxes[0].id) in _changed(made, {"rating_a": 20.0}, "boxes")


@law(rooms(), usual=4, many=100, start=1)
def test_one_more_rating_never_takes_more_circuits(spec: PlanSpec) -> None:
    def circuits(*ratings: NewRating) -> int | None:
        work = replace(
            spec.new_work,
            breaker_a=ratings[0].breaker_a,
            wire=None,
            socket_rating_a=Fraction(15),
            ratings=ratings if len(ratings) > 1 else (),
        )
        made = planned(replace(spec, new_work=work))
        [step] = [one for one in made.decision.steps if one.step == NEW_CIRCUITS]
        return step.new_circuits if step.works else None

    alone, both = circuits(rating(20)), circuits(rating(15), rating(20))
    if alone is not None:
        assert both is not None
        assert both <= alone
