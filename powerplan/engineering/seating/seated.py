"""Chairs, tables and rows as they stand in the room."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from powerplan.engineering.seating.arcs import Cone
from powerplan.engineering.seating.frames import ROOM, Frame, Outline, bounds
from powerplan.engineering.seating.pieces import SEAT, Slot
from powerplan.engineering.seating.rects import grid_rect, on_grid
from powerplan.model.geometry import Point, Rect
from powerplan.model.lengths import micrometers
from powerplan.model.spec import ChairKind, Row, TableKind


@dataclass(frozen=True, slots=True, kw_only=True)
class SeatedChair:
    """A chair where it stands: (x, y) is the rearmost point of its upright headrest.

    Rectangles are in its ``frame``: the room's own where it looks straight at the screen, its row's
    where that is turned, its own on an arc; ``spot`` is the headrest there. ``floor`` is all the
    floor it stands on or sweeps, arm to arm, rear of base to the end of the reclined footrest; on
    an arc only half of an arm that it shares. ``cone`` is its own part of an arc, and ``tapered``
    tells that its floor is cut to it. ``riser`` is the id of the riser its base stands on, None for
    the floor. ``share`` is its part of the supply that feeds it, a half where two seats share one;
    ``mate`` is then the other seat. [m]
    """

    id: str
    row: str
    seat: int
    kind: ChairKind
    x_m: float
    y_m: float
    floor: Rect
    riser: str | None
    share: Fraction = Fraction(1)
    mate: int | None = None
    frame: Frame = ROOM
    spot: Point
    cone: Cone | None = None
    tapered: bool = False

    @property
    def angle_rad(self) -> float:
        """How far it is turned, positive where its sitter looks further left. [rad]"""
        return self.frame.angle_rad

    @property
    def input_a(self) -> Fraction:
        """What it takes of its circuit: its supply's input, or its share of one. [A]"""
        return self.kind.input_a * self.share

    @property
    def continuous_a(self) -> Fraction:
        """The part of that which lasts. [A]"""
        return self.kind.continuous_a * self.share

    @property
    def clear(self) -> Rect | None:
        """The clear zone, in its frame, None where none was measured. [m]"""
        zone = self.kind.clear
        if zone is None:
            return None
        u_m, v_m = self.spot
        return grid_rect(
            u_m - zone.width_m / 2,
            u_m + zone.width_m / 2,
            v_m + zone.from_m,
            v_m + zone.to_m,
        )

    @property
    def lead_from(self) -> Point:
        """Where the chair's own lead, and a link, leave it, in the room. [m]"""
        right_m, forward_m = self.kind.lead_from
        place = (on_grid(self.spot[0] + right_m), on_grid(self.spot[1] + forward_m))
        return self.frame.point(place)

    @property
    def base(self) -> Rect:
        """What touches the floor, arm to arm, rear of base to front of base, in its frame. [m]"""
        return grid_rect(
            self.floor.left_m,
            self.floor.right_m,
            self.floor.back_m,
            self.spot[1] + self.kind.depth_m,
        )

    @property
    def reclined(self) -> Rect:
        """Arm to arm, from the reclined headrest to the end of the reclined footrest, in its frame.
        [m]"""
        return grid_rect(
            self.floor.left_m,
            self.floor.right_m,
            self.spot[1] - self.kind.back_travel_m,
            self.floor.front_m,
        )

    @property
    def cushion(self) -> Rect:
        """The cushion over its whole travel, rear of base to the end of the footrest, in its frame.
        [m]"""
        half_m = self.kind.seat_width_m / 2
        u_m = self.spot[0]
        return Rect(
            left_m=u_m - half_m,
            right_m=u_m + half_m,
            back_m=self.floor.back_m,
            front_m=self.floor.front_m,
        )

    def outline(self, part: Rect) -> Outline:
        """Return the room's outline of a rectangle of its floor, tapered where it is. [m]"""
        if self.tapered and self.cone is not None:
            return self.frame.outline(self.cone.part_of(part.outline))
        return self.frame.outline(part)


@dataclass(frozen=True, slots=True, kw_only=True)
class SeatedTable:
    """A console or table where it stands in its row; ``rect`` is its floor, in its frame. [m]"""

    kind: TableKind
    row: str
    rect: Rect
    frame: Frame

    @property
    def outline(self) -> Outline:
        """Its floor in the room. [m]"""
        return self.frame.outline(self.rect)


@dataclass(frozen=True, slots=True, kw_only=True)
class SeatedRow:
    """A row where it stands, chairs from the left.

    ``left_m`` and ``right_m`` are its ends in its ``frame``: the room's own where it looks straight
    at the screen. Of a row on an arc they are what it would be straight. ``pieces`` are its seats,
    tables and gaps, from the left. ``riser`` is the id of the riser that most of its bases' floor
    is on, None for the floor. [m]
    """

    row: Row
    chairs: tuple[SeatedChair, ...]
    tables: tuple[SeatedTable, ...]
    pieces: tuple[Slot, ...]
    left_m: float
    right_m: float
    riser: str | None
    frame: Frame = ROOM

    @property
    def is_square(self) -> bool:
        """True for a straight row that looks straight at the screen."""
        return self.frame.is_room and self.row.curve is None

    @property
    def y_m(self) -> float:
        """Where the upright headrests are, ahead, in its frame. [m]"""
        return self.row.headrest_to_wall_m if self.frame.is_room else 0.0

    @property
    def powered(self) -> tuple[SeatedChair, ...]:
        """The chairs that need a feed, from the left."""
        return tuple(chair for chair in self.chairs if chair.kind.takes_power)

    @property
    def back_travel_m(self) -> float:
        """The most that any of its headrests moves back. [m]"""
        return max(chair.kind.back_travel_m for chair in self.chairs)

    @property
    def base(self) -> Rect:
        """The rectangle of the room around all its bases, tables among them. [m]"""
        return bounds(self.bases)

    @property
    def reclined(self) -> Rect:
        """The rectangle of the room around it, reclined. [m]"""
        return bounds(self.swept)

    @property
    def bases(self) -> tuple[Outline, ...]:
        """The bases and tables in the room, neighbors alike as one. [m]"""
        return tuple(self._outlines(lambda chair: chair.base))

    @property
    def swept(self) -> tuple[Outline, ...]:
        """What it takes of the room reclined, tables too, neighbors alike as one. [m]"""
        return tuple(self._outlines(lambda chair: chair.reclined))

    def _outlines(self, part: Callable[[SeatedChair], Rect]) -> Iterator[Outline]:
        if self.row.curve is not None:
            yield from (chair.outline(part(chair)) for chair in self.chairs)
        else:
            rects = [part(chair) for chair in self.chairs]
            if self.pieces[0].what == SEAT:
                rects[0] = replace(rects[0], left_m=self.left_m)
            if self.pieces[-1].what == SEAT:
                rects[-1] = replace(rects[-1], right_m=self.right_m)
            yield from map(self.frame.outline, _joined(rects))
        yield from (table.outline for table in self.tables)


def _joined(rects: list[Rect]) -> list[Rect]:
    """Rectangles from the left, those that meet and have one depth as one. [m]"""
    found = rects[:1]
    for rect in rects[1:]:
        last = found[-1]
        same = (last.back_m, last.front_m) == (rect.back_m, rect.front_m)
        if same and micrometers(rect.left_m) <= micrometers(last.right_m):
            found[-1] = grid_rect(last.left_m, rect.right_m, rect.back_m, rect.front_m)
        else:
            found.append(rect)
    return found
