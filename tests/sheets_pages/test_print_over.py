"""A chair that is set or moved over a plug, a supply or cords: lifted, never slid over them."""

import math
from dataclasses import replace

import pytest
from laws import planned
from loose_rooms import supply_spec
from sample_plan import sample_plan
from shapely.geometry import Polygon
from support import NEC, inch, make_chair, make_row, make_spec

from powerplan.model.plan import Box, Cord, Drift, Plan
from powerplan.model.seats import Curve, Piece, TableKind
from powerplan.planning.pipeline import make_plan
from powerplan.sheets.pages.print_order import turns
from powerplan.sheets.pages.print_over import passed
from powerplan.sheets.pages.print_rows import set_rows
from powerplan.sheets.pages.print_steps import turn_text
from powerplan.sheets.pages.print_tags import tag_numbers
from powerplan.sheets.stands import Stand


def steps(plan: Plan) -> dict[str, str]:
    """What is done in the turn of each."""
    (row,) = set_rows(plan)
    numbers = tag_numbers(plan)
    return {one.stand.name: turn_text(one, row, plan, numbers) for one in turns(row, plan)}


def over_a_plug(*, plug_in: str, gap_in: str | None) -> dict[str, str]:
    """The hand-made row: a box under A2, leads from it to A1, A2 and A3."""
    plan = sample_plan()
    gap_m = None if gap_in is None else inch(gap_in)
    chairs = tuple(replace(kind, rear_gap_m=gap_m) for kind in plan.spec.chairs)
    work = replace(plan.spec.new_work, plug_height_m=inch(plug_in))
    return steps(replace(plan, spec=replace(plan.spec, chairs=chairs, new_work=work)))


@pytest.mark.published(
    source="common practice, no source: what is as high as a gap does not pass it; 2 1/4 > 1 1/2",
    standing="common practice",
)
def test_a_chair_is_lifted_over_a_plug_that_is_higher_than_the_gap_under_its_rear():
    told = over_a_plug(plug_in="9/4", gap_in="3/2")
    high = "the plug in box A2 is 2 1/4 in high, the gap under its rear 1 1/2 in"
    assert (
        f"LIFT it over, two people; do not slide it: {high}." in told["A2"].partition("Set A2")[2]
    )
    # and again when it is moved out of the way of cord 1
    assert f"LIFT A2 over, two people; do not slide it: {high}." in told["A1"]
    # nothing is plugged in under the others: only cords lie there
    for name in ("A1", "A3"):
        own = told[name].partition(f"Set {name} ")[2]
        assert "LIFT" not in own
        assert "lift its rear over the cords, do not push it over them; look" in own


@pytest.mark.parametrize(
    ("plug_in", "gap_in", "lifted"),
    [("2", "15/8", True), ("2", "2", True), ("2", "17/8", False), ("2", "9/4", False)],
)
def test_only_a_gap_that_is_higher_than_the_plug_lets_it_pass(plug_in, gap_in, lifted):
    told = over_a_plug(plug_in=plug_in, gap_in=gap_in)["A2"]
    assert ("LIFT" in told) == lifted
    # even then it is not pushed over the cords
    assert lifted or "lift its rear over all that, do not push it over them; look" in told


def test_a_gap_that_nobody_has_measured_is_none():
    told = over_a_plug(plug_in="1/8", gap_in=None)["A2"]
    assert "LIFT it over, two people" in told
    assert "nobody has measured the gap under its rear" in told


def test_a_recessed_box_has_no_plug_to_lift_over():
    told = over_a_plug(plug_in="0", gap_in=None)["A2"]
    assert "LIFT" not in told
    assert "lift its rear over the cords" in told


def test_a_plug_in_a_floor_outlet_that_is_there_already_is_lifted_over_too():
    plan = sample_plan()
    box = plan.boxes[0]
    (outlet,) = plan.spec.outlets
    floor = replace(outlet, wall=None, x_m=box.x_m, y_m=box.y_m, height_m=0.0)
    cords = tuple(replace(cord, from_="W1") for cord in plan.cords[:3])
    there = replace(plan, boxes=(), cords=cords, spec=replace(plan.spec, outlets=(floor,)))
    assert "the plug in outlet W1 is 2 1/4 in high" in steps(there)["A2"].partition("Set A2")[2]
    wall = replace(there, spec=replace(plan.spec, outlets=(outlet,)))
    assert "the plug in" not in steps(wall)["A2"]


