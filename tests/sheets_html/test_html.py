"""The web page of a set, read by a parser: order, names, tables, and words that do no harm."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from laws import held_over
from outline import faults, headings, read
from sample_set import CAUTION, sample_set, sample_view, with_parts

from powerplan.sheets.parts import Figure, Items, Marked, Say, Table, Ticks
from powerplan.sheets.printed import SheetPage
from powerplan.sheets.writers.html import html_text
from powerplan.sheets.writers.html_style import style_text

HOSTILE = "</style></title><script>alert(1)</script>\"' onload=x & \x00\u202e\ud800 =1\\"


def section(html: str, number: int = 1):
    return list(read(html).all("section"))[number - 1]


def texts(tags) -> list[str]:
    return [tag.text for tag in tags]


def test_nobody_is_kept_out():
    page = read(html_text(sample_set()))
    assert faults(page) == []
    assert headings(page) == [1, 2, 2, 2, 2, 2]
    assert next(page.all("html")).attributes["lang"] == "en"


def test_a_fault_would_be_seen():
    bad = '<h1>a</h1><h3 id="x">b</h3><p id="x" aria-labelledby="y"></p><table><th>c</th></table>'
    assert len(faults(read(bad + '<script></script><input id="z"><a href="http://a">b</a>'))) == 8


def test_the_skip_link_comes_first_and_the_list_of_pages_leads_to_each():
    page = read(html_text(sample_set()))
    skip, *links = page.all("a")
    assert skip.text == "Skip to the first page"
    assert skip.attributes["href"] == "#pages"
    titles = {f"#{s.attributes['id']}": next(s.all("h2")).text for s in page.all("section")}
    assert [titles[link.attributes["href"]] for link in links] == [
        *("1. Decision", "2. Floor boxes", "3. Cords", "4. Circuits", "5. Findings"),
    ]


def test_nothing_is_fetched_and_nothing_runs():
    html = html_text(sample_set())
    assert "script" not in html
    assert "default-src 'none'" in html
    assert re.findall(r"url\((?!data:font/woff;base64,)", html) == []
    addresses = set(re.findall(r"https?://[^\s\"'<>]+", html))
    assert addresses == {"http://www.w3.org/2000/svg"}


@pytest.mark.parametrize(
    "told",
    [
        *("Harbour Lane den", "revision A", "date 2026-11-25", "NFPA 70, 2023 (us-nec-2023)"),
        *("plan file 0123456789ab", "powerplan 0.1.0"),
    ],
)
def test_what_is_in_a_title_block_stands_at_the_top_and_on_every_page(told):
    html = html_text(sample_set())
    assert told in next(read(html).all("header")).text
    assert all(told in part.text for part in read(html).all("section"))
    assert re.search(r"@top-left \{ content: \"Harbour Lane den\\3b  revision A", html)


def test_the_caution_is_first_and_last_on_every_page_and_at_the_foot_of_the_paper():
    html = html_text(sample_set())
    assert CAUTION in next(read(html).all("header")).text
    for page in read(html).all("section"):
        blocks = [tag for tag in page.inside if not isinstance(tag, str)]
        told = [n for n, tag in enumerate(blocks) if CAUTION in tag.text]
        assert told == [2, len(blocks) - 1]  # behind the heading and the title block; and last
    assert '@bottom-left { content: "This is a planning aid\\2e  Switch off' in html


def test_a_table_says_what_each_cell_is_the_cell_of():
    table = Table(caption="Load", head=("circuit", "asks"), rows=(("7", "9 A"), ("", "1 A")))
    page = section(html_text(with_parts(table)))
    [told] = page.all("table")
    assert texts(told.all("caption")) == ["Load"]
    assert [(th.text, th.attributes["scope"]) for th in told.all("th")] == [
        *(("circuit", "col"), ("asks", "col"), ("7", "row")),
    ]
    assert texts(told.all("td")) == ["9 A", "", "1 A"]


def test_a_wide_table_can_be_moved_by_keyboard_and_has_a_name():
    page = section(html_text(sample_set()), 2)
    [room] = [tag for tag in page.all("div") if tag.attributes.get("class") == "scroll"]
    assert room.attributes["role"] == "region"
    assert room.attributes["aria-label"] == "Table: Where the middle of each box goes"
    assert room.attributes["tabindex"] == "0"


def test_every_value_of_a_wide_table_knows_its_head():
    page = section(html_text(sample_set()), 2)
    for row in list(page.all("tr"))[1:]:
        cells = list(row.all("th", "td"))
        assert [cell.attributes["data-head"] for cell in cells] == texts(
            next(page.all("tr")).all("th")
        )


def test_ticks_are_boxes_with_their_words():
    page = section(html_text(with_parts(Ticks(lead="Before power:", items=("Off.", "Dead.")))))
    boxes = list(page.all("input"))
    assert [box.attributes["type"] for box in boxes] == ["checkbox", "checkbox"]
    words = {label.attributes["for"]: label.text for label in page.all("label")}
    assert [words[box.attributes["id"]] for box in boxes] == ["Off.", "Dead."]
    assert texts(page.all("legend")) == ["Before power:"]


def test_marks_stand_in_words_before_what_they_mark():
    page = section(html_text(sample_set()), 5)
    assert texts(page.all("dt")) == [
        "NOT MET: wire-matches-breaker (must), circuit 9",
        "NOT CHECKED: circuit-load (must), circuit 7",
        "MET: cord-length (must), A2",
    ]
    assert texts(next(page.all("dd")).all("li")) == ["one", "two"]


def test_the_order_of_work_is_numbered_and_a_list_is_not():
    steps = Items(lead="Order:", items=("a", "b"), numbered=True)
    page = section(html_text(with_parts(steps, Items(lead="", items=("c",)))))
    assert [tag.name for tag in page.all("ol", "ul")] == ["ol", "ul"]
    assert texts(page.all("li")) == ["a", "b", "c"]


def test_each_drawing_has_ids_of_its_own_and_tells_its_scale():
    view = sample_view()
    page = section(html_text(with_parts(Figure(view=view), Figure(view=view))))
    assert faults(read(html_text(with_parts(Figure(view=view), Figure(view=view))))) == []
    assert len(list(page.all("svg"))) == 2
    assert all("1:50" in caption for caption in texts(page.all("figcaption")))


def test_a_scale_is_told_in_the_units_of_the_plan():
    page = section(html_text(with_parts(Figure(view=sample_view(scale=48)))))
    assert 'Scale 1/4" = 1\'-0".' in next(page.all("figcaption")).text


def test_a_page_with_a_drawing_wider_than_upright_paper_is_printed_sideways():
    kinds = [page.attributes.get("class") for page in read(html_text(sample_set())).all("section")]
    assert kinds == [None, None, "sideways", None, None]  # page 3 has one of 12 m at 1:50: 240 mm


def hostile_set():
    view = sample_view(title=HOSTILE, description=HOSTILE)
    parts = (
        Say(text=HOSTILE),
        Items(lead=HOSTILE, items=(HOSTILE,)),
        Table(caption=HOSTILE, head=(HOSTILE,) * 7, rows=((HOSTILE,) * 7,)),
        Marked(mark=HOSTILE, lines=(HOSTILE, f"- {HOSTILE}")),
        Ticks(lead=HOSTILE, items=(HOSTILE,)),
        Figure(view=view),
    )
    page = SheetPage(number=HOSTILE, title=HOSTILE, reader=HOSTILE, parts=parts)
    names = ("project", "revision", "date", "program", "rules", "plan_hash", "caution")
    return sample_set(pages=(page,), **dict.fromkeys(names, HOSTILE))


def test_hostile_text_is_only_text_wherever_it_stands():
    html = html_text(hostile_set())
    page = read(html)
    assert faults(page) == []
    assert "alert(1)</script>" not in html
    assert html.count("</style>") == html.count("</title>") - 1 == 1  # of the page and the drawing
    assert "\x00" not in html
    assert "\u202e" not in html
    assert "<script>alert(1)</script>" in next(page.all("section")).text
    html.encode("utf-8")


def test_hostile_text_cannot_end_a_string_of_the_style():
    style = style_text('a"; } body { display: none } \\ \n', "")
    assert re.findall(r"@top-left \{ content: (\"[^\"\n]*\");", style) == [
        r'"a\22 \3b  \7d  body \7b  display\3a  none \7d  \5c  \a "'
    ]


PARTS = st.one_of(
    st.builds(Say, st.text()),
    st.builds(Items, st.text(), st.lists(st.text(), max_size=3).map(tuple), st.booleans()),
    st.builds(Marked, st.text(), st.lists(st.text(), max_size=3).map(tuple)),
    st.builds(Ticks, st.text(), st.lists(st.text(), min_size=1, max_size=3).map(tuple)),
    st.builds(
        Table,
        st.text().map(lambda text: f"c{text}"),
        st.tuples(st.text(), st.text()),
        st.lists(st.tuples(st.text(), st.text()), max_size=3).map(tuple),
    ),
)


@given(st.lists(PARTS, max_size=6), st.text())
@held_over(60)
def test_any_text_makes_a_sound_page(parts, project):
    sheets = with_parts(*parts)._replace(project=project)
    assert faults(read(html_text(sheets))) == []


def test_the_same_set_makes_the_same_page():
    assert html_text(sample_set()) == html_text(sample_set())
