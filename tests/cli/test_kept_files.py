"""A set keeps the plan file and the chairs file beside it, and can be planned again from them."""

from pathlib import Path

import pytest
from laws import cases

from powerplan.cli.main import main

_CHAIR = "[chair."


def split(tmp_path: Path, name: str) -> Path:
    """A starter plan whose chairs stand in a file of their own, as the plan names it."""
    folder = tmp_path / "rooms" / "one"
    folder.mkdir(parents=True)
    plan = folder / "den.toml"
    assert main(["new", str(plan), "--chairs", "2"]) == 0
    kept, chairs, inside = [], [], False
    for line in plan.read_text("utf-8").splitlines():
        if line.startswith("["):
            inside = line.startswith(_CHAIR)
        (chairs if inside else kept).append(line)
    assert chairs
    beside = folder / name
    beside.parent.mkdir(parents=True, exist_ok=True)
    beside.write_text("\n".join(chairs) + "\n", "utf-8")
    plan.write_text(f'chairs_from = "{name}"\n' + "\n".join(kept) + "\n", "utf-8")
    return plan


def kept_plan(folder: Path, plan: Path) -> Path:
    """The one file of a set that has the bytes of the plan file."""
    data = plan.read_bytes()
    (found,) = (f for f in folder.rglob("*") if f.is_file() and f.read_bytes() == data)
    return found


@pytest.mark.parametrize(
    "name",
    cases(
        ["plan.toml", "../../shop/chairs.toml", "record.json"],
        "chairs.toml",
        "PLAN.toml",
        "shop/plan.toml",
        "../chairs.toml",
        "../plan.toml",
        "boxes.csv",
    ),
)
def test_the_kept_plan_reads_from_the_set_and_gives_the_same_record(name: str, tmp_path: Path):
    plan = split(tmp_path, name)
    main(["sheets", str(plan), "-o", str(tmp_path / "set"), "--date", "2026-03-09"])
    first = tmp_path / "set" / "revision-A"
    kept = kept_plan(first, plan)
    chairs = (plan.parent / name).read_bytes()
    assert chairs in [file.read_bytes() for file in first.rglob("*") if file.is_file()]
    for gone in [file for file in (tmp_path / "rooms").rglob("*") if file.is_file()]:
        gone.unlink()  # nothing but the set is left
    for gone in sorted((tmp_path / "rooms").rglob("*"), reverse=True):
        gone.rmdir()
    main(["sheets", str(kept), "-o", str(tmp_path / "again"), "--date", "2026-03-09"])
    again = tmp_path / "again" / "revision-A"
    assert (again / "record.json").read_bytes() == (first / "record.json").read_bytes()


def test_a_chairs_file_with_a_whole_path_is_kept_as_well(tmp_path: Path):
    away = tmp_path / "away" / "boxes.csv"
    away.parent.mkdir()
    plan = split(tmp_path, "chairs.toml")
    away.write_bytes((plan.parent / "chairs.toml").read_bytes())
    text = plan.read_text("utf-8").replace('"chairs.toml"', f"'{away}'")
    plan.write_text(text, "utf-8")
    main(["sheets", str(plan), "-o", str(tmp_path / "set"), "--date", "2026-03-09"])
    first = tmp_path / "set" / "revision-A"
    assert kept_plan(first, plan) == first / "plan.toml"
    assert (first / "plan-file" / "boxes.csv").read_bytes() == away.read_bytes()
