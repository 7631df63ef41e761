"""Where a coil is tried: floor behind the reclined back of a chair, and places on it in turn."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import shapely

from powerplan.engineering.cords.floor import COVER_M, Shape, grown, united
from powerplan.engineering.seating.frames import polygon
from powerplan.engineering.seating.poses import SeatedChair
from powerplan.engineering.seating.rects import on_grid
from powerplan.model.geometry import Point
from powerplan.planning.runs import Leg, Run
from powerplan.planning.site import Site

# How far the middle of an oval is tried to each side of the chair's own, and in what steps. [m]
ASIDE_M, _STEP_M = 0.3, 0.05
_STEPS = range(1, round(ASIDE_M / _STEP_M) + 1)
_ASIDES_M = (0.0, *(side * step * _STEP_M for step in _STEPS for side in (-1, 1)))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Beds:
    """Floor for coils, as clear of reclined chairs as cords are of what moves or just off them;
    floor for their tails; what lies loose on it; and floor as far from walls as cords are. [m]"""

    clear: Shape
    just_off: Shape
    tails: Shape
    loose: Shape
    off_walls: Shape


def beds(site: Site, legs: tuple[tuple[Run, Leg], ...]) -> Beds:
    """Return the floor of a room for coils: nowhere that a chair comes over, nor on a supply or
    unit, which get warm.

    Parameters
    ----------
    site : Site
        The room.
    legs : tuple of (Run, Leg)
        Every cord with the run that it is part of.
    """
    lying = [supply.spot for run, _ in legs for supply in run.supplies]
    lying += [run.unit.spot for run, _ in legs if run.unit is not None]
    loose = united(spot.shape for spot in lying)
    swept = united(polygon(outline) for row in site.rows for outline in row.swept)
    tails = grown(site.router.floor.lanes, COVER_M)
    just_off = shapely.difference(
        tails, shapely.union(grown(swept, -COVER_M), grown(loose, -COVER_M))
    )
    near_m = site.rules.length_m("cord_clearance") - COVER_M
    clear = shapely.difference(just_off, grown(swept, near_m))
    off_walls = grown(site.router.floor.room, COVER_M - site.router.floor.clearance_m)
    shapely.prepare([clear, just_off, tails, off_walls])
    return Beds(clear=clear, just_off=just_off, tails=tails, loose=loose, off_walls=off_walls)


def spots(
    site: Site, chair: SeatedChair, size_m: tuple[float, float], floors: Beds
) -> Iterator[tuple[Point, Shape]]:
    """Yield places for the middle of a coil and the floor it keeps to, the best first: clear of
    reclined chairs where there is room for that, else just off them.

    Parameters
    ----------
    site : Site
        The room.
    chair : SeatedChair
        The chair behind which it is to lie.
    size_m : tuple of float
        How wide and deep the coil is. [m]
    floors : Beds
        The floor of the room for coils.
    """
    near_m = site.rules.length_m("cord_clearance")
    spans = _spans(site, chair) if chair.frame.is_room else []
    for clear_m, floor in ((near_m, floors.clear), (0.0, floors.just_off)):
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
