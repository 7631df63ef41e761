"""Rows as a plan file writes them: mixed, with tables and gaps, ahead of each other, turned."""

import math

import pytest
from plan_texts import EVERY_KEY, faults, line_with, read, with_table
from support import inch

from powerplan.model.seats import Curve, plain_pieces

MORE = """
[chair.deep]
seat_width = "26 in"
arm_width = "9 in"
depth = "44 in"
rear_of_base = "4 in"
back_travel = "5 in"
reclined_reach = "70 in"
arms = "own"
powered = false

[table.console]
width = "12 in"
rear = "4 in"
depth = "35 in"
under = "2 in"
"""


def row_of(lines: str, more: str = MORE) -> str:
    """The file with every key, with one row A of these lines."""
    head, _, rest = EVERY_KEY.partition("[row.A]")
    tail = rest[rest.index("\n[") :]
    wall = "" if "ahead_of" in lines or "headrest_to_wall" in lines else 'headrest_to_wall = "2 ft"'
    return f"{head}[row.A]\n{lines}\n{wall}\nfastened = false\n{tail}{more}"


def only(text: str) -> tuple[int, str]:
    told = faults(text)
    assert len(told) == 1, told
    return told[0]


def shape(row):
    """What stands in a row, shortly."""
    words = {"arm": "|", "seat": "S", "table": "T", "gap": " "}
    return "".join(words[piece.what] for piece in row.pieces)


@pytest.mark.parametrize(
    ("made", "wanted"),
    [
        ('["club", "deep"]', "|S||S|"),
        ('["club", "console", "club"]', "|S|T|S|"),
        ('["club", { gap = "6 in" }, "club"]', "|S| |S|"),
        ('["console", "club", "club"]', "T|S|S|"),
        ('["deep", "club", "club"]', "|S||S|S|"),
    ],
)
def test_neighbors_share_an_arm_unless_one_has_its_own_or_something_stands_between(made, wanted):
    row = read(row_of(f"made_of = {made}")).rows[0]
    assert shape(row) == wanted
    assert row.seats == wanted.count("S")


def test_a_row_made_of_one_kind_is_the_plain_row():
    plain = read(row_of('chair = "club"\nseats = 3')).rows[0]
    made = read(row_of('made_of = ["club", "club", "club"]')).rows[0]
    assert made == plain
    assert made.pieces == ()


def test_own_arms_give_each_chair_two():
    own = row_of('chair = "deep"\nseats = 2').replace("powered = false", POWER)
    assert shape(read(own).rows[0]) == "|S||S|"


POWER = """input = "1 A"
lead = "6 ft"
lead_from = { right = "0 in", forward = "2 in" }"""


def test_a_console_may_take_the_place_of_the_arms_beside_it():
    text = row_of('made_of = ["club", "console", "club"]', MORE + "arms_beside = false\n")
    assert shape(read(text).rows[0]) == "|STS|"


def test_an_arm_that_two_kinds_share_is_as_wide_as_the_wider_and_as_low_as_the_lower():
    more = MORE.replace('arms = "own"\n', 'arm_gap = "2 in"\n')
    spec = read(row_of('made_of = ["club", "deep"]', more))
    arm = spec.rows[0].pieces[2]
    assert arm.kind == "club"  # its gap is 1/4 in
    assert arm.width_m == inch(9)
    assert any("9 in wide, the wider" in one.words for one in spec.assumed)
    unknown = MORE.replace('arms = "own"\n', "")
    assert read(row_of('made_of = ["club", "deep"]', unknown)).rows[0].pieces[2].kind == "deep"


def test_arm_widths_are_given_from_the_left():
    widths = 'arm_widths = ["3 in", "5 in", "8 in"]'
    row = read(row_of(f'chair = "club"\nseats = 2\n{widths}')).rows[0]
    arms = [piece.width_m for piece in row.pieces if piece.what == "arm"]
    assert arms == [inch(3), inch(5), inch(8)]
    _, words = only(row_of('chair = "club"\nseats = 3\n' + widths))
    assert "3 widths for 4 arms" in words


