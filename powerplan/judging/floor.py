"""The room's floor as a cord sees it: covered pieces, doorways, decks, and what to keep off."""

from __future__ import annotations

from dataclasses import dataclass

from powerplan.judging.seats import LaidRow
from powerplan.judging.shapes import depth_inside_m, without
from powerplan.model.geometry import Point, Rect
from powerplan.model.lengths import micrometres
from powerplan.model.spec import Area, Door, PlanSpec, Riser, Wall

_BEYOND_THE_WALL_M = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Floor:
    """The floor. ``solids`` are named pinch zones and obstacles; ``decks`` are risers, carried on
    through any wall their edge lies on, since that edge cannot be crossed. [m]"""

    room: Rect
    covered: tuple[Rect, ...]
    doorways: tuple[Area, ...]
    solids: tuple[tuple[str, Rect], ...]
    decks: tuple[tuple[Riser, Rect], ...]

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
    covered = [
        *(piece for row in rows for piece in _under_and_behind(row, spec, covered_gap_m)),
        *(piece for wall in Wall for piece in _wall_strips(spec, wall, strip_m)),
        *(piece for riser in spec.risers for piece in _riser_strips(riser, room, strip_m)),
    ]
    solids = [(f"the pinch zone of row {row.row.id}", piece) for row in rows for piece in row.pinch]
    solids += [(f"obstacle {area.id}", area.rect) for area in spec.obstacles]
    return Floor(
        room=room,
        covered=tuple(covered),
        doorways=tuple(
            Area(id=door.id, rect=along_wall(spec, door.wall, door.start_m, door.end_m, strip_m))
            for door in spec.doors
        ),
        solids=tuple(solids),
        decks=tuple((riser, _through_walls(riser.rect, room)) for riser in spec.risers),
    )


def along_wall(spec: PlanSpec, wall: str, start_m: float, end_m: float, deep_m: float) -> Rect:
    """Return the floor along part of a wall, so deep into the room. [m]"""
    width_m, depth_m = spec.room.width_m, spec.room.depth_m
    if wall == Wall.BACK:
        return Rect(left_m=start_m, right_m=end_m, back_m=0.0, front_m=deep_m)
    if wall == Wall.SCREEN:
        return Rect(left_m=start_m, right_m=end_m, back_m=depth_m - deep_m, front_m=depth_m)
    if wall == Wall.LEFT:
        return Rect(left_m=0.0, right_m=deep_m, back_m=start_m, front_m=end_m)
    return Rect(left_m=width_m - deep_m, right_m=width_m, back_m=start_m, front_m=end_m)


def _under_and_behind(row: LaidRow, spec: PlanSpec, covered_gap_m: float) -> list[Rect]:
    y = row.row.headrest_to_wall_m
    pieces = [row.strip(-row.kind.back_travel_m, row.kind.depth_m)]
    if y > 0.0 and micrometres(y) < micrometres(covered_gap_m):
        pieces.append(row.strip(-y, 0.0))
    for riser in spec.risers:
        face_m = riser.rect.front_m
        left_m, right_m = max(row.left_m, riser.rect.left_m), min(row.right_m, riser.rect.right_m)
        behind = 0 <= micrometres(y - face_m) < micrometres(covered_gap_m)
        if behind and left_m < right_m:
            pieces.append(Rect(left_m=left_m, right_m=right_m, back_m=face_m, front_m=y))
    return pieces


def _wall_strips(spec: PlanSpec, wall: Wall, strip_m: float) -> tuple[Rect, ...]:
    across = wall in (Wall.BACK, Wall.SCREEN)
    whole_m = spec.room.width_m if across else spec.room.depth_m

    def openings(door: Door) -> Rect:
        return along_wall(spec, wall, door.start_m, door.end_m, strip_m)

    strip = along_wall(spec, wall, 0.0, whole_m, strip_m)
    return without(strip, (openings(door) for door in spec.doors if door.wall == wall))


def _riser_strips(riser: Riser, room: Rect, strip_m: float) -> list[Rect]:
    r = riser.rect
    strips = (
        Rect(left_m=r.left_m - strip_m, right_m=r.left_m, back_m=r.back_m, front_m=r.front_m),
        Rect(left_m=r.right_m, right_m=r.right_m + strip_m, back_m=r.back_m, front_m=r.front_m),
        Rect(left_m=r.left_m, right_m=r.right_m, back_m=r.back_m - strip_m, front_m=r.back_m),
        Rect(left_m=r.left_m, right_m=r.right_m, back_m=r.front_m, front_m=r.front_m + strip_m),
    )
    inside = (
        Rect(
            left_m=max(strip.left_m, room.left_m),
            right_m=min(strip.right_m, room.right_m),
            back_m=max(strip.back_m, room.back_m),
            front_m=min(strip.front_m, room.front_m),
        )
        for strip in strips
    )
    return [piece for piece in inside if piece.width_m > 0.0 and piece.depth_m > 0.0]


def _through_walls(rect: Rect, room: Rect) -> Rect:
    far = _BEYOND_THE_WALL_M
    return Rect(
        left_m=rect.left_m - (far if _same(rect.left_m, room.left_m) else 0.0),
        right_m=rect.right_m + (far if _same(rect.right_m, room.right_m) else 0.0),
        back_m=rect.back_m - (far if _same(rect.back_m, room.back_m) else 0.0),
        front_m=rect.front_m + (far if _same(rect.front_m, room.front_m) else 0.0),
    )


def _same(one_m: float, other_m: float) -> bool:
    return abs(micrometres(one_m) - micrometres(other_m)) <= 2
