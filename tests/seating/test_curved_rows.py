"""Turned and curved rows against closed-form geometry."""

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon
from shapely.ops import unary_union
from support import NEC, inch, make_chair, make_row, make_spec

from powerplan.engineering.seating.covered import covered_floor
from powerplan.engineering.seating.frames import ROOM, Frame, apart_m, normal_rad, upright
from powerplan.engineering.seating.layout import layout_findings
from powerplan.engineering.seating.poses import seat_rows
from powerplan.engineering.seating.zones import mark_zones
from powerplan.model.geometry import Rect
from powerplan.model.spec import Curve, Room

SQUARE = Room(
    width_m=8.0,
    depth_m=8.0,
    left_wall="left wall",
    right_wall="right wall",
    back_wall="back wall",
    screen_wall="screen wall",
)
OPEN = make_chair(arm_gap_m=inch("3/2"))
UM = 2e-6


def curved(seats=5, radius=168.0, touch="front", **changes):
    """A row on an arc in the middle of a square room; the radius in inches."""
    row = make_row(
        seats=seats,
        headrest_to_wall_m=1.5,
        center_x_m=4.0,
        curve=Curve(radius_m=inch(radius), touch=touch),
        **changes,
    )
    return make_spec(room=SQUARE, rows=(row,), chairs=(OPEN,), outlets=())


def middle_of_arc(spec):
    row = spec.rows[0]
    touch_m = OPEN.depth_m if row.curve.touch == "front" else OPEN.rear_of_base_m
    far_m = row.curve.radius_m + touch_m
    return (
        row.center_x_m - far_m * math.sin(row.angle_rad),
        row.headrest_to_wall_m + far_m * math.cos(row.angle_rad),
    )


@pytest.mark.published(
    source="neighbors on an arc are chords of its circle: their corners lie on it",
    standing="derived",
)
@settings(max_examples=40)
@given(
    st.integers(1, 6),
    st.integers(120, 300),
    st.sampled_from(["front", "back"]),
    st.integers(-40, 40),
)
def test_corners_where_neighbors_touch_lie_on_the_circle(seats, radius, touch, degrees):
    spec = curved(seats, radius, touch, angle_rad=round(math.radians(degrees), 9))
    (row,) = seat_rows(spec)
    middle, radius_m = middle_of_arc(spec), spec.rows[0].curve.radius_m
    touch_m = OPEN.depth_m if touch == "front" else OPEN.rear_of_base_m
    corners = []
    for chair in row.chairs:
        ends = [chair.frame.point((u, touch_m)) for u in (chair.floor.left_m, chair.floor.right_m)]
        assert [math.dist(end, middle) for end in ends] == pytest.approx([radius_m] * 2, abs=UM)
        corners.append(ends)
    for one, other in pairwise(corners):
        assert math.dist(one[1], other[0]) < UM


@pytest.mark.published(source="a chord w of a circle of radius R: 2 asin(w/2R)", standing="derived")
def test_five_chairs_look_at_the_middle_of_the_arc_by_the_chords_angles():
    (row,) = seat_rows(curved())
    inner = 2 * math.asin(30 / (2 * 168))
    outer = 2 * math.asin((23 + 3.5 + 7) / (2 * 168))
    step = (inner + outer) / 2
    wanted = [-inner - step, -inner, 0.0, inner, inner + step]
    angles = [chair.angle_rad for chair in row.chairs]
    assert angles == pytest.approx([wanted[0], wanted[1], 0.0, wanted[3], wanted[4]], abs=0.01)
    assert angles[1:4] == pytest.approx(wanted[1:4], abs=1e-9)
    assert angles[0] == pytest.approx(-angles[4], abs=1e-12)
    middle = row.chairs[2]
    sag = 168 * (1 - math.cos(inner / 2))
    assert middle.x_m == pytest.approx(4.0, abs=UM)
    assert middle.y_m == pytest.approx(1.5 + sag * 0.0254, abs=UM)


@settings(max_examples=30)
@given(st.integers(1, 6), st.integers(120, 300), st.sampled_from(["front", "back"]))
def test_a_curved_row_is_its_own_mirror_image(seats, radius, touch):
    (row,) = seat_rows(curved(seats, radius, touch))
    for one, other in zip(row.chairs, row.chairs[::-1], strict=True):
        assert one.x_m + other.x_m == pytest.approx(8.0, abs=UM)
        assert one.y_m == pytest.approx(other.y_m, abs=UM)
        assert one.angle_rad == pytest.approx(-other.angle_rad, abs=1e-9)


