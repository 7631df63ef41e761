"""Distances from walls as they print: to the finish, or to the studs where that is asked for."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import NamedTuple

from powerplan.model.faces import FINISH, STUDS, build_up_m, printed_from_m
from powerplan.model.geometry import Point
from powerplan.model.lengths import length_text
from powerplan.model.plan import Plan
from powerplan.model.spec import Framing, Outlet, Room, Wall, WallLine
from powerplan.sheets.words import from_wall, wall_name

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


def place_words(point: Point, plan: Plan) -> str:
    """Return a place as its distances from the left and the back. [m]"""
    units, room = plan.spec.project.units, plan.spec.room
    return (
        f"{from_left(room, point[0], units)} {from_wall(room, Wall.LEFT)}, "
        f"{from_back(room, point[1], units)} {from_wall(room, Wall.BACK)}"
    )


def on_wall_words(outlet: Outlet, plan: Plan) -> str:
    """Return where on its wall an outlet is: from the left or the back, and on a slanted wall from
    the corner where the wall begins."""
    assert outlet.wall is not None
    units, room = plan.spec.project.units, plan.spec.room
    line = next((line for line in room.lines if line.id == outlet.wall), None)
    if line is None:
        return f"{wall_name(room, outlet.wall)}, {place_words((outlet.x_m, outlet.y_m), plan)}"
    across, ahead = (abs(b - a) for a, b in zip(line.start, line.end, strict=True))
    name = wall_name(room, outlet.wall)
    if ahead <= _SQUARE_M:
        return f"{name}, {from_left(room, outlet.x_m, units)} {from_wall(room, Wall.LEFT)}"
    if across <= _SQUARE_M:
        return f"{name}, {from_back(room, outlet.y_m, units)} {from_wall(room, Wall.BACK)}"
    before = next(wall for wall in room.walls if wall.end == line.start)
    away = length_text(math.dist(line.start, (outlet.x_m, outlet.y_m)), units)
    return f"{name}, {away} along it from its finished corner with {before.label}"


def build_ups(plan: Plan) -> tuple[str, ...]:
    """Return what stands between studs and finish, for whoever measures from the studs."""
    room, units = plan.spec.room, plan.spec.project.units
    if not room.build_up_m:
        return ()
    walls = ", ".join(
        f"{wall_name(room, wall)} {length_text(up_m, units, step=16)}"
        for wall, up_m in room.build_up_m
    )
    face = "studs" if room.print_to == "studs" else "finish"
    told = [f"Measures from walls are to the {face}. The finish on the studs: {walls}."]
    if room.floor_build_up_m:
        floor = length_text(room.floor_build_up_m, units, step=16)
        told.append(f"The finished floor is {floor} above the subfloor; heights are from it.")
    return tuple(told)


def side_build_up_m(room: Room, side: Wall) -> float:
    """Return how far behind the finish of a side the printed face lies. [m]"""
    return printed_from_m(room, side, 0.0)


def corners_told(plan: Plan, within: str) -> str:
    """Return how far each finished corner is from the first, to prove an outline with a tape.

    Parameters
    ----------
    plan : Plan
        A plan of a room with corners.
    within : str
        By how much they may differ, in words.
    """
    room, units = plan.spec.room, plan.spec.project.units
    first, others = room.walls[0], room.walls[1:]
    told = [
        f"{length_text(math.dist(first.start, line.start), units)} to where {line.label} begins "
        f"after {before.label}"
        for before, line in zip(room.walls, others, strict=False)
    ]
    start = f"where {first.label} begins after {room.walls[-1].label}"
    return (
        f"Then prove the corners: in a straight line, finish to finish, from {start}: "
        f"{'; '.join(told)}. If one differs by more than {within}, stop and call."
    )


def printed_framing(framing: Framing, room: Room, side: Wall) -> Framing:
    """Return framing with its first joist counted from the face that is printed to. [m]"""
    if framing.first_joist_m is None:
        return framing
    return replace(framing, first_joist_m=printed_from_m(room, side, framing.first_joist_m))


class Met(NamedTuple):
    """The wall that a tape from a place meets, square to the room: what it is called, the x or y
    of its printed face, and whether it is the one that distances from that side count from. [m]"""

    label: str
    at_m: float
    counts: bool


def met(room: Room, point: Point, side: Wall) -> Met:
    """Return the first wall from a place toward one side of the room.

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
    usual = Met(wall_name(room, side), far_m + out * side_build_up_m(room, side), True)
    first: tuple[float, WallLine] | None = None
    for line in room.walls:
        (low, start), (high, end) = sorted(
            (end[1 - axis], end[axis]) for end in (line.start, line.end)
        )
        if not low <= point[1 - axis] <= high or low == high:
            continue
        place = start + (end - start) * (point[1 - axis] - low) / (high - low)
        ahead = (place - point[axis]) * out
        if ahead >= 0 and (first is None or ahead < (first[0] - point[axis]) * out):
            first = (place, line)
    if first is None or abs(first[0] - far_m) <= _SQUARE_M:
        return usual
    place, line = first
    return Met(line.label, round(place + out * behind_m(room, line, axis), 6), False)


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
    away = length_text(away_m, plan.spec.project.units, step=16)
    return [f"{name}: straight {where[side]} stands {wall.label}, {away} away"]
