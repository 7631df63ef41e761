"""Where a supply or an outlet unit lies: behind the base, or in a clear zone under which it fits.

Places are looked for in steps of two inches around each chair, one inch in a clear zone, so that
one may be missed that only fits between two steps; whatever is found is measured exactly.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

import shapely

from powerplan.engineering.cords.floor import Shape
from powerplan.engineering.seating.poses import SeatedChair
from powerplan.engineering.seating.rects import on_grid
from powerplan.engineering.supplies.ground import Ground
from powerplan.model.geometry import Point
from powerplan.model.lengths import INCH_M, MICROMETER_M, length_text, micrometers
from powerplan.model.spec import OutletUnitKind, SupplyKind

Loose = SupplyKind | OutletUnitKind

_FINE_M = float(INCH_M)
_STEP_M = 2 * _FINE_M
# What two that only touch may share: a micrometer along a side. [m2]
_HAIR_M2 = 2e-7
_DEEPEST_M = 24 * _FINE_M  # behind a base; covered floor ends before


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A place: the middle, how it is turned, its sides along and across the row, and the chair in
    whose clear zone it is, None behind the base; ``backed`` where a back reclines over it. [m, rad]
    """

    middle: Point
    angle_rad: float
    width_m: float
    depth_m: float
    under: str | None
    backed: bool = False

    @property
    def outline(self) -> tuple[Point, ...]:
        """Its four corners. [m]"""
        wide, deep = self.width_m / 2, self.depth_m / 2
        corners = ((-wide, -deep), (wide, -deep), (wide, deep), (-wide, deep))
        sine, cosine = math.sin(self.angle_rad), math.cos(self.angle_rad)
        x_m, y_m = self.middle
        return tuple(
            (x_m + right * cosine - ahead * sine, y_m + right * sine + ahead * cosine)
            for right, ahead in corners
        )

    @property
    def shape(self) -> Shape:
        """The floor that it takes. [m]"""
        return shapely.Polygon(self.outline)


@dataclass(frozen=True, slots=True, kw_only=True)
class NoPlace:
    """Why there is no place, in one sentence; ``low`` holds the clear zones that would do but for
    their height, as (chair, height). [m]"""

    words: str
    low: tuple[tuple[str, float], ...]


def places(
    ground: Ground,
    chairs: tuple[SeatedChair, ...],
    kind: Loose,
    units: str,
    *,
    taken: tuple[Shape, ...] = (),
) -> tuple[Spot, ...] | NoPlace:
    """Return every place that was found for a thing that belongs to some chairs.

    Parameters
    ----------
    ground : Ground
        Where loose things may lie. [m]
    chairs : tuple of SeatedChair
        Neighbors of one row.
    kind : SupplyKind or OutletUnitKind
        What lies there: its size. [m]
    units : str
        How lengths are told.
    taken : tuple of shapely geometry
        What lies there already, and lids that stay free. [m]

    Returns
    -------
    tuple of Spot, or NoPlace
        Behind the bases first where no back reclines over them, then in clear zones, then behind
        the bases under a reclining back; nearest to where the leads leave first.
    """
    behind = [
        replace(spot, backed=_overlap(spot.shape, ground.backs, _HAIR_M2))
        for spot in _held(ground, ground.behind, _behind(ground, chairs, kind), taken)
    ]
    inside: list[Spot] = []
    low: list[tuple[str, float]] = []
    for chair in chairs:
        zone, floor = chair.kind.clear, ground.clear.get(chair.id)
        if zone is None or floor is None:
            continue
        found = _held(ground, floor, _inside(ground, chair, kind), taken)
        if micrometers(kind.height_m) <= micrometers(zone.height_m):
            inside.extend(found)
        elif found:
            low.append((chair.id, zone.height_m))
    if behind or inside:
        near = sorted((*behind, *inside), key=lambda spot: _nearness(spot, chairs))
        return tuple(sorted(near, key=lambda spot: (spot.backed, spot.under is not None)))
    return NoPlace(words=_why(chairs, kind, units, low), low=tuple(low))


def _held(
    ground: Ground, floor: Shape, spots: Iterator[Spot], taken: tuple[Shape, ...]
) -> list[Spot]:
    found = list(spots)
    outlines = list(shapely.polygons([spot.outline for spot in found])) if found else []
    held = ground.holds(floor, outlines)
    blocked = [shapely.union_all(taken)] if taken else []
    shapely.prepare(blocked)
    return [
        spot
        for spot, outline, may in zip(found, outlines, held, strict=True)
        if may and not any(_overlap(outline, shape) for shape in blocked)
    ]


def _overlap(one: Shape, other: Shape, most_m2: float = 0.0) -> bool:
    if not shapely.intersects(other, one):
        return False
    return bool(shapely.area(shapely.intersection(one, other)) > most_m2)


