"""Sheets as PDF: drawings true to scale, letters that can be searched, the same bytes each time."""

from __future__ import annotations

import contextlib
import io
import math
from functools import cache
from typing import TYPE_CHECKING, Any

from powerplan.sheets.fonts import BOLD_FONT, CAP, FONT, drawable, text_width_mm
from powerplan.sheets.layout import PaperSheet, sheets_of_paper
from powerplan.sheets.lower import Lowered, Mask, Stroke, Words, lowered
from powerplan.sheets.typeset.ink import Letters, Picture, Rule
from powerplan.sheets.writers.columns import printable
from powerplan.sheets.writers.content import Content, Typeface

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
    from reportlab.pdfbase import pdfmetrics

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
    plain, bold = (Typeface(pdfmetrics.getFont(name), canvas._doc) for name in (_PLAIN, _BOLD))
    for sheet in sheets_of_paper(sheets, paper):
        canvas.setPageSize((sheet.paper.width_mm * _PT, sheet.paper.height_mm * _PT))
        canvas.addLiteral(_Pen(sheet.paper, (plain, bold), lower).drawn(sheet))
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
        self,
        paper: Paper,
        faces: tuple[Typeface, Typeface],
        lower: Callable[[View], tuple[Lowered, ...]],
    ) -> None:
        self.paper = paper
        self.faces = faces
        self.lower = lower
        self.content = Content()

    def drawn(self, sheet: PaperSheet) -> str:
        """Return all there is on a sheet: pictures first, so that no mask hides other words."""
        for piece in sheet.ink:
            if isinstance(piece, Picture):
                self.picture(piece)
        for piece in sheet.ink:
            if isinstance(piece, Rule):
                points = [self.spot(point) for point in piece.points_mm]
                self.line(points, piece.weight_mm, piece.dash_mm, closed=piece.closed)
            elif isinstance(piece, Letters):
                face = self.faces[piece.bold]
                self.content.write(self.spot(piece.at_mm), piece.words, face, piece.size_pt)
        return self.content.text

    def spot(self, at_mm: Point) -> Point:
        """Return a place of the sheet as the PDF counts it, from the lower left. [pt]"""
        return (at_mm[0] * _PT, (self.paper.height_mm - at_mm[1]) * _PT)

    def line(
        self, points: list[Point], weight_mm: float, dash_mm: tuple[float, ...], *, closed: bool
    ) -> None:
        """Draw a line. [pt, mm]"""
        if len(points) > 1:
            dash_pt = tuple([length * _PT for length in dash_mm])
            self.content.line(points, weight_mm * _PT, dash_pt, closed=closed)

    def picture(self, picture: Picture) -> None:
        """Draw a view, or the window of it that is asked for, at its true scale."""
        window = picture.window
        left, top = self.spot(picture.at_mm)
        x, y = window.left_mm * _PT, window.bottom_mm * _PT
        size = (window.width_mm * _PT, window.height_mm * _PT)
        self.content.begin_window((left - x, top - y - size[1]), (x, y), size)
        for shape in self.lower(picture.view):
            if isinstance(shape, Stroke):
                self.stroke(shape)
            elif isinstance(shape, Mask):
                self.content.area(_points(shape.corners_mm), gray=1)
            else:
                self.words(shape)
        self.content.end_window()

    def stroke(self, shape: Stroke) -> None:
        """Draw one line or area of a view."""
        points = _points(shape.points_mm)
        if shape.filled:
            self.content.area(points)
        else:
            self.line(points, shape.weight_mm, shape.dash_mm, closed=shape.closed)

    def words(self, shape: Words) -> None:
        """Write words of a view around their anchor."""
        words = drawable(shape.words)
        left_mm = text_width_mm(words, shape.height_mm) * _ANCHORS_LEFT[shape.anchor[0]]
        down_mm = shape.height_mm * _ANCHORS_DOWN[shape.anchor[1]]
        turn = math.radians(shape.angle_deg)
        x_mm = shape.at_mm[0] - left_mm * math.cos(turn) + down_mm * math.sin(turn)
        y_mm = shape.at_mm[1] - left_mm * math.sin(turn) - down_mm * math.cos(turn)
        size_pt = shape.height_mm / CAP * _PT
        at = (x_mm * _PT, y_mm * _PT)
        self.content.write(at, words, self.faces[0], size_pt, shape.angle_deg)


def _points(points_mm: tuple[Point, ...]) -> list[Point]:
    """Points of a view as the PDF counts them. [mm in, pt out]"""
    return [(x * _PT, y * _PT) for x, y in points_mm]
