"""What stands on the floor and lets no cord pass: obstacles, and tables in rows."""

from __future__ import annotations

from dataclasses import dataclass

from powerplan.engineering.seating.frames import Outline
from powerplan.engineering.seating.poses import SeatedRow
from powerplan.engineering.seating.zones import least_gap_for_cords_m, wide_enough
from powerplan.model.rules import RuleSet
from powerplan.model.spec import PlanSpec


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """Something that stands on the floor, and what it is called. [m]"""

    name: str
    outline: Outline


def standing_things(
    spec: PlanSpec, rows: tuple[SeatedRow, ...], rules: RuleSet
) -> tuple[Standing, ...]:
    """Return obstacles, and tables that have no measured room for a cord under them.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read; a cord is ``spec.cords.diameter_m`` thick. [m]
    rows : tuple of SeatedRow
        Every row of the room. [m]
    rules : RuleSet
        The numbers.

    Returns
    -------
    tuple of Standing
        Outlines in the room. [m]
    """
    least_gap_m = least_gap_for_cords_m(spec, rules)
    found = [Standing(name=area.id, outline=area.rect.outline) for area in spec.obstacles]
    found += [
        Standing(name=f"{table.kind.id} in row {table.row}", outline=table.outline)
        for row in rows
        for table in row.tables
        if not wide_enough(table.kind.under_m, least_gap_m)
    ]
    return tuple(found)
