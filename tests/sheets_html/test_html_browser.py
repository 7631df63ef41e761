"""The web page of a set in a real browser: on a phone, by keyboard, read out, and printed."""

import io
import math
import re
from pathlib import Path

import pypdf
import pytest
from laws import cases
from outline import faults, read
from sample_set import BOX_HEAD, box_rows, sample_set, sample_view, with_parts
from test_html import hostile_set

from powerplan.inputs.record_file import read_record
from powerplan.sheets import paper as papers
from powerplan.sheets.documents import set_of_sheets
from powerplan.sheets.fonts import text_width_mm
from powerplan.sheets.parts import Figure, Say, Table, Ticks
from powerplan.sheets.scene import Line, Text
from powerplan.sheets.writers.html import html_text

pytestmark = pytest.mark.browser

LETTER, A4 = (215.9, 279.4), (210.0, 297.0)
PX_PER_MM = 96 / 25.4

SIDEWAYS = "return document.documentElement.scrollWidth"
FOCUSED = "return document.activeElement.id || document.activeElement.className"


def printed(browser, paper=LETTER) -> list[str]:
    """The words on each sheet of paper."""
    pages = pypdf.PdfReader(io.BytesIO(browser.printed(*paper))).pages
    return [" ".join(page.extract_text().split()) for page in pages]


def long_words():
    rows = (("W" * 300, "x" * 200, "7", "9 A"),)
    narrow = Table(caption="c" * 200, head=("a", "b", "h" * 90, "d"), rows=rows)
    wide = Table(caption="Wide", head=("W" * 80,) * 9, rows=(("W" * 90,) * 9,))
    many = Table(caption="Many", head=("W" * 40,) * 6, rows=(("W" * 60,) * 6,))
    ticks = Ticks(lead="l" * 200, items=("t" * 200,))
    return with_parts(Say(text="W" * 500), narrow, wide, many, ticks)._replace(project="P" * 200)


@pytest.mark.parametrize("width", cases([320, 800], 360, 600, 1000, 1200))
@pytest.mark.parametrize("make", [sample_set, hostile_set, long_words])
def test_nobody_has_to_scroll_sideways_and_the_browser_has_no_complaint(shown, make, width):
    browser = shown(html_text(make()), width)
    assert browser.run(SIDEWAYS) <= width
    assert browser.complaints() == []


def test_a_complaint_would_be_seen(shown):
    browser = shown(html_text(sample_set()).replace("</main>", "<script>1</script></main>"))
    assert any("Content Security Policy" in told for told in browser.complaints())


def test_letters_are_large_enough_and_come_with_the_page(shown):
    browser = shown(html_text(sample_set()), 360)
    assert browser.run("return getComputedStyle(document.body).fontSize") == "16px"
    assert browser.run("return [...document.fonts].map(f => f.status)") == ["loaded", "loaded"]
    small = "[...document.querySelectorAll('body *')].filter(e => !e.closest('svg, input'))"
    sizes = browser.run(f"return {small}.map(e => parseFloat(getComputedStyle(e).fontSize))")
    assert min(sizes) >= 14


def test_words_in_a_drawing_are_as_wide_as_was_counted_on(shown):
    said = "box A3: 6 ft  3 1/4 in ≤ 20 Ω"
    view = sample_view(items=(Text(at=(3, 2), words=said, layer="text", height_mm=2.5),))
    browser = shown(html_text(with_parts(Figure(view=view))))
    width_mm = browser.run("return document.querySelector('svg text').getComputedTextLength()")
    assert width_mm == pytest.approx(text_width_mm(said, 2.5), rel=0.005)


def test_the_page_stays_black_on_white_in_the_dark(shown):
    browser = shown(html_text(sample_set()))
    browser.dark()
    style = "getComputedStyle(document.documentElement)"
    assert browser.run(f"return {style}.backgroundColor") == "rgb(255, 255, 255)"
    assert browser.run(f"return {style}.color") == "rgb(0, 0, 0)"


