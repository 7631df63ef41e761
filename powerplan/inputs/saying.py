"""How what was found is shown to the one who wrote it: short, and harmless on any terminal."""

from __future__ import annotations

from collections.abc import Iterable

_LONGEST = 60


def shown(value: object) -> str:
    """Return a value as one short line without characters that do not print.

    Parameters
    ----------
    value : object
        Text from outside, or a value as TOML gives it.
    """
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, list):
        return "a list"
    text = value if isinstance(value, str) else _plain(value)
    cut = text if len(text) <= _LONGEST else text[: _LONGEST - 3] + "..."
    return "".join(char if char.isprintable() else _escaped(char) for char in cut)


def found(value: object) -> str:
    """Return a value as it stood in the file: text in double quotes, the rest bare."""
    return f'"{shown(value)}"' if isinstance(value, str) else shown(value)


def named(name: object) -> str:
    """Return a name in single quotes."""
    return f"'{shown(name)}'"


def nearest(word: str, known: Iterable[str]) -> str | None:
    """Return the known word that was most likely meant, or None.

    Parameters
    ----------
    word : str
        What was written.
    known : iterable of str
        What could have been meant.
    """
    import difflib  # only where something was misspelled

    names = {name.lower(): name for name in sorted(known, reverse=True)}
    close = difflib.get_close_matches(word.lower()[:_LONGEST], sorted(names), n=1, cutoff=0.6)
    return names[close[0]] if close else None


def meant(word: str, known: Iterable[str]) -> str:
    """Return ``; did you mean 'lead'?``, or the known words where none is near."""
    names = list(known)
    close = nearest(word, names)
    if close is not None:
        return f"; did you mean {named(close)}?"
    if not names:
        return ""
    few = ", ".join(shown(name) for name in names[:_MOST_NAMES])
    return f"; known here: {few}{', ...' if len(names) > _MOST_NAMES else ''}"


_MOST_NAMES = 24


def _plain(value: object) -> str:
    try:
        return str(value)
    except ValueError:  # an integer of thousands of digits
        return "a very long number"


def _escaped(char: str) -> str:
    code = ord(char)
    return f"\\x{code:02x}" if code < 0x100 else f"\\u{code:04x}" if code < 0x10000 else "\\u..."
