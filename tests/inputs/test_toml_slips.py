"""Lines that are not TOML are told in words that mend them, and hide nothing else."""

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st
from laws import held_over
from plan_texts import EVERY_KEY, LEAST, changed, faults, line_with, read, swapped, with_table

from powerplan.model.errors import PlanFileError


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('"16 ft"', "16 ft", 'text and quantities stand in quotes: width = "16 ft"'),
        ('"16 ft"', "16 ft  # it's wide", 'stand in quotes: width = "16 ft"'),
        ('"16 ft"', "5'10\"", 'not TOML: for feet and inches write "5 ft 10 in"'),
        ('"16 ft"', '"5\'10""', 'not TOML: for feet and inches write "5 ft 10 in"'),
        ('"16 ft"', '"190""', 'not TOML: for feet and inches write "5 ft 10 in"'),
        ('"16 ft"', '"16 ft', "a quote is missing"),
        ('"16 ft"', "'16 ft", "a quote is missing"),
        ('"16 ft"', "", "a value is missing after ="),
        ('"16 ft"', "# 16 ft", "a value is missing after ="),
        ('"16 ft"', "\u201c16 ft\u201d", 'write the plain mark "'),
        ('"16 ft"', '"16 \\ft"', ""),
        ('"16 ft"', '"16 \\q"', r"a backslash in text is written \\"),
        ('chair = "club"', "chair = club", 'text and quantities stand in quotes: chair = "club"'),
        ("seats = 3", "seats: 3", "write = between key and value in place of :"),
        ("seats = 3", "seats = 3\nfastened = True", "write true in small letters"),
        ("seats = 3", "seats = 3\nseats = 4", "the key 'seats' is written twice"),
        ("seats = 3", "seats = 3\nno_arm_between = [[1, 2]", "the list is not closed"),
        ("seats = 3", 'seats = 3\nhead rest = "4 in"', "a key has no spaces; write _"),
        ("[row.A]", "[row.A", "] is missing after the name of the table"),
        ("[row.A]", "[row.front left]", 'a name with a space stands in quotes: [row."front left"]'),
        ('{ right = "0 in",', "{ right = 0 in,", 'stand in quotes: "0 in"'),
        ('{ right = "0 in",', '{ right : "0 in",', "write = between key and value"),
        ('{ right = "0 in",', '{ right = "0 in", right = "1 in",', "the key 'right' is written"),
        ('forward = "2 in" }', 'forward = "2 in"', "a table in { } stays on one line"),
    ],
)
def test_each_slip_is_told_on_its_line(old: str, new: str, words: str):
    text = swapped(old, new, LEAST)
    if not words:
        assert faults(text)
        return
    last = new.splitlines()[-1] if new else old
    line = line_with(last, text) if new else 3
    told = faults(text)
    assert told[0][0] == line, told
    assert words in told[0][1]


def test_many_lines_that_are_not_toml_are_all_told_with_the_faults_of_the_others():
    text = LEAST.replace('"16 ft"', "16 ft").replace('"22 in"', "22 in").replace("= 3", "= 0")
    text = text.replace('"1.6 A"', '"29 V 2 A"')
    assert [line for line, _ in faults(text)] == [3, 6, 12, 17]


def test_a_table_left_open_is_told_once():
    text = swapped("[chair.club]", "[chair.club", LEAST)
    assert [line for line, _ in faults(text)] == [5]


def test_a_list_left_open_is_told_where_it_opens():
    text = swapped('["3 ft", "6 ft", "9 ft", "12 ft", "15 ft"]', '["3 ft",\n  "6 ft"')
    told = faults(text)
    assert told[0] == (
        line_with('lengths = ["3 ft"', text),
        "not TOML: the list is not closed: ] is missing, or a comma in it",
    )


