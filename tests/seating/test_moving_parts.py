"""Moving parts: what they sweep, and that they only ever add to the pinch zone."""

import math
from dataclasses import replace

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from laws import held_over
from shapely import Point, Polygon, affinity
from shapely.ops import unary_union
from support import NEC, inch, make_chair, make_row, make_spec

from powerplan.engineering.boxes.marks import BoxSpot, mark_box
from powerplan.engineering.seating.poses import seat_rows
from powerplan.engineering.seating.zones import CLEAR, mark_zones
from powerplan.inputs.moving_parts import hull, sector, swept
from powerplan.model.seats import MovingPart, Piece
from powerplan.model.spec import Curve

OPEN = make_chair(arm_gap_m=inch("3/2"))


def box(left, right, back, front):
    return tuple(
        (inch(x), inch(y)) for x, y in ((left, back), (right, back), (right, front), (left, front))
    )


def zones_of(parts, curve=None, seats=3, **changes):
    kind = replace(OPEN, parts=tuple(parts))
    row = make_row(seats=seats, headrest_to_wall_m=inch(30), curve=curve, **changes)
    spec = make_spec(rows=(row,), chairs=(kind,), outlets=())
    return spec, mark_zones(spec, seat_rows(spec), NEC)


def pinch(zones):
    return unary_union([Polygon(outline) for _, outline in zones.pinch])


@pytest.mark.published(
    source="a rectangle a by b shifted by d along a sweeps b (a + d)", standing="derived"
)
def test_a_part_that_travels_straight_sweeps_its_width_times_its_way():
    shift = inch(11)
    start = box(-9, 9, 30, 34)
    end = tuple((x, y + shift) for x, y in start)
    (whole,) = swept((start, end))
    assert Polygon(whole).area == pytest.approx(inch(18) * inch(15), rel=1e-9)
    slanted = tuple((x + inch(5), y + inch(5)) for x, y in start)
    (other,) = swept((start, slanted))
    assert Polygon(other).area == pytest.approx(
        inch(18) * inch(4) + inch(5) * (inch(18) + inch(4)), rel=1e-9
    )


@held_over(60)
@given(
    st.lists(st.tuples(st.integers(-20, 20), st.integers(0, 60)), min_size=3, max_size=7),
    st.tuples(st.integers(-20, 20), st.integers(-10, 40)),
    st.lists(st.integers(-170, 170), min_size=1, max_size=3),
)
def test_a_swing_never_sweeps_more_than_its_sector(corners, pivot, turns):
    first = hull([(inch(x), inch(y)) for x, y in corners])
    if len(first) < 3:
        return
    about = (inch(pivot[0]), inch(pivot[1]))
    shape = Polygon(first)
    places, angle = [first], 0
    for turn in turns:
        angle += turn
        moved = affinity.rotate(shape, angle, origin=about)
        places.append(hull([(round(x, 6), round(y, 6)) for x, y in moved.exterior.coords[:-1]]))
    pieces = [Polygon(outline) for outline in sector(about, places)]
    assert all(piece.is_valid and piece.exterior.is_ccw for piece in pieces)
    assert all(piece.convex_hull.area == pytest.approx(piece.area, abs=1e-9) for piece in pieces)
    held = unary_union(pieces).buffer(1e-5)
    angle = 0
    for turn in turns:
        for step in range(11):
            there = affinity.rotate(shape, angle + turn * step / 10, origin=about)
            assert held.covers(there)
        angle += turn


@pytest.mark.published(
    source="a ring's sector: half the angle times the squares' difference", standing="derived"
)
def test_a_sector_is_hardly_more_than_between_its_two_distances():
    arm = box(10, 20, -0.5, 0.5)
    turned = tuple((-y, x) for x, y in arm)
    area = sum(Polygon(outline).area for outline in sector((0.0, 0.0), (arm, turned)))
    least = (math.pi / 2) / 2 * (20**2 - 10**2) * 0.0254**2
    assert least < area < 1.15 * least


