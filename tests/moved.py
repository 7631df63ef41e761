"""A whole record turned on the paper, or seen in a mirror: the same room, drawn otherwise."""

import math
from collections.abc import Callable
from dataclasses import replace

from mirrored import mirrored

from powerplan.model.geometry import Point, Rect
from powerplan.model.plan import Box, Cord, Drift, Plan, Zone
from powerplan.model.spec import (
    Area,
    Door,
    Framing,
    Room,
    Row,
    Size,
    WallLine,
)

Move = Callable[[Point], Point]
QUARTER = math.pi / 2


def outlined(room: Room) -> tuple[WallLine, ...]:
    """The walls of a room counter-clockwise, also of a rectangle."""
    if room.walls:
        return room.walls
    names = ("back", "right", "screen", "left")
    corners = room.outline
    ends = (*corners[1:], corners[0])
    return tuple(
        WallLine(id=name, label=name, start=start, end=end)
        for name, start, end in zip(names, corners, ends, strict=True)
    )


def _door(door: Door, room: Room) -> Door:
    """A door of a rectangle, counted along the outline's walls."""
    if room.walls or door.wall in ("back", "right"):
        return door
    long_m = room.width_m if door.wall == "screen" else room.depth_m
    return replace(door, start_m=long_m - door.end_m, end_m=long_m - door.start_m)


def turn(record: Plan, angle_rad: float) -> Plan:
    """A record turned to the left by an angle; areas of floor stand only quarter turns, and so do
    coils, which lie square to the room: at another angle nothing is told of them."""
    cos, sin = math.cos(angle_rad), math.sin(angle_rad)
    spec = record.spec
    corners = [(x * cos - y * sin, x * sin + y * cos) for x, y in spec.room.outline]
    off_x, off_y = -min(x for x, _ in corners), -min(y for _, y in corners)

    def move(point: Point) -> Point:
        x, y = point
        return round(x * cos - y * sin + off_x, 6), round(x * sin + y * cos + off_y, 6)

    moved = _moved_record(record, move, angle_rad)
    quarter = math.isclose(angle_rad, QUARTER)
    if not quarter:
        bare = (replace(one, park_m=None, coil_m=None, tail_m=()) for one in moved.cords)
        moved = replace(moved, cords=tuple(bare))
    room = replace(
        spec.room,
        width_m=round(max(x for x, _ in corners) + off_x, 6),
        depth_m=round(max(y for _, y in corners) + off_y, 6),
        walls=tuple(
            replace(wall, start=move(wall.start), end=move(wall.end))
            for wall in outlined(spec.room)
        ),
    )

    def area(one: Area) -> Area:
        assert quarter
        return replace(one, rect=turned_rect(one.rect, move))

    turned = replace(
        moved.spec,
        room=room,
        doors=tuple(_door(door, spec.room) for door in spec.doors),
        obstacles=tuple(map(area, spec.obstacles)),
        walkways=tuple(map(area, spec.walkways)),
        no_cut=tuple(map(area, spec.no_cut)),
        floor=turned_framing(spec.floor, spec.room.depth_m) if quarter else spec.floor,
        risers=tuple(
            replace(
                riser,
                rect=turned_rect(riser.rect, move),
                framing=turned_framing(riser.framing, riser.rect.depth_m),
            )
            for riser in spec.risers
        ),
        new_work=replace(
            spec.new_work,
            cut_out=_turned_size(spec.new_work.cut_out),
            lid=_turned_size(spec.new_work.lid),
        ),
    )
    return replace(moved, spec=turned)


def turned_rect(rect: Rect, move: Move) -> Rect:
    """An upright rectangle after a quarter turn."""
    corners = [move(corner) for corner in rect.outline]
    return Rect(
        left_m=min(x for x, _ in corners),
        right_m=max(x for x, _ in corners),
        back_m=min(y for _, y in corners),
        front_m=max(y for _, y in corners),
    )


def turned_framing(framing: Framing, depth_m: float) -> Framing:
    """Joists after a quarter turn: what was counted from the back is counted from the left."""
    runs = {"back to screen": "side to side", "side to side": "back to screen", None: None}
    first_m = framing.first_joist_m
    if framing.joists_run == "side to side" and first_m is not None and framing.spacing_m:
        first_m = (depth_m - first_m) % framing.spacing_m
    return replace(framing, joists_run=runs[framing.joists_run], first_joist_m=first_m)


def _turned_size(size: Size | None) -> Size | None:
    return None if size is None else Size(width_m=size.depth_m, depth_m=size.width_m)


