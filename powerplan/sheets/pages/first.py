"""For whoever goes back to the room: what to find out first, in the order of what it decides."""

from __future__ import annotations

from powerplan.model.plan import Plan
from powerplan.sheets.parts import Items, Page, Say


def first_page(plan: Plan) -> Page:
    """Return what the answer hangs on, then every other must that could not be checked."""
    asked = [condition.sentence for condition in plan.decision.depends_on]
    covered = {condition.subject for condition in plan.decision.depends_on}
    for finding in plan.findings:
        if finding.hangs and finding.subject not in covered:
            asked.append(f"{finding.subject}: {finding.note or finding.requirement}")
    items = tuple(dict.fromkeys(asked))
    title = "What to find out first"
    if not items:
        return Page(title=title, parts=(Say(text="Nothing the answer hangs on is unknown."),))
    return Page(title=title, parts=(Items(lead="", items=items, numbered=True),))
