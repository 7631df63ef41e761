"""What one page of a PDF shows, in the operators of the format (ISO 32000-1:2008, Annex A).

They are written here and not by the library that makes the file: it works out every number and
every letter anew, which takes most of the time of a set. Everything is in points, y up.
"""

from __future__ import annotations

import math
from functools import cache, lru_cache
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Sequence

    from powerplan.model.geometry import Point


class Typeface:
    """The letters of one font in one file, as strings of the format.

    Parameters
    ----------
    font : TTFont
        A registered font; it is cut to the letters that are asked for.
    document : PDFDocument
        The file.
    """

    def __init__(self, font: Any, document: Any) -> None:
        self._font, self._document = font, document
        self._codes = _Codes(self)
        self._chosen = cache(self._choosing)
        self._beyond: set[str] = set()

    def shown(self, words: str, size_pt: float) -> str:
        """Return the operators that write words where the text begins. [pt]"""
        codes = words.translate(self._codes)
        if not self._beyond or self._beyond.isdisjoint(words):
            return f"{self._chosen(0, size_pt)}({codes}) Tj"
        return " ".join(
            f"{self._chosen(part, size_pt)}({_escaped(codes)}) Tj"
            for part, codes in self._font.splitString(words, self._document)
        )

    def code(self, char: str) -> str:
        """Return how a character is written in a string of the first 256 letters in use."""
        [(part, code)] = self._font.splitString(char, self._document)
        if part:
            self._beyond.add(char)
        return _escaped(code)

    def _choosing(self, part: int, size_pt: float) -> str:
        name = self._font.getSubsetInternalName(part, self._document)
        return f"{name} {size_pt:.4f} Tf "


class _Codes(dict[int, str]):
    """Each character as it is written, asked for once."""

    def __init__(self, face: Typeface) -> None:
        super().__init__()
        self._face = face

    def __missing__(self, char: int) -> str:
        self[char] = self._face.code(chr(char))
        return self[char]


def _escaped(codes: bytes) -> str:
    """Codes inside the parentheses of a string."""
    return "".join(
        f"\\{code:03o}" if code < 32 or code > 126 or code in b"()\\" else chr(code)
        for code in codes
    )


class Content:
    """The operators of one page as it is drawn, a line each; a style is said when it changes."""

    def __init__(self) -> None:
        self._said: list[str] = []
        self._style = ""

    @property
    def text(self) -> str:
        """All there is so far."""
        return "\n".join(self._said)

    def line(
        self, points: Sequence[Point], weight_pt: float, dash_pt: tuple[float, ...], *, closed: bool
    ) -> None:
        """Draw a line from point to point. [pt]"""
        style = _style(weight_pt, dash_pt)
        if style != self._style:
            self._style = style
            self._said.append(style)
        self._said.append(f"{_way(points)} {'s' if closed else 'S'}")

    def area(self, points: Sequence[Point], gray: int = 0) -> None:
        """Fill an outline with ink, or with ``gray`` 1 clear it. [pt]"""
        filled = f"{_way(points)} f"
        self._said.append(f"{gray} g {filled} 0 g" if gray else filled)

    def write(
        self, at: Point, words: str, face: Typeface, size_pt: float, angle_deg: float = 0.0
    ) -> None:
        """Write words from a point of their base line on. [pt, degrees]"""
        where = f"{at[0]:.4f} {at[1]:.4f}"
        if angle_deg:
            turn = math.radians(angle_deg)
            cos, sin = math.cos(turn), math.sin(turn)
            where = f"{cos:.6f} {sin:.6f} {-sin:.6f} {cos:.6f} {where} Tm"
        else:
            where += " Td"
        self._said.append(f"BT {where} {face.shown(words, size_pt)} ET")

    def begin_window(self, origin: Point, corner: Point, size: Point) -> None:
        """Move the origin, and show only what lies in a rectangle from there on. [pt]"""
        (x, y), (left, low), (wide, high) = origin, corner, size
        self._said.append(f"q 1 0 0 1 {x:.4f} {y:.4f} cm")
        self._said.append(f"{left:.4f} {low:.4f} {wide:.4f} {high:.4f} re W n")

    def end_window(self) -> None:
        """Show the whole page again; its styles are those from before the window."""
        self._said.append("Q")
        self._style = ""


def _way(points: Sequence[Point]) -> str:
    start, *others = [f"{x:.4f} {y:.4f}" for x, y in points]
    return f"{start} m {' l '.join(others)} l"


@lru_cache(maxsize=1 << 8)
def _style(weight_pt: float, dash_pt: tuple[float, ...]) -> str:
    dashes = " ".join(f"{length:.4f}" for length in dash_pt)
    return f"{weight_pt:.4f} w [{dashes}] 0 d"
