"""The program as it is called: exit codes, where text goes, and what is imported."""

import errno
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from powerplan.cli import deliver as delivery
from powerplan.cli.main import COMMANDS, main
from powerplan.model.plan import CAUTION
from powerplan.rulebook.loader import rule_set_ids

HEAVY = ("pydantic", "pint", "networkx", "shapely", "numpy", "tabulate")
QUICK = ["quick", "--chairs", "5", "--input", "1.8A", "--breaker", "15A", "--fastened", "no"]


def imported(*words: str) -> set[str]:
    """The name of every module that a run imports."""
    code = (
        "import contextlib, io, sys\n"
        "from powerplan.cli.main import main\n"
        f"with contextlib.redirect_stdout(io.StringIO()): main({list(words)!r})\n"
        "print(*sys.modules)"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    return set(run.stdout.split())


def test_the_list_of_imports_is_the_one_the_interpreter_keeps():
    code = f"from powerplan.cli.main import main; main({QUICK!r})"
    run = subprocess.run(
        [sys.executable, "-X", "importtime", "-c", code], capture_output=True, text=True, check=True
    )
    timed = {line.rsplit("|", 1)[-1].strip() for line in run.stderr.splitlines()}
    assert "click" in timed
    assert not {name.split(".")[0] for name in timed} & set(HEAVY)


@pytest.mark.parametrize(
    "words", [["--help"], QUICK, ["rules"], ["quick", "--help"], ["check", "--help"]]
)
def test_help_and_the_phone_question_import_nothing_heavy(words: list[str]):
    names = imported(*words)
    assert "click" in names
    assert not {name.split(".")[0] for name in names} & set(HEAVY)
    assert "powerplan.model.plan" not in names  # its classes take as long as the answer


def test_help_imports_no_command():
    assert not imported("--help") & {f"powerplan.cli.{name}" for name in COMMANDS}
    assert "powerplan.cli.rules" in imported("rules", "--help")


def test_help_leads_with_an_example_and_lists_every_command(capsys: pytest.CaptureFixture[str]):
    assert main(["--help"]) == 0
    told = capsys.readouterr().out
    assert told.index("Example:") < told.index("Options:")
    assert all(f"  {name} " in told for name in COMMANDS)


@pytest.mark.parametrize("name", ["new", "quick", "rules"])
def test_help_names_every_rule_set(name: str, capsys: pytest.CaptureFixture[str]):
    assert main([name, "--help"]) == 0
    told = capsys.readouterr().out
    assert all(each in told for each in rule_set_ids())


@pytest.mark.parametrize("name", COMMANDS)
def test_help_of_a_command_leads_with_an_example_of_it(
    name: str, capsys: pytest.CaptureFixture[str]
):
    assert main([name, "--help"]) == 0
    told = capsys.readouterr().out.splitlines()
    assert told[2] == "  Example:"
    assert told[3].strip().startswith(f"powerplan {name} ")


def test_nothing_asked_gives_the_help_as_bad_usage(capsys: pytest.CaptureFixture[str]):
    assert main([]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert "powerplan new den.toml" in err


def test_the_version_is_told(capsys: pytest.CaptureFixture[str]):
    assert main(["--version"]) == 0
    assert "0." in capsys.readouterr().out


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["quik"], "did you mean 'quick'?"),
        (["x" * 5000], "no command and no plan file"),
        (["check", "x" * 300], "cannot be read"),
        (["den"], "no command and no plan file is called 'den'"),
        (["rules", "--format", "pdf"], "'pdf'"),
        (["quick", "--chairs", "0"], "--chairs"),
        (["--colour"], "--colour"),
        (["rules", "--set", "mars"], "us-nec-2023"),
    ],
)
def test_bad_usage_is_two_and_says_what_helps(
    words: list[str], said: str, capsys: pytest.CaptureFixture[str]
):
    assert main(words) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert said in err
    assert "Traceback" not in err


def test_a_file_that_is_not_there_is_bad_usage(capsys: pytest.CaptureFixture[str]):
    assert main(["nowhere.toml"]) == 2
    assert capsys.readouterr().err == "nowhere.toml: cannot be read: No such file or directory\n"


def test_rules_are_found_by_a_word_and_shown_with_source_and_standing(
    capsys: pytest.CaptureFixture[str],
):
    assert main(["rules", "continuous_factor"]) == 0
    told = capsys.readouterr().out
    assert "continuous_factor: 5/4" in told
    assert "NEC 2023 210.19(A), 210.20(A) [published copy]" in told
    assert CAUTION in " ".join(told.split())
    assert told.splitlines()[-1].startswith("Shown: 1 of ")


def test_a_word_that_no_rule_has_is_said(capsys: pytest.CaptureFixture[str]):
    assert main(["rules", "zebra"]) == 0
    assert 'Nothing in us-nec-2023 has "zebra" in it' in capsys.readouterr().out


