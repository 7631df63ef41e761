"""Distances from walls as they print: to the finish, or to the studs where that is asked for."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import NamedTuple

from powerplan.model.faces import FINISH, STUDS, build_up_m, moved_outline, printed_from_m
from powerplan.model.geometry import Point, Rect
from powerplan.model.lengths import length_text, micrometers
from powerplan.model.plan import Plan
from powerplan.model.spec import Framing, Outlet, Room, Wall, WallLine
from powerplan.sheets.words import FINE, fine_text, from_wall, wall_name

_SQUARE_M = 2e-6


def off_wall(room: Room, side: Wall, distance_m: float, units: str, *, step: int = 8) -> str:
    """Return a distance from one side of the room, to the face that is printed.

    Parameters
    ----------
    room : Room
        The room.
    side : Wall
        Left, right, back or screen.
    distance_m : float
        From the finished wall. [m]
    units : str
        ft-in, in, mm or m.
    step : int
        The fraction of an inch to round to.
    """
    return length_text(printed_from_m(room, side, distance_m), units, step=step)


def to_finish(plan: Plan) -> Plan:
    """Return the plan as it prints for those who come when the walls are finished: installers."""
    if plan.spec.room.print_to != STUDS:
        return plan
    room = replace(plan.spec.room, print_to=FINISH)
    return replace(plan, spec=replace(plan.spec, room=room))


def from_left(room: Room, x_m: float, units: str, *, step: int = 8) -> str:
    """Return how far a place is from the left, as it prints. [m]"""
    return off_wall(room, Wall.LEFT, x_m, units, step=step)


def from_back(room: Room, y_m: float, units: str, *, step: int = 8) -> str:
    """Return how far a place is from the back, as it prints. [m]"""
    return off_wall(room, Wall.BACK, y_m, units, step=step)


def place_words(point: Point, plan: Plan, *, step: int = 8) -> str:
    """Return a place as its distances from the left and the back, to a fraction of an inch. [m]"""
    units, room = plan.spec.project.units, plan.spec.room
    return (
        f"{from_left(room, point[0], units, step=step)} {from_wall(room, Wall.LEFT)}, "
        f"{from_back(room, point[1], units, step=step)} {from_wall(room, Wall.BACK)}"
    )


def on_wall_words(outlet: Outlet, plan: Plan) -> str:
    """Return where on its wall an outlet is: from the left or the back, and on a slanted wall from
    the corner where the wall begins."""
    assert outlet.wall is not None
    units, room = plan.spec.project.units, plan.spec.room
    line = next((line for line in room.lines if line.id == outlet.wall), None)
    if line is None:
        at = place_words((outlet.x_m, outlet.y_m), plan, step=FINE)
        return f"{wall_name(room, outlet.wall)}, {at}"
    across, ahead = (abs(b - a) for a, b in zip(line.start, line.end, strict=True))
    name = wall_name(room, outlet.wall)
    if ahead <= _SQUARE_M:
        away = from_left(room, outlet.x_m, units, step=FINE)
        return f"{name}, {away} {from_wall(room, Wall.LEFT)}"
    if across <= _SQUARE_M:
        away = from_back(room, outlet.y_m, units, step=FINE)
        return f"{name}, {away} {from_wall(room, Wall.BACK)}"
    before = next(wall for wall in room.walls if wall.end == line.start)
    away = fine_text(math.dist(line.start, (outlet.x_m, outlet.y_m)), units)
    return f"{name}, {away} along it from its finished corner with {before.label}"


def build_ups(plan: Plan) -> tuple[str, ...]:
    """Return what stands between studs and finish, for whoever measures from the studs."""
    room, units = plan.spec.room, plan.spec.project.units
    if not room.build_up_m:
        return ()
    walls = ", ".join(
        f"{wall_name(room, wall)} {fine_text(up_m, units)}" for wall, up_m in room.build_up_m
    )
    face = STUDS if room.print_to == STUDS else FINISH
    told = [f"Measures from walls are to the {face}. The finish on the studs: {walls}."]
    if room.floor_build_up_m:
        floor = fine_text(room.floor_build_up_m, units)
        told.append(f"The finished floor is {floor} above the subfloor; heights are from it.")
    return tuple(told)


def side_build_up_m(room: Room, side: Wall) -> float:
    """Return how far behind the finish of a side the printed face lies. [m]"""
    return printed_from_m(room, side, 0.0)


def printed_room(plan: Plan) -> Rect:
    """Return the rectangle around the room between the faces that measures print to. [m]"""
    room = plan.spec.room
    return Rect(
        left_m=-side_build_up_m(room, Wall.LEFT),
        right_m=room.width_m + side_build_up_m(room, Wall.RIGHT),
        back_m=-side_build_up_m(room, Wall.BACK),
        front_m=room.depth_m + side_build_up_m(room, Wall.SCREEN),
    )


def printed_corners(room: Room) -> tuple[Point, ...]:
    """Return where the walls of an outline begin, on the faces that measures print to. [m]"""
    if room.print_to != STUDS:
        return room.outline
    return moved_outline(room.outline, [-build_up_m(room, wall.id) for wall in room.walls])


def printed_framing(framing: Framing, room: Room, side: Wall) -> Framing:
    """Return framing with its first joist counted from the face that is printed to. [m]"""
    if framing.first_joist_m is None:
        return framing
    return replace(framing, first_joist_m=printed_from_m(room, side, framing.first_joist_m))


class Met(NamedTuple):
    """The wall that a tape from a place meets, square to the room: what it is called, the x or y
    of its printed face, whether it is the one that distances from that side count from, and whether
    it slants. [m]"""

    label: str
    at_m: float
    counts: bool
    slants: bool


def met(room: Room, point: Point, side: Wall) -> Met:
    """Return the first wall from a place toward one side of the room; of a slanting one the place
    that is met.

    Parameters
    ----------
    room : Room
        The room.
    point : Point
        A place inside it. [m]
    side : Wall
        Left, right, back or screen.
    """
    axis = 0 if side in (Wall.LEFT, Wall.RIGHT) else 1
    out = 1.0 if side in (Wall.RIGHT, Wall.SCREEN) else -1.0
    far_m = (room.width_m, room.depth_m)[axis] if out > 0 else 0.0
    found: list[tuple[float, Met]] = []
    for line in room.lines:
        low, high = sorted((line.start, line.end), key=lambda end: end[1 - axis])
        span = high[1 - axis] - low[1 - axis]
        if span <= 0 or not low[1 - axis] <= point[1 - axis] <= high[1 - axis]:
            continue
        place = low[axis] + (high[axis] - low[axis]) * (point[1 - axis] - low[1 - axis]) / span
        if (place - point[axis]) * out >= 0:
            face = place + out * behind_m(room, line, axis)
            counts = abs(place - far_m) <= _SQUARE_M
            slants = micrometers(low[axis]) != micrometers(high[axis])
            found.append((abs(place - point[axis]), Met(line.label, face, counts, slants)))
    if found:
        return min(found)[1]
    face = far_m + out * side_build_up_m(room, side)
    return Met(wall_name(room, side), face, True, False)


def behind_m(room: Room, line: WallLine, axis: int) -> float:
    """Return how far behind a finished wall its printed face is, square to the room.

    Parameters
    ----------
    room : Room
        The room.
    line : WallLine
        A wall that does not run along that way. [m]
    axis : int
        0 from side to side, 1 from back to screen.
    """
    if room.print_to != STUDS:
        return 0.0
    run = (line.end[0] - line.start[0], line.end[1] - line.start[1])
    return build_up_m(room, line.id) * math.hypot(*run) / abs(run[1 - axis])


def beside_words(name: str, point: Point, side: Wall, plan: Plan) -> list[str]:
    """Return which wall stands straight beside a place where that is another than the one that
    distances count from; nothing where it is that one.

    Parameters
    ----------
    name : str
        What is there.
    point : Point
        The place. [m]
    side : Wall
        Left, right, back or screen.
    plan : Plan
        The plan.
    """
    if not plan.spec.room.walls:
        return []
    wall = met(plan.spec.room, point, side)
    if wall.counts:
        return []
    where = {
        Wall.LEFT: "to its left",
        Wall.RIGHT: "to its right",
        Wall.BACK: "behind it",
        Wall.SCREEN: "ahead of it",
    }
    away_m = abs(wall.at_m - point[0 if side in (Wall.LEFT, Wall.RIGHT) else 1])
    away = fine_text(away_m, plan.spec.project.units)
    return [f"{name}: straight {where[side]} stands {wall.label}, {away} away"]
