"""What is bought: every cord but those that come with a chair or its supply."""

from __future__ import annotations

from collections import Counter

from powerplan.model.loose import CHAIR_CORD, UNIT_CORD, WALL_CORD
from powerplan.model.plan import Cord, Plan

_COMES_ALONG = ("own", WALL_CORD, CHAIR_CORD)
_NAMES = {
    "extension": "extension cord",
    "link": "chair maker's link cord",
    "own": "longer lead, from the chair maker",
    WALL_CORD: "longer wall cord, from the supply's maker",
    UNIT_CORD: "outlet unit, with its cord",
}

Bought = tuple[str, float, str | None]


def is_bought(cord: Cord) -> bool:
    """Return True for a cord that does not come with a chair or its supply."""
    return cord.longer or cord.kind not in _COMES_ALONG


def bought_as(cord: Cord) -> Bought:
    """Return what a cord is bought as: what, length, wire; a wire of None is unknown. [m]"""
    return (_NAMES.get(cord.kind, cord.kind), cord.bought_m, cord.wire)


def bought(plan: Plan) -> dict[Bought, int]:
    """Return what is bought, and how many of each.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    dict
        Counts by (what, length, wire), in order; a wire of None is unknown. [m]
    """
    counts = Counter(bought_as(cord) for cord in plan.cords if is_bought(cord))
    return dict(sorted(counts.items(), key=lambda item: (item[0][0], item[0][1], item[0][2] or "")))
