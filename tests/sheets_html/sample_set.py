"""A set of sheets put together by hand, with every kind of part."""

from typing import Any

from powerplan.model.geometry import Rect
from powerplan.sheets.parts import Drawing, Figure, Items, Marked, Part, Say, Table, Ticks
from powerplan.sheets.printed import SetOfSheets, SheetPage
from powerplan.sheets.scene import Arc, Dimension, Hatch, Line, Text, View

CAUTION = (
    "This is a planning aid. Switch off and prove dead before work; see \\ the makers' sheets."
)

BOX_HEAD = (
    *("box", "under", "from stair side (left)", "from right wall", "from back wall"),
    *("off the center line", "circuit", "sockets", "cut-out", "lid", "as cut"),
)


def sample_view(**changes: Any) -> View:
    """A room of 6 m by 4 m with a chair, a hatched corner, a cord and a dimension, at 1:50."""
    corner = ((4.0, 0.0), (6.0, 0.0), (6.0, 1.0), (4.0, 1.0))
    told: dict[str, Any] = {
        "title": "Floor boxes, screen at the top",
        "description": "A room with one chair at its back wall and a box under it.",
        "scale": 50,
        "bounds": Rect(left_m=-1.0, right_m=7.0, back_m=-1.0, front_m=5.0),
        "items": (
            Line(points=((0, 0), (6, 0), (6, 4), (0, 4)), layer="wall", closed=True),
            Arc(center=(3.0, 1.0), radius_m=0.3, start_deg=0, end_deg=360, layer="box"),
            Hatch(outline=corner, layer="pinch"),
            Line(points=((3.0, 1.0), (3.0, 0.4), (1.0, 0.4)), layer="extension"),
            Text(at=(3.0, 1.8), words="box A3: 6 ft  3 1/4 in", layer="text", mask=True),
            Text(at=(0.3, 2.0), words="stair side", layer="text", angle_deg=90.0),
            Dimension(
                start=(0.0, 0.0),
                end=(6.0, 0.0),
                along="x",
                line_at=-0.5,
                words="19 ft 8 1/4 in",
                words_at=(3.0, -0.5),
            ),
        ),
    }
    return View(**{**told, **changes})


def box_rows(count: int) -> tuple[tuple[str, ...], ...]:
    """Rows of the box table; the last cell is left for the pencil."""
    return tuple(
        (
            *(f"box A{number}", f"A{number}", "9 ft 11 1/8 in", "10 ft 7/8 in", "2 ft 5 in"),
            *("1 ft 3 in to the left", "new 1", "2", "4 in x 4 in", "6 in x 6 in", ""),
        )
        for number in range(1, count + 1)
    )


def boxes_parts(count: int = 5) -> tuple[Part, ...]:
    """What the electrician is told."""
    return (
        Say(text="Left and right are as you sit watching the screen."),
        Figure(view=sample_view()),
        Table(caption="Where the middle of each box goes", head=BOX_HEAD, rows=box_rows(count)),
        Items(lead="Stop and call:", items=("a tendon, a duct or a pipe", "a two-slot outlet")),
    )


def sample_set(**changes: Any) -> SetOfSheets:
    """Five pages with every kind of part."""
    wide = sample_view(title="Row A", bounds=Rect(left_m=-2, right_m=10, back_m=-1, front_m=5))
    tape = sample_view(
        title="Load", scale=1, bounds=Rect(left_m=0, right_m=0.15, back_m=0, front_m=0.04), items=()
    )
    load = (("7", "9.38 A", "15 A", "5.62 A"), ("new 1", "9 A", "20 A", "11 A"))
    tests = ("A1: down all the way, and up all the way.", "Tested by ____________________ on ____")
    entry = ("wire-matches-breaker (must), circuit 9", "20 A, limit 15 A", "- one", "- two")
    pages = (
        SheetPage(
            number="1",
            title="Decision",
            reader="client, seller",
            parts=(
                Say(text="One new 20 A circuit feeds two floor boxes."),
                Items(lead="What happens next:", items=("Measure.", "Call."), numbered=True),
                Marked(mark="No", lines=("1. Existing outlets", "Circuit 7 would carry 16 A.")),
                Marked(mark="Yes", lines=("2. New circuits", "Chosen.")),
            ),
        ),
        SheetPage(number="2", title="Floor boxes", reader="electrician", parts=boxes_parts()),
        SheetPage(
            number="3",
            title="Cords",
            reader="installers",
            parts=(Figure(view=wide), Ticks(lead="Each chair, loaded:", items=tests)),
        ),
        SheetPage(
            number="4",
            title="Circuits",
            reader="electrician, inspector",
            parts=(
                Figure(view=tape),
                Table(caption="Load", head=("circuit", "asks", "may give", "left"), rows=load),
                Drawing(lines=("+--+", "|  |", "+--+")),
            ),
        ),
        SheetPage(
            number="5",
            title="Findings",
            reader="anyone who doubts",
            parts=(
                Marked(mark="NOT MET", lines=entry),
                Marked(mark="NOT CHECKED", lines=("circuit-load (must), circuit 7",)),
                Marked(mark="MET", lines=("cord-length (must), A2", "72 in, limit 71 in")),
            ),
        ),
    )
    told: dict[str, Any] = {
        "project": "Harbour Lane den",
        "revision": "A",
        "date": "2026-11-25",
        "program": "powerplan 0.1.0",
        "rules": "NFPA 70, 2023 (us-nec-2023)",
        "plan_hash": "0123456789abcdef" * 4,
        "caution": CAUTION,
        "units": "ft-in",
        "scale_words": "1:50",
        "pages": pages,
    }
    return SetOfSheets(**{**told, **changes})


def with_parts(*parts: Part) -> SetOfSheets:
    """A set of one page with these parts."""
    page = SheetPage(number="1", title="Only page", reader="you", parts=parts)
    return sample_set(pages=(page,))
