"""A second process gives what it made, or nothing; it is never in the way and never left behind."""

import os
import subprocess
import sys
import tempfile
import warnings
from pathlib import Path
from typing import Any

import pytest
from laws import cases

from powerplan.cli import second
from powerplan.cli.second import Second

EXAMPLES = Path(__file__).parents[2] / "examples"
LOADED_NOWHERE = "a library that nobody has"
CORES = second.cores


@pytest.fixture(autouse=True)
def two_cores(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(second, "cores", lambda: 2)


@pytest.fixture
def begun(monkeypatch: pytest.MonkeyPatch) -> list[Any]:
    """Every process that is started."""
    processes = []

    class Noted(subprocess.Popen):
        def __init__(self, *args: Any, **named: Any) -> None:
            super().__init__(*args, **named)
            processes.append(self)

    monkeypatch.setattr(subprocess, "Popen", Noted)
    return processes


def worker(work: str, *, ready: str = "ready", loads: str = LOADED_NOWHERE) -> Second:
    return Second("second_work", ready=ready, work=work, loads=loads)


# A pipe holds 64 KiB or so; both ways carry far more.
@pytest.mark.parametrize("size", [0, 1, 3_000_000])
def test_it_gives_what_it_made_however_large(size: int, begun: list[Any]):
    with worker("doubled") as other:
        other.hand(b"x" * size, end=b".")
        assert other.result() == b"x" * (2 * size) + b"."
    assert [process.returncode for process in begun] == [0]


def test_it_is_there_while_the_first_goes_on(begun: list[Any]):
    with worker("waits") as other:
        other.hand()
        assert begun[0].poll() is None


@pytest.mark.parametrize("work", ["fails", "killed", "text", "no such work"])
def test_work_that_fails_gives_nothing(work: str, begun: list[Any]):
    with worker(work) as other:
        other.hand(b"x")
        assert other.result() is None
    assert begun[0].returncode != 0


@pytest.mark.parametrize(
    ("module", "ready"), [("second_work", "not_ready"), ("no_such_module", "ready")]
)
def test_what_cannot_get_ready_gives_nothing(module: str, ready: str, begun: list[Any]):
    with Second(module, ready=ready, work="doubled", loads=LOADED_NOWHERE) as other:
        other.hand(b"x" * 3_000_000)
        assert other.result() is None
    assert len(begun) == 1


def test_what_cannot_be_sent_gives_nothing(begun: list[Any]):
    with worker("doubled") as other:
        other.hand(lambda: None)
        assert other.result() is None
    assert begun[0].returncode is not None


def test_what_was_not_handed_gives_nothing(begun: list[Any]):
    with worker("doubled") as other:
        assert other.result() is None
    assert begun[0].returncode is not None


@pytest.mark.parametrize("handed", [True, False])
@pytest.mark.parametrize("fault", [KeyboardInterrupt, ValueError])
def test_a_stop_or_a_fault_ends_it(handed: bool, fault: type[BaseException], begun: list[Any]):
    def work() -> None:
        with worker("waits") as other:
            if handed:
                other.hand(b"x" * 3_000_000)
            raise fault

    with warnings.catch_warnings():
        warnings.simplefilter("error")
        with pytest.raises(fault):
            work()
    assert begun[0].returncode not in (None, 0)
    assert begun[0].stdin.closed
    assert begun[0].stdout.closed


def test_what_it_lays_aside_is_taken_away():
    with worker("aside") as other:
        other.hand()
        place = Path((other.result() or b"").decode())
        assert place.is_dir()
    assert not place.parent.exists()
    assert place.parent.parent == Path(tempfile.gettempdir())


def test_it_ends_when_the_first_is_gone(begun: list[Any]):
    with worker("doubled"):
        pipe, begun[0].stdin = begun[0].stdin, None
        pipe.close()  # as the system does for a process that was killed
        assert begun[0].wait() == 1


def test_none_is_started_without_a_second_core(monkeypatch: pytest.MonkeyPatch, begun: list[Any]):
    monkeypatch.setattr(second, "cores", lambda: 1)
    with worker("doubled") as other:
        other.hand(b"x")
        assert other.result() is None
    assert begun == []


def test_none_is_started_for_what_is_loaded_already(begun: list[Any]):
    with worker("doubled", loads="pytest") as other:
        other.hand(b"x")
        assert other.result() is None
    assert begun == []


def test_where_the_system_starts_none_the_first_goes_on(monkeypatch: pytest.MonkeyPatch):
    def refused(*_: Any, **__: Any) -> None:
        raise BlockingIOError("Resource temporarily unavailable")

    monkeypatch.setattr(subprocess, "Popen", refused)
    with worker("doubled") as other:
        other.hand(b"x")
        assert other.result() is None


def test_cores_are_those_that_it_may_use(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(os, "sched_getaffinity", lambda process: {0, 3, 5}, raising=False)
    assert CORES() == 3


@pytest.mark.parametrize(("counted", "cores"), [(8, 8), (None, 1)])
def test_where_that_is_not_told_all_cores_count(
    counted: int | None, cores: int, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.delattr(os, "sched_getaffinity", raising=False)
    monkeypatch.setattr(os, "cpu_count", lambda: counted)
    assert CORES() == cores


_RUN = """
import subprocess, sys

class Noted(subprocess.Popen):
    all = []
    def __init__(self, *args, **named):
        super().__init__(*args, **named)
        Noted.all.append(self)

class Stop:
    def find_spec(self, name, path=None, target=None):
        if name == {stop!r}:
            raise KeyboardInterrupt
        return None

subprocess.Popen = Noted
sys.meta_path.insert(0, Stop())
from powerplan.cli import second
second.cores = lambda: {cores}
from powerplan.start import start
sys.argv = ["powerplan", "sheets", {plan!r}, "-o", {folder!r}, "--date", "2026-03-09"]
code = start()
print("LAST", code, [process.returncode for process in Noted.all], "ezdxf" in sys.modules)
"""


def issue(
    plan: str, folder: Path, *, cores: int = 2, seed: str = "0", stop: str = ""
) -> tuple[str, str]:
    """What a run says on its last line and on standard error."""
    code = _RUN.format(
        stop=stop, cores=cores, plan=str(EXAMPLES / f"{plan}.toml"), folder=str(folder)
    )
    run = subprocess.run(
        [sys.executable, "-W", "error", "-c", code],
        capture_output=True,
        text=True,
        check=True,
        env={**os.environ, "PYTHONHASHSEED": seed},
    )
    return run.stdout.splitlines()[-1], run.stderr


@pytest.mark.parametrize("plan", cases(["small-den"], "curved-den", "media-loft", "tight-lounge"))
def test_a_set_has_the_same_bytes_by_one_process_or_two(plan: str, tmp_path: Path):
    one, _ = issue(plan, tmp_path / "one", cores=1, seed="0")
    two, _ = issue(plan, tmp_path / "two", cores=2, seed="4")
    assert one.endswith("[] True")
    assert two.endswith("[0] False")
    files = {file.name: file.read_bytes() for file in (tmp_path / "one/revision-A").iterdir()}
    assert files == {
        file.name: file.read_bytes() for file in (tmp_path / "two/revision-A").iterdir()
    }


@pytest.mark.parametrize(
    "stop",
    [
        "powerplan.planning.pipeline",
        "powerplan.sheets.documents",
        "powerplan.sheets.writers.html",
        "powerplan.sheets.writers.csv",
    ],
)
def test_a_stop_leaves_one_line_no_process_and_no_file(
    stop: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    (tmp_path / "aside").mkdir()
    monkeypatch.setenv("TMPDIR", str(tmp_path / "aside"))
    last, err = issue("small-den", tmp_path / "set", stop=stop)
    assert last.startswith("LAST 130 [")
    assert "None" not in last
    said = [line for line in err.split("\n") if line and not line.endswith(" ...")]
    assert said == ["powerplan: stopped"]
    assert list(tmp_path.iterdir()) == [tmp_path / "aside"]
    assert list((tmp_path / "aside").iterdir()) == []
