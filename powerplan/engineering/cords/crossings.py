"""Cords that cross each other, and cords that share a gap."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise

import shapely

from powerplan.engineering.cords.clip import spans_within
from powerplan.engineering.seating.frames import Outline
from powerplan.engineering.seating.zones import REAR_STRIP, Opening
from powerplan.model.geometry import Point
from powerplan.model.lengths import MICROMETER_M
from powerplan.model.rules import RuleSet

# A cord by its id and path. [m]
Laid = tuple[str, tuple[Point, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Crossing:
    """Two cords and where one goes over the other. [m]"""

    one: str
    other: str
    place: Point


def crossings(cords: Sequence[Laid]) -> tuple[Crossing, ...]:
    """Return every place where one cord passes from one side of another to the other side.

    Cords that end at one place, that meet at a corner and part on the side they came from, or that
    lie along each other, do not cross there.

    Parameters
    ----------
    cords : sequence of (str, tuple of Point)
        Each cord's id and path. [m]

    Returns
    -------
    tuple of Crossing
        In the order of the cords given, then from the left.
    """
    lines = [shapely.LineString(path) for _, path in cords]
    found = []
    for i, j in combinations(range(len(cords)), 2):
        shared = shapely.intersection(lines[i], lines[j])
        places = {
            (float(part.x), float(part.y))
            for part in shapely.get_parts(shared)
            if part.geom_type == "Point"
        }
        found += [
            Crossing(one=cords[i][0], other=cords[j][0], place=place)
            for place in sorted(places)
            if _passes_over(cords[i][1], cords[j][1], place)
        ]
    return tuple(found)


def gap_use(cords: Sequence[Laid], strips: Sequence[Outline]) -> dict[int, tuple[str, ...]]:
    """Return which cords lie in which strips.

    Parameters
    ----------
    cords : sequence of (str, tuple of Point)
        Each cord's id and path. [m]
    strips : sequence of outlines
        Strips under rails and arms. [m]

    Returns
    -------
    dict
        For each strip that is used, by its place in ``strips``, the ids in the order given.
    """
    used: dict[int, tuple[str, ...]] = {}
    for n, strip in enumerate(strips):
        ids = tuple(name for name, path in cords if _lies_in(path, strip))
        if ids:
            used[n] = ids
    return used


def gap_width_m(strip: Opening) -> float:
    """Return what a strip offers to cords side by side.

    Parameters
    ----------
    strip : Opening
        A rear strip, which cords pass back to front, or an arm strip, which they pass sideways.

    Returns
    -------
    float
        The width of a rear strip, the depth of an arm strip. [m]
    """
    return strip.rect.width_m if strip.kind == REAR_STRIP else strip.rect.depth_m


def width_for_cords_m(cords: int, diameter_m: float, rules: RuleSet) -> float:
    """Return the width that a number of cords take side by side, with their clearance.

    Parameters
    ----------
    cords : int
        How many lie in the strip.
    diameter_m : float
        How thick each is. [m]
    rules : RuleSet
        The numbers; ``cord_clearance`` is kept at each side.

    Returns
    -------
    float
        Least width of the strip. [m]
    """
    return cords * diameter_m + 2 * rules.length_m("cord_clearance")


def _lies_in(path: tuple[Point, ...], strip: Outline) -> bool:
    """True when some length of the path, more than 1 um, is inside the strip."""
    for segment in pairwise(path):
        for start, end in spans_within(segment, strip, -MICROMETER_M):
            if (end - start) * math.dist(*segment) > MICROMETER_M:
                return True
    return False


def _passes_over(one: tuple[Point, ...], other: tuple[Point, ...], place: Point) -> bool:
    """True when the second path comes from one side of the first and leaves on the other."""
    ways, other_ways = _directions(one, place), _directions(other, place)
    if ways is None or other_ways is None:
        return False
    turn = _angle(ways[0], ways[1])
    sides = [_angle(ways[0], way) for way in other_ways]
    if any(min(abs(side), abs(side - turn), abs(side - math.tau)) < 1e-9 for side in sides):
        return False
    return (sides[0] < turn) != (sides[1] < turn)


def _directions(path: tuple[Point, ...], place: Point) -> tuple[float, float] | None:
    """The directions back and on from a place of a path; None at its ends. [rad]"""
    if min(math.dist(place, path[0]), math.dist(place, path[-1])) <= MICROMETER_M:
        return None
    for n, corner in enumerate(path[1:-1], start=1):
        if math.dist(place, corner) <= MICROMETER_M:
            return _heading(corner, path[n - 1]), _heading(corner, path[n + 1])
    spot = shapely.Point(place)
    start, end = min(pairwise(path), key=lambda s: float(shapely.LineString(s).distance(spot)))
    return _heading(end, start), _heading(start, end)


def _heading(start: Point, end: Point) -> float:
    return math.atan2(end[1] - start[1], end[0] - start[0])


def _angle(start: float, end: float) -> float:
    """How far to turn, counter-clockwise, from one heading to another. [rad]"""
    return (end - start) % math.tau
