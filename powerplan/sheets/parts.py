"""The few kinds of thing a page is made of; every writer lays out the same parts."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Say:
    """A paragraph."""

    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Items:
    """A list under a line that leads in; ``numbered`` where the order matters."""

    lead: str
    items: tuple[str, ...]
    numbered: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A table; every row has a cell for each word of the head."""

    caption: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Marked:
    """A word in front (MET, NOT MET) and the lines that belong to it."""

    mark: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """Lines that keep their shape."""

    lines: tuple[str, ...]


Part = Say | Items | Table | Marked | Drawing


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """What one reader is told."""

    title: str
    parts: tuple[Part, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A whole report: title, what it is about, pages, the caution, and the verdict at the end."""

    title: str
    about: tuple[str, ...]
    pages: tuple[Page, ...]
    caution: str
    last: str
