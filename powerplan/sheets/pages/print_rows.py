"""The rows as installers set them: chalk line, order of work, and what lies between seats."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from powerplan.model.geometry import Point
from powerplan.model.plan import Cord, PlacedChair, Plan
from powerplan.model.spec import ChairKind


@dataclass(frozen=True, slots=True, kw_only=True)
class SetRow:
    """A row on the floor: chairs from the left, and the chalk line along the rear of its bases.

    ``line_m`` is the back wall to the line; ``left_m`` and ``right_m`` are its ends, the outer
    sides of the outer arms; ``front_m`` the front of the bases. [m]
    """

    id: str
    kind: ChairKind
    chairs: tuple[PlacedChair, ...]
    line_m: float
    front_m: float
    left_m: float
    right_m: float


def set_rows(plan: Plan) -> tuple[SetRow, ...]:
    """Return every row that has chairs, in the plan's order."""
    rows = []
    for row in plan.spec.rows:
        chairs = sorted((c for c in plan.chairs if c.row == row.id), key=lambda chair: chair.x_m)
        if chairs:
            rows.append(_set(row.id, plan.spec.chair(row.chair), tuple(chairs)))
    return tuple(rows)


def _set(name: str, kind: ChairKind, chairs: tuple[PlacedChair, ...]) -> SetRow:
    side_m = kind.seat_width_m / 2 + kind.arm_width_m
    y_m = chairs[0].y_m
    return SetRow(
        id=name,
        kind=kind,
        chairs=chairs,
        line_m=y_m + kind.rear_of_base_m,
        front_m=y_m + kind.depth_m,
        left_m=chairs[0].x_m - side_m,
        right_m=chairs[-1].x_m + side_m,
    )


def outward(row: SetRow) -> tuple[PlacedChair, ...]:
    """Return a row's chairs in the order they are set: the middle one, then outward by turns."""
    middle_m = (row.left_m + row.right_m) / 2
    return tuple(sorted(row.chairs, key=lambda c: (round(abs(c.x_m - middle_m), 6), c.x_m)))


def seams(row: SetRow, cords: tuple[Cord, ...]) -> tuple[tuple[str, str, tuple[str, ...]], ...]:
    """Return for each pair of neighbors, from the left, the cords that pass between them.

    Parameters
    ----------
    row : SetRow
        The row.
    cords : tuple of Cord
        Every cord of the plan.
    """
    pairs = []
    for left, right in zip(row.chairs, row.chairs[1:], strict=False):
        seam_m = (left.x_m + right.x_m) / 2
        crossing = tuple(cord.id for cord in cords if _crosses(cord.path_m, seam_m, row))
        pairs.append((left.id, right.id, crossing))
    return tuple(pairs)


def _crosses(path: tuple[Point, ...], x_m: float, row: SetRow) -> bool:
    """Whether a path passes the line between two seats under the row, not behind or before it."""
    for (x0, y0), (x1, y1) in pairwise(path):
        if (x0 - x_m) * (x1 - x_m) > 0 or x0 == x1:
            continue
        at_m = y0 + (y1 - y0) * (x_m - x0) / (x1 - x0)
        if row.line_m < at_m < row.front_m:
            return True
    return False
