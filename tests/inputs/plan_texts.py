"""A plan file with every key in it, and ways to change one line of it."""

import re

from powerplan.inputs.plan_file import read_plan_text
from powerplan.model.errors import PlanFileError
from powerplan.model.spec import PlanSpec
from powerplan.rulebook.loader import rule_set

EVERY_KEY = """\
plan_file = 1

[project]
name  = "Harbour Lane den"
job   = "retrofit"               # or "new"
place = "home, basement"         # home; home, basement; business; assembly
rules = "us-nec-2023"
units = "ft-in"                  # how sheets print: ft-in, in, mm, m

[room]
width = "20 ft"                  # along the back wall
depth = "15 ft 6 in"             # back wall to screen wall
left_wall = "stair side"         # what people on site call it (optional; also right_, back_, ...)

[door.hall]
wall = "right"
from_back = "11 ft"              # to the near edge of the opening
width = "32 in"
swings = "in"                    # in, out, slides

[obstacle.column]
from_left = "0 ft"
from_back = "7 ft"
width = "12 in"                  # left to right
depth = "12 in"                  # back to screen

[walkway.aisle]                  # floor that must stay free of cords
from_right = "0 ft"
from_back = "0 ft"
width = "3 ft"
depth = "15 ft 6 in"

[floor]
build = "joists"                 # joists, slab, unknown
joists_run = "back to screen"    # or "side to side"
spacing = "16 in"
first_joist = "7 1/4 in"         # left wall to the middle of the first joist; or "unknown"
joist_width = "1 1/2 in"
[floor.no_cut.duct]              # heating loop, duct, beam
from_left = "3 ft"
from_back = "2 ft"
width = "14 in"
depth = "6 ft"

[riser.rear]                     # a row on it has its box in the riser deck
from_left = "3 ft"
from_back = "0 ft"
width = "14 ft"
depth = "7 ft 4 in"
height = "10 in"
build = "joists"
joists_run = "side to side"
spacing = "16 in"
first_joist = "unknown"

[chair.club]
seat_width = "23 in"             # between the arms
arm_width = "7 in"
depth = "39 in"                  # back of headrest to front of base, upright
rear_of_base = "4 in"            # back of headrest to the rear of what touches the floor
back_travel = "5 in"             # how far the headrest moves back
reclined_reach = "66 in"         # upright headrest to the end of the footrest, reclined
clear = { from = "9 in", to = "21 in", width = "14 in", height = "3 in" }
arm_gap = "1/4 in"               # floor to underside of arm panel, on the real carpet
rear_gap = "1 1/2 in"            # floor to underside of the rear rail
input = "1.8 A"                  # amperes on the INPUT line of the label
continuous = "0.3 A"
lead = "6 ft"                    # plug to where it leaves the chair
lead_wire = "16 AWG"
coupler = "10 A"                 # least rating of plug, lead and inlet; needed where a chain is
lead_from = { right = "0 in", forward = "10 in" }
chain = { current = "8 A", chairs = 4, link = "4 ft", wire = "16 AWG" }

[row.A]
chair = "club"
seats = 5
headrest_to_wall = "14 in"       # back wall to headrest, upright
center_from_left = "10 ft"       # default: the middle of the room
no_arm_between = [[2, 3]]        # seats counted from the left; these two share a cushion
fastened = false                 # bolted down; "unknown" allowed

[circuit.7]
breaker = "15 A"                 # breaker, wire, home_run may be "unknown"
wire = "14 AWG"
home_run = "48 ft"
already_on_it = { "equipment rack" = "2.5 A, continuous", lamp = "0.5 A" }

[outlet.W1]
circuit = "7"
wall = "back"
from_left = "9 ft"               # a floor outlet has no wall, and from_left with from_back
height = "16 in"                 # adds to the cord
sockets = 2                      # plugs it takes
free = 2
rating = "15 A"

[new_work]                       # left out: the rule set's usual circuit
floor_boxes = true               # false: no cutting
wall_outlets = false             # true: also offer one on the wall behind a row
circuits = 2                     # free spaces in the panel; 0: none
breaker = "20 A"
wire = "12 AWG"
home_run = "60 ft"               # or unknown
sockets_per_box = 2
socket_rating = "15 A"
cut_out = { width = "4 in", depth = "4 in" }
lid = { width = "6 in", depth = "6 in" }
plug_height = "2 1/4 in"         # lid to top of the plug and its bend; 0 for a recessed box

[cords]
lengths = ["3 ft", "6 ft", "9 ft", "12 ft", "15 ft"]
wire = "14 AWG"
diameter = "0.36 in"
extensions = "if needed"         # no; if needed; yes
open_floor = "0 ft"              # how much open floor you accept
"""

LEAST = """\
plan_file = 1
[room]
width = "16 ft"
depth = "14 ft"
[chair.club]
seat_width = "22 in"
arm_width = "6 in"
depth = "38 in"
rear_of_base = "4 in"
back_travel = "5 in"
reclined_reach = "64 in"
input = "1.6 A"
lead = "8 ft"
lead_from = { right = "0 in", forward = "2 in" }
[row.A]
chair = "club"
seats = 3
headrest_to_wall = "10 in"
"""

_KEY = re.compile(r"([a-z_]+)( *= *)(.*?)( *(?:#.*)?)")


def key_places(text: str = EVERY_KEY) -> list[tuple[int, str, str]]:
    """Line, table and key of every key that stands on a line of its own."""
    table, places = "", []
    for number, line in enumerate(text.splitlines(), start=1):
        if line.startswith("["):
            table = line.partition("]")[0].strip("[")
        elif shape := _KEY.fullmatch(line):
            places.append((number, table, shape[1]))
    return places


def changed(changes: dict[int, str], text: str = EVERY_KEY) -> str:
    """The text with some lines replaced."""
    lines = text.splitlines()
    for number, line in changes.items():
        lines[number - 1] = line
    return "\n".join(lines) + "\n"


def swapped(old: str, new: str, text: str = EVERY_KEY) -> str:
    """The text with one passage, which is there once, replaced."""
    assert text.count(old) == 1, old
    return text.replace(old, new)


def with_table(table: str, old: str, new: str, text: str = EVERY_KEY) -> str:
    """The text with one passage replaced in one table."""
    head, mark, rest = text.partition(f"[{table}]")
    inside, bracket, after = rest.partition("\n[")
    assert mark, table
    assert inside.count(old) == 1, old
    return head + mark + inside.replace(old, new) + bracket + after


def line_with(passage: str, text: str) -> int:
    """The line on which a passage, which is there once, starts."""
    assert text.count(passage) == 1, passage
    return text[: text.index(passage)].count("\n") + 1


def read(text: str | bytes, name: str = "den.toml") -> PlanSpec:
    """The spec of a plan text."""
    data = text.encode() if isinstance(text, str) else text
    return read_plan_text(data, name, rule_set).spec


def faults(text: str | bytes) -> list[tuple[int, str]]:
    """Line and words of every fault of a plan text; none where it reads."""
    sentences: tuple[str, ...] = ()
    try:
        read(text)
    except PlanFileError as error:
        sentences = error.faults
    shapes = [re.fullmatch(r"den\.toml:(\d+): (.*)", sentence) for sentence in sentences]
    assert all(shapes), sentences
    return [(int(shape[1]), shape[2]) for shape in shapes if shape]
