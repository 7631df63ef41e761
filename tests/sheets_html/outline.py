"""A page of HTML as a tree that tests can ask, read by the standard library's parser."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser
from itertools import pairwise

_VOID = {"meta", "input", "br", "link", "img", "hr"}


@dataclass
class Tag:
    """An element: its name, attributes, and what is in it."""

    name: str
    attributes: dict[str, str]
    inside: list[Tag | str] = field(default_factory=list)

    def all(self, *names: str) -> Iterator[Tag]:
        """Every element in here of these names, in order; of any name where none is given."""
        for thing in self.inside:
            if isinstance(thing, Tag):
                if not names or thing.name in names:
                    yield thing
                yield from thing.all(*names)

    @property
    def text(self) -> str:
        """All words in here, blanks closed up."""
        return " ".join(self._raw().split())

    def _raw(self) -> str:
        return "".join(part if isinstance(part, str) else part._raw() for part in self.inside)


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.open: list[Tag] = [Tag("document", {})]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_startendtag(tag, attrs)
        if tag not in _VOID:
            self.open.append(self.open[-1].inside[-1])

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        names = [name for name, _ in attrs]
        assert len(names) == len(set(names)), f"<{tag}> has an attribute twice: {names}"
        self.open[-1].inside.append(Tag(tag, {name: value or "" for name, value in attrs}))

    def handle_endtag(self, tag: str) -> None:
        if tag not in ("path",):
            assert self.open[-1].name == tag, f"</{tag}> closes <{self.open[-1].name}>"
            self.open.pop()

    def handle_data(self, data: str) -> None:
        self.open[-1].inside.append(data)


def read(html: str) -> Tag:
    """Return the tree; an element that is not closed in its place fails."""
    reader = _Reader()
    reader.feed(html)
    reader.close()
    assert [tag.name for tag in reader.open] == ["document"]
    return reader.open[0]


def headings(page: Tag) -> list[int]:
    """The levels of the headings in their order."""
    return [int(tag.name[1]) for tag in page.all("h1", "h2", "h3", "h4", "h5", "h6")]


def ids(page: Tag) -> list[str]:
    """Every id in the page."""
    return [tag.attributes["id"] for tag in page.all() if "id" in tag.attributes]


def faults(page: Tag) -> list[str]:
    """What would keep somebody out, or let something in: empty where all is well."""
    known = ids(page)
    found = [f"id twice: {name}" for name in {name for name in known if known.count(name) > 1}]
    levels = headings(page)
    if levels[:1] != [1] or levels.count(1) != 1:
        found.append(f"headings: {levels}")
    found += [f"h{b} after h{a}" for a, b in pairwise(levels) if b > a + 1]
    for tag in page.all():
        found += [f"<{tag.name}> points nowhere: {name}" for name in _pointed(tag, known)]
        found += [f"<{tag.name}> has {name}" for name in tag.attributes if name.startswith("on")]
        found += [f"<{tag.name}> is not ours"] if tag.name in _FOREIGN else []
    for table in page.all("table"):
        if len([c for c in table.all("caption") if c.text]) != 1:
            found.append("a table without a caption")
        found += [f"no scope: {th.text}" for th in table.all("th") if "scope" not in th.attributes]
    labelled = {label.attributes.get("for") for label in page.all("label")}
    found += [f"no label: {i}" for i in page.all("input") if i.attributes["id"] not in labelled]
    for drawing in page.all("svg"):
        if drawing.attributes.get("role") != "img" or not all(
            any(part.text for part in drawing.all(name)) for name in ("title", "desc")
        ):
            found.append("a drawing without a title or a description")
    return found


_FOREIGN = {"script", "iframe", "object", "embed", "link", "form", "base", "img", "foreignobject"}


def _pointed(tag: Tag, known: list[str]) -> list[str]:
    names = [*tag.attributes.get("aria-labelledby", "").split(), tag.attributes.get("for", "")]
    link = tag.attributes.get("href", "")
    outside = [link] if link and not link.startswith("#") else []
    inside = [name for name in (*names, link.removeprefix("#")) if name and not outside]
    return outside + [name for name in inside if name not in known]
