"""The few kinds of thing a page is made of; every writer lays out the same parts.

They are named tuples and no dataclasses because they are built at start-up, and the phone question
must not wait.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:  # the phone question draws nothing
    from powerplan.sheets.scene import View


class Say(NamedTuple):
    """A paragraph."""

    text: str


class Items(NamedTuple):
    """A list under a line that leads in; ``numbered`` where the order matters."""

    lead: str
    items: tuple[str, ...]
    numbered: bool = False


class Table(NamedTuple):
    """A table; every row has a cell for each word of the head."""

    caption: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


class Marked(NamedTuple):
    """A word in front (MET, NOT MET) and the lines that belong to it."""

    mark: str
    lines: tuple[str, ...]


class Drawing(NamedTuple):
    """Lines that keep their shape."""

    lines: tuple[str, ...]


class Figure(NamedTuple):
    """A drawing, true to its scale."""

    view: View


class Ticks(NamedTuple):
    """A list under a line that leads in, with a box to tick before each."""

    lead: str
    items: tuple[str, ...]


class Contents(NamedTuple):
    """The pages of a set: of each its name, its reader, and on which sheets of paper it stands."""

    rows: tuple[tuple[str, str, str], ...]


Part = Say | Items | Table | Marked | Drawing | Figure | Ticks | Contents


class Page(NamedTuple):
    """What one reader is told."""

    title: str
    parts: tuple[Part, ...]


class Sheet(NamedTuple):
    """A whole report: title, what it is about, pages, the caution, and the verdict at the end."""

    title: str
    about: tuple[str, ...]
    pages: tuple[Page, ...]
    caution: str
    last: str
