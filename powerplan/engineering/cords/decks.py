"""Riser decks: how often a straight stretch of cord goes up or down a riser's edge."""

from __future__ import annotations

from dataclasses import dataclass

import shapely

from powerplan.engineering.cords.clip import Segment, span_inside
from powerplan.engineering.seating.shapes import room_shape
from powerplan.model.geometry import Point, Rect
from powerplan.model.lengths import micrometers
from powerplan.model.spec import Riser, Room

# What lies this near to a riser's edge lies on the edge, and so on the lower floor.
_EDGE_M = 1e-6
# A deck that ends at a wall goes on behind it, so that a cord along that wall stays on the deck.
_BEYOND_WALL_M = 1.0
# A shorter share of a stretch than this only touches a deck's corner.
_TOUCH = 1e-12


@dataclass(frozen=True, slots=True, kw_only=True)
class Deck:
    """The inside of a riser; its edges count as lower floor, save those on a wall. [m]"""

    rect: Rect
    height_m: float

    def holds(self, point: Point) -> bool:
        """Return True when a point is up on the deck.

        Parameters
        ----------
        point : Point
            The point. [m]
        """
        x, y = point
        rect = self.rect
        return rect.left_m < x < rect.right_m and rect.back_m < y < rect.front_m

    def crossings(self, segment: Segment) -> int:
        """Return how often a straight stretch crosses the deck's edge: 0, 1 or 2.

        Parameters
        ----------
        segment : tuple of Point
            Its two ends. [m]
        """
        start_up, end_up = self.holds(segment[0]), self.holds(segment[1])
        if start_up != end_up:
            return 1
        span = None if start_up else span_inside(segment, self.rect)
        return 0 if span is None or span[1] - span[0] <= _TOUCH else 2


def deck_of(riser: Riser, room: Room) -> Deck:
    """Return a riser's deck; edges on a wall of the room are no steps.

    Parameters
    ----------
    riser : Riser
        The riser. [m]
    room : Room
        The room it stands in. [m]
    """

    def edge(place_m: float, wall_m: float, outward: int, axis: int) -> float:
        if outward * micrometers(place_m - wall_m) >= 0:
            return place_m + outward * _BEYOND_WALL_M
        beyond_m = _EDGE_M if _along_a_wall(riser, room, place_m, axis) else -_EDGE_M
        return place_m + outward * beyond_m

    deck = Rect(
        left_m=edge(riser.rect.left_m, 0.0, -1, 0),
        right_m=edge(riser.rect.right_m, room.width_m, 1, 0),
        back_m=edge(riser.rect.back_m, 0.0, -1, 1),
        front_m=edge(riser.rect.front_m, room.depth_m, 1, 1),
    )
    return Deck(rect=deck, height_m=riser.height_m)


def _along_a_wall(riser: Riser, room: Room, place_m: float, axis: int) -> bool:
    """True where some of a riser's edge, square to an axis, lies along a wall of an outline."""
    rect = riser.rect
    ends = ((rect.back_m, rect.front_m), (rect.left_m, rect.right_m))[axis]
    for wall in room.walls:
        if not micrometers(wall.start[axis]) == micrometers(wall.end[axis]) == micrometers(place_m):
            continue
        low, high = sorted((wall.start[1 - axis], wall.end[1 - axis]))
        if micrometers(min(high, ends[1])) > micrometers(max(low, ends[0])):
            return True
    return False


def rises_m(decks: tuple[Deck, ...], segment: Segment) -> float:
    """Return what a straight stretch adds by going up and down riser edges.

    Parameters
    ----------
    decks : tuple of Deck
        Every deck of the room. [m]
    segment : tuple of Point
        Its two ends. [m]

    Returns
    -------
    float
        The heights of all edges it crosses. [m]
    """
    return sum(deck.height_m * deck.crossings(segment) for deck in decks)


def inner_corners(riser: Riser, room: Room) -> tuple[Point, ...]:
    """Return a riser's corners that lie inside the room, off every wall.

    Parameters
    ----------
    riser : Riser
        The riser. [m]
    room : Room
        The room it stands in. [m]
    """
    return tuple(
        (x, y)
        for x, y in riser.rect.outline
        if 0 < micrometers(x) < micrometers(room.width_m)
        and 0 < micrometers(y) < micrometers(room.depth_m)
        and (not room.walls or shapely.contains(room_shape(room), shapely.Point(x, y)))
    )
