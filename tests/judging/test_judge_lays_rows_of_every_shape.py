import math
from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest
from by_hand import found, judged, refused
from shaped_by_hand import Place, arc, around, lounge, standing, unfed
from support import inch, make_chair, make_row, make_spec

from powerplan.judging import paths
from powerplan.judging.convex import depth_inside_m
from powerplan.judging.floor import read_floor
from powerplan.judging.rows import lay_rows
from powerplan.model.findings import Outcome
from powerplan.model.plan import Plan, Zone
from powerplan.model.spec import Piece, PlanSpec, TableKind

AGREES = "record-agrees"
NEEDED_M = inch(Fraction(61, 100))
BEND = math.asin(0.28)


def strays(record: Plan) -> set[str]:
    """Chairs that do not stand where the judge works them out to stand."""
    report = judged(record)
    return {subject for rule, subject in refused(report) if subject.startswith("chair")}


# the arc's middle is 2.5 + t ahead of the row's place, a chair 2.5 x 0.96 + t off it, turned by the
# angle of which the sine is 0.28: aside 0.28 (2.4 + t), ahead 2.5 + t - 0.96 (2.4 + t)
ON_THE_CIRCLE = [
    ("front", 0.952, 0.236),  # t = 1.0
    ("back", 0.7, 0.2),  # t = 0.1
]


@pytest.mark.published(
    source="chord of 1.4 m in a circle of 2.5 m: sine 0.28, cosine 0.96", standing="derived"
)
@pytest.mark.parametrize(("touch", "aside", "ahead"), ON_THE_CIRCLE)
@pytest.mark.parametrize("angle", [0.0, math.atan2(3, 4), -2.0, math.pi])
def test_chairs_of_a_curved_row_stand_as_chords(
    touch: str, aside: float, ahead: float, angle: float
) -> None:
    cos, sin = math.cos(angle), math.sin(angle)
    places: dict[str, Place] = {
        name: (
            3.0 + side * aside * cos - ahead * sin,
            2.0 + side * aside * sin + ahead * cos,
            math.remainder(angle + side * BEND, math.tau),
        )
        for name, side in (("A1", -1), ("A2", 1))
    }
    record = standing(arc(touch, angle_rad=round(angle, 9)), places)
    assert strays(record) == set()
    for change in ({"x_m": 5e-6}, {"y_m": 5e-6}, {"angle_rad": 1e-6}):
        chair = record.chairs[1]
        moved = replace(chair, **{key: getattr(chair, key) + by for key, by in change.items()})
        assert strays(replace(record, chairs=(record.chairs[0], moved))) == {"chair A2"}


def test_neighbors_of_a_curved_row_touch_on_its_circle() -> None:
    for touch, t in (("front", 1.0), ("back", 0.1)):
        row = lay_rows(arc(touch), NEEDED_M)[0]
        middle = row.pose.at(0.0, 2.5 + t)
        left, right = (seat.pose for seat in row.seats)
        assert left.at(0.7, t) == pytest.approx(right.at(-0.7, t), abs=1e-12)
        for pose, u in ((left, -0.7), (left, 0.7), (right, 0.7)):
            assert math.dist(pose.at(u, t), middle) == pytest.approx(2.5, abs=1e-12)


def two_places(touch: str) -> dict[str, Place]:
    aside, ahead = {touch: (a, b) for touch, a, b in ON_THE_CIRCLE}[touch]
    return {
        "A1": (3.0 - aside, 2.0 + ahead, -BEND),
        "A2": (3.0 + aside, 2.0 + ahead, BEND),
    }


# behind, the chairs gape: nothing is cut. At the back, lines from the middle, 2.5 m ahead of the
# headrests, through the corners 0.7 m aside and 0.1 m ahead: 1.3 m ahead they are 0.35 m aside
FLOORS = {
    "front": ((-0.7, 0.1), (0.7, 0.1), (0.7, 1.3), (-0.7, 1.3)),
    "back": ((-0.7, 0.1), (0.7, 0.1), (0.35, 1.3), (-0.35, 1.3)),
}


