"""Rooms by their corners: walls, and doors and outlets on them."""

import math
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from outline_texts import BAY, cornered, with_door
from plan_texts import EVERY_KEY, faults, read, swapped
from support import inch

from powerplan.model.spec import WallLine


def words_of(text: str) -> str:
    """The words of all faults."""
    return " | ".join(words for _, words in faults(text))


def test_walls_go_counter_clockwise_each_from_where_the_one_before_ends():
    room = read(cornered()).room
    assert [wall.id for wall in room.walls] == ["back", "right", "screen", "bay", "wall 5", "left"]
    assert room.outline == tuple((inch(left), inch(back)) for left, back, _ in BAY)
    assert [wall.end for wall in room.walls] == [*room.outline[1:], room.outline[0]]
    assert (room.width_m, room.depth_m) == (inch(240), inch(186))


def test_corners_the_other_way_round_give_the_same_walls():
    # Going round the other way, a wall is written at the corner where it ended before.
    names = [wall for _, _, wall in BAY]
    names[4] = "wall 5"
    turned = [(left, back, names[n - 1]) for n, (left, back, _) in reversed(list(enumerate(BAY)))]
    one, other = read(cornered()).room, read(cornered(turned)).room
    walls = {(wall.id, wall.start, wall.end) for wall in one.walls}
    assert {(wall.id, wall.start, wall.end) for wall in other.walls} == walls


def test_a_wall_without_a_name_is_called_by_its_number_and_prints_so():
    wall = read(cornered()).room.line("wall 5")
    assert wall.label == "wall 5"
    assert read(cornered()).room.line("bay").label == "bay wall"


def test_what_people_call_a_side_of_the_room_is_what_its_wall_is_called():
    room = read(cornered()).room
    assert (room.left_wall, room.line("left").label) == ("stair side", "stair side")


def test_where_no_wall_lies_on_a_side_a_corner_is_named():
    corners = [(0, 60, None), (120, 0, None), (240, 60, "right"), (240, 186, "screen"),
               (0, 186, "left")]  # fmt: skip
    text = cornered(corners).replace('wall = "back"', 'wall = "screen"')
    assert read(text).room.back_wall == "rearmost corner"


def test_a_rectangle_has_no_outline_of_its_own():
    assert read(EVERY_KEY).room.walls == ()


def test_width_and_depth_may_be_written_again_where_they_agree():
    assert read(cornered(room='width = "20 ft"\ndepth = "15.5 ft"\n')).room.width_m == inch(240)
    told = words_of(cornered(room='width = "19 ft"\n'))
    assert "width: this is 19 ft, but the corners reach 20 ft" in told


@pytest.mark.parametrize(
    ("corners", "words"),
    [
        (BAY[:2], "corner: 2 corners are no room that is planned; 3 to 100 are wanted"),
        ([(6, 0, None), (240, 0, None), (240, 186, None)],
         "corner 1: from_left: this is the leftmost corner, and from_left counts from it: "
         "take 6 in off from_left of every corner"),
        ([(0, 0, None), (240, -9, None), (240, 186, None)],
         "corner 2: from_back: this is the rearmost corner, and from_back counts from it: "
         "add 9 in to from_back of every corner"),
        ([(0, 0, None), (240, 0, None), (240, 0, None), (240, 186, None)],
         "corner 2: corner 3 is at the same place, or nearly; every corner is written once"),
        ([(0, 0, None), (240, 186, None), (240, 0, None), (0, 186, None)],
         "lie in one line, or the walls take back"),
        ([(0, 0, None), (120, 60, None), (240, 120, None)], "lie in one line"),
        ([(0, 0, "bay"), (240, 186, None), (240, 0, None), (0, 150, None)],
         "the wall 'bay' and wall 3 cross or touch; write the corners one after the other"),
        ([(0, 0, None), (240, 0, None), (240, 186, None), (240, 90, None), (0, 90, None)],
         "cross or touch"),
        ([(0, 0, "bay"), (240, 0, "bay"), (240, 186, None)],
         "the wall at corner 1 is called 'bay' too; give one of them another name"),
        ([(0, 0, "wall 2"), (240, 0, None), (240, 186, None)],
         "corner 2: the wall at corner 1 is called 'wall 2' too"),
        ([(0, 0, "all"), (240, 0, None), (240, 186, None)], "'all' is kept for other things"),
        ([(0, 0, "a/b"), (240, 0, None), (240, 186, None)],
         "a name has letters, digits, spaces and - _ . only"),
        ([(0, 0, "left"), (240, 0, None), (240, 186, None)],
         "a wall called 'left' is the leftmost one, and runs square to the room, since from_left "
         "counts from it"),
    ],
)  # fmt: skip
def test_corners_that_are_no_room_are_refused(corners, words):
    text = cornered(corners).replace('wall = "right"\nfrom_back', 'wall = "wall 2"\nfrom_back')
    assert words in words_of(text)


