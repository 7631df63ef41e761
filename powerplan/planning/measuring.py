"""Chairs that nobody measured: everything that is planned with one hangs on measuring it."""

from __future__ import annotations

from powerplan.model.findings import Finding, hold
from powerplan.model.spec import ChairKind, PlanSpec
from powerplan.planning.site import Site

RULE = "chair-measured"
HANGS_ON_IT = (RULE, "cord-clear-of-mechanism", "cord-length", "box-plug-height", "box-has-a-place")
_MOST_USEFUL_FIRST = (
    "the clear zone under the seat",
    "where the cord leaves",
    "how long the cord is",
    "how far the headrest moves back",
    "seat and arms",
    "where the base begins",
    "the gaps under rear rail and arms",
)


def measured_findings(site: Site) -> tuple[Finding, ...]:
    """Return that a kind of chair in use is not measured, with what to measure first."""
    used = {row.chair for row in site.spec.rows}
    used |= {piece.kind for row in site.spec.rows for piece in row.pieces if piece.kind}
    return tuple(
        hold(
            site.rules.rules[RULE],
            f"chair {kind.id}",
            None,
            1,
            note=f"Known from a spec sheet alone. {_still_needed(site.spec, kind)}",
        )
        for kind in site.spec.chairs
        if kind.id in used and not kind.measured
    )


def sentence(findings: list[Finding]) -> str:
    """Return the condition that chairs are measured, in one clause."""
    subjects = [finding.subject for finding in findings if finding.rule == RULE]
    notes = [finding.note.partition(". ")[2] for finding in findings if finding.rule == RULE]
    verb = "is" if len(subjects) == 1 else "are"
    note = max(notes, key=len)
    return f"{' and '.join(subjects)} {verb} as assumed: {note[:1].lower()}{note[1:]}"


def _still_needed(spec: PlanSpec, kind: ChairKind) -> str:
    label = any("INPUT" in one.words for one in spec.assumed if one.subject == f"chair {kind.id}")
    wanted = (("the INPUT on its label",) if label else ()) + _MOST_USEFUL_FIRST
    return f"Measure one, most useful first: {', '.join(wanted)}"
