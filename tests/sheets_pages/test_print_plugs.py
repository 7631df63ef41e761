"""Whether a plug behind a chair has room, told as something to check."""

import math
from dataclasses import replace

import pytest
from page_words import A_VIEW, words
from support import NEC, inch, make_chair, make_outlet, make_row, make_spec

from powerplan.model.plan import Plan
from powerplan.planning.pipeline import make_plan
from powerplan.sheets.pages.print_boxes import boxes_sheet
from powerplan.sheets.pages.print_cords import cords_sheet
from powerplan.sheets.pages.print_plugs import plugs_behind
from powerplan.sheets.placed import placed_of


def room(headrest: float, back_travel: float = 5) -> Plan:
    """Two chairs in front of an outlet in the back wall that they plug into."""
    chair = make_chair(back_travel_m=inch(back_travel))
    row = make_row(seats=2, headrest_to_wall_m=inch(headrest))
    outlet = make_outlet(x_m=inch(120), sockets=4, free=4)
    spec = make_spec(chairs=(chair,), rows=(row,), outlets=(outlet,))
    plan = make_plan(spec, NEC, "0" * 64)
    assert "W1" in {cord.from_ for cord in plan.cords}
    return plan


def told(plan: Plan) -> str:
    return " ".join(item for part in plugs_behind(plan) for item in part.items)


@pytest.mark.published(
    source="common practice, no source: a plug and its bend take 2 1/4 in; 10 - 5 = 5 in are left",
    standing="common practice",
)
def test_what_is_left_behind_the_headrest_is_told_with_what_a_plug_takes():
    text = told(room(10))
    assert text.startswith("W1, behind A")
    assert "5 in stay between the wall and the headrest" in text
    assert "take about 2 1/4 in (common practice)" in text
    assert "TOO LITTLE" not in text
    assert text in words(boxes_sheet(room(10), (A_VIEW,)))


def test_less_than_a_plug_takes_is_said_to_be_too_little():
    assert "TOO LITTLE" in told(room("57/8", 5))  # 7 1/8 - 5 = 2 1/8 in
    assert "TOO LITTLE" not in told(room("29/4", 5))  # 7 1/4 - 5 = 2 1/4 in


def test_an_outlet_with_no_plug_in_it_or_far_from_any_chair_is_left_alone():
    assert told(replace(room(10), cords=())) == ""
    plan = room(10)
    chairs = tuple(replace(one, y_m=one.y_m + inch(7)) for one in plan.chairs)
    assert told(replace(plan, chairs=chairs)) == ""  # 10 + 7 - 5 = 12 in are left


def test_an_outlet_beside_the_row_is_not_behind_it():
    plan = room(10)
    aside = replace(plan.spec.outlets[0], x_m=inch(6))
    assert told(replace(plan, spec=replace(plan.spec, outlets=(aside,)))) == ""


@pytest.mark.parametrize("degrees", [0, 20, -35, 90, 180])
def test_a_point_seen_from_a_chair_is_the_one_that_the_chair_places(degrees: int):
    plan = room(10)
    (one, _) = placed_of(plan, plan.spec.rows[0])
    turned = replace(one, chair=replace(one.chair, angle_rad=math.radians(degrees)))
    assert turned.seen_from(turned.at(0.3, -0.7)) == pytest.approx((0.3, -0.7))


def test_installers_who_move_the_chair_are_told_to_look_too():
    plan = room(14)
    assert told(plan)
    for page in (boxes_sheet(plan, (A_VIEW,)), cords_sheet(plan, ())):
        assert told(plan) in words(page)
