"""Where things are: from any of the four walls, to the near edge."""

import pytest
from plan_texts import read, with_table
from support import inch, rect


@pytest.mark.parametrize(
    ("wall", "key", "start", "end"),
    [
        ("left", "from_back", 12, 44),
        ("right", "from_screen", 186 - 12 - 32, 186 - 12),
        ("back", "from_left", 12, 44),
        ("screen", "from_right", 240 - 12 - 32, 240 - 12),
    ],
)
def test_a_door_is_measured_to_its_near_edge(wall: str, key: str, start: int, end: int):
    text = with_table("door.hall", 'from_back = "11 ft"', f'{key} = "1 ft"')
    text = with_table("door.hall", 'wall = "right"', f'wall = "{wall}"', text)
    door = read(text).doors[0]
    assert (door.wall, door.start_m, door.end_m) == (wall, inch(start), inch(end))


@pytest.mark.parametrize(
    ("wall", "key", "x", "y"),
    [
        ("left", "from_screen", 0, 186 - 12),
        ("right", "from_back", 240, 12),
        ("back", "from_right", 240 - 12, 0),
        ("screen", "from_left", 12, 186),
    ],
)
def test_a_wall_outlet_needs_one_place_along_its_wall(wall: str, key: str, x: int, y: int):
    text = with_table("outlet.W1", 'from_left = "9 ft"', f'{key} = "1 ft"')
    text = with_table("outlet.W1", 'wall = "back"', f'wall = "{wall}"', text)
    outlet = read(text).outlets[0]
    assert (outlet.wall, outlet.x_m, outlet.y_m) == (wall, inch(x), inch(y))


def test_a_floor_outlet_has_two_places_and_no_wall():
    text = with_table("outlet.W1", 'wall = "back"', 'from_screen = "3 ft"')
    outlet = read(with_table("outlet.W1", 'height = "16 in"', "", text)).outlets[0]
    assert (outlet.wall, outlet.x_m, outlet.y_m) == (None, inch(108), inch(150))
    assert outlet.height_m == 0.0


def test_places_from_the_right_and_the_screen_are_to_the_near_edge():
    text = with_table("obstacle.column", 'from_left = "0 ft"', 'from_right = "2 ft"')
    text = with_table("obstacle.column", 'from_back = "7 ft"', 'from_screen = "3 ft"', text)
    assert read(text).obstacles[0].rect == rect(240 - 24 - 12, 186 - 36 - 12, 12, 12)
