"""Doors as they are known, and a legend of exactly what is on the page, each sample its own."""

from dataclasses import replace
from itertools import combinations

import pytest
import strategies
from drawn import spoken
from laws import law, planned
from sample_plan import sample_plan
from support import make_door, make_riser

from powerplan.model.plan import Plan
from powerplan.model.spec import Wall
from powerplan.sheets.drawings.details import box_detail_views
from powerplan.sheets.drawings.floor_boxes import floor_box_view
from powerplan.sheets.drawings.legend import legend, legend_view
from powerplan.sheets.drawings.load import load_views
from powerplan.sheets.drawings.rows import cord_views
from powerplan.sheets.layers import all_layers, layer
from powerplan.sheets.lower import Stroke, lowered
from powerplan.sheets.scene import Arc, Line, Text, View

ROOM_MM = (190.0, 190.0)
UNSAID = {"text", "frame", "dimension"}


def with_door(wall: Wall, swings: str) -> Plan:
    plan = sample_plan()
    door = make_door(wall, 30, 32, swings=swings)
    return replace(plan, spec=replace(plan.spec, doors=(door,)))


@pytest.mark.parametrize("wall", list(Wall))
@pytest.mark.parametrize("swings", ["in", "out"])
def test_a_door_is_drawn_hung_on_either_side_of_its_opening(wall, swings):
    plan = with_door(wall, swings)
    view = floor_box_view(plan, ROOM_MM)
    (door,) = plan.spec.doors
    arcs = [item for item in view.items if isinstance(item, Arc) and item.layer == "door"]
    along = 1 if wall in (Wall.LEFT, Wall.RIGHT) else 0
    assert sorted(arc.center[along] for arc in arcs) == pytest.approx([door.start_m, door.end_m])
    assert {arc.end_deg - arc.start_deg for arc in arcs} == {90.0}
    leaves = [item for item in view.items if isinstance(item, Line) and item.layer == "door"]
    room = plan.spec.room
    middle = (room.width_m / 2, room.depth_m / 2)[1 - along]
    walls = {Wall.LEFT: 0.0, Wall.RIGHT: room.width_m, Wall.BACK: 0.0, Wall.SCREEN: room.depth_m}
    inside = [
        abs(leaf.points[1][1 - along] - middle) < abs(walls[wall] - middle) for leaf in leaves
    ]
    assert inside == [swings == "in"] * 2
    assert "hinge side not measured" in layer("door").meaning


@law(strategies.rooms(), usual=7, many=150)
def test_every_door_of_a_room_is_drawn_and_its_opening_has_no_wall(spec):
    view = floor_box_view(planned(spec), ROOM_MM)
    assert {f"door {door.id}" for door in spec.doors} <= set(spoken(view))
    for door in spec.doors:  # all of them in the left wall
        for item in view.items:
            if isinstance(item, Line) and item.layer == "wall":
                (x0, y0), (x1, y1) = item.points
                if x0 == x1 == 0.0:
                    assert max(y0, y1) <= door.start_m or min(y0, y1) >= door.end_m


def views_of(plan: Plan) -> tuple[View, ...]:
    views = (floor_box_view(plan, ROOM_MM), *box_detail_views(plan, ROOM_MM))
    return (*views, *cord_views(plan, ROOM_MM), *load_views(plan, ROOM_MM))


@law(strategies.rooms(), usual=7, many=150)
def test_a_legend_has_all_that_is_drawn_and_nothing_else(spec):
    views = views_of(planned(spec))
    used = {item.layer for view in views for item in view.items} - UNSAID
    shown = legend_view(views, 180.0)
    assert shown is not None
    told = set(spoken(shown))
    for one in all_layers():
        if one.key not in UNSAID | {"box"}:
            assert (one.meaning in told) == (one.key in used), one.key
    signs = {item.layer for item in shown.items} - {"text"}
    assert used - {"box"} <= signs | {"dimension"}
    assert {key for view in views for key, _ in legend(view)} == used


def test_no_two_samples_of_a_legend_look_alike():
    plan = sample_plan((4, 4))
    riser = make_riser(0, 0, 240, 84, id="rear")
    views = views_of(replace(plan, spec=replace(plan.spec, risers=(riser,))))
    shown = legend_view(views, 180.0)
    assert shown is not None
    seen: dict[tuple[object, ...], str] = {}
    for words, place in samples_of(shown).items():
        look = looks(shown, place)
        assert look, words
        assert look not in seen, (words, seen.get(look))
        seen[look] = words


THIN_LINES = (
    *("joist", "center", "reclined", "walkway", "drift", "diagonal", "clear", "door"),
    *("home_run", "chalk", "link", "extension"),
)


@pytest.mark.published(
    source="a reader tells lines apart by weight, or by how long ink and gaps are: no source",
    standing="common practice",
)
@pytest.mark.parametrize(("one", "other"), tuple(combinations(THIN_LINES, 2)))
def test_broken_lines_are_told_apart_at_arm_s_length(one: str, other: str):
    first, second = layer(one), layer(other)
    unlike = len(first.dash_mm) != len(second.dash_mm)
    sizes = [(first.weight_mm, second.weight_mm)]
    if not unlike:
        sizes += list(zip(first.dash_mm[:2], second.dash_mm[:2], strict=True))
    assert unlike or max(max(pair) / min(pair) for pair in sizes) >= 1.5


def samples_of(view: View) -> dict[str, tuple[float, float]]:
    """The words of a legend, and where the middle of each sample stands. [mm]"""
    per, left, back = 1000 / view.scale, view.bounds.left_m, view.bounds.back_m
    texts = [item for item in view.items if isinstance(item, Text) and item.anchor == "lm"]
    return {
        text.words: ((text.at[0] - left) * per - 10.0, (text.at[1] - back) * per) for text in texts
    }


def looks(view: View, place: tuple[float, float]) -> tuple[object, ...]:
    """What a sample is made of: weight, dashes and shape of each stroke, about its middle."""
    found = []
    for stroke in lowered(view):
        if not isinstance(stroke, Stroke):
            continue
        points = [(x - place[0], y - place[1]) for x, y in stroke.points_mm]
        if all(abs(x) < 8.0 and abs(y) < 3.4 for x, y in points):
            shape = tuple((round(x, 2), round(y, 2)) for x, y in points)
            found.append((stroke.weight_mm, stroke.dash_mm, stroke.filled, shape))
    return tuple(sorted(found))
