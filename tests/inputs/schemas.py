"""Write the JSON Schemas of the plan file and of the record: run after changing either.

The first is made from what the reader asks of a file, the second from the record's dataclasses, so
that neither can say what the program does not.
"""

from __future__ import annotations

import json
import types
import typing
from dataclasses import MISSING, fields, is_dataclass
from enum import Enum
from fractions import Fraction
from pathlib import Path
from typing import Annotated, Any

from pydantic import BaseModel, BeforeValidator, PlainValidator

from powerplan.inputs import shop, spec_sheets, tables
from powerplan.inputs import written as w
from powerplan.inputs.faults import Faults
from powerplan.inputs.fields import shape_of
from powerplan.model.plan import RECORD_VERSION, Plan

DATA = Path(__file__).parents[2] / "powerplan" / "inputs" / "data"
PLAN_FILE, RECORD = DATA / "plan-file.schema.json", DATA / "record.schema.json"

Schema = dict[str, Any]
_DIALECT = "https://json-schema.org/draft/2020-12/schema"
_UNKNOWN = {"const": "unknown"}


class _Asked(tables.PlanTables):
    """A reader of nothing, which notes every table that it asks for."""

    def __init__(self) -> None:
        self.asked: list[tuple[tuple[str | int, ...], type[BaseModel], bool]] = []
        super().__init__({}, Faults())

    def _single(self, key: str, model: Any) -> Any:
        self.asked.append(((key,), model, False))
        return super()._single(key, model)

    def _named(self, path: Any, value: object, model: Any, also: Any = ()) -> Any:
        self.asked.append((tuple(path), model, True))
        return super()._named(path, value, model, also)


def plan_file_schema() -> Schema:
    """Return the schema of the plan file."""
    defs: dict[str, Schema] = {}
    asked = _Asked().asked
    tops: dict[str, Schema] = {}
    for path, model, named in asked:
        found = _table(model, defs)
        place, *inner = path
        if place == "chair":
            found = _with(found, "part", _named_tables(_table(w.Part, defs)), defs)
            _ask(
                found,
                defs,
                ["lead", "lead_from"],
                ["supply", "lead_from"],
                said=("powered", False),
            )
            found = _measured_or_not(found, defs)
        if place == "row":
            _ask(found, defs, ["chair", "seats"], ["made_of"])
            _ask(found, defs, ["headrest_to_wall"], ["ahead_of"])
        if named:
            found = _named_tables(found)
        if inner:
            tops.setdefault(str(place), _table(w.Floor, defs))
            tops[str(place)] = _with(tops[str(place)], str(inner[0]), found, defs)
        else:
            tops[str(place)] = found
    properties: Schema = {
        "plan_file": {"const": tables.VERSION},
        "bare_numbers": {"const": "mm"},
        **_extras(),
    }
    for key in sorted(tops):
        properties[key] = tops[key]
    return {
        "$schema": _DIALECT,
        "title": "powerplan plan file",
        "description": "One room with powered reclining seats, as a plan file (TOML) has it.",
        "type": "object",
        "properties": properties,
        "required": ["plan_file", "room", "chair", "row"],
        "additionalProperties": False,
        "$defs": dict(sorted(defs.items())),
    }


def _extras() -> Schema:
    return {shop.KEY: {"type": "string", "minLength": 1}}


def _measured_or_not(measured: Schema, defs: dict[str, Schema]) -> Schema:
    """A chair with every measure, or one of a spec sheet: its size as told there, and the rest."""
    sheet = _table(w.SheetChair, defs)["$ref"].rpartition("/")[2]
    chair = defs[measured["$ref"].rpartition("/")[2]]
    rest = {k: v for k, v in chair["properties"].items() if k not in spec_sheets.MEASURES}
    defs[sheet]["properties"] = {**rest, **defs[sheet]["properties"], "measured": {"const": False}}
    said = {"properties": {"measured": {"const": False}}, "required": ["measured"]}
    return {
        "if": {"anyOf": [said, {"required": ["like"]}]},
        "then": {"$ref": f"#/$defs/{sheet}"},
        "else": measured,
    }


def _ask(
    reference: Schema,
    defs: dict[str, Schema],
    *ways: list[str],
    said: tuple[str, object] | None = None,
) -> None:
    """Ask one of several sets of keys of a table, or that it says something."""
    asked: list[Schema] = [{"required": keys} for keys in ways]
    if said is not None:
        asked.append({"properties": {said[0]: {"const": said[1]}}, "required": [said[0]]})
    table = defs[reference["$ref"].rpartition("/")[2]]
    table.setdefault("allOf", []).append({"anyOf": asked})


