"""Where every chair of a plan stands, and the floor it sweeps, worked out from the spec alone."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from powerplan.judging.shapes import without
from powerplan.model.geometry import Point, Rect
from powerplan.model.lengths import micrometres
from powerplan.model.spec import ChairKind, PlanSpec, Row


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """Floor inside a row on which a cord may lie: "clear", "rear strip" or "arm strip". [m]"""

    chair: str
    kind: str
    rect: Rect


@dataclass(frozen=True, slots=True, kw_only=True)
class Seat:
    """A chair where the spec puts it; left and right are the outer edges of its arms. [m]"""

    id: str
    number: int
    row: Row
    kind: ChairKind
    x_m: float
    y_m: float
    left_m: float
    right_m: float

    @property
    def input_a(self) -> Fraction:
        """Its load: what its supply takes, by halves where it shares one with a neighbour. [A]"""
        return self.kind.input_a / self._mates

    @property
    def continuous_a(self) -> Fraction:
        """The part of its load that lasts. [A]"""
        return self.kind.continuous_a / self._mates

    @property
    def _mates(self) -> int:
        return 1 + sum(self.number in pair for pair in self.row.shared_supplies)

    @property
    def clear(self) -> Rect | None:
        """The clear zone on the floor, None where there is none. [m]"""
        zone = self.kind.clear
        if zone is None:
            return None
        return Rect(
            left_m=self.x_m - zone.width_m / 2,
            right_m=self.x_m + zone.width_m / 2,
            back_m=self.y_m + zone.from_m,
            front_m=self.y_m + zone.to_m,
        )

    @property
    def lead_from(self) -> Point:
        """Where its lead leaves it. [m]"""
        right_m, forward_m = self.kind.lead_from
        return self.x_m + right_m, self.y_m + forward_m


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidRow:
    """A row as it stands: its chairs, its sides, its openings, and its pinch zone in pieces. [m]"""

    row: Row
    kind: ChairKind
    seats: tuple[Seat, ...]
    left_m: float
    right_m: float
    openings: tuple[Opening, ...]
    pinch: tuple[Rect, ...]

    def strip(self, from_m: float, to_m: float) -> Rect:
        """Return the row's floor between two distances ahead of its headrests. [m]"""
        y = self.row.headrest_to_wall_m
        return Rect(left_m=self.left_m, right_m=self.right_m, back_m=y + from_m, front_m=y + to_m)

    @property
    def upright(self) -> Rect:
        """Headrests to the front of the bases, upright. [m]"""
        return self.strip(0.0, self.kind.depth_m)

    @property
    def base(self) -> Rect:
        """What touches the floor, upright. [m]"""
        return self.strip(self.kind.rear_of_base_m, self.kind.depth_m)

    @property
    def swept(self) -> Rect:
        """Reclined headrests to the ends of the footrests. [m]"""
        return self.strip(-self.kind.back_travel_m, self.kind.reclined_reach_m)

    @property
    def floor(self) -> Rect:
        """Rear of the bases to the ends of the footrests. [m]"""
        return self.strip(self.kind.rear_of_base_m, self.kind.reclined_reach_m)


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
    kinds = {kind.id: kind for kind in spec.chairs}
    return tuple(_lay_row(row, kinds[row.chair], gap_needed_m) for row in spec.rows)


def _lay_row(row: Row, kind: ChairKind, gap_needed_m: float) -> LaidRow:
    armless = {left for left, _ in row.no_arm_between}
    arms = row.seats + 1 - len(armless)
    width_m = row.seats * kind.seat_width_m + arms * kind.arm_width_m
    left_m = row.center_x_m - width_m / 2
    seats = tuple(_lay_seat(row, kind, left_m, n, armless) for n in range(1, row.seats + 1))
    openings = _openings(seats, kind, armless, gap_needed_m)
    bare = LaidRow(
        row=row,
        kind=kind,
        seats=seats,
        left_m=left_m,
        right_m=left_m + width_m,
        openings=openings,
        pinch=(),
    )
    return LaidRow(
        row=row,
        kind=kind,
        seats=seats,
        left_m=bare.left_m,
        right_m=bare.right_m,
        openings=openings,
        pinch=without(bare.floor, (opening.rect for opening in openings)),
    )


def _lay_seat(row: Row, kind: ChairKind, row_left_m: float, number: int, armless: set[int]) -> Seat:
    arms_before = number - sum(1 for left in armless if left < number)
    cushion_m = row_left_m + arms_before * kind.arm_width_m + (number - 1) * kind.seat_width_m
    left_arm_m = 0.0 if number - 1 in armless else kind.arm_width_m
    right_arm_m = 0.0 if number in armless else kind.arm_width_m
    return Seat(
        id=f"{row.id}{number}",
        number=number,
        row=row,
        kind=kind,
        x_m=cushion_m + kind.seat_width_m / 2,
        y_m=row.headrest_to_wall_m,
        left_m=cushion_m - left_arm_m,
        right_m=cushion_m + kind.seat_width_m + right_arm_m,
    )


def _is_open(gap_m: float | None, needed_m: float) -> bool:
    return gap_m is not None and micrometres(gap_m) >= micrometres(needed_m)


def _before(one_m: float, other_m: float) -> bool:
    return micrometres(one_m) < micrometres(other_m)


def _openings(
    seats: tuple[Seat, ...], kind: ChairKind, armless: set[int], gap_needed_m: float
) -> tuple[Opening, ...]:
    found: list[Opening] = []
    for seat, after in zip(seats, (*seats[1:], None), strict=True):
        clear = seat.clear
        if clear is None or kind.clear is None or not _is_open(kind.clear.height_m, gap_needed_m):
            continue
        found.append(Opening(chair=seat.id, kind="clear", rect=clear))
        rear_m = seat.y_m + kind.rear_of_base_m
        if _is_open(kind.rear_gap_m, gap_needed_m) and _before(rear_m, clear.back_m):
            rear = Rect(
                left_m=clear.left_m, right_m=clear.right_m, back_m=rear_m, front_m=clear.back_m
            )
            found.append(Opening(chair=seat.id, kind="rear strip", rect=rear))
        beside = after.clear if after is not None and seat.number not in armless else None
        if beside is None or not _is_open(kind.arm_gap_m, gap_needed_m):
            continue
        if _before(clear.right_m, beside.left_m):
            arm = Rect(
                left_m=clear.right_m,
                right_m=beside.left_m,
                back_m=clear.back_m,
                front_m=clear.front_m,
            )
            found.append(Opening(chair=seat.id, kind="arm strip", rect=arm))
    return tuple(found)
