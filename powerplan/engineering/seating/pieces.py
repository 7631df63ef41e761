"""What stands in a row, from the left, and which arms belong to which seat."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from powerplan.model.seats import ARM, GAP, SEAT, ChairKind, Piece, Row, plain_pieces


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """A seat with its arms, a table or a gap; ``seat`` counts seats from the left, 0 for what is
    none. ``at_m`` is where the cushion, table or gap starts, from the row's left end. An arm that
    two seats share is in both. [m]"""

    what: str
    kind: str | None
    seat: int
    at_m: float
    width_m: float
    left_arm: Piece | None = None
    right_arm: Piece | None = None
    shares_left: bool = False
    shares_right: bool = False

    @property
    def left_arm_m(self) -> float:
        """The width of the arm on its left; 0 where there is none. [m]"""
        return 0.0 if self.left_arm is None else self.left_arm.width_m

    @property
    def right_arm_m(self) -> float:
        """The width of the arm on its right; 0 where there is none. [m]"""
        return 0.0 if self.right_arm is None else self.right_arm.width_m

    @property
    def left_half_m(self) -> float:
        """Its middle to its left end, half of a shared arm taken in. [m]"""
        return self.width_m / 2 + self.left_arm_m * (0.5 if self.shares_left else 1.0)

    @property
    def right_half_m(self) -> float:
        """Its middle to its right end, half of a shared arm taken in. [m]"""
        return self.width_m / 2 + self.right_arm_m * (0.5 if self.shares_right else 1.0)

    @property
    def block_m(self) -> float:
        """Its whole width, half of a shared arm taken in. [m]"""
        return self.left_half_m + self.right_half_m


def pieces_of(row: Row, kind: ChairKind) -> tuple[Piece, ...]:
    """Return what stands in a row, from the left.

    Parameters
    ----------
    row : Row
        The row. [m]
    kind : ChairKind
        Its kind of chair, where it is a plain row. [m]
    """
    return row.pieces or plain_pieces(kind, row.seats, row.no_arm_between)


def width_of(row: Row, kind: ChairKind) -> float:
    """Return a row's whole width. [m]

    Parameters
    ----------
    row : Row
        The row. [m]
    kind : ChairKind
        Its kind of chair, where it is a plain row. [m]
    """
    if row.pieces:
        return sum(piece.width_m for piece in row.pieces)
    arms = row.seats + 1 - len(row.no_arm_between)
    return row.seats * kind.seat_width_m + arms * kind.arm_width_m


def slots_of(pieces: Sequence[Piece], left_m: float) -> tuple[Slot, ...]:
    """Return the seats, tables and gaps of a row, each seat with its arms.

    Parameters
    ----------
    pieces : sequence of Piece
        What stands in the row, from the left. [m]
    left_m : float
        Where its left end is. [m]
    """
    return tuple(_slots(pieces, left_m))


def _slots(pieces: Sequence[Piece], left_m: float) -> Iterator[Slot]:
    at_m, seat = left_m, 0
    for n, piece in enumerate(pieces):
        if piece.what == SEAT:
            seat += 1
            left, right = _arm(pieces, n - 1), _arm(pieces, n + 1)
            yield Slot(
                what=SEAT,
                kind=piece.kind,
                seat=seat,
                at_m=at_m,
                width_m=piece.width_m,
                left_arm=left,
                right_arm=right,
                shares_left=left is not None and _is_seat(pieces, n - 2),
                shares_right=right is not None and _is_seat(pieces, n + 2),
            )
        elif piece.what != ARM:
            yield Slot(what=piece.what, kind=piece.kind, seat=0, at_m=at_m, width_m=piece.width_m)
        at_m += piece.width_m


def _arm(pieces: Sequence[Piece], n: int) -> Piece | None:
    return pieces[n] if 0 <= n < len(pieces) and pieces[n].what == ARM else None


def _is_seat(pieces: Sequence[Piece], n: int) -> bool:
    return 0 <= n < len(pieces) and pieces[n].what == SEAT


__all__ = ["ARM", "GAP", "SEAT", "Slot", "pieces_of", "slots_of", "width_of"]
