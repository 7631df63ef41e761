"""Rooms by their corners: walls where they are, joists inside them, tapes to the first wall."""

from dataclasses import replace

from drawn import outside, overlapping, spoken
from hypothesis import given
from hypothesis import strategies as st
from sample_plan import sample_plan
from shapely.geometry import LineString, Point, Polygon
from support import inch, make_joists

from powerplan.model.plan import Plan
from powerplan.model.spec import Wall, WallLine
from powerplan.sheets.drawings.floor_boxes import floor_box_view
from powerplan.sheets.levels import faces
from powerplan.sheets.pages.print_boxes import boxes_sheet
from powerplan.sheets.part_texts import texts_of
from powerplan.sheets.parts import Table
from powerplan.sheets.scene import Line

ROOM_MM = (250.0, 190.0)
# a room of 240 by 186 in with its front left corner cut by a bay
CORNERS = ((0, 0), (240, 0), (240, 186), (72, 186), (48, 144), (0, 144))
NAMES = ("back", "right", "screen", "bay", "wall 5", "left")
WAYS = {Wall.LEFT: (-1, 0), Wall.RIGHT: (1, 0), Wall.BACK: (0, -1), Wall.SCREEN: (0, 1)}


def bay_plan() -> Plan:
    plan = sample_plan()
    ends = [(inch(x), inch(y)) for x, y in CORNERS]
    walls = tuple(
        WallLine(id=name, label=f"{name} face", start=one, end=other)
        for name, one, other in zip(NAMES, ends, (*ends[1:], ends[0]), strict=True)
    )
    room = replace(plan.spec.room, walls=walls)
    spec = replace(plan.spec, room=room, floor=make_joists(), doors=())
    return replace(plan, spec=spec)


def outline() -> Polygon:
    return Polygon([(inch(x), inch(y)) for x, y in CORNERS])


def test_every_wall_of_an_outline_is_drawn_once_with_its_name():
    plan = bay_plan()
    view = floor_box_view(plan, ROOM_MM)
    faces_drawn = {
        item.points for item in view.items if isinstance(item, Line) and item.layer == "wall"
    }
    for wall in plan.spec.room.walls:
        near = [
            points
            for points in faces_drawn
            if LineString(points).hausdorff_distance(LineString((wall.start, wall.end))) < 1e-6
        ]
        assert len(near) == 1
        assert any(wall.label in told for told in spoken(view))
    assert overlapping(view) == []
    assert outside(view) == []


def test_outer_sides_stand_the_thickness_of_a_wall_outside_and_meet_at_corners():
    view = floor_box_view(bay_plan(), ROOM_MM)
    thick = 1.8 * view.scale / 1000
    drawn = [item.points for item in view.items if isinstance(item, Line) and item.layer == "wall"]
    outer = [LineString(points) for points in drawn if not outline().buffer(1e-6).covers(
        Point(LineString(points).centroid))]  # fmt: skip
    assert len(outer) == len(CORNERS)
    rim = outline().buffer(thick, join_style="mitre").exterior
    for line in outer:
        assert rim.buffer(1e-6).covers(line)


def test_joists_end_at_the_walls():
    view = floor_box_view(bay_plan(), ROOM_MM)
    joists = [item for item in view.items if isinstance(item, Line) and item.layer == "joist"]
    assert joists
    assert all(outline().buffer(1e-6).covers(LineString(item.points)) for item in joists)


@given(st.integers(1, 478), st.integers(1, 370))
def test_a_tape_goes_to_the_first_wall_that_it_meets(across, deep):
    at = (inch(across / 2) + inch("1/8"), inch(deep / 2) + inch("1/8"))
    if not outline().contains(Point(at)):
        return
    for side, face in faces(bay_plan(), at).items():
        far = (at[0] + WAYS[side][0] * 99, at[1] + WAYS[side][1] * 99)
        met = LineString((at, far)).intersection(outline().exterior).distance(Point(at))
        axis = 0 if side in (Wall.LEFT, Wall.RIGHT) else 1
        assert abs(abs(face.at_m - at[axis]) - met) < 1e-9
        assert face.is_wall


def test_a_room_by_its_corners_lists_its_walls_instead_of_a_diagonal():
    page = boxes_sheet(bay_plan(), ())
    (walls,) = (p for p in page.parts if isinstance(p, Table) and p.caption.startswith("The walls"))
    rows = walls.rows
    assert [row[0] for row in rows] == [f"{name} face" for name in NAMES]
    # the bay goes 24 in across and 42 in deep: 24^2 + 42^2 = 48.37^2
    assert rows[3][1] == "4 ft 0 3/8 in"
    assert "diagonal" not in " ".join(texts_of(page))
    assert "taped on one level" in " ".join(texts_of(page))


def test_a_side_without_a_wall_is_called_what_the_outline_has_there():
    plan = bay_plan()
    room = plan.spec.room
    walls = tuple(replace(wall, id=f"w{n}") for n, wall in enumerate(room.walls))
    named = replace(room, walls=walls, back_wall="rearmost corner")
    page = boxes_sheet(replace(plan, spec=replace(plan.spec, room=named)), ())
    assert "from rearmost corner (back)" in " ".join(texts_of(page))
