"""Where a box is marked, against trying every mark of the tape."""

from dataclasses import replace

import pytest
from box_world import marked
from support import (
    inch,
    make_area,
    make_chair,
    make_framing,
    make_joists,
    make_new_work,
    make_riser,
    make_row,
    make_spec,
)

from powerplan.engineering.boxes.marks import BoxSpot, NoSpot
from powerplan.model.findings import Outcome
from powerplan.model.spec import ClearZone, Size

UM = 1e-6


def spec_of(**changes):
    """One club in the middle of the room: its clear zone is 113 to 127 in by 23 to 35 in."""
    return make_spec(rows=(make_row(seats=1),), **changes)


def held(spot, rule):
    (found,) = (finding for finding in spot.findings if finding.rule == rule)
    return found


def size(width, depth):
    return Size(width_m=inch(width), depth_m=inch(depth))


@pytest.mark.published(source="common practice, no source", standing="common practice")
@pytest.mark.parametrize("headrest_in", [8, 9, 14, 30])
def test_a_box_goes_14_in_ahead_of_the_headrest_where_the_clear_zones_middle_is(headrest_in):
    clear = ClearZone(from_m=inch(8), to_m=inch(20), width_m=inch(14), height_m=inch(3))
    spec = make_spec(
        chairs=(make_chair(clear=clear),),
        rows=(make_row(seats=1, headrest_to_wall_m=inch(headrest_in)),),
    )
    spot = marked(spec)
    assert spot.ideal == pytest.approx((inch(120), inch(headrest_in + 14)), abs=1e-9)
    assert spot.mark == pytest.approx(spot.ideal, abs=1e-9)
    assert spot.moved_because == ""


def test_on_a_slab_a_box_sits_anywhere_its_lid_fits_in_the_clear_zone():
    spot = marked(spec_of())
    # 14 by 12 in less a lid of 6 by 6 in: 4 in and 3 in to either side.
    assert spot.may_sit == (
        tuple(
            pytest.approx(corner, abs=1e-9)
            for corner in (
                (inch(116), inch(26)),
                (inch(124), inch(26)),
                (inch(124), inch(32)),
                (inch(116), inch(32)),
            )
        ),
    )
    assert spot.drift.left_m == spot.drift.right_m == inch(4)
    assert spot.drift.back_m == spot.drift.screen_m == inch(3)
    assert not spot.provisional
    assert spot.deck is None
    assert held(spot, "box-clears-framing").outcome is Outcome.MET
    assert "scan" in held(spot, "box-clears-framing").note


def test_every_box_rule_that_applies_is_told_when_met():
    spec = spec_of(
        floor=make_joists(),
        no_cut=(make_area("duct", 0, 0, 10, 10),),
        risers=(make_riser(0, 100, 240, 40),),
    )
    spot = marked(spec)
    assert [finding.rule for finding in spot.findings] == [
        "box-has-a-place",
        "box-clears-framing",
        "box-clears-riser-edge",
        "box-clears-no-cut",
        "box-plug-height",
        "box-size-known",
    ]
    assert {finding.subject for finding in spot.findings} == {"box A1"}
    assert all(finding.outcome is Outcome.MET for finding in spot.findings)


def test_a_joist_moves_the_box_aside_just_far_enough():
    # A joist's middle at 119 1/4 in: half of it, 2 in of cut-out and 3/4 in of wood make 3 1/2 in.
    spot = marked(spec_of(floor=make_joists()))
    assert spot.mark == pytest.approx((inch("122.75"), inch(29)), abs=1e-9)
    assert spot.moved_because == "joist: 2 3/4 in to the right"
    finding = held(spot, "box-clears-framing")
    assert finding.value == pytest.approx(inch("3/4"), abs=1e-9)
    assert finding.margin == pytest.approx(0, abs=1e-9)


def test_joists_from_side_to_side_count_from_the_back_wall():
    # Joists at 7 1/4, 23 1/4 and 39 1/4 in; the clear zone's middle is at 29 in.
    spot = marked(spec_of(floor=make_joists(joists_run="side to side")))
    assert spot.mark == pytest.approx((inch(120), inch(29)), abs=1e-9)
    # 29 - 23 1/4 less half the joist and half the cut-out.
    assert held(spot, "box-clears-framing").value == pytest.approx(inch(3), abs=1e-9)
    assert spot.drift.back_m == pytest.approx(inch("2.25"), abs=1e-9)


@pytest.mark.parametrize(("less_m", "found"), [(0.0, BoxSpot), (2 * UM, NoSpot)])
def test_a_cut_out_fits_exactly_between_two_joists_and_no_micrometer_more(less_m, found):
    # 4 in of cut-out, twice 3/4 in of wood and 1 1/2 in of joist fill 7 in from middle to middle.
    floor = make_joists(spacing_m=inch(7) - less_m, first_joist_m=inch("3.5"))
    spec = spec_of(floor=floor, new_work=make_new_work(lid=size(8, 6)))
    spot = marked(spec)
    assert isinstance(spot, found)
    if isinstance(spot, BoxSpot):
        assert spot.mark == pytest.approx((inch(119), inch(29)), abs=1e-9)
        assert spot.drift.left_m == spot.drift.right_m == 0.0


@pytest.mark.parametrize(("more_m", "moved"), [(0.0, ""), (UM, "no-cut area duct")])
def test_a_no_cut_area_may_be_as_near_as_the_margin(more_m, moved):
    # The cut-out ends at 122 in, the margin at 122 3/4 in.
    duct = make_area("duct", 122.75, 0, 10, 100)
    rect = replace(duct.rect, left_m=duct.rect.left_m - more_m)
    spot = marked(spec_of(no_cut=(replace(duct, rect=rect),)))
    assert spot.moved_because.split(":")[0] == moved


