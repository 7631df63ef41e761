"""From bytes to what TOML holds: guards first, then the parser, then help with its errors."""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from typing import Any

from powerplan.inputs.saying import named, shown
from powerplan.inputs.toml_help import Slip, help_with

MOST_BYTES = 256 * 1024
_LONGEST_LINE = 1000
_DEEPEST = 8
_MOST_SLIPS = 21

_STRING_OR_COMMENT = re.compile(r'"(?:[^"\\]|\\.)*"|\'[^\']*\'|#.*')
_DOTTED = re.compile(rf"(?<![\w-])(?:[\w-]+[ \t]*\.[ \t]*){{{_DEEPEST}}}")


@dataclass(frozen=True, slots=True, kw_only=True)
class TomlText:
    """What TOML holds. ``document`` is None where it could not be read at all.

    ``slips`` are errors of form, line and words; a value that could not be read is replaced in
    ``text``, so that the rest can be looked at in the same run.
    """

    text: str
    document: dict[str, Any] | None
    slips: tuple[Slip, ...]


def toml_text(data: bytes) -> TomlText:
    """Return what the bytes of a plan file hold, with every error of form.

    Parameters
    ----------
    data : bytes
        The whole file.
    """
    text, slip = _decoded(data)
    if slip is None:
        slip = _too_long_or_deep(text)
    if slip is not None:
        return TomlText(text=text, document=None, slips=(slip,))
    return _parsed(text)


def _decoded(data: bytes) -> tuple[str, Slip | None]:
    if len(data) > MOST_BYTES:
        return "", (1, f"the file is larger than {MOST_BYTES // 1024} kB; this is no plan file")
    if data.startswith((b"\xff\xfe", b"\xfe\xff")) or b"\x00" in data[:200]:
        return "", (1, "the file is not UTF-8 (it looks like UTF-16); save it as UTF-8")
    plain = data.removeprefix(b"\xef\xbb\xbf")
    try:
        return plain.decode("utf-8").replace("\r\n", "\n"), None
    except UnicodeDecodeError as fault:
        line = plain[: fault.start].count(b"\n") + 1
        return "", (line, "there is a character that is not UTF-8; save the file as UTF-8")


def _too_long_or_deep(text: str) -> Slip | None:
    """Refuse what would keep the parser busy for long."""
    for number, line in enumerate(text.split("\n"), start=1):
        if len(line) > _LONGEST_LINE:
            return number, f"the line is longer than {_LONGEST_LINE} characters"
        if "." in line and _DOTTED.search(_STRING_OR_COMMENT.sub("s", line)):
            return number, _too_deep()
    return None


def _too_deep() -> str:
    return f"tables are nested more than {_DEEPEST} deep; this is no plan file"


def _parsed(text: str) -> TomlText:
    """Parse; where a line cannot be read, note it, mend it if that is easy, and parse again."""
    slips: list[Slip] = []
    lines = text.split("\n")
    while len(slips) < _MOST_SLIPS:
        try:
            document = tomllib.loads("\n".join(lines))
        except tomllib.TOMLDecodeError as fault:
            (line, words), mended = help_with(str(fault), lines)
            slips.append((line, words))
            if mended is None or mended == lines[line - 1]:
                break
            lines[line - 1] = mended
        except (RecursionError, ValueError):
            slips.append((1, _too_deep()))
            break
        else:
            return _not_too_deep("\n".join(lines), document, tuple(slips))
    return TomlText(text=text, document=None, slips=tuple(slips))


def _not_too_deep(text: str, document: dict[str, Any], slips: tuple[Slip, ...]) -> TomlText:
    for name, value in document.items():
        if _is_deep(value):
            slip = (1, f"{named(shown(name))}: {_too_deep()}")
            return TomlText(text=text, document=None, slips=(*slips, slip))
    return TomlText(text=text, document=document, slips=slips)


def _is_deep(value: object) -> bool:
    left = [(value, 1)]
    while left:
        item, depth = left.pop()
        inner = item.values() if isinstance(item, dict) else item if isinstance(item, list) else ()
        if depth > _DEEPEST:
            return True
        left += [(one, depth + 1) for one in inner if isinstance(one, dict | list)]
    return False
