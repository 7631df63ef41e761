"""Sheets as PDF: drawings true to scale, letters that can be searched, the same bytes each time."""

from __future__ import annotations

import contextlib
import io
from functools import cache
from typing import TYPE_CHECKING, Any

from powerplan.sheets.fonts import BOLD_FONT, CAP, FONT, drawable, text_width_mm
from powerplan.sheets.layout import PaperSheet, sheets_of_paper
from powerplan.sheets.lower import Lowered, Mask, Stroke, Words, lowered
from powerplan.sheets.typeset.ink import Letters, Picture, Rule
from powerplan.sheets.writers.columns import printable

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from powerplan.model.geometry import Point
    from powerplan.sheets.paper import Paper
    from powerplan.sheets.printed import SetOfSheets
    from powerplan.sheets.scene import View

_PT = 72 / 25.4
"""Points in a millimeter."""

_PLAIN, _BOLD = "powerplan-letters", "powerplan-letters-bold"
_ANCHORS_DOWN = {"b": 0.0, "m": 0.5, "t": 1.0}
_ANCHORS_LEFT = {"l": 0.0, "c": 0.5, "r": 1.0}


def pdf_bytes(sheets: SetOfSheets, paper: Paper) -> bytes:
    """Return a set of sheets as a PDF.

    Parameters
    ----------
    sheets : SetOfSheets
        The set.
    paper : Paper
        The paper, upright; a sheet is turned where its drawing asks for it.
    """
    from reportlab.pdfgen.canvas import Canvas  # only where a PDF is made

    _register_fonts()
    with _binary():
        return _written(Canvas, sheets, paper)


@contextlib.contextmanager
def _binary() -> Iterator[None]:
    """Pages are packed as they are, not spelled out in letters again, which takes much longer."""
    from reportlab import rl_config

    before = rl_config.useA85
    rl_config.useA85 = 0
    try:
        yield
    finally:
        rl_config.useA85 = before


def _written(make: Any, sheets: SetOfSheets, paper: Paper) -> bytes:
    stream = io.BytesIO()
    canvas = make(
        stream,
        invariant=1,
        initialFontName=_PLAIN,
        pageCompression=1,
        pdfVersion=(1, 7),
        lang="en-US",
    )
    _describe(canvas, sheets)
    lower = cache(lowered)
    for sheet in sheets_of_paper(sheets, paper):
        _Pen(canvas, sheet.paper, lower).draw(sheet)
        _bookmark(canvas, sheet)
        canvas.showPage()
    canvas.save()
    return stream.getvalue()


def _register_fonts() -> None:
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    known = pdfmetrics.getRegisteredFontNames()
    for name, file in ((_PLAIN, FONT), (_BOLD, BOLD_FONT)):
        if name not in known:
            pdfmetrics.registerFont(TTFont(name, str(file)))


def _describe(canvas: Any, sheets: SetOfSheets) -> None:
    """What a reader's program shows of the file; printed at 100 % unless someone says otherwise."""
    canvas.setTitle(printable(f"Power plan: {sheets.project}"))
    canvas.setSubject(
        drawable(
            f"Revision {sheets.revision}, {sheets.date}; rules: {sheets.rules}; "
            f"plan file {sheets.plan_hash}"
        )
    )
    for tell in (canvas.setAuthor, canvas.setCreator, canvas.setProducer):
        tell(drawable(sheets.program))
    canvas.setViewerPreference("PrintScaling", "None")
    canvas.setViewerPreference("DisplayDocTitle", "true")


def _bookmark(canvas: Any, sheet: PaperSheet) -> None:
    place = f"sheet-{sheet.number}"
    canvas.bookmarkPage(place)
    name = f"Sheet {sheet.number}: {sheet.heading}"
    canvas.addOutlineEntry(drawable(name), place, 0)


