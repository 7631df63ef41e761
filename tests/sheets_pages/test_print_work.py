"""What is done before the first chair and after the last, and what is ticked."""

import csv
import io
from dataclasses import replace

import pytest
from loose_rooms import supply_spec
from page_words import listed, table, words
from sample_plan import sample_plan
from support import NEC, inch, make_chair, make_row, make_spec

from powerplan.model.findings import hold
from powerplan.model.plan import Drift, Plan
from powerplan.model.seats import Piece
from powerplan.planning.pipeline import make_plan
from powerplan.sheets.pages.print_boxes import boxes_sheet
from powerplan.sheets.pages.print_circuits import circuits_sheet
from powerplan.sheets.pages.print_cords import cords_sheet
from powerplan.sheets.pages.print_decision import decision_sheet
from powerplan.sheets.writers.csv import csv_files


def before(plan: Plan) -> str:
    return " ".join(listed(cords_sheet(plan, ()), "Before the first chair"))


def after(plan: Plan) -> tuple[str, ...]:
    return listed(cords_sheet(plan, ()), "After the last chair")


def fastened(plan: Plan, so: bool | None) -> Plan:
    rows = tuple(replace(row, fastened=so) for row in plan.spec.rows)
    return replace(plan, spec=replace(plan.spec, rows=rows))


@pytest.mark.parametrize(
    ("so", "said"),
    [(True, "Bolt row A down now"), (None, "Row A: if it is to be bolted down (ask), bolt it now")],
)
def test_a_row_is_bolted_after_the_look_and_before_the_power(so, said):
    told = after(fastened(sample_plan(), so))
    (at,) = [n for n, text in enumerate(told) if text.startswith(said)]
    assert "power is still off for the drill" in told[at]
    assert told[at - 1].startswith("Look under every chair")
    assert told[at + 1].endswith("Then power on, and do the test, chair by chair.")


def test_a_row_that_is_not_bolted_has_no_bolts():
    assert not any("olt" in text for text in after(fastened(sample_plan(), False)))


def test_a_rush_that_may_trip_a_breaker_is_said_where_power_goes_on():
    plan = sample_plan()
    rule = NEC.rules["switch-on-by-count"]
    over = replace(plan, findings=(hold(rule, "circuit 7", 165, 150),))
    met = replace(plan, findings=(hold(rule, "circuit 7", 150, 150),))
    told = after(over)[-1]
    assert told.index("the breaker may trip") < told.index("Then power on")
    assert "leave it off and call the electrician (page 4 Circuits)" in told
    assert "unplug nothing under a chair" in told
    assert "trip" not in after(met)[-1]


def test_coils_are_tied_only_when_all_stands():
    plan = sample_plan()
    assert after(plan)[0].startswith("Only now tie: each coil once")
    bare = replace(plan, cords=tuple(replace(cord, park_m=None) for cord in plan.cords))
    assert not any("Only now tie" in text for text in after(bare))


def drifting(bought_in: float, far_in: float) -> Plan:
    """The hand-made box A2, which may be moved so far each way, with leads that need 60 in."""
    plan, far_m = sample_plan(), inch(far_in)
    cords = tuple(replace(cord, needed_m=inch(60), bought_m=inch(bought_in)) for cord in plan.cords)
    drift = Drift(left_m=far_m, right_m=0.0, back_m=0.0, screen_m=far_m)
    boxes = tuple(replace(box, drift=drift) for box in plan.boxes)
    return replace(plan, cords=cords, boxes=boxes)


@pytest.mark.published(
    source="needed = (way + slack) x 1.1: 11 in over in a lead allow 10 in more of way; a corner "
    "of a rectangle 6 in each way is 8.49 in off, one of 8 in 11.3 in",
    standing="derived",
)
def test_a_box_that_was_moved_is_met_by_cords_as_far_as_they_are_long_enough():
    within, beyond, tight = drifting(71, 6), drifting(71, 8), drifting(60, 6)
    assert 'Compare "as cut" on page 2 Floor boxes with the mark' in before(within)
    assert "cords 1, 2 and 3 are long enough wherever in the rectangle" in before(within)
    assert "cords 1, 2 and 3 are long enough up to 10 in from the mark" in before(beyond)
    assert "are long enough up to 0 in from the mark" in before(tight)
    assert "nothing written down: stop and call whoever planned it" in before(tight)
    for plan, far in ((within, ""), (beyond, "10 in"), (tight, "0 in")):
        moves = table(boxes_sheet(plan, ()), "How far a box may be moved")
        reach = [f"cords reach only {far} from the mark"] if far else []
        assert list(moves.rows[0][5:]) == reach
        assert ("no farther from the mark than its cords reach" in moves.caption) == bool(far)
        head, row, *_ = csv.reader(io.StringIO(csv_files(plan)["boxes.csv"], newline=""))
        assert (head[-1], row[-1]) == ("cords_reach_only", far)


