"""Rows without a chalk line: mixed, turned and curved ones on the installers' page."""

import math

import pytest
from support import NEC, inch, make_chair, make_row, make_spec

from powerplan.model.seats import Curve
from powerplan.planning.pipeline import make_plan
from powerplan.sheets.drawings.rows import cord_views
from powerplan.sheets.pages.print_cords import cords_sheet
from powerplan.sheets.parts import Table
from powerplan.sheets.placed import chairs_by_row, placed_of
from powerplan.sheets.scene import Hatch
from powerplan.sheets.writers.picture import picture_lines


def plan_of(**changes):
    row = make_row(seats=2, headrest_to_wall_m=inch(50), **changes)
    spec = make_spec(rows=(row,), chairs=(make_chair(arm_gap_m=inch("3/2")),))
    return make_plan(spec, NEC, "0" * 64)


def tables(plan):
    page = cords_sheet(plan, ())
    return {part.caption: part.rows for part in page.parts if isinstance(part, Table)}


def test_each_chair_of_a_turned_row_is_set_by_its_own_measures_and_no_line_is_snapped():
    found = tables(plan_of(angle_rad=round(math.radians(10), 9)))
    assert not any("chalk line" in caption for caption in found)
    (lines,) = (rows for caption, rows in found.items() if "one by one" in caption)
    assert [line[0] for line in lines] == ["A1", "A2"]
    assert {line[4] for line in lines} == {"10 deg left"}


def test_a_plain_row_keeps_its_line():
    found = tables(plan_of())
    assert any("chalk line" in caption for caption in found)
    assert not any("one by one" in caption for caption in found)


@pytest.mark.published(source="a rotation keeps lengths", standing="derived")
def test_a_turned_chair_is_drawn_as_large_as_it_is():
    plan = plan_of(angle_rad=round(math.radians(-25), 9))
    (one, _) = placed_of(plan, plan.spec.rows[0])
    corners = one.outline(0.4, 0.1, 0.9)
    assert math.dist(corners[0], corners[1]) == pytest.approx(0.8, abs=1e-9)
    assert math.dist(corners[1], corners[2]) == pytest.approx(0.8, abs=1e-9)


def test_pinch_zones_of_an_arc_are_hatched_as_they_are():
    plan = plan_of(curve=Curve(radius_m=inch(200), touch="front"))
    (view,) = cord_views(plan, (250.0, 180.0))
    outlines = {item.outline for item in view.items if isinstance(item, Hatch)}
    assert {zone.outline_m for zone in plan.zones if zone.kind == "pinch"} <= outlines


def test_the_picture_names_every_chair_of_a_turned_row_and_the_words_say_how_far():
    plan = plan_of(angle_rad=round(math.radians(30), 9))
    drawn = "\n".join(picture_lines(plan))
    assert "A1" in drawn
    assert "A2" in drawn
    assert chairs_by_row(plan) == ("Row A, from the left: A1 club, A2 club; turned 30 deg left.",)
    assert chairs_by_row(plan_of()) == ()
