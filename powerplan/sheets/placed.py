"""Chairs as they stand, for drawings: outlines of a chair that is turned, or of its own kind."""

from __future__ import annotations

import math
from dataclasses import dataclass

from powerplan.model.geometry import Point
from powerplan.model.plan import PlacedChair, Plan
from powerplan.model.seats import SEAT
from powerplan.model.spec import ChairKind, Row


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A chair where it stands, and its kind. [m]"""

    chair: PlacedChair
    kind: ChairKind

    def at(self, right_m: float, ahead_m: float) -> Point:
        """Return the room's point for a place in the chair frame. [m]"""
        sine, cosine = math.sin(self.chair.angle_rad), math.cos(self.chair.angle_rad)
        return (
            self.chair.x_m + right_m * cosine - ahead_m * sine,
            self.chair.y_m + right_m * sine + ahead_m * cosine,
        )

    def seen_from(self, point: Point) -> Point:
        """Return a point of the room in the chair frame: to its right, and ahead of it. [m]"""
        right, ahead = point[0] - self.chair.x_m, point[1] - self.chair.y_m
        sine, cosine = math.sin(self.chair.angle_rad), math.cos(self.chair.angle_rad)
        return (right * cosine + ahead * sine, ahead * cosine - right * sine)

    def outline(self, half_m: float, from_m: float, to_m: float) -> tuple[Point, ...]:
        """Return four corners, ``half_m`` to each side, between two places ahead. [m]"""
        corners = ((-half_m, from_m), (half_m, from_m), (half_m, to_m), (-half_m, to_m))
        return tuple(self.at(right, ahead) for right, ahead in corners)

    @property
    def half_m(self) -> float:
        """Its middle to the middle of an arm, about what neighbors share. [m]"""
        return self.kind.seat_width_m / 2 + self.kind.arm_width_m / 2


def is_plain(row: Row) -> bool:
    """Return True for a straight row of one kind that looks straight at the screen."""
    return not row.pieces and row.angle_rad == 0.0 and row.curve is None


def placed_of(plan: Plan, row: Row) -> tuple[Placed, ...]:
    """Return a row's chairs from the left, each with its own kind.

    Parameters
    ----------
    plan : Plan
        The plan.
    row : Row
        One of its rows.
    """
    seats = [piece.kind for piece in row.pieces if piece.what == SEAT] or [row.chair] * row.seats
    chairs = sorted((c for c in plan.chairs if c.row == row.id), key=lambda chair: chair.seat)
    known = {kind.id: kind for kind in plan.spec.chairs}
    return tuple(
        Placed(chair=chair, kind=known[kind])
        for chair, kind in zip(chairs, seats, strict=False)
        if kind in known
    )


def chairs_by_row(plan: Plan) -> tuple[str, ...]:
    """Return a line for each row that is no plain one: its kinds, how far it is turned, its arc.

    Parameters
    ----------
    plan : Plan
        The plan.
    """
    return tuple(
        _row_words(row, placed_of(plan, row)) for row in plan.spec.rows if not is_plain(row)
    )


def _row_words(row: Row, chairs: tuple[Placed, ...]) -> str:
    seats = ", ".join(f"{one.chair.id} {one.kind.id}{_without_a_cord(one.kind)}" for one in chairs)
    words = f"Row {row.id}, from the left: {seats}"
    if row.angle_rad:
        words += f"; turned {turn_text(row.angle_rad)}"
    if row.curve is not None:
        words += f"; on an arc, arms touching at the {row.curve.touch}"
    return f"{words}."


def _without_a_cord(kind: ChairKind) -> str:
    """Why no cord has to reach a chair; nothing where one has to."""
    if kind.takes_power:
        return ""
    return " (runs from a pack)" if kind.powered else " (no motor)"


def turn_text(angle_rad: float) -> str:
    """Return how far something is turned, as sitters look: ``12 deg left``."""
    side = "left" if angle_rad > 0 else "right"
    return f"{abs(math.degrees(angle_rad)):.4g} deg {side}"
