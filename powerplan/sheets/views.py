"""Which pages each view of a plan holds, and the one line every view ends in."""

from __future__ import annotations

from powerplan.model.findings import Finding
from powerplan.model.lengths import amps_text
from powerplan.model.plan import NEW_CIRCUITS, Plan
from powerplan.sheets.local import local_of, localized
from powerplan.sheets.pages.boxes import boxes_page
from powerplan.sheets.pages.circuits import circuits_page
from powerplan.sheets.pages.cords import cords_page
from powerplan.sheets.pages.decision import decision_page
from powerplan.sheets.pages.findings import findings_page
from powerplan.sheets.pages.first import first_page
from powerplan.sheets.parts import Drawing, Items, Page, Say, Sheet
from powerplan.sheets.placed import chairs_by_row
from powerplan.sheets.words import caution_of
from powerplan.sheets.writers.picture import picture_lines

PLAN, DECIDE, MARK, CORDS = "plan", "decide", "mark", "cords"
_LINE = 80

_TITLES = {
    PLAN: "Power plan",
    DECIDE: "Does the job need a new circuit?",
    MARK: "Where the floor boxes go",
    CORDS: "How the cords run",
}


def plan_sheet(plan: Plan, view: str) -> Sheet:
    """Return one view of a plan: plan, decide, mark or cords.

    Raises
    ------
    KeyError
        If the view is none of these.
    """
    title = f"{_TITLES[view]}: {plan.project}"
    units = plan.spec.project.units
    brief = findings_page(_of_view(plan.findings, view), units, whole=False)
    sheet = Sheet(
        title=title,
        about=_about(plan),
        pages=(*_answers(plan, view), brief, first_page(plan)),
        caution=caution_of(plan),
        last=verdict_line(plan),
    )
    return localized(sheet, local_of(plan))


_FAMILIES = {
    DECIDE: (
        "circuit-",
        "breaker-",
        "wire-",
        "socket-",
        "sockets-",
        "fastened-",
        "unit-",
        "low-voltage-",
        "battery-",
        "voltage-",
        "plug-",
        "panel-",
        "outlet-",
        "extension-",
        "chain-",
        "coupler-",
        "shared-",
        "aluminum-",
        "grounded-",
        "switched-",
        "switch-",
        "leakage-",
        "gfci-",
        "rcd-",
        "afci-",
        "wiring-",
    ),
    MARK: (
        "box-",
        "headrest-",
        "footrest-",
        "row-",
        "rows-",
        "seats-",
        "door-",
        "reading-",
        "passage-",
        "chair-",
    ),
    CORDS: (
        "cord-",
        "cords-",
        "link-",
        "gap-",
        "spare-",
        "extension-",
        "chain-",
        "coupler-",
        "chair-",
        "supply-",
        "unit-",
        "battery-",
    ),
}


def _of_view(findings: tuple[Finding, ...], view: str) -> tuple[Finding, ...]:
    """The rules that this view is about, and every must that is not met or hangs."""
    families = _FAMILIES.get(view)
    if families is None:
        return findings
    return tuple(f for f in findings if f.stops or f.hangs or f.rule.startswith(families))


def _answers(plan: Plan, view: str) -> tuple[Page, ...]:
    if view == DECIDE:
        return (decision_page(plan), circuits_page(plan))
    if view == MARK:
        return (_picture(plan), boxes_page(plan))
    if view == CORDS:
        return (_picture(plan), cords_page(plan, ways=True))
    answers = (decision_page(plan), boxes_page(plan), cords_page(plan))
    return (_picture(plan), *answers, circuits_page(plan))


def judged_sheet(
    plan: Plan, findings: tuple[Finding, ...], not_judged: tuple[str, ...], last: str
) -> Sheet:
    """Return the report of a judge on a plan.

    Parameters
    ----------
    plan : Plan
        What was judged.
    findings : tuple of Finding
        What the judge found.
    not_judged : tuple of str
        What the judge could not judge, a sentence each.
    last : str
        The line to end in.
    """
    pages = [findings_page(findings, plan.spec.project.units, whole=True)]
    if not_judged:
        pages.append(Page(title="Not judged", parts=(Items(lead="", items=not_judged),)))
    sheet = Sheet(
        title=f"Check: {plan.project}",
        about=_about(plan),
        pages=tuple(pages),
        caution=caution_of(plan),
        last=last,
    )
    return localized(sheet, local_of(plan))


def verdict_line(plan: Plan) -> str:
    """Return the last line of every view: the verdict and what the exit code means."""
    line = f"Verdict: {plan.decision.verdict}{_new_ones(plan)}"
    if plan.decision.exit_code == 4:
        told = f"{line}, if what is still unknown holds."
        return told if len(local_of(plan)(told)) <= _LINE else f"{line}, if the unknown holds."
    if plan.decision.exit_code != 1:
        return f"{line}."
    stops = list(dict.fromkeys(finding.rule for finding in plan.findings if finding.stops))
    named = f"{line}, but NOT MET: {', '.join(stops)}."
    return named if len(named) <= _LINE else f"{line}, but a must-rule is NOT MET."


def _new_ones(plan: Plan) -> str:
    new = [circuit for circuit in plan.circuits if circuit.new]
    kinds = {(circuit.breaker_a, circuit.wire) for circuit in new}
    if plan.decision.verdict != NEW_CIRCUITS or len(kinds) != 1:
        return ""
    breaker_a, wire = kinds.pop()
    of = "" if breaker_a is None else f" of {amps_text(breaker_a)}"
    return f" ({len(new)}{of}{f' on {wire}' if wire else ''})"


def _about(plan: Plan) -> tuple[str, ...]:
    project = plan.spec.project
    place = project.place or "place unknown"
    return (
        f"{project.job}, {place}; rules: {plan.rules.edition} ({plan.rules.id})",
        f"{plan.program}; plan file {plan.plan_file_sha256[:12]}"
        + "".join(f"; {file.name} {file.sha256[:12]}" for file in plan.spec.files),
    )


def _picture(plan: Plan) -> Page:
    told = tuple(Say(text=line) for line in chairs_by_row(plan))
    return Page(title="The room from above", parts=(Drawing(lines=picture_lines(plan)), *told))
