"""Write the picture of the result in README.md: run this file after the picture changes."""

from pathlib import Path

from powerplan.inputs.plan_file import read_plan_file
from powerplan.planning.pipeline import make_plan
from powerplan.rulebook.loader import rule_set
from powerplan.sheets.views import PLAN, plan_sheet
from powerplan.sheets.writers.text import sheet_text

ROOT = Path(__file__).parents[2]
README = ROOT / "README.md"
START = "<!-- picture: powerplan examples/media-loft.toml, checked by a test -->"
END = "<!-- end of picture -->"


def _shown() -> str:
    """The report's picture and the answer to the first question."""
    read = read_plan_file(ROOT / "examples" / "media-loft.toml", rule_set)
    plan = make_plan(read.spec, rule_set(read.spec.project.rules), read.sha256)
    text = sheet_text(plan_sheet(plan, PLAN))
    return text[text.index("THE ROOM FROM ABOVE") : text.index("What is left:")].rstrip()


def fresh_readme_text() -> str:
    """Return README.md with its picture drawn anew."""
    text = README.read_text(encoding="utf-8")
    before, rest = text.split(START)
    return f"{before}{START}\n```text\n{_shown()}\n```\n{END}{rest.split(END)[1]}"


if __name__ == "__main__":
    README.write_text(fresh_readme_text(), encoding="utf-8")
