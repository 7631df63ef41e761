"""Places of supplies: whole on covered floor, clear of what moves, behind the base or under it."""

from dataclasses import replace
from typing import Any

import pytest
import shapely
from hypothesis import assume, given
from laws import held_over
from loose_rooms import make_supply, supply_rooms, supply_spec
from support import (
    NEC,
    inch,
    make_area,
    make_chair,
    make_outlet,
    make_riser,
    make_row,
)

from powerplan.engineering.supplies.places import NoPlace, Spot, places
from powerplan.model.spec import PlanSpec
from powerplan.planning.site import Site, survey

KEEP = 0.025


def found(spec: PlanSpec, seat: int = 0, **changes: Any) -> tuple[Spot, ...] | NoPlace:
    site = survey(spec, NEC)
    assert site.ground is not None
    kind = replace(spec.supplies[0], **changes)
    return places(site.ground, (site.chairs[seat],), kind, "in")


def some(spec: PlanSpec, **changes: Any) -> tuple[Spot, ...]:
    spots = found(spec, **changes)
    assert not isinstance(spots, NoPlace)
    return spots


def test_the_nearest_place_behind_the_base_comes_first():
    spot = some(supply_spec())[0]
    assert spot.under is None
    # headrest 14 in off the wall, 5 in of back travel, half of 3 in: just off the reclined back
    assert spot.middle[1] == pytest.approx(inch(9) - inch("3/2"), abs=2e-6)
    assert spot.middle[0] == pytest.approx(inch(120))


def test_places_under_a_reclining_back_come_last_and_the_nearest_to_the_base_first_of_them():
    spots = some(supply_spec())
    backed = [spot.backed for spot in spots]
    assert backed == sorted(backed)
    assert not any(spot.backed for spot in spots if spot.under is not None)
    first = next(spot for spot in spots if spot.backed)
    # base 4 in ahead of a headrest 14 in off the wall, 25 mm kept, half of 3 in
    assert first.middle[1] == pytest.approx(inch(18) - KEEP - inch("3/2"), abs=2e-6)
    # backs come to 9 in off the wall, arm to arm: 37 in about 120 in
    back = shapely.box(inch("203/2"), inch(9), inch("277/2"), inch(18))
    for spot in spots:
        over = spot.under is None and spot.shape.intersection(back).area > 1e-6
        assert spot.backed == over


@pytest.mark.parametrize("lead_in", [1, 2, 3, 5])
def test_where_the_lead_leaves_on_the_other_side_it_lies_on_the_other_side(lead_in: int):
    """A lead 3 in aside is as far from a place 2 in aside as from one 4 in aside."""

    def aside(sign: int) -> list[float]:
        kind = supply_spec().chairs[0]
        lead = (sign * inch(lead_in), kind.lead_from[1])
        spots = some(replace(supply_spec(), chairs=(replace(kind, lead_from=lead),)))
        places = [(sign * (spot.middle[0] - inch(120)), spot.middle[1]) for spot in spots]
        return [part for place in places for part in place]

    assert aside(-1) == pytest.approx(aside(1), abs=2e-6)


def test_under_the_chair_it_lies_in_the_clear_zone_alone():
    inside = [spot for spot in some(supply_spec()) if spot.under is not None]
    assert inside
    # the clear zone is 14 by 12 in, from 9 in ahead of a headrest 14 in off the wall
    zone = shapely.box(inch(113), inch(23), inch(127), inch(35))
    assert all(shapely.covers(zone, spot.shape) for spot in inside)
    assert {spot.under for spot in inside} == {"A1"}


def test_equal_to_the_clear_height_fits_and_higher_does_not():
    assert any(spot.under for spot in some(supply_spec(), height_m=inch(3)))
    assert not any(spot.under for spot in some(supply_spec(), height_m=inch("25/8")))


def test_a_row_against_the_wall_leaves_only_the_clear_zone():
    tight = replace(supply_spec(), rows=(make_row(seats=1, headrest_to_wall_m=inch("1/4")),))
    assert {spot.under for spot in some(tight, depth_m=inch(5))} == {"A1"}
    why = found(tight, depth_m=inch(5), height_m=inch(4))
    assert isinstance(why, NoPlace)
    assert why.low == (("A1", inch(3)),)
    assert "3 in high and brick 4 in" in why.words


def test_no_clear_zone_and_no_room_behind_is_told():
    bare = make_chair(clear=None, lead_from=(0.0, inch(2)))
    spec = supply_spec()
    kind = replace(bare, supply="brick", lead_m=inch(72))
    tight = replace(spec, chairs=(kind,), rows=(make_row(seats=1, headrest_to_wall_m=inch("1/4")),))
    why = found(tight, depth_m=inch(5))
    assert isinstance(why, NoPlace)
    assert "no clear zone was measured" in why.words


@pytest.mark.parametrize(
    "change",
    [
        {"walkways": (make_area("aisle", 0, 0, 240, 19),)},
        {"obstacles": (make_area("shelf", 0, 0, 240, 16),)},
    ],
    ids=["walkway", "obstacle"],
)
def test_floor_kept_free_behind_the_base_is_not_used(change):
    assert all(spot.under for spot in some(replace(supply_spec(), **change)))


def test_a_supply_lies_on_one_level():
    riser = make_riser(0, 10, 240, 90)  # its edge runs behind the base
    spots = some(replace(supply_spec(), risers=(riser,)))
    edge = inch(10)
    behind = [spot for spot in spots if spot.under is None]
    assert behind
    for spot in behind:
        low, high = spot.shape.bounds[1], spot.shape.bounds[3]
        assert high <= edge + 1e-6 or low >= edge - 1e-6


def test_a_floor_outlet_under_the_chair_keeps_its_lid_free():
    outlet = make_outlet(id="F1", wall=None, x_m=inch(120), y_m=inch(29), height_m=0.0)
    lid = shapely.box(inch(117), inch(26), inch(123), inch(32))
    spots = some(replace(supply_spec(), outlets=(outlet,)))
    assert all(shapely.intersection(lid, spot.shape).area < 1e-9 for spot in spots)


def chairs_floor(site: Site) -> Any:
    pieces = [outline for _, outline in site.zones.pinch]
    return shapely.union_all([shapely.Polygon(piece) for piece in pieces])


@held_over(25)
@given(supply_rooms())
def test_every_place_is_clear_of_what_moves_and_a_smaller_supply_has_one_too(
    spec: PlanSpec,
) -> None:
    site = survey(spec, NEC)
    assert site.ground is not None
    assume(site.chairs)
    chair, kind = site.chairs[0], spec.supplies[0]
    spots = places(site.ground, (chair,), kind, "in")
    if isinstance(spots, NoPlace):
        return
    moving = chairs_floor(site)
    room = shapely.box(0, 0, spec.room.width_m, spec.room.depth_m)
    for spot in spots[:40]:
        assert spot.shape.distance(moving) >= KEEP - 2e-6
        assert shapely.covers(room.buffer(1e-6), spot.shape)
    smaller = make_supply(
        width_m=kind.width_m / 2, depth_m=kind.depth_m / 2, height_m=kind.height_m / 2
    )
    assert not isinstance(places(site.ground, (chair,), smaller, "in"), NoPlace)
