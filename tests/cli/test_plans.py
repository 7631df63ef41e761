"""From a starter file to three answers, and back through the judge."""

import errno
import json
import os
import tomllib
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from powerplan.cli import deliver as delivery
from powerplan.cli.main import main
from powerplan.cli.new import starter_text
from powerplan.model.codec import plan_from_plain
from powerplan.model.lengths import FOOT_M
from powerplan.model.plan import CAUTION, Plan
from powerplan.planning import pipeline
from powerplan.sheets.writers.json import record_text

VIEWS = ([], ["decide"], ["mark"], ["cords"], ["check"])


@pytest.fixture
def den(tmp_path: Path) -> Path:
    """A starter plan of two chairs."""
    file = tmp_path / "den.toml"
    assert main(["new", str(file), "--chairs", "2"]) == 0
    return file


def saved(den: Path) -> Path:
    """The record of a plan."""
    record = den.with_suffix(".json")
    assert main([str(den), "--format", "json", "-o", str(record)]) in (0, 4)
    return record


def test_new_says_what_to_do_next_and_prints_no_data(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
):
    file = tmp_path / "den.toml"
    assert main(["new", str(file)]) == 0
    out, err = capsys.readouterr()
    assert out == ""
    assert f"Next: powerplan {file}" in err


def test_new_never_writes_over_a_file(den: Path, capsys: pytest.CaptureFixture[str]):
    before = den.read_bytes()
    assert main(["new", str(den), "--chairs", "5"]) == 2
    assert "is left as it is" in capsys.readouterr().err
    assert den.read_bytes() == before


def test_new_takes_its_options(tmp_path: Path):
    file = tmp_path / "den.toml"
    words = ["--chairs", "3", "--width", "18 ft", "--depth", "4.5 m", "--job", "new"]
    assert main(["new", str(file), *words]) == 0
    told = tomllib.loads(file.read_text("utf-8"))
    assert told["row"]["A"]["seats"] == 3
    assert told["room"] == {"width": "18 ft", "depth": "14 ft 9 1/8 in"}
    assert told["project"]["job"] == "new"
    assert "circuit" not in told


@pytest.mark.parametrize("width", ["18", "2 ft", "900 ft", "wide"])
def test_new_refuses_a_room_that_cannot_be(
    width: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
):
    assert main(["new", str(tmp_path / "den.toml"), "--width", width]) == 2
    assert "--width" in capsys.readouterr().err
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("job", ["retrofit", "new"])
@pytest.mark.parametrize("chairs", [1, 5, 12])
def test_a_starter_plans_as_it_stands(
    job: str, chairs: int, tmp_path: Path, capsys: pytest.CaptureFixture[str]
):
    file = tmp_path / "den.toml"
    assert main(["new", str(file), "--chairs", str(chairs), "--job", job]) == 0
    assert main(["decide", str(file)]) in (0, 4)
    told = capsys.readouterr().out
    assert told.splitlines()[-1].startswith("Verdict: ")


def test_every_line_of_a_starter_fits_a_narrow_window():
    text = starter_text("den.toml", 12, 30 * FOOT_M, 15 * FOOT_M, "retrofit")
    pointer, *lines = text.splitlines()
    assert pointer.startswith("#:schema ")  # as long as the path of the installed file
    assert max(map(len, lines)) <= 80


LOAD = '{ "screen and player" = "3 A, continuous" }'
NO_WORK = ("floor_boxes = true ", "floor_boxes = false"), ("circuits = 4", "circuits = 0")