def drawn(touch: str, floor: tuple[tuple[float, float], ...]) -> Plan:
    places = two_places(touch)
    zones = tuple(
        Zone(chair=name, kind="pinch", outline_m=around(place, *floor))
        for name, place in places.items()
    )
    return standing(arc(touch), places, zones)


@pytest.mark.parametrize("touch", ["front", "back"])
def test_the_pinch_zone_of_a_curved_row_is_cut_where_chairs_touch_behind(touch: str) -> None:
    other = "back" if touch == "front" else "front"
    assert (AGREES, "zones of row A") not in refused(judged(drawn(touch, FLOORS[touch])))
    assert (AGREES, "zones of row A") in refused(judged(drawn(touch, FLOORS[other])))
    smaller = tuple((u * 0.99, v) for u, v in FLOORS[touch])
    assert (AGREES, "zones of row A") in refused(judged(drawn(touch, smaller)))


@pytest.mark.published(
    source="a corner 0.45 m aside where the line is 0.35 m aside and leans 0.7 in 2.4",
    standing="derived",
)
def test_a_cushion_past_the_line_between_neighbors_is_caught() -> None:
    report = judged(drawn("back", FLOORS["back"]))
    finding = found(report, "seats-clear-of-each-other", "row A")
    assert finding.value == pytest.approx(-0.1 * 0.96, abs=1e-6)
    assert finding.outcome is Outcome.NOT_MET


def test_cushions_within_their_lines_are_passed() -> None:
    # on a circle of 7 m the lines are nearly parallel: 0.7 m aside at 0.1 m, 0.58 at 1.3 m
    spec = arc("back", radius_m=7.0)
    half = math.asin(0.1)
    away, far = 7.0 * math.cos(half) + 0.1, 7.1
    places: dict[str, Place] = {
        name: (3.0 + side * away * 0.1, 2.0 + far - away * math.cos(half), side * half)
        for name, side in (("A1", -1), ("A2", 1))
    }
    report = judged(standing(spec, places))
    assert found(report, "seats-clear-of-each-other", "row A").outcome is Outcome.MET
    assert "chair A1" not in {subject for _, subject in refused(report)}


def floor_of(spec: PlanSpec) -> Any:
    rows = lay_rows(spec, NEEDED_M)
    return read_floor(spec, rows, inch(6), inch(18))


def test_the_wedge_between_neighbors_that_touch_in_front_is_covered_and_no_pinch_zone() -> None:
    floor = floor_of(arc("front"))
    # chairs touch 1 m ahead of the row's place, on its axis; the wedge gapes back from there
    way = ((3.0, 2.2), (3.0, 2.95))
    assert paths.length_outside_m(way, floor.covered) == pytest.approx(0.0, abs=1e-9)
    inside = [name for name, piece in floor.solids if paths.length_inside_m(way, piece) > 0.0]
    assert inside == []
    beyond = ((3.0, 3.01), (3.0, 3.2))  # the footrests' floor overlaps there
    assert any(paths.length_inside_m(beyond, piece) > 0.1 for _, piece in floor.solids)


def mixed(**changes: Any) -> PlanSpec:
    """From the left: arm 0.2, seat 0.6, shared arm 0.3, seat 0.8, gap 0.1, arm 0.2, seat 0.6, table
    0.4 and a seat without arms 0.6: 3.8 m in all, so from 1.1 m to 4.9 m in a room of 6 m."""
    slim = lounge(id="slim", seat_width_m=0.6, reclined_reach_m=1.2)
    listed = (
        Piece(what="arm", kind="slim", width_m=0.2),
        Piece(what="seat", kind="slim", width_m=0.6),
        Piece(what="arm", kind="lounge", width_m=0.3),
        Piece(what="seat", kind="lounge", width_m=0.8),
        Piece(what="gap", kind=None, width_m=0.1),
        Piece(what="arm", kind="slim", width_m=0.2),
        Piece(what="seat", kind="slim", width_m=0.6),
        Piece(what="table", kind="tray", width_m=0.4),
        Piece(what="seat", kind="slim", width_m=0.6),
    )
    row = make_row(
        chair="slim", seats=4, headrest_to_wall_m=1.0, center_x_m=3.0, pieces=listed, **changes
    )
    tray = TableKind(id="tray", width_m=0.4, rear_m=0.2, front_m=0.9, under_m=None)
    base = make_spec(chairs=(lounge(), slim), rows=(row,), tables=(tray,), **unfed())
    return replace(base, room=replace(base.room, width_m=6.0, depth_m=5.0))


