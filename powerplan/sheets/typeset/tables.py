"""Tables on paper: widths of columns, rows that wrap, and a head that is repeated."""

from __future__ import annotations

from math import ceil

from powerplan.sheets.fonts import drawable, points_mm
from powerplan.sheets.parts import Table
from powerplan.sheets.typeset.blocks import STRONG, Block, base_mm, joined
from powerplan.sheets.typeset.ink import Ink, Rule
from powerplan.sheets.typeset.lines import LEAST_PT, Face, Line, lines_of, set_line, widest_em

_PAD_MM = 1.3
_ABOVE_MM, _ROW_AIR_MM = 4.6, 0.7
_THIN_MM, _HEAVY_MM = 0.13, 0.4
_WRITE_IN_MM, _WRITE_IN_ROW_MM = 21.0, 7.0
_LINES_A_PIECE = 24
_SHORT_MM = (17.0, 23.0, 29.0, 36.0, 44.0)
_COUNTED = (0.85, 0.7)
_RAGGED = 1.12
_WHOLE_MM = 70.0
_HALVINGS = 30
_SIZES_PT = (8.5, 8.0, 7.5, LEAST_PT)

Cells = tuple[tuple[Line, ...], ...]


def table_blocks(table: Table, width_mm: float, air: float = 1.0) -> list[Block]:
    """Return a table as blocks: its caption and head, then a block a row.

    Columns that are empty are made wide enough to write in. A row that is taller than a piece of
    24 lines is cut into several.

    Parameters
    ----------
    table : Table
        The table; short rows are filled up with empty cells.
    width_mm : float
        The width there is. [mm]
    air : float
        The share of the usual space above and below the words of a row.
    """
    count = max([len(table.head), *map(len, table.rows)])
    head, *rows = (tuple(_filled(row, count)) for row in (table.head, *table.rows))
    columns_mm, face = _column_widths(head, rows, width_mm)
    strong = face._replace(bold=True)
    top = _row(_cells(head, columns_mm, strong), columns_mm, strong, heavy=True)
    write_in = any(_empty(rows, n) for n in range(count))
    if not rows:
        return [joined((*_caption(table.caption, width_mm), top))._replace(space_mm=_ABOVE_MM)]
    again = joined((*_caption(table.caption, width_mm, " (continued)"), top))
    first = joined((*_caption(table.caption, width_mm), top))
    blocks = [first._replace(space_mm=_ABOVE_MM, keep=True)]
    for row in rows:
        cells = _cells(row, columns_mm, face)
        tall = max((len(cell) for cell in cells), default=1)
        for start in range(0, tall, _LINES_A_PIECE):
            piece = tuple(cell[start : start + _LINES_A_PIECE] for cell in cells)
            least_mm = _WRITE_IN_ROW_MM if write_in else 0.0
            block = _row(piece, columns_mm, face, least_mm=least_mm, air=air)
            blocks.append(block._replace(again=again))
    return _kept(blocks)


def _kept(blocks: list[Block]) -> list[Block]:
    """A small table stays whole; of a larger one no sheet has the first or the last row alone."""
    small = sum(block.height_mm for block in blocks) <= _WHOLE_MM
    last = len(blocks) - 1
    return [
        block._replace(keep=block.keep or n in (1, last - 1) or (small and n < last))
        for n, block in enumerate(blocks)
    ]


def _filled(row: tuple[str, ...], count: int) -> list[str]:
    return [drawable(cell) for cell in row] + [""] * (count - len(row))


def _empty(rows: list[tuple[str, ...]], column: int) -> bool:
    return bool(rows) and all(not row[column].strip() for row in rows)


def _caption(words: str, width_mm: float, more: str = "") -> tuple[Block, ...]:
    if not words:
        return ()
    lines = lines_of(words + more, width_mm, STRONG)
    return tuple(
        Block(
            STRONG.line_mm + (0.8 if n == len(lines) - 1 else 0.0),
            set_line(line, 0.0, base_mm(STRONG), STRONG),
        )
        for n, line in enumerate(lines)
    )


def _cells(row: tuple[str, ...], columns_mm: list[float], face: Face) -> Cells:
    return tuple(
        tuple(lines_of(cell, width - 2 * _PAD_MM, face))
        for cell, width in zip(row, columns_mm, strict=True)
    )


