"""The command that issues a set: every file, or none; and never over an issued one."""

import errno
import hashlib
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from laws import cases

from powerplan.cli import issued, progress, second
from powerplan.cli.main import main
from powerplan.sheets.writers import dxf, html, pdf

EXAMPLES = Path(__file__).parents[2] / "examples"
FILES = {
    "sheets.pdf",
    "sheets.html",
    "sheets.dxf",
    "boxes.csv",
    "cords.csv",
    "buying.csv",
    "buying-electrician.csv",
    "circuits.csv",
    "record.json",
    "plan.toml",
}
CODES = {"small-den": 0, "media-loft": 0, "two-row-theater": 0, "tight-lounge": 3}


@pytest.fixture(scope="module", autouse=True)
def one_core() -> Iterator[None]:
    """All in this process, so that what is put in the place of a writer is met."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(second, "cores", lambda: 1)
        yield


@pytest.fixture(scope="module")
def first(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A starter plan of two chairs, and its set, issued once for all."""
    folder = tmp_path_factory.mktemp("first")
    file = folder / "den.toml"
    assert main(["new", str(file), "--chairs", "2"]) == 0
    assert sheets(file, folder / "set") == 0
    return folder


@pytest.fixture
def den(first: Path, tmp_path: Path) -> Path:
    """The starter plan in a folder of its own."""
    return Path(shutil.copy(first / "den.toml", tmp_path))


@pytest.fixture
def folder(first: Path, den: Path) -> Path:
    """The set as it was issued, beside the plan."""
    return Path(shutil.copytree(first / "set", den.parent / "set"))


def sheets(plan: Path, folder: Path, *words: str) -> int:
    return main(["sheets", str(plan), "-o", str(folder), "--date", "2026-03-09", *words])


def files_of(folder: Path) -> dict[str, bytes]:
    return {
        str(file.relative_to(folder)): file.read_bytes()
        for file in sorted(folder.rglob("*"))
        if file.is_file()
    }


@pytest.mark.parametrize(
    "name", cases(["tight-lounge", "small-den"], "media-loft", "two-row-theater")
)
def test_each_example_gives_a_whole_set(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
):
    plan = EXAMPLES / f"{name}.toml"
    assert sheets(plan, tmp_path / "set") == CODES[name]
    lines = capsys.readouterr().out.splitlines()
    issued_set = tmp_path / "set" / "revision-A"
    assert {file.name for file in issued_set.iterdir()} == FILES
    assert all(file.stat().st_size for file in issued_set.iterdir())
    assert lines[-1].startswith("Verdict: ")
    assert sorted(lines[1:-1]) == sorted(str(file) for file in issued_set.iterdir())
    assert (issued_set / "plan.toml").read_bytes() == plan.read_bytes()
    assert (issued_set / "sheets.pdf").read_bytes().startswith(b"%PDF-")


def test_the_same_plan_is_not_issued_twice(
    den: Path, folder: Path, capsys: pytest.CaptureFixture[str]
):
    before = files_of(folder)
    assert sheets(den, folder) == 0
    out = capsys.readouterr().out
    assert out.splitlines()[0] == "Revision A (unchanged; --again issues it anew)"
    assert files_of(folder) == before


def test_again_issues_the_next_letter_and_the_same_bytes_but_for_it(den: Path, folder: Path):
    sheets(den, folder, "--again")
    first, second = (files_of(folder / f"revision-{letter}") for letter in "AB")
    assert first.keys() == second.keys()
    same = FILES - {"sheets.pdf", "sheets.html", "sheets.dxf"}
    assert {name: first[name] for name in same} == {name: second[name] for name in same}


def test_the_same_revision_made_anew_elsewhere_has_the_same_bytes(den: Path, folder: Path):
    sheets(den, den.parent / "other")
    assert files_of(folder) == files_of(den.parent / "other")


def test_a_changed_plan_gets_the_next_letter_and_the_old_set_is_kept(den: Path, folder: Path):
    before = files_of(folder)
    den.write_text(den.read_text("utf-8") + "\n# seen on site\n", "utf-8")
    sheets(den, folder)
    after = files_of(folder)
    assert {name: after[name] for name in before} == before
    assert {name.partition("/")[0] for name in after} == {"revision-A", "revision-B"}


def test_an_issued_revision_is_never_written_over(
    den: Path, folder: Path, capsys: pytest.CaptureFixture[str]
):
    before = files_of(folder)
    den.write_text(den.read_text("utf-8") + "\n# seen on site\n", "utf-8")
    assert sheets(den, folder, "--revision", "A") == 2
    assert "is issued already" in capsys.readouterr().err
    assert files_of(folder) == before


def test_a_revision_can_be_named(den: Path):
    folder = den.parent / "set"
    sheets(den, folder, "--revision", "C")
    assert [entry.name for entry in folder.iterdir()] == ["revision-C"]


@pytest.mark.parametrize("words", [["--revision", "a1"], ["--date", "9 March"], ["--paper", "b5"]])
def test_what_it_cannot_use_it_refuses(
    words: list[str], den: Path, capsys: pytest.CaptureFixture[str]
):
    assert sheets(den, den.parent / "set", *words) == 2
    assert words[0] in capsys.readouterr().err
    assert not (den.parent / "set").exists()


