"""TOML texts of every form, written together with the line of each key."""

import json
from typing import Any

from hypothesis import strategies as st

Path = tuple[str | int, ...]

_BARE = st.from_regex(r"\A[A-Za-z0-9_-]{1,6}\Z")
_ODD = st.text(st.characters(min_codepoint=0x20, max_codepoint=0x17F, exclude_characters="\x7f"),
               max_size=6)  # fmt: skip
_NAMES = st.one_of(_BARE, _ODD)
_PLAIN = st.sampled_from(
    ["1", "-3.5", "true", "1979-05-27 07:32:32Z", "07:32:00", "0x1F", '"x # ] } y"', "'#\"['",
     '"""a\n"" b\n"""', "'''c\n' d'''", '""""q"""""', '"\\" \\\\"', "[]", "{}", '""', "''"]
)  # fmt: skip
_TAILS = st.sampled_from(["", "", " # a = 1 [b]", "\t#\u00e4"])


class TomlWriter:
    """Writes one document, drawing every choice of form."""

    def __init__(self, draw: st.DrawFn) -> None:
        self.draw = draw
        self.text = ""
        self.lines: dict[Path, int] = {}

    def line(self) -> int:
        return self.text.count("\n") + 1

    def note(self, path: Path) -> None:
        for length in range(1, len(path) + 1):
            self.lines.setdefault(path[:length], self.line())

    def key(self, name: str) -> str:
        bare = name.isascii() and name.replace("-", "a").replace("_", "a").isalnum()
        if bare and self.draw(st.booleans()):
            return name
        if "'" not in name and self.draw(st.booleans()):
            return f"'{name}'"
        return json.dumps(name, ensure_ascii=self.draw(st.booleans()))

    def end_line(self) -> None:
        self.text += self.draw(_TAILS) + "\n"
        if self.draw(st.integers(0, 5)) == 0:
            self.text += "  # a comment\n\n"

    def table(self, path: Path, dotted: str, depth: int) -> None:
        """Write the keys of a table, then the tables in it."""
        names = self.draw(st.lists(_NAMES, max_size=4, unique=True))
        kinds = [self.draw(st.integers(0, 3)) for _ in names]
        inner = [(name, kind) for name, kind in zip(names, kinds, strict=True) if kind > 1]
        for name, kind in zip(names, kinds, strict=True):
            if kind == 0 or (kind > 1 and depth == 0):
                self.pair((*path, name), self.key(name), depth)
            elif kind == 1:
                for last in self.draw(st.lists(_NAMES, min_size=1, max_size=2, unique=True)):
                    self.pair((*path, name, last), f"{self.key(name)} . {self.key(last)}", depth)
        for name, kind in inner if depth else ():
            key = f"{dotted}.{self.key(name)}" if dotted else self.key(name)
            if kind == 2:
                self.header((*path, name), key)
                self.table((*path, name), key, depth - 1)
            else:
                self.list_of_tables((*path, name), key, depth)

    def header(self, path: Path, key: str) -> None:
        self.note(path)
        self.text += f"[ {key}]"
        self.end_line()

    def list_of_tables(self, path: Path, key: str, depth: int) -> None:
        for number in range(self.draw(st.integers(1, 2))):
            self.note((*path, number))
            self.text += f"[[{key} ]]"
            self.end_line()
            self.table((*path, number), key, depth - 1)

    def pair(self, path: Path, key: str, depth: int) -> None:
        self.note(path)
        self.text += f"{key} = "
        self.value(path, depth)
        self.end_line()

    def value(self, path: Path, depth: int) -> None:
        kind = self.draw(st.integers(0, 4)) if depth else 0
        if kind == 3:
            self.list(path, depth)
        elif kind == 4:
            self.inline_table(path, depth)
        else:
            self.text += self.draw(_PLAIN)

    def list(self, path: Path, depth: int) -> None:
        self.text += "["
        for number in range(self.draw(st.integers(0, 3))):
            self.text += self.draw(st.sampled_from(["", "\n", " # ]\n  "]))
            self.note((*path, number))
            self.value((*path, number), depth - 1)
            self.text += self.draw(st.sampled_from([",", " ,", "\n,"]))
        self.text += self.draw(st.sampled_from(["]", "\n]"]))

    def inline_table(self, path: Path, depth: int) -> None:
        names = self.draw(st.lists(_NAMES, max_size=2, unique=True))
        self.text += "{ "
        for number, name in enumerate(names):
            self.text += ", " if number else ""
            self.note((*path, name))
            self.text += f"{self.key(name)} = "
            self.value((*path, name), depth - 1)
        self.text += " }"


@st.composite
def toml_texts(draw: st.DrawFn) -> tuple[str, dict[Path, int]]:
    """A text, and the line of each key, list item and table in it."""
    writer = TomlWriter(draw)
    writer.table((), "", 3)
    return writer.text, writer.lines


def paths_of(value: Any, path: Path = ()) -> set[Path]:
    """Every path in what ``tomllib`` gives."""
    if not isinstance(value, dict | list):
        return set()
    inner = value.items() if isinstance(value, dict) else enumerate(value)
    found: set[Path] = set()
    for key, one in inner:
        found |= {(*path, key)} | paths_of(one, (*path, key))
    return found
