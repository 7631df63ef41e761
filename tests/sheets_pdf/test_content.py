"""What a page of the PDF says, operator by operator, read back by another library."""

import math

import pytest
from pdf_reading import MM, reader, text_of, texts
from pdf_set import line_view, make_set, page
from pypdf.generic import ContentStream

from powerplan.model.geometry import Rect
from powerplan.sheets.fonts import _widths, drawable
from powerplan.sheets.layers import layer
from powerplan.sheets.paper import LETTER
from powerplan.sheets.parts import Figure, Say
from powerplan.sheets.scene import Hatch, Line, Text, View
from powerplan.sheets.writers.content import Content
from powerplan.sheets.writers.pdf import pdf_bytes


def drawn(*items):
    view = View(
        title="A drawing",
        description="A drawing.",
        scale=50,
        bounds=Rect(left_m=0.0, right_m=4.0, back_m=0.0, front_m=4.0),
        items=items,
    )
    return reader(pdf_bytes(make_set(page("2", Figure(view))), LETTER)).pages[0]


def operations(sheet):
    return ContentStream(sheet.get_contents(), sheet.pdf).operations


def numbers_of(sheet, wanted):
    return [tuple(map(float, found)) for found, operator in operations(sheet) if operator == wanted]


def test_every_letter_of_the_font_can_be_searched():
    # Codes of a font in a PDF are one byte each, and the font has more letters than that.
    letters = [char for char in _widths()[0] if not char.isspace() and drawable(char) == char]
    words = ["".join(letters[n : n + 40]) for n in range(0, len(letters), 40)]
    assert len(letters) > 512
    (text, *_) = texts(pdf_bytes(make_set(page("2", *map(Say, words))), LETTER))
    assert all(word in text for word in words)


def test_words_of_letters_from_several_parts_of_the_font_stay_one_word():
    letters = [char for char in _widths()[0] if char.isalpha()]
    many, mixed = "".join(letters), f"x{letters[-1]}y{letters[-2]}z"
    view = line_view((0, 0), (3.0, 0), words=mixed)
    (text, *_) = texts(pdf_bytes(make_set(page("2", Say(many), Figure(view))), LETTER))
    assert mixed in text


def test_turned_words_stand_where_their_anchor_is():
    # Anchored at the left end of their base line, words begin at the anchor however they turn.
    for angle in (0.0, 90.0, 30.0):
        at = Text(
            at=(2.0, 2.0), words="turned", layer="text", anchor="lb", angle_deg=angle, height_mm=3.0
        )
        sheet = drawn(at)
        assert "turned" in text_of(sheet)
        if angle:
            a, b, _, _, x, y = numbers_of(sheet, b"Tm")[0]
            assert (a, b) == pytest.approx(
                (math.cos(math.radians(angle)), math.sin(math.radians(angle))), abs=1e-5
            )
        else:
            x, y = numbers_of(sheet, b"Td")[0]
        assert (x * MM, y * MM) == pytest.approx((40.0, 40.0), abs=0.01)


def test_ink_is_black_again_after_the_paper_behind_words_is_cleared():
    square = ((1.0, 1.0), (2.0, 1.0), (2.0, 2.0))
    sheet = drawn(
        Hatch(outline=square, layer="wall", spacing_mm=0.0),
        Text(at=(3.0, 3.0), words="cleared", layer="text", mask=True),
    )
    grays = [gray for (gray,) in numbers_of(sheet, b"g")]
    assert grays == [1.0, 0.0]
    assert len([1 for _, operator in operations(sheet) if operator == b"f"]) == 2


def test_a_style_is_said_again_after_a_window():
    content = Content()
    way = ((0.0, 0.0), (10.0, 0.0))
    content.line(way, 0.5, (), closed=False)
    content.begin_window((0.0, 0.0), (0.0, 0.0), (5.0, 5.0))
    content.line(way, 2.0, (3.0, 1.0), closed=False)
    content.line(way, 2.0, (3.0, 1.0), closed=True)
    content.end_window()
    content.line(way, 2.0, (3.0, 1.0), closed=False)
    said = content.text.splitlines()
    dashed = "2.0000 w [3.0000 1.0000] 0 d"
    assert said.count(dashed) == 2
    assert said[-2] == dashed
    assert [line[-1] for line in said if " m " in line] == ["S", "S", "s", "S"]


def test_dashes_of_a_layer_are_on_paper_as_the_table_of_layers_says():
    sheet = drawn(Line(points=((0.0, 1.0), (4.0, 1.0)), layer="clear"))
    said = [found[0] for found, operator in operations(sheet) if operator == b"d"]
    dashes = [[float(part) * MM for part in dash] for dash in said]
    assert pytest.approx(layer("clear").dash_mm, abs=0.001) in dashes
