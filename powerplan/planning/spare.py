"""Where spare cord lies: in a flat oval of loose loops behind the reclined back of its chair."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

import shapely

from powerplan.engineering.cords.clip import span_inside
from powerplan.engineering.cords.decks import Deck, rises_m
from powerplan.engineering.cords.floor import COVER_M, Shape, box, grown, united
from powerplan.engineering.seating.frames import polygon
from powerplan.engineering.seating.poses import SeatedChair
from powerplan.engineering.seating.rects import grid_rect, on_grid
from powerplan.engineering.seating.zones import REAR_STRIP
from powerplan.model.geometry import Point, Rect
from powerplan.model.lengths import micrometers
from powerplan.model.rules import RuleSet
from powerplan.model.spare import left_over_m, loop_m, path_length_m
from powerplan.planning.runs import Leg, Run
from powerplan.planning.site import Site

# How far the middle of an oval is tried to each side of the chair's own, and in what steps. [m]
_ASIDE_M, _STEP_M = 0.3, 0.05
_STEPS = range(1, round(_ASIDE_M / _STEP_M) + 1)
_ASIDES_M = (0.0, *(side * step * _STEP_M for step in _STEPS for side in (-1, 1)))
# More than the grid takes from a length between two places. [m]
_GRID_TAKES_M = 1e-5


@dataclass(frozen=True, slots=True, kw_only=True)
class Coil:
    """Spare cord as it lies: an oval, its middle, and how wide and deep it is. [m]

    ``tail`` is the floor that the cord takes from its way to the oval, and back; empty where the
    oval lies on the way itself. [m]
    """

    middle: Point
    width_m: float
    depth_m: float
    tail: tuple[Point, ...] = ()

    @property
    def rect(self) -> Rect:
        """The floor around it. [m]"""
        return grid_rect(
            self.middle[0] - self.width_m / 2,
            self.middle[0] + self.width_m / 2,
            self.middle[1] - self.depth_m / 2,
            self.middle[1] + self.depth_m / 2,
        )


def coil_size_m(spare_m: float, rules: RuleSet) -> tuple[float, float]:
    """Return the flat oval in which a length of cord lies in loops on top of one another.

    Its depth is a number of the rule set (two half turns of that width); it takes as few loops as
    the greatest width allows, all of one size.

    Parameters
    ----------
    spare_m : float
        What is left over. [m]
    rules : RuleSet
        The numbers.

    Returns
    -------
    tuple of float
        Left to right, and back to screen. [m]
    """
    widest_m, depth_m = rules.length_m("coil_width"), rules.length_m("coil_depth")
    loops = max(1, math.ceil(spare_m / loop_m(widest_m, depth_m) - 1e-9))
    straight_m = max(0.0, (spare_m / loops - math.pi * depth_m) / 2)
    return (on_grid(depth_m + straight_m), on_grid(depth_m))


def coils(site: Site, legs: tuple[tuple[Run, Leg], ...]) -> dict[str, Coil]:
    """Return, by cord, where spare that asks for a place is parked.

    A coil lies behind the chair that its cord serves, or where that has no room behind a neighbor
    of the same row; behind its reclined headrest and every other, so that nothing comes over it, on
    covered floor only, as clear of what moves and of walls as any cord, on one level, off walkways,
    doorways and obstacles, and beside other coils, supplies and outlet units, which get warm. It
    takes what is left of the cord after going there and back by free floor. What finds no such
    floor, or does not reach it, or cannot get out from under its chair to the rear, has no place
    here and is missing.

    Parameters
    ----------
    site : Site
        The room.
    legs : tuple of (Run, Leg)
        Every cord with the run that it is part of.
    """
    over_um = micrometers(site.rules.length_m("park_over"))
    found: dict[str, Coil] = {}
    beds = _beds(site, legs)
    asking = [
        (served(run, leg), leg)
        for run, leg in legs
        if micrometers(left_over_m(leg.bought_m, leg.length_m)) > over_um
    ]
    turns: list[tuple[Leg, tuple[SeatedChair, ...]]] = [(leg, (chair,)) for chair, leg in asking]
    turns += [(leg, _neighbors(site, chair, leg)) for chair, leg in asking]
    for leg, chairs in turns:
        others = [other.path for _, other in legs if other is not leg]
        for chair in chairs:
            if leg.id in found or not _gets_out(site, chair, leg):
                continue
            coil = _place(site, chair, leg, others, beds, tuple(found.values()))
            if coil is not None:
                found[leg.id] = coil
    return found


def _neighbors(site: Site, chair: SeatedChair, leg: Leg) -> tuple[SeatedChair, ...]:
    """The other chairs of a row that a cord may reach with half of its spare, the nearest first."""
    way = shapely.LineString(leg.path)
    far = [
        (float(shapely.distance(way, shapely.Point(other.x_m, other.y_m))), other)
        for row in site.rows
        for other in row.chairs
        if other.row == chair.row and other is not chair
    ]
    half_m = left_over_m(leg.bought_m, leg.length_m) / 2 + _ASIDE_M
    near = [(round(away_m, 6), other.id, other) for away_m, other in far if away_m <= half_m]
    return tuple(other for *_, other in sorted(near, key=lambda one: one[:2]))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Beds:
    """Floor for coils, as clear of reclined chairs as cords are of what moves or just off them;
    floor for their tails; what lies loose on it; and floor as far from walls as cords are. [m]"""

    clear: Shape
    just_off: Shape
    tails: Shape
    loose: Shape
    off_walls: Shape


def _beds(site: Site, legs: tuple[tuple[Run, Leg], ...]) -> _Beds:
    """A coil goes nowhere that a chair comes over, nor on a supply or unit, which get warm."""
    spots = [supply.spot for run, _ in legs for supply in run.supplies]
    spots += [run.unit.spot for run, _ in legs if run.unit is not None]
    loose = united(spot.shape for spot in spots)
    swept = united(polygon(outline) for row in site.rows for outline in row.swept)
    tails = grown(site.router.floor.lanes, COVER_M)
    just_off = shapely.difference(
        tails, shapely.union(grown(swept, -COVER_M), grown(loose, -COVER_M))
    )
    near_m = site.rules.length_m("cord_clearance") - COVER_M
    clear = shapely.difference(just_off, grown(swept, near_m))
    off_walls = grown(site.router.floor.room, COVER_M - site.router.floor.clearance_m)
    shapely.prepare([clear, just_off, tails, off_walls])
    return _Beds(clear=clear, just_off=just_off, tails=tails, loose=loose, off_walls=off_walls)


def served(run: Run, leg: Leg) -> SeatedChair:
    """Return the chair that a cord serves; an extension serves the chair whose lead it meets."""
    return next((chair for chair in run.chairs if chair.id == leg.to), run.chairs[0])


def _gets_out(site: Site, chair: SeatedChair, leg: Leg) -> bool:
    """Whether a cord can reach the floor behind its chair without crossing a pinch zone."""
    line_um = micrometers(chair.floor.back_m)
    if any(micrometers(chair.frame.place(spot)[1]) <= line_um for spot in leg.path):
        return True
    return any(o.kind == REAR_STRIP and o.chair == chair.id for o in site.zones.openings)


def _place(
    site: Site,
    chair: SeatedChair,
    leg: Leg,
    others: list[tuple[Point, ...]],
    beds: _Beds,
    taken: tuple[Coil, ...],
) -> Coil | None:
    """The best free floor behind a chair, with no cord under the coil but where it lies in line."""
    depth_m, spare = site.rules.length_m("coil_depth"), left_over_m(leg.bought_m, leg.length_m)
    most_m = (spare - math.pi * depth_m) / 2
    line = shapely.LineString(leg.path)
    for middle, floor in _spots(site, chair, coil_size_m(spare, site.rules), beds):
        least = Coil(middle=middle, width_m=depth_m, depth_m=depth_m)
        if not shapely.covers(floor, box(least.rect)):
            continue  # not even one round loop has room
        tail = _tail(site, line, middle, depth_m, beds.tails, most_m)
        if tail is None or _goes_over(tail, beds.loose):
            continue
        left_m = spare - 2 * path_length_m(tail)
        if left_m < math.pi * depth_m:
            continue
        wide_m, deep_m = coil_size_m(left_m, site.rules)
        coil = Coil(middle=middle, width_m=wide_m, depth_m=deep_m, tail=tail)
        if not _lies_free(site, chair, coil, floor, beds.off_walls, taken):
            continue
        under = [*others, leg.path] if tail else others
        if not any(_passes(path, coil.rect) for path in under):
            return coil
    return None


def _spots(
    site: Site, chair: SeatedChair, size_m: tuple[float, float], beds: _Beds
) -> Iterator[tuple[Point, Shape]]:
    """Places for the middle of a coil and the floor it keeps to: clear of reclined chairs where
    there is room for that, else just off them."""
    near_m = site.rules.length_m("cord_clearance")
    spans = _spans(site, chair) if chair.frame.is_room else []
    for clear_m, floor in ((near_m, beds.clear), (0.0, beds.just_off)):
        middles = (
            _middles(site, chair, size_m[1], clear_m, spans)
            if chair.frame.is_room
            else _askew_middles(site, chair, size_m, clear_m)
        )
        for middle in middles:
            yield middle, floor


def _spans(site: Site, chair: SeatedChair) -> list[tuple[float, float]]:
    """How far back covered floor goes behind a chair, by how far to its right. [m]"""
    near_m = chair.floor.back_m - site.router.floor.keep_m
    lanes = site.router.floor.lanes
    behind = [(x_m, _behind(lanes, chair.x_m + x_m, near_m)) for x_m in _ASIDES_M]
    return [(x_m, far_m) for x_m, far_m in behind if far_m is not None]


def _middles(
    site: Site,
    chair: SeatedChair,
    depth_m: float,
    clear_m: float,
    spans: list[tuple[float, float]],
) -> Iterator[Point]:
    """Places for the middle of a coil, the best first."""
    near_m = chair.floor.back_m - site.router.floor.keep_m
    wall_m = site.rules.length_m("cord_clearance")
    reclined_m = chair.y_m - chair.kind.back_travel_m - clear_m
    ahead_m = min(reclined_m, near_m)
    for x_m, far_m in spans:
        if ahead_m - far_m >= depth_m:
            middle_m = min(max((far_m + ahead_m) / 2, far_m + wall_m + depth_m / 2), ahead_m)
            near = ahead_m - depth_m / 2
            yield on_grid(chair.x_m + x_m), on_grid(min(middle_m, near))
            yield on_grid(chair.x_m + x_m), on_grid(near)
    for x_m, far_m in spans:
        room_m = ahead_m - depth_m - far_m - wall_m
        for step in range(1, math.floor(room_m / _STEP_M) + 1):
            yield on_grid(chair.x_m + x_m), on_grid(ahead_m - depth_m / 2 - step * _STEP_M)


def _askew_middles(
    site: Site, chair: SeatedChair, size_m: tuple[float, float], clear_m: float
) -> Iterator[Point]:
    """Places behind a turned chair for a coil that lies square to the room, the best first."""
    sine, cosine = abs(math.sin(chair.angle_rad)), abs(math.cos(chair.angle_rad))
    half_m = (size_m[0] * sine + size_m[1] * cosine) / 2
    near_m = chair.floor.back_m - site.router.floor.keep_m
    reclined_m = chair.spot[1] - chair.kind.back_travel_m - clear_m
    ahead_m = min(reclined_m, near_m)
    for back_m in (0.0, *(step * _STEP_M for step in _STEPS)):
        for right_m in _ASIDES_M:
            yield chair.frame.point((chair.spot[0] + right_m, ahead_m - half_m - back_m))


def _tail(
    site: Site, line: Shape, middle: Point, depth_m: float, floor: Shape, most_m: float
) -> tuple[Point, ...] | None:
    """The way from a cord's line to the near edge of a coil; None where there is none, or where
    even a straight one would be longer than the most that it may be."""
    at = _nearest(line, middle)
    off_m = math.dist(at, middle) - depth_m / 2
    if off_m <= 0.0:
        return ()
    if off_m > most_m + _GRID_TAKES_M:
        return None
    edges = [(middle[0], on_grid(middle[1] + side * depth_m / 2)) for side in (-1, 1)]
    edge = min(edges, key=lambda one: math.dist(one, at))
    at = _nearest(line, edge)
    decks = site.router.floor.decks
    if shapely.covers(floor, shapely.LineString((at, edge))) and not _steps(decks, (at, edge)):
        return (at, edge)
    way = site.router.covered_path(at, edge)
    return None if way is None or _steps(decks, way) else way


def _steps(decks: tuple[Deck, ...], path: tuple[Point, ...]) -> bool:
    """Whether a path goes up or down a riser's edge."""
    return micrometers(math.fsum(rises_m(decks, segment) for segment in pairwise(path))) > 0


