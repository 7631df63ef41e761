"""Floor that a row covers: under it, between its blocks on an arc, and the narrow gap behind it."""

from __future__ import annotations

from collections.abc import Iterator

import shapely

from powerplan.engineering.seating.frames import Frame, Outline, hull, polygon
from powerplan.engineering.seating.pieces import SEAT
from powerplan.engineering.seating.poses import SeatedChair, SeatedRow, SeatedTable
from powerplan.engineering.seating.rects import grid_rect, on_grid, spans_less
from powerplan.engineering.seating.shapes import room_shape, simple_outlines
from powerplan.engineering.seating.walls import Face, faces_behind
from powerplan.model.geometry import Point, Rect
from powerplan.model.lengths import micrometers
from powerplan.model.spec import PlanSpec, Riser

# How far behind a seat its wall is sought.
_FAR_M = 1000.0
# What is this near behind a headrest begins at it.
_AT_M = 1e-5

_Side = tuple[Point, Point]


def row_floor(spec: PlanSpec, row: SeatedRow, under_m: float) -> tuple[Outline, ...]:
    """Return the floor that a row covers, and the gap behind it where that is narrow.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read. [m]
    row : SeatedRow
        The row. [m]
    under_m : float
        A gap less deep than this, from the wall or the face of a higher riser to the upright
        headrests, is covered. [m]

    Returns
    -------
    tuple of outlines
        Pieces in the room; they may overlap, and reach past walls. [m]
    """
    if row.is_square:
        gaps = _gaps_behind(spec, row, under_m)
        return (_straight(row), *(gap.outline for gap in gaps))
    if row.row.curve is None:
        return (_straight(row), *_narrow_behind(spec, row, under_m))
    return (*_blocks(row), *_narrow_behind(spec, row, under_m))


def _straight(row: SeatedRow) -> Outline:
    """A straight row from reclined headrests to fronts of bases; of mixed kinds the least."""
    kinds = [chair.kind for chair in row.chairs]
    back_m = min(kind.back_travel_m for kind in kinds)
    front_m = min(kind.depth_m for kind in kinds)
    rect = grid_rect(row.left_m, row.right_m, row.y_m - back_m, row.y_m + front_m)
    return row.frame.outline(rect)


def _blocks(row: SeatedRow) -> Iterator[Outline]:
    """The blocks of a curved row, and the wedges that gape between them."""
    before: _Side | None = None
    for one in _in_order(row):
        outline, left, right = _block(one)
        yield outline
        if before is not None:
            wedge = hull([*before, *left])
            if len(wedge) > 2:
                yield wedge
        before = right


def _in_order(row: SeatedRow) -> tuple[SeatedChair | SeatedTable, ...]:
    """Seats and tables from the left."""
    chairs, tables = iter(row.chairs), iter(row.tables)
    return tuple(
        next(chairs) if slot.seat else next(tables) for slot in row.pieces if slot.kind is not None
    )


def _block(one: SeatedChair | SeatedTable) -> tuple[Outline, _Side, _Side]:
    """What a block covers, and its sides, back to front."""
    if isinstance(one, SeatedTable):
        outline = one.outline
    else:
        kind = one.kind
        rect = grid_rect(one.floor.left_m, one.floor.right_m, -kind.back_travel_m, kind.depth_m)
        outline = one.outline(rect)
    middle = one.rect.middle[0] if isinstance(one, SeatedTable) else 0.0
    left = [point for point in outline if one.frame.place(point)[0] < middle]
    right = [point for point in outline if one.frame.place(point)[0] >= middle]
    return outline, _ends(left, one.frame), _ends(right, one.frame)


def _ends(points: list[Point], frame: Frame) -> _Side:
    ordered = sorted(points, key=lambda point: frame.place(point)[1])
    return ordered[0], ordered[-1]


def _narrow_behind(spec: PlanSpec, row: SeatedRow, under_m: float) -> Iterator[Outline]:
    """The gap behind each seat of a turned or curved row, where all of it is narrow; half of an arm
    that two seats share goes to each, as it may be narrow behind one of them only."""
    room = room_shape(spec.room)
    faces = [polygon(riser.rect.outline) for riser in _higher(spec, row)]
    free = shapely.difference(room, shapely.union_all(faces))
    seats = [slot for slot in row.pieces if slot.what == SEAT]
    for chair, slot in zip(row.chairs, seats, strict=True):
        u_m, v_m = chair.spot
        left_m, right_m = on_grid(u_m - slot.left_half_m), on_grid(u_m + slot.right_half_m)
        strip = Rect(left_m=left_m, right_m=right_m, back_m=v_m - _FAR_M, front_m=v_m)
        line = polygon(chair.frame.outline(strip))
        start = shapely.LineString(
            [chair.frame.point((left_m, v_m)), chair.frame.point((right_m, v_m))]
        )
        parts = shapely.get_parts(shapely.intersection(free, line))
        near = [part for part in parts if shapely.distance(part, start) <= _AT_M]
        for outline in (o for part in near for o in simple_outlines(part, chair.frame)):
            deep_m = max(v_m - chair.frame.place(point)[1] for point in outline)
            if micrometers(deep_m) < micrometers(under_m):
                yield outline


def _higher(spec: PlanSpec, row: SeatedRow) -> list[Riser]:
    level_m = next((riser.height_m for riser in spec.risers if riser.id == row.riser), 0.0)
    return [
        riser
        for riser in spec.risers
        if riser.id != row.riser and micrometers(riser.height_m) > micrometers(level_m)
    ]


def _gaps_behind(spec: PlanSpec, row: SeatedRow, under_m: float) -> list[Rect]:
    """The narrow gaps behind a row, one for each wall or riser face that stands behind it; behind a
    straight row a wall at a slant makes none."""
    level_m = next((riser.height_m for riser in spec.risers if riser.id == row.riser), 0.0)
    faces = [
        riser
        for riser in spec.risers
        if riser.id != row.riser
        and micrometers(riser.height_m) > micrometers(level_m)
        and micrometers(riser.rect.front_m) <= micrometers(row.y_m)
    ]
    fronts = [
        Face(
            left_m=riser.rect.left_m,
            right_m=riser.rect.right_m,
            y_m=riser.rect.front_m,
            square=True,
            label=riser.id,
        )
        for riser in faces
    ]
    walls = faces_behind(spec.room, row.left_m, row.right_m, row.y_m)
    behind = sorted((*fronts, *walls), key=lambda face: (-face.y_m, face.left_m))
    gaps: list[Rect] = []
    taken: list[tuple[float, float]] = []
    for face in behind:
        start_m, end_m = max(face.left_m, row.left_m), min(face.right_m, row.right_m)
        depth_um = micrometers(row.y_m - face.y_m)
        if micrometers(end_m) <= micrometers(start_m):
            continue
        if face.square and 0 < depth_um < micrometers(under_m):
            gaps.extend(
                grid_rect(a, b, face.y_m, row.y_m) for a, b in spans_less((start_m, end_m), taken)
            )
        taken.append((start_m, end_m))
    return gaps
