"""Which notes a kind of place asks for: each once, and only where it applies."""

from dataclasses import replace

import pytest
from laws import agreed as plan
from laws import law, planned
from strategies import rooms
from support import NEC, inch, make_chair, make_circuit, make_outlet, make_row, make_spec

from powerplan.model.findings import Finding, Force, Outcome
from powerplan.model.plan import NOT_POSSIBLE, Plan
from powerplan.model.spec import PlanSpec
from powerplan.planning.notes import PLACES

HOME, BASEMENT, BUSINESS, ASSEMBLY = "home", "home, basement", "business", "assembly"


def at(place: str | None, spec: PlanSpec) -> PlanSpec:
    return replace(spec, project=replace(spec.project, place=place))


def notes(made: Plan) -> dict[str, Finding]:
    told = [finding for finding in made.findings if finding.rule in PLACES]
    by_rule = {finding.rule: finding for finding in told}
    assert len(by_rule) == len(told)
    assert {finding.force for finding in told} <= {Force.NOTE}
    return by_rule


def boxes(**circuit: object) -> PlanSpec:
    """A new build: every chair from floor boxes, on circuit 7 or a new one."""
    base = make_spec(circuits=(make_circuit(**circuit),) if circuit else (), outlets=())
    return replace(base, project=replace(base.project, job="new"))


def plugged(**outlet: object) -> PlanSpec:
    """Two chairs in outlets that are there."""
    return make_spec(
        chairs=(make_chair(lead_m=inch(120)),),
        rows=(make_row(seats=2),),
        outlets=(make_outlet(x_m=inch(120), **outlet),),
    )


@pytest.mark.published(
    source="NEC 2023 210.8(A)(5), 210.12, 518.4; IFC 2021 603.5 and 603.6; IBC 2021 1030.13.2.2",
    standing="published copy",
)
@pytest.mark.parametrize(
    ("place", "told"),
    [
        (HOME, {"afci-room"}),
        (BASEMENT, {"afci-room", "gfci-basement"}),
        (BUSINESS, {"cord-fire-code", "wiring-method"}),
        (ASSEMBLY, {"cord-fire-code", "wiring-method", "row-width-assembly"}),
        (None, set(PLACES) & set(NEC.rules)),
    ],
)
def test_new_outlets_bring_the_notes_of_their_place(place, told):
    assert set(notes(plan(at(place, boxes())))) == told


@pytest.mark.parametrize(
    ("place", "told"),
    [
        (HOME, set()),
        (BASEMENT, set()),
        (BUSINESS, {"cord-fire-code"}),
        (ASSEMBLY, {"cord-fire-code", "row-width-assembly"}),
        (None, {"cord-fire-code", "row-width-assembly"}),
    ],
)
def test_outlets_that_are_there_bring_only_notes_on_what_is_done(place, told):
    assert set(notes(plan(at(place, plugged())))) == told


def test_where_nobody_has_said_the_place_each_note_says_which_it_is_for():
    told = notes(plan(at(None, boxes())))
    assert "If this is a home's basement: A new outlet" in told["gfci-basement"].note
    assert "If this is a home: A circuit" in told["afci-room"].note
    assert "If this is a business" in told["wiring-method"].note


@pytest.mark.parametrize(
    ("gfci", "outcome"),
    [(True, Outcome.MET), (False, Outcome.NOT_MET), (None, Outcome.NOT_CHECKED)],
)
def test_a_basement_asks_whether_an_extended_circuit_is_protected(gfci, outcome):
    made = plan(at(BASEMENT, boxes(gfci=gfci)))
    assert notes(made)["gfci-basement"].outcome is outcome
    assert made.decision.exit_code == 0


@pytest.mark.parametrize(
    ("afci", "outcome"),
    [(True, Outcome.MET), (False, Outcome.NOT_MET), (None, Outcome.NOT_CHECKED)],
)
def test_a_home_asks_whether_an_extended_circuit_is_protected_against_arcs(afci, outcome):
    assert notes(plan(at(HOME, boxes(afci=afci))))["afci-room"].outcome is outcome


@pytest.mark.published(
    source="IBC 2021 1030.13.2.2: 10 seats ask 12 + 3 x 0.6 in; 186 - 14 - 66 = 106 are left",
    standing="published copy",
)
def test_the_row_with_the_least_room_is_told():
    spec = make_spec(
        chairs=(make_chair(seat_width_m=inch(18), arm_width_m=inch(3)),),
        rows=(make_row(seats=10),),
    )
    told = notes(plan(at(ASSEMBLY, spec)))["row-width-assembly"]
    assert told.subject == "row A"
    assert told.limit == pytest.approx(inch("13.8"), abs=2e-6)
    assert told.value == pytest.approx(inch(106), abs=2e-6)


def _count(made: Plan, rule: str) -> list[Finding]:
    return [finding for finding in made.findings if finding.rule == rule]


def test_leakage_is_told_only_behind_a_device():
    assert _count(plan(plugged()), "leakage-by-count") == []
    [told] = _count(plan(plugged(gfci=True)), "leakage-by-count")
    assert (told.subject, told.value, told.limit) == ("circuit 7", 1.0, 4.0)
    behind = replace(plugged(), circuits=(make_circuit(gfci=True),))
    assert len(_count(plan(behind), "leakage-by-count")) == 1
    assert len(_count(plan(at(BASEMENT, boxes())), "leakage-by-count")) == 1


def test_switch_on_is_told_once_for_the_fullest_circuit():
    [told] = _count(plan(plugged()), "switch-on-by-count")
    assert (told.subject, told.value, told.limit) == ("circuit 7", 30.0, 150.0)


@law(rooms(), usual=4, many=100, start=1)
def test_the_sets_of_notes_grow_with_the_place(spec: PlanSpec) -> None:
    told = {}
    for place in (HOME, BASEMENT, BUSINESS, ASSEMBLY, None):
        no_cords = replace(spec, cords=replace(spec.cords, extensions="no"))
        made = planned(at(place, no_cords))
        if made.decision.verdict == NOT_POSSIBLE:
            return
        told[place] = set(notes(made))
    assert told[HOME] <= told[BASEMENT] <= told[None]
    assert told[BUSINESS] <= told[ASSEMBLY] <= told[None]
    assert not told[HOME] & told[BUSINESS]
