"""From the words of a place every bend of a cord is found again where the plan has it."""

import math
import re

import pytest
from any_rooms import any_rooms, rules_of
from hypothesis import given, settings
from row_rooms import row_rooms
from set_out import LENGTH, read_m
from support import NEC, inch

from powerplan.model.plan import Plan
from powerplan.model.spec import Room
from powerplan.planning.pipeline import make_plan
from powerplan.sheets.pages.print_places import place_words
from powerplan.sheets.pages.print_rows import SetRow, set_rows
from powerplan.sheets.pages.print_ways import row_of

Spot = tuple[float, float]


def found_at(words: str, row: SetRow, plan: Plan) -> Spot:
    """A place from its words: from walls, from the line and a chair's middle, or from a corner."""
    room = plan.spec.room
    walls = {"left": (0, 0.0), "right": (0, room.width_m), "back": (1, 0.0)}
    walls["screen"] = (1, room.depth_m)
    named = {_label(room, side): (side, *axis) for side, axis in walls.items()}
    line: Spot | None = None
    fixed: dict[int, float] = {}
    along = ahead = None
    last: tuple[str, str] = ("", "")
    for part in words.split(", "):
        if part == "on the line":
            ahead = 0.0
        elif found := re.fullmatch(rf"({LENGTH}) (ahead of|behind) the line", part):
            ahead = read_m(found[1]) * (1 if found[2] == "ahead of" else -1)
        elif found := re.fullmatch(r"at (\S+)'s middle", part):
            along = (found[1], 0.0)
        elif found := re.fullmatch(rf"({LENGTH}) (left|right) of (\S+)'s middle", part):
            along = (found[3], read_m(found[1]) * (1 if found[2] == "right" else -1))
        elif found := re.fullmatch(rf"({LENGTH}) from the (.+)", part):
            side, axis, at = named[found[2]]
            fixed[axis] = at + read_m(found[1]) * (1 if side in ("left", "back") else -1)
        else:
            last = _corner_part(part, last)
            line = _from_corner(part, last, line, row)
    if line is not None:
        return line
    return _put_together(fixed, along, ahead, row)


def _label(room: Room, side: str) -> str:
    walls = {line.id: line.label for line in room.lines}
    return walls.get(side, str(getattr(room, f"{side}_wall")))


def _corner_part(part: str, last: tuple[str, str]) -> tuple[str, str]:
    found = re.search(r"(\S+)'s (left|right) rear corner", part)
    return (found[1], found[2]) if found else last


def _from_corner(part: str, corner: tuple[str, str], at: Spot | None, row: SetRow) -> Spot:
    one = next(stand for stand in row.stands if stand.name == corner[0])
    sine, cosine = math.sin(one.angle_rad), math.cos(one.angle_rad)
    if at is None:
        side = -one.left_m if corner[1] == "left" else one.right_m
        at = (
            one.x_m + side * cosine - one.rear_m * sine,
            one.y_m + side * sine + one.rear_m * cosine,
        )
    found = re.match(rf"({LENGTH}) (ahead|behind|left|right)", part)
    if not found:
        assert part.startswith("at "), part
        return at
    far = read_m(found[1]) * (1 if found[2] in ("ahead", "right") else -1)
    if found[2] in ("left", "right"):
        return (at[0] + far * cosine, at[1] + far * sine)
    return (at[0] - far * sine, at[1] + far * cosine)


def _put_together(
    fixed: dict[int, float], along: tuple[str, float] | None, ahead: float | None, row: SetRow
) -> Spot:
    """A place that is told half from the line and half from a wall, or all from either."""
    if 0 in fixed and 1 in fixed:
        return (fixed[0], fixed[1])
    angle = row.row.angle_rad
    sine, cosine = math.sin(angle), math.cos(angle)
    x, y = row.chalk.left
    if along is not None:
        chair = next(chair for chair in row.chairs if chair.id == along[0])
        run = (chair.x_m - x) * cosine + (chair.y_m - y) * sine + along[1]
        if 1 in fixed:
            assert angle == 0.0
            return (x + run, fixed[1])
        assert ahead is not None
        return (x + run * cosine - ahead * sine, y + run * sine + ahead * cosine)
    assert angle == 0.0
    assert ahead is not None
    return (fixed[0], y + ahead)


def check(plan: Plan) -> None:
    rows = set_rows(plan)
    # Two numbers, each half a mark off; the line and a chair's mark are rounded once more.
    step_m = 0.001 if plan.spec.project.units in ("mm", "m") else inch("1/8")
    within_m = math.sqrt(2) * step_m + 0.0012
    for cord in plan.cords:
        row = row_of(cord, rows, plan)
        spots = [*cord.path_m, *cord.tail_m, *([cord.park_m] if cord.park_m else [])]
        for spot in spots:
            words = place_words(spot, row, plan)
            assert math.dist(found_at(words, row, plan), spot) <= within_m, (words, spot)


@settings(max_examples=6)
@given(row_rooms())
def test_every_bend_in_rows_of_every_kind_is_found_from_its_words(spec):
    check(make_plan(spec, NEC, "0" * 64))


@pytest.mark.slow
@settings(max_examples=80)
@given(any_rooms())
def test_every_bend_in_many_rooms_is_found_from_its_words(spec):
    check(make_plan(spec, rules_of(spec), "0" * 64))
