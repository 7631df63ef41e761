"""The installers' drawings: cords with both ends in sight, rows as large as paper lets them be."""

from dataclasses import replace

import pytest
import strategies
from drawn import area_of, dimensions_of, outside, overlapping, spoken, true_m, words_of
from laws import cases, law, planned
from row_rooms import row_rooms
from sample_plan import sample_plan
from shapely.geometry import LineString, Point, Polygon
from support import NEC, inch, make_chain, make_chair, make_riser, make_row, make_spec

from powerplan.model.plan import NOT_POSSIBLE, Plan
from powerplan.planning.pipeline import make_plan
from powerplan.sheets.drawings.rows import cord_views
from powerplan.sheets.scene import Line, View

UPRIGHT_MM, TURNED_MM = (190.0, 190.0), (254.0, 130.0)
CORDS = ("cord", "link", "extension")


def on_paper(view: View, point: tuple[float, float]) -> Point:
    per = 1000 / view.scale
    return Point((point[0] - view.bounds.left_m) * per, (point[1] - view.bounds.back_m) * per)


def hidden_ends(view: View) -> list[str]:
    """Words that lie on the end of a cord."""
    lines = [i for i in view.items if isinstance(i, Line) and i.layer in CORDS]
    ends = [on_paper(view, end) for line in lines for end in (line.points[0], line.points[-1])]
    return [w.words for w in words_of(view) if any(area_of(w).contains(end) for end in ends)]


@law(strategies.rooms(), usual=7, many=150)
def test_no_words_hide_the_end_of_a_cord(spec):
    for view in cord_views(planned(spec), UPRIGHT_MM, TURNED_MM):
        assert hidden_ends(view) == []


@law(row_rooms(), usual=3, many=60)
def test_in_rows_of_every_kind_words_hide_no_cord_and_no_other_words(spec):
    for view in cord_views(planned(spec), UPRIGHT_MM, TURNED_MM):
        assert hidden_ends(view) == []
        assert overlapping(view) == []
        assert outside(view) == []


@pytest.mark.parametrize("seats", cases([(5,), (12,)], (12, 12, 12, 12, 12)))
def test_no_words_hide_the_end_of_a_cord_in_long_rows(seats):
    for view in cord_views(sample_plan(seats), UPRIGHT_MM, TURNED_MM):
        assert hidden_ends(view) == []


def wide(seats: int) -> Plan:
    return make_plan(make_spec(rows=(make_row(seats=seats),)), NEC, "0" * 64)


def test_a_row_that_fits_the_turned_paper_is_drawn_at_the_larger_scale():
    # Five seats and six arms, with the words beside them, are more than 190 mm at 1/2 in to the
    # foot.
    (upright,) = cord_views(wide(5), UPRIGHT_MM)
    (either,) = cord_views(wide(5), UPRIGHT_MM, TURNED_MM)
    assert (upright.scale, either.scale) == (48, 24)
    assert either.width_mm <= TURNED_MM[0]
    assert either.height_mm <= TURNED_MM[1]


def test_a_row_too_long_for_the_paper_with_its_measures_is_drawn_smaller_and_keeps_within_it():
    # Six seats and seven arms are 6 x 23 + 7 x 7 = 187 in, 198 mm at 1/2 in to the foot. The
    # measures belong to it: the chalk line is measured at the left wall, and the words at the right
    # end tell how far that is from there. With both it is more than the paper's 254 mm.
    (view,) = cord_views(wide(6), UPRIGHT_MM, TURNED_MM)
    assert view.scale == 32
    assert view.width_mm <= TURNED_MM[0]
    assert view.height_mm <= TURNED_MM[1]
    assert hidden_ends(view) == []


def test_a_riser_is_named_where_no_pinch_zone_is_hatched():
    spec = make_spec(rows=(make_row(seats=3),), risers=(make_riser(0, 0, 240, 100),))
    plan = planned(spec)
    (view,) = cord_views(plan, UPRIGHT_MM, TURNED_MM)
    (name,) = (area_of(w) for w in words_of(view) if w.words.startswith("riser rear, "))
    zones = (zone for zone in plan.zones if zone.kind == "pinch")
    for zone in zones:
        area = Polygon([on_paper(view, point) for point in zone.outline_m])
        assert not area.intersects(name)


