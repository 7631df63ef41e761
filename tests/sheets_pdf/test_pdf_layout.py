"""Pages spread over sheets: nothing lost, nothing over an edge, heads repeated."""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from laws import held_over
from pdf_set import line_view, make_set, page, room_view

from powerplan.model.geometry import Rect
from powerplan.sheets.layout import PaperSheet, sheets_of_paper
from powerplan.sheets.paper import A3, A4, BLOCK_MM, HEADING_MM, LETTER, PAPERS, figure_room_mm
from powerplan.sheets.parts import Drawing, Figure, Items, Marked, Part, Say, Table, Ticks
from powerplan.sheets.typeset.ink import Letters, Picture, Rule
from powerplan.sheets.typeset.lines import LEAST_PT, Face, lines_of, plain

WORDS = st.lists(st.text("abcdefgh 1234", max_size=30), max_size=12).map(" ".join)
MANY = st.lists(WORDS, max_size=8).map(tuple)


@st.composite
def tables(draw: st.DrawFn) -> Table:
    count = draw(st.integers(1, 12))
    cells = st.lists(WORDS, min_size=count, max_size=count).map(tuple)
    rows = draw(st.lists(cells, max_size=30))
    return Table(draw(WORDS), draw(cells), tuple(rows))


@st.composite
def figures(draw: st.DrawFn) -> Figure:
    size = st.floats(0.5, 25.0)
    return Figure(room_view(draw(size), draw(size), draw(st.sampled_from((20, 48, 100)))))


PARTS = st.one_of(
    WORDS.map(Say),
    st.builds(Items, WORDS, MANY, st.booleans()),
    st.builds(Ticks, WORDS, MANY),
    st.builds(Marked, st.sampled_from(("", "MET", "NOT CHECKED")), MANY),
    st.builds(Drawing, MANY),
    tables(),
    figures(),
)


def words_of(sheet: PaperSheet) -> list[str]:
    return [ink.words for ink in sheet.ink if isinstance(ink, Letters)]


def pictures(sheet: PaperSheet) -> list[Picture]:
    return [ink for ink in sheet.ink if isinstance(ink, Picture)]


def corners(ink: Letters | Rule | Picture) -> list[tuple[float, float]]:
    """Where ink begins and ends; of letters, along the line they stand on. [mm]"""
    if isinstance(ink, Rule):
        return list(ink.points_mm)
    x, y = ink.at_mm
    if isinstance(ink, Letters):
        return [(x, y), (x + Face(ink.size_pt, ink.bold).width_mm(ink.words), y)]
    return [(x, y), (x + ink.window.width_mm, y + ink.window.height_mm)]


@held_over(40)
@given(st.lists(PARTS, max_size=6), st.sampled_from((LETTER, A4, A3)))
def test_nothing_reaches_over_a_margin_and_nothing_is_too_small(parts, paper):
    for sheet in sheets_of_paper(make_set(page("2", *parts)), paper):
        margin = sheet.paper.margin_mm
        for ink in sheet.ink:
            for x, y in corners(ink):
                assert margin - 0.1 <= x <= sheet.paper.width_mm - margin + 0.1
                assert margin - 0.1 <= y <= sheet.paper.height_mm - margin + 0.1
            assert not isinstance(ink, Letters) or ink.size_pt >= LEAST_PT


@held_over(40)
@given(st.lists(PARTS, max_size=6))
def test_nothing_of_a_page_stands_in_the_caution_or_the_title_block(parts):
    sheets = make_set(page("2", *parts))
    empty = {
        paper: len(sheets_of_paper(make_set(page("2")), paper)[0].ink)
        for paper in (LETTER, LETTER.turned)
    }
    for sheet in sheets_of_paper(sheets, LETTER):
        _, height = sheet.paper.inner_mm
        top = sheet.paper.margin_mm + HEADING_MM
        low = sheet.paper.margin_mm + height - BLOCK_MM
        for ink in sheet.ink[empty[sheet.paper] :]:
            assert all(top - 0.1 <= y <= low + 0.1 for _, y in corners(ink))


def long_table(count: int) -> Table:
    rows = tuple((f"row{n}", f"{n} ft 3 1/4 in from the back wall") for n in range(count))
    return Table("Cord list", ("Cord", "Way"), rows)


