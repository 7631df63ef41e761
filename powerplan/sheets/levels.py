"""Steps in the floor, and from which faces a place can be taped without crossing one."""

from __future__ import annotations

from typing import NamedTuple

from powerplan.model.geometry import Point, Rect
from powerplan.model.lengths import micrometers
from powerplan.model.plan import Plan
from powerplan.model.spec import Riser, Room, Wall
from powerplan.sheets.off_walls import met

SIDES = (Wall.LEFT, Wall.RIGHT, Wall.BACK, Wall.SCREEN)
_EDGES = {
    Wall.LEFT: "left edge",
    Wall.RIGHT: "right edge",
    Wall.BACK: "back edge",
    Wall.SCREEN: "front edge",
}


class Face(NamedTuple):
    """Where a tape is hooked: a wall, or the edge of a riser. ``at_m`` is its x or its y; where it
    ``slants``, that is so at one place only. [m]"""

    words: str
    at_m: float
    is_wall: bool
    slants: bool = False


def level_m(plan: Plan, point: Point) -> float:
    """Return how high the floor is at a place: the top of the riser it lies on, else 0. [m]"""
    on = (riser.height_m for riser in plan.spec.risers if riser.rect.has(point))
    return max(on, default=0.0)


def faces(plan: Plan, point: Point) -> dict[Wall, Face]:
    """Return for each of the four ways the first face that a level tape from a place meets.

    Parameters
    ----------
    plan : Plan
        For the room and its risers.
    point : Point
        The place. [m]
    """
    return {side: _face(plan, point, side) for side in SIDES}


def crosses_a_step(plan: Plan) -> bool:
    """True where a riser ends inside the room, so that a tape from wall to wall meets a step."""
    return any(steps(riser.rect, plan) for riser in plan.spec.risers)


def steps(rect: Rect, plan: Plan) -> tuple[Wall, ...]:
    """Return the sides of a riser that are steps: not along a wall of the room."""
    room = plan.spec.room
    ends = (
        (Wall.LEFT, rect.left_m, 0.0),
        (Wall.RIGHT, rect.right_m, room.width_m),
        (Wall.BACK, rect.back_m, 0.0),
        (Wall.SCREEN, rect.front_m, room.depth_m),
    )
    return tuple(side for side, at, wall in ends if micrometers(at) != micrometers(wall))


def edge_m(rect: Rect, side: Wall) -> float:
    """Return where a side of a riser lies: its x, or its y. [m]"""
    ends = {
        Wall.LEFT: rect.left_m,
        Wall.RIGHT: rect.right_m,
        Wall.BACK: rect.back_m,
        Wall.SCREEN: rect.front_m,
    }
    return ends[side]


def _face(plan: Plan, point: Point, side: Wall) -> Face:
    across = side in (Wall.LEFT, Wall.RIGHT)
    ahead = 1.0 if side in (Wall.RIGHT, Wall.SCREEN) else -1.0
    start = point[0 if across else 1]
    wall = _wall_met(plan.spec.room, point, side)
    here = level_m(plan, point)
    edges = sorted(
        (abs(edge - start), edge, riser.id, riser)
        for riser in plan.spec.risers
        for edge in _edges_ahead(riser, point, across=across)
        if 0 <= (edge - start) * ahead < abs(wall.at_m - start)
    )
    for number, (away, edge, _, riser) in enumerate(edges):
        beyond = edges[number + 1][0] if number + 1 < len(edges) else abs(wall.at_m - start)
        middle = start + ahead * (away + beyond) / 2
        there = level_m(plan, (middle, point[1]) if across else (point[0], middle))
        if there != here and beyond > away:
            return Face(
                f"{_edge_name(riser, edge, across=across)} of riser {riser.id}", edge, False
            )
    return wall


def _wall_met(room: Room, point: Point, side: Wall) -> Face:
    wall = met(room, point, side)
    words = f"{wall.label} (it slants)" if wall.slants else wall.label
    return Face(words, wall.at_m, True, wall.slants)


def _edges_ahead(riser: Riser, point: Point, *, across: bool) -> tuple[float, float] | tuple[()]:
    rect = riser.rect
    low, high = (rect.back_m, rect.front_m) if across else (rect.left_m, rect.right_m)
    if not low <= point[1 if across else 0] <= high:
        return ()
    return (rect.left_m, rect.right_m) if across else (rect.back_m, rect.front_m)


def _edge_name(riser: Riser, edge: float, *, across: bool) -> str:
    sides = (Wall.LEFT, Wall.RIGHT) if across else (Wall.BACK, Wall.SCREEN)
    side = sides[0] if edge_m(riser.rect, sides[0]) == edge else sides[1]
    return _EDGES[side]