MIXED_X = {"A1": 1.6, "A2": 2.6, "A3": 3.6, "A4": 4.6}


def mixed_record(turn: float = 0.0) -> Plan:
    cos, sin = math.cos(turn), math.sin(turn)
    places: dict[str, Place] = {
        name: (3.0 + (x - 3.0) * cos, 1.0 + (x - 3.0) * sin, turn) for name, x in MIXED_X.items()
    }
    return standing(mixed(angle_rad=round(turn, 9)), places)


@pytest.mark.parametrize("turn", [0.0, 0.4, -math.pi / 2])
def test_seats_of_a_mixed_row_stand_where_the_widths_add_up_to(turn: float) -> None:
    record = mixed_record(turn)
    assert strays(record) == set()
    moved = replace(record.chairs[3], x_m=record.chairs[3].x_m + 1e-5)
    assert strays(replace(record, chairs=(*record.chairs[:3], moved))) == {"chair A4"}


def test_a_shared_arm_is_floor_of_both_chairs_and_drawn_once() -> None:
    # A1 from 1.1 to its own half of the arm at 2.05 (all of it: 2.2), A2 from there to 3.0
    row = lay_rows(mixed(), NEEDED_M)[0]
    spans = {
        seat.id: (seat.pose.x_m - seat.halves[0], seat.pose.x_m + seat.halves[1])
        for seat in row.seats
    }
    assert spans["A1"] == pytest.approx((1.1, 2.2))
    assert spans["A2"] == pytest.approx((1.9, 3.0))
    assert spans["A3"] == pytest.approx((3.1, 3.9))
    assert spans["A4"] == pytest.approx((4.3, 4.9))

    def zones(middle: float) -> tuple[Zone, ...]:
        sides = {"A1": (1.1, middle), "A2": (middle, 3.0), "A3": (3.1, 3.9), "A4": (4.3, 4.9)}
        reach = {"A2": 2.3}
        return tuple(
            Zone(
                chair=name,
                kind="pinch",
                outline_m=(
                    (a, 1.1),
                    (b, 1.1),
                    (b, reach.get(name, 2.2)),
                    (a, reach.get(name, 2.2)),
                ),
            )
            for name, (a, b) in sides.items()
        )

    record = mixed_record()
    told = {subject for _, subject in refused(judged(replace(record, zones=zones(2.05))))}
    assert "zones of row A" not in told
    for listed in (zones(1.8), zones(2.05)[:3]):
        assert (AGREES, "zones of row A") in refused(judged(replace(record, zones=listed)))


@pytest.mark.parametrize(
    ("under", "solid"), [(None, True), ("0.6", True), ("0.61", False), ("2", False)]
)
def test_a_table_keeps_cords_off_unless_they_fit_under_it(under: str | None, solid: bool) -> None:
    spec = mixed()
    tray = replace(spec.tables[0], under_m=None if under is None else inch(under))
    names = {name for name, _ in floor_of(replace(spec, tables=(tray,))).solids}
    assert ("table tray" in names) is solid


def test_a_table_at_the_end_of_a_row_has_to_be_in_the_room_too() -> None:
    spec = mixed()
    listed = spec.rows[0].pieces
    row = replace(spec.rows[0], seats=3, pieces=listed[:-1], center_x_m=4.5)
    # 3.2 m wide, so it ends at 6.1 m: the table stands 0.1 m in the wall
    record = standing(replace(spec, rows=(row,)), {f"A{n}": (3.0, 1.0, 0.0) for n in (1, 2, 3)})
    finding = found(judged(record), "row-fits-walls", "row A")
    assert (finding.value, finding.outcome) == (-0.1, Outcome.NOT_MET)


