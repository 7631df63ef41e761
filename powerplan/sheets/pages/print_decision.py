"""Page 1, for the client and the seller: the answer, what happens next, and what to find out."""

from __future__ import annotations

import re

from powerplan.model.lengths import joined, micrometers
from powerplan.model.plan import (
    EXISTING,
    EXTENSIONS,
    NEW_CIRCUITS,
    NEW_OUTLETS,
    NOT_POSSIBLE,
    CircuitUse,
    Condition,
    Decision,
    Plan,
    Step,
)
from powerplan.sheets.page_names import CORDS
from powerplan.sheets.pages.circuits import home_run_most_text
from powerplan.sheets.pages.place_notes import place_lead, place_sentences
from powerplan.sheets.pages.print_advice import unmet_advice
from powerplan.sheets.pages.print_assumed import assumed_here
from powerplan.sheets.pages.print_next import is_planned_again, next_steps, spare_named
from powerplan.sheets.pages.print_spare import homeless, rows_that_may_move
from powerplan.sheets.pages.print_tags import EXTENSION
from powerplan.sheets.pages.print_why import plain_reasons
from powerplan.sheets.pages.print_words import capital
from powerplan.sheets.parts import Items, Marked, Part, Say
from powerplan.sheets.printed import SheetPage
from powerplan.sheets.sheet_numbers import contents_of
from powerplan.sheets.words import if_measured, wire_text

_STEPS = {
    EXISTING: "Plug into the outlets that are there",
    EXTENSIONS: "Plug into the outlets that are there, with extension cords",
    NEW_OUTLETS: "Fit new outlets on the circuits that are there",
    NEW_CIRCUITS: "Run new circuits from the panel",
}
_HOW = {
    "load": "A licensed electrician measures the current at the panel with a clamp meter while "
    "everything that may run of an evening is on, and writes down which part stays on for hours.",
    "breaker": "Read the number on the handle of its breaker in the panel; open nothing.",
    "wire": "A licensed electrician reads the wire size at the panel, power off and proved dead.",
    "laying": "A licensed electrician looks how the cable runs, in insulation, in conduit or "
    "clipped to a surface, and what it may carry so. If it is not enough, the circuit needs a "
    "smaller breaker or a larger cable: plan again with that.",
    "neutral": "A licensed electrician looks in the panel: one handle for both circuits, on "
    "opposite poles; and that nothing is wired on from it.",
    "aluminum": "A licensed electrician opens every outlet and splice that the chairs draw "
    "through, power off and proved dead.",
    "fastening": "Ask whoever sets the chairs whether each row is bolted to the floor.",
    "framing": "Find the joists from below, or scan the floor from above at each mark, before "
    "anything is cut. Then have the room planned again with what was found; until then every mark "
    "for a box is provisional.",
    "cut-out": "Ask whoever supplies the floor boxes for the cut-out and the lid, or measure one.",
    "panel": "A licensed electrician looks for free spaces in the panel, and whether the service "
    "can carry more.",
    "cord": "Read the size of wire printed along the cord, or ask whoever made it.",
    "back": "Before anything is cut, the seller measures, on a chair of that kind fed from any "
    "outlet, the least height of its back over the floor, reclined with somebody in it. If that is "
    "not more, nothing can lie there and the row may have to move: have the room planned again. "
    "What the installers measure on the chair where it stands is the second check.",
    "other": "Measure it on site, or ask the maker; then have the room planned again.",
}
_BRACKETS = re.compile(r" \([^()]*%[^()]*\)")
_ADVISED = re.compile(r"would lose more than the [0-9.]+ % advised")
_NEAR = 0.9
"""From this part of the longest home run on, an estimate is told to be near it."""
_NOTHING_LEFT = "Nothing that the answer hangs on is left to find out."
_ONE, _WHAT = "The one thing to find out", "What to find out"
_NEVER = (
    "space heaters, irons, hair dryers, and anything else that makes heat",
    "popcorn makers, kettles, coffee makers, ovens",
    "vacuum cleaners, and portable air conditioners, refrigerators or dehumidifiers",
)
_SECOND = "a power strip, an adapter or a second cord between a chair and its outlet"


