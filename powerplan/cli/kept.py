"""What a set keeps of what was read: the plan file, and the files beside it that it names.

Both lie in the set as they lay to each other, so that the kept plan file can be planned again.
"""

from __future__ import annotations

import hashlib
import os
from collections.abc import Collection
from itertools import chain, count
from pathlib import Path, PurePosixPath

from powerplan.cli.deliver import OutputError
from powerplan.model.plan import Plan

_COPY = "plan.toml"
_FOLDER = "plan-file"


def kept_files(path: Path, plan: Plan, others: Collection[str]) -> dict[str, bytes]:
    """Return the plan file and what it names, each by its place in the set.

    The plan file lies in folders of its own where what it names lies above it, or would take the
    place of another file of the set. Of a file that is named by its whole path a copy is kept; the
    plan goes on finding the one that it names.

    Parameters
    ----------
    path : Path
        The plan file.
    plan : Plan
        What was planned from it.
    others : collection of str
        The names of the set's own files.

    Raises
    ------
    OutputError
        If a file changed meanwhile, or can no longer be read.
    """
    names = [file.name for file in plan.spec.files]
    home = _home([name for name in names if not _is_whole(name)], set(map(str.casefold, others)))
    kept: dict[str, bytes] = {}
    for file in plan.spec.files:
        data = _as_read(path.parent / file.name, file.sha256)
        if _is_whole(file.name):
            kept[_free(_FOLDER, [Path(file.name).name], (*kept, *others))] = data
        else:
            kept[_place(home, file.name)] = data
    copy = _free(home, [_COPY, path.name], (*kept, *others))
    return {copy: _as_read(path, plan.plan_file_sha256), **kept}


def _free(home: str, names: list[str], taken: Collection[str]) -> str:
    """A place in a folder of the set that nothing has taken: the first name that is free, else the
    last with a number."""
    full = {name.casefold() for name in taken}
    stem, end = os.path.splitext(names[-1])
    numbered = (f"{stem}-{number}{end}" for number in count(2))
    places = (_place(home, name) for name in chain(names, numbered))
    return next(place for place in places if place.casefold() not in full)


def _is_whole(name: str) -> bool:
    return os.path.isabs(name) or bool(os.path.splitdrive(name)[0])


def _home(names: list[str], others: set[str]) -> str:
    """The folder of the set in which the plan file lies; "" is the set's own."""
    above = max((_above(name) for name in names), default=0)
    if above == 0 and not any(_place("", name).casefold() in others for name in names):
        return ""
    return "/".join([_FOLDER] * (above + 1))


def _above(name: str) -> int:
    """How many folders up a name leads at most."""
    parts = PurePosixPath(_place("", name)).parts
    return sum(part == ".." for part in parts)


def _place(home: str, name: str) -> str:
    """Where a file that is named from a folder lies, with no detours."""
    return os.path.normpath(os.path.join(home, name)).replace(os.sep, "/")


def _as_read(path: Path, sha256: str) -> bytes:
    """A file, byte for byte as it was planned."""
    try:
        data = path.read_bytes()
    except OSError as fault:
        raise OutputError(f"cannot read {path} again: {fault.strerror or fault}") from None
    if hashlib.sha256(data).hexdigest() != sha256:
        raise OutputError(f"{path} changed while it was being planned; nothing is written")
    return data
