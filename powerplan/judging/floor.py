"""The room's floor as a cord sees it: covered pieces, doorways, decks, and what to keep off."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from powerplan.judging.convex import Convex, Segment, common, cut_by, edges, hull, of_rect, pieces
from powerplan.judging.outlines import inside, slices
from powerplan.judging.rows import LaidRow
from powerplan.judging.seats import Seat
from powerplan.judging.shapes import depth_inside_m
from powerplan.judging.sight import greatest_m, look
from powerplan.judging.standing import SEAT, TABLE, Placed, Pose
from powerplan.judging.walls import Face, along, faces
from powerplan.model.geometry import Point, Rect
from powerplan.model.lengths import MICROMETER_M, micrometers
from powerplan.model.spec import ChairKind, PlanSpec, Riser

_BEYOND_THE_WALL_M = 1e-3
_ON_THE_WALL_M = 3 * MICROMETER_M


@dataclass(frozen=True, slots=True, kw_only=True)
class Floor:
    """The floor. ``outline`` goes counter-clockwise around the room, ``room`` is the rectangle
    around it. ``solids`` are named pinch zones, tables and obstacles; ``decks`` are risers, carried
    on through any wall their edge lies on, since that edge cannot be crossed. [m]"""

    room: Rect
    outline: tuple[Point, ...]
    walls: tuple[Face, ...]
    covered: tuple[Convex, ...]
    doorways: tuple[tuple[str, Convex], ...]
    solids: tuple[tuple[str, Convex], ...]
    decks: tuple[tuple[Riser, tuple[Convex, ...]], ...]

    def deck_at(self, point: Point) -> Riser | None:
        """Return the riser on whose deck a point lies; a riser's edge is the lower floor. [m]"""
        for riser, _ in self.decks:
            if depth_inside_m(riser.rect, point) > 0.0:
                return riser
        return None


def read_floor(
    spec: PlanSpec, rows: tuple[LaidRow, ...], strip_m: float, covered_gap_m: float
) -> Floor:
    """Return the floor of a room with its rows in place.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read.
    rows : tuple of LaidRow
        Every row as it stands. [m]
    strip_m : float
        Width of the covered strip along walls and riser faces. [m]
    covered_gap_m : float
        A gap behind a row narrower than this is covered. [m]

    Returns
    -------
    Floor
        All pieces in the room frame. [m]
    """
    room = Rect(left_m=0.0, right_m=spec.room.width_m, back_m=0.0, front_m=spec.room.depth_m)
    outline, walls = spec.room.outline, faces(spec.room)
    inner = slices(outline)
    covered = [
        *(piece for row in rows for piece in _under(row)),
        *(piece for row in rows for piece in _behind(row, spec, walls, covered_gap_m)),
        *(piece for wall in walls for piece in _wall_strips(spec, wall, strip_m)),
        *(piece for riser in spec.risers for piece in _riser_strips(riser, strip_m)),
    ]
    solids = [(f"the pinch zone of row {row.row.id}", piece) for row in rows for piece in row.pinch]
    solids += [
        (f"table {table.id}", table.floor)
        for row in rows
        for table in row.tables
        if not table.passed_under
    ]
    solids += [
        (f"obstacle {area.id}", piece)
        for area in spec.obstacles
        for piece in pieces(of_rect(area.rect))
    ]
    return Floor(
        room=room,
        outline=outline,
        walls=walls,
        covered=tuple(cut for piece in covered for cut in _in_room(piece, inner)),
        doorways=tuple(
            (door.id, cut)
            for door in spec.doors
            for wall in walls
            if wall.id == door.wall
            for piece in pieces(along(wall, door.start_m, door.end_m, strip_m))
            for cut in _in_room(piece, inner)
        ),
        solids=tuple(solids),
        decks=tuple((riser, _through_walls(riser.rect, outline)) for riser in spec.risers),
    )


def _in_room(piece: Convex, inner: tuple[Convex, ...]) -> tuple[Convex, ...]:
    """A piece as far as it lies in the room; whole where the room is one rectangle."""
    if len(inner) == 1:
        return (piece,)
    return pieces(*(common(piece, part) for part in inner))


