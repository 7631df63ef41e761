"""Chairs and rows as read. See ``spec``."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from powerplan.model.geometry import Point


@dataclass(frozen=True, slots=True, kw_only=True)
class ClearZone:
    """Floor under a seat that stays clear up to ``height_m``, in the chair frame: from and to are
    ahead of the headrest, the width is centered on the chair. [m]"""

    from_m: float
    to_m: float
    width_m: float
    height_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Chain:
    """The chair maker's listed chair-to-chair supply: current through it, how many chairs, and the
    link cord. [A, m]"""

    current_a: Fraction
    chairs: int
    link_m: float
    wire: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class MovingPart:
    """A part of the mechanism from the maker's drawing: floor that it takes, in the chair frame.

    ``outlines`` are the pieces that it sweeps, whole travel, each a simple convex outline;
    ``least_gap_m`` is the least room under it anywhere in the travel, None where it was not
    measured. A part only ever adds floor to the pinch zone: where its least gap is not wide enough
    for a cord, its outlines are cut out of the openings too. [m]
    """

    id: str
    outlines: tuple[tuple[Point, ...], ...]
    least_gap_m: float | None


ELSEWHERE = "elsewhere"


@dataclass(frozen=True, slots=True, kw_only=True)
class Battery:
    """The pack that a chair runs from. ``charged`` is "in place" (its charger stays plugged in at
    the chair) or "elsewhere" (nothing is plugged in while somebody sits). [A]"""

    charger_a: Fraction
    charged: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ChairKind:
    """A kind of chair, measured. Lengths in the chair frame. [m, A]

    ``continuous_a`` is the part of ``input_a`` that lasts three hours or more; where it was not
    said, it is all of it and ``continuous_said`` is False. ``lead_from`` is (right, forward).
    ``powered`` False: no motor, no cord, but it moves by hand all the same. ``measured`` False:
    known from a spec sheet alone; all floor under it is pinch zone, a mark under it provisional.
    ``supply`` names the supply on the floor that feeds it; then the input, the lead and the longer
    leads are that supply's and its wall cord's, and one that two seats share counts once.
    ``longer_leads_m`` are longer ones that its maker sells, rising. ``battery`` is the pack it runs
    from; then the input is the charger's and all of it lasts.
    """

    id: str
    seat_width_m: float
    arm_width_m: float
    depth_m: float
    rear_of_base_m: float
    back_travel_m: float
    reclined_reach_m: float
    clear: ClearZone | None
    arm_gap_m: float | None
    rear_gap_m: float | None
    input_a: Fraction
    continuous_a: Fraction
    continuous_said: bool
    lead_m: float
    lead_wire: str | None
    coupler_a: Fraction | None
    lead_from: Point
    chain: Chain | None
    parts: tuple[MovingPart, ...] = ()
    powered: bool = True
    measured: bool = True
    supply: str | None = None
    longer_leads_m: tuple[float, ...] = ()
    battery: Battery | None = None

    @property
    def takes_power(self) -> bool:
        """True where a cord has to reach it: not by hand, nor on a pack charged elsewhere."""
        return self.powered and (self.battery is None or self.battery.charged != ELSEWHERE)


@dataclass(frozen=True, slots=True, kw_only=True)
class TableKind:
    """A console or table that stands in a row, without a motor. ``rear_m`` and ``front_m`` are
    ahead of the line of the headrests; ``under_m`` is the gap under it, None where it stands on the
    floor or nobody measured. [m]"""

    id: str
    width_m: float
    rear_m: float
    front_m: float
    under_m: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One thing of a row, from the left. ``what`` is arm, seat, table or gap; ``kind`` names the
    chair of a seat or of an arm (the one whose arm gap holds under it), or the table. An arm
    between two seats is one that both share; two arms side by side are each seat's own. [m]"""

    what: str
    kind: str | None
    width_m: float


ARM, SEAT, TABLE, GAP = "arm", "seat", "table", "gap"
"""What a piece of a row can be."""


def plain_pieces(
    kind: ChairKind, seats: int, no_arm_between: tuple[tuple[int, int], ...]
) -> tuple[Piece, ...]:
    """Return what stands in a row of one kind: an arm at each end and between neighbors, less
    those between two seats that share a cushion. [m]"""
    arm = Piece(what=ARM, kind=kind.id, width_m=kind.arm_width_m)
    pieces = [arm]
    for seat in range(1, seats + 1):
        pieces.append(Piece(what=SEAT, kind=kind.id, width_m=kind.seat_width_m))
        if (seat, seat + 1) not in no_arm_between:
            pieces.append(arm)
    return tuple(pieces)


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """A row on an arc that is hollow toward the screen. ``radius_m`` is from the arc's middle to
    the corners where neighbors touch; ``touch`` is front (rectangular arms meet at the front of
    the bases and gape behind) or back (tapered arms meet at the rear of the bases; each seat's
    floor is cut by the line between neighbors). [m]"""

    radius_m: float
    touch: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A row. ``chair`` is its kind, or that of its first seat where kinds are mixed.

    ``no_arm_between`` holds pairs of neighboring seats, counted from the left, that share a
    cushion. ``fastened`` None is unknown and counts as fastened. ``pieces`` is what stands in the
    row, from the left; empty for a plain row of one kind with an arm at each end and between
    neighbors (less ``no_arm_between``). ``headrest_to_wall_m`` and ``center_x_m`` are the place of
    the row's middle on the line of the headrests; ``angle_rad`` turns the row about it, positive
    where sitters look further left. ``curve`` None is straight. ``shared_supplies`` holds pairs of
    neighboring seats that one supply on the floor feeds. [m, rad]
    """

    id: str
    chair: str
    seats: int
    headrest_to_wall_m: float
    center_x_m: float
    no_arm_between: tuple[tuple[int, int], ...]
    fastened: bool | None
    pieces: tuple[Piece, ...] = ()
    angle_rad: float = 0.0
    curve: Curve | None = None
    shared_supplies: tuple[tuple[int, int], ...] = ()

    @property
    def kinds(self) -> tuple[str, ...]:
        """The kinds of chair in it, each once, in the order of their first seats."""
        mixed = (piece.kind for piece in self.pieces if piece.what == SEAT)
        return tuple(dict.fromkeys(kind for kind in mixed if kind)) or (self.chair,)

    def supply_mate(self, seat: int) -> int | None:
        """Return the seat that shares a supply with this one, counted from the left, if any."""
        for left, right in self.shared_supplies:
            if seat in (left, right):
                return right if seat == left else left
        return None
