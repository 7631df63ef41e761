"""What is advised and not kept, in one sentence for people who do not read findings."""

from __future__ import annotations

from powerplan.model.findings import Finding, Force, Outcome
from powerplan.model.lengths import few
from powerplan.model.plan import Plan
from powerplan.sheets.page_names import FINDINGS

_WORDS = {
    "voltage-drop": "more voltage is lost than is advised on {}",
    "low-voltage-drop": "more of the low voltage is lost than is advised at {}",
    "passage-in-front": "there is less room to pass in front of {} than is advised",
    "row-clears-walkway": "reclined chairs stand where people walk: {}",
    "switched-outlet": "a wall switch can turn off {}",
    "extension-temporary": "extension cords are for temporary use: {}",
}


def unmet_advice(plan: Plan) -> tuple[str, ...]:
    """Return one sentence on the advice that is not kept; nothing where all of it is."""
    by_rule: dict[str, list[Finding]] = {}
    for finding in plan.findings:
        if finding.force is Force.ADVICE and finding.outcome is Outcome.NOT_MET:
            by_rule.setdefault(finding.rule, []).append(finding)
    if not by_rule:
        return ()
    told = [_WORDS.get(rule, "{}").format(_about(found)) for rule, found in by_rule.items()]
    return (f"Advice that is not kept, which stops nothing ({FINDINGS}): {'; '.join(told)}.",)


def _about(found: list[Finding]) -> str:
    """What it is about; where no words say it, what is asked as well."""
    names = list(dict.fromkeys(finding.subject for finding in found))
    told = few(names)
    return told if found[0].rule in _WORDS else f"{told}: {found[0].requirement}"