def _named_tables(inner: Schema) -> Schema:
    return {
        "type": "object",
        "propertyNames": {"minLength": 1, "maxLength": 40},
        "additionalProperties": inner,
    }


def _with(reference: Schema, key: str, inner: Schema, defs: dict[str, Schema]) -> Schema:
    """The same table with one more key in it."""
    defs[reference["$ref"].rpartition("/")[2]]["properties"][key] = inner
    return reference


def _table(model: type[BaseModel], defs: dict[str, Schema]) -> Schema:
    name = model.__name__
    if name not in defs:
        defs[name] = {}
        properties: Schema = {}
        required = []
        for field, info in model.model_fields.items():
            key = info.alias or field
            kind: Any = info.annotation
            for mark in reversed(info.metadata):
                kind = Annotated[kind, mark]
            told = _value(kind, defs)
            if info.description:
                told = {**told, "description": info.description}
            properties[key] = told
            if info.json_schema_extra or info.is_required():
                required.append(key)
        defs[name] = {
            "description": (model.__doc__ or name).strip(),
            "type": "object",
            "properties": properties,
            "additionalProperties": False,
        }
        if required:
            defs[name]["required"] = required
    return {"$ref": f"#/$defs/{name}"}


def _value(kind: Any, defs: dict[str, Schema]) -> Schema:
    origin = typing.get_origin(kind)
    if origin is Annotated:
        inner, *marks = typing.get_args(kind)
        for mark in reversed(marks):
            if isinstance(mark, PlainValidator):
                return dict(shape_of(mark.func))
            if isinstance(mark, BeforeValidator):
                other = shape_of(mark.func)
                others = [other] if other else []
                return {"anyOf": [_value(inner, defs), *others, _UNKNOWN]}
        return _value(inner, defs)
    if origin in (types.UnionType, typing.Union):
        parts = [_value(one, defs) for one in typing.get_args(kind) if one is not type(None)]
        return parts[0] if len(parts) == 1 else {"anyOf": parts}
    if origin is tuple:
        return {"type": "array", "items": _value(typing.get_args(kind)[0], defs)}
    if origin is dict:
        inner = _value(typing.get_args(kind)[1], defs)
        return {"type": "object", "additionalProperties": inner}
    if isinstance(kind, type) and issubclass(kind, BaseModel):
        return _table(kind, defs)
    raise TypeError(f"no schema for {kind!r}: give its reader a shape in inputs/fields.py")


def record_schema() -> Schema:
    """Return the schema of the plan record."""
    defs: dict[str, Schema] = {}
    _record_value(Plan, defs)
    top = defs.pop("Plan")
    top["properties"]["record"] = {"const": RECORD_VERSION}
    return {
        "$schema": _DIALECT,
        "title": "powerplan record",
        **top,
        "$defs": dict(sorted(defs.items())),
    }


_SCALARS = {float: "number", Fraction: "number", int: "integer", str: "string", bool: "boolean"}


def _record_value(kind: Any, defs: dict[str, Schema]) -> Schema:
    origin, args = typing.get_origin(kind), typing.get_args(kind)
    if origin in (types.UnionType, typing.Union):
        parts = [_record_value(one, defs) for one in args if one is not type(None)]
        return {"anyOf": [*parts, {"type": "null"}]}
    if origin is tuple and args[-1] is Ellipsis:
        return {"type": "array", "items": _record_value(args[0], defs)}
    if origin is tuple:
        items = [_record_value(one, defs) for one in args]
        return {"type": "array", "prefixItems": items, "items": False, "minItems": len(items)}
    if is_dataclass(kind):
        return _object(typing.cast(type, kind), defs)
    if isinstance(kind, type) and issubclass(kind, Enum):
        return {"enum": [one.value for one in kind]}
    return {"type": _SCALARS[kind]}


def _object(kind: type, defs: dict[str, Schema]) -> Schema:
    if kind.__name__ not in defs:
        defs[kind.__name__] = {}
        hints = typing.get_type_hints(kind)
        every = fields(kind)
        defs[kind.__name__] = {
            "description": " ".join((kind.__doc__ or "").split()),
            "type": "object",
            "properties": {
                one.name.rstrip("_"): _record_value(hints[one.name], defs) for one in every
            },
            "required": [one.name.rstrip("_") for one in every if one.default is MISSING],
            "additionalProperties": False,
        }
    return {"$ref": f"#/$defs/{kind.__name__}"}


def schema_text(schema: Schema) -> str:
    """Return a schema as the file has it."""
    return json.dumps(schema, indent=1, ensure_ascii=True) + "\n"


if __name__ == "__main__":
    PLAN_FILE.write_text(schema_text(plan_file_schema()), encoding="utf-8")
    RECORD.write_text(schema_text(record_schema()), encoding="utf-8")
