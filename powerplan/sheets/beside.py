"""The joists that lie on either side of a floor box."""

from __future__ import annotations

from typing import NamedTuple

from powerplan.model.geometry import Rect
from powerplan.model.lengths import micrometers
from powerplan.model.plan import Box, Plan
from powerplan.model.spec import Framing

AHEAD = "back to screen"


class Beside(NamedTuple):
    """The joists next to a box's middle. ``across``: they run back to screen, so that they lie to
    its left and right; else to its back and its screen side. ``before_m`` and ``after_m`` are their
    middles in the room, None where there is none before the edge; ``thick_m`` None: unknown. [m]"""

    across: bool
    before_m: float | None
    after_m: float | None
    thick_m: float | None


def framing_under(plan: Plan, box: Box) -> tuple[Framing, Rect]:
    """Return what a box is cut into and its extent: the floor, or the deck of a riser. [m]"""
    for riser in plan.spec.risers:
        if riser.id == box.deck:
            return riser.framing, riser.rect
    return plan.spec.floor, plan.spec.room.rect


def joists_beside(plan: Plan, box: Box) -> Beside | None:
    """Return the joists next to a floor box; None where nobody knows where they lie.

    Parameters
    ----------
    plan : Plan
        For the framing.
    box : Box
        The box.
    """
    framing, rect = framing_under(plan, box)
    if box.kind != "floor box" or framing.build != "joists" or framing.joists_run is None:
        return None
    if framing.first_joist_m is None or not framing.spacing_m:
        return None
    across = framing.joists_run == AHEAD
    edge, size = (rect.left_m, rect.width_m) if across else (rect.back_m, rect.depth_m)
    off_um = micrometers((box.x_m if across else box.y_m) - edge - framing.first_joist_m)
    number = off_um // micrometers(framing.spacing_m)
    middles = [framing.first_joist_m + n * framing.spacing_m for n in (number, number + 1)]
    before, after = (edge + at for at in middles)
    return Beside(
        across=across,
        before_m=before if number >= 0 else None,
        after_m=after if number + 1 >= 0 and middles[1] <= size else None,
        thick_m=framing.joist_width_m,
    )
