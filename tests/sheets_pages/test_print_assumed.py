"""What is assumed: on page 1 what the answer rests on, on page 5 what it does not need."""

from dataclasses import replace
from fractions import Fraction

import pytest
import strategies
from laws import law, planned
from page_words import listed, words
from support import inch, make_chair, make_new_work, make_outlet, make_row, make_spec

from powerplan.model.plan import EXISTING, EXTENSIONS, NEW_CIRCUITS, NEW_OUTLETS, NOT_POSSIBLE, Plan
from powerplan.model.spec import Assumption, PlanSpec
from powerplan.sheets.pages.print_assumed import assumed_elsewhere, assumed_here
from powerplan.sheets.pages.print_decision import decision_sheet
from powerplan.sheets.pages.print_findings import findings_sheet

BOXES = Assumption(subject="new work", words="floor boxes may be cut")
BREAKER = Assumption(subject="new work", words="a new circuit has a breaker of 20 A")
ROW = Assumption(subject="row A", words="stands in the middle of the room, left to right")
ALL = (BOXES, BREAKER, ROW)


def assuming(spec: PlanSpec) -> Plan:
    return planned(replace(spec, assumed=ALL))


def spec_of(verdict: str) -> PlanSpec:
    base = make_spec()
    return {
        EXISTING: make_spec(
            chairs=(make_chair(lead_m=inch(120)),),
            rows=(make_row(seats=2, center_x_m=inch(60)),),
            outlets=(make_outlet(x_m=inch(60)),),
        ),
        NEW_OUTLETS: replace(base, outlets=()),
        NEW_CIRCUITS: replace(base, outlets=(), circuits=()),
        NOT_POSSIBLE: replace(
            base, outlets=(), circuits=(), new_work=make_new_work(floor_boxes=False, circuits=0)
        ),
    }[verdict]


@pytest.mark.parametrize(
    ("verdict", "needed"),
    [
        (EXISTING, (ROW,)),
        (NEW_OUTLETS, (BOXES, ROW)),
        (NEW_CIRCUITS, ALL),
        (NOT_POSSIBLE, ALL),
    ],
)
def test_page_1_has_what_the_answer_rests_on_and_page_5_the_rest(verdict, needed):
    plan = assuming(spec_of(verdict))
    assert plan.decision.verdict == verdict
    first, fifth = words(decision_sheet(plan)), words(findings_sheet(plan))
    for one in ALL:
        assert (one.words in first) == (one in needed)
        assert (one.words in fifth) == (one not in needed)
    assert ("does not need: page 5 Findings" in first) == (needed != ALL)


@law(strategies.rooms(), usual=10, many=150)
def test_what_is_left_off_page_1_cannot_turn_the_answer(spec):
    plan = assuming(spec)
    verdict = plan.decision.verdict
    here, elsewhere = assumed_here(plan), assumed_elsewhere(plan)
    told = " ".join((*here.items, *(item for part in elsewhere for item in part.items)))
    assert all(one.words in told for one in ALL)
    work = plan.spec.new_work
    if verdict in (EXISTING, EXTENSIONS):
        changed = replace(work, floor_boxes=not work.floor_boxes, circuits=0)
    elif verdict == NEW_OUTLETS:
        changed = replace(work, breaker_a=Fraction(15), wire=None)
    else:
        assert not elsewhere
        return
    assert planned(replace(spec, new_work=changed)).decision.verdict == verdict


def test_what_is_alike_of_several_is_said_once():
    spread = "ASSUMED: depth 37 in, as the invented slim has it"
    wide = "ASSUMED: input 1.5 A, as the invented slim has it"
    said = (
        Assumption(subject="row A", words=ROW.words),
        Assumption(subject="row B", words=ROW.words),
        Assumption(subject="row A", words="counts as bolted down"),
        Assumption(subject="row B", words="counts as bolted down"),
        Assumption(subject="chair snug", words=spread),
        Assumption(subject="chair snug", words=wide),
        Assumption(subject="chair snug", words="ASSUMED: its lead is 5 ft"),
    )
    plan = planned(replace(make_spec(), assumed=said))
    items = listed(decision_sheet(plan), "What is assumed")
    assert items[:2] == (
        "Row A and row B: stand in the middle of the room, left to right; count as bolted down.",
        "Chair snug: ASSUMED: depth 37 in, input 1.5 A, as the invented slim has it; its lead is "
        "5 ft.",
    )
