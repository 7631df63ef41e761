"""Where every row of a plan stands, and what of its floor moves, worked out from the spec alone."""

from __future__ import annotations

from dataclasses import dataclass

from powerplan.judging.convex import Convex, Side, cut_by, pieces, without
from powerplan.judging.openings import Opening, openings_of
from powerplan.judging.seats import Seat, Table, lay_seat, lay_tables
from powerplan.judging.standing import GAP, SEAT, TABLE, Placed, Pose, blocks_of, pieces_of, place
from powerplan.model.spec import ChairKind, PlanSpec, Row


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """One thing of a row, and its floor upright, reclined, and under its base; ``from_m`` and
    ``reach_m`` are the ends of the reclined floor in the frame of ``pose``. [m]"""

    upright: Convex
    swept: Convex
    base: Convex
    pose: Pose
    halves: tuple[float, float]
    from_m: float
    depth_m: float
    reach_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidRow:
    """A row as it stands. ``plain``: straight, and square to the room; ``uniform``: straight, of
    one kind, and nothing but seats and arms. ``half_m``: half its width.
    ``bodies`` are what must have room, ``pinch`` floor that is no cord's, in pieces. [m]"""

    row: Row
    plain: bool
    uniform: bool
    placed: tuple[Placed, ...]
    half_m: float
    seats: tuple[Seat, ...]
    tables: tuple[Table, ...]
    bodies: tuple[Body, ...]
    openings: tuple[Opening, ...]
    pinch: tuple[Convex, ...]

    @property
    def straight(self) -> bool:
        """True for a row on a line, turned or not."""
        return self.row.curve is None

    @property
    def pose(self) -> Pose:
        """The row's own frame. [m, rad]"""
        return _pose_of(self.row)


def lay_rows(spec: PlanSpec, gap_needed_m: float) -> tuple[LaidRow, ...]:
    """Return every row of a spec as it stands.

    Parameters
    ----------
    spec : PlanSpec
        A spec that hangs together (see ``sanity``).
    gap_needed_m : float
        A measured gap of at least this much is open to a cord. [m]

    Returns
    -------
    tuple of LaidRow
        One a row, in the spec's order. [m]
    """
    return tuple(_lay_row(spec, row, gap_needed_m) for row in spec.rows)


def _lay_row(spec: PlanSpec, row: Row, needed_m: float) -> LaidRow:
    kinds = {kind.id: kind for kind in spec.chairs}
    usual = kinds[row.chair]
    listed = pieces_of(row, usual.seat_width_m, usual.arm_width_m)
    blocks = blocks_of(listed)
    placed = place(spec, row, blocks)
    half_m = sum(block.width_m for block in blocks) / 2
    seats: list[Seat] = []
    for one in placed:
        if one.block.what == SEAT:
            kind = kinds[one.block.kind or row.chair]
            seats.append(lay_seat(row, kind, one, len(seats) + 1, needed_m))
    tables = tuple(lay_tables(spec, row, placed, needed_m))
    openings = tuple(openings_of(spec, listed, tuple(seats), needed_m))
    uniform = (
        row.curve is None
        and len({seat.kind.id for seat in seats}) == 1
        and not ({TABLE, GAP} & {piece.what for piece in listed})
    )
    pose = _pose_of(row)
    bodies = (
        _body(pose, seats[0].kind, (half_m, half_m), ())
        if uniform
        else tuple(
            body for seat in seats for body in _body(seat.pose, seat.kind, seat.halves, seat.lines)
        )
    )
    floors = (
        _row_floor(pose, half_m, seats[0].kind)
        if uniform
        else tuple(piece for seat in seats for piece in seat.floor)
    )
    holes = [piece for opening in openings for piece in opening.pieces]
    pinch = [left for floor in floors for left in without(floor, holes)]
    pinch += [piece for seat in seats for piece in seat.added]
    return LaidRow(
        row=row,
        plain=row.curve is None and row.angle_rad == 0.0,
        uniform=uniform,
        placed=placed,
        half_m=half_m,
        seats=tuple(seats),
        tables=tables,
        bodies=(*bodies, *(_table_body(table) for table in tables)),
        openings=openings,
        pinch=tuple(pinch),
    )


def _pose_of(row: Row) -> Pose:
    return Pose(row.center_x_m, row.headrest_to_wall_m, row.angle_rad)


def _row_floor(pose: Pose, half_m: float, kind: ChairKind) -> tuple[Convex, ...]:
    return pieces(pose.box(-half_m, half_m, kind.rear_of_base_m, kind.reclined_reach_m))


def _body(
    pose: Pose,
    kind: ChairKind,
    halves: tuple[float, float],
    lines: tuple[Side, ...],
) -> tuple[Body, ...]:
    def strip(from_m: float, to_m: float) -> Convex | None:
        return cut_by(pose.box(-halves[0], halves[1], from_m, to_m), lines)

    upright = strip(0.0, kind.depth_m)
    swept = strip(-kind.back_travel_m, kind.reclined_reach_m)
    base = strip(kind.rear_of_base_m, kind.depth_m)
    if upright is None or swept is None or base is None:
        return ()
    return (
        Body(
            upright=upright,
            swept=swept,
            base=base,
            pose=pose,
            halves=halves,
            from_m=-kind.back_travel_m,
            depth_m=kind.depth_m,
            reach_m=kind.reclined_reach_m,
        ),
    )


def _table_body(table: Table) -> Body:
    return Body(
        upright=table.floor,
        swept=table.floor,
        base=table.floor,
        pose=table.pose,
        halves=(table.half_m, table.half_m),
        from_m=table.from_m,
        depth_m=table.to_m,
        reach_m=table.to_m,
    )
