"""Floor arithmetic for box middles, against trying every spot of a small floor."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from powerplan.engineering.boxes.region import (
    Cell,
    Region,
    largest_around,
    nearest,
    nearest_step,
    pieces,
)

SIZE = 9


@st.composite
def regions(draw):
    def span(low, high, least):
        start = draw(st.integers(low, high))
        return start, draw(st.integers(start + least, high + least))

    left, right = span(0, SIZE, 0)
    back, front = span(0, SIZE, 0)
    holes = []
    for _ in range(draw(st.integers(0, 4))):
        hole_left, hole_right = span(-2, SIZE, 1)
        hole_back, hole_front = span(-2, SIZE, 1)
        holes.append(Cell(hole_left, hole_right, hole_back, hole_front))
    # Twice as fine, so that spots between whole numbers are tried too.
    doubled = [
        Cell(*(2 * edge for edge in one)) for one in (Cell(left, right, back, front), *holes)
    ]
    return Region(doubled[0], tuple(doubled[1:]))


def spots_of(region):
    """Every whole spot of a region, by its definition."""
    clip, holes = region
    return {
        (x, y)
        for x in range(clip.left, clip.right + 1)
        for y in range(clip.back, clip.front + 1)
        if not any(h.left < x < h.right and h.back < y < h.front for h in holes)
    }


def spots_in(one):
    return {(x, y) for x in range(one.left, one.right + 1) for y in range(one.back, one.front + 1)}


@given(regions())
def test_pieces_hold_every_allowed_spot_and_no_other(region):
    found = pieces(region)
    held = set().union(*map(spots_in, found)) if found else set()
    assert held == spots_of(region)


@given(regions())
def test_pieces_share_no_floor(region):
    found = pieces(region)
    for n, one in enumerate(found):
        for other in found[:n]:
            apart = one.right <= other.left or other.right <= one.left
            assert apart or one.front <= other.back or other.front <= one.back


@given(regions(), st.tuples(st.integers(0, 18), st.integers(0, 18)), st.integers(1, 5))
def test_the_nearest_spot_of_a_grid_is_the_one_found_by_trying_all(region, ideal, step):
    spots = [s for s in spots_of(region) if s[0] % step == 0 and s[1] % step == 0]
    wanted = min(
        spots,
        key=lambda s: ((s[0] - ideal[0]) ** 2 + (s[1] - ideal[1]) ** 2, s),
        default=None,
    )
    assert nearest(pieces(region), ideal, step) == wanted


@given(regions(), st.data())
def test_the_largest_cell_around_a_spot_is_the_one_found_by_trying_all(region, data):
    allowed = spots_of(region)
    if not allowed:
        return
    x, y = data.draw(st.sampled_from(sorted(allowed)))
    found = largest_around(region, (x, y))
    assert found.left <= x <= found.right
    assert found.back <= y <= found.front
    assert spots_in(found) <= allowed
    clip = region.clip
    best = max(
        (right - left) * (front - back)
        for left in range(clip.left, x + 1)
        for right in range(x, clip.right + 1)
        for back in range(clip.back, y + 1)
        for front in range(y, clip.front + 1)
        if not any(
            h.left < right and left < h.right and h.back < front and back < h.front
            for h in region.holes
        )
    )
    assert (found.right - found.left) * (found.front - found.back) == best


def test_of_two_equal_steps_the_lower_is_nearer():
    assert nearest_step(0, 10, 5, 2) == 4
    assert nearest_step(5, 10, 5, 2) == 6
    assert nearest_step(1, 3, 2, 4) is None
    assert nearest_step(-9, -1, 7, 4) == -4


@pytest.mark.parametrize(("hole_right", "count"), [(6, 1), (7, 0)])
def test_two_strips_leave_a_line_when_they_just_meet_and_nothing_when_they_overlap(
    hole_right, count
):
    clip = Cell(0, 10, 0, 10)
    region = Region(clip, (Cell(-1, hole_right, -1, 11), Cell(6, 11, -1, 11)))
    found = pieces(region)
    assert len(found) == count
    assert found in ((Cell(6, 6, 0, 10),), ())