def test_a_long_table_repeats_its_caption_and_head_on_every_sheet():
    first, *rest = sheets_of_paper(make_set(page("3", long_table(200))), LETTER)
    assert len(rest) >= 3
    assert "Cord list" in words_of(first)
    for sheet in rest:
        assert "Cord list (continued)" in words_of(sheet)
    for sheet in (first, *rest):
        assert words_of(sheet).count("Way") == 1


def test_every_row_of_a_long_table_stands_on_one_sheet_in_order():
    sheets = sheets_of_paper(make_set(page("3", long_table(200))), LETTER)
    found = [words for sheet in sheets for words in words_of(sheet) if words.startswith("row")]
    assert found == [f"row{n}" for n in range(200)]


def test_a_caption_never_ends_a_sheet():
    for lines in range(40, 60):
        filler = Drawing(tuple("x" for _ in range(lines)))
        for sheet in sheets_of_paper(make_set(page("3", filler, long_table(3))), LETTER):
            found = words_of(sheet)
            assert ("Cord list" in found) == ("row0" in found)


@pytest.mark.parametrize("kind", [Items, Ticks])
def test_the_last_of_a_list_is_never_alone_on_a_sheet(kind):
    items = tuple(f"item {n}" for n in range(6))
    for lines in range(40, 62):
        filler = Drawing(tuple("x" for _ in range(lines)))
        for sheet in sheets_of_paper(make_set(page("3", filler, kind("lead", items))), LETTER):
            found = words_of(sheet)
            assert ("item 4" in found) == ("item 5" in found)
            assert "lead" not in found or "item 0" in found


def test_a_small_table_stays_whole():
    for lines in range(40, 62):
        filler = Drawing(tuple("x" for _ in range(lines)))
        sheets = sheets_of_paper(make_set(page("3", filler, long_table(8))), LETTER)
        assert [words_of(sheet).count("Way") for sheet in sheets] in ([1], [0, 1])


def test_a_row_taller_than_a_sheet_goes_on_on_the_next():
    table = Table("Cords", ("Cord", "Way"), (("A1", "step " * 790), ("A2", "end")))
    narrow = Table("", tuple("ABCDEFGH"), (("step " * 700,) * 8, ("end",) * 8))
    for part in (table, narrow):
        sheets = sheets_of_paper(make_set(page("3", part)), LETTER)
        assert sum(words.count("step") for sheet in sheets for words in words_of(sheet)) >= 790
        assert "end" in words_of(sheets[-1])


def test_an_empty_column_is_wide_enough_to_write_in():
    rows = tuple((f"A{n}", "a long way around the room " * 6, "") for n in range(3))
    table = Table("Boxes", ("Box", "Way", "As cut"), rows)
    (sheet,) = sheets_of_paper(make_set(page("2", table)), LETTER)
    across = {x for ink in sheet.ink if isinstance(ink, Rule) for x, _ in ink.points_mm}
    head = next(ink for ink in sheet.ink if isinstance(ink, Letters) and ink.words == "As cut")
    left = max(x for x in across if x < head.at_mm[0])
    right = min(x for x in across if x > head.at_mm[0])
    assert right - left >= 20.0


@pytest.mark.parametrize("paper", [LETTER, A4, A3])
def test_a_drawing_that_fits_is_whole_and_upright_where_it_can_be(paper):
    width, height = paper.most_mm
    view = line_view((0, 0), (width / 20 - 1.1, height / 20 - 1.1))
    (sheet,) = sheets_of_paper(make_set(page("2", Figure(view))), paper)
    (picture,) = pictures(sheet)
    assert sheet.paper == paper
    assert (picture.window.width_mm, picture.window.height_mm) == (view.width_mm, view.height_mm)


def test_a_wide_drawing_turns_its_sheet_and_takes_its_lead_along():
    view = line_view((0, 0), (11.0, 0))
    parts = (Say("Left is left."), Figure(view), long_table(60))
    first, *rest = sheets_of_paper(make_set(page("3", *parts)), LETTER)
    assert first.paper == LETTER.turned
    assert "Left is left." in words_of(first)
    assert rest
    assert {sheet.paper for sheet in rest} == {LETTER}


