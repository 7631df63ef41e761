"""Laws over drawn things: how many each is held over, and rooms planned once for all of them.

In the suite every law of one kind of room is held over the same rooms, so that each is planned
once; with ``-m slow`` every law draws many rooms of its own, and so does every ``given`` test.
"""

import json
from collections.abc import Callable, Iterable
from functools import lru_cache
from typing import Any

import pytest
from hypothesis import given, seed, settings
from hypothesis import strategies as st

from powerplan.judging.judge import Report, judge
from powerplan.model.codec import plan_from_plain, to_plain
from powerplan.model.plan import Plan
from powerplan.model.spec import PlanSpec
from powerplan.planning.pipeline import make_plan
from powerplan.rulebook.loader import rule_set

HASH = "0" * 64
_run = {"long": False}


def hold_over_many() -> None:
    """From here on laws draw as many as in the longer checks."""
    _run["long"] = True


@lru_cache(maxsize=512)
def planned(spec: PlanSpec) -> Plan:
    """The plan of a room under the rules that it names, from memory where it was planned before."""
    return make_plan(spec, rule_set(spec.project.rules), HASH)


@lru_cache(maxsize=64)
def agreed(spec: PlanSpec) -> Plan:
    """The plan of a room, with which the judge has no quarrel."""
    made = planned(spec)
    assert judge(made, rule_set(spec.project.rules)).disputed == ()
    return made


def judged(record: Plan | dict[str, Any]) -> Report:
    """What the judge says of a plan or its record, once written and read."""
    plain = to_plain(record) if isinstance(record, Plan) else record
    plan = plan_from_plain(json.loads(json.dumps(plain, allow_nan=False)))
    return judge(plan, rule_set(plan.spec.project.rules))


def stops(report: Report) -> set[str]:
    """The rules that the judge finds broken."""
    return {finding.rule for finding in report.findings if finding.stops}


def told(plan: Plan) -> list[tuple[object, ...]]:
    """What each step comes to, without names."""
    return [
        (step.step, step.works, step.allowed, step.new_circuits, step.boxes, step.extensions)
        for step in plan.decision.steps
    ]


def works(plan: Plan) -> dict[str, bool]:
    """Which steps work."""
    return {step.step: step.works for step in plan.decision.steps}


def law(
    *drawn: st.SearchStrategy[Any], usual: int, many: int, start: int = 2026, **how: Any
) -> Callable[[Callable[..., None]], Any]:
    """A law over drawn things: over few in the suite, the same for every law with one ``start``;
    over many in the longer checks, its own."""

    def held(test: Callable[..., None]) -> Any:
        count = many if _run["long"] else usual
        whole = settings(max_examples=count, **how)(given(*drawn)(test))
        return pytest.mark.law(whole if _run["long"] else seed(start)(whole))

    return held


def held_over(many: int, **how: Any) -> Callable[[Any], Any]:
    """How many a ``given`` test of a costly thing draws: a third in the suite, never under five;
    all in the longer checks."""
    count = many if _run["long"] else min(many, max(5, many // 3))
    return settings(max_examples=count, **how)


def cases(usual: Iterable[Any], *slow: Any) -> list[Any]:
    """Cases of a costly test: some in the suite, the others in the longer checks."""
    return [*usual, *(pytest.param(case, marks=pytest.mark.slow) for case in slow)]
