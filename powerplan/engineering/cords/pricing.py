"""What a straight stretch of cord costs, as whole numbers that add up exactly."""

from __future__ import annotations

import math
from collections.abc import Sequence

import shapely

from powerplan.engineering.cords.clip import Segment
from powerplan.engineering.cords.decks import Deck, rises_m
from powerplan.engineering.cords.floor import EDGE_M, Shape, grown

# Lengths are priced in whole picometers.
_PER_METER = 10**12
# One micrometer of open floor is dearer than any way through a room.
OPEN_FLOOR = 10**18


def ready(shape: Shape) -> Shape:
    """Return a shape with its edge, made ready to be asked many times.

    Parameters
    ----------
    shape : shapely geometry
        Where a center line may lie. [m]
    """
    edged = grown(shape, EDGE_M)
    shapely.prepare(edged)
    return edged


def inside(shape: Shape, segments: Sequence[Segment]) -> list[bool]:
    """Return for each straight stretch whether all of it lies in a shape.

    Parameters
    ----------
    shape : shapely geometry
        What :func:`ready` gave. [m]
    segments : sequence of tuple of Point
        The stretches. [m]
    """
    if not segments:
        return []
    return [bool(held) for held in shapely.covers(shape, shapely.linestrings(segments))]


def way_price(segment: Segment, decks: tuple[Deck, ...]) -> int:
    """Return the length of a straight stretch with the risers it crosses.

    Parameters
    ----------
    segment : tuple of Point
        The stretch. [m]
    decks : tuple of Deck
        Every deck of the room. [m]

    Returns
    -------
    int
        Plan length and rises. [pm]
    """
    return round((math.dist(*segment) + rises_m(decks, segment)) * _PER_METER)
