"""Rows in their room: walls, obstacles, each other, risers and doors, chairs reclined."""

from __future__ import annotations

import math
from collections.abc import Iterator

from powerplan.judging.case import LENIENT_M, Case
from powerplan.judging.convex import (
    Convex,
    Segment,
    apart_m,
    common,
    depth_inside_m,
    edges,
    of_rect,
    pieces,
    point_to_m,
    room_left_m,
)
from powerplan.judging.outlines import depth_m
from powerplan.judging.outlines import room_left_m as outline_left_m
from powerplan.judging.rows import Body, LaidRow
from powerplan.judging.sight import least_m, look
from powerplan.judging.walls import Face, along
from powerplan.model.findings import Finding
from powerplan.model.spec import Riser


def judge_layout(case: Case) -> Iterator[Finding]:
    """Hold every row to the room, to what stands in it, and to the other rows."""
    for row in case.rows:
        yield from _walls(case, row)
        yield from _obstacles(case, row)
        yield from _risers(case, row)
        yield from _doors(case, row)
        yield from _neighbors(case, row)
        yield _passage(case, row)
        off_m = abs(row.row.center_x_m - case.plan.spec.room.width_m / 2)
        yield case.hold("row-on-centre", _name(row), off_m, 0.0)
    for n, row in enumerate(case.rows):
        for other in case.rows[n + 1 :]:
            yield from _pair(case, row, other)


def _name(row: LaidRow) -> str:
    return f"row {row.row.id}"


def _walls(case: Case, row: LaidRow) -> Iterator[Finding]:
    """In a rectangle the back wall is the headrests'; in an outline all walls are the row's."""
    room, outline = case.plan.spec.room, case.floor.outline
    if not room.walls:
        corners = [corner for body in row.bodies for corner in body.swept.corners]
        spare_m = min(min(x, room.width_m - x, room.depth_m - y) for x, y in corners)
        behind_m = min(y for _, y in corners)
    else:
        spare_m = min(outline_left_m(outline, body.swept) for body in row.bodies)
        behind_m = min(_behind_m(case, body) for body in row.bodies)
    yield case.hold("row-fits-walls", _name(row), spare_m, 0.0)
    yield case.hold("headrest-clears-wall", _name(row), behind_m, 0.0)


def _behind_m(case: Case, body: Body) -> float:
    """What is left behind a reclined headrest, looking straight back from its base. [m]

    From the front of the base, as the headrest itself may stand in the wall; where that front is
    out of the room, the wall it is through is not the one behind, and it is seen from the headrest.
    """
    room, before_m = case.floor.outline, body.depth_m
    corners = [body.pose.at(u, before_m) for u in (-body.halves[0], body.halves[1])]
    if min(depth_m(room, corner) for corner in corners) < -LENIENT_M:
        before_m = 0.0
    front = body.pose.turned(0.0, before_m, 0.0)
    walls = [(wall.start, wall.end) for wall in case.floor.walls]
    seen = look(front, -body.halves[0], body.halves[1], walls, back=True)
    return least_m(seen) - (before_m - body.from_m)


def _obstacles(case: Case, row: LaidRow) -> Iterator[Finding]:
    for area in case.plan.spec.obstacles:
        for piece in pieces(of_rect(area.rect)):
            spare_m = min(apart_m(body.swept, piece) for body in row.bodies)
            note = f"obstacle {area.id}"
            yield case.hold("row-clears-obstacle", _name(row), spare_m, 0.0, note=note)
    for area in case.plan.spec.walkways:
        for piece in pieces(of_rect(area.rect)):
            spare_m = min(apart_m(body.swept, piece) for body in row.bodies)
            note = f"walkway {area.id}"
            yield case.hold("row-clears-walkway", _name(row), spare_m, 0.0, note=note)


def _carries(riser: Riser, row: LaidRow) -> bool:
    """True where a row stands wholly on a riser."""
    deck = of_rect(riser.rect)
    return deck is not None and all(
        room_left_m(deck, body.base) >= -LENIENT_M for body in row.bodies
    )


def _begins_on(riser: Riser, row: LaidRow) -> bool:
    """True where the middle of a turned or curved row's bases is on a riser, if not all of them."""
    kind, deck = row.seats[0].kind, of_rect(riser.rect)
    place = row.pose.at(0.0, (kind.rear_of_base_m + kind.depth_m) / 2)
    return not row.plain and deck is not None and depth_inside_m(deck, place) > LENIENT_M


def _risers(case: Case, row: LaidRow) -> Iterator[Finding]:
    for riser in case.plan.spec.risers:
        deck, note = of_rect(riser.rect), f"riser {riser.id}"
        if deck is None:
            continue
        within_m = min(room_left_m(deck, body.base) for body in row.bodies)
        beside_m = min(apart_m(deck, body.base) for body in row.bodies)
        level_m = max(within_m, beside_m)
        yield case.hold("row-on-one-level", _name(row), level_m, 0.0, note=note)
        if _carries(riser, row) or _begins_on(riser, row):
            ahead_m = min(_ahead_on_m(riser, row, body) for body in row.bodies)
            yield case.hold("footrest-on-riser", _name(row), ahead_m, 0.0, note=note)


