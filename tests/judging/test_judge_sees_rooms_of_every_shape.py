import copy
import json
import math
from dataclasses import replace
from typing import Any

import hand_made
import pytest
from by_hand import found, judged, judged_plain, points, refused
from moved import QUARTER, turn
from shaped_by_hand import arc, lounge, pieces, standing, walls
from support import inch, make_chair, make_door, make_row, make_spec

from powerplan.judging import paths
from powerplan.judging.floor import read_floor
from powerplan.judging.outlines import depth_m, slices
from powerplan.judging.rows import lay_rows
from powerplan.judging.walls import faces
from powerplan.model.codec import to_plain
from powerplan.model.findings import Outcome
from powerplan.model.geometry import Point
from powerplan.model.plan import Plan
from powerplan.model.spec import PlanSpec, Room, TapeReading, Wall

AGREES = "record-agrees"
ROW = "row A"


def outlined(record: Plan, *corners: tuple[float, float], **changes: Any) -> Plan:
    """A record in a room with those corners, in inches."""
    room = replace(record.spec.room, walls=walls(*points(*corners)), **changes)
    return replace(record, spec=replace(record.spec, room=room))


# a room of 240 by 186 in with a bite out of its front right corner
BITE = ((0, 0), (240, 0), (240, 100), (200, 100), (200, 186), (0, 186))


@pytest.mark.parametrize("name", ["chained", "boxed", "wired_on", "extended"])
def test_a_true_record_in_a_room_with_a_corner_cut_out_is_passed(name: str) -> None:
    assert refused(judged(outlined(getattr(hand_made, name)(), *BITE))) == set()


def leaves(path: tuple[tuple[float, float], ...], *corners: tuple[float, float]) -> bool:
    record = outlined(hand_made.chained(), *(corners or BITE))
    lead = replace(record.cords[0], path_m=points((60, 0), *path, (60, 25)))
    report = judged(replace(record, cords=(lead, *record.cords[1:])))
    return ("cord-has-a-way", "cord W1-A1") in refused(report)


@pytest.mark.parametrize(
    ("path", "out"),
    [
        (((190, 120), (230, 90)), True),  # at 200 in from the left it is 112.5 in from the back
        (((190, 110), (200, 100), (230, 95)), False),  # around the corner, and touching it
        (((200, 186), (200, 100), (240, 100)), False),  # along both walls of the corner
        (((190, 186), ("200.1", 150), (190, 100)), True),
    ],
)
def test_a_cord_may_not_cut_a_corner_through_the_wall(path: Any, out: bool) -> None:
    assert leaves(path) is out


def test_a_cord_between_two_ends_in_the_room_may_not_pass_through_a_wall_between_them() -> None:
    # a U: two halls on either side of a block from 80 to 160 in, open only at the back
    u = ((0, 0), (240, 0), (240, 186), (160, 186), (160, 90), (80, 90), (80, 186), (0, 186))
    assert leaves(((70, 150), (170, 150)), *u)
    assert not leaves(((70, 150), (80, 90), (160, 90), (170, 150), (160, 90)), *u)


@pytest.mark.published(
    source="a wall from (240, 0) to (180, 80): 60, 80, 100; 12 in along are 9.6 in across",
    standing="derived",
)
def test_a_row_keeps_off_a_slanted_wall_by_its_least_distance() -> None:
    # the corner of the reclined row at (198.5, 53.4) is 240 - 0.75 x 53.4 - 198.5 = 1.45 in before
    # the wall, seen across the room: 0.8 x 1.45 = 1.16 in
    record = outlined(hand_made.chained(), (0, 0), (240, 0), (180, 80), (180, 186), (0, 186))
    kind = replace(record.spec.chairs[0], reclined_reach_m=inch("39.4"))
    report = judged(replace(record, spec=replace(record.spec, chairs=(kind,))))
    finding = found(report, "row-fits-walls", ROW)
    assert finding.value == pytest.approx(inch("1.16"), abs=2e-6)
    assert finding.outcome is Outcome.MET
    longer = found(judged(record), "row-fits-walls", ROW)  # footrests at 80 in: wall at 180 in
    assert longer.outcome is Outcome.NOT_MET


