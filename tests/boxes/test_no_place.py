"""A chair that leaves no place for a box is told what empties its clear zone."""

import pytest
from box_world import marked
from support import (
    inch,
    make_area,
    make_chair,
    make_joists,
    make_new_work,
    make_riser,
    make_row,
    make_spec,
)

from powerplan.engineering.boxes.marks import BoxSpot, NoSpot
from powerplan.model.findings import Outcome
from powerplan.model.spec import Size


def emptied(**changes):
    """The findings, by rule, of a chair whose clear zone is 113 to 127 in by 23 to 35 in."""
    spot = marked(make_spec(rows=(make_row(seats=1),), **changes))
    assert isinstance(spot, NoSpot)
    assert spot.chair == "A1"
    return {finding.rule: finding for finding in spot.findings}


def unmet(findings):
    return {rule for rule, finding in findings.items() if finding.outcome is Outcome.NOT_MET}


def test_a_chair_without_a_clear_zone_has_no_place_and_is_told_to_measure():
    findings = emptied(chairs=(make_chair(clear=None),))
    assert unmet(findings) == {"box-has-a-place"}
    assert "measure" in findings["box-has-a-place"].note


def test_a_lid_larger_than_the_clear_zone_is_what_empties_it():
    findings = emptied(
        new_work=make_new_work(lid=Size(width_m=inch(14) + 1e-6 * 2, depth_m=inch(6)))
    )
    assert unmet(findings) == {"box-has-a-place"}
    assert "larger than the clear zone" in findings["box-has-a-place"].note


def test_joists_that_leave_nothing_are_named_with_the_best_there_is():
    # Joists 6 in apart leave 4 1/2 in between them: a cut-out of 4 in keeps 1/4 in at best.
    findings = emptied(floor=make_joists(spacing_m=inch(6)))
    assert unmet(findings) == {"box-has-a-place", "box-clears-framing"}
    assert "without the joists there would be one" in findings["box-has-a-place"].note
    assert findings["box-clears-framing"].value == pytest.approx(inch("1/4"), abs=1e-9)
    assert findings["box-clears-framing"].limit == pytest.approx(inch("3/4"), abs=1e-9)
    # 4 1/2 in less 3/4 in on both sides is 3 in.
    assert "A cut-out of 3 in left to right would fit." in findings["box-clears-framing"].note


@pytest.mark.parametrize(("cut", "fits"), [("3", True), ("25/8", False)])
def test_the_cut_out_that_is_said_to_fit_does_and_a_larger_one_does_not(cut, fits):
    spec = make_spec(
        rows=(make_row(seats=1),),
        floor=make_joists(spacing_m=inch(6)),
        new_work=make_new_work(cut_out=Size(width_m=inch(cut), depth_m=inch(4))),
    )
    assert isinstance(marked(spec), BoxSpot) == fits


def test_a_no_cut_area_over_all_of_it_is_named():
    findings = emptied(no_cut=(make_area("duct", 110, 20, 20, 20),))
    assert unmet(findings) == {"box-has-a-place", "box-clears-no-cut"}
    assert "no-cut area duct" in findings["box-has-a-place"].note
    # The middle may be 116 to 124 in from the left: at either end the cut-out, 2 in more, is 8 in
    # past the duct's nearer edge, and so it is at the back.
    assert findings["box-clears-no-cut"].value == pytest.approx(inch(-8), abs=1e-9)


def test_of_several_things_only_those_whose_removal_helps_are_named():
    findings = emptied(
        no_cut=(make_area("duct", 100, 20, 16, 20),),
        obstacles=(make_area("column", 110, 20, 20, 20),),
    )
    note = findings["box-has-a-place"].note
    assert "without column there would be one" in note
    assert "box-clears-no-cut" not in findings


def test_two_things_that_each_leave_a_place_but_not_together_are_both_named():
    findings = emptied(
        no_cut=(make_area("duct", 100, 20, 19, 20), make_area("loop", 121, 20, 19, 20))
    )
    note = findings["box-has-a-place"].note
    assert "without any one of no-cut area duct and no-cut area loop" in note


def test_where_no_single_removal_helps_all_are_named():
    findings = emptied(
        no_cut=(make_area("duct", 110, 20, 20, 20), make_area("loop", 105, 15, 30, 30))
    )
    note = findings["box-has-a-place"].note
    assert "no-cut area duct and no-cut area loop together take all of it" in note


def test_a_riser_edge_under_the_clear_zone_is_named():
    findings = emptied(risers=(make_riser(0, 0, 240, 30),))
    assert unmet(findings) == {"box-has-a-place", "box-clears-riser-edge"}
    # The middle may be as far ahead as 32 in: the cut-out's back edge is then at the riser's edge.
    assert findings["box-clears-riser-edge"].value == pytest.approx(0, abs=1e-9)


def test_a_deck_too_small_for_the_cut_out_is_named():
    findings = emptied(
        risers=(make_riser(117.5, 18, 5, 36),),
        chairs=(make_chair(seat_width_m=inch("0.5"), arm_width_m=inch(2)),),
    )
    assert unmet(findings) == {"box-has-a-place", "box-clears-riser-edge"}
    assert findings["box-clears-riser-edge"].value == pytest.approx(inch("1/2"), abs=1e-9)


def test_an_obstacle_over_all_of_it_is_named():
    findings = emptied(obstacles=(make_area("column", 110, 20, 20, 20),))
    assert unmet(findings) == {"box-has-a-place"}
    assert "without column there would be one" in findings["box-has-a-place"].note


def test_a_plug_too_high_leaves_no_place_though_the_floor_has_one():
    findings = emptied(new_work=make_new_work(plug_height_m=inch(3) + 1e-6))
    assert unmet(findings) == {"box-plug-height"}
    assert "recessed box" in findings["box-plug-height"].note
