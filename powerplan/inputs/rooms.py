"""The room as the spec has it: walls, doors, obstacles, floor and risers."""

from __future__ import annotations

from fractions import Fraction

from powerplan.inputs import written as w
from powerplan.inputs.frame import Spot
from powerplan.inputs.places import rect_of
from powerplan.inputs.reading import Reading, grid_m, grid_or_unknown_m
from powerplan.inputs.tables import PlanTables, Table
from powerplan.inputs.wall_places import span_on_wall, wall_of
from powerplan.model.geometry import Rect
from powerplan.model.spec import Area, Door, Framing, Riser

_ZERO = Fraction(0)
_NOTHING = (_ZERO, _ZERO)


def doors_of(reading: Reading, tables: PlanTables) -> tuple[Door, ...]:
    """Return every door that could be read. [m]"""
    doors = (_door(reading, table) for table in tables.doors)
    return tuple(door for door in doors if door is not None)


def _door(reading: Reading, table: Table[w.Door]) -> Door | None:
    swings = table.it.swings
    if swings is None and table.sound("swings"):
        swings = "in"
        reading.assume(f"door {table.name}", "swings into the room")
    wall = wall_of(reading, table) if table.sound("wall") else None
    if wall is None:
        return None
    width = table.it.width if table.sound("width") else None
    span = span_on_wall(reading, table, wall, width)
    if span is None or swings is None:
        return None
    return Door(id=table.name, wall=wall.id, start_m=span[0], end_m=span[1], swings=swings)


def areas_of(reading: Reading, tables: tuple[Table[w.Floorspace], ...]) -> tuple[Area, ...]:
    """Return every obstacle, walkway or no-cut area that could be read. [m]"""
    rects = ((table.name, rect_of(reading, table)) for table in tables)
    return tuple(Area(id=name, rect=rect) for name, rect in rects if rect is not None)


def risers_of(reading: Reading, tables: PlanTables) -> tuple[Riser, ...]:
    """Return every riser that could be read. [m]"""
    risers: list[Riser] = []
    for table in tables.risers:
        rect = rect_of(reading, table)
        framing = framing_of(reading, table, _cut_off(reading, table, rect))
        if rect is not None and table.sound("height"):
            _refuse_stacked(reading, table, rect, risers)
            height_m = grid_m(table.it.height)
            risers.append(Riser(id=table.name, rect=rect, height_m=height_m, framing=framing))
    return tuple(risers)


def _refuse_stacked(
    reading: Reading, table: Table[w.Riser], rect: Rect, before: list[Riser]
) -> None:
    for riser in before:
        if riser.rect.overlaps(rect):
            words = f"this lies over riser '{riser.id}'; write risers that only touch"
            reading.faults.add(table.path, words)


def floor_of(reading: Reading, tables: PlanTables) -> Framing:
    """Return what the floor is built of; its joists are counted from the finished walls. [m]"""
    shift = reading.frame.shift if reading.frame is not None else _NOTHING
    return framing_of(reading, tables.floor, shift)


def _cut_off(reading: Reading, table: Table[w.Riser], rect: Rect | None) -> Spot:
    """How much of a riser's left and back lies in the finish of the walls. [m]"""
    frame, it = reading.frame, table.it
    if rect is None or frame is None:
        return _NOTHING
    left, back = frame.inside((it.from_left or _ZERO, it.from_back or _ZERO))
    return (
        max(-left, _ZERO) if it.from_left is not None else _ZERO,
        max(-back, _ZERO) if it.from_back is not None else _ZERO,
    )


def framing_of(reading: Reading, table: Table[w.Floor] | Table[w.Riser], cut_off: Spot) -> Framing:
    """Return what the floor or a riser is built of; None is unknown.

    ``cut_off`` is how much of its left and of its back lies in the finish of the walls: joists are
    then counted from the finish. [m]
    """
    it = table.it
    if it.build == "slab":
        for key in ("joists_run", "spacing", "first_joist", "joist_width"):
            if getattr(it, key) is not None:
                words = 'a slab has no joists; leave this out, or write build = "joists"'
                reading.faults.add(table.at(key), words)
    if it.spacing is not None and it.joist_width is not None and it.joist_width >= it.spacing:
        words = f"joists {reading.text(it.joist_width)} wide leave nothing between them"
        words += f" at a spacing of {reading.text(it.spacing)}"
        reading.faults.add(table.at("joist_width"), words)
    return Framing(
        build=it.build,
        joists_run=it.joists_run,
        spacing_m=grid_or_unknown_m(it.spacing),
        first_joist_m=grid_or_unknown_m(_first_joist(it, cut_off)),
        joist_width_m=grid_or_unknown_m(it.joist_width),
    )


def _first_joist(it: w.Floor | w.Riser, cut_off: Spot) -> Fraction | None:
    """The middle of the first joist from the finished edge; unknown where it cannot be said. [m]"""
    first = it.first_joist
    if first is None or cut_off == _NOTHING:
        return first
    if it.joists_run is None:
        return None
    first -= cut_off[0] if it.joists_run == "back to screen" else cut_off[1]
    while first < 0 and it.spacing:
        first += it.spacing
    return None if first < 0 else first
