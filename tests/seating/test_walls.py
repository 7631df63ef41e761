"""Rooms with corners: walls behind and ahead of a row, strips, doors, and rows that fit."""

import math
from dataclasses import replace

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from mirrored import mirrored
from outlined import Corners, as_outline, outlines, room_of
from support import NEC, inch, make_door, make_row, make_spec

from powerplan.engineering.seating.covered import covered_floor
from powerplan.engineering.seating.layout import layout_findings
from powerplan.engineering.seating.poses import seat_rows
from powerplan.engineering.seating.walls import (
    along_m,
    faces_behind,
    spare_in_room,
    straight_behind,
    wall_ahead,
    wall_behind,
    wall_strips,
)
from powerplan.model.findings import Finding, Outcome
from powerplan.model.spec import PlanSpec, Wall

# 240 in by 186 in; a piece of wall 24 in deep stands at the back right, and the front left corner
# is cut off at 45 degrees, 60 in along each side.
NOTCHED: Corners = (
    (0, 0), (180, 0), (180, 24), (240, 24), (240, 186), (60, 186), (0, 126)
)  # fmt: skip


def spec_of(corners: Corners = NOTCHED, **changes: object) -> PlanSpec:
    return make_spec(**{"room": room_of(corners), **changes})


def findings(spec: PlanSpec, rule: str) -> list[Finding]:
    found = layout_findings(spec, seat_rows(spec), NEC)
    return [finding for finding in found if finding.rule == rule]


def floor_of(spec: PlanSpec) -> shapely.Geometry:
    pieces = covered_floor(spec, seat_rows(spec), NEC)
    return shapely.union_all([shapely.Polygon(piece) for piece in pieces])


def square_in(shape: shapely.Geometry) -> float:
    """An area in square inches."""
    return float(shape.area) / 0.0254**2


def test_walls_behind_a_stretch_come_nearest_first():
    room = room_of(NOTCHED)
    faces = faces_behind(room, inch(100), inch(220), inch(60))
    told = [(f.label, f.left_m, f.right_m, f.y_m) for f in faces]
    assert told == [
        ("wall 3", inch(180), inch(220), inch(24)),
        ("wall 1", inch(100), inch(180), 0.0),
    ]
    assert wall_behind(room, inch(100), inch(220), inch(60)) == (inch(24), "wall 3")
    assert wall_behind(room, inch(100), inch(180), inch(60)) == (0.0, "wall 1")


def test_the_wall_ahead_of_a_stretch_is_where_it_is_nearest():
    room = room_of(NOTCHED)
    # At 45 degrees the wall is 126 in from the back at the left, and 126 + 30 at 30 in.
    distance, name = wall_ahead(room, inch(30), inch(100), inch(60))
    assert (distance, name) == (pytest.approx(inch(156), abs=1e-9), "wall 6")
    assert wall_ahead(room, inch(60), inch(200), inch(60)) == (inch(186), "wall 5")


@pytest.mark.parametrize(
    ("left", "value", "outcome", "past"),
    [
        # The row is 157 in wide with its headrests 40 in and, reclined, 35 to 106 in from the back.
        (80, 3.0, Outcome.MET, ""),
        (83, 0.0, Outcome.MET, ""),
        (84, -1.0, Outcome.NOT_MET, "wall 4"),
    ],
)
def test_a_row_fits_or_goes_past_a_wall_by_so_much(left, value, outcome, past):
    row = make_row(headrest_to_wall_m=inch(40), center_x_m=inch(left + 78.5))
    (finding,) = findings(spec_of(rows=(row,)), "row-fits-walls")
    assert finding.value == pytest.approx(inch(value), abs=2e-6)
    assert finding.outcome is outcome
    assert past in finding.note


def test_a_footrest_into_a_slanted_wall_is_past_it_square_to_it():
    # From 10 in on, the corner of the footrests at (10, 146) is past the line y = 126 + x by
    # 10 in ahead, so by 10 / sqrt 2 square to the wall.
    row = make_row(headrest_to_wall_m=inch(80), center_x_m=inch(10 + 78.5))
    (finding,) = findings(spec_of(rows=(row,)), "row-fits-walls")
    assert finding.value == pytest.approx(-inch(10) / math.sqrt(2), abs=2e-6)
    assert "goes 7 1/8 in past wall 6" in finding.note


