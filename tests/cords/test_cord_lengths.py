"""What a cord must measure, and where a lead meets an extension."""

import math
from dataclasses import replace

import pytest
from cord_rooms import all_covered, at, bare_room, chairs_of, found, make_router
from hypothesis import given, settings
from hypothesis import strategies as st
from support import NEC, inch, make_riser, make_spec, rect

from powerplan.engineering.cords.lengths import (
    needed_lead_m,
    needed_link_m,
    sold_length_m,
    split_for_extension,
)
from powerplan.engineering.cords.route import Route


@pytest.mark.parametrize(("way_in", "needed_in"), [(0, 26.4), (40, 70.4), (76, 110)])
def test_a_lead_needs_its_way_and_24_in_times_1_1(way_in: float, needed_in: float):
    assert needed_lead_m(way_in * 0.0254, NEC) == pytest.approx(needed_in * 0.0254, abs=1e-9)


def test_a_link_needs_only_its_way():
    assert needed_link_m(1.25) == 1.25


def test_the_next_length_sold_is_taken_and_equal_is_enough():
    sold = (inch(36), inch(108), inch(72))
    assert sold_length_m(inch(36), sold) == inch(36)
    assert sold_length_m(inch(36) + 2e-6, sold) == inch(72)
    assert sold_length_m(inch(108) + 2e-6, sold) is None
    assert sold_length_m(0.1, ()) is None


def _straight(length_in: float, **changes) -> Route:
    router = all_covered(bare_room(**changes))
    return found(router.route(at(10, 90), at(10 + length_in, 90)))


def test_the_lead_takes_as_much_of_the_way_as_its_length_allows():
    # 72 in of lead: 72 / 1.1 - 24 = 41.4545 in of way.
    parts = split_for_extension(_straight(200), 0.4, inch(72), (), NEC)
    assert parts is not None
    extension, lead = parts
    assert lead.length_m == pytest.approx((72 / 1.1 - 24) * 0.0254, abs=2e-5)
    assert needed_lead_m(lead.length_m, NEC) <= inch(72)
    assert extension.path[-1] == lead.path[0]
    assert (extension.path[0], lead.path[-1]) == (at(10, 90), at(210, 90))
    assert extension.length_m + lead.length_m == pytest.approx(200 * 0.0254, abs=1e-9)


def test_the_outlets_height_goes_to_the_extension():
    parts = split_for_extension(_straight(200), 0.4, inch(72), (), NEC)
    assert parts is not None
    assert (parts[0].rises_m, parts[1].rises_m) == (0.4, 0.0)


def test_a_lead_too_short_for_any_way_makes_no_joint():
    assert split_for_extension(_straight(200), 0.0, inch(26), (), NEC) is None


def test_a_lead_just_long_enough_for_its_spare_is_joined_at_the_chair():
    parts = split_for_extension(_straight(200), 0.0, 26.4 * 0.0254, (), NEC)
    assert parts is not None
    assert parts[1].length_m == 0.0
    assert parts[1].path == (at(210, 90), at(210, 90))
    assert parts[0].length_m == pytest.approx(200 * 0.0254, abs=1e-9)


def test_a_joint_moves_toward_the_chair_out_of_a_strip():
    # The joint would come 41.45 in from the chair, at 168.5 in; the strip is from 160 to 180 in.
    strip = rect(160, 80, 20, 20)
    parts = split_for_extension(_straight(200), 0.0, inch(72), (strip.outline,), NEC)
    assert parts is not None
    assert parts[1].path[0][0] == pytest.approx(inch(180), abs=2e-5)
    assert parts[1].path[0][0] > inch(180)


def test_a_joint_leaves_strips_that_meet_one_after_the_other():
    strips = (rect(150, 80, 20, 20).outline, rect(170, 80, 20, 20).outline)
    parts = split_for_extension(_straight(200), 0.0, inch(72), strips, NEC)
    assert parts is not None
    assert parts[1].path[0][0] > inch(190)


def test_no_joint_is_possible_when_the_chairs_end_is_in_the_strip():
    strip = rect(160, 80, 60, 20)
    assert split_for_extension(_straight(200), 0.0, inch(72), (strip.outline,), NEC) is None


def test_a_strip_beyond_the_leads_reach_changes_nothing():
    far = rect(20, 80, 100, 20)
    assert split_for_extension(_straight(200), 0.0, inch(72), (far.outline,), NEC) == (
        split_for_extension(_straight(200), 0.0, inch(72), (), NEC)
    )


