"""Page 2: an electrician marks, cuts and wires from it alone."""

from dataclasses import replace
from fractions import Fraction

from page_words import A_VIEW, listed, table, words
from sample_plan import sample_plan
from support import (
    NEC,
    inch,
    make_area,
    make_circuit,
    make_joists,
    make_new_work,
    make_riser,
    make_spec,
)

from powerplan.model.plan import NOT_POSSIBLE, Condition, Plan
from powerplan.planning.pipeline import make_plan
from powerplan.sheets.documents import set_of_sheets, views_of
from powerplan.sheets.pages.print_boxes import boxes_sheet
from powerplan.sheets.pages.print_words import BLANK, cord_exit, outlet_place
from powerplan.sheets.paper import LETTER
from powerplan.sheets.parts import Figure, Items, Marked, Say, Table
from powerplan.sheets.printed import SheetPage
from powerplan.sheets.scene import Text


def page_of(plan: Plan) -> SheetPage:
    return boxes_sheet(plan, (A_VIEW,))


def test_a_box_is_placed_from_both_side_walls_the_back_and_the_center_line():
    plan = sample_plan()
    box = replace(plan.boxes[0], x_m=inch("165/2"), y_m=inch("29"))
    row = table(page_of(replace(plan, boxes=(box,))), "Where the middle").rows[0]
    assert row[2:5] == ("6 ft 10 1/2 in", "13 ft 1 1/2 in", "2 ft 5 in")
    assert row[6] == "3 ft 1 1/2 in left"
    assert row[7:] == (BLANK, BLANK)


def test_a_box_as_cut_has_a_blank_for_each_of_its_two_measures():
    head = table(page_of(sample_plan()), "Where the middle").head
    assert head[-2:] == ("as cut, from stair side (left)", "as cut, from back wall")


def test_the_walls_are_called_as_on_site():
    head = table(page_of(sample_plan()), "Where the middle").head
    assert "from stair side (left)" in head


def test_a_box_on_the_center_line_says_so():
    plan = sample_plan()
    box = replace(plan.boxes[0], x_m=inch(120))
    row = table(page_of(replace(plan, boxes=(box,))), "Where the middle").rows[0]
    assert row[6] == "on it"


def test_drift_is_rounded_down_and_is_a_rectangle_for_the_middle():
    plan = sample_plan()
    drift = replace(plan.boxes[0].drift, left_m=inch("15/16"))
    box = replace(plan.boxes[0], drift=drift)
    found = table(page_of(replace(plan, boxes=(box,), cords=())), "How far a box may be moved")
    assert found.rows[0] == (box.id, "7/8 in", "3 in", "2 in", "1 in")
    assert found.caption.endswith("anywhere in the rectangle this far from the mark")


def test_a_plug_of_no_height_means_a_recessed_box():
    plan = sample_plan()
    for height_m, word in ((0.0, "recessed"), (inch(2), "flush")):
        work = make_new_work(plug_height_m=height_m)
        changed = replace(plan, spec=replace(plan.spec, new_work=work))
        fitted = table(page_of(changed), "What each box is").rows[0]
        assert fitted[6] == word
        assert fitted[5] == BLANK  # nobody said how deep it is


def test_the_cords_leave_to_the_side_of_their_first_stretch():
    plan = sample_plan()
    box = plan.boxes[0]
    cord = replace(plan.cords[0], from_=box.id)
    ways = {
        (1.0, 0.2): "right",
        (-1.0, 0.2): "left",
        (0.2, 1.0): "screen",
        (0.2, -1.0): "back",
    }
    for (right, ahead), side in ways.items():
        start = (box.x_m, box.y_m)
        path = (start, start, (box.x_m + right, box.y_m + ahead))
        changed = replace(plan, cords=(replace(cord, path_m=path),))
        assert cord_exit(box, changed) == side


def test_two_marks_are_two_lines_and_neither_is_cut():
    plan = sample_plan()
    box = replace(plan.boxes[0], provisional=True, second_mark_m=(inch(90), inch(30)))
    page = page_of(replace(plan, boxes=(box,)))
    names = [row[0] for row in table(page, "Where the middle").rows]
    assert names == [f"{box.id}, first mark", f"{box.id}, second mark"]
    assert "Scan at both, cut neither" in words(page)
    moves = table(page, "How far a box may be moved").rows
    assert [row[0] for row in moves] == names
    assert set(moves[1][1:]) == {"not at all"}
    assert "PROVISIONAL" in words(page)


def test_what_is_alike_of_several_boxes_is_said_once():
    plan = sample_plan((5,))
    one, other = (replace(box, provisional=True) for box in plan.boxes)
    moved = replace(other, moved_because="off a joist")
    told = listed(page_of(replace(plan, boxes=(one, moved))), "Box by box")
    assert told[0].startswith("Box A2 and box A5 are PROVISIONAL: do not cut.")
    assert told[1:] == (
        "Box A5 is already marked away from the middle of its clear floor (off a joist); not to be "
        "moved by that again.",
    )


