"""The command for the phone: no file, no drawing, one circuit and so many chairs."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import TYPE_CHECKING, Any

import click

from powerplan.cli import rule_sets
from powerplan.cli.deliver import deliver, encoding_for, output_options

if TYPE_CHECKING:
    from powerplan.model.rules import RuleSet
    from powerplan.planning.phone import QuickAnswer

_EXAMPLE = "powerplan quick --chairs 5 --input 1.8A --breaker 15A --already 3A"
_NOTHING = frozenset({"0", "none", "nothing", "empty"})
_ZERO = r"0+(?:\.0+)? ?(?:a|amp|amps|amperes)"

_HELP = f"""\b
Example:
  {_EXAMPLE}

Will this circuit carry the chairs? How many more? What else may be on it?

What you leave out is unknown, not zero: the answer then says what it hangs on.
"""


@click.command(name="quick", help=_HELP)
@click.option("--chairs", type=click.IntRange(1, 1000), metavar="N", help="How many chairs.")
@click.option("--input", "input_text", metavar="AMPS", help="INPUT on one chair's label: 1.8A.")
@click.option("--continuous", metavar="AMPS", help="The part of it that lasts 3 h or more: 0.3A.")
@click.option("--breaker", metavar="AMPS", help="Number on the breaker's handle: 15A.")
@click.option("--wire", metavar="SIZE", help='The circuit\'s wire: "14 AWG".')
@click.option(
    "--already",
    multiple=True,
    metavar="AMPS",
    help='What is on it now: 3A, "2A, now and then", or none. May be given more than once.',
)
@click.option(
    "--rules",
    "rules_id",
    metavar="SET",
    default=rule_sets.DEFAULT,
    help=rule_sets.HELP,
)
@click.option("--fastened", type=click.Choice(["yes", "no"]), help="Are the chairs bolted down?")
@output_options
@click.pass_context
def command(
    ctx: click.Context,
    chairs: int | None,
    input_text: str | None,
    continuous: str | None,
    breaker: str | None,
    wire: str | None,
    already: tuple[str, ...],
    fastened: str | None,
    rules_id: str,
    form: str,
    output: str,
) -> int:
    """Answer from what was said, and return the exit code."""
    missing = [
        name for name, said in (("--chairs", chairs), ("--input", input_text)) if said is None
    ]
    if missing or chairs is None or input_text is None:
        raise click.UsageError(f"give at least {' and '.join(missing)}; such as: {_EXAMPLE}", ctx)
    from powerplan.planning.phone import QuickQuestion
    from powerplan.planning.quick import quick_answer
    from powerplan.rulebook.loader import rule_set

    rules = rule_set(rules_id)
    question = QuickQuestion(
        chairs=chairs,
        input_a=_amps("--input", input_text),
        continuous_a=None if continuous is None else _part(continuous),
        breaker_a=None if breaker is None else _amps("--breaker", breaker),
        wire=None if wire is None else _wire(wire, rules),
        already_a=_already(already),
        fastened={None: None, "yes": True, "no": False}[fastened],
    )
    try:
        answer = quick_answer(question, rules)
    except ValueError as fault:
        raise click.UsageError(str(fault), ctx) from None
    deliver(_text(answer, rules, form, encoding_for(output)), output)
    return answer.exit_code


def _amps(option: str, text: str) -> Fraction:
    from powerplan.inputs.units import QuantityError, read_current_a

    try:
        return read_current_a(text)
    except QuantityError as fault:
        raise click.UsageError(f"{option}: {fault}") from None


def _part(text: str) -> Fraction:
    return Fraction(0) if _is_nothing(text) else _amps("--continuous", text)


def _is_nothing(text: str) -> bool:
    plain = " ".join(text.lower().split())
    return plain in _NOTHING or re.fullmatch(_ZERO, plain) is not None


def _already(texts: tuple[str, ...]) -> tuple[Fraction, Fraction] | None:
    """Read what is on the circuit as (lasting, other); a load of which neither is said lasts."""
    if not texts:
        return None
    lasting, other = Fraction(0), Fraction(0)
    for text in texts:
        current, *rest = re.split(r",(?!\s*[0-9])", text, maxsplit=1)
        how = rest[0].strip() if rest else ""
        if _is_nothing(current):
            continue
        if how.lower() not in ("", "continuous", "now and then"):
            raise click.UsageError(
                f'--already: {text!r} is not clear; write "3 A, continuous" or "3 A, now and then"'
            )
        current_a = _amps("--already", current)
        if how.lower() == "now and then":
            other += current_a
        else:
            lasting += current_a
    return lasting, other


def _wire(text: str, rules: RuleSet) -> str:
    name = rules.wire_named(f"#{text.strip()}" if text.strip().isdigit() else text)
    if name is None:
        raise click.UsageError(f"--wire: {text!r} is not one of {', '.join(rules.wires)}")
    return name


def _text(answer: QuickAnswer, rules: RuleSet, form: str, encoding: str) -> str:
    if form == "json":
        from powerplan.sheets.writers.json import plain_text

        return plain_text(_plain(answer, rules))
    from powerplan.sheets.pages.quick import quick_sheet
    from powerplan.sheets.writers.text import sheet_text

    return sheet_text(quick_sheet(answer, rules), encoding)


def _plain(answer: QuickAnswer, rules: RuleSet) -> dict[str, Any]:
    from powerplan.model.codec import to_plain
    from powerplan.sheets.caution import CAUTION

    head = {"record": 1, "kind": "quick", "caution": CAUTION, "rules": rules.id}
    told = {**answer._asdict(), "question": None}
    said = {name: to_plain(value) for name, value in answer.question._asdict().items()}
    return {**head, **{name: to_plain(value) for name, value in told.items()}, "question": said}
