"""Page 3: installers set, lay and test from it alone."""

from dataclasses import replace

import pytest
from page_words import A_VIEW, listed, table, words
from sample_plan import sample_plan
from support import NEC, inch, make_chain, make_chair, make_spec

from powerplan.model.plan import NOT_POSSIBLE, Plan
from powerplan.planning.pipeline import make_plan
from powerplan.sheets.pages.print_cords import cords_sheet
from powerplan.sheets.pages.print_rows import outward, seams, set_rows


def chained() -> Plan:
    """Five chairs, chained from one floor box or outlet."""
    chair = make_chair(chain=make_chain(), arm_gap_m=inch("3/2"))
    return make_plan(make_spec(chairs=(chair,)), NEC, "0" * 64)


@pytest.fixture(scope="module")
def plan() -> Plan:
    return chained()


def test_the_chalk_line_is_where_the_bases_end(plan: Plan):
    # Headrests 14 in off the wall, bases 4 in ahead of them: 18 in. Five seats of 23 in and six
    # arms of 7 in are 157 in, in the middle of 240 in: from 41 1/2 in to 198 1/2 in.
    row = table(cords_sheet(plan, (A_VIEW,)), "The chalk line").rows[0]
    assert row == ("A", "1 ft 6 in", "3 ft 5 1/2 in", "16 ft 6 1/2 in")


def test_every_chair_has_its_mark_on_the_line(plan: Plan):
    rows = table(cords_sheet(plan, (A_VIEW,)), "The middle of each chair").rows
    assert [row[0] for row in rows] == ["A1", "A2", "A3", "A4", "A5"]
    assert rows[2][1:] == ("10 ft", "on it")
    assert rows[1][1:] == ("7 ft 6 in", "2 ft 6 in left")


@pytest.mark.parametrize(
    ("seats", "order"),
    [(1, ["A1"]), (4, ["A2", "A3", "A1", "A4"]), (5, ["A3", "A2", "A4", "A1", "A5"])],
)
def test_chairs_are_set_from_the_middle_outward(seats: int, order: list[str]):
    (row,) = set_rows(sample_plan((seats,)))
    assert [chair.id for chair in outward(row)] == order


def test_a_cord_that_passes_between_two_seats_is_laid_before_they_are_clipped(plan: Plan):
    (row,) = set_rows(plan)
    passing = [(left, right, cords) for left, right, cords in seams(row, plan.cords) if cords]
    assert passing
    steps = " / ".join(listed(cords_sheet(plan, (A_VIEW,)), "Order of work"))
    for left, right, cords in passing:
        set_at = [steps.index(f"Set {name} on its mark") for name in (left, right)]
        for name in cords:
            assert steps.index(f"{name}") < max(set_at)


def test_a_cord_behind_the_row_does_not_pass_between_seats():
    plan = sample_plan()
    (row,) = set_rows(plan)
    assert all(cords == () for _, _, cords in seams(row, plan.cords))


def test_every_cord_is_in_one_bag_and_is_laid_once_in_the_order_of_work(plan: Plan):
    page = cords_sheet(plan, (A_VIEW,))
    tags = [row[1] for row in table(page, "Cord bags").rows]
    assert sorted(tags) == sorted(cord.id for cord in plan.cords)
    order = [f"{line} " for line in listed(page, "Order of work")]
    for cord in plan.cords:
        marks = [f" {cord.id}{end}" for end in (" ", ".", ",")]
        assert sum(line.count(mark) for line in order for mark in marks) == 1


def test_the_left_over_of_a_cord_is_what_it_measures_less_its_way():
    plan = sample_plan()
    row = table(cords_sheet(plan, (A_VIEW,)), "Cord bags").rows[0]
    assert row[4:] == ("3 ft 4 in", "2 ft 8 in")


def test_every_chair_has_its_box_to_tick_in_the_test(plan: Plan):
    tests = listed(cords_sheet(plan, (A_VIEW,)), "The test, each chair loaded and both ways")
    assert [line.partition(":")[0] for line in tests] == [chair.id for chair in plan.chairs]


def test_cords_are_tied_only_to_the_fixed_frame(plan: Plan):
    assert "Cords are tied only to the chair's fixed frame." in words(cords_sheet(plan, ()))


def test_the_bag_of_an_extension_is_that_of_the_chair_it_serves():
    plan = sample_plan()
    first = replace(plan.cords[0], id="W1-W1+A1", kind="extension", from_="W1", to="W1+A1")
    own = replace(plan.cords[0], id="W1+A1-A1", from_="W1+A1", to="A1")
    rows = table(cords_sheet(replace(plan, cords=(first, own)), ()), "Cord bags").rows
    assert [row[0] for row in rows] == ["A1", "A1"]
    assert [row[3] for row in rows] == ["W1", "the extension cord"]


def test_nothing_is_laid_where_it_is_not_possible():
    plan = sample_plan()
    plan = replace(plan, decision=replace(plan.decision, verdict=NOT_POSSIBLE))
    page = cords_sheet(plan, ())
    assert len(page.parts) == 1
    assert "Nothing is marked" in words(page)


def test_spare_lead_is_parked_behind_its_chair_where_the_plan_says():
    plan = sample_plan()
    rows = table(cords_sheet(plan, ()), "Where spare lead is parked").rows
    assert len(rows) == len(plan.cords)
    assert rows[0] == ("box A2-A1", "A1", "5 ft", "1 ft", "2 ft 8 in")
    bare = replace(plan, cords=tuple(replace(cord, park_m=None) for cord in plan.cords))
    assert "parked" not in words(cords_sheet(bare, ()))
