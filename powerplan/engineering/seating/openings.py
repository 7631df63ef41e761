"""Openings under chairs: floor where a cord may lie."""

from __future__ import annotations

from dataclasses import dataclass

from powerplan.engineering.seating.frames import ROOM, Frame, Outline
from powerplan.model.geometry import Rect
from powerplan.model.lengths import micrometers

CLEAR = "clear"
REAR_STRIP = "rear strip"
ARM_STRIP = "arm strip"


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """Floor under a row where a cord may lie: ``kind`` is clear, rear strip or arm strip.

    ``rect`` is what it measures, in ``frame``; ``bent`` its outline in the room where it is no
    rectangle. An arm strip belongs to the chair on its left. [m]
    """

    chair: str
    kind: str
    rect: Rect
    frame: Frame = ROOM
    bent: Outline = ()

    @property
    def outline(self) -> Outline:
        """Its outline in the room. [m]"""
        return self.bent or self.frame.outline(self.rect)


def wide_enough(measured_m: float | None, least_gap_m: float) -> bool:
    """Return True for a gap that was measured and lets a cord through.

    Parameters
    ----------
    measured_m : float or None
        The gap; None where nobody measured. [m]
    least_gap_m : float
        The least gap that is open to a cord. [m]
    """
    return measured_m is not None and micrometers(measured_m) >= micrometers(least_gap_m)
