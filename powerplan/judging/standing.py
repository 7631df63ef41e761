"""How the pieces of a row stand: along a straight line, or as chords of a circle."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from powerplan.judging.convex import Convex, Side, convex, side_of
from powerplan.model.geometry import Point
from powerplan.model.spec import Curve, Piece, PlanSpec, Row

ARM, SEAT, TABLE, GAP = "arm", "seat", "table", "gap"


@dataclass(frozen=True, slots=True)
class Pose:
    """Where a frame of its own stands in the room, and its turn to the left. [m, rad]"""

    x_m: float
    y_m: float
    angle_rad: float

    def at(self, aside_m: float, ahead_m: float) -> Point:
        """Return a place of the frame in the room. [m]"""
        cos, sin = math.cos(self.angle_rad), math.sin(self.angle_rad)
        return (
            self.x_m + aside_m * cos - ahead_m * sin,
            self.y_m + aside_m * sin + ahead_m * cos,
        )

    def back(self, point: Point) -> Point:
        """Return a place of the room in the frame. [m]"""
        cos, sin = math.cos(self.angle_rad), math.sin(self.angle_rad)
        x, y = point[0] - self.x_m, point[1] - self.y_m
        return x * cos + y * sin, y * cos - x * sin

    def turned(self, aside_m: float, ahead_m: float, angle_rad: float) -> Pose:
        """Return a frame that stands in this one. [m, rad]"""
        x, y = self.at(aside_m, ahead_m)
        return Pose(x, y, normal_rad(self.angle_rad + angle_rad))

    def box(self, left_m: float, right_m: float, back_m: float, front_m: float) -> Convex | None:
        """Return a rectangle of the frame, in the room. [m]"""
        corners = ((left_m, back_m), (right_m, back_m), (right_m, front_m), (left_m, front_m))
        return convex(self.at(u, v) for u, v in corners)

    def shape(self, points: Iterable[Point]) -> Convex | None:
        """Return a convex piece of the frame, in the room. [m]"""
        return convex(self.at(u, v) for u, v in points)


def normal_rad(angle_rad: float) -> float:
    """Return the same direction as an angle within half a turn. [rad]"""
    turned = math.remainder(angle_rad, math.tau)
    return math.pi if turned == -math.pi else turned


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A seat with its arms, a table, or a gap. ``middle_m`` is the width of the thing itself (a
    seat's: its cushion), ``arms`` the whole arms beside a seat, ``shared`` those that it shares
    with the next seat. Left before right. [m]"""

    what: str
    kind: str | None
    middle_m: float
    arms: tuple[float, float] = (0.0, 0.0)
    shared: tuple[bool, bool] = (False, False)

    @property
    def share(self) -> tuple[float, float]:
        """From the middle line out to the block's sides, shared arms split. [m]"""
        left, right = (
            self.middle_m / 2 + (arm / 2 if shared else arm)
            for arm, shared in zip(self.arms, self.shared, strict=True)
        )
        return left, right

    @property
    def whole(self) -> tuple[float, float]:
        """From the middle line out to the far sides of the arms. [m]"""
        return self.middle_m / 2 + self.arms[0], self.middle_m / 2 + self.arms[1]

    @property
    def width_m(self) -> float:
        """Side to side, shared arms split. [m]"""
        return sum(self.share)


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A block in the room. ``lines`` are the sides of its wedge of the circle, in a curved row."""

    block: Block
    pose: Pose
    lines: tuple[Side, ...]


def pieces_of(row: Row, seat_m: float, arm_m: float) -> tuple[Piece, ...]:
    """Return what stands in a row from the left, worked out for a row that does not list it. [m]"""
    if row.pieces:
        return row.pieces
    armless = {left for left, _ in row.no_arm_between}
    found = [Piece(what=ARM, kind=row.chair, width_m=arm_m)]
    for number in range(1, row.seats + 1):
        found.append(Piece(what=SEAT, kind=row.chair, width_m=seat_m))
        if number not in armless:
            found.append(Piece(what=ARM, kind=row.chair, width_m=arm_m))
    return tuple(found)


def blocks_of(pieces: tuple[Piece, ...]) -> tuple[Block, ...]:
    """Return a row's blocks from the left; every arm goes with the seat it stands beside. [m]"""
    names = [piece.what for piece in pieces]
    found: list[Block] = []
    for n, piece in enumerate(pieces):
        if piece.what == SEAT:
            found.append(
                Block(
                    what=SEAT,
                    kind=piece.kind,
                    middle_m=piece.width_m,
                    arms=(_arm(pieces, n, -1), _arm(pieces, n, 1)),
                    shared=(_shared(names, n, -1), _shared(names, n, 1)),
                )
            )
        elif piece.what in (TABLE, GAP):
            found.append(Block(what=piece.what, kind=piece.kind, middle_m=piece.width_m))
    return tuple(found)


