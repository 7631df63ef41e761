"""Supplies and outlet units in the installers' drawing, at their true size and place."""

import pytest
from loose_rooms import supply_spec
from support import NEC, inch

from powerplan.planning.pipeline import make_plan
from powerplan.sheets.drawings.loose import outline_of
from powerplan.sheets.drawings.rows import cord_views
from powerplan.sheets.pages.loose import where_things_lie


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
