"""Supplies on the floor: what they count for, how they are fed, and who checks it."""

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest
from laws import cases, judged, law, stops
from laws import planned as plan
from loose_rooms import make_supply, on_supply, pairs, supply_rooms, supply_spec
from mirrored import mirrored
from scaled import scaled
from support import inch, make_chair, make_outlet, make_row, make_spec

from powerplan.model.codec import to_plain
from powerplan.model.plan import EXISTING, EXTENSIONS, NOT_POSSIBLE, Plan
from powerplan.model.spec import PlanSpec

Record = dict[str, Any]


def asked_a(made: Plan) -> float:
    return sum(use.asks_a for use in made.circuits)


@pytest.mark.published(
    source="four seats on two supplies of 1.8 A, 0.3 A lasting: 2 x (1.25 x 0.3 + 1.5) = 3.75 A; "
    "three on two 3.75 A, five on three 5.625 A; on supplies of their own 1.875 A each",
    standing="derived",
)
@pytest.mark.parametrize(
    ("seats", "shared", "alone"),
    [
        (3, 3.75, 5.625),
        (1, 1.875, 1.875),
        pytest.param(4, 3.75, 7.5, marks=pytest.mark.slow),
        pytest.param(5, 5.625, 9.375, marks=pytest.mark.slow),
    ],
)
def test_a_shared_supply_is_counted_once(seats: int, shared: float, alone: float):
    spec = supply_spec(seats=seats, shared=True)
    wide = replace(spec, new_work=replace(spec.new_work, sockets_per_box=4))
    assert asked_a(plan(wide)) == shared
    own = replace(wide, rows=(make_row(seats=seats),))
    assert asked_a(plan(own)) == alone


def test_two_seats_of_a_pair_hang_on_one_supply_and_one_plug():
    made = plan(supply_spec(seats=2, shared=True))
    assert made.decision.verdict == EXISTING
    assert [supply.chairs for supply in made.supplies] == [("A1", "A2")]
    assert [cord.kind for cord in made.cords] == ["wall cord", "chair cord", "chair cord"]
    assert {chair.fed_by for chair in made.chairs} == {made.cords[0].from_}
    assert [chair.input_a for chair in made.chairs] == [0.9, 0.9]
    assert made.cords[0].current_a == 1.8
    assert made.cords[1].current_a == 2.0
    assert stops(judged(to_plain(made))) == set()


def test_each_supply_lies_behind_its_own_chairs():
    made = plan(supply_spec(seats=4, shared=True))
    places = {chair.id: chair.x_m for chair in made.chairs}
    half_m = inch("23/2")
    for supply in made.supplies:
        sides = [places[chair] for chair in supply.chairs]
        assert min(sides) - half_m <= supply.x_m - supply.width_m / 2 + 2e-6
        assert supply.x_m + supply.width_m / 2 <= max(sides) + half_m + 2e-6


def test_a_wall_cord_that_is_too_short_is_bought_longer():
    made = plan(supply_spec(wall_cord_m=inch(24), longer_cords_m=(inch(108),)))
    assert made.decision.verdict == EXISTING
    assert "1 longer cord from the chair maker (9 ft)" in made.decision.sentence
    assert made.cords[0].longer


def test_where_a_supply_has_no_place_the_reason_is_told():
    spec = supply_spec(seats=1, height_m=inch(5), depth_m=inch(9), width_m=inch(13))
    tight = replace(spec, rows=(make_row(seats=1, headrest_to_wall_m=inch(5)),))
    made = plan(tight)
    assert made.decision.verdict == NOT_POSSIBLE
    [first, *_] = made.decision.steps
    assert {finding.rule for finding in first.findings} == {"supply-has-a-place"}
    assert "Behind the base of A1 no covered floor of 1 ft 1 in by 9 in is clear" in first.sentence


def test_a_supply_too_high_for_the_clear_zone_is_told_with_both_heights():
    spec = supply_spec(seats=1, height_m=inch(5), depth_m=inch(9), width_m=inch(9))
    tight = replace(spec, rows=(make_row(seats=1, headrest_to_wall_m=inch(5)),))
    [first, *_] = plan(tight).decision.steps
    assert {finding.rule for finding in first.findings} == {"supply-height"}
    assert "3 in high and brick 5 in" in first.sentence