def _under(row: LaidRow) -> Iterator[Convex]:
    """Reclined headrests to the front of the bases; in a curved row block by block."""
    if row.straight:
        kinds = [seat.kind for seat in row.seats]
        back_m = min(kind.back_travel_m for kind in kinds)
        front_m = min(kind.depth_m for kind in kinds)
        yield from pieces(row.pose.box(-row.half_m, row.half_m, -back_m, front_m))
        return
    curve, blocks = row.row.curve, []
    for one, (from_m, to_m) in ((one, span) for one, span in _spans(row) if span is not None):
        left_m, right_m = one.block.share
        box = one.pose.box(-left_m, right_m, from_m, to_m)
        box = cut_by(box, one.lines if curve and curve.touch == "back" else ())
        blocks += [(one.pose, piece) for piece in pieces(box)]
    yield from (piece for _, piece in blocks)
    for (pose, piece), (other, beyond) in pairwise(blocks):
        facing = [corner for corner in piece.corners if pose.back(corner)[0] > 0.0]
        facing += [corner for corner in beyond.corners if other.back(corner)[0] < 0.0]
        yield from pieces(hull(facing))


def _spans(row: LaidRow) -> Iterator[tuple[Placed, tuple[float, float] | None]]:
    """Every block of a row, and from where to where it covers the floor; a gap covers none. [m]"""
    seats, tables = iter(row.seats), iter(row.tables)
    for one in row.placed:
        if one.block.what == SEAT:
            kind = next(seats).kind
            yield one, (-kind.back_travel_m, kind.depth_m)
        elif one.block.what == TABLE:
            table = next(tables)
            yield one, (table.from_m, table.to_m)
        else:
            yield one, None


def _behind(
    row: LaidRow, spec: PlanSpec, walls: tuple[Face, ...], covered_gap_m: float
) -> Iterator[Convex]:
    """The gap behind a row: behind all of a row square to the room, seat by seat behind others."""
    if not row.plain:
        for seat in row.seats:
            yield from _behind_seat(row, seat, spec, walls, covered_gap_m)
        return
    y = row.row.headrest_to_wall_m
    spans = [
        (wall.start[1], min(wall.start[0], wall.end[0]), max(wall.start[0], wall.end[0]), 1)
        for wall in walls
        if wall.inward == (0.0, 1.0)
    ]
    spans += [(r.rect.front_m, r.rect.left_m, r.rect.right_m, 0) for r in spec.risers]
    x = row.row.center_x_m
    for face_m, from_m, to_m, least_um in spans:
        left_m, right_m = max(x - row.half_m, from_m), min(x + row.half_m, to_m)
        behind = least_um <= micrometers(y - face_m) < micrometers(covered_gap_m)
        if behind and left_m < right_m:
            gap = Rect(left_m=left_m, right_m=right_m, back_m=face_m, front_m=y)
            yield from pieces(of_rect(gap))


def _behind_seat(
    row: LaidRow, seat: Seat, spec: PlanSpec, walls: tuple[Face, ...], covered_gap_m: float
) -> Iterator[Convex]:
    block = next(one for one in row.placed if one.pose == seat.pose).block
    left_m, right_m = block.share
    stands_m = _level_m(spec, seat.pose, seat.kind)
    stops: list[Segment] = [(wall.start, wall.end) for wall in walls]
    for riser in spec.risers:
        if riser.height_m > stands_m:
            stops += edges(riser.rect.outline)
    seen = look(seat.pose, -left_m, right_m, stops, back=True)
    if micrometers(min(greatest_m(seen), 1e3)) < micrometers(covered_gap_m):
        for stretch in seen:
            yield from pieces(stretch.floor(seat.pose, -1.0))


def _level_m(spec: PlanSpec, pose: Pose, kind: ChairKind) -> float:
    """The height of the floor under the middle of a base. [m]"""
    at = pose.at(0.0, (kind.rear_of_base_m + kind.depth_m) / 2)
    return max((r.height_m for r in spec.risers if depth_inside_m(r.rect, at) > 0.0), default=0.0)


