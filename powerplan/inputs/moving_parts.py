"""Moving parts of a chair: what they sweep, from the positions that the maker's drawing gives."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from powerplan.inputs import written as w
from powerplan.inputs.reading import Reading, grid_m, grid_or_unknown_m
from powerplan.inputs.row_fields import PartBox
from powerplan.inputs.tables import PlanTables, Table
from powerplan.model.geometry import Point
from powerplan.model.seats import MovingPart

_Outline = tuple[Point, ...]

# Sectors are cut into pieces of this angle at most, and taken this much larger against rounding.
_STEP_RAD = math.radians(10)
_BIT_M = 2e-6


def parts_of(reading: Reading, tables: PlanTables, chair: str) -> tuple[MovingPart, ...]:
    """Return the moving parts of a kind of chair that could be read. [m]

    Parameters
    ----------
    reading : Reading
        Where faults are noted.
    tables : PlanTables
        Parts as written.
    chair : str
        The kind of chair.
    """
    parts = (_part(reading, table) for table in tables.parts.get(chair, ()))
    return tuple(part for part in parts if part is not None)


def _part(reading: Reading, table: Table[w.Part]) -> MovingPart | None:
    it = table.it
    if not table.has("positions") or not table.sound("positions", "pivot"):
        return None
    swings = it.travel == "swings"
    if swings and it.pivot is None:
        words = 'a part that swings needs its pivot, such as { right = "0 in", forward = "30 in" }'
        reading.faults.add(table.path, words)
    elif it.pivot is not None and not swings and table.sound("travel"):
        words = 'only a part that swings has a pivot; write travel = "swings"'
        reading.faults.add(table.at("pivot"), words)
    places = [_outline(reading, table, n) for n in range(len(it.positions))]
    known = [place for place in places if place is not None]
    if not places:
        reading.faults.add(table.at("positions"), "one position is wanted at least")
    if len(known) < len(places) or not known:
        return None
    if swings and it.pivot is not None:
        pivot = (grid_m(it.pivot.right), grid_m(it.pivot.forward))
        outlines = sector(pivot, known)
    else:
        outlines = swept(known)
    if table.spoiled or (swings and it.pivot is None):
        return None
    return MovingPart(id=table.name, outlines=outlines, least_gap_m=grid_or_unknown_m(it.least_gap))


def _outline(reading: Reading, table: Table[w.Part], number: int) -> _Outline | None:
    """One position as a convex outline, counter-clockwise, where it is one. [m]"""
    position = table.it.positions[number]
    path = (*table.at("positions"), number)
    if isinstance(position, PartBox):
        if position.back >= position.front:
            words = f"from {reading.text(position.back)} is not less than to"
            reading.faults.add(path, f"{words} {reading.text(position.front)}")
            return None
        left, right = -grid_m(position.left), grid_m(position.right)
        if left >= right:
            reading.faults.add(path, "left and right together leave no width")
            return None
        back, front = grid_m(position.back), grid_m(position.front)
        return ((left, back), (right, back), (right, front), (left, front))
    corners = tuple((grid_m(right), grid_m(forward)) for right, forward in position)
    around = hull(corners)
    if len(around) < 3 or set(around) != set(corners):
        words = "the outline bends inward or has a corner on a straight side; give a part that"
        reading.faults.add(path, f"{words} bends inward as several parts")
        return None
    return around


def swept(places: Sequence[_Outline]) -> tuple[_Outline, ...]:
    """Return what a convex part sweeps as it travels straight from each place to the next.

    Parameters
    ----------
    places : sequence of outlines
        Its positions in turn, each convex. [m]

    Returns
    -------
    tuple of outlines
        Convex, counter-clockwise; exact where the part only shifts. [m]
    """
    if len(places) == 1:
        return (hull(places[0]),)
    return tuple(hull((*one, *other)) for one, other in pairwise(places))


def sector(pivot: Point, places: Sequence[_Outline]) -> tuple[_Outline, ...]:
    """Return floor that holds all that a part sweeps as it swings about a pivot.

    That is everything between its least and its greatest distance from the pivot, over the angle
    that it passes; between two positions it takes the shorter way round.

    Parameters
    ----------
    pivot : Point
        What it swings about. [m]
    places : sequence of outlines
        Its positions in turn, each convex. [m]

    Returns
    -------
    tuple of outlines
        Convex, counter-clockwise; together never less than the sector. [m]
    """
    near_m = max(min(_near_m(pivot, place) for place in places) - _BIT_M, 0.0)
    far_m = max(math.dist(pivot, corner) for place in places for corner in place) + _BIT_M
    start, end = _angles(pivot, places)
    slack = _BIT_M / max(near_m, _BIT_M * 100)
    start, end = start - slack, end + slack
    if near_m == 0.0 or end - start >= math.tau:
        if near_m == 0.0 and any(_holds(pivot, place) for place in places):
            start, end = 0.0, math.tau
        end = min(end, start + math.tau)
    steps = max(1, math.ceil((end - start) / _STEP_RAD))
    step = (end - start) / steps
    out_m = far_m / math.cos(step / 2)
    pieces = []
    for number in range(steps):
        one, other = start + number * step, start + (number + 1) * step
        corners = [_at(pivot, out_m, one), _at(pivot, out_m, other)]
        corners += [_at(pivot, near_m, other), _at(pivot, near_m, one)]
        pieces.append(hull(corners))
    return tuple(pieces)


def _at(pivot: Point, far_m: float, angle: float) -> Point:
    x_m, y_m = pivot[0] + far_m * math.cos(angle), pivot[1] + far_m * math.sin(angle)
    return (round(x_m, 6) + 0.0, round(y_m, 6) + 0.0)


def _angles(pivot: Point, places: Sequence[_Outline]) -> tuple[float, float]:
    """The angles from the first to the last that any corner is seen at from the pivot. [rad]"""
    middle = math.atan2(*_toward(pivot, places[0])[::-1])
    found = []
    for place in places:
        across, ahead = _toward(pivot, place)
        turn = math.remainder(math.atan2(ahead, across) - middle, math.tau)
        middle += turn
        for x, y in place:
            seen = math.atan2(y - pivot[1], x - pivot[0])
            found.append(middle + math.remainder(seen - middle, math.tau))
    return min(found), max(found)


def _toward(pivot: Point, place: _Outline) -> Point:
    """From the pivot to the middle of a place's corners. [m]"""
    count = len(place)
    return (
        sum(x for x, _ in place) / count - pivot[0],
        sum(y for _, y in place) / count - pivot[1],
    )