def test_where_nothing_is_cut_no_place_is_compared():
    assert "as cut" not in before(sample_plan(boxes=()))


def test_a_chair_comes_with_its_own_lead_or_its_supply_with_its_cords():
    assert "A chair comes with its own lead" in before(sample_plan())
    plan = make_plan(supply_spec(), NEC, "0" * 64)
    assert "A chair comes with its own lead" not in before(plan)
    assert "A supply comes with its wall cord and its chair cords" in before(plan)
    bags = table(cords_sheet(plan, ()), "Cord bags").caption
    assert bags.endswith("; the cord to a supply is in the bag of its first chair")
    assert table(cords_sheet(sample_plan(), ()), "Cord bags").caption.endswith("each chair")


def test_an_outlet_that_no_cord_goes_to_is_not_used():
    plan = sample_plan((4,))
    told = " ".join(listed(cords_sheet(plan, ()), "Before power"))
    assert "Cords start at box A2, and nowhere else." in told
    assert "NOT USED: outlet W1. Plug nothing of the chairs in there." in told
    cords = (replace(plan.cords[0], from_="W1"), *plan.cords[1:])
    told = " ".join(listed(cords_sheet(replace(plan, cords=cords), ()), "Before power"))
    assert "Cords start at outlet W1 and box A2, and nowhere else." in told
    assert "NOT USED" not in told


def test_the_buying_list_says_as_which_cords_and_that_a_lead_is_replaced():
    plan = sample_plan((4,))
    assert "A longer lead takes the place" not in words(cords_sheet(plan, ()))
    cords = tuple(
        replace(cord, longer=True, bought_m=inch(144 if cord.to == "A2" else 180))
        for cord in plan.cords
    )
    page = cords_sheet(replace(plan, cords=cords), ())
    rows = table(page, "Buying list").rows
    assert [(row[1], row[3], row[4]) for row in rows] == [
        ("12 ft", "1", "cord 2 (A2)"),
        ("15 ft", "2", "cord 1 (A1) and cord 3 (A3)"),
    ]
    assert "ask the chair's maker whether the chair's own comes off" in words(page)


def reclined(left_m: float, units: str = "ft-in") -> str:
    base = sample_plan()
    finding = hold(NEC.rules["seats-clear-of-each-other"], "row A", left_m, 0.0)
    project = replace(base.spec.project, units=units)
    plan = replace(base, findings=(finding,), spec=replace(base.spec, project=project))
    page = cords_sheet(plan, ())
    if "First, where reclined neighbors" not in words(page):
        return ""
    return " ".join(listed(page, "First, where reclined neighbors"))


@pytest.mark.published(
    source="common practice, no source: a chair is set to 1/8 in or 3 mm; two to 1/4 in or 6 mm",
    standing="common practice",
)
def test_reclined_neighbors_that_clear_each_other_by_what_marks_may_be_off_are_measured():
    assert "Row A: keep 1/4 in between reclined neighbors" in reclined(inch("5/16"))
    assert "The plan leaves 1/4 in" in reclined(inch("5/16"))
    assert "keep" not in reclined(inch("3/8"))
    told = reclined(inch("5/16"))
    assert told.index("nobody seated") < told.index("keep 1/4 in")
    assert told.startswith("With power on, one pair of neighbors at a time, nobody seated")
    assert "keep 6 mm between reclined neighbors" in reclined(0.006, "mm")
    assert "keep" not in reclined(0.007, "mm")


def near_the_wall() -> Plan:
    """A supply of 2 in under a reclining back: the seat is too low for it, the wall too near."""
    chair = make_chair()
    assert chair.clear is not None
    spec = supply_spec()
    kind = replace(spec.chairs[0], clear=replace(chair.clear, height_m=inch("3/2")))
    row = make_row(seats=1, headrest_to_wall_m=inch(6))
    return make_plan(replace(spec, chairs=(kind,), rows=(row,)), NEC, "0" * 64)


def test_a_back_over_a_supply_is_tried_with_nobody_seated_and_the_supply_set_aside():
    page = cords_sheet(near_the_wall(), ())
    told = " ".join(listed(page, "First, where a back reclines"))
    steps = ["set aside", "Power on. A1", "nobody seated, a finger on the switch", "then with",
             "power off", "still reclined", "measured from the side", "more than 2 in",
             "only then power on again"]  # fmt: skip
    assert [told.index(step) for step in steps] == sorted(told.index(step) for step in steps)
    assert "at the finished outlet" in told
    text = words(page)
    assert text.index("First, where a back reclines") < text.index("The test, each chair loaded")
    assert "before the power is on, look with the chair reclined" not in text
    (test,) = listed(page, "The test, each chair loaded")
    assert test.endswith("; the back comes down on nothing of supply A1.")


