"""Words as every reader of DXF shows them: plain letters and the file's own codes."""

from __future__ import annotations

import unicodedata

from powerplan.sheets.writers.columns import printable

_FORMS = {
    "½": " 1/2",
    "¼": " 1/4",
    "¾": " 3/4",
    "⅛": " 1/8",
    "⅜": " 3/8",
    "⅝": " 5/8",
    "⅞": " 7/8",
    "⅓": " 1/3",
    "⅔": " 2/3",
    "°": "%%d",
    "±": "%%p",
    "⌀": "%%c",
    "Ø": "%%c",
    "Ω": "ohm",
    "″": '"',
    "′": "'",
    "“": '"',
    "”": '"',
    "‘": "'",
    "’": "'",
    "–": "-",
    "—": "-",
    "−": "-",
    "×": "x",
    "≤": "<=",
    "≥": ">=",
    "…": "...",
    "µ": "u",
    "·": ".",
    "→": "->",
    "←": "<-",
    "ß": "ss",
    "æ": "ae",
    "ø": "o",
    "ł": "l",
}


def dxf_words(text: str) -> str:
    """Return a line of words in ASCII where ASCII can say it.

    Marks become their plain forms (``6'-3 1/4"``), accented letters lose their accents, and what is
    left over (letters of other scripts) stays as it is, in the encoding of the file. Codes that a
    reader would act on are taken apart.

    Parameters
    ----------
    text : str
        Anything.
    """
    tame = printable(text).replace("%%", "% %").replace("^", "^ ")
    plain = tame if tame.isascii() else "".join(map(_plain, tame))
    return " ".join(plain.split())


def _plain(char: str) -> str:
    if char.isascii():
        return char
    if char in _FORMS:
        return _FORMS[char]
    base = "".join(c for c in unicodedata.normalize("NFKD", char) if not unicodedata.combining(c))
    return base if base.isascii() else char


def mtext_words(text: str) -> str:
    """Return words for a masked or wrapped text, whose own codes are braces and backslashes."""
    plain = dxf_words(text)
    return plain.replace("\\", "\\\\").replace("{", "\\{").replace("}", "\\}")
