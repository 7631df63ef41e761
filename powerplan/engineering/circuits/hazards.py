"""What is wrong with the circuits and outlets that are there, before any chair is plugged in."""

from __future__ import annotations

import math
from fractions import Fraction

from powerplan.engineering.circuits.found import circuit_wire
from powerplan.engineering.circuits.load import breaker_or_least_a
from powerplan.model.findings import Finding, Force, hold
from powerplan.model.lengths import amps_text, joined
from powerplan.model.rules import RuleSet
from powerplan.model.spec import Circuit, Outlet, PlanSpec


def existing_findings(spec: PlanSpec, rules: RuleSet) -> tuple[Finding, ...]:
    """Hold the existing circuits and outlets against the rules for breakers, wire and sockets.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read.
    rules : RuleSet
        Lends breaker sizes, wires and sockets.

    Returns
    -------
    tuple of Finding
        ``breaker-size`` and ``wire-matches-breaker`` for each circuit, then
        ``socket-matches-circuit`` for each outlet; met ones too, in the order of the spec.
    """
    found: list[Finding] = []
    for circuit in spec.circuits:
        found += [_breaker_size(circuit, rules), _wire_matches(circuit, rules)]
    breakers = {circuit.id: circuit.breaker_a for circuit in spec.circuits}
    found += [_socket_matches(outlet, breakers[outlet.circuit], rules) for outlet in spec.outlets]
    return tuple(found)


def least_socket_a(circuit_a: Fraction, rules: RuleSet) -> Fraction:
    """Return the smallest socket rating that a circuit may have.

    Parameters
    ----------
    circuit_a : Fraction
        The breaker's rating. [A]
    rules : RuleSet
        Lends the table of sockets.

    Returns
    -------
    Fraction
        From the table; the circuit's own rating where the table has no row for it. [A]
    """
    ratings = [row.socket_a for row in rules.sockets if row.circuit_a == circuit_a]
    return min(ratings, default=circuit_a)


def _breaker_size(circuit: Circuit, rules: RuleSet) -> Finding:
    breaker_a = circuit.breaker_a
    limit: Fraction | float | None = None
    note = "Read the rating on the breaker's handle; nothing on this circuit is sure before."
    if breaker_a is not None:
        limit = min((size for size in rules.breakers_a if size >= breaker_a), default=math.inf)
        note = "" if limit == breaker_a else _wrong_size(breaker_a, rules)
    return hold(rules.rules["breaker-size"], _name(circuit), breaker_a, limit, note=note)


def _wrong_size(breaker_a: Fraction, rules: RuleSet) -> str:
    sizes = joined([f"{float(size):g}" for size in rules.breakers_a], "or")
    smaller = max((size for size in rules.breakers_a if size < breaker_a), default=None)
    if smaller is None:
        mend = "make this a circuit of such a size, wire checked first,"
    else:
        mend = f"change the breaker to {amps_text(smaller)} or less"
    return (
        f"{amps_text(breaker_a)} is no size for a circuit with several outlets ({sizes} A): an "
        f"electrician must {mend} before any chair is plugged in."
    )


def _wire_matches(circuit: Circuit, rules: RuleSet) -> Finding:
    rule, name, breaker_a = rules.rules["wire-matches-breaker"], _name(circuit), circuit.breaker_a
    wire = circuit_wire(circuit, rules)
    if wire is None and circuit.wire is not None:
        note = f"No limit for {circuit.wire} {circuit.conductor} is known here: an electrician says"
        return hold(rule, name, breaker_a, None, note=f"{note} which breaker it may have.")
    if wire is None:
        note = "An electrician must read the size of this circuit's wire at the panel."
        return hold(rule, name, breaker_a, None, note=note)
    if wire.max_breaker_a is None:
        note = (
            f"{wire.name} may never be the wire of such a circuit, whatever the breaker: an "
            "electrician must rewire it before any chair is plugged in."
        )
        return hold(rule, name, breaker_or_least_a(circuit, rules), Fraction(0), note=note)
    if breaker_a is None:
        most = amps_text(wire.max_breaker_a)
        note = f"Read the rating on the breaker's handle: {wire.name} allows at most {most}."
        return hold(rule, name, None, wire.max_breaker_a, note=note)
    if wire.hangs_on_laying(breaker_a):
        note = (
            f"{wire.name} may stand behind {amps_text(breaker_a)} only where it is laid well; in "
            f"insulation it may have {amps_text(wire.max_breaker_a)} at most. Have an electrician "
            "look how it is laid."
        )
        return hold(rule, name, breaker_a, wire.max_breaker_a, note=note, checked=False)
    note = ""
    if breaker_a > wire.max_breaker_a:
        note = (
            f"A {amps_text(breaker_a)} breaker lets {wire.name} overheat: an electrician must "
            f"change the breaker to {amps_text(wire.max_breaker_a)} or rewire before any chair is "
            "plugged in."
        )
    return hold(rule, name, breaker_a, wire.max_breaker_a, note=note)


def _socket_matches(outlet: Outlet, circuit_a: Fraction | None, rules: RuleSet) -> Finding:
    rule, name = rules.rules["socket-matches-circuit"], f"outlet {outlet.id}"
    rating_a = outlet.rating_a
    smallest_a = min(row.socket_a for row in rules.sockets)
    if circuit_a is None and rating_a >= smallest_a:
        note = f"Read the rating on the breaker of circuit {outlet.circuit} first."
        return hold(rule, name, rating_a, None, note=note)
    least_a = smallest_a if circuit_a is None else least_socket_a(circuit_a, rules)
    if rating_a < least_a:
        note = (
            f"A {amps_text(rating_a)} socket is too small for circuit {outlet.circuit}: an "
            f"electrician must fit one of at least {amps_text(least_a)} or correct the breaker."
        )
        return hold(rule, name, rating_a, least_a, note=note)
    if circuit_a is not None and too_large(circuit_a, rating_a, rules):
        note = (
            f"A {amps_text(rating_a)} socket on a {amps_text(circuit_a)} circuit invites more than "
            "the circuit can give: have an electrician fit one that matches."
        )
        return hold(rule, name, rating_a, math.inf, note=note, force=Force.ADVICE)
    return hold(rule, name, rating_a, least_a)


def too_large(circuit_a: Fraction, socket_a: Fraction, rules: RuleSet) -> bool:
    """Return whether a socket is rated above all that the table lists for a circuit.

    Parameters
    ----------
    circuit_a : Fraction
        The breaker's rating. [A]
    socket_a : Fraction
        The socket's rating. [A]
    rules : RuleSet
        Lends the table of sockets.

    Returns
    -------
    bool
        False too where the table has no row for the circuit.
    """
    ratings = [row.socket_a for row in rules.sockets if row.circuit_a == circuit_a]
    return bool(ratings) and socket_a > max(ratings)


def _name(circuit: Circuit) -> str:
    return f"circuit {circuit.id}"
