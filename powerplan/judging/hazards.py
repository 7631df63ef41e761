"""What is wrong with a circuit or a socket in itself, whatever hangs on it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from fractions import Fraction

from powerplan.judging.case import Branch, Case
from powerplan.judging.plugs import socket_finding
from powerplan.model.findings import Finding, Force


def judge_hazards(case: Case) -> Iterator[Finding]:
    """Hold every circuit's breaker and wire, and every socket, to what the code allows."""
    for branch in case.branches.values():
        yield _wire_finding(case, branch)
        yield _breaker_finding(case, branch)
    for outlet in case.plan.spec.outlets:
        branch = case.branches[outlet.circuit]
        used = any(cord.from_ == outlet.id for cord in case.plan.cords)
        yield socket_finding(case, f"outlet {outlet.id}", branch, outlet.rating_a, used=used)
    for box in case.plan.boxes:
        known = case.branches.get(box.circuit)
        if known is not None:
            rating = Fraction(box.rating_a).limit_denominator(10**6)
            yield socket_finding(case, box.id, known, rating, used=True)
    yield from _panel(case)


def _force_while_unknown(branch: Branch) -> Force | None:
    """What is unknown on a circuit that feeds no chair is only a note."""
    return None if branch.seats else Force.NOTE


def _wire_finding(case: Case, branch: Branch) -> Finding:
    wire, breaker_a = case.wire_of(branch), branch.breaker_a
    allowed = None if wire is None else (wire.max_breaker_a or Fraction(0))
    if allowed == 0:
        breaker_a = case.breaker_or_least_a(branch)  # no breaker is small enough for such a wire
    unknown = allowed is None or breaker_a is None
    if wire is not None and breaker_a is not None:
        unknown = not branch.new and wire.hangs_on_laying(breaker_a)
    return case.hold(
        "wire-matches-breaker",
        branch.subject,
        breaker_a,
        allowed,
        force=_force_while_unknown(branch) if unknown else None,
        note="wire, breaker or how the wire is laid is not known" if unknown else "",
        checked=not unknown,
    )


def _breaker_finding(case: Case, branch: Branch) -> Finding:
    least, breaker_a = min(case.rules.breakers_a), branch.breaker_a
    if breaker_a is None:
        force = _force_while_unknown(branch)
        return case.hold("breaker-size", branch.subject, None, least, force=force)
    listed = breaker_a in case.rules.breakers_a
    return case.hold("breaker-size", branch.subject, breaker_a if listed else math.nan, least)


def _panel(case: Case) -> Iterator[Finding]:
    new = [use for use in case.plan.circuits if use.new]
    spaces = case.plan.spec.new_work.circuits
    if new:
        yield case.hold("panel-space", "panel", len(new), spaces)
