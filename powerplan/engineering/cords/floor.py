"""Where a cord's center line may lie, as shapes in the room frame."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import shapely

from powerplan.engineering.cords.decks import Deck, deck_of, inner_corners, rises_m
from powerplan.engineering.cords.route import Route
from powerplan.engineering.seating.frames import Outline, polygon
from powerplan.engineering.seating.shapes import room_shape
from powerplan.engineering.seating.tables import Standing
from powerplan.engineering.seating.walls import Doorway
from powerplan.engineering.seating.zones import Zones
from powerplan.model.geometry import Point, Rect
from powerplan.model.rules import RuleSet
from powerplan.model.spec import Area, PlanSpec

Shape = Any  # a shapely geometry
KeptFree = Area | Doorway

# Shapes are snapped to this grid as they are joined and cut, so that edges that meet do meet.
GRID_M = 1e-9
# Zones are grown by this much less, so that a passage of exactly the least width is one.
_LESS_M = 1e-7
# How far over an edge a path may lie and still count as on it.
EDGE_M = 2e-7
# Pieces of covered floor nearer than twice this are one.
COVER_M = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Floor:
    """The room's floor for one thickness of cord.

    ``moving`` and ``fixed`` are the raw pinch zones and obstacles, and ``moving_grown`` and
    ``fixed_grown`` the same grown by the cord's radius and its clearance. ``free`` is where a
    center line may lie at all and ``lanes`` the covered part of it. ``covered_edge`` is covered
    floor with its edge, and ``deck_corners`` are riser corners inside the room. [m]
    """

    room: Shape
    radius_m: float
    clearance_m: float
    moving: Shape
    fixed: Shape
    moving_grown: Shape
    fixed_grown: Shape
    walkways: tuple[Area, ...]
    doorways: tuple[KeptFree, ...]
    covered: Shape
    covered_edge: Shape
    free: Shape
    lanes: Shape
    decks: tuple[Deck, ...]
    deck_corners: tuple[Point, ...]

    @property
    def keep_m(self) -> float:
        """Least distance from a center line to a raw zone. [m]"""
        return self.radius_m + self.clearance_m

    def without(
        self, *, moving: bool = False, fixed: bool = False, areas: Iterable[KeptFree] = ()
    ) -> Shape:
        """Return where a center line could lie if some things were lifted.

        Parameters
        ----------
        moving, fixed : bool
            True to lift all pinch zones, or all obstacles.
        areas : iterable of Area or Doorway
            The walkways and doorways to lift. [m]
        """
        lifted = tuple(areas)
        kept = [area for area in (*self.walkways, *self.doorways) if area not in lifted]
        shapes = [area_shape(area) for area in kept]
        if not moving:
            shapes.append(self.moving_grown)
        if not fixed:
            shapes.append(self.fixed_grown)
        return _left_of(self.room, shapes)

    def measure(self, path: tuple[Point, ...]) -> Route:
        """Return a path with its length, rises, open floor and clearance.

        Parameters
        ----------
        path : tuple of Point
            At least two points; all may be the same. [m]
        """
        segments = tuple(pairwise(path))
        length_m = math.fsum(math.dist(*segment) for segment in segments)
        line = shapely.LineString(path) if length_m > 0.0 else shapely.Point(path[0])
        open_m = shapely.length(shapely.difference(line, self.covered_edge))
        return Route(
            path=path,
            length_m=length_m,
            rises_m=math.fsum(rises_m(self.decks, segment) for segment in segments),
            open_floor_m=float(open_m),
            clearance_m=self._clearance_m(line),
            floor=self,
        )

    def _clearance_m(self, line: Shape) -> float:
        zones = [zone for zone in (self.moving, self.fixed) if not zone.is_empty]
        if not zones:
            left, back, right, front = self.room.bounds
            return math.dist((left, back), (right, front))
        return min(float(shapely.distance(line, zone)) for zone in zones) - self.radius_m


def build_floor(
    spec: PlanSpec,
    zones: Zones,
    covered: tuple[Outline, ...],
    doorways: tuple[KeptFree, ...],
    standing: tuple[Standing, ...],
    rules: RuleSet,
) -> Floor:
    """Return the floor as shapes.

    Pinch zones are joined into one shape before they grow, and so are obstacles; growth keeps
    corners square, so it holds the true clearance. Walls, walkways and doorways do not grow.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read; a cord is ``spec.cords.diameter_m`` thick. [m]
    zones : Zones
        Pinch zones and the openings in them. [m]
    covered : tuple of outlines
        Pieces of covered floor; they may overlap. [m]
    doorways : tuple of Area or Doorway
        Floor inside door openings. [m]
    standing : tuple of Standing
        What stands on the floor and no cord may pass. [m]
    rules : RuleSet
        The numbers; ``cord_clearance`` is one.
    """
    radius_m = spec.cords.diameter_m / 2
    clearance_m = rules.length_m("cord_clearance")
    room = room_shape(spec.room)
    moving = united(polygon(outline) for _, outline in zones.pinch)
    fixed = united(polygon(thing.outline) for thing in standing)
    moving_grown = grown(moving, radius_m + clearance_m - _LESS_M)
    fixed_grown = grown(fixed, radius_m + clearance_m - _LESS_M)
    areas = [area_shape(area) for area in (*spec.walkways, *doorways)]
    free = _left_of(room, [*areas, moving_grown, fixed_grown])
    joined = united(polygon(outline) for outline in covered)
    joined = grown(grown(joined, COVER_M), -COVER_M)
    return Floor(
        room=room,
        radius_m=radius_m,
        clearance_m=clearance_m,
        moving=moving,
        fixed=fixed,
        moving_grown=moving_grown,
        fixed_grown=fixed_grown,
        walkways=spec.walkways,
        doorways=doorways,
        covered=joined,
        covered_edge=grown(joined, EDGE_M),
        free=free,
        lanes=areas_of(shapely.intersection(free, joined, grid_size=GRID_M)),
        decks=tuple(deck_of(riser, spec.room) for riser in spec.risers),
        deck_corners=tuple(
            corner for riser in spec.risers for corner in inner_corners(riser, spec.room)
        ),
    )


def box(rect: Rect) -> Shape:
    """Return a rectangle as a shape.

    Parameters
    ----------
    rect : Rect
        The rectangle. [m]
    """
    return shapely.box(rect.left_m, rect.back_m, rect.right_m, rect.front_m)


def area_shape(area: KeptFree) -> Shape:
    """Return floor that is kept free of cords as a shape.

    Parameters
    ----------
    area : Area or Doorway
        A walkway, or the floor inside a door opening. [m]
    """
    return polygon(area.outline) if isinstance(area, Doorway) else box(area.rect)


def united(shapes: Iterable[Shape]) -> Shape:
    """Return shapes as one, snapped so that edges that meet leave no sliver.

    Parameters
    ----------
    shapes : iterable of shapely geometry
        Any number. [m]
    """
    return shapely.union_all(list(shapes), grid_size=GRID_M)


def grown(shape: Shape, by_m: float) -> Shape:
    """Return a shape grown on every side with its corners kept square; shrunk where negative.

    Parameters
    ----------
    shape : shapely geometry
        The shape. [m]
    by_m : float
        How far. [m]
    """
    return shapely.buffer(shape, by_m, join_style="mitre", mitre_limit=1000.0)


def areas_of(shape: Shape) -> Shape:
    """Return only what has area of a shape, without its stray lines and points.

    Parameters
    ----------
    shape : shapely geometry
        The shape. [m]
    """
    parts = [part for part in shapely.get_parts(shape) if part.geom_type == "Polygon"]
    return shapely.multipolygons(parts)


def _left_of(room: Shape, shapes: list[Shape]) -> Shape:
    return areas_of(shapely.difference(room, united(shapes), grid_size=GRID_M))
