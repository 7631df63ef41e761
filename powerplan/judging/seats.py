"""Every chair and table of a row where the spec puts it, and the floor a chair sweeps."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from powerplan.judging.convex import Convex, Side, cut_by, hull, pieces, without
from powerplan.judging.standing import TABLE, Placed, Pose
from powerplan.model.geometry import Point
from powerplan.model.lengths import micrometers
from powerplan.model.spec import ChairKind, PlanSpec, Row, TableKind


@dataclass(frozen=True, slots=True, kw_only=True)
class Seat:
    """A chair where the spec puts it, in the frame of ``pose``. ``halves`` are from its middle line
    out to the sides of its arms. ``floor`` is all that it sweeps, ``must`` its own share of it;
    ``parts`` are moving parts too low for a cord, and ``added`` floor that its parts take beyond
    the chair. [m]"""

    id: str
    number: int
    row: Row
    kind: ChairKind
    pose: Pose
    halves: tuple[float, float]
    cushion_m: float
    lines: tuple[Side, ...]
    floor: tuple[Convex, ...]
    must: tuple[Convex, ...]
    parts: tuple[Convex, ...]
    added: tuple[Convex, ...]

    @property
    def input_a(self) -> Fraction:
        """Its load: what its supply takes, by halves where it shares one with a neighbor. [A]"""
        return self.kind.input_a / self._mates

    @property
    def continuous_a(self) -> Fraction:
        """The part of its load that lasts. [A]"""
        return self.kind.continuous_a / self._mates

    @property
    def _mates(self) -> int:
        return 1 + sum(self.number in pair for pair in self.row.shared_supplies)

    @property
    def clear(self) -> Convex | None:
        """The clear zone on the floor, None where there is none. [m]"""
        zone = self.kind.clear
        if zone is None:
            return None
        half_m = zone.width_m / 2
        return self.pose.box(-half_m, half_m, zone.from_m, zone.to_m)

    @property
    def lead_from(self) -> Point:
        """Where its lead leaves it. [m]"""
        return self.pose.at(*self.kind.lead_from)


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A console or table where it stands; ``passed_under``: a cord may lie under it. [m]"""

    id: str
    floor: Convex
    pose: Pose
    half_m: float
    from_m: float
    to_m: float
    passed_under: bool


def lay_seat(row: Row, kind: ChairKind, one: Placed, number: int, needed_m: float) -> Seat:
    """Return a chair in its block, the parts of its mechanism with it. [m]"""
    block, curve = one.block, row.curve
    lines = one.lines if curve is not None and curve.touch == "back" else ()
    halves = block.whole if curve is None else block.share

    def swept(sides: tuple[float, float]) -> tuple[Convex, ...]:
        box = one.pose.box(-sides[0], sides[1], kind.rear_of_base_m, kind.reclined_reach_m)
        return pieces(cut_by(box, lines))

    shapes = [
        (part, shape)
        for part in kind.parts
        for outline in part.outlines
        if (shape := hull(one.pose.at(u, v) for u, v in outline)) is not None
    ]
    low = [shape for part, shape in shapes if not is_open(part.least_gap_m, needed_m)]
    floor = swept(halves)
    added = [left for _, shape in shapes for left in without(shape, floor)]
    return Seat(
        id=f"{row.id}{number}",
        number=number,
        row=row,
        kind=kind,
        pose=one.pose,
        halves=halves,
        cushion_m=block.middle_m,
        lines=lines,
        floor=floor,
        must=swept(block.share),
        parts=tuple(low),
        added=tuple(added),
    )


def lay_tables(
    spec: PlanSpec, row: Row, placed: tuple[Placed, ...], needed_m: float
) -> Iterable[Table]:
    """Give every table of a row where it stands. [m]"""
    kinds = {table.id: table for table in spec.tables}
    back = row.curve is not None and row.curve.touch == "back"
    for one in placed:
        if one.block.what == TABLE and one.block.kind in kinds:
            kind: TableKind = kinds[one.block.kind]
            half_m = one.block.middle_m / 2
            box = one.pose.box(-half_m, half_m, kind.rear_m, kind.front_m)
            floor = cut_by(box, one.lines if back else ())
            if floor is not None:
                yield Table(
                    id=kind.id,
                    floor=floor,
                    pose=one.pose,
                    half_m=half_m,
                    from_m=kind.rear_m,
                    to_m=kind.front_m,
                    passed_under=is_open(kind.under_m, needed_m),
                )


def is_open(gap_m: float | None, needed_m: float) -> bool:
    """True for a gap that was measured and lets a cord through. [m]"""
    return gap_m is not None and micrometers(gap_m) >= micrometers(needed_m)
