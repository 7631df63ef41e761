"""Page 4, for the electrician and the inspector: every circuit, and what to confirm."""

from __future__ import annotations

import re
from collections import Counter

from powerplan.model.findings import Finding, Outcome
from powerplan.model.lengths import amps_text, joined
from powerplan.model.plan import CircuitUse, PlacedChair, Plan
from powerplan.sheets.amounts import asked_a, factor_of
from powerplan.sheets.pages.circuits import circuits_page
from powerplan.sheets.pages.print_findings import what_stops
from powerplan.sheets.pages.print_held import warned
from powerplan.sheets.pages.print_protection import protection_of
from powerplan.sheets.pages.print_words import capital, degrees
from powerplan.sheets.parts import Figure, Items, Part, Say, Table, Ticks
from powerplan.sheets.printed import SheetPage
from powerplan.sheets.scene import View
from powerplan.sheets.words import measure

_SAME_A = 1e-6
_NOT_WIRING = ("other", "fastening", "cord", "back")
"""Kinds of condition that the seller or the installers find out, not the electrician."""
_CALLS = re.compile(r": have an electrician look| The electrician looks\.")
_LOOKS = ("switched-outlet", "circuit-looked-at", "leakage-by-count", "switch-on-by-count")


def circuits_sheet(plan: Plan, views: tuple[View, ...]) -> SheetPage:
    """Return page 4.

    Parameters
    ----------
    plan : Plan
        The plan.
    views : tuple of View
        The tapes of amperes; empty where there is no circuit to draw.
    """
    parts: list[Part] = [
        Say(text=degrees(part.text)) if isinstance(part, Say) else part
        for part in circuits_page(plan).parts
        if not isinstance(part, Items)
    ]
    parts += [Figure(view=view) for view in views]
    parts += _sums(plan)
    if plan.circuits:
        parts += [_chairs(plan), *_asked(plan)]
    return SheetPage(
        number="4",
        title=warned("Circuits", plan),
        reader="electrician and inspector",
        parts=tuple(parts),
    )


def _sums(plan: Plan) -> list[Part]:
    """Of a job that is not possible, how what the chairs would ask of a circuit comes about."""
    _, stops = what_stops(plan)
    over = [one for one in stops if one.rule == "circuit-load"]
    told = tuple(text for one in over if (text := _sum(one, plan)))
    lead = "With the chairs, which are in no figure above:"
    return [Items(lead=lead, items=told)] if told else []


def _sum(finding: Finding, plan: Plan) -> str:
    """What is on a circuit, what the chairs ask, and what it may give; nothing of a load that is
    known in part."""
    use = next((one for one in plan.circuits if finding.subject == f"circuit {one.id}"), None)
    if finding.value is None or finding.limit is None or use is None or not use.load_known:
        return ""
    there_a, chairs_a = use.asks_a, round(finding.value - use.asks_a, 6)
    each = Counter((_asks_each(plan, chair), asked_a(chair, plan)) for chair in plan.chairs)
    sum_ = f"{amps_text(chairs_a, up=True)} of the chairs"
    if abs(sum(asks_a * count for (_, asks_a), count in each.items()) - chairs_a) < _SAME_A:
        lines = (f"{count} x {_one(text)}" for (text, asks_a), count in each.items() if asks_a)
        sum_ += f" ({' + '.join(lines)})"
    return (
        f"{capital(finding.subject)}: {amps_text(there_a, up=True)} that is on it + {sum_} = "
        f"{amps_text(finding.value, up=True)}, and it may give {amps_text(finding.limit)}: "
        f"{amps_text(finding.value - finding.limit, up=True)} over."
    )


def _one(text: str) -> str:
    """How the figure of one chair comes about, without the figure."""
    parts = text.partition(" = ")[0]
    return f"({parts})" if " + " in parts else parts


def _chairs(plan: Plan) -> Part:
    rows = []
    for use in plan.circuits:
        fed = [chair for chair in plan.chairs if chair.circuit == use.id]
        alike: dict[str, list[str]] = {}
        for chair in fed:
            alike.setdefault(_asks_each(plan, chair), []).append(chair.id)
        rows += [(use.id, str(len(names)), joined(names), each) for each, names in alike.items()]
        rows += [] if fed else [(use.id, "0", "none", "-")]
    head = ("circuit", "chairs", "which", "each asks")
    return Table(caption="Chairs by circuit", head=head, rows=tuple(rows))


def _asks_each(plan: Plan, chair: PlacedChair) -> str:
    """How the figure of one chair on the tape comes about."""
    factor, lasting_a = factor_of(plan), chair.continuous_a
    if factor == 1.0 or not lasting_a:
        return amps_text(chair.input_a)
    other_a = round(chair.input_a - lasting_a, 6)
    rest = f" + {amps_text(other_a)}" if other_a else ""
    whole = measure(asked_a(chair, plan), "A", plan.spec.project.units, fine=True)
    return f"{factor:g} x {amps_text(lasting_a)}{rest} = {whole}"


def _asked(plan: Plan) -> list[Part]:
    feeding = {chair.circuit for chair in plan.chairs}
    asked = [text for use in plan.circuits if use.id in feeding for text in _confirm(use, plan)]
    asked += [
        f"{capital(_to_electrician(condition.sentence))}."
        for condition in plan.decision.depends_on
        if condition.kind not in _NOT_WIRING
    ]
    asked += [
        f"{capital(finding.subject)}: {_to_electrician(finding.note)}"
        for finding in plan.findings
        if finding.rule in _LOOKS and finding.outcome is not Outcome.MET
    ]
    if not asked:
        return []
    asked.append("Grounding, polarity and insulation tested at every outlet the chairs use.")
    return [Ticks(lead="To confirm on site, by a licensed electrician:", items=tuple(asked))]


def _to_electrician(text: str) -> str:
    """A sentence without the advice to call the one who reads it."""
    return _CALLS.sub("", text)


def _confirm(use: CircuitUse, plan: Plan) -> list[str]:
    name = capital(f"{use.id}" if use.new else f"circuit {use.id}")
    breaker = "" if use.breaker_a is None else amps_text(use.breaker_a)
    if use.new:
        size = f"{breaker} breaker" if breaker else "breaker"
        wire = f" and {use.wire} the whole way" if use.wire else ""
        return [
            f"{name}: a free space in the panel, and a service that can carry it.",
            f"{name}: {size}{wire}; nothing but these chairs is wired to it.",
            *(f"{name}: {text}" for text in protection_of(use.id, plan)),
        ]
    sized = " and ".join(text for text in (breaker, use.wire or "") if text)
    known = f"breaker and wire are {sized}" if sized else "breaker and wire are read and suit"
    spec = next((one for one in plan.spec.circuits if one.id == use.id), None)
    told = [f"{name}: {known}."]
    if spec is not None and spec.already_on_it is not None:
        names = joined([load.name for load in spec.already_on_it]) or "nothing"
        told.append(f"{name}: what else is on it is {names}, and no more.")
    if spec is not None and spec.not_measured:
        known = joined([load.name for load in spec.partly_on_it]) or "nothing else"
        told.append(f"{name}: {joined(list(spec.not_measured))} measured; with {known}, no more.")
    if any(box.circuit == use.id for box in plan.boxes):
        told += [f"{name}: {text}" for text in protection_of(use.id, plan)]
    return told
