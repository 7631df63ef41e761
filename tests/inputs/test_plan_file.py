"""A plan file becomes the spec: every value, every default, and what was filled in."""

import hashlib
import subprocess
import sys
from fractions import Fraction
from pathlib import Path

import pytest
from plan_texts import EVERY_KEY, LEAST, read, swapped, with_table
from support import NEC, inch, rect

from powerplan.inputs.plan_file import read_plan_file, read_plan_text
from powerplan.model.errors import PlanFileError, RulebookError
from powerplan.model.spec import (
    Area,
    Chain,
    ChairKind,
    Circuit,
    ClearZone,
    Cords,
    Door,
    Framing,
    Load,
    NewWork,
    Outlet,
    Project,
    Riser,
    Room,
    Row,
    Size,
    Wall,
)
from powerplan.rulebook.loader import rule_set

EXAMPLES = Path(__file__).parents[2] / "examples"


def assumed(text: str) -> set[tuple[str, str]]:
    return {(said.subject, said.words) for said in read(text).assumed}


def test_the_room_and_what_stands_in_it_are_read():
    spec = read(EVERY_KEY)
    assert spec.project == Project(
        name="Harbour Lane den",
        job="retrofit",
        place="home, basement",
        rules="us-nec-2023",
        units="ft-in",
    )
    assert spec.room == Room(
        width_m=6.096,
        depth_m=4.7244,
        left_wall="stair side",
        right_wall="right wall",
        back_wall="back wall",
        screen_wall="screen wall",
    )
    hall = Door(id="hall", wall=Wall.RIGHT, start_m=3.3528, end_m=4.1656, swings="in")
    assert spec.doors == (hall,)
    assert spec.obstacles == (Area(id="column", rect=rect(0, 84, 12, 12)),)
    assert spec.walkways == (Area(id="aisle", rect=rect(240 - 36, 0, 36, 186)),)
    assert spec.no_cut == (Area(id="duct", rect=rect(36, 24, 14, 72)),)


def test_the_framing_of_floor_and_riser_is_read():
    spec = read(EVERY_KEY)
    assert spec.floor == Framing(
        build="joists",
        joists_run="back to screen",
        spacing_m=0.4064,
        first_joist_m=0.18415,
        joist_width_m=0.0381,
    )
    deck = Framing(
        build="joists",
        joists_run="side to side",
        spacing_m=0.4064,
        first_joist_m=None,
        joist_width_m=None,
    )
    assert spec.risers == (
        Riser(id="rear", rect=rect(36, 0, 168, 88), height_m=0.254, framing=deck),
    )


def test_chairs_and_rows_are_read():
    spec = read(EVERY_KEY)
    assert spec.chairs == (
        ChairKind(
            id="club",
            seat_width_m=inch(23),
            arm_width_m=inch(7),
            depth_m=inch(39),
            rear_of_base_m=inch(4),
            back_travel_m=inch(5),
            reclined_reach_m=inch(66),
            clear=ClearZone(from_m=inch(9), to_m=inch(21), width_m=inch(14), height_m=inch(3)),
            arm_gap_m=inch("1/4"),
            rear_gap_m=inch("3/2"),
            input_a=Fraction(9, 5),
            continuous_a=Fraction(3, 10),
            continuous_said=True,
            lead_m=inch(72),
            lead_wire="16 AWG",
            coupler_a=Fraction(10),
            lead_from=(0.0, inch(10)),
            chain=Chain(current_a=Fraction(8), chairs=4, link_m=inch(48), wire="16 AWG"),
        ),
    )
    assert spec.rows == (
        Row(
            id="A",
            chair="club",
            seats=5,
            headrest_to_wall_m=inch(14),
            center_x_m=inch(120),
            no_arm_between=((2, 3),),
            fastened=False,
        ),
    )


