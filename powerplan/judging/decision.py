"""The answer: verdict, steps, what it hangs on, what is spare, held to everything found before."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from powerplan.judging.case import AGREES, FLOOR_BOX, Branch, Case
from powerplan.judging.conditions import judge_conditions
from powerplan.judging.feeding import EXTENSION
from powerplan.judging.loads import asked_a
from powerplan.model.findings import Finding
from powerplan.model.plan import (
    EXISTING,
    EXTENSIONS,
    LADDER,
    NEW_CIRCUITS,
    NEW_OUTLETS,
    NOT_POSSIBLE,
    Spare,
    Step,
)

_SUBJECT = "decision"
_HAZARD = "wire-matches-breaker"
_WORKS, _NOT_MET, _IMPOSSIBLE, _HANGS = 0, 1, 3, 4


def judge_decision(case: Case, found: tuple[Finding, ...]) -> Iterator[Finding]:
    """Hold the decision to what the plan uses and to what the judge found.

    Parameters
    ----------
    case : Case
        The record on the bench.
    found : tuple of Finding
        Everything the judge found so far.

    Yields
    ------
    Finding
        ``record-agrees`` findings on the decision.
    """
    decision = case.plan.decision
    if decision.verdict not in (*LADDER, NOT_POSSIBLE):
        yield case.broken(AGREES, _SUBJECT, f"{decision.verdict!r:.60} is not a verdict")
    if decision.verdict == NOT_POSSIBLE:
        fed = any(chair.fed_by is not None for chair in case.plan.chairs)
        if fed or case.plan.cords or case.plan.boxes:
            yield case.broken(AGREES, _SUBJECT, "not possible, and yet chairs are fed")
    else:
        yield case.same_words(_SUBJECT, "verdict", decision.verdict, verdict_that_follows(case))
        yield from _starts_where_it_may(case, found)
    yield from _exit_code(case, found)
    yield from _steps(case)
    yield from judge_conditions(case, found)
    for spare in decision.spare:
        yield from _spare(case, spare)


def verdict_that_follows(case: Case) -> str:
    """Return the step of the ladder whose means the record uses."""
    if any(use.new for use in case.plan.circuits):
        return NEW_CIRCUITS
    if case.plan.boxes:
        return NEW_OUTLETS
    extended = any(cord.kind == EXTENSION for cord in case.plan.cords)
    return EXTENSIONS if extended else EXISTING


def _starts_where_it_may(case: Case, found: tuple[Finding, ...]) -> Iterator[Finding]:
    verdict = case.plan.decision.verdict
    if case.plan.spec.project.job == "new" and verdict in (EXISTING, EXTENSIONS):
        yield case.broken(AGREES, _SUBJECT, "a new build starts at new outlets")
    existing = {f"circuit {circuit.id}" for circuit in case.plan.spec.circuits}
    hazard = next(
        (f for f in found if f.stops and f.rule == _HAZARD and f.subject in existing), None
    )
    if hazard is not None and verdict != NEW_CIRCUITS:
        note = f"{hazard.subject} breaks {hazard.rule}: only new circuits until it is corrected"
        yield case.broken(AGREES, _SUBJECT, note)


def _exit_code(case: Case, found: tuple[Finding, ...]) -> Iterator[Finding]:
    """3 goes before 1, 1 before 4; what hangs must show, and what shows may hang."""
    decision, stated = case.plan.decision, case.plan.decision.exit_code
    own = case.plan.findings
    if decision.verdict == NOT_POSSIBLE:
        follows = {_IMPOSSIBLE}
    elif any(finding.stops for finding in (*found, *own)):
        follows = {_NOT_MET}
    elif any(finding.hangs for finding in found):
        follows = {_HANGS}
    elif decision.depends_on or any(finding.hangs for finding in own):
        follows = {_HANGS, _WORKS}
    else:
        follows = {_WORKS}
    expected = stated if stated in follows else min(follows)
    yield case.same_words(_SUBJECT, "exit_code", stated, expected)


def _steps(case: Case) -> Iterator[Finding]:
    decision = case.plan.decision
    names = [step.step for step in decision.steps]
    if len(set(names)) < len(names) or not set(names) <= set(LADDER):
        yield case.broken(AGREES, _SUBJECT, "steps: each step of the ladder once at most")
        return
    for step in decision.steps:
        stopped = step.works and any(finding.stops for finding in step.findings)
        yield case.same_words(f"step {step.step}", "works although a must is unmet", stopped, False)
    open_steps = [step for step in decision.steps if step.works and step.allowed]
    open_steps.sort(key=lambda step: LADDER.index(step.step))
    first = open_steps[0].step if open_steps else NOT_POSSIBLE
    yield case.same_words(_SUBJECT, "first step that works", decision.verdict, first)
    chosen = next((step for step in open_steps if step.step == decision.verdict), None)
    if chosen is not None:
        yield from _chosen(case, chosen)


def _chosen(case: Case, step: Step) -> Iterator[Finding]:
    """The chosen step's counts are those of what the record lists."""
    subject, plan = f"step {step.step}", case.plan
    new = sum(1 for use in plan.circuits if use.new)
    extensions = sum(1 for cord in plan.cords if cord.kind == EXTENSION)
    cord_m = sum(cord.length_m for cord in plan.cords)
    yield case.same_words(subject, "new_circuits", step.new_circuits, new)
    yield case.same_words(subject, "boxes", step.boxes, len(plan.boxes))
    yield case.same_words(subject, "extensions", step.extensions, extensions)
    yield case.same_length(
        subject, "cord_m", step.cord_m, cord_m, within_um=2 * max(1, len(plan.cords))
    )
    offered = plan.spec.new_work
    if any(box.kind == FLOOR_BOX for box in plan.boxes) and not offered.floor_boxes:
        yield case.broken(AGREES, subject, "allowed: no floor box was offered")


def _spare(case: Case, spare: Spare) -> Iterator[Finding]:
    subject = f"spare on circuit {spare.circuit}"
    branch = case.branches.get(spare.circuit)
    kind = next((kind for kind in case.plan.spec.chairs if kind.id == spare.chair), None)
    if branch is None or kind is None or kind.input_a == 0:
        note = "no such circuit, or no such chair that takes a current"
        yield case.broken(AGREES, subject, note)
        return
    left = _left_a(case, branch, spare)
    yield case.same_number(subject, "spare_a", spare.spare_a, left)
    factor = case.rules.continuous_factor
    one = factor * kind.continuous_a + kind.input_a - kind.continuous_a
    more = None if left is None else max(0, left // one)
    yield case.same_words(subject, "more_chairs", spare.more_chairs, more)


def _left_a(case: Case, branch: Branch, spare: Spare) -> Fraction | None:
    """What a circuit has left; nothing for one that asks for more than it may give. [A]"""
    if branch.already is None or (branch.breaker_a is None and spare.spare_a is None):
        return None
    left = case.breaker_or_least_a(branch) - asked_a(case, branch)
    return left if spare.spare_a is not None and spare.spare_a < 0 else max(left, Fraction(0))
