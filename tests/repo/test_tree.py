"""The tree itself: how long files are, which words stay out, and which way imports go."""

import ast
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from support import NEC

pytestmark = pytest.mark.repo

ROOT = Path(__file__).parents[2]
CAP = 350
TEXT = {".py", ".md", ".toml", ".cfg", ".csv", ".json", ".txt", ""}


def python_files(*rooms: str) -> list[Path]:
    return sorted(file for room in rooms for file in (ROOT / room).rglob("*.py"))


def text_files() -> Iterator[Path]:
    for file in sorted(ROOT.iterdir()):
        if file.is_file() and file.suffix in TEXT and file.name != ".git":  # of a second worktree
            yield file
    for room in ("powerplan", "tests", "examples", ".ci"):
        for file in sorted((ROOT / room).rglob("*")):
            if file.is_file() and file.suffix in TEXT and "__pycache__" not in file.parts:
                yield file


def name_of(file: Path) -> str:
    return file.relative_to(ROOT).as_posix()


def lines_with(pattern: str, files: Iterator[Path]) -> list[str]:
    found = re.compile(pattern)
    return [
        f"{name_of(file)}:{number}"
        for file in files
        for number, line in enumerate(file.read_text(encoding="utf-8").splitlines(), 1)
        if found.search(line)
    ]


def imported(file: Path) -> set[str]:
    tree = ast.parse(file.read_text(encoding="utf-8"))
    names: set[str] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            names |= {alias.name.partition(".")[0] for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            names.add(node.module.partition(".")[0])
    return names


def test_there_is_something_to_look_at():
    assert len(python_files("powerplan")) > 20
    assert ROOT / "setup.cfg" in set(text_files())


def test_no_file_is_longer_than_the_cap():
    lengths = {
        name_of(file): len(file.read_text(encoding="utf-8").splitlines())
        for file in python_files("powerplan", "tests")
    }
    assert {name: length for name, length in lengths.items() if length > CAP} == {}


def test_nothing_is_left_to_do_later():
    words = "|".join(("TO" + "DO", "FIX" + "ME", "XX" + "X", "HA" + "CK"))
    assert lines_with(rf"\b({words})\b", text_files()) == []


def test_no_path_of_anyones_machine_is_in_a_file():
    places = "|".join(("home", "work", "tmp", "Users", "root", "mnt"))
    assert lines_with(rf"(?<![\w.~-])/({places})/\w|\b[A-Z]:\\\w", text_files()) == []


@pytest.mark.parametrize("mark", ["type: " + "ignore", "no" + "qa", "pragma: " + "no cover"])
def test_a_check_is_switched_off_only_by_name_and_with_a_reason(mark):
    bare = rf"# {mark}(?!(\[|: )[\w\-, ]+\]?\s+#? ?\w)"
    assert lines_with(bare, iter(python_files("powerplan", "tests"))) == []


def test_no_test_is_skipped_or_expected_to_fail():
    marks = "|".join(("pytest.sk" + "ip", "mark.sk" + "ip", "mark.xf" + "ail", "pytest.xf" + "ail"))
    assert lines_with(rf"\b({marks})", iter(python_files("tests"))) == []


def test_imports_go_down_only():
    linter = Path(sys.executable).parent / "lint-imports"
    done = subprocess.run(
        [linter, "--no-cache"], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr


@pytest.mark.parametrize("room", ["model", "engineering", "planning", "judging"])
def test_text_with_units_stops_at_the_inputs(room):
    using = {name_of(file): imported(file) for file in python_files(f"powerplan/{room}")}
    assert {name for name, names in using.items() if names & {"pint", "pydantic"}} == set()


def test_running_the_inner_rooms_loads_no_units_library():
    modules = [
        name_of(file).removesuffix(".py").replace("/", ".").removesuffix(".__init__")
        for file in python_files("powerplan/model", "powerplan/engineering", "powerplan/planning")
    ]
    program = (
        "import importlib, sys\n"
        f"for name in {modules!r}: importlib.import_module(name)\n"
        "print(sorted({'pint', 'pydantic'} & set(sys.modules)))\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], cwd=ROOT, capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "[]"


def test_engineering_reads_no_file_no_clock_and_prints_nothing():
    outside = {"os", "io", "pathlib", "time", "datetime", "random", "tempfile", "logging"}
    faults = []
    for file in python_files("powerplan/engineering"):
        faults += [f"{name_of(file)}: {name}" for name in sorted(imported(file) & outside)]
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                called = node.func.id
                if called in {"open", "print", "input"}:
                    faults.append(f"{name_of(file)}:{node.lineno}: {called}")
    assert faults == []


def code_outside_the_rulebook() -> str:
    return "\n".join(
        file.read_text(encoding="utf-8")
        for file in python_files("powerplan")
        if "rulebook" not in file.parts
    )


def code_of_tests() -> str:
    return "\n".join(
        file.read_text(encoding="utf-8")
        for file in python_files("tests")
        if file.parent.name not in ("repo", "rulebook")
    )


def test_every_rule_is_used():
    code = code_outside_the_rulebook()
    assert [name for name in NEC.rules if f'"{name}"' not in code] == []


def test_every_rule_is_tested():
    code = code_of_tests()
    assert [name for name in NEC.rules if not re.search(rf"(?<![\w-]){name}(?![\w-])", code)] == []


def test_every_number_is_used():
    code = code_outside_the_rulebook()
    assert [name for name in NEC.numbers if f'"{name}"' not in code] == []
