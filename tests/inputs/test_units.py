"""Text with a unit: what is read, and what each slip is told."""

import subprocess
import sys
from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from powerplan.inputs.units import QuantityError, read_current_a, read_length_m, read_power_w

INCH = Fraction(254, 10_000)


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("15 ft 6 in", 186),
        ("15ft6in", 186),
        ("15 feet 6 inches", 186),
        ("1 foot 1 inch", 13),
        ("5'10\"", 70),
        ("5' 10 1/2\"", Fraction(141, 2)),
        ("5'-10\"", 70),
        ("5'10''", 70),
        ("5\u203210\u2033", 70),
        ("5\u201910\u201d", 70),
        ("6 ft-2 in", 74),
        ("6 ft. 2 in.", 74),
        ("6 FT 2 IN", 74),
        ("7 1/4 in", Fraction(29, 4)),
        ("7-1/4 in", Fraction(29, 4)),
        ("2\u00bd in", Fraction(5, 2)),
        ("\u00bc in", Fraction(1, 4)),
        ("7\u00a01/4\u00a0in", Fraction(29, 4)),
        ("1\u20442 in", Fraction(1, 2)),
        ("1/4 in", Fraction(1, 4)),
        ("0.36 in", Fraction(36, 100)),
        (".5 in", Fraction(1, 2)),
        ('10"', 10),
        ("6'", 72),
        ("5.5 ft", 66),
        ("  6  ft  2 in ", 74),
        ("2 yd", 72),
        ("2 Yards", 72),
        ("1 fathom", 72),
    ],
)
def test_a_length_is_read_exactly(text: str, inches: int | Fraction):
    assert read_length_m(text) == inches * INCH


@pytest.mark.parametrize(
    ("text", "meters"),
    [
        ("1.8 m", "1.8"),
        ("1800 mm", "1.8"),
        ("180 cm", "1.8"),
        ("1800MM", "1.8"),
        ("18 dm", "1.8"),
        ("1.8 meters", "1.8"),
    ],
)
def test_metric_lengths_are_read_exactly(text: str, meters: str):
    assert read_length_m(text) == Fraction(meters)


@pytest.mark.parametrize(
    ("text", "amperes"),
    [
        ("1.8 A", "1.8"),
        ("1.8A", "1.8"),
        ("2 amps", "2"),
        ("15 Amperes", "15"),
        ("500 mA", "0.5"),
        ("1/3 A", "1/3"),
    ],
)
def test_a_current_is_read_exactly(text: str, amperes: str):
    assert read_current_a(text) == Fraction(amperes)


def test_a_power_is_read_exactly():
    assert read_power_w("130 W") == read_power_w("0.13 kW") == 130


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("5 ft 14 in", 'has 12 inches or more after the feet; fewer than 12 are wanted: is it "6'),
        ("5 ft 12 in", "12 inches or more"),
        ("6 ft, 2 in", "has a comma that is no decimal comma"),
        ("12", "has no unit"),
        (12, "12 has no unit"),
        (1.5, "1.5 has no unit"),
        (True, "true is not text with a unit"),
        (None, "is not text with a unit"),
        (["1 in"], "a list is not text"),
        ("5 ft 10", 'for feet and inches write "5 ft 10 in"'),
        ("5'10", 'for feet and inches write "5 ft 10 in"'),
        ("5.5 ft 2 in", "feet before inches are whole"),
        ("0 in", "is zero"),
        ("0 ft 0 in", "is zero"),
        ("-2 in", "is negative"),
        ("\u22122 in", "is negative"),
        ("\u20132 in", "is negative"),
        ("3001 ft", "too large; at most 3000 ft"),
        ("9999999 m", "too large"),
        ("0.00001 in", "too small"),
        ("1e3 in", "has an exponent"),
        ("1e400 in", "has an exponent"),
        ("1E-3 m", "has an exponent"),
        ("240 W", "is a power"),
        ("2 A", "is a current"),
        ("2 lb", "is a mass"),
        ("3 degrees", "is an angle"),
        ("7 1/0 in", "1/0 is not a fraction"),
        ("7 5/4 in", "5/4 is not a fraction"),
        ("0/0 in", "not a fraction"),
        ("12 inhces", "the unit 'inhces' is not known; did you mean 'inches'?"),
        ("12 cubits", "the unit 'cubits' is not known"),
        ("1 PA", "the unit 'PA' is not known"),
        ("unknown", '"unknown" is not accepted here'),
        ("", "is empty"),
        ("  ", "is empty"),
        ("6 ft - 2 in", "is not a number and a unit"),
        ("nan m", "is not a number and a unit"),
        ("inf m", "is not a number and a unit"),
        ("9**9**9 m", "is not a number and a unit"),
        ("1 m + 1 m", "is not a number and a unit"),
        ("0x10 m", "is not a number and a unit"),
        ("1_000 mm", "is not a number and a unit"),
        ("\u0661\u0662 in", "is not a number and a unit"),
        ("\uff11 in", "is not a number and a unit"),
        ("9" * 100_000 + " m", "longer than 40 characters"),
        ("20 \x1b[31mft", "\\x1b"),
    ],
)
def test_each_slip_with_a_length_has_its_own_sentence(text: object, words: str):
    with pytest.raises(QuantityError) as caught:
        read_length_m(text)
    assert words in str(caught.value)
    assert len(str(caught.value)) < 220
    assert str(caught.value).isprintable()


