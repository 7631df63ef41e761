"""Rooms on which planner and judge once differed: each as small as it can be, and who was right."""

import json
import math
from dataclasses import replace
from fractions import Fraction

import pytest
from support import (
    NEC,
    inch,
    make_area,
    make_chain,
    make_chair,
    make_circuit,
    make_new_work,
    make_outlet,
    make_row,
    make_spec,
)

from powerplan.judging.judge import judge
from powerplan.judging.report import Report
from powerplan.model.codec import plan_from_plain, to_plain
from powerplan.model.plan import NOT_POSSIBLE, Plan
from powerplan.model.seats import Curve, Piece
from powerplan.model.spec import ChairKind, PlanSpec
from powerplan.planning.pipeline import make_plan


def planned(spec: PlanSpec) -> tuple[Plan, Report]:
    plan = make_plan(spec, NEC, "0" * 64)
    report = judge(plan_from_plain(json.loads(json.dumps(to_plain(plan), allow_nan=False))), NEC)
    assert [(f.rule, f.subject, f.note) for f in report.disputed] == []
    return plan, report


def side_by_side(*kinds: ChairKind) -> tuple[Piece, ...]:
    """Seats from the left, an arm of the first kind around and between them."""
    arm = Piece(what="arm", kind=kinds[0].id, width_m=kinds[0].arm_width_m)
    seats = [Piece(what="seat", kind=kind.id, width_m=kind.seat_width_m) for kind in kinds]
    return (arm, *(piece for seat in seats for piece in (seat, arm)))


def test_no_coil_lies_where_the_chair_beside_comes_over_it() -> None:
    """The judge was right: a coil moved aside went under the neighbor's back.

    Headrests stand 14 in off the wall. The club's goes back 5 in; that of the chair beside it, with
    its arms from 116 1/2 in on, goes back 12 in, to 2 in off the wall. Behind the club stands a
    column from 98 to 110 in, so that about 5 in are left for an oval that takes more.
    """
    club = make_chair(lead_m=inch(96))
    deep = make_chair(id="deep", back_travel_m=inch(12), powered=False)
    deep = replace(deep, input_a=Fraction(0), continuous_a=Fraction(0))
    row = make_row(seats=2, pieces=side_by_side(club, deep))
    column = make_area("column", 98, 0, 12, 9)
    plan, _ = planned(
        make_spec(
            chairs=(club, deep),
            rows=(row,),
            outlets=(make_outlet(x_m=inch(105)),),
            obstacles=(column,),
        )
    )
    (cord,) = plan.cords
    assert cord.park_m is None
    assert f"cord {cord.id}" in {one.subject for one in plan.findings if one.rule == "spare-parked"}


def test_a_link_is_of_the_chair_that_it_leaves() -> None:
    """The planner was right: a link is its maker's cord on to the next chair."""
    club = make_chair(chain=make_chain(link_m=inch(64)))
    other = make_chair(id="other", chain=make_chain(link_m=inch(50)))
    for kinds, length in (((club, other), 64), ((other, club), 50)):
        row = make_row(chair=kinds[0].id, seats=2, pieces=side_by_side(*kinds))
        spec = make_spec(
            chairs=(club, other),
            rows=(row,),
            outlets=(make_outlet(x_m=inch(105), sockets=1, free=1),),
        )
        plan, _ = planned(spec)
        (link,) = [cord for cord in plan.cords if cord.kind == "link"]
        assert (link.from_, link.to) == ("A1", "A2")
        assert link.bought_m == inch(length)


def test_a_wire_that_no_breaker_allows_is_a_hazard_behind_an_unknown_one() -> None:
    """The planner was right: 14 AWG aluminum is thinner than any that may be there."""
    circuit = make_circuit(conductor="aluminum", breaker_a=None)
    plan, report = planned(make_spec(rows=(make_row(seats=1),), circuits=(circuit,)))
    for findings in (plan.findings, report.findings):
        stopped = {(finding.rule, finding.subject) for finding in findings if finding.stops}
        assert ("wire-matches-breaker", "circuit 7") in stopped
    assert plan.decision.exit_code == 1


def test_an_outlet_on_the_wall_is_behind_its_own_chair_on_an_arc() -> None:
    """The planner was right: chairs of a row on an arc look each its own way.

    Three chairs touch at the front of an arc of 254 in whose axis is turned by 27 degrees. The
    first stands nearest to the wall; its outlet is straight behind it, but ahead of the middle of
    the row's own front.
    """
    row = make_row(
        seats=3,
        center_x_m=inch(117),
        headrest_to_wall_m=inch(15),
        angle_rad=0.471238898,
        curve=Curve(radius_m=inch(254), touch="front"),
    )
    work = make_new_work(floor_boxes=False, wall_outlets=True)
    kind = make_chair(lead_m=inch(144))
    plan, _ = planned(make_spec(chairs=(kind,), rows=(row,), outlets=(), new_work=work))
    places = {box.under: (box.x_m, box.y_m) for box in plan.boxes if box.kind == "wall outlet"}
    assert places
    for chair in plan.chairs:
        if chair.id in places:
            # straight back from its headrest to the back wall
            back_m = chair.y_m / math.cos(chair.angle_rad)
            x_m = chair.x_m + back_m * math.sin(chair.angle_rad)
            assert places[chair.id] == pytest.approx((x_m, 0.0), abs=2e-6)


@pytest.mark.parametrize(("angle", "inches"), [(0.1, 1), (0.2, 2)])
def test_no_cord_is_guessed_to_a_lead_that_is_in_a_wall(angle: float, inches: float) -> None:
    """The judge was right: a turned row stood with one lead behind the wall, and got a cord there.

    The row is still said not to fit first of all.
    """
    kind = make_chair(
        lead_m=inch(120), lead_from=(0.0, 0.0), measured=False, arm_gap_m=None, rear_gap_m=None
    )
    row = make_row(seats=2, angle_rad=angle, headrest_to_wall_m=inch(inches))
    usual = make_spec()
    cords = replace(usual.cords, open_floor_m=inch(36))
    plan, _ = planned(make_spec(chairs=(kind,), rows=(row,), cords=cords))
    assert plan.decision.verdict == NOT_POSSIBLE
    assert plan.cords == ()
    assert "headrest-clears-wall" in {one.rule for one in plan.findings if one.stops}