@pytest.mark.parametrize(
    ("x", "y", "value"),
    [
        (150, 70, -10),  # the corner stands 10 in deep in the footrests
        (150, 80, 0),
        (150, 90, "9"),  # nearest now: the back wall, 9 in behind the reclined headrests
    ],
)
def test_a_corner_of_the_room_that_stands_in_a_row_is_caught(
    x: float, y: float, value: Any
) -> None:
    corners = ((0, 0), (240, 0), (240, y), (x, y), (x, 186), (0, 186))
    finding = found(judged(outlined(hand_made.chained(), *corners)), "row-fits-walls", ROW)
    assert finding.value == pytest.approx(inch(value), abs=1e-6)
    assert (finding.outcome is Outcome.NOT_MET) is (y < 80)


def test_a_headrest_needs_its_travel_before_the_wall_behind_it_only() -> None:
    # an alcove wall 10 in off the back: 14 in less 10 in are less than the 5 in it leans back
    corners = ((0, 10), (240, 10), (240, 186), (100, 186), (100, 187), (0, 187))
    record = outlined(hand_made.chained(), *corners)
    finding = found(judged(shifted(record)), "headrest-clears-wall", ROW)
    assert finding.value == pytest.approx(inch(-1))


def shifted(record: Plan) -> Plan:
    """The outline moved back to where it starts at 0; the row stays 10 in nearer to the back."""
    room = record.spec.room
    moved = tuple(
        replace(
            wall,
            start=(wall.start[0], round(wall.start[1] - inch(10), 6)),
            end=(wall.end[0], round(wall.end[1] - inch(10), 6)),
        )
        for wall in room.walls
    )
    room = replace(room, walls=moved, depth_m=inch(177))
    row = replace(record.spec.rows[0], headrest_to_wall_m=inch(4))
    return replace(record, spec=replace(record.spec, room=room, rows=(row,)))


@pytest.mark.published(source="3, 4, 5: 180 in and 240 in give 300 in", standing="derived")
@pytest.mark.parametrize(
    ("length", "caught"),
    [(300, False), ("300.5", False), ("299.5", False), ("300.51", True), (310, True), (30, True)],
)
def test_a_mistyped_tape_reading_is_caught(length: Any, caught: bool) -> None:
    record = hand_made.chained()
    corner = (inch(240), inch(180))
    reading = TapeReading(id="diagonal", start=(0.0, 0.0), end=corner, length_m=inch(length))
    room = replace(record.spec.room, depth_m=inch(180))
    report = judged(replace(record, spec=replace(record.spec, room=room, readings=(reading,))))
    assert (("reading-agrees", "reading diagonal") in refused(report)) is caught


def test_a_mirrored_room_is_caught_by_a_reading_across_it() -> None:
    # a corner cut off on the right only: from the back left corner to the cut it is 300 in
    corners = ((0, 0), (320, 0), (320, 90), (240, 180), (0, 180))
    mirrored = ((0, 0), (320, 0), (320, 180), (80, 180), (0, 90))
    for outline, wrong in ((corners, False), (mirrored, True)):
        record = outlined(hand_made.chained(), *outline, width_m=inch(320), depth_m=inch(180))
        cut = points(outline[3])[0]
        reading = TapeReading(id="cut", start=(0.0, 0.0), end=cut, length_m=inch(300))
        report = judged(replace(record, spec=replace(record.spec, readings=(reading,))))
        assert (("reading-agrees", "reading cut") in refused(report)) is wrong


def one_chair(behind: str, angle: float = math.asin(0.28)) -> PlanSpec:
    """A club turned so that sine and cosine are 0.28 and 0.96, headrest so far off the back."""
    row = make_row(seats=1, headrest_to_wall_m=inch(behind), angle_rad=round(angle, 9))
    return make_spec(rows=(row,))


