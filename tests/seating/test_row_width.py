"""How far apart rows stand where people gather."""

import pytest
from support import NEC, inch

from powerplan.engineering.seating.row_width import row_width_m


@pytest.mark.published(
    source="IBC 2021 1030.13.2.2: 12 in + 0.6 in a seat over 7, no more than 22 in",
    standing="published copy",
)
@pytest.mark.parametrize(
    ("seats", "inches"),
    [
        (1, 12),
        (7, 12),
        (8, 12.6),
        (10, 13.8),
        (14, 16.2),
        (15, 16.8),
        (23, 21.6),
        (24, 22),
        (60, 22),
    ],
)
def test_a_longer_row_asks_more_width(seats, inches):
    assert row_width_m(seats, NEC) == pytest.approx(inch(inches), abs=2e-6)
