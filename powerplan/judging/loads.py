"""Circuits and what they carry, summed again from the spec with exact fractions."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from powerplan.judging.case import AGREES, Branch, Case
from powerplan.model.findings import Finding
from powerplan.model.plan import CircuitUse


def judge_circuits(case: Case) -> Iterator[Finding]:
    """Hold every circuit, stated or used, to its load and to what the spec says of it."""
    yield from _names(case)
    for branch in case.branches.values():
        if branch.stated is not None:
            yield from _identity(case, branch, branch.stated)
            yield from _sums(case, branch, branch.stated)
        elif branch.seats:
            note = f"{branch.subject} feeds chairs and the record does not list it"
            yield case.broken(AGREES, branch.subject, note)
        if branch.seats:
            yield load_finding(case, branch)
            yield from _fastened(case, branch)


def chairs_load_a(branch: Branch) -> tuple[Fraction, Fraction]:
    """Return the continuous and the other part of the chairs on a circuit. [A]"""
    continuous = sum((seat.continuous_a for seat in branch.seats), Fraction(0))
    whole = sum((seat.input_a for seat in branch.seats), Fraction(0))
    return continuous, whole - continuous


def asked_a(case: Case, branch: Branch) -> Fraction:
    """Return what a circuit is asked for, without what nobody knows. [A]"""
    continuous, other = known_load_a(branch)
    return case.rules.continuous_factor * continuous + other


def known_load_a(branch: Branch) -> tuple[Fraction, Fraction]:
    """Return the continuous and the other part of all that is known on a circuit. [A]"""
    continuous, other = chairs_load_a(branch)
    for load in branch.already or branch.partly:
        if load.continuous:
            continuous += load.current_a
        else:
            other += load.current_a
    return continuous, other


def load_finding(case: Case, branch: Branch) -> Finding:
    """Hold a circuit's load to its breaker, exactly; not checked while a part is unknown.

    What is known must fit in any case, into the smallest breaker where the breaker is unknown.
    """
    asks, limit = asked_a(case, branch), case.breaker_or_least_a(branch)
    known = branch.breaker_a is not None and branch.already is not None
    note = ""
    if branch.already is None:
        note = f"what else {branch.subject} carries is not known"
    elif branch.breaker_a is None:
        note = f"the breaker of {branch.subject} is not known"
    return case.hold(
        "circuit-load", branch.subject, asks, limit, note=note, checked=known or asks > limit
    )


def _names(case: Case) -> Iterator[Finding]:
    existing = {circuit.id for circuit in case.plan.spec.circuits}
    names = [use.id for use in case.plan.circuits]
    for use in case.plan.circuits:
        subject = f"circuit {use.id}"
        if not use.new and use.id not in existing:
            note = f"circuit {use.id!r} is neither in the plan file nor marked as new"
            yield case.broken(AGREES, subject, note)
        if use.new and use.id in existing:
            note = f"circuit {use.id!r} is marked as new and is in the plan file"
            yield case.broken(AGREES, subject, note)
        if names.count(use.id) > 1:
            yield case.broken(AGREES, subject, f"circuit {use.id!r} is listed twice")
    for name, feed in ((f"{box.id}", box.circuit) for box in case.plan.boxes):
        if feed not in case.branches:
            note = f"{name} is on circuit {feed!r}, which is not there"
            yield case.broken(AGREES, name, note)


def _identity(case: Case, branch: Branch, stated: CircuitUse) -> Iterator[Finding]:
    new = case.plan.spec.new_work
    breaker_a, wire, home_run_m = branch.breaker_a, branch.wire, branch.home_run_m
    if branch.new:
        breaker_a, given = _rated(case, branch)
        home_run_m = new.home_run_m
        wire = stated.wire if given is None else given
        if not branch.seats:
            yield case.broken(AGREES, branch.subject, "a new circuit that feeds no chair")
    yield case.same_number(branch.subject, "breaker_a", stated.breaker_a, breaker_a)
    yield case.same_words(branch.subject, "wire", stated.wire, wire)
    yield case.same_length(branch.subject, "home_run_m", stated.home_run_m, home_run_m)


def _rated(case: Case, branch: Branch) -> tuple[Fraction, str | None]:
    """The rating of a new circuit and the wire given for it: one of those offered, and the same
    for all new circuits. [A]"""
    new = case.plan.spec.new_work
    if not new.ratings:
        return new.breaker_a, new.wire
    others = [one.breaker_a for one in case.branches.values() if one.new]
    offered = {one.breaker_a: one.wire for one in new.ratings}
    mine = branch.breaker_a if branch.breaker_a in offered else min(offered)
    same = next((one for one in others if one in offered), mine)
    return (same, offered[same]) if same != mine else (mine, offered[mine])


def _sums(case: Case, branch: Branch, stated: CircuitUse) -> Iterator[Finding]:
    continuous, other = known_load_a(branch)
    subject, known = branch.subject, branch.already is not None
    yield case.same_words(subject, "load_known", stated.load_known, known)
    yield case.same_number(subject, "continuous_a", stated.continuous_a, continuous)
    yield case.same_number(subject, "other_a", stated.other_a, other)
    yield case.same_number(subject, "asks_a", stated.asks_a, asked_a(case, branch))
    if branch.breaker_a is not None or stated.may_give_a is not None:
        may_give_a = case.breaker_or_least_a(branch)
        yield case.same_number(subject, "may_give_a", stated.may_give_a, may_give_a)


def _fastened(case: Case, branch: Branch) -> Iterator[Finding]:
    """Hold bolted seats to their share where the circuit also feeds other things, or may."""
    fixed = [seat for seat in branch.seats if seat.row.fastened is not False]
    feeds_others = branch.already is None or branch.already or len(fixed) < len(branch.seats)
    if not fixed or not case.rules.has("fastened-half"):
        return
    current = sum((seat.input_a for seat in fixed), Fraction(0))
    limit = case.rules.exact("fastened_share") * case.breaker_or_least_a(branch)
    if not feeds_others:
        yield from _one_loose(case, branch, limit)
        return
    # an unknown breaker is a condition of its own: the smallest there is, or more
    yield case.hold("fastened-half", branch.subject, current, limit)


def _one_loose(case: Case, branch: Branch, limit: Fraction) -> Iterator[Finding]:
    """Where nobody knows a row's fastening, it may be the loose one beside bolted seats."""
    unsaid = {seat.row.id for seat in branch.seats if seat.row.fastened is None}
    beside = [
        sum((seat.input_a for seat in branch.seats if seat.row.id != row), Fraction(0))
        for row in unsaid
    ]
    most = max(beside, default=Fraction(0))
    if most > limit:
        note = "one row of unknown fastening may be loose, and the others bolted down"
        yield case.hold("fastened-half", branch.subject, most, limit, note=note, checked=False)
