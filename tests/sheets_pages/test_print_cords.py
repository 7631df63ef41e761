"""Page 3: installers set, lay and test from it alone."""

from dataclasses import replace

import pytest
from outlined import room_of
from page_words import A_VIEW, listed, table, words
from sample_plan import sample_plan
from support import NEC, inch, make_chain, make_chair, make_riser, make_row, make_spec

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
    # The room is 186 in deep: 168 in to the screen wall.
    assert row == ("A", "1 ft 6 in", "14 ft", "3 ft 5 1/2 in", "16 ft 6 1/2 in")


def test_a_row_before_a_riser_is_measured_from_the_riser_too():
    # Riser 90 in deep, headrests at 132 in, bases 4 in ahead of them: 46 in from its front.
    rows = (make_row(seats=2), make_row(id="B", seats=2, headrest_to_wall_m=inch(132)))
    spec = make_spec(rows=rows, risers=(make_riser(0, 0, 240, 90),), outlets=())
    spec = replace(spec, room=replace(spec.room, depth_m=inch(240)))
    told = table(cords_sheet(make_plan(spec, NEC, "0" * 64), ()), "The chalk line").rows
    # No tape crosses the step: row A has its 72 in from the front edge, B 104 in from the screen.
    edge = "from the front edge of riser rear"
    assert told[0][1:4] == ("1 ft 6 in", "1 ft 6 in from the back wall", f"6 ft {edge}")
    assert told[1][1:4] == ("11 ft 4 in", f"3 ft 10 in {edge}", "8 ft 8 in from the screen wall")


@pytest.mark.parametrize(
    ("fastened", "said"),
    [
        (True, "It is bolted down to the floor. In it lie box A"),
        (None, "Nobody has said whether it is bolted down to the floor: ask before"),
        (False, "It is not bolted down; it stands on the floor."),
    ],
)
def test_it_is_said_of_each_row_whether_it_is_bolted_and_over_what(fastened, said: str):
    row = make_row(seats=3, fastened=fastened)
    made = make_plan(make_spec(rows=(row,), outlets=()), NEC, "0" * 64)
    (_, about, _) = listed(cords_sheet(made, ()), "How the rows stand")
    assert said in about
    assert ("no anchor" in about) == (fastened is not False)


def test_a_row_on_a_riser_is_bolted_to_its_deck():
    row = make_row(seats=2, fastened=True)
    made = make_plan(make_spec(rows=(row,), risers=(make_riser(0, 0, 240, 100),)), NEC, "0" * 64)
    (_, about, _) = listed(cords_sheet(made, ()), "How the rows stand")
    assert "bolted down to the deck of riser rear." in about


def test_a_row_off_the_center_line_is_so_on_purpose_and_in_plain_words():
    row = make_row(seats=2, center_x_m=inch(114))
    page = cords_sheet(make_plan(make_spec(rows=(row,)), NEC, "0" * 64), ())
    assert "its middle 6 in left of the room's center line, on purpose" in words(page)
    assert "center_from_left" not in words(page)


def test_every_chair_has_its_mark_on_the_line(plan: Plan):
    rows = table(cords_sheet(plan, (A_VIEW,)), "The middle of each chair").rows
    assert [row[0] for row in rows] == ["A1", "A2", "A3", "A4", "A5"]
    assert rows[2][1:] == ("10 ft", "on it")
    assert rows[1][1:] == ("7 ft 6 in", "2 ft 6 in left")


def test_where_a_tape_meets_a_step_the_marks_are_counted_along_the_line():
    # Two seats and three arms, 67 in: the first middle is 7 + 11 1/2 in from the line's left end.
    spec = make_spec(rows=(make_row(seats=2),), risers=(make_riser(30, 0, 180, 100),))
    found = table(cords_sheet(make_plan(spec, NEC, "0" * 64), ()), "The middle of each chair")
    assert found.head[1] == "from the line's left end"
    assert [row[1] for row in found.rows] == ["1 ft 6 1/2 in", "4 ft 0 1/2 in"]


@pytest.mark.parametrize(
    ("seats", "order"),
    [(1, ["A1"]), (4, ["A2", "A3", "A1", "A4"]), (5, ["A3", "A2", "A4", "A1", "A5"])],
)
def test_chairs_are_set_from_the_middle_outward(seats: int, order: list[str]):
    (row,) = set_rows(sample_plan((seats,)))
    assert [one.name for one in outward(row)] == order