@pytest.mark.parametrize(
    ("edits", "code", "last"),
    [
        (((LOAD, '"unknown"'),), 4, ", if what is still unknown holds."),
        ((('width = "16 ft"', 'width = "12 ft"'),), 1, ", but NOT MET: row-fits-walls."),
        (NO_WORK, 3, "Verdict: not possible as drawn."),
        (((LOAD, "{}"),), 0, "Verdict: new outlets on existing circuits."),
    ],
)
@pytest.mark.parametrize("words", VIEWS)
def test_each_kind_of_answer_has_its_code_and_its_last_line(
    words: list[str],
    edits: tuple[tuple[str, str], ...],
    code: int,
    last: str,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
):
    file = tmp_path / "den.toml"
    text = starter_text("den.toml", 5, 16 * FOOT_M, 15 * FOOT_M, "retrofit")
    for old, new in edits:
        assert text.count(old) == 1
        text = text.replace(old, new)
    file.write_text(text, "utf-8")
    assert main([*words, str(file)]) == code
    assert capsys.readouterr().out.splitlines()[-1].endswith(last)


@pytest.mark.parametrize("words", VIEWS)
def test_every_view_fits_carries_the_caution_and_ends_in_the_verdict(
    words: list[str], den: Path, capsys: pytest.CaptureFixture[str]
):
    code = main([*words, str(den)])
    out, err = capsys.readouterr()
    lines = out.splitlines()
    assert code in (0, 4)
    assert max(map(len, lines)) <= 80
    assert CAUTION in " ".join(out.split())
    assert lines[-1].startswith("Verdict: ")
    assert "\x1b" not in out
    assert "Traceback" not in err


def test_the_bare_plan_gives_three_answers_and_a_picture(
    den: Path, capsys: pytest.CaptureFixture[str]
):
    main([str(den)])
    told = capsys.readouterr().out
    for title in (
        "THE ROOM FROM ABOVE",
        "DOES THE JOB NEED A NEW CIRCUIT?",
        "WHERE THE FLOOR BOXES GO",
        "HOW THE CORDS RUN",
    ):
        assert title in told


def test_options_may_come_before_the_plan(den: Path, capsys: pytest.CaptureFixture[str]):
    main([str(den), "--format", "json"])
    after = capsys.readouterr().out
    main(["--format", "json", str(den)])
    assert capsys.readouterr().out == after


def test_a_plan_needs_no_ending_to_its_name(den: Path, capsys: pytest.CaptureFixture[str]):
    bare = den.with_name("den")
    den.rename(bare)
    assert main([str(bare)]) in (0, 4)


def test_the_record_reads_back_equal_and_is_the_same_for_every_view(
    den: Path, capsys: pytest.CaptureFixture[str]
):
    main([str(den), "--format", "json"])
    text = capsys.readouterr().out
    plan = plan_from_plain(json.loads(text))
    assert record_text(plan) == text
    main(["cords", str(den), "--format", "json"])
    assert capsys.readouterr().out == text


def test_the_exit_code_is_that_of_the_decision(den: Path, capsys: pytest.CaptureFixture[str]):
    code = main([str(den), "--format", "json"])
    assert json.loads(capsys.readouterr().out)["decision"]["exit_code"] == code


def test_a_record_passes_the_check_and_shows_the_same_views(
    den: Path, capsys: pytest.CaptureFixture[str]
):
    record = saved(den)
    code = main(["mark", str(den)])
    marks = capsys.readouterr().out
    assert main(["check", str(record)]) == code
    assert capsys.readouterr().out.splitlines()[-1].startswith("Verdict: ")
    assert main(["mark", str(record)]) == code
    assert capsys.readouterr().out == marks


@pytest.mark.parametrize("words", VIEWS)
def test_a_record_that_does_not_hold_is_refused_in_every_view(
    words: list[str], den: Path, capsys: pytest.CaptureFixture[str]
):
    record = saved(den)
    told = json.loads(record.read_text("utf-8"))
    for chair in told["chairs"]:
        chair["input_a"] /= 2
    record.write_text(json.dumps(told), "utf-8")
    capsys.readouterr()
    assert main([*words, str(record)]) == 1
    lines = capsys.readouterr().out.splitlines()
    assert lines[-1] == "Verdict: REFUSED. This record does not hold; do not build from it."
    assert any(line.startswith("NOT MET") for line in lines)


