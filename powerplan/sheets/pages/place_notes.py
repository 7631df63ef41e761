"""What the kind of place asks, in sentences."""

from __future__ import annotations

from powerplan.model.findings import Finding, Outcome
from powerplan.model.plan import Plan

_CORDS = "cord-fire-code"
_OF_PLACE = (
    *("rcd-new-outlets", "gfci-basement", "afci-room"),
    *("wiring-method", _CORDS, "row-width-assembly"),
)
_BY_COUNT = ("leakage-by-count", "switch-on-by-count")


def place_notes(plan: Plan) -> tuple[Finding, ...]:
    """Return the notes that the kind of place asks for and that somebody has to see to."""
    by_rule = {finding.rule: finding for finding in plan.findings}
    found = (by_rule.get(rule) for rule in _OF_PLACE)
    return tuple(one for one in found if one is not None and one.outcome is not Outcome.MET)


def count_notes(plan: Plan) -> tuple[Finding, ...]:
    """Return the notes on many supplies at once that are over their limit."""
    found = (finding for finding in plan.findings if finding.rule in _BY_COUNT)
    return tuple(finding for finding in found if finding.outcome is Outcome.NOT_MET)


def place_lead(plan: Plan) -> str:
    """Return the words above the list: for this kind of place, or for one not said."""
    place = plan.spec.project.place
    if place is None:
        return "The kind of place is not said; write place in the plan file. What it may ask:"
    return f"What the place asks ({place}), whatever the answer:"


def place_sentences(plan: Plan) -> tuple[str, ...]:
    """Return each note as one sentence, shortest form."""
    prefix = "The kind of place is not said. "
    return tuple(
        finding.note.removeprefix(prefix) + (_links(plan) if finding.rule == _CORDS else "")
        for finding in place_notes(plan)
    )


def _links(plan: Plan) -> str:
    """How many cords go into another chair and no outlet, which whoever allows cords must know."""
    links = sum(cord.kind == "link" for cord in plan.cords)
    if not links:
        return ""
    goes = "1 of them goes" if links == 1 else f"{links} of them go"
    return f" {goes} from chair to chair, not into an outlet: tell the fire officer so."