@settings(max_examples=30)
@given(st.integers(1, 5), st.sampled_from([None, "front", "back"]), st.integers(-180, 180))
def test_chairs_look_where_their_row_looks_and_those_on_an_arc_at_its_middle(seats, touch, deg):
    angle = normal_rad(round(math.radians(deg), 9))
    if touch is None:
        row = make_row(seats=seats, center_x_m=4.0, headrest_to_wall_m=4.0, angle_rad=angle)
        spec = make_spec(room=SQUARE, rows=(row,), chairs=(OPEN,), outlets=())
        for chair in seat_rows(spec)[0].chairs:
            assert chair.angle_rad == pytest.approx(angle, abs=1e-12)
        return
    spec = curved(seats, 168, touch, angle_rad=angle)
    middle = middle_of_arc(spec)
    for chair in seat_rows(spec)[0].chairs:
        center = chair.frame.point(((chair.floor.left_m + chair.floor.right_m) / 2, 0.0))
        far_m = math.dist(center, middle)
        look = (-math.sin(chair.angle_rad), math.cos(chair.angle_rad))
        assert center[0] + far_m * look[0] == pytest.approx(middle[0], abs=5 * UM)
        assert center[1] + far_m * look[1] == pytest.approx(middle[1], abs=5 * UM)


@settings(max_examples=20)
@given(st.integers(1, 4), st.integers(1, 3), st.integers(0, 40))
def test_a_row_turned_by_a_quarter_in_a_square_room_is_the_row_turned(seats, quarters, off):
    straight = make_row(seats=seats, headrest_to_wall_m=inch(40), center_x_m=4.0 + inch(off))
    spec = make_spec(room=SQUARE, rows=(straight,), chairs=(OPEN,), outlets=())
    turn = Frame(angle_rad=quarters * math.pi / 2)

    def turned(point):
        x_m, y_m = turn.point((point[0] - 4.0, point[1] - 4.0))
        return (x_m + 4.0, y_m + 4.0)

    x_m, y_m = turned((straight.center_x_m, straight.headrest_to_wall_m))
    row = replace(
        straight,
        center_x_m=round(x_m, 6),
        headrest_to_wall_m=round(y_m, 6),
        angle_rad=normal_rad(round(quarters * math.pi / 2, 9)),
    )
    other = replace(spec, rows=(row,))
    one_zones = mark_zones(spec, seat_rows(spec), NEC)
    other_zones = mark_zones(other, seat_rows(other), NEC)
    for chair in ("A1", f"A{seats}"):
        one = unary_union(
            [Polygon([turned(p) for p in o]) for c, o in one_zones.pinch if c == chair]
        )
        two = unary_union([Polygon(o) for c, o in other_zones.pinch if c == chair])
        assert one.symmetric_difference(two).area < 1e-4
    assert len(one_zones.openings) == len(other_zones.openings)


@pytest.mark.published(
    source="two lines from the arc's middle R away, a chord apart, at the footrest's end",
    standing="derived",
)
def test_cushions_on_an_arc_that_touches_in_front_meet_before_their_footrests_end():
    spec = curved(seats=3)
    found = {
        f.subject: f
        for f in layout_findings(spec, seat_rows(spec), NEC)
        if f.rule == "seats-clear-of-each-other"
    }
    # The end chairs are nearest on their inner side: a whole arm outside, half of one inside.
    half = math.asin((23 + 7 + 3.5) / (2 * 168))
    inner = 23 / 2 + (7 - 3.5) / 2
    left = (168 * math.cos(half) - (66 - 39)) * math.tan(half) - inner
    assert found["row A"].value == pytest.approx(left * math.cos(half) * 0.0254, abs=UM)
    narrow = curved(seats=3, radius=80)
    (stop,) = (
        f
        for f in layout_findings(narrow, seat_rows(narrow), NEC)
        if f.rule == "seats-clear-of-each-other"
    )
    assert stop.stops
    assert "larger radius" in stop.note


def test_turned_rows_that_run_into_each_other_reclined_are_refused():
    one = make_row(seats=3, center_x_m=4.0, headrest_to_wall_m=1.0)
    far = make_row(id="B", seats=3, center_x_m=4.0, headrest_to_wall_m=4.5, angle_rad=0.1)
    for row, stops in ((far, False), (replace(far, headrest_to_wall_m=2.7), True)):
        spec = make_spec(room=SQUARE, rows=(one, row), chairs=(OPEN,), outlets=())
        found = [
            f
            for f in layout_findings(spec, seat_rows(spec), NEC)
            if f.rule in ("seats-clear-of-each-other", "rows-apart")
        ]
        assert [f.subject for f in found] == ["rows A and B"] * 2
        assert any(f.stops for f in found) is stops


