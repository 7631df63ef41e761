"""For whoever goes back to the room: what to find out first, in the order of what it decides."""

from __future__ import annotations

from powerplan.model.findings import Outcome
from powerplan.model.plan import Plan
from powerplan.sheets.parts import Items, Page, Say


def first_page(plan: Plan) -> Page:
    """Return what the answer hangs on, then every other must that could not be checked."""
    asked = [condition.sentence for condition in plan.decision.depends_on]
    covered = {condition.subject for condition in plan.decision.depends_on}
    for finding in plan.findings:
        if finding.hangs and finding.subject not in covered:
            asked.append(f"{finding.subject}: {finding.note or finding.requirement}")
    asked += _worth_knowing(plan)
    items = tuple(dict.fromkeys(asked))
    title = "What to find out first"
    if not items:
        return Page(title=title, parts=(Say(text="Nothing that the answer hangs on is unknown."),))
    return Page(title=title, parts=(Items(lead="", items=items, numbered=True),))


def _worth_knowing(plan: Plan) -> list[str]:
    """What would change or complete the answer, though it does not hang on it."""
    used = {kind for row in plan.spec.rows for kind in row.kinds}
    asked = [
        f"measure the clear zone under a {kind.id}: no box or cord can lie under it before"
        for kind in plan.spec.chairs
        if kind.clear is None and kind.id in used
    ]
    halved = any(f.rule == "fastened-half" for step in plan.decision.steps for f in step.findings)
    unsaid = [row.id for row in plan.spec.rows if row.fastened is None]
    if halved and unsaid:
        asked.append(
            f"is row {', '.join(unsaid)} bolted down? It was taken as bolted, and that stops a step"
        )
    asked += [
        f"{finding.subject}: {finding.note}"
        for finding in plan.findings
        if finding.rule in ("voltage-drop", "circuit-looked-at")
        and finding.outcome is Outcome.NOT_CHECKED
    ]
    return asked
