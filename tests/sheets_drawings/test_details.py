"""Floor boxes at a large scale."""

from dataclasses import replace

import pytest
import strategies
from drawn import dimensions_of, outside, overlapping, spoken, true_m
from laws import law, planned
from sample_plan import sample_plan
from support import NEC, inch, make_joists

from powerplan.model.lengths import at_most_text, length_text
from powerplan.model.plan import Drift
from powerplan.planning.pipeline import make_plan
from powerplan.sheets.beside import framing_under, joists_beside
from powerplan.sheets.drawings.details import box_detail_views
from powerplan.sheets.drawings.floor_boxes import floor_box_view
from powerplan.sheets.scene import Hatch, Line, View

ROOM_MM = (190.0, 200.0)


def sizes(view: View, layer: str) -> list[tuple[float, float]]:
    """Width and depth of each closed outline of a layer. [m]"""
    found = []
    for item in view.items:
        if isinstance(item, Line) and item.layer == layer and item.closed:
            xs, ys = zip(*item.points, strict=True)
            found.append((round(max(xs) - min(xs), 6), round(max(ys) - min(ys), 6)))
    return found


def test_boxes_that_are_alike_are_drawn_once_under_all_their_names():
    (view,) = box_detail_views(sample_plan((5,)), ROOM_MM)
    assert "box A2, box A5" in spoken(view)
    assert len(sizes(view, "cut_out")) == 1


def test_boxes_that_differ_are_drawn_each():
    plan = sample_plan((5,))
    other = replace(plan.boxes[1], drift=replace(plan.boxes[1].drift, left_m=inch(1)))
    (view,) = box_detail_views(replace(plan, boxes=(plan.boxes[0], other)), ROOM_MM)
    assert {"box A2", "box A5"} <= set(spoken(view))
    assert len(sizes(view, "cut_out")) == 2
    assert overlapping(view) == []
    assert outside(view) == []


def test_hole_lid_and_drift_have_their_true_sizes():
    (view,) = box_detail_views(sample_plan((2,)), ROOM_MM)
    assert sizes(view, "cut_out") == [(inch(4), inch(4))]
    assert sizes(view, "lid") == [(inch(6), inch(6))]
    assert sizes(view, "drift") == [(inch(7), inch(3))]
    assert view.scale == 8


def test_drift_is_measured_on_four_sides_from_the_mark():
    (view,) = box_detail_views(sample_plan((2,)), ROOM_MM)
    told = {(item.along, item.words) for item in dimensions_of(view)}
    assert told == {("x", "4 in"), ("x", "3 in"), ("y", "2 in"), ("y", "1 in")}
    lengths = sorted(true_m(item) for item in dimensions_of(view))
    assert lengths == pytest.approx([inch(1), inch(2), inch(3), inch(4)])


def test_drift_is_never_promised_longer_than_it_is():
    plan = sample_plan((2,))
    drift = Drift(left_m=inch("79/20"), right_m=0.0, back_m=0.0, screen_m=0.0)
    plan = replace(plan, boxes=(replace(plan.boxes[0], drift=drift),))
    (view,) = box_detail_views(plan, ROOM_MM)
    assert [item.words for item in dimensions_of(view)] == ["3 7/8 in"]


def test_many_boxes_that_differ_take_as_many_drawings_as_they_need():
    plan = sample_plan((12,))
    boxes = tuple(
        replace(box, drift=replace(box.drift, left_m=inch(number + 1)))
        for number, box in enumerate(plan.boxes)
    )
    views = box_detail_views(replace(plan, boxes=boxes), (70.0, 150.0))
    assert len(views) == 2
    assert all(view.width_mm <= 70 and view.height_mm <= 150 for view in views)
    assert {box.id for box in boxes} <= {words for view in views for words in spoken(view)}


def test_there_is_nothing_to_enlarge_without_floor_boxes():
    plan = sample_plan((2,))
    wall = replace(plan.boxes[0], kind="wall outlet")
    assert box_detail_views(replace(plan, boxes=(wall,)), ROOM_MM) == ()


def test_both_joists_beside_a_box_are_drawn_and_measured():
    plan = sample_plan((2,))
    joists = make_joists(first_joist_m=inch("29/4"), spacing_m=inch(16))
    box = replace(plan.boxes[0], x_m=inch(84))
    plan = replace(plan, spec=replace(plan.spec, floor=joists), boxes=(box,))
    (view,) = box_detail_views(plan, ROOM_MM)
    # middles at 7 1/4 + 16 n: 71 1/4 and 87 1/4; the box at 84 has them at 12 3/4 and 3 1/4
    told = {item.words for item in dimensions_of(view) if item.along == "x"}
    assert {"1 ft 0 3/4 in", "3 1/4 in"} <= told
    assert overlapping(view) == []
    assert outside(view) == []


