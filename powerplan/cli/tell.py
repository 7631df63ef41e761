"""What is not data goes to standard error, a line at a time, tame."""

from __future__ import annotations

import sys

_LONGEST = 2000


def tell(*lines: str) -> None:
    """Write lines to standard error; a stream that is gone or full is not worth failing for."""
    if sys.stderr is None:  # closed before we started
        return
    try:
        for line in lines:
            for part in line.split("\n"):
                print(_tame(part), file=sys.stderr)
        sys.stderr.flush()
    except (OSError, ValueError):
        return


def _tame(line: str) -> str:
    shown = line if len(line) <= _LONGEST else line[:_LONGEST] + "..."
    return "".join(
        char if char.isprintable() else char.encode("unicode_escape").decode("ascii")
        for char in shown
    )
