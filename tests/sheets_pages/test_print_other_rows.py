"""Rows that are mixed, turned or curved, on the installers' page."""

import math
from dataclasses import replace

import pytest
from page_words import A_VIEW, listed, table, words
from support import NEC, inch, make_chair, make_row, make_spec

from powerplan.model.lengths import length_text
from powerplan.model.plan import NOT_POSSIBLE, Plan
from powerplan.model.seats import Curve, Piece, TableKind
from powerplan.planning.pipeline import make_plan
from powerplan.sheets.drawings.floor_boxes import floor_box_view
from powerplan.sheets.drawings.legend import legend
from powerplan.sheets.drawings.rows import cord_views
from powerplan.sheets.pages.print_boxes import boxes_sheet
from powerplan.sheets.pages.print_cords import cords_sheet
from powerplan.sheets.pages.print_places import place_words
from powerplan.sheets.pages.print_rows import outward, set_rows
from powerplan.sheets.pages.print_told import places_of
from powerplan.sheets.parts import Table
from powerplan.sheets.placed import chairs_by_row, placed_of
from powerplan.sheets.scene import Hatch, Line, Text
from powerplan.sheets.writers.picture import picture_lines


def plan_of(**changes):
    row = make_row(seats=2, headrest_to_wall_m=inch(50), **changes)
    spec = make_spec(rows=(row,), chairs=(make_chair(arm_gap_m=inch("3/2")),))
    return make_plan(spec, NEC, "0" * 64)


def tables(plan):
    page = cords_sheet(plan, ())
    return {part.caption: part.rows for part in page.parts if isinstance(part, Table)}


def test_a_turned_row_has_a_line_of_its_own_and_is_in_no_table_of_square_lines():
    found = tables(plan_of(angle_rad=round(math.radians(10), 9)))
    assert not any(caption.startswith("The chalk line to snap") for caption in found)
    (ends,) = (rows for caption, rows in found.items() if caption.startswith("The two ends"))
    assert [line[:2] for line in ends] == [("A", "left"), ("A", "right")]
    (along,) = (rows for caption, rows in found.items() if "along each line" in caption)
    assert [line[1] for line in along] == ["A1", "A2"]


def test_a_plain_row_keeps_its_line():
    found = tables(plan_of())
    assert any("chalk line" in caption for caption in found)
    assert not any("along each line" in caption for caption in found)


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


def test_nothing_that_is_said_of_an_arc_speaks_of_chairs_on_a_line():
    made = plan_of(curve=Curve(radius_m=inch(200), touch="back"))
    said = words(cords_sheet(made, ()))
    assert "on the line." not in said
    assert "A1 with its rear corners on its two marks" in said
    assert "behind the line" not in table(cords_sheet(made, ()), "Cord bags").rows[0][5]


def test_a_row_that_is_not_possible_and_turned_is_in_no_table_of_where_rows_would_stand():
    made = plan_of(angle_rad=round(math.radians(10), 9))
    made = replace(made, decision=replace(made.decision, verdict=NOT_POSSIBLE))
    said = words(boxes_sheet(made, (A_VIEW,)))
    assert "Where the rows would stand" not in said
    assert "Turned or on an arc, see the drawing: Row A." in said


def mixed() -> Plan:
    """Two seats with a console between, and a third beyond a gap of 6 in."""
    console = TableKind(
        id="console", width_m=inch(10), rear_m=inch(6), front_m=inch(36), under_m=inch(2)
    )
    arm = Piece(what="arm", kind="club", width_m=inch(7))
    seat = Piece(what="seat", kind="club", width_m=inch(23))
    table = Piece(what="table", kind="console", width_m=inch(10))
    gap = Piece(what="gap", kind=None, width_m=inch(6))
    pieces = (arm, seat, arm, table, arm, seat, arm, gap, arm, seat, arm)
    spec = make_spec(
        rows=(make_row(seats=3, pieces=pieces),),
        chairs=(make_chair(arm_gap_m=inch("3/2")),),
        tables=(console,),
    )
    return make_plan(spec, NEC, "0" * 64)


def test_a_table_is_set_in_its_turn_and_over_a_gap_nothing_is_clipped():
    # 37 + 10 + 37 + 6 + 37 = 127 in: the middle at 63 1/2 in is in A2, whose middle is at 65 1/2;
    # the console's is at 42, A1's at 18 1/2, A3's at 108 1/2: 21 1/2, 45 and 45 in away.
    made = mixed()
    (row,) = set_rows(made)
    assert [one.name for one in outward(row)] == ["A2", "console", "A1", "A3"]
    steps = listed(cords_sheet(made, ()), "Order of work")
    assert any(step.startswith("Console: Set console") for step in steps)
    clipped = " ".join(steps)
    assert "A1 to console" in clipped
    assert "console to A2" in clipped
    assert "A2 to A3" not in clipped


def test_two_rows_with_a_table_of_one_name_each_are_both_drawn():
    made = mixed()
    (first,) = made.spec.rows
    second = replace(first, id="B", headrest_to_wall_m=inch(110))
    room = replace(made.spec.room, depth_m=inch(240))
    both = make_plan(replace(made.spec, room=room, rows=(first, second)), NEC, "0" * 64)
    said = [
        item.words for item in floor_box_view(both, (400.0, 400.0)).items if isinstance(item, Text)
    ]
    assert said.count("console") == 2
    assert len(cord_views(both, (250.0, 180.0))) == 3