def _wall_strips(spec: PlanSpec, wall: Face, strip_m: float) -> Iterator[Convex]:
    """The strip along a wall, stopping at its door openings."""
    reached_m = 0.0
    doors = sorted((d.start_m, d.end_m) for d in spec.doors if d.wall == wall.id)
    for start_m, end_m in [*doors, (wall.length_m, wall.length_m)]:
        if start_m > reached_m:
            yield from pieces(along(wall, reached_m, start_m, strip_m))
        reached_m = max(reached_m, end_m)


def _riser_strips(riser: Riser, strip_m: float) -> Iterator[Convex]:
    r = riser.rect
    strips = (
        Rect(left_m=r.left_m - strip_m, right_m=r.left_m, back_m=r.back_m, front_m=r.front_m),
        Rect(left_m=r.right_m, right_m=r.right_m + strip_m, back_m=r.back_m, front_m=r.front_m),
        Rect(left_m=r.left_m, right_m=r.right_m, back_m=r.back_m - strip_m, front_m=r.back_m),
        Rect(left_m=r.left_m, right_m=r.right_m, back_m=r.front_m, front_m=r.front_m + strip_m),
    )
    for strip in strips:
        yield from pieces(of_rect(strip))


def _through_walls(rect: Rect, outline: tuple[Point, ...]) -> tuple[Convex, ...]:
    """A deck, and a hair's breadth of what lies behind the walls along its edges."""
    far = _BEYOND_THE_WALL_M
    grows, slabs = [0.0] * 4, []
    for n, (start, end) in enumerate(edges(rect.outline)):
        out = ((0, -1), (1, 0), (0, 1), (-1, 0))[n]
        runs = _beyond(start, end, out, outline)
        if math.isclose(sum(b - a for a, b in runs), 1.0, abs_tol=1e-6):
            grows[n] = far
            continue
        for a, b in runs:
            ends = [
                (start[0] + s * (end[0] - start[0]), start[1] + s * (end[1] - start[1]))
                for s in (a, b)
            ]
            slabs.append(
                hull((x + k * far * out[0], y + k * far * out[1]) for x, y in ends for k in (-1, 1))
            )
    whole = Rect(
        left_m=rect.left_m - grows[3],
        right_m=rect.right_m + grows[1],
        back_m=rect.back_m - grows[0],
        front_m=rect.front_m + grows[2],
    )
    return pieces(of_rect(whole), *slabs)


def _beyond(
    start: Point, end: Point, out: tuple[int, int], outline: tuple[Point, ...]
) -> list[tuple[float, float]]:
    """The shares of a riser's edge just beyond which there is no room, as it lies on a wall."""
    off_x, off_y = out[0] * _ON_THE_WALL_M, out[1] * _ON_THE_WALL_M
    moved = ((start[0] + off_x, start[1] + off_y), (end[0] + off_x, end[1] + off_y))
    axis = 0 if out[0] == 0 else 1
    long = moved[1][axis] - moved[0][axis]
    marks = {0.0, 1.0}
    for a, b in edges(outline):
        for corner in (a, b):
            marks.add((corner[axis] - moved[0][axis]) / long)
        low, high = sorted((a[1 - axis], b[1 - axis]))
        if low < moved[0][1 - axis] < high:
            share = (moved[0][1 - axis] - a[1 - axis]) / (b[1 - axis] - a[1 - axis])
            marks.add((a[axis] + share * (b[axis] - a[axis]) - moved[0][axis]) / long)
    found: list[tuple[float, float]] = []
    for low, high in pairwise(sorted(mark for mark in marks if 0.0 <= mark <= 1.0)):
        half = (low + high) / 2
        at = tuple(moved[0][k] + half * (moved[1][k] - moved[0][k]) for k in (0, 1))
        if not inside(outline, (at[0], at[1])):
            found.append((low, high))
    return found
