"""The rows as installers set them: chalk line, order of work, and what lies between seats."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from powerplan.model.geometry import Point, Rect
from powerplan.model.lengths import joined, length_text, micrometers, plural
from powerplan.model.plan import Cord, PlacedChair, Plan
from powerplan.model.spec import ChairKind, Riser, Row
from powerplan.sheets.chalk import Chalk, chalk_of
from powerplan.sheets.pages.print_tags import bag_of
from powerplan.sheets.placed import is_plain, turn_text
from powerplan.sheets.stands import Stand, stands_of

_SAME_M = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class SetRow:
    """A row on the floor: what stands in it from the left, and its chalk line or arc.

    ``line_m`` is the back wall to the rearmost rear of its bases, ``left_m`` and ``right_m`` are
    their ends, the outer sides of the outer arms, and ``front_m`` is their front; of a row that is
    turned or curved the four are no more than the extent of its bases. [m]
    """

    row: Row
    kind: ChairKind
    chairs: tuple[PlacedChair, ...]
    stands: tuple[Stand, ...]
    chalk: Chalk
    line_m: float
    front_m: float
    left_m: float
    right_m: float

    @property
    def id(self) -> str:
        """Its name."""
        return self.row.id

    @property
    def plain(self) -> bool:
        """True for a straight row of one kind that looks straight at the screen."""
        return is_plain(self.row)

    @property
    def curved(self) -> bool:
        """True for a row on an arc."""
        return self.row.curve is not None

    @property
    def square(self) -> bool:
        """True for a straight row that looks straight at the screen, of one kind or more."""
        return not self.curved and self.row.angle_rad == 0.0

    @property
    def swept(self) -> Rect:
        """The floor around it, reclined. [m]"""
        corners = [corner for one in self.stands for corner in swept_of(one)]
        return Rect(
            left_m=min(x for x, _ in corners),
            right_m=max(x for x, _ in corners),
            back_m=min(y for _, y in corners),
            front_m=max(y for _, y in corners),
        )

    @property
    def middle_of_line(self) -> Point:
        """The middle of the chalk line. [m]"""
        (left, back), (right, front) = self.chalk.left, self.chalk.right
        return ((left + right) / 2, (back + front) / 2)


def swept_of(one: Stand) -> tuple[Point, ...]:
    """Return the corners of what a chair takes reclined; of a table those of its floor. [m]"""
    if one.seat is None:
        return one.base
    return one.corners(-one.seat.back_travel_m, one.seat.reclined_reach_m)


def set_rows(plan: Plan) -> tuple[SetRow, ...]:
    """Return every row that has chairs, in the plan's order."""
    return tuple(_set_rows(plan))


def _set_rows(plan: Plan) -> Iterator[SetRow]:
    for row in plan.spec.rows:
        stands = stands_of(plan, row)
        chairs = tuple(one.chair for one in stands if one.chair is not None)
        if not chairs:
            continue
        corners = [corner for one in stands for corner in one.base]
        yield SetRow(
            row=row,
            kind=next(one.seat for one in stands if one.seat is not None),
            chairs=chairs,
            stands=stands,
            chalk=chalk_of(stands, row.curve),
            line_m=min(y for _, y in corners),
            front_m=max(y for _, y in corners),
            left_m=min(x for x, _ in corners),
            right_m=max(x for x, _ in corners),
        )


def row_of(cord: Cord, rows: tuple[SetRow, ...], plan: Plan) -> SetRow:
    """Return the row that a cord serves; the first where nothing tells."""
    name = bag_of(cord, plan)
    return next((row for row in rows if any(c.id == name for c in row.chairs)), rows[0])


def outward(row: SetRow) -> tuple[Stand, ...]:
    """Return what stands in a row in the order it is set: the middle, then outward by turns."""

    def along_m(one: Stand) -> float:
        middle_m = 0.0 if one.seat is not None else (one.right_m - one.left_m) / 2
        return row.chalk.place(one.at(middle_m, one.rear_m))[0]

    half_m = row.chalk.length_m / 2
    return tuple(
        sorted(row.stands, key=lambda one: (round(abs(along_m(one) - half_m), 6), along_m(one)))
    )


def neighbors(row: SetRow) -> tuple[tuple[Stand, Stand], ...]:
    """Return each two things of a row that touch, from the left; over a gap nothing does."""
    return tuple((one, other) for one, other in pairwise(row.stands) if not one.free_right)


def seams(
    row: SetRow, cords: tuple[Cord, ...], *, behind: bool = False
) -> tuple[tuple[str, str, tuple[str, ...]], ...]:
    """Return for each two that touch, from the left, the cords that pass between them.

    Parameters
    ----------
    row : SetRow
        The row.
    cords : tuple of Cord
        Every cord of the plan.
    behind : bool
        True for those that pass from one to the other behind their bases instead.
    """
    pairs = []
    for left, right in neighbors(row):
        seam = _seam(left, right)
        crossing = tuple(cord.id for cord in cords if _crosses(cord.path_m, seam, behind))
        pairs.append((left.name, right.name, crossing))
    return tuple(pairs)


