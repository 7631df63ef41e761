"""Small sets of sheets, and drawings of which every length is known."""

from powerplan.model.geometry import Point, Rect
from powerplan.sheets.caution import CAUTION
from powerplan.sheets.parts import Figure, Part, Say
from powerplan.sheets.printed import SetOfSheets, SheetPage
from powerplan.sheets.scene import Line, Text, View

HASH = "0123456789abcdef" * 4


def line_view(*points: Point, scale: int = 50, words: str = "6 ft 3 1/4 in") -> View:
    """A drawing of one line, half a meter clear around it."""
    across, up = zip(*points, strict=True)
    bounds = Rect(
        left_m=min(across) - 0.5,
        right_m=max(across) + 0.5,
        back_m=min(up) - 0.5,
        front_m=max(up) + 0.5,
    )
    label = Text(at=bounds.middle, words=words, layer="text")
    items = (Line(points=points, layer="wall"), label)
    return View(title="One line", description="A line.", scale=scale, bounds=bounds, items=items)


def room_view(width_m: float, depth_m: float, scale: int) -> View:
    """A drawing of the walls of a room."""
    return line_view(
        (0.0, 0.0), (width_m, 0.0), (width_m, depth_m), (0.0, depth_m), (0.0, 0.0), scale=scale
    )


def page(number: str, *parts: Part, title: str = "Floor boxes") -> SheetPage:
    return SheetPage(number=number, title=title, reader="electrician", parts=parts)


def make_set(*pages: SheetPage, units: str = "ft-in", project: str = "Harbour den") -> SetOfSheets:
    return SetOfSheets(
        project=project,
        revision="B",
        date="2026-11-25",
        program="powerplan 9.9",
        rules="NFPA 70, 2023 (us-nec-2023)",
        plan_hash=HASH,
        caution=CAUTION,
        units=units,
        scale_words='1/4" = 1\'-0"',
        pages=pages,
    )


def five_pages() -> SetOfSheets:
    """Five pages of a sheet each; the second has a drawing."""
    others = (page(number, Say(f"What page {number} says.")) for number in "1345")
    first, *rest = others
    return make_set(first, page("2", Figure(room_view(6.0, 4.0, 50))), *rest)
