"""Boxes under turned chairs, moving parts, and rows where not every chair takes a current."""

import math
from dataclasses import replace
from fractions import Fraction
from typing import Any

import hand_made
import pytest
from by_hand import found, judged, points, refused
from moved import turn
from shaped_by_hand import part
from support import inch, make_area, make_chain

from powerplan.model.plan import Drift, Plan
from powerplan.model.spec import MovingPart, Piece

AGREES = "record-agrees"
BOX = "box A3"
TURN = math.atan2(3, 4)  # sine 0.6, cosine 0.8


def cornered(half_width: float, half_depth: float) -> tuple[tuple[float, float], ...]:
    """A rectangle around the middle of A3's clear zone, in inches of the row's own frame."""
    x, y = 120, 29
    return points(
        (x - half_width, y - half_depth),
        (x + half_width, y - half_depth),
        (x + half_width, y + half_depth),
        (x - half_width, y + half_depth),
    )


def turned_box(
    *,
    may_sit: tuple[float, float] = (2.8, 1.8),
    drift: float = 1.25,
    mark: tuple[float, float] = (120, 29),
) -> Plan:
    """The hand-made box in a room that is turned until 3, 4, 5.

    The lid of 6 in stays square to the room: toward the turned sides of the clear zone it reaches
    3 x 0.8 + 3 x 0.6 = 4.2 in, which leaves 7 - 4.2 = 2.8 in aside and 6 - 4.2 = 1.8 in along. A
    move of d in either direction of the room comes 1.4 d nearer to a side at most: d = 1.285 in.
    """
    record = hand_made.boxed()
    x, y = points(mark)[0]
    box = replace(record.boxes[0], may_sit_m=(cornered(*may_sit),), x_m=x, y_m=y)
    turned = turn(replace(record, boxes=(box,)), TURN)
    by_m = inch(Fraction(drift))
    everywhere = Drift(left_m=by_m, right_m=by_m, back_m=by_m, screen_m=by_m)
    return replace(turned, boxes=(replace(turned.boxes[0], drift=everywhere),))


@pytest.mark.published(
    source="3, 4, 5: a lid of 6 in reaches 4.2 in toward a side turned by it", standing="derived"
)
def test_a_box_square_to_the_room_under_a_turned_chair_is_passed() -> None:
    assert refused(judged(turned_box())) == set()


@pytest.mark.parametrize(("drift", "caught"), [(1.28, False), (1.29, True)])
def test_drift_under_a_turned_chair_holds_in_every_corner(drift: float, caught: bool) -> None:
    report = judged(turned_box(drift=drift))
    assert ((AGREES, BOX) in refused(report)) is caught


@pytest.mark.parametrize(
    ("may_sit", "caught"), [((4, 3), True), ((2.8, 1.9), True), ((2.9, 1), True), ((2.6, 1), False)]
)
def test_floor_for_a_box_may_be_less_and_never_more_under_a_turned_chair(
    may_sit: Any, caught: bool
) -> None:
    report = judged(turned_box(may_sit=may_sit))
    assert ((AGREES, BOX) in refused(report)) is caught


@pytest.mark.parametrize(
    ("mark", "caught"),
    [((120, 30.8), False), ((120, 30.9), True), ((117.2, 29), False), ((117.1, 29), True)],
)
def test_a_lid_over_the_edge_of_a_turned_clear_zone_is_caught(mark: Any, caught: bool) -> None:
    report = judged(turned_box(mark=mark, drift=0))
    assert (("box-has-a-place", BOX) in refused(report)) is caught


def test_floor_where_nothing_is_cut_keeps_a_turned_box_off_square_to_the_room() -> None:
    record = turned_box(drift=0)
    box = record.boxes[0]
    # from 2.75 in right of the mark on: half the cut-out of 4 in and 3/4 in of wood
    duct = make_area("duct", 0, 0, 10, 400)
    clear = duct.rect.left_m - duct.rect.left_m + box.x_m + inch("2.75")
    area = replace(duct, rect=replace(duct.rect, left_m=clear, right_m=clear + 0.1))
    report = judged(replace(record, spec=replace(record.spec, no_cut=(area,))))
    assert ("box-clears-no-cut", BOX) not in refused(report)
    assert (AGREES, BOX) in refused(report), "half of the stated floor is not allowed now"
    nearer = replace(area, rect=replace(area.rect, left_m=clear - 1e-5))
    report = judged(replace(record, spec=replace(record.spec, no_cut=(nearer,))))
    assert ("box-clears-no-cut", BOX) in refused(report)


