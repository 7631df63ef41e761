"""Chairs known from a spec sheet, generic kinds, and a shop's own file of chairs."""

from pathlib import Path

import pytest
from plan_texts import read
from support import NEC, inch

from powerplan.inputs.catalog import generic_kinds, generic_values
from powerplan.inputs.plan_file import read_plan_file
from powerplan.model.errors import PlanFileError
from powerplan.model.spec import ChairKind, PlanSpec
from powerplan.rulebook.loader import rule_set

SHEET = """\
plan_file = 1
[room]
width = "18 ft"
depth = "14 ft"
[chair.c]
measured = false
row_widths = ["36 in", "66 in", "96 in"]
depth = "39 in"
depth_reclined = "71 in"
wall_clearance = "6 in"
[row.A]
chair = "c"
seats = 3
headrest_to_wall = "12 in"
"""


def changed(old: str, new: str, text: str = SHEET) -> str:
    assert text.count(old) == 1, old
    return text.replace(old, new)


def kind(text: str = SHEET) -> ChairKind:
    return read(text).chair("c")


def said(spec: PlanSpec, chair: str = "c") -> str:
    return "\n".join(one.words for one in spec.assumed if one.subject == f"chair {chair}")


def faults(text: str) -> list[str]:
    with pytest.raises(PlanFileError) as caught:
        read(text)
    return list(caught.value.faults)


@pytest.mark.published(
    source="one seat has two arms, two share a third: 36 = s + 2a, 66 = 2s + 3a: s 24, a 6 in",
    standing="derived",
)
def test_seat_and_arm_follow_from_row_widths_by_subtraction():
    found = kind()
    assert (found.seat_width_m, found.arm_width_m) == (inch(24), inch(6))


def test_everything_else_is_on_the_safe_side():
    found = kind()
    assert not found.measured
    assert found.rear_of_base_m == 0
    assert found.back_travel_m == inch(6)
    assert found.reclined_reach_m == inch(71)
    assert (found.arm_gap_m, found.rear_gap_m) == (None, None)
    assert found.lead_m == NEC.length_m("assumed_lead")
    assert found.input_a == NEC.exact("assumed_input")
    assert found.continuous_a == found.input_a


def test_the_cord_comes_out_behind_the_chair_where_cords_may_come():
    right_m, forward_m = kind().lead_from
    assert right_m == 0
    assert -forward_m >= NEC.length_m("cord_clearance") + NEC.length_m("cord_diameter") / 2


def test_a_single_width_shares_no_arm():
    found = kind(changed('row_widths = ["36 in", "66 in", "96 in"]', 'width = "36 in"'))
    assert (found.seat_width_m, found.arm_width_m) == (inch(36), 0)
    beside = changed(
        'row_widths = ["36 in", "66 in", "96 in"]', 'width = "36 in"\narm_width = "6 in"'
    )
    assert (kind(beside).seat_width_m, kind(beside).arm_width_m) == (inch(24), inch(6))


def test_every_assumption_is_said_as_one():
    words = said(read(SHEET))
    for part in ("all floor under it is pinch zone", "its INPUT is 3 A", "its cord is only 5 ft"):
        assert f"ASSUMED: {part}" in words
    given = said(
        read(changed("measured = false", 'measured = false\ninput = "2 A"\nlead = "6 ft"'))
    )
    assert "INPUT" not in given
    assert "its cord is only" not in given


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('depth = "39 in"\n', "", "den.toml:5: chair 'c': depth is missing"),
        ('wall_clearance = "6 in"\n', "", "den.toml:5: chair 'c': wall_clearance is missing"),
        (
            'row_widths = ["36 in", "66 in", "96 in"]\n',
            "",
            "den.toml:5: chair 'c': width is missing",
        ),
        (
            '"96 in"]',
            '"99 in"]',
            "den.toml:7: chair 'c': row_widths[2]: 3 seats are 2 ft 9 in wider",
        ),
        ('"66 in", "96 in"]', '"80 in"]', "cannot be 1 and 2 seats that share an arm"),
        (', "66 in", "96 in"]', "]", "two widths at least are wanted"),
        ('"71 in"', '"31 in"', "den.toml:9: chair 'c': depth_reclined: 2 ft 7 in is less than"),
        ("measured = false", 'measured = false\narm_gap = "1 in"', "this is a measure"),
        ("measured = false", 'measured = false\nwheels = "4"', "the key 'wheels' is not known"),
        ("measured = false", 'like = "generic-recliner"\nmeasured = true', "is not measured"),
        ("measured = false", 'like = "generic-reclner"', "did you mean 'generic-recliner'?"),
        ('depth = "39 in"', 'depth = "39"', "den.toml:8: chair 'c': depth: \"39\" has no unit"),
    ],
)
def test_a_slip_in_a_spec_sheet_is_told_once_with_its_line(old: str, new: str, words: str):
    found = faults(changed(old, new))
    assert len(found) == 1
    assert words in found[0]


