"""Write the record beside each example; run it after a change that is meant, review the diff."""

from pathlib import Path

from powerplan.inputs.plan_file import read_plan_file
from powerplan.model.plan import Plan
from powerplan.planning.pipeline import make_plan
from powerplan.rulebook.loader import rule_set
from powerplan.sheets.writers.json import record_text

EXAMPLES = Path(__file__).parents[2] / "examples"


def plan_files() -> list[Path]:
    """Every example, in order."""
    return sorted(EXAMPLES.glob("*.toml"))


def planned(path: Path) -> Plan:
    """An example, planned."""
    read = read_plan_file(path, rule_set)
    return make_plan(read.spec, rule_set(read.spec.project.rules), read.sha256)


def record_of(path: Path) -> Path:
    """Where an example's record stands."""
    return path.with_suffix(".record.json")


if __name__ == "__main__":
    for plan_file in plan_files():
        record_of(plan_file).write_text(record_text(planned(plan_file)), encoding="utf-8")
