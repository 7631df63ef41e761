"""What stands in a row, chair or table: where it stands, and its sides in its own frame."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from powerplan.engineering.seating.pieces import GAP, SEAT, Slot, pieces_of, slots_of
from powerplan.engineering.seating.poses import SeatedTable, seat_rows
from powerplan.model.geometry import Point
from powerplan.model.plan import PlacedChair, Plan
from powerplan.model.spec import ChairKind, Row


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """A chair or table in its row. ``chair`` and ``seat`` are None for a table.

    (x, y) is its middle on the line of the headrests, ``angle_rad`` how far it is turned. Its sides
    are ``left_m`` and ``right_m`` from that middle, half of an arm that it shares taken in; its
    rear and front are ahead of the line of the headrests. ``apex`` is where the sides of one with
    tapered arms would meet, in its own frame, and ``touch_m`` where they are as far apart as told.
    ``free_right``: a gap follows on its right. [m, rad]
    """

    name: str
    kind: str
    chair: PlacedChair | None
    seat: ChairKind | None
    x_m: float
    y_m: float
    angle_rad: float
    left_m: float
    right_m: float
    rear_m: float
    front_m: float
    free_right: bool = False
    apex: Point | None = None
    touch_m: float = 0.0

    @property
    def width_m(self) -> float:
        """From side to side. [m]"""
        return self.left_m + self.right_m

    def at(self, right_m: float, ahead_m: float) -> Point:
        """Return the room's point for a place in its frame. [m]"""
        sine, cosine = math.sin(self.angle_rad), math.cos(self.angle_rad)
        return (
            self.x_m + right_m * cosine - ahead_m * sine,
            self.y_m + right_m * sine + ahead_m * cosine,
        )

    def place(self, point: Point) -> Point:
        """Return where a point of the room is in its frame. [m]"""
        sine, cosine = math.sin(self.angle_rad), math.cos(self.angle_rad)
        x_m, y_m = point[0] - self.x_m, point[1] - self.y_m
        return (x_m * cosine + y_m * sine, -x_m * sine + y_m * cosine)

    def sides_m(self, ahead_m: float) -> tuple[float, float]:
        """Return how far right of its middle its sides are, at a place ahead. [m]"""
        if self.apex is None:
            return (-self.left_m, self.right_m)
        over, deep = self.apex
        share = (ahead_m - self.touch_m) / (deep - self.touch_m)
        left_m, right_m = -self.left_m, self.right_m
        return (left_m + (over - left_m) * share, right_m + (over - right_m) * share)

    def corners(self, from_m: float, to_m: float) -> tuple[Point, Point, Point, Point]:
        """Return the room's corners of its floor between two places ahead, counter-clockwise from
        the back left. [m]"""
        (left, right), (far_left, far_right) = self.sides_m(from_m), self.sides_m(to_m)
        return (
            self.at(left, from_m),
            self.at(right, from_m),
            self.at(far_right, to_m),
            self.at(far_left, to_m),
        )

    @property
    def base(self) -> tuple[Point, Point, Point, Point]:
        """The corners of its base: rear left, rear right, front right, front left. [m]"""
        return self.corners(self.rear_m, self.front_m)


def stands_of(plan: Plan, row: Row) -> tuple[Stand, ...]:
    """Return what stands in a row, from the left: chairs where the record has them, and tables.

    Parameters
    ----------
    plan : Plan
        The plan.
    row : Row
        One of its rows.
    """
    slots = slots_of(pieces_of(row, plan.spec.chair(row.chair)), 0.0)
    return tuple(_stands(plan, row, slots))


def _stands(plan: Plan, row: Row, slots: tuple[Slot, ...]) -> Iterator[Stand]:
    placed = {chair.seat: chair for chair in plan.chairs if chair.row == row.id}
    tables, names = iter(_tables(plan, row)), iter(_table_names(plan, slots))
    for number, slot in enumerate(slots):
        free = number + 1 < len(slots) and slots[number + 1].what == GAP
        if slot.what == SEAT and slot.seat in placed:
            yield _chair(plan, row, slot, placed[slot.seat], free=free)
        elif slot.what not in (SEAT, GAP):
            yield _table(next(tables), next(names), free=free)


def _chair(plan: Plan, row: Row, slot: Slot, chair: PlacedChair, *, free: bool) -> Stand:
    kind, apex, touch_m = plan.spec.chair(slot.kind or row.chair), None, 0.0
    if row.curve is not None and row.curve.touch == "back":
        touch_m = plan.spec.chair(row.chair).rear_of_base_m
        away_m = math.sqrt(max(0.0, row.curve.radius_m**2 - (slot.block_m / 2) ** 2))
        apex = ((slot.right_half_m - slot.left_half_m) / 2, touch_m + away_m)
    return Stand(
        name=chair.id,
        kind=kind.id,
        chair=chair,
        seat=kind,
        x_m=chair.x_m,
        y_m=chair.y_m,
        angle_rad=chair.angle_rad,
        left_m=slot.left_half_m,
        right_m=slot.right_half_m,
        rear_m=kind.rear_of_base_m,
        front_m=kind.depth_m,
        free_right=free,
        apex=apex,
        touch_m=touch_m,
    )


def _table(table: SeatedTable, name: str, *, free: bool) -> Stand:
    rect, kind = table.rect, table.kind
    x_m, y_m = table.frame.point(((rect.left_m + rect.right_m) / 2, rect.back_m - kind.rear_m))
    return Stand(
        name=name,
        kind=kind.id,
        chair=None,
        seat=None,
        x_m=x_m,
        y_m=y_m,
        angle_rad=table.frame.angle_rad,
        left_m=rect.width_m / 2,
        right_m=rect.width_m / 2,
        rear_m=kind.rear_m,
        front_m=kind.front_m,
        free_right=free,
    )


def _tables(plan: Plan, row: Row) -> tuple[SeatedTable, ...]:
    if not row.pieces:
        return ()
    return next(seated.tables for seated in seat_rows(plan.spec) if seated.row.id == row.id)


def _table_names(plan: Plan, slots: tuple[Slot, ...]) -> Iterator[str]:
    """A table is called by its kind; several of one kind in a row are numbered from the left."""
    kinds = [slot.kind or "" for slot in slots if slot.what not in (SEAT, GAP)]
    chairs = {chair.id for chair in plan.chairs}
    many, seen = Counter(kinds), Counter[str]()
    for kind in kinds:
        seen[kind] += 1
        name = kind if many[kind] == 1 else f"{kind} {seen[kind]}"
        yield f"table {name}" if name in chairs else name