def test_headrests_are_held_to_the_wall_that_is_behind_them():
    # Two seats, 67 in wide, in front of the wall that is 24 in nearer.
    for headrest, outcome in ((29, Outcome.MET), (28.9, Outcome.NOT_MET)):
        row = make_row(seats=2, headrest_to_wall_m=inch(headrest), center_x_m=inch(206))
        (finding,) = findings(spec_of(rows=(row,)), "headrest-clears-wall")
        assert finding.value == pytest.approx(inch(headrest - 24), abs=1e-6)
        assert finding.outcome is outcome
    assert "4 7/8 in off the wall 3" in finding.note


def test_a_row_that_stands_in_a_wall_has_its_headrests_past_it():
    # The wall from (100, 126) to the left looks back; the row's bases end ahead of it.
    corners = ((0, 0), (240, 0), (240, 186), (100, 186), (100, 126), (0, 126))
    row = make_row(seats=2, headrest_to_wall_m=inch(120), center_x_m=inch(110))
    (finding,) = findings(spec_of(corners, rows=(row,)), "headrest-clears-wall")
    assert finding.value == pytest.approx(inch(120 - 126), abs=1e-6)
    assert finding.outcome is Outcome.NOT_MET


def test_the_passage_ends_at_the_wall_ahead():
    row = make_row(seats=1, headrest_to_wall_m=inch(60), center_x_m=inch(21))
    (finding,) = findings(spec_of(rows=(row,)), "passage-in-front")
    # The seat reaches from 2 1/2 in to 39 1/2 in; ahead at 2 1/2 in the wall is at 128 1/2 in.
    assert finding.value == pytest.approx(inch(128.5 - 126), abs=2e-6)


def test_a_door_at_a_slant_needs_its_floor_square_to_the_wall():
    # A 30 in door in the slanted wall, 20 in from its start at (60, 186).
    door = replace(make_door(Wall.BACK, 20, 30), wall="wall 6")
    row = make_row(seats=1, headrest_to_wall_m=inch(60), center_x_m=inch(100))
    (finding,) = findings(spec_of(rows=(row,), doors=(door,)), "door-free")
    assert finding.outcome is Outcome.MET
    near = replace(row, center_x_m=inch(50), headrest_to_wall_m=inch(70))
    (finding,) = findings(spec_of(rows=(near,), doors=(door,)), "door-free")
    # The deepest corner of the floor it needs is 50 in along and 30 in in: from (60, 186) left and
    # back by 50 / sqrt 2, and right and back by 30 / sqrt 2: (45.86, 129.43). The reclined chair
    # reaches 136 in ahead, from 31.5 to 68.5 in.
    assert finding.outcome is Outcome.NOT_MET


def test_a_gap_behind_a_row_ends_at_each_wall_of_its_own():
    # Headrests 30 in from the back: 30 in behind are open floor, 6 in behind are a narrow gap.
    row = make_row(headrest_to_wall_m=inch(30), center_x_m=inch(161.5))
    floor = floor_of(spec_of(rows=(row,)))
    assert shapely.covers(floor, shapely.box(inch(181), inch(24), inch(239), inch(30)))
    assert not shapely.covers(floor, shapely.Point(inch(170), inch(15)))


def test_a_wall_at_a_slant_behind_a_straight_row_makes_no_gap():
    corners = ((0, 10), (240, 0), (240, 186), (0, 186))
    row = make_row(headrest_to_wall_m=inch(24))
    floor = floor_of(spec_of(corners, rows=(row,)))
    # The strip along the wall is 6 in wide; half way between it and the headrests is open floor.
    assert not shapely.covers(floor, shapely.Point(inch(120), inch(15)))


def test_strips_along_walls_are_square_to_them_and_stop_at_doors():
    room = room_of(((0, 0), (240, 0), (240, 186), (60, 186), (0, 126)))
    strip = shapely.Polygon(wall_strips(room, (), inch(6))[3])
    # 84.85 in by 6 in, less a triangle at each end where the walls meet at 135 degrees: none.
    assert square_in(strip) == pytest.approx(60 * math.sqrt(2) * 6, rel=1e-6)
    door = replace(make_door(Wall.BACK, 10, 40), wall="wall 4")
    spec = make_spec(room=room, rows=(), doors=(door,))
    floor, open_floor = floor_of(spec), floor_of(replace(spec, doors=()))
    assert square_in(shapely.difference(open_floor, floor)) == pytest.approx(240, rel=1e-5)


