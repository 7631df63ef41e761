"""Page 4, for the electrician and the inspector: every circuit, and what to confirm."""

from __future__ import annotations

from powerplan.model.findings import Outcome
from powerplan.model.lengths import amps_text, joined
from powerplan.model.plan import CircuitUse, PlacedChair, Plan
from powerplan.sheets.amounts import asked_a, factor_of
from powerplan.sheets.pages.circuits import circuits_page
from powerplan.sheets.pages.print_words import capital, degrees, warned
from powerplan.sheets.parts import Figure, Items, Part, Say, Table, Ticks
from powerplan.sheets.printed import SheetPage
from powerplan.sheets.scene import View
from powerplan.sheets.words import measure

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
    if plan.circuits:
        parts += [_chairs(plan), *_asked(plan)]
    return SheetPage(
        number="4",
        title=warned("Circuits", plan),
        reader="electrician and inspector",
        parts=tuple(parts),
    )


def _chairs(plan: Plan) -> Part:
    rows = []
    for use in plan.circuits:
        fed = [chair for chair in plan.chairs if chair.circuit == use.id]
        alike = {(chair.input_a, chair.continuous_a): chair for chair in fed}
        each = joined([_asks_each(plan, chair) for _, chair in sorted(alike.items())])
        names = joined([chair.id for chair in fed])
        rows.append((use.id, str(len(fed)), names or "none", each or "-"))
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
    asked += [f"{capital(condition.sentence)}." for condition in plan.decision.depends_on]
    asked += [
        f"{capital(finding.subject)}: {finding.note}"
        for finding in plan.findings
        if finding.rule in _LOOKS and finding.outcome is not Outcome.MET
    ]
    if not asked:
        return []
    asked.append("Grounding, polarity and insulation tested at every outlet the chairs use.")
    return [Ticks(lead="To confirm on site, by a licensed electrician:", items=tuple(asked))]


def _confirm(use: CircuitUse, plan: Plan) -> list[str]:
    name = capital(f"{use.id}" if use.new else f"circuit {use.id}")
    breaker = "" if use.breaker_a is None else amps_text(use.breaker_a)
    if use.new:
        size = f"{breaker} breaker" if breaker else "breaker"
        wire = f" and {use.wire} the whole way" if use.wire else ""
        return [
            f"{name}: a free space in the panel, and a service that can carry it.",
            f"{name}: {size}{wire}; nothing else is wired to it.",
            f"{name}: ground-fault and arc-fault protection as local code asks.",
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
        told.append(
            f"{name}: ground-fault and arc-fault protection for its new outlets, as local code "
            "asks."
        )
    return told
