"""The order of work: what lies where, and what is plugged in, when a chair comes."""

import math
from dataclasses import replace
from itertools import pairwise

import pytest
import strategies
from laws import law, planned
from loose_rooms import supply_spec
from page_words import words
from row_rooms import row_rooms
from sample_plan import sample_plan
from shapely.geometry import LineString, Polygon
from support import NEC, inch, make_chain, make_chair, make_row, make_spec

from powerplan.model.plan import Plan
from powerplan.planning.pipeline import make_plan
from powerplan.sheets.pages.print_cords import cords_sheet
from powerplan.sheets.pages.print_order import turns
from powerplan.sheets.pages.print_rows import outward, seams, set_rows
from powerplan.sheets.pages.print_steps import turn_text
from powerplan.sheets.pages.print_tags import bag_of, tag_numbers


def check(plan: Plan) -> None:
    laid_in: dict[str, str] = {}
    for row in set_rows(plan):
        order = turns(row, plan)
        assert [turn.stand for turn in order] == list(outward(row))
        number = {turn.stand.name: n for n, turn in enumerate(order)}
        laid = {cord.id: n for n, turn in enumerate(order) for cord in turn.cords}
        laid_in |= dict.fromkeys(laid, row.id)
        clipped = {pair: n for n, turn in enumerate(order) for pair in turn.clips}
        pairs = pairwise(row.stands)
        neighbors = [(left.name, right.name) for left, right in pairs if not left.free_right]
        assert sorted(clipped) == sorted(neighbors)
        for cord in plan.cords:
            if cord.id not in laid:
                continue
            ends = {bag_of(cord, plan), *({cord.from_} if cord.kind == "link" else set())}
            free = cord.kind in ("extension", "wall cord", "unit cord")
            if free or (cord.kind == "own" and cord.longer):
                # fixed to no chair: never later than its chair, and nothing stands over it yet
                assert laid[cord.id] <= min(number[name] for name in ends)
                assert order[laid[cord.id]].over[order[laid[cord.id]].cords.index(cord)] == ()
                continue
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
                text = turn_text(turn, row, plan, tag_numbers(plan))
                assert text.index("Lay cord") < text.index(f"Set {turn.stand.name} ")
                if cord.kind != "extension":
                    assert f"{turn.stand.name}'s inlet" in text or cord.to != turn.stand.name
            told = turn_text(turn, row, plan, tag_numbers(plan))
            assert told.count("Lay cord") == len(turn.cords)
    assert sorted(laid_in) == sorted(cord.id for cord in plan.cords)


@law(strategies.rooms(), usual=7, many=150)
def test_every_cord_is_laid_with_its_chair_and_before_seats_are_clipped(spec):
    check(planned(spec))


@law(row_rooms(), usual=4, many=60)
def test_the_order_holds_for_rows_that_are_mixed_turned_or_curved(spec):
    plan = planned(spec)
    check(plan)
    check_what_lies_under(plan)


def test_rows_of_a_whole_hall_keep_the_order():
    check(sample_plan((12,) * 5))


def chained(seats: int) -> Plan:
    chair = make_chair(chain=make_chain(), arm_gap_m=inch("3/2"))
    spec = make_spec(chairs=(chair,), rows=(make_row(seats=seats),), outlets=())
    return planned(spec)


def test_both_ends_of_each_cord_are_plugged_in_by_name():
    plan = chained(3)
    (row,) = set_rows(plan)
    steps = " ".join(turn_text(turn, row, plan, tag_numbers(plan)) for turn in turns(row, plan))
    for cord in plan.cords:
        if cord.kind == "link":
            assert f"plug one end into {cord.from_}'s link socket, the other into" in steps
        else:
            assert f"plug the other into {cord.from_}" in steps
        assert f"{cord.to}'s inlet" in steps


def test_a_lead_to_a_box_under_a_chair_that_stands_says_what_to_do_with_that_chair():
    # The hand-made plan has its box under A2, and leads from it to A1, A2 and A3. A3 comes first
    # in a row of five, when no chair stands over the box yet; A1 last but one, when A2 does.
    plan = sample_plan()
    (row,) = set_rows(plan)
    numbers = tag_numbers(plan)
    told = {one.stand.name: turn_text(one, row, plan, numbers) for one in turns(row, plan)}
    assert "into box A2 (no chair stands over it yet);" in told["A3"]
    assert "into box A2 (it will be under A2);" in told["A2"]
    assert "A2 already stands there, not yet clipped: move it straight ahead" in told["A1"]
    assert told["A1"].index("A2 already stands") < told["A1"].index("Lay cord 1 ")
    assert told["A1"].index("Lay cord 1 ") < told["A1"].index("Then A2 back onto the mark")
    assert "it may be fixed there" in told["A1"]


