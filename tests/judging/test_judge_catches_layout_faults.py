from dataclasses import replace
from typing import Any

import hand_made
import pytest
from hand_made import edited, found, judged, refused
from support import inch, make_area, make_door, make_riser, make_row

from powerplan.judging.report import Report
from powerplan.model.plan import Plan
from powerplan.model.spec import Door, Riser, Row, Wall

ROW = "row A"


def with_room(record: Plan, **changes: Any) -> Report:
    """Judge a record whose spec has other things in the room."""
    return judged(replace(record, spec=replace(record.spec, **changes)))


def held(report: Report, rule: str, subject: str = ROW) -> tuple[float | None, bool]:
    """The value of a rule, and whether it is refused."""
    return found(report, rule, subject).value, (rule, subject) in refused(report)


@pytest.mark.parametrize(("depth", "spare", "caught"), [("80", 0, False), ("79.9", -0.1, True)])
def test_a_reclined_row_ends_at_the_screen_wall(depth: str, spare: float, caught: bool) -> None:
    record = hand_made.chained()
    room = replace(record.spec.room, depth_m=inch(depth))
    report = with_room(record, room=room)
    assert held(report, "row-fits-walls") == (inch(str(spare)), caught)


@pytest.mark.parametrize(("width", "caught"), [("198.5", False), ("198.4", True)])
def test_a_row_ends_at_the_side_walls(width: str, caught: bool) -> None:
    record = hand_made.chained()
    room = replace(record.spec.room, width_m=inch(width))
    assert held(with_room(record, room=room), "row-fits-walls")[1] is caught


@pytest.mark.parametrize(("back", "caught"), [(5, False), ("4.9", True)])
def test_a_headrest_needs_its_travel_behind_it(back: Any, caught: bool) -> None:
    rows = (make_row(headrest_to_wall_m=inch(back)),)
    report = with_room(hand_made.chained(), rows=rows)
    assert held(report, "headrest-clears-wall")[1] is caught


@pytest.mark.parametrize(("back", "value", "caught"), [(80, 0, False), (78, -2, True)])
def test_an_obstacle_stands_clear_of_the_footrests(back: float, value: float, caught: bool) -> None:
    column = make_area("column", 100, back, 12, 12)
    report = with_room(hand_made.chained(), obstacles=(column,))
    assert held(report, "row-clears-obstacle") == (inch(value), caught)


def test_a_row_in_a_walkway_is_seen() -> None:
    aisle = make_area("aisle", 100, 78, 12, 12)
    report = with_room(hand_made.chained(), walkways=(aisle,))
    [finding] = [one for one in report.findings if one.rule == "row-clears-walkway"]
    assert finding.value == pytest.approx(inch(-2))
    assert not finding.stops


def rows(ahead: float, **changes: Any) -> tuple[Row, Row]:
    """Row A, and row B with its headrests so far from the back wall."""
    return make_row(), make_row(id="B", headrest_to_wall_m=inch(ahead), **changes)


@pytest.mark.parametrize(
    # footrests of row A end 80 in from the wall; row B leans back 5 in
    ("ahead", "value", "caught"),
    [(85, 0, False), (84, -1, True)],
)
def test_footrests_end_before_the_reclined_row_ahead(
    ahead: float, value: float, caught: bool
) -> None:
    report = with_room(hand_made.chained(), rows=rows(ahead))
    assert held(report, "footrest-clears-row-ahead") == (inch(value), caught)


def test_rows_beside_each_other_have_no_footrests_to_fear() -> None:
    report = with_room(hand_made.chained(), rows=rows(50, seats=1, center_x_m=inch(220)))
    rules = {finding.rule for finding in report.findings if finding.subject == ROW}
    assert "footrest-clears-row-ahead" not in rules


@pytest.mark.parametrize(("ahead", "caught"), [(53, False), (52, True)])
def test_rows_do_not_stand_in_each_other(ahead: float, caught: bool) -> None:
    # row A's bases end 14 + 39 = 53 in from the wall
    report = with_room(hand_made.chained(), rows=rows(ahead))
    assert (("rows-apart", "row A and row B") in refused(report)) is caught


def riser(left: float, back: float, width: float, depth: float) -> tuple[Riser, ...]:
    return (make_riser(left, back, width, depth),)


@pytest.mark.parametrize(
    ("risers", "value", "caught"),
    [
        (riser(0, 0, 240, 88), 18, False),  # wholly on it: 18 in behind the bases
        (riser(0, 53, 240, 40), 0, False),  # wholly off it, just
        (riser(0, 0, 240, 40), -13, True),  # the bases end 53 in from the wall
        (riser(60, 0, 180, 88), -18.5, True),  # the row begins 41.5 in from the left
    ],
)
def test_a_row_stands_on_one_level(risers: tuple[Riser, ...], value: float, caught: bool) -> None:
    report = with_room(hand_made.chained(), risers=risers)
    assert held(report, "row-on-one-level") == (inch(value), caught)


@pytest.mark.published(
    source="headrest 8 in off the wall, reach 64 in: a 72 in riser is just enough (no source)",
    standing="common practice",
)
@pytest.mark.parametrize(("deep", "value", "caught"), [(72, 0, False), (71, -1, True)])
def test_a_footrest_ends_on_its_riser(deep: float, value: float, caught: bool) -> None:
    record = hand_made.chained()
    kind = replace(record.spec.chairs[0], reclined_reach_m=inch(64))
    report = with_room(
        record,
        chairs=(kind,),
        rows=(make_row(headrest_to_wall_m=inch(8)),),
        risers=riser(0, 0, 240, deep),
    )
    assert held(report, "footrest-on-riser") == (inch(value), caught)


