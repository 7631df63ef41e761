"""Sheets as plain text: 80 columns, no color, the verdict on the last line."""

from __future__ import annotations

from powerplan.sheets.parts import (
    Contents,
    Drawing,
    Figure,
    Items,
    Marked,
    Page,
    Part,
    Say,
    Sheet,
    Table,
    Ticks,
)
from powerplan.sheets.sheet_numbers import contents_table
from powerplan.sheets.writers.columns import WIDTH, clip, columns, padded, printable, wrap
from powerplan.sheets.writers.table import table_lines

_MARK = len("NOT CHECKED") + 2


def sheet_text(sheet: Sheet, encoding: str = "utf-8") -> str:
    """Return a whole report as text, every line within 80 columns, ending in the verdict.

    Parameters
    ----------
    sheet : Sheet
        The report.
    encoding : str
        What the stream can encode; all else is written as ASCII.
    """
    title = wrap(printable(sheet.title, encoding), WIDTH)
    lines = [*title, "=" * min(WIDTH, max(map(columns, title)))]
    for about in sheet.about:
        lines += wrap(printable(about, encoding), WIDTH)
    for page in sheet.pages:
        lines += ["", *_page(page, encoding)]
    lines += ["", *_hung("CAUTION: ", printable(sheet.caution, encoding))]
    lines += ["", clip(printable(sheet.last, encoding), WIDTH)]
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _page(page: Page, encoding: str) -> list[str]:
    title = clip(printable(page.title, encoding).upper(), WIDTH)
    lines = [title, "-" * columns(title)]
    before: Part | None = None
    for part in page.parts:
        laid = _part(part, encoding)
        if before is not None and not (_close(before) and _close(part)):
            lines.append("")
        lines += laid
        before = part
    return lines


def _close(part: Part) -> bool:
    return isinstance(part, Marked) and bool(part.mark) and len(part.lines) < 2


def _part(part: Part, encoding: str) -> list[str]:
    def tame(text: str) -> str:
        return printable(text, encoding)

    if isinstance(part, Say):
        return wrap(tame(part.text), WIDTH)
    if isinstance(part, Items):
        lead = wrap(tame(part.lead), WIDTH) if part.lead else []
        marks = (f"{n}. " if part.numbered else "- " for n in range(1, len(part.items) + 1))
        pairs = zip(marks, part.items, strict=True)
        return lead + [line for mark, item in pairs for line in _hung(mark, tame(item))]
    if isinstance(part, Table):
        head = tuple(tame(cell) for cell in part.head)
        rows = tuple(tuple(tame(cell) for cell in row) for row in part.rows)
        return [*wrap(f"{tame(part.caption)}:", WIDTH), *table_lines(head, rows)]
    if isinstance(part, Contents):
        return _part(contents_table(part), encoding)
    if isinstance(part, Drawing):
        return [clip(tame(line), WIDTH) for line in part.lines]
    if isinstance(part, Figure):
        return wrap(tame(f"{part.view.title}: {part.view.description}"), WIDTH)
    if isinstance(part, Ticks):
        ticked = [line for item in part.items for line in _hung("[ ] ", tame(item))]
        return [*wrap(tame(part.lead), WIDTH), *ticked]
    return _marked(part, tame(part.mark), [tame(line) for line in part.lines])


def _marked(part: Marked, mark: str, lines: list[str]) -> list[str]:
    indent = _MARK if part.mark else 0
    laid: list[str] = []
    for number, line in enumerate(lines):
        if part.mark:
            laid += wrap(line, WIDTH - indent)
        else:
            laid += _step_line(number, line)
    filled = [padded(mark if n == 0 else "", indent) + line for n, line in enumerate(laid)]
    return [line.rstrip() for line in filled]


def _step_line(number: int, line: str) -> list[str]:
    if number == 0:
        first, *rest = wrap(line, WIDTH - 3)
        return [first, *(f"   {text}" for text in rest)]
    if line.startswith("- "):
        return [f"   {text}" for text in _hung("- ", line[2:], WIDTH - 3)]
    return [f"   {text}" for text in wrap(line, WIDTH - 3)]


def _hung(mark: str, text: str, width: int = WIDTH) -> list[str]:
    """Lines of a text behind a mark, the later ones set in as far as the first."""
    lines = wrap(text, width - len(mark))
    return [(mark if n == 0 else " " * len(mark)) + line for n, line in enumerate(lines)]
