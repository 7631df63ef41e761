"""The letters of the sheets: DejaVu Sans Condensed, cut down, with the widths of its letters.

The fonts are shipped and embedded, so that a sheet looks the same everywhere and can be searched.
``tests/repo/font_subset.py`` makes the files; their license is ``data/letters-license.txt``. Widths
are read from a small table, so that placing a label needs no library for fonts.
"""

from __future__ import annotations

import csv
import unicodedata
from functools import cache, lru_cache
from itertools import repeat
from pathlib import Path

from powerplan.sheets.writers.columns import printable

_DATA = Path(__file__).parent / "data"

FONT = _DATA / "letters.ttf"
BOLD_FONT = _DATA / "letters-bold.ttf"
WEB_FONT = _DATA / "letters.woff"
WEB_BOLD_FONT = _DATA / "letters-bold.woff"
LICENSE = _DATA / "letters-license.txt"

FAMILY = "DejaVu Sans Condensed"

CAP = 0.729
"""Height of a capital letter, as part of the letter size."""
ASCENT, DESCENT = 0.928, 0.236
"""How far letters reach over and under the line they stand on, as parts of the letter size."""

REPLACEMENT = "□"
"""What stands for a character that the font lacks."""

_UNITS = 2048
_POINT_MM = 25.4 / 72


@cache
def _widths() -> tuple[dict[str, int], dict[str, int]]:
    """Advance of each character, plain and bold. [1/2048 of the letter size]"""
    plain: dict[str, int] = {}
    bold: dict[str, int] = {}
    with (_DATA / "letters-widths.csv").open(encoding="utf-8", newline="") as stream:
        for row in csv.DictReader(stream):
            char = chr(int(row["code"], 16))
            plain[char], bold[char] = int(row["plain"]), int(row["bold"])
    return plain, bold


def drawable(text: str) -> str:
    """Return a text that the font can draw: what it lacks becomes an empty square.

    Control and invisible characters become escapes, accents join their letters, every kind of
    blank becomes a space, and text of more than 4,000 characters is cut.

    Parameters
    ----------
    text : str
        Anything.
    """
    if text.isascii() and text.isprintable():
        return printable(text)
    known = _widths()[0]
    spaced = "".join(" " if char.isspace() else char for char in text)
    tame = printable(unicodedata.normalize("NFC", spaced).replace("\u00a0", " "))
    return "".join(char if char in known else REPLACEMENT for char in tame)


def lacking(text: str) -> int:
    """Return how many characters of a text the font cannot draw.

    Parameters
    ----------
    text : str
        Anything.
    """
    if text.isascii():
        return 0
    return drawable(text).count(REPLACEMENT) - text.count(REPLACEMENT)


@lru_cache(maxsize=1 << 14)
def text_width_em(words: str, *, bold: bool = False) -> float:
    """Return the width of a line of text as a multiple of its letter size.

    Parameters
    ----------
    words : str
        One line; a character that the font lacks counts as its replacement.
    bold : bool
        True for bold letters.
    """
    widths = _widths()[bold]
    other = widths[REPLACEMENT]
    return sum(map(widths.get, words, repeat(other))) / _UNITS


def text_width_mm(words: str, cap_height_mm: float, *, bold: bool = False) -> float:
    """Return the width of a line of text on paper. [mm]

    Parameters
    ----------
    words : str
        One line; a character that the font lacks counts as its replacement.
    cap_height_mm : float
        Height of its capital letters. [mm]
    bold : bool
        True for bold letters.
    """
    return text_width_em(words, bold=bold) * cap_height_mm / CAP


def points_mm(size_pt: float) -> float:
    """Return a letter size in millimeters. [mm]

    Parameters
    ----------
    size_pt : float
        A size in points of 1/72 in. [pt]
    """
    return size_pt * _POINT_MM
