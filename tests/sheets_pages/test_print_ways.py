"""The way of each cord in words, with measures that add up."""

import math
import re
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
import strategies
from laws import law, planned
from page_words import table, words
from sample_plan import sample_plan
from support import NEC, inch, make_outlet, make_riser, make_row, make_spec

from powerplan.model.plan import Cord, Plan
from powerplan.model.spec import Wall
from powerplan.planning.pipeline import make_plan
from powerplan.sheets.off_walls import to_finish
from powerplan.sheets.pages.print_cords import cords_sheet
from powerplan.sheets.pages.print_places import place_words
from powerplan.sheets.pages.print_rows import row_of, set_rows
from powerplan.sheets.pages.print_sums import Leg, added_up
from powerplan.sheets.pages.print_told import places_of
from powerplan.sheets.pages.print_ways import stretches, way_text

EIGHTH_M, MILLIMETER_M = inch("1/8"), 0.001


def read_m(words: str) -> float:
    """A printed length, read by arithmetic of its own."""
    if words.endswith(" mm"):
        return float(words[:-3]) / 1000
    found = re.fullmatch(r"(?:(\d+) ft ?)?(?:(?:(\d+) )?(?:(\d+)/(\d+) )?in|(?:(\d+) )in)?", words)
    assert found, words
    feet, whole, part, of, _ = found.groups()
    inches = Fraction(int(feet or 0) * 12 + int(whole or 0))
    inches += Fraction(int(part), int(of)) if part else 0
    return inch(inches)


LENGTH = r"(?:\d+ ft(?: \d+(?: \d+/\d+)? in)?|\d+(?: \d+/\d+)? in|\d+/\d+ in|\d+ mm)"


def measures_m(way: str) -> list[float]:
    """The measure of each piece of a way, the first of what stands between semicolons."""
    first = re.sub(
        r"^from (?:.*?)(?= (?:down|up|left|right|forward|back|toward|slanting) )", "", way
    )
    pieces = first.split("; ")
    found = [re.search(LENGTH, piece) for piece in pieces]
    assert all(found), way
    return [read_m(one.group()) for one in found if one]


def check(plan: Plan) -> None:
    """The printed measures of each row add up to a hair, whatever was rounded."""
    plan = to_finish(plan)
    places = places_of(plan)
    rows = places.rows
    step_m = MILLIMETER_M if plan.spec.project.units == "mm" else EIGHTH_M
    for cord in plan.cords:
        row = row_of(cord, rows, plan)
        pieces = stretches(cord, row, places)
        assert sum(piece.length_m for piece in pieces) == pytest.approx(cord.length_m, abs=2e-5)
        way = way_text(cord, row, places)
        if not pieces:
            continue
        measures = measures_m(way)
        assert len(measures) == len(pieces)
        # What is printed of the whole is its true length to the nearest mark.
        assert sum(measures) == pytest.approx(cord.length_m, abs=step_m / 2 + 1e-6)
        # Each end of a piece is told at a mark of the tape, up to two marks off each way where it
        # is rounded off hatched floor; a slanting piece may change by sqrt(2) of that.
        for measure, piece in zip(measures, pieces, strict=True):
            assert measure == pytest.approx(piece.length_m, abs=6 * step_m)
    if plan.cords and plan.decision.exit_code != 3:
        page = cords_sheet(plan, ())
        bags = table(page, "Cord bags")
        assert bags.head[5].startswith("its way")
        assert all(line[5].startswith("from ") for line in bags.rows)
        coils = [p for p in page.parts if getattr(p, "caption", "").startswith("Where spare cord")]
        coiled = {line[0].partition(" (")[0]: line[1] for one in coils for line in one.rows}
        for line in bags.rows:
            check_row(line, coiled.get(line[1]))


def check_row(line: tuple[str, ...], coiled: str | None) -> None:
    """One row of the table of cord bags: the way is what lies, that and what is left over are the
    cord, and what goes to the coil and back and lies in it is what is left over."""
    whole, lies = (re.findall(LENGTH, line[column])[0] for column in (4, 6))
    measures = measures_m(line[5]) if " straight to " not in line[5] else [0.0]
    assert sum(measures) == pytest.approx(read_m(lies), abs=1e-9)
    left = 0.0 if line[7] == "none" else read_m(re.findall(LENGTH, line[7])[0])
    assert read_m(lies) + left == pytest.approx(read_m(whole), abs=1e-9)
    there = re.search(rf"({LENGTH}) to the coil, ({LENGTH}) back, ({LENGTH}) of it", line[7])
    if there:
        assert sum(map(read_m, there.groups())) == pytest.approx(left, abs=1e-9)
        assert coiled == there[3]
    elif coiled is not None:
        assert read_m(coiled) == pytest.approx(left, abs=1e-9)


@law(strategies.rooms(), usual=7, many=150)
def test_the_measures_of_a_way_add_up_to_all_that_lies(spec):
    check(planned(spec))


def from_wall(**changes: object) -> Plan:
    outlet = make_outlet(wall=Wall.BACK, x_m=inch(100), height_m=inch(16))
    usual = {"rows": (make_row(seats=1),), "outlets": (outlet,)}
    return make_plan(make_spec(**{**usual, **changes}), NEC, "0" * 64)