def test_a_chair_with_nothing_under_it_is_only_set():
    plan = sample_plan(cords=())
    assert all("lift" not in text.lower() for text in steps(plan).values())


def test_a_chair_is_lifted_over_the_supply_in_its_clear_zone():
    # 6 in of headrest to the wall less 5 in of travel: no room behind, so it lies under the seat.
    # It is 2 in high, the gap under the rear 1 1/2 in.
    spec = replace(supply_spec(), rows=(make_row(seats=1, headrest_to_wall_m=inch(6)),))
    plan = make_plan(spec, NEC, "0" * 64)
    (supply,) = plan.supplies
    assert supply.under == "A1"
    told = steps(plan)["A1"]
    assert "LIFT it over, two people; do not slide it: supply A1 is 2 in high" in told
    # one that lies behind the base is passed by nothing
    behind = make_plan(supply_spec(), NEC, "0" * 64)
    assert behind.supplies[0].under is None
    assert "LIFT" not in steps(behind)["A1"]


def arc(touch: str) -> Plan:
    """Five seats on an arc of 13 ft, all leads from one outlet behind them."""
    chair = make_chair(arm_gap_m=inch("3/2"), lead_m=inch(240))
    row = make_row(curve=Curve(radius_m=inch(156), touch=touch), headrest_to_wall_m=inch(20))
    base = make_spec(chairs=(chair,), rows=(row,))
    (outlet,) = base.outlets
    return planned(replace(base, outlets=(replace(outlet, sockets=6, free=6),)))


def ahead(stand: Stand, by_m: float) -> Polygon:
    """Its base, moved straight the way it looks."""
    x, y = -math.sin(stand.angle_rad) * by_m, math.cos(stand.angle_rad) * by_m
    return Polygon(replace(stand, x_m=stand.x_m + x, y_m=stand.y_m + y).base)


@pytest.mark.published(source="rectangles on an arc that meet at the front", standing="derived")
def test_on_an_arc_that_touches_at_the_front_one_chair_may_come_ahead_and_not_two():
    (row,) = set_rows(arc("front"))
    left, right = row.stands[1:3]
    far_m = inch(20)
    assert ahead(left, far_m).intersection(ahead(right, 0)).area < 1e-5
    assert ahead(left, far_m).intersection(ahead(right, far_m)).area > 1e-3


@pytest.mark.published(source="wedges on an arc that meet at the rear", standing="derived")
def test_on_an_arc_that_touches_at_the_back_a_chair_jams_ahead_and_comes_free_behind():
    (row,) = set_rows(arc("back"))
    left, right = row.stands[1:3]
    assert ahead(left, inch(20)).intersection(ahead(right, 0)).area > 1e-3
    assert ahead(left, -inch(20)).intersection(ahead(right, 0)).area < 1e-5


def with_cords_under(plan: Plan, names: tuple[str, ...]) -> Plan:
    """The plan with one more lead to its outermost chair, across the bases of those named."""
    (row,) = set_rows(plan)
    stands = [next(one for one in row.stands if one.name == name) for name in names]
    spots = [one.at(0.0, (one.rear_m + one.front_m) / 2) for one in stands]
    start = plan.cords[0]
    return replace(
        plan, cords=(replace(start, id="W1-A1", from_="W1", to="A1", path_m=tuple(spots)),)
    )


def test_chairs_of_an_arc_are_moved_one_at_a_time_or_straight_back():
    front = with_cords_under(arc("front"), ("A3", "A2", "A1"))
    told = steps(front)["A1"]
    assert "move them straight ahead for this, the way each looks, one at a time" in told
    assert "put each back before the next is moved" in told
    assert "clear of its neighbors" in told
    back = steps(with_cords_under(arc("back"), ("A3", "A2", "A1")))["A1"]
    assert "straight back for this (tapered arms jam on the way forward)" in back
    assert "one at a time" not in back


