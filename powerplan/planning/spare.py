"""Where spare cord lies: in a flat oval of loose loops behind the reclined back of its chair."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

import shapely

from powerplan.engineering.cords.clip import span_inside
from powerplan.engineering.cords.decks import Deck, rises_m
from powerplan.engineering.cords.floor import COVER_M, Shape, box
from powerplan.engineering.seating.poses import SeatedChair
from powerplan.engineering.seating.rects import grid_rect, on_grid
from powerplan.engineering.seating.zones import REAR_STRIP
from powerplan.model.geometry import Point, Rect
from powerplan.model.lengths import micrometers
from powerplan.model.rules import RuleSet
from powerplan.model.spare import left_over_m, loop_m, path_length_m
from powerplan.planning.beds import ASIDE_M, Beds, beds, spots
from powerplan.planning.runs import Leg, Run
from powerplan.planning.site import Site

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
    floors = beds(site, legs)
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
            coil = _place(site, chair, leg, others, floors, tuple(found.values()))
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
    half_m = left_over_m(leg.bought_m, leg.length_m) / 2 + ASIDE_M
    near = [(round(away_m, 6), other.id, other) for away_m, other in far if away_m <= half_m]
    return tuple(other for *_, other in sorted(near, key=lambda one: one[:2]))


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
    floors: Beds,
    taken: tuple[Coil, ...],
) -> Coil | None:
    """The best free floor behind a chair, with no cord under the coil but where it lies in line."""
    depth_m, spare = site.rules.length_m("coil_depth"), left_over_m(leg.bought_m, leg.length_m)
    most_m = (spare - math.pi * depth_m) / 2
    line = shapely.LineString(leg.path)
    for middle, floor in spots(site, chair, coil_size_m(spare, site.rules), floors):
        least = Coil(middle=middle, width_m=depth_m, depth_m=depth_m)
        if not shapely.covers(floor, box(least.rect)):
            continue  # not even one round loop has room
        tail = _tail(site, line, middle, depth_m, floors.tails, most_m)
        if tail is None or _goes_over(tail, floors.loose):
            continue
        left_m = spare - 2 * path_length_m(tail)
        if left_m < math.pi * depth_m:
            continue
        wide_m, deep_m = coil_size_m(left_m, site.rules)
        coil = Coil(middle=middle, width_m=wide_m, depth_m=deep_m, tail=tail)
        if not _lies_free(site, chair, coil, floor, floors.off_walls, taken):
            continue
        under = [*others, leg.path] if tail else others
        if not any(_passes(path, coil.rect) for path in under):
            return coil
    return None


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
