"""The parts of a page as blocks: pieces that are not broken over two sheets."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from powerplan.sheets.fonts import ASCENT, drawable, points_mm
from powerplan.sheets.parts import Drawing, Items, Marked, Say, Ticks
from powerplan.sheets.typeset.ink import Ink, Letters, box, moved
from powerplan.sheets.typeset.lines import LEAST_PT, Face, Line, lines_of, set_line

BODY = Face(9.5)
STRONG = Face(9.5, bold=True)
MEASURE_MM = 172.0
"""Text in longer lines is hard to read."""
GAP_MM = 3.2
"""Between two parts."""

_INDENT_MM = 6.0
_MARK_MM = 27.0
_ITEM_GAP_MM = 0.9
_TICK_MM, _TICK_GAP_MM = 3.4, 1.6


class Block(NamedTuple):
    """Ink that stays together, from its own upper left corner. [mm]

    ``space_mm`` is left free above it unless it starts a sheet; ``keep`` means that it never ends
    a sheet; ``again`` is put above it where it starts a sheet.
    """

    height_mm: float
    ink: tuple[Ink, ...]
    space_mm: float = 0.0
    keep: bool = False
    again: Block | None = None


def base_mm(face: Face) -> float:
    """Return how far under the top of its line a text stands. [mm]"""
    em_mm = points_mm(face.size_pt)
    return ASCENT * em_mm + (face.line_mm - 1.164 * em_mm) / 2


def text_blocks(part: Say | Items | Ticks | Marked | Drawing, width_mm: float) -> list[Block]:
    """Return a part that is text as blocks, a line each.

    Parameters
    ----------
    part : Say, Items, Ticks, Marked or Drawing
        The part.
    width_mm : float
        The width there is. [mm]
    """
    width_mm = min(width_mm, MEASURE_MM)
    if isinstance(part, Say):
        blocks = _paragraph(lines_of(part.text, width_mm, BODY, lead=True), BODY)
    elif isinstance(part, Items):
        blocks = _items(part, width_mm)
    elif isinstance(part, Ticks):
        blocks = _ticks(part, width_mm)
    elif isinstance(part, Marked):
        blocks = _marked(part, width_mm) if part.mark else _step(part, width_mm)
    else:
        blocks = _drawn(part, width_mm)
    if not blocks:
        return []
    return [blocks[0]._replace(space_mm=GAP_MM), *blocks[1:]]


def joined(blocks: Iterable[Block], *, right_mm: float = 0.0) -> Block:
    """Return blocks as one, each under the one before.

    Parameters
    ----------
    blocks : iterable of Block
        From the top down.
    right_mm : float
        How far all are moved to the right. [mm]
    """
    down_mm = 0.0
    ink: list[Ink] = []
    for block in blocks:
        down_mm += block.space_mm if ink else 0.0
        ink += [moved(piece, right_mm, down_mm) for piece in block.ink]
        down_mm += block.height_mm
    return Block(down_mm, tuple(ink))


def _paragraph(lines: list[Line], face: Face, x_mm: float = 0.0) -> list[Block]:
    """A block a line; the first and the last line are never alone on a sheet."""
    last = len(lines) - 1
    return [
        Block(face.line_mm, set_line(line, x_mm, base_mm(face), face), 0.0, n in (0, last - 1))
        if last
        else Block(face.line_mm, set_line(line, x_mm, base_mm(face), face))
        for n, line in enumerate(lines)
    ]


def _lead(text: str, width_mm: float) -> list[Block]:
    if not text:
        return []
    lines = lines_of(text, width_mm, STRONG)
    return [block._replace(keep=True) for block in _paragraph(lines, STRONG)]


def _hung(
    first: tuple[Ink, ...], text: str, width_mm: float, indent_mm: float, *, lead: bool = True
) -> list[Block]:
    """A paragraph set in, with ink of its own in front of the first line."""
    lines = lines_of(text, width_mm - indent_mm, BODY, lead=lead)
    head, *rest = _paragraph(lines, BODY, indent_mm)
    return [head._replace(ink=(*first, *head.ink)), *rest]


def _items(part: Items, width_mm: float) -> list[Block]:
    indent_mm = _INDENT_MM + (1.6 if part.numbered and len(part.items) > 9 else 0.0)
    listed = []
    for number, item in enumerate(part.items, 1):
        mark = f"{number}." if part.numbered else "•"
        first = Letters((0.8, base_mm(BODY)), mark, BODY.size_pt)
        listed.append(_hung((first,), item, width_mm, indent_mm))
    return [*_lead(part.lead, width_mm), *_listed(listed, _ITEM_GAP_MM)]


def _ticks(part: Ticks, width_mm: float) -> list[Block]:
    square = box(0.8, base_mm(BODY) - _TICK_MM + 0.5, _TICK_MM, _TICK_MM, 0.25)
    listed = [_hung((square,), item, width_mm, _INDENT_MM + 0.6) for item in part.items]
    return [*_lead(part.lead, width_mm), *_listed(listed, _TICK_GAP_MM)]


def _listed(items: list[list[Block]], gap_mm: float) -> list[Block]:
    """Items under one another; the last is never alone on a sheet."""
    blocks: list[Block] = []
    for number, (head, *rest) in enumerate(items):
        item = [head._replace(space_mm=gap_mm), *rest]
        if number == len(items) - 2:
            item[-1] = item[-1]._replace(keep=True)
        blocks += item
    return blocks


def _marked(part: Marked, width_mm: float) -> list[Block]:
    mark = lines_of(part.mark, _MARK_MM - 1.5, STRONG)
    blocks: list[Block] = []
    for line in part.lines:
        blocks += _hung((), line, width_mm, _MARK_MM, lead=False)
    empty = Block(STRONG.line_mm, ())
    blocks += [empty] * (len(mark) - len(blocks))
    for number, words in enumerate(mark):
        ink = set_line(words, 0.0, base_mm(STRONG), STRONG)
        blocks[number] = blocks[number]._replace(
            ink=(*ink, *blocks[number].ink), keep=number + 1 < len(blocks)
        )
    if len(blocks) > 1:
        blocks[-2] = blocks[-2]._replace(keep=True)
    return blocks


def _step(part: Marked, width_mm: float) -> list[Block]:
    """Lines that belong together: the first is their heading."""
    if not part.lines:
        return []
    first, *rest = part.lines
    blocks = _lead(first, width_mm) if rest else _paragraph(lines_of(first, width_mm, BODY), BODY)
    for line in rest:
        if line.startswith("- "):
            bullet = Letters((_INDENT_MM, base_mm(BODY)), "•", BODY.size_pt)
            blocks += _hung((bullet,), line[2:], width_mm, 2 * _INDENT_MM - 2.0)
        else:
            blocks += _hung((), line, width_mm, _INDENT_MM)
    return blocks


def _drawn(part: Drawing, width_mm: float) -> list[Block]:
    """Lines that keep their shape: every character has a cell of its own."""
    texts = [drawable(line) for line in part.lines]
    longest = max(map(len, texts), default=0)
    cell_mm = min(width_mm / max(1, longest), 0.62 * points_mm(9.0))
    face = Face(max(LEAST_PT, 9.0 * cell_mm / (0.62 * points_mm(9.0))))
    cells = int(width_mm / cell_mm)
    return [
        Block(
            face.line_mm,
            tuple(
                Letters((n * cell_mm, base_mm(face)), char, face.size_pt)
                for n, char in enumerate(text[:cells])
                if char != " "
            ),
        )
        for text in texts
    ]