def test_one_that_comes_from_behind_passes_with_its_front_of_which_nobody_knows_the_gap():
    plan = arc("back")
    (row,) = set_rows(plan)
    (one,) = [stand for stand in row.stands if stand.name == "A3"]
    (x, y), base = one.at(0.0, 0.4), plan.cords[0]
    box = Box(
        id="box A3", kind="floor box", x_m=x, y_m=y, height_m=0.0, under="A3", circuit="7",
        sockets=2, rating_a=15.0, ideal_m=(x, y), may_sit_m=(),
        drift=Drift(left_m=0.0, right_m=0.0, back_m=0.0, screen_m=0.0), moved_because="",
        provisional=False, second_mark_m=None, deck=None, wired_from="panel", wiring_m=None,
    )  # fmt: skip
    cord: Cord = replace(base, id="x", from_="box A3", to="A3", path_m=((x, y), (x, y - 0.1)))
    high = replace(plan.spec.chairs[0], rear_gap_m=inch(9))
    plan = replace(plan, boxes=(box,), cords=(cord,), spec=replace(plan.spec, chairs=(high,)))
    (row,) = set_rows(plan)
    over = passed(one, frozenset({"x"}), row, plan)
    assert over.lifted
    assert "nobody has measured the gap under its front" in steps(plan)["A3"]


def beside_a_table(under_in: str | None) -> Plan:
    """Two seats with a console between them; the lead of A1 runs under the console."""
    chair = make_chair(lead_m=inch(240))
    table = TableKind(
        id="console", width_m=inch(10), rear_m=inch(4), front_m=inch(39),
        under_m=None if under_in is None else inch(under_in),
    )  # fmt: skip
    arm = Piece(what="arm", kind="club", width_m=chair.arm_width_m)
    seat = Piece(what="seat", kind="club", width_m=chair.seat_width_m)
    middle = Piece(what="table", kind="console", width_m=table.width_m)
    row = make_row(seats=2, pieces=(arm, seat, arm, middle, arm, seat, arm))
    plan = planned(make_spec(chairs=(chair,), tables=(table,), rows=(row,)))
    return with_cords_under(plan, ("A2", "console", "A1"))


def test_before_a_table_is_set_over_cords_the_gap_is_measured_and_leads_may_be_laid():
    told = steps(beside_a_table("3/2"))["console"]
    assert "Cord 1 runs under console: from floor to underside it is 1 1/2 in by the plan" in told
    assert "no foot or plinth may stand in the way. Measure before console is set." in told
    assert "Where the lead of A1 comes off its chair, plug it in and lay it now" in told
    assert told.index("lay it now") < told.index("Set console")
    assert "lift it over the cords, do not push it over them; look" in told
    assert "it is NOT KNOWN" in steps(beside_a_table(None))["console"]
    without = replace(beside_a_table("3/2"), cords=())
    assert steps(without)["console"].startswith("Console: Set console ")


def test_a_longer_lead_is_fixed_to_no_chair_and_lies_before_the_table_stands():
    plan = beside_a_table("3/2")
    (row,) = set_rows(plan)
    first = next(one.stand.name for one in turns(row, plan))
    assert first == "console"
    plan = replace(plan, cords=tuple(replace(cord, longer=True) for cord in plan.cords))
    told = steps(plan)
    assert "Lay cord 1 (outlet W1 to chair A1), the longer lead: plug it into" in told["console"]
    assert "its other end waits at A1's place" in told["console"]
    assert told["console"].index("Lay cord 1") < told["console"].index("Set console")
    assert "is moved for it" not in told["console"]
    assert "Take off A1's own lead (where it is fixed, stop" in told["A1"]
    assert "plug cord 1 into A1's inlet. Set A1" in told["A1"]
    assert "already stand" not in told["A1"]


def test_a_coil_is_laid_loosely_in_the_step():
    plan = sample_plan()
    told = steps(plan)["A1"]
    assert "; lay its coil loosely and do not tie it yet." in told
    bare = replace(plan, cords=tuple(replace(cord, park_m=None) for cord in plan.cords))
    assert "coil loosely" not in steps(bare)["A1"]
