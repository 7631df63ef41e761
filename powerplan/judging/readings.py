"""Tape readings that the plan does not need: each held to the room that the rest draws."""

from __future__ import annotations

import math
from collections.abc import Iterator

from powerplan.judging.case import Case
from powerplan.model.findings import Finding


def judge_readings(case: Case) -> Iterator[Finding]:
    """Hold every reading to the distance between its two places, straight across the floor."""
    for reading in case.plan.spec.readings:
        across_m = math.dist(reading.start, reading.end)
        off_m = abs(reading.length_m - across_m)
        note = f"the tape says {reading.length_m:.6f} m; {across_m:.6f} m follows from the rest"
        yield case.hold(
            "reading-agrees",
            f"reading {reading.id}",
            off_m,
            case.rules.length_m("reading_tolerance"),
            note=note,
        )
