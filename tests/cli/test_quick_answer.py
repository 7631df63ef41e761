"""The phone question, held against sums done by hand."""

from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support import NEC

from powerplan.planning.quick import QuickAnswer, QuickQuestion, quick_answer

NOTHING = (Fraction(0), Fraction(0))


def ask(chairs: int, input_a: str, breaker: int | None = 15, **more: Any) -> QuickAnswer:
    said: dict[str, Any] = {
        "chairs": chairs,
        "input_a": Fraction(input_a),
        "breaker_a": None if breaker is None else Fraction(breaker),
        **more,
    }
    return quick_answer(QuickQuestion(**said), NEC)


@pytest.mark.published(
    source="1.25 x 2 A = 2.5 A a chair; 15 / 2.5 = 6, 20 / 2.5 = 8 (NEC 2023 210.20(A))",
    standing="common practice",
)
@pytest.mark.parametrize(("breaker", "most"), [(15, 6), (20, 8)])
def test_at_two_amperes_all_continuous_a_circuit_carries_so_many_and_no_more(
    breaker: int, most: int
):
    assert ask(most, "2", breaker, already_a=NOTHING, wire="12 AWG").exit_code == 0
    assert ask(most + 1, "2", breaker, already_a=NOTHING, wire="12 AWG").exit_code == 1
    assert ask(1, "2", breaker, already_a=NOTHING).most_chairs == most


@pytest.mark.published(
    source="8 x 1.25 x 1.2 A = 12 A; (15 - 12) / 1.5 = 2 (NEC 2023 210.20(A))",
    standing="common practice",
)
def test_eight_chairs_of_1_2_amperes_leave_room_for_two_more():
    assert ask(8, "1.2", already_a=NOTHING).more_chairs == 2


@pytest.mark.published(
    source="(15 - 7 x 2) / (7 x 0.25) = 0.571 A (NEC 2023 210.20(A), solved for the part)",
    standing="derived",
)
def test_seven_chairs_turn_at_the_part_that_makes_the_circuit_just_full():
    answer = ask(7, "2", already_a=NOTHING)
    assert answer.exit_code == 1
    assert answer.flip_a == Fraction(4, 7)
    at = ask(7, "2", already_a=NOTHING, continuous_a=Fraction(4, 7))
    over = ask(7, "2", already_a=NOTHING, continuous_a=Fraction(4, 7) + Fraction(1, 10**6))
    assert (at.exit_code, over.exit_code) == (0, 1)


def test_no_flip_where_the_chairs_are_too_much_even_if_nothing_lasts():
    assert ask(8, "2", already_a=NOTHING).flip_a is None


@pytest.mark.published(
    source="half of 15 A is 7.5 A; 5 x 1.8 = 9 A, 4 x 1.8 = 7.2 A (NEC 2023 210.23(B)(2))",
    standing="common practice",
)
def test_bolted_chairs_beside_a_lamp_keep_to_half_of_the_circuit():
    lamp = (Fraction(0), Fraction(1, 2))
    told = {"already_a": lamp, "fastened": True, "continuous_a": Fraction(3, 10)}
    assert ask(5, "1.8", **told).exit_code == 1
    assert ask(4, "1.8", **told).exit_code == 0
    assert ask(1, "1.8", **told).most_chairs == 4


def test_bolted_chairs_alone_on_a_circuit_may_take_all_of_it():
    told = {"already_a": NOTHING, "fastened": True, "continuous_a": Fraction(0)}
    assert ask(5, "1.8", **told).exit_code == 0


def test_unsaid_bolting_makes_the_answer_hang_only_where_it_matters():
    lamp = (Fraction(0), Fraction(1, 2))
    five = ask(5, "1.8", already_a=lamp, continuous_a=Fraction(0))
    assert five.exit_code == 4
    assert five.conditions == ("the chairs are not bolted down",)
    assert ask(4, "1.8", already_a=lamp, continuous_a=Fraction(0)).exit_code == 0


@pytest.mark.published(
    source="15 - 5 x 1.25 x 1.8 = 3.75 A; 3.75 / 1.25 = 3 A for hours (NEC 2023 210.20(A))",
    standing="derived",
)
def test_a_load_that_was_not_said_is_unknown_and_not_zero():
    answer = ask(5, "1.8", fastened=False)
    assert answer.exit_code == 4
    assert answer.if_continuous_a == 3
    assert answer.if_not_continuous_a == Fraction(15, 4)
    assert "nothing more than 3 A is already on it for hours, or 3.75 A now and then" in (
        answer.sentence
    )


def test_a_circuit_filled_to_the_brim_hangs_on_nothing_being_there():
    answer = ask(6, "2", fastened=False)
    assert "nothing at all is on it already" in answer.sentence