@pytest.mark.parametrize(
    ("lines", "passage", "words"),
    [
        ('made_of = ["club", "sofa"]', "made_of", "no chair or table 'sofa' is written"),
        ('made_of = ["club", { gap = "6 in" }]', "made_of", "a gap at the end of a row"),
        ('made_of = ["club", { gape = "6 in" }]', "made_of", 'a gap is written { gap = "6 in" }'),
        ('made_of = ["console"]', "made_of", "no chair is in it"),
        ('made_of = ["club"]\nseats = 1', "seats = 1", "made_of says it already"),
        ('chair = "club"', "[row.A]", "seats is missing: how many, such as 5"),
        ('made_of = ["club", "console", "club"]\nno_arm_between = [[1, 2]]', "no_arm_between",
         "something stands between seats 1 and 2"),
        ('chair = "club"\nseats = 2\nturned = "12 deg"', "turned", 'such as "12 deg left"'),
        ('chair = "club"\nseats = 2\nturned = "190 deg left"', "turned", "more than half a turn"),
        ('chair = "club"\nseats = 2\ncurve = { radius = "9 ft", touch = "top" }', "curve",
         '"top" is not one of "front", "back"'),
        ('chair = "club"\nseats = 5\ncurve = { radius = "5 ft", touch = "front" }', "curve",
         "less than half of the row's width"),
        ('made_of = ["club", "deep"]\ncurve = { radius = "14 ft", touch = "front" }', "curve",
         "has one depth; here are club 3 ft 3 in and deep 3 ft 8 in"),
        ('chair = "club"\nseats = 2\nby = "64 in"', "by = ", "ahead_of names that row"),
        ('chair = "club"\nseats = 2\nahead_of = "Z"\nby = "64 in"', "ahead_of", "row 'Z' is not"),
        ('chair = "club"\nseats = 2\nahead_of = "A"\nby = "64 in"', "ahead_of",
         "a row cannot stand ahead of itself"),
        ('chair = "club"\nseats = 2\nrepeat = { as = ["B2"], by = "64 in" }', "repeat",
         "may not end in a digit"),
        ('chair = "club"\nseats = 2\nrepeat = { as = ["A"], by = "64 in" }', "repeat",
         "a row is called 'A' already"),
        ('chair = "club"\nseats = 2\nrepeat = { as = ["B", "C"], by = "90 in" }', "repeat",
         "past the screen wall"),
    ],
)  # fmt: skip
def test_each_slip_is_told_on_its_line_with_what_to_do(lines, passage, words):
    text = row_of(lines)
    line, told = only(text)
    assert words in told
    row = text.index("[row.A]")
    assert line == line_with(passage, text[row:]) + text[:row].count("\n")


AHEAD = """
[row.B]
chair = "club"
seats = 3
ahead_of = "A"
by = "64 in"
"""


def test_a_row_ahead_stands_by_its_headrests_on_the_others_middle():
    spec = read(row_of('chair = "club"\nseats = 4\ncenter_from_left = "9 ft"') + AHEAD)
    row = spec.row("B")
    assert row.headrest_to_wall_m == pytest.approx(inch(24 + 64), abs=1e-6)
    assert row.center_x_m == inch(108)


@pytest.mark.published(source="sine and cosine of 30 degrees", standing="derived")
def test_ahead_of_a_turned_row_is_the_way_that_row_looks():
    spec = read(row_of('chair = "club"\nseats = 2\nturned = "30 deg left"') + AHEAD)
    one, row = spec.row("A"), spec.row("B")
    assert one.angle_rad == pytest.approx(math.pi / 6, abs=1e-9)
    assert row.angle_rad == one.angle_rad
    assert row.center_x_m == pytest.approx(one.center_x_m - inch(32), abs=2e-6)
    assert row.headrest_to_wall_m == pytest.approx(inch(24) + inch(64) * math.sqrt(3) / 2, abs=2e-6)
    assert read(row_of('chair = "club"\nseats = 2\nturned = "30 deg right"')).rows[
        0
    ].angle_rad == pytest.approx(-math.pi / 6, abs=1e-9)


