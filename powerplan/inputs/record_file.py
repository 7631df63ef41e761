"""Read a plan record back, with guards against what is no record at all."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from powerplan.inputs.faults import shown_file
from powerplan.inputs.saying import named, shown
from powerplan.model.codec import plan_from_plain
from powerplan.model.errors import RecordError
from powerplan.model.plan import Plan

_MOST_BYTES = 64 * 1024 * 1024
_DEEPEST = 32
_START = 4096


def looks_like_record(path: Path) -> bool:
    """Return True when a file starts as JSON does; a plan file never starts with a brace.

    Parameters
    ----------
    path : Path
        Any file; an OSError of opening it is passed on.
    """
    with path.open("rb") as stream:
        start = stream.read(_START)
    return start.removeprefix(b"\xef\xbb\xbf").lstrip().startswith(b"{")


def read_record(path: Path) -> Plan:
    """Return the plan that a record holds.

    Parameters
    ----------
    path : Path
        The record, JSON.

    Raises
    ------
    RecordError
        Naming the file and the first thing that is wrong with it.
    """
    name = shown_file(str(path))
    try:
        with path.open("rb") as stream:
            data = stream.read(_MOST_BYTES + 1)
    except (OSError, ValueError) as fault:
        why = getattr(fault, "strerror", None) or "its name cannot be used"
        raise RecordError(f"{name}: cannot be read: {why}") from None
    try:
        return read_record_text(data)
    except RecordError as fault:
        raise RecordError(f"{name}: {fault}") from None


def read_record_text(data: bytes) -> Plan:
    """Return the plan that the bytes of a record hold.

    Parameters
    ----------
    data : bytes
        The whole record.

    Raises
    ------
    RecordError
        Naming the first thing that is wrong with it.
    """
    value = _json(data)
    if _is_deep(value):
        raise RecordError(f"it is nested more than {_DEEPEST} deep; this is no plan record")
    return plan_from_plain(value)


def _json(data: bytes) -> Any:
    if len(data) > _MOST_BYTES:
        raise RecordError(f"larger than any record ({_MOST_BYTES // 1024**2} MB)")
    try:
        text = data.removeprefix(b"\xef\xbb\xbf").decode("utf-8")
        return json.loads(text, parse_constant=_refuse_constant, object_pairs_hook=_once_each)
    except UnicodeDecodeError:
        raise RecordError("it is not UTF-8; a record is written as UTF-8") from None
    except json.JSONDecodeError as fault:
        raise RecordError(f"line {fault.lineno}: not JSON: {shown(fault.msg)}") from None
    except RecursionError:
        raise RecordError("it is nested too deep; this is no plan record") from None
    except RecordError:
        raise
    except ValueError:
        raise RecordError("it holds a number of thousands of digits") from None


def _refuse_constant(word: str) -> float:
    raise RecordError(f"{word} is not a number; a record has none of these")


def _once_each(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    seen: dict[str, Any] = {}
    for key, value in pairs:
        if key in seen:
            raise RecordError(f"the key {named(key)} is there twice in one object")
        seen[key] = value
    return seen


def _is_deep(value: object) -> bool:
    left = [(value, 1)]
    while left:
        item, depth = left.pop()
        if depth > _DEEPEST:
            return True
        inner = item.values() if isinstance(item, dict) else item if isinstance(item, list) else ()
        left += [(one, depth + 1) for one in inner if isinstance(one, dict | list)]
    return False
