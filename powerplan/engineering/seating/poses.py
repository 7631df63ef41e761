"""Where every chair of every row stands."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

import shapely

from powerplan.engineering.seating.arcs import Block, blocks_on_arc
from powerplan.engineering.seating.frames import ROOM, Frame, Outline, polygon, upright
from powerplan.engineering.seating.pieces import GAP, SEAT, Slot, pieces_of, slots_of, width_of
from powerplan.engineering.seating.rects import grid_rect, on_grid, shared
from powerplan.engineering.seating.seated import SeatedChair, SeatedRow, SeatedTable
from powerplan.model.geometry import Point
from powerplan.model.spec import ChairKind, PlanSpec, Riser, Row, TableKind

__all__ = ["SeatedChair", "SeatedRow", "SeatedTable", "seat_rows"]


def seat_rows(spec: PlanSpec) -> tuple[SeatedRow, ...]:
    """Return every row with its chairs where they stand, in the plan's order.

    A row is centered by its whole width, by everything that stands in it, arms and gaps too. Places
    are on the plan's grid of one micrometer.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read.

    Returns
    -------
    tuple of SeatedRow
        One for each row. [m]
    """
    return tuple(_seat_row(spec, row) for row in spec.rows)


def _seat_row(spec: PlanSpec, row: Row) -> SeatedRow:
    kind = spec.chair(row.chair)
    square = row.angle_rad == 0.0 and row.curve is None
    frame = ROOM
    if not square:
        frame = Frame(x_m=row.center_x_m, y_m=row.headrest_to_wall_m, angle_rad=row.angle_rad)
    width_m = width_of(row, kind)
    left_m = (row.center_x_m if square else 0.0) - width_m / 2
    slots = slots_of(pieces_of(row, kind), left_m)
    if row.curve is None:
        chairs, tables = _straight(spec, row, slots, frame)
    else:
        chairs, tables = _curved(spec, row, slots, frame)
    bare = SeatedRow(
        row=row,
        chairs=chairs,
        tables=tables,
        pieces=slots,
        left_m=on_grid(left_m),
        right_m=on_grid(left_m + width_m),
        riser=None,
        frame=frame,
    )
    return replace(bare, riser=_riser_under(bare.bases, spec.risers))


def _straight(
    spec: PlanSpec, row: Row, slots: tuple[Slot, ...], frame: Frame
) -> tuple[tuple[SeatedChair, ...], tuple[SeatedTable, ...]]:
    y_m = row.headrest_to_wall_m if frame.is_room else 0.0
    chairs, tables = [], []
    for slot in slots:
        if slot.what == SEAT:
            kind = spec.chair(slot.kind or "")
            sides = (slot.at_m - slot.left_arm_m, slot.at_m + slot.width_m + slot.right_arm_m)
            spot = (on_grid(slot.at_m + slot.width_m / 2), y_m)
            chairs.append(_seat_chair(spec, row, kind, slot.seat, sides, spot, frame))
        elif slot.what != GAP:
            table = spec.table(slot.kind or "")
            sides = (slot.at_m, slot.at_m + slot.width_m)
            tables.append(_stand_table(row, table, sides, y_m, frame))
    return tuple(chairs), tuple(tables)


def _curved(
    spec: PlanSpec, row: Row, slots: tuple[Slot, ...], axis: Frame
) -> tuple[tuple[SeatedChair, ...], tuple[SeatedTable, ...]]:
    chairs, tables = [], []
    for slot, block in zip(slots, arc_of(spec, row, slots, axis), strict=True):
        if slot.what == SEAT:
            kind = spec.chair(slot.kind or "")
            aside_m = (slot.left_half_m - slot.right_half_m) / 2
            frame = block.frame.moved(aside_m, 0.0)
            sides = (-slot.left_half_m, slot.right_half_m)
            chair = _seat_chair(spec, row, kind, slot.seat, sides, (0.0, 0.0), frame)
            tapered = row.curve is not None and row.curve.touch == "back"
            chairs.append(replace(chair, cone=block.cone.moved_left(aside_m), tapered=tapered))
        elif slot.what != GAP:
            table = spec.table(slot.kind or "")
            half_m = slot.width_m / 2
            tables.append(_stand_table(row, table, (-half_m, half_m), 0.0, block.frame))
    return tuple(chairs), tuple(tables)


def arc_of(spec: PlanSpec, row: Row, slots: tuple[Slot, ...], axis: Frame) -> tuple[Block, ...]:
    """Return the places of a curved row's seats, tables and gaps on its arc.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read.
    row : Row
        The row. [m]
    slots : tuple of Slot
        What stands in it. [m]
    axis : Frame
        Its reference point, and where its axis looks. [m, rad]
    """
    if row.curve is None:
        raise ValueError(f"row {row.id} is straight")
    kind = spec.chair(row.chair)
    touch_m = kind.depth_m if row.curve.touch == "front" else kind.rear_of_base_m
    widths_m = [slot.block_m for slot in slots]
    return blocks_on_arc(axis, widths_m, row.curve.radius_m, touch_m)


def _seat_chair(
    spec: PlanSpec,
    row: Row,
    kind: ChairKind,
    seat: int,
    sides_m: tuple[float, float],
    spot: Point,
    frame: Frame,
) -> SeatedChair:
    """Seat one chair; ``sides_m`` are the outer edges of its arms."""
    rear_m = spot[1] + kind.rear_of_base_m
    base = grid_rect(*sides_m, rear_m, spot[1] + kind.depth_m)
    x_m, y_m = frame.point(spot)
    return SeatedChair(
        id=f"{row.id}{seat}",
        row=row.id,
        seat=seat,
        kind=kind,
        x_m=x_m,
        y_m=y_m,
        floor=grid_rect(*sides_m, rear_m, spot[1] + kind.reclined_reach_m),
        riser=_riser_under((frame.outline(base),), spec.risers),
        share=Fraction(1) if row.supply_mate(seat) is None else Fraction(1, 2),
        mate=row.supply_mate(seat),
        frame=frame,
        spot=spot,
    )


def _stand_table(
    row: Row, table: TableKind, sides_m: tuple[float, float], y_m: float, frame: Frame
) -> SeatedTable:
    rect = grid_rect(*sides_m, y_m + table.rear_m, y_m + table.front_m)
    return SeatedTable(kind=table, row=row.id, rect=rect, frame=frame)


def _riser_under(bases: tuple[Outline, ...], risers: Iterable[Riser]) -> str | None:
    """The riser that carries more than half of some bases."""
    rects = [upright(base) for base in bases]
    for riser in risers:
        if all(rect is not None for rect in rects):
            known = [rect for rect in rects if rect is not None]
            parts = [shared(rect, riser.rect) for rect in known]
            on_m2 = sum(part.width_m * part.depth_m for part in parts if part is not None)
            whole_m2 = sum(rect.width_m * rect.depth_m for rect in known)
        else:
            floor = shapely.union_all([polygon(base) for base in bases])
            on_m2 = floor.intersection(polygon(riser.rect.outline)).area
            whole_m2 = floor.area
        if on_m2 > whole_m2 / 2:
            return riser.id
    return None
