"""Places on a row's own floor, told by a tape that crosses no step."""

from __future__ import annotations

import math
from typing import NamedTuple

import shapely

from powerplan.engineering.seating.frames import polygon
from powerplan.model.geometry import Point
from powerplan.model.lengths import at_mark_m, length_text
from powerplan.model.plan import Plan
from powerplan.model.spec import Wall
from powerplan.sheets.levels import Face, faces, level_m
from powerplan.sheets.pages.print_rows import SetRow

_INSIDE_M, _ON_WALL_M = 5e-6, 1e-4
_AHEAD = (Wall.RIGHT, Wall.SCREEN)
_PAIRS = ((Wall.LEFT, Wall.RIGHT), (Wall.BACK, Wall.SCREEN))


class Taped(NamedTuple):
    """A place, and one a hair from it toward the bases, which tells on which floor it is. [m]"""

    at: Point
    seen: Point


def on_floor_of(row: SetRow, at: Point) -> Taped:
    """Return a place with the floor that the bases of its row stand on: a line on the edge of a
    riser is on the floor of its chairs. [m]"""
    middles = [one.at(0.0, (one.rear_m + one.front_m) / 2) for one in row.stands]
    right_m, ahead_m = (
        sum(middle[axis] for middle in middles) / len(middles) - at[axis] for axis in (0, 1)
    )
    share = _INSIDE_M / max(abs(right_m), abs(ahead_m), _INSIDE_M)
    return Taped(at, (at[0] + right_m * share, at[1] + ahead_m * share))


def level_words(place: Taped, side: Wall, plan: Plan) -> str:
    """Return how far a place is from the first face on one side: "3 ft from the left wall".

    Parameters
    ----------
    place : Taped
        The place. [m]
    side : Wall
        Left, right, back or screen.
    plan : Plan
        For the room, its risers and the units.
    """
    face = faces(plan, place.seen)[side]
    return _words(_off_m(place, side, face), face, plan)


def two_walls(place: Taped, plan: Plan) -> tuple[str, str]:
    """Return how far a place is from two faces at right angles, the nearest that do not slant.

    Parameters
    ----------
    place : Taped
        The place. [m]
    plan : Plan
        For the room, its risers and the units.
    """
    across, deep = (_words(off_m, face, plan) for _, off_m, face, _ in _nearest(place, plan))
    return (across, deep)


def _nearest(place: Taped, plan: Plan) -> list[tuple[bool, float, Face, Wall]]:
    """For side to side and back to screen: whether it slants, how far off, and which face is the
    nearest, one that does not slant if there is one. [m]"""
    met = faces(plan, place.seen)
    return [
        min(
            ((met[s].slants, _off_m(place, s, met[s]), met[s], s) for s in pair),
            key=lambda one: (one[0], abs(one[1])),
        )
        for pair in _PAIRS
    ]


def long_told_m(row: SetRow, plan: Plan) -> float:
    """Return how long the line of a row is between its two ends as they are told. [m]"""
    left, right = (
        _told(on_floor_of(row, end), plan, square=row.square)
        for end in (row.chalk.left, row.chalk.right)
    )
    return math.dist(left, right)


def _told(place: Taped, plan: Plan, *, square: bool) -> Point:
    """The place that the words for it lead to: from two walls, or along a line that is square to
    the room from the left one. [m]"""
    found = list(place.at)
    for axis, (_, off_m, face, side) in enumerate(_nearest(place, plan)):
        if square and axis == 0:
            side, face = Wall.LEFT, faces(plan, place.seen)[Wall.LEFT]
            off_m = _off_m(place, side, face)
        told_m = at_mark_m(off_m, plan.spec.project.units)
        found[axis] = face.at_m - told_m if side in _AHEAD else face.at_m + told_m
    return (found[0], found[1])


def one_level(row: SetRow, at: Point, plan: Plan) -> bool:
    """Return True for a place inside the room or on a wall, as high as the row's own floor. [m]"""
    if shapely.distance(polygon(plan.spec.room.outline), shapely.Point(at)) > _ON_WALL_M:
        return False
    ends = (on_floor_of(row, end).seen for end in (row.chalk.left, row.chalk.right))
    return all(level_m(plan, end) == level_m(plan, at) for end in ends)


def _off_m(place: Taped, side: Wall, face: Face) -> float:
    """How far a place is from a face; negative: it is past it. [m]"""
    axis = 0 if side in _PAIRS[0] else 1
    off_m = face.at_m - place.at[axis]
    return off_m if side in _AHEAD else -off_m


def _words(off_m: float, face: Face, plan: Plan) -> str:
    away = length_text(abs(off_m), plan.spec.project.units)
    return f"{away} {'past' if off_m < -_INSIDE_M else 'from'} the {face.words}"
