"""Protection in one wording wherever it is told, and cable in a slab scanned on its whole way."""

from dataclasses import replace

import pytest
from page_words import A_VIEW, listed, words
from support import NEC, make_circuit, make_riser, make_row, make_spec

from powerplan.model.findings import hold
from powerplan.model.plan import Plan
from powerplan.planning.pipeline import make_plan
from powerplan.sheets.pages.print_boxes import boxes_sheet
from powerplan.sheets.pages.print_circuits import circuits_sheet
from powerplan.sheets.pages.print_decision import decision_sheet
from powerplan.sheets.pages.print_protection import protections
from powerplan.sheets.pages.print_wiring import electrician_buys


def new_build(place: str | None, **changes: object) -> Plan:
    base = make_spec(rows=(make_row(seats=1),), outlets=(), circuits=())
    return make_plan(
        replace(base, project=replace(base.project, place=place), **changes), NEC, "0" * 64
    )


KINDS = {"ground-fault protection", "arc-fault protection"}


@pytest.mark.parametrize(
    ("place", "kinds"),
    [
        ("home, basement", KINDS),
        ("home", {"arc-fault protection"}),
        ("business", set()),
        (None, KINDS),
    ],
)
def test_protection_is_bought_where_the_place_asks_for_it(place, kinds):
    plan = new_build(place)
    bought = {line.what: line for line in electrician_buys(plan) if "protection" in line.what}
    assert set(bought) == kinds
    (breaker,) = (line for line in electrician_buys(plan) if line.what == "breaker")
    assert ("where local code asks for it" in breaker.note) == (not kinds)
    for line in bought.values():
        assert line.how_many == 1
        assert line.note.startswith("the electrician fits it for box A1")
        assert ("if this is a home" in line.note) == (place is None)


@pytest.mark.parametrize(("leaks_ma", "many"), [(3.5, 1), (4.5, 2)])
def test_where_one_device_may_trip_as_many_are_bought_as_keep_it(leaks_ma, many):
    plan = new_build("home, basement")
    (box,) = plan.boxes
    told = hold(NEC.rules["leakage-by-count"], "circuit new 1", leaks_ma, 4.0, note="It may trip.")
    two = replace(plan, boxes=(box, replace(box, id="box A2")), findings=(*plan.findings, told))
    bought = {line.what: line for line in electrician_buys(two)}
    assert bought["ground-fault protection"].how_many == many
    assert ("one at each outlet: behind" in bought["ground-fault protection"].note) == (many == 2)
    assert bought["arc-fault protection"].how_many == 1


def test_it_is_told_in_the_same_words_on_every_page():
    plan = new_build("home, basement")
    told = "protection: the electrician fits it for box A1."
    assert words(decision_sheet(plan)).count(told) == 2
    asked = listed(circuits_sheet(plan, ()), "To confirm on site")
    assert sum(told in line for line in asked) == 2
    for page in (decision_sheet(plan), boxes_sheet(plan, (A_VIEW,)), circuits_sheet(plan, ())):
        assert "as local code asks" not in words(page)


def test_a_circuit_that_is_said_to_have_it_needs_no_more():
    plan = new_build("home, basement")
    (box,) = plan.boxes
    there = make_circuit(gfci=True, afci=False)
    box = replace(box, circuit=there.id)
    plan = replace(plan, boxes=(box,), spec=replace(plan.spec, circuits=(there,)))
    assert [one.kind for one in protections(plan)] == ["arc-fault protection"]


def test_cable_in_a_slab_is_scanned_on_its_whole_way():
    slab = new_build("home")
    assert slab.spec.floor.build == "slab"
    page = boxes_sheet(slab, (A_VIEW,))
    (way,) = (line for line in listed(page, "What to avoid") if "chase" in line)
    assert "Scan its whole way, from box to box and from the panel, before it is chased" in way
    assert "stop at tendons, bars, heating" in way
    assert any("chased into the slab" in line for line in listed(page, "Stop, and call"))


def test_over_joists_nothing_is_chased_and_of_an_unknown_floor_it_hangs():
    plan = new_build("home")
    for build, told in (("joists", False), (None, True)):
        floor = replace(plan.spec.floor, build=build)
        changed = replace(plan, spec=replace(plan.spec, floor=floor))
        said = words(boxes_sheet(changed, (A_VIEW,)))
        assert ("chase" in said) == told
        assert ("If the floor is a slab: its cable" in said) == told


def test_how_a_cable_crosses_from_a_riser_to_the_slab_is_the_electricians():
    plan = new_build("home")
    (box,) = plan.boxes
    riser = make_riser(0, 0, 240, 60, id="rear")
    both = (box, replace(box, id="box B1", deck="rear"))
    changed = replace(plan, boxes=both, spec=replace(plan.spec, risers=(riser,)))
    told = words(boxes_sheet(changed, (A_VIEW,)))
    assert "How a cable crosses from riser rear to the slab" in told
    assert "How a cable crosses" not in words(boxes_sheet(plan, (A_VIEW,)))
