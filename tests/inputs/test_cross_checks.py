"""What must hold between keys, told on the line of the one to change."""

import pytest
from plan_texts import EVERY_KEY, LEAST, faults, line_with, read, swapped, with_table


def only_fault(text: str, passage: str) -> str:
    """The words of the only fault, which is on the line with that passage."""
    told = faults(text)
    assert [line for line, _ in told] == [line_with(passage, text)], told
    return told[0][1]


@pytest.mark.parametrize(
    ("table", "old", "new", "words"),
    [
        ("chair.club", 'rear_of_base = "4 in"', 'rear_of_base = "39 in"',
         "3 ft 3 in is not less than the chair's depth of 3 ft 3 in"),
        ("chair.club", 'reclined_reach = "66 in"', 'reclined_reach = "38 in"',
         "3 ft 2 in is less than the chair's depth of 3 ft 3 in"),
        ("chair.club", 'continuous = "0.3 A"', 'continuous = "1.81 A"',
         "1.81 A is more than the chair's input of 1.8 A"),
        ("chair.club", 'lead_wire = "16 AWG"', 'lead_wire = "13 AWG"',
         '"13 AWG" is not one of 18 AWG, 16 AWG'),
        ("chair.club", 'lead_wire = "16 AWG"', 'lead_wire = "1.5 mm2"', "is not one of"),
        ("chair.club", 'input = "1.8 A"', 'input = "29 V 2 A"', "reads like the OUTPUT"),
        ("chair.club", 'input = "1.8 A"', 'input = "240 W"',
         "amperes from the label's INPUT line are wanted, such as \"2 A\", or power with "
         "power_factor"),
        ("chair.club", 'input = "1.8 A"', 'power = "130 W"',
         "power_factor is missing beside it: watts alone do not give amperes"),
        ("chair.club", 'input = "1.8 A"', "power_factor = 0.6", "power is missing beside it"),
        ("chair.club", 'input = "1.8 A"', 'input = "1.8 A"\npower = "130 W"',
         "input is written too"),
        ("row.A", 'chair = "club"', 'chair = "culb"', "did you mean 'club'?"),
        ("row.A", "seats = 5", "seats = 0", "0 is not at least 1"),
        ("row.A", "seats = 5", "seats = 2.5", "2.5 is not a whole number"),
        ("row.A", "seats = 5", "seats = true", "true is not a whole number"),
        ("row.A", "seats = 5", "seats = 201", "201 is more than 200"),
        ("row.A", "[[2, 3]]", "[[5, 6]]", "there is no seat 6; the row has 5"),
        ("row.A", "[[2, 3]]", "[[2, 4]]", "seats 2 and 4 are not neighbors"),
        ("row.A", "[[2, 3]]", "[[0, 1]]", "not neighbors"),
        ("row.A", "[[2, 3]]", "[[2, 3], [3, 2]]", "seats 2 and 3 are written twice"),
        ("row.A", '"10 ft"', '"21 ft"', "this is 1 ft past the right wall"),
        ("row.A", '"14 in"', '"16 ft"', "this is 6 in past the screen wall"),
        ("outlet.W1", 'circuit = "7"', 'circuit = "8"', "circuit '8' is not written; known here"),
        ("row.A", "seats = 5", 'seats = "5"', '"5" stands in quotes; write 5 without them'),
        ("row.A", "fastened = false", 'fastened = "false"', "write false without them"),
        ("outlet.W1", 'circuit = "7"', "circuit = 7", '7 is not text; write "7"'),
        ("outlet.W1", "free = 2", "free = 3", "3 free is more than the 2 there are"),
        ("outlet.W1", '"9 ft"', '"20 ft 1 in"', "1 in past the right wall; the room is 20 ft w"),
        ("outlet.W1", 'from_left = "9 ft"', 'from_back = "9 ft"',
         "this does not place an outlet on the back wall; from_left or from_right does"),
        ("door.hall", '"11 ft"', '"13 ft"', "2 in past the screen wall; the room is 15 ft 6"),
        ("door.hall", 'from_back = "11 ft"', 'from_left = "11 ft"',
         "this does not place a door on the right wall; from_back or from_screen does"),
        ("door.hall", 'wall = "right"', 'wall = "front"',
         '"front" is not one of "left", "right", "back", "screen"'),
        ("obstacle.column", 'from_back = "7 ft"', 'from_back = "14 ft 9 in"',
         "3 in past the screen wall"),
        ("walkway.aisle", 'from_right = "0 ft"', 'from_right = "17 ft 2 in"', "2 in past the left"),
        ("riser.rear", 'from_left = "3 ft"', 'from_left = "7 ft"', "1 ft past the right wall"),
        ("floor.no_cut.duct", 'from_back = "2 ft"', 'from_back = "10 ft"', "6 in past the screen"),
        ("floor", 'joist_width = "1 1/2 in"', 'joist_width = "16 in"', "leave nothing between"),
        ("circuit.7", '"0.5 A"', '"0.5 A, sometimes"', '"continuous" or "now and then" is wanted'),
        ("circuit.7", '"0.5 A"', '{ input = "0.5" }', 'lamp: input: "0.5" has no unit'),
        ("new_work", "floor_boxes = true", 'floor_boxes = "yes"', "is not true or false"),
        ("new_work", 'lid = { width = "6 in"', 'lid = { width = "3 in"',
         "3 in does not cover a cut-out of 4 in"),
        ("cords", '"if needed"', "false", 'false is not one of "no", "if needed", "yes"'),
        ("cords", '"15 ft"', '"15"', '"15" has no unit'),
    ],
)  # fmt: skip
def test_each_fault_has_its_line_and_its_sentence(table: str, old: str, new: str, words: str):
    text = with_table(table, old, new)
    told = faults(text)
    number = with_mark(table, old, new)
    assert [line for line, _ in told] == [number], told
    assert words in told[0][1]


