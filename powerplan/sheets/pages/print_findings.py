"""Page 5, for anyone who doubts: every rule that was held, the worst first, with its source."""

from __future__ import annotations

from powerplan.model.findings import Finding, Force, Outcome
from powerplan.model.lengths import joined, plural
from powerplan.model.plan import NOT_POSSIBLE, Plan
from powerplan.sheets.beside import framing_under
from powerplan.sheets.page_names import CORDS
from powerplan.sheets.pages.findings import in_order, tightest, worst_of_each
from powerplan.sheets.pages.print_assumed import assumed_elsewhere
from powerplan.sheets.parts import Marked, Part, Say, Table
from powerplan.sheets.printed import SheetPage
from powerplan.sheets.words import has_text, limit_text, numbers_text, outcome_word, room_text

_HEAD = ("what is asked", "of what", "checks", "has", "limit", "left", "force", "source")
_TO_SPARE = " to spare"


def findings_sheet(plan: Plan) -> SheetPage:
    """Return page 5."""
    units = plan.spec.project.units
    way, stops = what_stops(plan)
    everything = (*plan.findings, *stops)
    worry = [f for f in in_order(everything) if f.outcome is not Outcome.MET]
    parts: list[Part] = [Say(text=_tally(everything))]
    if stops:
        verb = "stops" if len(stops) == 1 else "stop"
        text = f"{len(stops)} of the checks not met {verb} the last way that fails: {way}."
        parts.append(Say(text=text))
    parts += [_entry(alike, held, units) for alike, held in _told(worry, units)]
    rows = tuple(
        _no_joists(_row(finding, held, units))
        if _on_slab(finding, plan)
        else _row(finding, held, units)
        for finding, held in _by_room(plan)
    )
    if rows:
        caption = "Met: of each rule the tightest of its checks, the tightest first"
        parts.append(Table(caption=caption, head=_HEAD, rows=rows))
    parts += assumed_elsewhere(plan)
    return SheetPage(number="5", title="Findings", reader="anyone who doubts", parts=tuple(parts))


def what_stops(plan: Plan) -> tuple[str, tuple[Finding, ...]]:
    """Return the last way that fails of a job that is not possible, and the musts that it breaks
    beside those of the plan itself; else nothing.

    Parameters
    ----------
    plan : Plan
        The plan.
    """
    failed = [step for step in plan.decision.steps if not step.works]
    if plan.decision.verdict != NOT_POSSIBLE or not failed:
        return "", ()
    held = set(plan.findings)
    return failed[-1].step, tuple(f for f in failed[-1].findings if f.stops and f not in held)


def _on_slab(finding: Finding, plan: Plan) -> bool:
    """Whether a box was held against joists where it is cut into a slab."""
    box = next((box for box in plan.boxes if box.id == finding.subject), None)
    cut = finding.rule == "box-clears-framing" and box is not None
    return cut and box is not None and framing_under(plan, box)[0].build == "slab"


def _no_joists(row: tuple[str, ...]) -> tuple[str, ...]:
    """The row of such a finding: there is nothing to be clear of."""
    what, subject, held, _, _, _, force, source = row
    return (what, subject, held, "a slab: no joists", "-", "-", force, source)


def _told(worry: list[Finding], units: str) -> list[tuple[list[Finding], int]]:
    """Every finding, those of which the same is said together; but of notes the worst of each rule
    and how many there are."""
    alike: dict[tuple[str, ...], list[Finding]] = {}
    for one in worry:
        if one.force is not Force.NOTE:
            alike.setdefault(tuple(_said(one, units)), []).append(one)
    notes = worst_of_each(finding for finding in worry if finding.force is Force.NOTE)
    outcomes = (Outcome.NOT_MET, Outcome.NOT_CHECKED)
    told = [(found, 1) for found in alike.values()] + [([one], held) for one, held in notes]
    return sorted(told, key=lambda pair: outcomes.index(pair[0][0].outcome))


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
        "notes are for judgment. Behind a source stands how well the number is known."
    )


def _said(finding: Finding, units: str) -> list[str]:
    """What is said of a finding, but of what it is."""
    numbers = numbers_text(finding, units)
    lines = (
        f"({finding.force.value}): {finding.requirement}" + (f": {numbers}" if numbers else ""),
        finding.note.replace("the cords page", CORDS),
        f"Rule {finding.rule}; source: {_source(finding)}",
    )
    return [outcome_word(finding.outcome), *(line for line in lines if line)]


def _entry(alike: list[Finding], held: int, units: str) -> Marked:
    """Findings of which the same is said, in one entry."""
    mark, first, *more = _said(alike[0], units)
    of_many = f"tightest of {held}: " if held > 1 else ""
    subjects = joined([finding.subject for finding in alike])
    return Marked(mark=mark, lines=(f"{of_many}{subjects} {first}", *more))


def _row(finding: Finding, held: int, units: str) -> tuple[str, ...]:
    room = room_text(finding, units)
    return (
        finding.requirement,
        finding.subject,
        f"{held}",
        has_text(finding, units),
        limit_text(finding, units),
        "none" if finding.margin == 0 else room.removesuffix(_TO_SPARE) or "-",
        finding.force.value,
        _source(finding),
    )


def _source(finding: Finding) -> str:
    """Where a rule is from and how well that is known, which some sources say themselves."""
    standing = finding.standing.value
    return finding.source if standing in finding.source else f"{finding.source} [{standing}]"
