"""Does the layout work: every seating rule, at its limit and just past it."""

from dataclasses import replace

import pytest
from support import NEC, inch, make_area, make_chair, make_door, make_riser, make_row, make_spec

from powerplan.engineering.seating.layout import layout_findings
from powerplan.engineering.seating.poses import seat_rows
from powerplan.model.findings import Force, Outcome
from powerplan.model.spec import Wall

UM = 1e-6


def held(rule, spec):
    """Every finding of one rule."""
    return [f for f in layout_findings(spec, seat_rows(spec), NEC) if f.rule == rule]


def only(rule, spec):
    (found,) = held(rule, spec)
    return found


def with_row(**changes):
    return make_spec(rows=(make_row(**changes),))


def two_rows(second_m, **changes):
    return make_spec(rows=(make_row(), make_row(id="B", headrest_to_wall_m=second_m, **changes)))


def assert_boundary(rule, spec_for):
    """The rule is met with nothing to spare, and not met one micrometer worse."""
    exact, worse = only(rule, spec_for(0.0)), only(rule, spec_for(UM))
    assert exact.outcome is Outcome.MET
    assert exact.margin == pytest.approx(0, abs=1e-9)
    assert exact.note == "" or exact.rule == "row-on-centre"
    assert worse.outcome is Outcome.NOT_MET
    assert worse.note.endswith(".")


def test_a_sensible_room_meets_every_rule_of_seating():
    findings = layout_findings(make_spec(), seat_rows(make_spec()), NEC)
    assert all(finding.outcome is Outcome.MET for finding in findings)
    assert [finding.rule for finding in findings] == [
        "row-fits-walls",
        "row-fits-walls",
        "row-fits-walls",
        "headrest-clears-wall",
        "passage-in-front",
        "row-on-centre",
    ]


@pytest.mark.parametrize(("wall", "place"), [("left", 0), ("right", 1), ("screen", 2)])
def test_a_row_may_touch_a_wall_and_not_pass_it(wall, place):
    def spec_for(more_m):
        half, reach = inch(157 / 2), inch(66)
        rows = {
            "left": {"center_x_m": half - more_m},
            "right": {"center_x_m": inch(240) - half + more_m},
            "screen": {"headrest_to_wall_m": inch(186) - reach + more_m},
        }
        return with_row(**rows[wall])

    exact = held("row-fits-walls", spec_for(0.0))[place]
    worse = held("row-fits-walls", spec_for(UM))[place]
    assert exact.subject == f"row A, {wall} wall"
    assert (exact.outcome, exact.margin) == (Outcome.MET, 0.0)
    assert worse.outcome is Outcome.NOT_MET
    assert f"past the {wall} wall" in worse.note


def test_how_far_a_row_is_too_wide_is_told_in_the_units_of_the_plan():
    spec = with_row(center_x_m=inch(157 / 2 - 3.25))
    assert "3 1/4 in past the left wall" in held("row-fits-walls", spec)[0].note
    metric = replace(spec, project=replace(spec.project, units="mm"))
    assert "83 mm past the left wall" in held("row-fits-walls", metric)[0].note


def test_a_reclined_chair_may_touch_an_obstacle_and_not_stand_in_it():
    # The footrests end 80 in from the back wall.
    def spec_for(more_m):
        column = make_area("column", 100, 80, 12, 12)
        rect = replace(column.rect, back_m=column.rect.back_m - more_m)
        return make_spec(obstacles=(replace(column, rect=rect),))

    assert_boundary("row-clears-obstacle", spec_for)


def test_a_row_in_a_walkway_is_advised_against():
    # The footrests end 80 in from the back wall.
    def spec_for(more_m):
        aisle = make_area("aisle", 100, 80, 36, 100)
        rect = replace(aisle.rect, back_m=aisle.rect.back_m - more_m)
        return make_spec(walkways=(replace(aisle, rect=rect),))

    assert_boundary("row-clears-walkway", spec_for)
    told = only("row-clears-walkway", spec_for(inch(3)))
    assert told.force is Force.ADVICE
    assert "needs 3 in of the floor that people walk on" in told.note


def test_bases_of_two_rows_may_touch_and_not_stand_in_each_other():
    # Row A's bases end at 53 in; row B's begin 4 in ahead of its headrests.
    assert_boundary("rows-apart", lambda more_m: two_rows(inch(49) - more_m))


