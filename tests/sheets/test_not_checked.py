"""Numbers of what could not be checked, as a person would say them."""

import pytest
from support import NEC, inch

from powerplan.model.findings import hold
from powerplan.sheets.words import numbers_text


@pytest.mark.parametrize(
    ("value", "limit", "said"),
    [
        (0, 1, "not known yet"),
        (0, 5, "not known yet of any of the 5 outlets"),
        (2, 5, "known of 2 of 5 outlets"),
        (5, 5, ""),
        (None, 5, ""),
    ],
)
def test_what_is_counted_and_not_checked_is_told_as_not_known(value, limit, said):
    finding = hold(NEC.rules["afci-room"], "boxes", value, limit, checked=False)
    assert numbers_text(finding, "ft-in") == said


def test_unknown_things_of_a_circuit_are_counted():
    finding = hold(NEC.rules["circuit-looked-at"], "circuit 7", 6, 0, checked=False)
    assert numbers_text(finding, "ft-in") == "6 not known"


def test_a_length_that_is_not_checked_keeps_its_limit():
    finding = hold(NEC.rules["box-plug-height"], "box A1", inch(2), None, checked=False)
    assert numbers_text(finding, "in") == "2 in, limit unknown"
