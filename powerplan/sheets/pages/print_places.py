"""Places on the floor of a row, told from what is chalked there and rounded once, as a tape is."""

from __future__ import annotations

import math
from fractions import Fraction

from powerplan.model.geometry import Point
from powerplan.model.lengths import length_text
from powerplan.model.plan import PlacedChair, Plan
from powerplan.model.spec import Wall
from powerplan.sheets.pages.print_rows import SetRow
from powerplan.sheets.stands import Stand
from powerplan.sheets.words import mark_um, wall_name

STRAIGHT_M = 0.0008
_FAR_M = 1.2


def on_tape_m(length_m: float, units: str) -> float:
    """Return a length at the mark of a tape that it prints as.

    Parameters
    ----------
    length_m : float
        Any length. [m]
    units : str
        ft-in, in, mm or m.
    """
    mark_m = Fraction(mark_um(units), 10**6)
    return float(round(Fraction(length_m) / mark_m) * mark_m)


def spot_of(point: Point, row: SetRow, plan: Plan) -> Point:
    """Return a place along and ahead of a straight row's line, by the measures that are printed.

    Where the row is square to the room both are differences of printed distances from walls; else
    they are what a tape shows from the line's left end and from the line. So what is told of two
    places agrees with what is told of the way between them.

    Parameters
    ----------
    point : Point
        The place. [m]
    row : SetRow
        A straight row.
    plan : Plan
        For the units.

    Returns
    -------
    Point
        Along: from the left wall where the row is square, else from the line's left end. [m]
    """
    units = plan.spec.project.units
    if row.square:
        back_m = on_tape_m(row.chalk.left[1], units)
        return (on_tape_m(point[0], units), on_tape_m(point[1], units) - back_m)
    along_m, ahead_m = row.chalk.place(point)
    return (on_tape_m(along_m, units), on_tape_m(ahead_m, units))


def place_words(point: Point, row: SetRow, plan: Plan) -> str:
    """Return where a place is, from what is chalked for the row: its line and the nearest chair's
    middle on it, or on an arc the nearest rear corner of a chair. [m]"""
    if row.curved:
        return _from_corner(point, row, plan)
    along_m, ahead_m = spot_of(point, row, plan)
    if row.square:
        return f"{_ahead(point, ahead_m, plan)}, {_aside(point, along_m, row, plan)}"
    if abs(ahead_m) > _FAR_M or abs(along_m - _nearest(along_m, row, plan)[0]) > _FAR_M:
        return _from_walls(point, plan)
    units = plan.spec.project.units
    return f"{from_line(ahead_m, units)}, {_off_middle(along_m, row, plan)}"


def bend_words(old: Point, new: Point, row: SetRow, plan: Plan) -> str:
    """Return a place by what is new about it after another. [m]"""
    if row.curved:
        return _from_corner(new, row, plan)
    (along, ahead), (to_along, to_ahead) = (spot_of(at, row, plan) for at in (old, new))
    if row.square and abs(to_along - along) < STRAIGHT_M:
        return _ahead(new, to_ahead, plan)
    if row.square and abs(to_ahead - ahead) < STRAIGHT_M:
        return _aside(new, to_along, row, plan)
    return place_words(new, row, plan)


def from_line(ahead_m: float, units: str) -> str:
    """Return how far ahead of a line something is, or behind it. [m]"""
    if abs(ahead_m) < STRAIGHT_M:
        return "on the line"
    side = "ahead of" if ahead_m > 0 else "behind"
    return f"{length_text(abs(ahead_m), units)} {side} the line"


def off_line(ahead_m: float, units: str) -> str:
    """Return the same in a column that says which line. [m]"""
    if abs(ahead_m) < STRAIGHT_M:
        return "on it"
    return f"{length_text(abs(ahead_m), units)} {'ahead' if ahead_m > 0 else 'behind'}"


def _ahead(point: Point, ahead_m: float, plan: Plan) -> str:
    if abs(ahead_m) > _FAR_M:
        return _from_a_wall(point, (Wall.BACK, Wall.SCREEN), plan)
    return from_line(ahead_m, plan.spec.project.units)


def _aside(point: Point, along_m: float, row: SetRow, plan: Plan) -> str:
    if abs(along_m - _nearest(along_m, row, plan)[0]) > _FAR_M:
        return _from_a_wall(point, (Wall.LEFT, Wall.RIGHT), plan)
    return _off_middle(along_m, row, plan)


def _off_middle(along_m: float, row: SetRow, plan: Plan) -> str:
    """How far along the line a place is from the nearest chair's middle."""
    middle_m, chair = _nearest(along_m, row, plan)
    off_m = along_m - middle_m
    if abs(off_m) < STRAIGHT_M:
        return f"at {chair.id}'s middle"
    side = "right" if off_m > 0 else "left"
    return f"{length_text(abs(off_m), plan.spec.project.units)} {side} of {chair.id}'s middle"


def _nearest(along_m: float, row: SetRow, plan: Plan) -> tuple[float, PlacedChair]:
    """The chair whose middle is nearest along the line, and where that is marked. [m]"""
    marks = [(spot_of((c.x_m, c.y_m), row, plan)[0], c) for c in row.chairs]
    return min(marks, key=lambda mark: (abs(mark[0] - along_m), mark[0]))


def _from_walls(point: Point, plan: Plan) -> str:
    sides = ((Wall.BACK, Wall.SCREEN), (Wall.LEFT, Wall.RIGHT))
    return ", ".join(_from_a_wall(point, pair, plan) for pair in sides)


def _from_a_wall(point: Point, pair: tuple[Wall, Wall], plan: Plan) -> str:
    """A distance from the nearer of two walls that face each other."""
    room, units = plan.spec.room, plan.spec.project.units
    across = Wall.LEFT in pair
    near_m = point[0 if across else 1]
    far_m = (room.width_m if across else room.depth_m) - near_m
    wall = pair[0] if near_m <= far_m else pair[1]
    return f"{length_text(min(near_m, far_m), units)} from the {wall_name(room, wall)}"


def _from_corner(point: Point, row: SetRow, plan: Plan) -> str:
    """A place from the nearest rear corner of a chair on an arc, as that chair looks."""
    units = plan.spec.project.units
    corners = [
        (math.dist(one.at(side_m, one.rear_m), point), one, side_m, name)
        for one in row.stands
        if one.seat is not None
        for side_m, name in zip(one.sides_m(one.rear_m), ("left", "right"), strict=True)
    ]
    away_m, one, side_m, name = min(corners, key=lambda corner: corner[0])
    if away_m > _FAR_M:
        return _from_walls(point, plan)
    return _off_corner(one, side_m, point, f"{one.name}'s {name} rear corner", units)


def _off_corner(one: Stand, side_m: float, point: Point, corner: str, units: str) -> str:
    right_m, ahead_m = one.place(point)
    off_m, aside_m = ahead_m - one.rear_m, right_m - side_m
    told = []
    if abs(off_m) >= STRAIGHT_M:
        way = "ahead of" if off_m > 0 else "behind"
        told.append(f"{length_text(abs(off_m), units)} {way} {corner}")
    if abs(aside_m) >= STRAIGHT_M:
        way = "right" if aside_m > 0 else "left"
        told.append(f"{length_text(abs(aside_m), units)} {way} of {'it' if told else corner}")
    return ", ".join(told) or f"at {corner}"
