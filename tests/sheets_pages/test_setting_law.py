"""From the printed numbers alone every base is found again where the plan has it."""

import math
import re
from dataclasses import replace

import pytest
from any_rooms import any_rooms
from hypothesis import given, settings
from laws import held_over
from row_rooms import row_rooms
from set_out import (
    LENGTH,
    corners_of,
    ends_of,
    from_faces,
    off_m,
    read_m,
    said,
    seated_plan,
    tables,
    true_corners,
)
from support import inch, make_chair, make_riser, make_row, make_spec

from powerplan.model.plan import Plan
from powerplan.model.seats import Curve, Piece, TableKind
from powerplan.model.spec import PlanSpec
from powerplan.sheets.pages.print_rows import set_rows
from powerplan.sheets.pages.print_setting import _or_on
from powerplan.sheets.placed import is_plain


def check(spec: PlanSpec) -> None:
    plan = seated_plan(spec)
    step_m = 0.001 if spec.project.units in ("mm", "m") else inch("1/8")
    for row in spec.rows:
        if is_plain(row):
            check_plain(plan, row.id, step_m)
            continue
        found, true = corners_of(plan, row, step_m), true_corners(plan, row)
        assert set(true) <= set(found)
        for name, corners in true.items():
            for told, corner in zip(found[name], corners, strict=True):
                assert math.dist(told.at, corner) <= told.within_m, (name, told, corner)
        check_marks(plan, row.id, step_m)
        if row.curve is not None:
            check_string(plan, row.id, step_m)


def check_plain(plan: Plan, row: str, step_m: float) -> None:
    """The middles on a line square to the room, counted from its left end and from the wall."""
    middles = tables(plan)["The middle of"]
    rows = {line[0]: line for line in middles.rows}
    first = min((c for c in plan.chairs if c.row == row), key=lambda chair: chair.seat)
    kind = plan.spec.chair(plan.spec.row(row).chair)
    start_m = first.x_m - kind.seat_width_m / 2 - kind.arm_width_m
    if middles.head[1] != "from the line's left end":
        start_m = 0.0
    for chair in plan.chairs:
        if chair.row == row:
            told = read_m(rows[chair.id][1])
            assert told == pytest.approx(chair.x_m - start_m, abs=step_m / 2 + 1e-5)


def check_marks(plan: Plan, row: str, step_m: float) -> None:
    """On an arc, chords agree with offsets from the straight line, and marks are on a circle."""
    if plan.spec.row(row).curve is None:
        return
    lines = [line for line in tables(plan)["The chalk arc:"].rows if line[0] == row]
    spots = [(read_m(line[2]), off_m(line[3])) for line in lines]
    radius_m, long_m = plan.spec.row(row).curve.radius_m, spots[-1][0]
    for n, line in enumerate(lines[1:], 1):
        chord = math.dist(spots[n - 1], spots[n])
        assert chord == pytest.approx(read_m(line[4]), abs=2.0 * step_m)
        assert math.dist(spots[0], spots[n]) == pytest.approx(read_m(line[5]), abs=2.0 * step_m)
        # the offset of a chord's station: sqrt(R^2 - (x - L/2)^2) - sqrt(R^2 - (L/2)^2)
        along, off = spots[n]
        deep = math.sqrt(radius_m**2 - (along - long_m / 2) ** 2)
        deep -= math.sqrt(radius_m**2 - (long_m / 2) ** 2)
        assert -off == pytest.approx(deep, abs=2.0 * step_m)


def check_string(plan: Plan, row: str, step_m: float) -> None:
    """Where a string can be held, it is as long to the two ends of the arc as is said."""
    told = re.search(
        rf"Row {row}: .*?Its middle is (.+?) and (.+?): a string of ({LENGTH})", said(plan)
    )
    if told is None:
        return
    (set_row,) = [one for one in set_rows(plan) if one.id == row]
    across, deep = (re.sub("^on the ", "0 in from the ", told[n]) for n in (1, 2))
    middle = from_faces((across, deep), plan, set_row.chalk.middle)
    left, right, _ = ends_of(plan, plan.spec.row(row))
    for end in (left, right):
        # both places are out by sqrt(2) half steps at most, the length by half a step
        assert math.dist(middle, end) == pytest.approx(read_m(told[3]), abs=2.0 * step_m)


SET_OUT = pytest.mark.published(
    source="a place from two walls at right angles; a place along a line and square off it; "
    "the offset of a station on a circle's chord, sqrt(R^2 - x^2) - sqrt(R^2 - c^2)",
    standing="derived",
)


@SET_OUT
@held_over(40)
@given(row_rooms())
def test_every_base_of_a_mixed_turned_or_curved_row_is_found_from_the_page(spec):
    check(spec)


@SET_OUT
@held_over(20)
@given(any_rooms())
def test_every_base_in_rooms_with_corners_and_risers_is_found_from_the_page(spec):
    check(spec)


