"""Traps met on purpose, each with its numbers worked out beside it."""

from fractions import Fraction

import pytest
from support import (
    NEC,
    inch,
    make_chain,
    make_chair,
    make_circuit,
    make_load,
    make_new_work,
    make_outlet,
    make_row,
    make_spec,
)

from powerplan.model.findings import Outcome
from powerplan.model.plan import EXISTING, NEW_CIRCUITS, NEW_OUTLETS, Plan, Step
from powerplan.model.spec import ClearZone, PlanSpec
from powerplan.planning.pipeline import make_plan

HASH = "0" * 64


def plan(spec: PlanSpec) -> Plan:
    return make_plan(spec, NEC, HASH)


def step_of(made: Plan, name: str) -> Step:
    return next(step for step in made.decision.steps if step.step == name)


def _lasting(current: str, **changes: object) -> object:
    return make_chair(
        input_a=Fraction(current),
        continuous_a=Fraction(current),
        continuous_said=False,
        **changes,
    )


@pytest.mark.published(
    source="NEC 2023 210.20(A): 8 x 1.2 A x 1.25 = 12 A; 15 - 12 = 3 = 2 x 1.5", standing="derived"
)
def test_eight_chairs_of_1_2_a_on_15_a_leave_room_for_two_more() -> None:
    chair = _lasting("1.2", seat_width_m=inch(20), arm_width_m=inch(4))
    made = plan(make_spec(chairs=(chair,), rows=(make_row(seats=8),)))
    assert made.decision.verdict == NEW_OUTLETS
    [spare] = made.decision.spare
    assert spare.spare_a == 3.0
    assert spare.more_chairs == 2


@pytest.mark.published(
    source="NEC 2023 210.20(A): 7 x (2 + c/4) <= 15 gives c <= 4/7 = 0.571", standing="derived"
)
def test_the_flip_point_is_told_and_holds_at_a_hundredth() -> None:
    chair = _lasting("2", chain=make_chain(), arm_gap_m=inch("3/2"))
    made = plan(make_spec(chairs=(chair,), rows=(make_row(seats=7),)))
    flip = next(flip for flip in made.decision.flips if flip.step == NEW_OUTLETS)
    assert flip.continuous_a == 0.57

    def at(continuous: str) -> bool:
        said = make_chair(
            chain=make_chain(),
            arm_gap_m=inch("3/2"),
            input_a=Fraction(2),
            continuous_a=Fraction(continuous),
        )
        again = plan(make_spec(chairs=(said,), rows=(make_row(seats=7),)))
        return step_of(again, NEW_OUTLETS).works

    assert at("0.57")
    assert not at("0.58")


def _row_of_eight(chain_chairs: int, sockets: int) -> Plan:
    chair = make_chair(
        seat_width_m=inch(20),
        arm_width_m=inch(4),
        input_a=Fraction(2),
        continuous_a=Fraction(2),
        coupler_a=Fraction(20),
        lead_wire="12 AWG",
        arm_gap_m=inch("3/2"),
        chain=make_chain(current_a=Fraction(20), chairs=chain_chairs, wire="12 AWG"),
    )
    return plan(
        make_spec(
            chairs=(chair,),
            rows=(make_row(seats=8),),
            outlets=(),
            circuits=(),
            new_work=make_new_work(sockets_per_box=sockets),
        )
    )


@pytest.mark.published(
    source="NEC 2023 table 210.21(B)(2): 12 A at a 15 A face; 210.20(A): 8 x 2 x 1.25 = 20 A",
    standing="derived",
)
def test_eight_of_2_a_fill_a_20_a_circuit_and_take_two_chains_not_one() -> None:
    made = _row_of_eight(chain_chairs=8, sockets=2)
    assert made.decision.verdict == NEW_CIRCUITS
    [circuit] = [use for use in made.circuits if use.new]
    assert circuit.asks_a == 20.0
    assert circuit.may_give_a == 20.0
    assert [cord.kind for cord in made.cords].count("own") == 2
    assert max(cord.current_a for cord in made.cords) <= 12.0