@pytest.mark.parametrize(
    "text",
    ["29 V 2 A", "29V DC 2A", "29 V, 2 A", "29VDC/2A", "2A 29V", "29 V \u2393 2 A", "2 A DC",
     "OUTPUT 29V 2A", "24 volts 1.5 amps"],
)  # fmt: skip
def test_the_output_of_a_power_supply_is_refused_with_the_way_out(text: str):
    with pytest.raises(QuantityError, match="OUTPUT of a power supply; amperes from the INPUT"):
        read_current_a(text)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("120 V 1.8 A", "has volts in it; write the amperes alone"),
        ("100-240V~ 1.8A", "has volts in it"),
        ("240 W", "is a power"),
        ("250 VA", "is in volt-amperes"),
        ("120 V", "is a voltage"),
        ("2 ft", "is a length"),
        ("5 ft 2 in", "is a length"),
        ("2 Ah", "is a charge"),
        ("0 A", "is zero"),
        ("1,800 A", "can be read two ways"),
        ("2", "has no unit"),
        ("2 kA", "too large"),
        ("2 uA", "too small"),
    ],
)
def test_each_slip_with_a_current_has_its_own_sentence(text: str, words: str):
    with pytest.raises(QuantityError) as caught:
        read_current_a(text)
    assert words in str(caught.value)


def test_volt_amperes_are_not_watts():
    with pytest.raises(QuantityError, match="in volt-amperes, which are not watts"):
        read_power_w("130 VA")


def test_capital_m_is_never_taken_for_a_thousandth_of_a_watt():
    with pytest.raises(QuantityError, match="'MW' is not known"):
        read_power_w("130 MW")


def test_zero_and_less_pass_only_where_they_make_sense():
    assert read_length_m("0 in", zero=True) == 0
    assert read_length_m("-2 in", negative=True) == -2 * INCH
    assert read_current_a("0 A", zero=True) == 0
    with pytest.raises(QuantityError, match="zero or more is wanted"):
        read_length_m("-2 in", zero=True)


def test_a_bound_itself_passes_and_a_hair_beyond_does_not():
    most, least = 12 * INCH, INCH
    assert read_length_m("12 in", most_m=most) == most
    assert read_length_m("1 in", least_m=least) == least
    with pytest.raises(QuantityError, match="at most 1 ft is wanted"):
        read_length_m("12.000001 in", most_m=most)
    with pytest.raises(QuantityError, match="at least 1 in is wanted"):
        read_length_m("0.999999 in", least_m=least)


@given(feet=st.integers(0, 300), eighths=st.integers(0, 95))
def test_feet_and_inches_say_the_same_as_inches(feet: int, eighths: int):
    whole, part = divmod(eighths, 8)
    inches = f"{whole} {part}/8" if part else f"{whole}"
    read = read_length_m(f"{feet} ft {inches} in", zero=True)
    assert read == Fraction(feet * 96 + eighths, 8) * INCH


def read_or_refused(reader: Callable[[object], Fraction], text: str) -> Fraction | str:
    """What was read, or the words of the refusal."""
    try:
        return reader(text)
    except QuantityError as fault:
        return str(fault)


@given(st.text(max_size=60))
def test_no_text_does_anything_but_read_or_be_refused(text: str):
    for reader in (read_length_m, read_current_a, read_power_w):
        value = read_or_refused(reader, text)
        assert value.isprintable() if isinstance(value, str) else value > 0


@given(st.from_regex(r"\A[0-9]{1,3}(\.[0-9])?[ ]?[A-Za-z]{1,12}\Z"))
def test_no_unit_word_gives_more_than_the_bounds_allow(text: str):
    value = read_or_refused(read_current_a, text)
    assert value.isprintable() if isinstance(value, str) else Fraction(1, 1000) <= value <= 1000


def test_everyday_units_need_no_library():
    code = (
        "import sys\nfrom powerplan.inputs.units import read_length_m, read_current_a\n"
        "read_length_m('5 ft 10 in'); read_current_a('1.8 A')\n"
        "assert not {'pint', 'pydantic'} & set(sys.modules)\n"
        "assert read_length_m('2 yd') == read_length_m('6 ft')\n"
        "assert 'pint' in sys.modules"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
