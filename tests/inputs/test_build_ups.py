"""Rooms measured to their studs: everything is planned to the finish."""

import pytest
from outline_texts import BAY, cornered, with_door
from plan_texts import EVERY_KEY, faults, read, swapped
from support import inch, rect

STUDS = 'measured_to = "studs"\nbuild_up = { all = "1/2 in", left = "1 in", screen = "2 in" }\n'


def studs(more: str = STUDS) -> str:
    """The rectangular room, 20 ft by 15 ft 6 in to its studs."""
    return swapped("[room]\n", "[room]\n" + more)


def words_of(text: str) -> str:
    """The words of all faults."""
    return " | ".join(words for _, words in faults(text))


def test_the_finish_comes_off_the_room_on_every_side():
    room = read(studs()).room
    assert (room.width_m, room.depth_m) == (
        inch("477/2"),
        inch("367/2"),
    )  # 240 - 1 1/2, 186 - 2 1/2
    assert (room.measured_to, room.print_to) == ("studs", "studs")
    assert dict(room.build_up_m) == {
        "left": inch(1), "right": inch("1/2"), "back": inch("1/2"), "screen": inch(2)
    }  # fmt: skip


def test_what_is_measured_from_studs_moves_by_the_finish():
    spec = read(studs())
    # The column stood at 0 from the studs of the left wall: 1 in of its 12 in is in the finish.
    assert spec.obstacles[0].rect == rect(0, 83.5, 11, 12)
    assert (spec.outlets[0].x_m, spec.outlets[0].y_m) == (inch(107), 0.0)
    (door,) = spec.doors
    assert (door.start_m, door.end_m) == (inch("263/2"), inch("327/2"))
    assert spec.rows[0].center_x_m == inch(119)


def test_headrests_are_measured_to_the_finish_whatever_the_rest_is():
    assert read(studs()).rows[0].headrest_to_wall_m == inch(14)


def test_a_row_in_the_middle_is_in_the_middle_of_the_finished_room():
    text = swapped('center_from_left = "10 ft" ', "#", studs())
    assert read(text).rows[0].center_x_m == pytest.approx(inch("477/4"), abs=1e-6)


def test_joists_are_counted_on_from_the_finish():
    spec = read(studs())
    assert spec.floor.first_joist_m == inch("25/4")  # 7 1/4 less 1
    text = swapped('first_joist = "7 1/4 in" ', 'first_joist = "3/4 in" ', studs())
    # 3/4 in from the studs is behind 1 in of finish: the next joist, 16 in on, is the first.
    assert read(text).floor.first_joist_m == inch("63/4")


def test_measured_to_the_finish_nothing_moves_and_the_studs_may_be_printed():
    text = studs('print_to = "studs"\nbuild_up = { all = "5/8 in", floor = "3/4 in" }\n')
    spec, plain = read(text), read(EVERY_KEY)
    assert (spec.doors, spec.obstacles, spec.rows) == (plain.doors, plain.obstacles, plain.rows)
    assert spec.room.width_m == plain.room.width_m
    assert (spec.room.print_to, spec.room.floor_build_up_m) == ("studs", inch("3/4"))


def test_a_finish_that_is_written_but_not_used_is_said():
    spec = read(studs('build_up = { all = "5/8 in" }\n'))
    told = [said.words for said in spec.assumed if said.subject == "room"]
    assert told == ["what the plan file measures from walls is to their finished face"]


def test_a_slanted_wall_moves_square_to_itself():
    text = cornered(room='measured_to = "studs"\nbuild_up = { all = "0 in", bay = "1 in" }\n')
    one, two = read(cornered()).room.line("bay"), read(text).room.line("bay")
    run = (one.end[0] - one.start[0], one.end[1] - one.start[1])
    length = (run[0] ** 2 + run[1] ** 2) ** 0.5
    for end in (two.start, two.end):
        off = (end[0] - one.start[0], end[1] - one.start[1])
        inward = (run[0] * off[1] - run[1] * off[0]) / length
        assert inward == pytest.approx(0.0254, abs=2e-6)


def test_corners_to_the_studs_are_a_rectangle_to_the_studs():
    corners = [(0, 0, "back"), (240, 0, "right"), (240, 186, "screen"), (0, 186, "left")]
    one, two = read(cornered(corners, STUDS)), read(studs())
    assert one.room.outline == two.room.outline
    assert (one.obstacles, one.outlets, one.rows) == (two.obstacles, two.outlets, two.rows)
    assert (one.floor, one.risers) == (two.floor, two.risers)


def test_a_door_on_a_wall_beside_a_thick_finish_is_counted_from_the_finish():
    room = 'measured_to = "studs"\nbuild_up = { all = "0 in", left = "2 in" }\n'
    (door,) = read(with_door(cornered(BAY, room), "wall 5", 'from_left = "0 in"')).doors
    # 48 in of wall, 2 in of it behind the finish of the left wall; it runs from right to left.
    assert (door.start_m, door.end_m) == (inch(16), inch(46))


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ('measured_to = "studs"\n',
         "room: build_up: the finish on the studs is missing for left, right, back, screen: with "
         'studs, write [room.build_up] with all = "5/8 in"'),
        ('print_to = "studs"\nbuild_up = { left = "1/2 in" }\n',
         "the finish on the studs is missing for right, back, screen"),
        ('measured_to = "studs"\nbuild_up = { all = "1/2 in", lft = "1 in" }\n',
         "room: build_up.lft: no wall is called 'lft'; did you mean 'left'?"),
        ('measured_to = "stud"\n', 'measured_to: "stud" is not one of "finish", "studs"'),
        ('measured_to = "studs"\nbuild_up = { all = "unknown" }\n', "room: build_up.all"),
        ('measured_to = "studs"\nbuild_up = "1/2 in"\n', "a table such as"),
    ],
)  # fmt: skip
def test_an_unknown_finish_is_asked_for(more, words):
    assert words in words_of(studs(more))


def test_a_finish_that_leaves_nothing_of_a_wall_is_refused():
    corners = [(0, 0, None), (240, 0, None), (240, 186, None), (1, 186, None), (1, 185, None),
               (0, 185, None)]  # fmt: skip
    thick = 'measured_to = "studs"\nbuild_up = { all = "0 in", "wall 6" = "2 in" }\n'
    told = words_of(with_door(cornered(corners, thick), "wall 2", 'from_back = "11 ft"'))
    assert "the finish on the walls beside it leaves nothing of wall 5" in told


def test_walls_in_one_line_want_one_finish():
    corners = [(0, 0, None), (120, 0, None), (240, 0, None), (240, 186, None), (0, 186, None)]
    room = 'measured_to = "studs"\nbuild_up = { all = "0 in", "wall 1" = "1 in" }\n'
    told = words_of(with_door(cornered(corners, room), "wall 3", 'from_back = "11 ft"'))
    assert "two walls run on in one line, so their finish has to be as thick" in told