def test_circuits_outlets_new_work_and_cords_are_read():
    spec = read(EVERY_KEY)
    rack = Load(name="equipment rack", current_a=Fraction(5, 2), continuous=True)
    lamp = Load(name="lamp", current_a=Fraction(1, 2), continuous=True)
    assert spec.circuits == (
        Circuit(
            id="7",
            breaker_a=Fraction(15),
            wire="14 AWG",
            home_run_m=inch(576),
            already_on_it=(rack, lamp),
        ),
    )
    assert spec.outlets == (
        Outlet(
            id="W1",
            circuit="7",
            wall=Wall.BACK,
            x_m=inch(108),
            y_m=0.0,
            height_m=inch(16),
            sockets=2,
            free=2,
            rating_a=Fraction(15),
        ),
    )
    assert spec.new_work == NewWork(
        floor_boxes=True,
        wall_outlets=False,
        circuits=2,
        breaker_a=Fraction(20),
        wire="12 AWG",
        home_run_m=inch(720),
        sockets_per_box=2,
        socket_rating_a=Fraction(15),
        cut_out=Size(width_m=inch(4), depth_m=inch(4)),
        lid=Size(width_m=inch(6), depth_m=inch(6)),
        plug_height_m=inch("9/4"),
        framing_margin_m=inch("3/4"),
    )
    assert spec.cords == Cords(
        lengths_m=tuple(inch(12 * feet) for feet in (3, 6, 9, 12, 15)),
        wire="14 AWG",
        diameter_m=inch("9/25"),
        extensions="if needed",
        open_floor_m=0.0,
    )


def test_what_is_left_out_is_a_safe_default_or_unknown():
    spec = read(LEAST, "rooms/media room.toml")
    assert spec.project == Project(
        name="media room", job="retrofit", place=None, rules="us-nec-2023", units="ft-in"
    )
    nothing = (spec.doors, spec.obstacles, spec.walkways, spec.no_cut, spec.risers)
    assert (*nothing, spec.circuits, spec.outlets) == ((),) * 7
    assert spec.floor == Framing(
        build=None, joists_run=None, spacing_m=None, first_joist_m=None, joist_width_m=None
    )
    (chair,), (row,) = spec.chairs, spec.rows
    assert (chair.clear, chair.arm_gap_m, chair.rear_gap_m, chair.chain) == (None,) * 4
    assert (chair.continuous_a, chair.continuous_said) == (chair.input_a, False)
    assert (row.center_x_m, row.fastened, row.no_arm_between) == (inch(96), None, ())
    assert spec.new_work == NewWork(
        floor_boxes=True,
        wall_outlets=False,
        circuits=None,
        breaker_a=Fraction(20),
        wire=None,
        home_run_m=None,
        sockets_per_box=2,
        socket_rating_a=Fraction(15),
        cut_out=None,
        lid=None,
        plug_height_m=inch("9/4"),
        framing_margin_m=inch("3/4"),
    )
    assert spec.cords == Cords(
        lengths_m=NEC.sold_m,
        wire=None,
        diameter_m=inch("9/25"),
        extensions="no",
        open_floor_m=0.0,
    )


def test_every_default_that_matters_is_said():
    assert {(subject, words.split()[0]) for subject, words in assumed(LEAST)} == {
        ("project", "planned"),
        ("project", "the"),
        ("chair club", "all"),
        ("row A", "counts"),
        ("row A", "stands"),
        ("new work", "floor"),
        ("new work", "a"),
        ("new work", "its"),
        ("cords", "a"),
    }
    assert assumed(EVERY_KEY) == {("circuit 7", "lamp, 0.5 A, counts as lasting 3 h or more")}


@pytest.mark.parametrize(
    ("table", "old", "new", "said"),
    [
        ("door.hall", 'swings = "in"', "", ("door hall", "swings into the room")),
        ("outlet.W1", 'rating = "15 A"', "", ("outlet W1", "its sockets are rated 15 A")),
        ("row.A", "= false", '= "unknown"', ("row A", "counts as bolted down")),
        ("chair.club", 'continuous = "0.3 A"', "",
         ("chair club", "all of its 1.8 A counts as lasting 3 h or more")),
        ("cords", 'lengths = ["3 ft", "6 ft", "9 ft", "12 ft", "15 ft"]', "",
         ("cords", "extension cords come in the lengths commonly sold")),
    ],
)  # fmt: skip
def test_a_default_that_is_filled_in_is_said(table: str, old: str, new: str, said: tuple[str, str]):
    assert said in assumed(with_table(table, old, new))


def test_loads_say_whether_they_last():
    text = swapped('lamp = "0.5 A"', 'lamp = "0.5 A, now and then"')
    loads = read(text).circuits[0].already_on_it
    assert loads is not None
    assert [load.continuous for load in loads] == [True, False]
    assert assumed(text) == set()


