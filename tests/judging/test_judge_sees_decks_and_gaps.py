from dataclasses import replace
from typing import Any

import hand_made
import pytest
from by_hand import zone
from hand_made import edited, found, judged, refused
from support import inch, make_joists, make_riser

from powerplan.model.findings import Outcome
from powerplan.model.plan import Plan

AGREES = "record-agrees"


def on_deck(deep: float = 88, **riser: Any) -> Plan:
    """The hand-made box and its row on a riser as wide as the room."""
    record = hand_made.boxed()
    return replace(
        record,
        spec=replace(record.spec, risers=(make_riser(0, 0, 240, deep, **riser),)),
        boxes=(replace(record.boxes[0], deck="rear"),),
    )


def test_a_box_in_a_deck_is_passed() -> None:
    report = judged(on_deck())
    assert refused(report) == set()
    # the cut-out begins 27 in ahead of the deck's back edge and ends 57 in before its front
    edge = found(report, "box-clears-riser-edge", "box A3")
    assert (edge.value, edge.outcome) == (inch(27), Outcome.MET)


def test_a_box_in_a_deck_that_the_record_leaves_out_is_caught() -> None:
    def edit(plain: Any) -> None:
        plain["boxes"][0]["deck"] = None

    assert (AGREES, "box A3") in refused(edited(on_deck(), edit))


def test_the_joists_of_a_deck_count_from_its_own_edge() -> None:
    # 16 in apart from 8 in on: one at 120 in, right under the mark. The floor's do not count
    framing = make_joists(first_joist_m=inch(8))
    report = judged(on_deck(framing=framing))
    assert found(report, "box-clears-framing", "box A3").value == inch("-11/4")
    record = on_deck()
    on_slab = replace(record, spec=replace(record.spec, floor=framing))
    assert refused(judged(on_slab)) == set()


@pytest.mark.parametrize(("deep", "caught"), [("31.75", False), ("31.7", True)])
def test_the_edge_of_the_deck_itself_keeps_its_margin(deep: str, caught: bool) -> None:
    report = judged(on_deck(float(deep)))
    assert (("box-clears-riser-edge", "box A3") in refused(report)) is caught


def sideways() -> Plan:
    """The chained record with arms high enough for a cord: links run straight, 30 in.

    They lie 25 in from the wall, 2 in before the rails between two rear strips.
    """
    record = hand_made.chained()
    kind = replace(record.spec.chairs[0], arm_gap_m=inch("3/2"))
    links = tuple(
        replace(
            link,
            path_m=(link.path_m[0], link.path_m[-1]),
            length_m=inch(30),
            needed_m=inch(30),
        )
        for link in record.cords[1:]
    )
    zones = [item for item in record.zones if item.kind != "pinch"]
    for n, x in enumerate(hand_made.CHAIR_X, start=1):
        name = f"A{n}"
        left, right = x - (18.5 if n == 1 else 15), x + (18.5 if n == 5 else 15)
        zones += [
            zone(name, "pinch", left, x - 7, 18, 23),
            zone(name, "pinch", x + 7, right, 18, 23),
            zone(name, "pinch", left, right, 35, 80),
        ]
        if n < 5:
            zones.append(zone(name, "arm strip", x + 7, x + 23, 23, 35))
    zones += [zone("A1", "pinch", 41.5, 53, 23, 35), zone("A5", "pinch", 187, 198.5, 23, 35)]
    works = replace(record.decision.steps[0], cord_m=inch(41 + 4 * 30))
    return replace(
        record,
        spec=replace(record.spec, chairs=(kind,)),
        cords=(record.cords[0], *links),
        zones=tuple(zones),
        decision=replace(record.decision, steps=(works,)),
    )


def test_links_through_arm_gaps_are_passed() -> None:
    report = judged(sideways())
    assert refused(report) == set()
    # one cord of 0.36 in and 25 mm to either side, in a strip 12 in deep
    gap = found(report, "gap-shared", "arm strip of chair A1")
    assert (gap.value, gap.limit) == (round(inch("36/100") + 0.05, 6), inch(12))


def test_an_arm_gap_of_a_quarter_inch_closes_the_way_through() -> None:
    def edit(plain: Any) -> None:
        plain["spec"]["chairs"][0]["arm_gap_m"] = inch("1/4")

    report = edited(sideways(), edit)
    assert ("cord-clear-of-mechanism", "cord A1-A2") in refused(report)
    assert (AGREES, "zones of row A") in refused(report)


def test_no_gap_was_measured_where_two_chairs_share_a_cushion() -> None:
    def edit(plain: Any) -> None:
        plain["spec"]["rows"][0]["no_arm_between"] = [[2, 3]]

    assert (AGREES, "zones of row A") in refused(edited(sideways(), edit))


@pytest.mark.parametrize("over_um", [0, -1])
def test_a_gap_is_open_from_a_quarter_inch_over_the_cord_on(over_um: int) -> None:
    # 0.36 in and 1/4 in; a rail one micrometer lower is closed
    def edit(plain: Any) -> None:
        gap = round(inch("61/100") + over_um * 1e-6, 6)
        plain["spec"]["chairs"][0]["rear_gap_m"] = gap

    report = edited(hand_made.chained(), edit)
    caught = ("cord-clear-of-mechanism", "cord A1-A2") in refused(report)
    assert caught is (over_um < 0)
