"""Notes that the kind of place asks for, and notes on many supplies at once."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from powerplan.judging.case import AGREES, Branch, Case
from powerplan.judging.layout import passage_m
from powerplan.judging.seats import Seat
from powerplan.model.findings import Finding, Outcome
from powerplan.model.lengths import micrometers
from powerplan.model.plan import NOT_POSSIBLE

_EVERYWHERE = frozenset({"home", "home, basement", "business", "assembly"})
_WHERE = {
    "rcd-new-outlets": _EVERYWHERE,
    "gfci-basement": frozenset({"home, basement"}),
    "afci-room": frozenset({"home", "home, basement"}),
    "cord-fire-code": frozenset({"business", "assembly"}),
    "wiring-method": frozenset({"business", "assembly"}),
    "row-width-assembly": frozenset({"assembly"}),
}
_GROUND_FAULT = ("rcd-new-outlets", "gfci-basement")
_HAIR_UM = 4
_FAR_M = 1e3


def judge_notes(case: Case) -> Iterator[Finding]:
    """Hold the record to telling every note that its place asks for, and none that it does not."""
    if case.plan.decision.verdict == NOT_POSSIBLE:
        return
    told = [finding for finding in case.plan.findings if finding.rule in _WHERE]
    names = [finding.rule for finding in told]
    for rule in _WHERE:
        if rule in case.rules.rules:
            wanted = int(_wanted(case, rule))
            yield case.same_words("findings", f"{rule} told", names.count(rule), wanted)
    for finding in told:
        yield from _sure(case, finding)
    yield from _rows(case)
    yield from _leakage(case)
    yield from _switch_on(case)


def _asked_here(case: Case, rule: str) -> bool:
    """True for a rule that the country has, for this kind of place or one that is not said."""
    place = case.plan.spec.project.place
    return case.rules.has(rule) and (place is None or place in _WHERE[rule])


def _wanted(case: Case, rule: str) -> bool:
    here = _asked_here(case, rule)
    if rule == "row-width-assembly":
        return here and bool(case.rows)
    return here and bool(case.plan.cords if rule == "cord-fire-code" else case.plan.boxes)


def _sure(case: Case, finding: Finding) -> Iterator[Finding]:
    """Nothing of a place that nobody has said, or of wiring yet to be done, is met."""
    subject = f"finding {finding.rule}"
    open_ = finding.rule in ("cord-fire-code", "wiring-method")
    if finding.rule in (*_GROUND_FAULT, "afci-room"):
        guarded = (_guarded(case, finding.rule, box.circuit) for box in case.plan.boxes)
        open_ = not all(guarded)
    if open_ and finding.outcome is Outcome.MET:
        yield case.broken(AGREES, subject, "it is not met before an electrician has seen to it")


def _guarded(case: Case, rule: str, circuit: str) -> bool:
    branch = case.branches.get(circuit)
    if branch is None or branch.there is None:
        return False
    return bool(branch.there.gfci if rule in _GROUND_FAULT else branch.there.afci)


def _rows(case: Case) -> Iterator[Finding]:
    """The row with the least room by its own length is the one that is told, whatever its shape."""
    stated = [one for one in case.plan.findings if one.rule == "row-width-assembly"]
    if not stated or not case.rows:
        return
    number = case.rules.exact
    spare = []
    for row in case.rows:
        over = max(Fraction(0), row.row.seats - number("row_free_seats"))
        more = over * number("row_per_seat")
        asked = min(number("row_width_most"), number("row_width_least") + more)
        least_m = passage_m(case, row)
        if not row.plain:
            least_m = max(0.0, least_m)  # where chairs look several ways, none is told as 0
        spare.append(min(least_m, _FAR_M) - float(asked))
    margin = stated[0].margin
    off = margin is None or micrometers(margin) - micrometers(min(spare)) > _HAIR_UM
    yield case.same_words("finding row-width-assembly", "its row or its margin", off, False)


def _supplies(branch: Branch) -> int:
    return ceil(sum((_part(seat) for seat in branch.seats), Fraction(0)))


def _part(seat: Seat) -> Fraction:
    """Its part of a supply: a half where it shares one; nothing of a chair without a motor."""
    return seat.input_a / seat.kind.input_a if seat.kind.input_a else Fraction(0)


def _leakage(case: Case) -> Iterator[Finding]:
    if "leakage-by-count" not in case.rules.rules:
        return
    behind = [_behind(case, branch) for branch in case.branches.values()]
    each, hold_ma = case.rules.exact("standing_leakage"), case.rules.exact("ground_fault_hold")
    spare = [hold_ma - n * each for n in behind if n]
    yield from _worst(case, "leakage-by-count", spare)
    trips = bool(spare) and min(spare) <= 0  # from this current on a device may trip
    for stated in case.plan.findings:
        if stated.rule == "leakage-by-count" and trips and stated.outcome is Outcome.MET:
            yield case.broken(AGREES, f"finding {stated.rule}", "a device may trip from there on")


def _behind(case: Case, branch: Branch) -> int:
    if branch.there is not None and branch.there.gfci:
        return _supplies(branch)
    boxes = any(box.circuit == branch.id for box in case.plan.boxes)
    if boxes and any(_asked_here(case, rule) for rule in _GROUND_FAULT):
        return _supplies(branch)
    guarded = {outlet.id for outlet in case.plan.spec.outlets if outlet.gfci}
    seats = [seat for seat in branch.seats if case.feeding.feed_of(seat.id) in guarded]
    return ceil(sum((_part(seat) for seat in seats), Fraction(0)))


def _switch_on(case: Case) -> Iterator[Finding]:
    if "switch-on-by-count" not in case.rules.rules:
        return
    each, times = case.rules.exact("switch_on"), case.rules.exact("switch_on_times")
    spare = [
        times * case.breaker_or_least_a(branch) - each * _supplies(branch)
        for branch in case.branches.values()
        if branch.seats
    ]
    yield from _worst(case, "switch-on-by-count", spare)


def _worst(case: Case, rule: str, spare: list[Fraction]) -> Iterator[Finding]:
    """A note on counts tells the circuit with the least room; what is over has to be told."""
    stated = [one.margin for one in case.plan.findings if one.rule == rule]
    if not spare:
        yield case.same_words(f"finding {rule}", "told", bool(stated), False)
    elif not stated and min(spare) <= 0:
        yield case.broken(AGREES, f"finding {rule}", "too many supplies, and it is not told")
    for margin in stated if spare else ():
        yield case.same_number(f"finding {rule}", "margin", margin, min(spare))
