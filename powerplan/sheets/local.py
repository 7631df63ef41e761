"""The words of the country: breaker or circuit-breaker, outlet or socket-outlet, by rule set.

Every text of a report goes through here last. Names that people gave are left as they are, and so
are the keys of the plan file.
"""

from __future__ import annotations

import csv
import os
import re
from collections.abc import Callable, Iterable
from functools import cache
from typing import TYPE_CHECKING, Any, TypeVar, cast

from powerplan.sheets.names import given_names

if TYPE_CHECKING:  # a report without a plan does not wait for it
    from powerplan.model.plan import Plan

Local = Callable[[str], str]
T = TypeVar("T")

_DATA = os.path.join(os.path.dirname(__file__), "data")
_KEPT = frozenset({"key", "layer", "anchor", "number", "plan_hash", "view", "program", "units"})


def local_words(rules: str) -> dict[str, str]:
    """Return the words that a rule set's country says otherwise, lower case; empty for none."""
    path = os.path.join(_DATA, f"words-{rules}.csv")
    if not os.path.exists(path):
        return {}
    with open(path, encoding="utf-8", newline="") as file:
        return {row["word"].lower(): row["local"] for row in csv.DictReader(file)}


def local_of(plan: Plan) -> Local:
    """Return what turns a text of a plan's report into the words of its country."""
    return localizer(plan.rules.id, given_names(plan))


@cache
def localizer(rules: str, names: frozenset[str] = frozenset()) -> Local:
    """Return what turns a text into a country's words.

    Parameters
    ----------
    rules : str
        The rule set.
    names : frozenset of str
        Names that people gave, which stay as they are.
    """
    words = local_words(rules)
    if not words:
        return str
    kept = [name for name in names if _pattern(words).search(name) and name.lower() not in words]
    pattern = _pattern({**words, **dict.fromkeys(kept, "")}, kept)

    def local(text: str) -> str:
        return pattern.sub(lambda found: _with_article(found, words), text)

    return local


def _pattern(words: Iterable[str], exact: Iterable[str] = ()) -> re.Pattern[str]:
    """Whole words, the longest first; a name must stand as it was given, a word any way."""
    exact = set(exact)
    longest = sorted(words, key=lambda word: (-len(word), word))
    told = [re.escape(word) if word in exact else f"(?i:{re.escape(word)})" for word in longest]
    return re.compile(rf"(?<![\w\[-])(?:([Aa]n?) )?({'|'.join(told)})(?![\w\]]|-[a-z]| = )")


def _with_article(found: re.Match[str], words: dict[str, str]) -> str:
    told = _said(found[2], words)
    if found[1] is None or found[2].lower() not in words:
        return found[0] if told == found[2] else told
    return f"{found[1][0]}{'n' if told[0].lower() in 'aeiou' else ''} {told}"


def _said(word: str, words: dict[str, str]) -> str:
    told = words.get(word.lower())
    if told is None:
        return word
    if word.isupper():
        return told.upper() if len(word) > 1 and not told.isupper() else told
    return told[:1].upper() + told[1:] if word[:1].isupper() else told


def localized(thing: T, local: Local) -> T:
    """Return a report, or any part of one, with every text in the country's words.

    Drawings are left alone: their words were turned before they were placed.
    """
    return cast(T, _localized(thing, local)) if local is not str else thing


def _localized(thing: Any, local: Local) -> Any:
    if isinstance(thing, str):
        return local(thing)
    fields = getattr(thing, "_fields", None)
    if fields is not None:
        return thing._replace(
            **{
                name: _localized(getattr(thing, name), local)
                for name in fields
                if name not in _KEPT
            }
        )
    if isinstance(thing, tuple):
        return tuple(_localized(one, local) for one in thing)
    return thing