def _nearest(line: Shape, to: Point) -> Point:
    """The place of a line nearest to another place; its first where the line has no length."""
    at = shapely.line_interpolate_point(line, shapely.line_locate_point(line, shapely.Point(to)))
    return (on_grid(at.x), on_grid(at.y))


def _behind(lanes: Shape, x_m: float, near_m: float) -> float | None:
    """How far back covered floor goes, in one piece from just behind a base. [m]"""
    if lanes.is_empty:
        return None
    _, back_m, _, _ = lanes.bounds
    line = shapely.LineString(((x_m, back_m), (x_m, near_m)))
    for part in shapely.get_parts(shapely.intersection(line, lanes)):
        _, low_m, _, high_m = part.bounds
        if abs(high_m - near_m) <= COVER_M and high_m - low_m > COVER_M:
            return float(low_m)
    return None


def _lies_free(
    site: Site,
    chair: SeatedChair,
    coil: Coil,
    floor: Shape,
    off_walls: Shape,
    taken: tuple[Coil, ...],
) -> bool:
    rect = coil.rect
    if not shapely.covers(off_walls, box(rect)):
        return False
    if any(_passes(other.tail, rect) or _passes(coil.tail, other.rect) for other in taken):
        return False
    if any(rect.overlaps(other.rect) for other in taken):
        return False
    for riser in site.spec.risers:
        if rect.overlaps(riser.rect) and riser.id != chair.riser:
            return False
        if riser.id == chair.riser and not _inside(rect, riser.rect):
            return False
    return bool(shapely.covers(floor, box(rect)))


def _inside(inner: Rect, outer: Rect) -> bool:
    return (
        micrometers(outer.left_m) <= micrometers(inner.left_m)
        and micrometers(inner.right_m) <= micrometers(outer.right_m)
        and micrometers(outer.back_m) <= micrometers(inner.back_m)
        and micrometers(inner.front_m) <= micrometers(outer.front_m)
    )


def _goes_over(path: tuple[Point, ...], shape: Shape) -> bool:
    line = shapely.LineString(path)
    return float(shapely.length(shapely.intersection(line, shape))) > COVER_M


def _passes(path: tuple[Point, ...], rect: Rect) -> bool:
    return any(span_inside(segment, rect) is not None for segment in pairwise(path))
