"""Covered floor, where a lying cord is out of people's way, and the keep-outs inside doors."""

from __future__ import annotations

from powerplan.engineering.seating.frames import ROOM, Outline, upright
from powerplan.engineering.seating.poses import SeatedRow
from powerplan.engineering.seating.rects import grid_rect, shared, tiles
from powerplan.engineering.seating.row_floor import row_floor
from powerplan.engineering.seating.shapes import floor_less, inside_room
from powerplan.engineering.seating.walls import Doorway, doorways_of, strip_on, wall_strips
from powerplan.model.geometry import Rect
from powerplan.model.lengths import micrometers
from powerplan.model.rules import RuleSet
from powerplan.model.spec import Area, Door, PlanSpec, Riser, Room, Wall


def covered_floor(
    spec: PlanSpec, rows: tuple[SeatedRow, ...], rules: RuleSet
) -> tuple[Outline, ...]:
    """Return the floor where a lying cord is out of people's way.

    That is each row from its reclined headrests to the front of its bases; the gap behind a row
    where the wall, or the face of a higher riser, is nearer than ``covered_gap`` to its upright
    headrests; and a strip along walls and riser faces that stops at door openings.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read.
    rows : tuple of SeatedRow
        Every row of the room. [m]
    rules : RuleSet
        The numbers.

    Returns
    -------
    tuple of outlines
        Pieces inside the room; they may overlap. [m]
    """
    if spec.room.walls:
        return _in_outline(spec, rows, rules)
    pieces: list[Rect] = []
    bent: list[Outline] = []
    for row in rows:
        for outline in row_floor(spec, row, rules.length_m("covered_gap")):
            rect = upright(outline)
            if rect is None:
                bent.extend(inside_room(outline, spec.room))
            else:
                pieces.append(rect)
    strip_m = rules.length_m("wall_strip")
    strips = list(_wall_strips(spec.room, strip_m))
    for riser in spec.risers:
        strips.extend(_face_strips(riser, spec.risers, strip_m))
    openings = tuple(_doorway(spec, door, strip_m).rect for door in spec.doors)
    for strip in strips:
        pieces.extend(tiles((strip,), openings))
    whole = _room_rect(spec.room)
    inside = (shared(piece, whole) for piece in pieces)
    return (*(piece.outline for piece in inside if piece is not None), *bent)


def _in_outline(spec: PlanSpec, rows: tuple[SeatedRow, ...], rules: RuleSet) -> tuple[Outline, ...]:
    """The same in a room with corners: walls may be at a slant, and pieces any shape. [m]"""
    room, strip_m = spec.room, rules.length_m("wall_strip")
    openings = doorways_of(room, spec.doors, strip_m)
    away = [opening.outline for opening in openings]
    pieces = [
        part
        for row in rows
        for outline in row_floor(spec, row, rules.length_m("covered_gap"))
        for part in inside_room(outline, room)
    ]
    for riser in spec.risers:
        for strip in _face_strips(riser, spec.risers, strip_m):
            for part in inside_room(strip.outline, room):
                pieces.extend(floor_less(part, away, ROOM) if away else (part,))
    return (*pieces, *wall_strips(room, openings, strip_m))


def doorways(spec: PlanSpec, rules: RuleSet) -> tuple[Area | Doorway, ...]:
    """Return the floor just inside each door opening, where no cord may ever lie.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read.
    rules : RuleSet
        The numbers; ``wall_strip`` is how deep the keep-out is.

    Returns
    -------
    tuple of Area or Doorway
        One for each door, called as the door is; in a room with corners an outline, or several
        where walls part it. [m]
    """
    depth_m = rules.length_m("wall_strip")
    if spec.room.walls:
        return doorways_of(spec.room, spec.doors, depth_m)
    return tuple(_doorway(spec, door, depth_m) for door in spec.doors)


def _doorway(spec: PlanSpec, door: Door, depth_m: float) -> Area:
    return Area(id=door.id, rect=floor_inside_door(door, spec.room, depth_m))


def floor_at_door(door: Door, room: Room, depth_m: float) -> Outline:
    """Return the floor that a door needs, square to its wall; in a room with corners uncut.

    Parameters
    ----------
    door : Door
        The door. [m]
    room : Room
        The room whose wall it is in. [m]
    depth_m : float
        How far it reaches into the room. [m]
    """
    if room.walls:
        return strip_on(room.line(door.wall), door.start_m, door.end_m, depth_m)
    return floor_inside_door(door, room, depth_m).outline


def floor_inside_door(door: Door, room: Room, depth_m: float) -> Rect:
    """Return the floor inside a door opening: as wide as the opening, ``depth_m`` into the room.

    Parameters
    ----------
    door : Door
        The door. [m]
    room : Room
        The room whose wall it is in. [m]
    depth_m : float
        How far it reaches into the room. [m]

    Returns
    -------
    Rect
        A rectangle of floor, no deeper than the room. [m]
    """
    start_m, end_m = door.start_m, door.end_m
    across_m, along_m = min(depth_m, room.width_m), min(depth_m, room.depth_m)
    if door.wall == Wall.LEFT:
        return grid_rect(0.0, across_m, start_m, end_m)
    if door.wall == Wall.RIGHT:
        return grid_rect(room.width_m - across_m, room.width_m, start_m, end_m)
    if door.wall == Wall.BACK:
        return grid_rect(start_m, end_m, 0.0, along_m)
    return grid_rect(start_m, end_m, room.depth_m - along_m, room.depth_m)


def _wall_strips(room: Room, strip_m: float) -> tuple[Rect, ...]:
    across_m, along_m = min(strip_m, room.width_m), min(strip_m, room.depth_m)
    return (
        grid_rect(0.0, across_m, 0.0, room.depth_m),
        grid_rect(room.width_m - across_m, room.width_m, 0.0, room.depth_m),
        grid_rect(0.0, room.width_m, 0.0, along_m),
        grid_rect(0.0, room.width_m, room.depth_m - along_m, room.depth_m),
    )


def _face_strips(riser: Riser, risers: tuple[Riser, ...], strip_m: float) -> list[Rect]:
    """Strips at the foot of a riser's faces; none where as high a riser stands against it."""
    rect = riser.rect
    around = (
        grid_rect(rect.left_m - strip_m, rect.left_m, rect.back_m, rect.front_m),
        grid_rect(rect.right_m, rect.right_m + strip_m, rect.back_m, rect.front_m),
        grid_rect(rect.left_m, rect.right_m, rect.back_m - strip_m, rect.back_m),
        grid_rect(rect.left_m, rect.right_m, rect.front_m, rect.front_m + strip_m),
    )
    higher = tuple(
        other.rect
        for other in risers
        if other.id != riser.id and micrometers(other.height_m) >= micrometers(riser.height_m)
    )
    return [piece for strip in around for piece in tiles((strip,), higher)]


def _room_rect(room: Room) -> Rect:
    return grid_rect(0.0, room.width_m, 0.0, room.depth_m)
