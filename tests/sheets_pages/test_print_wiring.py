"""What an electrician reads of wiring and buys, against counts and sums of the plan."""

from dataclasses import replace

import strategies
from hypothesis import given
from hypothesis import strategies as st
from laws import law, planned
from page_words import A_VIEW, listed, table, words
from sample_plan import sample_plan
from support import (
    NEC,
    inch,
    make_circuit,
    make_new_work,
    make_outlet,
    make_riser,
    make_row,
    make_spec,
)

from powerplan.judging.judge import judge
from powerplan.model.lengths import INCH_M
from powerplan.model.plan import Plan
from powerplan.sheets.pages.print_boxes import boxes_sheet
from powerplan.sheets.pages.print_wiring import electrician_buys, estimate_m, estimate_text, rises_m
from powerplan.sheets.pages.print_words import BLANK
from powerplan.sheets.printed import SheetPage
from powerplan.sheets.writers.csv import csv_files


def page_of(plan: Plan) -> SheetPage:
    return boxes_sheet(plan, (A_VIEW,))


def two_levels() -> Plan:
    """A row on the floor and one on a riser of 10 in, on one new circuit."""
    rows = (
        make_row(id="A", seats=2, headrest_to_wall_m=inch(110)),
        make_row(id="B", seats=2, headrest_to_wall_m=inch(14)),
    )
    riser = make_riser(0, 0, 240, 88, id="rear", height_m=inch(10))
    work = make_new_work(circuits=1)
    spec = make_spec(rows=rows, risers=(riser,), circuits=(), outlets=(), new_work=work)
    return planned(spec)


def test_the_rise_into_a_deck_is_in_the_estimate_and_listed():
    plan = two_levels()
    boxes = {box.id: box for box in plan.boxes}
    wired = [box for box in plan.boxes if box.wired_from in boxes]
    climbs = []
    for row, box in zip(table(page_of(plan), "Wiring").rows[1:], wired, strict=True):
        before = boxes[box.wired_from]
        square = abs(box.x_m - before.x_m) + abs(box.y_m - before.y_m)
        climb = inch(10) if box.deck != before.deck else 0.0
        climbs.append(climb)
        assert box.wiring_m is not None
        assert abs(box.wiring_m - square - climb) < 2e-6
        assert row[6] == ("10 in" if climb else "0 in")
    assert sorted(climbs)[-1] == inch(10)
    assert check_record(plan) == ()


def check_record(plan: Plan) -> tuple[str, ...]:
    """What the judge does not pass."""
    return tuple(f.subject for f in judge(plan, NEC).findings if f.stops)


def test_a_record_without_the_rise_into_the_deck_is_not_passed():
    plan = two_levels()
    boxes = {box.id: box for box in plan.boxes}
    flat = tuple(
        replace(box, wiring_m=round(box.wiring_m - inch(10), 6))
        if box.wired_from in boxes and boxes[box.wired_from].deck != box.deck
        else box
        for box in plan.boxes
    )
    assert check_record(replace(plan, boxes=flat)) != ()


def test_two_boxes_in_one_deck_have_no_rise_between_them():
    plan = sample_plan((5,))
    first, second = (replace(box, deck="rear") for box in plan.boxes)
    apart = abs(first.x_m - second.x_m) + abs(first.y_m - second.y_m)
    wired = replace(second, wired_from=first.id, wiring_m=apart)
    assert rises_m(wired, replace(plan, boxes=(first, wired))) == 0.0


@given(st.floats(0.0, 60.0), st.sampled_from(["ft-in", "in", "mm", "m"]))
def test_an_estimate_is_rounded_up_and_by_less_than_a_step(length_m, units):
    step = 0.1 if units in ("mm", "m") else float(6 * INCH_M)
    told = estimate_m(length_m, units)
    assert -1e-6 <= told - length_m < step
    assert abs(told / step - round(told / step)) < 1e-4


