"""A table in text: as wide as its words, narrowed where it would not fit, cells wrapped."""

from __future__ import annotations

from powerplan.sheets.writers.columns import WIDTH, clip, columns, padded, wrap

_GAP = "  "
_NARROWEST = 2
_CELL = 240


def table_lines(head: tuple[str, ...], rows: tuple[tuple[str, ...], ...]) -> list[str]:
    """Return the lines of a table, none wider than the page; numbers stay as they are written.

    Rows are set apart by a blank line where any of them takes more than one.
    """
    rows = tuple(tuple(clip(cell, _CELL) for cell in row) for row in rows)
    widths = _widths((head, *rows))
    laid = [_row(row, widths) for row in rows]
    lines = [*_row(head, widths), _GAP.join("-" * width for width in widths)]
    apart = any(len(row) > 1 for row in laid)
    for number, row in enumerate(laid):
        if apart and number:
            lines.append("")
        lines += row
    return lines


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


def _row(cells: tuple[str, ...], widths: list[int]) -> list[str]:
    columns_of_lines = [wrap(cell, width) for cell, width in zip(cells, widths, strict=True)]
    tall = max(len(lines) for lines in columns_of_lines)
    laid = []
    for number in range(tall):
        parts = [
            padded(lines[number] if number < len(lines) else "", width)
            for lines, width in zip(columns_of_lines, widths, strict=True)
        ]
        laid.append(_GAP.join(parts).rstrip())
    return laid
