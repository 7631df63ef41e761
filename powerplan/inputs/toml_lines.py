"""Which line each key of a TOML text stands on.

The text has been accepted by ``tomllib``, so the scanner only has to find its way, not to judge.
"""

from __future__ import annotations

import tomllib
from bisect import bisect_left

Path = tuple[str | int, ...]

_BARE_KEY = frozenset("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789_-")
_BETWEEN = " \t\n"


def key_lines(text: str) -> dict[Path, int]:
    """Return the line of every table, key and list item.

    Parameters
    ----------
    text : str
        TOML that ``tomllib`` accepts, with line feeds alone between lines.

    Returns
    -------
    dict of tuple to int
        Path of names and list positions to line, the first being 1. A table that is only implied
        has the line where it is implied first.
    """
    return _Scanner(text).scan()


class _Scanner:
    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.lines: dict[Path, int] = {}
        self.last_item: dict[Path, int] = {}
        self.breaks = [place for place, char in enumerate(text) if char == "\n"]

    def scan(self) -> dict[Path, int]:
        table: Path = ()
        while self._skip_space() < len(self.text):
            if self.text.startswith("[[", self.at):
                table = self._list_header()
            elif self.text[self.at] == "[":
                table = self._header()
            else:
                self._key_and_value(table)
        return self.lines

    def _line(self) -> int:
        return bisect_left(self.breaks, self.at) + 1

    def _note(self, path: Path, line: int, *, over: bool = False) -> None:
        for length in range(1, len(path)):
            self.lines.setdefault(path[:length], line)
        if over:
            self.lines[path] = line
        else:
            self.lines.setdefault(path, line)

    def _skip_space(self) -> int:
        """Go past space, line ends and comments; return where that is."""
        while self.at < len(self.text):
            if self.text[self.at] == "#":
                end = self.text.find("\n", self.at)
                self.at = len(self.text) if end < 0 else end
            elif self.text[self.at] in _BETWEEN:
                self.at += 1
            else:
                break
        return self.at

    def _header(self) -> Path:
        line = self._line()
        self.at += 1
        path = self._resolved(self._key())
        self.at += 1
        self._note(path, line, over=True)
        return path

    def _list_header(self) -> Path:
        line = self._line()
        self.at += 2
        *outer, name = self._key()
        self.at += 2
        path = (*self._resolved(outer), name)
        number = self.last_item.get(path, -1) + 1
        self.last_item[path] = number
        self._note((*path, number), line)
        return (*path, number)

    def _resolved(self, names: list[str]) -> Path:
        """Return the path of a table, in the last item of each list of tables on the way."""
        path: Path = ()
        for name in names:
            path = (*path, name)
            if path in self.last_item:
                path = (*path, self.last_item[path])
        return path

    def _key(self) -> list[str]:
        """Read a key with its dots, up to the ``=`` or ``]`` after it."""
        names = []
        while True:
            self._skip_space()
            start = self.at
            if self.text[start] in "\"'":
                self._string()
                names.append(tomllib.loads(f"k = {self.text[start : self.at]}")["k"])
            else:
                while self.text[self.at] in _BARE_KEY:
                    self.at += 1
                names.append(self.text[start : self.at])
            self._skip_space()
            if self.text[self.at] != ".":
                return names
            self.at += 1

    def _key_and_value(self, table: Path) -> None:
        line = self._line()
        path = (*table, *self._key())
        self.at += 1
        self._note(path, line)
        self._value(path)

    def _value(self, path: Path) -> None:
        self._skip_space()
        char = self.text[self.at]
        if char in "\"'":
            self._string()
        elif char == "[":
            self._list(path)
        elif char == "{":
            self._inline_table(path)
        else:
            while self.at < len(self.text) and self.text[self.at] not in ",]}#\n":
                self.at += 1

    def _list(self, path: Path) -> None:
        self.at += 1
        number = 0
        while True:
            self._skip_space()
            if self.text[self.at] == "]":
                break
            if self.text[self.at] == ",":
                self.at += 1
                continue
            self._note((*path, number), self._line())
            self._value((*path, number))
            number += 1
        self.at += 1

    def _inline_table(self, path: Path) -> None:
        self.at += 1
        while True:
            self._skip_space()
            if self.text[self.at] == "}":
                break
            if self.text[self.at] == ",":
                self.at += 1
                continue
            self._key_and_value(path)
        self.at += 1

    def _string(self) -> None:
        """Go past a string of any of the four kinds."""
        mark = self.text[self.at]
        whole = mark * 3 if self.text.startswith(mark * 3, self.at) else mark
        self.at += len(whole)
        while not self.text.startswith(whole, self.at):
            self.at += 2 if mark == '"' and self.text[self.at] == "\\" else 1
        self.at += len(whole)
        if len(whole) == 3:  # up to two marks may stand before the closing three
            for _ in range(2):
                if self.text.startswith(mark, self.at):
                    self.at += 1
