"""Distances between a box's lid or cut-out and everything that may not be cut."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from powerplan.judging import outlines, shapes
from powerplan.judging.case import LENIENT_M, Case
from powerplan.judging.convex import (
    Convex,
    Segment,
    common,
    edges,
    hull,
    moved_in,
    of_rect,
    pieces,
    room_left_m,
    separation_m,
    without,
)
from powerplan.judging.seats import Seat
from powerplan.judging.shapes import wider
from powerplan.model.geometry import Point, Rect
from powerplan.model.lengths import MICROMETER_M
from powerplan.model.plan import Box
from powerplan.model.spec import Area, Framing, Riser

_MOST_JOISTS = 1000


@dataclass(frozen=True, slots=True, kw_only=True)
class Cutting:
    """Everything that bears on cutting one floor box in. ``edges`` are the framing's own;
    ``outline`` the room's, empty for a row square to a room of four walls. [m]"""

    zone: Convex
    outline: tuple[Point, ...]
    deck: str | None
    framing: Framing
    edges: Rect
    lid_width_m: float
    lid_depth_m: float
    cut_width_m: float
    cut_depth_m: float
    margin_m: float
    no_cut: tuple[Area, ...]
    obstacles: tuple[tuple[str, Convex], ...]
    risers: tuple[Riser, ...]

    def cut(self, middles: Rect) -> Rect:
        """Return the floor that is cut for all those middles together. [m]"""
        return _spread(middles, self.cut_width_m, self.cut_depth_m)

    def lid(self, middles: Rect) -> Convex:
        """Return the floor under the lid for all those middles together. [m]"""
        found = of_rect(_spread(middles, self.lid_width_m, self.lid_depth_m))
        assert found is not None, "a lid has a size"
        return found

    def lid_room_m(self, middles: Rect) -> float:
        """Return what is left between lid and the sides of the clear zone; negative: out. [m]"""
        return room_left_m(self.zone, self.lid(middles))

    def lid_in_room_m(self, middles: Rect) -> float:
        """Return what is left between lid and walls; infinite where no wall can be near. [m]"""
        if not self.outline:
            return math.inf
        return outlines.room_left_m(self.outline, self.lid(middles))

    def obstacles_m(self, middles: Rect) -> Iterator[tuple[str, float]]:
        """Give every obstacle and low moving part, and its distance from the lid. [m]"""
        lid = self.lid(middles)
        for name, piece in self.obstacles:
            yield name, separation_m(lid, piece)

    def no_cut_m(self, middles: Rect) -> Iterator[tuple[str, float]]:
        """Give every area where nothing is cut, and its distance from the cut-out. [m]"""
        for area in self.no_cut:
            yield area.id, shapes.gap_m(self.cut(middles), area.rect)

    def edges_m(self, middles: Rect) -> Iterator[tuple[str, float]]:
        """Give every riser, and the distance from the cut-out to its edge. [m]"""
        for riser in self.risers:
            if riser.id == self.deck:
                yield riser.id, shapes.room_left_m(riser.rect, self.cut(middles))
            else:
                yield riser.id, shapes.gap_m(self.cut(middles), riser.rect)

    def joists_m(self, middles: Rect) -> float:
        """Return the distance from the cut-out to the nearest joist; infinite on a slab. [m]"""
        if self.framing.build == "slab":
            return math.inf
        low_m, high_m = self._across(self.cut(middles))
        width_m, spacing_m = self.framing.joist_width_m or 0.0, self.framing.spacing_m or 1.0
        shares = ((side - self._first_m) / spacing_m for side in (low_m, high_m))
        near = {k for share in shares for k in (math.floor(share), math.ceil(share))}
        apart = math.inf
        for k in (k for k in near if k >= 0):
            at_m = self._first_m + k * spacing_m
            apart = min(apart, max(low_m - at_m, at_m - high_m) - width_m / 2)
        return apart

    def allowed(self) -> tuple[Convex, ...]:
        """Return the floor on which the middle may stand, in pieces that do not overlap. [m]

        The lid stays square to the room, so a turned side of the clear zone keeps the middle off
        by as far as the lid reaches toward it.
        """
        wide, deep = self.cut_width_m / 2 + self.margin_m, self.cut_depth_m / 2 + self.margin_m
        lid = (self.lid_width_m / 2, self.lid_depth_m / 2)
        start = moved_in(
            self.zone, (lid[0] * abs(x) + lid[1] * abs(y) for x, y, _ in self.zone.sides)
        )
        for riser in (riser for riser in self.risers if riser.id == self.deck):
            inner = of_rect(wider(riser.rect, -wide, -deep)) if _holds(riser, wide, deep) else None
            start = None if start is None or inner is None else common(start, inner)
        if start is None:
            return ()
        holes = [of_rect(wider(area.rect, wide, deep)) for area in self.no_cut]
        holes += [_around(piece, lid) for _, piece in self.obstacles]
        holes += [
            of_rect(wider(riser.rect, wide, deep)) for riser in self.risers if riser.id != self.deck
        ]
        if joists_known(self.framing) and self.framing.build == "joists":
            holes += [of_rect(band) for band in self._joist_bands(_bounds(start))]
        holes += [_under(wall, lid) for wall in edges(self.outline)]
        left = without(start, pieces(*holes))
        if not self.outline:
            return left
        return tuple(piece for piece in left if outlines.inside(self.outline, piece.middle))

    @property
    def by_a_slant(self) -> bool:
        """True where a wall at a slant keeps the lid off part of the clear zone."""
        lid = (self.lid_width_m / 2, self.lid_depth_m / 2)
        slanted = (wall for wall in edges(self.outline) if not _is_square(wall))
        bands = (_under(wall, lid) for wall in slanted)
        return any(band is not None and separation_m(band, self.zone) < 0.0 for band in bands)

    def _joist_bands(self, around: Rect) -> Iterator[Rect]:
        spacing_m, width_m = self.framing.spacing_m or 1.0, self.framing.joist_width_m or 0.0
        across = self.framing.joists_run == "back to screen"
        cut_m = self.cut_width_m if across else self.cut_depth_m
        half_m = width_m / 2 + cut_m / 2 + self.margin_m
        low_m, high_m = self._across(around)
        lowest = max(0, math.ceil((low_m - half_m - self._first_m) / spacing_m))
        highest = math.floor((high_m + half_m - self._first_m) / spacing_m)
        far = wider(around, 1.0, 1.0)
        spans = [(k, k) for k in range(lowest, min(highest, lowest + _MOST_JOISTS) + 1)]
        if spacing_m <= 2 * half_m and spans:
            spans = [(lowest, highest)]
        for start, end in spans:
            start_m = self._first_m + start * spacing_m - half_m
            end_m = self._first_m + end * spacing_m + half_m
            yield Rect(
                left_m=start_m if across else far.left_m,
                right_m=end_m if across else far.right_m,
                back_m=far.back_m if across else start_m,
                front_m=far.front_m if across else end_m,
            )

    @property
    def _first_m(self) -> float:
        across = self.framing.joists_run == "back to screen"
        edge_m = self.edges.left_m if across else self.edges.back_m
        return edge_m + (self.framing.first_joist_m or 0.0)

    def _across(self, rect: Rect) -> tuple[float, float]:
        if self.framing.joists_run == "back to screen":
            return rect.left_m, rect.right_m
        return rect.back_m, rect.front_m