@pytest.mark.parametrize(
    ("written", "loads"), [("{}", ()), ('"unknown"', None), ('{ tv = "0 A" }', 1)]
)
def test_no_load_an_unknown_load_and_a_load_of_nothing_are_three_things(written, loads):
    old = '{ "equipment rack" = "2.5 A, continuous", lamp = "0.5 A" }'
    read_loads = read(swapped(old, written)).circuits[0].already_on_it
    assert (read_loads if loads in ((), None) else len(read_loads)) == loads


def test_a_load_that_is_left_out_is_unknown_never_empty():
    text = swapped('already_on_it = { "equipment rack" = "2.5 A, continuous", lamp = "0.5 A" }', "")
    assert read(text).circuits[0].already_on_it is None


def test_watts_and_power_factor_give_amperes_exactly():
    text = swapped('input = "1.8 A"', 'power = "135 W"\npower_factor = 0.6')
    assert read(text).chairs[0].input_a == Fraction(135) / (120 * Fraction(6, 10))
    assert ("chair club", "135 W at 120 V and power factor 0.6 draws 1.88 A") in assumed(text)


def test_amperes_finer_than_a_millionth_are_rounded_against_us():
    text = swapped('input = "1.8 A"', 'power = "130 W"\npower_factor = 0.613711')
    exact = Fraction(130) / (120 * Fraction(613_711, 10**6))
    assert exact.denominator > 10**6
    input_a = read(text).chairs[0].input_a
    assert input_a * 10**6 == int(exact * 10**6) + 1
    text = swapped('coupler = "10 A"', 'coupler = "9999.9999 mA"')
    assert read(text).chairs[0].coupler_a == Fraction(9_999_999, 10**6)


@pytest.mark.parametrize("written", ["14 AWG", "14AWG", "14 awg", "#14", "# 14 AWG", "14 ga"])
def test_wire_is_read_as_people_write_it(written: str):
    text = with_table("circuit.7", '"14 AWG"', f'"{written}"')
    assert read(text).circuits[0].wire == "14 AWG"


def test_names_stand_in_the_order_of_their_digits():
    more = "".join(f"[circuit.{name}]\n" for name in ("10", "2", "B2", "B10", "A"))
    names = [circuit.id for circuit in read(EVERY_KEY + more).circuits]
    assert names == ["2", "7", "10", "A", "B2", "B10"]


def test_the_file_is_hashed_as_it_is_and_read_with_any_line_ends():
    plain, windows = EVERY_KEY.encode(), EVERY_KEY.replace("\n", "\r\n").encode()
    for data in (plain, windows, b"\xef\xbb\xbf" + plain):
        found = read_plan_text(data, "den.toml", rule_set)
        assert found.spec == read(EVERY_KEY)
        assert found.sha256 == hashlib.sha256(data).hexdigest()


@pytest.mark.parametrize("file", sorted(EXAMPLES.glob("*.toml")), ids=lambda file: file.stem)
def test_the_examples_read(file: Path):
    assert read_plan_file(file, rule_set).spec.rows


@pytest.mark.parametrize("name", ["nowhere.toml", "a\0b", "x" * 5000])
def test_a_file_that_is_not_there_is_told_in_a_sentence(name: str, tmp_path: Path):
    with pytest.raises(PlanFileError, match="cannot be read"):
        read_plan_file(tmp_path / name, rule_set)


def test_a_folder_is_told_as_one(tmp_path: Path):
    with pytest.raises(PlanFileError, match="this is a folder; a plan file is wanted"):
        read_plan_file(tmp_path, rule_set)


def test_a_rule_set_that_is_not_there_is_told_on_its_line():
    with pytest.raises(PlanFileError) as caught:
        read(swapped('rules = "us-nec-2023"', 'rules = "mars"'))
    with pytest.raises(RulebookError) as same:
        rule_set("mars")
    assert caught.value.faults == (f"den.toml:7: project: rules: {same.value}",)


def test_reading_a_plan_file_loads_no_library_for_rare_units():
    code = (
        "import sys\nfrom pathlib import Path\nimport powerplan.inputs.plan_file as p\n"
        "from powerplan.rulebook.loader import rule_set\n"
        f"p.read_plan_file(Path({str(EXAMPLES / 'small-den.toml')!r}), rule_set)\n"
        "heavy = {'pint', 'shapely', 'networkx', 'numpy'} & set(sys.modules)\n"
        "assert not heavy, heavy\n"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
