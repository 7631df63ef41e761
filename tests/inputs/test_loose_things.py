"""Longer cords, supplies on the floor, batteries and outlet units in a plan file."""

from fractions import Fraction

import pytest
from plan_texts import LEAST, faults, line_with, read, swapped
from support import inch


def with_lead(more: str) -> str:
    return swapped('lead = "8 ft"', f'lead = "8 ft"\n{more}', LEAST)


def test_longer_cords_are_read_in_order():
    spec = read(with_lead('longer_cords = ["15 ft", "10 ft"]'))
    assert spec.chairs[0].longer_leads_m == (inch(120), inch(180))
    assert read(LEAST).chairs[0].longer_leads_m == ()


@pytest.mark.parametrize("length", ["8 ft", "6 ft"])
def test_a_longer_cord_that_is_not_longer_is_told(length: str):
    text = with_lead(f'longer_cords = ["{length}"]')
    [(line, words)] = faults(text)
    assert line == line_with("longer_cords", text)
    assert "is not longer than the lead of 8 ft" in words


BRICK = """\
[supply.brick]
size = { width = "7 in", depth = "3 in", height = "2 in" }
wall_cord = { length = "6 ft", wire = "18 AWG" }
longer_cords = ["9 ft"]
chair_cord = { length = "5 ft", wire = "18 AWG" }
output = "29 V DC"
output_current = "2 A"
input = "1.2 A"
continuous = "0.1 A"
feeds = 2
"""
ON_BRICK = swapped('input = "1.6 A"\nlead = "8 ft"\n', 'supply = "brick"\n', LEAST) + BRICK


def test_a_chair_takes_load_and_lead_from_its_supply():
    spec = read(ON_BRICK)
    [kind], [supply] = spec.chairs, spec.supplies
    assert (kind.supply, kind.input_a, kind.continuous_a) == (
        "brick",
        Fraction(6, 5),
        Fraction(1, 10),
    )
    assert (kind.lead_m, kind.lead_wire, kind.longer_leads_m) == (
        inch(72), "18 AWG", (inch(108),),
    )  # fmt: skip
    assert (supply.output_v, supply.output_a, supply.feeds) == (29, 2, 2)
    assert (supply.width_m, supply.depth_m, supply.height_m) == (inch(7), inch(3), inch(2))


def test_seats_are_paired_from_the_left_and_that_is_said():
    spec = read(ON_BRICK)
    assert spec.rows[0].shared_supplies == ((1, 2),)
    assert any("pairs from the left: 1 with 2" in one.words for one in spec.assumed)
    said = read(swapped("seats = 3", "seats = 3\nshared_supply = [[2, 3]]", ON_BRICK))
    assert said.rows[0].shared_supplies == ((2, 3),)
    none = read(swapped("seats = 3", "seats = 3\nshared_supply = []", ON_BRICK))
    assert none.rows[0].shared_supplies == ()


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('supply = "brick"', 'supply = "brik"', "is not written; did you mean 'brick'?"),
        ('supply = "brick"', 'supply = "brick"\nlead = "6 ft"', "take this line out"),
        ('output = "29 V DC"', 'output = "29 A"', "is a current; the volts on the OUTPUT line"),
        ('output = "29 V DC"', 'output = "230 V"', "is too large; at most 60 V is wanted"),
        ('output_current = "2 A"', 'output_current = "58 W"', "is a power; the amperes on"),
        ('input = "1.2 A"', 'input = "2 A DC"', "reads like the OUTPUT of a power supply"),
        ("feeds = 2", "feeds = 3", "3 is more than 2"),
        ('longer_cords = ["9 ft"]', 'longer_cords = ["5 ft"]', "not longer than the wall cord"),
        ('depth = "3 in", height = "2 in" }', 'depth = "3 in" }', "height is missing"),
        ('"18 AWG" }\noutput', '"18 AWG", resistance = "1 ohm" }\noutput', "wire is written too"),
    ],
)  # fmt: skip
def test_a_slip_in_a_supply_is_told(old: str, new: str, words: str):
    text = swapped(old, new, ON_BRICK)
    told = " / ".join(sentence for _, sentence in faults(text))
    assert words in told


@pytest.mark.parametrize("key", ["size", "wall_cord", "chair_cord", "output", "output_current"])
def test_what_a_supply_needs_is_told_when_it_is_missing(key: str):
    lines = [line for line in ON_BRICK.splitlines() if not line.startswith(f"{key} =")]
    [(_, words)] = faults("\n".join(lines) + "\n")
    assert f"{key} is missing" in words


