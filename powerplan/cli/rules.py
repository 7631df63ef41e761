"""The command that shows every number and rule, with source and standing."""

from __future__ import annotations

import click

from powerplan.cli import codes, rule_sets
from powerplan.cli.deliver import deliver, encoding_for, output_options

_HELP = """\b
Example:
  powerplan rules breaker

Every number and rule used, with its source and how well it is known.

WORD shows only what has it in its name, text or source.
"""


@click.command(name="rules", help=_HELP)
@click.argument("word", default="")
@click.option(
    "--set",
    "rule_set_id",
    default=rule_sets.DEFAULT,
    help=rule_sets.HELP,
)
@output_options
def command(word: str, rule_set_id: str, form: str, output: str) -> int:
    """Write the rules that have the word in them."""
    from powerplan.rulebook.loader import rule_set

    rules = rule_set(rule_set_id)
    if form == "json":
        deliver(_json(rule_set_id, word), output)
    else:
        from powerplan.sheets.pages.rules import rules_sheet
        from powerplan.sheets.writers.text import sheet_text

        deliver(sheet_text(rules_sheet(rules, word), encoding_for(output)), output)
    return codes.WORKS


def _json(rule_set_id: str, word: str) -> str:
    from powerplan.model.codec import to_plain
    from powerplan.rulebook.loader import rule_set
    from powerplan.sheets.caution import CAUTION
    from powerplan.sheets.pages.rules import rule_rows
    from powerplan.sheets.writers.json import plain_text

    rules = rule_set(rule_set_id)
    return plain_text(
        {
            "record": 1,
            "kind": "rules",
            "caution": CAUTION,
            "id": rules.id,
            "edition": rules.edition,
            "resistance_basis": rules.resistance_basis,
            "rules": [{"kind": r.kind, **to_plain(r.thing)} for r in rule_rows(rules, word)],
        }
    )