def test_a_cord_behind_the_row_does_not_pass_between_seats():
    plan = sample_plan()
    (row,) = set_rows(plan)
    assert all(cords == () for _, _, cords in seams(row, plan.cords))


def test_every_cord_is_in_one_bag_and_is_laid_once_in_the_order_of_work(plan: Plan):
    page = cords_sheet(plan, (A_VIEW,))
    tags = [row[1] for row in table(page, "Cord bags").rows]
    assert tags == [f"cord {number}" for number in range(1, len(plan.cords) + 1)]
    steps = " ".join(listed(page, "Order of work"))
    assert all(steps.count(f"Lay {tag} (") == 1 for tag in tags)


def test_what_a_cord_is_called_does_not_read_like_a_box(plan: Plan):
    first = table(cords_sheet(sample_plan(), ()), "Cord bags").rows[0]
    assert first[:5] == ("A1", "cord 1", "box A2", "chair A1", "lead 6 ft")
    ends = [row[3] for row in table(cords_sheet(plan, ()), "Cord bags").rows]
    assert all(end.startswith(("chair ", "joint at ")) for end in ends)


def test_the_left_over_of_a_cord_is_what_it_measures_less_its_way():
    plan = sample_plan()
    row = table(cords_sheet(plan, (A_VIEW,)), "Cord bags").rows[0]
    assert row[6:] == (
        "3 ft 4 in",
        "2 ft 8 in: coiled behind A1 on its way (the cord itself is coiled here), see below",
    )


def test_every_chair_has_its_box_to_tick_in_the_test(plan: Plan):
    tests = listed(cords_sheet(plan, (A_VIEW,)), "The test, each chair loaded and both ways")
    assert [line.partition(":")[0] for line in tests] == [chair.id for chair in plan.chairs]


def test_cords_are_tied_only_to_the_fixed_frame(plan: Plan):
    assert "Cords are tied only to the chair's fixed frame." in words(cords_sheet(plan, ()))


def test_the_bag_of_an_extension_is_that_of_the_chair_it_serves():
    plan = sample_plan()
    first = replace(plan.cords[0], id="W1-W1+A1", kind="extension", from_="W1", to="W1+A1")
    own = replace(plan.cords[0], id="W1+A1-A1", from_="W1+A1", to="A1")
    page = cords_sheet(replace(plan, cords=(first, own)), ())
    rows = table(page, "Cord bags").rows
    assert [row[0] for row in rows] == ["A1", "A1"]
    assert [row[5].partition(" ")[0] for row in rows] == ["from", "from"]
    assert rows[1][5].startswith("from its extension cord ")
    steps = " ".join(listed(page, "Order of work"))
    assert "Lay cord 1 (outlet W1 to joint at A1), the extension cord: plug it into" in steps
    assert "Lay cord 2 (joint at A1 to chair A1): one end in A1's inlet" in steps


def test_where_it_is_not_possible_the_rows_are_shown_and_nothing_is_set_out():
    plan = sample_plan()
    plan = replace(plan, decision=replace(plan.decision, verdict=NOT_POSSIBLE))
    page = cords_sheet(plan, (A_VIEW,))
    assert words(page).startswith("NOT POSSIBLE AS DRAWN: DO NOT SET OUT.")
    assert "[A room]" in words(page)
    assert table(page, "DO NOT SET OUT. The chalk line").rows[0][0] == "A"
    assert "Order of work" not in words(page)


def test_spare_cord_is_coiled_behind_its_chair_where_the_plan_says():
    # 32 in over in two loops of 16 in: 4 in deep, (16 - 4 pi) / 2 + 4 = 5.72 in wide. The place is
    # 2 in behind the headrest, and so 6 in behind the bases.
    base = sample_plan()
    cords = tuple(replace(cord, coil_m=(inch("5.72"), inch(4))) for cord in base.cords)
    plan = replace(base, cords=cords)
    rows = table(cords_sheet(plan, ()), "Where spare cord is coiled").rows
    assert len(rows) == len(plan.cords)
    assert rows[0][:4] == (
        "cord 1 (box A2 to chair A1)",
        "2 ft 8 in",
        "2 loops, an oval 5 3/4 in left to right, 4 in deep",
        "6 in behind the line, at A1's middle",
    )
    # It lies 2 in behind the upright headrest, so the reclining back would come over it.
    assert rows[0][4].startswith("NO COIL HERE")
    bare = replace(plan, cords=tuple(replace(c, park_m=None, coil_m=None) for c in plan.cords))
    assert "coiled behind" not in words(cords_sheet(bare, ()))
    assert "NO ROOM for a coil, see below" in words(cords_sheet(bare, ()))
    # (40 in of way and 24 in of slack) x 1.1 = 70.4 in, rounded up to a mark of the tape
    # that is 1 1/2 in under 6 ft, less than a hand's breadth: no shorter lead is asked for
    (asked,) = listed(cords_sheet(bare, ()), "To ask the maker")
    assert asked == "Of cord 1: where on the chair's fixed frame the rest is tied."


