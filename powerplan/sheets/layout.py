"""The pages of a set spread over sheets of paper, for every format that is printed.

Parts follow one another down a sheet. A drawing is never cut where it fits on a sheet; a table that
goes on repeats its head. A sheet is turned on its side for a drawing that fits no other way.

A drawing for which a sheet has no room left waits for the next one, and what follows it fills the
sheet as long as it fits there whole. A legend stays with the drawing before it where one sheet
holds both; the first drawing of a page comes as early as it can, and its legend as near as it can.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import zip_longest
from typing import NamedTuple

from powerplan.sheets.fonts import REPLACEMENT, lacking
from powerplan.sheets.paper import HEADING_MM, Paper
from powerplan.sheets.part_texts import texts_of
from powerplan.sheets.parts import Contents, Figure, Part, Say, Table
from powerplan.sheets.printed import SetOfSheets, SheetPage
from powerplan.sheets.scene import View
from powerplan.sheets.sheet_numbers import contents_table, numbered
from powerplan.sheets.typeset.blocks import Block, text_blocks
from powerplan.sheets.typeset.figures import figure_block, fits, part_blocks, upright_or_turned
from powerplan.sheets.typeset.frame import Place, frame_ink
from powerplan.sheets.typeset.ink import Ink, moved
from powerplan.sheets.typeset.scales import NO_SCALE, scale_text
from powerplan.sheets.typeset.tables import table_blocks

_LITTLE = 0.3
_CLOSER = 0.5
_NO_DRAWING = "no drawing"
_TRIES = 4
_NOT_PRINTABLE = (
    f"{REPLACEMENT} stands for a letter that is not printable here: see the screen page, "
    "sheets.html, for the name."
)


class PaperSheet(NamedTuple):
    """One sheet of paper, ready to be drawn; ``number`` counts all sheets of the set from 1,
    ``heading`` names its page and which of the page's sheets it is, ``paper`` is as it lies."""

    number: int
    of: int
    page: SheetPage
    heading: str
    paper: Paper
    scale: str
    ink: tuple[Ink, ...]


@dataclass(slots=True)
class _Sheet:
    """A sheet as it fills up. [mm]"""

    paper: Paper
    used_mm: float = 0.0
    ink: list[Ink] = field(default_factory=list)
    scales: list[str] = field(default_factory=list)

    @property
    def left_mm(self) -> float:
        """Height that is still free."""
        return self.paper.body_mm[1] - self.used_mm


def sheets_of_paper(sheets: SetOfSheets, paper: Paper) -> tuple[PaperSheet, ...]:
    """Return every sheet of paper of a set, in order.

    Parameters
    ----------
    sheets : SetOfSheets
        The set.
    paper : Paper
        The paper, upright.
    """
    spread = _settled([_honest(page) for page in sheets.pages], paper, sheets.units)
    total = sum(len(filled) for _, filled in spread)
    done: list[PaperSheet] = []
    for page, filled in spread:
        for number, sheet in enumerate(filled, 1):
            place = Place(len(done) + 1, total, number, len(filled))
            scale = _scale_of(sheet)
            frame = frame_ink(sheets, page, sheet.paper, place, scale)
            ink = (*frame, *sheet.ink)
            heading = page.heading(place.part, place.parts)
            done.append(PaperSheet(place.number, total, page, heading, sheet.paper, scale, ink))
    return tuple(done)


def _settled(
    pages: list[SheetPage], paper: Paper, units: str
) -> list[tuple[SheetPage, list[_Sheet]]]:
    """Pages and the sheets that they take, once they name the sheets that there are: naming them
    may itself take another sheet."""
    spread = [(page, _spread(page, paper, units)) for page in pages]
    for _ in range(_TRIES):
        drawn = [[bool(sheet.scales) for sheet in filled] for _, filled in spread]
        told = numbered(pages, drawn)
        if told == [page for page, _ in spread]:
            break
        spread = [
            before if before[0] == page else (page, _spread(page, paper, units))
            for before, page in zip(spread, told, strict=True)
        ]
    return spread


