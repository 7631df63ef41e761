"""The texts of a page, one by one: to look at each, or to change each."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from powerplan.model.plan import Plan
from powerplan.sheets.names import names_of
from powerplan.sheets.parts import Contents, Drawing, Figure, Items, Marked, Part, Say, Table, Ticks
from powerplan.sheets.printed import SheetPage
from powerplan.sheets.scene import Dimension, Text

_PROGRAM_WORD = re.compile(r"\b[a-z]+(?:_[a-z0-9]+)+\b")


def texts_of(page: SheetPage) -> Iterator[str]:
    """Yield every text that is printed on a page, its drawings included."""
    yield from (page.title, page.reader)
    for part in page.parts:
        if isinstance(part, Figure):
            items = (item for item in part.view.items if isinstance(item, Text | Dimension))
            yield part.view.title
            yield from (item.words for item in items)
        else:
            said: list[str] = []
            _told(part, _keeping(said))
            yield from said


def plain_page(page: SheetPage, plan: Plan) -> SheetPage:
    """Return a page without words of the program: ``first_joist`` becomes first joist.

    What is a name in the plan stays as it is written there.

    Parameters
    ----------
    page : SheetPage
        The page.
    plan : Plan
        For its names.
    """
    names = {word for name in names_of(plan) for word in _PROGRAM_WORD.findall(name)}

    def plain(match: re.Match[str]) -> str:
        return match[0] if match[0] in names else match[0].replace("_", " ")

    parts = tuple(_told(part, lambda text: _PROGRAM_WORD.sub(plain, text)) for part in page.parts)
    return page._replace(parts=parts)


def _keeping(said: list[str]) -> Callable[[str], str]:
    def keep(text: str) -> str:
        said.append(text)
        return text

    return keep


def _told(part: Part, new: Callable[[str], str]) -> Part:
    """A part with each of its texts changed; drawings stay as they are."""
    if isinstance(part, Say):
        return Say(text=new(part.text))
    if isinstance(part, Items):
        return part._replace(lead=new(part.lead), items=tuple(map(new, part.items)))
    if isinstance(part, Ticks):
        return part._replace(lead=new(part.lead), items=tuple(map(new, part.items)))
    if isinstance(part, Marked):
        return part._replace(mark=new(part.mark), lines=tuple(map(new, part.lines)))
    if isinstance(part, Drawing):
        return Drawing(lines=tuple(map(new, part.lines)))
    if isinstance(part, Contents):
        return Contents(rows=tuple((new(name), new(reader), on) for name, reader, on in part.rows))
    if isinstance(part, Table):
        return Table(
            caption=new(part.caption),
            head=tuple(map(new, part.head)),
            rows=tuple(tuple(map(new, row)) for row in part.rows),
        )
    return part
