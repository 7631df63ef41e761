"""The texts of a page, one by one: to look at each, or to change each."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from powerplan.model.plan import Plan
from powerplan.sheets.parts import Drawing, Figure, Items, Marked, Part, Say, Table, Ticks
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
    names = _names(plan)

    def plain(match: re.Match[str]) -> str:
        return match[0] if match[0] in names else match[0].replace("_", " ")

    parts = tuple(_told(part, lambda text: _PROGRAM_WORD.sub(plain, text)) for part in page.parts)
    return page._replace(parts=parts)


def _names(plan: Plan) -> set[str]:
    """Every word with an underscore that people gave to something."""
    spec, room = plan.spec, plan.spec.room
    fixed = [one.id for one in spec.chairs] + [one.id for one in spec.rows]
    fixed += [one.id for one in spec.circuits] + [one.id for one in spec.outlets]
    fixed += [one.id for one in spec.risers] + [one.id for one in spec.doors]
    fixed += [area.id for area in (*spec.no_cut, *spec.obstacles, *spec.walkways)]
    made = [one.id for one in plan.chairs] + [one.id for one in plan.boxes]
    made += [one.id for one in plan.cords]
    loads = [load.name for circuit in spec.circuits for load in circuit.already_on_it or ()]
    walls = [wall.label for wall in room.lines]
    texts = fixed + made + loads + walls + [plan.project]
    return {word for text in texts for word in _PROGRAM_WORD.findall(text)}


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
    if isinstance(part, Table):
        return Table(
            caption=new(part.caption),
            head=tuple(map(new, part.head)),
            rows=tuple(tuple(map(new, row)) for row in part.rows),
        )
    return part