@pytest.mark.published(
    source="18.5 in aside, turned: (12.1 + 18.5 x 0.28) / 0.96 = 18 in behind", standing="derived"
)
@pytest.mark.parametrize(("behind", "covered"), [("12.09", True), ("12.11", False)])
def test_the_gap_behind_a_turned_chair_is_covered_if_it_is_narrow_all_along(
    behind: str, covered: bool
) -> None:
    spec = one_chair(behind)
    rows = lay_rows(spec, inch("61/100"))
    floor = read_floor(spec, rows, inch(6), inch(18))
    pose = rows[0].seats[0].pose
    way = (pose.at(0.0, 0.0), pose.at(0.0, -inch(behind) / 0.96 + 1e-6))
    # from 5 in behind the headrest, where it leans to, to 6 in off the wall
    bare = 0.0 if covered else inch(behind) / 0.96 - inch(5) - inch(6) / 0.96
    assert paths.length_outside_m(way, floor.covered) == pytest.approx(bare, abs=5e-6)


def test_the_strip_along_a_slanted_wall_is_square_to_it_and_stops_at_its_door() -> None:
    corners = points((0, 0), (300, 0), (300, 100), (180, 260), (0, 260))  # 120, 160, 200
    base = make_spec()
    room = replace(base.room, width_m=inch(300), depth_m=inch(260), walls=walls(*corners))
    door = replace(make_door(Wall.BACK, 50, 40), wall="c")
    spec = replace(base, room=room, doors=(door,))
    floor = read_floor(spec, lay_rows(spec, 1.0), inch(6), inch(18))
    slanted = next(wall for wall in faces(room) if wall.id == "c")
    assert slanted.inward == pytest.approx((-0.8, -0.6))
    deep = inch(6) - 1e-5
    for along, covered in ((10, True), (70, False), (120, True)):
        at = slanted.at(inch(along), deep)
        bare = paths.length_outside_m((slanted.at(inch(along), 0.0), at), floor.covered)
        assert (bare < 1e-9) is covered
        beyond = (at, slanted.at(inch(along), deep + 0.1))
        assert paths.length_outside_m(beyond, floor.covered) > 0.09
    ((name, doorway),) = floor.doorways
    assert (name, doorway.area_m2) == ("hall", pytest.approx(inch(40) * inch(6)))


def test_the_floor_of_an_outline_adds_up() -> None:
    # 240 by 186 in less 40 by 86 in
    outline = points(*BITE)
    area = sum(piece.area_m2 for piece in slices(outline))
    assert area == pytest.approx(inch(240) * inch(186) - inch(40) * inch(86))
    assert depth_m(outline, points((203, 96))[0]) == pytest.approx(inch(4))
    assert depth_m(outline, points((203, 104))[0]) == pytest.approx(-inch(3))


def with_readable_outline(corners: tuple[Point, ...], **room: Any) -> str:
    """What the judge says of a record in a room with those corners, in inches."""
    record = outlined(hand_made.chained(), *corners, **room)
    report = judged(record)
    return " ".join(finding.note for finding in report.findings if finding.subject == "the record")


@pytest.mark.parametrize(
    ("corners", "words"),
    [
        (BITE[::-1], "clockwise"),
        (((0, 0), (240, 0)), "fewer than three walls"),
        (((0, 0), (240, 0), (240, 0), (240, 186), (0, 186)), "without length"),
        (((0, 0), (200, 0), (200, 186), (0, 186)), "does not fill"),
        (((0, 0), (240, 0), (0, 186), (240, 186)), "meets itself"),
        (((0, 0), (240, 0), (240, 186), (120, 0), (0, 186)), "meets itself"),
        (((0, 0), (240, 0), (240, 186), (0, 186), (0, 100), (0, 150)), "meets itself"),
    ],
)
def test_an_outline_that_cannot_be_is_refused_in_words(corners: Any, words: str) -> None:
    assert words in with_readable_outline(corners)


