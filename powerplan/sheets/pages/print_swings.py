"""Places of a turned or curved row, as they are taped from what is chalked for it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import partial
from itertools import combinations
from typing import NamedTuple

from powerplan.model.geometry import Point
from powerplan.model.lengths import at_mark_m, length_text
from powerplan.model.plan import Plan
from powerplan.model.spec import Wall
from powerplan.sheets.keep_off import Side
from powerplan.sheets.pages.print_rows import SetRow
from powerplan.sheets.pages.print_tape import Told, tape_text, told_at
from powerplan.sheets.stands import Stand
from powerplan.sheets.words import FINE, wall_name

STRAIGHT_M = 0.0008
"""What is less than this off a line is on it: less than half a mark of any tape."""

# As far as the short leg of a framing square reaches, and a little past the ends of a base.
_SQUARE_M, _PAST_M = 0.41, 0.31
# A tape is swung from marks no farther than an arm and a half reaches; two tapes that meet at less
# than 30 degrees cross too flatly to mark.
_NEAR_M, _FAR_M, _LEAST_SINE = 0.15, 2.0, 0.5
_ALONG_ROW = 0.7
_FROM_RIGHT = 0.7
_BEST = 8


class Taped(NamedTuple):
    """A place by two measures in words, where they lead to, and whether rounding keeps it off all
    it should; ``swung`` where both are swung from marks. [m]"""

    first: str
    second: str
    at: Point
    safe: bool
    swung: bool = False

    @property
    def words(self) -> str:
        """Both measures in one phrase."""
        if not self.second:
            return self.first
        return f"{self.first}{' and ' if self.swung else ', '}{self.second}"


class _Mark(NamedTuple):
    """A place that is chalked and named, and which way its chair looks. [m, rad]"""

    name: str
    at: Point
    angle_rad: float


def taped(point: Point, row: SetRow, sides: tuple[Side, ...], plan: Plan) -> Taped:
    """Return a place as it is taped: square off a rear line that is near, else where two tapes
    from two marks meet, else from two walls.

    Parameters
    ----------
    point : Point
        The place. [m]
    row : SetRow
        A row that is turned or curved.
    sides : tuple of Side
        What its rounding keeps to. [m]
    plan : Plan
        For walls and units.
    """
    units = plan.spec.project.units
    near = _off_arc(point, row, sides, units) if row.curved else _off_line(point, row, sides, units)
    flat = None
    if near is not None:
        if near.safe:
            return near
        flat = near
    swung = next((one for one in _swings(point, row, sides, units) if one.safe), None)
    return swung or flat or _off_walls(point, sides, plan)


def _off_line(point: Point, row: SetRow, sides: tuple[Side, ...], units: str) -> Taped | None:
    """Square off the line of a turned row, from the nearest chair's middle on it."""
    if abs(row.chalk.place(point)[1]) > _SQUARE_M:
        return None
    told = told_at(row.chalk.place(point), lambda u, v: row.chalk.at(u, v), sides, units)
    assert told is not None
    along_m, ahead_m = told.lengths_m
    marks = [(at_mark_m(row.chalk.place((c.x_m, c.y_m))[0], units), c.id) for c in row.chairs]
    middle_m, name = min(marks, key=lambda mark: (abs(mark[0] - along_m), mark[0]))
    if abs(along_m - middle_m) > _FAR_M:
        return None
    off = from_line(ahead_m, units)
    return Taped(off, aside(along_m - middle_m, f"{name}'s middle", units), told.at, told.safe)


def _off_arc(point: Point, row: SetRow, sides: tuple[Side, ...], units: str) -> Taped | None:
    """Square off the rear line of the nearest base on an arc, from the nearer of its corners."""
    found = []
    for one in row.stands:
        right_m, ahead_m = one.place(point)
        left, right = one.sides_m(one.rear_m)
        past_m = max(left - right_m, right_m - right, 0.0)
        if abs(ahead_m - one.rear_m) <= _SQUARE_M and past_m <= _PAST_M:
            # from the left corner, so that alike chairs are measured alike, but near the right one
            far = right_m - left > (right - left) * _FROM_RIGHT
            nearer = (right, "right") if far else (left, "left")
            found.append((round(past_m, 6), round(abs(ahead_m - one.rear_m), 6), one, *nearer))
    if not found:
        return None
    _, _, one, side_m, name = min(found, key=lambda near: near[:2])
    told = _square(one, side_m, point, sides, units)
    along_m, off_m = told.lengths_m
    line = f"{one.name}'s rear line"
    off = f"on {line}" if abs(off_m) < STRAIGHT_M else f"{_off(off_m, units)} {line}"
    return Taped(off, aside(along_m, f"its {name} rear corner", units), told.at, told.safe)


def _square(one: Stand, side_m: float, point: Point, sides: tuple[Side, ...], units: str) -> Told:
    right_m, ahead_m = one.place(point)
    lengths = (right_m - side_m, ahead_m - one.rear_m)
    told = told_at(lengths, lambda u, v: one.at(side_m + u, one.rear_m + v), sides, units)
    assert told is not None
    return told


