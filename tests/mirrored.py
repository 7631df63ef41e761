"""A room seen in a mirror: left and right changed over, everything else as it was."""

import math
from dataclasses import replace

from powerplan.model.geometry import Point, Rect
from powerplan.model.spec import (
    Area,
    ChairKind,
    Door,
    Framing,
    PlanSpec,
    Room,
    Row,
    TapeReading,
    Wall,
    WallLine,
)

_SIDES: dict[str, str] = {Wall.LEFT: Wall.RIGHT, Wall.RIGHT: Wall.LEFT}


def mirrored_rect(one: Rect, width_m: float) -> Rect:
    """A rectangle in a mirror."""
    return replace(
        one, left_m=round(width_m - one.right_m, 6), right_m=round(width_m - one.left_m, 6)
    )


def mirrored(spec: PlanSpec) -> PlanSpec:
    """The plan in a mirror; joists that run back to screen are counted from the other edge."""
    width_m = spec.room.width_m

    def area(one: Area) -> Area:
        return replace(one, rect=mirrored_rect(one.rect, width_m))

    return replace(
        spec,
        room=_room(spec.room),
        doors=tuple(_door(door, spec.room) for door in spec.doors),
        obstacles=tuple(map(area, spec.obstacles)),
        walkways=tuple(map(area, spec.walkways)),
        floor=_framing(spec.floor, width_m),
        no_cut=tuple(map(area, spec.no_cut)),
        risers=tuple(
            replace(
                riser,
                rect=mirrored_rect(riser.rect, width_m),
                framing=_framing(riser.framing, riser.rect.width_m),
            )
            for riser in spec.risers
        ),
        chairs=tuple(map(_chair, spec.chairs)),
        rows=tuple(_row(row, width_m) for row in spec.rows),
        outlets=tuple(
            replace(
                outlet,
                wall=_SIDES.get(outlet.wall, outlet.wall) if outlet.wall else None,
                x_m=round(width_m - outlet.x_m, 6),
            )
            for outlet in spec.outlets
        ),
        readings=tuple(_reading(reading, width_m) for reading in spec.readings),
    )


def _reading(reading: TapeReading, width_m: float) -> TapeReading:
    def seen(point: Point) -> Point:
        return (round(width_m - point[0], 6), point[1])

    return replace(reading, start=seen(reading.start), end=seen(reading.end))


def _room(room: Room) -> Room:
    """Walls of an outline go counter-clockwise in the mirror too, so each runs the other way."""

    def seen(corner: Point) -> Point:
        return (round(room.width_m - corner[0], 6), corner[1])

    walls = tuple(
        WallLine(
            id=_SIDES.get(wall.id, wall.id),
            label=wall.label,
            start=seen(wall.end),
            end=seen(wall.start),
        )
        for wall in reversed(room.walls)
    )
    return replace(room, left_wall=room.right_wall, right_wall=room.left_wall, walls=walls)


def _door(door: Door, room: Room) -> Door:
    width_m = room.width_m
    if room.walls:
        line = room.line(door.wall)
        length_m = math.dist(line.start, line.end)
        return replace(
            door,
            wall=_SIDES.get(door.wall, door.wall),
            start_m=round(length_m - door.end_m, 6),
            end_m=round(length_m - door.start_m, 6),
        )
    if door.wall in _SIDES:
        return replace(door, wall=_SIDES[door.wall])
    return replace(
        door, start_m=round(width_m - door.end_m, 6), end_m=round(width_m - door.start_m, 6)
    )


def _framing(framing: Framing, width_m: float) -> Framing:
    """Where a joist lies; of joists whose spacing is not known, nothing is, so nothing moves."""
    if framing.joists_run != "back to screen" or framing.first_joist_m is None:
        return framing
    if framing.spacing_m is None:
        return framing
    first_m = (width_m - framing.first_joist_m) % framing.spacing_m
    return replace(framing, first_joist_m=round(first_m, 6))


def _chair(kind: ChairKind) -> ChairKind:
    parts = tuple(
        replace(part, outlines=tuple(tuple((-u, v) for u, v in one[::-1]) for one in part.outlines))
        for part in kind.parts
    )
    return replace(kind, lead_from=(-kind.lead_from[0], kind.lead_from[1]), parts=parts)


def _row(row: Row, width_m: float) -> Row:

    def across(pairs: tuple[tuple[int, int], ...]) -> tuple[tuple[int, int], ...]:
        return tuple(sorted((row.seats + 1 - right, row.seats + 1 - left) for left, right in pairs))

    pieces = row.pieces[::-1]
    first = next((piece.kind or "" for piece in pieces if piece.what == "seat"), row.chair)
    return replace(
        row,
        chair=first,
        center_x_m=round(width_m - row.center_x_m, 6),
        no_arm_between=across(row.no_arm_between),
        shared_supplies=across(row.shared_supplies),
        pieces=pieces,
        angle_rad=-row.angle_rad if row.angle_rad else 0.0,
    )