@law(strategies.rooms(), usual=7, many=150)
def test_the_electrician_buys_what_the_plan_has(spec):
    plan = planned(spec)
    lines = electrician_buys(plan)
    count = {line.what.partition(",")[0]: line.how_many for line in lines}
    floor = sum(box.kind == "floor box" for box in plan.boxes)
    assert count.get("floor box", 0) == floor
    assert count.get("lid of a floor box", 0) == floor
    assert count.get("wall box and its plate", 0) == len(plan.boxes) - floor
    sockets = [line.how_many for line in lines if line.what == "receptacle socket"]
    assert sum(sockets) == sum(box.sockets for box in plan.boxes)
    breakers = [line.how_many for line in lines if line.what == "breaker"]
    assert sum(breakers) == sum(use.new for use in plan.circuits)
    wire = sum(line.length_m or 0.0 for line in lines if line.what == "cable with ground")
    assert wire >= sum(box.wiring_m or 0.0 for box in plan.boxes) - 1e-6


@law(strategies.rooms(), usual=7, many=150)
def test_the_electricians_list_is_the_same_on_paper_and_in_the_table_file(spec):
    plan = planned(spec)
    text = csv_files(plan)["buying-electrician.csv"]
    assert len(text.splitlines()) == 1 + len(electrician_buys(plan))
    if plan.boxes:
        rows = table(page_of(plan), "Buying list for the electrician").rows
        assert [row[0] for row in rows] == [line.what for line in electrician_buys(plan)]


def test_a_length_that_nobody_knows_is_not_bought_as_nothing():
    plan = sample_plan((2,))
    box = replace(plan.boxes[0], wiring_m=None)
    (line,) = (
        one
        for one in electrician_buys(replace(plan, boxes=(box,)))
        if one.what == "cable with ground"
    )
    assert line.length_m is None
    assert "1 of 1 lengths not known" in line.note


def test_thinner_pigtails_are_left_to_the_electrician():
    plan = sample_plan()  # sockets of 15 A on a new circuit of 20 A
    assert "Pigtails: in the circuit's own wire." in words(page_of(plan))
    boxes = tuple(replace(box, rating_a=20.0) for box in plan.boxes)
    assert "Pigtails" not in words(page_of(replace(plan, boxes=boxes)))


def test_what_is_not_used_is_told_for_information_and_has_no_blank():
    plan = sample_plan()
    spec = replace(
        plan.spec,
        circuits=(*plan.spec.circuits, make_circuit(id="9")),
        outlets=(*plan.spec.outlets, make_outlet(id="W9", circuit="9", x_m=inch(200))),
    )
    page = page_of(replace(plan, spec=spec))
    idle = listed(page, "For information")
    for told in (
        "Circuit 9: breaker 15 A; wire 14 AWG; ",
        "Outlet W9: circuit 9, 15 A, ",
    ):
        assert any(line.startswith(told) for line in idle)
    assert BLANK not in "".join(idle)
    used = table(page, "Existing circuits and outlets").rows
    assert not any("9" in row[0].split(":")[0] for row in used)


def test_a_plan_that_uses_no_circuit_of_the_house_has_no_stop_rule_for_them():
    plan = two_levels()
    stops = " ".join(listed(page_of(plan), "Stop, and call"))
    assert "neutral" not in stops
    assert "not as assumed here" not in stops
    assert "panel" in stops


def test_cable_is_told_as_it_is_bought():
    # 13.94 m is rounded up to the next 100 mm; 13 ft 2 in, which is 4.0132 m, to half a foot.
    assert estimate_text(13.94, "mm") == estimate_text(13.94, "m") == "14.0 m"
    assert estimate_text(4.0132, "ft-in") == "13 ft 6 in"


def test_the_longest_home_run_stands_beside_what_is_to_be_measured():
    plan = two_levels()
    (use,) = plan.circuits
    assert use.home_run_most_m is not None
    (told,) = [line for line in listed(page_of(plan), "About the wiring") if "Panel:" in line]
    assert "measure it before wire is bought. By the advised drop alone: new 1 on" in told
    unknown = replace(plan, circuits=(replace(use, home_run_most_m=None),))
    assert "By the advised drop" not in words(page_of(unknown))