@pytest.mark.published(
    source="headrest 8 in off the wall, reach 64 in: an 84 in riser leaves 12 in (no source)",
    standing="common practice",
)
def test_what_is_left_in_front_ends_at_the_riser_edge() -> None:
    record = hand_made.chained()
    kind = replace(record.spec.chairs[0], reclined_reach_m=inch(64))
    report = with_room(
        record,
        chairs=(kind,),
        rows=(make_row(headrest_to_wall_m=inch(8)),),
        risers=riser(0, 0, 240, 84),
    )
    assert held(report, "passage-in-front") == (inch(12), False)


def door(wall: Wall, start: float, width: float, swings: str = "in") -> tuple[Door, ...]:
    return (make_door(wall, start, width, swings=swings),)


@pytest.mark.parametrize(
    ("doors", "value", "caught"),
    [
        # the row ends 198.5 in from the left, so a leaf of 41.5 in from the right wall just passes
        (door(Wall.RIGHT, 30, 41.5), 0, False),
        (door(Wall.RIGHT, 30, 42), -0.5, True),
        # hinged at either side: the nearer hinge stands at 85 in, 5 in ahead of the footrests
        (door(Wall.RIGHT, 85, 60), 5, False),
        (door(Wall.SCREEN, 100, 100), 6, False),
    ],
)
def test_a_door_that_swings_in_has_its_room(
    doors: tuple[Door, ...], value: float, caught: bool
) -> None:
    report = with_room(hand_made.chained(), doors=doors)
    assert held(report, "door-free") == (inch(value), caught)


def test_a_leaf_sweeps_a_quarter_circle_and_not_a_square() -> None:
    # a leaf of 60 in hinged at 70 or 130 in from the back; the row's corner is 41.5 in off the
    # wall and 80 in from the back: from the far hinge hypot(41.5, 50) = 64.98 in; from the near
    # one the row begins 41.5 in off: 18.5 in too near
    report = with_room(hand_made.chained(), doors=door(Wall.RIGHT, 70, 60))
    assert held(report, "door-free") == (inch("-18.5"), True)


def test_a_door_that_swings_out_asks_for_nothing() -> None:
    report = with_room(hand_made.chained(), doors=door(Wall.RIGHT, 30, 60, "out"))
    assert "door-free" not in {finding.rule for finding in report.findings}


def test_a_layout_fault_has_to_show_in_the_exit_code() -> None:
    column = make_area("column", 100, 78, 12, 12)
    report = with_room(hand_made.chained(), obstacles=(column,))
    assert ("record-agrees", "decision") in refused(report)


@pytest.mark.parametrize("seats", [4, 5])
def test_an_odd_row_centres_a_chair_and_an_even_row_an_arm(seats: int) -> None:
    # pitch 30 in: four chairs stand at 75, 105, 135 and 165 in
    def edit(plain: Any) -> None:
        plain["spec"]["rows"][0]["seats"] = seats
        for chair, x in zip(plain["chairs"], (75, 105, 135, 165, 195), strict=True):
            chair["x_m"] = inch(x) if seats == 4 else chair["x_m"]

    report = edited(hand_made.chained(), edit)
    wrong = {subject for rule, subject in refused(report) if rule == "record-agrees"}
    notes = [f.note for f in report.findings if f.stops and "x_m" in f.note]
    assert notes == []
    assert ("chair A5" in wrong) is (seats == 4)


def test_a_pair_without_an_arm_moves_its_row_together() -> None:
    # one arm less: the row is 150 in wide from 45 in on; chairs at 63.5, 93.5, 116.5, 146.5, 176.5
    def edit(plain: Any) -> None:
        plain["spec"]["rows"][0]["no_arm_between"] = [[2, 3]]
        for chair, x in zip(plain["chairs"], (63.5, 93.5, 116.5, 146.5, 176.5), strict=True):
            chair["x_m"] = inch(x)

    report = edited(hand_made.chained(), edit)
    assert [f.note for f in report.findings if f.stops and "x_m" in f.note] == []


ZONES = [
    ("a pinch zone left out", lambda zones: zones.pop(0)),
    ("a pinch zone made smaller", lambda zones: zones[0]["outline_m"][0].__setitem__(1, inch(20))),
    ("a clear zone made larger", lambda zones: zones[3]["outline_m"][0].__setitem__(0, inch(50))),
    ("a clear zone left out", lambda zones: zones.pop(3)),
    ("a rear strip called an arm strip", lambda zones: zones[4].update(kind="arm strip")),
    ("a zone of a chair that is not there", lambda zones: zones[4].update(chair="A9")),
    ("a zone of a kind unheard of", lambda zones: zones[4].update(kind="soft")),
    ("a pinch zone moved into a clear zone", lambda zones: zones[0].update(
        outline_m=[[x + 0.1, y] for x, y in zones[0]["outline_m"]])),
    ("a zone without an outline", lambda zones: zones[4].update(outline_m=[])),
]  # fmt: skip


@pytest.mark.parametrize("change", [case[1] for case in ZONES], ids=[case[0] for case in ZONES])
def test_a_zone_edited_by_hand_is_caught(change: Any) -> None:
    report = edited(hand_made.chained(), lambda plain: change(plain["zones"]))
    subjects = {subject for rule, subject in refused(report) if rule == "record-agrees"}
    assert any(subject.startswith("zone") for subject in subjects)
