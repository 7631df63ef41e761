"""Drawings of many rooms: nothing covers what is read, nothing is left out, all is to scale."""

import re
from dataclasses import replace
from fractions import Fraction
from functools import cache

import pytest
import strategies
from drawn import dimensions_of, outside, overlapping, spoken, squares_of, true_m
from laws import law, planned
from sample_plan import sample_plan
from shapely.geometry import Polygon, box
from support import NEC, inch, make_joists, make_spec

from powerplan.model.lengths import length_text
from powerplan.model.plan import Plan
from powerplan.model.spec import Load
from powerplan.planning.pipeline import make_plan
from powerplan.sheets.drawings.floor_boxes import floor_box_view
from powerplan.sheets.drawings.legend import legend, legend_view
from powerplan.sheets.drawings.load import load_views
from powerplan.sheets.drawings.rows import cord_views
from powerplan.sheets.fonts import text_width_mm
from powerplan.sheets.layers import layer
from powerplan.sheets.lower import Stroke, lowered
from powerplan.sheets.pages.print_cords import cords_sheet
from powerplan.sheets.scene import Hatch, Line, Text, View

ROOM_MM = (250.0, 150.0)
SIZES = [(2,), (5,), (12,), (12, 12, 12, 12, 12)]


def all_views(plan: Plan) -> tuple[View, ...]:
    views = (floor_box_view(plan, ROOM_MM), *cord_views(plan, ROOM_MM))
    return (*views, *load_views(plan, ROOM_MM))


def check(plan: Plan) -> None:
    views = all_views(plan)
    for view in views:
        assert overlapping(view) == []
        assert outside(view) == []
    units = plan.spec.project.units
    for item in (item for view in views for item in dimensions_of(view)):
        assert item.words in {length_text(true_m(item), units, step=step) for step in (8, 16)}
    boxes, rows = spoken(views[0]), [words for view in views[1:] for words in spoken(view)]
    assert {box.id for box in plan.boxes} <= set(boxes)
    assert {f"or {box.id}:" for box in plan.boxes if box.second_mark_m} <= set(boxes)
    assert {outlet.id for outlet in plan.spec.outlets} <= set(boxes)
    tags = [set(re.findall(r"\d+", told)) for told in rows if re.match(r"cords? \d", told)]
    for number, _ in enumerate(plan.cords, 1):
        # once where it lies alone, and with those that lie on one line with it
        assert rows.count(f"cord {number}") <= 1
        assert any(str(number) in tag for tag in tags)
    for chair in plan.chairs:
        assert chair.id in boxes
        assert chair.id in rows


@law(strategies.rooms(), usual=7, many=150)
def test_every_room_is_drawn_whole_and_nothing_covers_what_is_read(spec):
    check(planned(spec))


@cache
def sample(seats: tuple[int, ...]) -> Plan:
    return sample_plan(seats)


@pytest.mark.parametrize("seats", SIZES)
def test_rooms_of_every_size_are_drawn_whole(seats):
    check(sample(seats))


@pytest.mark.parametrize("seats", SIZES[:2])
def test_a_drawing_is_the_same_each_time(seats):
    assert all_views(sample_plan(seats)) == all_views(sample(seats))


def test_marks_are_measured_from_left_back_and_center_never_from_each_other():
    plan = sample((5,))
    view = floor_box_view(plan, ROOM_MM)
    middle = plan.spec.room.width_m / 2
    measured = {(d.along, round(d.start[0], 6), round(d.end[0], 6)) for d in dimensions_of(view)}
    for one in plan.boxes:
        assert ("x", 0.0, round(one.x_m, 6)) in measured
        assert ("x", round(middle, 6), round(one.x_m, 6)) in measured
    deep = [d for d in dimensions_of(view) if d.along == "y"]
    assert {d.start[1] for d in deep} == {0.0}
    ends = {d.end[1] for d in deep if d.start == (0.0, 0.0)}
    assert ends == {one.y_m for one in plan.boxes}
    assert {d.end[1] for d in deep} - ends == {plan.spec.room.depth_m}


