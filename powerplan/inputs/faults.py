"""Every fault of one plan file, gathered, each with its place."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from powerplan.inputs.saying import named, shown
from powerplan.model.errors import PlanFileError
from powerplan.model.lengths import plural

Path = tuple[str | int, ...]

_MOST = 20
_NAMED_TABLES = frozenset(
    {
        "door",
        "obstacle",
        "walkway",
        "riser",
        "chair",
        "table",
        "row",
        "circuit",
        "outlet",
        "reading",
        "supply",
        "outlet_unit",
    }
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One fault: the path whose line it is at, the place as told, and the words."""

    path: Path
    place: str
    words: str


class Faults:
    """A list of faults that only grows while a file is read."""

    def __init__(self) -> None:
        self._found: list[Fault] = []

    def __bool__(self) -> bool:
        return bool(self._found)

    def add(self, path: Path, words: str, about: Path | None = None) -> None:
        """Note a fault at a key, or at a table for what is missing in it.

        Parameters
        ----------
        path : tuple
            Whose line is told.
        words : str
            What was found and what is wanted.
        about : tuple, optional
            The place as told, where it is not the path itself.
        """
        place = where(path if about is None else about)
        self._found.append(Fault(path=path, place=place, words=words))

    @property
    def found(self) -> tuple[Fault, ...]:
        """All that was noted so far, in the order of noting."""
        return tuple(self._found)


def where(path: Path) -> str:
    """Return the words for a place: ``chair 'club': clear.from``."""
    if path[:2] == ("floor", "no_cut") and len(path) > 2:
        head, rest = f"no_cut {named(path[2])}", path[3:]
    elif path[:2] == ("room", "corner") and len(path) > 2 and isinstance(path[2], int):
        head, rest = f"room: corner {path[2] + 1}", path[3:]
    elif path and path[0] in _NAMED_TABLES and len(path) > 1:
        head, rest = f"{str(path[0]).replace('_', ' ')} {named(path[1])}", path[2:]
    else:
        head, rest = (shown(path[0]), path[1:]) if path else ("", ())
    key = ""
    for part in rest:
        numbered = isinstance(part, int)
        key += f"[{part}]" if numbered else f"{'.' if key else ''}{shown(part)}"
    return ": ".join(part for part in (head, key) if part)


def line_of(path: Path, lines: Mapping[Path, int]) -> int:
    """Return the line of a key, or of the nearest table around it that is written."""
    for length in range(len(path), 0, -1):
        if path[:length] in lines:
            return lines[path[:length]]
    return 1


def told(name: str, placed: list[tuple[int, str]]) -> PlanFileError:
    """Return the error that tells faults in the order of their lines, at most twenty and a count.

    Parameters
    ----------
    name : str
        What the file is called.
    placed : list of (int, str)
        Line, and words.
    """
    ordered = sorted(dict.fromkeys(placed), key=lambda fault: fault[0])
    sentences = [f"{shown_file(name)}:{line}: {words}" for line, words in ordered[:_MOST]]
    if len(ordered) > _MOST:
        sentences.append(f"{shown_file(name)}: and {plural(len(ordered) - _MOST, 'fault')} more")
    return PlanFileError(sentences)


def shown_file(name: str) -> str:
    """Return a file's name without characters that do not print, however long."""
    return "".join(char if char.isprintable() else "?" for char in name)
