"""Chairs that nobody measured: nothing that lies under one can be called clear."""

from __future__ import annotations

from collections.abc import Iterator

from powerplan.judging.case import FLOOR_BOX, Case
from powerplan.model.findings import Finding
from powerplan.model.plan import Cord


def judge_measures(case: Case) -> Iterator[Finding]:
    """Hold every kind of chair that stands in the room to having been measured."""
    kinds = {seat.kind.id: seat.kind for seat in case.seats.values()}
    for name, kind in kinds.items():
        if not kind.measured:
            yield case.hold("chair-measured", f"chair {name}", None, 1)


def is_guess(case: Case, cord: Cord) -> bool:
    """True for a cord from a box under a chair not measured to it, or to one beside it alike."""
    box, seat = case.boxes.get(cord.from_), case.seats.get(cord.to)
    over = None if box is None or box.kind != FLOOR_BOX else case.seats.get(box.under)
    if seat is None or over is None:
        return False
    near = seat.row.id == over.row.id and abs(seat.number - over.number) <= 1
    return near and not seat.kind.measured and not over.kind.measured