def test_a_box_under_a_chair_that_nobody_measured_is_provisional() -> None:
    record = hand_made.boxed()
    kind = replace(record.spec.chairs[0], measured=False)
    report = judged(replace(record, spec=replace(record.spec, chairs=(kind,))))
    notes = [f.note for f in report.findings if f.subject == BOX and f.stops]
    assert any("provisional" in note for note in notes)


def with_part(record: Plan, moving: MovingPart) -> Plan:
    kind = replace(record.spec.chairs[0], parts=(moving,))
    return replace(record, spec=replace(record.spec, chairs=(kind,)))


# the lead of A1 and all links pass over the rear strips, 4 to 9 in ahead of the headrests
@pytest.mark.parametrize(
    ("moving", "caught"),
    [
        (part(-2, 2, 5, 8), True),
        (part(-2, 2, 5, 8, 0.25), True),
        (part(-2, 2, 5, 8, 1.5), False),
        (part(-2, 2, 40, 50), False),  # in the pinch zone as it is
    ],
    ids=["not measured", "low", "high", "under the footrest"],
)
@pytest.mark.parametrize("angle", [0.0, TURN])
def test_a_part_that_comes_down_into_an_opening_takes_it(
    moving: MovingPart, caught: bool, angle: float
) -> None:
    report = judged(with_part(turn(hand_made.chained(), angle), moving))
    assert (("cord-clear-of-mechanism", "cord W1-A1") in refused(report)) is caught
    assert ((AGREES, "zones of row A") in refused(report)) is caught


def test_a_part_beyond_the_chair_adds_to_its_pinch_zone_however_high() -> None:
    # 1 to 3 in behind the headrest line: the row's lead passes there
    report = judged(with_part(hand_made.chained(), part(-2, 2, -3, -1, 3)))
    assert (AGREES, "zones of row A") in refused(report)
    assert ("cord-clear-of-mechanism", "cord W1-A1") in refused(report)


def test_a_lid_keeps_off_a_part_that_comes_down_beside_it() -> None:
    # the lid ends 3 in right of the middle line; the part starts there, or a hair before
    for left, caught in ((3, False), (2.99, True)):
        report = judged(with_part(hand_made.boxed(), part(left, 5, 14, 16)))
        assert (("box-has-a-place", BOX) in refused(report)) is caught
    notes = [
        f.note
        for f in judged(with_part(hand_made.boxed(), part(2.99, 5, 14, 16))).findings
        if f.rule == "box-has-a-place" and f.stops
    ]
    assert any("moving part" in note for note in notes)


def test_a_cord_through_a_turned_pinch_zone_is_caught() -> None:
    record = turn(hand_made.chained(), TURN)
    link = record.cords[1]
    straight = replace(link, path_m=(link.path_m[0], link.path_m[-1]))
    report = judged(replace(record, cords=(record.cords[0], straight, *record.cords[2:])))
    assert ("cord-clear-of-mechanism", "cord A1-A2") in refused(report)
    finding = found(report, "cord-clear-of-mechanism", "cord A1-A2")
    assert finding.note == "nearest to the pinch zone of row A"


