"""Distances between a box's lid or cut-out and everything that may not be cut."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from powerplan.judging.case import LENIENT_M, Case
from powerplan.judging.shapes import gap_m, room_left_m, without
from powerplan.model.geometry import Point, Rect
from powerplan.model.lengths import MICROMETRE_M
from powerplan.model.plan import Box
from powerplan.model.spec import Area, Framing, Riser

_MOST_JOISTS = 1000


@dataclass(frozen=True, slots=True, kw_only=True)
class Cutting:
    """Everything that bears on cutting one floor box in. ``edges`` are the framing's own. [m]"""

    zone: Rect
    deck: str | None
    framing: Framing
    edges: Rect
    lid_width_m: float
    lid_depth_m: float
    cut_width_m: float
    cut_depth_m: float
    margin_m: float
    no_cut: tuple[Area, ...]
    obstacles: tuple[Area, ...]
    risers: tuple[Riser, ...]

    @property
    def around_m(self) -> float:
        """The length of the clear zone's outline. [m]"""
        return 2 * (self.zone.width_m + self.zone.depth_m)

    def cut(self, middles: Rect) -> Rect:
        """Return the floor that is cut for all those middles together. [m]"""
        return _spread(middles, self.cut_width_m, self.cut_depth_m)

    def lid_room_m(self, middles: Rect) -> float:
        """Return what is left between lid and the sides of the clear zone; negative: out. [m]"""
        return room_left_m(self.zone, _spread(middles, self.lid_width_m, self.lid_depth_m))

    def obstacles_m(self, middles: Rect) -> Iterator[tuple[str, float]]:
        """Give every obstacle, and its distance from the lid. [m]"""
        lid = _spread(middles, self.lid_width_m, self.lid_depth_m)
        for area in self.obstacles:
            yield area.id, gap_m(lid, area.rect)

    def no_cut_m(self, middles: Rect) -> Iterator[tuple[str, float]]:
        """Give every area where nothing is cut, and its distance from the cut-out. [m]"""
        for area in self.no_cut:
            yield area.id, gap_m(self.cut(middles), area.rect)

    def edges_m(self, middles: Rect) -> Iterator[tuple[str, float]]:
        """Give every riser, and the distance from the cut-out to its edge. [m]"""
        for riser in self.risers:
            if riser.id == self.deck:
                yield riser.id, room_left_m(riser.rect, self.cut(middles))
            else:
                yield riser.id, gap_m(self.cut(middles), riser.rect)

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

    def allowed(self) -> tuple[Rect, ...]:
        """Return the floor on which the middle may stand, in pieces that do not overlap. [m]"""
        wide, deep = self.cut_width_m / 2, self.cut_depth_m / 2
        start = _shrunk(self.zone, self.lid_width_m / 2, self.lid_depth_m / 2)
        if start is None:
            return ()
        holes = [
            _wider(area.rect, wide + self.margin_m, deep + self.margin_m) for area in self.no_cut
        ]
        holes += [
            _wider(area.rect, self.lid_width_m / 2, self.lid_depth_m / 2) for area in self.obstacles
        ]
        for riser in self.risers:
            if riser.id != self.deck:
                holes.append(_wider(riser.rect, wide + self.margin_m, deep + self.margin_m))
                continue
            inner = _shrunk(riser.rect, wide + self.margin_m, deep + self.margin_m)
            holes.extend([start] if inner is None else without(_wider(start, 1.0, 1.0), [inner]))
        if joists_known(self.framing) and self.framing.build == "joists":
            holes.extend(self._joist_bands(start))
        return without(start, holes)

    def _joist_bands(self, around: Rect) -> Iterator[Rect]:
        spacing_m, width_m = self.framing.spacing_m or 1.0, self.framing.joist_width_m or 0.0
        across = self.framing.joists_run == "back to screen"
        cut_m = self.cut_width_m if across else self.cut_depth_m
        half_m = width_m / 2 + cut_m / 2 + self.margin_m
        low_m, high_m = self._across(around)
        lowest = max(0, math.ceil((low_m - half_m - self._first_m) / spacing_m))
        highest = math.floor((high_m + half_m - self._first_m) / spacing_m)
        far = _wider(around, 1.0, 1.0)
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
    if zone is None:
        return None
    spec, rules = case.plan.spec, case.rules
    lid, cut = spec.new_work.lid, spec.new_work.cut_out
    usual_lid_m, usual_cut_m = rules.length_m("usual_lid"), rules.length_m("usual_cut_out")
    deck = case.floor.deck_at((box.x_m, box.y_m))
    return Cutting(
        zone=zone,
        deck=None if deck is None else deck.id,
        framing=spec.floor if deck is None else deck.framing,
        edges=case.floor.room if deck is None else deck.rect,
        lid_width_m=usual_lid_m if lid is None else lid.width_m,
        lid_depth_m=usual_lid_m if lid is None else lid.depth_m,
        cut_width_m=usual_cut_m if cut is None else cut.width_m,
        cut_depth_m=usual_cut_m if cut is None else cut.depth_m,
        margin_m=spec.new_work.framing_margin_m,
        no_cut=spec.no_cut,
        obstacles=spec.obstacles,
        risers=spec.risers,
    )


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
        if min(apart_m, framing.spacing_m - apart_m) < band_m - LENIENT_M - MICROMETRE_M:
            return False
    return True


def _spread(middles: Rect, width_m: float, depth_m: float) -> Rect:
    return _wider(middles, width_m / 2, depth_m / 2)


def _wider(rect: Rect, aside_m: float, ahead_m: float) -> Rect:
    return Rect(
        left_m=rect.left_m - aside_m,
        right_m=rect.right_m + aside_m,
        back_m=rect.back_m - ahead_m,
        front_m=rect.front_m + ahead_m,
    )


def _shrunk(rect: Rect, aside_m: float, ahead_m: float) -> Rect | None:
    smaller = _wider(rect, -aside_m, -ahead_m)
    return smaller if smaller.width_m > 0.0 and smaller.depth_m > 0.0 else None
