"""Longer cords, supplies on the floor, batteries and outlet units in a plan file."""

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
