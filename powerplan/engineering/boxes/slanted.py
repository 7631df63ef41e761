"""Where a lid that is square to the room lies inside a clear zone that is turned.

The lid of a box stays square to the room, as joists and saws are. In a turned clear zone a middle
keeps half of the lid's reach off each slanted edge. That floor is filled from inside with steps, so
that the exact arithmetic of upright cells holds: a little of it is given away, none is added.
"""

from __future__ import annotations

import math
from itertools import pairwise

from powerplan.engineering.boxes.constraints import PLACE_RULE, Constraint, Sizes
from powerplan.engineering.boxes.region import Cell, Spot, cell, ticks
from powerplan.engineering.seating.frames import Outline, bounds, upright
from powerplan.model.geometry import Rect
from powerplan.model.spec import Room

# Steps from back to front that fill a slanted clear zone.
_STEPS = 12
# Corners are on the grid of a micrometer; a lid keeps two more inside slanted edges. [half um]
_STRICT = 4
_FAR = ticks(1000.0)

_Edge = tuple[float, float, float]


def lid_inside(clear: Outline, room: Room, sizes: Sizes) -> tuple[Cell, tuple[Constraint, ...]]:
    """Return where a middle may stand so that its lid is inside a clear zone.

    Parameters
    ----------
    clear : outline
        The clear zone, convex. [m]
    room : Room
        A lid in a turned clear zone lies inside the rectangle around the room. [m]
    sizes : Sizes
        The box. [half micrometer]

    Returns
    -------
    tuple of Cell and tuple of Constraint
        A cell, and what of it a slanted clear zone takes away. [half micrometer]
    """
    rect = upright(clear)
    half = sizes.half_lid
    if rect is not None:
        return cell(rect).grown(-half[0], -half[1]), ()
    edges = _edges(clear, half)
    box = _inside(cell(bounds((clear,))), room, half)
    lines = _cuts(edges, box)
    if lines is None:
        return Cell(0, -1, 0, -1), ()
    low, high = lines
    places = [low + (high - low) * n // _STEPS for n in range(_STEPS + 1)]
    spans = [_span(edges, box, place) for place in places]
    holes: list[Cell] = []
    kept: list[Cell] = []
    for (back, front), (one, other) in zip(pairwise(places), pairwise(spans), strict=True):
        left, right = max(one[0], other[0]), min(one[1], other[1])
        if left > right:
            holes.append(Cell(-_FAR, _FAR, back - 1, front + 1))
            continue
        kept.append(Cell(left, right, back, front))
        holes.append(Cell(-_FAR, left, back - 1, front + 1))
        holes.append(Cell(right, _FAR, back - 1, front + 1))
    if not kept:
        return Cell(0, -1, 0, -1), ()
    clip = Cell(min(one.left for one in kept), max(one.right for one in kept), low, high)

    def spare(spot: Spot) -> float:
        return min(far - across * spot[0] - along * spot[1] for across, along, far in edges)

    edge = Constraint(
        rule=PLACE_RULE,
        name="the edge of the turned clear zone",
        holes=tuple(holes),
        spare=spare,
        limit=0,
        ridges=((), ()),
    )
    return clip, (edge,)


def _edges(clear: Outline, half: Spot) -> list[_Edge]:
    """Each edge moved inward by the lid's reach, as (across, along, far): a middle is inside where
    across x + along y is at most far. [half micrometer]"""
    edges = []
    for (x, y), (to_x, to_y) in pairwise((*clear, clear[0])):
        length_m = math.hypot(to_x - x, to_y - y)
        across, along = (to_y - y) / length_m, (x - to_x) / length_m
        reach = abs(across) * half[0] + abs(along) * half[1]
        far = (across * x + along * y) * ticks(1.0) - reach - _STRICT
        edges.append((across, along, far))
    return edges


def _inside(box: Cell, room: Room, half: Spot) -> Cell:
    """A cell cut to where a lid lies inside the rectangle around a room. [half micrometer]"""
    around = Rect(left_m=0.0, right_m=room.width_m, back_m=0.0, front_m=room.depth_m)
    inner = cell(around).grown(-half[0], -half[1])
    return Cell(
        max(box.left, inner.left),
        min(box.right, inner.right),
        max(box.back, inner.back),
        min(box.front, inner.front),
    )


def _cuts(edges: list[_Edge], box: Cell) -> tuple[int, int] | None:
    """How far back and how far ahead anything of the floor inside all edges reaches."""
    points = []
    for n, (across, along, far) in enumerate(edges):
        for other_across, other_along, other_far in edges[n + 1 :]:
            wide = across * other_along - along * other_across
            if abs(wide) < 1e-12:
                continue
            x = (far * other_along - along * other_far) / wide
            y = (across * other_far - far * other_across) / wide
            if all(a * x + b * y <= f + 1e-3 for a, b, f in edges):
                points.append(y)
    if not points:
        return None
    low, high = max(math.ceil(min(points)), box.back), min(math.floor(max(points)), box.front)
    return None if low > high else (low, high)


def _span(edges: list[_Edge], box: Cell, place: int) -> tuple[int, int]:
    """The middles allowed at one depth, from and to. [half micrometer]"""
    left, right = float(box.left), float(box.right)
    for across, along, far in edges:
        rest = far - along * place
        if across > 1e-12:
            right = min(right, rest / across)
        elif across < -1e-12:
            left = max(left, rest / across)
        elif rest < 0.0:
            return 1, 0
    return math.ceil(left), math.floor(right)
