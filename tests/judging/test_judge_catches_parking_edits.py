"""Where spare cord lies, edited by hand: its coil, and the tail that goes there and back.

In the record, chair A3 stands 120 in from the left. Its lead is 84 in and its way 4 in, from a box
29 in off the wall to the inlet at 25 in; its tail goes back to 6 1/2 in, and its oval lies from
there to 2 1/2 in, 8.467 in wide. Reclined backs come to 9 in off the wall.
"""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import hand_made
import pytest
from by_hand import oval
from hand_made import edited, judged, refused
from loose_rooms import supply_spec
from support import NEC, inch

from powerplan.inputs.record_file import read_record
from powerplan.judging.judge import judge
from powerplan.model.codec import plan_from_plain, to_plain
from powerplan.planning.pipeline import make_plan

Edit = Callable[[Any], None]
CLEAR, WAY, AGREES = "cord-clear-of-mechanism", "cord-has-a-way", "record-agrees"
NAME = "cord box A3-A3"
FIRST = Path(__file__).parents[1] / "examples" / "first" / "small-den.record.json"


def points(*pairs: tuple[float, float]) -> list[list[float]]:
    return [[inch(x), inch(y)] for x, y in pairs]


def lead(**changes: Any) -> Edit:
    """Overwrite keys of the lead of A3."""

    def edit(plain: Any) -> None:
        assert changes.keys() <= plain["cords"][0].keys()
        plain["cords"][0].update(changes)

    return edit


def area(left: float, right: float, back: float, front: float) -> dict[str, Any]:
    sides = {"left_m": left, "right_m": right, "back_m": back, "front_m": front}
    return {"id": "aisle", "rect": {key: inch(value) for key, value in sides.items()}}


def door(plain: Any) -> None:
    """In the back wall behind A3, opening outward."""
    ends = {"start_m": inch(114), "end_m": inch(126)}
    plain["spec"]["doors"] = [{"id": "d", "wall": "back", "swings": "out", **ends}]


def walkway(*sides: float) -> Edit:
    def edit(plain: Any) -> None:
        plain["spec"]["walkways"] = [area(*sides)]

    return edit


def thick(plain: Any) -> None:
    # behind A3 go a link, the lead to A4 and the tail twice: 4 x 3.1 + 1.97 in, of 14 in
    plain["spec"]["cords"]["diameter_m"] = inch("3.1")
    plain["spec"]["chairs"][0]["rear_gap_m"] = inch(10)
    plain["spec"]["chairs"][0]["clear"]["height_m"] = inch(10)


EDITS: list[tuple[str, Edit, str, str]] = [
    ("a walkway over its coil", walkway(118, 122, 3, 6), "cord-in-walkway", NAME),
    ("a walkway over its tail", walkway(118, 122, 7, 8), "cord-in-walkway", NAME),
    ("a door at its coil", door, "cord-through-doorway", NAME),
    (
        "a tail through the doorway",
        lambda plain: (door(plain), lead(park_m=[inch(105), inch(4.5)],
                       tail_m=points((120, 25), (120, 5), (109, 5)))(plain)),
        "cord-through-doorway",
        NAME,
    ),
    (
        "a coil under the reclining back",
        lead(park_m=[inch(120), inch(10)], tail_m=points((120, 25), (120, 12)),
             coil_m=[inch(oval(54, 2)), inch(4)]),
        CLEAR,
        NAME,
    ),
    ("a coil on another", lead(park_m=[inch(146), inch(4.5)]), WAY, NAME),
    ("a tail over another coil", lead(tail_m=points((120, 25), (120, 8), (150, 8), (150, 4))),
     WAY, NAME),
    ("a tail out of the room", lead(tail_m=points((120, 25), (120, -1), (120, 4.5))), WAY, NAME),
    ("a tail on open floor", lead(tail_m=points((120, 25), (120, 8), (30, 8), (120, 6.5))),
     "cord-on-open-floor", NAME),
    # the pinch zone begins at 127 in; 1 in is 25.4 mm, less half of 0.36 in is too little
    ("a tail too near to a base", lead(tail_m=points((120, 25), (126, 20), (120, 6.5))),
     CLEAR, NAME),
    # 0.15 in short of 18 in less 25 mm and half a cord
    ("a coil too near to a base", lead(park_m=[inch(105), inch(14.99)]), CLEAR, NAME),
    ("a gap too narrow for its tail", thick, "gap-shared", "rear strip of chair A3"),
    ("no tail", lead(tail_m=[]), AGREES, NAME),
    ("a tail from nowhere", lead(tail_m=points((118, 25), (120, 6.5))), AGREES, NAME),
    ("a tail to nowhere", lead(tail_m=points((120, 25), (120, 8))), AGREES, NAME),
    ("a tail too long", lead(tail_m=points((120, 25), (100, 8), (120, 6.5))), "cord-length", NAME),
    ("a wider oval", lead(coil_m=[inch(8.8), inch(4)]), AGREES, NAME),
    ("a deeper oval", lead(coil_m=[inch(8.467), inch(4.4)]), AGREES, NAME),
    ("an oval of no size", lead(coil_m=None), AGREES, NAME),
    ("an oval that is nowhere", lead(park_m=None), AGREES, NAME),
]  # fmt: skip


