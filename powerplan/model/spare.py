"""What is left over of a cord, and how it is coiled."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from powerplan.model.geometry import Point
from powerplan.model.lengths import at_mark_m, micrometers
from powerplan.model.plan import Cord


def left_over_m(bought_m: float, length_m: float) -> float:
    """Return how much of a cord does not lie on its way.

    Parameters
    ----------
    bought_m : float
        What the cord measures. [m]
    length_m : float
        What of it lies on its way. [m]
    """
    return (micrometers(bought_m) - micrometers(length_m)) / 1e6


def spare_told_m(bought_m: float, length_m: float, units: str) -> float:
    """Return what is printed of a cord as left over: what is printed of its length, less what is
    printed of what lies. [m]

    Parameters
    ----------
    bought_m : float
        What the cord measures. [m]
    length_m : float
        What of it lies on its way. [m]
    units : str
        ft-in, in, mm or m.
    """
    return max(0.0, at_mark_m(bought_m, units) - at_mark_m(length_m, units))


def path_length_m(path: Sequence[Point]) -> float:
    """Return how long straight pieces from point to point are together. [m]"""
    return math.fsum(math.dist(*piece) for piece in pairwise(path))


def loop_m(width_m: float, depth_m: float) -> float:
    """Return how much cord one loop of an oval takes: two half turns and two straight sides.

    Parameters
    ----------
    width_m, depth_m : float
        The oval; it is at least as wide as deep. [m]
    """
    return math.pi * depth_m + 2 * (width_m - depth_m)


def spare_m(cord: Cord) -> float:
    """Return how much of a cord does not lie on its way. [m]"""
    return left_over_m(cord.bought_m, cord.length_m)


def longer_by_m(cord: Cord, slack_factor: float) -> float:
    """Return how much longer the way of a lead or extension may get before it is too short.

    Parameters
    ----------
    cord : Cord
        A cord of which (way + slack) x slack factor is needed. [m]
    slack_factor : float
        What the way and its slack are multiplied by, 1 or more.
    """
    spare_um = micrometers(cord.bought_m) - micrometers(cord.needed_m)
    return max(0, math.floor(spare_um / slack_factor)) / 1e6


def tail_m(cord: Cord) -> float:
    """Return how far a cord goes from its way to its coil, one way. [m]"""
    return path_length_m(cord.tail_m)


def coiled_m(cord: Cord) -> float:
    """Return how much of a cord lies in its coil: less what goes there and comes back. [m]"""
    return spare_m(cord) - 2 * tail_m(cord)


def loops_of(cord: Cord) -> int:
    """Return in how many loops the spare of a parked cord lies; 1 where its oval is not known."""
    if cord.coil_m is None:
        return 1
    return max(1, round(coiled_m(cord) / loop_m(max(cord.coil_m), min(cord.coil_m))))
