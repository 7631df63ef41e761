"""A set of sheets as one web page: no scripts, nothing from elsewhere, good to print.

Everything that comes from a plan goes through ``_told``; nothing else puts text into the page.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from html import escape
from itertools import groupby
from typing import NamedTuple

from powerplan.sheets.parts import (
    Contents,
    Drawing,
    Figure,
    Items,
    Marked,
    Part,
    Say,
    Table,
    Ticks,
)
from powerplan.sheets.printed import SetOfSheets, SheetPage
from powerplan.sheets.typeset.scales import scale_text
from powerplan.sheets.writers.columns import printable
from powerplan.sheets.writers.html_style import UPRIGHT_MM, style_text
from powerplan.sheets.writers.html_table import table_html
from powerplan.sheets.writers.svg import svg_text

_POLICY = "default-src 'none'; style-src 'unsafe-inline'; font-src data:"
_HASH_SHOWN = 12
_WARNING = re.compile(r"^[A-Z][A-Z ]+:(?= )")


def html_text(sheets: SetOfSheets) -> str:
    """Return the page, to be written in UTF-8 as it stands.

    Parameters
    ----------
    sheets : SetOfSheets
        The set.
    """
    title = _told(f"{sheets.project}: power plan, revision {sheets.revision}")
    pages = "".join(_page(number, page, sheets) for number, page in enumerate(sheets.pages, 1))
    style = style_text(printable(_running(sheets)), printable(sheets.caution))
    return (
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{title}</title>\n<style>\n{style}</style>\n</head>\n<body>\n"
        '<a class="skip" href="#pages">Skip to the first page</a>\n'
        f"<header>\n<h1>Power plan: <bdi>{_told(sheets.project)}</bdi></h1>\n"
        f"{_line(sheets)}{_caution(sheets)}{_nav(sheets)}</header>\n"
        f'<main id="pages" tabindex="-1">\n{pages}</main>\n</body>\n</html>\n'
    )


def _nav(sheets: SetOfSheets) -> str:
    links = "".join(
        f'<li><a href="#page-{number}">page {_told(page.name)} '
        f"(for {_told(page.reader)})</a></li>\n"
        for number, page in enumerate(sheets.pages, 1)
    )
    return f'<nav aria-label="Pages">\n<ol>\n{links}</ol>\n</nav>\n'


def _block(sheets: SetOfSheets) -> tuple[tuple[str, str], ...]:
    """What stands in a title block: the name of each thing, and the thing."""
    told = (
        ("project", sheets.project),
        ("revision", sheets.revision),
        ("date", sheets.date),
        ("rules", sheets.rules),
        ("plan file", sheets.plan_hash[:_HASH_SHOWN]),
        ("made by", sheets.program),
    )
    return tuple((name, value) for name, value in told if value)


def _running(sheets: SetOfSheets) -> str:
    """The title block as the line at the top of every sheet of paper."""
    return "; ".join(
        value if name in ("project", "made by") else f"{name} {value}"
        for name, value in _block(sheets)
    )


def _line(sheets: SetOfSheets, *more: tuple[str, str]) -> str:
    """The title block in one line; behind more of its own, a screen need not show it again."""
    also = ' class="also"' if more else ""
    spans = [f"<span>{_named(*pair)}</span>" for pair in more]
    spans += [f"<span{also}>{_named(*pair)}</span>" for pair in _block(sheets)]
    return f'<p class="line">{" ".join(spans)}</p>\n'


def _named(name: str, value: str) -> str:
    return f"{name} <b><bdi>{_told(value)}</bdi></b>"


def _caution(sheets: SetOfSheets, kind: str = "") -> str:
    return f'<p class="caution{kind}"><strong>CAUTION.</strong> {_told(sheets.caution)}</p>\n'


def _page(number: int, page: SheetPage, sheets: SetOfSheets) -> str:
    name = f"page-{number}"
    sheet = ("page", f"{page.number} of {len(sheets.pages)}")
    place = _Place(name, sheets.units, _linking(sheets))
    parts = "".join(_parts(page.parts, place))
    return (
        f'<section id="{name}"{_turned(page)} aria-labelledby="{name}-title">\n'
        f'<h2 id="{name}-title">{_told(page.number)}. {_told(page.title)}</h2>\n'
        f"{_line(sheets, sheet, ('for', page.reader))}{_caution(sheets, ' first')}"
        f"{parts}{_caution(sheets)}</section>\n"
    )


def _turned(page: SheetPage) -> str:
    """Paper lies on its side for a page with a drawing that needs it."""
    views = [part.view for part in page.parts if isinstance(part, Figure)]
    wide = any(view.width_mm > max(UPRIGHT_MM, view.height_mm) for view in views)
    return ' class="sideways"' if wide else ""


class _Place(NamedTuple):
    """Where a part stands: its own name, how lengths print, and what makes a text harmless and
    links the pages that it names."""

    name: str
    units: str
    linked: Callable[[str], str]


def _linking(sheets: SetOfSheets) -> Callable[[str], str]:
    """What makes a text harmless and links the pages that it names."""
    numbers = {f"page {_told(page.name)}": n for n, page in enumerate(sheets.pages, 1)}
    named = re.compile("|".join(map(re.escape, numbers)))

    def link(found: re.Match[str]) -> str:
        return f'<a href="#page-{numbers[found[0]]}">{found[0]}</a>'

    return lambda text: named.sub(link, _told(text))


def _parts(parts: tuple[Part, ...], place: _Place) -> Iterator[str]:
    """The parts in their order; marked ones that follow each other are one list."""
    told = 0
    for marked, group in groupby(parts, key=lambda part: isinstance(part, Marked)):
        if marked:
            entries = "".join(_entry(part, place) for part in group if isinstance(part, Marked))
            yield f'<dl class="marked">\n{entries}</dl>\n'
            continue
        for part in group:
            told += 1
            yield _part(part, place._replace(name=f"{place.name}-part-{told}"))


def _part(part: Part, place: _Place) -> str:
    if isinstance(part, Contents):
        return ""  # the list of links at the top
    if isinstance(part, Say):
        return f"<p>{_WARNING.sub(_strong, place.linked(part.text))}</p>\n"
    if isinstance(part, Items):
        return _items(part, place)
    if isinstance(part, Table):
        return table_html(part)
    if isinstance(part, Figure):
        return _figure(part, place.name, place.units)
    if isinstance(part, Ticks):
        return _ticks(part, place.name)
    if isinstance(part, Drawing):
        lines = "\n".join(_told(line) for line in part.lines)
        return f'<pre role="region" aria-label="Drawing in letters" tabindex="0">{lines}</pre>\n'
    return f'<dl class="marked">\n{_entry(part, place)}</dl>\n'


def _strong(found: re.Match[str]) -> str:
    return f"<strong>{found[0]}</strong>"


def _items(part: Items, place: _Place) -> str:
    kind, name = "ol" if part.numbered else "ul", place.name
    items = "".join(f"<li>{place.linked(item)}</li>\n" for item in part.items)
    if not part.lead:
        return f"<{kind}>\n{items}</{kind}>\n"
    return (
        f'<p class="lead" id="{name}-lead">{_told(part.lead)}</p>\n'
        f'<{kind} aria-labelledby="{name}-lead">\n{items}</{kind}>\n'
    )


def _ticks(part: Ticks, name: str) -> str:
    items = "".join(
        f'<li><input type="checkbox" id="{name}-{number}"> '
        f'<label for="{name}-{number}">{_told(item)}</label></li>\n'
        for number, item in enumerate(part.items, 1)
    )
    return (
        f"<fieldset>\n<legend>{_told(part.lead)}</legend>\n<ul>\n{items}</ul>\n"
        '<p class="kept">Ticks are gone when this page is closed: print it to keep them.</p>\n'
        "</fieldset>\n"
    )


def _entry(part: Marked, place: _Place) -> str:
    """A mark and what belongs to it: the first line in front, lines with a dash as a list."""
    first, *rest = part.lines or ("",)
    kind = part.mark.lower().replace(" ", "-")
    sort = f' class="{kind}"' if kind in ("not-met", "not-checked") else ""
    mark = f"{_told(part.mark)}: " if part.mark else ""
    lines = "".join(_lines(rest, place))
    return f"<div{sort}>\n<dt>{mark}{place.linked(first)}</dt>\n<dd>{lines}</dd>\n</div>\n"


def _lines(lines: list[str], place: _Place) -> Iterator[str]:
    for listed, group in groupby(lines, key=lambda line: line.startswith("- ")):
        if listed:
            items = "".join(f"<li>{place.linked(line[2:])}</li>" for line in group)
            yield f"<ul>{items}</ul>\n"
        else:
            yield "".join(f"<p>{place.linked(line)}</p>\n" for line in group)


def _figure(part: Figure, name: str, units: str) -> str:
    view = part.view
    scale = ""
    if view.scale > 1:
        told = _told(scale_text(view.scale, units))
        scale = f" <small>Scale {told}. On a print, measure its check bar first.</small>"
    return (
        f"<figure>\n<figcaption>{_told(view.title)}{scale}</figcaption>\n"
        f'<div class="size"><input type="checkbox" id="{name}-size"> '
        f'<label for="{name}-size">Show this drawing at full size</label></div>\n'
        f'<div class="sized" role="region" aria-label="{_told(view.title)}" tabindex="0">\n'
        f"{svg_text(view, name, units)}</div>\n</figure>\n"
    )


def _told(text: str) -> str:
    """A text of the plan, harmless wherever it stands in the page."""
    return escape(printable(text))
