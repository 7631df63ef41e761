"""The rows as installers set them: chalk line, order of work, and what lies between seats."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from powerplan.model.geometry import Point, Rect
from powerplan.model.lengths import joined, length_text, micrometres, plural
from powerplan.model.plan import Cord, PlacedChair, Plan
from powerplan.model.spec import ChairKind, Riser
from powerplan.sheets.placed import Placed, is_plain, placed_of, turn_text


@dataclass(frozen=True, slots=True, kw_only=True)
class SetRow:
    """A row on the floor: chairs from the left, and the chalk line along the rear of its bases.

    ``line_m`` is the back wall to the line; ``left_m`` and ``right_m`` are its ends, the outer
    sides of the outer arms; ``front_m`` the front of the bases. ``others`` holds the chairs of a
    mixed, turned or curved row, each with its own kind: such a row has no chalk line, and the four
    are its extent. [m]
    """

    id: str
    kind: ChairKind
    chairs: tuple[PlacedChair, ...]
    line_m: float
    front_m: float
    left_m: float
    right_m: float
    others: tuple[Placed, ...] = ()

    @property
    def plain(self) -> bool:
        """True for a straight row of one kind, set along a chalk line."""
        return not self.others

    @property
    def swept(self) -> Rect:
        """The floor around it, reclined. [m]"""
        y_m, kind = self.chairs[0].y_m, self.kind
        corners = [
            corner
            for one in self.others
            for corner in one.outline(
                one.half_m, -one.kind.back_travel_m, one.kind.reclined_reach_m
            )
        ]
        if not corners:
            corners = [
                (self.left_m, y_m - kind.back_travel_m),
                (self.right_m, y_m + kind.reclined_reach_m),
            ]
        return Rect(
            left_m=min(x for x, _ in corners),
            right_m=max(x for x, _ in corners),
            back_m=min(y for _, y in corners),
            front_m=max(y for _, y in corners),
        )

    @property
    def middle_of_line(self) -> Point:
        """The middle of the chalk line. [m]"""
        return ((self.left_m + self.right_m) / 2, self.line_m)


def set_rows(plan: Plan) -> tuple[SetRow, ...]:
    """Return every row that has chairs, in the plan's order."""
    rows = []
    for row in plan.spec.rows:
        chairs = sorted((c for c in plan.chairs if c.row == row.id), key=lambda chair: chair.x_m)
        others = () if is_plain(row) else placed_of(plan, row)
        if others:
            rows.append(_set_others(row.id, others))
        elif chairs:
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


def _set_others(name: str, others: tuple[Placed, ...]) -> SetRow:
    bases = [one.outline(one.half_m, one.kind.rear_of_base_m, one.kind.depth_m) for one in others]
    xs = [x for base in bases for x, _ in base]
    ys = [y for base in bases for _, y in base]
    return SetRow(
        id=name,
        kind=others[0].kind,
        chairs=tuple(one.chair for one in others),
        line_m=min(ys),
        front_m=max(ys),
        left_m=min(xs),
        right_m=max(xs),
        others=others,
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


def number_m(plan: Plan, name: str) -> float:
    """Return a length of the rule set, as this plan used it. [m]

    Raises
    ------
    KeyError
        If the plan used no number of that name.
    """
    for number in plan.rules.numbers:
        if number.name == name:
            return number.value
    raise KeyError(name)


def riser_under(row: SetRow, plan: Plan) -> Riser | None:
    """Return the riser on which the middle of a row's bases stands, None for the floor."""
    middle = ((row.left_m + row.right_m) / 2, (row.line_m + row.front_m) / 2)
    return next((r for r in plan.spec.risers if _holds(r.rect, middle)), None)


def riser_behind(row: SetRow, plan: Plan) -> Riser | None:
    """Return the nearest riser whose front stands behind a row's chalk line, None for none."""
    own = riser_under(row, plan)
    behind = [
        riser
        for riser in plan.spec.risers
        if riser is not own
        and micrometres(riser.rect.front_m) <= micrometres(row.line_m)
        and riser.rect.left_m < row.right_m
        and row.left_m < riser.rect.right_m
    ]
    return max(behind, key=lambda riser: riser.rect.front_m, default=None)


def about_row(row: SetRow, plan: Plan) -> str:
    """Return how a row stands in the room: chairs, middle, what it stands on, whether bolted."""
    units, room = plan.spec.project.units, plan.spec.room
    middle_m = (row.left_m + row.right_m) / 2
    if not row.plain:
        middle_m = plan.spec.row(row.id).center_x_m
    off_m = middle_m - room.width_m / 2
    if abs(micrometres(off_m)) <= 1:
        middle = "its middle on the center line of the room"
    else:
        side = "right" if off_m > 0 else "left"
        middle = (
            f"its middle {length_text(abs(off_m), units)} {side} of the room's center line, "
            "on purpose"
        )
    return (
        f"Row {row.id}: {plural(len(row.chairs), 'chair')}, {middle}. {fastened_text(row, plan)} "
        + (f"Cords enter each chair {_inlet(row, units)}." if row.plain else others_text(row, plan))
    )


def others_text(row: SetRow, plan: Plan) -> str:
    """Return what a row is that has no chalk line, and how it is set."""
    seats = joined([f"{one.chair.id} {one.kind.id}" for one in row.others])
    said = plan.spec.row(row.id)
    words = f"From the left: {seats}."
    if said.angle_rad:
        words += f" It is turned {turn_text(said.angle_rad)}, as sitters look."
    if said.curve is not None:
        words += f" It stands on an arc; arms touch at the {said.curve.touch}."
    return f"{words} Each chair is set by its own measures, in the table."


def _inlet(row: SetRow, units: str) -> str:
    """Where cords enter a chair, from the line and from its middle."""
    right_m, forward_m = row.kind.lead_from
    off_m = forward_m - row.kind.rear_of_base_m
    side = "ahead of" if off_m >= 0 else "behind"
    along = f"{length_text(abs(off_m), units)} {side} the line"
    if not micrometres(right_m):
        return f"{along}, on its middle"
    aside = "right" if right_m > 0 else "left"
    return f"{along}, {length_text(abs(right_m), units)} {aside} of its middle"


def fastened_text(row: SetRow, plan: Plan) -> str:
    """Return whether a row is bolted down, onto what, and what lies under the anchors."""
    riser, fastened = riser_under(row, plan), plan.spec.row(row.id).fastened
    ground = "the floor" if riser is None else f"the deck of riser {riser.id}"
    if fastened is False:
        return f"It is not bolted down; it stands on {ground}."
    said = f"It is bolted down to {ground}."
    if fastened is None:
        said = (
            f"Nobody has said whether it is bolted down to {ground}: ask before the first anchor "
            "(loads are counted as if it were)."
        )
    names = {chair.id for chair in row.chairs}
    boxes = [box.id for box in plan.boxes if box.kind == "floor box" and box.under in names]
    if not boxes:
        return f"{said} Scan {ground} before an anchor is drilled."
    cable = "the cable to it" if len(boxes) == 1 else "the cables to them"
    return (
        f"{said} In it lie {joined([*boxes, cable])}: the electrician marks on top where, and no "
        "anchor is drilled there. Scan first. Bolt down only after the last cord is in."
    )


def _holds(rect: Rect, point: Point) -> bool:
    return rect.left_m <= point[0] <= rect.right_m and rect.back_m <= point[1] <= rect.front_m