def decision_sheet(plan: Plan, others: tuple[SheetPage, ...] = ()) -> SheetPage:
    """Return page 1.

    Parameters
    ----------
    plan : Plan
        The plan.
    others : tuple of SheetPage
        The pages that follow, for the list of what is in the set.
    """
    answer = Marked(mark="Answer", lines=(_verdict(plan.decision),))
    parts: list[Part] = [answer, *_mend_first(plan)]
    parts += [Say(text=told) for told in unmet_advice(plan)]
    parts.append(
        Items(lead="What happens next, and who does it:", items=next_steps(plan), numbered=True)
    )
    listed = len(parts)
    parts.extend(_find_out(plan))
    parts.append(Say(text="Each way, the least work first:"))
    parts.extend(_step(step, plan) for step in plan.decision.steps)
    parts.append(_never(plan))
    asked = place_sentences(plan)
    if asked:
        parts.append(Items(lead=place_lead(plan), items=asked))
    parts.append(assumed_here(plan))
    page = SheetPage(number="1", title="Decision", reader="client and seller", parts=())
    if others:
        parts.insert(listed, contents_of((page, *others)))
    return page._replace(parts=tuple(parts))


def _verdict(decision: Decision) -> str:
    sentence = _plain(_ADVISED.sub("would lose more voltage than is advised", decision.sentence))
    if sentence.lower().startswith(decision.verdict.lower()):
        return sentence
    return f"{capital(decision.verdict)}. {sentence}"


def _plain(text: str) -> str:
    """A sentence without percentages in brackets, and without what the list of mends says."""
    mend, then, rest = text.partition(" Then: ")
    told = rest if then and mend.startswith("First mend this:") else text
    return _BRACKETS.sub("", told)


def _mend_first(plan: Plan) -> list[Part]:
    stops = tuple(finding for finding in plan.findings if finding.stops)
    if not stops:
        return []
    lead = "Mend this first; nothing is ordered, cut or laid before:"
    return [Items(lead=lead, items=plain_reasons(stops, plan))]


def _find_out(plan: Plan) -> list[Part]:
    decision = plan.decision
    if decision.depends_on:
        first, *rest = decision.depends_on
        parts: list[Part] = [
            Marked(
                mark="Find out",
                lines=(f"{_WHAT if rest else _ONE}: {_asked(first)}.", _how(first)),
            )
        ]
        if rest:
            told = tuple(f"{capital(_asked(one))}. {_how(one)}" for one in rest)
            parts.append(Items(lead="After that:", items=told))
        if not is_planned_again(plan):
            parts += [Say(text=text) for text in _before_work(plan)]
        return parts
    if decision.verdict == NOT_POSSIBLE and decision.flips:
        flip = decision.flips[0]
        way = _STEPS.get(flip.step, flip.step)
        line = f"how much of its current each chair ({flip.chair}) takes for 3 hours or more."
        told = (
            f"{_WHAT}: {line}",
            f"Ask the chair's maker in writing. By load, this way may then be open"
            f"{_only_if(flip.step, plan)}: {way}. {flip.sentence}",
        )
        return [Marked(mark="Find out", lines=told)]
    if decision.verdict == NOT_POSSIBLE:
        return []
    said = [] if rows_that_may_move(plan) or _over_already(plan) else [_NOTHING_LEFT]
    return [Say(text=" ".join((*said, *_before_work(plan))))]


def _before_work(plan: Plan) -> tuple[str, ...]:
    left = _to_measure(plan)
    return (f"To be measured or asked before work begins: {'; '.join(left)}.",) if left else ()


def _to_measure(plan: Plan) -> list[str]:
    """What the answer does not hang on, but work does."""
    work = []
    if any(circuit.new for circuit in plan.circuits):
        run = "the run from the panel to the first new outlet, which is an estimate here"
        work.append(run + _over_the_most(plan))
    if any(box.kind == "floor box" for box in plan.boxes):
        work.append("how deep the floor box is, and what lies below")
    without = homeless(plan)
    if without and not rows_that_may_move(plan):
        work.append(f"where {spare_named(plan)} goes, which the maker says ({CORDS})")
    return work


def _over_the_most(plan: Plan) -> str:
    """From which home run on a new circuit is planned again, where the estimate comes near it;
    once for all of which the estimate is over it already."""
    over = _over_already(plan)
    told = [_over_text(over, plan)] if over else []
    told += [
        f"{circuit.id}: over {most}, plan again with thicker wire"
        for circuit in plan.circuits
        if circuit.new and circuit.home_run_m is not None and circuit.home_run_most_m is not None
        if circuit not in over and circuit.home_run_m >= _NEAR * circuit.home_run_most_m
        if (most := home_run_most_text(circuit, plan.spec.project.units))
    ]
    return f" ({'; '.join(told)})" if told else ""


