"""Read a plan file: every fault in one run, or a spec."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from powerplan.inputs.faults import Fault, Faults, line_of, shown_file, told
from powerplan.inputs.reader import RulesFor, spec_of, usual_or
from powerplan.inputs.saying import found
from powerplan.inputs.shop import KEY, Shop, shop_of
from powerplan.inputs.spec_sheets import from_sheets
from powerplan.inputs.tables import VERSION, PlanTables, bare_numbers_of
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
    spec, shop = None, None
    if _is_this_version(read.document, faults):
        shop = shop_of(read.document, name, faults)
        spec = _spec(read.document, shop, Path(name).stem, rules_for, faults)
    if spec is None or read.slips:
        raise _all_told(name, read, shop, faults)
    return ReadPlan(spec=spec, sha256=hashlib.sha256(data).hexdigest())


def _spec(
    document: dict[str, Any], shop: Shop | None, stem: str, rules_for: RulesFor, faults: Faults
) -> PlanSpec | None:
    """The spec of a document, with the shop's chairs and every spec sheet filled in."""
    if shop is not None:
        own = document.get("chair", {})
        document = {**document, "chair": {**shop.chairs, **own} if isinstance(own, dict) else own}
    elif KEY in document:
        document = {"chair": {}, **document}  # why there is none is told already
    project = document.get("project")
    said = project if isinstance(project, dict) else {}
    rules = usual_or(said.get("rules"), rules_for)
    units = said["units"] if said.get("units") in ("ft-in", "in", "mm", "m") else rules.units
    bare = bare_numbers_of(document, Faults())
    sheets = from_sheets(document, rules, bare, units, faults)
    tables = PlanTables(sheets.document, faults)
    spec = spec_of(tables, stem, rules_for, faults)
    if spec is None:
        return None
    spec = replace(spec, assumed=(*spec.assumed, *sheets.assumed))
    return spec if shop is None else _with_used(spec, shop)


def _with_used(spec: PlanSpec, shop: Shop) -> PlanSpec:
    """The spec with those of the shop's chairs that the plan uses, and the file's mark."""
    used = {row.chair for row in spec.rows}
    used |= {piece.kind for row in spec.rows for piece in row.pieces if piece.kind}
    idle = {f"chair {name}" for name in shop.chairs if name not in used}
    return replace(
        spec,
        chairs=tuple(kind for kind in spec.chairs if f"chair {kind.id}" not in idle),
        assumed=tuple(one for one in spec.assumed if one.subject not in idle),
        files=(shop.file,),
    )


def _all_told(name: str, read: TomlText, shop: Shop | None, faults: Faults) -> PlanFileError:
    """Every fault, each with its line in the file that it stands in."""
    if shop is None:
        return told(name, _placed(read, faults.found))
    own = read.document.get("chair") if read.document else None
    mine = set(own) if isinstance(own, dict) else set()
    theirs = [
        fault
        for fault in faults.found
        if fault.path[:1] == ("chair",) and len(fault.path) > 1 and fault.path[1] not in mine
    ]
    ours = [fault for fault in faults.found if fault not in theirs]
    sentences = list(told(name, _placed(read, ours)).faults) if ours or read.slips else []
    if theirs:
        sentences += told(shop.name, _placed(shop.text, theirs)).faults
    return PlanFileError(list(sentences))


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


def _placed(read: TomlText, faults: Iterable[Fault]) -> list[tuple[int, str]]:
    """Return every fault with its line; a line that is not TOML has only that one."""
    lines = key_lines(read.text)
    unreadable = {line for line, _ in read.slips}
    placed = list(read.slips)
    for fault in faults:
        line = line_of(fault.path, lines)
        if line not in unreadable:
            placed.append((line, ": ".join(part for part in (fault.place, fault.words) if part)))
    return placed
