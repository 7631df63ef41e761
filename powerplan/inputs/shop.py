"""A shop's own kinds of chair, in a file of their own beside the plan files that use them."""

from __future__ import annotations

import hashlib
from pathlib import Path
from typing import Any, NamedTuple

from powerplan.inputs.faults import Faults, shown_file, told
from powerplan.inputs.saying import found, meant, named, shown
from powerplan.inputs.toml_text import MOST_BYTES, TomlText, toml_text
from powerplan.model.spec import FileRead

KEY = "chairs_from"
_LEVELS = ("bare_numbers", "chair")


class Shop(NamedTuple):
    """A shop's file as read: what it is called, its text, its chairs by name, and its mark."""

    name: str
    text: TomlText
    chairs: dict[str, Any]
    file: FileRead


def shop_of(document: dict[str, Any], plan_name: str, faults: Faults) -> Shop | None:
    """Return the shop's file that a plan file names, or None where it names none.

    Parameters
    ----------
    document : dict
        The plan file, as TOML has it.
    plan_name : str
        What the plan file is called; the shop's file is looked for from its folder.
    faults : Faults
        Where faults of the plan file are noted.

    Raises
    ------
    PlanFileError
        With the faults of form of the shop's file, each with its line there.
    """
    if KEY not in document:
        return None
    written = document[KEY]
    if not isinstance(written, str) or not written.strip() or not written.isprintable():
        words = f'{found(written)} is not the name of a file such as "our-chairs.toml"'
        faults.add((KEY,), words)
        return None
    path = Path(plan_name).parent / written
    try:
        with path.open("rb") as stream:
            data = stream.read(MOST_BYTES + 1)
    except (OSError, ValueError) as fault:
        why = getattr(fault, "strerror", None) or "its name cannot be used"
        faults.add((KEY,), f"{shown_file(str(path))} cannot be read: {why}")
        return None
    text = toml_text(data)
    if text.document is None or text.slips:
        raise told(str(path), list(text.slips))
    chairs = _chairs(document, text.document, str(path), text, faults)
    mark = FileRead(name=written, sha256=hashlib.sha256(data).hexdigest())
    return Shop(name=str(path), text=text, chairs=chairs, file=mark)


def _chairs(
    plan: dict[str, Any], shop: dict[str, Any], name: str, text: TomlText, faults: Faults
) -> dict[str, Any]:
    """The shop's chairs; whatever else stands in the file is a fault of it."""
    wrong = [
        (
            _line(text, key),
            f"[{shown(key)}] does not belong here; only chairs do{meant(key, _LEVELS)}",
        )
        for key in shop
        if key not in _LEVELS
    ]
    project = plan.get("project")
    inner = project.get("bare_numbers") if isinstance(project, dict) else None
    if "bare_numbers" in shop and plan.get("bare_numbers", inner) != shop["bare_numbers"]:
        words = "bare_numbers: the plan file must say the same; or write units here"
        wrong.append((_line(text, "bare_numbers"), words))
    chairs = shop.get("chair", {})
    if not isinstance(chairs, dict) or not chairs:
        wrong.append((1, "no [chair.NAME] is written here; one kind of chair is wanted at least"))
    if wrong:
        raise told(name, wrong)
    own = plan.get("chair")
    for kind in chairs:
        if isinstance(own, dict) and kind in own:
            words = f"{shown_file(name)} has a chair {named(kind)} too; give one another name"
            faults.add(("chair", kind), words)
    return dict(chairs)


def _line(text: TomlText, key: str) -> int:
    from powerplan.inputs.toml_lines import key_lines

    return key_lines(text.text).get((key,), 1)
