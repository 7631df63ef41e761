"""Where the way of a cord goes up or down the edge of a riser."""

from __future__ import annotations

from itertools import pairwise
from typing import NamedTuple

from powerplan.engineering.cords.clip import span_inside
from powerplan.engineering.cords.decks import deck_of
from powerplan.model.geometry import Point
from powerplan.model.plan import Plan
from powerplan.model.spec import Riser

SLIVER = 1e-6
"""A share of a piece that is none. [1]"""


class Climb(NamedTuple):
    """A step on a straight piece: where, in words with braces for the measure, and how high. [m]"""

    at: Point
    share: float
    words: str
    height_m: float


def climbs(start: Point, end: Point, plan: Plan) -> tuple[Climb, ...]:
    """Return where a straight piece goes up or down the edge of a riser, from its start on.

    Parameters
    ----------
    start, end : Point
        Its two ends. [m]
    plan : Plan
        For the risers.
    """
    found = list[Climb]()
    for riser in plan.spec.risers:
        deck = deck_of(riser, plan.spec.room)
        if not deck.crossings((start, end)):
            continue
        first, last = span_inside((start, end), deck.rect) or (0.0, 1.0)
        if not deck.holds(start):
            found.append(_climb(start, end, first, f"up {{}} onto riser {riser.id}", riser))
        if not deck.holds(end):
            found.append(_climb(start, end, last, f"down {{}} from riser {riser.id}", riser))
    return tuple(sorted(found, key=lambda climb: climb.share))


def level_pieces(path: tuple[Point, ...], plan: Plan) -> tuple[tuple[Point, Point], ...]:
    """Return the level pieces of a way, cut where it goes up or down the edge of a riser. [m]"""
    found = []
    for start, end in pairwise(path):
        here, before = start, 0.0
        for climb in climbs(start, end, plan):
            if climb.share - before > SLIVER:
                found.append((here, climb.at))
            here, before = climb.at, climb.share
        if here != end:
            found.append((here, end))
    return tuple(found)


def _climb(start: Point, end: Point, share: float, words: str, riser: Riser) -> Climb:
    at = (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)
    return Climb(at, share, words, riser.height_m)
