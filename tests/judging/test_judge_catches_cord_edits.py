from collections.abc import Callable
from typing import Any

import hand_made
import pytest
from hand_made import edited, refused
from support import inch

Edit = Callable[[Any], None]
MUST = "cord-clear-of-mechanism"


def move(cord: int, point: int, x: float, y: float) -> Edit:
    """Drag one corner of one cord to that place, in inches."""

    def edit(plain: Any) -> None:
        plain["cords"][cord]["path_m"][point] = [inch(x), inch(y)]

    return edit


def cord(number: int, **changes: Any) -> Edit:
    """Overwrite keys of one cord."""

    def edit(plain: Any) -> None:
        assert changes.keys() <= plain["cords"][number].keys()
        plain["cords"][number].update(changes)

    return edit


def coil(x: float, y: float, width: float, depth: float) -> Edit:
    """Park the spare of the first cord in an oval there, in inches."""
    return cord(0, park_m=[inch(x), inch(y)], coil_m=[inch(width), inch(depth)])


def spec(part: str, value: Any) -> Edit:
    """Overwrite one part of the spec."""

    def edit(plain: Any) -> None:
        assert part in plain["spec"]
        plain["spec"][part] = value

    return edit


def lose(number: int) -> Edit:
    """Take one cord out."""

    def edit(plain: Any) -> None:
        del plain["cords"][number]

    return edit


def area(name: str, left: float, right: float, back: float, front: float) -> dict[str, Any]:
    """A named area, in inches."""
    sides = {"left_m": left, "right_m": right, "back_m": back, "front_m": front}
    return {"id": name, "rect": {key: inch(value) for key, value in sides.items()}}


CHAINED: list[tuple[str, Edit, str, str]] = [
    ("dragged through a rail", move(1, 1, 60, 20), MUST, "cord A1-A2"),
    ("dragged under an arm", cord(2, path_m=[[2.286, 0.635], [3.048, 0.635]]), MUST, "cord A2-A3"),
    ("start moved off its outlet", move(0, 0, 61, 0), "ends-meet", "cord W1-A1"),
    ("end moved off its chair", move(0, 1, 60, 26), "ends-meet", "cord W1-A1"),
    ("from a chair that is not there", cord(4, **{"from": "A9"}), "ends-meet", "cord A4-A5"),
    ("from an outlet that is not there", cord(0, **{"from": "W9"}), "ends-meet", "cord W1-A1"),
    ("to a chair that is not there", cord(4, to="A6"), "ends-meet", "cord A4-A5"),
    ("without a path", cord(1, path_m=[]), "ends-meet", "cord A1-A2"),
    ("path of one point", cord(1, path_m=[[1.524, 0.635]]), "ends-meet", "cord A1-A2"),
    ("length understated", cord(0, length_m=inch(40)), "record-agrees", "cord W1-A1"),
    ("rise left out", cord(0, rises_m=0.0), "record-agrees", "cord W1-A1"),
    ("need understated", cord(0, needed_m=inch(70)), "record-agrees", "cord W1-A1"),
    ("clearance overstated", cord(1, clearance_m=inch(3)), "record-agrees", "cord A1-A2"),
    ("open floor understated", cord(1, open_floor_m=-0.1), "record-agrees", "cord A1-A2"),
    ("current understated", cord(1, current_a=7.19), "record-agrees", "cord A1-A2"),
    ("a longer lead than the chair's", cord(0, bought_m=inch(96)), "record-agrees", "cord W1-A1"),
    ("a thicker lead than the chair's", cord(0, wire="12 AWG"), "record-agrees", "cord W1-A1"),
    ("a longer link than the maker's", cord(1, bought_m=inch(72)), "record-agrees", "cord A1-A2"),
    ("a thicker link than the maker's", cord(1, wire="12 AWG"), "record-agrees", "cord A1-A2"),
    ("of a kind unheard of", cord(1, kind="strip"), "record-agrees", "cord A1-A2"),
    ("of another's name", cord(1, id="A2-A3"), "record-agrees", "cord A2-A3"),
    ("too short a lead", cord(0, bought_m=inch(71)), "cord-length", "cord W1-A1"),
    ("too short a link", cord(1, bought_m=inch(47)), "link-length", "cord A1-A2"),
    ("no wire known", cord(0, wire=None), "record-agrees", "cord W1-A1"),
    ("parked under a mechanism", cord(0, park_m=[inch(75), inch(40)]), MUST, "cord W1-A1"),
    ("parked outside", cord(0, park_m=[-0.1, 0.1]), "cord-has-a-way", "cord W1-A1"),
    ("parked too near a base", coil(75, 16, 4, 4), MUST, "cord W1-A1"),
    ("parked on open floor", coil(20, 100, 4, 4), "cord-on-open-floor", "cord W1-A1"),
    ("parked half outside", coil(60, 1, 4, 4), "cord-has-a-way", "cord W1-A1"),
    ("parked in tight loops", coil(60, 8, 3, 3), "record-agrees", "cord W1-A1"),
    ("parked in wide loops", coil(60, 8, 13, 4), "record-agrees", "cord W1-A1"),
    ("out through the wall", move(1, 1, 60, -1), "cord-has-a-way", "cord A1-A2"),
    ("one chair left unfed", lose(4), "fed-once", "chair A5"),
    ("all chairs left unfed", lose(0), "fed-once", "chair A3"),
    ("fed by two cords", cord(4, to="A3"), "fed-once", "chair A3"),
    ("round and round", cord(0, kind="link", **{"from": "A5"}), "fed-once", "chair A1"),
    (
        "a walkway under it",
        spec("walkways", [area("aisle", 70, 80, 10, 17)]),
        "cord-in-walkway",
        "cord A1-A2",
    ),
    (
        "an obstacle beside it",
        spec("obstacles", [area("column", 60.5, 70, 0, 8)]),
        MUST,
        "cord W1-A1",
    ),
    (
        "a door behind the outlet",
        spec(
            "doors",
            [{"id": "d", "wall": "back", "start_m": 1.2, "end_m": 2.0, "swings": "out"}],
        ),
        "cord-through-doorway",
        "cord W1-A1",
    ),
]