def test_a_box_stands_on_paper_where_it_stands_in_the_room():
    plan = sample((5,))
    view = floor_box_view(plan, ROOM_MM)
    places = sorted(square.centroid.coords[0] for square in squares_of(view))
    per = 1000 / view.scale
    for place, one in zip(places, plan.boxes, strict=True):
        assert place[0] / per + view.bounds.left_m == pytest.approx(one.x_m, abs=1e-9)
        assert place[1] / per + view.bounds.back_m == pytest.approx(one.y_m, abs=1e-9)


@pytest.mark.parametrize("units", ["ft-in", "mm"])
def test_the_walls_of_a_room_measure_true_on_paper(units):
    spec = make_spec()
    room = replace(spec.room, width_m=6.0, depth_m=4.5)
    project = replace(spec.project, units=units)
    plan = replace(sample((2,)), spec=replace(spec, room=room, project=project, doors=()))
    view = floor_box_view(plan, ROOM_MM)
    lengths = {
        round(abs(b[0] - a[0]) * view.scale, 1)
        for a, b in (
            thing.points_mm
            for thing in lowered(view)
            if isinstance(thing, Stroke) and thing.layer == "wall" and len(thing.points_mm) == 2
        )
    }
    assert 6000.0 in lengths


def test_a_drawing_takes_the_largest_scale_that_fits_the_paper():
    plan = sample((5,))
    small, large = floor_box_view(plan, (250, 150)), floor_box_view(plan, (700, 700))
    assert (small.scale, large.scale) == (48, 24)
    assert small.width_mm <= 250
    assert small.height_mm <= 150


def test_cords_are_drawn_along_their_own_ways():
    plan = sample((5,))
    (view,) = cord_views(plan, ROOM_MM)
    ways = [item.points for item in view.items if isinstance(item, Line) and item.layer == "cord"]
    assert ways == [cord.path_m for cord in plan.cords]


def test_a_cord_of_no_length_still_has_its_tag():
    plan = sample((2,))
    short = replace(plan.cords[0], id="tiny", path_m=(plan.cords[0].path_m[-1],) * 2)
    (view,) = cord_views(replace(plan, cords=(short,)), ROOM_MM)
    assert "cord 1" in spoken(view)


def test_several_rows_get_a_key_plan_and_a_drawing_each():
    views = cord_views(replace(sample((12,) * 5), findings=()), ROOM_MM)
    assert [view.title for view in views[:2]] == ["Key plan of the rows", "Row A and its cords"]
    assert len(views) == 6
    assert {"row A: 12 chairs", "row E: 12 chairs"} <= set(spoken(views[0]))


def test_every_drawing_of_a_row_says_when_nothing_is_laid_yet():
    # a must that is not met stops the laying; a box that may still move makes its ways provisional
    plan = sample((5, 5))
    assert any(finding.stops for finding in plan.findings)
    boxes = tuple(replace(box, provisional=True) for box in plan.boxes)
    moves = replace(plan, boxes=boxes, findings=())
    for made, word in ((plan, ". DO NOT LAY YET"), (moves, ". PROVISIONAL: DO NOT LAY YET")):
        _, *rows = cord_views(made, ROOM_MM)
        assert [view.title for view in rows] == [f"Row {n} and its cords{word}" for n in "AB"]
        assert cords_sheet(made, ()).title == "Cords. DO NOT LAY YET"


def test_chairs_are_numbered_from_the_middle_outward():
    (view,) = cord_views(sample((5,)), ROOM_MM)
    texts = [item for item in view.items if getattr(item, "words", "").isdigit()]
    by_place = [item.words for item in sorted(texts, key=lambda item: item.at[0])]
    assert by_place == ["4", "2", "1", "3", "5"]


def test_pinch_zones_are_hatched_and_clear_zones_stay_white():
    plan = make_plan(make_spec(), NEC, "0" * 64)
    (view,) = cord_views(plan, ROOM_MM)
    per, left, back = 1000 / view.scale, view.bounds.left_m, view.bounds.back_m
    hatches = [s for s in lowered(view) if isinstance(s, Stroke) and s.layer == "pinch"]
    assert len(hatches) > 100
    for zone in plan.zones:
        area = Polygon([((x - left) * per, (y - back) * per) for x, y in zone.outline_m])
        inside = [s for s in hatches if area.buffer(-0.05).contains(_middle(s))]
        assert bool(inside) == (zone.kind == "pinch")


