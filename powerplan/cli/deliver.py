"""Put an answer where it was asked for, whole or not at all."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import click

from powerplan.model.errors import PowerplanError

if TYPE_CHECKING:  # a quick answer goes to no file, and pathlib costs it 10 ms
    from pathlib import Path

FORMATS = ("text", "json")
_STDOUT = "-"


class OutputError(PowerplanError, OSError):
    """An answer that could not be put where it was asked for."""


def output_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """Give a command ``--format`` and ``-o``."""
    command = click.option(
        "-o",
        "--output",
        metavar="FILE",
        default=_STDOUT,
        help="Where to write; - is standard output.",
    )(command)
    return click.option(
        "--format",
        "form",
        type=click.Choice(FORMATS),
        default="text",
        help="text (the default) or json.",
    )(command)


def encoding_for(output: str) -> str:
    """Return what the place an answer goes to can encode; files are always UTF-8."""
    if output != _STDOUT:
        return "utf-8"
    return getattr(sys.stdout, "encoding", None) or "ascii"


def deliver(text: str, output: str, *, source: Path | None = None) -> None:
    """Write an answer to standard output or to a file.

    A file is written aside and moved into place, so that a full disk or a stop never leaves half
    of one or harms the last one.

    Parameters
    ----------
    text : str
        The whole answer.
    output : str
        A file, or ``-`` for standard output.
    source : Path, optional
        The file the answer was made from, which is never written over.

    Raises
    ------
    OutputError
        Saying why it could not be written.
    """
    if output == _STDOUT:
        _to_stdout(text)
        return
    from pathlib import Path

    target = Path(os.path.realpath(output))
    if source is not None and _same(target, source):
        raise OutputError(f"{output} is the file the answer is made from; give -o another name")
    try:
        if target.exists() and not target.is_file() and not target.is_dir():
            target.write_text(text, encoding="utf-8")
        else:
            write_whole(target, text)
    except OSError as fault:
        raise OutputError(f"cannot write {output}: {fault.strerror or fault}") from None


def write_whole(target: Path, text: str) -> None:
    """Write a file aside and move it into place.

    Parameters
    ----------
    target : Path
        The file; one that is there is replaced only once all is written.
    text : str
        What it holds.

    Raises
    ------
    OSError
        If it cannot be written; then what was there is as it was.
    """
    if target.is_dir():
        raise IsADirectoryError(0, "it is a folder")
    aside = target.with_name(f".powerplan-{os.getpid()}.part")
    handle = os.open(aside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o666)
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as stream:
            stream.write(text)
            stream.flush()
            os.fsync(stream.fileno())
        if target.exists():
            aside.chmod(target.stat().st_mode & 0o777)
        aside.replace(target)
    except BaseException:
        aside.unlink(missing_ok=True)
        raise


def _same(target: Path, source: Path) -> bool:
    try:
        return target.samefile(source)
    except OSError:
        return str(target) == os.path.realpath(source)


def _to_stdout(text: str) -> None:
    """Write to standard output; a reader who has seen enough and left is not a fault."""
    if sys.stdout is None:  # closed before we started
        raise OutputError("cannot write the answer: standard output is closed")
    try:
        sys.stdout.write(text)
        sys.stdout.flush()
    except BrokenPipeError:
        _drop_stdout()
    except OSError as fault:
        _drop_stdout()
        raise OutputError(f"cannot write the answer: {fault.strerror or fault}") from None


def _drop_stdout() -> None:
    """Let what is still buffered go nowhere, so that the interpreter ends quietly."""
    try:
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, sys.stdout.fileno())
        os.close(nowhere)
    except (OSError, ValueError):
        return
