"""The steps of page 1: nothing is cut before what may move it is settled."""

from dataclasses import replace

import pytest
from page_words import A_VIEW, listed, words
from support import NEC, inch, make_circuit, make_joists, make_new_work, make_row, make_spec

from powerplan.model.plan import Condition, Plan
from powerplan.model.spec import PlanSpec
from powerplan.planning.pipeline import make_plan
from powerplan.sheets.documents import set_of_sheets
from powerplan.sheets.layout import sheets_of_paper
from powerplan.sheets.pages.boxes import boxes_page
from powerplan.sheets.pages.print_boxes import boxes_sheet
from powerplan.sheets.pages.print_circuits import circuits_sheet
from powerplan.sheets.pages.print_decision import decision_sheet
from powerplan.sheets.pages.print_next import next_steps
from powerplan.sheets.pages.print_spare import homeless
from powerplan.sheets.paper import LETTER
from powerplan.sheets.parts import Figure, Items
from powerplan.sheets.typeset.ink import Letters
from powerplan.sheets.writers.csv import csv_files
from powerplan.sheets.writers.html import html_text


def planned(spec: PlanSpec) -> Plan:
    return make_plan(spec, NEC, "0" * 64)


def near_the_wall() -> Plan:
    """Headrests 6 in off the wall that move back 5 in: a coil of 4 in has no room behind them."""
    row = make_row(seats=1, headrest_to_wall_m=inch(6))
    return planned(make_spec(rows=(row,), outlets=()))


def in_the_middle() -> Plan:
    """The same row in the middle of the room, its box under it."""
    row = make_row(seats=1, headrest_to_wall_m=inch(40))
    return planned(make_spec(rows=(row,), outlets=()))


def joists_not_found() -> Plan:
    floor = make_joists(first_joist_m=None)
    return planned(make_spec(floor=floor, outlets=(), circuits=()))


def test_the_maker_is_asked_before_the_floor_is_cut_where_the_answer_may_move_the_box():
    plan = near_the_wall()
    (box,) = plan.boxes
    todo = next_steps(plan)
    asks = next(n for n, line in enumerate(todo) if "asks the maker" in line)
    assert f"row A may have to stand further off the wall, and {box.id} with it" in todo[asks]
    assert asks < next(n for n, line in enumerate(todo) if "cuts and wires" in line)
    told = words(decision_sheet(plan))
    assert "Nothing that the answer hangs on is left" not in told
    page = boxes_sheet(plan, (A_VIEW,))
    first, later = (one for one in words(page).splitlines() if one.startswith("DO NOT CUT YET: "))
    assert first.startswith("DO NOT CUT YET: first the seller settles the spare of cord 1. First")
    assert "settles the spare of cord 1 with its maker (page 3 Cords)" in later
    (minded,) = listed(page, "Box by box")
    assert minded.startswith("Box A1 is cut only after")
    assert page.title == "Floor boxes. DO NOT CUT YET"
    assert circuits_sheet(plan, ()).title == "Circuits. DO NOT CUT YET"
    assert [part.view.title for part in page.parts if isinstance(part, Figure)] == [
        f"{A_VIEW.title}. DO NOT CUT YET"
    ]
    assert "firm but DO NOT CUT YET" in csv_files(plan)["boxes.csv"]
    assert "BUY NOTHING YET. Buying list for the electrician" in words(page)
    assert "DO NOT CUT YET. Wiring; lengths" in words(page)
    lines = csv_files(plan)["buying-electrician.csv"].splitlines()[1:]
    assert lines
    assert all("BUY NOTHING YET" in line for line in lines)
    assert "BUY NOTHING YET" not in csv_files(in_the_middle())["buying-electrician.csv"]
    (before,) = [one for one in boxes_page(plan).parts if isinstance(one, Items)][:1]
    assert before.lead == "DO NOT CUT YET; before that:"
    assert before.items == ("The seller settles the spare of cord 1.",)


def test_only_spare_that_may_move_a_box_holds_up_the_floor():
    rows = (
        make_row(id="A", seats=1, headrest_to_wall_m=inch(6)),
        make_row(id="B", seats=1, headrest_to_wall_m=inch(100)),
    )
    plan = planned(make_spec(rows=rows, outlets=()))
    cords = tuple(replace(cord, park_m=None, bought_m=inch(120)) for cord in plan.cords)
    plan = replace(plan, cords=cords)
    assert len(homeless(plan)) == 2
    (settled,) = (line for line in next_steps(plan) if "asks the maker" in line)
    assert "the spare of cord 1 goes" in settled
    assert "and where that of cord 2 goes, which moves no box" in settled
    assert "If that of cord 1 has no place, row A may have to" in settled
    told = words(boxes_sheet(plan, (A_VIEW,)))
    assert "settles the spare of cord 1 with" in told
    assert "cord 2" not in told


def test_what_is_confirmed_before_cutting_is_told_on_every_electricians_sheet():
    plan = in_the_middle()
    unknown = Condition(
        kind="load",
        subject="circuit 1",
        circuit="1",
        if_continuous_a=1.0,
        if_not_continuous_a=1.0,
        sentence="circuit 1 carries no more: measure it",
    )
    held = replace(plan, decision=replace(plan.decision, depends_on=(unknown,)))
    assert boxes_sheet(held, (A_VIEW,)).title == "Floor boxes. DO NOT CUT YET"
    assert csv_files(held)["boxes.csv"].count("firm but DO NOT CUT YET") == len(held.boxes)
    assert "DO NOT CUT YET" not in csv_files(plan)["boxes.csv"]