def _seam(left: Stand, right: Stand) -> Chalk:
    """The line between two neighbors, rear to front, each end half way between their sides."""
    rear_m, front_m = min(left.rear_m, right.rear_m), max(left.front_m, right.front_m)
    ends = []
    for ahead_m in (rear_m, front_m):
        one = left.at(left.sides_m(ahead_m)[1], ahead_m)
        other = right.at(right.sides_m(ahead_m)[0], ahead_m)
        ends.append(((one[0] + other[0]) / 2, (one[1] + other[1]) / 2))
    return Chalk(left=ends[0], right=ends[1])


def _crosses(path: tuple[Point, ...], seam: Chalk, behind: bool) -> bool:
    """Whether a path passes the line between two neighbors under the row, or behind it."""
    for start, end in pairwise(path):
        (along, ahead), (to_along, to_ahead) = seam.place(start), seam.place(end)
        if ahead * to_ahead > 0 or abs(ahead - to_ahead) < _SAME_M:
            continue
        share = ahead / (ahead - to_ahead)
        at_m = along + (to_along - along) * share
        if at_m <= 0.0 if behind else 0.0 < at_m < seam.length_m:
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
    """Return the riser on which most of a row's bases have their middles, None for the floor."""
    middles = [one.at(0.0, (one.rear_m + one.front_m) / 2) for one in row.stands]
    for riser in plan.spec.risers:
        if 2 * sum(_holds(riser.rect, middle) for middle in middles) > len(middles):
            return riser
    return None


def about_row(row: SetRow, plan: Plan) -> str:
    """Return how a row stands in the room: chairs, middle, what it stands on, whether bolted."""
    units, room = plan.spec.project.units, plan.spec.room
    off_m = (row.middle_of_line[0] if row.plain else row.row.center_x_m) - room.width_m / 2
    if abs(micrometers(off_m)) <= 1:
        middle = "its middle on the center line of the room"
    else:
        side = "right" if off_m > 0 else "left"
        middle = (
            f"its middle {length_text(abs(off_m), units)} {side} of the room's center line, "
            "on purpose"
        )
    about = f"Cords enter each chair {_inlet(row.kind, units)}."
    if not row.plain:
        about = others_text(row, plan)
    chairs = plural(len(row.chairs), "chair")
    said = f"Row {row.id}: {chairs}, {middle}. {fastened_text(row, plan)} {about}"
    pairs = [f"{one.name} and {other.name}" for one, other in armless(row)]
    said += f" No arm between: {'; '.join(pairs)}." if pairs else ""
    hand = [s.name for s in row.stands if s.seat is not None and not s.seat.powered]
    if hand:
        said += f" Not powered, no cord, reclined by hand: {joined(hand)}."
    return said


def armless(row: SetRow) -> tuple[tuple[Stand, Stand], ...]:
    """Return each two neighboring seats with no arm between them, from the left."""
    return tuple(
        (one, other)
        for one, other in neighbors(row)
        if one.seat is not None
        and other.seat is not None
        and micrometers(one.right_m) <= micrometers(one.seat.seat_width_m / 2)
        and micrometers(other.left_m) <= micrometers(other.seat.seat_width_m / 2)
    )


def others_text(row: SetRow, plan: Plan) -> str:
    """Return what a row is that is no plain one, and how it is set."""
    units = plan.spec.project.units
    seats = joined(
        [one.name if one.seat is None else f"{one.name} (kind {one.kind})" for one in row.stands]
    )
    words = f"From the left: {seats}."
    if row.row.angle_rad:
        words += f" It is turned {turn_text(row.row.angle_rad)}, as sitters look."
    if row.row.curve is not None:
        radius = length_text(row.row.curve.radius_m, units)
        words += (
            f" It stands on an arc of {radius}, hollow toward the screen; arms touch at the "
            f"{row.row.curve.touch}."
        )
    return f"{words} Cords enter {joined(_inlets(row, units))}."


def _inlets(row: SetRow, units: str) -> list[str]:
    """Where cords enter the chairs of each kind, from its own rear and middle."""
    kinds = {one.kind: one.seat for one in row.stands if one.seat is not None}
    return [
        f"{'each chair' if len(kinds) == 1 else f'each chair of kind {name}'} "
        f"{_inlet(kind, units, 'its rear', 'the middle of its seat')}"
        for name, kind in kinds.items()
        if kind.takes_power
    ] or ["no chair: none takes power"]


def _inlet(kind: ChairKind, units: str, line: str = "the line", middle: str = "its middle") -> str:
    """Where cords enter a chair, from the rear of its base and from the middle of its seat."""
    right_m, forward_m = kind.lead_from
    off_m = forward_m - kind.rear_of_base_m
    side = "ahead of" if off_m >= 0 else "behind"
    along = f"{length_text(abs(off_m), units)} {side} {line}"
    if not micrometers(right_m):
        return f"{along}, on {middle}"
    aside = "right" if right_m > 0 else "left"
    return f"{along}, {length_text(abs(right_m), units)} {aside} of {middle}"


def fastened_text(row: SetRow, plan: Plan) -> str:
    """Return whether a row is bolted down, onto what, and what lies under the anchors."""
    riser, fastened = riser_under(row, plan), row.row.fastened
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
