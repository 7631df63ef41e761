"""What must hold of walls, pieces of rows and curves before a room can be drawn from them."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from powerplan.judging.convex import Segment, edges, point_to_segment_m, signed_area_m2
from powerplan.judging.standing import ARM, GAP, SEAT, TABLE, blocks_of, pieces_of, touch_m
from powerplan.model.geometry import Point
from powerplan.model.lengths import MICROMETER_M
from powerplan.model.spec import PlanSpec, Room, Row

_HAIR_M = 2 * MICROMETER_M
_LEAST_WALL_M = 1e-4


def shape_faults(spec: PlanSpec) -> Iterator[str]:
    """Say what is wrong with a room's outline, with a row's pieces, and with a curve.

    The rest of the spec hangs together already: kinds and rows have their sizes and names.
    """
    yield from _outline(spec.room)
    yield from _doors(spec)
    for row in spec.rows:
        listed = tuple(_pieces(spec, row))
        yield from listed
        if not listed:
            yield from _curve(spec, row)
    for kind in spec.chairs:
        if any(len(outline) < 3 for part in kind.parts for outline in part.outlines):
            yield f"spec: chair {kind.id!r} has a moving part without floor"
    for table in spec.tables:
        if table.width_m < MICROMETER_M or table.front_m - table.rear_m < MICROMETER_M:
            yield f"spec: table {table.id!r} has no floor"


def _outline(room: Room) -> Iterator[str]:
    walls = room.walls
    if not walls:
        return
    if len(walls) < 3 or any(math.dist(wall.start, wall.end) < _LEAST_WALL_M for wall in walls):
        yield "spec: the room's outline has fewer than three walls, or one without length"
        return
    if any(math.dist(a.end, b.start) > _HAIR_M for a, b in pairwise([*walls, walls[0]])):
        yield "spec: the room's outline is not closed: a wall does not start where the last ends"
        return
    corners = room.outline
    if signed_area_m2(corners) <= 0.0:
        yield "spec: the room's outline goes clockwise: it is drawn in a mirror"
    if _meets_itself(corners):
        yield "spec: the room's outline meets itself"
    ends = [
        (min(corner[n] for corner in corners), max(corner[n] for corner in corners)) for n in (0, 1)
    ]
    if any(
        abs(low) > _HAIR_M or abs(high - size_m) > _HAIR_M
        for (low, high), size_m in zip(ends, (room.width_m, room.depth_m), strict=True)
    ):
        yield "spec: the room's outline does not fill the rectangle around it"


def _meets_itself(corners: tuple[Point, ...]) -> bool:
    walls = edges(corners)
    for n, one in enumerate(walls):
        for m in range(n + 1, len(walls)):
            other = walls[m]
            if m == n + 1 or (n == 0 and m == len(walls) - 1):
                first, then = (one, other) if m == n + 1 else (other, one)
                near_m = min(point_to_segment_m(then[1], first), point_to_segment_m(first[0], then))
                if near_m <= _HAIR_M:
                    return True
            elif _touch(one, other):
                return True
    return False


def _touch(one: Segment, other: Segment) -> bool:
    ends = [(end, other) for end in one] + [(end, one) for end in other]
    if any(point_to_segment_m(end, wall) <= _HAIR_M for end, wall in ends):
        return True
    return _parted(one, other) and _parted(other, one)


def _parted(one: Segment, other: Segment) -> bool:
    """True where the ends of one lie on different hands of the other's line."""
    (x, y), (to_x, to_y) = other
    hands = [(to_x - x) * (b - y) - (to_y - y) * (a - x) for a, b in one]
    return hands[0] * hands[1] < 0.0


def _doors(spec: PlanSpec) -> Iterator[str]:
    lines = {line.id: line for line in spec.room.lines}
    for door in spec.doors:
        if door.wall not in lines:
            yield f"spec: door {door.id!r} is in wall {door.wall!r}, which is not there"
            continue
        along_m = math.dist(lines[door.wall].start, lines[door.wall].end)
        if not 0.0 <= door.start_m < door.end_m <= along_m + _HAIR_M:
            yield f"spec: door {door.id!r} is not in its wall"


def _pieces(spec: PlanSpec, row: Row) -> Iterator[str]:
    where = f"spec: row {row.id!r}"
    names = [piece.what for piece in row.pieces]
    if not names:
        return
    kinds, tables = {kind.id for kind in spec.chairs}, {table.id for table in spec.tables}
    for piece in row.pieces:
        known = {ARM: kinds, SEAT: kinds, TABLE: tables}.get(piece.what)
        if known is None and piece.what != GAP:
            yield f"{where}: {piece.what!r:.40} is not a piece of a row"
        elif known is not None and piece.kind not in known:
            yield f"{where}: its {piece.what} is of kind {piece.kind!r:.40}, which is not there"
        if piece.width_m < (0.0 if piece.what == ARM else MICROMETER_M):
            yield f"{where}: a piece of it has no width"
    seats = [piece for piece in row.pieces if piece.what == SEAT]
    if len(seats) != row.seats:
        yield f"{where} has {row.seats} seats, and its pieces {len(seats)}"
    elif seats and seats[0].kind != row.chair:
        yield f"{where} is of chair {row.chair!r}, and its first seat is not"
    together, number = [], 0
    for what, following in pairwise([*names, ""]):
        number += what == SEAT
        if what == following == SEAT:
            together.append((number, number + 1))
    if sorted(row.no_arm_between) != together:
        yield f"{where}: no_arm_between does not agree with its pieces"
    for n, what in enumerate(names):
        if what == ARM and SEAT not in (names[max(n - 1, 0)], *names[n + 1 : n + 2]):
            yield f"{where}: an arm of it stands beside no seat"


def _curve(spec: PlanSpec, row: Row) -> Iterator[str]:
    curve, where = row.curve, f"spec: row {row.id!r}"
    if curve is None:
        return
    if curve.touch not in ("front", "back"):
        yield f"{where}: its seats touch at neither front nor back"
        return
    kind = spec.chair(row.chair)
    blocks = blocks_of(pieces_of(row, kind.seat_width_m, kind.arm_width_m))
    if curve.radius_m <= 0.0 or any(block.width_m > 2 * curve.radius_m for block in blocks):
        yield f"{where}: its radius is too small for its seats"
        return
    if sum(2 * math.asin(block.width_m / (2 * curve.radius_m)) for block in blocks) > math.tau:
        yield f"{where}: it closes on itself"
    touches = [at_m for block in blocks if (at_m := touch_m(spec, curve, block)) is not None]
    if max(touches, default=0.0) - min(touches, default=0.0) > MICROMETER_M:
        yield f"{where}: its kinds do not touch on one circle"