@held_over(40)
@given(
    st.integers(-15, 10),
    st.integers(2, 20),
    st.integers(0, 60),
    st.integers(1, 20),
    st.sampled_from([None, 0.001, 0.05]),
    st.sampled_from([None, "front", "back"]),
    st.integers(-30, 30),
)
@example(0, 7, 0, 6, None, None, 2)  # leaves of an opening a piece thinner than a micrometer
def test_parts_only_ever_add_to_the_pinch_zone(left, wide, back, deep, gap, touch, degrees):
    curve = None if touch is None else Curve(radius_m=inch(200), touch=touch)
    turned = round(math.radians(degrees), 9)
    outline = box(left, left + wide, back, back + deep)
    part = MovingPart(id="footrest", outlines=(outline,), least_gap_m=gap)
    _, bare = zones_of((), curve, angle_rad=turned)
    spec, zones = zones_of((part,), curve, angle_rad=turned)
    assert pinch(bare).difference(pinch(zones)).area < 1e-4
    opened = unary_union([Polygon(opening.outline) for opening in zones.openings])
    assert pinch(zones).intersection(opened).area < 1e-4
    for chair in seat_rows(spec)[0].chairs:
        moves = Polygon(
            chair.frame.outline(tuple((chair.spot[0] + u, chair.spot[1] + v) for u, v in outline))
        )
        rest = moves.difference(pinch(zones))
        if gap == 0.05:
            rest = rest.difference(opened)
        assert rest.area < 1e-4


def test_a_low_part_across_the_clear_zone_closes_it_and_a_high_one_does_not():
    across = MovingPart(id="bar", outlines=(box(-20, 20, 14, 16),), least_gap_m=inch("1/4"))
    _, closed = zones_of((across,))
    _, opened = zones_of((replace(across, least_gap_m=inch(3)),))
    assert sum(o.kind == CLEAR for o in closed.openings) == 6
    assert sum(o.kind == CLEAR for o in opened.openings) == 3
    middle = Point(seat_rows(zones_of(())[0])[0].chairs[0].x_m, inch(30 + 15))
    assert pinch(closed).covers(middle)
    assert not pinch(opened).covers(middle)


def test_a_box_keeps_its_lid_out_of_a_low_part_and_its_plug_under_a_high_one():
    low = MovingPart(id="bar", outlines=(box(-20, 20, 18, 21),), least_gap_m=inch("1/4"))
    bare_spec, bare = zones_of(())
    spec, zones = zones_of((low,))
    chair = seat_rows(spec)[0].chairs[1]
    free = mark_box(bare_spec, chair, bare, NEC)
    kept = mark_box(spec, chair, zones, NEC)
    assert isinstance(free, BoxSpot)
    assert isinstance(kept, BoxSpot)
    assert free.mark[1] == pytest.approx(inch(45), abs=1e-9)
    assert kept.mark[1] + inch(3) <= inch(48) + 1e-9
    assert "moving part bar" in kept.moved_because
    plug = replace(low, least_gap_m=inch(1))
    assert mark_box(spec, chair, zones_of((plug,))[1], NEC).mark == kept.mark
    high = replace(low, least_gap_m=inch(3))
    assert mark_box(spec, chair, zones_of((high,))[1], NEC).mark == free.mark


def test_what_a_part_leaves_of_an_opening_is_never_thinner_than_rounding():
    """On an arc of unlike chairs the edge of a part runs along a strip under an arm: what is left
    beside it is no hair, and openings can be joined."""
    bar = MovingPart(id="bar", outlines=(box(-4, 4, 9, 40),), least_gap_m=None)
    widths = {"club": ("197/8", "17/4"), "still": ("205/8", "59/8"), "other": ("25", "57/8")}
    club, still, other = (
        replace(OPEN, id=name, seat_width_m=inch(seat), arm_width_m=inch(arm), rear_gap_m=inch(gap))
        for (name, (seat, arm)), gap in zip(widths.items(), ("1/4", "3/2", "3/2"), strict=True)
    )
    kinds = (
        replace(club, reclined_reach_m=inch("485/8"), parts=(bar,)),
        replace(still, reclined_reach_m=inch("503/8"), powered=False),
        replace(other, reclined_reach_m=inch(62)),
    )
    pieces = [Piece(what="arm", kind="club", width_m=inch("17/4"))]
    for name, arm in (("club", "59/8"), ("still", "59/8"), ("club", "57/8"), ("other", "57/8")):
        pieces.append(Piece(what="seat", kind=name, width_m=inch(widths[name][0])))
        pieces.append(Piece(what="arm", kind=name, width_m=inch(arm)))
    row = make_row(
        seats=4,
        headrest_to_wall_m=inch(50),
        center_x_m=inch(125),
        pieces=tuple(pieces),
        curve=Curve(radius_m=inch(150), touch="front"),
    )
    spec = make_spec(rows=(row,), chairs=kinds, outlets=())
    zones = mark_zones(spec, seat_rows(spec), NEC)
    assert zones.openings
    for opening in zones.openings:
        left = Polygon(opening.outline)
        assert left.is_valid
        assert not left.buffer(-2e-6).is_empty
