"""A table of a web page, told to the eye, to a screen reader, and on a narrow screen.

A table of four columns or more becomes one block a row on a narrow screen, each value behind its
head. What that takes away from a screen reader is given back by naming the role of every cell.
"""

from __future__ import annotations

from html import escape

from powerplan.sheets.parts import Table
from powerplan.sheets.writers.columns import printable

_CARD, _MANY = 4, 5
_WIDE = 7
_BRIEF = 10
_SHORT = 14


def table_html(table: Table) -> str:
    """Return a table with a caption, and heads that say what they are the head of.

    Parameters
    ----------
    table : Table
        The table.
    """
    sorts = ["card"] if len(table.head) >= _CARD else []
    sorts += ["many"] if len(table.head) >= _MANY else []
    sorts += ["brief"] if len(table.rows) <= _BRIEF else []
    sort = f' class="{" ".join(sorts)}"' if sorts else ""
    heads = "".join(_cell("th", cell, 'scope="col" role="columnheader"') for cell in table.head)
    rows = "".join(_row(table, row) for row in table.rows)
    told = (
        f'<table{sort} role="table">\n'
        f'<caption>{_told(table.caption)}</caption>\n<thead role="rowgroup">\n'
        f'<tr role="row">{heads}</tr>\n</thead>\n'
        f'<tbody role="rowgroup">\n{rows}</tbody>\n</table>\n'
    )
    if len(table.head) < _WIDE:
        return told
    label = _told(f"Table: {table.caption}")
    return f'<div class="scroll" role="region" aria-label="{label}" tabindex="0">\n{told}</div>\n'


def _row(table: Table, row: tuple[str, ...]) -> str:
    first, *rest = zip(table.head, row, strict=True)
    cells = [_first(*first), *(_other(head, cell) for head, cell in rest)]
    return f'<tr role="row">{"".join(cells)}</tr>\n'


def _first(head: str, cell: str) -> str:
    if not cell.strip():
        return _other(head, cell)
    return _cell("th", cell, f'scope="row" role="rowheader" data-head="{_told(head)}"')


def _other(head: str, cell: str) -> str:
    return _cell("td", cell, f'role="cell" data-head="{_told(head)}"')


def _cell(tag: str, text: str, about: str) -> str:
    """One cell; a short text keeps to one line, an empty one is room to write in."""
    sort = "blank" if not text.strip() else ("short" if len(text) <= _SHORT else "")
    kind = f' class="{sort}"' if sort else ""
    return f"<{tag} {about}{kind}>{_told(text)}</{tag}>"


def _told(text: str) -> str:
    return escape(printable(text))
