"""Plugs, sockets and chains: what each plug takes, and what each socket, wire and chain allows."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from powerplan.judging.case import AGREES, Branch, Case
from powerplan.judging.feeding import EXTENSION, LINK, OWN
from powerplan.judging.seats import Seat
from powerplan.model.findings import Finding, Force
from powerplan.model.loose import CHAIR_CORD, UNIT_CORD, WALL_CORD
from powerplan.model.plan import NOT_POSSIBLE, Cord


@dataclass(frozen=True, slots=True, kw_only=True)
class _Plug:
    """A cord that starts at an outlet or a box, and the chairs behind it."""

    cord: Cord
    seats: tuple[Seat, ...]
    branch: Branch
    rating_a: Fraction

    @property
    def subject(self) -> str:
        return f"cord {self.cord.id}"

    @property
    def current_a(self) -> Fraction:
        return sum((seat.input_a for seat in self.seats), Fraction(0))


def judge_feeding(case: Case) -> Iterator[Finding]:
    """Hold every chair with a motor to being fed once, without a loop, and no other to be fed."""
    impossible = not case.plan.cords and case.plan.decision.verdict == NOT_POSSIBLE
    for name in case.seats:
        trace, count = case.feeding.traces[name], len(case.feeding.into[name])
        wrong, note = abs(count - 1), ""
        if not case.seats[name].kind.takes_power:
            if count:
                note = "this chair takes no power where it stands, and a cord ends at it"
                yield case.hold("fed-once", f"chair {name}", count, 0, note=note)
            continue
        if count == 0:
            note = "no cord ends at this chair"
        elif count > 1:
            note = f"{count} cords end at this chair"
        elif trace.feed is None:
            wrong = 1
            note = "its cords go round" if trace.round_and_round else "its cords lead to no socket"
        if not impossible:
            yield case.hold("fed-once", f"chair {name}", wrong, 0, note=note)


def judge_plugs(case: Case) -> Iterator[Finding]:
    """Hold every plug, chain and cord to the currents they may carry."""
    yield from _sockets(case)
    for n, cord in enumerate(case.plan.cords):
        seats = tuple(case.seats[name] for name in case.feeding.carries[n])
        yield from _wire(case, cord, seats)
        if cord.kind == OWN:
            yield from _chain(case, cord, seats)
        plug = _plug(case, cord, seats)
        if plug is not None:
            yield from _plug_findings(case, plug)


def downstream_a(case: Case, number: int) -> Fraction:
    """Return the current of all chairs that a cord of the record carries. [A]"""
    names = case.feeding.carries[number]
    if case.plan.cords[number].kind == CHAIR_CORD:
        return low_current_a(case, case.plan.cords[number])
    return sum((case.seats[name].input_a for name in names), Fraction(0))


def low_current_a(case: Case, cord: Cord) -> Fraction:
    """Return what a chair cord may have to carry: its supply's whole output. [A]"""
    kind = case.supply_kinds.get(cord.from_)
    return Fraction(0) if kind is None else kind.output_a


def socket_finding(
    case: Case, subject: str, branch: Branch, rating_a: Fraction, *, used: bool
) -> Finding:
    """Hold a socket's rating to those its circuit may have; not checked for an unknown breaker.

    A socket that is there, large enough, and not used by the plan is worth advice only. [A]
    """
    circuit_a = case.breaker_or_least_a(branch)
    allowed = [row.socket_a for row in case.rules.sockets if row.circuit_a == circuit_a]
    least = min(allowed, default=Fraction(0))
    if branch.breaker_a is None:
        force = None if used else Force.NOTE
        return case.hold(
            "socket-matches-circuit", subject, rating_a, least, checked=False, force=force
        )
    if rating_a not in allowed:
        note = f"a {float(rating_a):g} A socket may not be on a {float(circuit_a):g} A circuit"
        enough = rating_a >= min(allowed, default=circuit_a)
        force = Force.ADVICE if enough and not used else None
        return case.broken("socket-matches-circuit", subject, note, force=force)
    return case.hold("socket-matches-circuit", subject, rating_a, least)


def _plug(case: Case, cord: Cord, seats: tuple[Seat, ...]) -> _Plug | None:
    """Return the plug at the near end of a cord; links and leads at a joint have none here."""
    if cord.kind in (LINK, CHAIR_CORD) or not seats:
        return None
    branch = case.branch_of(cord.from_)
    if branch is None:
        return None
    if cord.from_ in case.outlets:
        rating_a = case.outlets[cord.from_].rating_a
    else:
        rating_a = Fraction(case.boxes[cord.from_].rating_a).limit_denominator(10**6)
    return _Plug(cord=cord, seats=seats, branch=branch, rating_a=rating_a)


