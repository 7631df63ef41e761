"""A supply lies off a reclining back; where only a place under one is left, its height is asked."""

from dataclasses import replace

from loose_rooms import supply_spec
from support import NEC, inch, make_chair, make_row

from powerplan.judging.judge import judge
from powerplan.model.findings import Outcome
from powerplan.model.plan import Plan
from powerplan.planning.pipeline import make_plan


def near_the_wall(clear_in: str, headrest_in: int) -> Plan:
    """A chair that moves back 5 in, with a supply of 7 by 3 by 2 in, and so much clear height."""
    chair = make_chair()
    assert chair.clear is not None
    low = replace(chair.clear, height_m=inch(clear_in))
    spec = supply_spec()
    kind = replace(spec.chairs[0], clear=low)
    row = make_row(seats=1, headrest_to_wall_m=inch(headrest_in))
    return make_plan(replace(spec, chairs=(kind,), rows=(row,)), NEC, "0" * 64)


def test_a_supply_lies_off_a_reclining_back_or_in_the_clear_zone_before_it_lies_under_one() -> None:
    # 14 in less 5 in leave 9 in for 3: behind the back. 6 less 5 leave 1 in: in the clear zone.
    for headrest_in, under in ((14, None), (6, "A1")):
        made = near_the_wall("3", headrest_in)
        (supply,) = made.supplies
        assert supply.under == under
        (back,) = [one for one in made.findings if one.rule == "supply-under-back"]
        assert back.outcome is Outcome.MET
        assert judge(made, NEC).disputed == ()


def test_where_only_a_place_under_a_reclining_back_is_left_its_height_is_to_be_measured() -> None:
    # 1 1/2 in under the seat is too low for it, and 1 in stays free behind the reclined back.
    made = near_the_wall("3/2", 6)
    (supply,) = made.supplies
    assert supply.under is None
    (back,) = [one for one in made.findings if one.rule == "supply-under-back"]
    assert back.outcome is Outcome.NOT_CHECKED
    assert "recline the chair, loaded, and measure. It is 2 in high" in back.note
    assert made.decision.exit_code == 4
    report = judge(made, NEC)
    assert report.disputed == ()
    (held,) = [one for one in report.findings if one.rule == "supply-under-back"]
    assert held.outcome is Outcome.NOT_CHECKED


def test_a_record_from_before_this_condition_had_a_kind_of_its_own_still_holds() -> None:
    made = near_the_wall("3/2", 6)
    old = tuple(
        replace(one, kind="other") if one.kind == "back" else one
        for one in made.decision.depends_on
    )
    assert old != made.decision.depends_on
    assert judge(replace(made, decision=replace(made.decision, depends_on=old)), NEC).disputed == ()


def test_a_record_that_hides_a_supply_under_a_back_is_caught() -> None:
    made = near_the_wall("3/2", 6)
    hidden = replace(made, decision=replace(made.decision, depends_on=()))
    assert any(one.rule == "record-agrees" and one.stops for one in judge(hidden, NEC).findings)