def test_little_that_is_left_over_is_slack_and_no_place_is_claimed_for_it(plan: Plan):
    links = [row for row in table(cords_sheet(plan, ()), "Cord bags").rows if "link" in row[4]]
    assert links
    for row in links:
        assert row[7] == "1 ft 6 in: slack along its way, see below"


def test_little_that_cannot_get_behind_the_base_is_slack_too():
    chair = make_chair(chain=make_chain(), arm_gap_m=inch("3/2"), rear_gap_m=None)
    made = make_plan(make_spec(chairs=(chair,), outlets=()), NEC, "0" * 64)
    links = [row for row in table(cords_sheet(made, ()), "Cord bags").rows if "link" in row[4]]
    assert links
    for row in links:
        assert row[7].endswith("slack along its way, see below")


def test_a_coil_off_the_way_is_sized_by_what_is_left_after_going_there_and_back():
    # 72 in of lead on 40 in of way leave 32 in; 6 in there and 6 in back leave 20 in.
    base = sample_plan()
    tail = ((1.0, 1.0), (1.0, 1.0 - inch(6)))
    cords = (replace(base.cords[0], coil_m=(inch(6), inch(4)), tail_m=tail), *base.cords[1:])
    page = cords_sheet(replace(base, cords=cords), ())
    assert table(page, "Where spare cord is coiled").rows[0][1] == "1 ft 8 in"
    assert "6 in to the coil, 6 in back, 1 ft 8 in of it" in table(page, "Cord bags").rows[0][7]


def test_a_coil_round_a_corner_is_told_with_its_bend():
    # 6 in back, then 3 in to the right: 9 in there and 9 in back of the 32 in that are over
    base = sample_plan()
    (start,) = base.cords[0].path_m[-1:]
    bend = (start[0], start[1] - inch(6))
    tail = (start, bend, (bend[0] + inch(3), bend[1]))
    cords = (replace(base.cords[0], coil_m=(inch(6), inch(4)), tail_m=tail), *base.cords[1:])
    told = table(cords_sheet(replace(base, cords=cords), ()), "Cord bags").rows[0][7]
    # the line is 18 in off the back wall
    behind = round((bend[1] - inch(18)) / inch(1), 6)
    words_of_it = f"{behind:g} in ahead of the line"
    assert f"back 6 in, to {words_of_it}; right 3 in: 9 in to the coil, 9 in back" in told


def test_under_a_chair_that_is_not_measured_no_floor_is_called_clear():
    base = sample_plan()
    zones = tuple(zone for zone in base.zones if zone.kind == "pinch")
    cords = tuple(replace(cord, park_m=None, coil_m=None) for cord in base.cords)
    page = cords_sheet(replace(base, zones=zones, cords=cords), ())
    assert "NO PLACE IS KNOWN" in table(page, "Cord bags").rows[0][7]
    assert "shown white" not in words(page)


def test_in_a_room_with_corners_the_line_is_taped_level_from_the_walls_that_are_met():
    # 20 ft by 15 ft 6 in, its back left corner cut out 60 in wide and 24 in deep. The line is 18 in
    # off the back wall from 86 1/2 in to 153 1/2 in, so a tape to its left meets the notch.
    corners = ((60, 0), (240, 0), (240, 186), (0, 186), (0, 24), (60, 24))
    spec = make_spec(rows=(make_row(seats=2),), outlets=())
    page = cords_sheet(make_plan(replace(spec, room=room_of(corners)), NEC, "0" * 64), ())
    line = table(page, "The chalk line").rows[0]
    assert line[2:4] == ("1 ft 6 in from the wall 1", "14 ft from the wall 3")
    assert line[4:] == ("2 ft 2 1/2 in from the wall 6", "7 ft 9 1/2 in from the wall 6")
    said = words(page)
    assert "20 ft wide and 15 ft 6 in deep, back wall to screen, at its widest and deepest" in said
    plain = words(cords_sheet(make_plan(spec, NEC, "0" * 64), ()))
    assert "at its widest" not in plain
    assert "level tape" not in plain
