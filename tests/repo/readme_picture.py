"""Write the pictures of the result that README.md shows: run this after they change."""

from pathlib import Path

from powerplan.inputs.plan_file import read_plan_file
from powerplan.model.plan import Plan
from powerplan.planning.pipeline import make_plan
from powerplan.rulebook.loader import rule_set
from powerplan.sheets.drawings.floor_boxes import floor_box_view
from powerplan.sheets.drawings.rows import cord_views
from powerplan.sheets.paper import LETTER, figure_room_mm
from powerplan.sheets.views import PLAN, plan_sheet
from powerplan.sheets.writers.svg import svg_text
from powerplan.sheets.writers.text import sheet_text

ROOT = Path(__file__).parents[2]
README = ROOT / "README.md"
START = "<!-- picture: powerplan examples/media-loft.toml, checked by a test -->"
END = "<!-- end of picture -->"


def _plan() -> Plan:
    read = read_plan_file(ROOT / "examples" / "media-loft.toml", rule_set)
    return make_plan(read.spec, rule_set(read.spec.project.rules), read.sha256)


def fresh_drawings() -> dict[Path, str]:
    """Return the drawings of the floor-box and cord pages, each with its file."""
    plan = _plan()
    room, folder = plan.spec.room, ROOT / "examples"
    room_mm = figure_room_mm(LETTER, room.width_m, room.depth_m)
    views = {
        "floor-boxes": floor_box_view(plan, room_mm),
        "cords": cord_views(plan, room_mm)[0],
    }
    return {
        folder / f"media-loft.{name}.svg": svg_text(view, name, plan.spec.project.units) + "\n"
        for name, view in views.items()
    }


def _shown() -> str:
    """The report's picture and the answer to the first question."""
    text = sheet_text(plan_sheet(_plan(), PLAN))
    return text[text.index("THE ROOM FROM ABOVE") : text.index("What is left:")].rstrip()


def fresh_readme_text() -> str:
    """Return README.md with its picture drawn anew."""
    text = README.read_text(encoding="utf-8")
    before, rest = text.split(START)
    return f"{before}{START}\n```text\n{_shown()}\n```\n{END}{rest.split(END)[1]}"


if __name__ == "__main__":
    README.write_text(fresh_readme_text(), encoding="utf-8")
    for path, drawing in fresh_drawings().items():
        path.write_text(drawing, encoding="utf-8")