def test_repeat_makes_rows_alike_each_further_ahead():
    lines = 'chair = "club"\nseats = 3\nrepeat = { as = ["C", "B"], by = "50 in" }'
    spec = read(row_of(lines))
    assert [row.id for row in spec.rows] == ["A", "B", "C"]
    places = {row.id: row.headrest_to_wall_m for row in spec.rows}
    assert places == {"A": inch(24), "C": inch(74), "B": inch(124)}
    assert len({(row.chair, row.seats, row.center_x_m) for row in spec.rows}) == 1


def test_a_row_may_stand_ahead_of_one_that_is_made_again():
    lines = 'chair = "club"\nseats = 3\nrepeat = { as = ["C"], by = "50 in" }'
    spec = read(row_of(lines) + AHEAD.replace('"A"', '"C"'))
    assert spec.row("B").headrest_to_wall_m == pytest.approx(inch(24 + 50 + 64), abs=1e-6)


def test_rows_that_stand_ahead_of_each_other_are_refused_once():
    text = row_of('chair = "club"\nseats = 2\nahead_of = "B"\nby = "64 in"') + AHEAD
    _, words = only(text)
    assert "rows A and B stand ahead of each other; give one of them headrest_to_wall" in words


def test_a_curve_is_read():
    row = read(row_of('chair = "club"\nseats = 3\ncurve = { radius = "14 ft", touch = "back" }'))
    assert row.rows[0].curve == Curve(radius_m=inch(168), touch="back")


def test_a_chair_without_power_says_nothing_of_cords():
    spec = read(row_of('made_of = ["club", "deep"]'))
    kind = spec.chair("deep")
    assert not kind.powered
    assert kind.input_a == 0
    _, words = only(
        row_of(
            'made_of = ["club", "deep"]',
            MORE.replace("powered = false", 'powered = false\ninput = "1 A"'),
        )
    )
    assert "it has no motor; leave this out" in words
    alone = with_table("row.A", "seats = 5", "seats = 5").replace('"club"', '"deep"')
    assert "no chair of any row is powered" in faults(alone + MORE)[0][1]


def test_a_table_is_read_from_its_rear():
    (table,) = read(row_of('made_of = ["club", "console"]')).tables
    assert (table.rear_m, table.front_m, table.under_m) == (inch(4), inch(39), inch(2))


PART = """
[chair.club.part.footrest]
positions = [
  { from = "30 in", to = "39 in", left = "9 in", right = "9 in" },
  { from = "57 in", to = "66 in", left = "9 in", right = "9 in" },
]
least_gap = "1/2 in"
"""


def test_a_part_that_travels_straight_is_the_hull_of_its_positions():
    (part,) = read(EVERY_KEY + PART).chair("club").parts
    assert part.id == "footrest"
    assert part.least_gap_m == inch("1/2")
    assert len(part.outlines) == 1
    assert set(part.outlines[0]) == {
        (inch(x), inch(y)) for x, y in ((-9, 30), (9, 30), (9, 66), (-9, 66))
    }


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('from = "30 in"', 'from = "40 in"', "is not less than to"),
        ('left = "9 in", right = "9 in" },\n  {', 'left = "9 in" },\n  {',
         "a position is { from"),
        ("positions = [", 'travel = "swings"\npositions = [', "a part that swings needs its pivot"),
        ("positions = [", 'pivot = { right = "0 in", forward = "2 in" }\npositions = [',
         "only a part that swings has a pivot"),
        ('{ from = "30 in", to = "39 in", left = "9 in", right = "9 in" }',
         '[["0 in", "0 in"], ["9 in", "0 in"], ["4 in", "1 in"], ["0 in", "9 in"]]',
         "the outline bends inward"),
        ('{ from = "30 in", to = "39 in", left = "9 in", right = "9 in" }',
         '[["0 in", "0 in"], ["9 in", "0 in"]]', "three corners or more"),
    ],
)  # fmt: skip
def test_slips_in_a_part_are_told(old, new, words):
    _, told = only(EVERY_KEY + PART.replace(old, new, 1))
    assert words in told


def test_plain_pieces_are_an_arm_at_each_end_and_between():
    kind = read(EVERY_KEY).chair("club")
    pieces = plain_pieces(kind, 3, ((1, 2),))
    assert "".join(piece.what[0] for piece in pieces) == "assasa"
