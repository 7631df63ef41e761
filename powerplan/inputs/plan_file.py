"""Read a plan file: every fault in one run, or a spec."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from powerplan.inputs.faults import Faults, line_of, shown_file, told
from powerplan.inputs.reader import RulesFor, spec_of
from powerplan.inputs.saying import found
from powerplan.inputs.tables import VERSION, PlanTables
from powerplan.inputs.toml_lines import key_lines
from powerplan.inputs.toml_text import MOST_BYTES, TomlText, toml_text
from powerplan.model.errors import PlanFileError
from powerplan.model.spec import PlanSpec


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadPlan:
    """A plan as read, and the SHA-256 of the bytes it was read from."""

    spec: PlanSpec
    sha256: str


def read_plan_file(path: Path, rules_for: RulesFor) -> ReadPlan:
    """Return the plan that a file holds.

    Parameters
    ----------
    path : Path
        The plan file.
    rules_for : callable
        Gives a rule set by name, or raises a RulebookError.

    Raises
    ------
    PlanFileError
        With every fault found, each with its line.
    """
    name = shown_file(str(path))
    try:
        with path.open("rb") as stream:
            data = stream.read(MOST_BYTES + 1)
    except IsADirectoryError:
        raise PlanFileError([f"{name}: this is a folder; a plan file is wanted"]) from None
    except (OSError, ValueError) as fault:
        why = getattr(fault, "strerror", None) or "its name cannot be used"
        raise PlanFileError([f"{name}: cannot be read: {why}"]) from None
    return read_plan_text(data, str(path), rules_for)


def read_plan_text(data: bytes, name: str, rules_for: RulesFor) -> ReadPlan:
    """Return the plan that the bytes of a file hold.

    Parameters
    ----------
    data : bytes
        The whole file.
    name : str
        What it is called, for messages.
    rules_for : callable
        Gives a rule set by name, or raises a RulebookError.

    Raises
    ------
    PlanFileError
        With every fault found, each with its line.
    """
    read = toml_text(data)
    if read.document is None:
        raise told(name, list(read.slips))
    faults = Faults()
    spec = None
    if _is_this_version(read.document, faults):
        tables = PlanTables(read.document, faults)
        spec = spec_of(tables, Path(name).stem, rules_for, faults)
    if spec is None or read.slips:
        raise told(name, _placed(read, faults))
    return ReadPlan(spec=spec, sha256=hashlib.sha256(data).hexdigest())


def _is_this_version(document: dict[str, Any], faults: Faults) -> bool:
    """Note a version that is missing; only another version makes the rest unreadable."""
    wanted = f"plan_file = {VERSION}"
    if "plan_file" not in document:
        faults.add((), f"plan_file is missing; the first line wanted is: {wanted}")
        return True
    version = document["plan_file"]
    if type(version) is int and version == VERSION:
        return True
    faults.add(("plan_file",), f"{found(version)} is not known; this program reads {wanted}")
    return False


def _placed(read: TomlText, faults: Faults) -> list[tuple[int, str]]:
    """Return every fault with its line; a line that is not TOML has only that one."""
    lines = key_lines(read.text)
    unreadable = {line for line, _ in read.slips}
    placed = list(read.slips)
    for fault in faults.found:
        line = line_of(fault.path, lines)
        if line not in unreadable:
            placed.append((line, ": ".join(part for part in (fault.place, fault.words) if part)))
    return placed