def test_the_low_voltage_that_is_lost_is_advice_and_stops_nothing():
    made = plan(supply_spec(output_v=Fraction(3)))
    [found] = [f for f in made.findings if f.rule == "low-voltage-drop"]
    assert not found.stops
    assert found.margin is not None
    assert found.margin < 0
    assert made.decision.exit_code == 0


def test_a_box_under_a_chair_keeps_its_lid_clear_of_the_supply():
    spec = supply_spec(seats=1)
    boxed = replace(
        spec,
        outlets=(),
        rows=(make_row(seats=1, headrest_to_wall_m=inch(5)),),
        supplies=(make_supply(depth_m=inch("5/2"), width_m=inch(6)),),
    )
    made = plan(boxed)
    assert stops(judged(to_plain(made))) == set()
    [box] = made.boxes
    [supply] = made.supplies
    apart = abs(supply.x_m - box.x_m) - (supply.width_m + inch(6)) / 2
    ahead = abs(supply.y_m - box.y_m) - (supply.depth_m + inch(6)) / 2
    assert max(apart, ahead) >= -2e-6


@law(supply_rooms(), usual=4, many=400)
def test_the_judge_agrees_with_every_plan_with_supplies(spec: PlanSpec) -> None:
    made = plan(spec)
    found = judged(to_plain(made))
    own = {finding.rule for finding in made.findings if finding.stops}
    assert stops(found) <= own
    assert not found.disputed


@law(supply_rooms(), usual=2, many=60)
def test_sharing_a_supply_halves_the_load_of_even_rows(spec: PlanSpec) -> None:
    even = tuple(replace(row, seats=row.seats + row.seats % 2) for row in spec.rows)
    shared = plan(replace(spec, rows=tuple(pairs(row) for row in even)))
    alone = plan(replace(spec, rows=tuple(replace(r, shared_supplies=()) for r in even)))
    one, other = ([chair.input_a for chair in made.chairs] for made in (shared, alone))
    assert [2 * amps for amps in one] == pytest.approx(other)


@law(supply_rooms(), usual=2, many=60)
def test_a_room_with_supplies_in_a_mirror_decides_the_same(spec: PlanSpec) -> None:
    flat = replace(spec, new_work=replace(spec.new_work, floor_boxes=False), risers=())
    one, other = plan(flat), plan(mirrored(flat))
    assert [step.works for step in one.decision.steps] == [
        step.works for step in other.decision.steps
    ]
    assert one.decision.verdict == other.decision.verdict


@pytest.mark.parametrize("seats", cases([1, 2], 3, 5))
@pytest.mark.parametrize("shared", [False, True])
def test_longer_cords_of_a_supply_never_worsen(seats: int, shared: bool) -> None:
    before: list[bool] | None = None
    for inches in (36, 48, 60, 72, 96):
        spec = supply_spec(
            seats=seats, shared=shared, chair_cord_m=inch(inches), wall_cord_m=inch(inches)
        )
        now = [step.works for step in plan(spec).decision.steps]
        if before is not None:
            assert all(after or not worked for worked, after in zip(before, now, strict=True))
        before = now
    assert before is not None
    assert any(before)


def test_old_records_read_as_if_nothing_lay_on_the_floor():
    record = to_plain(plan(make_spec(chairs=(make_chair(),))))
    for key in ("supplies", "outlet_units"):
        del record[key], record["spec"][key]
    for cord in record["cords"]:
        del cord["longer"]
    for row in record["spec"]["rows"]:
        del row["shared_supplies"]
    for kind in record["spec"]["chairs"]:
        del kind["supply"], kind["longer_leads_m"], kind["battery"]
    assert stops(judged(record)) == set()


def _move(record: Record) -> None:
    record["supplies"][0]["x_m"] += 0.02


def _push_under(record: Record) -> None:
    supply = record["supplies"][0]
    for cord in record["cords"]:
        for end in (0, -1):
            if cord["path_m"][end] == [supply["x_m"], supply["y_m"]]:
                cord["path_m"][end] = [supply["x_m"], supply["y_m"] + 0.25]
    supply["y_m"] += 0.25


def _shrink(record: Record) -> None:
    record["supplies"][0]["width_m"] /= 2


def _lower(record: Record) -> None:
    record["supplies"][0]["height_m"] /= 2


def _claim_a_clear_zone(record: Record) -> None:
    record["supplies"][0]["under"] = "A1"


