"""What lies outside the walls of a room with corners, as cells that a lid keeps off."""

from __future__ import annotations

from itertools import pairwise

import shapely

from powerplan.engineering.boxes.region import Cell, meters, ticks
from powerplan.engineering.seating.shapes import room_shape, solid_parts
from powerplan.model.spec import Room


def outside_cells(room: Room, near: Cell) -> tuple[Cell, ...]:
    """Return cells that hold everything near a place that is outside a room's walls.

    Behind walls that run square the cells are exact; behind a slanted wall they reach into the room
    by less than the wall runs aside within ``near``, which keeps a lid off it in any case.

    Parameters
    ----------
    room : Room
        A room with corners. [m]
    near : Cell
        The floor that is asked about. [half micrometer]
    """
    around = shapely.box(
        meters(near.left), meters(near.back), meters(near.right), meters(near.front)
    )
    found: list[Cell] = []
    for part in solid_parts(shapely.difference(around, room_shape(room))):
        lines = sorted({float(y) for _, y in part.exterior.coords})
        for back_m, front_m in pairwise(lines):
            left_m, _, right_m, _ = part.bounds
            slab = shapely.box(left_m, back_m, right_m, front_m)
            for piece in solid_parts(shapely.intersection(part, slab)):
                low_x, low_y, high_x, high_y = piece.bounds
                found.append(Cell(ticks(low_x), ticks(high_x), ticks(low_y), ticks(high_y)))
    return tuple(found)