def _middle(stroke: Stroke):
    (x1, y1), (x2, y2) = stroke.points_mm
    return box(*(2 * ((x1 + x2) / 2 - 1e-9, (y1 + y2) / 2 - 1e-9))).centroid


def test_joists_are_drawn_where_they_lie():
    spec = make_spec(floor=make_joists())
    plan = replace(sample((2,)), spec=replace(spec, rows=sample((2,)).spec.rows))
    view = floor_box_view(plan, ROOM_MM)
    at = sorted({item.points[0][0] for item in view.items if item.layer == "joist"})
    assert at[0] == pytest.approx(inch(7.25 - 0.75))
    assert at[1] == pytest.approx(inch(7.25 + 0.75))
    assert at[2] - at[0] == pytest.approx(inch(16))


def test_a_tape_is_as_long_as_the_amperes_on_it():
    plan = sample((5,))
    (view,) = load_views(plan, ROOM_MM)
    drawn = ("load", "load_there", "load_unknown")
    tapes = [i for i in view.items if isinstance(i, Line) and i.layer in drawn and i.closed]
    first = [item for item in tapes if item.points[0][1] == tapes[0].points[0][1]]
    (limit,) = [i.points[0][0] for i in view.items if i.layer == "limit"][:1]
    per_a = limit / 15.0
    widths = [item.points[1][0] - item.points[0][0] for item in first]
    asked = 0.3 * 1.25 + 1.5
    assert widths[:5] == pytest.approx([asked * per_a] * 5)
    assert sum(widths) == pytest.approx(limit)
    assert "limit 15 A" in spoken(view)


def test_the_tape_holds_what_is_known_of_a_circuit_and_never_shows_the_unknown_as_free():
    # by hand: of 15 A, a router of 0.5 A for hours asks 1.25 x 0.5 = 0.625 A, and two chairs of
    # 1.8 A, 0.3 A of it for hours, ask 2 x (1.25 x 0.3 + 1.5) = 3.75 A: 15 - 4.375 = 10.625 A is
    # what is left, less a lamp that nobody measured
    plan = sample((2,))
    router = Load(name="router", current_a=Fraction(1, 2), continuous=True)
    known = replace(
        plan.spec.circuits[0], already_on_it=None, partly_on_it=(router,), not_measured=("lamp",)
    )
    use = replace(plan.circuits[0], id=known.id, asks_a=4.375, load_known=False, breaker_a=15.0)
    chairs = tuple(
        replace(one, circuit=known.id, input_a=1.8, continuous_a=0.3) for one in plan.chairs
    )
    spec = replace(plan.spec, circuits=(known,))
    (view,) = load_views(replace(plan, spec=spec, chairs=chairs, circuits=(use,)), ROOM_MM)
    (limit,) = [i.points[0][0] for i in view.items if i.layer == "limit"]
    spans = {
        i.layer: (i.points[0][0], i.points[1][0])
        for i in view.items
        if isinstance(i, Line) and i.layer in ("load_there", "load_unknown") and i.closed
    }
    assert spans["load_there"] == pytest.approx((0.0, limit * 0.625 / 15))
    assert spans["load_unknown"] == pytest.approx((limit * 4.375 / 15, limit))
    assert [i for i in view.items if isinstance(i, Hatch) and i.layer == "load_unknown"]
    told = spoken(view)
    assert "10.62 A left, less" in told
    assert "lamp: NOT KNOWN" in told
    assert any("and what is known beside them; lamp: NOT KNOWN" in words for words in told)


