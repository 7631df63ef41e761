"""Decimal commas, and numbers without a unit where the file says once what they are."""

import re
from fractions import Fraction

import pytest
from abroad import LOUNGE
from abroad import read as read_lounge
from hypothesis import given
from hypothesis import strategies as st
from plan_texts import EVERY_KEY, LEAST, faults, read, swapped

from powerplan.inputs.units import QuantityError, read_current_a, read_length_m


@given(st.integers(0, 9999), st.text("0123456789", min_size=1, max_size=6))
def test_a_decimal_comma_equals_a_point_or_is_refused(whole: int, part: str):
    point, comma = f"{whole}.{part} mm", f"{whole},{part} mm"
    options = {"zero": True, "least_m": Fraction(0), "most_m": Fraction(10**6)}
    if len(part) == 3 and 0 < whole < 1000:
        with pytest.raises(QuantityError, match="can be read two ways"):
            read_length_m(comma, **options)
    else:
        assert read_length_m(comma, **options) == read_length_m(point, **options)


@pytest.mark.parametrize(
    ("text", "readings"),
    [
        ("1,200 m", 'write "1.2 m" or "1200 m"'),
        ("12,345 mm", 'write "12.345 mm" or "12345 mm"'),
        ("1,000 A", 'write "1 A" or "1000 A"'),
        ("1.200,5 mm", 'is it "1200.5 mm"?'),
        ("1,200.5 mm", 'is it "1200.5 mm"?'),
        ("1,200,000 mm", 'is it "1200000 mm"?'),
        ("1.200.000 mm", 'is it "1200000 mm"?'),
    ],
)
def test_a_number_that_may_be_thousands_is_refused_with_its_readings(text: str, readings: str):
    reader = read_current_a if text.endswith("A") else read_length_m
    with pytest.raises(QuantityError, match=re.escape(readings)):
        reader(text)


@pytest.mark.parametrize(
    ("text", "meters"),
    [("0,360 m", "0.36"), ("1,2 m", "1.2"), ("1234,567 mm", "1.234567"), ("6 ft 1,5 in", "1.8669")],
)
def test_a_comma_that_can_only_be_decimal_reads(text: str, meters: str):
    assert read_length_m(text) == Fraction(meters)


def test_a_load_may_have_a_decimal_comma_beside_its_words():
    spec = read(swapped('"2.5 A, continuous"', '"2,5 A, continuous"'))
    loads = {load.name: load for load in spec.circuits[0].already_on_it or ()}
    assert loads["equipment rack"].current_a == Fraction("2.5")
    assert loads["equipment rack"].continuous


def test_a_file_with_commas_reads_as_one_with_points():
    points = re.sub(r'(?<=")([0-9]+),([0-9]+)', r"\1.\2", LOUNGE)
    assert points != LOUNGE
    assert read_lounge(points) == read_lounge(LOUNGE)


def _bare(text: str) -> str:
    """Every length in millimeters or meters as a bare number of millimeters, some in quotes."""
    count = 0

    def plain(found: re.Match[str]) -> str:
        nonlocal count
        count += 1
        number = float(found[1].replace(",", ".")) * (1000 if found[2] == "m" else 1)
        return f'"{number:g}"' if count % 2 else f"{number:g}"

    return re.sub(r'"([0-9.,]+) (mm|m)"', plain, text)


def test_bare_numbers_are_millimeters_once_the_file_says_so():
    bare = _bare(LOUNGE)
    assert " mm" not in re.sub(" mm[2\u00b2]", "", bare)
    for head in ('bare_numbers = "mm"\nplan_file = 1', "plan_file = 1"):
        inside = bare.replace("plan_file = 1", head)
        if "bare_numbers" not in inside:
            inside = inside.replace("[project]", '[project]\nbare_numbers = "mm"')
        assert read_lounge(inside) == read_lounge(LOUNGE)


def test_a_unit_may_stand_beside_bare_numbers():
    said = LEAST.replace("plan_file = 1", 'plan_file = 1\nbare_numbers = "mm"')
    assert read(said.replace("[room]\n[room]", "[room]")) == read(
        LEAST.replace("[room]\n[room]", "[room]")
    )


def test_a_bare_number_is_refused_where_the_file_does_not_say_and_the_key_is_told():
    for written in ("6096", '"6096"'):
        (fault,) = faults(swapped('width = "20 ft"', f"width = {written}"))
        assert "has no unit" in fault[1]
        assert 'bare_numbers = "mm" at the top of the file' in fault[1]


def test_a_bare_current_is_never_millimeters():
    text = EVERY_KEY.replace("plan_file = 1", 'plan_file = 1\nbare_numbers = "mm"')
    (fault,) = faults(text.replace('input = "1.8 A"', "input = 1.8"))
    assert "has no unit" in fault[1]
    assert "bare_numbers" not in fault[1]


@pytest.mark.parametrize("value", ['"cm"', '"in"', "true", "25.4"])
def test_no_other_unit_may_be_left_out(value: str):
    found = faults(EVERY_KEY.replace("plan_file = 1", f"plan_file = 1\nbare_numbers = {value}"))
    assert [words for _, words in found if '"mm"' in words]
    inside = EVERY_KEY.replace("[project]", f"[project]\nbare_numbers = {value}")
    assert [words for _, words in faults(inside) if '"mm"' in words]


def test_a_count_stays_a_count():
    text = EVERY_KEY.replace("plan_file = 1", 'plan_file = 1\nbare_numbers = "mm"')
    assert read(text) == read(EVERY_KEY)
