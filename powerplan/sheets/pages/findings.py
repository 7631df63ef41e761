"""For anyone who doubts: every rule held, the worst first, with its source."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable

from powerplan.model.findings import Finding, Force, Outcome
from powerplan.model.lengths import plural
from powerplan.sheets.parts import Marked, Page, Part, Say
from powerplan.sheets.words import numbers_text, outcome_word

_OUTCOMES = (Outcome.NOT_MET, Outcome.NOT_CHECKED, Outcome.MET)
_FORCES = (Force.MUST, Force.ADVICE, Force.NOTE)
_TIGHTEST = 5


def findings_page(findings: tuple[Finding, ...], units: str, *, whole: bool) -> Page:
    """Return the findings in order of worry.

    Parameters
    ----------
    findings : tuple of Finding
        Every rule held.
    units : str
        How lengths print.
    whole : bool
        True to show every rule that is met as well; else only the few with least to spare.
    """
    worry = [finding for finding in in_order(findings) if finding.outcome is not Outcome.MET]
    notes = worst_of_each(finding for finding in worry if finding.force is Force.NOTE)
    met = tightest(findings)
    parts: list[Part] = [Say(text=_tally(findings))]
    parts += [_entry(finding, units) for finding in worry if finding.force is not Force.NOTE]
    parts += [_entry(finding, units, held) for finding, held in notes]
    if not whole:
        met = tuple(pair for pair in met if _measured(pair[0]))[:_TIGHTEST]
        if met:
            parts.append(Say(text="Of the rules that are met, those with least to spare:"))
    parts += [_entry(finding, units, held) for finding, held in met]
    return Page(title="Rule by rule", parts=tuple(parts))


def in_order(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return findings: not met, then not checked, then met; musts first; least margin first."""
    return tuple(sorted(findings, key=_worry))


def tightest(findings: Iterable[Finding]) -> tuple[tuple[Finding, int], ...]:
    """Return for each rule that is met its tightest finding and how many were held."""
    return worst_of_each(finding for finding in findings if finding.outcome is Outcome.MET)


def worst_of_each(findings: Iterable[Finding]) -> tuple[tuple[Finding, int], ...]:
    """Return the worst of each rule, force and outcome, and how many there are of it."""
    groups: dict[tuple[str, str, str], list[Finding]] = defaultdict(list)
    for finding in in_order(findings):
        groups[finding.rule, finding.force, finding.outcome].append(finding)
    return tuple((group[0], len(group)) for group in groups.values())


def _measured(finding: Finding) -> bool:
    """Whether a margin is a size that can run short, not a count or a yes."""
    return finding.unit in ("A", "m", "%") and bool(finding.limit)


def _worry(finding: Finding) -> tuple[int, int, float, str, str]:
    share = float("inf")
    if finding.margin is not None:
        share = finding.margin / abs(finding.limit) if finding.limit else finding.margin
    return (
        _OUTCOMES.index(finding.outcome),
        _FORCES.index(finding.force),
        share,
        finding.rule,
        finding.subject,
    )


def _tally(findings: tuple[Finding, ...]) -> str:
    counts = []
    for outcome in reversed(_OUTCOMES):
        held = [finding for finding in findings if finding.outcome is outcome]
        text = f"{len(held)} {outcome_word(outcome)}"
        musts = sum(finding.force is Force.MUST for finding in held)
        if held and outcome is not Outcome.MET:
            text += f" ({musts or 'none'} of them a must)"
        counts.append(text)
    return f"{plural(len(findings), 'check')}: {', '.join(counts)}."


def _entry(finding: Finding, units: str, held: int = 1) -> Marked:
    subject = finding.subject
    if held > 1:
        subject = f"tightest of {held}: {subject}"
    lines = [
        f"{finding.rule} ({finding.force.value}), {subject}",
        finding.requirement + _after(": ", numbers_text(finding, units)),
        finding.note,
        f"source: {finding.source} [{finding.standing.value}]",
    ]
    return Marked(mark=outcome_word(finding.outcome), lines=tuple(line for line in lines if line))


def _after(mark: str, text: str) -> str:
    return mark + text if text else ""
