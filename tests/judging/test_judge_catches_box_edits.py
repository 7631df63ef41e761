from collections.abc import Callable
from dataclasses import replace
from typing import Any

import hand_made
import pytest
from hand_made import edited, found, judged, points, refused
from support import inch, make_area, make_framing, make_joists, make_riser

from powerplan.model.findings import Outcome
from powerplan.model.plan import Condition, Drift, Plan

Edit = Callable[[Any], None]
AGREES = "record-agrees"


def box(**changes: Any) -> Edit:
    """Overwrite keys of the floor box."""

    def edit(plain: Any) -> None:
        assert changes.keys() <= plain["boxes"][0].keys()
        plain["boxes"][0].update(changes)

    return edit


def drift(side: str, inches: float) -> Edit:
    """Overwrite one side of the box's drift."""

    def edit(plain: Any) -> None:
        assert side in plain["boxes"][0]["drift"]
        plain["boxes"][0]["drift"][side] = inch(inches)

    return edit


def work(**changes: Any) -> Edit:
    """Overwrite keys of the new work in the spec."""

    def edit(plain: Any) -> None:
        assert changes.keys() <= plain["spec"]["new_work"].keys()
        plain["spec"]["new_work"].update(changes)

    return edit


def clear_height(height: float) -> Edit:
    """Overwrite how high the clear zone is."""

    def edit(plain: Any) -> None:
        plain["spec"]["chairs"][0]["clear"]["height_m"] = inch(height)

    return edit


def no_clear_zone(plain: Any) -> None:
    plain["spec"]["chairs"][0]["clear"] = None


