"""Tape readings that the plan does not need, held against the plan."""

from __future__ import annotations

import math

from powerplan.model.findings import Finding, hold
from powerplan.model.lengths import length_text, micrometers
from powerplan.model.rules import RuleSet
from powerplan.model.spec import PlanSpec


def readings_agree(spec: PlanSpec, rules: RuleSet) -> tuple[Finding, ...]:
    """Return, for each reading, how far it is from the same distance in the plan.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read.
    rules : RuleSet
        The rules; ``reading_tolerance`` is the limit.

    Returns
    -------
    tuple of Finding
        The difference between tape and plan, whichever is longer. [m]
    """
    limit_m = rules.length_m("reading_tolerance")
    units = spec.project.units
    found = []
    for reading in spec.readings:
        plan_m = math.dist(reading.start, reading.end)
        off_m = abs(reading.length_m - plan_m)
        note = ""
        if micrometers(off_m) > micrometers(limit_m):
            ends = reading.ends or f"for {reading.id}"
            longer = "longer" if reading.length_m > plan_m else "shorter"
            note = (
                f"The tape read {length_text(reading.length_m, units)} {ends}; the plan "
                f"has {length_text(plan_m, units)}, so the tape's is {length_text(off_m, units)} "
                f"{longer}: one of the two is mistyped, something is measured from the wrong side "
                "(left for right, back for screen), or the room is not square. Measure again "
                "before anything is cut."
            )
        rule = rules.rules["reading-agrees"]
        found.append(hold(rule, f"reading {reading.id}", off_m, limit_m, note=note))
    return tuple(found)