def strips(spec: PlanSpec) -> set[tuple[str, str]]:
    row = lay_rows(spec, NEEDED_M)[0]
    return {(opening.chair, opening.kind) for opening in row.openings}


def between(*names: tuple[str, str], under: str | None = None, **other: Any) -> PlanSpec:
    """Two clubs with gaps high enough for a cord, and those pieces between them."""
    club = make_chair(arm_gap_m=inch("3/2"))
    tight = make_chair(id="tight", arm_gap_m=inch("1/4"))
    tray = TableKind(
        id="tray", width_m=0.3, rear_m=0.2, front_m=0.9, under_m=inch(under) if under else None
    )
    seat = Piece(what="seat", kind="club", width_m=inch(23))
    row = make_row(
        seats=2,
        pieces=(
            seat,
            *(Piece(what=what, kind=kind or None, width_m=0.2) for what, kind in names),
            replace(seat, kind=other.get("second", "club")),
        ),
        no_arm_between=() if names else ((1, 2),),
    )
    return make_spec(chairs=(club, tight), rows=(row,), tables=(tray,))


@pytest.mark.parametrize(
    ("spec", "open_"),
    [
        (between(("arm", "club")), True),
        (between(("arm", "tight")), False),
        (between(("arm", "club"), ("arm", "tight")), False),
        (between(("arm", "club"), ("gap", ""), ("arm", "club")), True),
        (between(("arm", "club"), ("table", "tray"), ("arm", "club")), False),
        (between(("arm", "club"), ("table", "tray"), ("arm", "club"), under="2"), True),
        (between(("gap", "")), False),  # nobody measured the side of a cushion
        (between(), False),
    ],
    ids=["arm", "low arm", "one low arm", "gap", "table", "open table", "no arm", "nothing"],
)
def test_a_cord_passes_between_seats_only_under_what_was_measured(
    spec: PlanSpec, open_: bool
) -> None:
    assert (("A1", "arm strip") in strips(spec)) is open_


def test_a_chair_that_nobody_measured_has_no_opening_and_opens_none_beside_it() -> None:
    spec = between(("arm", "club"))
    kind = replace(spec.chairs[0], id="sheet", measured=False)
    pieces_ = (*spec.rows[0].pieces[:2], replace(spec.rows[0].pieces[2], kind="sheet"))
    row = replace(spec.rows[0], pieces=pieces_)
    found_ = strips(replace(spec, chairs=(*spec.chairs, kind), rows=(row,)))
    assert found_ == {("A1", "clear"), ("A1", "rear strip")}


def test_an_arm_strip_of_a_mixed_row_is_as_deep_as_both_clear_zones() -> None:
    spec = between(("arm", "club"))
    zone = spec.chairs[0].clear
    assert zone is not None
    # one from 9 in to 21 in, the other from 12 in to 30 in: 12 in to 21 in in common
    deep = replace(spec.chairs[0], id="deep", clear=replace(zone, from_m=inch(12), to_m=inch(30)))
    listed = (*spec.rows[0].pieces[:2], replace(spec.rows[0].pieces[2], kind="deep"))
    row = lay_rows(
        replace(spec, chairs=(*spec.chairs, deep), rows=(replace(spec.rows[0], pieces=listed),)),
        NEEDED_M,
    )[0]
    strip = next(opening for opening in row.openings if opening.kind == "arm strip")
    (piece,) = strip.pieces
    # from 7 in right of A1 to 7 in left of A2: 4.5 + 4.5 in of cushion and 0.2 m of arm
    assert piece.area_m2 == pytest.approx((2 * inch("9/2") + 0.2) * inch(9), abs=1e-9)
    assert strip.across_m == pytest.approx(inch(9))


def test_the_floor_of_a_gap_in_a_row_is_nobodys() -> None:
    spec = mixed()
    row = lay_rows(spec, NEEDED_M)[0]
    assert not any(depth_inside_m(piece, (3.05, 1.5)) > 0.0 for piece in row.pinch)
    assert any(depth_inside_m(piece, (2.5, 1.5)) > 0.0 for piece in row.pinch)
