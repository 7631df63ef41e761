"""For the client, then the electrician: does the job need a new circuit, and why."""

from __future__ import annotations

from powerplan.model.findings import Finding
from powerplan.model.lengths import amps_text, length_text, plural
from powerplan.model.plan import Decision, Plan, Spare, Step
from powerplan.sheets.pages.place_notes import count_notes, place_lead, place_sentences
from powerplan.sheets.parts import Items, Marked, Page, Part, Say, Table
from powerplan.sheets.words import UNKNOWN, numbers_text

_REASONS_SHOWN = 3
_OF_WHAT_IS_THERE = ("wire-matches-breaker", "breaker-size", "socket-matches-circuit")


def decision_page(plan: Plan) -> Page:
    """Return the answer, every step with its reasons, and what it hangs on."""
    decision, units = plan.decision, plan.spec.project.units
    parts: list[Part] = [Say(text=_answer(decision))]
    parts += _hazards(plan)
    parts += [
        _step(number, step, step.step == decision.verdict, units)
        for number, step in enumerate(decision.steps, start=1)
    ]
    if decision.depends_on:
        hangs = tuple(condition.sentence for condition in decision.depends_on)
        parts.append(Items(lead="The answer hangs on:", items=hangs))
    if decision.flips:
        turns = tuple(f"{flip.step}: {flip.sentence}" for flip in decision.flips)
        parts.append(Items(lead="The answer turns here:", items=turns))
    if decision.spare:
        rows = tuple(_spare_row(spare) for spare in decision.spare)
        head = ("circuit", "left on it", "more chairs by load", "of kind")
        parts.append(Table(caption="What is left", head=head, rows=rows))
    asked = place_sentences(plan)
    if asked:
        parts.append(Items(lead=place_lead(plan), items=asked))
    many = tuple(f"{one.subject}: {one.note}" for one in count_notes(plan))
    if many:
        parts.append(Items(lead="Many supplies at once:", items=many))
    if plan.spec.assumed:
        taken = tuple(f"{said.subject}: {said.words}" for said in plan.spec.assumed)
        parts.append(Items(lead="Not in the plan file, so taken as:", items=taken))
    return Page(title="Does the job need a new circuit?", parts=tuple(parts))


def _answer(decision: Decision) -> str:
    if decision.sentence.lower().startswith(decision.verdict.lower()):
        return f"Answer: {decision.sentence}"
    return f"Answer: {decision.verdict}. {decision.sentence}"


def _hazards(plan: Plan) -> list[Part]:
    known = {f"circuit {circuit.id}" for circuit in plan.spec.circuits}
    known |= {f"outlet {outlet.id}" for outlet in plan.spec.outlets}
    found = [
        finding
        for finding in plan.findings
        if finding.stops and finding.rule in _OF_WHAT_IS_THERE and finding.subject in known
    ]
    if not found:
        return []
    units = plan.spec.project.units
    return [
        Items(
            lead="HAZARD in what is there now; have it put right first:",
            items=tuple(_reason(finding, units) for finding in found),
        )
    ]


def _step(number: int, step: Step, chosen: bool, units: str) -> Part:
    lines = [f"{number}. {step.step}: {_word(step, chosen)}", step.sentence]
    if step.works:
        lines.append(_counts(step, units))
    stops = [f for f in step.findings if f.stops and not (f.note and f.note in step.sentence)]
    lines += [f"- {_reason(finding, units)}" for finding in stops[:_REASONS_SHOWN]]
    if len(stops) > _REASONS_SHOWN:
        lines.append(f"- and {len(stops) - _REASONS_SHOWN} more like it")
    return Marked(mark="", lines=tuple(line for line in lines if line))


def _word(step: Step, chosen: bool) -> str:
    if not step.works:
        return "DOES NOT WORK"
    if not step.allowed:
        return "WOULD WORK, but the plan file does not allow it"
    hangs = any(finding.hangs for finding in step.findings)
    word = "WORKS if what is unknown holds" if hangs else "WORKS"
    return f"{word} (CHOSEN)" if chosen else word


def _counts(step: Step, units: str) -> str:
    counts = (
        (step.new_circuits, "new circuit"),
        (step.boxes, "new outlet"),
        (step.extensions, "extension cord"),
    )
    words = [plural(count, noun) for count, noun in counts if count is not None]
    if step.cord_m is not None:
        words.append(f"{length_text(step.cord_m, units)} of cord laid")
    return ", ".join(words)


def _reason(finding: Finding, units: str) -> str:
    """A note that tells the numbers says it all; else the rule and its numbers come first."""
    if any(char.isdigit() for char in finding.note):
        return f"{finding.subject}: {finding.note}"
    numbers = numbers_text(finding, units)
    text = f"{finding.subject}: {finding.requirement}" + (f": {numbers}" if numbers else "")
    return f"{text}. {finding.note}" if finding.note else text


def _spare_row(spare: Spare) -> tuple[str, ...]:
    left = UNKNOWN if spare.spare_a is None else amps_text(spare.spare_a, down=spare.spare_a > 0)
    more = UNKNOWN if spare.more_chairs is None else str(spare.more_chairs)
    return (spare.circuit, left, more, spare.chair)