def test_one_table_of_corners_is_told_to_be_a_list():
    told = words_of(swapped('width = "20 ft"', '[room.corner]\nfrom_left = "0 ft"'))
    assert "room: corner: write [[room.corner]], with two brackets, once for each corner" in told


def test_a_room_with_neither_size_nor_corners_says_both_ways():
    told = words_of(swapped('width = "20 ft"', "#"))
    assert 'width is missing: the length of the back wall, such as "20 ft"; or write' in told


@pytest.mark.parametrize(
    ("wall", "place", "start", "end"),
    [
        ("right", 'from_back = "11 ft"', 132, 164),
        ("right", 'from_screen = "11 ft"', 186 - 132 - 32, 186 - 132),
        # Counter-clockwise, the screen wall runs from the right to the left, and the left wall
        # from the front to the back.
        ("screen", 'from_left = "8 ft"', 240 - 96 - 32, 240 - 96),
        ("screen", 'from_corner = "4 ft"', 48, 80),
        ("left", 'from_back = "1 ft"', 144 - 12 - 32, 144 - 12),
        ("wall 5", 'from_left = "1 ft"', 48 - 12 - 32, 48 - 12),
        ("wall 5", 'from_corner = "1 in"', 1, 33),
        ("bay", 'from_corner = "6 in"', 6, 38),
    ],
)
def test_a_door_is_counted_from_the_start_of_its_wall(wall, place, start, end):
    (door,) = read(with_door(cornered(), wall, place)).doors
    assert (door.wall, door.start_m, door.end_m) == (wall, inch(start), inch(end))


def test_from_corner_counts_from_where_the_wall_is_written_whichever_way_round():
    corners = [(0, 0, "left"), (0, 186, "screen"), (240, 186, "right"), (240, 0, "back")]
    (door,) = read(with_door(cornered(corners), "left", 'from_corner = "1 ft"')).doors
    # The file goes clockwise from the back; counter-clockwise the left wall starts at the screen.
    assert (door.start_m, door.end_m) == (inch(186 - 12 - 32), inch(186 - 12))


@pytest.mark.parametrize(
    ("wall", "place", "words"),
    [
        ("boy", 'from_left = "1 ft"', "did you mean \"bay\"?"),
        ("bay", 'from_back = "12 ft"', "the wall 'bay' runs at a slant, so this does not place a "
         "door on it; write from_corner, along the wall from the corner where it is written, 6 ft "
         "from_left and 15 ft 6 in from_back"),
        ("bay", "#", "from_corner is missing: along the wall 'bay' from the corner"),
        # The wall is sqrt(24^2 + 42^2) = 48.37 in long.
        ("bay", 'from_corner = "17 in"',
         "this reaches 5/8 in past the end of the wall 'bay', which is 4 ft 0 3/8 in long"),
        ("wall 5", 'from_left = "2 ft"', "this reaches 8 in past the end of wall 5, which runs "
         "from 0 in to 4 ft from_left"),
        ("wall 5", 'from_back = "2 ft"', "this does not place a door on wall 5; from_left or "
         "from_right does"),
        ("left", 'from_back = "11 ft"', "past the end of the wall 'left', which runs from 0 in to "
         "12 ft from_back"),
        ("left", 'from_back = "1 ft"\nfrom_corner = "1 ft"',
         "from_corner is written too; one of the two is wanted"),
        ("left", "#", "from_back or from_screen is missing, or from_corner"),
    ],
)  # fmt: skip
def test_a_place_that_is_not_on_the_wall_is_refused(wall, place, words):
    assert words in words_of(with_door(cornered(), wall, place))