def _moved_record(record: Plan, move: Move, angle_rad: float) -> Plan:
    def box(one: Box) -> Box:
        x, y = move((one.x_m, one.y_m))
        old = one.drift
        return replace(
            one,
            x_m=x,
            y_m=y,
            ideal_m=move(one.ideal_m),
            may_sit_m=tuple(tuple(map(move, outline)) for outline in one.may_sit_m),
            second_mark_m=None if one.second_mark_m is None else move(one.second_mark_m),
            drift=Drift(
                left_m=old.screen_m, right_m=old.back_m, back_m=old.left_m, screen_m=old.right_m
            ),
        )

    def placed_row(row: Row) -> Row:
        x, y = move((row.center_x_m, row.headrest_to_wall_m))
        return replace(
            row, center_x_m=x, headrest_to_wall_m=y, angle_rad=round(row.angle_rad + angle_rad, 9)
        )

    spec = replace(
        record.spec,
        rows=tuple(map(placed_row, record.spec.rows)),
        outlets=tuple(
            replace(
                outlet, x_m=move((outlet.x_m, outlet.y_m))[0], y_m=move((outlet.x_m, outlet.y_m))[1]
            )
            for outlet in record.spec.outlets
        ),
        readings=tuple(
            replace(reading, start=move(reading.start), end=move(reading.end))
            for reading in record.spec.readings
        ),
    )
    return replace(
        record,
        spec=spec,
        chairs=tuple(
            replace(
                chair,
                x_m=move((chair.x_m, chair.y_m))[0],
                y_m=move((chair.x_m, chair.y_m))[1],
                angle_rad=round(chair.angle_rad + angle_rad, 9),
            )
            for chair in record.chairs
        ),
        boxes=tuple(map(box, record.boxes)),
        cords=tuple(
            replace(
                cord,
                path_m=tuple(map(move, cord.path_m)),
                park_m=None if cord.park_m is None else move(cord.park_m),
                coil_m=None if cord.coil_m is None else cord.coil_m[::-1],
                tail_m=tuple(map(move, cord.tail_m)),
            )
            for cord in record.cords
        ),
        zones=tuple(
            replace(zone, outline_m=tuple(map(move, zone.outline_m))) for zone in record.zones
        ),
    )


def mirror(record: Plan) -> Plan:
    """A record in a mirror: seats are counted from the other end of their rows."""
    spec, width_m = record.spec, record.spec.room.width_m
    names = {
        f"{row.id}{n}": f"{row.id}{row.seats + 1 - n}"
        for row in spec.rows
        for n in range(1, row.seats + 1)
    }

    def move(point: Point) -> Point:
        return round(width_m - point[0], 6), point[1]

    def name(one: str) -> str:
        for word in ("box ", "wall "):
            if one.startswith(word):
                return word + name(one.removeprefix(word))
        return "+".join(names.get(part, part) for part in one.split("+"))

    def cord(one: Cord) -> Cord:
        from_, to = name(one.from_), name(one.to)
        park = None if one.park_m is None else move(one.park_m)
        path = tuple(map(move, one.path_m))
        ways = {"path_m": path, "park_m": park, "tail_m": tuple(map(move, one.tail_m))}
        return replace(one, id=f"{from_}-{to}", from_=from_, to=to, **ways)

    def box(one: Box) -> Box:
        drift = replace(one.drift, left_m=one.drift.right_m, right_m=one.drift.left_m)
        return replace(
            one,
            id=name(one.id),
            under=name(one.under),
            x_m=move((one.x_m, 0.0))[0],
            ideal_m=move(one.ideal_m),
            may_sit_m=tuple(tuple(map(move, outline))[::-1] for outline in one.may_sit_m),
            second_mark_m=None if one.second_mark_m is None else move(one.second_mark_m),
            drift=drift,
            wired_from=name(one.wired_from),
        )

    def zone(one: Zone) -> Zone:
        chair = name(one.chair)
        if one.kind == "arm strip":  # it is the left neighbor's
            row = next(row for row in spec.rows if one.chair.removeprefix(row.id).isdigit())
            chair = f"{row.id}{int(chair.removeprefix(row.id)) - 1}"
        return replace(one, chair=chair, outline_m=tuple(map(move, one.outline_m))[::-1])

    return replace(
        record,
        spec=mirrored(spec),
        chairs=tuple(
            replace(
                chair,
                id=name(chair.id),
                seat=int(name(chair.id).removeprefix(chair.row)),
                x_m=round(width_m - chair.x_m, 6),
                angle_rad=-chair.angle_rad,
                fed_by=None if chair.fed_by is None else name(chair.fed_by),
            )
            for chair in record.chairs
        ),
        boxes=tuple(map(box, record.boxes)),
        cords=tuple(map(cord, record.cords)),
        zones=tuple(map(zone, record.zones)),
    )
