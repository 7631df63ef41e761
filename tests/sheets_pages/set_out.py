"""Whoever sets rows out from the printed page alone, with a tape and a square: plain arithmetic."""

import math
import re
from dataclasses import replace
from fractions import Fraction
from typing import NamedTuple

from sample_plan import sample_plan
from support import inch

from powerplan.engineering.seating.poses import seat_rows
from powerplan.model.plan import PlacedChair, Plan
from powerplan.model.spec import Piece, PlanSpec, Row
from powerplan.sheets.off_walls import to_finish
from powerplan.sheets.pages.print_rows import set_rows
from powerplan.sheets.pages.print_setting import setting_out
from powerplan.sheets.parts import Items, Table

Spot = tuple[float, float]
_NUMBER = re.compile(r"(?:(\d+) ft ?)?(?:(?:(\d+) )?(?:(\d+)/(\d+) )?in|(?:(\d+) )in)?")
LENGTH = r"-?(?:\d+ ft(?: \d+(?: \d+/\d+)? in)?|\d+(?: \d+/\d+)? in|\d+/\d+ in|\d+ mm)"


class Corner(NamedTuple):
    """A rear corner as set out, and by how much rounding may have moved it. [m]"""

    at: Spot
    within_m: float


def seated_plan(spec: PlanSpec) -> Plan:
    """A plan of a room with its chairs in it and nothing else."""
    chairs = tuple(
        PlacedChair(
            id=chair.id,
            row=chair.row,
            seat=chair.seat,
            x_m=chair.x_m,
            y_m=chair.y_m,
            angle_rad=chair.angle_rad,
            input_a=1.0,
            continuous_a=1.0,
            circuit=None,
            fed_by=None,
            volts=None,
            drop_percent=None,
        )
        for row in seat_rows(spec)
        for chair in row.chairs
    )
    return replace(sample_plan(), spec=spec, chairs=chairs, boxes=(), cords=(), zones=())


def read_m(words: str) -> float:
    """A printed length."""
    if words.startswith("-"):
        return -read_m(words[1:])
    if words.endswith(" mm"):
        return float(words[:-3]) / 1000
    found = _NUMBER.fullmatch(words)
    assert found, words
    feet, whole, part, of, _ = found.groups()
    inches = Fraction(int(feet or 0) * 12 + int(whole or 0))
    inches += Fraction(int(part), int(of)) if part else 0
    return inch(inches)


def said(plan: Plan) -> str:
    """All that is said in lists about what is chalked."""
    plan = to_finish(plan)
    parts = setting_out(set_rows(plan), plan)
    return " ".join(text for part in parts if isinstance(part, Items) for text in part.items)


def off_m(words: str) -> float:
    """How far ahead of a line something is printed to be."""
    if words == "on it":
        return 0.0
    length, _, side = words.rpartition(" ")
    return read_m(length) if side == "ahead" else -read_m(length)


def tables(plan: Plan) -> dict[str, Table]:
    """Every table of what is chalked, by the first words of its caption."""
    plan = to_finish(plan)
    found = [part for part in setting_out(set_rows(plan), plan) if isinstance(part, Table)]
    return {" ".join(table.caption.split()[:3]): table for table in found}


def face_m(words: str, plan: Plan, other: Spot) -> tuple[int, float]:
    """The axis of a face that is named, and where on it a level tape from a place meets it."""
    room = plan.spec.room
    name = words.removesuffix(" (it slants)")
    edge = re.fullmatch(r"(left|right|back|front) edge of riser (.+)", name)
    if edge:
        rect = next(riser.rect for riser in plan.spec.risers if riser.id == edge.group(2))
        axis = 0 if edge.group(1) in ("left", "right") else 1
        return axis, getattr(rect, f"{edge.group(1)}_m")
    for wall in room.walls:
        if wall.label == name:
            (x, y), (to_x, to_y) = wall.start, wall.end
            if abs(to_x - x) < 1e-5:
                return 0, x
            if abs(to_y - y) < 1e-5:
                return 1, y
            return 0, x + (to_x - x) * (other[1] - y) / (to_y - y)
    known = {
        room.left_wall: (0, 0.0),
        room.right_wall: (0, room.width_m),
        room.back_wall: (1, 0.0),
        room.screen_wall: (1, room.depth_m),
    }
    return known[name]


def from_faces(told: tuple[str, str], plan: Plan, near: Spot) -> Spot:
    """A place from its two printed distances; ``near`` tells on which side of a face it is."""
    spot = list(near)
    for words in reversed(told):
        found = re.fullmatch(rf"({LENGTH}) (from|past) the (.*)", words)
        assert found, words
        axis, at = face_m(found.group(3), plan, (spot[0], spot[1]))
        away = read_m(found.group(1))
        spot[axis] = at + math.copysign(away, near[axis] - at)
    return (spot[0], spot[1])