SQUARE = [[inch(x), inch(y)] for x, y in ((116, 26), (130, 26), (130, 32), (116, 32))]
CASES: list[tuple[str, Edit, str, str]] = [
    ("moved out to the right", box(x_m=inch(125)), "box-has-a-place", "box A3"),
    ("moved out to the back", box(y_m=inch(25)), "box-has-a-place", "box A3"),
    ("moved within its zone", box(x_m=inch(121)), "ends-meet", "cord box A3-A3"),
    ("under a chair that is not there", box(under="A9"), "box-has-a-place", "box A3"),
    ("under another chair", box(under="A4"), "box-has-a-place", "box A3"),
    ("named for another chair", box(under="A4"), AGREES, "box A3"),
    ("without a clear zone", no_clear_zone, "box-has-a-place", "box A3"),
    ("with a plug too high", clear_height(2), "box-plug-height", "box A3"),
    ("with another ideal", box(ideal_m=[inch(120), inch(30)]), AGREES, "box A3"),
    ("raised off the floor", box(height_m=0.1), AGREES, "box A3"),
    ("with more sockets", box(sockets=4), AGREES, "box A3"),
    ("with stronger sockets", box(rating_a=20.0), AGREES, "box A3"),
    ("with sockets of 30 A", box(rating_a=30.0), "socket-matches-circuit", "box A3"),
    ("in a deck that is not there", box(deck="rear"), AGREES, "box A3"),
    ("of a kind unheard of", box(kind="post"), AGREES, "box A3"),
    ("on a circuit that is not there", box(circuit="new 2"), AGREES, "box A3"),
    ("wired from nothing", box(wired_from="W9"), AGREES, "box A3"),
    ("wired from itself", box(wired_from="box A3"), AGREES, "box A3"),
    ("wired in less than the home run", box(wiring_m=1.0), AGREES, "box A3"),
    ("drifting out of its zone", drift("left_m", "4.01"), AGREES, "box A3"),
    ("drifting less than nothing", drift("left_m", -1), AGREES, "box A3"),
    ("with a larger floor to sit on", box(may_sit_m=[SQUARE]), AGREES, "box A3"),
    ("with no floor to sit on", box(may_sit_m=[]), AGREES, "box A3"),
    ("with a second mark outside", box(second_mark_m=[inch(128), inch(29)]), "box-has-a-place",
     "box A3"),
    ("where none was offered", work(floor_boxes=False), AGREES, "box A3"),
    ("with a larger lid", work(lid={"width_m": inch(7), "depth_m": inch(6)}), AGREES, "box A3"),
    ("with a lid as large as its zone", work(lid={"width_m": 0.4, "depth_m": 0.4}),
     "box-has-a-place", "box A3"),
    ("with an unknown lid", work(lid=None), AGREES, "box A3"),
    ("missing", lambda plain: plain["boxes"].clear(), "fed-once", "chair A3"),
    ("there twice", lambda plain: plain["boxes"].append(dict(plain["boxes"][0])), AGREES,
     "box A3"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("edit", "rule", "subject"), [case[1:] for case in CASES], ids=[case[0] for case in CASES]
)
def test_a_box_edited_by_hand_is_caught(edit: Edit, rule: str, subject: str) -> None:
    report = edited(hand_made.boxed(), edit)
    assert (rule, subject) in refused(report)
    assert not report.agrees


@pytest.mark.parametrize(("past_um", "caught"), [(0, False), (2, False), (10, True)])
def test_a_lid_may_touch_the_side_of_the_clear_zone(past_um: int, caught: bool) -> None:
    edit = box(x_m=round(inch(124) + past_um * 1e-6, 6))
    report = edited(hand_made.boxed(), edit)
    assert (("box-has-a-place", "box A3") in refused(report)) is caught


def with_spec(record: Plan, **changes: Any) -> Plan:
    return replace(record, spec=replace(record.spec, **changes))


@pytest.mark.parametrize(
    ("first", "caught"),
    # the cut-out ends 2 in beside the mark at 120 in, a joist 3/4 in beside its middle: with 3/4 in
    # between, a joist at 123.5 in (11.5 + 7 x 16) is just clear and one at 123.4 in is not
    [("11.5", False), ("11.4", True), ("4.5", False), ("4.6", True)],
)
def test_a_joist_too_near_the_cut_out_is_caught(first: str, caught: bool) -> None:
    floor = make_joists(first_joist_m=inch(first))
    report = judged(with_spec(hand_made.boxed(), floor=floor))
    assert (("box-clears-framing", "box A3") in refused(report)) is caught


def test_joists_from_side_to_side_count_along_the_depth() -> None:
    # joists at 13 and 29 in from the back wall: one lies right under the mark
    floor = make_joists(joists_run="side to side", first_joist_m=inch(13))
    report = judged(with_spec(hand_made.boxed(), floor=floor))
    # the cut-out reaches 2 in to either side of the joist's middle, the joist 3/4 in
    assert found(report, "box-clears-framing", "box A3").value == inch("-11/4")


@pytest.mark.parametrize(("left", "caught"), [("122.75", False), ("122.7", True)])
def test_an_area_where_nothing_is_cut_keeps_its_margin(left: str, caught: bool) -> None:
    area = make_area("duct", float(left), 20, 10, 20)
    report = judged(with_spec(hand_made.boxed(), no_cut=(area,)))
    assert (("box-clears-no-cut", "box A3") in refused(report)) is caught


@pytest.mark.parametrize(("front", "caught"), [("26.25", False), ("26.3", True)])
def test_the_edge_of_a_riser_keeps_its_margin(front: str, caught: bool) -> None:
    riser = make_riser(0, 0, 240, float(front))
    report = judged(with_spec(hand_made.boxed(), risers=(riser,)))
    assert (("box-clears-riser-edge", "box A3") in refused(report)) is caught


def test_drift_over_a_joist_is_caught_though_the_mark_is_clear() -> None:
    floor = make_joists(first_joist_m=inch("11.5"))
    report = judged(with_spec(hand_made.boxed(), floor=floor))
    notes = [f.note for f in report.findings if f.stops and f.subject == "box A3"]
    assert any("drift" in note and "box-clears-framing" in note for note in notes)


def unknown_joists(record: Plan, **changes: Any) -> Plan:
    """Joists of which nobody knows where the first lies, said as it should be."""
    condition = Condition(
        kind="framing",
        subject="box A3",
        circuit=None,
        if_continuous_a=None,
        if_not_continuous_a=None,
        sentence="By hand.",
    )
    mark = replace(record.boxes[0], provisional=True, **changes)
    return replace(
        with_spec(record, floor=make_joists(first_joist_m=None)),
        boxes=(mark,),
        decision=replace(record.decision, exit_code=4, depends_on=(condition,)),
    )


def test_unknown_framing_hangs_and_is_passed_when_the_record_says_so() -> None:
    report = judged(unknown_joists(hand_made.boxed()))
    assert refused(report) == set()
    assert found(report, "box-clears-framing", "box A3").outcome is Outcome.NOT_CHECKED
    assert any("box A3 clears the framing" in words for words in report.not_judged)


def test_unknown_framing_without_its_condition_is_caught() -> None:
    def edit(plain: Any) -> None:
        plain["decision"]["depends_on"] = []

    report = edited(unknown_joists(hand_made.boxed()), edit)
    assert (AGREES, "depends on") in refused(report)


def test_a_mark_to_cut_by_on_unknown_framing_is_caught() -> None:
    report = edited(unknown_joists(hand_made.boxed()), box(provisional=False))
    assert (AGREES, "box A3") in refused(report)


@pytest.mark.parametrize(("second", "caught"), [("123", False), ("122.9", True)])
def test_of_two_marks_one_has_to_be_clear_wherever_the_joists_lie(
    second: str, caught: bool
) -> None:
    # a joist blocks 3/4 + 2 + 3/4 = 3.5 in to either side: marks 7 in apart, at 116 and 123 in
    record = unknown_joists(
        hand_made.boxed(),
        x_m=inch(116),
        drift=Drift(left_m=0.0, right_m=inch(8), back_m=inch(3), screen_m=inch(3)),
        second_mark_m=(inch(second), inch(29)),
    )
    report = judged(record)
    assert (("box-clears-framing", "box A3") in refused(report)) is caught


def test_two_marks_prove_nothing_where_the_direction_of_the_joists_is_unknown() -> None:
    record = unknown_joists(hand_made.boxed(), second_mark_m=(inch(123), inch(29)))
    floor = make_framing(
        build="joists", spacing_m=inch(16), joist_width_m=inch("3/2"), first_joist_m=inch(4)
    )
    report = judged(with_spec(record, floor=floor))
    assert ("box-clears-framing", "box A3") in refused(report)


def walled() -> Plan:
    """The box of the hand-made record as an outlet on the wall behind A3, and leads of 8 ft.

    The far lead slants 16 in ahead and 30 in aside (34 in), past the corner 23 in aside and 18 in
    ahead at (30 x 18 - 16 x 23) / 34 = 86/17 in, then 9 in ahead: with 16 in down the wall
    (43 + 16 + 24) x 1.1 = 91.3 in. Leads lose 2 x 8 x 0.00499 = 0.07984 V an ampere.
    """
    record = hand_made.boxed()
    outlet = replace(
        record.boxes[0],
        id="wall A3",
        kind="wall outlet",
        y_m=0.0,
        height_m=inch(16),
        may_sit_m=(),
        drift=Drift(left_m=0.0, right_m=0.0, back_m=0.0, screen_m=0.0),
    )
    lead = hand_made.cord(
        ("own", "wall A3", "A3"), ((120, 0), (120, 25)), plan=25, rises=16, needed="71.5",
        bought=96, amps=5.4, near="7", coil=(117, 4.5, 55, 2),
    )  # fmt: skip
    far = hand_made.cord(
        ("own", "wall A3", "A4"), ((120, 0), (150, 16), (150, 25)), plan=43, rises=16,
        needed="91.3", bought=96, amps=3.6, near="86/17", coil=(150, 4.5, 18, 1),
        tail=((150, 16), (150, 6.5)),
    )  # fmt: skip
    a3, a4 = (2.1384 + amps * 0.07984 for amps in (5.4, 3.6))
    a2 = a3 + 3.6 * 0.03992
    lost = (a2 + 1.8 * 0.03992, a2, a3, a4, a4 + 1.8 * 0.03992)
    kind = replace(record.spec.chairs[0], lead_m=inch(96))
    new_work = replace(record.spec.new_work, wall_outlets=True, floor_boxes=False)
    use = replace(record.circuits[0], drop_percent=round(lost[0] / 1.2, 6))
    works = replace(record.decision.steps[-1], cord_m=inch(41 + 59 + 3 * 48))
    return replace(
        record,
        spec=replace(record.spec, chairs=(kind,), new_work=new_work),
        chairs=hand_made.chairs(("A2", "A3", "wall A3", "wall A3", "A4"), "new 1", lost),
        boxes=(outlet,),
        cords=(lead, record.cords[1], record.cords[2], far, record.cords[4]),
        circuits=(use,),
        decision=replace(record.decision, steps=(works,)),
    )


def test_an_outlet_on_the_wall_behind_its_row_is_passed() -> None:
    assert refused(judged(walled())) == set()


@pytest.mark.parametrize(
    ("changes", "rule"),
    [
        ({"x_m": inch(41)}, "box-has-a-place"),
        ({"x_m": inch(150)}, "box-has-a-place"),  # behind A4
        ({"y_m": inch(5)}, AGREES),
        ({"height_m": inch(12)}, AGREES),
        ({"under": "A9"}, AGREES),
    ],
)
def test_a_wall_outlet_edited_by_hand_is_caught(changes: dict[str, Any], rule: str) -> None:
    assert (rule, "wall A3") in refused(edited(walled(), box(**changes)))


def test_a_wall_outlet_in_a_door_opening_is_caught() -> None:
    ends = {"start_m": inch(110), "end_m": inch(121)}
    door = {"id": "d", "wall": "back", "swings": "out", **ends}
    report = edited(walled(), lambda plain: plain["spec"].update(doors=[door]))
    assert ("box-has-a-place", "wall A3") in refused(report)


def test_a_wall_outlet_where_none_was_offered_is_caught() -> None:
    assert (AGREES, "wall A3") in refused(edited(walled(), work(wall_outlets=False)))


def test_the_floor_a_box_may_sit_on_comes_in_pieces() -> None:
    # a joist at 120 in blocks 116.5 to 123.5 in of 116 to 124 in: half an inch is left either side
    record = hand_made.boxed()
    pieces = (
        points((116, 26), (116.5, 26), (116.5, 32), (116, 32)),
        points((123.5, 26), (124, 26), (124, 32), (123.5, 32)),
    )
    mark = replace(
        record.boxes[0],
        x_m=inch(124),
        may_sit_m=pieces,
        drift=Drift(left_m=inch("1/2"), right_m=0.0, back_m=inch(3), screen_m=inch(3)),
    )
    floor = make_joists(first_joist_m=inch(8))
    report = judged(replace(with_spec(record, floor=floor), boxes=(mark,)))
    assert {subject for _, subject in refused(report)} == {
        "cord box A3-A3", "cord box A3-A4", "decision"
    }  # fmt: skip


def test_a_box_on_an_obstacle_is_caught() -> None:
    column = make_area("column", 122, 20, 4, 7)
    report = judged(with_spec(hand_made.boxed(), obstacles=(column,)))
    assert ("box-has-a-place", "box A3") in refused(report)