def _plug_findings(case: Case, plug: _Plug) -> Iterator[Finding]:
    circuit_a = case.breaker_or_least_a(plug.branch)
    known = plug.branch.breaker_a is not None
    current = plug.current_a
    if case.rules.has("plug-share"):
        share = case.rules.exact("one_plug_share") * circuit_a
        checked = known or current > share
        yield case.hold("plug-share", plug.subject, current, share, checked=checked)
    limit = case.rules.socket_limit_a(circuit_a, plug.rating_a)
    if limit is not None:
        yield case.hold(
            "socket-limit", plug.subject, current, limit, checked=known or current > limit
        )
    elif known:
        note = "this socket has no limit on this circuit: the two do not go together"
        yield case.broken("socket-limit", plug.subject, note)


def _sockets(case: Case) -> Iterator[Finding]:
    """Count what is plugged into each outlet, box, extension and chair."""
    starts = [cord.from_ for cord in case.plan.cords if cord.kind not in (LINK, CHAIR_CORD)]
    links = [cord.from_ for cord in case.plan.cords if cord.kind == LINK]
    ends = [cord.to for cord in case.plan.cords if cord.kind == EXTENSION]
    for name, outlet in case.outlets.items():
        free = min(outlet.free, outlet.sockets)
        yield case.hold("sockets-free", f"outlet {name}", starts.count(name), free)
    for name, box in case.boxes.items():
        if name not in case.outlets:
            yield case.hold("sockets-free", name, starts.count(name), box.sockets)
    for joint in sorted(set(ends)):
        plugs = max(starts.count(joint), ends.count(joint))
        note = "an extension takes one plug" if plugs > 1 else ""
        yield case.hold("sockets-free", f"joint {joint}", plugs, 1, note=note)
    for chair in sorted(set(links)):
        yield case.hold("sockets-free", f"chair {chair}", links.count(chair), 1)


def _chain(case: Case, cord: Cord, seats: tuple[Seat, ...]) -> Iterator[Finding]:
    """Hold a lead to the chair maker's ratings, and a chain to the maker's instructions."""
    subject, current = f"cord {cord.id}", sum((seat.input_a for seat in seats), Fraction(0))
    if len(seats) == 1 and seats[0].kind.coupler_a is not None:
        yield case.hold("coupler-rating", subject, current, seats[0].kind.coupler_a)
    if len(seats) < 2:
        return
    for kind in {seat.kind.id: seat.kind for seat in seats}.values():
        chain = kind.chain
        yield case.hold("chain-count", subject, len(seats), chain.chairs if chain else 1)
        if chain is not None:
            yield case.hold("chain-current", subject, current, chain.current_a)
        yield case.hold("coupler-rating", subject, current, kind.coupler_a)
    if len({seat.row.id for seat in seats}) > 1:
        yield case.broken(AGREES, subject, "one plug feeds chairs of two rows")


def _wire(case: Case, cord: Cord, seats: tuple[Seat, ...]) -> Iterator[Finding]:
    subject = f"cord {cord.id}"
    current = sum((seat.input_a for seat in seats), Fraction(0))
    if cord.kind == CHAIR_CORD:
        current = low_current_a(case, cord)
    if cord.kind != EXTENSION:
        wire = case.wire(cord.wire)
        made = cord.kind in (WALL_CORD, CHAIR_CORD, UNIT_CORD) or len(seats) < 2
        as_made = wire is None and cord.kind != LINK and made
        yield case.hold(
            "cord-wire",
            subject,
            current,
            wire.cord_a if wire else None,
            force=Force.NOTE if as_made else None,
            note="a cord as its maker made it" if as_made else "",
        )
        return
    temporary = case.rules.rules["extension-temporary"].force
    if _is_home(case.plan.spec.project.place):
        temporary = Force.ADVICE
    yield case.hold("extension-temporary", subject, 1, 0, force=temporary)
    yield case.hold("extension-rating", subject, current, _set_rating_a(case, cord))
    joints = {other.to for other in case.plan.cords if other.kind == EXTENSION}
    yield case.hold("cord-into-cord", subject, int(cord.from_ in joints), 0)


def _is_home(place: str | None) -> bool:
    return place is not None and place.partition(",")[0] == "home"


def _set_rating_a(case: Case, cord: Cord) -> Fraction | None:
    """Return an extension's rating for its size and length; nothing where none is listed. [A]"""
    wire = case.wire(cord.wire)
    if wire is None:
        return None
    is_long = cord.bought_m > case.rules.length_m("set_long")
    return (wire.set_long_a if is_long else wire.set_short_a) or Fraction(0)