def test_a_supply_that_no_back_comes_over_is_named_in_the_test_alone():
    plan = make_plan(supply_spec(), NEC, "0" * 64)  # 14 in less 5 in leave 9 in for its 3
    page = cords_sheet(plan, ())
    assert "First, where a back reclines" not in words(page)
    (test,) = listed(page, "The test, each chair loaded")
    assert "the back comes down on nothing of supply A1" in test
    (test, *_) = listed(cords_sheet(sample_plan(), ()), "The test, each chair loaded")
    assert "comes down" not in test


def test_the_pages_agree_that_the_seller_or_the_installers_measure_a_back():
    plan = near_the_wall()
    (condition,) = [one for one in plan.decision.depends_on if one.kind == "back"]
    asked = "the back over supply A1 (2 in high) keeps more than that over the floor"
    assert condition.sentence.startswith(asked)
    assert "the seller or the installers measure it, not the electrician" in condition.sentence
    first = words(decision_sheet(plan))
    assert f"whether {asked}" in first
    assert "the seller measures, on a chair of that kind fed from any outlet" in first
    ticks = words(circuits_sheet(plan, ()))
    assert "To confirm on site, by a licensed electrician" in ticks
    assert "keeps more than that" not in ticks


def test_before_a_floor_is_cut_it_is_known_that_the_back_stays_over_the_supply():
    # No outlet: a floor box feeds the supply, and a plug of 2 1/4 in fits the clear zone of 3 in.
    # The supply of 4 in does not: it lies behind, and the row moves if the back is too low for it.
    spec = supply_spec(height_m=inch(4))
    row = make_row(seats=1, headrest_to_wall_m=inch(6))
    plan = make_plan(replace(spec, outlets=(), rows=(row,)), NEC, "0" * 64)
    assert plan.boxes
    (condition,) = [one for one in plan.decision.depends_on if one.kind == "back"]
    said = "The back over supply A1 (4 in high) keeps more than that over the floor"
    assert said in words(boxes_sheet(plan, ()))
    assert "before anything is cut" in words(decision_sheet(plan))
    assert condition.sentence[1:].startswith(said[1:])


def test_cords_of_what_is_set_aside_are_tied_only_when_it_is_back():
    page = cords_sheet(near_the_wall(), ())
    first = listed(page, "Before power")[0]
    assert "every tie is on a fixed frame; the cords of supply A1 are NOT tied yet" in first
    back = listed(page, "First, where a back reclines")[-1]
    assert "What went back: only now its cords are tied, to the fixed frame of A1" in back
    assert back.endswith("only then power on again.")
    plain = listed(cords_sheet(sample_plan(), ()), "Before power")[0]
    assert plain.endswith("every tie is on a fixed frame.")


def test_the_cords_of_a_shared_supply_are_tied_to_the_first_of_its_chairs():
    plan = make_plan(supply_spec(), NEC, "0" * 64)
    shared = tuple(replace(one, chairs=("A1", "A2")) for one in plan.supplies)
    text = words(cords_sheet(replace(plan, supplies=shared), ()))
    assert "its own chair (where it feeds more than one, of A1 for supply A1)" in text
    assert "feeds more than one" not in words(cords_sheet(near_the_wall(), ()))


def test_a_chair_without_a_motor_is_named_and_tested_as_one():
    by_hand = replace(make_chair(), id="still", powered=False)
    pieces = tuple(
        Piece(what=what, kind=kind, width_m=inch(22 if what == "seat" else 6))
        for what, kind in (("seat", "club"), ("arm", "club"), ("seat", "still"))
    )
    spec = make_spec(chairs=(make_chair(), by_hand), rows=(make_row(seats=2, pieces=pieces),))
    page = cords_sheet(make_plan(spec, NEC, "0" * 64), ())
    motor, hand = listed(page, "The test, each chair loaded")
    assert motor.startswith("A1: somebody seated")
    assert hand.startswith("A2: not powered, no cord; reclined by hand; somebody seated")
    rows = " ".join(listed(page, "How the rows stand"))
    assert "Not powered, no cord, reclined by hand: A2." in rows


def test_two_seats_without_an_arm_between_them_are_named_and_moved_together():
    spec = make_spec(rows=(make_row(seats=3, no_arm_between=((2, 3),)),))
    plan = make_plan(spec, NEC, "0" * 64)
    rows = " ".join(listed(cords_sheet(plan, ()), "How the rows stand"))
    assert "No arm between: A2 and A3." in rows
    told = before(plan)
    assert "No arm stands between A2 and A3: such two may come as one piece." in told
    assert "brought up, lifted and moved together" in told
    plain = make_plan(make_spec(rows=(make_row(seats=3),)), NEC, "0" * 64)
    assert "o arm" not in words(cords_sheet(plain, ())).replace("no arms", "")