@pytest.mark.parametrize(("more_m", "moved"), [(0.0, ""), (UM, "column")])
def test_an_obstacle_may_touch_the_lid(more_m, moved):
    column = make_area("column", 123, 0, 10, 100)
    rect = replace(column.rect, left_m=column.rect.left_m - more_m)
    spot = marked(spec_of(obstacles=(replace(column, rect=rect),)))
    assert spot.moved_because.split(":")[0] == moved


def test_under_a_row_on_a_riser_the_decks_framing_counts_and_not_the_floors():
    deck = make_joists(first_joist_m=inch("29/4"))
    riser = make_riser(10, 0, 220, 90, framing=deck)
    spot = marked(spec_of(risers=(riser,), floor=make_framing()))
    # Counted from the riser's own edge joists lie at 113 1/4 and 129 1/4 in.
    assert spot.deck == "rear"
    assert spot.mark == pytest.approx((inch(120), inch(29)), abs=1e-9)
    assert spot.drift.left_m == pytest.approx(inch("3.25"), abs=1e-9)
    assert not spot.provisional


@pytest.mark.parametrize(("more_m", "moved"), [(0.0, ""), (UM, "the edge of riser rear")])
def test_a_cut_out_in_a_deck_keeps_the_margin_to_its_edge(more_m, moved):
    # The cut-out begins at 27 in: a deck from 26 1/4 in just will do.
    riser = make_riser(0, 26.25, 240, 60)
    rect = replace(riser.rect, back_m=riser.rect.back_m + more_m)
    spot = marked(spec_of(risers=(replace(riser, rect=rect),)))
    assert spot.deck == "rear"
    assert spot.moved_because.split(":")[0] == moved
    assert held(spot, "box-clears-riser-edge").outcome is Outcome.MET


@pytest.mark.parametrize(("more_m", "moved"), [(0.0, ""), (UM, "the edge of riser rear")])
def test_a_cut_out_in_the_floor_keeps_the_margin_from_a_riser(more_m, moved):
    riser = make_riser(0, 0, 240, 26.25)
    rect = replace(riser.rect, front_m=riser.rect.front_m + more_m)
    spot = marked(spec_of(risers=(replace(riser, rect=rect),)))
    assert spot.deck is None
    assert spot.moved_because.split(":")[0] == moved


def test_a_middle_off_the_tape_is_rounded_and_said_so():
    spec = make_spec(rows=(make_row(seats=1, center_x_m=inch(120) + inch("1/32")),))
    spot = marked(spec)
    assert spot.mark == pytest.approx((inch(120), inch(29)), abs=1e-9)
    assert spot.moved_because == "rounded to the tape: 1/32 in to the left"


def test_a_middle_halfway_between_two_marks_goes_to_the_left_and_back():
    spec = make_spec(
        rows=(
            make_row(
                seats=1,
                center_x_m=inch(120) + 0.001588,
                headrest_to_wall_m=inch(14) + 0.001587,
            ),
        )
    )
    spot = marked(spec)
    assert spot.mark == pytest.approx((inch("120.125"), inch(29)), abs=1e-9)


@pytest.mark.parametrize("units", ["mm", "m"])
def test_a_metric_tape_shows_5_mm(units):
    spec = spec_of()
    spot = marked(replace(spec, project=replace(spec.project, units=units)))
    # The middle is at 3.048 m and 0.7366 m.
    assert spot.mark == pytest.approx((3.05, 0.735), abs=1e-9)
    assert spot.moved_because.startswith("rounded to the tape")


def test_where_no_mark_of_the_tape_lies_in_what_is_left_the_place_is_exact_and_said_so():
    spec = make_spec(
        rows=(make_row(seats=1, center_x_m=inch(120) + 0.001),),
        new_work=make_new_work(lid=size(14, 6)),
    )
    spot = marked(spec)
    assert spot.mark == pytest.approx((3.049, inch(29)), abs=1.5 * UM)
    spec = make_spec(
        rows=(make_row(seats=1, center_x_m=inch(120) + 0.001),),
        new_work=make_new_work(lid=size(14, 6)),
        no_cut=(make_area("duct", 0, 0, 240, 26.5),),
    )
    spot = marked(spec)
    assert spot.mark == pytest.approx((3.049, inch("29.25")), abs=1.5 * UM)
    assert "no mark of the tape" in spot.moved_because
    assert "no-cut area duct" in spot.moved_because


@pytest.mark.parametrize(("height", "found"), [("9/4", BoxSpot), ("2", NoSpot)])
def test_a_plug_may_be_as_high_as_the_clear_zone_and_not_higher(height, found):
    clear = replace(make_chair().clear, height_m=inch(height))
    spot = marked(spec_of(chairs=(make_chair(clear=clear),)))
    assert isinstance(spot, found)
    met = held(spot, "box-plug-height").outcome is Outcome.MET
    assert met is (found is BoxSpot)


@pytest.mark.parametrize(
    ("known", "words"),
    [
        ({"cut_out": None}, "a cut-out of 4 in by 4 in"),
        ({"lid": None}, "a lid of 6 in by 6 in"),
        ({"cut_out": None, "lid": None}, "a cut-out of 4 in by 4 in and a lid of 6 in by 6 in"),
    ],
)
def test_without_the_boxs_sizes_the_mark_is_provisional_and_made_for_the_usual_ones(known, words):
    spec = spec_of(floor=make_joists())
    spot = marked(replace(spec, new_work=make_new_work(**known)))
    finding = held(spot, "box-size-known")
    assert spot.provisional
    assert finding.outcome is Outcome.NOT_CHECKED
    assert words in finding.note
    assert spot.mark == marked(spec).mark
