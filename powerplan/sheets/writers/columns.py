"""Text in columns of a terminal: how wide it is, wrapping it, and making hostile text tame."""

from __future__ import annotations

import re
import unicodedata

WIDTH = 80

_QUANTITY = re.compile(
    r"(?<=[0-9]) (?=(?:A|V|W|ft|in|mm|m|%|AWG)(?![A-Za-z0-9]))|(?<=[0-9] ft) (?=[0-9])"
)
_MIXED = re.compile(r"(?<=[0-9]) (?=[0-9]{1,2}/[0-9])")
_TIE = "\u00a0"

_PLAIN = {
    "×": "x",
    "–": "-",
    "—": "-",
    "−": "-",
    "‘": "'",
    "’": "'",
    "′": "'",
    "“": '"',
    "”": '"',
    "″": '"',
    "½": "1/2",
    "¼": "1/4",
    "¾": "3/4",
    "°": " deg",
    "…": "...",
}
_HIDDEN = frozenset({"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"})
_MARKS = frozenset({"Mn", "Me", "Mc"})
_MARKS_STACKED = 2
_LONGEST = 4000


def columns(text: str) -> int:
    """Return how many columns a text takes up in a terminal. [columns]"""
    return len(text) if text.isascii() else sum(_column(char) for char in text)


def _column(char: str) -> int:
    from wcwidth import wcwidth  # only for what is not ASCII

    return max(0, wcwidth(char))


def printable(text: str, encoding: str = "utf-8") -> str:
    """Return text that can do a terminal no harm and that the stream can encode.

    Control and invisible characters show as escapes; so do marks stacked beyond two. Text of more
    than 4,000 characters is cut.

    Parameters
    ----------
    text : str
        Anything.
    encoding : str
        What the stream encodes to; one that is not known counts as ASCII.
    """
    if len(text) > _LONGEST:
        text = text[:_LONGEST] + "..."
    if text.isascii() and text.isprintable():
        return text
    shown: list[str] = []
    stacked = 0
    for char in text:
        category = unicodedata.category(char)
        stacked = stacked + 1 if category in _MARKS else 0
        hidden = category in _HIDDEN or stacked > _MARKS_STACKED
        shown.append(_escaped(char) if hidden else _encodable(char, encoding))
    return "".join(shown)


def _escaped(char: str) -> str:
    return char.encode("unicode_escape").decode("ascii")


def _encodable(char: str, encoding: str) -> str:
    try:
        char.encode(encoding)
    except (UnicodeEncodeError, LookupError):
        return char if char.isascii() else _PLAIN.get(char) or _escaped(char)
    return char


def cut(text: str, width: int) -> tuple[str, str]:
    """Return the part of a text that fits, and the rest.

    Parameters
    ----------
    text : str
        Any text.
    width : int
        Columns there are; one character is always taken. [columns]
    """
    if text.isascii():
        return text[: max(1, width)], text[max(1, width) :]
    used = 0
    for place, char in enumerate(text):
        used += _column(char)
        if used > width and place:
            return text[:place], text[place:]
    return text, ""


def clip(text: str, width: int) -> str:
    """Return a text cut to a width, with dots where something is missing.

    Parameters
    ----------
    text : str
        Any text.
    width : int
        Columns there are, four or more. [columns]
    """
    return text if columns(text) <= width else cut(text, width - 3)[0] + "..."


def wrap(text: str, width: int) -> list[str]:
    """Return the lines of a text, none wider than the width; an empty text is one empty line.

    A number stays with its unit where the width allows.

    Parameters
    ----------
    text : str
        Any text; runs of blanks count as one.
    width : int
        Columns there are, two or more. [columns]
    """
    lines: list[str] = []
    line = ""
    for word in _words(text, width):
        if line and columns(line) + 1 + columns(word) <= width:
            line = f"{line} {word}"
            continue
        if line:
            lines.append(line)
        while columns(word) > width:
            head, word = cut(word, width)
            lines.append(head)
        line = word
    return [*lines, line] if line or not lines else lines


def _words(text: str, width: int) -> list[str]:
    """The words of a text; a quantity is one word unless it is too wide for the line."""
    plain = " ".join(text.split())
    tied = _MIXED.sub(_TIE, _QUANTITY.sub(_TIE, plain))
    words: list[str] = []
    for word in tied.split(" "):
        loose = word.replace(_TIE, " ")
        words += [loose] if columns(loose) <= width else loose.split()
    return [word for word in words if word]


def padded(text: str, width: int) -> str:
    """Return a text filled with blanks to a width.

    Parameters
    ----------
    text : str
        Any text.
    width : int
        Columns to fill. [columns]
    """
    return text + " " * max(0, width - columns(text))
