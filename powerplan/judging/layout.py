"""Rows in their room: walls, obstacles, each other, risers and doors, chairs reclined."""

from __future__ import annotations

from collections.abc import Iterator

from powerplan.judging.case import LENIENT_M, Case
from powerplan.judging.floor import along_wall
from powerplan.judging.seats import LaidRow
from powerplan.judging.shapes import gap_m, point_to_rect_m, room_left_m
from powerplan.model.findings import Finding
from powerplan.model.geometry import Point, Rect
from powerplan.model.spec import Door, Wall


def judge_layout(case: Case) -> Iterator[Finding]:
    """Hold every row to the room, to what stands in it, and to the other rows."""
    for row in case.rows:
        yield from _walls(case, row)
        yield from _obstacles(case, row)
        yield from _risers(case, row)
        yield from _doors(case, row)
        yield _passage(case, row)
        off_m = abs(row.row.center_x_m - case.plan.spec.room.width_m / 2)
        yield case.hold("row-on-centre", _name(row), off_m, 0.0)
    for n, row in enumerate(case.rows):
        for other in case.rows[n + 1 :]:
            yield from _pair(case, row, other)


def _name(row: LaidRow) -> str:
    return f"row {row.row.id}"


def _walls(case: Case, row: LaidRow) -> Iterator[Finding]:
    room = case.plan.spec.room
    swept = row.swept
    spare_m = min(swept.left_m, room.width_m - swept.right_m, room.depth_m - swept.front_m)
    yield case.hold("row-fits-walls", _name(row), spare_m, 0.0)
    yield case.hold("headrest-clears-wall", _name(row), swept.back_m, 0.0)


def _obstacles(case: Case, row: LaidRow) -> Iterator[Finding]:
    for area in case.plan.spec.obstacles:
        apart_m = gap_m(row.swept, area.rect)
        note = f"obstacle {area.id}"
        yield case.hold("row-clears-obstacle", _name(row), apart_m, 0.0, note=note)


def _risers(case: Case, row: LaidRow) -> Iterator[Finding]:
    for riser in case.plan.spec.risers:
        note = f"riser {riser.id}"
        within_m, apart_m = room_left_m(riser.rect, row.base), gap_m(riser.rect, row.base)
        level_m = max(within_m, apart_m)
        yield case.hold("row-on-one-level", _name(row), level_m, 0.0, note=note)
        if within_m >= -LENIENT_M:
            ahead_m = riser.rect.front_m - row.swept.front_m
            yield case.hold("footrest-on-riser", _name(row), ahead_m, 0.0, note=note)


def _pair(case: Case, one: LaidRow, other: LaidRow) -> Iterator[Finding]:
    behind, ahead = sorted((one, other), key=lambda row: row.row.headrest_to_wall_m)
    subject = f"{_name(behind)} and {_name(ahead)}"
    apart_m = gap_m(behind.upright, ahead.upright)
    yield case.hold("rows-apart", subject, apart_m, 0.0)
    if _side_by_side_m(behind.swept, ahead.swept) < -LENIENT_M:
        ahead_m = ahead.swept.back_m - behind.swept.front_m
        yield case.hold("footrest-clears-row-ahead", _name(behind), ahead_m, 0.0, note=subject)


def _side_by_side_m(one: Rect, other: Rect) -> float:
    return max(one.left_m - other.right_m, other.left_m - one.right_m)


def _passage(case: Case, row: LaidRow) -> Finding:
    """What is left in front of the reclined footrests, to wall, riser edge or the next row."""
    swept, stops = row.swept, [case.plan.spec.room.depth_m]
    stops += [
        riser.rect.front_m
        for riser in case.plan.spec.risers
        if room_left_m(riser.rect, row.base) >= -LENIENT_M
    ]
    stops += [
        other.swept.back_m
        for other in case.rows
        if other.row.headrest_to_wall_m > row.row.headrest_to_wall_m
        and _side_by_side_m(swept, other.swept) < -LENIENT_M
    ]
    limit_m = case.rules.length_m("passage")
    return case.hold("passage-in-front", _name(row), min(stops) - swept.front_m, limit_m)


def _doors(case: Case, row: LaidRow) -> Iterator[Finding]:
    """Hold a door that swings in to the two quarter circles its leaf may sweep."""
    for door in case.plan.spec.doors:
        if door.swings != "in":
            continue
        width_m = door.end_m - door.start_m
        before = along_wall(case.plan.spec, door.wall, door.start_m, door.end_m, width_m)
        spare_m = gap_m(before, row.swept)
        if spare_m < 0.0:
            inside = _common(before, row.swept)
            spare_m = min(point_to_rect_m(hinge, inside) for hinge in _hinges(case, door)) - width_m
        yield case.hold("door-free", _name(row), spare_m, 0.0, note=f"door {door.id}")


def _common(one: Rect, other: Rect) -> Rect:
    return Rect(
        left_m=max(one.left_m, other.left_m),
        right_m=min(one.right_m, other.right_m),
        back_m=max(one.back_m, other.back_m),
        front_m=min(one.front_m, other.front_m),
    )


def _hinges(case: Case, door: Door) -> tuple[Point, Point]:
    line = along_wall(case.plan.spec, door.wall, door.start_m, door.end_m, 0.0)
    if door.wall in (Wall.BACK, Wall.SCREEN):
        return (line.left_m, line.back_m), (line.right_m, line.back_m)
    return (line.left_m, line.back_m), (line.left_m, line.front_m)
