"""What the verdict hangs on: every unknown must be named, and its numbers must follow."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from powerplan.judging.case import AGREES, Branch, Case
from powerplan.judging.loads import asked_a
from powerplan.model.findings import Finding
from powerplan.model.plan import NOT_POSSIBLE, Condition

_MICRO = 10**6
_KINDS = (
    "load",
    "breaker",
    "wire",
    "laying",
    "neutral",
    "aluminum",
    "fastening",
    "framing",
    "cut-out",
    "panel",
    "cord",
    "back",
    "other",
)
_KIND_OF_RULE = {
    "fastened-half": "fastening",
    "box-clears-framing": "framing",
    "box-size-known": "cut-out",
    "panel-space": "panel",
    "cord-wire": "cord",
    "extension-rating": "cord",
    "coupler-rating": "other",
    "unit-listed": "other",
    "chair-measured": "other",
    "supply-under-back": "back",
}
_BEFORE = {"laying": "wire", "back": "other"}
"""What a kind was called in records from before it had a name of its own."""

_SUBJECT = "depends on"


def judge_conditions(case: Case, found: tuple[Finding, ...]) -> Iterator[Finding]:
    """Hold the conditions of a decision to what is unknown, and their currents to the loads.

    Parameters
    ----------
    case : Case
        The record on the bench.
    found : tuple of Finding
        Everything the judge found so far; what could not be checked has to be a condition.

    Yields
    ------
    Finding
        ``record-agrees`` findings.
    """
    stated = case.plan.decision.depends_on
    for condition in stated:
        yield from _numbers(case, condition)
    if case.plan.decision.verdict == NOT_POSSIBLE:
        return
    for kind, circuit in sorted(_wanted(case, found)):
        there = any(
            condition.kind in (kind, _BEFORE.get(kind)) and circuit in ("", condition.circuit)
            for condition in stated
        )
        on = f" of circuit {circuit}" if circuit else ""
        yield case.same_words(_SUBJECT, f"a condition on the {kind}{on}", there, True)


def _wanted(case: Case, found: tuple[Finding, ...]) -> set[tuple[str, str]]:
    """Kinds of condition that have to be there, with a circuit's name where it is one's own."""
    wanted = {
        (_KIND_OF_RULE[finding.rule], "")
        for finding in found
        if finding.hangs and finding.rule in _KIND_OF_RULE
    }
    for branch in (branch for branch in case.branches.values() if branch.seats):
        if branch.there is not None and branch.there.shared_neutral:
            wanted.add(("neutral", branch.id))
        if branch.there is not None and branch.there.conductor == "aluminum":
            wanted.add(("aluminum", branch.id))
        if branch.already is None:
            wanted.add(("load", branch.id))
        if branch.breaker_a is None:
            wanted.add(("breaker", branch.id))
        if branch.wire is None:
            wanted.add(("wire", branch.id))
        if _hangs_on_laying(case, branch):
            wanted.add(("laying", branch.id))
    return wanted


def _hangs_on_laying(case: Case, branch: Branch) -> bool:
    wire, breaker_a = case.wire(branch.wire), branch.breaker_a
    if wire is None or breaker_a is None or branch.new:
        return False
    return wire.hangs_on_laying(breaker_a)


def _numbers(case: Case, condition: Condition) -> Iterator[Finding]:
    subject = f"{_SUBJECT} {condition.kind:.40} of {condition.subject:.60}"
    if condition.kind not in _KINDS:
        yield case.broken(AGREES, subject, f"{condition.kind!r:.40} is not a kind of condition")
        return
    circuit = condition.circuit
    if circuit is not None and circuit not in case.branches:
        yield case.broken(AGREES, subject, f"no circuit is called {circuit!r:.60}")
        return
    if condition.kind != "load":
        return
    if circuit is None or case.branches[circuit].already is not None:
        yield case.broken(AGREES, subject, "the load of this circuit is known, or it names none")
        return
    branch = case.branches[circuit]
    spare = max(Fraction(0), case.breaker_or_least_a(branch) - asked_a(case, branch))
    lasting = spare / case.rules.continuous_factor
    for name, stated, follows in (
        ("if_continuous_a", condition.if_continuous_a, lasting),
        ("if_not_continuous_a", condition.if_not_continuous_a, spare),
    ):
        said = None if stated is None else round(stated * _MICRO)
        yield case.same_words(subject, f"{name} [uA]", said, follows * _MICRO // 1)