def _ahead_on_m(riser: Riser, row: LaidRow, body: Body) -> float:
    """What is left between a reclined footrest and the edge of its riser. [m]"""
    if row.plain:
        return riser.rect.front_m - max(y for _, y in body.swept.corners)
    deck = of_rect(riser.rect)
    front = [
        corner
        for corner in body.swept.corners
        if body.pose.back(corner)[1] > body.reach_m - LENIENT_M
    ]
    return (
        math.inf
        if deck is None
        else min(depth_inside_m(deck, corner) for corner in front or body.swept.corners)
    )


def _neighbors(case: Case, row: LaidRow) -> Iterator[Finding]:
    """Cushions of a curved row, footrests out, stay within their own wedges of the circle."""
    if row.straight:
        return
    lines = {one.pose: one.lines for one in row.placed}
    spare_m = math.inf
    for seat in row.seats:
        half_m, kind = seat.cushion_m / 2, seat.kind
        cushion = seat.pose.box(-half_m, half_m, kind.rear_of_base_m, kind.reclined_reach_m)
        for x, y, reach in lines[seat.pose]:
            for corner in cushion.corners if cushion else ():
                spare_m = min(spare_m, reach - x * corner[0] - y * corner[1])
    yield case.hold("seats-clear-of-each-other", _name(row), spare_m, 0.0)


def _pair(case: Case, one: LaidRow, other: LaidRow) -> Iterator[Finding]:
    behind, ahead = sorted((one, other), key=lambda row: row.row.headrest_to_wall_m)
    subject = f"{_name(behind)} and {_name(ahead)}"
    pairs = [(a, b) for a in behind.bodies for b in ahead.bodies]
    if not (behind.plain and ahead.plain):
        spare_m = min(apart_m(a.base, b.base) for a, b in pairs)
        yield case.hold("rows-apart", subject, spare_m, 0.0)
        spare_m = min(apart_m(a.swept, b.swept) for a, b in pairs)
        both = f"rows {behind.row.id} and {ahead.row.id}"
        yield case.hold("seats-clear-of-each-other", both, spare_m, 0.0)
        return
    spare_m = min(apart_m(a.upright, b.upright) for a, b in pairs)
    yield case.hold("rows-apart", subject, spare_m, 0.0)
    gaps = [
        _back_m(b.swept) - _front_m(a.swept)
        for a, b in pairs
        if _side_by_side_m(a.swept, b.swept) < -LENIENT_M
    ]
    if gaps:
        yield case.hold("footrest-clears-row-ahead", _name(behind), min(gaps), 0.0, note=subject)


def _back_m(piece: Convex) -> float:
    return min(y for _, y in piece.corners)


def _front_m(piece: Convex) -> float:
    return max(y for _, y in piece.corners)


def _side_by_side_m(one: Convex, other: Convex) -> float:
    (left, right), (from_, to) = (
        (min(x for x, _ in piece.corners), max(x for x, _ in piece.corners))
        for piece in (one, other)
    )
    return max(left - to, from_ - right)


def _passage(case: Case, row: LaidRow) -> Finding:
    limit_m = case.rules.length_m("passage")
    return case.hold("passage-in-front", _name(row), passage_m(case, row), limit_m)


def passage_m(case: Case, row: LaidRow) -> float:
    """Return what is left in front of the reclined footrests, to wall, riser edge or next row.

    [m]
    """
    stops: list[Segment] = [(wall.start, wall.end) for wall in case.floor.walls]
    for riser in case.plan.spec.risers:
        if _carries(riser, row):
            stops += edges(riser.rect.outline)
    for other in case.rows:
        if other is not row:
            stops += [edge for body in other.bodies for edge in edges(body.swept.corners)]
    least = math.inf
    for body in row.bodies:
        front = body.pose.turned(0.0, body.depth_m, 0.0)
        seen = look(front, -body.halves[0], body.halves[1], stops, back=False)
        least = min(least, least_m(seen) - (body.reach_m - body.depth_m))
    return least


def _doors(case: Case, row: LaidRow) -> Iterator[Finding]:
    """Hold a door that swings in to the two quarter circles its leaf may sweep."""
    walls = {wall.id: wall for wall in case.floor.walls}
    for door in case.plan.spec.doors:
        if door.swings != "in":
            continue
        wall, width_m = walls[door.wall], door.end_m - door.start_m
        before = along(wall, door.start_m, door.end_m, width_m)
        if before is None:
            continue
        spare_m = min(_leaf_m(wall, door.start_m, door.end_m, before, body) for body in row.bodies)
        yield case.hold("door-free", _name(row), spare_m, 0.0, note=f"door {door.id}")


def _leaf_m(wall: Face, start_m: float, end_m: float, before: Convex, body: Body) -> float:
    """How far a body is from both quarter circles of a door's leaf; negative: in one. [m]"""
    spare_m = apart_m(before, body.swept)
    inside = common(before, body.swept)
    if spare_m >= 0.0 or inside is None:
        return spare_m
    hinges = (wall.at(start_m, 0.0), wall.at(end_m, 0.0))
    return min(point_to_m(hinge, inside) for hinge in hinges) - (end_m - start_m)