def _is_square(wall: Segment) -> bool:
    (x1, y1), (x2, y2) = wall
    return x1 == x2 or y1 == y2


def joists_known(framing: Framing) -> bool:
    """True for a slab, and for joists of which everything is known."""
    if framing.build != "joists":
        return framing.build == "slab"
    parts = (framing.joists_run, framing.spacing_m, framing.first_joist_m, framing.joist_width_m)
    return None not in parts


def read_cutting(case: Case, box: Box) -> Cutting | None:
    """Return what bears on a floor box; None where its chair has no clear zone, or is none."""
    seat = case.seats.get(box.under)
    zone = None if seat is None else seat.clear
    if seat is None or zone is None:
        return None
    spec, rules = case.plan.spec, case.rules
    lid, cut = spec.new_work.lid, spec.new_work.cut_out
    usual_lid_m, usual_cut_m = rules.length_m("usual_lid"), rules.length_m("usual_cut_out")
    deck = case.floor.deck_at((box.x_m, box.y_m))
    return Cutting(
        zone=zone,
        outline=() if _square(case, seat) else case.floor.outline,
        deck=None if deck is None else deck.id,
        framing=spec.floor if deck is None else deck.framing,
        edges=case.floor.room if deck is None else deck.rect,
        lid_width_m=usual_lid_m if lid is None else lid.width_m,
        lid_depth_m=usual_lid_m if lid is None else lid.depth_m,
        cut_width_m=usual_cut_m if cut is None else cut.width_m,
        cut_depth_m=usual_cut_m if cut is None else cut.depth_m,
        margin_m=spec.new_work.framing_margin_m,
        no_cut=spec.no_cut,
        obstacles=(
            *(
                (f"obstacle {area.id}", piece)
                for area in spec.obstacles
                for piece in pieces(of_rect(area.rect))
            ),
            *((f"a moving part of chair {seat.id}", part) for part in seat.parts),
        ),
        risers=spec.risers,
    )


