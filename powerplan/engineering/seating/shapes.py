"""Floor that is no rectangle: what is left of it, in simple outlines."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import shapely

from powerplan.engineering.seating.frames import Frame, Outline, bounds, polygon
from powerplan.engineering.seating.rects import on_grid
from powerplan.model.spec import Room

# Openings that meet within this are one: their corners were rounded to a micrometer.
_MEET_M = 2e-6
# Pieces with less area than this are slivers of rounding.
_SLIVER_M2 = 1e-9
_FAR_M = 1000.0


def floor_less(floor: Outline, openings: Sequence[Outline], frame: Frame) -> tuple[Outline, ...]:
    """Return what is left of a piece of floor when openings are cut out of it.

    Parameters
    ----------
    floor : outline
        What there is. [m]
    openings : sequence of outlines
        What is cut out; those that meet are one. [m]
    frame : Frame
        Where something surrounds an opening it is cut in two along this frame's way ahead. [m, rad]

    Returns
    -------
    tuple of outlines
        Simple, counter-clockwise, without holes, on the grid of lengths. [m]
    """
    left = shapely.difference(polygon(floor), joined_openings(openings))
    return tuple(simple_outlines(_opened(left), frame))


def joined_openings(openings: Sequence[Outline]) -> Any:
    """Return openings as one shape, without the slits that rounding leaves between them. [m]

    Parameters
    ----------
    openings : sequence of outlines
        Openings in the room. [m]
    """
    whole = shapely.union_all([polygon(opening) for opening in openings])
    return _grown(_grown(whole, _MEET_M), -_MEET_M)


def _opened(shape: Any) -> Any:
    """A shape without what is thinner than rounding, such as the rest of an edge cut through."""
    return _grown(_grown(shape, -_MEET_M), _MEET_M)


def _grown(shape: Any, by_m: float) -> Any:
    return shapely.buffer(shape, by_m, join_style="mitre", mitre_limit=1000.0)


def simple_outlines(shape: Any, frame: Frame) -> Iterator[Outline]:
    """Yield a shape as simple outlines without holes, cut along a frame's way ahead.

    Parameters
    ----------
    shape : shapely geometry
        Any floor. [m]
    frame : Frame
        Where it is cut. [m, rad]
    """
    for part in solid_parts(shape):
        if not part.interiors:
            ring = _ring(part)
            if len(ring) > 2 and polygon(ring).area >= _SLIVER_M2:  # else rounding left a line
                yield ring
            continue
        inner = [frame.place((x, y)) for x, y in part.interiors[0].coords]
        box = bounds([tuple(inner)])
        at_m = (box.left_m + box.right_m) / 2
        for start_m, end_m in ((at_m - _FAR_M, at_m), (at_m, at_m + _FAR_M)):
            corners = ((start_m, -_FAR_M), (end_m, -_FAR_M), (end_m, _FAR_M), (start_m, _FAR_M))
            half = polygon(frame.outline(corners))
            yield from simple_outlines(shapely.intersection(part, half), frame)


def room_shape(room: Room) -> Any:
    """Return a room's floor as a shapely shape. [m]

    Parameters
    ----------
    room : Room
        The room. [m]
    """
    return polygon(room.outline)


def solid_parts(shape: Any) -> list[Any]:
    """Return the parts of a shape that have an area beyond rounding. [m]

    Parameters
    ----------
    shape : shapely geometry
        Any floor. [m]
    """
    parts = shapely.get_parts(shape)
    return [part for part in parts if part.geom_type == "Polygon" and part.area >= _SLIVER_M2]


def inside_room(outline: Outline, room: Room) -> tuple[Outline, ...]:
    """Return the part of a piece of floor that is inside a room.

    Parameters
    ----------
    outline : outline
        A simple outline. [m]
    room : Room
        The room. [m]
    """
    part = shapely.intersection(polygon(outline), room_shape(room))
    return tuple(simple_outlines(part, Frame()))


def _ring(part: Any) -> Outline:
    ring = shapely.geometry.polygon.orient(part).exterior.coords[:-1]
    points = [(on_grid(float(x)), on_grid(float(y))) for x, y in ring]
    return tuple(point for n, point in enumerate(points) if point != points[n - 1])
