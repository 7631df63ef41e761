"""Rooms with corners, and walls to studs, on sheets and in the text picture."""

import math
from dataclasses import replace
from itertools import pairwise

import pytest
import shapely
from outlined import room_of
from support import NEC, inch, make_door, make_row, make_spec

from powerplan.model.geometry import Rect
from powerplan.model.plan import Plan
from powerplan.model.spec import PlanSpec, Wall
from powerplan.planning.pipeline import make_plan
from powerplan.sheets.corners import corners_told, proof_lines
from powerplan.sheets.drawings.room import draw_wall_names, draw_walls
from powerplan.sheets.drawings.sketch import Sketch
from powerplan.sheets.off_walls import (
    beside_words,
    met,
    off_wall,
    place_words,
    side_build_up_m,
    to_finish,
)
from powerplan.sheets.pages.print_cords import cords_sheet
from powerplan.sheets.part_texts import texts_of
from powerplan.sheets.scene import Line, Text
from powerplan.sheets.words import from_wall
from powerplan.sheets.writers.picture import picture_lines

CORNERS = ((0, 0), (240, 0), (240, 186), (60, 186), (0, 126))
NAMES = ("back", "right", "screen", "slant", "left")


def plan_of(**changes: object) -> Plan:
    spec: PlanSpec = make_spec(**{"room": room_of(CORNERS, NAMES), **changes})
    return make_plan(spec, NEC, "0" * 64)


def studs(room, **ups: float):
    """The room printed to its studs."""
    return replace(room, print_to="studs", build_up_m=tuple(ups.items()))


def sketched(plan: Plan) -> Sketch:
    sketch = Sketch(48, Rect(left_m=-1.0, right_m=7.2, back_m=-1.0, front_m=5.8))
    draw_walls(sketch, plan)
    draw_wall_names(sketch, plan)
    return sketch


def test_walls_are_drawn_on_their_finished_face_all_round_but_for_the_door():
    door = replace(make_door(Wall.BACK, 10, 40), wall="slant")
    plan = plan_of(doors=(door,))
    lines = [i.points for i in sketched(plan).items if isinstance(i, Line) and i.layer == "wall"]
    room = plan.spec.room
    on_face = 0.0
    for line in lines:
        for one, two in pairwise(line):
            middle = ((one[0] + two[0]) / 2, (one[1] + two[1]) / 2)
            for wall in room.walls:
                run = (wall.end[0] - wall.start[0], wall.end[1] - wall.start[1])
                length = math.hypot(*run)
                offs = [
                    abs(run[0] * (p[1] - wall.start[1]) - run[1] * (p[0] - wall.start[0])) / length
                    for p in (one, middle, two)
                ]
                if max(offs) < 1e-9:
                    on_face += math.dist(one, two)
    around = sum(math.dist(wall.start, wall.end) for wall in room.walls)
    assert on_face == pytest.approx(around - inch(40), abs=1e-6)


def test_every_wall_is_named_along_itself_and_never_upside_down():
    named = {i.words: i for i in sketched(plan_of()).items if isinstance(i, Text)}
    assert set(NAMES) <= set(named)
    assert named["slant"].angle_deg == pytest.approx(45.0)
    assert named["right"].angle_deg == pytest.approx(90.0)
    assert named["left"].angle_deg == pytest.approx(90.0)
    assert named["back"].angle_deg == 0.0
    assert named["screen"].angle_deg == pytest.approx(0.0)


def test_the_picture_shows_what_is_not_part_of_the_room_and_the_door_on_its_wall():
    door = replace(make_door(Wall.BACK, 10, 40), wall="slant")
    lines = picture_lines(plan_of(doors=(door,)))
    assert lines[2].startswith("|%%%%%%%")
    assert any("%=" in line for line in lines)
    assert any("% not part of the room" in line for line in lines)
    assert any("door hall (slant)" in line for line in lines)