def test_every_stop_is_reached_by_tab_in_the_order_of_the_page(shown):
    browser = shown(html_text(sample_set()), 1200)
    wanted = browser.run(
        "return [...document.querySelectorAll('a, input, [tabindex=\"0\"]')]"
        ".filter(e => e.checkVisibility()).map(e => e.outerHTML.slice(0, 90))"
    )
    reached = []
    for _ in wanted:
        browser.press_tab()
        reached.append(browser.run("return document.activeElement.outerHTML.slice(0, 90)"))
        outline = "return getComputedStyle(document.activeElement).outlineStyle"
        assert browser.run(outline) == "solid"
    assert reached == wanted
    assert sum("checkbox" in stop for stop in reached) == 2


def test_the_skip_link_shows_when_reached_and_leads_past_the_list_of_pages(shown):
    browser = shown(html_text(sample_set()), 360)
    browser.press_tab()
    assert browser.run(FOCUSED) == "skip"
    place = "const r = document.activeElement.getBoundingClientRect(); return [r.left, r.top]"
    assert min(browser.run(place)) >= 0
    browser.run("document.activeElement.click()")
    browser.press_tab()
    assert not browser.run("return document.activeElement.closest('nav') !== null")


def test_a_drawing_fits_a_phone_and_can_be_had_at_full_size(shown):
    browser = shown(html_text(sample_set()), 360)
    width = "return document.querySelector('svg').getBoundingClientRect().width"
    assert browser.run(width) <= 360
    browser.run("document.querySelector('.size input').click()")
    assert browser.run(width) == pytest.approx(160 * PX_PER_MM, abs=0.5)
    assert browser.run(SIDEWAYS) <= 360


@pytest.mark.parametrize("width", [360, 1200])
def test_a_table_is_a_table_to_those_who_hear_it(shown, width):
    browser = shown(html_text(sample_set()), width)
    nodes = browser.heard()
    names = {(node["role"], node["name"]) for node in nodes}
    assert ("table", "Where the middle of each box goes") in names
    heads = [node["name"] for node in nodes if node["role"] == "columnheader"]
    assert heads[: len(BOX_HEAD)] == list(BOX_HEAD)
    in_front = [node["name"] for node in nodes if node["role"] == "rowheader"]
    assert in_front[:5] == [row[0] for row in box_rows(5)]


def test_a_drawing_is_heard_as_its_title_and_description(shown):
    browser = shown(html_text(sample_set()))
    heard = [node["name"] for node in browser.heard() if node["role"] == "image"]
    view = sample_view()
    assert heard[0] == f"{view.title} {view.description}"


@pytest.mark.parametrize("paper", [LETTER, A4])
def test_every_page_begins_a_new_sheet_of_paper(shown, paper):
    sheets = printed(shown(html_text(sample_set())), paper)
    assert len(sheets) >= 5
    on = [
        next(n for n, words in enumerate(sheets) if f"{page.number}. {page.title}" in words)
        for page in sample_set().pages
    ]
    assert on == sorted(set(on))
    assert on[0] == 0


def test_every_sheet_of_paper_says_what_it_belongs_to_and_carries_the_caution(shown):
    sheets = sample_set(pages=(sample_set().pages[1]._replace(parts=(long_table(60),)),))
    told = printed(shown(html_text(sheets)))
    assert len(told) > 1
    for number, words in enumerate(told, 1):
        assert "Harbour Lane den; revision A; date 2026-11-25" in words
        assert "plan file 0123456789ab" in words
        assert f"{number} of {len(told)}" in words
        assert sheets.caution in words


def long_table(count: int) -> Table:
    return Table(caption="Boxes", head=BOX_HEAD, rows=box_rows(count))


@pytest.mark.parametrize("rows", cases([80], 120))
def test_the_head_of_a_long_table_is_on_every_sheet_and_no_row_is_cut_or_lost(shown, rows):
    told = printed(shown(html_text(with_parts(long_table(rows)))))
    assert len(told) > 2
    for words in told:
        count = len(re.findall(r"box A\d+", words))
        assert count == 0 or "from right wall" in words
        assert words.count("9 ft 11 1/8 in") == count
    assert sum(len(re.findall(r"box A\d+", words)) for words in told) == rows


