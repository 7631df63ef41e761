"""Every name that people gave to something in a plan, and every one that was made from these."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

if TYPE_CHECKING:  # a report without a plan does not wait for it
    from powerplan.model.plan import Plan
    from powerplan.model.spec import PlanSpec, Room

_WITH_ID = (
    *("doors", "obstacles", "walkways", "no_cut", "risers"),
    *("chairs", "rows", "circuits", "outlets", "tables", "supplies", "outlet_units"),
)
_MADE = ("chairs", "boxes", "cords", "circuits", "supplies", "outlet_units")


def given_names(plan: Plan) -> frozenset[str]:
    """Return every name that people gave: it is printed as it was written, in any country.

    Parameters
    ----------
    plan : Plan
        The plan.
    """
    return frozenset(name for name in (plan.project, *_given(plan.spec)) if name)


def names_of(plan: Plan) -> frozenset[str]:
    """Return every name that people gave, and every one that the program made from these.

    Parameters
    ----------
    plan : Plan
        The plan.
    """
    made = (thing.id for field in _MADE for thing in getattr(plan, field))
    return given_names(plan).union(made)


def _given(spec: PlanSpec) -> Iterator[str]:
    yield spec.project.name
    yield from _wall_names(spec.room)
    for field in _WITH_ID:
        yield from (thing.id for thing in getattr(spec, field))
    for circuit in spec.circuits:
        yield from (load.name for load in (*(circuit.already_on_it or ()), *circuit.partly_on_it))
        yield from circuit.not_measured
    yield from (file.name for file in spec.files)


def _wall_names(room: Room) -> Iterator[str]:
    yield from (room.left_wall, room.right_wall, room.back_wall, room.screen_wall)
    for wall in room.walls:
        yield from (wall.id, wall.label)
