"""Which sheets of paper the pages of a set take, told on the pages themselves."""

from __future__ import annotations

from itertools import accumulate

from powerplan.sheets.parts import Contents, Figure, Part, Say, Table
from powerplan.sheets.printed import SheetPage

_CAPTION = "What is in this set; the heading of every sheet says of which page it is"
_NOT_YET = "0"


def contents_of(pages: tuple[SheetPage, ...]) -> Contents:
    """Return the list of the pages of a set; on which sheets they are is not known yet.

    Parameters
    ----------
    pages : tuple of SheetPage
        The pages, in order.
    """
    return Contents(rows=tuple((page.name, page.reader, _NOT_YET) for page in pages))


def contents_table(part: Contents) -> Table:
    """Return the list of pages as it is printed: a column a page."""
    names, readers, sheets = zip(*part.rows, strict=True)
    rows = (("for", *readers), ("sheets", *sheets))
    return Table(caption=_CAPTION, head=("page", *names), rows=rows)


def numbered(pages: list[SheetPage], drawn: list[list[bool]]) -> list[SheetPage]:
    """Return pages that name the sheets on which a set stands.

    The list of pages tells the sheets of each; a page whose first sheet has none of its drawings
    tells on which they start.

    Parameters
    ----------
    pages : list of SheetPage
        The pages without numbers of sheets.
    drawn : list of list of bool
        For each page and each sheet that it takes whether a drawing stands on it.
    """
    firsts = [1, *(1 + before for before in accumulate(map(len, drawn)))]
    spans = [_span(first, len(sheets)) for first, sheets in zip(firsts, drawn, strict=False)]
    return [
        page._replace(parts=(*_later(page, first, sheets), *_listed(page, spans)))
        for page, first, sheets in zip(pages, firsts, drawn, strict=False)
    ]


def _span(first: int, count: int) -> str:
    return f"{first}" if count == 1 else f"{first}-{first + count - 1}"


def _listed(page: SheetPage, spans: list[str]) -> tuple[Part, ...]:
    """The parts of a page, its list of pages with their sheets."""
    return tuple(
        Contents(
            rows=tuple(
                (name, reader, span)
                for (name, reader, _), span in zip(part.rows, spans, strict=True)
            )
        )
        if isinstance(part, Contents)
        else part
        for part in page.parts
    )


def _later(page: SheetPage, first: int, drawn: list[bool]) -> tuple[Part, ...]:
    """Where the drawing of a page is to be looked for, if not on its first sheet."""
    figures = any(isinstance(part, Figure) for part in page.parts)
    if not figures or drawn[0]:
        return ()
    return (Say(text=f"The drawing starts on sheet {first + drawn.index(True)}."),)
