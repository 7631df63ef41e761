"""What is minded of cable in a slab: its whole way is scanned, not only where boxes go."""

from __future__ import annotations

from powerplan.model.lengths import joined
from powerplan.model.plan import Plan
from powerplan.sheets.pages.print_marks import FLOOR_BOX


def slab_ways(plan: Plan) -> list[str]:
    """Return what is avoided on the way of a cable to a box in the floor; nothing where no box is
    in a floor that is a slab, or may be one.

    Parameters
    ----------
    plan : Plan
        The plan.
    """
    boxes = _in_slab(plan)
    if not boxes:
        return []
    if_so = "" if plan.spec.floor.build == "slab" else "If the floor is a slab: "
    told = [
        f"{if_so}{'its' if if_so else 'The slab: the'} cable to {joined(boxes)} asks for a chase. "
        "Scan its whole way, from box to box and from the panel, before it is chased, as the place "
        "of each box before it is cored; stop at tendons, bars, heating."
    ]
    decks = list(dict.fromkeys(box.deck for box in plan.boxes if box.deck is not None))
    if decks:
        risers = joined([f"riser {deck}" for deck in decks])
        told.append(
            f"How a cable crosses from {risers} to the slab is not in this plan: the electrician "
            "chooses it."
        )
    return told


def slab_stops(plan: Plan) -> list[str]:
    """Return when work on a chase stops; nothing where there is no slab, nor may be one."""
    if not _in_slab(plan):
        return []
    return [
        "A scan shows a tendon, bar, heating, pipe or cable where a cable would be chased into the "
        "slab, and no other way is clear of it."
    ]


def _in_slab(plan: Plan) -> list[str]:
    """The boxes in a floor that is a slab, or of which nobody knows what it is."""
    if plan.spec.floor.build not in ("slab", None):
        return []
    return [box.id for box in plan.boxes if box.kind == FLOOR_BOX and box.deck is None]