def _square(case: Case, seat: Seat) -> bool:
    """True for a chair square to a room of four walls: its row keeps its lid off them."""
    return seat.pose.angle_rad == 0.0 and not case.plan.spec.room.walls


def second_mark_is_clear(cutting: Cutting, mark: Point, second: Point) -> bool | None:
    """Return whether one of two marks is clear wherever the joists lie; None: cannot be told."""
    framing = cutting.framing
    if joists_known(framing) or framing.spacing_m is None or framing.joist_width_m is None:
        return None
    sides = {"back to screen": (0, cutting.cut_width_m), "side to side": (1, cutting.cut_depth_m)}
    runs = [framing.joists_run] if framing.joists_run else list(sides)
    for axis, cut_m in (sides[run] for run in runs):
        band_m = framing.joist_width_m + cut_m + 2 * cutting.margin_m
        apart_m = math.fmod(abs(mark[axis] - second[axis]), framing.spacing_m)
        if min(apart_m, framing.spacing_m - apart_m) < band_m - LENIENT_M - MICROMETER_M:
            return False
    return True


def pair_stays_clear(cutting: Cutting, reach: Rect, second: Point) -> bool | None:
    """Return whether a second mark helps wherever in a rectangle the first one is; None: not known.

    Parameters
    ----------
    cutting : Cutting
        What bears on the box.
    reach : Rect
        Where the first mark may be. [m]
    second : Point
        The other mark. [m]
    """
    ends = ((reach.left_m, reach.back_m), (reach.right_m, reach.front_m))
    told = [second_mark_is_clear(cutting, end, second) for end in ends]
    spacing_m = cutting.framing.spacing_m
    if None in told or spacing_m is None:
        return None
    runs = cutting.framing.joists_run
    axes = (0, 1) if runs is None else ((0,) if runs == "back to screen" else (1,))
    between = [
        [math.floor((end[axis] - second[axis]) / spacing_m) for end in ends] for axis in axes
    ]
    return all(told) and all(low == high for low, high in between)


def _spread(middles: Rect, width_m: float, depth_m: float) -> Rect:
    return wider(middles, width_m / 2, depth_m / 2)


def _holds(riser: Riser, aside_m: float, ahead_m: float) -> bool:
    return riser.rect.width_m > 2 * aside_m and riser.rect.depth_m > 2 * ahead_m


def _around(piece: Convex, lid: tuple[float, float]) -> Convex | None:
    """Every middle whose lid would stand on a piece. [m]"""
    return _under(piece.corners, lid)


def _under(corners: Iterable[Point], lid: tuple[float, float]) -> Convex | None:
    """Every middle whose lid would stand on what is between corners, a wall too. [m]"""
    return hull(
        (x + i * lid[0], y + k * lid[1]) for x, y in corners for i in (-1, 1) for k in (-1, 1)
    )


def _bounds(piece: Convex) -> Rect:
    return Rect(
        left_m=min(x for x, _ in piece.corners),
        right_m=max(x for x, _ in piece.corners),
        back_m=min(y for _, y in piece.corners),
        front_m=max(y for _, y in piece.corners),
    )
