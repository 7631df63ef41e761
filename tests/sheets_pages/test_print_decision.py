"""Page 1: for people who will never read a finding."""

import math
import re
from dataclasses import replace
from fractions import Fraction

import pytest
from abroad import IEC
from page_words import listed, words
from support import (
    NEC,
    inch,
    make_chain,
    make_chair,
    make_circuit,
    make_load,
    make_new_work,
    make_row,
    make_spec,
)

from powerplan.model.findings import Force, Outcome, hold
from powerplan.model.lengths import at_least_text
from powerplan.model.plan import Plan
from powerplan.model.spec import Assumption, PlanSpec
from powerplan.planning.pipeline import make_plan
from powerplan.sheets.pages.print_cords import cords_sheet
from powerplan.sheets.pages.print_decision import decision_sheet
from powerplan.sheets.pages.print_words import degrees
from powerplan.sheets.parts import Marked


def planned(spec: PlanSpec) -> Plan:
    return make_plan(spec, NEC, "0" * 64)


def impossible() -> Plan:
    work = make_new_work(floor_boxes=False, circuits=0)
    return planned(make_spec(new_work=work, outlets=(), circuits=()))


def test_the_verdict_is_the_first_thing_said():
    plan = planned(make_spec())
    first = decision_sheet(plan).parts[0]
    assert isinstance(first, Marked)
    assert first.mark == "Answer"
    assert first.lines[0].lower().startswith(plan.decision.verdict)


def test_no_percentage_and_no_rule_name_is_on_it():
    for plan in (planned(make_spec()), impossible(), planned(make_spec(rows=(wide_row(),)))):
        told = words(decision_sheet(plan))
        assert "%" not in told
        assert not [rule for rule in NEC.rules if rule in told]


def wide_row():
    return make_row(seats=9)


def test_why_a_wire_is_thicker_is_said_without_a_percentage():
    plan = planned(make_spec())
    sentence = "Needs 10 AWG (12 AWG would lose more than the 3 % advised) with 1 box."
    changed = replace(plan, decision=replace(plan.decision, sentence=sentence))
    told = words(decision_sheet(changed))
    assert "Needs 10 AWG (12 AWG would lose more voltage than is advised) with 1 box." in told


def test_every_next_thing_names_who_does_it():
    for plan in (planned(make_spec()), impossible()):
        todo = listed(decision_sheet(plan), "What happens next")
        assert todo
        whose = re.compile(
            r"(Client|Seller|Installers|Licensed electrician|Client and seller): [a-z]"
        )
        assert all(whose.match(line) for line in todo)


def test_nobody_is_sent_to_order_or_cut_where_it_is_not_possible():
    told = words(decision_sheet(impossible()))
    assert "orders" not in told
    assert "agrees to" not in told
    assert "Nothing is ordered, cut or laid until then." in told


def test_an_unknown_load_is_the_one_thing_to_find_out_and_says_how():
    plan = planned(make_spec(circuits=(make_circuit(already_on_it=None),)))
    (asked,) = (
        p for p in decision_sheet(plan).parts if isinstance(p, Marked) and p.mark == "Find out"
    )
    assert asked.lines[0].startswith(
        "The one thing to find out: whether circuit 7 carries no more than"
    )
    assert "clamp meter" in asked.lines[1]


def test_a_second_unknown_comes_after_the_first():
    unknown = make_circuit(already_on_it=None, wire=None)
    page = decision_sheet(planned(make_spec(circuits=(unknown,))))
    (after,) = listed(page, "After that:")
    assert after.startswith("Whether the wire of circuit 7 is thick enough")


def test_a_row_that_must_be_mended_comes_before_everything_else():
    plan = planned(make_spec(rows=(make_row(headrest_to_wall_m=inch(4)),)))
    page = decision_sheet(plan)
    (mend,) = listed(page, "Mend this first")
    assert "move the row forward by 1 in" in mend
    assert words(page).count("move the row forward by 1 in") == 1


def test_advice_that_is_not_kept_is_one_sentence_without_a_percentage():
    plan = planned(make_spec())
    drop, passage = NEC.rules["voltage-drop"], NEC.rules["passage-in-front"]
    unmet = (
        hold(drop, "circuit 7", Fraction(4), Fraction(3)),
        hold(passage, "row A", inch(10), inch(12)),
        hold(passage, "row B", inch(11), inch(12)),
        hold(passage, "row C", inch(13), inch(12)),
    )
    page = decision_sheet(replace(plan, findings=unmet))
    (said,) = (line for line in words(page).splitlines() if line.startswith("Advice that is not"))
    assert "more voltage is lost than is advised on circuit 7" in said
    assert "less room to pass in front of row A and row B than is advised" in said
    assert "row C" not in said
    assert "%" not in said
    kept = decision_sheet(replace(plan, findings=unmet[3:]))
    assert "Advice that is not" not in words(kept)


def test_every_rule_that_is_advice_has_words_of_its_own():
    for rules in (NEC, IEC):
        for rule in rules.rules.values():
            if rule.force is Force.ADVICE:
                plan = planned(make_spec())
                unmet = replace(hold(rule, "row A", 1, 2), outcome=Outcome.NOT_MET)
                told = words(decision_sheet(replace(plan, findings=(unmet,))))
                assert rule.requirement not in told
                assert "Advice that is not kept" in told