@pytest.mark.slow
@settings(max_examples=600)
@given(any_rooms())
def test_every_base_of_many_rooms_is_found_from_the_page(spec):
    check(spec)


def turned_by_hand() -> PlanSpec:
    """Two seats turned 30 degrees to the left about 50 in off the wall, in the middle of 240 in."""
    row = make_row(seats=2, headrest_to_wall_m=inch(50), angle_rad=math.radians(30))
    return make_spec(rows=(row,))


@pytest.mark.published(source="sine and cosine of 30 degrees, written out", standing="derived")
def test_a_turned_line_is_where_it_was_worked_out_by_hand():
    # Two seats of 23 in and three arms of 7 in: 67 in, 33 1/2 in to each side. The line is 4 in
    # ahead of the headrests. Its left end is at (120 - 33.5 cos 30 - 4 sin 30,
    # 50 - 33.5 sin 30 + 4 cos 30) = (88.988, 36.714), its right end at (147.012, 70.214): 92.988
    # from the right wall.
    left, right = tables(seated_plan(turned_by_hand()))["The two ends"].rows
    assert left[:3] == ("A", "left", "7 ft 5 in from the left wall")
    assert left[3:] == ("3 ft 0 3/4 in from the back wall", "5 ft 7 in")
    assert right[:3] == ("A", "right", "7 ft 9 in from the right wall")
    assert right[3:] == ("5 ft 10 1/4 in from the back wall", "5 ft 7 in")
    along = tables(seated_plan(turned_by_hand()))["What stands along"].rows
    assert along[0] == ("A", "A1", "club", "0 in", "1 ft 6 1/2 in", "2 ft 9 1/2 in", "on it")
    assert along[1] == ("A", "A2", "club", "2 ft 9 1/2 in", "4 ft 0 1/2 in", "5 ft 7 in", "on it")


def test_a_table_has_its_place_along_the_line_and_its_rear_off_it():
    # A console of 10 in between two seats of 23 in with two arms of 7 in each; its rear is 2 in
    # ahead of the bases.
    club = make_chair()
    console = TableKind(
        id="console", width_m=inch(10), rear_m=inch(6), front_m=inch(30), under_m=None
    )
    arm = Piece(what="arm", kind="club", width_m=inch(7))
    seat = Piece(what="seat", kind="club", width_m=inch(23))
    table = Piece(what="table", kind="console", width_m=inch(10))
    row = make_row(seats=2, pieces=(arm, seat, arm, table, arm, seat, arm))
    plan = seated_plan(make_spec(chairs=(club,), tables=(console,), rows=(row,)))
    along = tables(plan)["What stands along"].rows
    assert along == (
        ("A", "A1", "club", "0 in", "1 ft 6 1/2 in", "3 ft 1 in", "on it"),
        ("A", "console", "console", "3 ft 1 in", "3 ft 6 in", "3 ft 11 in", "2 in ahead"),
        ("A", "A2", "club", "3 ft 11 in", "5 ft 5 1/2 in", "7 ft", "on it"),
    )
    # 84 in in the middle of 240 in: from 78 in to 162 in.
    assert tables(plan)["The chalk line"].rows[0][3:] == ("6 ft 6 in", "13 ft 6 in")


def test_a_line_on_the_front_edge_of_a_riser_is_taped_on_the_floor_of_its_chairs():
    # The riser ends at 54 in; headrests at 50 in, bases 4 in ahead: the line lies on the edge.
    row = make_row(seats=2, headrest_to_wall_m=inch(50))
    spec = make_spec(rows=(row,), risers=(make_riser(0, 0, 240, 54),))
    line = tables(seated_plan(spec))["The chalk line"].rows[0]
    assert line[2:4] == ("0 in from the front edge of riser rear", "11 ft from the screen wall")


def test_the_middle_of_an_arc_is_told_where_a_string_can_be_held_there():
    row = make_row(seats=3, curve=Curve(radius_m=inch(110), touch="back"))
    spec = make_spec(rows=(row,))
    # Headrests 14 in off the wall, bases 4 in ahead, 110 in to the middle: 128 in from the back
    # wall, 186 - 128 = 58 in from the screen wall; 120 in from either side.
    told = said(seated_plan(spec))
    assert "Its middle is 10 ft from the left wall and 4 ft 10 in from the screen wall" in told
    far = replace(spec, rows=(replace(row, curve=Curve(radius_m=inch(200), touch="back")),))
    assert "no string reaches from there" in said(seated_plan(far))


def test_a_middle_that_stands_at_a_wall_is_on_it():
    assert _or_on("0 in from the screen wall") == "on the screen wall"
    assert _or_on("0.000 m from the screen wall") == "on the screen wall"
    assert _or_on("10 in from the screen wall") == "10 in from the screen wall"
    assert _or_on("0 1/2 in from the screen wall") == "0 1/2 in from the screen wall"