def test_rows_side_by_side_are_not_held_against_each_other():
    spec = make_spec(
        rows=(
            make_row(seats=1, center_x_m=inch(40)),
            make_row(id="B", seats=1, center_x_m=inch(200), headrest_to_wall_m=inch(20)),
        )
    )
    assert held("rows-apart", spec) == []
    assert held("footrest-clears-row-ahead", spec) == []


def test_a_row_fully_hidden_behind_another_is_held_only_against_that_one():
    spec = make_spec(
        rows=tuple(
            make_row(id=name, seats=2, headrest_to_wall_m=inch(at))
            for name, at in (("A", 10), ("C", 130), ("B", 70))
        )
    )
    subjects = [finding.subject for finding in held("rows-apart", spec)]
    assert subjects == ["rows A and B", "rows B and C"]


def test_a_headrest_may_just_touch_the_wall_at_the_end_of_its_travel():
    assert_boundary(
        "headrest-clears-wall", lambda more_m: with_row(headrest_to_wall_m=inch(5) - more_m)
    )
    finding = only("headrest-clears-wall", with_row(headrest_to_wall_m=inch(3)))
    assert "move the row forward by 2 in" in finding.note


def test_footrests_may_just_reach_the_reclined_headrests_of_the_row_ahead():
    # Row A's footrests end at 80 in; row B's headrests move 5 in back.
    assert_boundary("footrest-clears-row-ahead", lambda more_m: two_rows(inch(85) - more_m))


@pytest.mark.published(source="common practice, no source", standing="common practice")
def test_a_riser_of_72_in_is_just_enough_to_recline_8_in_off_the_wall_with_64_in_of_reach():
    def spec_for(more_m):
        riser = make_riser(0, 0, 240, 72)
        rect = replace(riser.rect, front_m=riser.rect.front_m - more_m)
        return make_spec(
            chairs=(make_chair(reclined_reach_m=inch(64)),),
            rows=(make_row(headrest_to_wall_m=inch(8)),),
            risers=(replace(riser, rect=rect),),
        )

    assert_boundary("footrest-on-riser", spec_for)


@pytest.mark.published(source="common practice, no source", standing="common practice")
def test_a_riser_of_84_in_leaves_12_in_to_pass_8_in_off_the_wall_with_64_in_of_reach():
    spec = make_spec(
        chairs=(make_chair(reclined_reach_m=inch(64)),),
        rows=(make_row(headrest_to_wall_m=inch(8)),),
        risers=(make_riser(0, 0, 240, 84),),
    )
    passage = only("passage-in-front", spec)
    assert passage.value == pytest.approx(inch(12), abs=1e-9)
    assert (passage.outcome, passage.force) == (Outcome.MET, Force.ADVICE)


def test_a_row_off_a_riser_has_no_riser_edge_to_keep():
    assert held("footrest-on-riser", make_spec(risers=(make_riser(0, 100, 240, 40),))) == []


@pytest.mark.parametrize("depth", [53, 120])
def test_bases_wholly_on_a_riser_stand_on_one_level(depth):
    finding = only("row-on-one-level", make_spec(risers=(make_riser(0, 0, 240, depth),)))
    assert finding.outcome is Outcome.MET


def test_bases_may_end_at_a_risers_edge_from_either_side():
    # The bases reach from 18 in to 53 in.
    def on_it(more_m):
        riser = make_riser(0, 0, 240, 53)
        rect = replace(riser.rect, front_m=riser.rect.front_m - more_m)
        return make_spec(risers=(replace(riser, rect=rect),))

    def beside_it(more_m):
        riser = make_riser(0, 53, 240, 30)
        rect = replace(riser.rect, back_m=riser.rect.back_m - more_m)
        return make_spec(risers=(replace(riser, rect=rect),))

    assert_boundary("row-on-one-level", on_it)
    assert_boundary("row-on-one-level", beside_it)


def test_a_row_half_on_a_riser_is_told_the_least_move():
    finding = only("row-on-one-level", make_spec(risers=(make_riser(0, 0, 240, 48),)))
    assert finding.value == pytest.approx(inch(-5), abs=1e-9)
    assert "5 in" in finding.note


def test_a_door_that_swings_in_needs_a_square_of_its_own_width():
    # Row A ends at 198 1/2 in: a door of 41 1/2 in in the right wall just misses it.
    def spec_for(more_m):
        door = make_door(Wall.RIGHT, 40, 41.5)
        return make_spec(doors=(replace(door, end_m=door.end_m + more_m),))

    assert_boundary("door-free", spec_for)
    assert "let the door swing out" in only("door-free", spec_for(0.1)).note


