"""Issued sets of sheets: a folder for each revision, put there whole or not at all, and kept."""

from __future__ import annotations

import os
import re
import shutil
from collections.abc import Mapping
from pathlib import Path

from powerplan.cli.deliver import OutputError

RECORD = "record.json"
_REVISION = re.compile(r"revision-([A-Z]{1,2})")


class RevisionTakenError(OutputError):
    """A revision that is issued already, and is never written over."""


def newest_revision(folder: Path) -> str | None:
    """Return the letter of the newest issued set in a folder, None where there is none."""
    try:
        names = [_REVISION.fullmatch(entry.name) for entry in folder.iterdir()]
    except (FileNotFoundError, NotADirectoryError):
        return None
    letters = [name.group(1) for name in names if name is not None]
    return max(letters, key=_place, default=None)


def next_revision(letter: str | None) -> str:
    """Return the letter that follows: A after nothing, B after A, AA after Z.

    Raises
    ------
    OutputError
        If ZZ is issued already.
    """
    number = 0 if letter is None else _place(letter) + 1
    if number >= 26 * 27:
        raise OutputError("revision ZZ is issued already; use a new folder")
    first, last = divmod(number, 26)
    return (chr(64 + first) if first else "") + chr(65 + last)


def _place(letter: str) -> int:
    """The place of a revision in their order: A is 0, Z 25, AA 26."""
    number = 0
    for char in letter:
        number = number * 26 + ord(char) - 64
    return number - 1


def revision_folder(folder: Path, letter: str) -> Path:
    """Return where the set of a revision is kept."""
    return folder / f"revision-{letter}"


def is_unchanged(folder: Path, letter: str, record: bytes) -> bool:
    """Return whether an issued set was made from the same plan by the same program.

    Parameters
    ----------
    folder : Path
        Where sets are kept.
    letter : str
        The revision to look at.
    record : bytes
        The record of the plan as it is now, which names the plan file's hash and the program.
    """
    try:
        return (revision_folder(folder, letter) / RECORD).read_bytes() == record
    except OSError:
        return False


def issue(folder: Path, letter: str, files: Mapping[str, bytes]) -> Path:
    """Write a set aside and move it into place as one; return where it is.

    Parameters
    ----------
    folder : Path
        Where sets are kept; made where it is not there.
    letter : str
        The revision.
    files : mapping of str to bytes
        Every file of the set, by its name, folders in it included.

    Raises
    ------
    RevisionTakenError
        If that revision is there already.
    OutputError
        If the set cannot be written; then everything is as it was.
    """
    target = revision_folder(folder, letter)
    made: list[Path] = []
    try:
        try:
            made = _make(folder)
            _refuse_taken(target, letter)
            _write_aside(folder, target, files)
        except BaseException:
            for new in made:  # the deepest first; only what is empty goes
                _remove_empty(new)
            raise
    except RevisionTakenError:
        raise
    except OSError as fault:
        raise OutputError(f"cannot write {target}: {fault.strerror or fault}") from None
    return target


def _refuse_taken(target: Path, letter: str) -> None:
    if os.path.lexists(target):
        raise RevisionTakenError(
            f"{target} is issued already and is left as it is; leave out --revision {letter} "
            "for the next letter"
        )


def _write_aside(folder: Path, target: Path, files: Mapping[str, bytes]) -> None:
    aside = _new_folder(folder)
    try:
        for name, data in files.items():
            (aside / name).parent.mkdir(parents=True, exist_ok=True)
            with (aside / name).open("xb") as stream:
                stream.write(data)
                stream.flush()
                os.fsync(stream.fileno())
        aside.rename(target)
    except BaseException:
        shutil.rmtree(aside, ignore_errors=True)
        raise


def _new_folder(folder: Path) -> Path:
    """Make a hidden folder that was not there; one that a killed run left behind is passed by."""
    number = 0
    while True:
        aside = folder / f".powerplan-{os.getpid()}-{number}.part"
        try:
            aside.mkdir()
        except FileExistsError:
            number += 1
        else:
            return aside


def _make(folder: Path) -> list[Path]:
    """Make a folder and those above it; return what was made, the deepest first."""
    missing = []
    place = folder
    while not place.exists() and place != place.parent:
        missing.append(place)
        place = place.parent
    folder.mkdir(parents=True, exist_ok=True)
    return missing


def _remove_empty(folder: Path) -> None:
    try:
        folder.rmdir()
    except OSError:
        return
