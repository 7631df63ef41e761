"""The story, one line a stage."""

from __future__ import annotations

from powerplan.model.plan import Plan
from powerplan.model.rules import RuleSet
from powerplan.model.spec import PlanSpec
from powerplan.planning.assemble import assemble
from powerplan.planning.flips import flip_points
from powerplan.planning.ladder import Ladder
from powerplan.planning.site import survey


def make_plan(spec: PlanSpec, rules: RuleSet, sha256: str) -> Plan:
    """Return the plan for a room: the decision, the marks and the cords.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read.
    rules : RuleSet
        The rule set that the plan names.
    sha256 : str
        Hash of the plan file, so that a print can be traced to what it was made from.

    Returns
    -------
    Plan
        The record, rounded; every view is made from it.
    """
    site = survey(spec, rules)
    ladder = Ladder(site)
    solved = tuple(ladder.solve(step) for step in ladder.steps())
    flips = flip_points(ladder, solved)
    return assemble(site, solved, flips, sha256)
