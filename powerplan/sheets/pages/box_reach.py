"""How far from its mark an outlet may be before a cord that starts there is too short."""

from __future__ import annotations

import math

from powerplan.model.lengths import micrometers
from powerplan.model.plan import Box, Plan
from powerplan.model.spare import longer_by_m
from powerplan.sheets.pages.print_rows import number_m


def cords_allow_m(box: Box, plan: Plan) -> float | None:
    """Return how far from its mark a box may be for all its cords; None where it has none. [m]

    Parameters
    ----------
    box : Box
        The box.
    plan : Plan
        For its cords and the slack factor.
    """
    cords = [cord for cord in plan.cords if cord.from_ == box.id]
    factor = number_m(plan, "slack_factor")
    return min((longer_by_m(cord, factor) for cord in cords), default=None)


def farthest_m(box: Box) -> float:
    """Return how far the farthest corner of the rectangle is in which a box may be moved. [m]"""
    drift = box.drift
    return math.hypot(max(drift.left_m, drift.right_m), max(drift.back_m, drift.screen_m))


def limits_m(box: Box, plan: Plan) -> float | None:
    """Return how far from its mark the cords allow a box, where that is less than the rectangle
    in which it may be moved; else None. [m]"""
    most_m = cords_allow_m(box, plan)
    if most_m is None or micrometers(most_m) >= micrometers(farthest_m(box)):
        return None
    return most_m