def test_one_socket_a_box_takes_more_boxes_for_the_same_eight() -> None:
    made = _row_of_eight(chain_chairs=8, sockets=1)
    assert len(made.boxes) == 2
    assert len([use for use in made.circuits if use.new]) == 1
    assert all(
        finding.outcome is Outcome.MET
        for finding in made.findings
        if finding.rule == "socket-limit"
    )


def _bolted(seats: int) -> Plan:
    chair = make_chair(chain=make_chain(), arm_gap_m=inch("3/2"))
    return plan(
        make_spec(
            chairs=(chair,),
            rows=(make_row(seats=seats, fastened=True),),
            circuits=(make_circuit(already_on_it=(make_load("lamp", "0.5", False),)),),
        )
    )


@pytest.mark.published(
    source="NEC 2023 210.23(B)(2): 5 x 1.8 = 9 A > 7.5 A; 4 x 1.8 = 7.2 A", standing="derived"
)
def test_five_bolted_chairs_beside_a_lamp_fail_the_half_rule_and_four_pass() -> None:
    five = step_of(_bolted(5), NEW_OUTLETS)
    assert not five.works
    assert [finding.rule for finding in five.findings] == ["fastened-half"]
    assert five.findings[0].value == 9.0
    assert five.findings[0].limit == 7.5
    assert step_of(_bolted(4), NEW_OUTLETS).works


@pytest.mark.published(source="NEC 2023 240.4(D): 14 AWG, 15 A", standing="published copy")
def test_a_20_a_breaker_on_14_awg_stops_steps_1_to_3_however_small_the_load() -> None:
    made = plan(
        make_spec(
            chairs=(make_chair(input_a=Fraction(1, 10), continuous_a=Fraction(0)),),
            rows=(make_row(seats=1),),
            circuits=(make_circuit(breaker_a=Fraction(20)),),
            outlets=(make_outlet(x_m=inch(120)),),
        )
    )
    for step in made.decision.steps[:3]:
        assert not step.works
        assert "wire-matches-breaker" in {finding.rule for finding in step.findings}
    assert made.decision.verdict == NEW_CIRCUITS
    assert made.decision.exit_code == 1


def _link_of_two(arm_gap: str) -> list[tuple[float, float]]:
    chair = make_chair(chain=make_chain(link_m=inch(72)), arm_gap_m=inch(arm_gap))
    made = plan(
        make_spec(
            chairs=(chair,),
            rows=(make_row(seats=2),),
            outlets=(),
            new_work=make_new_work(sockets_per_box=1),
        )
    )
    [link] = [cord for cord in made.cords if cord.kind == "link"]
    return list(link.path_m)


def test_a_low_arm_forces_the_cord_behind_the_row_and_a_high_one_lets_it_through() -> None:
    rear_of_base = inch(14 + 4)
    around, through = _link_of_two("1/4"), _link_of_two("3/2")
    assert min(y for _, y in around) < rear_of_base
    assert min(y for _, y in through) > rear_of_base
    assert len(through) == 2


def test_a_small_coupler_refuses_a_chain_of_two() -> None:
    def chained(coupler: str) -> bool:
        chair = make_chair(chain=make_chain(), coupler_a=Fraction(coupler), arm_gap_m=inch("3/2"))
        made = plan(
            make_spec(
                chairs=(chair,),
                rows=(make_row(seats=2),),
                outlets=(),
                new_work=make_new_work(sockets_per_box=1),
            )
        )
        return any(cord.kind == "link" for cord in made.cords)

    # Two chairs of 1.8 A are 3.6 A.
    assert not chained("2.5")
    assert chained("3.6")


@pytest.mark.published(
    source="NEC 2023 210.20(A): 15 - 5 x (1.25 x 0.3 + 1.5) = 5.625 A; / 1.25 = 4.5 A",
    standing="derived",
)
def test_an_unknown_load_reaches_the_verdict_the_stricter_number_first() -> None:
    made = plan(make_spec(circuits=(make_circuit(already_on_it=None),)))
    assert made.decision.exit_code == 4
    [condition] = made.decision.depends_on
    assert condition.if_continuous_a == 4.5
    assert condition.if_not_continuous_a == 5.625
    assert "4.5 A for hours, or 5.62 A now and then" in made.decision.sentence