@pytest.mark.parametrize(
    ("data", "line", "words"),
    [
        ("plan_file = 1".encode("utf-16"), 1, "looks like UTF-16"),
        ("plan_file = 1".encode("utf-16-le"), 1, "looks like UTF-16"),
        (b"plan_file = 1\n# \xe9t\xe9\n", 2, "not UTF-8"),
        (b"#" + b"x" * 256 * 1024, 1, "larger than 256 kB"),
        (b"\n\nname = " + b'"' + b"x" * 1000 + b'"', 3, "longer than 1000 characters"),
        (b"\n" + b".".join([b"a"] * 490) + b" = 1", 2, "nested more than 8 deep"),
        (b"\n[" + b' . "a"'.join([b"a"] * 12) + b"]", 2, "nested more than 8 deep"),
        (b"a = " + b"[" * 900, 1, "nested more than 8 deep"),
        (b"a = " + b"[\n" * 100_000, 1, "nested more than 8 deep"),
        (b"a = " + b"[" * 9 + b"]" * 9, 1, "'a': tables are nested more than 8 deep"),
        (b"a = " + b"{a=" * 9 + b"1" + b"}" * 9, 1, "nested more than 8 deep"),
    ],
)
def test_what_is_no_plan_file_at_all_is_refused_at_once(data: bytes, line: int, words: str):
    told = faults(data)
    assert len(told) == 1
    assert told[0][0] == line
    assert words in told[0][1]


def test_a_comment_with_many_dots_is_not_deep():
    text = "# see a.b.c.d.e.f.g.h.i.j.k\n" + swapped(
        '"Harbour Lane den"', '"a.b.c.d.e.f.g.h.i.j.k = 1"'
    )
    assert faults(text) == []


@pytest.mark.parametrize("digits", ["9" * 900, "-" + "9" * 900, "0x" + "f" * 900])
def test_a_number_of_many_digits_is_cut_short(digits: str):
    told = faults(swapped("seats = 5", f"seats = {digits}"))
    assert len(told) == 1
    assert len(told[0][1]) < 120


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        ('"a\\u001b[31m"', "\\x1b[31m"),
        ('"a\\u0007b"', "\\x07"),
        ('"a\\nb"', "\\x0a"),
        ('"a\\u202eb"', "\\u202e"),
        ('"a\\U000e0041"', "\\u..."),
    ],
)
def test_what_does_not_print_is_shown_escaped(written: str, shown: str):
    for table, old in (
        ("project", '"Harbour Lane den"'),
        ("room", '"15 ft 6 in"'),
        ("row.A", '"club"'),
        ("door.hall", '"right"'),
    ):
        told = faults(with_table(table, old, written))
        assert len(told) == 1
        assert shown in told[0][1]
        assert told[0][1].isprintable()


def test_a_key_that_does_not_print_is_shown_escaped():
    told = faults(swapped('lead = "6 ft"', '"le\\u001bad" = "6 ft"'))
    assert len(told) == 1
    assert "the key 'le\\x1bad' is not known; did you mean 'lead'?" in told[0][1]


def test_a_files_name_that_does_not_print_is_made_harmless():
    with pytest.raises(PlanFileError) as caught:
        read("", name="a\x1b[31m\nb.toml")
    assert all(fault.startswith("a?[31m?b.toml:") for fault in caught.value.faults)


def lines_of(text: str) -> st.SearchStrategy[int]:
    return st.integers(1, len(text.splitlines()))


@given(
    place=lines_of(EVERY_KEY),
    line=st.one_of(
        st.text(max_size=40),
        st.text("[]{}=\"'.,# ab1\\\n", max_size=20),
        st.sampled_from(EVERY_KEY.splitlines()),
    ),
)
@held_over(400)
def test_whatever_stands_on_a_line_the_file_reads_or_is_refused_in_words(place: int, line: str):
    text = changed({place: line})
    told = faults(text.encode("utf-8", "replace"))
    assert all(words.isprintable() and len(words) < 400 for _, words in told)
    try:
        tomllib.loads(text.replace("\r\n", "\n"))
    except tomllib.TOMLDecodeError:
        assert told


@given(st.binary(max_size=300))
@held_over(200)
def test_no_bytes_do_anything_but_be_refused(data: bytes):
    assert faults(data)
