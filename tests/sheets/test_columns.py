import pytest
from hypothesis import given
from hypothesis import strategies as st

from powerplan.sheets.writers.columns import clip, columns, cut, printable, wrap
from powerplan.sheets.writers.table import table_lines

ANYTHING = st.text(max_size=200)
WIDTHS = st.integers(min_value=4, max_value=80)


@given(ANYTHING, WIDTHS)
def test_no_wrapped_line_is_wider_than_the_width(text: str, width: int):
    assert all(columns(line) <= width for line in wrap(printable(text), width))


@given(ANYTHING, WIDTHS)
def test_wrapping_loses_no_character_but_blanks(text: str, width: int):
    tame = printable(text)
    assert "".join("".join(wrap(tame, width)).split()) == "".join(tame.split())


def test_a_quantity_stays_on_one_line_where_it_fits():
    assert wrap("the limit is 15 A here", 15) == ["the limit is", "15 A here"]
    assert wrap("way of 5 ft 10 3/8 in", 16) == ["way of", "5 ft 10 3/8 in"]


def test_a_quantity_wider_than_the_line_is_broken_at_its_blanks():
    assert wrap("5 ft 10 3/8 in", 8) == ["5 ft 10", "3/8 in"]


@pytest.mark.parametrize(
    "text", ["\x1b[31mred", "a\x00b", "a\nb", "a\rb", "\u202egnp.exe", "\u200b"]
)
def test_characters_that_steer_a_terminal_are_shown_and_not_sent(text: str):
    shown = printable(text)
    assert shown.isprintable()
    assert "\\" in shown


def test_marks_stacked_on_one_letter_are_cut_off_after_two():
    shown = printable("e" + "\u0301" * 50)
    assert shown.count("\u0301") == 2


def test_a_lone_surrogate_becomes_an_escape():
    assert printable("\ud800") == "\\ud800"


def test_a_very_long_text_is_cut():
    assert len(printable("x" * 100_000)) < 5_000


@pytest.mark.parametrize(
    ("text", "shown"), [("2 × 3", "2 x 3"), ("Zoë’s", "Zo\\xeb's"), ("½ in", "1/2 in")]
)
def test_what_the_stream_cannot_encode_is_written_in_ascii(text: str, shown: str):
    assert printable(text, "ascii") == shown


def test_a_stream_of_unknown_encoding_gets_ascii():
    assert printable("naïve", "no-such-encoding").isascii()


def test_what_the_stream_can_encode_is_left_alone():
    assert printable("Zoë 2 × 3", "cp1252") == "Zoë 2 × 3"


def test_wide_characters_count_two_columns():
    assert columns("椅子") == 4
    assert cut("椅子", 3) == ("椅", "子")


def test_a_clipped_text_says_that_something_is_missing():
    assert clip("abcdefgh", 6) == "abc..."
    assert clip("abcdef", 6) == "abcdef"


def test_numbers_in_a_table_stay_as_they_are_written():
    lines = table_lines(("a", "b"), (("12.50", "007"),))
    assert lines[-1].split() == ["12.50", "007"]


@given(st.lists(st.lists(ANYTHING, min_size=7, max_size=7), min_size=1, max_size=4))
def test_no_line_of_a_table_is_wider_than_the_page(rows: list[list[str]]):
    tame = tuple(tuple(printable(cell) for cell in row) for row in rows)
    head = ("box", "under", "from left wall", "from back wall", "circuit", "sockets", "mark")
    assert all(columns(line) <= 80 for line in table_lines(head, tame))


def test_rows_are_set_apart_when_one_of_them_is_wrapped():
    lines = table_lines(("a", "b"), (("x " * 100, "1"), ("y", "2")))
    assert "" in lines
    assert "" not in table_lines(("a", "b"), (("x", "1"), ("y", "2")))
