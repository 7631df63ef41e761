"""Mixed rows: seats, arms, tables and gaps from the left."""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support import NEC, inch, make_chain, make_chair, make_row, make_spec

from powerplan.engineering.seating.covered import covered_floor
from powerplan.engineering.seating.frames import bounds
from powerplan.engineering.seating.layout import layout_findings
from powerplan.engineering.seating.poses import seat_rows
from powerplan.engineering.seating.tables import standing_things
from powerplan.engineering.seating.zones import ARM_STRIP, mark_zones
from powerplan.model.seats import Piece, TableKind, plain_pieces
from powerplan.model.spec import PlanSpec
from powerplan.planning.chaining import as_one_kind, longest_chain, may_share_plug

SEAT = Piece(what="seat", kind="club", width_m=inch(23))
ARM = Piece(what="arm", kind="club", width_m=inch(7))
GAP = Piece(what="gap", kind=None, width_m=inch(6))
CONSOLE = Piece(what="table", kind="console", width_m=inch(12))
OPEN_ARMS = make_chair(arm_gap_m=inch("3/2"))


def table(**changes) -> TableKind:
    base = TableKind(id="console", width_m=inch(12), rear_m=inch(4), front_m=inch(30), under_m=None)
    return replace(base, **changes)


def spec_of(pieces, chairs=(OPEN_ARMS,), console=None, **changes) -> PlanSpec:
    seats = sum(piece.what == "seat" for piece in pieces)
    return make_spec(
        rows=(make_row(seats=seats, pieces=tuple(pieces), **changes),),
        chairs=chairs,
        tables=(console or table(),),
    )


def strips(spec: PlanSpec) -> list[str]:
    zones = mark_zones(spec, seat_rows(spec), NEC)
    return [opening.chair for opening in zones.openings if opening.kind == ARM_STRIP]


@given(st.integers(1, 6), st.booleans(), st.integers(0, 4))
def test_a_row_of_pieces_all_alike_is_the_plain_row(seats, armless, open_arms):
    pairs = ((1, 2),) if armless and seats > 1 else ()
    kind = OPEN_ARMS if open_arms else make_chair()
    plain = make_spec(rows=(make_row(seats=seats, no_arm_between=pairs),), chairs=(kind,))
    row = replace(plain.rows[0], pieces=plain_pieces(kind, seats, pairs))
    mixed = replace(plain, rows=(row,))
    one, other = seat_rows(plain)[0], seat_rows(mixed)[0]
    assert [(c.x_m, c.y_m, c.floor) for c in one.chairs] == [
        (c.x_m, c.y_m, c.floor) for c in other.chairs
    ]
    assert mark_zones(plain, (one,), NEC) == mark_zones(mixed, (other,), NEC)
    assert covered_floor(plain, (one,), NEC) == covered_floor(mixed, (other,), NEC)
    told = [
        [(f.rule, f.subject, f.value, f.limit) for f in layout_findings(spec, (row,), NEC)]
        for spec, row in ((plain, one), (mixed, other))
    ]
    assert told[0] == told[1]


@pytest.mark.published(source="the sum of the pieces", standing="derived")
def test_a_row_of_own_arms_is_wider_by_an_arm_for_each_neighbor():
    own = spec_of([ARM, SEAT, ARM] * 4)
    (shared,) = seat_rows(make_spec(rows=(make_row(seats=4),)))
    (row,) = seat_rows(own)
    wider_m = (row.right_m - row.left_m) - (shared.right_m - shared.left_m)
    assert wider_m == pytest.approx(3 * 7 * 0.0254, abs=2e-6)
    centers = [chair.x_m for chair in row.chairs]
    assert [b - a for a, b in pairwise(centers)] == pytest.approx([37 * 0.0254] * 3, abs=2e-6)


@pytest.mark.published(source="the sum of the pieces", standing="derived")
def test_seats_tables_and_gaps_stand_one_after_the_other_and_the_whole_is_centered():
    (row,) = seat_rows(spec_of([ARM, SEAT, ARM, CONSOLE, ARM, SEAT, ARM, GAP, ARM, SEAT, ARM]))
    whole = 3 * 23 + 6 * 7 + 12 + 6
    left = 120 - whole / 2
    assert row.left_m == pytest.approx(left * 0.0254, abs=1e-6)
    assert [chair.id for chair in row.chairs] == ["A1", "A2", "A3"]
    wanted = [left + 18.5, left + 37 + 12 + 18.5, left + 37 + 12 + 37 + 6 + 18.5]
    assert [chair.x_m for chair in row.chairs] == pytest.approx(
        [place * 0.0254 for place in wanted], abs=1e-6
    )
    (console,) = row.tables
    assert console.rect.left_m == pytest.approx((left + 37) * 0.0254, abs=1e-6)
    assert console.rect.back_m == pytest.approx(18 * 0.0254, abs=1e-6)


def test_under_two_arms_side_by_side_a_cord_passes_and_under_a_table_only_with_room():
    assert strips(spec_of([ARM, SEAT, ARM, ARM, SEAT, ARM])) == ["A1"]
    assert strips(spec_of([ARM, SEAT, ARM, GAP, ARM, SEAT, ARM])) == ["A1"]
    beside = [ARM, SEAT, ARM, CONSOLE, ARM, SEAT, ARM]
    assert strips(spec_of(beside)) == []
    assert strips(spec_of(beside, console=table(under_m=inch("1/4")))) == []
    assert strips(spec_of(beside, console=table(under_m=inch(3)))) == ["A1"]