def test_a_folder_has_to_be_named(den: Path, capsys: pytest.CaptureFixture[str]):
    assert main(["sheets", str(den)]) == 2
    assert "-o" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("module", "name"), [(pdf, "pdf_bytes"), (html, "html_text"), (dxf, "dxf_bytes")]
)
@pytest.mark.parametrize("fault", [RuntimeError("no"), KeyboardInterrupt()])
def test_nothing_is_written_when_a_writer_fails(
    module: object,
    name: str,
    fault: BaseException,
    den: Path,
    monkeypatch: pytest.MonkeyPatch,
):
    def fails(*args: object, **more: object) -> bytes:
        raise fault

    folder = den.parent / "set"
    monkeypatch.setattr(module, name, fails)
    assert sheets(den, folder) == (130 if isinstance(fault, KeyboardInterrupt) else 70)
    assert not folder.exists()


@pytest.mark.parametrize("fault", [OSError(errno.ENOSPC, "No space left"), KeyboardInterrupt()])
def test_a_full_disk_or_a_stop_leaves_what_was_there(
    fault: BaseException, den: Path, folder: Path, monkeypatch: pytest.MonkeyPatch
):
    before = files_of(folder)
    real, calls = os.fsync, []

    def full(handle: int) -> None:
        calls.append(handle)
        if len(calls) == 5:
            raise fault
        real(handle)

    monkeypatch.setattr(issued.os, "fsync", full)
    assert sheets(den, folder, "--again") == (130 if isinstance(fault, KeyboardInterrupt) else 2)
    assert len(calls) == 5
    assert files_of(folder) == before
    assert [entry.name for entry in folder.iterdir()] == ["revision-A"]


def test_a_folder_that_was_made_for_nothing_is_taken_away(
    den: Path, monkeypatch: pytest.MonkeyPatch
):
    def full(handle: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(issued.os, "fsync", full)
    assert sheets(den, den.parent / "deep" / "set") == 2
    assert [entry.name for entry in den.parent.iterdir()] == ["den.toml"]


def test_a_file_where_the_folder_should_be_is_left_alone(
    den: Path, capsys: pytest.CaptureFixture[str]
):
    assert sheets(den, den) == 2
    assert "cannot write" in capsys.readouterr().err
    assert den.is_file()


def test_a_record_gives_a_set_without_a_plan_file(den: Path):
    record = den.with_suffix(".json")
    code = main([str(den), "--format", "json", "-o", str(record)])
    assert sheets(record, den.parent / "set") == code
    found = files_of(den.parent / "set" / "revision-A")
    assert found.keys() == FILES - {"plan.toml"}
    assert found["record.json"] == record.read_bytes()


def test_a_record_that_does_not_hold_gets_no_sheets(den: Path, capsys: pytest.CaptureFixture[str]):
    record = den.with_suffix(".json")
    main([str(den), "--format", "json", "-o", str(record)])
    text = record.read_text("utf-8")
    record.write_text(text.replace('"length_m": ', '"length_m": 1'), "utf-8")
    capsys.readouterr()
    assert sheets(record, den.parent / "set") == 1
    assert "REFUSED" in capsys.readouterr().out
    assert not (den.parent / "set").exists()


def test_a_plan_file_that_changes_meanwhile_gives_nothing(
    den: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
):
    real = pdf.pdf_bytes

    def late(*args: object, **more: object) -> bytes:
        den.write_text(den.read_text("utf-8") + "\n# late\n", "utf-8")
        return real(*args, **more)

    monkeypatch.setattr(pdf, "pdf_bytes", late)
    assert sheets(den, den.parent / "set") == 2
    assert "changed while" in capsys.readouterr().err
    assert not (den.parent / "set").exists()


def test_the_copy_is_the_file_whose_hash_is_printed(folder: Path):
    found = files_of(folder / "revision-A")
    digest = hashlib.sha256(found["plan.toml"]).hexdigest()
    assert digest.encode() in found["record.json"]
    assert digest[:12].encode() in found["sheets.html"]


@pytest.mark.parametrize(
    ("before", "after"), [(None, "A"), ("A", "B"), ("Z", "AA"), ("AZ", "BA"), ("ZY", "ZZ")]
)
def test_letters_follow_each_other(before: str | None, after: str):
    assert issued.next_revision(before) == after


def test_the_newest_of_many_is_the_longest_then_the_last(tmp_path: Path):
    for letter in ("A", "B", "Z", "AA"):
        (tmp_path / f"revision-{letter}").mkdir()
    (tmp_path / "revision-old").mkdir()
    assert issued.newest_revision(tmp_path) == "AA"
    assert issued.newest_revision(tmp_path / "none") is None


def test_after_the_last_letter_a_new_folder_is_asked_for():
    with pytest.raises(OSError, match="use a new folder"):
        issued.next_revision("ZZ")


@pytest.mark.parametrize(
    "words", [["--help"], ["quick", "--chairs", "5", "--input", "1.8A", "--breaker", "15A"]]
)
def test_what_draws_nothing_loads_nothing_that_draws(words: list[str]):
    heavy = "{'ezdxf', 'reportlab', 'powerplan.sheets.scene', 'powerplan.sheets.paper'}"
    script = (
        "import sys; from powerplan.cli.main import main; main(sys.argv[1:]); "
        f"sys.exit(len({heavy} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", script, *words], capture_output=True, check=False)
    assert done.returncode == 0, done.stderr


def test_a_long_job_tells_its_stages_on_standard_error(
    den: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
):
    monkeypatch.setattr(progress, "PATIENCE_S", 0.0)
    sheets(den, den.parent / "set")
    out, err = capsys.readouterr()
    assert "powerplan: writing sheets.pdf ..." in err.splitlines()
    assert "..." not in out


def test_what_a_killed_run_left_behind_is_in_nobodys_way(den: Path):
    folder = den.parent / "set"
    left = folder / f".powerplan-{os.getpid()}-0.part"
    left.mkdir(parents=True)
    sheets(den, folder)
    assert {entry.name for entry in folder.iterdir()} == {left.name, "revision-A"}
    assert list(left.iterdir()) == []