@pytest.mark.parametrize(("edit", "rule", "subject"), [case[1:] for case in EDITS],
                         ids=[case[0] for case in EDITS])  # fmt: skip
def test_parked_cord_edited_by_hand_is_caught(edit: Edit, rule: str, subject: str) -> None:
    report = edited(hand_made.boxed(), edit)
    assert (rule, subject) in refused(report)
    assert any((one.rule, one.subject) == (rule, subject) for one in report.disputed)


def test_a_coil_that_its_way_does_not_touch_needs_a_tail() -> None:
    def aside(plain: Any) -> None:
        plain["cords"][0]["park_m"] = [inch(66), inch(4.5)]

    record = hand_made.chained()
    assert refused(judged(record)) == set()
    assert (AGREES, "cord W1-A1") in refused(edited(record, aside))


def test_a_tail_over_the_edge_of_a_riser_is_caught() -> None:
    def down(plain: Any) -> None:
        # the riser's left face stands 12 in off the left wall
        plain["cords"][0]["tail_m"] = points((41, 3), (8, 3), (8, 5), (41, 5))

    report = edited(hand_made.raised(), down)
    notes = [one.note for one in report.findings if one.stops and one.rule == WAY]
    assert "its tail goes over the edge of riser rear" in notes


def test_spare_parked_on_the_way_of_another_cord_is_caught() -> None:
    record = hand_made.boxed()
    other = next(one for one in record.cords if one.id != record.cords[0].id)
    (x, y), (to_x, to_y) = other.path_m[:2]
    report = edited(record, lead(park_m=[(x + to_x) / 2, (y + to_y) / 2]))
    assert any("parked on the way of cord" in one.note for one in report.findings if one.stops)


def test_spare_parked_on_a_supply_is_caught() -> None:
    spec = supply_spec(wall_cord_m=inch(144), width_m=inch(4))
    record = to_plain(make_plan(spec, NEC, "0" * 64))
    assert refused(judge(plan_from_plain(record), NEC)) == set()
    cord = next(one for one in record["cords"] if one["coil_m"] is not None)
    supply = record["supplies"][0]
    cord["park_m"] = [supply["x_m"], supply["y_m"]]
    report = judge(plan_from_plain(record), NEC)
    notes = [one.note for one in report.findings if one.stops and one.rule == WAY]
    assert f"its spare is parked on {supply['id']}" in notes


def test_a_record_of_the_first_version_may_park_at_a_point() -> None:
    record = read_record(FIRST)
    parked = [cord for cord in record.cords if cord.park_m is not None]
    assert parked
    assert all(cord.coil_m is None for cord in parked)
    names = {f"cord {cord.id}" for cord in parked}
    assert names & {one.subject for one in judge(record, NEC).disputed} == set()


def test_a_number_taken_out_of_a_record_is_missed() -> None:
    for name in ("coil_depth", "cord_clearance", "switch_on"):
        plain = json.loads(json.dumps(to_plain(hand_made.chained())))
        numbers = plain["rules"]["numbers"]
        plain["rules"]["numbers"] = [one for one in numbers if one["name"] != name]
        assert (AGREES, "rules") in refused(judge(plan_from_plain(plain), NEC))


def test_a_later_record_cannot_pass_for_one_of_the_first_version() -> None:
    first = {one.name for one in read_record(FIRST).rules.numbers}
    plain = json.loads(json.dumps(to_plain(hand_made.chained())))
    numbers = plain["rules"]["numbers"]
    plain["rules"]["numbers"] = [one for one in numbers if one["name"] in first]
    assert (AGREES, "rules") in refused(judge(plan_from_plain(plain), NEC))


def test_a_number_told_twice_is_refused() -> None:
    def twice(plain: Any) -> None:
        plain["rules"]["numbers"].append(plain["rules"]["numbers"][0])

    assert (AGREES, "rules") in refused(edited(hand_made.chained(), twice))