@settings(max_examples=40)
@given(
    st.integers(1, 5),
    st.sampled_from([None, "front", "back"]),
    st.integers(-60, 60),
    st.booleans(),
)
def test_pinch_zone_and_openings_together_are_the_swept_floor(seats, touch, degrees, measured):
    kind = OPEN if measured else replace(OPEN, rear_gap_m=None, arm_gap_m=None)
    curve = None if touch is None else Curve(radius_m=inch(168), touch=touch)
    row = make_row(
        seats=seats,
        center_x_m=4.0,
        headrest_to_wall_m=2.0,
        angle_rad=round(math.radians(degrees), 9),
        curve=curve,
    )
    spec = make_spec(room=SQUARE, rows=(row,), chairs=(kind,), outlets=())
    rows = seat_rows(spec)
    zones = mark_zones(spec, rows, NEC)
    swept = unary_union([Polygon(c.outline(c.floor)) for c in rows[0].chairs])
    pinch = [Polygon(outline) for _, outline in zones.pinch]
    opened = unary_union([Polygon(o.outline) for o in zones.openings])
    assert all(piece.is_valid and not piece.interiors for piece in pinch)
    assert unary_union([*pinch, opened]).symmetric_difference(swept.union(opened)).area < 1e-4
    assert unary_union(pinch).intersection(opened).area < 1e-4


def test_wedges_between_chairs_that_touch_in_front_are_covered_and_no_pinch_zone():
    spec = curved(seats=2)
    rows = seat_rows(spec)
    one, two = rows[0].chairs
    rear = OPEN.rear_of_base_m + 0.1
    inner = [one.frame.point((one.floor.right_m, rear)), two.frame.point((two.floor.left_m, rear))]
    spot = Polygon([inner[0], inner[1], (inner[0][0], inner[0][1] + 1e-3)]).centroid
    covered = unary_union([Polygon(outline) for outline in covered_floor(spec, rows, NEC)])
    pinch = unary_union([Polygon(outline) for _, outline in mark_zones(spec, rows, NEC).pinch])
    assert covered.covers(spot)
    assert not pinch.covers(spot)


def test_chairs_that_touch_at_the_back_are_cut_to_their_part_of_the_arc():
    (row,) = seat_rows(curved(seats=3, touch="back"))
    for chair in row.chairs:
        assert len(chair.outline(chair.floor)) == 4
        assert (
            Polygon(chair.outline(chair.floor)).area
            < Polygon(chair.frame.outline(chair.floor)).area
        )
    for one, other in pairwise(row.chairs):
        overlap = Polygon(one.outline(one.floor)).intersection(Polygon(other.outline(other.floor)))
        assert overlap.area < 1e-5


def test_the_gap_behind_a_turned_row_counts_only_where_all_of_it_is_narrow():
    row = make_row(seats=3, headrest_to_wall_m=inch(17), center_x_m=4.0, angle_rad=0.05)
    spec = make_spec(room=SQUARE, rows=(row,), chairs=(OPEN,), outlets=())
    rows = seat_rows(spec)
    covered = unary_union([Polygon(outline) for outline in covered_floor(spec, rows, NEC)])
    for n, chair in enumerate(rows[0].chairs):
        # A shared arm is halved between its two seats.
        half_m = chair.kind.arm_width_m / 2
        left_m = chair.floor.left_m + (half_m if n > 0 else 0.0)
        right_m = chair.floor.right_m - (half_m if n < 2 else 0.0)
        corners = [chair.frame.point((u, 0.0)) for u in (left_m, right_m)]
        deepest_m = max(y_m for _, y_m in corners) / math.cos(0.05)
        behind = Polygon([*corners, (corners[1][0], 0.16), (corners[0][0], 0.16)])
        rest = behind.difference(covered).area
        assert (rest < 0.01) is (deepest_m < inch(18))


@given(
    st.tuples(*[st.floats(-3, 3)] * 2),
    st.floats(-math.pi, math.pi),
    st.floats(-2, 2),
    st.floats(-2, 2),
)
def test_a_place_in_a_frame_and_back_is_the_place(origin, angle, right, ahead):
    frame = Frame(x_m=origin[0], y_m=origin[1], angle_rad=angle)
    back = frame.place(frame.point((right, ahead)))
    assert back == pytest.approx((right, ahead), abs=UM)


def test_outlines_apart_and_in_each_other():
    one = Rect(left_m=0.0, right_m=1.0, back_m=0.0, front_m=1.0).outline
    tilted = Frame(x_m=3.0, y_m=0.5, angle_rad=math.pi / 4).outline(
        Rect(left_m=-0.5, right_m=0.5, back_m=-0.5, front_m=0.5)
    )
    assert apart_m(one, tilted) == pytest.approx(2 - math.sqrt(0.5), abs=UM)
    assert apart_m(tilted, one) == pytest.approx(2 - math.sqrt(0.5), abs=UM)
    inside = tuple((x - 2.2, y) for x, y in tilted)
    assert apart_m(one, inside) == pytest.approx(-(0.2 + math.sqrt(0.5)), abs=0.3)
    assert apart_m(one, inside) < 0
    assert upright(one) is not None
    assert upright(tilted) is None
    assert ROOM.outline(one) == one
