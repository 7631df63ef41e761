"""A table in text: as wide as its words, narrowed where it would not fit, cells wrapped."""

from __future__ import annotations

from powerplan.sheets.writers.columns import WIDTH, clip, columns, wrap

_GAP = "  "
_NARROWEST = 2
_CELL = 240


def table_lines(head: tuple[str, ...], rows: tuple[tuple[str, ...], ...]) -> list[str]:
    """Return the lines of a table, none wider than the page; numbers stay as they are written.

    Rows are set apart by a blank line where any of them takes more than one.
    """
    from tabulate import tabulate  # a quick answer has no table and need not wait for it

    rows = tuple(tuple(clip(cell, _CELL) for cell in row) for row in rows)
    widths = _widths((head, *rows))
    rule = ["-" * width for width in widths]
    # Headers given as such would be padded past the page, so the head is a row like the others.
    body = [_wrapped(row, widths) for row in rows]
    told = tabulate([_wrapped(head, widths), rule, *body], tablefmt="plain", disable_numparse=True)
    lines = [line.rstrip() for line in told.split("\n")]
    return _set_apart(lines, body) if any("\n" in cell for row in body for cell in row) else lines


def _widths(rows: tuple[tuple[str, ...], ...]) -> list[int]:
    room = WIDTH - len(_GAP) * (len(rows[0]) - 1)
    body = rows[1:] or rows
    widths = [min(room, max(map(columns, cells))) for cells in zip(*body, strict=True)]
    words = [max((columns(word) for word in cell.split()), default=1) for cell in rows[0]]
    widths = [max(width, word, _NARROWEST) for width, word in zip(widths, words, strict=True)]
    while sum(widths) > room:
        widths[widths.index(max(widths))] -= 1
    wants = [columns(cell) for cell in rows[0]]
    for place, want in enumerate(wants):
        spare = room - sum(widths)
        widths[place] += max(0, min(spare, want - widths[place]))
    return widths


def _wrapped(cells: tuple[str, ...], widths: list[int]) -> list[str]:
    return ["\n".join(wrap(cell, width)) for cell, width in zip(cells, widths, strict=True)]


def _set_apart(lines: list[str], rows: list[list[str]]) -> list[str]:
    """Put a blank line between rows, the last of which end the table."""
    tall = [max(cell.count("\n") + 1 for cell in row) for row in rows]
    head = len(lines) - sum(tall)
    laid = lines[:head]
    for number, height in enumerate(tall):
        start = head + sum(tall[:number])
        laid += ([""] if number else []) + lines[start : start + height]
    return laid