def test_a_second_mark_is_drawn_with_its_hole_and_its_name():
    plan = sample_plan((2,))
    box = replace(plan.boxes[0], second_mark_m=(plan.boxes[0].x_m, plan.boxes[0].y_m + inch(7)))
    (view,) = box_detail_views(replace(plan, boxes=(box,)), ROOM_MM)
    assert sizes(view, "second_mark") == [(inch(4), inch(4))]
    assert {"second mark:", "not to be moved"} <= set(spoken(view))


def test_a_second_mark_is_measured_from_the_first_and_its_sign_is_another():
    plan = sample_plan((2,))
    first = (plan.boxes[0].x_m, plan.boxes[0].y_m)
    second = (first[0] - inch("5/2"), first[1] + inch("113/16"))
    box = replace(plan.boxes[0], second_mark_m=second)
    (view,) = box_detail_views(replace(plan, boxes=(box,)), ROOM_MM)
    told = {(item.along, item.words): item for item in dimensions_of(view)}
    assert true_m(told["x", "2 1/2 in"]) == pytest.approx(inch("5/2"))
    assert true_m(told["y", "7 1/16 in"]) == pytest.approx(inch("113/16"))
    for key, layer in ((0, "mark"), (1, "second_mark")):
        strokes = [i.points for i in view.items if isinstance(i, Line) and i.layer == layer]
        level = [one for one in strokes if len(one) == 2 and one[0][1] == one[1][1]]
        slanted = [one for one in strokes if len(one) == 2 and one[0][0] != one[1][0]]
        assert bool(level) == (key == 0)
        assert len(slanted) == (1, 2)[key]
    assert overlapping(view) == []
    assert outside(view) == []


@law(strategies.rooms(), usual=7, many=150)
def test_no_drawing_shows_a_provisional_mark_without_saying_so(spec):
    unknown = replace(spec.floor, build=None, first_joist_m=None)
    plan = make_plan(replace(spec, floor=unknown), NEC, "0" * 64)
    provisional = [box for box in plan.boxes if box.kind == "floor box" and box.provisional]
    if not provisional:
        return
    whole = floor_box_view(plan, ROOM_MM)
    assert "DO NOT CUT" in whole.title
    large = [words for view in box_detail_views(plan, ROOM_MM) for words in spoken(view)]
    assert any("DO NOT CUT" in words for words in large)


@law(strategies.rooms(), usual=7, many=150)
def test_every_floor_box_is_enlarged_and_nothing_covers_what_is_read(spec):
    plan = planned(spec)
    views = box_detail_views(plan, ROOM_MM)
    told = ", ".join(words for view in views for words in spoken(view)).split(", ")
    assert {box.id for box in plan.boxes if box.kind == "floor box"} <= set(told)
    for view in views:
        assert overlapping(view) == []
        assert outside(view) == []
        for item in dimensions_of(view):
            steps = {length_text(true_m(item), spec.project.units, step=step) for step in (8, 16)}
            assert item.words in {*steps, at_most_text(true_m(item), spec.project.units)}


@law(strategies.rooms(), usual=7, many=150)
def test_the_joists_beside_a_box_are_the_nearest_on_either_side(spec):
    plan = planned(spec)
    for box in plan.boxes:
        beside = joists_beside(plan, box)
        if beside is None:
            continue
        framing, rect = framing_under(plan, box)
        edge, far = (rect.left_m, rect.right_m) if beside.across else (rect.back_m, rect.front_m)
        at = box.x_m if beside.across else box.y_m
        middles = []
        place = edge + framing.first_joist_m
        while place <= far + 1e-9:
            middles.append(place)
            place += framing.spacing_m
        before = [one for one in middles if one <= at + 1e-6]
        after = [one for one in middles if one > at - 1e-6]
        if beside.before_m is not None and before:
            assert beside.before_m == pytest.approx(max(before), abs=3e-6)
        else:
            assert not before
        if beside.after_m is not None:
            assert any(beside.after_m == pytest.approx(one, abs=3e-6) for one in after)
        else:
            assert not [one for one in after if one > at + 1e-6 and one < far - 1e-6]


def test_floor_in_which_a_mark_may_be_moved_is_hatched_so_that_no_lid_hides_it():
    plan = sample_plan()
    box = plan.boxes[0]
    (view,) = box_detail_views(replace(plan, boxes=(box,)), ROOM_MM)
    (drawn,) = (item for item in view.items if isinstance(item, Hatch) and item.layer == "drift")
    xs, ys = ([point[at] for point in drawn.outline] for at in (0, 1))
    assert abs(max(xs) - min(xs) - box.drift.left_m - box.drift.right_m) < 1e-6
    assert abs(max(ys) - min(ys) - box.drift.back_m - box.drift.screen_m) < 1e-6