def test_a_drawing_made_for_its_room_fits_with_a_line_above():
    for paper in PAPERS.values():
        for width_m, depth_m in ((4.0, 9.0), (9.0, 4.0)):
            room = figure_room_mm(paper, width_m, depth_m)
            view = line_view((0, 0), (room[0] / 20 - 1, room[1] / 20 - 1))
            sheets = sheets_of_paper(make_set(page("2", Say("Look."), Figure(view))), paper)
            assert len(sheets) == 1
            turned = width_m > depth_m
            assert sheets[0].paper == (paper.turned if turned else paper)


@held_over(25)
@given(st.floats(10.0, 22.0), st.floats(1.0, 22.0))
def test_the_parts_of_a_large_drawing_show_all_of_it_and_overlap(width_m, depth_m):
    view = room_view(width_m, depth_m, 20)
    sheets = sheets_of_paper(make_set(page("2", Figure(view))), LETTER)
    windows = [picture.window for sheet in sheets for picture in pictures(sheet)]
    assert len(windows) == len(sheets) > 1
    for part in range(14):
        for other in range(14):
            x, y = view.width_mm * part / 13, view.height_mm * other / 13
            assert any(
                window.left_mm - 0.1 <= x <= window.right_mm + 0.1
                and window.bottom_mm - 0.1 <= y <= window.top_mm + 0.1
                for window in windows
            )
    for number, sheet in enumerate(sheets):
        told = " ".join(words_of(sheet))
        assert "match line" in told or "see " in told
        assert "Key plan" in told
        assert f"Part {chr(65 + number)}" in told or number > 25


@given(
    st.text("abcdefgh ⅛½é(-", max_size=200), st.floats(8.0, 200.0), st.sampled_from((7.0, 9.5, 14))
)
def test_no_line_is_wider_than_its_room_and_no_letter_is_lost(text, width_mm, size_pt):
    face = Face(size_pt)
    lines = lines_of(text, width_mm, face)
    assert all(face.width_mm(plain(line)) <= width_mm + 1e-6 for line in lines)
    assert "".join(map(plain, lines)).replace(" ", "") == text.replace(" ", "")


def test_a_number_stays_with_its_unit():
    text = "from the back wall 3 ft 7 1/2 in and 20 A on 12 AWG"
    whole = ("3 ft 7 1/2 in", "20 A", "12 AWG")
    for width in range(26, 90):
        told = [plain(line) for line in lines_of(text, float(width), Face(9.5))]
        assert all(any(quantity in line for line in told) for quantity in whole)


def filler(lines: int) -> Drawing:
    return Drawing(tuple(f"line {n}" for n in range(lines)))


def drawn(name: str, width_mm: float, height_mm: float, scale: int = 20) -> Figure:
    """A drawing of about that size on paper, a meter less for its margin."""
    view = line_view((0, 0), ((width_mm * scale / 1000) - 1.1, (height_mm * scale / 1000) - 1.1))
    return Figure(replace(view, title=name, scale=scale))


def test_what_follows_a_drawing_fills_the_sheet_on_which_that_has_no_room():
    first, second = sheets_of_paper(
        make_set(page("2", filler(20), drawn("room", 150, 180), Say("After it."), filler(5))),
        LETTER,
    )
    assert "After it." in words_of(first)
    assert not pictures(first)
    assert len(pictures(second)) == 1


def test_a_part_that_has_no_room_before_a_drawing_that_waits_comes_after_it_whole():
    parts = (filler(20), drawn("room", 150, 150), long_table(30), Say("Last."))
    first, second, *rest = sheets_of_paper(make_set(page("2", *parts)), LETTER)
    assert "row0" not in words_of(first)
    assert len(pictures(second)) == 1
    order = [w for sheet in (second, *rest) for w in words_of(sheet) if w.startswith(("row", "La"))]
    assert order == [*(f"row{n}" for n in range(30)), "Last."]


@held_over(30)
@given(st.lists(PARTS, max_size=9))
def test_drawings_keep_their_order_and_none_is_lost(parts):
    numbered = [
        Figure(replace(part.view, title=f"view {n}")) if isinstance(part, Figure) else part
        for n, part in enumerate(parts)
    ]
    wanted = [part.view.title for part in numbered if isinstance(part, Figure)]
    sheets = sheets_of_paper(make_set(page("2", *numbered)), LETTER)
    found = [picture.view.title for sheet in sheets for picture in pictures(sheet)]
    assert list(dict.fromkeys(found)) == wanted