def test_a_step_belongs_to_the_part_in_which_it_is():
    low = make_riser(20, 60, 20, 60)
    parts = split_for_extension(_straight(200, risers=(low,)), 0.0, inch(72), (), NEC)
    assert parts is not None
    assert parts[0].rises_m == pytest.approx(20 * 0.0254, abs=1e-9)
    assert parts[1].rises_m == 0.0


def test_a_step_on_the_leads_part_shortens_the_leads_way():
    # The chair stands on a riser 10 in high, 20 in from its edge: 41.45 in less 10 in of way.
    deck = make_riser(190, 60, 50, 60)
    parts = split_for_extension(_straight(200, risers=(deck,)), 0.0, inch(72), (), NEC)
    assert parts is not None
    assert parts[1].rises_m == pytest.approx(10 * 0.0254, abs=1e-9)
    assert parts[1].length_m == pytest.approx((72 / 1.1 - 24 - 10) * 0.0254, abs=2e-5)
    assert parts[0].rises_m == 0.0


def test_a_joint_stays_up_on_the_deck_when_the_lead_does_not_reach_over_the_step():
    # The step is 35 in from the chair: 35 + 10 in is more than 41.45 in.
    deck = make_riser(175, 60, 60, 60)
    parts = split_for_extension(_straight(200, risers=(deck,)), 0.0, inch(72), (), NEC)
    assert parts is not None
    assert (parts[1].rises_m, parts[0].rises_m) == (0.0, pytest.approx(10 * 0.0254, abs=1e-9))
    assert parts[1].path[0][0] > inch(175)


def test_a_joint_keeps_a_millimeter_off_a_step_so_that_rounding_cannot_move_it_across():
    reach_m = (72 / 1.1 - 24) * 0.0254
    deck = make_riser(100, 60, 130, 60)
    edge_m = round(inch(210) - reach_m - 0.0003, 6)
    deck = replace(deck, rect=replace(deck.rect, left_m=edge_m))
    parts = split_for_extension(_straight(200, risers=(deck,)), 0.0, inch(72), (), NEC)
    assert parts is not None
    assert parts[1].path[0][0] - edge_m >= 0.00099
    assert (parts[1].rises_m, parts[0].rises_m) == (0.0, pytest.approx(0.254, abs=1e-9))


def test_a_lead_that_reaches_the_outlet_leaves_only_the_outlets_height():
    parts = split_for_extension(_straight(30), 0.4, inch(72), (), NEC)
    assert parts is not None
    assert (parts[0].length_m, parts[0].rises_m) == (0.0, 0.4)
    assert parts[1].path == (at(10, 90), at(40, 90))


def test_a_route_without_its_floor_is_not_cut_where_it_has_steps():
    bare = Route(
        path=((0.0, 0.0), (5.0, 0.0)), length_m=5.0, rises_m=0.2, open_floor_m=0.0, clearance_m=1.0
    )
    with pytest.raises(ValueError, match="a route without its floor"):
        split_for_extension(bare, 0.0, inch(72), (), NEC)


def test_the_parts_of_a_way_under_a_row_keep_its_bends_and_measures():
    spec = make_spec()
    way = found(make_router(spec).route((0.0, 0.0), chairs_of(spec)["A5"].lead_from))
    parts = split_for_extension(way, 0.4, inch(72), (), NEC)
    assert parts is not None
    extension, lead = parts
    assert (*extension.path[:-1], *lead.path[1:]) == way.path
    assert extension.length_m + lead.length_m == pytest.approx(way.length_m, abs=1e-9)
    assert min(extension.clearance_m, lead.clearance_m) == pytest.approx(way.clearance_m, abs=1e-9)


@settings(max_examples=40)
@given(st.integers(27, 240), st.integers(1, 200), st.integers(0, 180))
def test_both_parts_together_are_the_whole_and_the_lead_is_long_enough(lead, length, strip):
    strips = (rect(10 + strip, 80, 15, 20).outline,)
    parts = split_for_extension(_straight(length), 0.0, inch(lead), strips, NEC)
    if parts is None:
        return
    extension, own = parts
    assert extension.length_m + own.length_m == pytest.approx(length * 0.0254, abs=1e-9)
    assert needed_lead_m(round(own.length_m, 6), NEC) <= inch(lead)
    joint_x = own.path[0][0]
    assert not inch(10 + strip) <= joint_x <= inch(25 + strip)
    assert math.isclose(extension.path[-1][1], inch(90))
