"""The JSON Schemas are fresh, take every good file, and refuse bad ones where they can."""

import copy
import json
import tomllib
from pathlib import Path
from typing import Any

import pytest
from abroad import LOUNGE
from jsonschema import Draft202012Validator
from plan_texts import EVERY_KEY, LEAST
from schemas import PLAN_FILE, RECORD, plan_file_schema, record_schema, schema_text

from powerplan.cli.main import main
from powerplan.cli.new import starter_text
from powerplan.model.codec import plan_from_plain
from powerplan.model.errors import RecordError
from powerplan.model.lengths import FOOT_M

EXAMPLES = Path(__file__).parents[2] / "examples"
PLAN = Draft202012Validator(json.loads(PLAN_FILE.read_text(encoding="utf-8")))
RECORDS = Draft202012Validator(json.loads(RECORD.read_text(encoding="utf-8")))


def document(text: str) -> dict[str, Any]:
    return tomllib.loads(text)


def record() -> dict[str, Any]:
    path = EXAMPLES / "media-loft.record.json"
    plain: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    return plain


def put(value: Any, path: tuple[str | int, ...], new: object) -> Any:
    changed = copy.deepcopy(value)
    inner = changed
    for part in path[:-1]:
        inner = inner[part]
    inner[path[-1]] = new
    return changed


def test_both_schemas_are_fresh():
    assert PLAN_FILE.read_text(encoding="utf-8") == schema_text(plan_file_schema())
    assert RECORD.read_text(encoding="utf-8") == schema_text(record_schema())


@pytest.mark.published(
    source="JSON Schema 2020-12, its own meta-schema, as jsonschema ships it",
    standing="published copy",
)
@pytest.mark.parametrize("one", [PLAN, RECORDS])
def test_both_schemas_are_schemas(one: Draft202012Validator):
    assert one.schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    Draft202012Validator.check_schema(one.schema)


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*.toml")), ids=lambda path: path.stem)
def test_every_example_is_taken(path: Path):
    PLAN.validate(document(path.read_text(encoding="utf-8")))
    of_it = path.with_suffix(".record.json")
    RECORDS.validate(json.loads(of_it.read_text(encoding="utf-8")))


@pytest.mark.parametrize("text", [EVERY_KEY, LOUNGE, LEAST.replace("[room]\n[room]", "[room]")])
def test_every_good_plan_file_is_taken(text: str):
    PLAN.validate(document(text))


def test_a_chair_of_a_spec_sheet_is_taken_without_its_measures():
    sheet = {"like": "generic-recliner", "lead": "6 ft"}
    PLAN.validate(put(document(EVERY_KEY), ("chair", "club"), sheet))
    assert not PLAN.is_valid(put(document(EVERY_KEY), ("chair", "club"), {**sheet, "clear": {}}))
    assert not PLAN.is_valid(put(document(EVERY_KEY), ("chair", "club"), {"lead": "6 ft"}))


def test_bare_millimeters_are_taken():
    bare = put(document(LOUNGE), ("room", "width"), 5600)
    PLAN.validate(put(bare, ("bare_numbers",), "mm"))


def test_the_starter_is_taken_and_its_first_line_names_the_shipped_schema():
    text = starter_text("den.toml", 5, 20 * FOOT_M, 15 * FOOT_M, "retrofit")
    PLAN.validate(document(text))
    first = text.splitlines()[0]
    assert first == f"#:schema {PLAN_FILE.resolve().as_uri()}"


@pytest.mark.parametrize(
    ("path", "bad"),
    [
        (("plan_file",), 2),
        (("romm",), {}),
        (("room", "width"), "wide"),
        (("room", "width"), "-5 m"),
        (("room", "height"), "8 ft"),
        (("bare_numbers",), "cm"),
        (("project", "units"), "feet"),
        (("project", "job"), "repair"),
        (("row", "A", "seats"), "5"),
        (("row", "A", "seats"), 0),
        (("row", "A", "seats"), 2.5),
        (("row", "A", "fastened"), "yes"),
        (("chair", "club", "input"), "240 W"),
        (("chair", "club", "input"), 1.8),
        (("chair", "club", "clear"), {"from": "9 in"}),
        (("chair", "club", "lead_from"), "the back"),
        (("chair", "club", "seat_width"), "unknown"),
        (("door", "hall", "swings"), "up"),
        (("circuit", "7", "already_on_it"), ["lamp"]),
        (("cords", "lengths"), "6 ft"),
        (("chair",), []),
    ],
)
def test_a_bad_plan_file_is_refused(path: tuple[str, ...], bad: object):
    assert not PLAN.is_valid(put(document(EVERY_KEY), path, bad))


@pytest.mark.parametrize(
    ("table", "key"), [("chair", "depth"), ("door", "wall"), ("row", "seats"), ("row", "chair")]
)
def test_a_key_that_is_needed_is_missed(table: str, key: str):
    whole = document(EVERY_KEY)
    del next(iter(whole[table].values()))[key]
    assert not PLAN.is_valid(whole)


@pytest.mark.parametrize(
    ("path", "bad"),
    [
        (("record",), 2),
        (("extra",), 1),
        (("boxes", 0, "x_m"), "1 m"),
        (("boxes", 0, "ideal_m"), [1.0]),
        (("findings", 0, "outcome"), "fine"),
        (("findings", 0, "value"), True),
        (("chairs", 0, "seat"), 1.5),
        (("decision", "steps"), {}),
        (("spec", "room", "width_m"), None),
        (("spec", "chairs", 0, "wheels"), 4),
    ],
)
def test_a_bad_record_is_refused_by_schema_and_reader_alike(path: tuple[str | int, ...], bad):
    changed = put(record(), path, bad)
    assert not RECORDS.is_valid(changed)
    with pytest.raises(RecordError):
        plan_from_plain(changed)


def test_a_key_that_came_later_may_be_missing_from_a_record():
    changed = record()
    del changed["spec"]["rows"][0]["pieces"]
    RECORDS.validate(changed)


@pytest.mark.parametrize("kind", ["plan", "record"])
def test_a_schema_is_written_out_and_never_over_a_file(kind: str, tmp_path: Path):
    file = tmp_path / "schema.json"
    assert main(["new", str(file), "--schema", kind]) == 0
    shipped = {"plan": PLAN_FILE, "record": RECORD}[kind]
    assert file.read_bytes() == shipped.read_bytes()
    assert main(["new", str(file), "--schema", kind]) == 2