class _Pen:
    """Draws one sheet of paper."""

    def __init__(
        self, canvas: Any, paper: Paper, lower: Callable[[View], tuple[Lowered, ...]]
    ) -> None:
        self.canvas = canvas
        self.paper = paper
        self.lower = lower

    def draw(self, sheet: PaperSheet) -> None:
        """Draw all there is on a sheet: pictures first, so that no mask of theirs hides words."""
        size = (self.paper.width_mm * _PT, self.paper.height_mm * _PT)
        self.canvas.setPageSize(size)
        self.canvas.setLineJoin(0)
        self.canvas.setLineCap(0)
        for piece in sheet.ink:
            if isinstance(piece, Picture):
                self.picture(piece)
        for piece in sheet.ink:
            if isinstance(piece, Rule):
                points = tuple(self.spot(point) for point in piece.points_mm)
                self.path(points, piece.weight_mm, piece.dash_mm, closed=piece.closed)
            elif isinstance(piece, Letters):
                self.canvas.setFont(_BOLD if piece.bold else _PLAIN, piece.size_pt)
                self.canvas.drawString(*self.spot(piece.at_mm), piece.words)

    def spot(self, at_mm: Point) -> Point:
        """Return a place of the sheet as the PDF counts it, from the lower left. [pt]"""
        return (at_mm[0] * _PT, (self.paper.height_mm - at_mm[1]) * _PT)

    def path(
        self,
        points: tuple[Point, ...],
        weight_mm: float,
        dash_mm: tuple[float, ...],
        *,
        closed: bool = False,
        filled: bool = False,
    ) -> None:
        """Draw a line, or an area full of ink. [pt, mm]"""
        if len(points) < 2:
            return
        canvas = self.canvas
        canvas.setLineWidth(weight_mm * _PT)
        canvas.setDash([length * _PT for length in dash_mm])
        way = canvas.beginPath()
        way.moveTo(*points[0])
        for point in points[1:]:
            way.lineTo(*point)
        if closed or filled:
            way.close()
        canvas.drawPath(way, stroke=0 if filled else 1, fill=1 if filled else 0)

    def picture(self, picture: Picture) -> None:
        """Draw a view, or the window of it that is asked for, at its true scale."""
        canvas, window = self.canvas, picture.window
        left, top = self.spot(picture.at_mm)
        canvas.saveState()
        canvas.translate(
            left - window.left_mm * _PT, top - (window.bottom_mm + window.height_mm) * _PT
        )
        edge = canvas.beginPath()
        edge.rect(
            window.left_mm * _PT,
            window.bottom_mm * _PT,
            window.width_mm * _PT,
            window.height_mm * _PT,
        )
        canvas.clipPath(edge, stroke=0, fill=0)
        for shape in self.lower(picture.view):
            if isinstance(shape, Stroke):
                self.stroke(shape)
            elif isinstance(shape, Mask):
                self.mask(shape)
            else:
                self.words(shape)
        canvas.restoreState()

    def stroke(self, shape: Stroke) -> None:
        """Draw one line of a view."""
        points = tuple((x * _PT, y * _PT) for x, y in shape.points_mm)
        self.path(points, shape.weight_mm, shape.dash_mm, closed=shape.closed, filled=shape.filled)

    def mask(self, shape: Mask) -> None:
        """Clear the paper behind words."""
        self.canvas.setFillGray(1)
        points = tuple((x * _PT, y * _PT) for x, y in shape.corners_mm)
        self.path(points, 0.0, (), filled=True)
        self.canvas.setFillGray(0)

    def words(self, shape: Words) -> None:
        """Write words of a view around their anchor."""
        canvas = self.canvas
        words = drawable(shape.words)
        left_mm = text_width_mm(words, shape.height_mm) * _ANCHORS_LEFT[shape.anchor[0]]
        down_mm = shape.height_mm * _ANCHORS_DOWN[shape.anchor[1]]
        canvas.setFont(_PLAIN, shape.height_mm / CAP * _PT)
        x, y = shape.at_mm[0] * _PT, shape.at_mm[1] * _PT
        if not shape.angle_deg:
            canvas.drawString(x - left_mm * _PT, y - down_mm * _PT, words)
            return
        canvas.saveState()
        canvas.translate(x, y)
        canvas.rotate(shape.angle_deg)
        canvas.drawString(-left_mm * _PT, -down_mm * _PT, words)
        canvas.restoreState()