@given(outlines())
@settings(max_examples=25)
def test_covered_floor_is_inside_the_walls_and_all_within_the_strip_of_a_wall(corners):
    spec = make_spec(room=room_of(corners), rows=())
    floor, room = floor_of(spec), shapely.Polygon(spec.room.outline)
    assert shapely.covers(shapely.buffer(room, 2e-6), floor)
    edge = shapely.buffer(shapely.boundary(room), inch(6) + 2e-6)
    assert shapely.covers(edge, floor)
    # Every wall has all of its strip: nothing within 6 in of the middle of a wall is open.
    for line in spec.room.walls:
        middle = ((line.start[0] + line.end[0]) / 2, (line.start[1] + line.end[1]) / 2)
        length_m = math.dist(line.start, line.end)
        inward = (
            (line.start[1] - line.end[1]) / length_m,
            (line.end[0] - line.start[0]) / length_m,
        )
        there = (middle[0] + inward[0] * 0.15, middle[1] + inward[1] * 0.15)
        assert not shapely.covers(room, shapely.Point(there)) or shapely.covers(
            shapely.buffer(floor, 1e-6), shapely.Point(there)
        )


@given(outlines(), st.integers(70, 200), st.integers(10, 60))
@settings(max_examples=25)
def test_the_mirror_image_of_an_outline_has_the_same_findings(corners, middle, behind):
    row = make_row(seats=3, headrest_to_wall_m=inch(behind), center_x_m=inch(middle))
    spec = spec_of(corners, rows=(row,))
    told = [(f.rule, f.outcome, f.value) for f in layout_findings(spec, seat_rows(spec), NEC)]
    twin = mirrored(spec)
    other = [(f.rule, f.outcome, f.value) for f in layout_findings(twin, seat_rows(twin), NEC)]
    assert [one[:2] for one in told] == [one[:2] for one in other]
    for one, two in zip(told, other, strict=True):
        assert one[2] == pytest.approx(two[2], abs=3e-6)


@given(st.integers(5, 40), st.integers(70, 170), st.integers(0, 140),
       st.sampled_from([Wall.LEFT, Wall.RIGHT, Wall.BACK, Wall.SCREEN]))  # fmt: skip
@settings(max_examples=20)
def test_a_rectangle_written_as_an_outline_covers_the_same_floor(behind, middle, at, wall):
    row = make_row(headrest_to_wall_m=inch(behind), center_x_m=inch(middle))
    spec = make_spec(rows=(row,), doors=(make_door(wall, at, 32),))
    one, other = floor_of(spec), floor_of(as_outline(spec))
    assert shapely.area(shapely.symmetric_difference(one, other)) < 1e-9
    pairs = [
        {
            f.rule: f.outcome
            for f in layout_findings(s, seat_rows(s), NEC)
            if f.rule != "row-fits-walls"
        }
        for s in (spec, as_outline(spec))
    ]
    assert pairs[0] == pairs[1]
    fits = [
        all(f.outcome is Outcome.MET for f in findings(s, "row-fits-walls"))
        for s in (spec, as_outline(spec))
    ]
    # Of an outline the wall behind counts too.
    assert fits[1] == (fits[0] and behind >= 5)


def test_the_wall_straight_behind_a_place_may_be_at_a_slant():
    room = room_of(((0, 60), (60, 0), (240, 0), (240, 186), (0, 186)))
    found = straight_behind(room, (inch(30), inch(50)), 0.0)
    assert found is not None
    line, place = found
    assert line.id == "wall 1"
    assert place == pytest.approx((inch(30), inch(30)), abs=3e-6)
    assert along_m(line, place) == pytest.approx(inch(30) * math.sqrt(2), abs=3e-6)
    assert spare_in_room(room, (((place[0], place[1]), (1.0, 1.0), (1.1, 1.0)),))[0] >= 0.0


def test_behind_a_place_outside_there_is_no_wall():
    room = room_of(((0, 60), (60, 0), (240, 0), (240, 186), (0, 186)))
    assert straight_behind(room, (inch(-5), inch(50)), 0.0) is None


@pytest.mark.published(
    source="a point is (x - y - c) / sqrt 2 off the line x - y = c", standing="derived"
)
@pytest.mark.parametrize("past_in", [-1, 0, 1, 4])
def test_a_corner_of_the_room_in_a_piece_of_floor_is_as_far_past_as_it_stands(past_in: int):
    room = room_of(NOTCHED)
    on = 180 - 24 + past_in  # the piece ends at x - y = on; the inner corner is at (180, 24)
    piece = tuple((inch(x), inch(y)) for x, y in ((on + 10, 10), (on + 60, 60), (100, 100)))
    spare_m, walls = spare_in_room(room, (piece,))
    assert spare_m == pytest.approx(-inch(past_in) / math.sqrt(2), abs=1e-6)
    assert walls == (("wall 2", "wall 3") if past_in > 0 else ())
