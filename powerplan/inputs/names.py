"""What a row, a circuit or an outlet may be called, so that every name in a plan is clear."""

from __future__ import annotations

import re

from powerplan.inputs.saying import named
from powerplan.model.lengths import joined

_LONGEST = 40
_OWN_WORDS = ("box ", "wall ", "supply ", "unit ")
_DIGITS = frozenset("0123456789")
_OTHER = frozenset("0123456789 -_.")


def name_fault(kind: str, name: str) -> str | None:
    """Return what is wrong with a name, or None.

    Parameters
    ----------
    kind : str
        What it names: row, outlet, circuit and so on.
    name : str
        The name as written.
    """
    if not name or len(name) > _LONGEST:
        return f"a name has 1 to {_LONGEST} characters"
    if not all(char.isalpha() or char in _OTHER for char in name):
        return "a name has letters, digits, spaces and - _ . only"
    if name != name.strip(" ") or not any(char.isalpha() or char in _DIGITS for char in name):
        return "a name starts and ends with something other than a space, and has a letter or digit"
    if kind == "row" and name[-1] in _DIGITS:
        return (
            f"the name of a row may not end in a digit, since chair {named(name + '1')} "
            "is the first of its seats; write a letter"
        )
    if kind == "outlet" and (name == "panel" or name.startswith(_OWN_WORDS)):
        words = joined([f'"{word.strip()}"' for word in _OWN_WORDS], "or")
        return f'an outlet may not be called "panel", nor start with {words} and a space'
    if kind == "circuit" and re.fullmatch("new [0-9]+", name):
        return f"{named(name)} is kept for circuits that are planned; write another name"
    return None