def test_a_coil_is_drawn_as_large_as_it_lies():
    base = sample_plan((5,))
    cord = replace(base.cords[0], coil_m=(inch(9), inch(4)))
    (view,) = cord_views(replace(base, cords=(cord,)), UPRIGHT_MM, TURNED_MM)
    assert view.scale == 24
    ovals = [i for i in view.items if isinstance(i, Line) and i.layer == "spare"]
    xs, ys = zip(*ovals[0].points, strict=True)
    assert max(xs) - min(xs) == pytest.approx(inch(9))
    assert max(ys) - min(ys) == pytest.approx(inch(4))
    assert (max(xs) + min(xs)) / 2 == pytest.approx(cord.park_m[0])
    assert "coil 1" in spoken(view)


def test_where_it_is_not_possible_every_row_says_not_to_set_it_out():
    plan = sample_plan((5, 4))
    plan = replace(plan, decision=replace(plan.decision, verdict=NOT_POSSIBLE), cords=(), boxes=())
    _, *rows = cord_views(plan, UPRIGHT_MM, TURNED_MM)
    assert len(rows) == 2
    for view in rows:
        assert {"NOT POSSIBLE AS DRAWN", "DO NOT SET OUT"} <= set(spoken(view))
        assert "DO NOT SET OUT" in view.title


def test_a_metric_row_takes_the_scale_between_where_the_largest_does_not_fit():
    # 3.55 m of row with what stands beside it: at 1:20 it is 178 mm and more with the words.
    spec = make_spec(rows=(make_row(seats=4, headrest_to_wall_m=inch(20)),))
    spec = replace(spec, project=replace(spec.project, units="mm"))
    plan = make_plan(spec, NEC, "0" * 64)
    (view,) = cord_views(plan, (185.0, 200.0))
    assert view.scale == 25


def test_the_slack_of_a_link_has_its_sign_on_its_own_way():
    chair = make_chair(chain=make_chain(), arm_gap_m=inch("3/2"))
    plan = make_plan(make_spec(chairs=(chair,), outlets=()), NEC, "0" * 64)
    (view,) = cord_views(plan, UPRIGHT_MM, TURNED_MM)
    waves = [i for i in view.items if isinstance(i, Line) and i.layer == "slack"]
    links = [cord for cord in plan.cords if cord.kind == "link"]
    assert links
    assert len(waves) == len(links)
    for link in links:
        path = LineString(link.path_m)
        middles = [Point(wave.points[len(wave.points) // 2]) for wave in waves]
        assert min(path.distance(middle) for middle in middles) < 1e-6


def test_where_a_step_lies_between_a_line_is_measured_from_the_riser_it_stands_on():
    # The riser begins 30 in from the left wall; two seats and three arms are 67 in, in the middle
    # of 240 in: from 86 1/2 in to 153 1/2 in, 56 1/2 in and 123 1/2 in from the riser's edge.
    spec = make_spec(rows=(make_row(seats=2),), risers=(make_riser(30, 0, 180, 100),))
    (view,) = cord_views(make_plan(spec, NEC, "0" * 64), (250.0, 180.0))
    ends = [item for item in dimensions_of(view) if item.along == "x"]
    assert {item.words for item in ends} == {"4 ft 8 1/2 in", "10 ft 3 1/2 in"}
    assert {round(true_m(item), 6) for item in ends} == {inch("113/2"), inch("247/2")}


def test_the_line_ahead_of_a_riser_is_also_told_from_its_edge():
    # The riser ends at 54 in; headrests at 130 in, the line 4 in ahead of them: 80 in away.
    row = make_row(seats=2, headrest_to_wall_m=inch(130))
    spec = make_spec(rows=(row,), risers=(make_riser(0, 0, 240, 54),), outlets=())
    spec = replace(spec, room=replace(spec.room, depth_m=inch(240)))
    (view,) = cord_views(make_plan(spec, NEC, "0" * 64), (190.0, 130.0))
    assert {"or 6 ft 8 in", "from front edge of riser rear"} <= set(spoken(view))
