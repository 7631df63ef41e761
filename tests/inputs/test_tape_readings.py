"""Readings that the plan does not need: where they are, and what they say of the plan."""

import math

import pytest
from outline_texts import cornered
from plan_texts import EVERY_KEY, faults, read, swapped
from support import NEC, inch

from powerplan.engineering.seating.readings import readings_agree
from powerplan.model.findings import Finding, Outcome


def reading(lines: str, reads: str = "20 ft") -> str:
    """A tape reading."""
    return f'\n[reading.tape]\n{lines}\nreads = "{reads}"\n'


def held(text: str) -> Finding:
    """What came of the only reading of a plan file."""
    (finding,) = readings_agree(read(text), NEC)
    return finding


@pytest.mark.published(
    source="Pythagoras: 20 ft by 15 ft, 25 ft corner to corner", standing="derived"
)
def test_a_diagonal_is_held_to_pythagoras():
    room = EVERY_KEY.replace('depth = "15 ft 6 in"             #', 'depth = "15 ft"  #')
    room = room.replace('depth = "15 ft 6 in"', 'depth = "15 ft"')
    corners = 'between = ["back left", "screen right"]'
    exact = held(room + reading(corners, "25 ft"))
    assert (exact.rule, exact.value, exact.limit) == ("reading-agrees", 0.0, inch("1/2"))
    assert held(room + reading(corners, "25 ft 1/2 in")).outcome is Outcome.MET
    assert held(room + reading(corners, "24 ft 11 1/2 in")).outcome is Outcome.MET
    over = held(room + reading(corners, "25 ft 9/16 in"))
    assert over.outcome is Outcome.NOT_MET
    assert over.stops


def test_a_reading_that_differs_says_by_how_much_and_what_may_be_wrong():
    finding = held(EVERY_KEY + reading('between = ["back left", "back right"]', "19 ft"))
    assert finding.value == pytest.approx(inch(12))
    assert finding.note.startswith(
        "The tape read 19 ft from the back left corner to the back right corner; the plan has "
        "20 ft, so the tape's is 1 ft shorter: one of the two is mistyped, something is measured "
        "from the wrong side (left for right, back for screen)"
    )


@pytest.mark.parametrize(
    ("lines", "start", "end"),
    [
        ('between = ["back left", "screen right"]', (0, 0), (240, 186)),
        ('between = ["corner 4", "corner 6"]', (72, 186), (0, 144)),
        ('between = ["outlet W1", "back left"]', (108, 0), (0, 0)),
        # The nearer side of the opening of the door, which reaches from 132 to 164 in.
        ('between = ["back right", "door hall"]', (240, 0), (240, 132)),
        ('between = ["screen right", "door hall"]', (240, 186), (240, 164)),
        ('from_left = "1 ft"\nfrom_back = "2 ft"\nto_right = "3 ft"\nto_screen = "4 ft"',
         (12, 24), (204, 138)),
    ],
)  # fmt: skip
def test_a_place_is_a_corner_a_door_an_outlet_or_two_distances(lines, start, end):
    (tape,) = read(cornered(more=reading(lines))).readings
    assert tape.start == tuple(map(inch, start))
    assert tape.end == tuple(map(inch, end))


@pytest.mark.parametrize(
    ("lines", "told"),
    [
        ('between = ["back right", "door hall"]',
         "from the back right corner to the nearer edge of door hall"),
        ('between = ["corner 4", "outlet W1"]', "from corner 4 to outlet W1"),
        ('from_left = "1 ft"\nfrom_back = "2 ft"\nto_right = "3 ft"\nto_screen = "4 ft"',
         "from the place 1 ft from the left and 2 ft from the back to the place 3 ft from the "
         "right and 4 ft from the screen"),
    ],
)  # fmt: skip
def test_both_ends_of_a_reading_are_told_as_they_are_looked_for(lines, told):
    (tape,) = read(cornered(more=reading(lines))).readings
    assert tape.ends == told


def test_readings_to_the_studs_are_from_stud_to_stud():
    room = 'measured_to = "studs"\nbuild_up = { all = "1 in", left = "2 in" }\n'
    for lines, plan_in in (
        ('between = ["back left", "screen right"]', math.hypot(240, 186)),
        ('between = ["back left", "outlet W1"]', 108),
        ('between = ["back left", "door hall"]', math.hypot(240, 132)),
        ('between = ["screen right", "door hall"]', 186 - 164),
        ('from_left = "0 in"\nfrom_back = "0 in"\nto_left = "3 in"\nto_back = "4 in"', 5),
    ):
        more = reading(lines, f"{plan_in:.4f} in")
        for text in (swapped("[room]\n", "[room]\n" + room) + more, cornered(room=room, more=more)):
            assert held(text).value == pytest.approx(0.0, abs=5e-6), lines


def test_an_outlet_from_the_wrong_side_is_caught_and_a_diagonal_catches_no_mirror():
    wrong = swapped('from_left = "9 ft"  ', 'from_right = "9 ft"  ')
    outlet = reading('between = ["back left", "outlet W1"]', "9 ft")
    assert held(EVERY_KEY + outlet).outcome is Outcome.MET
    assert held(wrong + outlet).outcome is Outcome.NOT_MET
    for corners in ('["back left", "screen right"]', '["back right", "screen left"]'):
        diagonal = reading(f"between = {corners}", "25.30283 ft")
        assert held(wrong + diagonal).outcome is Outcome.MET


@pytest.mark.parametrize(
    ("lines", "words"),
    [
        ('between = ["back left"]', "two places are wanted, such as"),
        ('between = "back left"', "a list such as"),
        ('between = ["back left", "outlet W2"]', "did you mean 'outlet W1'?"),
        ('between = ["back left", "screen left"]',
         "the room has no corner at the screen left; its corners are corner 1, corner 2"),
        ('between = ["back left", "corner 9"]', "'corner 9' is no place that is known"),
        ('between = ["back left", "back left"]', "both ends are the same place"),
        ('between = ["back left", "back right"]\nto_left = "1 ft"', "between is written too"),
        ('from_left = "1 ft"\nto_left = "3 ft"\nto_back = "1 ft"',
         "from_back or from_screen is missing: each end is said from two walls"),
        ('from_left = "1 ft"\nfrom_right = "1 ft"\nfrom_back = "1 ft"', "from_left is written too"),
        ('from_left = "21 ft"\nfrom_back = "1 ft"\nto_left = "3 ft"\nto_back = "1 ft"',
         "this lies past the walls; the room reaches 20 ft there"),
    ],
)  # fmt: skip
def test_a_reading_that_has_no_two_places_is_refused(lines, words):
    told = " | ".join(words for _, words in faults(cornered(more=reading(lines))))
    assert words in told


def test_numbered_corners_want_corners():
    text = EVERY_KEY + reading('between = ["corner 1", "back right"]')
    told = " | ".join(words for _, words in faults(text))
    assert "'corner 1' wants a room with [[room.corner]]" in told


def test_a_reading_beside_an_outlet_that_cannot_be_read_gives_that_fault_alone():
    text = swapped('from_left = "9 ft"  ', 'from_left = "90 ft"  ')
    told = faults(text + reading('between = ["back left", "outlet W1"]'))
    assert len(told) == 1
    assert "past the right wall" in told[0][1]
