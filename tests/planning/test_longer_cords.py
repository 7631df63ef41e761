"""A longer cord from the chair's maker goes before an extension cord."""

from dataclasses import replace

import pytest
from hypothesis import strategies as st
from laws import judged, law, stops
from laws import planned as plan
from mirrored import mirrored
from strategies import rooms
from support import inch, make_chair, make_outlet, make_row, make_spec

from powerplan.model.codec import to_plain
from powerplan.model.plan import EXISTING, EXTENSIONS
from powerplan.model.spec import PlanSpec


def one_seat(*longer: int, extensions: str = "if needed") -> PlanSpec:
    """One chair whose 4 ft lead is too short for its outlet; longer ones in feet."""
    base = make_spec()
    return make_spec(
        chairs=(
            make_chair(lead_m=inch(48), longer_leads_m=tuple(inch(12 * feet) for feet in longer)),
        ),
        rows=(make_row(seats=1),),
        outlets=(make_outlet(x_m=inch(120)),),
        cords=replace(base.cords, extensions=extensions),
        new_work=replace(base.new_work, floor_boxes=False, circuits=0),
    )


def test_without_a_longer_cord_an_extension_is_needed():
    assert plan(one_seat()).decision.verdict == EXTENSIONS


def test_a_longer_cord_makes_the_first_step_work_and_the_sentence_says_so():
    made = plan(one_seat(9, 12))
    assert made.decision.verdict == EXISTING
    assert "1 longer cord from the chair maker (9 ft)" in made.decision.sentence
    assert [(cord.kind, cord.longer, cord.bought_m) for cord in made.cords] == [
        ("own", True, inch(108))
    ]


@pytest.mark.published(
    source="25 in behind the wall line + 16 in up, (41 + 24) x 1.1 = 71.5 in: "
    "a 6 ft cord is the first that is long enough",
    standing="derived",
)
def test_the_shortest_that_is_long_enough_is_bought():
    made = plan(one_seat(5, 6, 9))
    assert made.cords[0].needed_m == pytest.approx(inch("143/2"), abs=2e-6)
    assert made.cords[0].bought_m == inch(72)


def test_where_the_longest_is_too_short_its_length_is_told():
    made = plan(one_seat(5, extensions="no"))
    step = made.decision.steps[0]
    assert not step.works
    assert "The longest that its maker sells is 5 ft." in step.sentence
    assert plan(one_seat(5)).decision.verdict == EXTENSIONS


def test_the_usual_cord_is_used_where_it_reaches():
    spec = one_seat(9)
    near = replace(spec, chairs=(replace(spec.chairs[0], lead_m=inch(72)),))
    assert [cord.longer for cord in plan(near).cords] == [False]


def test_the_judge_passes_it_and_catches_a_cord_that_nobody_sells():
    record = to_plain(plan(one_seat(9)))
    assert stops(judged(record)) == set()
    record["cords"][0]["bought_m"] = inch(120)
    assert "record-agrees" in stops(judged(record))


def test_the_judge_catches_a_longer_cord_called_the_usual_one():
    record = to_plain(plan(one_seat(9)))
    record["cords"][0]["longer"] = False
    assert "record-agrees" in stops(judged(record))


def test_the_judge_catches_a_longer_cord_where_none_is_sold():
    record = to_plain(plan(one_seat(9)))
    record["spec"]["chairs"][0]["longer_leads_m"] = []
    assert "record-agrees" in stops(judged(record))


@law(rooms(), st.sampled_from([(9,), (15, 20)]), usual=4, many=100)
def test_longer_cords_never_worsen_and_a_mirror_changes_nothing(
    spec: PlanSpec, feet: tuple[int, ...]
) -> None:
    lengths = tuple(inch(12 * one) for one in feet)
    offered = replace(
        spec, chairs=tuple(replace(kind, longer_leads_m=lengths) for kind in spec.chairs)
    )
    before, after = plan(spec), plan(offered)
    for one, other in zip(before.decision.steps, after.decision.steps, strict=True):
        assert other.works or not one.works
    assert [step.works for step in after.decision.steps[:2]] == [
        step.works for step in plan(mirrored(offered)).decision.steps[:2]
    ]
    assert stops(judged(to_plain(after))) <= {f.rule for f in after.findings if f.stops}
