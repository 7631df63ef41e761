"""Where every chair of every row stands."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction

from powerplan.engineering.seating.rects import grid_rect, on_grid, shared
from powerplan.model.geometry import Point, Rect
from powerplan.model.spec import ChairKind, PlanSpec, Riser, Row


@dataclass(frozen=True, slots=True, kw_only=True)
class SeatedChair:
    """A chair where it stands: (x, y) is the rearmost point of its upright headrest.

    ``floor`` is all the floor it stands on or sweeps, arm to arm, rear of base to the end of the
    reclined footrest. ``riser`` is the id of the riser its base stands on, None for the floor.
    ``share`` is its part of the supply that feeds it, a half where two seats share one. [m]
    """

    id: str
    row: str
    seat: int
    kind: ChairKind
    x_m: float
    y_m: float
    floor: Rect
    riser: str | None
    share: Fraction = Fraction(1)

    @property
    def input_a(self) -> Fraction:
        """What it takes of its circuit: its supply's input, or its share of one. [A]"""
        return self.kind.input_a * self.share

    @property
    def continuous_a(self) -> Fraction:
        """The part of that which lasts. [A]"""
        return self.kind.continuous_a * self.share

    @property
    def clear(self) -> Rect | None:
        """The clear zone, None where none was measured. [m]"""
        zone = self.kind.clear
        if zone is None:
            return None
        return grid_rect(
            self.x_m - zone.width_m / 2,
            self.x_m + zone.width_m / 2,
            self.y_m + zone.from_m,
            self.y_m + zone.to_m,
        )

    @property
    def lead_from(self) -> Point:
        """Where the chair's own lead, and a link, leave it. [m]"""
        right_m, forward_m = self.kind.lead_from
        return (on_grid(self.x_m + right_m), on_grid(self.y_m + forward_m))

    @property
    def base(self) -> Rect:
        """What touches the floor, arm to arm, rear of base to front of base. [m]"""
        return grid_rect(
            self.floor.left_m,
            self.floor.right_m,
            self.floor.back_m,
            self.y_m + self.kind.depth_m,
        )

    @property
    def reclined(self) -> Rect:
        """Arm to arm, from the reclined headrest to the end of the reclined footrest. [m]"""
        return grid_rect(
            self.floor.left_m,
            self.floor.right_m,
            self.y_m - self.kind.back_travel_m,
            self.floor.front_m,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class SeatedRow:
    """A row where it stands, chairs from the left; edges are the outer sides of the outer arms.

    ``riser`` is the id of the riser that most of its bases' floor is on, None for the floor. [m]
    """

    row: Row
    kind: ChairKind
    chairs: tuple[SeatedChair, ...]
    left_m: float
    right_m: float
    riser: str | None

    @property
    def y_m(self) -> float:
        """Back wall to the upright headrests. [m]"""
        return self.row.headrest_to_wall_m

    @property
    def base(self) -> Rect:
        """The bases of all its chairs as one. [m]"""
        return grid_rect(
            self.left_m,
            self.right_m,
            self.y_m + self.kind.rear_of_base_m,
            self.y_m + self.kind.depth_m,
        )

    @property
    def reclined(self) -> Rect:
        """The whole row from the reclined headrests to the ends of the reclined footrests. [m]"""
        return grid_rect(
            self.left_m,
            self.right_m,
            self.y_m - self.kind.back_travel_m,
            self.y_m + self.kind.reclined_reach_m,
        )


def seat_rows(spec: PlanSpec) -> tuple[SeatedRow, ...]:
    """Return every row with its chairs where they stand, in the plan's order.

    A row is centred by its whole width: its seats, and an arm at each end and between neighbours
    that do not share a cushion. Places are on the plan's grid of one micrometre.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read.

    Returns
    -------
    tuple of SeatedRow
        One for each row. [m]
    """
    rows = (_seat_row(row, spec.chair(row.chair), spec.risers) for row in spec.rows)
    return tuple(_with_shares(row) for row in rows)


def _with_shares(row: SeatedRow) -> SeatedRow:
    """The row with its shared supplies told to its chairs."""
    half = Fraction(1, 2)
    chairs = (
        replace(chair, share=half) if row.row.shares_supply(chair.seat) else chair
        for chair in row.chairs
    )
    return replace(row, chairs=tuple(chairs)) if row.row.shared_supplies else row


def _seat_row(row: Row, kind: ChairKind, risers: tuple[Riser, ...]) -> SeatedRow:
    width_m = row.seats * kind.seat_width_m
    width_m += (row.seats + 1 - len(row.no_arm_between)) * kind.arm_width_m
    left_m = row.center_x_m - width_m / 2
    chairs: list[SeatedChair] = []
    at_m = left_m
    for seat in range(1, row.seats + 1):
        left_arm_m = 0.0 if (seat - 1, seat) in row.no_arm_between else kind.arm_width_m
        right_arm_m = 0.0 if (seat, seat + 1) in row.no_arm_between else kind.arm_width_m
        cushion_m = at_m + left_arm_m
        chairs.append(_seat_chair(row, kind, seat, cushion_m, (left_arm_m, right_arm_m), risers))
        at_m = cushion_m + kind.seat_width_m
    base = grid_rect(
        left_m,
        left_m + width_m,
        row.headrest_to_wall_m + kind.rear_of_base_m,
        row.headrest_to_wall_m + kind.depth_m,
    )
    return SeatedRow(
        row=row,
        kind=kind,
        chairs=tuple(chairs),
        left_m=base.left_m,
        right_m=base.right_m,
        riser=_riser_under(base, risers),
    )


def _seat_chair(
    row: Row,
    kind: ChairKind,
    seat: int,
    cushion_m: float,
    arms_m: tuple[float, float],
    risers: tuple[Riser, ...],
) -> SeatedChair:
    """Seat one chair; ``cushion_m`` is the left edge of its cushion."""
    y_m = row.headrest_to_wall_m
    left_m = cushion_m - arms_m[0]
    right_m = cushion_m + kind.seat_width_m + arms_m[1]
    rear_m = y_m + kind.rear_of_base_m
    base = grid_rect(left_m, right_m, rear_m, y_m + kind.depth_m)
    return SeatedChair(
        id=f"{row.id}{seat}",
        row=row.id,
        seat=seat,
        kind=kind,
        x_m=on_grid(cushion_m + kind.seat_width_m / 2),
        y_m=y_m,
        floor=grid_rect(left_m, right_m, rear_m, y_m + kind.reclined_reach_m),
        riser=_riser_under(base, risers),
    )


def _riser_under(base: Rect, risers: Iterable[Riser]) -> str | None:
    """The riser that carries more than half of a base."""
    half = base.width_m * base.depth_m / 2
    for riser in risers:
        part = shared(base, riser.rect)
        if part is not None and part.width_m * part.depth_m > half:
            return riser.id
    return None