def with_mark(table: str, old: str, new: str) -> int:
    """The line of the last line of the change."""
    last = new.splitlines()[-1]
    marked = with_table(table, old, new[: len(new) - len(last)] + "@@" + last)
    return line_with("@@", marked)


@pytest.mark.parametrize(
    ("clear", "words"),
    [
        ('from = "3 in", to = "21 in", width = "14 in"', "clear.from: 3 in is behind the rear"),
        ('from = "9 in", to = "40 in", width = "14 in"', "clear.to: 3 ft 4 in is ahead of the"),
        ('from = "9 in", to = "21 in", width = "24 in"', "clear.width: 2 ft is more than the seat"),
        (
            'from = "9 in", to = "9 in", width = "14 in"',
            "clear.from: from 9 in is not less than to",
        ),
        ('from = "9 in", to = "21 in"', "clear: width is missing"),
        ('from = "9 in", to = "21 in", wdth = "14 in"', "clear: the key 'wdth' is not known; did"),
    ],
)
def test_the_clear_zone_lies_under_the_seat(clear: str, words: str):
    text = swapped('from = "9 in", to = "21 in", width = "14 in"', clear)
    text = swapped('forward = "10 in"', 'forward = "4 in"', text)
    assert words in only_fault(text, clear)


@pytest.mark.parametrize(
    ("lead_from", "words"),
    [
        ('right = "0 in", forward = "4 in"', None),
        ('right = "-18 1/2 in", forward = "0 in"', None),
        ('right = "19 in", forward = "0 in"', "beside the chair, which ends at 1 ft 6 1/2 in"),
        ('right = "0 in", forward = "4 1/8 in"', "neither behind the base (up to 4 in) nor in the"),
        ('right = "0 in", forward = "9 in"', None),
        ('right = "-7 in", forward = "21 in"', None),
        ('right = "-7 1/8 in", forward = "21 in"', "outside the clear zone, which is 7 in to"),
        ('right = "0 in", forward = "21 1/8 in"', "clear zone (9 in to 1 ft 9 in)"),
        ('right = "0 in"', "lead_from: forward is missing"),
    ],
)
def test_the_cord_leaves_behind_the_base_or_in_the_clear_zone(lead_from: str, words: str | None):
    text = swapped('right = "0 in", forward = "10 in"', lead_from)
    if words is None:
        assert faults(text) == []
    else:
        assert words in only_fault(text, lead_from)


def test_without_a_clear_zone_the_cord_leaves_behind_the_base():
    text = swapped('forward = "2 in"', 'forward = "10 in"', LEAST)
    words = only_fault(text, 'forward = "10 in"')
    assert "no clear zone is known; measure clear, or where the cord leaves" in words


def test_a_chain_needs_a_coupler_and_without_one_it_may_be_unknown():
    words = "coupler is missing: beside chain"
    assert words in only_fault(swapped('coupler = "10 A"', "", EVERY_KEY), "[chair.club]")
    chain = 'chain = { current = "8 A", chairs = 4, link = "4 ft", wire = "16 AWG" }'
    text = swapped(chain, "", swapped('coupler = "10 A"', 'coupler = "unknown"'))
    assert read(text).chairs[0].coupler_a is None


def test_a_slab_has_no_joists():
    text = with_table("floor", 'build = "joists"', 'build = "slab"')
    told = faults(text)
    assert len(told) == 4
    assert all("a slab has no joists" in words for _, words in told)


