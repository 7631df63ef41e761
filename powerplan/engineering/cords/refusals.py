"""Why there is no way for a cord, said so that it can be mended."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

import shapely

from powerplan.engineering.cords.floor import (
    EDGE_M,
    Floor,
    KeptFree,
    Shape,
    area_shape,
    grown,
)
from powerplan.engineering.cords.route import NoWay
from powerplan.engineering.seating.frames import polygon
from powerplan.engineering.seating.poses import SeatedChair, SeatedRow
from powerplan.engineering.seating.tables import Standing
from powerplan.engineering.seating.zones import ARM_STRIP, CLEAR, REAR_STRIP, Zones
from powerplan.model.geometry import Point
from powerplan.model.lengths import INCH_M, MICROMETER_M, joined, length_text, micrometers
from powerplan.model.spec import PlanSpec


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """What is needed to say why: the plan, its chairs, their openings, the floor, what stands on
    it, and the least gap that lets a cord through. ``lifted`` remembers the connected pieces of
    floor with some things lifted, ``under`` the floor under each chair. [m]"""

    spec: PlanSpec
    rows: tuple[SeatedRow, ...]
    zones: Zones
    floor: Floor
    standing: tuple[Standing, ...]
    least_gap_m: float
    lifted: dict[tuple[bool, bool, tuple[KeptFree, ...]], tuple[Shape, ...]] = field(
        default_factory=dict
    )
    under: dict[str, tuple[Shape, ...]] = field(default_factory=dict)


def end_refused(scene: Scene, point: Point) -> NoWay | None:
    """Return why a cord cannot end at a point, or None where it can.

    Parameters
    ----------
    scene : Scene
        The room.
    point : Point
        The cord's end. [m]
    """
    floor, end = scene.floor, shapely.Point(point)
    if shapely.covers(grown(floor.free, EDGE_M), end):
        return None
    if not shapely.covers(grown(floor.room, EDGE_M), end):
        return _closed(f"the cord's end ({_place(scene, point)}) is outside the room")
    kept_free = (*floor.walkways, *floor.doorways)
    if not shapely.covers(grown(floor.without(areas=kept_free), EDGE_M), end):
        return _too_near(scene, point)
    for rule, areas, name in _kinds(floor):
        held = [area for area in areas if shapely.distance(area_shape(area), end) <= EDGE_M]
        if held:
            inside_m = max(_way_out_m(floor, area, point) for area in held)
            names = joined(list(dict.fromkeys(f"{name} {area.id}" for area in held)))
            words = f"the cord's end ({_place(scene, point)}) is in {names}"
            return _refusal(rule, max(inside_m, MICROMETER_M), 0.0, words)
    return _closed(f"the cord's end ({_place(scene, point)}) has no free floor around it")


def no_way(scene: Scene, start: Point, end: Point) -> NoWay:
    """Return why no way leads from one free point to another.

    Parameters
    ----------
    scene : Scene
        The room.
    start, end : Point
        The cord's ends, both in free floor. [m]
    """
    floor = scene.floor
    for rule, areas, name in _kinds(floor):
        if areas and _joined(scene, start, end, areas=areas):
            alone = [one for one in areas if _joined(scene, start, end, areas=(one,))]
            return _crosses(scene, rule, name, alone or areas, start, end)
    if _joined(scene, start, end, areas=(*floor.walkways, *floor.doorways)):
        # Walkways and doorways close it together; a walkway is what a plan can change.
        return _crosses(scene, "cord-in-walkway", "walkway", floor.walkways, start, end)
    if _joined(scene, start, end, moving=True):
        return _closed(_shut_in(scene, start, end))
    if _joined(scene, start, end, fixed=True):
        names = joined([thing.name for thing in scene.standing])
        return _closed(f"no way past obstacles ({names}) at the clearance a cord needs")
    return _closed(
        f"no way from {_place(scene, start)} to {_place(scene, end)}: pinch zones, obstacles and "
        "floor kept free of cords close it together"
    )


def _kinds(floor: Floor) -> tuple[tuple[str, tuple[KeptFree, ...], str], ...]:
    return (
        ("cord-in-walkway", floor.walkways, "walkway"),
        ("cord-through-doorway", floor.doorways, "the doorway of door"),
    )


def _refusal(rule: str, value: float, limit: float, words: str) -> NoWay:
    return NoWay(rule=rule, value=value, limit=limit, words=f"{words[0].upper()}{words[1:]}.")


def _closed(words: str) -> NoWay:
    return _refusal("cord-has-a-way", 0.0, 1.0, words)


def _crosses(
    scene: Scene, rule: str, name: str, areas: Iterable[KeptFree], start: Point, end: Point
) -> NoWay:
    """Every way crosses floor kept free; the value is the least distance across it."""
    one, other = (_part_with(_parts(scene), point) for point in (start, end))
    across_m = float(shapely.distance(one, other))
    named = joined(list(dict.fromkeys(f"{name} {area.id}" for area in areas)), "or")
    words = f"every way for the cord goes across {named}"
    return _refusal(rule, max(across_m, MICROMETER_M), 0.0, words)


def _too_near(scene: Scene, point: Point) -> NoWay:
    """The cord's end is in a pinch zone, an obstacle, or nearer to one than cords may come."""
    floor, end = scene.floor, shapely.Point(point)
    near = [
        (float(shapely.distance(polygon(outline), end)), f"the pinch zone of chair {chair}")
        for chair, outline in scene.zones.pinch
    ]
    near += [
        (float(shapely.distance(polygon(thing.outline), end)), f"obstacle {thing.name}")
        for thing in scene.standing
    ]
    distance_m, name = min(near)
    surface_m = min(distance_m - floor.radius_m, floor.clearance_m - MICROMETER_M)
    units = scene.spec.project.units
    where = "in" if distance_m == 0.0 else f"{length_text(distance_m, units, step=16)} from"
    words = (
        f"the cord's end ({_place(scene, point)}) is {where} {name}; the middle of a cord has to "
        f"be {_at_least_text(floor.keep_m, units)} or more away"
    )
    return _refusal("cord-clear-of-mechanism", surface_m, floor.clearance_m, words)


