from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sample_plan import sample_plan
from support import make_area, make_outlet, make_riser

from powerplan.model.plan import Plan
from powerplan.model.spec import Wall
from powerplan.sheets.writers.picture import picture_lines

ROOMS = [(2,), (5,), (12,), (12, 12), (24,), (8, 8, 8)]


def room_of(plan: Plan) -> list[str]:
    """The lines of the picture from the screen wall to the back wall."""
    lines = picture_lines(plan)
    walls = [number for number, line in enumerate(lines) if line.startswith("+")]
    return list(lines[walls[0] : walls[-1] + 1])


def with_spec(plan: Plan, **changes: object) -> Plan:
    return replace(plan, spec=replace(plan.spec, **changes))


@pytest.mark.parametrize("seats", ROOMS)
def test_the_picture_fits_a_page_of_ascii(seats: tuple[int, ...]):
    lines = picture_lines(sample_plan(seats))
    assert max(map(len, lines)) <= 78
    assert len(lines) <= 44
    assert all(line.isascii() for line in lines)


@pytest.mark.parametrize("seats", ROOMS)
def test_the_walls_stand_straight(seats: tuple[int, ...]):
    room = room_of(sample_plan(seats))
    assert len({len(line) for line in room}) == 1
    assert all(line[0] in "|+=" and line[-1] in "|+=" for line in room)


@pytest.mark.parametrize("seats", [(2,), (5,), (12, 12), (8, 8, 8)])
def test_every_chair_is_named_once_where_there_is_room(seats: tuple[int, ...]):
    plan = sample_plan(seats)
    words = " ".join(room_of(plan)).replace("|", " ").split()
    assert sorted(word for word in words if word[0].isalpha() and word != "X" and word != "o") == (
        sorted(chair.id for chair in plan.chairs)
    )


def test_twenty_four_in_a_row_are_named_by_seat_and_the_legend_says_how():
    lines = picture_lines(sample_plan((24,)))
    assert any("seats by number, every 2. named" in line for line in lines)
    numbers = [word for line in room_of(sample_plan((24,))) for word in line.split()]
    assert [word for word in numbers if word.isdigit()] == [str(n) for n in range(1, 24, 2)]


@pytest.mark.parametrize("seats", ROOMS)
def test_every_floor_box_is_marked(seats: tuple[int, ...]):
    plan = sample_plan(seats)
    assert sum(line.count("X") for line in room_of(plan)) == len(plan.boxes)


def test_the_screen_is_at_the_top_and_left_is_left():
    lines = picture_lines(sample_plan((5,)))
    assert lines[0].strip() == "screen wall"
    foot = next(line for line in lines if line.startswith("<-"))
    assert foot.split() == ["<-", "stair", "side", "back", "wall", "right", "wall", "->"]
    front = next(line for line in lines if "A1" in line)
    assert front.index("A1") < front.index("A5")


def test_a_row_nearer_the_screen_is_drawn_higher():
    lines = picture_lines(sample_plan((3, 3)))
    rows = [next(n for n, line in enumerate(lines) if name in line) for name in ("B1", "A1")]
    assert rows[0] < rows[1]


def test_the_box_stands_under_its_chair():
    plan = sample_plan((5,))
    room = room_of(plan)
    named = next(line for line in room if "A2" in line)
    box = next(line for line in room if "X" in line)
    assert abs(named.index("A2") - box.index("X")) <= 2


def test_the_legend_tells_only_what_is_drawn():
    told = " ".join(picture_lines(sample_plan((5,), boxes=(), cords=())))
    assert "floor box" not in told
    assert "cord" not in told
    assert "obstacle" not in told


def test_risers_obstacles_walkways_and_doors_are_in_the_drawing_and_the_legend():
    plan = with_spec(
        sample_plan((5,)),
        risers=(make_riser(30, 0, 180, 88),),
        obstacles=(make_area("column", 0, 120, 12, 12),),
        walkways=(make_area("aisle", 210, 0, 30, 186),),
    )
    drawn, told = "".join(room_of(plan)), "\n".join(picture_lines(plan))
    for mark, words in ((":", "riser rear (10 in high)"), ("#", "column"), ("~", "aisle")):
        assert mark in drawn
        assert f"{mark} " in told
        assert words in told
    assert "= door hall (right)" in told


def test_outlets_that_stand_close_do_not_write_over_each_other():
    outlets = tuple(
        make_outlet(id=f"outlet-{n}", x_m=2.0 + n * 0.1, wall=Wall.BACK) for n in range(5)
    )
    lines = picture_lines(with_spec(sample_plan((5,)), outlets=outlets))
    below = next(line for line in lines if "outlet-0" in line)
    assert below.split() == ["outlet-0"]
    assert "outlet-4" in " ".join(lines[-3:])


@given(st.text(max_size=60), st.text(max_size=300))
def test_hostile_names_bend_nothing(row: str, wall: str):
    plan = sample_plan((5,))
    spec = plan.spec
    rows = tuple(replace(one, id=row) for one in spec.rows)
    chairs = tuple(replace(chair, id=f"{row}{chair.seat}", row=row) for chair in plan.chairs)
    plan = replace(plan, chairs=chairs)
    plan = with_spec(
        plan, rows=rows, room=replace(spec.room, left_wall=wall, back_wall=wall, screen_wall=wall)
    )
    lines = picture_lines(plan)
    assert all(len(line) <= 78 and line.isascii() and line.isprintable() for line in lines)


@given(st.floats(0.5, 80.0), st.floats(0.5, 80.0))
def test_a_room_of_any_shape_can_be_drawn(width_m: float, depth_m: float):
    plan = sample_plan((5,))
    room = replace(plan.spec.room, width_m=width_m, depth_m=depth_m)
    lines = picture_lines(with_spec(plan, room=room))
    assert max(map(len, lines)) <= 78
    assert len(lines) <= 46