def test_from_corner_wants_corners():
    told = words_of(with_door(EVERY_KEY, "left", 'from_corner = "1 ft"'))
    assert "this room is given by its width and depth; write from_left" in told


def test_what_lies_outside_the_walls_is_refused():
    inside = swapped('from_left = "0 ft"\nfrom_back = "7 ft"',
                     'from_left = "0 ft"\nfrom_back = "14 ft"', cornered())  # fmt: skip
    assert "column': it lies wholly outside the room's walls" in words_of(inside)
    floor = cornered().replace('wall = "back"\nfrom_left = "9 ft" ',
                               'from_left = "1 ft"\nfrom_back = "14 ft" ')  # fmt: skip
    floor = floor.replace('height = "16 in"  ', "")
    assert "outlet 'W1': it lies outside the room's walls" in words_of(floor)
    row = swapped('headrest_to_wall = "14 in"', 'headrest_to_wall = "14 ft"', cornered())
    row = swapped('center_from_left = "10 ft"', 'center_from_left = "1 ft"', row)
    assert "the middle of the row is outside the room's walls" in words_of(row)


def test_a_wall_nearer_behind_a_row_is_said():
    corners = [(0, 12, None), (200, 12, "right wall"), (200, 0, None), (240, 0, "right"),
               (240, 186, "screen"), (0, 186, "left")]  # fmt: skip
    spec = read(with_door(cornered(corners), "right", 'from_back = "11 ft"')
                .replace('wall = "back"', 'wall = "wall 1"'))  # fmt: skip
    told = [said.words for said in spec.assumed if said.subject == "row A"]
    assert told == [
        "headrest_to_wall counts from the rearmost wall (wall 3); straight behind the row's middle "
        "wall 1 stands 1 ft nearer"
    ]


@settings(max_examples=25, deadline=None)
@given(
    st.integers(1, 140), st.integers(1, 180), st.integers(0, 1000).map(lambda n: Fraction(n, 1001))
)
@pytest.mark.published(source="Pythagoras: along a slanted wall", standing="derived")
def test_an_outlet_on_a_slanted_wall_is_on_it_and_never_outside(across: int, ahead: int, share):
    corners = [(0, 0, "back"), (240, 0, "right"), (240, 186, "screen"), (across, 186, "slant"),
               (0, 186 - ahead, "left")]  # fmt: skip
    length = math.hypot(across, ahead)
    along = round(float(share) * length * 64) / 64
    text = cornered(corners).replace('from_left = "0 ft"\nfrom_back = "7 ft"',
                                     'from_left = "19 ft"\nfrom_back = "7 ft"')  # fmt: skip
    text = text.replace(
        'wall = "back"\nfrom_left = "9 ft" ', f'wall = "slant"\nfrom_corner = "{along:.6f} in" '
    )
    spec = read(text.replace('"0.000000 in', '"0 in'))
    outlet = spec.outlets[0]
    wall: WallLine = spec.room.line("slant")
    run = (wall.end[0] - wall.start[0], wall.end[1] - wall.start[1])
    off = (outlet.x_m - wall.start[0], outlet.y_m - wall.start[1])
    inward_m = (run[0] * off[1] - run[1] * off[0]) / math.hypot(*run)
    assert 0.0 <= inward_m < 3e-6
    assert math.hypot(*off) == pytest.approx(along * 0.0254, abs=4e-6)
