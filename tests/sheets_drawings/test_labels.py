import random

import pytest
from drawn import any_pair_overlaps
from hypothesis import strategies as st
from laws import law
from shapely.geometry import LineString, box

from powerplan.sheets.labels import (
    Inked,
    Label,
    Placed,
    label_size,
    line_places,
    place_labels,
)
from powerplan.sheets.patches import Patch, Shelf, any_over, span, those_near, within

PAPER = Patch(0.0, 0.0, 200.0, 150.0)

spots = st.tuples(st.floats(0, 200), st.floats(0, 150))


@st.composite
def crowds(draw: st.DrawFn) -> tuple[list[Label], list[Patch], list[Inked]]:
    count = draw(st.integers(1, 25))
    near = draw(st.booleans())
    labels = [
        Label(
            key=str(number),
            lines=tuple(
                draw(st.lists(st.sampled_from(["A3", "box A12-A11"]), min_size=1, max_size=3))
            ),
            anchors=((100.0, 70.0),) if near else (draw(spots),),
            clear_mm=draw(st.sampled_from([0.0, 2.0])),
            on=draw(st.booleans()),
            home=draw(st.booleans()),
        )
        for number in range(count)
    ]
    taken = [Patch(x, y, x + 9, y + 5) for x, y in draw(st.lists(spots, max_size=15))]
    lines = [Inked(a, b, 1.0) for a, b in draw(st.lists(st.tuples(spots, spots), max_size=8))]
    return labels, taken, lines


def as_box(patch: Patch):
    return box(patch.left, patch.low, patch.right, patch.high)


def at(placed: tuple[Placed, ...], key: str) -> Placed:
    return next(one for one in placed if one.label.key == key)


@law(crowds(), usual=10, many=300)
def test_labels_never_overlap_each_other_or_what_is_taken(crowd):
    labels, taken, lines = crowd
    placed = place_labels(labels, taken, lines, PAPER)
    assert [one.label for one in placed] == labels
    patches = [as_box(one.patch) for one in placed]
    assert not any_pair_overlaps(patches)
    assert not any(p.intersection(as_box(t)).area > 1e-6 for p in patches for t in taken)


@law(crowds(), usual=7, many=100)
def test_labels_stand_the_same_each_time(crowd):
    labels, taken, lines = crowd
    assert place_labels(labels, taken, lines, PAPER) == place_labels(labels, taken, lines, PAPER)


def test_a_label_alone_stands_just_above_what_it_names():
    (placed,) = place_labels([Label("a", ("A3",), ((50, 50),), clear_mm=2.0)], [], [], PAPER)
    assert placed.leader is None
    assert placed.patch.low == pytest.approx(52.7)
    assert placed.patch.middle[0] == pytest.approx(50)


def test_a_label_that_may_stands_on_its_place():
    (placed,) = place_labels([Label("a", ("A3",), ((50, 50),), on=True)], [], [], PAPER)
    assert placed.patch.middle == pytest.approx((50, 50))


def test_a_label_that_is_walled_in_goes_outside_and_gets_a_leader():
    wall = [Patch(0.0, 0.0, 200.0, 150.0)]
    (placed,) = place_labels([Label("a", ("A3",), ((100, 75),))], wall, [], PAPER)
    assert placed.leader is not None
    assert not placed.patch.overlaps(wall[0])
    assert placed.leader[0] == pytest.approx((100, 75))
    assert as_box(placed.patch).distance(LineString(placed.leader)) == 0


def test_a_label_avoids_a_line_when_it_costs_nothing():
    above = [Inked((0, 54), (200, 54), 1.0)]
    (placed,) = place_labels([Label("a", ("A3",), ((50, 50),), clear_mm=2.0)], [], above, PAPER)
    assert not as_box(placed.patch).intersects(LineString(above[0][:2]))


def test_a_label_at_home_is_not_driven_out_by_its_neighbors():
    home = Label("home", ("A3",), ((50, 50),), on=True, home=True)
    crowd = [Label(f"a{n}", ("A3",), ((50, 50),), on=True) for n in range(6)]
    placed = place_labels([*crowd, home], [], [], PAPER)
    assert at(placed, "home").patch.middle == pytest.approx((50, 50))