def test_rules_as_json_hold_exact_names_and_sources(capsys: pytest.CaptureFixture[str]):
    assert main(["rules", "--format", "json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["caution"] == CAUTION
    numbers = {rule["name"]: rule for rule in told["rules"] if rule["kind"] == "number"}
    assert numbers["continuous_factor"]["value"] == 1.25
    assert all(rule["source"]["cite"] for rule in told["rules"])


def test_output_goes_to_a_file_and_nothing_to_standard_output(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
):
    target = tmp_path / "rules.txt"
    assert main(["rules", "drop", "-o", str(target)]) == 0
    assert capsys.readouterr().out == ""
    assert "drop_percent" in target.read_text("utf-8")
    assert os.listdir(tmp_path) == ["rules.txt"]


@pytest.mark.parametrize("fault", [OSError(errno.ENOSPC, "No space left"), KeyboardInterrupt()])
def test_a_full_disk_or_a_stop_leaves_the_last_file_whole_and_nothing_else(
    fault: BaseException,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
):
    target = tmp_path / "rules.txt"
    target.write_text("the last one")

    def fail(handle: int) -> None:
        raise fault

    monkeypatch.setattr(delivery.os, "fsync", fail)
    code = main(["rules", "-o", str(target)])
    assert code == (130 if isinstance(fault, KeyboardInterrupt) else 2)
    assert target.read_text() == "the last one"
    assert os.listdir(tmp_path) == ["rules.txt"]
    assert "Traceback" not in capsys.readouterr().err


def test_a_file_in_a_folder_that_is_not_there_is_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
):
    assert main(["rules", "-o", str(tmp_path / "no" / "rules.txt")]) == 2
    assert "cannot write" in capsys.readouterr().err


def test_a_folder_is_not_written_over(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    assert main(["rules", "-o", str(tmp_path)]) == 2
    assert "it is a folder" in capsys.readouterr().err


def test_a_file_keeps_its_permissions_when_written_again(tmp_path: Path):
    target = tmp_path / "rules.txt"
    target.write_text("old")
    target.chmod(0o640)
    assert main(["rules", "-o", str(target)]) == 0
    assert target.stat().st_mode & 0o777 == 0o640


def test_a_link_is_followed_and_stays_a_link(tmp_path: Path):
    real, link = tmp_path / "real.txt", tmp_path / "link.txt"
    real.write_text("old")
    link.symlink_to(real)
    assert main(["rules", "-o", str(link)]) == 0
    assert link.is_symlink()
    assert "RULE" in real.read_text("utf-8")


def test_a_pipe_with_a_name_is_written_to_and_not_replaced(tmp_path: Path):
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    reader = os.open(pipe, os.O_RDONLY | os.O_NONBLOCK)
    try:
        assert main(["rules", "drop_percent", "-o", str(pipe)]) == 0
        assert b"drop_percent" in os.read(reader, 65536)
    finally:
        os.close(reader)
    assert pipe.is_fifo()


def test_a_reader_who_leaves_early_is_no_fault():
    code = "import sys; from powerplan.cli.main import main; sys.exit(main(['rules']))"
    reader, writer = os.pipe()
    os.close(reader)
    run = subprocess.run(
        [sys.executable, "-c", code], stdout=writer, stderr=subprocess.PIPE, check=False
    )
    os.close(writer)
    assert (run.returncode, run.stderr) == (0, b"")


def test_help_to_a_reader_who_left_is_quiet():
    code = "import sys; from powerplan.cli.main import main; sys.exit(main(['--help']))"
    reader, writer = os.pipe()
    os.close(reader)
    run = subprocess.run(
        [sys.executable, "-c", code], stdout=writer, stderr=subprocess.PIPE, check=False
    )
    os.close(writer)
    assert (run.returncode, run.stderr) == (0, b"")


@pytest.mark.parametrize("encoding", ["ascii", "cp437", "cp1252", "utf-8"])
def test_a_terminal_of_any_encoding_gets_its_answer(encoding: str):
    code = "import sys; from powerplan.cli.main import main; sys.exit(main(['rules', 'caf\u00e9']))"
    run = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        env={**os.environ, "PYTHONIOENCODING": encoding},
        check=False,
    )
    assert run.returncode == 0
    assert b"Traceback" not in run.stderr


def test_our_own_fault_is_one_line_and_seventy(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
):
    def fail(name: str) -> None:
        raise RuntimeError("the rulebook\nwent missing")

    monkeypatch.setattr("powerplan.rulebook.loader.rule_set", fail)
    assert main(["rules"]) == 70
    out, err = capsys.readouterr()
    assert out == ""
    assert err.count("\n") == 1
    assert "our fault" in err
    assert "RuntimeError: the rulebook went missing" in err
    assert "report" in err


def test_a_stop_is_a_hundred_and_thirty(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
):
    def stop(name: str) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("powerplan.rulebook.loader.rule_set", stop)
    assert main(["rules"]) == 130
    assert capsys.readouterr().err.strip() == "powerplan: stopped"


def test_no_color_is_ever_sent(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setenv("NO_COLOR", "1")
    for words in (["--help"], ["rules"], ["nope"]):
        main(words)
    out, err = capsys.readouterr()
    assert "\x1b" not in out + err