@pytest.mark.parametrize(
    ("circuits", "shares"),
    [(1, [1]), (3, [3]), (4, [2, 2]), (5, [3, 2]), (6, [3, 3]), (7, [3, 3, 1])],
)
def test_many_circuits_are_shared_among_drawings_and_none_is_cut(circuits: int, shares: list[int]):
    plan = sample((2,))
    ids = [f"new {number}" for number in range(1, circuits + 1)]
    used = tuple(replace(plan.circuits[0], id=one, new=False) for one in ids)
    views = load_views(replace(plan, circuits=used), ROOM_MM)
    named = [
        [words.split(":")[0] for words in spoken(view) if words.startswith("circuit ")]
        for view in views
    ]
    assert [len(some) for some in named] == shares
    assert [one for some in named for one in some] == [f"circuit {one}" for one in ids]
    limits = {item.points[0][0] for view in views for item in view.items if item.layer == "limit"}
    assert len(limits) == 1  # an ampere is as long on every drawing
    assert len({view.title for view in views}) == len(views)


def test_a_plan_without_circuits_has_no_tape():
    assert load_views(replace(sample((2,)), circuits=()), ROOM_MM) == ()


def test_a_limit_that_nobody_knows_is_said_and_not_drawn():
    plan = sample((2,))
    unknown = replace(plan, circuits=(replace(plan.circuits[0], breaker_a=None),))
    (view,) = load_views(unknown, ROOM_MM)
    assert "limit NOT KNOWN:" in spoken(view)
    assert not [item for item in view.items if item.layer == "limit"]


def test_the_legend_says_what_is_used_and_nothing_else():
    (view,) = cord_views(sample((2,)), ROOM_MM)
    keys = [key for key, _ in legend(view)]
    assert {"wall", "chair", "cord", "box"} <= set(keys)
    assert not {"no_cut", "joist", "text"} & set(keys)
    assert dict(legend(view))["cord"] == layer("cord").meaning
    shown = legend_view((view,), 180)
    assert shown is not None
    assert {layer("wall").meaning, "floor box", "cord", "turn in the order of work"} <= set(
        spoken(shown)
    )
    assert overlapping(shown) == []
    assert shown.width_mm <= 180
    assert legend_view((), 180) is None


@pytest.mark.parametrize("there_a", [0.0, 0.1, 0.4, 1.25, 5.0])
@pytest.mark.parametrize("seats", [2, 5, 12])
@pytest.mark.parametrize("input_a", [0.3, 0.75, 1.2])
def test_a_name_on_a_tape_stands_over_its_own_part(there_a: float, seats: int, input_a: float):
    plan = sample((seats,))
    chairs = tuple(
        replace(one, circuit="7", input_a=input_a, continuous_a=0.0) for one in plan.chairs
    )
    asks_a = there_a + seats * input_a
    use = replace(plan.circuits[0], id="7", asks_a=asks_a, load_known=True, breaker_a=20.0)
    made = replace(plan, chairs=chairs, circuits=(use,))
    (view,) = load_views(made, ROOM_MM)
    assert overlapping(view) == []
    assert outside(view) == []
    (limit,) = {i.points[0][0] for i in view.items if isinstance(i, Line) and i.layer == "limit"}
    per_a, at = limit / 20.0, there_a
    parts = {"already on it": (0.0, there_a)} if there_a else {}
    for chair in made.chairs:
        parts[chair.id] = (at, at + input_a)
        at += input_a
    leaders = [i.points[0][0] for i in view.items if isinstance(i, Line) and i.layer == "dimension"]
    named = {i.words: i for i in view.items if isinstance(i, Text) and i.words in parts}
    assert set(named) == set(parts)
    for name, (start, end) in parts.items():
        words = named[name]
        assert start * per_a < words.at[0] < end * per_a
        half = text_width_mm(name, words.height_mm) / 2000
        within = start * per_a < words.at[0] - half and words.at[0] + half < end * per_a
        # in its part, or below the tape with a line that leads to it
        assert (within and 0.0 < words.at[1] < 0.008) or (
            words.at[1] < 0.0 and any(abs(x - words.at[0]) < 1e-9 for x in leaders)
        )
    (left,) = [i for i in view.items if isinstance(i, Text) and i.words.endswith(" left")]
    half = text_width_mm(left.words, left.height_mm) / 2000
    assert left.at[1] < 0.0 or left.at[0] + half < limit
