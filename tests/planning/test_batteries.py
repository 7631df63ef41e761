"""Chairs that run from packs: what their chargers ask, and chairs that need no feed."""

import json
from dataclasses import replace
from fractions import Fraction

import pytest
from support import NEC, make_chair, make_row, make_spec

from powerplan.judging.judge import judge
from powerplan.model.codec import plan_from_plain, to_plain
from powerplan.model.findings import Force
from powerplan.model.plan import Plan
from powerplan.model.spec import Battery, PlanSpec
from powerplan.planning.pipeline import make_plan
from powerplan.sheets.placed import chairs_by_row

HALF = Fraction(1, 2)


def packs(charged: str, seats: int = 4) -> PlanSpec:
    """A row on packs with chargers of half an ampere, and one seat on its own lead."""
    kind = make_chair(
        id="pack",
        input_a=HALF,
        continuous_a=HALF,
        battery=Battery(charger_a=HALF, charged=charged),
    )
    rows = (
        make_row(chair="pack", seats=seats, headrest_to_wall_m=2.4),
        make_row(id="B", seats=1),
    )
    base = make_spec(chairs=(make_chair(), kind), rows=rows)
    return replace(base, new_work=replace(base.new_work, circuits=4))


def plan(spec: PlanSpec) -> Plan:
    return make_plan(spec, NEC, "0" * 64)


def agrees(made: Plan) -> bool:
    record = plan_from_plain(json.loads(json.dumps(to_plain(made))))
    return not judge(record, NEC).disputed


def test_a_pack_charged_elsewhere_needs_no_feed_and_loads_no_circuit_of_the_plan():
    made = plan(packs("elsewhere"))
    fed = {chair.id for chair in made.chairs if chair.fed_by is not None}
    assert fed == {"B1"}
    assert sum(use.asks_a for use in made.circuits) == 1.875
    assert agrees(made)


@pytest.mark.published(
    source="four chargers of 0.5 A, all of it lasting: 1.25 x 4 x 0.5 A = 2.5 A",
    standing="derived",
)
def test_what_charging_elsewhere_asks_is_told_and_not_checked():
    [found] = [f for f in plan(packs("elsewhere")).findings if f.rule == "battery-charging"]
    assert found.value == 2.5
    assert (found.force, found.outcome) == (Force.NOTE, "not checked")
    assert "Charging 4 packs asks 2.5 A for hours" in found.note


def test_a_chair_on_a_pack_is_not_called_one_without_power():
    spec = packs("elsewhere", seats=2)
    turned = replace(spec.rows[0], angle_rad=0.1)
    [line] = chairs_by_row(plan(replace(spec, rows=(turned,))))
    assert line.count("(runs from a pack)") == 2


def test_a_charger_in_place_is_fed_and_all_of_it_lasts():
    spec = packs("in place", seats=2)
    alone = replace(spec, rows=(replace(spec.rows[0], headrest_to_wall_m=0.4),))
    made = plan(alone)
    assert all(chair.fed_by is not None for chair in made.chairs)
    assert sum(use.asks_a for use in made.circuits) == 1.25
    assert agrees(made)
    [found] = [f for f in made.findings if f.rule == "battery-charging"]
    assert "stay plugged in" in found.note
