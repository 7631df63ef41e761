import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from laws import held_over

from powerplan.judging import convex, outlines, paths, shapes
from powerplan.judging.convex import Convex, Segment
from powerplan.model.geometry import Point, Rect

grid = st.integers(-8, 8).map(lambda n: n / 4)
spots = st.tuples(grid, grid)
rects = st.builds(
    lambda x, y, w, d: Rect(left_m=x, right_m=x + w, back_m=y, front_m=y + d),
    grid,
    grid,
    st.integers(1, 8).map(lambda n: n / 4),
    st.integers(1, 8).map(lambda n: n / 4),
)


def solid(rect: Rect) -> Convex:
    """A rectangle as a piece of floor."""
    found = convex.of_rect(rect)
    assert found is not None
    return found


UNIT = solid(Rect(left_m=0.0, right_m=1.0, back_m=0.0, front_m=1.0))


def sampled(path: tuple[Point, ...], steps: int = 400) -> list[tuple[Point, float]]:
    """Middles of short pieces of a path, and their lengths."""
    found = []
    for (x, y), (to_x, to_y) in pairwise(path):
        for n in range(steps):
            share = (n + 0.5) / steps
            point = (x + share * (to_x - x), y + share * (to_y - y))
            found.append((point, math.dist((x, y), (to_x, to_y)) / steps))
    return found


@pytest.mark.parametrize(
    ("segment", "distance"),
    [
        (((2.0, 0.0), (2.0, 1.0)), 1.0),
        (((2.0, 2.0), (3.0, 3.0)), math.sqrt(2)),
        (((0.0, 2.5), (2.5, 0.0)), 0.5 / math.sqrt(2)),  # past the corner
        (((-1.0, 0.5), (2.0, 0.5)), 0.0),  # right through
        (((1.0, 0.5), (2.0, 0.5)), 0.0),  # touching
        (((0.4, 0.4), (0.4, 0.4)), 0.0),  # a point inside
        (((4.0, 5.0), (4.0, 5.0)), 5.0),  # a point outside: 3, 4, 5
    ],
)
def test_distance_from_a_straight_piece_to_a_rectangle(segment: Segment, distance: float) -> None:
    assert paths.segment_to_m(segment, UNIT) == pytest.approx(distance, abs=1e-12)


@given(path=st.tuples(spots, spots, spots), rect=rects)
@held_over(40)
def test_no_sample_of_a_path_is_nearer_than_its_distance(
    path: tuple[Point, ...], rect: Rect
) -> None:
    nearest = min(convex.point_to_m(point, solid(rect)) for point, _ in sampled(path))
    distance = paths.path_to_m(path, solid(rect))
    assert distance <= nearest + 1e-12
    assert nearest - distance < 0.02


@given(path=st.tuples(spots, spots, spots), pieces=st.lists(rects, max_size=4))
@held_over(40)
def test_length_outside_equals_the_sum_of_samples_outside(
    path: tuple[Point, ...], pieces: list[Rect]
) -> None:
    bare = sum(
        length
        for point, length in sampled(path)
        if all(shapes.depth_inside_m(rect, point) < 0 for rect in pieces)
    )
    assert paths.length_outside_m(path, map(solid, pieces)) == pytest.approx(bare, abs=0.1)


@given(path=st.tuples(spots, spots, spots), rect=rects)
def test_inside_and_outside_together_are_the_whole_path(
    path: tuple[Point, ...], rect: Rect
) -> None:
    whole = paths.length_inside_m(path, solid(rect)) + paths.length_outside_m(path, [solid(rect)])
    assert whole == pytest.approx(paths.path_length_m(path), abs=1e-9)


@pytest.mark.parametrize(
    ("path", "count"),
    [
        (((-1.0, 0.5), (2.0, 0.5)), 2),
        (((-1.0, 0.5), (0.5, 0.5)), 1),
        (((0.2, 0.5), (0.5, 0.5)), 0),
        (((-1.0, 1.0), (2.0, 1.0)), 0),  # along the edge
        (((-1.0, 0.5), (0.5, 0.5), (0.5, 2.0)), 2),
        (((0.5, 0.5), (1.0, 0.5), (0.5, 0.2)), 2),  # to the edge and back
        (((1.0, 0.5), (2.0, 0.5)), 0),
    ],
)
def test_ways_over_the_edge_are_counted(path: tuple[Point, ...], count: int) -> None:
    assert paths.edge_crossings(path, [UNIT], 2e-6) == count


@given(rect=rects, holes=st.lists(rects, max_size=4), probe=spots)
def test_what_is_left_of_a_rectangle_holds_what_no_hole_does(
    rect: Rect, holes: list[Rect], probe: Point
) -> None:
    point = (probe[0] + 0.1, probe[1] + 0.1)
    left = convex.without(solid(rect), map(solid, holes))
    inside = shapes.depth_inside_m(rect, point) > 0
    in_hole = any(shapes.depth_inside_m(hole, point) > 0 for hole in holes)
    held = sum(convex.depth_inside_m(piece, point) > 0 for piece in left)
    assert held == int(inside and not in_hole)


def test_the_area_of_an_outline_with_a_corner_cut_out() -> None:
    outline = ((0.0, 0.0), (2.0, 0.0), (2.0, 1.0), (1.0, 1.0), (1.0, 2.0), (0.0, 2.0))
    assert outlines.area_m2(outline) == 3.0
    assert outlines.area_m2(outline[::-1]) == 3.0


@given(one=rects, other=rects)
def test_the_gap_between_two_rectangles_is_the_same_from_either_side(
    one: Rect, other: Rect
) -> None:
    assert shapes.gap_m(one, other) == shapes.gap_m(other, one)
    assert convex.separation_m(solid(one), solid(other)) == shapes.gap_m(one, other)
    assert (shapes.gap_m(one, other) < 0) is one.overlaps(other)