def _over_already(plan: Plan) -> tuple[CircuitUse, ...]:
    """The new circuits of which the estimated home run loses more than is advised."""
    return tuple(
        circuit
        for circuit in plan.circuits
        if circuit.new and circuit.home_run_m is not None and circuit.home_run_most_m is not None
        if micrometers(circuit.home_run_m) > micrometers(circuit.home_run_most_m)
    )


def _over_text(over: tuple[CircuitUse, ...], plan: Plan) -> str:
    """That estimates are over what the advised drop allows, and where it allows least."""
    units = plan.spec.project.units
    least = min(over, key=lambda circuit: circuit.home_run_most_m or 0.0)
    most = home_run_most_text(least, units)
    runs = {wire_text(circuit.home_run_m or 0.0, units) for circuit in over}
    the = f"the estimate of {runs.pop()} is" if len(runs) == 1 else "the estimates are"
    where = f"on {least.id}, the least" if len(over) > 1 else f"on {least.id}"
    return (
        f"for {joined([circuit.id for circuit in over])} {the} already over what the advised drop "
        f"allows ({most or 'no run is short enough'} {where}): thicker wire, or boxes nearer, "
        "would keep it"
    )


def _only_if(name: str, plan: Plan) -> str:
    """What else has to be allowed for a step, where the plan does not allow it."""
    step = next((one for one in plan.decision.steps if one.step == name), None)
    if step is None or step.allowed:
        return ""
    work = plan.spec.new_work
    if name == EXTENSIONS:
        return ", but only if extension cords are also allowed"
    if not (work.floor_boxes or work.wall_outlets):
        return ", but only if cutting for new outlets is also allowed"
    return ", but only if more new circuits are also allowed"


def _how(condition: Condition) -> str:
    return _HOW.get(condition.kind, _HOW["other"])


def _asked(condition: Condition) -> str:
    """The question in a condition, without the advice after its colon."""
    return f"whether {condition.sentence.partition(':')[0]}"


def _step(step: Step, plan: Plan) -> Part:
    title = f"{_STEPS.get(step.step, capital(step.step))}."
    if step.step == EXTENSIONS and step.works and not step.extensions:
        reach = f"The chairs' own cords reach{if_measured(plan)}."
        return Marked(mark="Not needed", lines=(title, reach))
    if not step.works:
        reasons = plain_reasons(tuple(f for f in step.findings if f.stops), plan)
        return Marked(mark="No", lines=(title, *(reasons or (step.sentence,))))
    told = _plain(step.sentence).removeprefix("Works: ")
    if step.step == plan.decision.verdict:
        hangs = bool(plan.decision.depends_on)
        return Marked(mark="Yes, if" if hangs else "Yes", lines=(title, f"Chosen: {told}"))
    if _after_chosen(step, plan):
        mark = "Not needed" if step.allowed else "Closed"
        return Marked(mark=mark, lines=(title, f"More work than is needed: {told}"))
    if step.allowed:
        return Marked(mark="Also", lines=(title, capital(told)))
    if any(finding.stops for finding in plan.findings):
        told = f"{told} What is to be mended first has to be mended for this too."
    return Marked(mark="Closed", lines=(title, f"It would work, but is not offered: {told}"))


def _after_chosen(step: Step, plan: Plan) -> bool:
    names = [one.step for one in plan.decision.steps]
    chosen = plan.decision.verdict
    return chosen in names and names.index(step.step) > names.index(chosen)


def _never(plan: Plan) -> Part:
    used = list(dict.fromkeys(chair.circuit for chair in plan.chairs if chair.circuit))
    if not used or plan.decision.verdict == NOT_POSSIBLE:
        return Say(text="No circuit is chosen yet, so nothing is to be plugged in for the chairs.")
    names = joined([_circuit_name(name) for name in used])
    lead = f"Never plug these into {names}, at any outlet on the same breaker:"
    return Items(lead=lead, items=(*_NEVER, f"{_SECOND}{_but(plan)}"))


def _but(plan: Plan) -> str:
    """What of such things is part of the plan."""
    units = len(plan.outlet_units)
    longer = sum(cord.kind == EXTENSION for cord in plan.cords)
    own = [f"the outlet unit{'s' if units > 1 else ''}"] if units else []
    own += [f"the extension cord{'s' if longer > 1 else ''}"] if longer else []
    return f", other than {joined(own)} of this plan" if own else ""


def _circuit_name(name: str) -> str:
    return name.replace("new ", "new circuit ") if name.startswith("new ") else f"circuit {name}"
