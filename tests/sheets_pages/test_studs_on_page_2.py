"""An electrician who works to studs tapes from studs: room, walls, corners and diagonals."""

import math
from dataclasses import replace

import pytest
from outlined import room_of
from page_words import A_VIEW, table, words
from sample_plan import sample_plan
from shapely.geometry import LineString, Point, Polygon
from support import NEC, inch, make_riser, make_spec

from powerplan.model.lengths import length_text
from powerplan.model.plan import Plan
from powerplan.model.spec import Wall
from powerplan.planning.pipeline import make_plan
from powerplan.sheets.drawings.floor_boxes import floor_box_view
from powerplan.sheets.levels import faces
from powerplan.sheets.off_walls import met, printed_corners
from powerplan.sheets.pages.print_boxes import boxes_sheet
from powerplan.sheets.scene import Line, Text

UPS = (("left", inch(1)), ("right", inch(2)), ("back", inch(3)), ("screen", inch(5)))
BEVELED = ((0, 0), (240, 0), (240, 186), (60, 186), (0, 126))
NAMES = ("back", "right", "screen", "slant", "left")


def to_studs(plan: Plan, *risers) -> Plan:
    room = replace(plan.spec.room, print_to="studs", build_up_m=UPS)
    room = replace(room, width_m=inch(237), depth_m=inch(312))
    return replace(plan, spec=replace(plan.spec, room=room, risers=risers))


def test_the_diagonal_is_to_the_studs_where_measures_are():
    # 1 + 237 + 2 = 240 in and 3 + 312 + 5 = 320 in: sides of 3 : 4, and 400 in across
    plan = to_studs(sample_plan())
    told = words(boxes_sheet(plan, (A_VIEW,)))
    assert "each is 33 ft 4 in" in told
    assert "stud to stud" in told
    assert "The room is 20 ft wide (left to right) and 26 ft 8 in deep" in told
    assert "between studs. Between finished walls it will be 19 ft 9 in by 26 ft." in told


def test_the_diagonal_that_is_drawn_is_the_one_that_is_told():
    view = floor_box_view(to_studs(sample_plan()), (250.0, 150.0))
    (line,) = [item for item in view.items if isinstance(item, Line) and item.layer == "diagonal"]
    assert math.dist(*line.points) == pytest.approx(inch(400))
    said = [item.words for item in view.items if isinstance(item, Text)]
    assert "diagonal 33 ft 4 in:" in said


def test_ahead_of_a_riser_only_three_of_the_walls_have_a_finish():
    # the riser ends 77 in from the finished back wall: 312 - 77 + 5 = 240 in deep, 240 in wide
    plan = to_studs(sample_plan(), make_riser(0, 0, 237, 77))
    told = words(boxes_sheet(plan, (A_VIEW,)))
    assert f"each is {length_text(inch(240) * math.sqrt(2), 'ft-in', step=16)}" in told


def test_a_room_to_its_finish_says_nothing_of_studs():
    told = words(boxes_sheet(sample_plan(), (A_VIEW,)))
    assert "stud" not in told


def outlined() -> Plan:
    room = replace(room_of(BEVELED, NAMES), print_to="studs", build_up_m=(*UPS, ("slant", inch(4))))
    return make_plan(replace(make_spec(), room=room), NEC, "0" * 64)


def test_the_walls_of_an_outline_are_told_stud_to_stud():
    plan = outlined()
    room = plan.spec.room
    # every wall stands off the outline of studs by its own finish, by another library
    grown = Polygon(printed_corners(room))
    ups = dict(room.build_up_m)
    for wall in room.walls:
        assert _off_m(grown, wall) == pytest.approx(ups[wall.id], abs=1e-9)
    page = boxes_sheet(plan, (A_VIEW,))
    rows = table(page, "The walls").rows
    # the back wall: 1 + 240 + 2 in; the right wall: 3 + 186 + 5 in
    assert {row[0]: row[1] for row in rows}["back"] == "20 ft 3 in"
    assert {row[0]: row[1] for row in rows}["right"] == "16 ft 2 in"
    first = next(row for row in rows if row[0] == "back")
    assert first[2:] == ("0 in", "0 in")
    assert "stud to stud" in words(page)
    assert "finish to finish" not in words(page)


def _off_m(grown: Polygon, wall) -> float:
    """How far a finished wall lies inside the outline of studs, at its middle. [m]"""
    x, y = ((a + b) / 2 for a, b in zip(wall.start, wall.end, strict=True))
    return min(
        LineString(pair).distance(Point(x, y))
        for pair in zip(grown.exterior.coords, grown.exterior.coords[1:], strict=False)
    )


def test_a_wall_that_a_tape_meets_is_the_same_for_both_who_ask():
    plan = outlined()
    for point in ((inch(20), inch(100)), (inch(20), inch(130)), (inch(200), inch(20))):
        for side, face in faces(plan, point).items():
            wall = met(plan.spec.room, point, side)
            assert face.at_m == wall.at_m
            assert face.words.startswith(wall.label)
            assert wall.slants == ("slants" in face.words)
    # 20 in from the left at 130 in from the back: the slant stands where x = y - 126 in = 4 in, its
    # studs 4 in behind it square to the wall, so 4 x sqrt(2) in along the tape
    slant = met(plan.spec.room, (inch(20), inch(130)), Wall.LEFT)
    assert slant.slants
    assert not slant.counts
    assert slant.at_m == pytest.approx(inch(4) - inch(4) * math.sqrt(2), abs=1e-6)