@pytest.mark.parametrize(("edit", "rule", "subject"), [case[1:] for case in CHAINED],
                         ids=[case[0] for case in CHAINED])  # fmt: skip
def test_a_cord_edited_by_hand_is_caught(edit: Edit, rule: str, subject: str) -> None:
    report = edited(hand_made.chained(), edit)
    assert (rule, subject) in refused(report)
    assert not report.agrees
    assert report.disputed


EXTENDED: list[tuple[str, Edit, str, str]] = [
    ("not a length that is sold", cord(0, bought_m=inch(130)), "record-agrees", "cord W1-W1+A1"),
    ("too short", cord(0, bought_m=inch(108)), "cord-length", "cord W1-W1+A1"),
    ("of another wire", cord(0, wire="12 AWG"), "record-agrees", "cord W1-W1+A1"),
    ("ending short of the lead", move(0, 1, 119, 0), "ends-meet", "cord W1-W1+A1"),
    ("ending at nothing", cord(0, to="W1+A2"), "fed-once", "chair A1"),
    ("leading nowhere", cord(0, to="W1+A2"), "ends-meet", "cord W1-W1+A1"),
    ("into itself", cord(0, **{"from": "W1+A1"}), "cord-into-cord", "cord W1-W1+A1"),
]


@pytest.mark.parametrize(("edit", "rule", "subject"), [case[1:] for case in EXTENDED],
                         ids=[case[0] for case in EXTENDED])  # fmt: skip
def test_an_extension_edited_by_hand_is_caught(edit: Edit, rule: str, subject: str) -> None:
    assert (rule, subject) in refused(edited(hand_made.extended(), edit))


@pytest.mark.parametrize("place", ["business", "assembly", None])
def test_an_extension_is_a_must_outside_homes(place: str | None) -> None:
    def edit(plain: Any) -> None:
        plain["spec"]["project"]["place"] = place

    report = edited(hand_made.extended(), edit)
    assert ("extension-temporary", "cord W1-W1+A1") in refused(report)


