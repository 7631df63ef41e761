"""Judge any plan record: recompute everything that follows from what it states, and compare."""

from __future__ import annotations

import math
from itertools import chain

from powerplan.judging.boxes import judge_boxes
from powerplan.judging.case import AGREES, open_case
from powerplan.judging.cords import judge_cords
from powerplan.judging.decision import judge_decision
from powerplan.judging.drops import judge_drops
from powerplan.judging.found import judge_found
from powerplan.judging.hazards import judge_hazards
from powerplan.judging.layout import judge_layout
from powerplan.judging.loads import judge_circuits
from powerplan.judging.loose import judge_loose
from powerplan.judging.measured import judge_measures
from powerplan.judging.notes import judge_notes
from powerplan.judging.outlets import judge_outlets
from powerplan.judging.places import judge_chairs, judge_zones
from powerplan.judging.plugs import judge_feeding, judge_plugs
from powerplan.judging.readings import judge_readings
from powerplan.judging.report import Report, disputed, gathered, not_judged
from powerplan.judging.sanity import faults
from powerplan.judging.statements import judge_statements
from powerplan.judging.ways import judge_ways
from powerplan.model.findings import hold
from powerplan.model.plan import Plan
from powerplan.model.rules import RuleSet

__all__ = ["Report", "judge"]

_TRADES = (
    judge_statements,
    judge_readings,
    judge_layout,
    judge_hazards,
    judge_found,
    judge_notes,
    judge_chairs,
    judge_zones,
    judge_measures,
    judge_feeding,
    judge_circuits,
    judge_plugs,
    judge_boxes,
    judge_outlets,
    judge_cords,
    judge_ways,
    judge_loose,
    judge_drops,
)


def judge(plan: Plan, rules: RuleSet) -> Report:
    """Judge a plan record.

    Trusted are the spec, box places and circuits, cord paths, what was bought and its wire, and
    the breakers and wires of new circuits. All else is worked out again and compared. Lengths are
    forgiven 2 um for the record's rounding, loads nothing.

    Parameters
    ----------
    plan : Plan
        The record, as read.
    rules : RuleSet
        The rule set to judge by.

    Returns
    -------
    Report
        Every finding, met ones too, and what could not be judged.
    """
    broken = faults(plan)
    if broken:
        return _refused(broken, rules)
    case = open_case(plan, rules)
    found = tuple(chain.from_iterable(trade(case) for trade in _TRADES))
    findings = gathered((*found, *judge_decision(case, found)))
    return Report(findings=findings, not_judged=not_judged(case), disputed=disputed(case, findings))


def _refused(broken: tuple[str, ...], rules: RuleSet) -> Report:
    findings = tuple(
        hold(rules.rules[AGREES], "the record", math.nan, 0, note=words) for words in broken
    )
    return Report(
        findings=findings,
        not_judged=("The record does not hang together, so nothing else in it is judged.",),
        disputed=findings,
    )
