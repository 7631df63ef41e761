"""Outlet units: straight into a fixed outlet, a socket for each chair, within their rating."""

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest
from laws import cases, judged, stops
from laws import planned as plan
from loose_rooms import make_supply, make_unit, on_supply, pairs
from mirrored import mirrored
from support import inch, make_chair, make_outlet, make_row, make_spec

from powerplan.model.codec import to_plain
from powerplan.model.findings import Force, Outcome
from powerplan.model.plan import EXISTING, NOT_POSSIBLE
from powerplan.model.spec import PlanSpec

Record = dict[str, Any]


def unit_spec(*, seats: int = 3, place: str | None = "home", **changes: Any) -> PlanSpec:
    """A row behind which one socket is free, and an outlet unit that may be used."""
    base = make_spec()
    unit = make_unit(**changes)
    return replace(
        base,
        project=replace(base.project, place=place),
        rows=(make_row(seats=seats),),
        outlets=(make_outlet(x_m=inch(120), free=1),),
        new_work=replace(base.new_work, floor_boxes=False, circuits=0),
        outlet_units=(unit,),
        cords=replace(base.cords, outlet_unit=unit.id, extensions="no"),
    )


def test_a_unit_gives_each_chair_a_socket_where_the_outlet_has_one():
    made = plan(unit_spec())
    assert made.decision.verdict == EXISTING
    assert "outlet W1, through 1 outlet unit." in made.decision.sentence
    [unit] = made.outlet_units
    assert unit.chairs == ("A1", "A2", "A3")
    assert unit.current_a == pytest.approx(5.4)
    assert [cord.kind for cord in made.cords] == ["unit cord", "own", "own", "own"]
    assert made.cords[0].current_a == pytest.approx(5.4)
    assert {chair.fed_by for chair in made.chairs} == {"W1"}
    assert stops(judged(to_plain(made))) == set()


def test_without_a_unit_the_same_room_has_too_few_sockets():
    bare = unit_spec()
    made = plan(replace(bare, cords=replace(bare.cords, outlet_unit=None)))
    assert made.decision.verdict == NOT_POSSIBLE


def test_where_sockets_do_no_unit_is_used():
    spec = replace(
        unit_spec(seats=2),
        chairs=(make_chair(lead_m=inch(96)),),
        outlets=(make_outlet(x_m=inch(120)),),
    )
    assert plan(spec).outlet_units == ()


def test_a_unit_for_one_chair_would_be_an_extension_cord_and_is_not_used():
    spec = unit_spec(seats=1, cord_m=inch(180))
    far = replace(spec, outlets=(make_outlet(x_m=inch(20), free=1),))
    assert plan(far).outlet_units == ()


@pytest.mark.published(
    source="three chairs of 1.8 A take 5.4 A; equal to the label passes, a hundredth less does not",
    standing="derived",
)
@pytest.mark.parametrize(("rating", "works"), [("5.4", True), ("5.39", False)])
def test_a_unit_carries_what_its_label_says(rating: str, works: bool):
    made = plan(unit_spec(rating_a=Fraction(rating)))
    assert (made.decision.verdict == EXISTING) == works
    if not works:
        told = {f.rule for step in made.decision.steps[:1] for f in step.findings}
        assert told & {"unit-rating", "sockets-free"}


def test_no_more_plugs_than_sockets():
    assert plan(unit_spec(sockets=2)).decision.verdict == NOT_POSSIBLE


@pytest.mark.parametrize(
    ("place", "listed", "force", "outcome", "code"),
    [
        ("home", None, Force.ADVICE, Outcome.NOT_CHECKED, 0),
        ("home", False, Force.ADVICE, Outcome.NOT_MET, 0),
        ("business", True, Force.MUST, Outcome.MET, 0),
        ("business", None, Force.MUST, Outcome.NOT_CHECKED, 4),
        (None, None, Force.MUST, Outcome.NOT_CHECKED, 4),
    ],
)
def test_the_listing_is_a_must_anywhere_but_in_a_home(
    place: str | None, listed: bool | None, force: Force, outcome: Outcome, code: int
):
    made = plan(unit_spec(seats=2, place=place, listed=listed))
    [found] = [f for f in made.findings if f.rule == "unit-listed"]
    assert (found.force, found.outcome) == (force, outcome)
    assert made.decision.exit_code == code
    assert stops(judged(to_plain(made))) == set()


def test_a_unit_that_is_not_listed_is_not_used_in_a_business():
    assert plan(unit_spec(seats=2, place="business", listed=False)).decision.verdict == NOT_POSSIBLE


@pytest.mark.parametrize("seats", cases([3], 4))  # a pair and one alone, or two pairs
def test_shared_supplies_plug_into_a_unit_by_pairs(seats: int):
    spec = unit_spec(seats=seats, sockets=2)
    supply = make_supply(feeds=2)
    shared = replace(
        spec,
        chairs=(on_supply(make_chair(), supply),),
        supplies=(supply,),
        rows=(pairs(spec.rows[0]),),
    )
    made = plan(shared)
    assert made.decision.verdict == EXISTING
    assert len(made.supplies) == 2
    assert made.outlet_units[0].current_a == pytest.approx(3.6)
    assert stops(judged(to_plain(made))) == set()


def test_a_mirror_image_uses_the_same_units():
    spec = unit_spec(seats=2)
    one, other = plan(spec), plan(mirrored(spec))
    assert one.decision.verdict == other.decision.verdict
    assert len(one.outlet_units) == len(other.outlet_units)


def _into_a_unit(record: Record) -> None:
    cord = next(c for c in record["cords"] if c["kind"] == "unit cord")
    cord["from"] = "unit B1-B2"


def _extended(record: Record) -> None:
    cord = next(c for c in record["cords"] if c["kind"] == "own")
    record["cords"].append(dict(cord, kind="extension", to="x+A1"))


def _more_sockets(record: Record) -> None:
    record["outlet_units"][0]["sockets"] = 9


def _higher_rating(record: Record) -> None:
    record["outlet_units"][0]["rating_a"] = 20.0


def _less_current(record: Record) -> None:
    record["outlet_units"][0]["current_a"] = 1.0


def _weak_label(record: Record) -> None:
    record["spec"]["outlet_units"][0]["rating_a"] = 5.0
    record["outlet_units"][0]["rating_a"] = 5.0


def _other_unit(record: Record) -> None:
    record["spec"]["cords"]["outlet_unit"] = None


def _under_the_base(record: Record) -> None:
    record["outlet_units"][0]["y_m"] += 0.25


def _long_cord(record: Record) -> None:
    next(c for c in record["cords"] if c["kind"] == "unit cord")["bought_m"] = inch(300)


EDITS: dict[Callable[[Record], None], str] = {
    _into_a_unit: "unit-into-outlet",
    _extended: "unit-into-outlet",
    _more_sockets: "record-agrees",
    _higher_rating: "record-agrees",
    _less_current: "record-agrees",
    _weak_label: "unit-rating",
    _other_unit: "record-agrees",
    _under_the_base: "supply-has-a-place",
    _long_cord: "record-agrees",
}


@pytest.mark.parametrize("edit", EDITS, ids=lambda edit: edit.__name__.strip("_"))
def test_an_edit_of_a_unit_is_caught(edit: Callable[[Record], None]) -> None:
    record = to_plain(plan(unit_spec()))
    assert stops(judged(record)) == set()
    edit(record)
    assert EDITS[edit] in stops(judged(record))