def test_too_many_chairs_fail_whatever_else_is_unknown():
    assert ask(7, "2").exit_code == 1


def test_known_loads_are_weighed_by_whether_they_last():
    full = (Fraction(3), Fraction(0))
    assert ask(5, "1.8", already_a=full, fastened=False).exit_code == 0
    assert ask(5, "1.8", already_a=(Fraction(3), Fraction(1, 100)), fastened=False).exit_code == 1
    assert ask(5, "1.8", already_a=(Fraction(0), Fraction(15, 4)), fastened=False).exit_code == 0


@pytest.mark.published(
    source="20 A on 14 AWG is never right (NEC 2023 240.4(D))", standing="published copy"
)
def test_a_breaker_too_big_for_its_wire_is_refused_however_small_the_load():
    answer = ask(1, "0.5", 20, wire="14 AWG", already_a=NOTHING)
    assert answer.exit_code == 1
    assert [finding.rule for finding in answer.findings if finding.stops] == [
        "wire-matches-breaker"
    ]


def test_an_unsaid_wire_matters_only_behind_a_breaker_larger_than_the_thinnest_allows():
    assert ask(1, "1", 15, already_a=NOTHING).exit_code == 0
    twenty = ask(1, "1", 20, already_a=NOTHING)
    assert twenty.exit_code == 4
    assert twenty.conditions == (
        "its wire is 12 AWG or thicker (an electrician looks at the panel)",
    )


def test_an_unsaid_breaker_becomes_the_smallest_that_would_do():
    answer = ask(7, "2", None, already_a=NOTHING, wire="12 AWG")
    assert answer.exit_code == 4
    assert answer.breaker_a == 20
    assert answer.conditions[0].startswith("the breaker is 20 A or more")
    assert "no more than 20 A" in answer.conditions[-1]


def test_no_breaker_at_all_carries_a_hundred_chairs():
    assert ask(100, "2", None, already_a=NOTHING).exit_code == 1


def test_a_breaker_of_a_size_that_is_not_made_is_refused():
    assert ask(1, "1", 18, already_a=NOTHING, wire="12 AWG").exit_code == 1
    assert ask(1, "1", 100, already_a=NOTHING, wire="6 AWG").exit_code == 1


@pytest.mark.published(
    source="a 15 A socket gives one plug 12 A: 12 / 2 = 6 (NEC 2023 table 210.21(B)(2))",
    standing="published copy",
)
def test_one_socket_carries_only_so_many_chained_chairs():
    assert ask(8, "2", 20, already_a=NOTHING).socket_chairs == 6


def test_a_new_circuit_is_told_by_its_own_count():
    answer = ask(7, "2", already_a=NOTHING)
    assert (answer.new_breaker_a, answer.new_circuit_chairs) == (20, 8)


@pytest.mark.parametrize(
    ("chairs", "input_a", "more", "words"),
    [
        (0, "1", {}, "at least one chair"),
        (1, "0", {}, "more than 0 A"),
        (1, "1", {"continuous_a": Fraction(2)}, "more than the chair's whole input"),
    ],
)
def test_nonsense_is_refused_in_words(chairs: int, input_a: str, more: dict, words: str):
    with pytest.raises(ValueError, match=words):
        ask(chairs, input_a, **more)


AMPS = st.fractions(min_value=Fraction(1, 10), max_value=8, max_denominator=100)


@given(st.integers(1, 12), AMPS, AMPS, st.sampled_from([15, 20, 30]))
def test_the_number_told_is_the_last_that_passes(
    chairs: int, input_a: Fraction, load_a: Fraction, breaker: int
):
    told = {"already_a": (load_a, Fraction(0)), "fastened": False, "wire": "10 AWG"}
    answer = ask(chairs, str(input_a), breaker, **told)

    def passes(count: int) -> bool:
        found = ask(count, str(input_a), breaker, **told).findings
        return not any(one.stops for one in found if one.rule == "circuit-load")

    if answer.most_chairs:
        assert passes(answer.most_chairs)
    assert not passes(answer.most_chairs + 1)


@given(st.integers(1, 12), AMPS, st.sampled_from([15, 20, 30]))
def test_the_load_told_for_hours_just_passes_and_a_hair_more_does_not(
    chairs: int, input_a: Fraction, breaker: int
):
    answer = ask(chairs, str(input_a), breaker, fastened=False, wire="10 AWG")
    if answer.spare_a < 0:
        return

    def code(hours_a: Fraction) -> bool:
        told = ask(
            chairs,
            str(input_a),
            breaker,
            fastened=False,
            wire="10 AWG",
            already_a=(hours_a, Fraction(0)),
        )
        return any(one.stops for one in told.findings if one.rule == "circuit-load")

    assert not code(answer.if_continuous_a)
    assert code(answer.if_continuous_a + Fraction(1, 10**9))