def _spread(page: SheetPage, paper: Paper, units: str) -> list[_Sheet]:
    """The sheets of one page; set closer where that saves a last sheet with little on it, or lets
    the page begin with its drawing."""
    filled = _Flow(paper, units).spread(page)
    first, last = filled[0], filled[-1]
    late = not first.scales and any(sheet.scales for sheet in filled)
    little = not last.scales and last.used_mm <= _LITTLE * last.paper.body_mm[1]
    if len(filled) == 1 or not (late or little):
        return filled
    closer = _Flow(paper, units, _CLOSER).spread(page)
    sooner = late and bool(closer[0].scales)
    return closer if sooner or len(closer) < len(filled) else filled


def _honest(page: SheetPage) -> SheetPage:
    """A page that says so where a name on it has letters that these sheets cannot print."""
    if not any(map(lacking, texts_of(page))):
        return page
    return page._replace(parts=(Say(text=_NOT_PRINTABLE), *page.parts))


def _scale_of(sheet: _Sheet) -> str:
    scales = tuple(dict.fromkeys(scale for scale in sheet.scales if scale != NO_SCALE))
    if len(scales) > 1:
        return "as noted"
    if scales:
        return scales[0]
    return NO_SCALE if sheet.scales else _NO_DRAWING


class _Flow:
    """Fills sheets from the top down; ``air`` is the share of the usual space between texts."""

    def __init__(self, paper: Paper, units: str, air: float = 1.0) -> None:
        self.paper = paper
        self.air = air
        self.units = units
        self.sheets: list[_Sheet] = []
        self.lead: list[Part] = []
        self.waiting: list[View] = []

    def spread(self, page: SheetPage) -> list[_Sheet]:
        """Return the sheets of one page; a page without parts is one empty sheet."""
        self.turn_to(self.paper)
        for part, after in zip_longest(page.parts, page.parts[1:]):
            legend = after.view if isinstance(after, Figure) else None
            if not isinstance(part, Figure):
                self.add_part(part)
            elif self.waiting or not self.takes(part.view, legend):
                self.waiting.append(part.view)
            else:
                self.add_figure(part.view)
            self.lead.append(part)
        self.put_waiting()
        return self.sheets

    def takes(self, view: View, after: View | None) -> bool:
        """Whether a drawing begins on the sheet that is being filled, or turns it with its lead;
        not where the legend that follows would then stand on another sheet for no reason, unless
        it is the first of its page."""
        lies, (first, *more) = self.set_figure(view)
        sheet = self.sheet
        if not sheet.ink or (lies != sheet.paper and self.turns_with_lead(lies, first)):
            return True
        if more or not self.fits_here(view):
            return lies == sheet.paper and _tall([first]) <= sheet.left_mm
        together = first.height_mm
        begun = any(sheet.scales for sheet in self.sheets)
        if begun and after is not None and after.scale <= 1:
            scale = scale_text(after.scale, self.units)
            together = _tall([first, figure_block(after, lies.body_mm[0], self.units, scale)])
        return together <= sheet.left_mm or together > lies.body_mm[1]

    def put_waiting(self) -> None:
        """Add the drawings that wait."""
        waiting, self.waiting = self.waiting, []
        for view, after in zip_longest(waiting, waiting[1:]):
            if not self.takes(view, after):
                self.turn_to(upright_or_turned(view, self.paper))
            self.add_figure(view)

    @property
    def sheet(self) -> _Sheet:
        """The sheet that is being filled."""
        return self.sheets[-1]

    def turn_to(self, paper: Paper) -> None:
        """Start a sheet; one on which nothing stands is used instead."""
        if self.sheets and not self.sheet.ink:
            self.sheets.pop()
        self.sheets.append(_Sheet(paper))

    def add_part(self, part: Part) -> None:
        """Add text or a table; under a turned drawing only what fits there whole."""
        blocks = self.blocks(part)
        if self.waiting and _tall(blocks) > self.sheet.left_mm:
            self.put_waiting()
            blocks = self.blocks(part)
        if self.sheet.paper != self.paper and _tall(blocks) > self.sheet.left_mm:
            self.turn_to(self.paper)
            blocks = self.blocks(part)
        for chunk in _chunks(blocks):
            self.add_chunk(chunk)

    def blocks(self, part: Part) -> list[Block]:
        """Return a part set to the width of the sheet that is being filled."""
        width_mm, _ = self.sheet.paper.body_mm
        if isinstance(part, Figure):
            return []
        if isinstance(part, Table | Contents):
            table = contents_table(part) if isinstance(part, Contents) else part
            set_out = table_blocks(table, width_mm, self.air)
        else:
            set_out = text_blocks(part, width_mm)
        return [block._replace(space_mm=block.space_mm * self.air) for block in set_out]

    def add_chunk(self, chunk: list[Block]) -> None:
        """Add blocks that stay together, or one by one where they are taller than a sheet."""
        if _tall(chunk) <= self.sheet.left_mm:
            for block in chunk:
                self.put(block)
            return
        again = chunk[0].again
        head_mm = again.height_mm if again else 0.0
        together = _tall(chunk) + head_mm <= self.sheet.paper.body_mm[1]
        for number, block in enumerate(chunk):
            fresh = number == 0 if together else _tall([block]) > self.sheet.left_mm
            if fresh:
                self.turn_to(self.sheet.paper)
                if block.again:
                    self.put(block.again)
            self.put(block)

    def put(self, block: Block) -> None:
        """Put a block under what stands on the sheet."""
        sheet = self.sheet
        sheet.used_mm += block.space_mm if sheet.ink else 0.0
        left = sheet.paper.margin_mm
        down = sheet.paper.margin_mm + HEADING_MM + sheet.used_mm
        sheet.ink += [moved(piece, left, down) for piece in block.ink]
        sheet.used_mm += block.height_mm

    def set_figure(self, view: View) -> tuple[Paper, list[Block]]:
        """Return how a sheet lies for a drawing, and the drawing as one block or in parts."""
        scale = scale_text(view.scale, self.units)
        lies = upright_or_turned(view, self.paper)
        if fits(view, lies.most_mm):
            return lies, [figure_block(view, lies.body_mm[0], self.units, scale)]
        return lies, part_blocks(view, lies, self.units, scale)

    def fits_here(self, view: View) -> bool:
        """Whether a whole drawing has room on the sheet that is being filled."""
        sheet = self.sheet
        scale = scale_text(view.scale, self.units)
        block = figure_block(view, sheet.paper.body_mm[0], self.units, scale)
        across = fits(view, (sheet.paper.most_mm[0], view.height_mm))
        return across and _tall([block]) <= sheet.left_mm

    def add_figure(self, view: View) -> None:
        """Add a drawing: here, on a sheet of its own, or in parts."""
        scale = scale_text(view.scale, self.units)
        if self.fits_here(view):
            self.put(figure_block(view, self.sheet.paper.body_mm[0], self.units, scale))
            self.sheet.scales.append(scale)
            return
        lies, blocks = self.set_figure(view)
        for number, block in enumerate(blocks):
            goes_on = lies == self.sheet.paper and _tall([block]) <= self.sheet.left_mm
            if number == 0 and goes_on:
                self.put(block)
            elif number > 0 or not self.turned_with_lead(lies, block):
                self.turn_to(lies)
                self.put(block)
            self.sheet.scales.append(scale)

    def turns_with_lead(self, lies: Paper, figure: Block) -> bool:
        """Whether a drawing fits under all that leads in to it on one turned sheet."""
        if len(self.sheets) > 1 or lies == self.sheet.paper or self.sheet.scales or self.waiting:
            return False
        turned = _Flow(lies, self.units, self.air)
        turned.turn_to(lies)
        blocks = [block for part in self.lead for block in turned.blocks(part)]
        return _tall([*blocks, figure]) <= lies.body_mm[1]

    def turned_with_lead(self, lies: Paper, figure: Block) -> bool:
        """Put a drawing under what leads in to it on one turned sheet, where that fits."""
        if not self.turns_with_lead(lies, figure):
            return False
        self.sheets = [_Sheet(lies)]
        for block in (*(block for part in self.lead for block in self.blocks(part)), figure):
            self.put(block)
        return True


def _tall(blocks: list[Block]) -> float:
    """Height of blocks under one another, the space above the first included. [mm]"""
    return sum(block.space_mm + block.height_mm for block in blocks)


def _chunks(blocks: list[Block]) -> Iterator[list[Block]]:
    """Blocks in groups of which only the last may end a sheet."""
    chunk: list[Block] = []
    for block in blocks:
        chunk.append(block)
        if not block.keep:
            yield chunk
            chunk = []
    if chunk:
        yield chunk
