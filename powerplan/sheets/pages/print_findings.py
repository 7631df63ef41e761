"""Page 5, for anyone who doubts: every rule that was held, the worst first, with its source."""

from __future__ import annotations

from powerplan.model.findings import Finding, Force, Outcome
from powerplan.model.lengths import plural
from powerplan.model.plan import Plan
from powerplan.sheets.beside import framing_under
from powerplan.sheets.pages.findings import in_order, tightest, worst_of_each
from powerplan.sheets.parts import Marked, Part, Say, Table
from powerplan.sheets.printed import SheetPage
from powerplan.sheets.words import has_text, measure, numbers_text, outcome_word, room_text

_HEAD = ("what is asked", "of what", "has", "limit", "left", "force", "source")


def findings_sheet(plan: Plan) -> SheetPage:
    """Return page 5."""
    units = plan.spec.project.units
    worry = [f for f in in_order(plan.findings) if f.outcome is not Outcome.MET]
    parts: list[Part] = [Say(text=_tally(plan.findings))]
    parts += [_entry(finding, held, units) for finding, held in _told(worry)]
    rows = tuple(
        _no_joists(_row(finding, held, units))
        if _on_slab(finding, plan)
        else _row(finding, held, units)
        for finding, held in _by_room(plan)
    )
    if rows:
        caption = "Met; of each rule the one with the least room left, the tightest first"
        parts.append(Table(caption=caption, head=_HEAD, rows=rows))
    return SheetPage(number="5", title="Findings", reader="anyone who doubts", parts=tuple(parts))


def _on_slab(finding: Finding, plan: Plan) -> bool:
    """Whether a box was held against joists where it is cut into a slab."""
    box = next((box for box in plan.boxes if box.id == finding.subject), None)
    cut = finding.rule == "box-clears-framing" and box is not None
    return cut and box is not None and framing_under(plan, box)[0].build == "slab"


def _no_joists(row: tuple[str, ...]) -> tuple[str, ...]:
    """The row of such a finding: there is nothing to be clear of."""
    what, subject, _, _, _, force, source = row
    return (what, subject, "a slab: no joists", "-", "-", force, source)


def _told(worry: list[Finding]) -> list[tuple[Finding, int]]:
    """Every finding by itself, but of notes the worst of each rule and how many there are."""
    single = [(finding, 1) for finding in worry if finding.force is not Force.NOTE]
    notes = worst_of_each(finding for finding in worry if finding.force is Force.NOTE)
    outcomes = (Outcome.NOT_MET, Outcome.NOT_CHECKED)
    return sorted((*single, *notes), key=lambda pair: outcomes.index(pair[0].outcome))


def _by_room(plan: Plan) -> tuple[tuple[Finding, int], ...]:
    return tuple(sorted(tightest(plan.findings), key=lambda pair: _share(pair[0])))


def _share(finding: Finding) -> float:
    """The room left as a share of the limit; what has no size comes last."""
    if finding.margin is None:
        return float("inf")
    return finding.margin / abs(finding.limit) if finding.limit else finding.margin


def _tally(findings: tuple[Finding, ...]) -> str:
    told = []
    for outcome in (Outcome.NOT_MET, Outcome.NOT_CHECKED, Outcome.MET):
        held = sum(finding.outcome is outcome for finding in findings)
        told.append(f"{held} {outcome_word(outcome)}")
    return (
        f"{plural(len(findings), 'check')}: {', '.join(told)}. A must has to be met; advice and "
        "notes are for judgment. In square brackets: how well the number is known."
    )


def _entry(finding: Finding, held: int, units: str) -> Marked:
    numbers = numbers_text(finding, units)
    of_many = f"tightest of {held}: " if held > 1 else ""
    lines = (
        f"{of_many}{finding.subject} ({finding.force.value}): {finding.requirement}"
        + (f": {numbers}" if numbers else ""),
        finding.note,
        f"Rule {finding.rule}; source: {_source(finding)}",
    )
    return Marked(mark=outcome_word(finding.outcome), lines=tuple(line for line in lines if line))


def _row(finding: Finding, held: int, units: str) -> tuple[str, ...]:
    more = f" (tightest of {held})" if held > 1 else ""
    return (
        finding.requirement,
        f"{finding.subject}{more}",
        has_text(finding, units),
        measure(finding.limit, finding.unit, units),
        room_text(finding, units) or "-",
        finding.force.value,
        _source(finding),
    )


def _source(finding: Finding) -> str:
    return f"{finding.source} [{finding.standing.value}]"
