"""The command that makes what each reader carries: paper, a page for the phone, a CAD file."""

from __future__ import annotations

import datetime
import re
from pathlib import Path
from typing import TYPE_CHECKING

import click

from powerplan.cli.deliver import deliver, encoding_for
from powerplan.cli.issued import (
    RECORD,
    is_unchanged,
    issue,
    newest_revision,
    next_revision,
    revision_folder,
)
from powerplan.cli.progress import Progress
from powerplan.cli.second import Second
from powerplan.cli.stops import stop_waits
from powerplan.sheets.paper import PAPERS

if TYPE_CHECKING:
    from powerplan.model.plan import Plan

_HELP = """\b
Example:
  powerplan sheets den.toml -o den-sheets

Write every sheet in every format: sheets.pdf to print, sheets.html for a phone, sheets.dxf for
CAD, tables as CSV, the record, and a copy of the plan file. Each issued set is kept in a folder
of its own, revision-A, revision-B and so on; one that is there is never written over.
"""


@click.command(name="sheets", help=_HELP)
@click.argument("plan", type=click.Path(path_type=Path))
@click.option(
    "-o",
    "--output",
    "folder",
    metavar="DIR",
    required=True,
    type=click.Path(path_type=Path),
    help="The folder in which sets are kept.",
)
@click.option(
    "--paper",
    type=click.Choice(list(PAPERS)),
    help="letter for feet and inches, a4 for meters, unless said.",
)
@click.option("--revision", metavar="LETTER", help="A, B, ... AA; the next one unless said.")
@click.option("--date", "day", metavar="YYYY-MM-DD", help="The day of issue; today unless said.")
@click.option("--again", is_flag=True, help="Issue a new revision even if nothing changed.")
def command(
    plan: Path, folder: Path, paper: str | None, revision: str | None, day: str | None, again: bool
) -> int:
    """Plan, write the set, list its files, and return the exit code."""
    letter = _letter(revision)
    date = _date(day)
    with Progress() as progress, _writer() as writer:
        progress.stage("planning")
        return _issue_set(plan, folder, paper, letter, date, again, progress, writer)


def _writer() -> Second:
    """What writes the CAD file meanwhile: its library takes as long to load as a plan takes."""
    place = "powerplan.sheets.writers.dxf"
    return Second(place, ready="library", work="dxf_bytes", loads="ezdxf")


def _issue_set(
    path: Path,
    folder: Path,
    paper: str | None,
    letter: str | None,
    date: str,
    again: bool,
    progress: Progress,
    writer: Second,
) -> int:
    from powerplan.cli.checked import check_code, check_text
    from powerplan.cli.kept import kept_files
    from powerplan.cli.planned import judged
    from powerplan.sheets.writers.json import record_text

    found = judged(path)
    if found.refused:
        deliver(check_text(found, "text", encoding_for("-")), "-")
        return check_code(found)
    record = record_text(found.plan).encode()
    newest = newest_revision(folder)
    same_letter = newest is not None and letter in (None, newest) and not again
    if newest is not None and same_letter and is_unchanged(folder, newest, record):
        _list(folder, newest, found.plan, "unchanged; --again issues it anew")
        return found.plan.decision.exit_code
    letter = letter or next_revision(newest)
    files = _files(found.plan, paper, letter, date, progress, writer)
    files[RECORD] = record
    if not found.from_record:
        files.update(kept_files(path, found.plan, tuple(files)))
    progress.stage("writing the set")
    issue(folder, letter, files)
    _list(folder, letter, found.plan, "")
    return found.plan.decision.exit_code


def _files(
    plan: Plan, paper: str | None, letter: str, date: str, progress: Progress, writer: Second
) -> dict[str, bytes]:
    """Every file of a set that is made from the plan, in the order in which they are listed."""
    progress.stage("drawing")
    with stop_waits():
        from powerplan.sheets.documents import set_of_sheets, views_of

    metric = plan.spec.project.units in ("mm", "m")
    size = PAPERS[paper or ("a4" if metric else "letter")]
    sheets = set_of_sheets(plan, paper=size, revision=letter, date=date)
    views = views_of(sheets)
    writer.hand(plan, views, sheets, paper=size)
    files: dict[str, bytes] = {}
    progress.stage("writing sheets.pdf")
    from powerplan.sheets.writers.pdf import pdf_bytes

    files["sheets.pdf"] = pdf_bytes(sheets, size)
    progress.stage("writing sheets.html")
    from powerplan.sheets.writers.html import html_text

    files["sheets.html"] = html_text(sheets).encode()
    from powerplan.sheets.writers.csv import csv_files

    files.update({name: text.encode() for name, text in csv_files(plan).items()})
    progress.stage("writing sheets.dxf")
    written = writer.result()
    if written is None:
        from powerplan.sheets.writers.dxf import dxf_bytes

        written = dxf_bytes(plan, views, sheets, paper=size)
    files["sheets.dxf"] = written
    return files


def _list(folder: Path, letter: str, plan: Plan, note: str) -> None:
    """Write the files of a set and, on the last line, the verdict."""
    from powerplan.sheets.local import local_of
    from powerplan.sheets.views import verdict_line
    from powerplan.sheets.writers.columns import printable

    encoding = encoding_for("-")
    place = revision_folder(folder, letter)
    lines = [f"Revision {letter}" + (f" ({note})" if note else "")]
    lines += [printable(str(file), encoding) for file in sorted(place.rglob("*")) if file.is_file()]
    lines.append(printable(local_of(plan)(verdict_line(plan)), encoding))
    deliver("\n".join(lines) + "\n", "-")


def _letter(revision: str | None) -> str | None:
    if revision is not None and re.fullmatch(r"[A-Z]{1,2}", revision) is None:
        raise click.UsageError(f"--revision: one or two capital letters, not {revision!r}")
    return revision


def _date(day: str | None) -> str:
    if day is None:
        return datetime.date.today().isoformat()
    try:
        if re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", day) is None:
            raise ValueError
        return datetime.date.fromisoformat(day).isoformat()
    except ValueError:
        raise click.UsageError(
            f"--date: a day as year-month-day, such as 2026-03-09, not {day!r}"
        ) from None
