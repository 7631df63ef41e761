"""What the judge hands back, and what it says it cannot judge."""

from __future__ import annotations

from dataclasses import dataclass

from powerplan.judging.case import AGREES, FLOOR_BOX, Case
from powerplan.judging.cuts import joists_known, read_cutting
from powerplan.model.findings import Finding, Outcome
from powerplan.model.plan import NOT_POSSIBLE

_LAYOUT = ("row-", "rows-", "seats-", "headrest-", "footrest-", "door-")


@dataclass(frozen=True, slots=True, kw_only=True)
class Report:
    """The judge's word on one record.

    ``findings`` holds met ones too. ``not_judged`` says in sentences what no judge of a record
    could tell. ``disputed`` are the musts the judge finds not met and the record does not own up
    to: a plan of a room with a layout fault may be a true record of a bad room.
    """

    findings: tuple[Finding, ...]
    not_judged: tuple[str, ...]
    disputed: tuple[Finding, ...]

    @property
    def agrees(self) -> bool:
        """True when the judge finds no must unmet."""
        return not any(finding.stops for finding in self.findings)


def gathered(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Return the findings with one ``record-agrees`` a subject where all its values follow."""
    kept: list[Finding] = []
    settled: set[str] = set()
    wrong = {f.subject for f in findings if f.rule == AGREES and f.outcome is not Outcome.MET}
    for finding in findings:
        if finding.rule == AGREES and finding.outcome is Outcome.MET:
            if finding.subject in wrong or finding.subject in settled:
                continue
            settled.add(finding.subject)
        kept.append(finding)
    return tuple(kept)


def disputed(case: Case, findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Return the unmet musts that the record does not itself state as unmet."""
    owned = {_key(finding) for finding in case.plan.findings if finding.stops}
    return tuple(finding for finding in findings if finding.stops and _key(finding) not in owned)


def _key(finding: Finding) -> tuple[str, str]:
    """What is owned up to: a rule on one thing; of the layout, the rule alone is enough."""
    return (finding.rule, "" if finding.rule.startswith(_LAYOUT) else finding.subject)


def not_judged(case: Case) -> tuple[str, ...]:
    """Return what could not be judged, one sentence each."""
    words = [
        "That no plan with fewer circuits, outlets or less cord exists is not judged.",
        "Steps that were not chosen, and where their answers turn, are the planner's word.",
        "Sentences and notes are the record's own words: they are read, not judged.",
        "That the record's room is the plan file's is not judged: compare the hash.",
        "What lies under floors and in walls beyond what the plan file says is not judged.",
        "Whether makers' data and measured lengths are true is not judged.",
        "How fixed wiring really runs is not judged: its length is an estimate.",
        "Whether a box's drift is the largest there is, and how many cords cross, is not judged.",
    ]
    if case.plan.decision.verdict == NOT_POSSIBLE:
        words.append("That the job is impossible as drawn is the planner's word, not judged.")
    for branch in case.branches.values():
        if branch.seats and branch.already is None:
            words.append(f"What else {branch.subject} carries is not known, so not judged.")
    for box in case.plan.boxes:
        cutting = read_cutting(case, box) if box.kind == FLOOR_BOX else None
        if cutting is not None and not joists_known(cutting.framing):
            words.append(f"Whether {box.id} clears the framing is not known, so not judged.")
    return tuple(words)
