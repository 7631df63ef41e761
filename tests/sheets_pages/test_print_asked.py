"""What is said of cords whose spare has no room, and what their makers are asked."""

from dataclasses import replace
from pathlib import Path

import pytest
from page_words import listed, words
from support import NEC, inch, make_outlet, make_riser, make_row, make_spec

from powerplan.inputs.plan_file import read_plan_file
from powerplan.model.lengths import at_least_text, at_most_text
from powerplan.model.plan import Drift, Plan
from powerplan.model.spec import Wall
from powerplan.planning.pipeline import make_plan
from powerplan.rulebook.loader import rule_set
from powerplan.sheets.drawings.rows import cord_views
from powerplan.sheets.off_walls import to_finish
from powerplan.sheets.pages.print_asked import asked_of_makers
from powerplan.sheets.pages.print_cords import cords_sheet
from powerplan.sheets.pages.print_told import places_of
from powerplan.sheets.pages.print_ways import way_text
from powerplan.sheets.scene import Text


def example(name: str) -> Plan:
    path = Path(__file__).parents[2] / "examples" / f"{name}.toml"
    return make_plan(read_plan_file(path, rule_set).spec, NEC, "0" * 64)


@pytest.fixture(scope="module")
def theater() -> Plan:
    return example("two-row-theater")


def test_of_each_row_it_is_said_why_no_coil_has_room(theater: Plan):
    told = listed(cords_sheet(theater, ()), "Spare cord that is not coiled")[0]
    # Row A: its line is 11 ft 4 in off the back wall, the headrests 4 in behind it, and the riser
    # ends at 7 ft 6 in: 3 ft 6 in to walk in. Row B: headrests 8 in off the wall move back 4 in.
    said = "in the 3 ft 6 in between the headrests of row A and the front edge of riser rear"
    assert f"people may walk {said}: no coil lies there. Were they nearer than 1 ft 6 in" in told
    assert "behind row B the reclined backs leave 4 in to the back wall" in told


def test_makers_are_asked_alike_things_in_one_line(theater: Plan):
    lines = listed(cords_sheet(theater, ()), "To ask the maker")
    assert len(lines) == 3  # the last of the chairs that links feed
    assert lines[0].startswith("For a shorter lead in place of 6 ft, ")
    assert lines[0].count("; cord ") == 3
    assert lines[1].startswith("Of cords 1, 2, 5 and 6: where on the chair's fixed frame")


def test_no_shorter_cord_is_asked_for_where_less_than_a_hand_is_saved():
    # A hand's breadth is about 4 in: 3 in more than is needed is less, 5 in is more.
    row = make_row(seats=1, headrest_to_wall_m=inch(6))
    plan = make_plan(make_spec(rows=(row,), outlets=()), NEC, "0" * 64)
    (cord,) = plan.cords
    still = Drift(left_m=0.0, right_m=0.0, back_m=0.0, screen_m=0.0)
    plan = replace(plan, boxes=tuple(replace(box, drift=still) for box in plan.boxes))
    near = replace(plan, cords=(replace(cord, bought_m=cord.needed_m + inch(3)),))
    assert listed(cords_sheet(near, ()), "To ask the maker") == (
        "Of cord 1: where on the chair's fixed frame the rest is tied.",
    )
    far = replace(plan, cords=(replace(cord, bought_m=cord.needed_m + inch(5)),))
    assert len(listed(cords_sheet(far, ()), "To ask the maker")) == 2
    # Cut 3 in and 4 in off its mark the box is 5 in away, which asks for 5.5 in more of cord:
    # 9 in over leave less than a hand of that, 10 in leave more.
    moved = Drift(left_m=inch(3), right_m=0.0, back_m=0.0, screen_m=inch(4))
    boxes = tuple(replace(box, drift=moved) for box in plan.boxes)
    for over, asked in ((9, 1), (10, 2)):
        cords = (replace(cord, bought_m=cord.needed_m + inch(over)),)
        off = replace(plan, boxes=boxes, cords=cords)
        lines = listed(cords_sheet(off, ()), "To ask the maker")
        assert len(lines) == asked
    enough = at_least_text(cord.needed_m + inch("11/2"), "ft-in")
    assert lines[0].endswith(f"wherever in its rectangle it is cut): cord 1, {enough}.")


def test_an_outlet_to_which_no_cord_goes_says_so():
    views = cord_views(example("media-loft"), (250.0, 180.0))
    said = [item.words for view in views for item in view.items if isinstance(item, Text)]
    assert {"W1 not used:", "plug nothing here"} <= set(said)
    assert "circuit 3" not in said


def test_a_way_names_the_bend_that_it_passes_where_its_spare_leaves():
    plan = to_finish(example("curved-den"))
    places = places_of(plan)
    (row,) = places.rows
    told = " ".join(way_text(cord, row, places) for cord in plan.cords)
    named = {letter for letter in places.letters.values() if f"bend {letter}" in told}
    assert named == set(places.letters.values())
    assert "past bend f, where its spare leaves" in told


def test_a_cord_comes_down_to_the_deck_over_which_its_outlet_is():
    outlet = make_outlet(wall=Wall.BACK, x_m=inch(100), height_m=inch(16))
    base = make_spec(
        rows=(make_row(seats=1),), outlets=(outlet,), risers=(make_riser(0, 0, 240, 100),)
    )
    said = words(cords_sheet(make_plan(base, NEC, "0" * 64), ()))
    assert "down 1 ft 4 in to the deck of riser rear" in said


def test_own_leads_of_chairs_that_links_feed_come_off_first(theater: Plan):
    page = cords_sheet(theater, ())
    fed = [cord.to for cord in theater.cords if cord.kind == "link"]
    assert fed
    (told,) = [t for t in listed(page, "Before the first chair") if "off and away" in t]
    assert all(f" {name}" in told for name in fed)
    assert "Where one is fixed, stop and ask its maker: no link can go in." in told
    asked = listed(page, "To ask the maker")[-1]
    assert all(f" {name}" in asked for name in fed)
    assert asked.endswith("own lead comes off, so that a link can be plugged into its inlet.")
    lines = {cord.to: text for cord, text in asked_of_makers(theater) if cord.kind == "link"}
    assert set(lines) == set(fed)
    assert all(f"whether {name}'s own lead comes off" in text for name, text in lines.items())
    bare = replace(theater, cords=tuple(c for c in theater.cords if c.kind != "link"))
    assert "own lead comes off, so" not in words(cords_sheet(bare, ()))


def test_behind_a_row_the_next_row_is_what_people_walk_between():
    # Headrests of row A 10 ft off the wall; row B stands nearer to the wall, its fronts between.
    far = make_row(seats=1, headrest_to_wall_m=inch(120))
    near = make_row(id="B", seats=1, headrest_to_wall_m=inch(24))
    plan = make_plan(make_spec(rows=(far, near), outlets=()), NEC, "0" * 64)
    bare = replace(plan, cords=tuple(replace(cord, park_m=None) for cord in plan.cords))
    told = " ".join(listed(cords_sheet(bare, ()), "Spare cord that is not coiled"))
    rests = next(row for row in places_of(bare).rows if row.id == "A")
    fronts = next(row for row in places_of(bare).rows if row.id == "B").front_m
    gap = at_most_text(inch(120) - fronts, "ft-in")
    assert rests.front_m > fronts
    assert f"in the {gap} between the headrests of row A and the bases of row B behind" in told