def _row(
    cells: Cells,
    columns_mm: list[float],
    face: Face,
    *,
    heavy: bool = False,
    least_mm: float = 0.0,
    air: float = 1.0,
) -> Block:
    """One row with the lines around it: those above and below are shared with its neighbors."""
    tall = max((len(cell) for cell in cells), default=1)
    height_mm = max(least_mm, tall * face.line_mm + 2 * _ROW_AIR_MM * air)
    ink: list[Ink] = []
    left = 0.0
    for cell, width in zip(cells, columns_mm, strict=True):
        down = _ROW_AIR_MM * air + base_mm(face)
        for line in cell:
            ink += set_line(line, left + _PAD_MM, down, face)
            down += face.line_mm
        ink.append(Rule(((left, 0.0), (left, height_mm)), _THIN_MM))
        left += width
    ink.append(Rule(((left, 0.0), (left, height_mm)), _THIN_MM))
    below = _HEAVY_MM if heavy else _THIN_MM
    ink.append(Rule(((0.0, height_mm), (left, height_mm)), below))
    if heavy:
        ink.append(Rule(((0.0, 0.0), (left, 0.0)), _THIN_MM))
    return Block(height_mm, tuple(ink))


def _column_widths(
    head: tuple[str, ...], rows: list[tuple[str, ...]], width_mm: float
) -> tuple[list[float], Face]:
    """Width of each column, padding included, and the largest letters that need no cut words."""
    for size_pt in _SIZES_PT:
        face = Face(size_pt)
        least, whole = _needs(head, rows, face)
        if sum(whole) <= width_mm:
            return whole, face
        if sum(least) <= width_mm:
            return _lowest((head, *rows), least, whole, width_mm, face), face
    return _squeezed(least, width_mm), face


def _needs(
    head: tuple[str, ...], rows: list[tuple[str, ...]], face: Face
) -> tuple[list[float], list[float]]:
    """The least width of each column (its widest word) and the one where nothing wraps. [mm]"""
    strong = face._replace(bold=True)
    least, whole = [], []
    for number, title in enumerate(head):
        words = [strong.width_mm(word) for word in title.split()]
        texts = [row[number] for row in rows]
        words += [widest_em(text, bold=face.bold) * points_mm(face.size_pt) for text in texts]
        floor = _WRITE_IN_MM if _empty(rows, number) else 6.0
        narrow = max([floor - 2 * _PAD_MM, *words])
        least.append(narrow + 2 * _PAD_MM + 0.1)
        wide = max([strong.width_mm(title), *map(face.width_mm, texts)])
        whole.append(max(least[-1], wide + 2 * _PAD_MM + 0.1))
    return least, whole


def _lowest(
    lines: tuple[tuple[str, ...], ...],
    least: list[float],
    whole: list[float],
    width_mm: float,
    face: Face,
) -> list[float]:
    """Widths that make the table about as low as it can be: tried is how many cells of a column
    count, since a single long one should not cost all others, and up to which width a column does
    not wrap."""
    wide = [[face.width_mm(cell) + 2 * _PAD_MM for cell in line] for line in lines]
    tried = [_shared(least, whole, width_mm, short_mm) for short_mm in _SHORT_MM]
    for share in _COUNTED:
        most = (sorted(column)[ceil(share * len(wide)) - 1] for column in zip(*wide, strict=True))
        wants = [max(pair) for pair in zip(least, most, strict=True)]
        if sum(wants) > width_mm:
            tried += [_shared(least, wants, width_mm, short_mm) for short_mm in _SHORT_MM]
    return min(tried, key=lambda widths_mm: _lines(wide, widths_mm))


def _lines(wide: list[list[float]], widths_mm: list[float]) -> int:
    """About how many lines rows take with columns of these widths; wrapped lines are not full."""
    return sum(
        max(
            1 if cell <= width else max(2, ceil(_RAGGED * cell / width))
            for cell, width in zip(cells, widths_mm, strict=True)
        )
        for cells in wide
    )


def _shared(
    least: list[float], whole: list[float], width_mm: float, short_mm: float
) -> list[float]:
    """Widths that take up what there is, so that all columns wrap into about as many lines.

    Short columns do not wrap, where that is possible.
    """
    short = [full if full <= short_mm else floor for floor, full in zip(least, whole, strict=True)]
    if sum(short) <= width_mm:
        least = short
    fewest, most = 1.0, max(whole) / min(least)
    for _ in range(_HALVINGS):
        lines = (fewest + most) / 2
        if sum(_wrapped(least, whole, lines)) > width_mm:
            fewest = lines
        else:
            most = lines
    return _wrapped(least, whole, most)


def _wrapped(least: list[float], whole: list[float], lines: float) -> list[float]:
    """Widths of columns that wrap into a number of lines, as far as their words let them."""
    return [max(floor, full / lines) for floor, full in zip(least, whole, strict=True)]


def _squeezed(least: list[float], width_mm: float) -> list[float]:
    """Columns that ask for more than a fair share get the same; words are cut in them."""
    fair = width_mm / len(least)
    modest = {n for n, narrow in enumerate(least) if narrow <= fair}
    share = (width_mm - sum(least[n] for n in modest)) / (len(least) - len(modest))
    return [narrow if n in modest else share for n, narrow in enumerate(least)]