def _near_m(pivot: Point, place: _Outline) -> float:
    """The least distance from a pivot to a convex outline; 0 inside. [m]"""
    if _holds(pivot, place):
        return 0.0
    return min(_to_side_m(pivot, one, other) for one, other in pairwise((*place, place[0])))


def _to_side_m(point: Point, start: Point, end: Point) -> float:
    run = (end[0] - start[0], end[1] - start[1])
    off = (point[0] - start[0], point[1] - start[1])
    share = (off[0] * run[0] + off[1] * run[1]) / (run[0] ** 2 + run[1] ** 2)
    share = min(max(share, 0.0), 1.0)
    return math.dist(point, (start[0] + share * run[0], start[1] + share * run[1]))


def _holds(point: Point, place: _Outline) -> bool:
    return all(_turn(one, other, point) >= 0.0 for one, other in pairwise((*place, place[0])))


def hull(points: Sequence[Point]) -> _Outline:
    """Return the convex outline around points, counter-clockwise from the left. [m]

    Parameters
    ----------
    points : sequence of Point
        Any points. [m]
    """
    ordered = sorted(set(points))
    return (*_half(ordered), *_half(ordered[::-1]))


def _half(points: Sequence[Point]) -> list[Point]:
    kept: list[Point] = []
    for point in points:
        while len(kept) > 1 and _turn(kept[-2], kept[-1], point) <= 0.0:
            kept.pop()
        kept.append(point)
    return kept[:-1]


def _turn(start: Point, end: Point, point: Point) -> float:
    return (end[0] - start[0]) * (point[1] - start[1]) - (end[1] - start[1]) * (point[0] - start[0])
