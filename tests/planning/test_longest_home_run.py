"""The longest home run with which the farthest chair keeps within the advised drop."""

from dataclasses import replace
from fractions import Fraction

import pytest
from support import NEC, inch, make_chair, make_circuit, make_new_work, make_row, make_spec

from powerplan.judging.judge import judge
from powerplan.model.plan import NEW_CIRCUITS, CircuitUse, Plan
from powerplan.model.spec import PlanSpec
from powerplan.planning.pipeline import make_plan
from powerplan.sheets.pages.circuits import circuits_page
from powerplan.sheets.parts import Say


def spec_of(home_run_m: float | None, **work: object) -> PlanSpec:
    """Four chairs of 3 A on one new circuit of 12 AWG."""
    new_work = make_new_work(wire="12 AWG", home_run_m=home_run_m, **work)
    chair = make_chair(input_a=Fraction(3), continuous_a=Fraction(1))
    return make_spec(
        new_work=new_work, chairs=(chair,), rows=(make_row(seats=4),), outlets=(), circuits=()
    )


def planned(spec: PlanSpec) -> Plan:
    plan = make_plan(spec, NEC, "0" * 64)
    assert judge(plan, NEC).disputed == ()
    return plan


def new_one(plan: Plan) -> CircuitUse:
    assert plan.decision.verdict == NEW_CIRCUITS
    (use,) = (use for use in plan.circuits if use.new)
    return use


@pytest.mark.published(
    source="NEC 2023 210.19, informational note: 3 % of 120 V is 3.6 V; Ohm's law, out and back: "
    "what cords and wiring between boxes lose does not depend on the home run",
    standing="derived",
)
def test_it_is_what_is_left_of_the_advised_drop_over_what_each_meter_loses():
    use = new_one(planned(spec_of(inch(600))))
    ohm_per_m = NEC.wires["12 AWG"].ohm_per_m
    each_v = 2 * (4 * 3.0) * ohm_per_m
    beyond_v = use.drop_percent / 100 * 120 - each_v * inch(600)
    assert beyond_v > 0
    assert use.home_run_most_m == pytest.approx((3.6 - beyond_v) / each_v, abs=1e-3)


def test_a_home_run_of_that_length_is_within_the_advice_and_a_little_more_is_not():
    most_m = new_one(planned(spec_of(inch(600)))).home_run_most_m
    assert most_m is not None
    just, over = (new_one(planned(spec_of(round(most_m + by, 6)))) for by in (-1e-6, 0.01))
    assert 2.999 < just.drop_percent <= 3.0 < over.drop_percent
    assert just.home_run_most_m == pytest.approx(most_m, abs=2e-6)
    assert over.home_run_most_m == pytest.approx(most_m, abs=2e-6)


def test_it_is_known_where_the_home_run_itself_is_not():
    known, unknown = (new_one(planned(spec_of(one))) for one in (inch(600), None))
    assert unknown.drop_percent is None
    assert unknown.home_run_most_m == known.home_run_most_m


def test_nobody_can_say_it_where_the_load_or_a_lead_is_not_known():
    busy = make_circuit(breaker_a=Fraction(20), wire="12 AWG", already_on_it=None)
    loaded = planned(make_spec(circuits=(busy,)))
    (use,) = (use for use in loaded.circuits if use.id == busy.id)
    assert use.home_run_most_m is None
    spec = spec_of(inch(600))
    bare = replace(spec, chairs=(replace(spec.chairs[0], lead_wire=None),))
    assert new_one(planned(bare)).home_run_most_m is None


def test_a_wrong_length_in_a_record_is_found():
    plan = planned(spec_of(inch(600)))
    longer = tuple(
        replace(use, home_run_most_m=use.home_run_most_m + 0.001) for use in plan.circuits
    )
    wrong = judge(replace(plan, circuits=longer), NEC).disputed
    assert any("home_run_most_m" in finding.note for finding in wrong)
    before = tuple(replace(use, home_run_most_m=None) for use in plan.circuits)
    assert judge(replace(plan, circuits=before), NEC).disputed == ()


def told(plan: Plan) -> str:
    return " ".join(part.text for part in circuits_page(plan).parts if isinstance(part, Say))


def test_the_page_of_circuits_prints_it_rounded_down():
    plan = planned(spec_of(inch(600)))
    use = replace(plan.circuits[0], home_run_most_m=inch("4434/5"))
    text = told(replace(plan, circuits=(use,)))
    assert "Within the drop that is advised" in text
    assert f"{use.id} on 12 AWG a home run of 73 ft 6 in at most." in text
    none = replace(use, home_run_most_m=0.1)
    assert "has no home run short enough" in told(replace(plan, circuits=(none,)))
    unknown = replace(use, home_run_most_m=None)
    assert "Within the drop" not in told(replace(plan, circuits=(unknown,)))
