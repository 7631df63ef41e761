"""The measures of the floor-box drawing: the room, its risers, and every box from its faces."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import NamedTuple

from powerplan.model.geometry import Point, Rect
from powerplan.model.lengths import micrometers
from powerplan.model.plan import Plan
from powerplan.model.spec import Wall
from powerplan.sheets.drawings.measures import STEP_MM, Datum, Mark, measure
from powerplan.sheets.drawings.sketch import Sketch
from powerplan.sheets.levels import edge_m, faces, steps
from powerplan.sheets.off_walls import off_wall, printed_room
from powerplan.sheets.words import FINE, fine_text

_ALONG = (0.82, 0.9, 0.7, 0.6, 0.95, 0.3, 0.2)


def draw_measures(sketch: Sketch, plan: Plan, bands: dict[Wall, float]) -> None:
    """Draw the measures on all four sides, one datum after another.

    Below from the left wall, at the left from the back wall, above from the center line; at the
    right, and outward of the first, what can be taped on one level where a step lies between.

    Parameters
    ----------
    sketch : Sketch
        The drawing.
    plan : Plan
        The plan.
    bands : dict
        Where each wall's name ends outside it. [m]
    """
    room = plan.spec.room
    step = sketch.meters(STEP_MM)
    printed = printed_room(plan)
    zero_x, zero_y = printed.left_m, printed.back_m
    places = [(box.x_m, box.y_m) for box in plan.boxes]
    low = -bands[Wall.BACK] - step / 2
    if places:
        low = measure(sketch, Datum("x", zero_x, 0.0, low, -1.0), _across(plan, places)) - step
    for origin, marks in _level(plan, places, "x"):
        at = Datum("x", origin.at_m, origin.foot_m, low, -1.0)
        low = measure(sketch, at, marks) - step
    widths = [*_riser_marks(plan, "x"), _mark(plan, Wall.LEFT, printed.right_m, 0.0)]
    measure(sketch, Datum("x", zero_x, 0.0, low, -1.0), widths)
    if places:
        left = -bands[Wall.LEFT] - step / 2
        measure(sketch, Datum("y", zero_y, 0.0, left, -1.0), _deep(plan, places))
        top = room.depth_m + bands[Wall.SCREEN] + step / 2
        datum = Datum("x", room.width_m / 2, room.depth_m, top, 1.0)
        measure(sketch, datum, _off_center(plan, places))
    right = room.width_m + bands[Wall.RIGHT] + 1.5 * step
    for origin, marks in _level(plan, places, "y"):
        right = measure(sketch, Datum("y", origin.at_m, origin.foot_m, right, 1.0), marks) + step
    depths = [*_riser_marks(plan, "y"), _mark(plan, Wall.BACK, printed.front_m, room.width_m)]
    measure(sketch, Datum("y", zero_y, room.width_m, right, 1.0), depths)


def _mark(plan: Plan, side: Wall, at: float, foot: float) -> Mark:
    units = plan.spec.project.units
    return Mark(at, foot, off_wall(plan.spec.room, side, at, units, step=FINE))


def _across(plan: Plan, places: list[Point]) -> list[Mark]:
    return [_mark(plan, Wall.LEFT, x, y) for x, y in places]


def _deep(plan: Plan, places: list[Point]) -> list[Mark]:
    return [_mark(plan, Wall.BACK, y, x) for x, y in places]


def _off_center(plan: Plan, places: list[Point]) -> list[Mark]:
    units, middle = plan.spec.project.units, micrometers(plan.spec.room.width_m / 2)
    return [Mark(x, y, fine_text(abs(micrometers(x) - middle) / 1e6, units)) for x, y in places]


def _riser_marks(plan: Plan, along: str) -> list[Mark]:
    """Both ends of every riser, from the left or the back wall, where they are steps."""
    marks = []
    for riser in plan.spec.risers:
        for side in steps(riser.rect, plan):
            if (side in (Wall.LEFT, Wall.RIGHT)) == (along == "x"):
                foot = riser.rect.back_m if along == "x" else riser.rect.right_m
                from_side = Wall.LEFT if along == "x" else Wall.BACK
                marks.append(_mark(plan, from_side, edge_m(riser.rect, side), foot))
    return marks


class _Origin(NamedTuple):
    """Where level measures start: along the measure, and across it. [m]"""

    at_m: float
    foot_m: float


def _level(plan: Plan, places: list[Point], along: str) -> list[tuple[_Origin, list[Mark]]]:
    """For each face, the boxes that are taped from it because a step hides the usual wall, or
    because it is an edge of the riser in which they are cut."""
    usual, other = (Wall.LEFT, Wall.RIGHT) if along == "x" else (Wall.BACK, Wall.SCREEN)
    room, units = plan.spec.room, plan.spec.project.units
    told: dict[float, list[Mark]] = {}
    for x, y in places:
        at, foot = (x, y) if along == "x" else (y, x)
        found = faces(plan, (x, y))
        for side in (usual, other):
            face = found[side]
            hidden = not found[usual].is_wall and side is other
            if face.is_wall and not hidden:
                continue
            words = fine_text(abs(at - face.at_m), units)
            told.setdefault(face.at_m, []).append(Mark(at, foot, words))
    edge = 0.0 if along == "x" else room.width_m
    return [(_Origin(at, edge), marks) for at, marks in sorted(told.items())]


def draw_diagonal(sketch: Sketch, plan: Plan) -> None:
    """Draw one diagonal of the floor that is free of steps, with its length; a room that is no
    rectangle has none that proves it square."""
    if plan.spec.room.walls:
        return
    rect, units = taped_floor(plan), plan.spec.project.units
    ends = ((rect.left_m, rect.back_m), (rect.right_m, rect.front_m))
    sketch.line(ends, "diagonal")
    length = fine_text(math.hypot(rect.width_m, rect.depth_m), units)
    anchors = [
        (rect.left_m + rect.width_m * part, rect.back_m + rect.depth_m * part) for part in _ALONG
    ]
    lines = (f"diagonal {length}:", "if the other is the same, it is square")
    sketch.label("diagonal", lines, anchors, on=True, height_mm=1.8)


def taped_floor(plan: Plan) -> Rect:
    """Return the floor whose diagonals are taped, to the faces that measures print to. [m]"""
    rect, printed = free_floor(plan), printed_room(plan)
    return replace(printed, back_m=rect.back_m) if rect.back_m > 0 else printed


def free_floor(plan: Plan) -> Rect:
    """Return the floor without steps on which diagonals prove the room square: ahead of risers that
    go from wall to wall at the back, else the whole room, to its finished walls. [m]"""
    room = plan.spec.room
    front = 0.0
    for riser in sorted(plan.spec.risers, key=lambda riser: riser.rect.front_m):
        if not {Wall.LEFT, Wall.RIGHT} & set(steps(riser.rect, plan)):
            front = max(front, riser.rect.front_m)
    if room.depth_m - front < room.depth_m / 4:
        front = 0.0
    return Rect(left_m=0.0, right_m=room.width_m, back_m=front, front_m=room.depth_m)
