"""The command that writes a starter plan file."""

from __future__ import annotations

import math
import os
from fractions import Fraction
from importlib.resources import files
from pathlib import Path
from string import Template

import click

from powerplan.cli import codes, rule_sets
from powerplan.cli.deliver import OutputError
from powerplan.cli.tell import tell
from powerplan.model.lengths import FOOT_M, INCH_M, length_text

_HELP = """\b
Example:
  powerplan new den.toml --chairs 5 --width "20 ft" --depth "15 ft 6 in"

Write a starter plan file that plans as it stands, every line explained.

Then change it to your own room, and: powerplan den.toml
"""

_MOST = 12
_SCHEMAS = {
    "plan": ("plan file", "plan-file.schema.json"),
    "record": ("record", "record.schema.json"),
}
_PITCH_M, _ARM_M = 28 * INCH_M, 6 * INCH_M
_SIDES_M = 4 * FOOT_M
_LEAST_WIDE_M = 12 * FOOT_M
_USUAL_DEPTH_M = 15 * FOOT_M
_LEAST_M, _MOST_M = 8 * FOOT_M, 60 * FOOT_M
_DOOR_BEFORE_M = 40 * INCH_M


@click.command(name="new", help=_HELP)
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--chairs", type=click.IntRange(1, _MOST), default=5, help="In the row; 5.")
@click.option("--width", metavar="LENGTH", help="Of the room; what the row needs.")
@click.option("--depth", metavar="LENGTH", help="Back wall to screen wall; 15 ft.")
@click.option(
    "--rules",
    metavar="SET",
    default=rule_sets.DEFAULT,
    help=rule_sets.HELP,
)
@click.option(
    "--schema",
    type=click.Choice(list(_SCHEMAS)),
    help="Write the JSON Schema of plan files or of records to FILE instead.",
)
@click.option("--job", type=click.Choice(["retrofit", "new"]), default="retrofit", help="retrofit.")
def command(
    file: Path,
    chairs: int,
    width: str | None,
    depth: str | None,
    rules: str,
    schema: str | None,
    job: str,
) -> int:
    """Write the file, unless one is there, and say what to do next."""
    if schema is not None:
        _write_or_refuse(file, _schema(schema).read_text(encoding="utf-8"))
        tell(f"{file} is written: the JSON Schema of a {_SCHEMAS[schema][0]}.")
        return codes.WORKS
    width_m = _usual_width_m(chairs) if width is None else _length_m("--width", width)
    depth_m = _USUAL_DEPTH_M if depth is None else _length_m("--depth", depth)
    text = starter_text(file.name, chairs, width_m, depth_m, job, rules)
    _write_or_refuse(file, text)
    tell(f"{file} is written. Next: powerplan {file}")
    return codes.WORKS


def _write_or_refuse(file: Path, text: str) -> None:
    try:
        _write_new(file, text)
    except FileExistsError:
        raise OutputError(f"{file} is there already and is left as it is; name another") from None
    except OSError as fault:
        raise OutputError(f"cannot write {file}: {fault.strerror or fault}") from None


def starter_text(
    name: str,
    chairs: int,
    width_m: Fraction,
    depth_m: Fraction,
    job: str,
    rules: str = rule_sets.DEFAULT,
) -> str:
    """Return a starter plan file.

    Parameters
    ----------
    name : str
        What the file is called.
    chairs : int
        How many stand in the row.
    width_m, depth_m : Fraction
        The room. [m]
    job : str
        retrofit or new; a new build has no circuit and no outlet yet.
    rules : str
        The rule set; in a metric country lengths are too.
    """
    words = {
        "schema": _schema("plan").as_uri(),
        "file": "".join(char for char in name if char.isprintable()),
        "job": job,
        "chairs": str(chairs),
        "width": _text(width_m),
        "depth": _text(depth_m),
        "door": _text(depth_m - _DOOR_BEFORE_M),
        "middle": _text(width_m / 2),
    }
    existing = _data("existing.toml") if job == "retrofit" else "\n"
    words["existing"] = Template(existing).substitute(words)
    text = Template(_data("starter.toml")).substitute(words)
    if rules == rule_sets.DEFAULT:
        return text
    from powerplan.cli.abroad import for_country
    from powerplan.rulebook.loader import rule_set
    from powerplan.sheets.local import localizer

    return localizer(rules)(for_country(text, rule_set(rules)))


def _write_new(file: Path, text: str) -> None:
    """Write a file that was not there; take it away again if it cannot be written whole."""
    with file.open("x", encoding="utf-8", newline="\n") as stream:
        try:
            stream.write(text)
            stream.flush()
            os.fsync(stream.fileno())
        except BaseException:
            file.unlink(missing_ok=True)
            raise


def _data(name: str) -> str:
    return (files("powerplan.cli") / "data" / name).read_text(encoding="utf-8")


def _schema(kind: str) -> Path:
    """Where a schema ships: a file of the program, so that editors find it with no network."""
    return Path(str(files("powerplan.inputs") / "data" / _SCHEMAS[kind][1])).resolve()


def _text(length_m: Fraction) -> str:
    return length_text(float(length_m), "ft-in")


def _usual_width_m(chairs: int) -> Fraction:
    needed_m = max(_LEAST_WIDE_M, chairs * _PITCH_M + _ARM_M + _SIDES_M)
    return math.ceil(needed_m / FOOT_M) * FOOT_M


def _length_m(option: str, text: str) -> Fraction:
    from powerplan.inputs.units import QuantityError, read_length_m

    try:
        length_m = read_length_m(text)
    except QuantityError as fault:
        raise click.UsageError(f"{option}: {fault}") from None
    if not _LEAST_M <= length_m <= _MOST_M:
        raise click.UsageError(
            f"{option}: a starter room is {_text(_LEAST_M)} to {_text(_MOST_M)}, not {text!r}"
        )
    return length_m