def _behind(ground: Ground, chairs: tuple[SeatedChair, ...], kind: Loose) -> Iterator[Spot]:
    """Places behind the bases, from the base back, from each chair's middle outward.

    Each lies behind the seats of its own chairs, so that no two rows of things meet.
    """
    for number, chair in enumerate(chairs):
        for width_m, depth_m in _ways(kind):
            alone_m = chair.kind.seat_width_m / 2 - width_m / 2
            left_m = _seam_m(chair, chairs[number - 1]) if number else alone_m
            right_m = _seam_m(chair, chairs[number + 1]) if chair is not chairs[-1] else alone_m
            front_m = chair.kind.rear_of_base_m - depth_m / 2 - ground.keep_m - MICROMETER_M
            wall_m = depth_m / 2 - chair.y_m
            back_m = -chair.kind.back_travel_m - depth_m / 2 - MICROMETER_M
            for aside_m in _outward(left_m, right_m):
                for step in range(int(_DEEPEST_M / _STEP_M)):
                    yield _spot(chair, aside_m, front_m - step * _STEP_M, width_m, depth_m, None)
                for off_m in (min(front_m, back_m - keep_m) for keep_m in (ground.keep_m, 0.0)):
                    yield _spot(chair, aside_m, off_m, width_m, depth_m, None)
                if chair.frame.is_room:
                    yield _spot(chair, aside_m, wall_m, width_m, depth_m, None)


def _seam_m(chair: SeatedChair, mate: SeatedChair) -> float:
    return math.dist((chair.x_m, chair.y_m), (mate.x_m, mate.y_m)) / 2


def _inside(ground: Ground, chair: SeatedChair, kind: Loose) -> Iterator[Spot]:
    """Places in the clear zone, from its middle outward."""
    zone, keep_m = chair.kind.clear, ground.keep_m + MICROMETER_M
    if zone is None:
        return
    middle_m = (zone.from_m + zone.to_m) / 2
    for width_m, depth_m in _ways(kind):
        aside_m = zone.width_m / 2 - width_m / 2 - keep_m
        ahead_m = (zone.to_m - zone.from_m) / 2 - depth_m / 2 - keep_m
        for right_m in _outward(aside_m, aside_m, _FINE_M):
            for forward_m in _outward(ahead_m, ahead_m, _FINE_M):
                yield _spot(chair, right_m, middle_m + forward_m, width_m, depth_m, chair.id)


def _ways(kind: Loose) -> tuple[tuple[float, float], ...]:
    """Its sides along and across the row, as given and turned by a quarter."""
    one = (kind.width_m, kind.depth_m)
    return (one,) if kind.width_m == kind.depth_m else (one, one[::-1])


def _outward(left_m: float, right_m: float, step_m: float = _STEP_M) -> Iterator[float]:
    """0 and every step to both sides as far as they go, and both ends."""
    if min(micrometers(left_m), micrometers(right_m)) < 0:
        return
    yield 0.0
    for step in range(1, int(max(left_m, right_m) / step_m) + 1):
        if step * step_m < left_m:
            yield -step * step_m
        if step * step_m < right_m:
            yield step * step_m
    yield from (side for side in (-left_m, right_m) if micrometers(side) != 0)


def _spot(
    chair: SeatedChair,
    right_m: float,
    forward_m: float,
    width_m: float,
    depth_m: float,
    under: str | None,
) -> Spot:
    aside_m, ahead_m = chair.spot
    place = (on_grid(aside_m + right_m), on_grid(ahead_m + forward_m))
    return Spot(
        middle=chair.frame.point(place),
        angle_rad=chair.angle_rad,
        width_m=width_m,
        depth_m=depth_m,
        under=under,
    )


def _nearness(spot: Spot, chairs: tuple[SeatedChair, ...]) -> tuple[int, int, int, Point]:
    """How far it is from where the leads leave: the farthest first, then all together; of places
    alike in that, so that a mirror changes none, the one nearest to a chair's middle. [um]"""
    apart = [math.dist(spot.middle, chair.lead_from) for chair in chairs]
    aside = min(math.dist(spot.middle, (chair.x_m, chair.y_m)) for chair in chairs)
    return (micrometers(max(apart)), micrometers(sum(apart)), micrometers(aside), spot.middle)


def _why(
    chairs: tuple[SeatedChair, ...], kind: Loose, units: str, low: list[tuple[str, float]]
) -> str:
    def text(length_m: float) -> str:
        return length_text(length_m, units)

    names = " and ".join(chair.id for chair in chairs)
    words = (
        f"Behind the base of {names} no covered floor of {text(kind.width_m)} by "
        f"{text(kind.depth_m)} is clear of chairs, obstacles, walkways and doorways"
    )
    if low:
        chair, height_m = low[0]
        return (
            f"{words}; in the clear zone of {chair} there is room, but it is {text(height_m)} high "
            f"and {kind.id} {text(kind.height_m)}."
        )
    if all(chair.kind.clear is None for chair in chairs):
        return f"{words}, and no clear zone was measured."
    return f"{words}, and the clear zone is too small."