@pytest.mark.parametrize("swings", ["out", "slides"])
def test_a_door_that_does_not_swing_in_needs_the_passage_only(swings):
    # 12 in of passage inside the right wall: the row may reach 228 in.
    def spec_for(more_m):
        return make_spec(
            doors=(make_door(Wall.RIGHT, 40, 36, swings=swings),),
            rows=(make_row(center_x_m=inch(228 - 157 / 2) + more_m),),
        )

    assert_boundary("door-free", spec_for)


def test_a_reclined_headrest_behind_the_row_counts_against_a_door_in_the_back_wall():
    # Headrests 41 in off the wall come back to 36 in: as far as a door of 36 in swings.
    def spec_for(more_m):
        return make_spec(
            doors=(make_door(Wall.BACK, 100, 36),),
            rows=(make_row(headrest_to_wall_m=inch(41) - more_m),),
        )

    assert_boundary("door-free", spec_for)


def test_a_doors_distance_is_to_the_nearest_chair():
    finding = only("door-free", make_spec(doors=(make_door(Wall.LEFT, 110, 30),)))
    # The square ends 30 in from the left wall and begins at 110 in; A1 ends at 80 in, from 41 1/2.
    assert finding.value == pytest.approx((inch(11.5) ** 2 + inch(30) ** 2) ** 0.5, abs=1e-6)


def test_a_passage_of_12_in_in_front_is_enough_and_a_hair_less_is_advised_against():
    assert_boundary(
        "passage-in-front",
        lambda more_m: with_row(headrest_to_wall_m=inch(186 - 66 - 12) + more_m),
    )


def test_the_nearest_thing_ahead_is_named():
    assert (
        "the screen wall" in only("passage-in-front", with_row(headrest_to_wall_m=inch(110))).note
    )
    behind, _ = held("passage-in-front", two_rows(inch(90)))
    assert "the reclined headrests of row B" in behind.note
    assert behind.value == pytest.approx(inch(5), abs=1e-9)
    blocked = make_spec(obstacles=(make_area("cabinet", 100, 84, 20, 20),))
    assert "cabinet" in only("passage-in-front", blocked).note


@pytest.mark.parametrize(
    ("seats", "words"),
    [
        (5, "The middle chair, A3, stands on the center line of the room."),
        (4, "The middle armrest, between A2 and A3, stands on the center line of the room."),
    ],
)
def test_a_centered_row_tells_what_stands_on_the_center_line(seats, words):
    finding = only("row-on-centre", with_row(seats=seats))
    assert (finding.outcome, finding.force, finding.note) == (Outcome.MET, Force.NOTE, words)


def test_a_missing_arm_moves_the_middle_chair_off_the_line_and_the_note_says_so():
    # Left of the middle chair one arm is missing: it stands half an arm further left.
    finding = only("row-on-centre", with_row(no_arm_between=((2, 3),)))
    assert finding.value == 0
    assert "stands 3 1/2 in to the left of the center line" in finding.note
    assert "no arm between seats 2 and 3" in finding.note


def test_missing_arms_on_both_sides_balance():
    finding = only("row-on-centre", with_row(no_arm_between=((2, 3), (3, 4))))
    assert finding.note == "The middle chair, A3, stands on the center line of the room."


def test_an_even_row_that_shares_its_middle_cushion_has_its_middle_on_the_line():
    finding = only("row-on-centre", with_row(seats=4, no_arm_between=((2, 3),)))
    assert "middle of the shared cushion, A2 and A3, stands on the center line" in finding.note


def test_a_row_put_off_center_tells_by_how_much():
    finding = only("row-on-centre", with_row(center_x_m=inch(130)))
    assert finding.outcome is Outcome.NOT_MET
    assert finding.value == pytest.approx(inch(10), abs=1e-9)
    assert "10 in to the right" in finding.note
    assert "on purpose" in finding.note
    assert "center_from_left" not in finding.note


@pytest.mark.parametrize(("off_um", "outcome"), [(1, Outcome.MET), (2, Outcome.NOT_MET)])
def test_a_middle_rounded_to_the_micrometer_is_still_the_middle(off_um, outcome):
    finding = only("row-on-centre", with_row(center_x_m=inch(120) + off_um * UM))
    assert finding.outcome is outcome


def test_an_obstacle_right_in_front_of_the_bases_is_ahead():
    spec = make_spec(obstacles=(make_area("step", 100, 53, 10, 10),))
    finding = only("passage-in-front", spec)
    assert finding.value == pytest.approx(inch(53 - 80), abs=1e-9)
    assert "step" in finding.note
