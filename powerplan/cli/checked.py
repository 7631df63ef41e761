"""What the judge says of a plan, as text or JSON, and the exit code that follows."""

from __future__ import annotations

from typing import TYPE_CHECKING

from powerplan.cli import codes

if TYPE_CHECKING:
    from powerplan.cli.planned import Judged


def check_code(found: Judged) -> int:
    """Return the exit code of a check: 3 before 1 before 4, and 1 for a record that is refused."""
    said = found.plan.decision.exit_code
    if found.refused:
        return codes.NOT_MET
    if said in (codes.NOT_POSSIBLE, codes.NOT_MET):
        return said
    if any(finding.stops for finding in found.report.findings):
        return codes.NOT_MET
    return said


def check_text(found: Judged, form: str, encoding: str) -> str:
    """Return the judge's report as text or JSON."""
    if form == "json":
        return _json(found)
    from powerplan.sheets.views import judged_sheet
    from powerplan.sheets.writers.text import sheet_text

    sheet = judged_sheet(
        found.plan, found.report.findings, found.report.not_judged, _last_line(found)
    )
    return sheet_text(sheet, encoding)


def _json(found: Judged) -> str:
    from powerplan.model.codec import to_plain
    from powerplan.sheets.words import caution_of
    from powerplan.sheets.writers.json import plain_text

    return plain_text(
        {
            "record": 1,
            "kind": "check",
            "program": found.plan.program,
            "caution": caution_of(found.plan),
            "plan_file_sha256": found.plan.plan_file_sha256,
            "verdict": found.plan.decision.verdict,
            "agrees": not found.refused,
            "refused": list(found.refused),
            "exit_code": check_code(found),
            "findings": to_plain(found.report.findings),
            "not_judged": list(found.report.not_judged),
        }
    )


def _last_line(found: Judged) -> str:
    if found.refused:
        return "Verdict: REFUSED. This record does not hold; do not build from it."
    from powerplan.sheets.views import verdict_line

    return verdict_line(found.plan)
