"""The examples give the records that stand beside them, and the answers they are there to show."""

import hashlib
import os
import subprocess
import sys
from pathlib import Path

import pytest
from refresh import EXAMPLES, plan_files, planned, record_of

from powerplan.inputs.record_file import read_record
from powerplan.judging.judge import judge
from powerplan.model.plan import EXISTING, NEW_CIRCUITS, NEW_OUTLETS, NOT_POSSIBLE
from powerplan.rulebook.loader import rule_set
from powerplan.sheets.writers.json import record_text

SHOWN = {
    "small-den": (EXISTING, 0),
    "media-loft": (NEW_CIRCUITS, 0),
    "two-row-theater": (NEW_CIRCUITS, 0),
    "tight-lounge": (NOT_POSSIBLE, 3),
    "three-row-cinema": (NEW_CIRCUITS, 4),
    "metric-lounge": (NEW_OUTLETS, 4),
    "spec-sheet-den": (NEW_CIRCUITS, 4),
    "curved-den": (EXISTING, 0),
}


@pytest.mark.parametrize("path", plan_files(), ids=lambda path: path.stem)
def test_an_example_gives_the_record_that_stands_beside_it(path: Path) -> None:
    assert record_text(planned(path)) == record_of(path).read_text(encoding="utf-8")


@pytest.mark.parametrize("name", sorted(SHOWN))
def test_an_example_shows_what_it_is_there_to_show(name: str) -> None:
    decision = planned(EXAMPLES / f"{name}.toml").decision
    assert (decision.verdict, decision.exit_code) == SHOWN[name]


@pytest.mark.parametrize("path", plan_files(), ids=lambda path: path.stem)
def test_the_judge_agrees_with_every_record(path: Path) -> None:
    plan = read_record(record_of(path))
    report = judge(plan, rule_set(plan.spec.project.rules))
    own = {finding.rule for finding in plan.findings if finding.stops}
    assert [f for f in report.findings if f.stops and f.rule not in own] == []


def test_every_example_is_told_apart() -> None:
    assert {path.stem for path in plan_files()} == set(SHOWN)


@pytest.mark.parametrize(
    "seed", ["1", *(pytest.param(seed, marks=pytest.mark.slow) for seed in ("0", "2026"))]
)
def test_records_do_not_depend_on_the_hash_seed(seed: str) -> None:
    script = (
        "from refresh import plan_files, planned, record_text\n"
        "import hashlib\n"
        "text = ''.join(record_text(planned(path)) for path in plan_files())\n"
        "print(hashlib.sha256(text.encode()).hexdigest())\n"
    )
    told = subprocess.run(
        [sys.executable, "-c", script],
        cwd=Path(__file__).parent,
        env={**os.environ, "PYTHONHASHSEED": seed},
        check=True,
        capture_output=True,
        text=True,
    ).stdout.strip()
    beside = "".join(record_of(path).read_text(encoding="utf-8") for path in plan_files())
    assert told == hashlib.sha256(beside.encode()).hexdigest()
