"""Help with lines that are not TOML: what the slip most likely is, and how to mend it."""

from __future__ import annotations

import re

from powerplan.inputs.saying import named, shown

Slip = tuple[int, str]

UNREADABLE = '"?"'

_PLACE = re.compile(r" \(at (?:line (\d+), column \d+|end of document)\)$")
_KEY_VALUE = re.compile(r"\s*([A-Za-z0-9_-]+|\"[^\"]*\"|'[^']*')\s*=\s*(.*?)\s*")
_KEY_COLON = re.compile(r"\s*([A-Za-z0-9_-]+)\s*:\s*(.*?)\s*")
_SPACED_KEY = re.compile(r"\s*[A-Za-z0-9_-]+(?: +[A-Za-z0-9_-]+)+\s*=.*")
_OPEN_HEADER = re.compile(r"\s*\[[^\[\]=#]*")
_SPACED_HEADER = re.compile(r"\s*\[[^\[\]\"'=#]* [^\[\]\"'=#]*\]\s*(?:#.*)?")
_FEET_OR_INCHES = re.compile(r"\"?\s*[0-9][0-9 ./-]*(?:'|\").*")
_STRING = re.compile(r'"(?:[^"\\]|\\.)*"|\'[^\']*\'')
_COMMENT = re.compile(r"\s*#.*$")
_CURLY = re.compile("[\u2018\u2019\u201c\u201d\u201e]")


def help_with(message: str, lines: list[str]) -> tuple[Slip, str | None]:
    """Return the line and the words for one error of the parser, and the line mended.

    Parameters
    ----------
    message : str
        What the parser said.
    lines : list of str
        The text.

    Returns
    -------
    tuple
        Line and words; and the line as it can be read, with a value that stands for what could
        not be, or None where nothing simple mends it.
    """
    place = _PLACE.search(message)
    bare = message[: place.start()] if place else message
    line = _line(bare, place, lines)
    written = lines[line - 1]
    if "twice" in bare:
        return (line, "this table is written twice; a name can be used once"), None
    if re.match("Cannot overwrite|Duplicate|Cannot mutate", bare):
        return _doubled(line, bare, written)
    pair = _KEY_VALUE.fullmatch(written)
    if pair is not None:
        words = _about_value(pair[1], pair[2], bare)
        goes_on = bare == "Unclosed array" or (pair[2].startswith("{") and "}" not in pair[2])
        mended = None if goes_on else f"{pair[1]} = {UNREADABLE}"
        return (line, f"not TOML: {words}"), mended
    words, mended = _about_line(written, bare)
    return (line, f"not TOML: {words}"), mended


def _line(bare: str, place: re.Match[str] | None, lines: list[str]) -> int:
    """Return the line of the slip, which is not always where the parser noticed it."""
    noticed = int(place[1]) if place and place[1] else len(lines)
    while noticed > 1 and not lines[noticed - 1].strip():
        noticed -= 1
    if bare == "Unclosed array":
        opened = [number for number, text in enumerate(lines[:noticed], 1) if _opens_a_list(text)]
        return opened[-1] if opened else noticed
    if bare == 'Expected "\'"':
        return _last(r"=\s*'[^']*$", lines, noticed)
    if bare == "Unterminated string":
        return _last(r"\"\"\"|'''", lines, noticed)
    return noticed


def _opens_a_list(line: str) -> bool:
    plain = _COMMENT.sub("", _STRING.sub("s", line))
    return "=" in plain and plain.count("[") > plain.count("]")


def _last(pattern: str, lines: list[str], otherwise: int) -> int:
    hits = [number for number, line in enumerate(lines, start=1) if re.search(pattern, line)]
    return hits[-1] if hits else otherwise


def _doubled(line: int, bare: str, written: str) -> tuple[Slip, str | None]:
    """A key that is there twice: the second is left out, so that the rest can be looked at."""
    inside = re.fullmatch("Duplicate inline table key '(.*)'", bare)
    pair = _KEY_VALUE.fullmatch(written)
    if pair is None:
        return (line, "this name is written twice; once is wanted"), None
    key = inside[1] if inside else pair[1].strip("\"'")
    mended = f"{pair[1]} = {UNREADABLE}" if inside else ""
    return (line, f"the key {named(key)} is written twice; once is wanted"), mended


def _about_value(key: str, value: str, bare: str) -> str:
    plain = _COMMENT.sub("", _STRING.sub("s", value)).strip()
    if not plain:
        return "a value is missing after ="
    if _CURLY.search(plain):
        return 'for quotes write the plain mark "'
    if bare == "Unclosed array":
        return "the list is not closed: ] is missing, or a comma in it"
    if value.startswith("{"):
        return _about_inline_table(value, bare)
    if _FEET_OR_INCHES.fullmatch(value):
        return 'for feet and inches write "5 ft 10 in"'
    if bare.startswith("Unescaped"):
        return r"a backslash in text is written \\"
    if re.match("Illegal|Expected [\"']|Unterminated", bare):
        return "the text is not closed on its line; a quote is missing"
    if plain.lower() in ("true", "false"):
        return f"write {plain.lower()} in small letters"
    if re.fullmatch(r"[\w+./ ()-]+", plain) and value[0] not in "\"'":
        return f'text and quantities stand in quotes: {shown(key)} = "{shown(plain)}"'
    return shown(bare[:1].lower() + bare[1:])


def _about_inline_table(value: str, bare: str) -> str:
    if "}" not in value:
        return "a table in { } stays on one line; } is missing"
    if re.search(r"[{,]\s*[\w-]+\s*:", value):
        return "write = between key and value in place of :"
    bare_value = re.search(r"=\s*([0-9.][^\",}]*)[,}]", value)
    if bare_value:
        return f'text and quantities stand in quotes: "{shown(bare_value[1].strip())}"'
    return shown(bare[:1].lower() + bare[1:])


def _about_line(written: str, bare: str) -> tuple[str, str | None]:
    colon = _KEY_COLON.fullmatch(written)
    if colon is not None:
        return "write = between key and value in place of :", f"{colon[1]} = {UNREADABLE}"
    if _SPACED_HEADER.fullmatch(written):
        return 'a name with a space stands in quotes: [row."front left"]', None
    if _OPEN_HEADER.fullmatch(written):
        return "] is missing after the name of the table", written.rstrip() + "]"
    if _SPACED_KEY.fullmatch(written):
        key, _, value = written.partition("=")
        joined = re.sub(" +", "_", key.strip())
        return "a key has no spaces; write _ in their place", f"{joined} ={value}"
    return shown(bare[:1].lower() + bare[1:]), None
