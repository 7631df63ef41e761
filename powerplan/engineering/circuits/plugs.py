"""One plug: a single chair or a chain of them, and an extension cord where one is used.

A plug counts in plain amperes; only the circuit weighs continuous load.
"""

from __future__ import annotations

import math
from fractions import Fraction

from powerplan.engineering.circuits.hazards import least_socket_a
from powerplan.model.findings import Finding, Force, hold
from powerplan.model.lengths import amps_text, micrometers
from powerplan.model.rules import RuleSet
from powerplan.model.spec import ChairKind

HOMES = ("home", "home, basement")


def run_findings(
    kind: ChairKind,
    chairs: int,
    circuit_a: Fraction,
    socket_a: Fraction,
    subject: str,
    rules: RuleSet,
) -> tuple[Finding, ...]:
    """Hold everything that hangs on one plug against the rules.

    Parameters
    ----------
    kind : ChairKind
        The chairs' kind.
    chairs : int
        How many: 1 is a chair by its own cord, more are a chain.
    circuit_a : Fraction
        The breaker's rating. [A]
    socket_a : Fraction
        The socket's rating. [A]
    subject : str
        What people call it, such as "chair A3" or "chain A1-A4".
    rules : RuleSet
        Lends limits and tables.

    Returns
    -------
    tuple of Finding
        ``plug-share`` where the rule set has it, ``socket-matches-circuit``, ``socket-limit`` (left
        out where the pairing is not allowed), for a chain ``chain-count`` and ``chain-current``,
        ``coupler-rating``, and ``cord-wire`` for each cord whose wire is known, and not checked
        where a chain's is not; met ones too.

    Raises
    ------
    ValueError
        If there is no chair.
    """
    if chairs < 1:
        raise ValueError("a plug feeds at least one chair")
    current_a = chairs * kind.input_a
    return (
        *_share(current_a, circuit_a, subject, rules),
        *_socket(current_a, circuit_a, socket_a, subject, rules),
        *(_chain(kind, chairs, subject, rules) if chairs > 1 else ()),
        *_coupler(kind, chairs, subject, rules),
        *_wires(kind, chairs, subject, rules),
    )


def extension_findings(
    current_a: Fraction,
    length_m: float,
    wire: str | None,
    place: str | None,
    subject: str,
    rules: RuleSet,
) -> tuple[Finding, ...]:
    """Hold an extension cord against its rating and its listing.

    Parameters
    ----------
    current_a : Fraction
        Everything that flows through it. [A]
    length_m : float
        Its length as bought. [m]
    wire : str or None
        Its wire; None is unknown.
    place : str or None
        The kind of place; a must anywhere but in a home, and where it is not said.
    subject : str
        What people call it.
    rules : RuleSet
        Lends the ratings of extension sets.

    Returns
    -------
    tuple of Finding
        ``extension-rating`` and ``extension-temporary``; the second is never met.

    Raises
    ------
    ValueError
        If the length is negative or not finite.
    """
    if not math.isfinite(length_m) or length_m < 0:
        raise ValueError(f"length is {length_m}; a finite number of at least 0 is wanted")
    limit_a, note = _set_rating(length_m, wire, rules)
    note = note or _too_much(current_a, limit_a, "such an extension may carry")
    rating = hold(rules.rules["extension-rating"], subject, current_a, limit_a, note=note)
    return rating, _temporary(place, subject, rules)


def _share(
    current_a: Fraction, circuit_a: Fraction, subject: str, rules: RuleSet
) -> tuple[Finding, ...]:
    """What one plug may take of its circuit; nothing in a country without such a rule."""
    if not rules.has("plug-share"):
        return ()
    share_a = rules.exact("one_plug_share") * circuit_a
    note = _too_much(current_a, share_a, "one plug may take of this circuit")
    return (hold(rules.rules["plug-share"], subject, current_a, share_a, note=note),)


def _socket(
    current_a: Fraction,
    circuit_a: Fraction,
    socket_a: Fraction,
    subject: str,
    rules: RuleSet,
) -> tuple[Finding, ...]:
    matches, carries = rules.rules["socket-matches-circuit"], rules.rules["socket-limit"]
    pair = f"a {amps_text(socket_a)} socket on a {amps_text(circuit_a)} circuit"
    least_a = least_socket_a(circuit_a, rules)
    limit_a = rules.socket_limit_a(circuit_a, socket_a)
    if limit_a is None:
        note = f"It would be {pair}: take a socket that the table lists for this circuit."
        short = least_a if socket_a < least_a else math.inf
        return (hold(matches, subject, socket_a, short, note=note),)
    fits = hold(matches, subject, socket_a, least_a)
    note = _too_much(current_a, limit_a, "this socket may carry")
    return fits, hold(carries, subject, current_a, limit_a, note=note)


