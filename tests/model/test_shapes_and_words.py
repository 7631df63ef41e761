"""Rectangles of floor, looking things up by name, and errors that carry every fault."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support import NEC, make_circuit, make_row, make_spec, rect

from powerplan.model.errors import PlanFileError, PowerplanError, RecordError, RulebookError
from powerplan.model.geometry import Rect
from powerplan.model.lengths import micrometers

BASE = rect(10, 10, 20, 20)


def test_a_length_is_a_whole_number_of_micrometers():
    assert micrometers(0.1 + 0.2) == 300_000
    assert micrometers(-0.0000004) == 0


def test_a_rectangle_knows_its_size_and_middle():
    shape = Rect(left_m=1.0, right_m=3.0, back_m=2.0, front_m=7.0)
    assert (shape.width_m, shape.depth_m, shape.middle) == (2.0, 5.0, (2.0, 4.5))


def test_an_outline_runs_counter_clockwise_from_the_back_left():
    points = Rect(left_m=1.0, right_m=3.0, back_m=2.0, front_m=7.0).outline
    turned = [*points[1:], points[0]]
    area = sum(x * v - u * y for (x, y), (u, v) in zip(points, turned, strict=True)) / 2
    assert points[0] == (1.0, 2.0)
    assert area == pytest.approx(10.0)


@pytest.mark.parametrize(
    ("other", "shares"),
    [
        (rect(15, 15, 5, 5), True),
        (rect(30, 10, 5, 20), False),
        (rect(10, 30, 20, 5), False),
        (rect(29, 29, 20, 20), True),
        (rect(0, 0, 10, 10), False),
    ],
)
def test_a_shared_edge_is_not_shared_floor(other, shares):
    assert BASE.overlaps(other) is shares
    assert other.overlaps(BASE) is shares


@pytest.mark.parametrize(
    ("other", "inside"),
    [
        (BASE, True),
        (rect(10, 12, 5, 5), True),
        (rect(9.9, 12, 5, 5), False),
        (rect(12, 12, 5, 20), False),
    ],
)
def test_a_rectangle_holds_what_touches_its_edge_from_inside(other, inside):
    assert BASE.holds(other) is inside


inches = st.integers(min_value=0, max_value=200)


@given(inches, inches, st.integers(1, 50), st.integers(1, 50))
def test_what_is_held_is_also_overlapped(left, back, width, depth):
    other = rect(left, back, width, depth)
    assert not BASE.holds(other) or BASE.overlaps(other)


def test_things_are_found_by_name():
    spec = make_spec(
        rows=(make_row(id="A"), make_row(id="B", seats=3)),
        circuits=(make_circuit(id="7"), make_circuit(id="9", breaker_a=Fraction(20))),
    )
    assert spec.row("B").seats == 3
    assert spec.circuit("9").breaker_a == 20
    assert spec.chair("club").input_a == Fraction(9, 5)
    assert spec.outlet("W1").circuit == "7"


def test_a_number_that_is_no_length_is_not_given_as_meters():
    with pytest.raises(ValueError, match="drop_percent is in %, not in meters"):
        NEC.length_m("drop_percent")


def test_a_plan_file_error_carries_every_fault():
    error = PlanFileError(["den.toml:3: one", "den.toml:9: two"])
    assert error.faults == ("den.toml:3: one", "den.toml:9: two")
    assert str(error) == "den.toml:3: one\nden.toml:9: two"


@pytest.mark.parametrize("kind", [PlanFileError, RecordError, RulebookError])
def test_faults_of_what_was_given_are_value_errors_we_know_by_name(kind):
    assert issubclass(kind, PowerplanError)
    assert issubclass(kind, ValueError)