def test_an_extension_where_none_is_accepted_is_caught() -> None:
    def edit(plain: Any) -> None:
        plain["spec"]["cords"]["extensions"] = "no"

    assert ("record-agrees", "cord W1-W1+A1") in refused(edited(hand_made.extended(), edit))


def test_a_joint_in_the_gap_under_a_rail_is_caught() -> None:
    def edit(plain: Any) -> None:
        plain["cords"][0]["path_m"].append([inch(120), inch(20)])
        plain["cords"][1]["path_m"][0] = [inch(120), inch(20)]

    report = edited(hand_made.extended(), edit)
    notes = [f.note for f in report.findings if f.stops and f.rule == MUST]
    assert notes == ["the joint lies in the rear strip of chair A1"]


def test_an_overloaded_extension_is_caught() -> None:
    def edit(plain: Any) -> None:
        # 16 AWG up to 50 ft carries 13 A
        plain["spec"]["chairs"][0]["input_a"] = 13.1
        plain["cords"][0]["wire"] = plain["spec"]["cords"]["wire"] = "16 AWG"

    report = edited(hand_made.extended(), edit)
    assert ("extension-rating", "cord W1-W1+A1") in refused(report)


def test_a_cord_past_the_covered_floor_is_on_open_floor() -> None:
    def edit(plain: Any) -> None:
        # out to 10 in: the row covers 101.5 to 138.5 in, the wall strip ends 6 in off the wall
        plain["cords"][0]["path_m"] = [[inch(x), inch(y)] for x, y in
                                       ((60, 0), (60, 10), (120, 10), (120, 0))]  # fmt: skip

    report = edited(hand_made.extended(), edit)
    finding = hand_made.found(report, "cord-on-open-floor", "cord W1-W1+A1")
    # 4 in out, and 41.5 in along to the row
    assert finding.value == pytest.approx(inch("91/2"), abs=2e-5)
    assert ("record-agrees", "cord W1-W1+A1") in refused(report)


def test_a_riser_edge_left_out_of_the_rises_is_caught() -> None:
    def edit(plain: Any) -> None:
        plain["cords"][0]["rises_m"] = inch(16)

    assert ("record-agrees", "cord W1-A1") in refused(edited(hand_made.raised(), edit))


def test_a_closed_rear_gap_closes_the_way_through_it() -> None:
    def edit(plain: Any) -> None:
        plain["spec"]["chairs"][0]["rear_gap_m"] = inch("60/100")

    assert (MUST, "cord A1-A2") in refused(edited(hand_made.chained(), edit))


def test_a_gap_too_narrow_for_all_its_cords_is_caught() -> None:
    def edit(plain: Any) -> None:
        # two cords of 6.1 in with 25 mm aside take 14.17 in of 14, one takes 8.07 in;
        # behind A2 pass the link to it and the link from it, behind A5 only one
        plain["spec"]["cords"]["diameter_m"] = inch("6.1")
        plain["spec"]["chairs"][0]["rear_gap_m"] = inch(10)
        plain["spec"]["chairs"][0]["clear"]["height_m"] = inch(10)

    report = edited(hand_made.chained(), edit)
    assert ("gap-shared", "rear strip of chair A2") in refused(report)
    assert ("gap-shared", "rear strip of chair A5") not in refused(report)


@pytest.mark.parametrize(("past_mm", "caught"), [(-0.001, False), (0.01, True)])
def test_a_cord_keeps_its_clearance_to_the_hundredth_of_a_millimeter(
    past_mm: float, caught: bool
) -> None:
    # the pinch zone begins 18 in off the wall; radius 0.18 in and 25 mm before it
    y = round(inch(18) - inch("18/100") - 0.025 + past_mm / 1000, 6)

    def edit(plain: Any) -> None:
        for number in (1, 2):
            plain["cords"][1]["path_m"][number][1] = y

    report = edited(hand_made.chained(), edit)
    assert ((MUST, "cord A1-A2") in refused(report)) is caught
