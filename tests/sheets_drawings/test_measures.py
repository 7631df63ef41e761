"""Many measures share a line, so that a long room keeps a scale that can be read."""

from dataclasses import replace
from itertools import pairwise

import pytest
from drawn import dimensions_of, outside, overlapping
from hypothesis import given
from hypothesis import strategies as st
from laws import cases
from sample_plan import sample_plan

from powerplan.model.lengths import length_text
from powerplan.sheets.documents import set_of_sheets, views_of
from powerplan.sheets.drawings.floor_boxes import floor_box_view
from powerplan.sheets.drawings.measures import spread
from powerplan.sheets.lower import dimension_text
from powerplan.sheets.paper import LETTER

PLACES = st.lists(st.floats(-50, 50), min_size=1, max_size=12).map(sorted)


def cost(places, moved):
    return sum((a - b) ** 2 for a, b in zip(places, moved, strict=True))


@given(PLACES, st.floats(0.1, 6.0), st.data())
def test_words_are_moved_apart_as_little_as_may_be(places, apart, data):
    moved = spread(places, apart)
    assert all(b - a >= apart - 1e-9 for a, b in pairwise(moved))
    steps = data.draw(st.lists(st.floats(0, 3), min_size=len(places), max_size=len(places)))
    start = data.draw(st.floats(-60, 60))
    other = []
    for step in steps:  # any other arrangement that stands apart
        start = start if not other else other[-1] + apart + step
        other.append(start)
    assert cost(places, moved) <= cost(places, other) + 1e-6


@given(PLACES)
def test_words_that_stand_apart_already_are_not_moved(places):
    gaps = [b - a for a, b in pairwise(places)]
    apart = min(gaps, default=1.0)
    if apart > 0:
        assert spread(places, apart) == pytest.approx(places, abs=1e-9)


@pytest.mark.parametrize("seats", cases([(12,), (12, 12)], (12, 12, 12), (12, 12, 12, 12, 12)))
def test_many_boxes_keep_a_scale_that_can_be_read(seats):
    plan = sample_plan(seats)
    # boxes of each row a little beside those of the last, so that no two share a measure
    boxes = tuple(
        replace(box, x_m=round(box.x_m + 0.05 * "ABCDE".index(box.id[4]), 6)) for box in plan.boxes
    )
    plan = replace(plan, boxes=boxes)
    view = views_of(set_of_sheets(plan, paper=LETTER, revision="A", date="2026-03-09"))[0]
    # the room alone on the paper, and 90 mm of measures about it, at the next smaller scale
    room = plan.spec.room
    fits = [
        scale
        for scale in (24, 48, 64, 96)
        if room.width_m * 1000 / scale <= 254 - 90 and room.depth_m * 1000 / scale <= 190 - 90
    ]
    assert view.scale <= min(fits, default=96)
    assert overlapping(view) == []
    assert outside(view) == []


def test_running_measures_start_at_one_datum_and_have_their_words_square_to_the_line():
    plan = sample_plan((12, 12))
    boxes = tuple(
        replace(box, x_m=round(box.x_m + 0.05 * "AB".index(box.id[4]), 6)) for box in plan.boxes
    )
    view = floor_box_view(replace(plan, boxes=boxes), (230.0, 180.0))
    running = [item for item in dimensions_of(view) if item.turned]
    below = [item for item in running if item.start[0] == 0.0]
    assert len(below) == len({box.x_m for box in boxes})
    assert len({item.line_at for item in below}) == 1
    assert {dimension_text(item).angle_deg for item in below} == {90.0}
    assert {item.words for item in below} == {
        length_text(box.x_m, "ft-in", step=16) for box in boxes
    }
