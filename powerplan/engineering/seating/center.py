"""Where a row stands against the middle of the room, and why."""

from __future__ import annotations

from powerplan.engineering.seating.poses import SeatedRow
from powerplan.model.findings import Finding, hold
from powerplan.model.lengths import joined, length_text, micrometers
from powerplan.model.rules import RuleSet
from powerplan.model.spec import PlanSpec


def row_on_center(spec: PlanSpec, row: SeatedRow, rules: RuleSet) -> Finding:
    """Return how far a row's middle is from the room's, and what stands on the center line.

    With equal chairs and arms an odd row puts its middle chair on its middle, an even row its
    middle armrest; an arm left out on one side only moves them off it.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read.
    row : SeatedRow
        The row. [m]
    rules : RuleSet
        The rules.
    """
    middle_m = spec.room.width_m / 2
    row_off_m = row.row.center_x_m - middle_m
    if row.row.pieces or not row.is_square:
        return _whole_row(spec, row, row_off_m, rules)
    name, place_m = _middle_of(row)
    off_m = place_m - middle_m
    units = spec.project.units
    if _about_nothing(off_m):
        note = f"The {name} stands on {_line(spec)}."
    else:
        note = (
            f"The {name} stands {_aside(off_m, units)} of {_line(spec)}, because "
            f"{_why(row, row_off_m, units)}."
        )
    rule = rules.rules["row-on-centre"]
    value_m = 0.0 if _about_nothing(row_off_m) else abs(row_off_m)
    return hold(rule, f"row {row.row.id}", value_m, 0.0, note=note)


def _whole_row(spec: PlanSpec, row: SeatedRow, off_m: float, rules: RuleSet) -> Finding:
    """Of mixed, turned and curved rows only the whole row's middle is told."""
    note = f"The middle of the whole row is on {_line(spec)}."
    if not _about_nothing(off_m):
        note = (
            f"The middle of the whole row is {_aside(off_m, spec.project.units)} of {_line(spec)}."
        )
    value_m = 0.0 if _about_nothing(off_m) else abs(off_m)
    return hold(rules.rules["row-on-centre"], f"row {row.row.id}", value_m, 0.0, note=note)


def _line(spec: PlanSpec) -> str:
    """What the middle is that rows are held to."""
    line = "the center line of the room"
    return f"{line}, half way across its greatest width" if spec.room.walls else line


def _middle_of(row: SeatedRow) -> tuple[str, float]:
    """What is in the middle of a row, counted in seats, and where it is. [m]"""
    chairs = row.chairs
    half = len(chairs) // 2
    if len(chairs) % 2:
        return f"middle chair, {chairs[half].id},", chairs[half].x_m
    left, right = chairs[half - 1], chairs[half]
    place_m = (left.x_m + right.x_m) / 2
    if (left.seat, right.seat) in row.row.no_arm_between:
        return f"middle of the shared cushion, {left.id} and {right.id},", place_m
    return f"middle armrest, between {left.id} and {right.id},", place_m


def _why(row: SeatedRow, row_off_m: float, units: str) -> str:
    reasons = []
    if not _about_nothing(row_off_m):
        reasons.append(f"the row is set on purpose {_aside(row_off_m, units)}")
    _, place_m = _middle_of(row)
    if not _about_nothing(place_m - row.row.center_x_m):
        pairs = [f"{left} and {right}" for left, right in row.row.no_arm_between]
        seats = joined(pairs, "and between")
        reasons.append(f"there is no arm between seats {seats} to balance the other side")
    return joined(reasons)


def _aside(off_m: float, units: str) -> str:
    side = "left" if off_m < 0 else "right"
    return f"{length_text(abs(off_m), units)} to the {side}"


def _about_nothing(length_m: float) -> bool:
    """True within a micrometer: places are rounded to that, which is no reason to tell anyone."""
    return abs(micrometers(length_m)) <= 1
