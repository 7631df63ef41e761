"""The room as the spec has it: walls, doors, obstacles, floor and risers."""

from __future__ import annotations

from powerplan.inputs import written as w
from powerplan.inputs.places import axis_along, rect_of, refuse_other_axis, start_m
from powerplan.inputs.reading import Reading, grid_m, grid_or_unknown_m
from powerplan.inputs.tables import PlanTables, Table
from powerplan.model.geometry import Rect
from powerplan.model.spec import Area, Door, Framing, Riser, Room, Wall


def room_of(table: Table[w.Room]) -> Room | None:
    """Return the room, or None where its size could not be read. [m]"""
    it = table.it
    if not table.has("width", "depth"):
        return None
    return Room(
        width_m=grid_m(it.width),
        depth_m=grid_m(it.depth),
        left_wall=it.left_wall or "left wall",
        right_wall=it.right_wall or "right wall",
        back_wall=it.back_wall or "back wall",
        screen_wall=it.screen_wall or "screen wall",
    )


def doors_of(reading: Reading, tables: PlanTables) -> tuple[Door, ...]:
    """Return every door that could be read. [m]"""
    doors = (_door(reading, table) for table in tables.doors)
    return tuple(door for door in doors if door is not None)


def _door(reading: Reading, table: Table[w.Door]) -> Door | None:
    if not table.sound("wall"):
        return None
    wall = Wall(table.it.wall)
    swings = table.it.swings
    if swings is None and table.sound("swings"):
        swings = "in"
        reading.assume(f"door {table.name}", "swings into the room")
    if refuse_other_axis(reading, table, wall, "a door"):
        return None
    width = table.it.width if table.sound("width") else None
    start = start_m(reading, table, axis_along(wall), width)
    if start is None or width is None or swings is None:
        return None
    return Door(
        id=table.name,
        wall=wall,
        start_m=grid_m(start),
        end_m=grid_m(start + width),
        swings=swings,
    )


def areas_of(reading: Reading, tables: tuple[Table[w.Floorspace], ...]) -> tuple[Area, ...]:
    """Return every obstacle, walkway or no-cut area that could be read. [m]"""
    rects = ((table.name, rect_of(reading, table)) for table in tables)
    return tuple(Area(id=name, rect=rect) for name, rect in rects if rect is not None)


def risers_of(reading: Reading, tables: PlanTables) -> tuple[Riser, ...]:
    """Return every riser that could be read. [m]"""
    risers: list[Riser] = []
    for table in tables.risers:
        framing = framing_of(reading, table)
        rect = rect_of(reading, table)
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


def framing_of(reading: Reading, table: Table[w.Floor] | Table[w.Riser]) -> Framing:
    """Return what the floor or a riser is built of; None is unknown. [m]"""
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
        first_joist_m=grid_or_unknown_m(it.first_joist),
        joist_width_m=grid_or_unknown_m(it.joist_width),
    )
