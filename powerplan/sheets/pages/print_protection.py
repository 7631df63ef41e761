"""The protection of new outlets that their place asks for, in one wording wherever it is told."""

from __future__ import annotations

from typing import NamedTuple

from powerplan.model.findings import Outcome
from powerplan.model.lengths import joined
from powerplan.model.plan import Box, Plan
from powerplan.sheets.pages.place_notes import place_notes

_GROUND, _ARC = "ground-fault protection", "arc-fault protection"
WHERE_ASKED = (
    "ground-fault and arc-fault protection, where local code asks for it: the electrician fits it"
)
_KINDS = {"rcd-new-outlets": _GROUND, "gfci-basement": _GROUND, "afci-room": _ARC}
_ONLY_IN = {"gfci-basement": "a home's basement", "afci-room": "a home"}


class Protection(NamedTuple):
    """A kind of protection, the new outlets that it is for, and the only place that asks for it
    where nobody has said what kind of place this is; else "" for the last."""

    kind: str
    boxes: tuple[Box, ...]
    only_in: str

    def told(self, boxes: tuple[Box, ...] | None = None) -> str:
        """Return who fits it and for what, of all its outlets or of some."""
        names = joined([box.id for box in (self.boxes if boxes is None else boxes)])
        only = f", if this is {self.only_in}" if self.only_in else ""
        return f"the electrician fits it for {names}{only}"


def protections(plan: Plan) -> tuple[Protection, ...]:
    """Return the protection that is still to be fitted, as the plan's notes ask for it.

    Parameters
    ----------
    plan : Plan
        The plan.
    """
    found = []
    for note in place_notes(plan):
        kind = _KINDS.get(note.rule)
        boxes = tuple(box for box in plan.boxes if kind and not _said(box, kind, plan))
        if kind and boxes:
            only_in = _ONLY_IN.get(note.rule, "") if plan.spec.project.place is None else ""
            found.append(Protection(kind, boxes, only_in))
    return tuple(found)


def how_many(one: Protection, plan: Plan) -> tuple[int, str]:
    """Return how many devices are bought, and why: one for each circuit, but one at each outlet
    where the chairs of a circuit leak so much together that one device may trip."""
    leaks = [told for told in plan.findings if told.rule == "leakage-by-count"]
    if one.kind == _GROUND and any(told.outcome is Outcome.NOT_MET for told in leaks):
        why = "one at each outlet: behind one device the leakage of the chairs may trip it"
        return len(one.boxes), why
    return len({box.circuit for box in one.boxes}), "one for each circuit, or at each outlet"


def _said(box: Box, kind: str, plan: Plan) -> bool:
    """Whether the circuit of a new outlet is said to have a kind of protection."""
    there = next((one for one in plan.spec.circuits if one.id == box.circuit), None)
    return bool(there and (there.gfci if kind == _GROUND else there.afci))


def protection_of(name: str, plan: Plan) -> list[str]:
    """Return what is to be confirmed of the protection of one circuit's new outlets.

    Parameters
    ----------
    name : str
        The circuit.
    plan : Plan
        The plan.
    """
    told = []
    for one in protections(plan):
        boxes = tuple(box for box in one.boxes if box.circuit == name)
        told += [f"{one.kind}: {one.told(boxes)}."] if boxes else []
    return told or [f"{WHERE_ASKED}."]
