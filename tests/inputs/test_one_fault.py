"""One fault planted in a good plan is told once, on its own line."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from laws import held_over
from plan_texts import EVERY_KEY, LEAST, changed, faults, key_places, read

PLACES = key_places()

NEEDED = {
    ("room", "width"), ("room", "depth"),
    ("door.hall", "wall"), ("door.hall", "from_back"), ("door.hall", "width"),
    *((table, key)
      for table in ("obstacle.column", "floor.no_cut.duct", "riser.rear")
      for key in ("from_left", "from_back", "width", "depth")),
    *(("walkway.aisle", key) for key in ("from_right", "from_back", "width", "depth")),
    ("riser.rear", "height"),
    *(("chair.club", key)
      for key in ("seat_width", "arm_width", "depth", "rear_of_base", "back_travel",
                  "reclined_reach", "input", "lead", "lead_from", "coupler")),
    ("row.A", "chair"), ("row.A", "seats"), ("row.A", "headrest_to_wall"),
    ("outlet.W1", "circuit"), ("outlet.W1", "from_left"), ("outlet.W1", "height"),
    ("outlet.W1", "sockets"), ("outlet.W1", "free"),
}  # fmt: skip

MAY_BE_UNKNOWN = {
    ("project", "place"),
    *((table, key)
      for table in ("floor", "riser.rear")
      for key in ("build", "joists_run", "spacing", "first_joist", "joist_width")),
    *(("chair.club", key) for key in ("arm_gap", "rear_gap", "lead_wire", "continuous")),
    ("row.A", "fastened"),
    *(("circuit.7", key) for key in ("breaker", "wire", "home_run", "already_on_it")),
    *(("new_work", key) for key in ("circuits", "wire", "home_run", "cut_out", "lid")),
    ("cords", "wire"),
}  # fmt: skip

UNKNOWN_IS_A_NAME = {("project", "name"), ("room", "left_wall")}

LEFT_OUT_ELSEWHERE = {
    ("chair.club", "clear"): "no clear zone is known",
    ("outlet.W1", "wall"): "an outlet in the floor",
}

IDS = [f"{table}:{key}" for _, table, key in PLACES]


def header_line(line: int) -> int:
    lines = EVERY_KEY.splitlines()
    return max(number for number in range(1, line) if lines[number - 1].startswith("["))


def test_the_good_plans_have_no_fault():
    assert faults(EVERY_KEY) == faults(LEAST) == []
    assert len(PLACES) == 88


@pytest.mark.parametrize(("line", "table", "key"), PLACES, ids=IDS)
def test_a_value_of_the_wrong_kind_is_told_on_its_line(line: int, table: str, key: str):
    told = faults(changed({line: f'{key} = [[["no"]]]'}))
    assert [number for number, _ in told] == [line]
    assert key in told[0][1]
    assert table.rpartition(".")[2] in told[0][1]


@pytest.mark.parametrize(("line", "table", "key"), PLACES[1:], ids=IDS[1:])
def test_a_misspelled_key_is_told_on_its_line_with_the_right_one(line: int, table: str, key: str):
    written = EVERY_KEY.splitlines()[line - 1]
    told = faults(changed({line: written.replace(key, f"{key}x", 1)}))
    assert [number for number, _ in told] == [line]
    assert f"the key '{key}x' is not known; did you mean '{key}'?" in told[0][1]


@pytest.mark.parametrize(("line", "table", "key"), PLACES[1:], ids=IDS[1:])
def test_a_needed_key_that_is_missing_is_told_on_its_tables_line(line: int, table: str, key: str):
    told = faults(changed({line: ""}))
    if (table, key) in NEEDED:
        assert [number for number, _ in told] == [header_line(line)]
        assert key in told[0][1]
        assert "is missing" in told[0][1]
    elif (table, key) in LEFT_OUT_ELSEWHERE:
        assert all(LEFT_OUT_ELSEWHERE[table, key] in words for _, words in told)
        assert told
    else:
        assert told == []


@pytest.mark.parametrize(("line", "table", "key"), PLACES[1:], ids=IDS[1:])
def test_unknown_is_taken_where_it_may_stand_and_nowhere_else(line: int, table: str, key: str):
    told = faults(changed({line: f'{key} = "unknown"'}))
    if (table, key) in MAY_BE_UNKNOWN | UNKNOWN_IS_A_NAME:
        assert told == []
    elif (table, key) == ("chair.club", "coupler"):
        assert told[0][0] == line
        assert "coupler is missing: beside chain" in told[0][1]
    elif (table, key) == ("chair.club", "clear"):
        assert "no clear zone is known" in told[0][1]
    else:
        assert [number for number, _ in told] == [line]


@given(st.sets(st.sampled_from(PLACES[1:]), min_size=2, max_size=20))
@held_over(60)
def test_several_faults_are_all_told_in_one_run(places: set[tuple[int, str, str]]):
    told = faults(changed({line: f'{key} = [[["no"]]]' for line, _, key in places}))
    assert [number for number, _ in told] == sorted(line for line, _, _ in places)


@given(st.sampled_from(PLACES[1:]), st.sampled_from(PLACES[1:]))
@held_over(60)
def test_a_line_that_is_not_toml_does_not_hide_another_fault(
    first: tuple[int, str, str], second: tuple[int, str, str]
):
    lines = {first[0]: f"{first[2]} = 20 ft", second[0]: f'{second[2]} = [[["no"]]]'}
    if first != second:
        assert [number for number, _ in faults(changed(lines))] == sorted(lines)


def test_at_most_twenty_faults_are_told_and_the_rest_are_counted():
    text = changed({line: f'{key} = [[["no"]]]' for line, _, key in PLACES[1:31]})
    try:
        read(text)
    except ValueError as error:
        told = str(error).splitlines()
    assert len(told) == 21
    assert told[-1] == "den.toml: and 10 faults more"
