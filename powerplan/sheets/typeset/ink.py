"""What a sheet of paper is made of once its pages are set: letters, rules and pictures.

Places are in millimeters from the upper left corner, x to the right and y down, as one sets a page.
A picture keeps its own frame: see ``powerplan.sheets.lower``.
"""

from __future__ import annotations

from typing import NamedTuple

from powerplan.model.geometry import Point
from powerplan.sheets.scene import View


class Letters(NamedTuple):
    """One line of text; ``at_mm`` is where it stands on its base line. [mm, pt]"""

    at_mm: Point
    words: str
    size_pt: float
    bold: bool = False


class Rule(NamedTuple):
    """A line from point to point; ``closed`` joins the last to the first. [mm]"""

    points_mm: tuple[Point, ...]
    weight_mm: float
    closed: bool = False
    dash_mm: tuple[float, ...] = ()


class Window(NamedTuple):
    """The part of a view that is shown, from the view's lower left corner, y up. [mm]"""

    left_mm: float
    bottom_mm: float
    right_mm: float
    top_mm: float

    @property
    def width_mm(self) -> float:
        """Left to right. [mm]"""
        return self.right_mm - self.left_mm

    @property
    def height_mm(self) -> float:
        """Bottom to top. [mm]"""
        return self.top_mm - self.bottom_mm


class Picture(NamedTuple):
    """A view at its true scale; ``at_mm`` is the upper left corner of its window. [mm]"""

    at_mm: Point
    view: View
    window: Window


Ink = Letters | Rule | Picture


def moved(ink: Ink, right_mm: float, down_mm: float) -> Ink:
    """Return the same ink elsewhere on the sheet.

    Parameters
    ----------
    ink : Ink
        What is moved.
    right_mm, down_mm : float
        How far. [mm]
    """
    if isinstance(ink, Rule):
        points = tuple([(x + right_mm, y + down_mm) for x, y in ink.points_mm])
        return Rule(points, ink.weight_mm, ink.closed, ink.dash_mm)
    x, y = ink.at_mm
    at_mm = (x + right_mm, y + down_mm)
    if isinstance(ink, Letters):
        return Letters(at_mm, ink.words, ink.size_pt, ink.bold)
    return Picture(at_mm, ink.view, ink.window)


def box(left_mm: float, top_mm: float, width_mm: float, height_mm: float, weight_mm: float) -> Rule:
    """Return the outline of a rectangle.

    Parameters
    ----------
    left_mm, top_mm : float
        Its upper left corner. [mm]
    width_mm, height_mm : float
        Its size. [mm]
    weight_mm : float
        How heavy the line is. [mm]
    """
    right, low = left_mm + width_mm, top_mm + height_mm
    corners = ((left_mm, top_mm), (right, top_mm), (right, low), (left_mm, low))
    return Rule(corners, weight_mm, closed=True)