def with_a_still_chair(kind_changes: dict[str, Any] | None = None) -> Plan:
    """The chained record with a fifth chair that moves by hand and takes no current.

    Four chairs: 7.2 A on the lead, 5.4, 3.6 and 1.8 A on the links. Volts lost: home run 2 x 7.2 x
    48 x 0.00314 = 2.170368, lead 2 x 7.2 x 6 x 0.00499 = 0.431136, links 0.03992 V an ampere.
    Load: 4 x 1.875 = 7.5 A, so 7.5 A are left: four more.
    """
    record = hand_made.chained()
    club = record.spec.chairs[0]
    still = replace(
        club,
        id="still",
        powered=False,
        input_a=Fraction(0),
        continuous_a=Fraction(0),
        chain=None,
        **(kind_changes or {}),
    )
    listed = []
    for kind in ("club", "club", "club", "club", "still"):
        listed += [
            Piece(what="arm", kind=kind, width_m=inch(7)),
            Piece(what="seat", kind=kind, width_m=inch(23)),
        ]
    listed.append(Piece(what="arm", kind="still", width_m=inch(7)))
    row = replace(record.spec.rows[0], pieces=tuple(listed))
    lost = [2.601504, 2.817072, 2.960784, 3.03264]
    chairs = [
        replace(chair, volts=round(120 - volts, 6), drop_percent=round(volts / 1.2, 6))
        for chair, volts in zip(record.chairs, lost, strict=False)
    ]
    alone = replace(
        record.chairs[4],
        input_a=0.0,
        continuous_a=0.0,
        circuit=None,
        fed_by=None,
        volts=None,
        drop_percent=None,
    )
    amps = (7.2, 5.4, 3.6, 1.8)
    cords = tuple(
        replace(cord, current_a=current) for cord, current in zip(record.cords, amps, strict=False)
    )
    use = replace(
        record.circuits[0],
        continuous_a=1.2,
        other_a=6.0,
        asks_a=7.5,
        drop_percent=round(3.03264 / 1.2, 6),
    )
    spare = replace(record.decision.spare[0], spare_a=7.5, more_chairs=4)
    works = replace(record.decision.steps[0], cord_m=inch(41 + 3 * 48))
    return replace(
        record,
        spec=replace(record.spec, chairs=(club, still), rows=(row,)),
        chairs=(*chairs, alone),
        cords=cords,
        circuits=(use,),
        decision=replace(record.decision, steps=(works,), spare=(spare,)),
    )


def test_a_chair_without_a_motor_is_not_fed_and_moves_all_the_same() -> None:
    assert refused(judged(with_a_still_chair())) == set()
    record = with_a_still_chair()
    bare = tuple(zone for zone in record.zones if (zone.chair, zone.kind) != ("A5", "pinch"))
    assert (AGREES, "zones of row A") in refused(judged(replace(record, zones=bare)))


def test_a_cord_to_a_chair_without_a_motor_is_caught() -> None:
    record = with_a_still_chair()
    fifth = replace(hand_made.chained().cords[4], current_a=0.0)
    report = judged(replace(record, cords=(*record.cords, fifth)))
    assert ("fed-once", "chair A5") in refused(report)


def test_a_motor_that_nothing_feeds_is_caught_beside_one_that_needs_nothing() -> None:
    record = with_a_still_chair()
    report = judged(replace(record, cords=record.cords[:-1]))
    told = {subject for rule, subject in refused(report) if rule == "fed-once"}
    assert told == {"chair A4"}


def test_spare_for_a_chair_that_takes_no_current_is_refused_and_not_divided_by() -> None:
    record = with_a_still_chair()
    spare = replace(record.decision.spare[0], chair="still")
    report = judged(replace(record, decision=replace(record.decision, spare=(spare,))))
    assert (AGREES, "spare on circuit 7") in refused(report)


@pytest.mark.parametrize(
    ("changes", "rule"),
    [
        ({"chain": make_chain(chairs=4, current_a=Fraction(10))}, "chain-count"),
        ({"chain": make_chain(chairs=5, current_a=Fraction(8))}, "chain-current"),
        ({"chain": None}, "chain-count"),
        ({"coupler_a": Fraction(8)}, "coupler-rating"),
        ({"coupler_a": None}, None),
        ({}, None),
    ],
)
def test_the_least_limit_of_all_chairs_in_a_chain_counts(
    changes: dict[str, Any], rule: str | None
) -> None:
    # five chairs and 9 A in one chain; the third is of another kind with its own limits
    record = hand_made.chained()
    club = record.spec.chairs[0]
    listed: list[Piece] = []
    for kind in ("club", "club", "other", "club", "club"):
        listed += [
            Piece(what="arm", kind=kind, width_m=inch(7)),
            Piece(what="seat", kind=kind, width_m=inch(23)),
        ]
    listed.append(Piece(what="arm", kind="club", width_m=inch(7)))
    row = replace(record.spec.rows[0], pieces=tuple(listed))
    spec = replace(record.spec, chairs=(club, replace(club, id="other", **changes)), rows=(row,))
    told = {name for name, subject in refused(judged(replace(record, spec=spec))) if name != AGREES}
    assert (rule in told) if rule else not told & {"chain-count", "chain-current", "coupler-rating"}
