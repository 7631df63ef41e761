"""Rows against the walls of a room with corners."""

from __future__ import annotations

from powerplan.engineering.seating.poses import SeatedRow
from powerplan.engineering.seating.walls import spare_in_room, wall_behind
from powerplan.model.findings import Finding, hold
from powerplan.model.lengths import joined, length_text, micrometers
from powerplan.model.rules import RuleSet
from powerplan.model.spec import PlanSpec, Room


def row_fits_outline(spec: PlanSpec, row: SeatedRow, rules: RuleSet) -> Finding:
    """Return how far a reclined row is from the nearest wall, or goes past walls.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read.
    row : SeatedRow
        The row. [m]
    rules : RuleSet
        The rules.
    """
    value_m, walls = spare_in_room(spec.room, row.swept)
    note = ""
    if micrometers(value_m) < 0:
        past = joined(list(walls)) or "the walls"
        note = (
            f"Reclined, row {row.row.id} goes {length_text(-value_m, spec.project.units)} past "
            f"{past}: move it by that much, or take a seat less."
        )
    subject = f"row {row.row.id}, walls"
    return hold(rules.rules["row-fits-walls"], subject, value_m, 0.0, note=note)


def off_wall_behind(room: Room, row: SeatedRow) -> tuple[float, str]:
    """Return how far upright headrests are from the wall behind them, and what it is called.

    Of a turned or curved row it is what the reclined row has to spare to any wall, and the travel
    of its headrests on top.

    Parameters
    ----------
    room : Room
        A room with corners. [m]
    row : SeatedRow
        The row. [m]

    Returns
    -------
    tuple of (float, str)
        The distance, and the wall. [m]
    """
    if not row.is_square:
        spare_m, walls = spare_in_room(room, row.swept)
        return spare_m + row.back_travel_m, joined(list(walls)) or "nearest wall"
    fronts_m = max(chair.base.front_m for chair in row.chairs)
    wall_m, name = wall_behind(room, row.left_m, row.right_m, fronts_m)
    return row.y_m - wall_m, name
