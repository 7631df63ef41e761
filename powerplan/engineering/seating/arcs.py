"""Rows on an arc that is hollow toward the screen."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from powerplan.engineering.seating.frames import Frame, Outline, cut, left_of_m
from powerplan.model.geometry import Point, Rect


@dataclass(frozen=True, slots=True, kw_only=True)
class Cone:
    """The floor between two lines that meet at the arc's middle: what is a block's own, by the
    corners at which it touches its neighbors. In the block's frame. [m]"""

    middle: Point
    left: Point
    right: Point

    def moved_left(self, by_m: float) -> Cone:
        """Return the same cone seen from a frame that is moved to the right. [m]"""
        (x, y), (left, left_y), (right, right_y) = self.middle, self.left, self.right
        return Cone(middle=(x - by_m, y), left=(left - by_m, left_y), right=(right - by_m, right_y))

    def part_of(self, outline: Outline) -> Outline:
        """Return what of a convex outline, counter-clockwise, lies between the lines. [m]"""
        return cut(cut(outline, self.right, self.middle), self.middle, self.left)

    def spare_m(self, rect: Rect) -> float:
        """Return the least way from a rectangle's corners out to the lines; negative: it sticks
        out. [m]"""
        return min(
            min(
                left_of_m(self.right, self.middle, corner),
                left_of_m(self.middle, self.left, corner),
            )
            for corner in rect.outline
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A seat, table or gap on an arc: the frame of its middle on the line of the headrests, and
    the floor that is its own. [m, rad]"""

    frame: Frame
    cone: Cone


def sweep_rad(widths_m: Sequence[float], radius_m: float) -> float:
    """Return the angle that blocks take on an arc as chords of its circle.

    Parameters
    ----------
    widths_m : sequence of float
        Each block's width, less than twice the radius. [m]
    radius_m : float
        From the arc's middle to the corners. [m]

    Returns
    -------
    float
        Their angle together. [rad]
    """
    return math.fsum(2 * math.asin(width_m / (2 * radius_m)) for width_m in widths_m)


def blocks_on_arc(
    axis: Frame, widths_m: Sequence[float], radius_m: float, touch_m: float
) -> tuple[Block, ...]:
    """Return where the blocks of a curved row stand, from the left.

    Each block is a chord; neighbors touch at corners on the circle, and the row lies evenly on
    both sides of its axis.

    Parameters
    ----------
    axis : Frame
        The row's reference point, and where its axis looks. [m, rad]
    widths_m : sequence of float
        Each block's width, from the left. [m]
    radius_m : float
        From the arc's middle to the corners where neighbors touch. [m]
    touch_m : float
        How far ahead of the line of the headrests these corners are. [m]

    Returns
    -------
    tuple of Block
        One for each width. [m, rad]
    """
    middle = axis.moved(0.0, radius_m + touch_m)
    at_rad = -sweep_rad(widths_m, radius_m) / 2
    blocks = []
    for width_m in widths_m:
        theta = sweep_rad((width_m,), radius_m)
        chord_m = radius_m * math.cos(theta / 2)
        turned = Frame(x_m=middle.x_m, y_m=middle.y_m, angle_rad=axis.angle_rad).moved(
            0.0, 0.0, at_rad + theta / 2
        )
        cone = Cone(
            middle=(0.0, touch_m + chord_m),
            left=(-width_m / 2, touch_m),
            right=(width_m / 2, touch_m),
        )
        blocks.append(Block(frame=turned.moved(0.0, -(chord_m + touch_m)), cone=cone))
        at_rad += theta
    return tuple(blocks)