def test_the_diagonal_proves_the_room_square():
    # 240 by 320 in is a room of sides 3 : 4, and its diagonal is 400 in.
    plan = sample_plan()
    room = replace(plan.spec.room, width_m=inch(240), depth_m=inch(320))
    told = words(page_of(replace(plan, spec=replace(plan.spec, room=room))))
    assert "each is 33 ft 4 in" in told


def test_the_drawing_comes_first_and_then_where_to_mark():
    page = page_of(sample_plan())
    drawn = next(n for n, part in enumerate(page.parts) if isinstance(part, Figure))
    *_, before = page.parts[:drawn]
    assert isinstance(before, Say)
    assert before.text.startswith("First prove the room: measure both its diagonals")
    told = [part.caption for part in page.parts[drawn:] if isinstance(part, Table)]
    assert told[0].startswith("Where the middle")
    assert told[1].startswith("How far a box may be moved")


def test_what_was_assumed_has_a_blank_for_what_is_found():
    plan = make_plan(make_spec(), NEC, "0" * 64)
    found = table(page_of(plan), "Existing circuits and outlets")
    assert ("circuit 7: breaker", "15 A", BLANK) in found.rows
    assert ("circuit 7: already on it", "nothing", BLANK) in found.rows
    assert any(row[0].startswith("outlet W1: place") for row in found.rows)
    assert all(row[-1] == BLANK for row in found.rows)


def test_unknown_is_never_shown_as_nothing():
    spec = make_spec()
    circuit = replace(spec.circuits[0], already_on_it=None, breaker_a=None)
    plan = make_plan(replace(spec, circuits=(circuit,)), NEC, "0" * 64)
    found = {row[0]: row[1] for row in table(page_of(plan), "Existing circuits").rows}
    assert found["circuit 7: already on it"] == "unknown"
    assert found["circuit 7: breaker"] == "unknown"


def test_what_to_avoid_names_the_joists_and_the_places_not_to_cut():
    plan = sample_plan()
    spec = replace(plan.spec, floor=make_joists(), no_cut=(make_area("duct", 40, 28, 14, 72),))
    avoid = " ".join(listed(page_of(replace(plan, spec=spec)), "What to avoid"))
    assert "joists, running back to screen, 1 ft 4 in apart" in avoid
    assert "7 1/4 in from stair side (left)" in avoid
    assert "Duct: cut nothing over it; its back left corner is 3 ft 4 in" in avoid


def test_it_says_when_to_stop_and_call():
    stops = " ".join(listed(page_of(sample_plan()), "Stop, and call"))
    for word in ("tendon", "duct", "neutral", "two slots"):
        assert word in stops


def test_a_room_that_is_not_possible_is_shown_and_nothing_is_cut():
    plan = sample_plan(boxes=(), cords=())
    plan = replace(plan, decision=replace(plan.decision, verdict=NOT_POSSIBLE))
    page = page_of(plan)
    assert isinstance(page.parts[0], Marked)
    assert page.parts[0].mark == "NOT POSSIBLE AS DRAWN"
    assert "DO NOT CUT" in page.parts[0].lines[0]
    assert any(isinstance(part, Figure) for part in page.parts)
    # five seats of 23 in with six arms of 7 in are 157 in, in the middle of 240 in
    rows = table(page, "Where the rows would stand").rows
    assert rows == (("row A", "3 ft 5 1/2 in", "16 ft 6 1/2 in", "1 ft 6 in", "4 ft 5 in"),)
    assert "each is 25 ft 3 5/8 in" in words(page)


def test_a_row_that_has_to_move_stops_the_cutting():
    plan = sample_plan()
    from powerplan.model.findings import hold

    fault = hold(NEC.rules["headrest-clears-wall"], "row A", inch(4), inch(5), note="Move it.")
    page = page_of(replace(plan, findings=(*plan.findings, fault)))
    assert listed(page, "DO NOT CUT YET") == ("Row A: Move it.",)
    assert page.title == "Floor boxes. DO NOT CUT YET"
    assert isinstance(page.parts[0], Say)
    assert page.parts[0].text.startswith("DO NOT CUT YET")  # said before the drawing, briefly


def test_wiring_says_from_where_to_where_and_that_lengths_are_estimates():
    plan = sample_plan()
    found = table(page_of(plan), "DO NOT CUT YET. Wiring")  # a must of the sample is not met
    assert "estimates" in found.caption
    assert found.rows[0][:6] == ("panel", "box A2", "new 1 (NEW)", "20 A", "12 AWG", "about 60 ft")
    assert found.rows[0][7] == BLANK
    assert "Panel: not on this plan" in words(page_of(plan))


