"""What the record says of its rules, its caution and its own findings."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction

from powerplan.judging.case import AGREES, Case
from powerplan.judging.versions import numbers_known, requirement_now
from powerplan.model.findings import Bound, Finding, Force, Outcome, Source, hold
from powerplan.model.lengths import micrometers
from powerplan.model.plan import CAUTION, NumberUsed, Plan
from powerplan.model.rules import Number

_ROUNDED = Fraction(2, 10**6)
_OTHER_FORCE = {
    "extension-temporary": (Force.ADVICE,),  # by the kind of place
    "unit-listed": (Force.ADVICE,),  # by the kind of place
    "socket-matches-circuit": (Force.ADVICE,),  # an outlet that feeds no chair
}
_ALWAYS_TOLD: dict[str, Callable[[Plan], bool]] = {
    "circuit-load": lambda plan: any(chair.circuit is not None for chair in plan.chairs),
    "voltage-drop": lambda plan: any(chair.circuit is not None for chair in plan.chairs),
    "cord-length": lambda plan: any(cord.kind == "own" for cord in plan.cords),
    "cord-clear-of-mechanism": lambda plan: bool(plan.cords),
    "box-has-a-place": lambda plan: any(box.kind == "floor box" for box in plan.boxes),
}


def judge_statements(case: Case) -> Iterator[Finding]:
    """Hold the record's rules, caution, findings and bounds to what follows."""
    used, rules = case.plan.rules, case.rules
    yield case.same_words("caution", "text", case.plan.caution, CAUTION)
    yield case.same_words("project", "name", case.plan.project, case.plan.spec.project.name)
    yield case.same_words("rules", "id", used.id, rules.id)
    yield case.same_words("rules", "id in the plan file", case.plan.spec.project.rules, rules.id)
    yield case.same_words("rules", "edition", used.edition, rules.edition)
    yield case.same_words("rules", "basis", used.resistance_basis, rules.resistance_basis)
    stated = {number.name: number for number in used.numbers}
    known = numbers_known(case.plan, frozenset(rules.numbers))
    yield case.same_words("rules", "numbers", sorted(stated), sorted(known))
    yield case.same_words("rules", "numbers told twice", len(used.numbers) > len(stated), False)
    for name, number in rules.numbers.items():
        if name in stated:
            yield from _number(case, stated[name], number)
    for finding in case.plan.findings:
        yield from _finding(case, finding)
    told = {finding.rule for finding in case.plan.findings}
    for rule, asked in _ALWAYS_TOLD.items():
        missing = rule not in told and asked(case.plan)
        yield case.same_words("findings", f"{rule} left out", missing, False)
    for step in case.plan.decision.steps:
        for finding in step.findings:
            yield from _finding(case, finding)
    yield from _bounds(case)


def _number(case: Case, stated: NumberUsed, number: Number) -> Iterator[Finding]:
    subject = f"rule number {number.name}"
    yield case.same_number(subject, "value", stated.value, number.value)
    said = (stated.unit, stated.source, stated.standing)
    follows = (number.unit, number.source.cite, number.source.standing)
    yield case.same_words(subject, "unit, source and standing", said, follows)


def _finding(case: Case, finding: Finding) -> Iterator[Finding]:
    """A finding that says met must follow from its own value and limit, under a known rule."""
    rule = case.rules.rules.get(finding.rule)
    subject = f"finding {finding.rule} on {finding.subject}"
    if rule is None:
        yield case.broken(AGREES, subject, "no rule has this name")
        return
    said = (requirement_now(finding.requirement), finding.unit, finding.source, finding.standing)
    follows = (rule.requirement, rule.unit, rule.source.cite, rule.source.standing)
    yield case.same_words(subject, "words", said, follows)
    forces = {rule.force, *_OTHER_FORCE.get(rule.id, ())}
    force = finding.force if finding.force in forces else rule.force
    yield case.same_words(subject, "force", finding.force, force)
    if finding.value is not None and finding.limit is not None and finding.margin is not None:
        spare = finding.limit - finding.value
        spare = -spare if rule.bound is Bound.AT_LEAST else spare
        off = abs(finding.margin - spare) > float(_ROUNDED)
        yield case.same_words(subject, "margin that does not follow", off, False)
    if finding.outcome is not Outcome.MET:
        return
    again = hold(
        rule,
        finding.subject,
        finding.value,
        finding.limit,
        source=Source(cite=finding.source, standing=finding.standing),
    )
    hair = _hair(finding, rule.bound)
    met = again.outcome is Outcome.MET or hair
    yield case.same_words(subject, "outcome", finding.outcome, again.outcome if not met else "met")


def _hair(finding: Finding, bound: Bound) -> bool:
    """True where value and limit differ by no more than the rounding of both, and equal passes."""
    if finding.value is None or finding.limit is None or bound is Bound.BELOW:
        return False
    value, limit = Fraction(finding.value), Fraction(finding.limit)
    short = value - limit if bound is Bound.AT_MOST else limit - value
    if finding.unit == "m":
        return micrometers(float(short)) <= 2
    return short <= _ROUNDED


def _bounds(case: Case) -> Iterator[Finding]:
    bounds = case.plan.bounds
    if bounds is None:
        return
    new = sum(1 for use in case.plan.circuits if use.new)
    yield case.same_number("bounds", "new_circuits", bounds.new_circuits.found, new)
    yield case.same_number("bounds", "boxes", bounds.boxes.found, len(case.plan.boxes))
    cord_m = sum(cord.length_m for cord in case.plan.cords)
    within_um = 2 * max(1, len(case.plan.cords))
    yield case.same_length("bounds", "cord_m", bounds.cord_m.found, cord_m, within_um=within_um)
    for name, pair in (
        ("new_circuits", bounds.new_circuits),
        ("boxes", bounds.boxes),
        ("cord_m", bounds.cord_m),
    ):
        over = micrometers(pair.at_least - pair.found) > 2
        yield case.same_words("bounds", f"{name} at_least above found", over, False)