def test_where_no_box_can_move_the_floor_is_not_held_up():
    plan = in_the_middle()
    todo = next_steps(plan)
    assert not any("before anything is cut" in line for line in todo)
    assert "DO NOT CUT" not in words(boxes_sheet(plan, (A_VIEW,)))
    assert "Nothing that the answer hangs on is left" in words(decision_sheet(plan))


def test_with_marks_that_may_move_the_steps_end_with_a_new_plan():
    *_, last = next_steps(joists_not_found())
    assert last.startswith("Seller: has the room planned again; the new set replaces this one.")
    for plan in (joists_not_found(), planned(make_spec(rows=(make_row(headrest_to_wall_m=0.05),)))):
        told = " ".join(next_steps(plan))
        for too_soon in ("cuts and wires", "orders the cords", "set the chairs", "agrees to"):
            assert too_soon not in told


def test_a_load_that_is_measured_does_not_ask_for_a_new_plan_if_it_is_so():
    plan = planned(make_spec(circuits=(make_circuit(already_on_it=None),)))
    todo = next_steps(plan)
    assert "if it is not so, has the room planned again." in todo[0]
    assert any(line.startswith("Installers") for line in todo)


def test_every_electricians_sheet_says_at_its_head_that_nothing_is_cut_yet():
    plan = joists_not_found()
    floor, circuits = boxes_sheet(plan, (A_VIEW,)), circuits_sheet(plan, ())
    assert floor.title == "Floor boxes. DO NOT CUT YET"
    assert circuits.title == "Circuits. DO NOT CUT YET"
    assert floor.name == "2 Floor boxes"
    assert "DO NOT CUT YET. Wiring; lengths" in words(floor)
    assert "BUY NOTHING YET. Buying list for the electrician" in words(floor)
    lines = csv_files(plan)["buying-electrician.csv"].splitlines()[1:]
    assert lines
    assert all("BUY NOTHING YET" in line for line in lines)
    firm = in_the_middle()
    assert boxes_sheet(firm, (A_VIEW,)).title == "Floor boxes"
    assert "NOTHING YET" not in csv_files(firm)["buying-electrician.csv"]


def test_on_the_screen_the_warning_is_bold_and_first_in_its_paragraph():
    sheets = set_of_sheets(joists_not_found(), paper=LETTER, revision="A", date="2026-01-01")
    assert "<p><strong>DO NOT CUT YET:</strong> first find out" in html_text(sheets)


@pytest.mark.parametrize(("feet", "near"), [(20, False), (45, True)])
def test_an_estimate_near_the_longest_home_run_says_from_where_on_it_is_planned_again(feet, near):
    work = make_new_work(home_run_m=inch(12 * feet))
    plan = planned(make_spec(outlets=(), circuits=(), new_work=work))
    (use,) = (one for one in plan.circuits if one.new)
    assert use.home_run_most_m is not None
    # made to be 47 ft at most, of which 45 ft is more than nine tenths and 20 ft is less
    use = replace(use, home_run_most_m=inch(12 * 47 + 1))
    told = words(decision_sheet(replace(plan, circuits=(use,))))
    assert (f"({use.id}: over 47 ft, plan again with thicker wire)" in told) == near


def test_an_estimate_that_is_over_the_longest_home_run_already_is_told_once_without_a_threshold():
    work = make_new_work(home_run_m=inch(12 * 60))
    plan = planned(make_spec(outlets=(), circuits=(), new_work=work))
    (use,) = (one for one in plan.circuits if one.new)
    uses = tuple(
        replace(use, id=name, home_run_most_m=inch(12 * feet))
        for name, feet in (("new 1", 17.5), ("new 2", 55.5))
    )
    told = words(decision_sheet(replace(plan, circuits=uses)))
    assert "for new 1 and new 2 the estimate of 60 ft is already over" in told
    assert "(17 ft 6 in on new 1, the least): thicker wire, or boxes nearer, would keep it" in told
    assert "plan again with thicker wire" not in told
    assert "Nothing that the answer hangs on is left" not in told


def test_what_the_client_agrees_to_counts_boxes_and_sockets():
    (line,) = (text for text in next_steps(in_the_middle()) if text.startswith("Client: agrees"))
    assert "1 new floor box with 2 sockets" in line
    assert line.endswith("and to the floor being cut or drilled.")


def test_the_title_block_of_every_sheet_has_the_warning_whole_and_first():
    sheets = set_of_sheets(joists_not_found(), paper=LETTER, revision="A", date="2026-01-01")
    spread = [one for one in sheets_of_paper(sheets, LETTER) if one.page.number in ("2", "4")]
    assert len(spread) > 2
    for sheet in spread:
        told = [ink.words for ink in sheet.ink if isinstance(ink, Letters)]
        named = [text for text in told if text.startswith("DO NOT CUT YET. ")]
        assert any(text.startswith(f"DO NOT CUT YET. {sheet.page.name}") for text in named)
        assert not any(text.endswith("\N{HORIZONTAL ELLIPSIS}") for text in named)
