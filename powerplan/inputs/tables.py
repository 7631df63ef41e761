"""A plan file's tables, each read as far as it can be, with every fault noted."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from powerplan.inputs import written as w
from powerplan.inputs import written_loose as wl
from powerplan.inputs.faults import Faults, Path
from powerplan.inputs.names import name_fault
from powerplan.inputs.saying import found, meant, named, nearest, shown

M = TypeVar("M", bound=w.Written)
M_co = TypeVar("M_co", bound=w.Written, covariant=True)

VERSION = 1

_GROUPS = (
    *("door", "obstacle", "walkway", "riser", "chair", "supply", "table", "row", "circuit"),
    *("outlet", "outlet_unit", "reading"),
)
_SINGLES = ("project", "room", "floor", "new_work", "cords")
_LEVELS = ("plan_file", "bare_numbers", "chairs_from", *_SINGLES, *_GROUPS)

_WORDS = {
    "model_type": "a table such as {{ key = value }} is wanted, not {found}",
    "dict_type": "a table such as {{ key = value }} is wanted, not {found}",
    "tuple_type": "a list such as [ ... ] is wanted, not {found}",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Table(Generic[M_co]):
    """One table as read: ``it`` has None for what is left out, and for what is ``spoiled``."""

    path: Path
    it: M_co
    spoiled: frozenset[str]

    @property
    def name(self) -> str:
        """The name it was given."""
        return str(self.path[-1])

    def at(self, key: str) -> Path:
        """Return the path of one of its keys."""
        return (*self.path, key)

    def sound(self, *keys: str) -> bool:
        """True when nothing was wrong with any of these keys."""
        return not self.spoiled & set(keys)

    def has(self, *keys: str) -> bool:
        """True when all of these keys were written, are known, and could be read."""
        return all(getattr(self.it, key) is not None for key in keys)


class PlanTables:
    """Every table of a plan file, in the order of its name, digits by value."""

    def __init__(self, document: Mapping[str, Any], faults: Faults) -> None:
        self._document = document
        self._faults = faults
        self._bare = bare_numbers_of(document, faults)
        for key in document:
            if key not in _LEVELS:
                faults.add((key,), f"[{shown(key)}] is not known{meant(key, _LEVELS)}", about=())
        self.project = self._single("project", w.Project)
        self.room = self._single("room", w.Room)
        self.new_work = self._single("new_work", w.NewWork)
        self.cords = self._single("cords", w.Cords)
        self.floor, self.no_cut = self._floor()
        self.doors = self._group("door", w.Door)
        self.obstacles = self._group("obstacle", w.Floorspace)
        self.walkways = self._group("walkway", w.Floorspace)
        self.risers = self._group("riser", w.Riser)
        self.chairs, self.parts = self._chairs()
        self.tables = self._group("table", w.StandingTable)
        self.supplies = self._group("supply", wl.Supply)
        self.outlet_units = self._group("outlet_unit", wl.OutletUnit)
        self.rows = self._group("row", w.Row)
        self.circuits = self._group("circuit", w.Circuit)
        self.outlets = self._group("outlet", w.Outlet)
        self.readings = self._group("reading", w.TapeReading)

    def written(self, key: str) -> bool:
        """True when the file has this table."""
        return key in self._document

    def _single(self, key: str, model: type[M]) -> Table[M]:
        value = self._document.get(key, {})
        if key == "room" and "room" not in self._document:
            self._faults.add(
                (), "[room] is missing: the table with its width and depth, or its corners"
            )
            return _nothing_sound((key,), model)
        return read_table((key,), value, model, self._faults, bare=self._bare)

    def _floor(self) -> tuple[Table[w.Floor], tuple[Table[w.Floorspace], ...]]:
        value = self._document.get("floor", {})
        if not isinstance(value, dict):
            return read_table(("floor",), value, w.Floor, self._faults), ()
        plain = {key: inner for key, inner in value.items() if key != "no_cut"}
        table = read_table(("floor",), plain, w.Floor, self._faults, ("no_cut",), self._bare)
        no_cut = self._named(("floor", "no_cut"), value.get("no_cut", {}), w.Floorspace)
        return table, no_cut

    def _chairs(self) -> tuple[tuple[Table[w.Chair], ...], dict[str, tuple[Table[w.Part], ...]]]:
        """Every kind of chair, and the moving parts of each by its name."""
        value = self._document.get("chair", {})
        plain, parts = value, {}
        if isinstance(value, dict) and all(isinstance(one, dict) for one in value.values()):
            plain = {
                name: {key: inner for key, inner in one.items() if key != "part"}
                for name, one in value.items()
            }
            parts = {
                name: self._named(("chair", name, "part"), one["part"], w.Part)
                for name, one in value.items()
                if "part" in one
            }
        return self._named(("chair",), plain, w.Chair, ("part",)), parts

    def _group(self, key: str, model: type[M]) -> tuple[Table[M], ...]:
        return self._named((key,), self._document.get(key, {}), model)

    def _named(
        self, path: Path, value: object, model: type[M], also: tuple[str, ...] = ()
    ) -> tuple[Table[M], ...]:
        wanted = f"[{'.'.join(str(part) for part in path)}.NAME]"
        if isinstance(value, list):
            self._faults.add(path, f"write {wanted}, with a name of your own, in place of [[ ]]")
            return ()
        if not isinstance(value, dict) or not all(isinstance(one, dict) for one in value.values()):
            self._faults.add(path, f"a table with a name of your own is wanted: {wanted}")
            return ()
        tables = []
        for name in sorted(value, key=natural):
            words = name_fault(str(path[-1]), name)
            if words is not None:
                self._faults.add((*path, name), words)
            tables.append(
                read_table((*path, name), value[name], model, self._faults, also, self._bare)
            )
        return tuple(tables)


def bare_numbers_of(document: Mapping[str, Any], faults: Faults) -> str | None:
    """Return what numbers without a unit are: "mm", or None where the file does not say."""
    project = document.get("project")
    inner = project.get("bare_numbers") if isinstance(project, dict) else None
    if "bare_numbers" not in document:
        return "mm" if inner == "mm" else None
    said = document["bare_numbers"]
    if said != "mm":
        faults.add(
            ("bare_numbers",), f'{found(said)} is not "mm", the only unit that may be left out'
        )
    return "mm"


def natural(name: str) -> tuple[list[tuple[int, int, str]], str]:
    """Return a key that sorts names with their digits by value: 2 before 10."""
    parts = re.findall(r"[0-9]+|[^0-9]+", name)
    key = [(0, int(part), "") if part[0] in "0123456789" else (1, 0, part) for part in parts]
    return key, name


def read_table(
    path: Path,
    value: object,
    model: type[M],
    faults: Faults,
    also: tuple[str, ...] = (),
    bare: str | None = None,
) -> Table[M]:
    """Return a table as far as it can be read, noting what is wrong with it.

    Parameters
    ----------
    path : tuple
        Where it stands.
    value : object
        What TOML has there.
    model : type
        What it should be.
    faults : Faults
        Where faults are noted.
    also : tuple of str
        Keys that are read elsewhere, for "did you mean".
    bare : str, optional
        "mm" where a length without a unit is in millimeters.
    """
    if not isinstance(value, dict):
        faults.add(path, f"a table [{shown(path[-1])}] is wanted, not {found(value)}")
        return _nothing_sound(path, model)
    spoiled: set[str] = set()
    context = {"bare_numbers": bare}
    try:
        it = model.model_validate(value, context=context)
    except ValidationError as error:
        for detail in error.errors(include_url=False):
            spoiled |= _note(path, detail, value, model, faults, also)
        fitting = {k: v for k, v in value.items() if _fits(k, model, spoiled)}
        it = model.model_validate(fitting, context=context)
    for name, field in model.model_fields.items():
        if field.json_schema_extra and name not in value and name not in spoiled:
            faults.add(path, f"{name} is missing: {field.description}")
            spoiled.add(name)
    return Table(path=path, it=it, spoiled=frozenset(spoiled))


def _fits(key: str, model: type[w.Written], spoiled: set[str]) -> bool:
    return key in model.model_fields and key not in spoiled


def _nothing_sound(path: Path, model: type[M]) -> Table[M]:
    return Table(path=path, it=model(), spoiled=frozenset(model.model_fields))


def _note(
    path: Path,
    detail: ErrorDetails,
    value: dict[str, Any],
    model: type[w.Written],
    faults: Faults,
    also: tuple[str, ...],
) -> set[str]:
    """Note one fault in our own words; return the keys that cannot be used because of it."""
    place, kind = detail["loc"], detail["type"]
    inner, inside = _model_at(place, model), _value_at(place, value)
    key = str(place[-1])
    if kind == "extra_forbidden":
        known = (*_keys(inner), *(also if len(place) == 1 else ()))
        words = f"the key {named(key)} is not known{meant(key, known)}"
        faults.add((*path, *place), words, about=(*path, *place[:-1]))
        close = nearest(key, known)
        return {str(place[0])} if len(place) > 1 else {close} if close else set()
    if kind == "missing":
        slips = [one for one in inside if one not in _keys(inner)]
        if not any(nearest(one, _keys(inner)) == key for one in slips):
            faults.add((*path, *place[:-1]), f"{key} is missing: {_hint(inner, key)}")
    else:
        faults.add((*path, *place), _words(detail))
    return {str(place[0])}


def _words(detail: ErrorDetails) -> str:
    cause = detail.get("ctx", {}).get("error")
    if detail["type"] == "value_error" and cause is not None:
        return str(cause)
    pattern = _WORDS.get(detail["type"], "{found} is not what is wanted here")
    return pattern.format(found=found(detail["input"]))


def _model_at(place: tuple[int | str, ...], model: type[w.Written]) -> type[w.Written]:
    return model.inner.get(str(place[0]), model) if len(place) > 1 else model


def _value_at(place: tuple[int | str, ...], value: dict[str, Any]) -> dict[str, Any]:
    inner = value.get(str(place[0]), {}) if len(place) > 1 else value
    return inner if isinstance(inner, dict) else {}


def _keys(model: type[w.Written]) -> tuple[str, ...]:
    return tuple(field.alias or name for name, field in model.model_fields.items())


def _hint(model: type[w.Written], key: str) -> str:
    hints = {field.alias or name: field for name, field in model.model_fields.items()}
    return hints[key].description or "it is wanted here"
