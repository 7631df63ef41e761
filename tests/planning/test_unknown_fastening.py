"""Rows of which nobody has said whether they are bolted down."""

from dataclasses import replace
from fractions import Fraction

import pytest
from laws import agreed as plan
from support import NEC, inch, make_chair, make_circuit, make_outlet, make_row, make_spec

from powerplan.judging.judge import judge
from powerplan.model.findings import Outcome
from powerplan.model.plan import EXISTING
from powerplan.model.spec import PlanSpec


def two_rows(first: bool | None, second: bool | None, lasts: str = "0") -> PlanSpec:
    """Three chairs of 3 A in row A and two in row B, all on an empty circuit of 15 A: 15 A."""
    kind = make_chair(
        input_a=Fraction(3), continuous_a=Fraction(lasts), lead_m=inch(200), lead_wire="12 AWG"
    )
    rows = (
        make_row(seats=3, fastened=first),
        make_row(id="B", seats=2, headrest_to_wall_m=inch(100), fastened=second),
    )
    outlets = (
        make_outlet(sockets=4, free=4, x_m=inch(120)),
        make_outlet(id="F1", wall=None, x_m=inch(105), y_m=inch(115), height_m=0.0),
    )
    base = make_spec(chairs=(kind,), rows=rows, circuits=(make_circuit(),), outlets=outlets)
    room = replace(base.room, depth_m=inch(240))
    work = replace(base.new_work, floor_boxes=False)
    return replace(base, room=room, new_work=work)


@pytest.mark.published(
    source="NEC 2023 210.23(B)(2): of 15 A bolted seats may take 7.5 A beside loose ones; row A "
    "bolted is 9 A, row B bolted is 6 A",
    standing="derived",
)
@pytest.mark.parametrize(
    ("first", "second", "code"),
    [
        (True, True, 0),
        (False, False, 0),
        (False, True, 0),  # 6 A bolted beside loose ones
        (False, None, 0),
        (True, None, 4),  # 9 A bolted, if B is loose
        (None, None, 4),  # the same
        (None, True, 0),  # 6 A bolted, if A is loose
    ],
)
def test_an_answer_that_hangs_on_it_says_so(first, second, code):
    made = plan(two_rows(first, second))
    assert (made.decision.verdict, made.decision.exit_code) == (EXISTING, code)
    kinds = [condition.kind for condition in made.decision.depends_on]
    assert kinds == (["fastening"] if code else [])


def test_what_hangs_is_not_checked_and_names_the_row():
    made = plan(two_rows(True, None))
    [held] = [finding for finding in made.findings if finding.rule == "fastened-half"]
    assert (held.outcome, held.value, held.limit) == (Outcome.NOT_CHECKED, 9.0, 7.5)
    assert "Say of row B" in held.note


def test_the_judge_misses_a_condition_that_was_taken_out():
    made = plan(two_rows(True, None))
    decision = replace(made.decision, depends_on=(), exit_code=0)
    report = judge(replace(made, decision=decision), NEC)
    assert any("a condition on the fastening" in finding.note for finding in report.disputed)
