"""Does the layout work: every seating rule held against every row and door."""

from __future__ import annotations

from powerplan.engineering.seating import ahead, center, levels, turned
from powerplan.engineering.seating.covered import floor_at_door
from powerplan.engineering.seating.frames import apart_m, least_apart_m
from powerplan.engineering.seating.poses import SeatedChair, SeatedRow
from powerplan.engineering.seating.readings import readings_agree
from powerplan.engineering.seating.wall_fit import off_wall_behind, row_fits_outline
from powerplan.model.findings import Finding, hold
from powerplan.model.lengths import length_text, micrometers
from powerplan.model.rules import RuleSet
from powerplan.model.spec import Door, PlanSpec


def layout_findings(
    spec: PlanSpec, rows: tuple[SeatedRow, ...], rules: RuleSet
) -> tuple[Finding, ...]:
    """Return every seating rule held against every row, met ones too.

    Rules come in one order: tape readings, walls, obstacles, rows against rows, headrests, risers,
    doors, the passage in front, the middle of the room; within a rule, rows come in the plan's
    order.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read.
    rows : tuple of SeatedRow
        Every row of the room. [m]
    rules : RuleSet
        The rules and numbers.

    Returns
    -------
    tuple of Finding
        Values and limits in meters. [m]
    """
    found: list[Finding] = list(readings_agree(spec, rules))
    for row in rows:
        found.extend(_row_fits_walls(spec, row, rules))
    for row in rows:
        found.extend(_row_clears(spec, row, rules))
    found.extend(ahead.rows_apart(spec, rows, rules))
    found.extend(_headrest_clears_wall(spec, row, rules) for row in rows)
    found.extend(ahead.footrests_clear_rows_ahead(spec, rows, rules))
    found.extend(turned.seats_clear(spec, rows, rules))
    found.extend(levels.footrests_on_risers(spec, rows, rules))
    found.extend(levels.rows_on_one_level(spec, rows, rules))
    found.extend(_doors_free(spec, rows, rules))
    found.extend(ahead.passages_in_front(spec, rows, rules))
    found.extend(center.row_on_center(spec, row, rules) for row in rows)
    return tuple(found)


def _row_fits_walls(spec: PlanSpec, row: SeatedRow, rules: RuleSet) -> list[Finding]:
    if spec.room.walls:
        return [row_fits_outline(spec, row, rules)]
    room, reclined = spec.room, row.reclined
    units = spec.project.units
    aside = "move it to the {}"
    if micrometers(reclined.width_m) > micrometers(room.width_m):
        aside = (
            f"it is {length_text(reclined.width_m, units)} wide in a room of "
            f"{length_text(room.width_m, units)}; take fewer seats"
        )
    walls = (
        (room.left_wall, reclined.left_m, aside.format("right")),
        (room.right_wall, room.width_m - reclined.right_m, aside.format("left")),
        (room.screen_wall, room.depth_m - reclined.front_m, "move it back or take less reach"),
    )
    found = []
    for wall, value_m, mend in walls:
        note = ""
        if not _fits(value_m):
            short = length_text(-value_m, spec.project.units)
            note = f"Row {row.row.id} goes {short} past the {wall}: {mend}."
        subject = f"row {row.row.id}, {wall}"
        found.append(hold(rules.rules["row-fits-walls"], subject, value_m, 0.0, note=note))
    return found


def _row_clears(spec: PlanSpec, row: SeatedRow, rules: RuleSet) -> list[Finding]:
    """A row against what stands on the floor, and against where people walk."""
    areas = [("row-clears-obstacle", area, f"{area.id} stands on") for area in spec.obstacles]
    areas += [
        ("row-clears-walkway", area, f"people walk on in walkway {area.id}")
        for area in spec.walkways
    ]
    found = []
    for rule, area, what in areas:
        value_m = least_apart_m(row.swept, (area.rect.outline,))
        note = ""
        if not _fits(value_m):
            short = length_text(-value_m, spec.project.units)
            note = (
                f"Reclined, row {row.row.id} needs {short} of the floor that {what}: move the row "
                "by that much or take a seat less."
            )
        found.append(
            hold(rules.rules[rule], f"row {row.row.id} and {area.id}", value_m, 0.0, note=note)
        )
    return found


def _headrest_clears_wall(spec: PlanSpec, row: SeatedRow, rules: RuleSet) -> Finding:
    travel_m = row.back_travel_m
    off_m = row.y_m if row.is_square else row.reclined.back_m + travel_m
    wall = spec.room.back_wall
    if spec.room.walls:
        off_m, wall = off_wall_behind(spec.room, row)
    note = ""
    if not _fits(off_m - travel_m):
        units = spec.project.units
        note = (
            f"The headrests move back {length_text(travel_m, units)} but stand "
            f"{length_text(off_m, units)} off the {wall}: move the row forward by "
            f"{length_text(travel_m - off_m, units)}."
        )
        if off_m < 0.0:
            note = (
                f"Row {row.row.id} goes {length_text(travel_m - off_m, units)} past the "
                f"{wall}: move it forward by that much."
            )
    return hold(
        rules.rules["headrest-clears-wall"], f"row {row.row.id}", off_m, travel_m, note=note
    )


def _doors_free(spec: PlanSpec, rows: tuple[SeatedRow, ...], rules: RuleSet) -> tuple[Finding, ...]:
    chairs = tuple(chair for row in rows for chair in row.chairs)
    return tuple(_door_free(spec, chairs, door, rules) for door in spec.doors if chairs)


def _door_free(
    spec: PlanSpec, chairs: tuple[SeatedChair, ...], door: Door, rules: RuleSet
) -> Finding:
    """Hold the floor that a door needs against the nearest reclined chair.

    A leaf that swings in may hang on either side; both quarter circles lie in the square of the
    opening's width, so the square is kept free. Other doors need the passage's depth to walk in.
    """
    swings = door.swings == "in"
    depth_m = door.end_m - door.start_m if swings else rules.length_m("passage")
    needs = floor_at_door(door, spec.room, depth_m)

    def off_m(chair: SeatedChair) -> float:
        return apart_m(needs, chair.outline(chair.reclined))

    nearest = min(chairs, key=lambda chair: micrometers(off_m(chair)))
    value_m = off_m(nearest)
    note = ""
    if not _fits(value_m):
        short = length_text(-value_m, spec.project.units)
        where = "in the swing of" if swings else "in the way through"
        mend = "let the door swing out" if swings else "take a seat less"
        note = (
            f"Reclined, chair {nearest.id} is {short} {where} door {door.id}: move row "
            f"{nearest.row} by that much, or {mend}."
        )
    return hold(rules.rules["door-free"], f"door {door.id}", value_m, 0.0, note=note)


def _fits(value_m: float) -> bool:
    return micrometers(value_m) >= 0