def _at_least_text(length_m: float, units: str) -> str:
    """A length that something must have, never rounded down."""
    half_step_m = {"mm": 0.0005, "m": 0.0005}.get(units, float(INCH_M) / 32)
    return length_text(length_m + half_step_m - MICROMETER_M, units, step=16)


def _way_out_m(floor: Floor, area: KeptFree, point: Point) -> float:
    rest = shapely.difference(floor.room, area_shape(area))
    return float(shapely.distance(rest, shapely.Point(point)))


def _parts(
    scene: Scene, *, moving: bool = False, fixed: bool = False, areas: tuple[KeptFree, ...] = ()
) -> tuple[Shape, ...]:
    """The connected pieces of floor where a cord could lie if some things were lifted."""
    key = (moving, fixed, areas)
    if key not in scene.lifted:
        floor = scene.floor.without(moving=moving, fixed=fixed, areas=areas)
        parts = tuple(shapely.get_parts(grown(floor, EDGE_M)))
        shapely.prepare(parts)
        scene.lifted[key] = parts
    return scene.lifted[key]


def _part_with(parts: tuple[Shape, ...], point: Point) -> Shape | None:
    """The piece that holds a point."""
    here = shapely.Point(point)
    return next((part for part in parts if shapely.covers(part, here)), None)


def _joined(
    scene: Scene,
    start: Point,
    end: Point,
    *,
    moving: bool = False,
    fixed: bool = False,
    areas: tuple[KeptFree, ...] = (),
) -> bool:
    """True where one piece of floor holds both points once some things are lifted."""
    part = _part_with(_parts(scene, moving=moving, fixed=fixed, areas=areas), start)
    return part is not None and bool(shapely.covers(part, shapely.Point(end)))


def _place(scene: Scene, point: Point) -> str:
    units = scene.spec.project.units
    left, back = (length_text(value, units) for value in point)
    return f"{left} from the left, {back} from the back"


def _shut_in(scene: Scene, start: Point, end: Point) -> str:
    """Which chairs shut the cord in, and which gaps of theirs are too small."""
    ends = (shapely.Point(start), shapely.Point(end))
    chairs = [
        chair
        for row in scene.rows
        for chair in row.chairs
        if any(shapely.covers(shape, end) for shape in _under(scene, chair) for end in ends)
    ]
    if not chairs:
        return (
            f"no way from {_place(scene, start)} to {_place(scene, end)}: pinch zones of chairs "
            "close it"
        )
    names = joined([chair.id for chair in chairs])
    gaps = [_gap_words(scene, chair) for chair in chairs]
    told = "; ".join(dict.fromkeys(gap for gap in gaps if gap))
    reason = told or "their openings are too narrow for a cord with its clearance"
    return f"no way out from under {names}: {reason}"


def _under(scene: Scene, chair: SeatedChair) -> tuple[Shape, ...]:
    """The floor under a chair from which a cord has a way, as far as its gaps let it."""
    if chair.id not in scene.under:
        shapes = tuple(
            polygon(opening.outline)
            for opening in scene.zones.openings
            if opening.chair == chair.id and opening.kind in (CLEAR, REAR_STRIP)
        )
        shapely.prepare(shapes)
        scene.under[chair.id] = shapes
    return scene.under[chair.id]


def _gap_words(scene: Scene, chair: SeatedChair) -> str:
    """The gaps under a chair that are closed to a cord, and what they would have to be."""
    units = scene.spec.project.units
    told = []
    for kind, gap_m, name in (
        (REAR_STRIP, chair.kind.rear_gap_m, "rear rail"),
        (ARM_STRIP, chair.kind.arm_gap_m, "arm"),
    ):
        if any(o.chair == chair.id and o.kind == kind for o in scene.zones.openings):
            continue
        if gap_m is None:
            told.append(f"the gap under the {name} was not measured")
        elif micrometers(gap_m) < micrometers(scene.least_gap_m):
            told.append(f"the gap under the {name} is only {length_text(gap_m, units, step=16)}")
    if not told:
        return ""
    return f"{joined(told)} ({_at_least_text(scene.least_gap_m, units)} is needed)"