def test_a_table_is_drawn_and_numbered():
    (view,) = cord_views(mixed(), (250.0, 180.0))
    said = [item.words for item in view.items if isinstance(item, Text)]
    assert {"console", "1", "2", "3", "4"} <= set(said)


@pytest.mark.parametrize("touch", ["front", "back"])
def test_the_chalk_arc_is_drawn_on_its_circle_and_named_as_one(touch):
    made = plan_of(curve=Curve(radius_m=inch(200), touch=touch))
    (view,) = cord_views(made, (250.0, 180.0))
    arcs = [i for i in view.items if isinstance(i, Line) and i.layer == "chalk_arc"]
    longest = max(arcs, key=lambda line: len(line.points))
    touch_m = inch(39) if touch == "front" else inch(4)
    middle = (inch(120), inch(50) + touch_m + inch(200))
    assert all(math.dist(p, middle) == pytest.approx(inch(200), abs=5e-6) for p in longest.points)
    assert ("chalk_arc", "chalk arc, drawn with a string") in legend(view)


def test_the_ways_of_a_turned_row_are_told_along_its_line_and_those_of_an_arc_from_a_corner():
    made = plan_of(angle_rad=round(math.radians(30), 9))
    (row,) = set_rows(made)
    # 10 in along the line from A1's middle, 5 in behind the line
    middle_m = inch("37/2")
    spot = row.chalk.at(middle_m + inch(10), -inch(5))
    assert (
        place_words(spot, row, places_of(made))
        == "5 in behind the line, 10 in right of A1's middle"
    )
    made = plan_of(curve=Curve(radius_m=inch(200), touch="back"))
    (row,) = set_rows(made)
    first = row.stands[0]
    spot = first.at(-first.left_m - inch(3), first.rear_m - inch(4))
    assert place_words(spot, row, places_of(made)) == (
        "4 in behind A1's rear line, 3 in left of its left rear corner"
    )


def test_a_coil_behind_a_turned_chair_is_held_against_its_own_back():
    made = plan_of(angle_rad=round(math.radians(30), 9))
    (row,) = set_rows(made)
    first = row.stands[0]
    size = (inch(8), inch(4))
    # 5 in of back travel; a coil of 8 by 4 in square to the room, seen at 30 degrees, reaches
    # 4 sin 30 + 2 cos 30 = 3.73 in ahead of its middle: at 9 in behind it is clear, at 8 in not.
    for behind, said in ((9, "behind the reclined back"), (8, "NO COIL HERE")):
        spot = first.at(0.0, -inch(behind))
        cord = replace(made.cords[0], to="A1", kind="own", park_m=spot, coil_m=size, tail_m=())
        page = cords_sheet(replace(made, cords=(cord,)), ())
        assert said in table(page, "Where spare cord is coiled").rows[0][4]


def test_forward_is_said_for_the_rows_that_there_are():
    turned = plan_of(angle_rad=round(math.radians(10), 9))
    both = replace(
        turned.spec,
        room=replace(turned.spec.room, depth_m=inch(300)),
        rows=(*turned.spec.rows, make_row(id="B", seats=2, headrest_to_wall_m=inch(180))),
    )
    said = [words(cords_sheet(plan, ())) for plan in (plan_of(), turned)]
    forward = "Forward and ahead are toward the screen, back and behind away from it"
    turns = "in a turned row the way its chairs look"
    assert f"{forward}." in said[0]
    assert turns not in said[0]
    assert f"{forward}; {turns}" in said[1]
    mixed_rows = words(cords_sheet(make_plan(both, NEC, "0" * 64), ()))
    assert mixed_rows.count(f"{forward}; {turns}") == 1


@pytest.mark.published(
    source="two equal chords b of an arc of radius R turn by 2 asin(b / 2R) against each other: "
    "sides that meet in front lie depth x b / R apart behind",
    standing="derived",
)
def test_a_shared_arm_that_gapes_behind_is_told_as_a_wedge_and_whose_mark_is_whose():
    plan = plan_of(curve=Curve(radius_m=inch(200), touch="front"))
    kind = plan.spec.chairs[0]
    block_m = kind.seat_width_m + 1.5 * kind.arm_width_m
    deep_m = kind.depth_m - kind.rear_of_base_m
    apart_m = deep_m * block_m / inch(200)
    arm_m = kind.arm_width_m * math.cos(math.asin(block_m / (2 * inch(200))))
    said = words(cords_sheet(plan, ()))
    apart, half, front, rear = (
        length_text(m, "ft-in") for m in (apart_m, kind.arm_width_m / 2, arm_m, arm_m + apart_m)
    )
    assert f"A1 / A2: the two marks of their rear corners lie {apart} apart, each {half}" in said
    assert f"is a wedge, {front} wide in front and {rear} behind" in said
    for other in (plan_of(curve=Curve(radius_m=inch(200), touch="back")), plan_of()):
        assert "wedge" not in words(cords_sheet(other, ()))