def test_existing_outlets_do_where_leads_reach() -> None:
    made = plan(make_spec(rows=(make_row(seats=1),), outlets=(make_outlet(x_m=inch(120)),)))
    assert made.decision.verdict == EXISTING
    assert made.decision.exit_code == 0


@pytest.mark.published(source="NEC 2023 210.21(B)(1)", standing="published copy")
def test_one_socket_alone_on_a_new_circuit_must_be_rated_as_the_circuit() -> None:
    def one_chair(sockets: int, rating: int) -> Step:
        work = make_new_work(sockets_per_box=sockets, socket_rating_a=Fraction(rating))
        made = plan(make_spec(rows=(make_row(seats=1),), new_work=work))
        return step_of(made, NEW_CIRCUITS)

    assert one_chair(sockets=2, rating=15).works
    assert one_chair(sockets=1, rating=20).works
    alone = one_chair(sockets=1, rating=15)
    assert not alone.works
    assert [finding.rule for finding in alone.findings] == ["socket-alone"]


def test_cords_that_cross_are_counted_and_spare_is_parked() -> None:
    made = plan(make_spec(rows=(make_row(seats=1),), outlets=()))
    rules = {finding.rule: finding for finding in made.findings}
    assert rules["cords-cross"].value == 0
    # The box is 4 in from where the lead leaves the chair: (4 + 24) x 1.1 = 30.8 of 72 in.
    assert rules["spare-parked"].value == pytest.approx(inch("41.2"), abs=2e-6)
    [cord] = made.cords
    assert cord.park_m is not None
    assert cord.park_m[1] < inch(18)


def test_a_room_without_an_outlet_says_so() -> None:
    made = plan(make_spec(outlets=()))
    assert [f.rule for f in step_of(made, EXISTING).findings] == ["outlet-there"]


@pytest.mark.published(
    source="NEC 2023 table 210.24: 15 A circuit, 15 A receptacle", standing="published copy"
)
def test_no_chair_is_plugged_into_a_20_a_face_on_a_15_a_circuit() -> None:
    outlet = make_outlet(x_m=inch(120), rating_a=Fraction(20))
    made = plan(make_spec(rows=(make_row(seats=1),), outlets=(outlet,)))
    assert not step_of(made, EXISTING).works
    assert "socket-matches-circuit" in {f.rule for f in step_of(made, EXISTING).findings}
    assert all(chair.fed_by != "W1" for chair in made.chairs)


def test_a_condition_is_never_rounded_up() -> None:
    thirds = make_chair(input_a=Fraction(4, 3), continuous_a=Fraction(1, 3))
    made = plan(
        make_spec(
            chairs=(thirds,),
            rows=(make_row(seats=1),),
            circuits=(make_circuit(already_on_it=None),),
        )
    )
    [condition] = made.decision.depends_on
    # 15 - 1.25/3 - 1 = 13.58333...; / 1.25 = 10.8666...
    assert condition.if_not_continuous_a == 13.583333
    assert condition.if_continuous_a == 10.866666


def test_no_cord_lies_under_a_clear_zone_that_is_lower_than_the_cord() -> None:
    low = ClearZone(from_m=inch(9), to_m=inch(21), width_m=inch(14), height_m=inch("1/2"))
    # 0.36 in of cord and 1/4 in over it need 0.61 in.
    made = plan(make_spec(chairs=(make_chair(clear=low),), rows=(make_row(seats=1),)))
    assert made.decision.exit_code == 3


def test_a_plug_in_a_floor_outlet_under_a_chair_stays_below_the_mechanism() -> None:
    def works(height: str) -> bool:
        zone = ClearZone(from_m=inch(9), to_m=inch(21), width_m=inch(14), height_m=inch(height))
        outlet = make_outlet(wall=None, x_m=inch(120), y_m=inch(29), height_m=0.0)
        made = plan(
            make_spec(
                chairs=(make_chair(clear=zone),), rows=(make_row(seats=1),), outlets=(outlet,)
            )
        )
        return step_of(made, EXISTING).works

    # A plug stands 2 1/4 in high.
    assert works("9/4")
    assert not works("17/8")
