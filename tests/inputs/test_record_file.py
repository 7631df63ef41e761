"""A record is read back, and what is no record is refused in words."""

import json
from pathlib import Path

import pytest
from support import NEC, make_spec

from powerplan.inputs.record_file import looks_like_record, read_record, read_record_text
from powerplan.model.codec import to_plain
from powerplan.model.errors import RecordError
from powerplan.model.plan import Plan
from powerplan.planning.pipeline import make_plan


@pytest.fixture(scope="module")
def plan() -> Plan:
    return make_plan(make_spec(), NEC, "0" * 64)


def test_a_record_gives_the_same_plan(plan: Plan, tmp_path: Path):
    file = tmp_path / "den.json"
    file.write_text(json.dumps(to_plain(plan)), encoding="utf-8")
    assert looks_like_record(file)
    assert read_record(file) == plan


def test_a_byte_order_mark_is_no_fault(plan: Plan):
    assert read_record_text(b"\xef\xbb\xbf" + json.dumps(to_plain(plan)).encode()) == plan


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "line 1: not JSON"),
        (b'{"record": 1,\n', "line 2: not JSON"),
        (b"[]", "this is not a plan record"),
        (b"{}", "this is not a plan record"),
        (b'{"record": 2}', "record is 2; this program reads record 1"),
        (b'{"record": true}', "record is True"),
        (b'{"record": 1}', "is missing"),
        (b'{"record": 1, "record": 1}', "the key 'record' is there twice"),
        (b'{"record": 1, "a": NaN}', "NaN is not a number"),
        (b'{"record": 1, "a": -Infinity}', "-Infinity is not a number"),
        (b'{"record": 1, "\\u001b": 1}', "is not known"),
        (b'{"record": ' + b"9" * 5000 + b"}", "thousands of digits"),
        (b'{"record": 1, "a": ' + b"[" * 40 + b"]" * 40 + b"}", "nested more than 32 deep"),
        (b"[" * 200_000, "nested too deep"),
        (b'{"a":' * 100_000, "nested too deep"),
        (b"\xff\xfe{", "not UTF-8"),
        (b'{"record": "\xe9"}', "not UTF-8"),
    ],
)
def test_what_is_no_record_is_refused(data: bytes, words: str):
    with pytest.raises(RecordError) as caught:
        read_record_text(data)
    assert words in str(caught.value)
    assert str(caught.value).isprintable()


def test_a_record_of_more_than_any_size_is_refused():
    with pytest.raises(RecordError, match=r"larger than any record \(64 MB\)"):
        read_record_text(b" " * (64 * 1024**2 + 1))


def test_a_fault_names_the_file(tmp_path: Path):
    file = tmp_path / "den.json"
    file.write_text("{", encoding="utf-8")
    with pytest.raises(RecordError, match=r"den\.json: line 1: not JSON"):
        read_record(file)


def test_a_record_that_is_not_there_is_told(tmp_path: Path):
    with pytest.raises(RecordError, match=r"none\.json: cannot be read"):
        read_record(tmp_path / "none.json")


@pytest.mark.parametrize(
    ("data", "record"),
    [(b" \n{", True), (b"\xef\xbb\xbf{", True), (b"plan_file = 1", False), (b"", False),
     (b"# {", False)],
)  # fmt: skip
def test_a_record_starts_with_a_brace_and_a_plan_file_never_does(
    data: bytes, record: bool, tmp_path: Path
):
    file = tmp_path / "either"
    file.write_bytes(data)
    assert looks_like_record(file) is record
