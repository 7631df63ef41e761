"""How new outlets are wired, and how far an outlet may be from its circuit's first."""

from dataclasses import replace
from itertools import combinations

import networkx
import pytest
from laws import agreed as plan
from support import NEC, inch, make_chair, make_circuit, make_outlet, make_row, make_spec

from powerplan.judging.judge import judge
from powerplan.model.plan import EXISTING, NEW_CIRCUITS, NEW_OUTLETS
from powerplan.model.spec import PlanSpec


def new_outlets(**outlet: object) -> PlanSpec:
    """Five chairs without a chain at three boxes on circuit 7, whose outlet is far left."""
    base = make_spec(
        chairs=(make_chair(),),
        circuits=(make_circuit(wire="12 AWG"),),
        outlets=(make_outlet(x_m=inch(6), **outlet),),
    )
    return replace(base, project=replace(base.project, job="new"))


@pytest.mark.published(
    source="common practice, no source: W1 is 16 in up at 6 in from the left; the boxes lie 29 in "
    "ahead at 60 in and beyond; 16 + 54 + 29 = 99 in, then square from box to box",
    standing="common practice",
)
def test_boxes_are_wired_from_box_to_box_where_that_is_nearer():
    made = plan(new_outlets())
    assert made.decision.verdict == NEW_OUTLETS
    by_id = {box.id: box for box in made.boxes}
    [first] = [box for box in made.boxes if box.wired_from == "W1"]
    across = first.x_m - inch(6)
    assert first.wiring_m == pytest.approx(across + first.y_m + inch(16), abs=4e-6)
    others = [box for box in made.boxes if box is not first]
    assert others
    for box in others:
        before = by_id[box.wired_from]
        square_m = abs(box.x_m - before.x_m) + abs(box.y_m - before.y_m)
        assert box.wiring_m == pytest.approx(square_m, abs=4e-6)


@pytest.mark.published(
    source="least spanning tree of all square ways from box to box, by networkx",
    standing="derived",
)
@pytest.mark.parametrize("seats", [(6,), (4, 4), (3, 5)])
def test_a_new_circuit_is_wired_with_the_least_wire_from_box_to_box(seats):
    rows = tuple(
        make_row(id=name, seats=count, headrest_to_wall_m=inch(14 + 96 * n))
        for n, (name, count) in enumerate(zip("AB", seats, strict=False))
    )
    spec = make_spec(chairs=(make_chair(),), rows=rows, circuits=(), outlets=())
    made = plan(spec)
    assert made.decision.verdict == NEW_CIRCUITS
    for use in made.circuits:
        on = [box for box in made.boxes if box.circuit == use.id]
        ways = networkx.Graph()
        for one, other in combinations(on, 2):
            apart_m = abs(one.x_m - other.x_m) + abs(one.y_m - other.y_m)
            ways.add_edge(one.id, other.id, weight=apart_m)
        least = networkx.minimum_spanning_tree(ways).size(weight="weight")
        told = [box.wiring_m for box in on if box.wired_from != "panel"]
        assert len(told) == len(on) - 1
        assert sum(told) == pytest.approx(least, abs=1e-5)


def test_where_a_circuit_shows_no_outlet_only_the_first_length_is_unknown():
    made = plan(replace(new_outlets(), outlets=()))
    unknown = [box for box in made.boxes if box.wiring_m is None]
    assert [box.wired_from for box in unknown] == ["circuit 7"]
    assert len(made.boxes) > 1


@pytest.mark.parametrize("fault", [{"switched": True}, {"ground": False}])
def test_nothing_is_wired_on_from_a_switched_or_ungrounded_outlet(fault):
    made = plan(new_outlets(**fault))
    assert made.decision.verdict == NEW_OUTLETS
    assert made.boxes[0].wired_from == "circuit 7"


def two_outlets(first: str | None, *, turned: bool = False) -> PlanSpec:
    """Two chairs at W1, and W2 170 in further along the same wall, both 16 in up."""
    outlets = (make_outlet(x_m=inch(60)), make_outlet(id="W2", x_m=inch(230)))
    return make_spec(
        chairs=(make_chair(lead_m=inch(120)),),
        rows=(make_row(seats=2, center_x_m=inch(60)),),
        circuits=(make_circuit(first_outlet=first),),
        outlets=outlets[::-1] if turned else outlets,
    )


@pytest.mark.published(
    source="Ohm's law: 170 + 16 + 16 = 202 in of 14 AWG more at 3.6 A: "
    "2 x 3.6 A x 202/12 ft x 3.14 ohm/kft / 120 V = 0.3171 %",
    standing="derived",
)
@pytest.mark.parametrize(("first", "more"), [("W1", 0.0), ("W2", 0.317143), (None, 0.317143)])
def test_the_farthest_first_outlet_is_taken_where_none_is_said(first, more):
    nearest = plan(two_outlets("W1"))
    made = plan(two_outlets(first))
    assert made.decision.verdict == EXISTING
    assert {chair.fed_by for chair in made.chairs} == {"W1"}
    drops = [one.circuits[0].drop_percent or 0.0 for one in (nearest, made)]
    assert drops[1] - drops[0] == pytest.approx(
        2 * 3.6 * 202 / 12 * 0.00314 / 120 * 100 * (more > 0), abs=1e-4
    )


def test_the_order_of_outlets_does_not_matter():
    for first in (None, "W1", "W2"):
        one, other = plan(two_outlets(first)), plan(two_outlets(first, turned=True))
        assert one.circuits == other.circuits


def test_the_judge_refuses_a_drop_of_another_first_outlet():
    made = plan(two_outlets("W2"))
    spec = replace(made.spec, circuits=(replace(made.spec.circuits[0], first_outlet="W1"),))
    report = judge(replace(made, spec=spec), NEC)
    assert ("record-agrees", "circuit 7") in {(f.rule, f.subject) for f in report.disputed}