def test_a_legend_stays_with_its_drawing_where_one_sheet_holds_both():
    # a drawing has room under the lines and the first one, its legend no more
    bounds = Rect(left_m=0, right_m=0.1, back_m=0, front_m=0.05)
    legend = replace(line_view((0, 0), (0.03, 0.03)), title="legend", scale=1, bounds=bounds)
    parts = (drawn("first", 20, 20), filler(4), drawn("room", 150, 110), Figure(legend))
    first, second = sheets_of_paper(make_set(page("2", *parts, Say("After it."))), LETTER)
    assert "After it." in words_of(first)
    assert [picture.view.title for picture in pictures(second)] == ["room", "legend"]


def test_the_first_drawing_of_a_page_does_not_wait_for_its_legend():
    bounds = Rect(left_m=0, right_m=0.1, back_m=0, front_m=0.05)
    legend = replace(line_view((0, 0), (0.03, 0.03)), title="legend", scale=1, bounds=bounds)
    parts = (filler(10), drawn("room", 150, 125), Figure(legend), Say("After it."))
    first, second = sheets_of_paper(make_set(page("2", *parts)), LETTER)
    assert [picture.view.title for picture in pictures(first)] == ["room"]
    assert [picture.view.title for picture in pictures(second)] == ["legend"]


def test_a_line_that_leads_in_stands_over_the_first_part_of_a_large_drawing():
    parts = (Say("Left is left."), Figure(room_view(16.0, 9.0, 48)))
    first, *rest = sheets_of_paper(make_set(page("2", *parts)), LETTER)
    assert "Left is left." in words_of(first)
    assert len(pictures(first)) == 1
    assert all(len(pictures(sheet)) == 1 for sheet in rest)


def test_a_page_without_parts_is_one_sheet():
    (sheet,) = sheets_of_paper(make_set(page("5")), LETTER)
    assert (sheet.number, sheet.of) == (1, 1)


def test_every_kind_of_part_is_laid_out():
    kinds: tuple[Part, ...] = (
        Say("said"),
        Items("lead", ("item",)),
        Marked("MET", ("marked",)),
        Drawing(("d",)),
        Ticks("try", ("tick",)),
        long_table(1),
        Figure(line_view((0, 0), (1, 0))),
    )
    (sheet,) = sheets_of_paper(make_set(page("1", *kinds)), LETTER)
    found = words_of(sheet)
    assert {"said", "lead", "item", "MET", "marked", "d", "try", "tick", "row0"} <= set(found)
    assert len(pictures(sheet)) == 1


@held_over(40)
@given(st.lists(PARTS, max_size=12), st.sampled_from([LETTER, A4, A3]))
def test_nothing_of_a_page_touches_the_caution(parts, paper):
    for sheet in sheets_of_paper(make_set(page("1", *parts)), paper):
        (first,) = (
            ink for ink in sheet.ink if isinstance(ink, Letters) and ink.words == "Caution:"
        )
        top = first.at_mm[1] - Face(first.size_pt).line_mm
        start = sheet.paper.height_mm - sheet.paper.margin_mm - BLOCK_MM
        lows = [y for ink in sheet.ink for _, y in corners(ink) if y < start]
        assert max(lows) + 1.5 <= top


def test_the_last_line_of_an_entry_is_never_alone_on_a_sheet():
    text = "word " * 60  # several lines
    entries = tuple(Marked("NOT MET", (text, text)) for _ in range(40))
    for sheet in sheets_of_paper(make_set(page("5", *entries)), LETTER):
        lines = [ink for ink in sheet.ink if isinstance(ink, Letters) and "word word" in ink.words]
        downs = sorted({round(ink.at_mm[1], 2) for ink in lines})
        steps = [b - a for a, b in pairwise(downs)]
        usual = min(steps)
        assert steps[0] < usual + 0.5  # the first line has its next close under it
        assert steps[-1] < usual + 0.5  # and the last its former close above it
