"""What every sheet carries: its frame and heading, the caution, and the title block."""

from __future__ import annotations

from typing import NamedTuple

from powerplan.sheets.fonts import lacking
from powerplan.sheets.paper import BLOCK_MM, HEADING_MM, Paper
from powerplan.sheets.printed import SetOfSheets, SheetPage
from powerplan.sheets.typeset.blocks import base_mm
from powerplan.sheets.typeset.ink import Ink, Letters, Rule, box, moved
from powerplan.sheets.typeset.lines import LEAST_PT, Face, clipped, lines_of, set_line

_HEADING = Face(14.0, bold=True)
_READER = Face(9.5)
_CAUTION = Face(LEAST_PT + 0.25)
_LABEL = Face(LEAST_PT)
_VALUE = Face(8.5, bold=True)
_ROW_MM = 8.2
_PAD_MM = 1.3
_HASH = 12
_NOT_PRINTABLE = "name not printable here: see the screen page"


class Place(NamedTuple):
    """Which sheet of the set this is and how many there are; then the same within its page."""

    number: int
    of: int
    part: int
    parts: int


def frame_ink(
    sheets: SetOfSheets, page: SheetPage, paper: Paper, place: Place, scale: str
) -> tuple[Ink, ...]:
    """Return the heading, the caution and the title block of one sheet, in their places.

    Parameters
    ----------
    sheets : SetOfSheets
        The set.
    page : SheetPage
        The page that the sheet is part of.
    paper : Paper
        The paper as it lies.
    place : Place
        Which sheet it is.
    scale : str
        The scale of what is drawn on it, in words.
    """
    width, height = paper.inner_mm
    heading = page.heading(place.part, place.parts)
    ink = [*_heading(heading, page.reader, width)]
    down = height - BLOCK_MM
    ink += [moved(piece, 0.0, down) for piece in _foot(sheets, page, width, place, scale)]
    return tuple(moved(piece, paper.margin_mm, paper.margin_mm) for piece in ink)


def _heading(title: str, reader: str, width_mm: float) -> list[Ink]:
    right = clipped(f"for {reader}" if reader else "", width_mm * 0.4, _READER)
    wide = _READER._replace(size_pt=right.size_pt).width_mm(right.words)
    left = clipped(title, width_mm - wide - 4.0, _HEADING)
    line = Rule(((0.0, HEADING_MM - 2.2), (width_mm, HEADING_MM - 2.2)), 0.5)
    base = HEADING_MM - 4.2
    return [left._replace(at_mm=(0.0, base)), right._replace(at_mm=(width_mm - wide, base)), line]


def _foot(
    sheets: SetOfSheets, page: SheetPage, width_mm: float, place: Place, scale: str
) -> list[Ink]:
    """The caution over two rows of cells, in one frame."""
    rows_mm = 2 * _ROW_MM
    top = BLOCK_MM - rows_mm
    ink = _caution(sheets.caution, width_mm, top)
    upper = (
        ("Project", _name(sheets.project), 4.75),
        ("Page", page.block(place.part, place.parts), 4.1),
        ("Scale", scale, 1.9),
        ("Revision", sheets.revision, 1.2),
        ("Date", sheets.date, 1.45),
        ("Sheet", f"{place.number} of {place.of}", 1.6),
    )
    lower = (
        ("For", page.reader, 2.6),
        ("Rule set", sheets.rules, 6.4),
        ("Plan file", sheets.plan_hash[:_HASH], 1.9),
        ("Made by", sheets.program, 1.9),
    )
    ink += _cells(upper, width_mm, top)
    ink += _cells(lower, width_mm, top + _ROW_MM)
    ink.append(box(0.0, top, width_mm, rows_mm, 0.5))
    return ink


def _name(project: str) -> str:
    """What a project is called, or where it can be read if these letters do not hold it."""
    letters = sum(not char.isspace() for char in project)
    return _NOT_PRINTABLE if 2 * lacking(project) > letters else project


def _caution(text: str, width_mm: float, height_mm: float) -> list[Ink]:
    """The caution, set small enough for its lines to fit over the title block."""
    lines = lines_of(f"Caution: {text}", width_mm, _CAUTION, lead=True)
    room = int((height_mm - 0.8) / _CAUTION.line_mm)
    face = _CAUTION
    if len(lines) > room:
        face = Face(LEAST_PT)
        lines = lines_of(f"Caution: {text}", width_mm, face, lead=True)
    base = height_mm - 1.2 - len(lines) * face.line_mm + base_mm(face)
    return [
        letters
        for number, line in enumerate(lines)
        for letters in set_line(line, 0.0, base + number * face.line_mm, face)
    ]


def _cells(cells: tuple[tuple[str, str, float], ...], width_mm: float, top_mm: float) -> list[Ink]:
    """A row of labeled cells; each takes its share of the width."""
    whole = sum(share for _, _, share in cells)
    ink: list[Ink] = []
    left = 0.0
    for label, value, share in cells:
        width = width_mm * share / whole
        ink.append(Letters((left + _PAD_MM, top_mm + 2.9), label, _LABEL.size_pt))
        told = clipped(value, width - 2 * _PAD_MM, _VALUE)
        ink.append(told._replace(at_mm=(left + _PAD_MM, top_mm + 6.7)))
        ink.append(box(left, top_mm, width, _ROW_MM, 0.18))
        left += width
    return ink
