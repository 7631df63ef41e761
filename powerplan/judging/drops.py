"""Voltage lost on the way to every chair, out and back, along the record's own tree."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from powerplan.judging.case import Branch, Case
from powerplan.judging.outlets import square_m
from powerplan.judging.plugs import downstream_a
from powerplan.model.findings import Finding
from powerplan.model.loose import CHAIR_CORD

_TOLERANCE = Fraction(1, 10**4)
_PANEL = "panel"


def judge_drops(case: Case) -> Iterator[Finding]:
    """Hold stated voltages to those that follow, and each circuit's worst to what is advised."""
    nominal_v = float(case.rules.exact("nominal_voltage"))
    drops = {name: chair_drop_v(case, name) for name in case.seats}
    for chair in case.plan.chairs:
        if chair.id not in drops:
            continue
        lost_v = drops[chair.id]
        subject = f"chair {chair.id}"
        volts = None if lost_v is None else nominal_v - lost_v
        percent = None if lost_v is None else lost_v / nominal_v * 100
        yield case.same_number(subject, "volts", chair.volts, volts, within=_TOLERANCE)
        yield case.same_number(
            subject, "drop_percent", chair.drop_percent, percent, within=_TOLERANCE
        )
    for branch in case.branches.values():
        yield from _circuit(case, branch, drops, nominal_v)


def chair_drop_v(case: Case, chair: str) -> float | None:
    """Return the volts lost between panel and chair; None where it is not fed, or not known. [V]"""
    branch = case.branch_of(case.feeding.traces[chair].feed)
    if branch is None:
        return None
    parts = (_home_run_v(case, branch), _beyond_home_v(case, branch, chair))
    known = [part for part in parts if part is not None]
    return sum(known) if len(known) == len(parts) else None


def _beyond_home_v(case: Case, branch: Branch, chair: str) -> float | None:
    """Volts lost from the end of the home run to a chair. [V]"""
    trace = case.feeding.traces[chair]
    if trace.feed is None:
        return None
    parts = [_wiring_v(case, branch, trace.feed)]
    for n in trace.cords:
        cord = case.plan.cords[n]
        if cord.kind == CHAIR_CORD:
            continue  # the supply's output is another voltage; see ``loose``
        wire, current_a = case.wire(cord.wire), downstream_a(case, n)
        ohm_per_m = None if wire is None else wire.cord_ohm_per_m
        parts.append(_lost_v(current_a, cord.bought_m, ohm_per_m))
    known = [part for part in parts if part is not None]
    return sum(known) if len(known) == len(parts) else None


def _lost_v(current_a: Fraction, length_m: float | None, ohm_per_m: float | None) -> float | None:
    if length_m is None or ohm_per_m is None:
        return None
    return 2.0 * float(current_a) * length_m * ohm_per_m


def _ohm_per_m(case: Case, branch: Branch) -> float | None:
    wire = case.wire_of(branch)
    return None if wire is None else wire.ohm_per_m


def _home_run_v(case: Case, branch: Branch, length_m: float | None = None) -> float | None:
    """Volts lost in the home run, or in so much of one. [V]"""
    if branch.already is None:
        return None
    home_run_m = branch.home_run_m if length_m is None else length_m
    current = sum((seat.input_a for seat in branch.seats), Fraction(0))
    current += sum((load.current_a for load in branch.already), Fraction(0))
    return _lost_v(current, home_run_m, _ohm_per_m(case, branch))


def _wiring_v(case: Case, branch: Branch, feed: str) -> float | None:
    """Volts lost between the end of the home run and an outlet or box. [V]

    A box wired from the panel ends the home run itself, and so does a circuit's first outlet. Where
    nobody has said which that is, the farthest there may be is taken.
    """
    total, seen = 0.0, set()
    at: str | None = feed
    while at is not None:
        if at in seen:
            return None
        seen.add(at)
        before, length_m = _wired(case, branch, at)
        lost = _lost_v(_beyond_a(case, at), length_m, _ohm_per_m(case, branch))
        if lost is None:
            return None
        total, at = total + lost, before
    return total


def _wired(case: Case, branch: Branch, feed: str) -> tuple[str | None, float | None]:
    """What an outlet or box is wired on from, None for the home run; and by how much wire. [m]"""
    if feed in case.outlets:
        said = branch.there.first_outlet if branch.there is not None else None
        others = [
            square_m(case, other.id, feed)
            for other in case.outlets.values()
            if other.circuit == branch.id and other.id != feed and said in (None, other.id)
        ]
        return None, max(others, default=0.0)
    box = case.boxes.get(feed)
    if box is None:
        return None, None
    if box.wired_from == _PANEL:
        return None, 0.0
    if box.wired_from == branch.subject:
        return None, box.wiring_m
    return box.wired_from, box.wiring_m


def _beyond_a(case: Case, feed: str) -> Fraction:
    """Current of all chairs on an outlet or box and on the boxes wired on from it. [A]"""
    fed = {feed}
    growing = True
    while growing:
        more = {name for name, other in case.boxes.items() if other.wired_from in fed}
        growing = not more <= fed
        fed |= more
    names = (name for name in case.seats if case.feeding.feed_of(name) in fed)
    return sum((case.seats[name].input_a for name in names), Fraction(0))


def _home_run_most_m(case: Case, branch: Branch) -> float | None:
    """What is advised, less what is lost beyond the home run, over what each meter of it loses.
    [m]"""
    lost = [_beyond_home_v(case, branch, seat.id) for seat in branch.seats]
    known = [volts for volts in lost if volts is not None]
    each_v = _home_run_v(case, branch, 1.0)
    if len(known) != len(lost) or not each_v:
        return None
    share = float(case.rules.exact("drop_percent") * case.rules.exact("nominal_voltage") / 100)
    return max(0.0, (share - max(known)) / each_v)


def _circuit(
    case: Case, branch: Branch, drops: Mapping[str, float | None], nominal_v: float
) -> Iterator[Finding]:
    if not branch.seats:
        return
    lost = [drops[seat.id] for seat in branch.seats]
    known = [volts for volts in lost if volts is not None]
    worst = max(known) / nominal_v * 100 if len(known) == len(lost) else None
    if branch.stated is not None:
        stated = branch.stated.drop_percent
        yield case.same_number(branch.subject, "drop_percent", stated, worst, within=_TOLERANCE)
        if branch.stated.home_run_most_m is not None:  # a record of before does not say
            stated, most_m = branch.stated.home_run_most_m, _home_run_most_m(case, branch)
            yield case.same_number(
                branch.subject, "home_run_most_m", stated, most_m, within=_TOLERANCE
            )
    yield case.hold("voltage-drop", branch.subject, worst, case.rules.exact("drop_percent"))