def _arm(pieces: tuple[Piece, ...], seat: int, way: int) -> float:
    beside = seat + way
    there = 0 <= beside < len(pieces) and pieces[beside].what == ARM
    return pieces[beside].width_m if there else 0.0


def _shared(names: list[str], seat: int, way: int) -> bool:
    far = seat + 2 * way
    return 0 <= far < len(names) and names[seat + way] == ARM and names[far] == SEAT


def place(spec: PlanSpec, row: Row, blocks: tuple[Block, ...]) -> tuple[Placed, ...]:
    """Return every block of a row where it stands. A block's frame has its middle line at 0. [m]"""
    frame = Pose(row.center_x_m, row.headrest_to_wall_m, normal_rad(row.angle_rad))
    if row.curve is not None:
        return _on_circle(spec, row.curve, frame, blocks)
    reached_m = -math.fsum(block.width_m for block in blocks) / 2
    found: list[Placed] = []
    for block in blocks:
        pose = frame.turned(reached_m + block.share[0], 0.0, 0.0)
        found.append(Placed(block=block, pose=pose, lines=()))
        reached_m += block.width_m
    return tuple(found)


def _on_circle(
    spec: PlanSpec, curve: Curve, frame: Pose, blocks: tuple[Block, ...]
) -> tuple[Placed, ...]:
    radius_m = curve.radius_m
    angles = [2.0 * math.asin(block.width_m / (2.0 * radius_m)) for block in blocks]
    touches = [touch_m(spec, curve, block) for block in blocks]
    touch = next((at_m for at_m in touches if at_m is not None), 0.0)
    far_m = radius_m + touch  # the arc's middle, ahead of the row's own place
    middle = frame.at(0.0, far_m)
    turned_rad = -math.fsum(angles) / 2
    found: list[Placed] = []
    for block, angle in zip(blocks, angles, strict=True):
        phi = turned_rad + angle / 2
        # the block's chord, seen from the arc's middle, less its own way back to the headrests
        away_m = radius_m * math.cos(angle / 2) + touch
        chord = frame.turned(away_m * math.sin(phi), far_m - away_m * math.cos(phi), phi)
        shift_m = (block.share[0] - block.share[1]) / 2
        half_m = block.width_m / 2
        right, left = chord.at(half_m, touch), chord.at(-half_m, touch)
        lines = (side_of(right, middle), side_of(middle, left))
        found.append(Placed(block=block, pose=chord.turned(shift_m, 0.0, 0.0), lines=lines))
        turned_rad += angle
    return tuple(found)


def touch_m(spec: PlanSpec, curve: Curve, block: Block) -> float | None:
    """Return how far ahead of its headrest line a block meets the next; a gap anywhere. [m]"""
    kinds = {kind.id: kind for kind in spec.chairs}
    tables = {table.id: table for table in spec.tables}
    front = curve.touch == "front"
    if block.what == SEAT and block.kind in kinds:
        kind = kinds[block.kind]
        return kind.depth_m if front else kind.rear_of_base_m
    if block.what == TABLE and block.kind in tables:
        table = tables[block.kind]
        return table.front_m if front else table.rear_m
    return None