def _chain(kind: ChairKind, chairs: int, subject: str, rules: RuleSet) -> tuple[Finding, ...]:
    count = rules.rules["chain-count"]
    if kind.chain is None:
        note = (
            "The chair maker's listed instructions are needed for a chain; without them each chair "
            "takes its own socket."
        )
        return (hold(count, subject, Fraction(chairs), Fraction(1), note=note),)
    current_a, limit_a = chairs * kind.input_a, kind.chain.current_a
    over = "" if chairs <= kind.chain.chairs else "Split the chain: the chair maker allows fewer."
    return (
        hold(count, subject, Fraction(chairs), Fraction(kind.chain.chairs), note=over),
        hold(
            rules.rules["chain-current"],
            subject,
            current_a,
            limit_a,
            note=_too_much(current_a, limit_a, "the chair maker allows through a chain"),
        ),
    )


def _coupler(kind: ChairKind, chairs: int, subject: str, rules: RuleSet) -> tuple[Finding, ...]:
    """The first plug, lead and inlet; a single chair's are its maker's affair where unknown."""
    if kind.coupler_a is None and (chairs == 1 or kind.chain is None):
        return ()
    current_a = chairs * kind.input_a
    note = _too_much(current_a, kind.coupler_a, "the first plug, lead and inlet may carry")
    if kind.coupler_a is None:
        note = "Read the ratings of the chair's plug, lead and inlet: the least of them counts."
    rule = rules.rules["coupler-rating"]
    return (hold(rule, subject, current_a, kind.coupler_a, note=note),)


def _wires(kind: ChairKind, chairs: int, subject: str, rules: RuleSet) -> tuple[Finding, ...]:
    cords = [("lead", kind.lead_wire)]
    if chairs > 1 and kind.chain is not None:
        cords.append(("link", kind.chain.wire))
    return tuple(
        _wire(chairs * kind.input_a, name, f"{subject}, {cord}", rules)
        for cord, name in cords
        if name is not None or chairs > 1
    )


def _wire(current_a: Fraction, name: str | None, subject: str, rules: RuleSet) -> Finding:
    if name is None:
        note = "Read the wire size off the cord's jacket."
        return hold(rules.rules["cord-wire"], subject, current_a, None, note=note)
    wire = rules.wires.get(name)
    limit_a = None if wire is None else wire.cord_a
    note = _too_much(current_a, limit_a, f"a cord of {name} may carry")
    if limit_a is None:
        note = f"No rating for a cord of {name} is known here: ask the chair maker."
    return hold(rules.rules["cord-wire"], subject, current_a, limit_a, note=note)


def _set_rating(length_m: float, wire: str | None, rules: RuleSet) -> tuple[Fraction | None, str]:
    """The rating of an extension set, and a note where there is none."""
    known = None if wire is None else rules.wires.get(wire)
    if known is None:
        return None, "Read the wire size on the extension cord's jacket."
    short = micrometers(length_m) <= micrometers(rules.length_m("set_long"))
    limit_a = known.set_short_a if short else known.set_long_a
    if limit_a is None:
        return Fraction(0), f"No extension set of {known.name} has a rating at this length."
    return limit_a, ""


def _temporary(place: str | None, subject: str, rules: RuleSet) -> Finding:
    rule = rules.rules["extension-temporary"]
    note = "An extension cord is made for temporary use: have an outlet fitted where it is used."
    if place is None and rule.force is Force.MUST:
        note += " The kind of place is not said, so the stricter reading is taken."
    force = Force.ADVICE if place in HOMES else rule.force
    return hold(rule, subject, Fraction(1), Fraction(0), note=note, force=force)


def _too_much(current_a: Fraction, limit_a: Fraction | None, words: str) -> str:
    """The sentence for a current over its limit, or nothing."""
    if limit_a is None or current_a <= limit_a:
        return ""
    return f"{float(current_a):g} A is more than the {float(limit_a):g} A {words}."
