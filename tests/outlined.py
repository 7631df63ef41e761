"""Rooms with corners, for laws: rectangles written as outlines, and rooms with a corner cut off."""

import math
from dataclasses import replace

from hypothesis import strategies as st
from support import inch

from powerplan.model.geometry import Point
from powerplan.model.spec import Door, PlanSpec, Room, Wall, WallLine

Corners = tuple[tuple[float, float], ...]


def room_of(corners: Corners, names: tuple[str, ...] = ()) -> Room:
    """A room from corners in inches, counter-clockwise; walls are called by number or by name."""
    spots = tuple((inch(x), inch(y)) for x, y in corners)
    told = [*names, *(f"wall {n}" for n in range(len(names) + 1, len(corners) + 1))]
    walls = tuple(
        WallLine(id=name, label=name, start=start, end=end)
        for name, start, end in zip(told, spots, (*spots[1:], spots[0]), strict=True)
    )
    return Room(
        width_m=max(x for x, _ in spots),
        depth_m=max(y for _, y in spots),
        left_wall="left wall",
        right_wall="right wall",
        back_wall="back wall",
        screen_wall="screen wall",
        walls=walls,
    )


def as_outline(spec: PlanSpec) -> PlanSpec:
    """The same rectangular room, its walls written as an outline."""
    room = spec.room
    wide, deep = room.width_m, room.depth_m
    corners: tuple[Point, ...] = ((0.0, 0.0), (wide, 0.0), (wide, deep), (0.0, deep))
    names = ("back", "right", "screen", "left")
    labels = (room.back_wall, room.right_wall, room.screen_wall, room.left_wall)
    walls = tuple(
        WallLine(id=name, label=label, start=start, end=end)
        for name, label, start, end in zip(
            names, labels, corners, (*corners[1:], corners[0]), strict=True
        )
    )
    doors = tuple(_turned(door, room) for door in spec.doors)
    return replace(spec, room=replace(room, walls=walls), doors=doors)


def _turned(door: Door, room: Room) -> Door:
    """Counter-clockwise, the left wall and the screen wall run the other way."""
    if door.wall not in (Wall.LEFT, Wall.SCREEN):
        return door
    line = room.line(door.wall)
    length_m = math.dist(line.start, line.end)
    return replace(
        door,
        start_m=round(length_m - door.end_m, 6),
        end_m=round(length_m - door.start_m, 6),
    )


@st.composite
def outlines(draw: st.DrawFn) -> Corners:
    """Rooms of 240 in by 186 in that lack a corner: square, at a slant, or a bay between."""
    across, ahead = draw(st.integers(12, 120)), draw(st.integers(12, 80))
    kind = draw(st.sampled_from(["inner corner", "slant", "bay", "slanted side"]))
    if kind == "inner corner":
        cut: Corners = ((across, 186), (across, 186 - ahead), (0, 186 - ahead))
    elif kind == "slant":
        cut = ((across, 186), (0, 186 - ahead))
    elif kind == "bay":
        cut = ((across + 30, 186), (across, 186 - ahead / 2), (0, 186 - ahead))
    else:
        cut = ((across / 4, 186),)
    return ((0, 0), (240, 0), (240, 186), *cut)
