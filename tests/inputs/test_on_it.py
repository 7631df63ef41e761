"""What is already on a circuit, written as a table or as a list, and what was found in it."""

from fractions import Fraction

import pytest
from plan_texts import faults, line_with, read, swapped, with_table

from powerplan.model.spec import Circuit, Load

SHORT = 'already_on_it = { "equipment rack" = "2.5 A, continuous", lamp = "0.5 A" }'


def circuit(text: str) -> Circuit:
    [one] = read(text).circuits
    return one


def with_list(*items: str) -> str:
    return swapped(SHORT, f"already_on_it = [{', '.join(items)}]")


def test_a_list_says_the_same_as_a_table():
    listed = circuit(
        with_list(
            '{ name = "equipment rack", input = "2.5 A", lasts = "3 h or more" }',
            '{ name = "lamp", input = "0.5 A" }',
        )
    )
    assert listed == circuit(swapped(SHORT, SHORT))


def test_the_order_of_a_list_does_not_matter():
    items = [
        '{ name = "rack", input = "2.5 A", lasts = "3 h or more" }',
        '{ name = "lamp", input = "0.5 A", lasts = "now and then" }',
        '{ name = "fridge", input = "unknown" }',
    ]
    assert circuit(with_list(*items)) == circuit(with_list(*reversed(items)))


@pytest.mark.published(
    source="NEC 2023 220.5(A): 3 lamps x 60 W / (120 V x 0.5) = 3 A", standing="derived"
)
def test_watts_with_power_factor_and_a_count_give_amperes():
    listed = circuit(
        with_list(
            '{ name = "lamp", power = "60 W", power_factor = 0.5, count = 3,'
            ' lasts = "now and then" }'
        )
    )
    assert listed.already_on_it == (Load(name="lamp", current_a=Fraction(3), continuous=False),)


@pytest.mark.parametrize(
    "text",
    [
        with_list('{ name = "rack", input = "2.5 A" }', '{ name = "fridge", input = "unknown" }'),
        with_list('{ name = "rack", input = "2.5 A" }', '{ name = "fridge", power = "unknown" }'),
        swapped(SHORT, 'already_on_it = { rack = "2.5 A", fridge = "unknown" }'),
    ],
)
def test_one_unknown_makes_the_whole_unknown_and_keeps_the_known_part(text):
    one = circuit(text)
    assert one.already_on_it is None
    assert one.partly_on_it == (Load(name="rack", current_a=Fraction(5, 2), continuous=True),)
    assert one.not_measured == ("fridge",)


def test_whether_it_lasts_may_be_unknown_and_then_counts_as_lasting():
    one = circuit(with_list('{ name = "rack", input = "2 A", lasts = "unknown" }'))
    assert one.already_on_it is not None
    assert one.already_on_it[0].continuous is True


def test_an_empty_list_is_nothing_and_unknown_is_unknown():
    assert circuit(with_list()).already_on_it == ()
    assert circuit(swapped(SHORT, 'already_on_it = "unknown"')).already_on_it is None


@pytest.mark.parametrize(
    ("item", "words"),
    [
        ('{ input = "2 A" }', "item 1: name is missing"),
        ('"2 A"', 'item 1: a table such as { name = "rack", input = "2.5 A" } is wanted'),
        ('{ name = "rack" }', "rack: input is missing"),
        ('{ name = "rack", input = "2" }', 'rack: input: "2" has no unit'),
        ('{ name = "rack", power = "90 W" }', "power_factor is missing beside power"),
        ('{ name = "rack", input = "2 A", power = "90 W" }', "one of the two is wanted"),
        ('{ name = "rack", input = "2 A", power_factor = 0.6 }', "power_factor goes with power"),
        ('{ name = "rack", input = "2 A", last = "3 h or more" }', "did you mean 'lasts'?"),
        ('{ name = "rack", input = "2 A", lasts = "always" }', '"always" is not one of'),
        ('{ name = "rack", input = "2 A", count = 0 }', "count: 0 is not at least 1"),
        ('{ name = "rack", input = "2 A", count = "2" }', "write 2 without them"),
        ('{ name = "a", input = "2 A" }, { name = "a", input = "1 A" }', '"a" is there twice'),
    ],
)
def test_a_slip_in_a_list_is_told_with_its_line(item, words):
    text = with_list(item)
    [(line, told)] = faults(text)
    assert line == line_with("already_on_it", text)
    assert told.startswith("circuit '7': already_on_it")
    assert words in told


FOUND = """\
shared_neutral = true
switched = "unknown"
ground = false
conductor = "aluminum"
gfci = true
afci = false
first_outlet = "W1"
"""


def test_what_was_found_in_a_circuit_is_read():
    one = circuit(with_table("circuit.7", 'wire = "14 AWG"\n', f'wire = "14 AWG"\n{FOUND}'))
    assert (one.shared_neutral, one.switched, one.ground) == (True, None, False)
    assert (one.conductor, one.gfci, one.afci, one.first_outlet) == ("aluminum", True, False, "W1")


def test_what_was_found_at_an_outlet_is_read():
    text = with_table(
        "outlet.W1", "free = 2", "free = 2\nswitched = true\nground = true\ngfci = false"
    )
    [outlet] = read(text).outlets
    assert (outlet.switched, outlet.ground, outlet.gfci) == (True, True, False)


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ('conductor = "aluminium"', 'did you mean "aluminum"?'),
        ('ground = "yes"', '"yes" is not true or false'),
        ('shared_neutral = "true"', "stands in quotes"),
        ('first_outlet = "W9"', "outlet 'W9' is not on circuit '7'; known here: W1"),
        ("grounded = true", "did you mean 'ground'?"),
    ],
)
def test_a_slip_in_what_was_found_is_told_with_its_line(line, words):
    text = with_table("circuit.7", 'wire = "14 AWG"', f'wire = "14 AWG"\n{line}')
    [(number, told)] = faults(text)
    assert number == line_with(line, text)
    assert words in told
