"""Several ratings of new circuit, each with its wire and sockets."""

from fractions import Fraction

import pytest
from plan_texts import faults, line_with, read, with_table

from powerplan.model.spec import NewRating, NewWork

BREAKER, WIRE, SOCKET = 'breaker = "20 A"', 'wire = "12 AWG"', 'socket_rating = "15 A"'


def work(breaker: str = BREAKER, wire: str = WIRE, socket: str = SOCKET) -> NewWork:
    return read(_text(breaker, wire, socket)).new_work


def _text(breaker: str = BREAKER, wire: str = WIRE, socket: str = SOCKET) -> str:
    text = with_table("new_work", BREAKER, breaker)
    text = with_table("new_work", WIRE, wire, text)
    return with_table("new_work", SOCKET, socket, text)


def rating(breaker: int, wire: str | None, socket: int = 15) -> NewRating:
    return NewRating(breaker_a=Fraction(breaker), wire=wire, socket_rating_a=Fraction(socket))


def test_one_rating_is_written_as_before_or_as_a_list_of_one():
    assert work() == work('breaker = ["20 A"]')
    assert work().ratings == ()


def test_lists_go_with_each_other_one_for_one_and_come_rising():
    several = work(
        'breaker = ["20 A", "15 A"]',
        'wire = ["12 AWG", "14 AWG"]',
        'socket_rating = ["20 A", "15 A"]',
    )
    assert several.ratings == (rating(15, "14 AWG"), rating(20, "12 AWG", 20))
    assert (several.breaker_a, several.wire) == (Fraction(15), "14 AWG")


def test_one_wire_goes_with_every_rating():
    assert work('breaker = ["15 A", "20 A"]').ratings == (
        rating(15, "12 AWG"),
        rating(20, "12 AWG"),
    )


def test_a_wire_may_be_unknown_for_one_rating():
    several = work('breaker = ["15 A", "20 A"]', 'wire = ["14 AWG", "unknown"]')
    assert [one.wire for one in several.ratings] == ["14 AWG", None]


@pytest.mark.parametrize(
    ("breaker", "wire", "socket", "told", "words"),
    [
        ('breaker = ["15 A", "15 A"]', WIRE, SOCKET, "breaker", "15 A is there twice"),
        ("breaker = []", WIRE, SOCKET, "breaker", "the list is empty"),
        ('breaker = ["15 A", "20"]', WIRE, SOCKET, "breaker", '"20" has no unit'),
        (BREAKER, 'wire = ["14 AWG", "12 AWG"]', SOCKET, "wire", "2 values do not go with 1"),
        (
            'breaker = ["15 A", "20 A"]',
            WIRE,
            'socket_rating = ["15 A", "15 A", "20 A"]',
            "socket_rating",
            "3 values do not go with 2 of breaker: write one for all, or one for each",
        ),
        (
            'breaker = ["15 A", "20 A"]',
            'wire = ["14 AWG", "13 AWG"]',
            SOCKET,
            "wire",
            '"13 AWG" is not one of',
        ),
    ],
)
def test_a_slip_is_told_once_with_its_line(breaker, wire, socket, told, words):
    text = _text(breaker, wire, socket)
    [(line, sentence)] = faults(text)
    written = {"breaker": breaker, "wire": wire, "socket_rating": socket}[told]
    assert sentence.startswith(f"new_work: {told}: ")
    assert words in sentence
    number = line_with("[new_work]", text)
    assert text.splitlines()[line - 1].startswith(written)
    assert line > number
