"""A page flattened to words, and a drawing that stands for any."""

import re

from powerplan.model.geometry import Rect
from powerplan.sheets.parts import Contents, Figure, Items, Marked, Part, Say, Table, Ticks
from powerplan.sheets.printed import SheetPage
from powerplan.sheets.scene import View

A_VIEW = View(
    title="A room",
    description="Nothing is drawn.",
    scale=48,
    bounds=Rect(left_m=0, right_m=4, back_m=0, front_m=3),
    items=(),
)


def table(page: SheetPage, caption: str) -> Table:
    """The one table whose caption begins so, after any warning in capitals."""
    begins = re.compile(rf"(?:[A-Z ]+[.] )?{re.escape(caption)}")
    (found,) = (p for p in page.parts if isinstance(p, Table) and begins.match(p.caption))
    return found


def listed(page: SheetPage, lead: str) -> tuple[str, ...]:
    """The items of the one list, ticked or not, whose lead begins so."""
    lists = (part for part in page.parts if isinstance(part, Items | Ticks))
    (found,) = (part for part in lists if part.lead.startswith(lead))
    return found.items


def words(page: SheetPage) -> str:
    """Everything a page says, in its order."""
    return "\n".join(line for part in page.parts for line in _lines(part))


def _lines(part: Part) -> list[str]:
    if isinstance(part, Say):
        return [part.text]
    if isinstance(part, Items | Ticks):
        return [part.lead, *part.items]
    if isinstance(part, Table):
        return [part.caption, *(" | ".join(row) for row in (part.head, *part.rows))]
    if isinstance(part, Marked):
        return [part.mark, *part.lines]
    if isinstance(part, Figure):
        return [f"[{part.view.title}]"]
    if isinstance(part, Contents):
        return [" | ".join(row) for row in part.rows]
    return list(part.lines)