def moved(plan: Plan, *points: tuple[float, float], rises: float = 0.0) -> Cord:
    """The first cord of a plan on a way in inches."""
    path = tuple((inch(x), inch(y)) for x, y in points)
    level_m = sum(math.dist(*piece) for piece in pairwise(path))
    down_m = plan.spec.outlets[0].height_m if plan.spec.outlets else 0.0
    length_m = level_m + down_m + inch(rises)
    changes = {"path_m": path, "rises_m": inch(rises), "length_m": length_m}
    return replace(plan.cords[0], kind="own", to="A1", **changes)


def test_a_way_goes_down_the_wall_along_it_and_forward_to_the_inlet():
    plan = from_wall()
    (row,) = set_rows(plan)
    cord = moved(plan, (100, 0), (120, 0), (120, 25))
    # The line is 18 in off the wall, the chair's middle at 120 in.
    assert way_text(cord, row, places_of(plan)) == (
        "from outlet W1 down 1 ft 4 in to the floor; right 1 ft 8 in along the back wall, to "
        "A1's middle; forward 2 ft 1 in, to A1's inlet"
    )


def test_a_bend_is_told_from_the_line_and_from_a_chair_s_mark():
    plan = from_wall()
    (row,) = set_rows(plan)
    assert place_words((inch(114), inch(12)), row, places_of(plan)) == (
        "6 in behind the line, 6 in left of A1's middle"
    )
    assert place_words((inch(120), inch(22)), row, places_of(plan)) == (
        "4 in ahead of the line, at A1's middle"
    )
    assert (
        place_words((inch(10), inch(18)), row, places_of(plan))
        == "on the line, 10 in from the left wall"
    )
    assert place_words((inch(230), inch(100)), row, places_of(plan)) == (
        "7 ft 2 in from the screen wall, 10 in from the right wall"
    )


def test_the_edge_of_a_riser_is_told_where_it_is_climbed():
    riser = make_riser(60, 0, 180, 90)
    plan = from_wall(risers=(riser,))
    (row,) = set_rows(plan)
    cord = replace(moved(plan, (40, 10), (120, 10), (120, 25)), from_="W9")
    cord = replace(cord, length_m=inch(80 + 15) + riser.height_m)
    high = riser.height_m / inch(1)
    assert way_text(cord, row, places_of(plan)) == (
        f"from W9 right 1 ft 8 in, to 5 ft from the left wall; up {high:.0f} in onto riser rear; "
        "right 5 ft, to A1's middle; forward 1 ft 3 in, to A1's inlet"
    )


def test_a_cord_that_ends_where_it_starts_has_no_way():
    plan = sample_plan()
    (row,) = set_rows(plan)
    end = plan.cords[0].path_m[-1]
    cord = replace(plan.cords[0], path_m=(end, end))
    assert way_text(cord, row, places_of(plan)) == "from box A2 straight to A1's inlet"


def test_what_is_told_of_a_piece_is_the_difference_of_what_is_told_of_its_ends():
    # A1's middle is at 120 in. 110.07 in reads as 110 1/8 in on a tape and 99.94 in as 100 in:
    # 9 7/8 in and 20 in from the middle, so the piece between is told as 10 1/8 in. The whole is
    # 10.13 + 15 in, on the tape 25 1/8 in.
    plan = from_wall()
    (row,) = set_rows(plan)
    cord = replace(moved(plan, (110.07, 10), (99.94, 10), (99.94, 25)), from_="W9")
    cord = replace(cord, length_m=inch("25.13"))
    assert place_words(cord.path_m[0], row, places_of(plan)) == (
        "8 in behind the line, 9 7/8 in left of A1's middle"
    )
    assert way_text(cord, row, places_of(plan)).startswith(
        "from W9 left 10 1/8 in, to 1 ft 8 in left of A1's middle; forward 1 ft 3 in"
    )


def test_a_slanting_piece_gives_way_so_that_the_pieces_are_the_whole():
    # 3.06 + 10 + 3.06 = 16.12 in, on the tape 16 1/8 in; each slanting piece alone is nearest to
    # 3 in, and one of the two is told as 3 1/8 in. The straight one stays between its places.
    slanting, straight = Leg(inch("3.06"), inch("3.06"), True), Leg(inch(10), inch(10), False)
    told = added_up((slanting, straight, slanting), inch("16.125"), "ft-in")
    assert sorted(told) == [pytest.approx(inch(n)) for n in ("3", "3.125", "10")]
    assert told[1] == pytest.approx(inch(10))


def test_hatched_floor_counts_before_a_place_that_is_rounded():
    plan = make_plan(make_spec(outlets=(), circuits=()), NEC, "0" * 64)
    (held, *_) = [one for one in plan.findings if one.rule == "cord-clear-of-mechanism"]
    # what the rule asks of every way is asked of the tape too: 25 mm, and so 1 in
    assert held.limit == pytest.approx(0.025)
    told = "where a cord passes hatched floor, measure there that it lies 1 in off it or more."
    assert told in words(cords_sheet(plan, ()))
