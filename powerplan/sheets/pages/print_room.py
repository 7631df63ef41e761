"""The room on page 2: its size, how it is proved with a tape, and where rows would stand."""

from __future__ import annotations

import math

from powerplan.model.faces import STUDS
from powerplan.model.lengths import INCH_M, joined, length_text
from powerplan.model.plan import Plan
from powerplan.model.spec import Area, Riser, Wall
from powerplan.sheets.corners import corners_told
from powerplan.sheets.drawings.box_measures import taped_floor
from powerplan.sheets.levels import crosses_a_step
from powerplan.sheets.off_walls import (
    build_ups,
    from_back,
    from_left,
    place_words,
    printed_corners,
    printed_room,
)
from powerplan.sheets.pages.print_rows import set_rows
from powerplan.sheets.parts import Items, Part, Say, Table
from powerplan.sheets.words import FINE, fine_text, from_wall

_SQUARE_WITHIN_M = float(INCH_M / 2)


def proof_within(plan: Plan) -> str:
    """Return by how much a measure that proves the room may differ, in words.

    Parameters
    ----------
    plan : Plan
        For the units.
    """
    return length_text(_SQUARE_WITHIN_M, plan.spec.project.units)


def first_proof(plan: Plan) -> str:
    """Return what is measured before anything else, in a few lines.

    Parameters
    ----------
    plan : Plan
        The plan.
    """
    if not plan.spec.room.walls:
        return f"First prove the room: measure {_diagonals(plan)}"
    return (
        "First prove the room: measure every wall, and from corner to corner as listed under "
        f"The room; if one differs by more than {proof_within(plan)}, stop and call."
    )


def room_parts(plan: Plan) -> list[Part]:
    """Return the size of the room and of its risers, and of an outline its walls and corners.

    Parameters
    ----------
    plan : Plan
        The plan.
    """
    room, units = plan.spec.room, plan.spec.project.units
    printed, studs = printed_room(plan), room.print_to == STUDS
    between = "between studs" if studs else "between finished walls"
    if room.walls:
        between = "at its widest and deepest" + (", between studs" if studs else "")
    size = (
        f"The room is {fine_text(printed.width_m, units)} wide (left to right) and "
        f"{fine_text(printed.depth_m, units)} deep (back to screen), {between}."
    )
    if studs:
        finished = f"{fine_text(room.width_m, units)} by {fine_text(room.depth_m, units)}"
        size += f" Between finished walls it will be {finished}."
    size = " ".join((size, *build_ups(plan)))
    risers = tuple(_riser_size(riser, units) for riser in plan.spec.risers)
    walkways = tuple(_walkway(area, plan) for area in plan.spec.walkways)
    limit = proof_within(plan)
    every = f"First measure every wall; if one differs by more than {limit}, stop and call."
    proof = [f"{every} {corners_told(plan, limit)}"] if room.walls else []
    if not (room.walls or plan.boxes):  # else it stands before the drawing
        proof = [f"Measure {_diagonals(plan)}"]
    return [Items(lead="The room:", items=(size, *risers, *walkways, *proof)), *_walls(plan)]


def _walls(plan: Plan) -> list[Part]:
    """The walls of a room that is no plain rectangle."""
    room, units = plan.spec.room, plan.spec.project.units
    starts = printed_corners(room) if room.walls else ()
    rows = tuple(
        (
            wall.label,
            fine_text(math.dist(start, end), units),
            from_left(room, start[0], units, step=FINE),
            from_back(room, start[1], units, step=FINE),
        )
        for wall, start, end in zip(room.walls, starts, (*starts[1:], *starts[:1]), strict=True)
    )
    caption = "The walls, each from where the one before ends"
    left, back = from_wall(room, Wall.LEFT), from_wall(room, Wall.BACK)
    head = ("wall", "long", f"starts, {left}", f"starts, {back}")
    return [Table(caption=caption, head=head, rows=rows)] if rows else []


def _riser_size(riser: Riser, units: str) -> str:
    rect = riser.rect
    return (
        f"Riser {riser.id} is {fine_text(rect.width_m, units)} wide, "
        f"{fine_text(rect.depth_m, units)} deep and {fine_text(riser.height_m, units)} high."
    )


def _walkway(area: Area, plan: Plan) -> str:
    """How large a walkway is and where; the corner is told to the face that is printed."""
    units, rect = plan.spec.project.units, area.rect
    size = f"{fine_text(rect.width_m, units)} wide and {fine_text(rect.depth_m, units)} deep"
    corner = place_words((rect.left_m, rect.back_m), plan, step=FINE)
    return f"Walkway {area.id}, floor without cords: {size}; its back left corner is {corner}."


def _diagonals(plan: Plan) -> str:
    """How long the diagonals are, and when to stop."""
    units, printed, part = plan.spec.project.units, printed_room(plan), taped_floor(plan)
    limit = proof_within(plan)
    stop = f"If the two differ by more than {limit}, stop and call."
    whole = fine_text(math.hypot(printed.width_m, printed.depth_m), units)
    to = ", stud to stud" if plan.spec.room.print_to == STUDS else ""
    if part.back_m > 0:
        ahead = fine_text(math.hypot(part.width_m, part.depth_m), units)
        return (
            f"both diagonals of the floor ahead of the riser{to}; if it is square, each is "
            f"{ahead}. Those of the whole room are {whole}, measured at one height, above the "
            f"riser. {stop}"
        )
    level = ", at one height, above the riser" if crosses_a_step(plan) else ""
    return f"both its diagonals{to}{level}; if it is square, each is {whole}. {stop}"


def rows_as_drawn(plan: Plan) -> list[Part]:
    """Return where the rows would stand.

    Parameters
    ----------
    plan : Plan
        The plan.
    """
    units, room = plan.spec.project.units, plan.spec.room
    rows = tuple(
        (
            f"row {row.id}",
            from_left(room, row.left_m, units),
            from_left(room, row.right_m, units),
            from_back(room, row.line_m, units),
            from_back(room, row.front_m, units),
        )
        for row in set_rows(plan)
        if row.square
    )
    left, back = from_wall(room, Wall.LEFT), from_wall(room, Wall.BACK)
    head = ("row", f"left end, {left}", f"right end, {left}", f"rear of bases, {back}", "front")
    others = [f"Row {row.id}" for row in set_rows(plan) if not row.square]
    return [
        *([Table(caption="Where the rows would stand", head=head, rows=rows)] if rows else []),
        *([Say(text=f"Turned or on an arc, see the drawing: {joined(others)}.")] if others else []),
    ]