def _swings(point: Point, row: SetRow, sides: tuple[Side, ...], units: str) -> Iterator[Taped]:
    """Where two tapes meet, the best crossing first."""
    pairs = []
    for left, right in combinations(_marks(row), 2):
        far = (math.dist(left.at, point), math.dist(right.at, point))
        if not all(_NEAR_M <= one <= _FAR_M for one in far) or not _seen_alike(left, right):
            continue
        sine = abs(_turn(left.at, right.at, point)) / (far[0] * far[1])
        if sine >= _LEAST_SINE:
            pairs.append((round(sum(far) / sine**2, 6), left, right, far))
    pairs.sort(key=lambda pair: (pair[0], pair[1].name, pair[2].name))
    for _, left, right, far in pairs[:_BEST]:
        behind = _turn(left.at, right.at, point) < 0.0
        told = told_at(far, partial(_meet, left.at, right.at, behind), sides, units)
        if told is None:
            continue
        first, second = (
            f"{tape_text(length_m, units)} from {mark.name}"
            for length_m, mark in zip(told.lengths_m, (left, right), strict=True)
        )
        side = "behind" if behind else "ahead of"
        yield Taped(first, f"{second}, {side} both", told.at, told.safe, swung=True)


def _marks(row: SetRow) -> tuple[_Mark, ...]:
    """What is chalked for a row: both rear corners on an arc, sides and middles on a line."""
    found = []
    for one in row.stands:
        left, right = one.sides_m(one.rear_m)
        spots = [(left, "left rear corner"), (right, "right rear corner")]
        if not row.curved:
            spots = [(left, "left side"), (0.0, "middle"), (right, "right side")]
        for side_m, name in spots:
            at = one.at(side_m, one.rear_m)
            if not row.curved:  # a table's or another kind's rear may be off the line
                at = row.chalk.at(row.chalk.place(at)[0], 0.0)
            found.append(_Mark(f"{one.name}'s {name}", at, one.angle_rad))
    return tuple(found)


def _seen_alike(left: _Mark, right: _Mark) -> bool:
    """Whether both chairs see one mark left of the other, so that behind is behind for both."""
    long_m = math.dist(left.at, right.at)
    if long_m < _NEAR_M:
        return False
    across = ((right.at[0] - left.at[0]) / long_m, (right.at[1] - left.at[1]) / long_m)
    return all(
        across[0] * math.cos(mark.angle_rad) + across[1] * math.sin(mark.angle_rad) >= _ALONG_ROW
        for mark in (left, right)
    )


def _turn(left: Point, right: Point, point: Point) -> float:
    """Twice the area between three places; negative where the last is behind the others. [m2]"""
    return (right[0] - left[0]) * (point[1] - left[1]) - (right[1] - left[1]) * (point[0] - left[0])


def _meet(left: Point, right: Point, behind: bool, one_m: float, other_m: float) -> Point | None:
    """Where two tapes of these lengths meet; None where they do not."""
    long_m = math.dist(left, right)
    along_m = (one_m**2 - other_m**2 + long_m**2) / (2 * long_m)
    square = one_m**2 - along_m**2
    if square <= 0.0:
        return None
    off_m = math.sqrt(square) * (-1.0 if behind else 1.0)
    right_m, ahead_m = ((right[axis] - left[axis]) / long_m for axis in (0, 1))
    return (
        left[0] + along_m * right_m - off_m * ahead_m,
        left[1] + along_m * ahead_m + off_m * right_m,
    )


def _off_walls(point: Point, sides: tuple[Side, ...], plan: Plan) -> Taped:
    told = told_at(point, lambda x, y: (x, y), sides, plan.spec.project.units)
    assert told is not None
    deep, across = from_walls(told.at, plan)
    return Taped(deep, across, told.at, told.safe)


def from_walls(point: Point, plan: Plan) -> tuple[str, str]:
    """Return a place from the nearer of the back and screen walls, and of the left and right."""
    pairs = ((Wall.BACK, Wall.SCREEN), (Wall.LEFT, Wall.RIGHT))
    first, second = (from_a_wall(point, pair, plan) for pair in pairs)
    return (first, second)


def from_a_wall(point: Point, pair: tuple[Wall, Wall], plan: Plan) -> str:
    """Return a distance from the nearer of two walls that face each other. [m]"""
    room, units = plan.spec.room, plan.spec.project.units
    across = Wall.LEFT in pair
    near_m = point[0 if across else 1]
    far_m = (room.width_m if across else room.depth_m) - near_m
    wall = pair[0] if near_m <= far_m else pair[1]
    away = length_text(min(near_m, far_m), units, step=FINE)
    return f"{away} from the {wall_name(room, wall)}"


def from_line(ahead_m: float, units: str) -> str:
    """Return how far ahead of a line something is, or behind it. [m]"""
    return "on the line" if abs(ahead_m) < STRAIGHT_M else f"{_off(ahead_m, units)} the line"


def aside(right_m: float, mark: str, units: str) -> str:
    """Return how far right or left of a mark something is. [m]"""
    if abs(right_m) < STRAIGHT_M:
        return f"at {mark}"
    return f"{tape_text(abs(right_m), units)} {'right' if right_m > 0 else 'left'} of {mark}"


def _off(ahead_m: float, units: str) -> str:
    return f"{tape_text(abs(ahead_m), units)} {'ahead of' if ahead_m > 0 else 'behind'}"
