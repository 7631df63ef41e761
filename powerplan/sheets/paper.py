"""Sizes of paper, and how much of a sheet a drawing may take.

A sheet has a margin, a heading at the top, and at the bottom the caution and the title block. What
is left is for the parts of a page. Every size stands upright; a sheet is turned where that lets a
drawing be larger.
"""

from __future__ import annotations

from typing import NamedTuple

BLOCK_MM = 28.0
"""Height of the caution and the title block together."""
FREE_MM = 2.5
"""Height kept free over the caution, so that no table touches it."""
HEADING_MM = 9.0
"""Height of the line at the top of a sheet."""
BELOW_FIGURE_MM = 13.0
"""Height under a drawing: its name, its scale and a bar to check the printing by."""
LEAD_MM = 16.0
"""Height kept free over a drawing for a few lines that lead in to it."""


class Paper(NamedTuple):
    """A size of paper, upright. [mm]"""

    name: str
    width_mm: float
    height_mm: float
    margin_mm: float

    @property
    def turned(self) -> Paper:
        """The same paper lying on its side."""
        return self._replace(width_mm=self.height_mm, height_mm=self.width_mm)

    @property
    def inner_mm(self) -> tuple[float, float]:
        """Width and height inside the margins. [mm]"""
        return (self.width_mm - 2 * self.margin_mm, self.height_mm - 2 * self.margin_mm)

    @property
    def body_mm(self) -> tuple[float, float]:
        """Width and height between the heading and the caution. [mm]"""
        width_mm, height_mm = self.inner_mm
        return (width_mm, height_mm - HEADING_MM - FREE_MM - BLOCK_MM)

    @property
    def most_mm(self) -> tuple[float, float]:
        """Width and height that one drawing may take where nothing else stands. [mm]"""
        width_mm, height_mm = self.body_mm
        return (width_mm, height_mm - BELOW_FIGURE_MM)

    @property
    def figure_room_mm(self) -> tuple[float, float]:
        """Width and height for which a drawing is made: a few lines fit over it. [mm]"""
        width_mm, height_mm = self.most_mm
        return (width_mm, height_mm - LEAD_MM)


LETTER = Paper("Letter", 215.9, 279.4, 12.7)
A4 = Paper("A4", 210.0, 297.0, 12.5)
TABLOID = Paper("Tabloid", 279.4, 431.8, 12.7)
A3 = Paper("A3", 297.0, 420.0, 12.5)
ARCH_C = Paper("Arch C", 457.2, 609.6, 12.7)
A2 = Paper("A2", 420.0, 594.0, 12.5)
ARCH_D = Paper("Arch D", 609.6, 914.4, 12.7)
A1 = Paper("A1", 594.0, 841.0, 12.5)

PAPERS = {
    "letter": LETTER,
    "a4": A4,
    "tabloid": TABLOID,
    "a3": A3,
    "arch-c": ARCH_C,
    "a2": A2,
    "arch-d": ARCH_D,
    "a1": A1,
}
"""Every size, by the name that people type."""


def figure_room_mm(paper: Paper, width_m: float, depth_m: float) -> tuple[float, float]:
    """Return the room for a drawing, upright or turned, whichever lets it be larger. [mm]

    Parameters
    ----------
    paper : Paper
        The paper.
    width_m : float
        Width of what is drawn. [m]
    depth_m : float
        Its depth. [m]
    """

    def enlargement(room_mm: tuple[float, float]) -> float:
        return min(room_mm[0] / width_m, room_mm[1] / depth_m)

    return max(paper.figure_room_mm, paper.turned.figure_room_mm, key=enlargement)