def _take_away(record: Record) -> None:
    record["supplies"] = record["supplies"][1:]


def _part_a_pair(record: Record) -> None:
    record["supplies"][0]["chairs"] = ["A1"]


def _half_the_load(record: Record) -> None:
    record["spec"]["rows"][0]["shared_supplies"] = []


def _shorten(record: Record) -> None:
    cord = next(cord for cord in record["cords"] if cord["kind"] == "chair cord")
    cord["bought_m"] = cord["needed_m"] - 0.1


def _other_wire(record: Record) -> None:
    next(c for c in record["cords"] if c["kind"] == "wall cord")["wire"] = "12 AWG"


def _other_drop(record: Record) -> None:
    record["supplies"][0]["drop_percent"] = 0.1


def _low_current(record: Record) -> None:
    next(c for c in record["cords"] if c["kind"] == "chair cord")["current_a"] = 0.2


def _second_cord(record: Record) -> None:
    wall = next(c for c in record["cords"] if c["kind"] == "wall cord")
    record["cords"].append(dict(wall, **{"from": "W2", "id": f"W2-{wall['to']}"}))


EDITS: dict[Callable[[Record], None], str] = {
    _move: "ends-meet",
    _push_under: "supply-has-a-place",
    _shrink: "record-agrees",
    _lower: "record-agrees",
    _claim_a_clear_zone: "supply-has-a-place",
    _take_away: "ends-meet",
    _part_a_pair: "record-agrees",
    _half_the_load: "record-agrees",
    _shorten: "cord-length",
    _other_wire: "record-agrees",
    _other_drop: "record-agrees",
    _low_current: "record-agrees",
    _second_cord: "record-agrees",
}


@pytest.mark.parametrize("edit", EDITS, ids=lambda edit: edit.__name__.strip("_"))
def test_an_edit_of_a_supply_is_caught(edit: Callable[[Record], None]) -> None:
    record = to_plain(plan(supply_spec(seats=2, shared=True)))
    assert stops(judged(record)) == set()
    edit(record)
    assert EDITS[edit] in stops(judged(record))


@pytest.mark.parametrize("higher", [0.0, inch(2)], ids=["as it is", "higher than the zone"])
def test_the_judge_holds_the_height_of_a_supply_under_a_chair(higher: float) -> None:
    spec = supply_spec(height_m=inch(2))
    tight = replace(spec, rows=(make_row(seats=1, headrest_to_wall_m=inch(5)),))
    big = replace(tight, supplies=(make_supply(depth_m=inch(9), width_m=inch(9)),))
    record = to_plain(plan(big))
    assert record["supplies"][0]["under"] == "A1"
    record["supplies"][0]["height_m"] += higher
    record["spec"]["supplies"][0]["height_m"] += higher
    assert ("supply-height" in stops(judged(record))) == bool(higher)


def test_every_length_twice_as_long_asks_the_same_load():
    spec = supply_spec(seats=3)
    assert asked_a(plan(scaled(spec, 2))) == asked_a(plan(spec))


def test_chairs_with_and_without_a_supply_stand_in_one_room():
    spec = supply_spec(seats=1)
    plain = make_chair(id="plain")
    both = replace(
        spec,
        chairs=(*spec.chairs, plain),
        rows=(*spec.rows, make_row(id="B", chair="plain", seats=1, headrest_to_wall_m=inch(100))),
    )
    made = plan(both)
    assert [supply.chairs for supply in made.supplies] == [("A1",)]
    assert stops(judged(to_plain(made))) == set()
    assert on_supply(plain, spec.supplies[0]).supply == "brick"


@pytest.mark.parametrize(("x_in", "seats"), [(20, 2), (200, 1)])
def test_an_extension_cord_to_a_supply_ends_where_the_supply_lies(x_in: int, seats: int):
    base = supply_spec(seats=seats, wall_cord_m=inch(48))
    made = plan(
        replace(
            base,
            outlets=(make_outlet(x_m=inch(x_in)),),
            cords=replace(base.cords, extensions="yes"),
            new_work=replace(base.new_work, floor_boxes=False, circuits=0),
        )
    )
    assert made.decision.verdict == EXTENSIONS
    places = {supply.id: (supply.x_m, supply.y_m) for supply in made.supplies}
    ends = {cord.to: cord.path_m[-1] for cord in made.cords if cord.to in places}
    assert ends == places
    assert judged(made).disputed == ()