def test_a_neighbor_makes_way_where_both_then_stand_better():
    width, height = label_size(Label("x", ("A3",), ((0, 0),)))
    slot = Patch(50 - width / 2, 50 - height / 2, 50 + width / 2, 50 + height / 2)
    free = (slot, Patch(90.0, 50 - height / 2, 90 + width, 50 + height / 2))
    walls = [
        Patch(-300, -300, slot.left, 400),
        Patch(slot.right, -300, free[1].left, 400),
        Patch(free[1].right, -300, 500, 400),
        Patch(-300, slot.high, 500, 400),
        Patch(-300, -300, 500, slot.low),
    ]
    either = Label("a", ("A3",), ((50, 50), (90 + width / 2, 50)), on=True, home=True)
    only = Label("b", ("A3",), ((50, 50),), on=True)
    placed = place_labels([either, only], walls, [], PAPER)
    assert at(placed, "b").patch.middle == pytest.approx((50, 50))
    assert at(placed, "a").patch.middle == pytest.approx((90 + width / 2, 50))


def test_two_labels_with_one_key_are_refused():
    label = Label("a", ("A3",), ((50, 50),))
    with pytest.raises(ValueError, match="same key"):
        place_labels([label, label], [], [], PAPER)


def test_lines_of_a_label_stand_under_each_other_inside_it():
    (placed,) = place_labels([Label("a", ("box A3", "circuit 7"), ((50, 50),))], [], [], PAPER)
    (x1, y1), (x2, y2) = line_places(placed)
    assert x1 == x2 == pytest.approx(placed.patch.middle[0])
    assert y1 - y2 == pytest.approx(3.5)
    assert placed.patch.low < y2 - 1.6
    assert y1 + 1.0 < placed.patch.high


def test_the_part_of_a_line_in_a_rectangle_agrees_with_a_geometry_library():
    drawn = random.Random(4)
    patch = Patch(2.0, 3.0, 7.0, 5.0)
    for _ in range(300):
        ends = [(drawn.uniform(0, 9), drawn.uniform(0, 9)) for _ in range(2)]
        line = LineString(ends)
        part = within(ends[0], ends[1], patch)
        inside = line.intersection(as_box(patch)).length
        got = 0.0 if part is None else (part[1] - part[0]) * line.length
        assert got == pytest.approx(inside, abs=1e-9)


@law(st.lists(st.tuples(spots, spots), min_size=1, max_size=12), usual=30, many=300)
def test_rectangles_that_share_paper_are_those_of_a_geometry_library(corners):
    first, *others = (span(*pair) for pair in corners)
    shared = any(as_box(first).intersection(as_box(other)).area > 0 for other in others)
    assert any_over(first, others) == shared
    met = [other for other in others if as_box(first).intersects(as_box(other))]
    assert those_near(first, others) == met


def test_the_rectangle_around_two_points_is_the_same_from_either_end():
    assert span((1.0, 5.0), (3.0, 2.0)) == span((3.0, 2.0), (1.0, 5.0)) == Patch(1.0, 2.0, 3.0, 5.0)
    assert span((1.0, 2.0), (3.0, 5.0)) == span((3.0, 5.0), (1.0, 2.0)) == Patch(1.0, 2.0, 3.0, 5.0)


def test_a_shelf_finds_what_is_near_once():
    shelf: Shelf[str] = Shelf()
    shelf.put("wide", Patch(-100, 0, 100, 1))
    shelf.put("far", Patch(0, 60, 1, 61))
    assert shelf.near(Patch(50, 0.5, 51, 2)) == ["wide"]
    assert shelf.near(Patch(-30, -1, 30, 0)) == ["wide"]
    assert shelf.near(Patch(1, 61, 3, 70)) == ["far"]
    assert shelf.near(Patch(2, 40, 3, 50)) == []
