"""Places are rounded off what is kept off, and taped from what is chalked."""

import math

import pytest
from support import NEC, inch, make_row, make_spec

from powerplan.model.seats import Curve
from powerplan.planning.pipeline import make_plan
from powerplan.sheets.keep_off import Body, Kept, Side, key_of, sides_of
from powerplan.sheets.pages.print_rows import set_rows
from powerplan.sheets.pages.print_swings import taped
from powerplan.sheets.pages.print_tape import told_at
from powerplan.sheets.pages.print_told import letter


def here(x: float, y: float) -> tuple[float, float]:
    return (x, y)


def test_a_place_goes_to_the_nearest_mark_where_nothing_is_near():
    told = told_at((inch("10.07"), inch("5.04")), here, (), "ft-in")
    assert told.lengths_m == (pytest.approx(inch("10.125")), pytest.approx(inch(5)))
    assert told.safe


def test_a_place_goes_off_what_is_near_though_a_mark_toward_it_is_nearer():
    # 5.04 in is nearest to 5 in; with hatched floor behind it, it is told as 5 1/8 in
    ahead = Side((0.0, 1.0), inch("5.04"), inch("5.04"))
    told = told_at((inch(10), inch("5.04")), here, (ahead,), "ft-in")
    assert told.at == (pytest.approx(inch(10)), pytest.approx(inch("5.125")))


def test_in_a_narrow_passage_a_place_goes_to_a_part_of_a_mark():
    # between 5.02 and 5.07 in lies no eighth of an inch, but one sixteenth: 5.0625 in
    between = (
        Side((0.0, 1.0), inch("5.02"), inch("5.02")),
        Side((0.0, -1.0), -inch("5.07"), -inch("5.07")),
    )
    told = told_at((inch(10), inch("5.045")), here, between, "ft-in")
    assert told.at[1] == pytest.approx(5.0625 * 0.0254)
    assert told.safe


def test_a_passage_narrower_than_marks_of_a_tape_is_said():
    between = (Side((0.0, 1.0), 0.0502, 0.0502), Side((0.0, -1.0), -0.0503, -0.0503))
    assert not told_at((0.1, 0.05025), here, between, "mm").safe


def test_what_is_far_off_asks_for_no_side_and_what_is_near_for_what_it_was():
    plan = make_plan(make_spec(outlets=(), circuits=()), NEC, "0" * 64)
    piece = Body(((0.0, 0.0), (1.0, 0.0)), ((0.0, 0.0), (1.0, 0.0)))
    floor = ((0.0, 0.5), (1.0, 0.5), (1.0, 0.9), (0.0, 0.9))
    assert sides_of([piece], [Kept(floor, 0.03, 0.03)], plan) == {}
    near = tuple((x, y - 0.46) for x, y in floor)  # 40 mm ahead of the piece
    sides = sides_of([piece], [Kept(near, 0.03, 0.03)], plan)
    for end in piece.told:
        # it may come 10 mm nearer, to the 30 mm that are asked
        (side, *_) = [one for one in sides[key_of(end)] if one.way[1] == pytest.approx(-1.0)]
        assert side.over_m(end) == pytest.approx(0.01)


@pytest.mark.published(source="Pythagoras, written out", standing="derived")
def test_two_tapes_meet_as_far_from_both_corners_as_pythagoras_says():
    # The base is 37 in wide; 30 in behind its middle is sqrt(18.5^2 + 30^2) from both corners.
    row = make_row(
        seats=1, headrest_to_wall_m=inch(60), curve=Curve(radius_m=inch(200), touch="back")
    )
    plan = make_plan(make_spec(rows=(row,), outlets=(), circuits=()), NEC, "0" * 64)
    (seen,) = set_rows(plan)
    spot = seen.stands[0].at(0.0, seen.stands[0].rear_m - inch(30))
    told = taped(spot, seen, (), plan)
    # 35.246 in, to the nearest eighth 35 1/4 in
    assert math.hypot(18.5, 30) == pytest.approx(35.246, abs=1e-3)
    assert told.first == "2 ft 11 1/4 in from A1's left rear corner"
    assert told.second == "2 ft 11 1/4 in from A1's right rear corner, behind both"


def test_letters_go_on_after_the_last_and_leave_out_what_looks_like_a_figure():
    names = [letter(number) for number in range(60)]
    assert len(set(names)) == 60
    assert names[:3] == ["a", "b", "c"]
    assert names[23:25] == ["aa", "ab"]
    assert not {"i", "l", "o"} & set("".join(names))