def test_distances_print_to_the_studs_where_that_is_asked_for():
    room = studs(room_of(CORNERS, NAMES), left=inch("5/8"), back=inch("1/2"), right=inch(1))
    assert off_wall(room, Wall.LEFT, inch(12), "ft-in") == "1 ft 0 5/8 in"
    assert off_wall(room, Wall.BACK, inch(12), "in") == "12 1/2 in"
    assert off_wall(room, Wall.RIGHT, inch(12), "in") == "13 in"
    assert off_wall(room, Wall.SCREEN, inch(12), "in") == "12 in"
    assert from_wall(room, Wall.LEFT) == "from left (studs)"
    finish = replace(room, print_to="finish")
    assert off_wall(finish, Wall.LEFT, inch(12), "ft-in") == "1 ft"
    assert from_wall(finish, Wall.LEFT) == "from left (finish)"
    assert from_wall(room_of(CORNERS), Wall.LEFT) == "from left wall"


def test_where_only_a_corner_is_on_a_side_the_studs_are_at_the_corner_of_the_studs():
    # Two walls at 45 degrees meet at the left: 1 in of finish square to each moves their corner
    # by the square root of two.
    room = studs(room_of(((0, 60), (60, 0), (240, 0), (240, 186), (126, 186))),
                 **{"wall 1": inch(1), "wall 5": inch(1)})  # fmt: skip
    assert side_build_up_m(room, Wall.LEFT) == pytest.approx(inch(1) * math.sqrt(2), abs=1e-6)


def test_a_wall_that_stands_nearer_is_told_with_its_distance():
    corners = ((0, 0), (240, 0), (240, 186), (100, 186), (100, 126), (0, 126))
    plan = plan_of(room=room_of(corners), rows=(make_row(),))
    point = (inch(120), inch(150))
    assert met(plan.spec.room, point, Wall.LEFT)[:3] == ("wall 4", pytest.approx(inch(100)), False)
    assert met(plan.spec.room, point, Wall.RIGHT).counts
    assert beside_words("box A1", point, Wall.LEFT, plan) == [
        "box A1: straight to its left stands wall 4, 1 ft 8 in away"
    ]
    assert beside_words("box A1", point, Wall.BACK, plan) == []


@pytest.mark.published(source="Pythagoras: 20 ft by 15 ft 6 in", standing="derived")
def test_corners_are_proved_from_the_first_of_them():
    told = corners_told(plan_of(), "1/2 in")
    diagonal = math.hypot(240, 186)
    assert "20 ft to where right begins after back" in told
    assert f"{int(diagonal // 12)} ft {round(diagonal % 12 * 8) / 8:g}"[:5] in told
    assert "If one differs by more than 1/2 in, stop and call." in told


@pytest.mark.parametrize(
    "corners",
    [
        CORNERS,
        ((0, 0), (240, 0), (240, 186), (100, 186), (100, 126), (0, 126)),
        ((0, 0), (240, 0), (240, 100), (180, 100), (180, 186), (60, 186), (60, 100), (0, 100)),
        ((0, 60), (60, 0), (240, 0), (240, 186), (126, 186)),
    ],
)
@pytest.mark.published(
    source="a polygon of n corners is parted into triangles by n - 3 diagonals inside it",
    standing="from memory",
)
def test_lines_that_prove_a_room_lie_inside_it_and_leave_nothing_free(corners):
    places = tuple((float(inch(x)), float(inch(y))) for x, y in corners)
    lines = proof_lines(places)
    room = shapely.Polygon(places).buffer(1e-5)
    for start, end in lines:
        assert room.covers(shapely.LineString((places[start], places[end])))
    count = len(places)
    inner = [pair for pair in lines if pair[1] - pair[0] not in (1, count - 1)]
    assert len(inner) == count - 3


def test_a_place_is_told_from_both_printed_faces():
    room = studs(room_of(CORNERS, NAMES), left=inch(1), back=inch(1))
    plan = plan_of()
    printed = replace(plan, spec=replace(plan.spec, room=room))
    assert place_words((inch(12), inch(24)), printed) == (
        "1 ft 1 in from left (studs), 2 ft 1 in from back (studs)"
    )


def test_those_who_come_when_walls_are_finished_measure_from_the_finish():
    room = studs(room_of(CORNERS, NAMES), left=inch(1), back=inch(1))
    plan = plan_of()
    printed = replace(plan, spec=replace(plan.spec, room=room))
    assert to_finish(printed).spec.room.print_to == "finish"
    assert place_words((inch(12), inch(24)), to_finish(printed)) == (
        "1 ft from left (finish), 2 ft from back (finish)"
    )
    told = " ".join(texts_of(cords_sheet(printed, ())))
    assert "(finish)" in told
    assert "(studs)" not in told
