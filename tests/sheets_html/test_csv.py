"""The tables for a spreadsheet: what stands in them, and that none of it runs."""

import csv
import io
from dataclasses import replace
from fractions import Fraction

import pytest
from support import NEC, inch, make_chair, make_new_work, make_spec

from powerplan.planning.pipeline import make_plan
from powerplan.sheets.words import has_text
from powerplan.sheets.writers.csv import csv_files


@pytest.fixture(scope="module")
def plan():
    """Five chairs that take two new boxes; nothing here depends on which."""
    chair = make_chair(input_a=Fraction(3), continuous_a=Fraction(3))
    return make_plan(make_spec(chairs=(chair,)), NEC, "0" * 64)


def rows(plan, name: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(csv_files(plan)[name], newline="")))


def test_there_are_five_tables_and_each_has_a_row_for_each_thing(plan):
    buying = {"buying.csv", "buying-electrician.csv"}
    assert set(csv_files(plan)) == {"boxes.csv", "cords.csv", "circuits.csv"} | buying
    assert plan.boxes
    assert [row["box"] for row in rows(plan, "boxes.csv")] == [box.id for box in plan.boxes]
    assert [row["cord"] for row in rows(plan, "cords.csv")] == [cord.id for cord in plan.cords]
    assert [row["circuit"] for row in rows(plan, "circuits.csv")] == [c.id for c in plan.circuits]


def test_lines_end_as_the_standard_has_it_and_are_all_of_one_length(plan):
    for text in csv_files(plan).values():
        assert text.endswith("\r\n")
        assert "\n" not in text.replace("\r\n", "")
        assert len({len(row) for row in csv.reader(io.StringIO(text, newline=""))}) == 1


def test_a_length_stands_in_meters_and_as_a_tape_shows_it(plan):
    box = replace(plan.boxes[0], x_m=inch(100), y_m=inch(29))
    [row] = rows(replace(plan, boxes=(box,)), "boxes.csv")
    assert (row["from_left_m"], row["from_left"]) == ("2.54", "8 ft 4 in")
    # the room is 240 in by 186 in
    assert (row["from_right_m"], row["from_right"]) == ("3.556", "11 ft 8 in")
    assert (row["from_back_m"], row["from_back"]) == ("0.7366", "2 ft 5 in")
    assert (row["from_screen_m"], row["from_screen"]) == ("3.9878", "13 ft 1 in")
    assert (row["cut_out_width_m"], row["lid_depth"]) == ("0.1016", "6 in")


def test_a_plan_in_millimeters_reads_in_millimeters(plan):
    spec = replace(plan.spec, project=replace(plan.spec.project, units="mm"))
    box = replace(plan.boxes[0], x_m=2.54)
    [row] = rows(replace(plan, spec=spec, boxes=(box,)), "boxes.csv")
    assert (row["from_left_m"], row["from_left"]) == ("2.54", "2540 mm")


def test_how_far_a_box_may_move_is_rounded_down_and_what_a_cord_needs_is_rounded_up(plan):
    drift = replace(plan.boxes[0].drift, left_m=inch("31/16"))
    cord = replace(plan.cords[0], needed_m=inch("1153/16"))
    changed = replace(plan, boxes=(replace(plan.boxes[0], drift=drift),), cords=(cord,))
    assert rows(changed, "boxes.csv")[0]["move_left"] == "1 7/8 in"  # 1 15/16 in, down to 1/8 in
    assert rows(changed, "cords.csv")[0]["needed"] == "6 ft 0 1/8 in"  # 72 1/16 in, up to 1/8 in


def test_what_is_not_known_says_so(plan):
    spec = replace(plan.spec, new_work=make_new_work(cut_out=None))
    use = replace(plan.circuits[0], breaker_a=None, wire=None, home_run_m=None, load_known=False)
    box = replace(plan.boxes[0], wiring_m=None, second_mark_m=None, provisional=True)
    changed = replace(plan, spec=spec, circuits=(use,), boxes=(box,))
    [circuit], [marked] = rows(changed, "circuits.csv"), rows(changed, "boxes.csv")
    assert {circuit[k] for k in ("breaker_A", "wire", "home_run_m", "home_run")} == {"unknown"}
    assert circuit["all_load_known"] == "no"
    assert {marked[k] for k in ("cut_out_width_m", "cut_out_depth", "wiring")} == {"unknown"}
    assert marked["second_mark_from_left_m"] == ""
    assert marked["mark"] == "PROVISIONAL"