def test_no_word_of_the_set_has_one_of_two_marks_cut():
    # Joists whose first nobody has found: two marks, and a scan decides. Until then none is cut.
    floor = make_joists(first_joist_m=None)
    plan = make_plan(make_spec(floor=floor, outlets=(), circuits=()), NEC, "0" * 64)
    assert any(box.second_mark_m is not None for box in plan.boxes)
    sheets = set_of_sheets(plan, paper=LETTER, revision="A", date="2026-01-01")
    told = " ".join(words(page) for page in sheets.pages)
    drawn = (item for view in views_of(sheets) for item in view.items)
    told += " ".join(item.words for item in drawn if isinstance(item, Text))
    assert "cut neither" in told
    for wrong in ("cut one", "cut at the one", "cut both", "only one is cut"):
        assert wrong not in told


def test_the_electrician_marks_for_the_installers_where_no_anchor_goes():
    told = words(page_of(sample_plan()))
    assert "mark on top of the floor where box A2 and box A5 and the cable to each lie" in told
    assert "They drill no anchor there." in told


def test_what_the_answer_hangs_on_stands_where_the_box_is_cut():
    # 1.5 mm2 behind 16 A: whether it carries that, an electrician sees by how it is laid.
    circuit = make_circuit(breaker_a=Fraction(16), wire="1.5 mm2")
    plan = replace(sample_plan(), findings=())
    hangs = Condition(
        kind="laying",
        subject="circuit 7",
        circuit="7",
        if_continuous_a=None,
        if_not_continuous_a=None,
        sentence="the 1.5 mm2 of circuit 7 is laid well enough to carry 16 A: have one look.",
    )
    spec = replace(plan.spec, circuits=(circuit,))
    boxes = tuple(replace(box, provisional=False) for box in plan.boxes)
    decision = replace(plan.decision, depends_on=(hangs,))
    page = page_of(replace(plan, spec=spec, boxes=boxes, decision=decision))
    top = page.parts[0]
    assert isinstance(top, Items)
    assert top.lead == "CUT ONLY AFTER this is confirmed:"
    assert top.items == ("The 1.5 mm2 of circuit 7 is laid well enough to carry 16 A.",)
    told = listed(page, "Box by box")
    assert told[0].startswith("Box A2 and box A5 are cut only after what page 2 Floor boxes")
    free = replace(plan, decision=replace(plan.decision, depends_on=()), boxes=boxes)
    assert "CUT ONLY AFTER" not in words(page_of(free))


def test_why_a_mark_is_moved_reads_as_a_sentence():
    plan = sample_plan((5,))
    moved = replace(plan.boxes[0], moved_because="joist: 1 1/4 in toward the screen")
    told = listed(page_of(replace(plan, boxes=(moved,))), "Box by box")
    middle = "from the middle of its clear floor (joist)"
    again = "not to be moved by that again"
    assert any(f"marked 1 1/4 in toward the screen {middle}; {again}." in one for one in told)


def test_a_ground_that_nobody_looked_at_is_unknown_in_every_row():
    spec = make_spec()
    circuit = replace(spec.circuits[0], ground=None)
    found = {
        row[0]: row[1]
        for row in table(
            page_of(make_plan(replace(spec, circuits=(circuit,)), NEC, "0" * 64)), "Existing"
        ).rows
    }
    assert found["outlet W1: circuit and rating"].endswith("ground unknown")
    assert any("ground" in name and told == "unknown" for name, told in found.items())


def test_a_walkway_has_its_size_and_place_in_the_list_of_the_room():
    plan = sample_plan()
    aisle = make_area("aisle", 200, 0, 40, 186)
    changed = replace(plan, spec=replace(plan.spec, walkways=(aisle,)))
    (told,) = (line for line in listed(page_of(changed), "The room:") if "Walkway" in line)
    assert "3 ft 4 in wide and 15 ft 6 in deep" in told
    assert "16 ft 8 in from stair side (left), 0 in from back wall" in told


def test_the_height_of_an_outlet_counts_from_the_deck_where_a_riser_stands_at_its_wall():
    spec = make_spec()
    (outlet,) = spec.outlets
    assert outlet_place(outlet, make_plan(spec, NEC, "0" * 64)).endswith("1 ft 4 in up")
    for left, told in ((0, "1 ft 4 in up from the deck of riser rear"), (150, "up from the floor")):
        plan = sample_plan()
        riser = make_riser(left, 0, 80 if left else 140, 60, id="rear")
        raised = replace(plan, spec=replace(plan.spec, risers=(riser,)))
        assert outlet_place(outlet, raised).endswith(told)
