"""The walls of a room with corners on a grid of characters."""

from __future__ import annotations

import math

from powerplan.model.geometry import Point
from powerplan.model.spec import Door, Room, WallLine
from powerplan.sheets.writers.canvas import Canvas

_AT_M = 1e-5


def draw_outside(canvas: Canvas, room: Room, mark: str) -> None:
    """Fill what is no part of a room with corners.

    Parameters
    ----------
    canvas : Canvas
        The picture.
    room : Room
        The room; a rectangle fills its frame.
    mark : str
        One character.
    """
    if not room.walls:
        return
    for line in range(1, canvas.tall + 1):
        y_m = (canvas.tall - line + 0.5) / canvas.tall * room.depth_m
        for column in range(1, canvas.wide + 1):
            x_m = (column - 0.5) / canvas.wide * room.width_m
            if not _holds(room.outline, (x_m, y_m)):
                canvas.put(line, column, mark)


def draw_opening(canvas: Canvas, room: Room, door: Door, mark: str) -> None:
    """Draw a door of a room with corners along its wall.

    Parameters
    ----------
    canvas : Canvas
        The picture.
    room : Room
        The room.
    door : Door
        The door.
    mark : str
        One character.
    """
    wall = room.line(door.wall)
    steps = 2 * (canvas.wide + canvas.tall)
    for step in range(steps + 1):
        along = door.start_m + (door.end_m - door.start_m) * step / steps
        canvas.put(*wall_cell(canvas, room, _along(wall, along)), mark)


def wall_cell(canvas: Canvas, room: Room, point: Point) -> tuple[int, int]:
    """Return the line and column of a place on a wall: on the frame where the wall is on it.

    Parameters
    ----------
    canvas : Canvas
        The picture.
    room : Room
        The room.
    point : Point
        The place. [m]
    """
    line, column = canvas.line(point[1]), canvas.column(point[0])
    if math.isclose(point[1], 0.0, abs_tol=_AT_M):
        line = canvas.tall + 1
    elif math.isclose(point[1], room.depth_m, abs_tol=_AT_M):
        line = 0
    elif math.isclose(point[0], 0.0, abs_tol=_AT_M):
        column = 0
    elif math.isclose(point[0], room.width_m, abs_tol=_AT_M):
        column = canvas.wide + 1
    return line, column


def _holds(outline: tuple[Point, ...], spot: Point) -> bool:
    """True for a place inside an outline."""
    x, y = spot
    odd = False
    for (x1, y1), (x2, y2) in zip(outline, (*outline[1:], outline[0]), strict=True):
        if (y1 > y) != (y2 > y) and x < x1 + (y - y1) * (x2 - x1) / (y2 - y1):
            odd = not odd
    return odd


def _along(line: WallLine, along: float) -> Point:
    """A place by its distance along a wall. [m]"""
    share = along / math.dist(line.start, line.end)
    return (
        line.start[0] + (line.end[0] - line.start[0]) * share,
        line.start[1] + (line.end[1] - line.start[1]) * share,
    )
