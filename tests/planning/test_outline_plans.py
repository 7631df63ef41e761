"""Plans of rooms with corners: laws over rooms nobody chose."""

from dataclasses import replace

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from laws import held_over
from mirrored import mirrored
from outlined import as_outline, outlines, room_of
from strategies import rooms
from support import (
    NEC,
    inch,
    make_chair,
    make_door,
    make_framing,
    make_new_work,
    make_outlet,
    make_row,
    make_spec,
)

from powerplan.model.plan import Plan
from powerplan.model.spec import PlanSpec, Wall
from powerplan.planning.pipeline import make_plan
from powerplan.planning.site import survey

HASH = "0" * 64
SOME = held_over(10)


def plan(spec: PlanSpec) -> Plan:
    return make_plan(spec, NEC, HASH)


def told(made: Plan) -> list[tuple[str, bool, int, int, int]]:
    """What came of every step."""
    return [
        (step.step, step.works, step.new_circuits, step.boxes, step.extensions)
        for step in made.decision.steps
    ]


@SOME
@given(rooms())
def test_a_rectangle_written_as_an_outline_gets_the_same_plan(spec: PlanSpec) -> None:
    one, other = plan(spec), plan(as_outline(spec))
    assert told(one) == told(other)
    assert one.boxes == other.boxes
    assert [cord.id for cord in one.cords] == [cord.id for cord in other.cords]
    for cord, twin in zip(one.cords, other.cords, strict=True):
        assert twin.length_m == pytest.approx(cord.length_m, abs=4e-6)
        assert twin.open_floor_m == pytest.approx(cord.open_floor_m, abs=4e-6)


@st.composite
def cornered_rooms(draw: st.DrawFn) -> PlanSpec:
    """Drawn rooms that lack a corner, with nothing in the corner that is gone."""
    spec = draw(rooms())
    return replace(spec, room=room_of(draw(outlines())), obstacles=(), doors=(), outlets=())


@SOME
@given(cornered_rooms())
def test_a_mirror_image_of_a_room_with_corners_gets_the_same_answer(spec: PlanSpec) -> None:
    slab = replace(
        spec,
        floor=make_framing(build="slab"),
        risers=tuple(replace(r, framing=make_framing(build="slab")) for r in spec.risers),
    )
    one, other = plan(slab), plan(mirrored(slab))
    assert one.decision.exit_code == other.decision.exit_code
    assert [step.works for step in one.decision.steps] == [
        step.works for step in other.decision.steps
    ]


@SOME
@given(cornered_rooms())
def test_everything_planned_is_inside_the_walls(spec: PlanSpec) -> None:
    made = plan(spec)
    floor = shapely.buffer(shapely.Polygon(spec.room.outline), 2e-6, join_style="mitre")
    for box in made.boxes:
        assert shapely.covers(floor, shapely.Point(box.x_m, box.y_m))
    for cord in made.cords:
        line = shapely.LineString(cord.path_m)
        whole = line if line.length else shapely.Point(cord.path_m[0])
        assert shapely.covers(floor, whole)


def test_a_box_has_no_place_past_the_walls():
    # The first seat's clear zone lies past the corner that is cut off: no lid goes there.
    corners = ((0, 80), (60, 0), (240, 0), (240, 186), (0, 186))
    spec = make_spec(room=room_of(corners), outlets=(), circuits=(), rows=(make_row(
        headrest_to_wall_m=inch(14), center_x_m=inch(78.5)),))  # fmt: skip
    site = survey(spec, NEC)
    floor = shapely.Polygon(spec.room.outline)
    held = []
    for feed in site.floor_boxes:
        x_m, y_m = feed.place
        lid = shapely.box(x_m - inch(3), y_m - inch(3), x_m + inch(3), y_m + inch(3))
        if not feed.broken:
            held.append(feed.id)
            assert shapely.covers(floor, lid), feed.id
    assert "box A1" not in held
    assert "box A5" in held


def test_a_wall_outlet_stands_on_the_wall_straight_behind_its_chair_and_not_in_a_door():
    # At the back right a piece of wall stands 24 in nearer, with a door behind the last seat.
    corners = ((0, 0), (160, 0), (160, 24), (240, 24), (240, 186), (0, 186))
    row = make_row(seats=4, headrest_to_wall_m=inch(34), center_x_m=inch(150))
    door = replace(make_door(Wall.BACK, 30, 40), wall="wall 3")
    spec = make_spec(
        room=room_of(corners), rows=(row,), doors=(door,), new_work=make_new_work(wall_outlets=True)
    )
    feeds = {feed.id: feed.place for feed in survey(spec, NEC).wall_outlets}
    # Middles at 105, 135, 165 and 195 in; 34 in behind the first two is no narrow gap, and the door
    # reaches from 190 to 230 in.
    assert feeds == {"wall A3": (inch(165), inch(24))}


def test_an_outlet_on_a_slanted_wall_feeds_a_chair():
    corners = ((0, 60), (60, 0), (240, 0), (240, 186), (0, 186))
    outlet = make_outlet(wall="wall 1", x_m=inch(30), y_m=inch(30))
    row = make_row(seats=1, headrest_to_wall_m=inch(14), center_x_m=inch(90))
    long = make_chair(lead_m=inch(144))
    made = plan(make_spec(room=room_of(corners), chairs=(long,), rows=(row,), outlets=(outlet,)))
    assert made.decision.verdict == "existing outlets"
    assert made.cords[0].path_m[0] == (inch(30), inch(30))
