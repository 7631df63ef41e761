"""The command group: names and help in a table, each command imported only when it is called."""

from __future__ import annotations

import importlib
import os
import sys
from collections.abc import Sequence

import click

from powerplan import __version__
from powerplan.cli import codes
from powerplan.cli.tell import tell
from powerplan.model.errors import JudgeDisagreesError, PlanFileError, PowerplanError

COMMANDS = {
    "quick": "The phone question, no file: will this circuit carry the chairs?",
    "new": "Write a starter plan file that plans as it stands.",
    "decide": "Does the job need a new circuit?",
    "mark": "Where do the floor boxes go?",
    "cords": "How do the cords run, and what is to be bought?",
    "sheets": "Every sheet to carry: to print, for a phone, for CAD, as tables.",
    "check": "Judge a plan file or a record, rule by rule.",
    "rules": "Every number and rule used, with its source.",
}
_BARE = "plan"
_PLAN_ENDINGS = (".toml", ".json")

_HELP = """\b
Example:
  powerplan new den.toml
  powerplan den.toml

Plan the power of motor-reclining seats: circuits, floor boxes, cords. The first line writes a
plan file to change to your own room; the second answers all three questions and draws it. Left
and right are as you sit watching the screen. Answers go to standard output, all else to standard
error.
"""

_EPILOG = """\b
Exit codes: 0 it works; 1 a must-rule is not met; 2 the command or a file
is not right; 3 not possible as drawn; 4 it works only if something still
to be found out holds; 70 our fault; 130 stopped.
"""


class LazyGroup(click.Group):
    """A group that knows its commands by name and help line, and loads one when it is called."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the names in the order of a job."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Return one command, importing its module now."""
        if cmd_name not in COMMANDS and cmd_name != _BARE:
            return None
        command = importlib.import_module(f"powerplan.cli.{cmd_name}").command
        assert isinstance(command, click.Command)
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the table of commands without importing any."""
        with formatter.section("Commands"):
            bare = ("PLAN", "All three answers and a picture of the room.")
            formatter.write_dl([bare, *COMMANDS.items()])

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Take ``powerplan PLAN`` as the command that gives everything."""
        if args and _is_plan(args[0]):
            args = [_BARE, *args]
        elif args and args[0] not in COMMANDS and not args[0].startswith("-"):
            raise click.UsageError(_unknown(args[0]), ctx)
        return super().parse_args(ctx, args)


def _is_plan(word: str) -> bool:
    if word in COMMANDS:
        return False
    if word.startswith("-"):
        return word.startswith(("--format", "--output", "-o"))
    try:
        return word.lower().endswith(_PLAN_ENDINGS) or os.path.isfile(word)
    except (OSError, ValueError):
        return False


def _unknown(word: str) -> str:
    import difflib

    near = difflib.get_close_matches(word, COMMANDS, n=1)
    hint = f"; did you mean {near[0]!r}?" if near else "; powerplan --help lists the commands"
    return f"no command and no plan file is called {word!r}{hint}"


@click.group(
    cls=LazyGroup,
    help=_HELP,
    epilog=_EPILOG,
    no_args_is_help=False,
    invoke_without_command=True,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 80},
)
@click.version_option(__version__, prog_name="powerplan")
@click.pass_context
def group(ctx: click.Context) -> None:
    """Say how to start when nothing was asked."""
    if ctx.invoked_subcommand is None:
        tell(ctx.get_help())
        ctx.exit(codes.USAGE)


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code; the console script.

    Parameters
    ----------
    argv : sequence of str, optional
        Words after the program's name; those of the process when left out.

    Returns
    -------
    int
        See ``powerplan.cli.codes``.
    """
    words = list(sys.argv[1:] if argv is None else argv)
    color = False if os.environ.get("NO_COLOR") else None
    try:
        code = group.main(words, prog_name="powerplan", standalone_mode=False, color=color)
    except click.UsageError as fault:
        return _misused(fault)
    except click.ClickException as fault:
        tell(f"powerplan: {fault.format_message()}")
        return codes.USAGE
    except (click.Abort, KeyboardInterrupt):
        tell("powerplan: stopped")
        return codes.STOPPED
    except JudgeDisagreesError as fault:
        tell(f"powerplan: {fault}")
        return codes.OUR_FAULT
    except PlanFileError as fault:
        tell(*fault.faults)
        return codes.USAGE
    except PowerplanError as fault:
        tell(f"powerplan: {fault}")
        return codes.USAGE
    except SystemExit as left:
        return _left(left.code)
    except Exception as fault:
        tell(_our_fault(fault))
        return codes.OUR_FAULT
    return code if isinstance(code, int) else codes.WORKS


def _left(code: object) -> int:
    """The library leaves by itself in two cases: shell completion, and help nobody reads on."""
    completing = "_POWERPLAN_COMPLETE" in os.environ
    return code if completing and isinstance(code, int) else codes.WORKS


def _misused(fault: click.UsageError) -> int:
    tell(f"powerplan: {fault.format_message()}")
    if fault.ctx is not None:
        tell(f"Try: {fault.ctx.command_path} --help")
    return codes.USAGE


def _our_fault(fault: Exception) -> str:
    """One line that whoever mends it can use."""
    import traceback

    frames = traceback.extract_tb(fault.__traceback__)
    place = f"{os.path.basename(frames[-1].filename)}:{frames[-1].lineno}" if frames else "unknown"
    what = " ".join(f"{type(fault).__name__}: {fault}".split())
    return (
        f"powerplan: our fault, not yours: {what} at {place}, version {__version__}. "
        "Please report this line with the file you gave it."
    )