def corners_of(plan: Plan, row: Row, step_m: float) -> dict[str, tuple[Corner, Corner]]:
    """The rear corners of all that stands in a row that is no plain one, from the page."""
    printed = tables(plan)
    if row.angle_rad == 0.0 and row.curve is None:
        line = next(r for r in printed["The chalk line"].rows if r[0] == row.id)
        y = read_m(line[1])
        left, right = (_square_end(text, y, plan) for text in line[-2:])
    else:
        left, right, long_m = ends_of(plan, row)
        assert abs(math.dist(left, right) - long_m) <= 2.0 * step_m
    found: dict[str, tuple[Corner, Corner]] = {}
    if row.curve is None:
        for line in printed["What stands along"].rows:
            if line[0] == row.id:
                sides = ((read_m(line[3]), off_m(line[6])), (read_m(line[5]), off_m(line[6])))
                found[line[1]] = _both(left, right, sides, step_m)
        return found
    marks = [line for line in printed["The chalk arc:"].rows if line[0] == row.id]
    for name, spots in _between_marks(marks).items():
        found[name] = _both(left, right, spots, step_m)
    others = printed.get("The rear corners")
    for line in () if others is None else others.rows:
        if line[0] == row.id:
            found[line[1]] = _both(left, right, (_spot(line[3]), _spot(line[4])), step_m)
    return found


def _between_marks(lines: list[tuple[str, ...]]) -> dict[str, tuple[Spot, Spot]]:
    """The marks at both sides of each thing on an arc."""
    at_left: dict[str, Spot] = {}
    at_right: dict[str, Spot] = {}
    for line in lines:
        spot, name = (read_m(line[2]), off_m(line[3])), line[1]
        if name.endswith(", its left side"):
            at_left[name.removesuffix(", its left side")] = spot
        elif name.endswith(", its right side"):
            at_right[name.removesuffix(", its right side")] = spot
        else:
            one, other = name.split(" / ")
            at_right[one], at_left[other] = spot, spot
    return {name: (spot, at_right[name]) for name, spot in at_left.items()}


def _both(
    left: Spot, right: Spot, spots: tuple[Spot, Spot], step_m: float
) -> tuple[Corner, Corner]:
    one, other = (_corner(left, right, spot, step_m) for spot in spots)
    return (one, other)


def ends_of(plan: Plan, row: Row) -> tuple[Spot, Spot, float]:
    """The two ends of the line of a row that is turned or on an arc, and how far they are apart."""
    (set_row,) = [one for one in set_rows(plan) if one.id == row.id]
    both = [line for line in tables(plan)["The two ends"].rows if line[0] == row.id]
    left = from_faces(both[0][2:4], plan, set_row.chalk.left)
    right = from_faces(both[1][2:4], plan, set_row.chalk.right)
    return left, right, read_m(both[0][4])


def _square_end(text: str, y: float, plan: Plan) -> Spot:
    """An end of a line that runs side to side."""
    if " from the " not in text:
        return (read_m(text), y)
    length, _, name = text.partition(" from the ")
    return (face_m(name, plan, (0.0, y))[1] + read_m(length), y)


def _spot(text: str) -> Spot:
    along, _, off = text.partition(", ")
    if along.endswith(" beyond the left end"):
        return (-read_m(along.removesuffix(" beyond the left end")), off_m(off))
    return (read_m(along.removesuffix(" along")), off_m(off))


def _corner(left: Spot, right: Spot, spot: Spot, step_m: float) -> Corner:
    """Set off from the line between two marks; each number is half a step wrong at most.

    The two ends are each out by sqrt(2) half steps at most, so a place on the line between them is
    too, and the line turns by twice that over its length.
    """
    long_m = math.dist(left, right)
    way = ((right[0] - left[0]) / long_m, (right[1] - left[1]) / long_m)
    along, ahead = spot
    at = (
        left[0] + along * way[0] - ahead * way[1],
        left[1] + along * way[1] + ahead * way[0],
    )
    half_m = math.sqrt(2) * step_m / 2
    beyond = max(0.0, -along, along - long_m)
    lever = (abs(ahead) + beyond) / (long_m - 2 * half_m)
    return Corner(at, half_m * (2 + 2 * lever) + 1e-5)


def true_corners(plan: Plan, row: Row) -> dict[str, tuple[Spot, Spot]]:
    """The rear corners of a row's chairs, from the record, by a rotation written out."""
    found: dict[str, tuple[Spot, Spot]] = {}
    pieces = row.pieces
    chairs = sorted((c for c in plan.chairs if c.row == row.id), key=lambda c: c.seat)
    seats = [n for n, piece in enumerate(pieces) if piece.what == "seat"]
    for number, chair in enumerate(chairs):
        kind = plan.spec.chair(row.chair)
        halves = [kind.seat_width_m / 2 + kind.arm_width_m] * 2
        if pieces:
            kind = plan.spec.chair(pieces[seats[number]].kind or "")
            halves = [_half_m(pieces, seats[number], step) for step in (-1, 1)]
        else:
            for side, beyond in ((0, number > 0), (1, number + 1 < len(chairs))):
                if beyond:
                    pair = (number, number + 1) if side == 0 else (number + 1, number + 2)
                    arm = 0.0 if pair in row.no_arm_between else kind.arm_width_m / 2
                    halves[side] = kind.seat_width_m / 2 + arm
        sine, cosine = math.sin(chair.angle_rad), math.cos(chair.angle_rad)
        left, right = (
            (
                chair.x_m + u * cosine - kind.rear_of_base_m * sine,
                chair.y_m + u * sine + kind.rear_of_base_m * cosine,
            )
            for u in (-halves[0], halves[1])
        )
        found[chair.id] = (left, right)
    return found


def _half_m(pieces: tuple[Piece, ...], seat: int, step: int) -> float:
    half = pieces[seat].width_m / 2
    near, far = seat + step, seat + 2 * step
    if not 0 <= near < len(pieces) or pieces[near].what != "arm":
        return half
    shared = 0 <= far < len(pieces) and pieces[far].what == "seat"
    return half + pieces[near].width_m * (0.5 if shared else 1.0)