def test_the_check_as_json_tells_what_is_refused(den: Path, capsys: pytest.CaptureFixture[str]):
    record = saved(den)
    told = json.loads(record.read_text("utf-8"))
    told["chairs"][0]["continuous_a"] = 0.0
    record.write_text(json.dumps(told), "utf-8")
    capsys.readouterr()
    assert main(["check", str(record), "--format", "json"]) == 1
    report = json.loads(capsys.readouterr().out)
    assert report["agrees"] is False
    assert report["refused"]
    assert report["caution"] == CAUTION


@pytest.mark.parametrize("text", ["{", '{"record": 99}', '{"record": 1}', "[1]", "\x00\x01"])
def test_what_is_no_record_and_no_plan_is_bad_usage(
    text: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
):
    file = tmp_path / "odd.json"
    file.write_text(text, "utf-8")
    assert main(["check", str(file)]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert "Traceback" not in err
    assert err.strip()


def test_every_fault_of_a_plan_is_told_on_its_own_line(
    den: Path, capsys: pytest.CaptureFixture[str]
):
    text = den.read_text("utf-8")
    text = text.replace('lead = "8 ft"', 'leed = "8 ft"').replace(
        'input = "1.5 A"', 'input = "1.5"'
    )
    text = text.replace("seats = 2", "seats = 0")
    den.write_text(text, "utf-8")
    capsys.readouterr()
    assert main([str(den)]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    lines = err.splitlines()
    assert len(lines) >= 3
    for word in ("leed", "input", "seats"):
        assert any(word in line and "den.toml:" in line for line in lines)


def test_the_plan_file_is_never_written_over(den: Path, capsys: pytest.CaptureFixture[str]):
    before = den.read_bytes()
    link = den.with_name("link.txt")
    link.symlink_to(den)
    for target in (den, link, den.parent / "." / den.name):
        assert main([str(den), "-o", str(target)]) == 2
        assert "another name" in capsys.readouterr().err
    assert den.read_bytes() == before


def test_a_full_disk_leaves_the_last_record_whole(
    den: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
):
    record = saved(den)
    before = record.read_bytes()

    def full(handle: int) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(delivery.os, "fsync", full)
    assert main([str(den), "-o", str(record)]) == 2
    assert record.read_bytes() == before
    assert sorted(os.listdir(den.parent)) == ["den.json", "den.toml"]
    assert os.strerror(errno.ENOSPC) in capsys.readouterr().err


def test_a_plan_that_its_own_judge_refuses_is_our_fault_and_its_record_is_kept(
    den: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
):
    real = pipeline.make_plan

    def wrong(*args: Any) -> Plan:
        plan = real(*args)
        return replace(plan, chairs=tuple(replace(chair, input_a=0.1) for chair in plan.chairs))

    monkeypatch.setattr(pipeline, "make_plan", wrong)
    monkeypatch.chdir(den.parent)
    assert main([str(den)]) == 70
    out, err = capsys.readouterr()
    assert out == ""
    kept = [name for name in os.listdir(den.parent) if name.startswith("powerplan-disagreement-")]
    assert len(kept) == 1
    assert kept[0] in err
    assert "our fault" in err
    assert main(["check", kept[0]]) == 1


def test_a_stop_while_planning_is_a_hundred_and_thirty(
    den: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
):
    def stop(*args: object) -> Plan:
        raise KeyboardInterrupt

    monkeypatch.setattr(pipeline, "make_plan", stop)
    target = den.with_suffix(".txt")
    assert main([str(den), "-o", str(target)]) == 130
    assert not target.exists()


def test_a_crash_while_planning_is_one_line_and_seventy(
    den: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
):
    def crash(*args: object) -> Plan:
        raise ZeroDivisionError("division by zero")

    monkeypatch.setattr(pipeline, "make_plan", crash)
    capsys.readouterr()
    assert main([str(den)]) == 70
    out, err = capsys.readouterr()
    assert (out, err.count("\n")) == ("", 1)
    assert "ZeroDivisionError: division by zero at test_plans.py:" in err
