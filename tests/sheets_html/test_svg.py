"""A drawing as SVG: size, place, weight, letters, and harmless words."""

import re
from xml.etree import ElementTree

import pytest
from sample_set import sample_view

from powerplan.model.geometry import Rect
from powerplan.sheets.fonts import text_width_mm
from powerplan.sheets.lower import Mask, Stroke, Words
from powerplan.sheets.writers import svg
from powerplan.sheets.writers.svg import svg_text

SVG = "{http://www.w3.org/2000/svg}"


def stroke(**changes):
    told = {"points_mm": ((0.0, 0.0), (10.0, 20.0)), "closed": False, "weight_mm": 0.5}
    told |= {"dash_mm": (), "layer": "wall", "filled": False}
    return Stroke(**{**told, **changes})


def words(**changes):
    told = {"at_mm": (40.0, 50.0), "words": "box A3", "height_mm": 2.0, "anchor": "lb"}
    return Words(**{**told, "angle_deg": 0.0, "layer": "text", **changes})


@pytest.fixture
def drawn(monkeypatch):
    """The elements that come of these lowered things, on a view of 160 mm by 120 mm."""

    def draw(*things):
        monkeypatch.setattr(svg, "lowered", lambda view: things)
        return list(ElementTree.fromstring(svg_text(sample_view())))[2:]

    return draw


def test_a_drawing_is_as_large_as_on_paper():
    root = ElementTree.fromstring(svg_text(sample_view()))
    assert root.attrib["width"] == "160mm"  # 8 m at 1:50
    assert root.attrib["height"] == "120mm"  # 6 m at 1:50
    assert root.attrib["viewBox"] == "0 0 160 120"


def test_its_title_and_description_are_what_is_read_out():
    root = ElementTree.fromstring(svg_text(sample_view(), "second"))
    title, desc = root.find(f"{SVG}title"), root.find(f"{SVG}desc")
    assert root.attrib["role"] == "img"
    assert root.attrib["aria-labelledby"] == "second-title second-desc"
    assert (title.attrib["id"], desc.attrib["id"]) == ("second-title", "second-desc")
    assert title.text == "Floor boxes, screen at the top"
    assert desc.text == "A room with one chair at its back wall and a box under it."


def test_up_in_the_room_is_up_in_the_picture(drawn):
    [path] = drawn(stroke(points_mm=((0.0, 0.0), (10.0, 20.0))))
    assert path.attrib["d"] == "M0 120L10 100"


def test_a_closed_line_ends_where_it_began(drawn):
    [path] = drawn(stroke(points_mm=((0.0, 0.0), (10.0, 0.0), (10.0, 10.0)), closed=True))
    assert path.attrib["d"] == "M0 120L10 120L10 110Z"


def test_lines_keep_their_weight_and_dash(drawn):
    [path] = drawn(stroke(weight_mm=0.13, dash_mm=(4.0, 1.0)))
    assert path.attrib["stroke-width"] == "0.13"
    assert path.attrib["stroke-dasharray"] == "4 1"


def test_lines_of_one_kind_are_one_path_until_something_comes_between(drawn):
    mask = Mask(corners_mm=((0.0, 0.0), (5.0, 0.0), (5.0, 5.0), (0.0, 5.0)))
    thin = stroke(weight_mm=0.13)
    told = drawn(stroke(), stroke(), thin, mask, stroke(), words())
    assert [tag.tag.removeprefix(SVG) for tag in told] == ["path", "path", "path", "path", "text"]
    assert [tag.attrib["d"].count("M") for tag in told[:4]] == [2, 1, 1, 1]
    assert told[2].attrib["fill"] == "white"


def test_ink_that_overlaps_stays_ink(drawn):
    corners = ((0.0, 0.0), (5.0, 0.0), (5.0, 5.0))
    solid = stroke(points_mm=corners, closed=True, filled=True, weight_mm=0.0)
    told = drawn(solid, stroke(points_mm=corners[::-1], closed=True, filled=True, weight_mm=0.0))
    assert [tag.attrib["fill"] for tag in told] == ["black", "black"]
    assert [tag.attrib.get("stroke") for tag in told] == [None, None]