def test_a_row_of_many_lines_is_not_torn_across_two_sheets(shown):
    rows = tuple((f"row {n}", f"begin{n}. {'words ' * 150} end{n}.") for n in range(24))
    told = printed(shown(html_text(with_parts(Table(caption="c", head=("a", "b"), rows=rows)))))
    assert len(told) > 2
    for number in range(24):
        sheets = [words for words in told if f"begin{number}." in words]
        assert [f"end{number}." in words for words in sheets] == [True]


def test_nothing_is_wider_than_the_paper(shown):
    width = math.floor((A4[0] - 24) * PX_PER_MM)
    browser = shown(html_text(sample_set()), width)
    browser.on_paper()
    assert browser.run(SIDEWAYS) <= width


def test_a_drawing_is_printed_as_large_as_it_was_drawn(shown):
    wall = (Line(points=((0.0, 1.0), (6.0, 1.0)), layer="wall"),)
    for items, length_mm in (
        (wall, 6000 / 50),
        ((), 50.8 / 4),
    ):  # a wall of 6 m; a quarter of the bar
        browser = shown(html_text(with_parts(Figure(view=sample_view(items=items)))))
        [page, *_] = pypdf.PdfReader(io.BytesIO(browser.printed(*LETTER))).pages
        assert widest_line_mm(page) == pytest.approx(length_mm, abs=0.1)


def widest_line_mm(page: pypdf.PageObject) -> float:
    """The longest level line on a printed page, in millimeters of paper."""
    at, longest = (0.0, 0.0), 0.0

    def follow(operator, operands, matrix, _text):
        nonlocal at, longest
        if operator in (b"m", b"l"):
            x, y = (float(number) for number in operands)
            a, b, c, d, e, f = matrix
            point = (a * x + c * y + e, b * x + d * y + f)
            if operator == b"l" and abs(point[1] - at[1]) < 0.01:
                longest = max(longest, abs(point[0] - at[0]))
            at = point

    page.extract_text(visitor_operand_before=follow)
    return longest * 25.4 / 72


@pytest.mark.parametrize("name", cases(["tight-lounge"], "two-row-theater"))
def test_the_sheets_of_an_example_are_sound_on_a_phone_and_on_paper(shown, name):
    plan = read_record(Path(__file__).parents[2] / "examples" / f"{name}.record.json")
    sheets = set_of_sheets(plan, paper=papers.LETTER, revision="A", date="2026-11-25")
    html = html_text(sheets)
    assert faults(read(html)) == []
    browser = shown(html, 360)
    assert browser.run(SIDEWAYS) <= 360
    assert browser.complaints() == []
    told = printed(browser)
    assert len(told) >= len(sheets.pages)
    assert all(sheets.caution in words for words in told)


def test_all_of_the_page_that_can_be_read_is_in_the_print(shown):
    html = html_text(sample_set())
    told = " ".join(printed(shown(html)))
    for tag in read(html).all("td", "dt", "label", "legend", "caption", "li"):
        if tag.text and "size" not in tag.attributes.get("for", "") and "(for" not in tag.text:
            assert tag.text.split()[0] in told


@pytest.mark.parametrize("width", [320, 360])
def test_no_word_of_a_buying_list_is_broken_on_a_phone(shown, width):
    # every word of the list has a line of its own height, and none is laid over two
    head = ("what", "size", "how many", "mind")
    rows = (("floor box, recessed", "cut-out 4 in x 4 in", "2", "listed for floors"),)
    browser = shown(html_text(with_parts(Table(caption="Buying", head=head, rows=rows))), width)
    broken = browser.run(
        "const found = [];"
        "for (const cell of document.querySelectorAll('table tbody th, table tbody td')) {"
        "  const text = cell.firstChild, range = document.createRange();"
        "  for (const word of text.data.matchAll(/[^ ]+/g)) {"
        "    range.setStart(text, word.index);"
        "    range.setEnd(text, word.index + word[0].length);"
        "    if (range.getClientRects().length > 1) found.push(word[0]);"
        "  }"
        "}"
        "return [found, getComputedStyle(document.querySelector('tbody td')).display]"
    )
    assert broken == [[], "block"]
    assert browser.run(SIDEWAYS) <= width