@pytest.mark.parametrize("name", generic_kinds())
def test_a_generic_kind_is_whole_and_every_value_is_said_as_assumed(name: str):
    start = SHEET.index("measured = false")
    text = SHEET[:start] + f'like = "{name}"\n' + SHEET[SHEET.index("[row.A]") :]
    spec = read(text)
    assert not spec.chair("c").measured
    for key in generic_values(name):
        assert f"ASSUMED: {key.replace('_', ' ')} " in said(spec)
    assert said(spec).count(f"as the invented {name} has it") == len(generic_values(name))


def test_what_is_written_goes_before_the_generic_kind():
    spec = read(changed("measured = false", 'like = "generic-recliner"'))
    assert spec.chair("c").depth_m == inch(39)
    assert "depth 39 in" not in said(spec)
    assert "ASSUMED: input 2 A, as the invented generic-recliner has it" in said(spec)


def shop(tmp_path: Path, theirs: str, ours: str) -> Path:
    (tmp_path / "our-chairs.toml").write_text(theirs, encoding="utf-8")
    plan = tmp_path / "den.toml"
    plan.write_text(ours, encoding="utf-8")
    return plan


def cut(text: str) -> tuple[str, str]:
    """The chair of a plan text, and the rest with a line that says where the chair is."""
    start, end = text.index("[chair.c]"), text.index("[row.A]")
    rest = text[:start] + text[end:]
    return text[start:end], rest.replace("[room]", 'chairs_from = "our-chairs.toml"\n[room]')


def test_a_shops_chairs_read_like_those_of_the_plan(tmp_path: Path):
    theirs, ours = cut(SHEET)
    plan = shop(tmp_path, theirs + theirs.replace("chair.c", "chair.idle"), ours)
    found = read_plan_file(plan, rule_set)
    assert found.spec.chairs == read(SHEET).chairs
    assert "chair idle" not in {one.subject for one in found.spec.assumed}
    (file,) = found.spec.files
    assert file.name == "our-chairs.toml"
    assert len(file.sha256) == 64


def test_a_slip_in_the_shops_file_is_told_with_that_files_name_and_line(tmp_path: Path):
    theirs, ours = cut(SHEET)
    plan = shop(tmp_path, theirs.replace('"39 in"', '"39"'), ours.replace("seats = 3", "seats = 0"))
    with pytest.raises(PlanFileError) as caught:
        read_plan_file(plan, rule_set)
    mine, other = caught.value.faults
    assert mine.startswith(f"{plan}:")
    assert "seats: 0" in mine
    assert other.startswith(f"{tmp_path / 'our-chairs.toml'}:4: chair 'c': depth:")


@pytest.mark.parametrize(
    ("theirs", "words"),
    [
        ("[chair.c\n", "our-chairs.toml:1: not TOML"),
        ("[row.A]\n", "[row] does not belong here"),
        ("", "no [chair.NAME] is written here"),
        ('bare_numbers = "mm"\n[chair.c]\ndepth = 900\n', "the plan file must say the same"),
    ],
)
def test_what_is_no_file_of_chairs_is_refused(tmp_path: Path, theirs: str, words: str):
    plan = shop(tmp_path, theirs, cut(SHEET)[1])
    with pytest.raises(PlanFileError) as caught:
        read_plan_file(plan, rule_set)
    assert any(words in fault for fault in caught.value.faults)


@pytest.mark.parametrize("name", ['"none.toml"', '""', "3", '"."'])
def test_a_shops_file_that_cannot_be_read_is_told_in_the_plan(tmp_path: Path, name: str):
    ours = cut(SHEET)[1].replace('"our-chairs.toml"', name)
    plan = shop(tmp_path, "", ours)
    with pytest.raises(PlanFileError) as caught:
        read_plan_file(plan, rule_set)
    assert f"{plan}:2: chairs_from: " in caught.value.faults[0]


def test_a_name_in_both_files_is_refused(tmp_path: Path):
    theirs, ours = cut(SHEET)
    plan = shop(tmp_path, theirs, ours + theirs)
    with pytest.raises(PlanFileError, match="has a chair 'c' too"):
        read_plan_file(plan, rule_set)
