"""The floor on which a supply or an outlet unit may lie, whole."""

from __future__ import annotations

from dataclasses import dataclass

import shapely

from powerplan.engineering.cords.floor import (
    EDGE_M,
    Floor,
    Shape,
    area_shape,
    box,
    grown,
    united,
)
from powerplan.engineering.seating.frames import polygon
from powerplan.engineering.seating.poses import SeatedRow
from powerplan.engineering.seating.zones import CLEAR, Zones
from powerplan.model.geometry import Point
from powerplan.model.rules import RuleSet
from powerplan.model.spec import PlanSpec


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Ground:
    """Where loose things may lie.

    ``behind`` is covered floor clear of every chair's floor, with its gaps and clear zones;
    ``clear`` the clear zones by chair, less what is kept to pinch zones; ``seams`` the edges of
    risers, over which nothing lies; ``lid_m`` the sides of a box's lid, which stays free;
    ``keep_m`` what is kept to pinch zones; ``backs`` is floor over which chairs recline, at a
    height that nobody has said. [m]
    """

    behind: Shape
    clear: dict[str, Shape]
    seams: Shape
    lid_m: tuple[float, float]
    keep_m: float
    backs: Shape

    def holds(self, floor: Shape, outlines: list[Shape]) -> list[bool]:
        """Return for each outline whether it lies whole on some floor and on one level.

        Parameters
        ----------
        floor : shapely geometry
            ``behind``, or one of ``clear``. [m]
        outlines : list of shapely geometry
            What would lie there. [m]
        """
        if not outlines or floor.is_empty:
            return [False] * len(outlines)
        held = shapely.covers(floor, outlines)
        lie = [bool(one) for one in held]
        if self.seams.is_empty:
            return lie
        return [
            may and not shapely.intersects(self.seams, grown(outline, -EDGE_M))
            for outline, may in zip(outlines, lie, strict=True)
        ]

    def lid(self, at: Point) -> Shape:
        """Return the lid of a box around its middle.

        Parameters
        ----------
        at : Point
            The box's middle. [m]
        """
        return _lid(at, self.lid_m)


def loose_ground(
    spec: PlanSpec, rows: tuple[SeatedRow, ...], zones: Zones, floor: Floor, rules: RuleSet
) -> Ground:
    """Return where loose things may lie in a room.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read. [m]
    rows : tuple of SeatedRow
        Every row of the room, for where its chairs recline. [m]
    zones : Zones
        Pinch zones and openings. [m]
    floor : Floor
        The floor as cords see it: covered floor, walkways, doorways, obstacles. [m]
    rules : RuleSet
        The numbers; ``cord_clearance`` is kept to pinch zones and gaps.
    """
    keep_m = rules.length_m("cord_clearance")
    lid, usual_m = spec.new_work.lid, rules.length_m("usual_lid")
    lid_m = (usual_m, usual_m) if lid is None else (lid.width_m, lid.depth_m)
    openings = united(polygon(opening.outline) for opening in zones.openings)
    chairs = grown(united([floor.moving, openings]), keep_m)
    lids = [_lid((o.x_m, o.y_m), lid_m) for o in spec.outlets if o.wall is None]
    kept = [area_shape(area) for area in (*floor.walkways, *floor.doorways)]
    taken = united([*kept, floor.fixed, *lids])
    here = shapely.intersection(floor.covered, floor.room)
    moving = grown(floor.moving, keep_m)
    clear = {
        opening.chair: shapely.difference(polygon(opening.outline), united([moving, taken]))
        for opening in zones.openings
        if opening.kind == CLEAR
    }
    return Ground(
        behind=_edged(shapely.difference(here, united([chairs, taken]))),
        clear={chair: _edged(shape) for chair, shape in clear.items()},
        seams=_seams(spec, floor),
        lid_m=lid_m,
        keep_m=keep_m,
        backs=united(polygon(outline) for row in rows for outline in row.swept),
    )


def _lid(at: Point, lid_m: tuple[float, float]) -> Shape:
    wide, deep = lid_m[0] / 2, lid_m[1] / 2
    return shapely.box(at[0] - wide, at[1] - deep, at[0] + wide, at[1] + deep)


def _edged(shape: Shape) -> Shape:
    ready = grown(shape, EDGE_M)
    shapely.prepare(ready)
    return ready


def _seams(spec: PlanSpec, floor: Floor) -> Shape:
    """The edges of risers that lie inside the room."""
    inner = grown(floor.room, -EDGE_M)
    lines = [shapely.boundary(box(riser.rect)) for riser in spec.risers]
    return shapely.intersection(shapely.union_all(lines), inner)
