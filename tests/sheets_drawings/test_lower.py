import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon

from powerplan.model.geometry import Rect
from powerplan.sheets.layers import all_layers, layer
from powerplan.sheets.lower import Mask, Stroke, Words, hatch_lines, lowered, text_corners
from powerplan.sheets.scene import Arc, Dimension, Hatch, Item, Line, Text, View


def view_of(*items: Item, scale: int = 48) -> View:
    return View(
        title="t",
        description="d",
        scale=scale,
        bounds=Rect(left_m=-1.0, right_m=7.0, back_m=-2.0, front_m=5.0),
        items=items,
    )


def strokes_of(*items: Item, scale: int = 48) -> list[Stroke]:
    return [one for one in lowered(view_of(*items, scale=scale)) if isinstance(one, Stroke)]


@pytest.mark.parametrize("scale", [20, 24, 48, 50, 96, 100])
def test_a_wall_of_six_meters_is_six_meters_at_the_scale(scale):
    (stroke,) = strokes_of(Line(points=((0, 0), (6, 0)), layer="wall"), scale=scale)
    start, end = stroke.points_mm
    assert math.dist(start, end) == pytest.approx(6000 / scale, abs=0.01)
    assert start == pytest.approx((1000 / scale, 2000 / scale))


def test_a_stroke_has_the_weight_and_dash_of_its_layer():
    (stroke,) = strokes_of(Line(points=((0, 0), (6, 0)), layer="extension", closed=True))
    assert (stroke.weight_mm, stroke.dash_mm) == (0.60, (1.0, 1.0))
    assert stroke.closed
    assert not stroke.filled


@given(st.floats(0.05, 4), st.floats(-180, 180), st.floats(5, 360))
def test_an_arc_keeps_within_two_hundredths_of_a_millimeter(radius, start, span):
    arc = Arc(center=(2, 1), radius_m=radius, start_deg=start, end_deg=start + span, layer="door")
    (stroke,) = strokes_of(arc)
    center, on_paper = (3000 / 48, 3000 / 48), radius * 1000 / 48
    ring = (*stroke.points_mm, stroke.points_mm[0]) if stroke.closed else stroke.points_mm
    for one, two in pairwise(ring):
        assert math.dist(one, center) == pytest.approx(on_paper)
        middle = ((one[0] + two[0]) / 2, (one[1] + two[1]) / 2)
        assert on_paper - math.dist(middle, center) <= 0.0201
    if not stroke.closed:
        end = math.radians(start + span)
        far = (center[0] + on_paper * math.cos(end), center[1] + on_paper * math.sin(end))
        assert ring[-1] == pytest.approx(far, abs=1e-6)


corners = st.lists(st.floats(1, 40), min_size=3, max_size=9)


@given(corners, st.floats(0, 180), st.floats(0.5, 4))
def test_hatching_lies_inside_its_outline_and_fills_it(sizes, angle, spacing):
    turns = [2 * math.pi * n / len(sizes) for n in range(len(sizes))]
    outline = tuple((r * math.cos(t), r * math.sin(t)) for r, t in zip(sizes, turns, strict=True))
    area = Polygon(outline)
    lines = [LineString(line) for line in hatch_lines(outline, angle, spacing)]
    assert all(line.within(area.buffer(1e-6)) for line in lines)
    filled = sum(line.length for line in lines) * spacing
    assert filled == pytest.approx(area.area, abs=area.length * spacing)


def test_hatches_side_by_side_run_on_from_one_to_the_next():
    left, right = ((0, 0), (7.3, 0), (7.3, 9), (0, 9)), ((7.3, 0), (20, 0), (20, 9), (7.3, 9))
    here, there = hatch_lines(left, 45, 1.5), hatch_lines(right, 45, 1.5)
    ends = {round(p[1], 6) for line in here for p in line if p[0] > 7.29999}
    starts = {round(p[1], 6) for line in there for p in line if p[0] < 7.30001}
    assert ends
    assert ends == starts


def test_a_crossed_hatch_has_two_directions_and_an_inked_one_is_filled():
    square = ((0, 0), (1, 0), (1, 1), (0, 1))
    crossed = strokes_of(Hatch(outline=square, layer="no_cut", crossed=True))
    turns = {
        round(math.degrees(math.atan2(b[1] - a[1], b[0] - a[0]))) % 180
        for a, b in (stroke.points_mm for stroke in crossed)
    }
    assert turns == {45, 135}
    (inked,) = strokes_of(Hatch(outline=square, layer="no_cut", spacing_mm=0))
    assert inked.filled
    assert len(inked.points_mm) == 4


@pytest.mark.parametrize("along", ["x", "y"])
def test_a_dimension_is_as_long_as_what_it_measures_with_a_slash_at_each_end(along):
    item = Dimension(
        start=(0.0, 0.0),
        end=(3.0, 2.0),
        along=along,
        line_at=-0.5,
        words="w",
        words_at=(1.0, -0.4),
    )
    line, *others = strokes_of(item)
    value = 3000 if along == "x" else 2000
    assert math.dist(*line.points_mm) * 48 == pytest.approx(value, abs=0.01)
    slashes = [s for s in others if math.dist(*s.points_mm) == pytest.approx(2.4)]
    middles = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in (s.points_mm for s in slashes)]
    for middle, end in zip(sorted(middles), sorted(line.points_mm), strict=True):
        assert middle == pytest.approx(end)
    assert len(others) == 4


def test_words_of_a_dimension_along_y_are_turned_and_cleared_behind():
    item = Dimension(
        start=(0, 0), end=(0, 2), along="y", line_at=-0.5, words="2 m", words_at=(-0.6, 1)
    )
    (mask,) = [one for one in lowered(view_of(item)) if isinstance(one, Mask)]
    (words,) = [one for one in lowered(view_of(item)) if isinstance(one, Words)]
    assert words.angle_deg == 90
    assert words.at_mm == pytest.approx((400 / 48, 3000 / 48))
    tall = max(y for _, y in mask.corners_mm) - min(y for _, y in mask.corners_mm)
    wide = max(x for x, _ in mask.corners_mm) - min(x for x, _ in mask.corners_mm)
    assert tall > wide


def test_words_come_after_all_lines_so_that_none_runs_through_them():
    kinds = [
        type(one)
        for one in lowered(
            view_of(
                Text(at=(1, 1), words="a", layer="text", mask=True),
                Line(points=((0, 0), (6, 0)), layer="wall"),
            )
        )
    ]
    assert kinds == [Stroke, Mask, Words]


@pytest.mark.parametrize(("anchor", "low"), [("lb", -0.66), ("lm", -1.66), ("lt", -2.66)])
def test_words_take_up_their_height_and_their_tails(anchor, low):
    (left, bottom), _, (_, top), _ = text_corners((0, 0), "Ag", 2.0, anchor, 0.0)
    assert (left, bottom) == pytest.approx((0, low))
    assert top - bottom == pytest.approx(2.66)


def test_every_layer_has_a_name_of_its_own_and_something_to_say():
    layers = all_layers()
    assert len({one.cad for one in layers}) == len(layers) == len({one.key for one in layers})
    assert all(one.weight_mm > 0 and one.meaning for one in layers)
    with pytest.raises(KeyError):
        layer("nothing")