def test_a_place_is_written_once():
    text = with_table(
        "obstacle.column", 'from_left = "0 ft"', 'from_left = "0 ft"\nfrom_right="0 ft"'
    )
    assert "from_left is written too; one of the two" in only_fault(text, 'from_right="0 ft"')


def test_a_floor_outlet_has_no_height():
    text = with_table("outlet.W1", 'wall = "back"', 'from_back = "2 ft"')
    assert "has no height; write wall" in only_fault(text, 'height = "16 in"')


def test_risers_may_touch_but_not_lie_over_each_other():
    front = (
        '[riser.front]\nfrom_left = "3 ft"\nfrom_back = "7 ft 4 in"\nwidth = "14 ft"\n'
        'depth = "2 ft"\nheight = "5 in"\n'
    )
    assert faults(EVERY_KEY + front) == []
    over = EVERY_KEY + front.replace("7 ft 4 in", "7 ft 3 in")
    assert "this lies over riser 'front'" in only_fault(over, "[riser.rear]")


def test_two_hundred_seats_are_planned_and_not_one_more():
    more = '[row.B]\nchair = "club"\nseats = 195\nheadrest_to_wall = "9 ft"\n'
    assert faults(EVERY_KEY + more) == []
    over = EVERY_KEY + more.replace("195", "196")
    assert "201 seats with the rows before; at most 200" in only_fault(over, "seats = 196")


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("[row.A]", "[row.A1]", "may not end in a digit, since chair 'A11'"),
        ("[row.A]", '[row."A/B"]', "letters, digits, spaces and - _ . only"),
        ("[row.A]", '[row." A"]', "starts and ends with something other than a space"),
        ("[row.A]", '[row.""]', "a name has 1 to 40 characters"),
        ("[row.A]", f"[row.{'A' * 41}]", "a name has 1 to 40 characters"),
        ("[row.A]", '[row."A\\u001b[31m"]', "letters, digits, spaces"),
        ("[row.A]", '[row."A\\u202e"]', "letters, digits, spaces"),
        ("[outlet.W1]", "[outlet.A3]", "a seat is called 'A3' too"),
        ("[outlet.W1]", "[outlet.panel]", 'may not be called "panel"'),
        ("[outlet.W1]", '[outlet."box A3"]', 'nor start with "box"'),
        ("[outlet.W1]", '[outlet."wall A3"]', 'nor start with "box", "wall", "supply" or'),
    ],
)
def test_names_are_such_that_nothing_is_called_twice(old: str, new: str, words: str):
    text = swapped(old, new)
    assert words in only_fault(text, new)


def test_names_kept_for_new_circuits_are_refused():
    text = EVERY_KEY + '[circuit."new 1"]\nbreaker = "15 A"\n'
    assert "is kept for circuits that are planned" in only_fault(text, '[circuit."new 1"]')


@pytest.mark.parametrize("name", ["front left", "Reihe-Ü", "A.b_c", "1A", "é"])
def test_sensible_names_are_taken(name: str):
    assert read(swapped("[row.A]", f'[row."{name}"]')).rows[0].id == name


@pytest.mark.parametrize(
    ("text", "line", "words"),
    [
        (EVERY_KEY + "[chairs.x]\n", 116, "[chairs] is not known; did you mean 'chair'?"),
        (EVERY_KEY + '[door.hall]\nwall = "left"\n', 116, "this table is written twice"),
        (LEAST + '[[door]]\nwall = "left"\n', 19, "write [door.NAME], with a name of your own"),
        (LEAST + '[door]\nwall = "left"\n', 19, "a name of your own is wanted: [door.NAME]"),
        (LEAST + '[floor.no_cut]\nwidth = "1 ft"\n', 19, "is wanted: [floor.no_cut.NAME]"),
        (
            "plan_file = 1\nroom = 3\n" + LEAST.partition('14 ft"\n')[2],
            2,
            "a table [room] is wanted",
        ),
        (LEAST.replace("plan_file = 1\n", "\n"), 1, "plan_file is missing; the first line wanted"),
        (LEAST.replace("plan_file = 1", "plan_file = 2"), 1, "2 is not known; this program reads"),
        (LEAST.replace("plan_file = 1", "plan_file = true"), 1, "true is not known"),
    ],
)
def test_tables_that_are_not_of_the_form(text: str, line: int, words: str):
    told = faults(text)
    assert [number for number, _ in told] == [line]
    assert words in told[0][1]


def test_an_empty_file_says_what_is_wanted():
    words = [words for _, words in faults("")]
    assert len(words) == 4
    for table in ("plan_file", "[room]", "[chair.NAME]", "[row.NAME]"):
        assert any(table in one for one in words)


def test_another_version_hides_all_else():
    assert len(faults("plan_file = 2\n[seats]\nx = 1\n")) == 1