def test_a_seat_without_an_arm_on_that_side_has_no_measured_gap_there():
    assert strips(spec_of([ARM, SEAT, GAP, ARM, SEAT, ARM])) == []
    assert strips(spec_of([ARM, SEAT, SEAT, ARM], no_arm_between=((1, 2),))) == []


def test_the_lower_arm_of_two_kinds_closes_the_strip():
    low = replace(OPEN_ARMS, id="low", arm_gap_m=inch("1/4"))
    low_arm, low_seat = replace(ARM, kind="low"), replace(SEAT, kind="low")
    both = (OPEN_ARMS, low)
    assert strips(spec_of([ARM, SEAT, ARM, low_arm, low_seat, low_arm], both)) == []
    assert strips(spec_of([ARM, SEAT, low_arm, low_seat, low_arm], both)) == []
    assert strips(spec_of([ARM, SEAT, ARM, low_seat, low_arm], both)) == ["A1"]


def test_a_table_is_an_obstacle_to_cords_unless_a_cord_fits_under_it():
    beside = [ARM, SEAT, ARM, CONSOLE, ARM, SEAT, ARM]
    for under_m, stands in ((None, True), (inch("1/4"), True), (inch(3), False)):
        spec = spec_of(beside, console=table(under_m=under_m))
        found = standing_things(spec, seat_rows(spec), NEC)
        assert [thing.name for thing in found] == ["console in row A"] * stands


def test_a_mixed_row_covers_no_more_than_its_smallest_kind():
    deep = make_chair(id="deep", depth_m=inch(45), back_travel_m=inch(9), reclined_reach_m=inch(75))
    pieces = [ARM, SEAT, ARM, replace(SEAT, kind="deep"), replace(ARM, kind="deep")]
    spec = spec_of(pieces, (make_chair(), deep), headrest_to_wall_m=inch(60))
    (row,) = seat_rows(spec)
    first = bounds((covered_floor(spec, (row,), NEC)[0],))
    assert first.back_m == pytest.approx(inch(55), abs=1e-9)
    assert first.front_m == pytest.approx(inch(99), abs=1e-9)


def test_each_kind_is_held_to_the_wall_by_its_own_reach():
    deep = make_chair(id="deep", depth_m=inch(45), reclined_reach_m=inch(80))
    pieces = [ARM, SEAT, ARM, replace(SEAT, kind="deep"), replace(ARM, kind="deep")]
    spec = spec_of(pieces, (make_chair(), deep), headrest_to_wall_m=inch(100))
    found = layout_findings(spec, seat_rows(spec), NEC)
    (screen,) = (f for f in found if f.subject == "row A, screen wall")
    assert screen.value == pytest.approx((186 - 180) * 0.0254, abs=1e-6)


def _row_of(*kinds):
    pieces = [ARM]
    for kind in kinds:
        pieces += [replace(SEAT, kind=kind.id), replace(ARM, kind=kind.id)]
    unique = tuple({kind.id: kind for kind in kinds}.values())
    (row,) = seat_rows(spec_of(pieces, unique))
    return row


CHAINED = make_chair(chain=make_chain(chairs=3, current_a=8))
OTHER = replace(CHAINED, id="other", input_a=CHAINED.input_a * 2, chain=make_chain(chairs=2))


def test_a_chain_needs_every_chairs_maker_and_keeps_to_the_least_limits():
    assert may_share_plug(_row_of(CHAINED, CHAINED, CHAINED).chairs)
    assert not may_share_plug(_row_of(CHAINED, CHAINED, OTHER).chairs)
    assert may_share_plug(_row_of(CHAINED, OTHER).chairs)
    assert not may_share_plug(_row_of(CHAINED, make_chair(id="plain")).chairs)
    weak = replace(CHAINED, id="weak", chain=make_chain(chairs=3, current_a=3))
    assert not may_share_plug(_row_of(CHAINED, weak).chairs)


def test_a_seat_without_power_ends_a_chain():
    still = make_chair(id="still", powered=False)
    row = _row_of(CHAINED, still, CHAINED)
    assert [chair.id for chair in row.powered] == ["A1", "A3"]
    assert not may_share_plug(row.powered)
    assert may_share_plug(row.powered[:1])


def test_the_longest_chain_is_never_less_than_what_may_share_a_plug():
    for kinds in ((CHAINED, CHAINED, CHAINED), (CHAINED, OTHER), (OTHER, CHAINED, CHAINED)):
        row = _row_of(*kinds)
        for first in range(len(kinds)):
            for after in range(first + 1, len(kinds) + 1):
                if may_share_plug(row.chairs[first:after]):
                    assert longest_chain(row.chairs) >= after - first


@pytest.mark.published(source="a mean times its count is the sum", standing="derived")
def test_a_chain_of_two_kinds_draws_the_sum_and_the_first_lead_carries_it():
    thin = replace(OTHER, lead_wire="18 AWG", coupler_a=None)
    one = as_one_kind((CHAINED, thin), NEC)
    assert 2 * one.input_a == CHAINED.input_a + thin.input_a
    assert one.lead_wire == CHAINED.lead_wire
    assert one.coupler_a is None
    assert one.chain is not None
    assert one.chain.chairs == 2
    assert as_one_kind((CHAINED, CHAINED), NEC) == CHAINED
