"""What the README shows is what the program says."""

import json
import re
from pathlib import Path
from typing import Any

import pytest
from readme_picture import README, ROOT, fresh_drawings, fresh_readme_text

from powerplan.cli.main import COMMANDS, main

PLAN_SCHEMA = ROOT / "powerplan/inputs/data/plan-file.schema.json"

pytestmark = pytest.mark.repo


def test_the_picture_is_fresh() -> None:
    assert README.read_text(encoding="utf-8") == fresh_readme_text()


def test_the_drawings_are_fresh_and_shown() -> None:
    text = README.read_text(encoding="utf-8")
    for path, drawing in fresh_drawings().items():
        assert path.read_text(encoding="utf-8") == drawing
        assert f"](examples/{path.name})" in text


def test_every_command_is_documented() -> None:
    text = README.read_text(encoding="utf-8")
    for command in COMMANDS:
        assert f"powerplan {command}" in text


def test_every_key_of_a_plan_file_is_told_or_shown() -> None:
    """By the README, the starter or an example: nobody finds a key that stands nowhere."""
    shown = [
        README,
        *(ROOT / "powerplan/cli/data").glob("*.toml"),
        *(ROOT / "examples").glob("*.toml"),
    ]
    words = set(re.findall(r"\w+", " ".join(path.read_text(encoding="utf-8") for path in shown)))
    assert _keys(json.loads(PLAN_SCHEMA.read_text(encoding="utf-8"))) - words == set()


def _keys(schema: Any) -> set[str]:
    if isinstance(schema, list):
        return {key for item in schema for key in _keys(item)}
    if not isinstance(schema, dict):
        return set()
    inner = {key for item in schema.values() for key in _keys(item)}
    return inner | set(schema.get("properties", {}))


def test_every_file_that_is_linked_is_there() -> None:
    links = re.findall(r"\]\(([^)#]+)\)", README.read_text(encoding="utf-8"))
    assert links
    for link in links:
        assert (ROOT / link).is_file()


def test_the_quick_example_runs(capsys: pytest.CaptureFixture[str]) -> None:
    [line] = re.findall(r"`powerplan (quick [^`]+)`", README.read_text(encoding="utf-8"))
    assert main(line.split()) == 4
    assert capsys.readouterr().out.rstrip().splitlines()[-1].startswith("Verdict")


def test_the_mistake_that_is_shown_is_told_that_way(
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(["new", "den.toml"]) == 0
    path = tmp_path / "den.toml"
    text = re.sub(r"(?m)^seats( *)= .*$", r"seats\1= 0", path.read_text(encoding="utf-8"))
    path.write_text(text, encoding="utf-8")
    capsys.readouterr()
    assert main(["den.toml"]) == 2
    told = capsys.readouterr().err
    assert re.search(r"den\.toml:[0-9]+: row 'A': seats: 0 is not at least 1", told)