@pytest.mark.parametrize(
    ("anchor", "side", "y"),
    [
        ("lb", "start", "70"),  # 120 - 50: the letters stand on the point
        ("cm", "middle", "71"),  # half of 2 mm lower
        ("rt", "end", "72"),  # the whole 2 mm lower
    ],
)
def test_words_stand_at_their_anchor(drawn, anchor, side, y):
    [text] = drawn(words(anchor=anchor))
    assert (text.attrib["x"], text.attrib["y"]) == ("40", y)
    assert text.attrib["text-anchor"] == side


@pytest.mark.published(
    source="outline of H in DejaVu Sans Condensed 2.37: 1493 of 2048 high",
    standing="published copy",
)
@pytest.mark.parametrize("height", [2.0, 3.5])
def test_capital_letters_are_as_high_as_asked(drawn, height):
    [text] = drawn(words(height_mm=height))
    assert float(text.attrib["font-size"]) * 1493 / 2048 == pytest.approx(height, abs=0.002)


def test_turned_words_turn_about_their_point_counter_clockwise(drawn):
    [text] = drawn(words(angle_deg=90.0, anchor="cm"))
    assert text.attrib["transform"] == "rotate(-90 40 70)"


def test_blanks_between_words_are_kept(drawn):
    [text] = drawn(words(words="6 ft  3 1/4 in"))
    assert text.text == "6 ft  3 1/4 in"
    assert text.attrib["style"] == "white-space: pre"


def test_hostile_words_are_only_words(drawn):
    hostile = "</text><script>alert(1)</script>&\x00\u202e"
    [text] = drawn(words(words=hostile))
    assert text.text == "</text><script>alert(1)</script>&\\x00\\u202e"
    view = sample_view(title=hostile, description=hostile)
    root = ElementTree.fromstring(svg_text(view, '"><script>'))
    assert not list(root.iter(f"{SVG}script"))


@pytest.mark.parametrize(
    ("units", "length", "said"), [("ft-in", 50.8, "2 in"), ("mm", 50.0, "50 mm")]
)
def test_a_check_bar_stands_under_a_drawing_that_has_a_scale(monkeypatch, units, length, said):
    monkeypatch.setattr(svg, "lowered", lambda view: ())
    root = ElementTree.fromstring(svg_text(sample_view(), units=units))
    path, text = list(root)[2:]
    points = [
        tuple(map(float, point.split())) for point in re.findall(r"[\d.]+ [\d.]+", path.attrib["d"])
    ]
    (x, y), (end, level) = points[0], points[-1]
    assert (end - x, level) == (pytest.approx(length), y)
    assert 120 < y < float(root.attrib["viewBox"].split()[3])  # the drawing itself is 120 mm high
    assert text.text == f"{said} when printed at 100 %"


def test_a_drawing_narrower_than_its_check_bar_leaves_room_for_it(monkeypatch):
    monkeypatch.setattr(svg, "lowered", lambda view: ())
    narrow = sample_view(bounds=Rect(left_m=0, right_m=1, back_m=0, front_m=1))
    root = ElementTree.fromstring(svg_text(narrow, units="mm"))
    text = list(root)[-1]
    ends = float(text.attrib["x"]) + text_width_mm(text.text, 2.0)
    assert float(root.attrib["viewBox"].split()[2]) >= ends - 0.001 > 70  # 1 m at 1:50 is 20 mm


def test_a_drawing_without_a_scale_has_no_check_bar():
    assert "printed" not in svg_text(sample_view(scale=1, items=()), units="mm")


def test_a_real_drawing_is_black_on_white_and_well_formed():
    told = svg_text(sample_view())
    ElementTree.fromstring(told)
    inks = set(re.findall(r'(?:fill|stroke)="(\w+)"', told))
    assert inks <= {"black", "white", "none"}
    assert "box A3: 6 ft  3 1/4 in" in told
    assert not re.search(r"nan|inf\b|e-\d", told)
