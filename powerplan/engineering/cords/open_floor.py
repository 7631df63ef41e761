"""Ways that leave covered floor: the least open floor first, then the shortest."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise

import shapely

from powerplan.engineering.cords.clip import Segment
from powerplan.engineering.cords.corners import Corner, bends, rings, straightened
from powerplan.engineering.cords.floor import COVER_M, GRID_M, Floor, areas_of
from powerplan.engineering.cords.pricing import OPEN_FLOOR, inside, ready, way_price
from powerplan.engineering.cords.web import Spot, Web
from powerplan.model.geometry import Point
from powerplan.model.lengths import micrometers


class OpenFloor:
    """Shortest ways over all free floor, where open floor is dearer than any length.

    Nodes are the bends of free floor, the corners of covered floor where it meets open floor,
    riser corners, and from each of these the feet of perpendiculars on the edges of covered floor
    that it faces. The open floor of a way is the least there is; among ways with that least, the
    length is the least through these nodes, with square crossings then slid to where it is less.

    Parameters
    ----------
    floor : Floor
        The room's floor.
    """

    def __init__(self, floor: Floor) -> None:
        self._floor = floor
        self._free, self._lanes = ready(floor.free), ready(floor.lanes)
        self._open = areas_of(shapely.difference(floor.free, floor.lanes, grid_size=GRID_M))
        shapely.prepare(self._open)
        self._shores = self._find_shores()
        self._inner: dict[Point, bool] = {}
        self._drops: set[Segment] = set()
        self._spots: dict[Point, Spot] = {}
        self._web = Web(self._corners(), self._prices)

    def shortest(self, start: Point, end: Point) -> tuple[Point, ...] | None:
        """Return the way with the least open floor, or None where there is no way at all.

        Parameters
        ----------
        start, end : Point
            The two ends, in free floor. [m]
        """
        path = self._web.shortest(self._tied(start), self._tied(end))
        return None if path is None else self._slid(straightened(path))

    def _slid(self, path: tuple[Point, ...]) -> tuple[Point, ...]:
        """The path with each square crossing of open floor moved along its shores to where the
        whole is shortest, as far as that is free; no claim where something is in between."""
        points = [path[0]]
        for segment in pairwise(path):
            points += [*self._shore_points(segment), segment[1]]
        for n in range(1, len(points) - 2):
            before, leave, land, after = points[n - 1 : n + 3]
            if self._square_to_shores(leave, land):
                full = slide(before, leave, land, after)
                moves = [(full[0] * share, full[1] * share) for share in (1.0, 0.5, 0.25, 0.125)]
                points[n : n + 2] = next(
                    (
                        [moved(leave, by), moved(land, by)]
                        for by in moves
                        if self._as_good((before, leave, land, after), by)
                    ),
                    [leave, land],
                )
        return straightened(points)

    def _shore_points(self, segment: Segment) -> list[Point]:
        """Where a straight way leaves covered floor and lands on it, in order."""
        if inside(self._lanes, [segment])[0]:
            return []
        across = shapely.difference(shapely.LineString(segment), self._floor.lanes)
        ends = {
            (float(x), float(y))
            for part in shapely.get_parts(across)
            if part.length > COVER_M
            for x, y in (part.coords[0], part.coords[-1])
        }
        return sorted(ends - set(segment), key=lambda point: math.dist(point, segment[0]))

    def _square_to_shores(self, leave: Point, land: Point) -> bool:
        """True when both ends of a crossing lie on shores that it is square to."""
        return all(
            any(_square(leave, land, shore) and _on(point, shore) for shore in self._shores)
            for point in (leave, land)
        )

    def _as_good(self, points: tuple[Point, Point, Point, Point], by: Point) -> bool:
        """True when a crossing may be moved and costs no more open floor there."""
        before, leave, land, after = points
        there = (moved(leave, by), moved(land, by))
        if not all(inside(self._lanes, [(before, there[0]), (there[1], after)])):
            return False
        (price,) = self._prices_across([there])
        return price is not None and price <= self._ways([(leave, land)])[0]

    def _tied(self, point: Point) -> Spot:
        """An end tied to the graph, by itself and by the feet of its perpendiculars."""
        if point not in self._spots:
            self._note_inner((point,))
            drops = self._feet((point,))
            self._note_inner(foot for _, foot in drops)
            prices = self._ways(drops)
            steps = tuple((drop[1], price) for drop, price in zip(drops, prices, strict=True))
            self._spots[point] = self._web.tie(point, steps)
        return self._spots[point]

    def _corners(self) -> tuple[Corner, ...]:
        """All nodes, sorted by place."""
        turns, lane_turns = bends(self._floor.free), bends(self._floor.lanes)
        vertices = sorted({point for ring in rings(self._floor.lanes) for point in ring})
        self._note_inner(vertices)
        decks = [p for p in self._floor.deck_corners if inside(self._free, [(p, p)])[0]]
        points = {*turns, *decks, *(p for p in vertices if p in lane_turns or not self._inner[p])}
        self._note_inner(points)
        feet = self._feet(sorted(points))
        self._drops = {pair for one, other in feet for pair in ((one, other), (other, one))}
        landed = {foot for _, foot in feet}
        self._inner |= dict.fromkeys(landed, False)
        free_to_turn = landed | set(decks)
        return tuple(
            Corner(
                point=point,
                wedges=lane_turns.get(point, ())
                if self._inner[point] and point not in free_to_turn
                else (),
            )
            for point in sorted(points | landed)
        )

    def _find_shores(self) -> tuple[Segment, ...]:
        """Edges where open floor meets covered floor, the open floor on their left hand."""
        edges = [(ring[n - 1], ring[n]) for ring in rings(self._open) for n in range(len(ring))]
        held = inside(self._lanes, edges)
        return tuple(sorted(edge for edge, along in zip(edges, held, strict=True) if along))

    def _note_inner(self, points: Iterable[Point]) -> None:
        """Remember which points are in covered floor, away from open floor."""
        fresh = sorted({point for point in points if point not in self._inner})
        if fresh:
            far = shapely.distance(self._open, shapely.points(fresh)) > COVER_M
            self._inner |= {point: bool(out) for point, out in zip(fresh, far, strict=True)}

    def _feet(self, points: Sequence[Point]) -> tuple[Segment, ...]:
        """Straight ways from points to the shores they face, square to the shore."""
        drops = [
            (point, foot)
            for point in points
            for shore in self._shores
            if (foot := _foot(point, shore)) is not None
        ]
        held = inside(self._free, drops)
        return tuple(dict.fromkeys(d for d, may in zip(drops, held, strict=True) if may))

    def _prices(self, segments: Sequence[Segment]) -> list[int | None]:
        """Along covered floor by length; across open floor only between its own places."""
        prices: list[int | None] = [None] * len(segments)
        across = []
        for n, covered in enumerate(inside(self._lanes, segments)):
            start, end = segments[n]
            if covered:
                prices[n] = way_price(segments[n], self._floor.decks)
            elif not (self._inner[start] or self._inner[end]) or segments[n] in self._drops:
                across.append(n)
        for n, price in zip(
            across, self._prices_across([segments[n] for n in across]), strict=True
        ):
            prices[n] = price
        return prices

    def _prices_across(self, segments: Sequence[Segment]) -> list[int | None]:
        held = inside(self._free, segments)
        prices = iter(self._ways([s for s, may in zip(segments, held, strict=True) if may]))
        return [next(prices) if may else None for may in held]

    def _ways(self, segments: Sequence[Segment]) -> list[int]:
        """The prices of straight ways in free floor, their open floor in whole micrometers."""
        if not segments:
            return []
        lines = shapely.linestrings(segments)
        open_m = shapely.length(shapely.difference(lines, self._floor.covered_edge))
        return [
            OPEN_FLOOR * micrometers(float(length_m)) + way_price(segment, self._floor.decks)
            for segment, length_m in zip(segments, open_m, strict=True)
        ]


def _foot(point: Point, shore: Segment) -> Point | None:
    """Where the perpendicular from a point meets a shore, if the point is on its open side."""
    (x, y), (to_x, to_y) = shore
    along_x, along_y = to_x - x, to_y - y
    off_x, off_y = point[0] - x, point[1] - y
    squared = along_x**2 + along_y**2
    share = (along_x * off_x + along_y * off_y) / squared
    if along_x * off_y - along_y * off_x <= COVER_M * squared**0.5 or not 0.0 <= share <= 1.0:
        return None
    return (x + share * along_x, y + share * along_y)


def slide(before: Point, leave: Point, land: Point, after: Point) -> Point:
    """Return how to move a square crossing so that the ways to it and from it are shortest.

    The way is shortest where it would be straight if the open floor were not there.

    Parameters
    ----------
    before, leave, land, after : Point
        The place before the crossing, its two ends, and the place after. [m]

    Returns
    -------
    Point
        The move, along the shores. [m]
    """
    across_m = math.dist(leave, land)
    along = ((leave[1] - land[1]) / across_m, (land[0] - leave[0]) / across_m)
    first = (before[0] - leave[0], before[1] - leave[1])
    last = (after[0] - land[0], after[1] - land[1])
    first_m = first[0] * along[0] + first[1] * along[1]
    last_m = last[0] * along[0] + last[1] * along[1]
    first_off = abs(first[0] * along[1] - first[1] * along[0])
    last_off = abs(last[0] * along[1] - last[1] * along[0])
    if first_off + last_off <= COVER_M:
        return (0.0, 0.0)
    by_m = (first_m * last_off + last_m * first_off) / (first_off + last_off)
    return (by_m * along[0], by_m * along[1])


def moved(point: Point, by: Point) -> Point:
    """Return a point moved.

    Parameters
    ----------
    point, by : Point
        The point, and the move. [m]
    """
    return (point[0] + by[0], point[1] + by[1])


def _square(leave: Point, land: Point, shore: Segment) -> bool:
    step = (land[0] - leave[0], land[1] - leave[1])
    along = (shore[1][0] - shore[0][0], shore[1][1] - shore[0][1])
    return abs(step[0] * along[0] + step[1] * along[1]) <= 1e-9


def _on(point: Point, shore: Segment) -> bool:
    return bool(shapely.LineString(shore).distance(shapely.Point(point)) <= COVER_M)