def test_cords_of_one_kind_are_bought_together_and_leads_are_not_bought(plan):
    lead, link = plan.cords[0], replace(plan.cords[0], kind="link", bought_m=inch(48))
    extension = replace(link, kind="extension", wire="14 AWG", bought_m=inch(72))
    changed = replace(plan, cords=(replace(lead, kind="own"), link, extension, extension))
    *bought, asked = [tuple(row.values()) for row in rows(changed, "buying.csv")]
    assert [line[:5] for line in bought] == [
        ("chair maker's link cord", "1.2192", "4 ft", "16 AWG", "1"),
        ("extension cord", "1.8288", "6 ft", "14 AWG", "2"),
    ]
    # a link goes in only where the chair's own lead comes off: that is asked, and counts nothing
    assert [line[5].partition(": ")[2] for line in bought] == [
        "order when the maker has answered",
        "",
    ]
    assert asked[4] == ""
    assert "own lead comes off, so that a link can be plugged into its inlet" in asked[5]


def test_what_a_maker_is_asked_first_is_in_the_buying_list_and_holds_the_order(plan):
    # 9 ft more than lies there, and no coil: its spare has no place.
    cord = replace(plan.cords[0], kind="own", park_m=None, coil_m=None, tail_m=())
    long = replace(cord, bought_m=cord.length_m + inch(108), longer=True)
    first, asked = rows(replace(plan, cords=(long,)), "buying.csv")
    assert first["ask_the_maker_first"] == "cord 1: order when the maker has answered"
    assert first["how_many"] == "1"
    assert (asked["what"], asked["how_many"]) == ("to ask the maker, cord 1", "")
    assert asked["length_m"] == first["length_m"]
    assert "a shorter lead in place of" in asked["ask_the_maker_first"]
    # the columns that were there stand where they stood
    assert list(first)[:5] == ["what", "length_m", "length", "wire", "how_many"]


def test_chairs_are_named_at_their_circuit(plan):
    told = {row["circuit"]: row["chairs"].split() for row in rows(plan, "circuits.csv")}
    assert sorted(name for names in told.values() for name in names) == [
        *("A1", "A2", "A3", "A4", "A5"),
    ]


@pytest.mark.parametrize(
    "text", ["=1+1", "+A1", "-A1", "@sum", "\t=1", "\r=1", " =1", "＝1", "-1+1|cmd"]
)
def test_no_text_is_taken_for_a_formula(plan, text):
    box = replace(plan.boxes[0], moved_because=text)
    assert rows(replace(plan, boxes=(box,)), "boxes.csv")[0]["moved_because"] == f"'{text}"


def test_a_number_stays_a_number(plan):
    short = replace(plan.decision.spare[0], circuit=plan.circuits[0].id, spare_a=-1.25)
    decision = replace(plan.decision, spare=(short,))
    use = replace(plan.circuits[0], id="-7")
    told = rows(replace(plan, decision=decision), "circuits.csv")[0]
    assert told["left_A"] == "-1.25"
    assert rows(replace(plan, circuits=(use,)), "circuits.csv")[0]["circuit"] == "-7"


def test_commas_quotes_and_line_ends_come_back_as_they_were(plan):
    text = 'left, "right"\r\nback'
    box = replace(plan.boxes[0], moved_because=text)
    told = csv_files(replace(plan, boxes=(box,)))["boxes.csv"]
    assert '"left, ""right""\r\nback"' in told
    assert rows(replace(plan, boxes=(box,)), "boxes.csv")[0]["moved_because"] == text


def test_a_plan_with_nothing_new_has_heads_alone(plan):
    told = csv_files(replace(plan, boxes=(), cords=(), circuits=()))
    assert {text.count("\r\n") for text in told.values()} == {1}


def test_how_far_a_cord_keeps_clear_reads_alike_in_the_table_and_in_the_findings():
    # Both are rounded down: what is promised to be clear is there.
    plan = make_plan(make_spec(outlets=(), circuits=()), NEC, "0" * 64)
    told = {row["cord"]: row for row in rows(plan, "cords.csv")}
    found = [one for one in plan.findings if one.rule == "cord-clear-of-mechanism"]
    assert {one.subject for one in found} == {f"cord {cord.id}" for cord in plan.cords}
    for cord in plan.cords:
        (finding,) = [one for one in found if one.subject == f"cord {cord.id}"]
        assert told[cord.id]["keeps_clear"] == has_text(finding, "ft-in")
        # 0.0302 m is 1.189 in, 76.1 sixty-fourths: 1 3/16 in and a bit, never 1 1/4
        near = replace(finding, value=0.0302, margin=0.0052)
        assert has_text(near, "ft-in") == "1 3/16 in"