def test_a_heater_is_never_plugged_into_the_circuit_that_is_used():
    page = decision_sheet(planned(make_spec()))
    circuits = {chair.circuit for chair in planned(make_spec()).chairs}
    lead = "Never plug these into "
    never = listed(page, lead)
    assert any("heater" in item for item in never)
    (said,) = (line for line in words(page).splitlines() if line.startswith(lead))
    for circuit in circuits:
        assert circuit is not None
        assert circuit.removeprefix("new ") in said


def test_every_way_has_a_word_in_front_and_a_failing_one_a_reason():
    plan = impossible()
    marked = [p for p in decision_sheet(plan).parts if isinstance(p, Marked)][1:]
    assert len(marked) == len(plan.decision.steps)
    for part, step in zip(marked, plan.decision.steps, strict=True):
        assert part.mark == ("Closed" if step.works else "No")
        assert len(part.lines) >= 2


@pytest.mark.parametrize(("allowed", "mark"), [(True, "Not needed"), (False, "Closed")])
def test_a_way_after_the_chosen_one_that_is_not_offered_is_closed(allowed, mark):
    plan = planned(make_spec())
    steps = tuple(replace(step, allowed=allowed) for step in plan.decision.steps)
    first = next(step.step for step in steps if step.works)
    decision = replace(plan.decision, steps=steps, verdict=first)
    *_, last = [
        part
        for part in decision_sheet(replace(plan, decision=decision)).parts
        if isinstance(part, Marked)
    ]
    assert last.lines[1].startswith("More work than is needed")
    assert last.mark == mark


def test_what_was_filled_in_is_owned_up_to():
    said = tuple(
        Assumption(subject=f"row {name}", words="stands in the middle") for name in ("A", "B")
    )
    page = decision_sheet(planned(make_spec(assumed=said)))
    assert "Row A and row B: stand in the middle." in listed(page, "What is assumed")


def test_a_way_that_is_not_offered_is_open_only_if_it_is_allowed_too():
    # 1.25 x (8 A + 4 x 2.2 A) = 21 A on a breaker of 20 A: shut by load while all of it lasts, and
    # by the plan, which offers no cutting
    work = make_new_work(floor_boxes=False, circuits=1)
    chair = make_chair(
        input_a=Fraction(22, 10), continuous_a=Fraction(22, 10), continuous_said=False
    )
    busy = make_circuit(
        breaker_a=Fraction(20), wire="12 AWG", already_on_it=(make_load("rack", "8", True),)
    )
    spec = make_spec(new_work=work, chairs=(chair,), circuits=(busy,), rows=(make_row(seats=4),))
    plan = planned(replace(spec, cords=replace(spec.cords, extensions="no")))
    flip = plan.decision.flips[0]
    (step,) = (one for one in plan.decision.steps if one.step == flip.step)
    assert not step.allowed
    told = words(decision_sheet(plan))
    assert "may then be open, but only if cutting for new outlets is also allowed" in told


def test_a_cord_whose_spare_has_no_place_is_asked_for_on_page_1_and_wherever_it_is_met():
    # Headrests 6 in off the wall that move back 5 in leave 1 in: no coil of 4 in lies there.
    row = make_row(seats=1, headrest_to_wall_m=inch(6))
    plan = planned(make_spec(rows=(row,), outlets=()))
    first, third = decision_sheet(plan), cords_sheet(plan, ())
    assert "NO ROOM for a coil" in words(third)
    assert "Nothing that the answer hangs on" not in words(first)
    todo = listed(first, "What happens next")
    assert todo[0].startswith(
        "Seller: asks the maker where the spare of cord 1 goes (page 3 Cords)"
    )
    assert 'its spare as its maker says, see "Spare cord that is not' in words(third)
    line, tied = listed(third, "To ask the maker")
    # the lead is 6 ft, and of a shorter one as much is needed as the cord's own finding says
    (cord,) = plan.cords
    assert line.startswith("For a shorter lead in place of 6 ft, ")
    assert tied == "Of cord 1: where on the chair's fixed frame the rest is tied."
    # and 1.1 times how far off its mark the box may be cut
    (box,) = plan.boxes
    off_m = math.hypot(
        max(box.drift.left_m, box.drift.right_m), max(box.drift.back_m, box.drift.screen_m)
    )
    assert at_least_text(cord.needed_m + 1.1 * off_m, "ft-in") in line


def test_where_every_coil_has_room_no_maker_is_asked():
    plan = planned(make_spec(rows=(make_row(seats=1),), outlets=()))
    assert plan.cords[0].park_m is not None
    assert "spare of" not in words(decision_sheet(plan))
    assert "To ask the maker" not in words(cords_sheet(plan, ()))


def test_cords_from_chair_to_chair_are_told_to_who_allows_cords():
    chair = make_chair(chain=make_chain(), arm_gap_m=inch("3/2"))
    base = make_spec(outlets=(), circuits=())
    business = replace(base.project, place="business")
    plan = planned(replace(base, chairs=(chair,), project=business))
    links = sum(cord.kind == "link" for cord in plan.cords)
    assert links > 1
    assert f"{links} of them go from chair to chair" in words(decision_sheet(plan))
    single = planned(replace(base, project=business))
    assert "from chair to chair" not in words(decision_sheet(single))


def test_a_temperature_has_its_sign():
    assert degrees("copper at 75 C (table 8), 60 C and chair 4 C") == (
        "copper at 75 \N{DEGREE SIGN}C (table 8), 60 \N{DEGREE SIGN}C and chair 4 C"
    )