def swung(plan: Plan, angle_rad: float) -> Plan:
    """A plan of one row with its chairs and cords swung about the row's middle, room and all."""
    (row,) = plan.spec.rows
    middle = (row.center_x_m, row.headrest_to_wall_m)

    def about(point: tuple[float, float]) -> tuple[float, float]:
        x, y = point[0] - middle[0], point[1] - middle[1]
        sine, cosine = math.sin(angle_rad), math.cos(angle_rad)
        return (middle[0] + x * cosine - y * sine, middle[1] + x * sine + y * cosine)

    chairs = []
    for chair in plan.chairs:
        x_m, y_m = about((chair.x_m, chair.y_m))
        chairs.append(replace(chair, x_m=x_m, y_m=y_m, angle_rad=angle_rad))
    cords = [replace(cord, path_m=tuple(map(about, cord.path_m))) for cord in plan.cords]
    spec = replace(plan.spec, rows=(replace(row, angle_rad=angle_rad),))
    return replace(plan, spec=spec, chairs=tuple(chairs), cords=tuple(cords))


@pytest.mark.published(source="a rotation changes nothing that lies in it", standing="derived")
@pytest.mark.parametrize("degrees", [-35, 12, 90, 180])
def test_a_row_that_is_swung_keeps_its_order_of_work_and_its_clips(degrees):
    for plan in (chained(4), sample_plan()):
        other = swung(plan, math.radians(degrees))
        (row,), (turned,) = set_rows(plan), set_rows(other)
        told = [(one.stand.name, one.over, one.clips) for one in turns(row, plan)]
        again = [(one.stand.name, one.over, one.clips) for one in turns(turned, other)]
        assert again == told
        assert seams(turned, other.cords) == seams(row, plan.cords)


def check_what_lies_under(plan: Plan) -> None:
    """What is drawn forward for a cord, against the shapes of the bases and the cord's line."""
    for row in set_rows(plan):
        order = turns(row, plan)
        number = {turn.stand.name: n for n, turn in enumerate(order)}
        for n, turn in enumerate(order):
            for cord, over in zip(turn.cords, turn.over, strict=True):
                line = LineString(cord.path_m) if len(set(cord.path_m)) > 1 else None
                for one in row.stands:
                    if number[one.name] >= n or line is None:
                        continue
                    base = Polygon(one.base)
                    if line.intersection(base.buffer(-1e-4)).length > 1e-4:
                        assert one.name in over
                    elif one.name in over and one.apex is None:
                        boxed = any(
                            box.id == cord.from_ and box.under == one.name for box in plan.boxes
                        )
                        assert boxed or line.intersection(base).length > 0


def test_a_supply_is_set_down_once_before_its_first_cord_is_laid():
    plan = make_plan(supply_spec(seats=2), NEC, "0" * 64)
    assert plan.supplies
    (row,) = set_rows(plan)
    steps = " ".join(turn_text(turn, row, plan, tag_numbers(plan)) for turn in turns(row, plan))
    for supply in plan.supplies:
        assert steps.count(f"Set down {supply.id} where the table of places has it") == 1
        numbers = tag_numbers(plan)
        firsts = [
            steps.index(f"Lay cord {numbers[cord.id]} ")
            for cord in plan.cords
            if supply.id in (cord.from_, cord.to)
        ]
        assert firsts
        assert steps.index(f"Set down {supply.id}") < min(firsts)
        # its wall cord is fixed to no chair: it comes first, before the chair is brought up
        (wall,) = [cord for cord in plan.cords if cord.to == supply.id]
        (chair,) = supply.chairs
        assert steps.index(f"Lay cord {numbers[wall.id]} ") < steps.index(f"Bring {chair} up")
        # the box is wider along its row than it is deep across it
        assert supply.width_m > supply.depth_m
    assert "has it, its long side along the row." in steps


def test_a_cord_that_passes_behind_the_bases_is_not_said_to_pass_under_them():
    plan = chained(3)
    (row,) = set_rows(plan)
    link = next(cord for cord in plan.cords if cord.kind == "link")
    ends = link.path_m[0], link.path_m[-1]
    behind_m = row.line_m - 0.05
    round_it = tuple((x, behind_m) for x, _ in ends)
    moved = replace(link, path_m=(ends[0], *round_it, ends[1]))
    assert any(link.id in names for _, _, names in seams(row, (link,)))
    assert not any(names for _, _, names in seams(row, (link,), behind=True))
    assert not any(names for _, _, names in seams(row, (moved,)))
    ((left, right),) = ((a, b) for a, b, names in seams(row, (moved,), behind=True) if names)
    alone = replace(plan, cords=(moved,))
    told = words(cords_sheet(alone, ()))
    assert "No cord passes from under one seat to under the next. Behind the bases" in told
    assert f"not under a seat, pass: between {left} and {right} cord 1." in told
