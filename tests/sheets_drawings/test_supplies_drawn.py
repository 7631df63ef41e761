"""Supplies and outlet units in the installers' drawing, at their true size and place."""

from dataclasses import replace
from fractions import Fraction

import pytest
from loose_rooms import supply_spec
from sample_plan import sample_plan
from support import NEC, inch

from powerplan.model.loose import OutletUnit
from powerplan.planning.pipeline import make_plan
from powerplan.sheets.drawings.legend import legend_view
from powerplan.sheets.drawings.loose import outline_of
from powerplan.sheets.drawings.rows import cord_views, cords_of
from powerplan.sheets.off_walls import to_finish
from powerplan.sheets.pages.loose import where_things_lie
from powerplan.sheets.pages.print_cords import cords_sheet
from powerplan.sheets.pages.print_decision import decision_sheet
from powerplan.sheets.pages.print_rows import set_rows
from powerplan.sheets.pages.print_told import places_of
from powerplan.sheets.parts import Items, Table
from powerplan.sheets.scene import Line


def test_each_supply_is_drawn_as_a_rectangle_of_its_size_with_its_name():
    plan = make_plan(supply_spec(seats=2, shared=True), NEC, "0" * 64)
    [supply] = plan.supplies
    corners = outline_of(supply)
    xs, ys = sorted({x for x, _ in corners}), sorted({y for _, y in corners})
    assert {round(xs[1] - xs[0], 6), round(ys[1] - ys[0], 6)} == {inch(7), inch(3)}
    assert (sum(xs) / 2, sum(ys) / 2) == pytest.approx((supply.x_m, supply.y_m))
    drawn = str(cord_views(plan, (250.0, 180.0)))
    assert "'supply'" in drawn
    assert "supply A1/A2" in drawn


def test_where_supplies_lie_is_told_with_their_chairs():
    plan = make_plan(supply_spec(seats=2, shared=True), NEC, "0" * 64)
    told = str(where_things_lie(plan))
    assert "A1 and A2" in told
    assert "behind the base" in told
    assert where_things_lie(make_plan(supply_spec(), NEC, "0" * 64)) != []


def test_installers_are_told_where_a_supply_lies_from_what_is_chalked_too():
    plan = to_finish(make_plan(supply_spec(), NEC, "0" * 64))
    places = places_of(plan)
    (row,) = places.rows
    (supply,) = plan.supplies
    (part, _) = where_things_lie(plan, places)
    assert isinstance(part, Table)
    assert part.head[4] == "from its row"
    # its middle off the rear of the bases, on a tape to 1/8 in
    behind = round((row.chalk.left[1] - supply.y_m) / inch("1/8")) / 8
    assert part.rows[0][4].startswith(
        f"{behind // 1:.0f} {Fraction(behind % 1)} in behind the line"
    )


def test_the_sign_of_a_supply_in_the_legend_is_a_box_with_its_diagonal():
    plan = make_plan(supply_spec(), NEC, "0" * 64)
    legend = legend_view(cord_views(plan, (250.0, 180.0)), 250.0)
    assert legend is not None
    signs = [i.points for i in legend.items if isinstance(i, Line) and i.layer == "supply"]
    assert [len(points) for points in signs] == [4, 2]
    assert set(signs[1]) <= set(signs[0])


def test_wall_cords_chair_cords_and_cords_of_outlet_units_are_drawn_with_their_row():
    plan = make_plan(supply_spec(seats=2, shared=True), NEC, "0" * 64)
    (row,) = set_rows(plan)
    assert {cord.kind for cord in plan.cords} == {"wall cord", "chair cord"}
    assert set(cords_of(plan, row)) == set(plan.cords)
    (view,) = cord_views(plan, (250.0, 180.0))
    drawn = [item.points for item in view.items if isinstance(item, Line)]
    assert all(cord.path_m in drawn for cord in plan.cords)
    unit = replace(plan.cords[0], id="W1-U1", kind="unit cord", to="U1")
    lying = OutletUnit(
        id="U1",
        kind="strip",
        chairs=("A1", "A2"),
        x_m=1.0,
        y_m=0.2,
        angle_rad=0.0,
        width_m=0.3,
        depth_m=0.08,
        height_m=0.05,
        under=None,
        sockets=4,
        rating_a=12.0,
        current_a=3.6,
    )
    with_unit = replace(plan, supplies=(), cords=(unit,), outlet_units=(lying,))
    assert cords_of(with_unit, row) == (unit,)
    (place, how) = where_things_lie(with_unit)
    assert place.caption == "Where each outlet unit lies: its middle"
    assert "Supplies get warm" not in how.text
    # it is plugged into a wall, and more than one cord into it: that much of the plan is allowed
    (never,) = [
        item
        for part in decision_sheet(with_unit).parts
        if isinstance(part, Items) and part.lead.startswith("Never plug these")
        for item in part.items
        if "a second cord" in item
    ]
    assert never.endswith("its outlet, other than the outlet unit of this plan")
    assert "other than" not in str(decision_sheet(plan))


def test_a_loose_supply_that_the_plan_does_not_know_stops_who_finds_it():
    told = "Should one come with a loose supply, stop and ask where it goes"
    plan = make_plan(supply_spec(seats=2), NEC, "0" * 64)
    assert told not in str(cords_sheet(plan, ()))
    assert told in str(cords_sheet(sample_plan(), ()))
