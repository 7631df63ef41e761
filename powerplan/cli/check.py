"""The command that judges a plan file or a record, rule by rule."""

from __future__ import annotations

from pathlib import Path

import click

from powerplan.cli.checked import check_code, check_text
from powerplan.cli.deliver import deliver, encoding_for, output_options
from powerplan.cli.planned import judged

_HELP = """\b
Example:
  powerplan check den.toml

\b
Or, for a record that someone sends you:
  powerplan den.toml --format json -o den.json
  powerplan check den.json

Judge a plan file or a record, rule by rule. The judge is a second program: it trusts only what
the record states about the room, the chairs and where boxes and cords lie, and works the rest out
anew. A record that does not hold is refused.
"""


@click.command(name="check", help=_HELP)
@click.argument("plan_or_record", metavar="PLAN-or-RECORD", type=click.Path(path_type=Path))
@output_options
def command(plan_or_record: Path, form: str, output: str) -> int:
    """Judge it, write what was found, and return the exit code."""
    found = judged(plan_or_record)
    deliver(check_text(found, form, encoding_for(output)), output, source=plan_or_record)
    return check_code(found)
