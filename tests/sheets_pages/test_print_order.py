"""The order of work: what lies where, and what is plugged in, when a chair comes."""

from itertools import pairwise

import strategies
from laws import law, planned
from sample_plan import sample_plan
from support import inch, make_chain, make_chair, make_row, make_spec

from powerplan.model.plan import Plan
from powerplan.sheets.pages.print_order import turn_text, turns
from powerplan.sheets.pages.print_rows import outward, seams, set_rows
from powerplan.sheets.pages.print_tags import bag_of


def check(plan: Plan) -> None:
    laid_in: dict[str, str] = {}
    for row in set_rows(plan):
        order = turns(row, plan)
        assert [turn.chair for turn in order] == list(outward(row))
        number = {turn.chair.id: n for n, turn in enumerate(order)}
        laid = {cord.id: n for n, turn in enumerate(order) for cord in turn.cords}
        laid_in |= dict.fromkeys(laid, row.id)
        clipped = {pair: n for n, turn in enumerate(order) for pair in turn.clips}
        neighbors = [(left.id, right.id) for left, right in pairwise(row.chairs)]
        assert sorted(clipped) == sorted(neighbors)
        for cord in plan.cords:
            if cord.id not in laid:
                continue
            ends = {bag_of(cord, plan), *({cord.from_} if cord.kind == "link" else set())}
            # with its own chair, or with the later of the two that it joins
            assert laid[cord.id] == max(number[name] for name in ends)
        for pair, at in clipped.items():
            assert at >= max(number[name] for name in pair)
        for left, right, cords in seams(row, plan.cords):
            assert all(laid[name] <= clipped[left, right] for name in cords if name in laid)
        for n, turn in enumerate(order):
            for cord, over in zip(turn.cords, turn.over, strict=True):
                # what is drawn forward stands already and is clipped to nothing yet
                for name in over:
                    assert number[name] < n
                    assert all(at >= n for pair, at in clipped.items() if name in pair)
                text = turn_text(turn, row, plan)
                assert text.index("Lay cord") < text.index(f"Set {turn.chair.id} on its mark")
                if cord.kind != "extension":
                    assert f"{turn.chair.id}'s inlet" in text or cord.to != turn.chair.id
            assert turn_text(turn, row, plan).count("Lay cord") == len(turn.cords)
    assert sorted(laid_in) == sorted(cord.id for cord in plan.cords)


@law(strategies.rooms(), usual=20, many=150)
def test_every_cord_is_laid_with_its_chair_and_before_seats_are_clipped(spec):
    check(planned(spec))


def test_rows_of_a_whole_hall_keep_the_order():
    check(sample_plan((12,) * 5))


def chained(seats: int) -> Plan:
    chair = make_chair(chain=make_chain(), arm_gap_m=inch("3/2"))
    spec = make_spec(chairs=(chair,), rows=(make_row(seats=seats),), outlets=())
    return planned(spec)


def test_both_ends_of_each_cord_are_plugged_in_by_name():
    plan = chained(3)
    (row,) = set_rows(plan)
    steps = " ".join(turn_text(turn, row, plan) for turn in turns(row, plan))
    for cord in plan.cords:
        if cord.kind == "link":
            assert f"plug one end into {cord.from_}'s link socket, the other into" in steps
        else:
            assert f"plug the other into {cord.from_}" in steps
        assert f"{cord.to}'s inlet" in steps


def test_a_lead_to_a_box_under_a_chair_that_stands_says_what_to_do_with_that_chair():
    # The hand-made plan has its box under A2, and leads from it to A1, A2 and A3. A3 comes first
    # in a row of five, when the box is still open; A1 last but one, when A2 stands over it.
    plan = sample_plan()
    (row,) = set_rows(plan)
    told = {turn.chair.id: turn_text(turn, row, plan) for turn in turns(row, plan)}
    assert "into box A2, which is still open." in told["A3"]
    assert "into box A2, over which A2 then stands." in told["A2"]
    assert "A2 already stands there, not yet clipped: draw it forward" in told["A1"]
    assert "it may be fixed there" in told["A1"]
