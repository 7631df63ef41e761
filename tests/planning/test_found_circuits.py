"""How a plan comes out where something is found in the circuits that are there."""

from dataclasses import replace
from fractions import Fraction

import pytest
from laws import agreed as plan
from laws import law, planned, works
from strategies import rooms
from support import inch, make_chair, make_circuit, make_load, make_outlet, make_row, make_spec

from powerplan.model.findings import Force, Outcome
from powerplan.model.plan import EXISTING, NEW_CIRCUITS, NEW_OUTLETS
from powerplan.model.spec import PlanSpec


def den(**circuit: object) -> PlanSpec:
    """Two chairs beside a duplex that carries them as it is."""
    kind = make_chair(lead_m=inch(120))
    return make_spec(
        chairs=(kind,),
        rows=(make_row(seats=2),),
        circuits=(make_circuit(**circuit),),
        outlets=(make_outlet(x_m=inch(120)),),
    )


def test_a_den_without_a_word_on_its_wiring_works_and_is_told_once():
    made = plan(den())
    assert (made.decision.verdict, made.decision.exit_code) == (EXISTING, 0)
    told = [finding for finding in made.findings if finding.rule == "circuit-looked-at"]
    assert len(told) == 1


def test_a_shared_neutral_makes_the_verdict_hang_and_closes_new_outlets():
    made = plan(den(shared_neutral=True))
    assert (made.decision.verdict, made.decision.exit_code) == (EXISTING, 4)
    assert [condition.kind for condition in made.decision.depends_on] == ["neutral"]
    assert works(made) == {**works(plan(den())), NEW_OUTLETS: False}
    step = next(one for one in made.decision.steps if one.step == NEW_OUTLETS)
    assert [finding.rule for finding in step.findings] == ["shared-neutral"]


def test_aluminum_makes_the_verdict_hang_and_loses_more_volts():
    copper = plan(den(breaker_a=Fraction(15), wire="12 AWG"))
    made = plan(den(breaker_a=Fraction(15), wire="12 AWG", conductor="aluminum"))
    assert [condition.kind for condition in made.decision.depends_on] == ["aluminum"]
    before, after = copper.circuits[0].drop_percent, made.circuits[0].drop_percent
    assert before is not None
    assert after is not None
    assert after > before


@pytest.mark.published(
    source="Ohm's law on 48 ft: 2 x 3.6 A x 48 ft x (3.25 - 1.98) ohm/kft / 120 V = 0.3658 %, "
    "resistances of NEC 2023 chapter 9 table 8",
    standing="from memory",
)
def test_the_drop_differs_by_the_home_run_alone():
    copper = plan(den(wire="12 AWG")).circuits[0].drop_percent
    aluminum = plan(den(wire="12 AWG", conductor="aluminum")).circuits[0].drop_percent
    assert copper is not None
    assert aluminum is not None
    assert aluminum - copper == pytest.approx(2 * 3.6 * 0.048 * 1.27 / 120 * 100, abs=1e-4)


def test_a_breaker_too_large_for_aluminum_stops_what_exists():
    made = plan(den(breaker_a=Fraction(20), wire="12 AWG", conductor="aluminum"))
    assert made.decision.verdict == NEW_CIRCUITS
    assert made.decision.exit_code == 1


def test_no_ground_closes_an_outlet_and_says_so():
    made = plan(den(ground=False))
    assert made.decision.verdict == NEW_CIRCUITS
    assert made.decision.exit_code == 0
    first = made.decision.steps[0]
    assert "grounded-outlet" in {finding.rule for finding in first.findings}
    assert "It has no ground" in first.sentence


def test_a_ground_at_the_outlet_itself_counts():
    spec = den(ground=False)
    grounded = replace(spec, outlets=(replace(spec.outlets[0], ground=True),))
    assert plan(grounded).decision.verdict == EXISTING


def test_a_switched_outlet_is_said_and_stops_nothing():
    made = plan(den(switched=True))
    assert (made.decision.verdict, made.decision.exit_code) == (EXISTING, 0)
    [told] = [finding for finding in made.findings if finding.rule == "switched-outlet"]
    assert (told.force, told.outcome) == (Force.ADVICE, Outcome.NOT_MET)


@pytest.mark.published(
    source="NEC 2023 210.20(A): 15 - (1.25 x 2.5 + 2 x (1.25 x 0.3 + 1.5)) = 8.125; / 1.25 = 6.5",
    standing="derived",
)
def test_the_known_part_of_an_unknown_load_counts_and_is_told():
    made = plan(
        den(
            already_on_it=None,
            partly_on_it=(make_load("rack", "5/2", True),),
            not_measured=("fridge",),
        )
    )
    [condition] = made.decision.depends_on
    assert (condition.if_continuous_a, condition.if_not_continuous_a) == (6.5, 8.125)
    assert "beside rack" in condition.sentence
    assert made.circuits[0].asks_a == 6.875
    assert made.decision.exit_code == 4


def test_a_known_part_that_is_too_much_by_itself_stops():
    rack = make_load("rack", "13", True)
    made = plan(den(already_on_it=None, partly_on_it=(rack,), not_measured=("fridge",)))
    assert made.decision.verdict == NEW_CIRCUITS


def test_every_unknown_circuit_in_use_is_named():
    kind = make_chair(lead_m=inch(120))
    circuits = tuple(make_circuit(id=name, already_on_it=None) for name in ("7", "9"))
    outlets = (
        make_outlet(x_m=inch(75), free=1),
        make_outlet(id="W2", circuit="9", x_m=inch(165), free=1),
    )
    made = plan(
        make_spec(
            chairs=(kind,),
            rows=(make_row(seats=2),),
            circuits=circuits,
            outlets=outlets,
            new_work=replace(make_spec().new_work, floor_boxes=False),
        )
    )
    assert made.decision.verdict == EXISTING
    named = [(one.kind, one.circuit) for one in made.decision.depends_on]
    assert named == [("load", "7"), ("load", "9")]
    # 15 A less one chair of 1.25 x 0.3 + 1.5 = 1.875 A
    assert [one.if_not_continuous_a for one in made.decision.depends_on] == [13.125, 13.125]
    assert "circuit 7" in made.decision.sentence
    assert "circuit 9" in made.decision.sentence


@law(rooms(), usual=5, many=100, start=1)
def test_a_hazard_never_improves(spec: PlanSpec) -> None:
    # Boxes of one socket are held to their circuit's rating after the choice, not in it.
    spec = replace(spec, new_work=replace(spec.new_work, sockets_per_box=2))
    before = works(planned(_plain(spec)))
    for name, value in (("shared_neutral", True), ("ground", False), ("conductor", "aluminum")):
        worse = replace(
            _plain(spec),
            circuits=tuple(replace(one, **{name: value}) for one in _plain(spec).circuits),
        )
        made = planned(worse)
        assert all(before[step] for step, works_now in works(made).items() if works_now)


def _plain(spec: PlanSpec) -> PlanSpec:
    """The same room, of whose wiring nobody has said anything."""
    nothing = {
        "shared_neutral": None,
        "switched": None,
        "ground": None,
        "conductor": None,
        "gfci": None,
        "afci": None,
    }
    return replace(
        spec,
        circuits=tuple(replace(one, **nothing) for one in spec.circuits),
        outlets=tuple(replace(one, switched=None, ground=None, gfci=None) for one in spec.outlets),
    )