@pytest.mark.parametrize(
    ("pairs", "words"),
    [
        ("[[3, 4]]", "there is no seat 4; the row has 3"),
        ("[[1, 2], [2, 3]]", "seat 2 is in two pairs"),
        ("[[1, 3]]", "are not neighbors"),
    ],
)
def test_pairs_that_cannot_be_are_told(pairs: str, words: str):
    text = swapped("seats = 3", f"seats = 3\nshared_supply = {pairs}", ON_BRICK)
    [(line, told)] = faults(text)
    assert line == line_with("shared_supply", text)
    assert words in told


def test_seats_whose_supply_feeds_one_share_none():
    alone = swapped("feeds = 2\n", "", ON_BRICK)
    assert read(alone).rows[0].shared_supplies == ()
    [(_, told)] = faults(swapped("seats = 3", "seats = 3\nshared_supply = [[1, 2]]", alone))
    assert "write feeds = 2" in told


@pytest.mark.parametrize("text", ["0.2 ohm", "200 mohm", "0.2 \u03a9"])
def test_a_cord_that_was_measured_has_ohms(text: str):
    spec = read(
        swapped(
            'length = "5 ft", wire = "18 AWG"', f'length = "5 ft", resistance = "{text}"', ON_BRICK
        )
    )
    assert spec.supplies[0].chair_cord_ohm == 0.2
    assert spec.supplies[0].chair_cord_wire is None


MORE_CHAIRS = LEAST[LEAST.index("[chair.club]") : LEAST.index("[row.A]")].replace("club", "other")
UNIT = """\
[outlet_unit.strip]
size = { width = "12 in", depth = "3 in", height = "2 in" }
sockets = 4
rating = "12 A"
cord = { length = "6 ft", wire = "14 AWG" }
listed = true
[cords]
outlet_unit = "strip"
"""


def test_an_outlet_unit_is_read():
    spec = read(LEAST + UNIT)
    [unit] = spec.outlet_units
    assert spec.cords.outlet_unit == "strip"
    assert (unit.sockets, unit.rating_a, unit.cord_m, unit.listed) == (4, 12, inch(72), True)


def test_an_outlet_unit_that_is_not_written_is_told():
    [(_, words)] = faults(LEAST + UNIT.replace('= "strip"', '= "strp"'))
    assert "outlet unit 'strp' is not written; did you mean 'strip'?" in words


def battery(charged: str, lead: str = 'lead = "8 ft"\n') -> str:
    pack = f'battery = {{ charger_input = "0.5 A", charged = "{charged}" }}\n'
    return swapped('input = "1.6 A"\nlead = "8 ft"\n', pack + lead, LEAST)


def test_a_pack_takes_what_its_charger_takes_and_all_of_it_lasts():
    [kind] = read(battery("in place")).chairs
    half = Fraction(1, 2)
    assert (kind.input_a, kind.continuous_a, kind.lead_m) == (half, half, inch(96))
    assert kind.takes_power


def test_a_pack_charged_elsewhere_needs_no_lead():
    other = swapped("[row.A]", MORE_CHAIRS + "[row.A]", battery("elsewhere", lead=""))
    kinds = {kind.id: kind for kind in read(other).chairs}
    assert not kinds["club"].takes_power
    assert kinds["other"].takes_power


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (battery("sometimes"), 'is not one of "in place", "elsewhere"'),
        (battery("in place", lead=""), "lead is missing"),
        (battery("in place", lead='lead = "8 ft"\ninput = "2 A"\n'), "take this line out"),
    ],
)
def test_a_slip_in_a_battery_is_told(text: str, words: str):
    assert words in " / ".join(told for _, told in faults(text))


def test_a_slip_in_a_battery_asks_for_nothing_that_hangs_on_it():
    assert len(faults(battery("sometimes", lead=""))) == 1


def test_supplies_and_outlet_units_are_named_as_other_tables_are():
    [(_, words)] = faults(swapped("feeds = 2", "feeds = 3", ON_BRICK))
    assert words == "supply 'brick': feeds: 3 is more than 2"
    [(_, words)] = faults(swapped("sockets = 4", "sockets = 0", LEAST + UNIT))
    assert words == "outlet unit 'strip': sockets: 0 is not at least 1"
