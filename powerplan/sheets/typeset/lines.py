"""Lines of text measured on paper: wrapping, clipping, and a bold lead."""

from __future__ import annotations

import re
from functools import lru_cache
from itertools import groupby
from operator import attrgetter
from typing import NamedTuple

from powerplan.sheets.fonts import drawable, points_mm, text_width_em
from powerplan.sheets.typeset.ink import Letters

LEADING = 1.3
"""From base line to base line, as a multiple of the letter size."""
LEAST_PT = 7.0
"""Nothing on a sheet is smaller."""

_TIES = re.compile(
    r"(?<=[0-9]) (?=(?:A|V|W|ft|in|mm|m|%|AWG)(?![A-Za-z0-9]))"
    r"|(?<=[0-9].ft) (?=[0-9])"
    r"|(?<=[0-9]) (?=[0-9]{1,2}/[0-9])"
)
_TIE = "\u00a0"
_HYPHEN = re.compile(r"(?<=[A-Za-z]{3}-)(?=[A-Za-z]{3})")
_LEAD = re.compile(r"[A-Z][^.:;!?]{1,40}:(?= )")


class Face(NamedTuple):
    """How letters look. [pt]"""

    size_pt: float
    bold: bool = False

    @property
    def line_mm(self) -> float:
        """Height of a line. [mm]"""
        return points_mm(self.size_pt) * LEADING

    def width_mm(self, words: str) -> float:
        """Width of a line of these letters. [mm]"""
        return text_width_em(words, bold=self.bold) * points_mm(self.size_pt)


class Word(NamedTuple):
    """A word and whether it is bold."""

    text: str
    bold: bool


Line = tuple[Word, ...]


def lines_of(text: str, width_mm: float, face: Face, *, lead: bool = False) -> list[Line]:
    """Return a text as lines that are no wider than a width; an empty text is one empty line.

    A number stays with its unit where the width allows; a word that is too wide is cut.

    Parameters
    ----------
    text : str
        Anything.
    width_mm : float
        The width there is. [mm]
    face : Face
        Size and boldness.
    lead : bool
        True to make a few words before a colon bold.
    """
    size_mm = points_mm(face.size_pt)
    space = text_width_em(" ", bold=face.bold) * size_mm
    lines: list[Line] = []
    line: list[Word] = []
    used = 0.0
    for word, wide_em in _words(text, face.bold, lead):
        fits = wide_em * size_mm <= width_mm
        for piece in (word,) if fits else _pieces(word, width_mm, face):
            wide = (wide_em if fits else text_width_em(piece.text, bold=piece.bold)) * size_mm
            if line and used + space + wide > width_mm:
                lines.append(tuple(line))
                line, used = [], 0.0
            used += wide + (space if line else 0.0)
            line.append(piece)
    return [*lines, tuple(line)] if line or not lines else lines


@lru_cache(maxsize=1 << 12)
def widest_em(text: str, *, bold: bool) -> float:
    """Return the width of the widest word of a text as a multiple of its letter size.

    Quantities are taken as one word, and words with hyphens apart.

    Parameters
    ----------
    text : str
        Anything.
    bold : bool
        True for bold letters.
    """
    pieces = (piece for word, _ in _words(text, bold, False) for piece in at_hyphens(word.text))
    return max((text_width_em(piece, bold=bold) for piece in pieces), default=0.0)


def at_hyphens(word: str) -> list[str]:
    """Return a word in the pieces that it may be broken into."""
    return _HYPHEN.split(word) if "-" in word else [word]


def plain(line: Line) -> str:
    """Return the words of a line."""
    return " ".join(word.text for word in line)


def set_line(line: Line, x_mm: float, y_mm: float, face: Face) -> tuple[Letters, ...]:
    """Return the letters of a line, bold words and others in runs as long as may be.

    Parameters
    ----------
    line : Line
        The words.
    x_mm, y_mm : float
        Where the line starts, and its base line. [mm]
    face : Face
        Size and boldness.
    """
    size_mm, space = points_mm(face.size_pt), face.width_mm(" ")
    letters: list[Letters] = []
    for bold, run in groupby(line, attrgetter("bold")):
        if letters:
            x_mm += text_width_em(letters[-1].words, bold=letters[-1].bold) * size_mm + space
        words = " ".join([word.text for word in run])
        letters.append(Letters((x_mm, y_mm), words, face.size_pt, bold))
    return tuple(letters)


def clipped(text: str, width_mm: float, face: Face) -> Letters:
    """Return a text in one line at the origin, smaller or cut where the width asks for it.

    Parameters
    ----------
    text : str
        Anything.
    width_mm : float
        The width there is. [mm]
    face : Face
        Size and boldness it has where it fits.
    """
    words = " ".join(drawable(text).split())
    while face.width_mm(words) > width_mm and face.size_pt > LEAST_PT:
        face = face._replace(size_pt=max(LEAST_PT, face.size_pt - 0.5))
    if face.width_mm(words) > width_mm:
        words = words[: _fitting(words, width_mm - face.width_mm("…"), face)].rstrip() + "…"
    return Letters((0.0, 0.0), words, face.size_pt, face.bold)


@lru_cache(maxsize=1 << 12)
def _words(text: str, bold: bool, lead: bool) -> tuple[tuple[Word, float], ...]:
    """Words of a text and their widths, as multiples of the letter size; a quantity is one word."""
    tied = " ".join(drawable(text).split())
    found = _LEAD.match(tied) if lead else None
    tied = _TIES.sub(_TIE, tied)
    bold_to = found.end() if found else 0
    parts = ((tied[:bold_to], True), (tied[bold_to:], bold))
    words = [
        Word(word.replace(_TIE, " "), heavy)
        for part, heavy in parts
        for word in part.split(" ")
        if word
    ]
    return tuple((word, text_width_em(word.text, bold=word.bold)) for word in words)


def _pieces(word: Word, width_mm: float, face: Face) -> list[Word]:
    """A word that is too wide for a line, taken apart at ties and hyphens, or cut."""
    face = face._replace(bold=word.bold)
    pieces = []
    for text in word.text.split(" "):
        line = ""
        for part in at_hyphens(text):
            if line and face.width_mm(line + part) > width_mm:
                pieces.append(line)
                line = ""
            rest = line + part
            while face.width_mm(rest) > width_mm and len(rest) > 1:
                taken = _fitting(rest, width_mm, face)
                pieces.append(rest[:taken])
                rest = rest[taken:]
            line = rest
        pieces.append(line)
    return [Word(piece, word.bold) for piece in pieces if piece]


def _fitting(text: str, width_mm: float, face: Face) -> int:
    """How many characters fit; one at least."""
    room = width_mm
    for place, char in enumerate(text):
        room -= face.width_mm(char)
        if room < 0 and place:
            return place
    return len(text)