def test_an_outline_with_a_wall_left_out_is_refused() -> None:
    record = outlined(hand_made.chained(), *BITE)
    plain = json.loads(json.dumps(to_plain(record)))
    del plain["spec"]["room"]["walls"][2]
    assert any("not closed" in finding.note for finding in judged_plain(plain).findings)


SHAPED = json.loads(
    json.dumps(
        to_plain(
            standing(arc("front"), {"A1": (2.048, 2.236, -0.283794109), "A2": (3.952, 2.236, 0.28)})
        )
    )
)


@pytest.mark.parametrize(
    ("path", "value", "words"),
    [
        ("spec.rows.0.seats", 3, "its pieces 2"),
        ("spec.rows.0.no_arm_between", [[1, 2]], "no_arm_between does not agree"),
        ("spec.rows.0.pieces.0.what", "stool", "is not a piece"),
        ("spec.rows.0.pieces.1.kind", "x", "which is not there"),
        ("spec.rows.0.pieces.1.width_m", 0.0, "no width"),
        ("spec.rows.0.pieces.0.width_m", -0.1, "no width"),
        ("spec.rows.0.pieces.5.what", "gap", ""),
        ("spec.rows.0.curve.radius_m", 0.69, "too small"),
        ("spec.rows.0.curve.radius_m", 0.71, ""),
        ("spec.rows.0.curve.radius_m", -1.0, "too small"),
        ("spec.rows.0.curve.touch", "side", "neither front nor back"),
        ("spec.rows.0.angle_rad", 1e300, "larger than anything"),
        ("spec.chairs.0.powered", False, ""),
    ],
)
def test_a_row_that_cannot_be_is_refused_in_words(path: str, value: Any, words: str) -> None:
    plain = copy.deepcopy(SHAPED)
    *way, last = (int(key) if key.isdigit() else key for key in path.split("."))
    place: Any = plain
    for key in way:
        place = place[key]
    place[last] = value
    notes = [
        finding.note
        for finding in judged_plain(plain).findings
        if finding.subject == "the record" and finding.note
    ]
    assert notes == [] if not words else any(words in note for note in notes)


def test_seats_that_share_a_cushion_are_named_and_arms_stand_beside_seats() -> None:
    spec = arc("front")
    for names, pairs, words in (
        (("arm", "seat", "seat", "arm"), (), "no_arm_between"),
        (("arm", "seat", "seat", "arm"), ((1, 2),), ""),
        (("arm", "arm", "seat", "seat", "arm"), ((1, 2),), "beside no seat"),
    ):
        row = replace(
            spec.rows[0],
            pieces=pieces("lounge", *names),
            no_arm_between=pairs,
        )
        places = {"A1": (2.0, 2.0, 0.0), "A2": (4.0, 2.0, 0.0)}
        report = judged(standing(replace(spec, rows=(row,)), places))
        notes = [f.note for f in report.findings if f.subject == "the record" and f.note]
        assert any(words in note for note in notes) if words else notes == []


def test_kinds_that_touch_on_different_circles_are_refused() -> None:
    spec = arc("front")
    deeper = lounge(id="deep", depth_m=1.1)
    listed = spec.rows[0].pieces
    row = replace(spec.rows[0], pieces=(*listed[:4], replace(listed[4], kind="deep"), listed[5]))
    record = standing(
        replace(spec, chairs=(*spec.chairs, deeper), rows=(row,)),
        {"A1": (2.0, 2.0, 0.0), "A2": (4.0, 2.0, 0.0)},
    )
    notes = [finding.note for finding in judged(record).findings if finding.stops]
    assert any("one circle" in note for note in notes)


def test_a_quarter_turn_leaves_a_row_before_a_narrow_wall_what_it_had() -> None:
    turned = turn(hand_made.chained(), QUARTER)
    assert turned.spec.room.width_m == inch(186)
    assert isinstance(turned.spec.room, Room)
    finding = found(judged(turned), "headrest-clears-wall", ROW)
    assert finding.value == pytest.approx(inch(9))
    assert make_chair().back_travel_m == inch(5)
