"""The room as read: walls, doors, areas of floor, framing and risers. See ``spec``."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from powerplan.model.geometry import Point, Rect


class Wall(StrEnum):
    """The four walls, as you sit watching the screen."""

    LEFT = "left"
    RIGHT = "right"
    BACK = "back"
    SCREEN = "screen"


@dataclass(frozen=True, slots=True, kw_only=True)
class WallLine:
    """One straight wall of an outline. ``label`` is what people on site call it. [m]"""

    id: str
    label: str
    start: Point
    end: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """A room to its finished walls, and what people on site call them. [m]

    ``width_m`` and ``depth_m`` are its greatest extent; the frame's origin is the back-left corner
    of the rectangle around it. ``walls`` is its outline, counter-clockwise (the floor on the left
    hand as one goes), each wall ending where the next starts; empty for a rectangle.

    ``measured_to`` says to which face the plan file's distances from walls were taken, finish or
    studs; ``print_to`` to which face the sheets print them. ``build_up_m`` is the finish on the
    studs by wall, ("back", 0.016) and so on, and ``floor_build_up_m`` that on the subfloor.
    """

    width_m: float
    depth_m: float
    left_wall: str
    right_wall: str
    back_wall: str
    screen_wall: str
    walls: tuple[WallLine, ...] = ()
    measured_to: str = "finish"
    print_to: str = "finish"
    build_up_m: tuple[tuple[str, float], ...] = ()
    floor_build_up_m: float = 0.0

    @property
    def rect(self) -> Rect:
        """The rectangle around the finished walls. [m]"""
        return Rect(left_m=0.0, right_m=self.width_m, back_m=0.0, front_m=self.depth_m)

    @property
    def lines(self) -> tuple[WallLine, ...]:
        """Every wall: the outline's, or the four of a rectangle.

        Distances along a wall count from its start. Those of a rectangle run from the left or from
        the back; those of an outline counter-clockwise.
        """
        if self.walls:
            return self.walls
        wide, deep = self.width_m, self.depth_m
        return (
            WallLine(id="left", label=self.left_wall, start=(0.0, 0.0), end=(0.0, deep)),
            WallLine(id="right", label=self.right_wall, start=(wide, 0.0), end=(wide, deep)),
            WallLine(id="back", label=self.back_wall, start=(0.0, 0.0), end=(wide, 0.0)),
            WallLine(id="screen", label=self.screen_wall, start=(0.0, deep), end=(wide, deep)),
        )

    @property
    def outline(self) -> tuple[Point, ...]:
        """The corners, counter-clockwise. [m]"""
        if self.walls:
            return tuple(wall.start for wall in self.walls)
        wide, deep = self.width_m, self.depth_m
        return ((0.0, 0.0), (wide, 0.0), (wide, deep), (0.0, deep))

    def line(self, wall: str) -> WallLine:
        """Return the wall of that name."""
        return next(line for line in self.lines if line.id == wall)


@dataclass(frozen=True, slots=True, kw_only=True)
class TapeReading:
    """A reading that the plan does not need, taken to check it: between two places of the floor,
    to the finished walls. ``ends`` says which, in words; "" in records from before. [m]"""

    id: str
    start: Point
    end: Point
    length_m: float
    ends: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Door:
    """An opening in a wall. ``start_m`` and ``end_m`` run along the wall from its start (see
    ``Room.lines``). ``swings``: in, out or slides. [m]"""

    id: str
    wall: str
    start_m: float
    end_m: float
    swings: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Area:
    """A named rectangle of floor: an obstacle, a walkway, or a place where nothing is cut. [m]"""

    id: str
    rect: Rect


@dataclass(frozen=True, slots=True, kw_only=True)
class Framing:
    """What the floor (or a riser's deck) is made of; None is unknown everywhere.

    ``build`` is joists or slab; ``joists_run`` is "back to screen" or "side to side". For joists
    running back to screen ``first_joist_m`` is from the left edge to the middle of the first joist;
    for side to side from the back edge. The edges are the room's walls, or the riser's own. [m]
    """

    build: str | None
    joists_run: str | None
    spacing_m: float | None
    first_joist_m: float | None
    joist_width_m: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Riser:
    """A raised platform; a row on it has its box in the riser's deck. [m]"""

    id: str
    rect: Rect
    height_m: float
    framing: Framing
