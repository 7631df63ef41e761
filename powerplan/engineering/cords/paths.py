"""The shortest way for a cord between two places of the room."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import cached_property

import shapely

from powerplan.engineering.cords.clip import Segment
from powerplan.engineering.cords.corners import Corner, bends, straightened
from powerplan.engineering.cords.floor import Floor, KeptFree, build_floor
from powerplan.engineering.cords.open_floor import OpenFloor
from powerplan.engineering.cords.pricing import inside, ready, way_price
from powerplan.engineering.cords.refusals import Scene, end_refused, no_way
from powerplan.engineering.cords.route import NoWay, Route
from powerplan.engineering.cords.web import Spot, Web
from powerplan.engineering.seating.frames import Outline
from powerplan.engineering.seating.poses import SeatedRow
from powerplan.engineering.seating.tables import standing_things
from powerplan.engineering.seating.zones import Zones, least_gap_for_cords_m
from powerplan.model.geometry import Point
from powerplan.model.rules import RuleSet
from powerplan.model.spec import PlanSpec

__all__ = ["NoWay", "Route", "Router"]


class Router:
    """Finds and remembers ways for cords in one room.

    Within covered floor a way is the shortest there is, plan length and riser edges together,
    among ways that keep to the mitred clearances. Where covered floor does not join the two ends
    it has the least open floor (see :class:`OpenFloor`).

    Parameters
    ----------
    spec : PlanSpec
        The plan as read. [m]
    rows : tuple of SeatedRow
        Every row. [m]
    zones : Zones
        Pinch zones and openings. [m]
    covered : tuple of outlines
        Pieces of covered floor. [m]
    doorways : tuple of Area or Doorway
        Floor inside door openings. [m]
    rules : RuleSet
        The numbers.
    """

    def __init__(
        self,
        spec: PlanSpec,
        rows: tuple[SeatedRow, ...],
        zones: Zones,
        covered: tuple[Outline, ...],
        doorways: tuple[KeptFree, ...],
        rules: RuleSet,
    ) -> None:
        standing = standing_things(spec, rows, rules)
        self.floor: Floor = build_floor(spec, zones, covered, doorways, standing, rules)
        self._scene = Scene(
            spec=spec,
            rows=rows,
            zones=zones,
            floor=self.floor,
            standing=standing,
            least_gap_m=least_gap_for_cords_m(spec, rules),
        )
        self._found: dict[tuple[Point, Point], Route | NoWay] = {}
        self._spots: dict[Point, Spot] = {}
        self._refused: dict[Point, NoWay | None] = {}

    def route(self, start: Point, end: Point) -> Route | NoWay:
        """Return the way from one place to another, or why there is none.

        The way back is the same way, mirrored.

        Parameters
        ----------
        start, end : Point
            The middle of a box or socket, or where a lead leaves its chair. [m]

        Returns
        -------
        Route or NoWay
            The way with its length, rises, open floor and clearance; or the rule that stops it.
        """
        there = (start, end)
        if there not in self._found:
            first, last = sorted(there)
            way = self._find(first, last)
            self._found[first, last] = way
            if isinstance(way, Route):
                way = replace(way, path=way.path[::-1])
            self._found[last, first] = way
        return self._found[there]

    def covered_path(self, start: Point, end: Point) -> tuple[Point, ...] | None:
        """Return the way that keeps to covered floor; None where covered floor does not join them.

        Parameters
        ----------
        start, end : Point
            Two places. [m]
        """
        path = self._covered_path(start, end)
        return None if path is None else straightened(path)

    def guessed(self, start: Point, end: Point) -> Route:
        """Return the straight line from one place to another, whatever lies on it.

        Parameters
        ----------
        start, end : Point
            The middle of a box under a chair that is not measured, and where a lead leaves. [m]
        """
        return self.floor.measure((start, end))

    def _find(self, start: Point, end: Point) -> Route | NoWay:
        for point in (start, end):
            refused = self._end_refused(point)
            if refused is not None:
                return refused
        path = self._covered_path(start, end)
        if path is None and self._same_part(self._free_parts, start, end):
            path = self._open_floor.shortest(start, end)
        if path is None:
            return no_way(self._scene, start, end)
        return self.floor.measure(straightened(path))

    def _covered_path(self, start: Point, end: Point) -> tuple[Point, ...] | None:
        if not self._same_part(self._lane_parts, start, end):
            return None
        return self._covered_web.shortest(self._tied(start), self._tied(end))

    def _tied(self, point: Point) -> Spot:
        if point not in self._spots:
            self._spots[point] = self._covered_web.tie(point)
        return self._spots[point]

    def _end_refused(self, point: Point) -> NoWay | None:
        if point not in self._refused:
            held = shapely.covers(self._free, shapely.Point(point))
            self._refused[point] = None if held else end_refused(self._scene, point)
        return self._refused[point]

    @cached_property
    def _free(self) -> object:
        return ready(self.floor.free)

    @cached_property
    def _lanes(self) -> object:
        return ready(self.floor.lanes)

    @cached_property
    def _free_parts(self) -> tuple[object, ...]:
        return _parts(self._free)

    @cached_property
    def _lane_parts(self) -> tuple[object, ...]:
        return _parts(self._lanes)

    @cached_property
    def _covered_web(self) -> Web:
        """The graph of covered floor: its bends, and riser corners that lie in it."""
        turns = bends(self.floor.lanes)
        for point in self.floor.deck_corners:
            if inside(self._lanes, [(point, point)])[0]:
                turns[point] = ()
        corners = (Corner(point=point, wedges=turns[point]) for point in sorted(turns))
        return Web(tuple(corners), self._covered_prices)

    @cached_property
    def _open_floor(self) -> OpenFloor:
        return OpenFloor(self.floor)

    def _covered_prices(self, segments: Sequence[Segment]) -> list[int | None]:
        decks = self.floor.decks
        held = inside(self._lanes, segments)
        return [
            way_price(segment, decks) if may else None
            for segment, may in zip(segments, held, strict=True)
        ]

    @staticmethod
    def _same_part(parts: tuple[object, ...], start: Point, end: Point) -> bool:
        one, other = shapely.Point(start), shapely.Point(end)
        return any(shapely.covers(part, one) and shapely.covers(part, other) for part in parts)


def _parts(shape: object) -> tuple[object, ...]:
    parts = tuple(shapely.get_parts(shape))
    shapely.prepare(parts)
    return parts
