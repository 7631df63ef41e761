"""What a circuit is asked for, what it has left, and how many chairs that carries.

Everything here is an exact fraction of an ampere; equal to the limit passes.
"""

from __future__ import annotations

import math
from fractions import Fraction

from powerplan.model.rules import RuleSet, Wire
from powerplan.model.spec import ChairKind, Circuit


def demand_a(continuous_a: Fraction, other_a: Fraction, rules: RuleSet) -> Fraction:
    """Return what a load asks of its breaker.

    Parameters
    ----------
    continuous_a : Fraction
        The part that lasts three hours or more. [A]
    other_a : Fraction
        The rest. [A]
    rules : RuleSet
        Lends the factor for continuous load.

    Returns
    -------
    Fraction
        Factor times continuous, plus other; exact. [A]

    Raises
    ------
    ValueError
        If a current is negative.

    Notes
    -----
    Source: the rule set's number ``continuous_factor``.
    """
    if continuous_a < 0 or other_a < 0:
        raise ValueError("a load cannot be negative")
    return rules.continuous_factor * continuous_a + other_a


def chair_demand_a(kind: ChairKind, rules: RuleSet) -> Fraction:
    """Return what one chair of a kind asks of its breaker.

    Parameters
    ----------
    kind : ChairKind
        The chair, with its input and the part of it that lasts.
    rules : RuleSet
        Lends the factor for continuous load.

    Returns
    -------
    Fraction
        Demand of one chair; exact. [A]
    """
    return demand_a(kind.continuous_a, kind.input_a - kind.continuous_a, rules)


def existing_load_a(circuit: Circuit) -> tuple[Fraction, Fraction] | None:
    """Return what is already on a circuit.

    Parameters
    ----------
    circuit : Circuit
        An existing circuit.

    Returns
    -------
    tuple of Fraction, or None
        Continuous and other load; None when nobody knows, which is never zero. [A]
    """
    return None if circuit.already_on_it is None else known_load_a(circuit)


def known_load_a(circuit: Circuit) -> tuple[Fraction, Fraction]:
    """Return the part of what is already on a circuit that is known, all of it or not.

    Parameters
    ----------
    circuit : Circuit
        An existing circuit.

    Returns
    -------
    tuple of Fraction
        Continuous and other load; nothing where nothing is known. [A]
    """
    known = circuit.already_on_it or circuit.partly_on_it
    lasting = sum((load.current_a for load in known if load.continuous), Fraction())
    whole = sum((load.current_a for load in known), Fraction())
    return lasting, whole - lasting


def breaker_or_least_a(circuit: Circuit, rules: RuleSet) -> Fraction:
    """Return a circuit's breaker, or the smallest there is where it is unknown.

    Parameters
    ----------
    circuit : Circuit
        An existing circuit.
    rules : RuleSet
        Lends the breaker sizes.

    Returns
    -------
    Fraction
        The rating to compute with. [A]
    """
    return min(rules.breakers_a) if circuit.breaker_a is None else circuit.breaker_a


def unknown_limits_a(spare_a: Fraction, rules: RuleSet) -> tuple[Fraction, Fraction]:
    """Return how much of an unmeasured load a circuit can still bear.

    Parameters
    ----------
    spare_a : Fraction
        Breaker less the demand of everything that is known. [A]
    rules : RuleSet
        Lends the factor for continuous load.

    Returns
    -------
    tuple of Fraction
        The most if it runs for hours (the stricter), and the most if it does not. Negative when
        the known load is already too much. [A]
    """
    return spare_a / rules.continuous_factor, spare_a


def more_chairs(spare_a: Fraction, kind: ChairKind, rules: RuleSet) -> int:
    """Return how many more chairs of a kind the spare demand carries, by load alone.

    Parameters
    ----------
    spare_a : Fraction
        Breaker less demand; negative when overloaded. [A]
    kind : ChairKind
        The chair.
    rules : RuleSet
        Lends the factor for continuous load.

    Returns
    -------
    int
        Whole chairs, rounded down; 0 when nothing is left.

    Raises
    ------
    ValueError
        If the chair asks for nothing, so that no number is the last.
    """
    each_a = chair_demand_a(kind, rules)
    if each_a <= 0:
        raise ValueError(f"chair {kind.id} asks for no current")
    return max(0, math.floor(spare_a / each_a))


def wires_for_breaker(breaker_a: Fraction, rules: RuleSet) -> tuple[Wire, ...]:
    """Return every wire that a breaker may protect as a branch circuit.

    Parameters
    ----------
    breaker_a : Fraction
        The breaker's rating. [A]
    rules : RuleSet
        Lends the wires.

    Returns
    -------
    tuple of Wire
        Thin to thick.

    Raises
    ------
    ValueError
        If the rule set has no wire for so large a breaker.
    """
    allowed = [
        wire
        for wire in rules.wires.values()
        if wire.max_breaker_a is not None and breaker_a <= wire.max_breaker_a
    ]
    if not allowed:
        raise ValueError(f"no wire of {rules.id} may stand behind a {float(breaker_a):g} A breaker")
    return tuple(sorted(allowed, key=lambda wire: wire.rank))


def usual_wire(breaker_a: Fraction, rules: RuleSet) -> Wire:
    """Return the thinnest wire that a breaker may protect as a branch circuit.

    Parameters
    ----------
    breaker_a : Fraction
        The breaker's rating. [A]
    rules : RuleSet
        Lends the wires.

    Returns
    -------
    Wire
        The thinnest allowed.

    Raises
    ------
    ValueError
        If the rule set has no wire for so large a breaker.
    """
    return wires_for_breaker(breaker_a, rules)[0]
