"""From a file to a judged plan: the one way every command that needs a plan takes."""

from __future__ import annotations

import importlib
import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import click

from powerplan.cli.deliver import deliver, encoding_for, output_options, write_whole
from powerplan.cli.stops import stop_waits
from powerplan.model.errors import JudgeDisagreesError

if TYPE_CHECKING:
    from powerplan.judging.judge import Report
    from powerplan.model.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """A plan, what the judge says of it, and whether it came from a record as it stood."""

    plan: Plan
    report: Report
    from_record: bool
    refused: tuple[str, ...]


def judged(path: Path) -> Judged:
    """Return the judged plan of a plan file or of a record.

    Parameters
    ----------
    path : Path
        A plan file (TOML) or a record (JSON); what is in it decides which.

    Returns
    -------
    Judged
        ``refused`` names the must-rules that the judge finds not met and the plan does not own up
        to; only a record from outside can have any.

    Raises
    ------
    PlanFileError, RecordError
        If the file cannot be read or planned.
    JudgeDisagreesError
        If our own plan is refused; its record is kept and named.
    """
    if _is_record(path):
        from powerplan.inputs.record_file import read_record

        return _judge(read_record(path), from_record=True)
    with stop_waits():
        importlib.import_module("shapely")
    from powerplan.inputs.plan_file import read_plan_file
    from powerplan.inputs.record_file import read_record_text
    from powerplan.planning.pipeline import make_plan
    from powerplan.rulebook.loader import rule_set
    from powerplan.sheets.writers.json import record_text

    read = read_plan_file(path, rule_set)
    plan = make_plan(read.spec, rule_set(read.spec.project.rules), read.sha256)
    found = _judge(read_record_text(record_text(plan).encode()), from_record=False)
    if found.refused:
        kept = _keep(found.plan)
        raise JudgeDisagreesError(
            f"our fault, not yours: the plan does not pass its own judge ({_few(found.refused)}). "
            f"Do not use it. Its record is kept in {kept}; please report this line with it."
        )
    return found


def _is_record(path: Path) -> bool:
    from powerplan.inputs.record_file import looks_like_record

    try:
        return looks_like_record(path)
    except (OSError, ValueError):
        return False  # the reader of plan files says why it cannot be read


def _judge(plan: Plan, *, from_record: bool) -> Judged:
    from powerplan.judging.judge import judge
    from powerplan.rulebook.loader import rule_set

    report = judge(plan, rule_set(plan.spec.project.rules))
    refused = {f"{finding.rule}: {finding.subject}" for finding in report.disputed}
    return Judged(plan=plan, report=report, from_record=from_record, refused=tuple(sorted(refused)))


def _few(refused: tuple[str, ...]) -> str:
    more = f" and {len(refused) - 3} more" if len(refused) > 3 else ""
    return "; ".join(refused[:3]) + more


def _keep(plan: Plan) -> str:
    """Keep a record that the judge refused; return where."""
    from powerplan.sheets.writers.json import record_text

    name = f"powerplan-disagreement-{plan.plan_file_sha256[:8]}.json"
    text = record_text(plan)
    for folder in (Path(), Path(tempfile.gettempdir())):
        try:
            write_whole(folder / name, text)
        except OSError:
            continue
        return str(folder / name)
    return "no file (nothing could be written here)"


def plan_command(name: str, help_text: str) -> click.Command:
    """Return the command that shows one view of a plan.

    Parameters
    ----------
    name : str
        The view, which is also the command's name.
    help_text : str
        Its help, with an example on top.
    """

    @click.command(name=name, help=help_text)
    @click.argument("plan", type=click.Path(path_type=Path))
    @output_options
    def command(plan: Path, form: str, output: str) -> int:
        return show(plan, name, form, output)

    return command


def show(path: Path, view: str, form: str, output: str) -> int:
    """Plan a file, write one view of it, and return the exit code."""
    from powerplan.cli.checked import check_code, check_text

    found = judged(path)
    if found.refused:
        deliver(check_text(found, form, encoding_for(output)), output, source=path)
        return check_code(found)
    if form == "json":
        from powerplan.sheets.writers.json import record_text

        deliver(record_text(found.plan), output, source=path)
    else:
        from powerplan.sheets.views import plan_sheet
        from powerplan.sheets.writers.text import sheet_text

        text = sheet_text(plan_sheet(found.plan, view), encoding_for(output))
        deliver(text, output, source=path)
    return found.plan.decision.exit_code
