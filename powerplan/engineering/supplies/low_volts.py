"""The low-voltage side of a supply: what its cord to the chair loses."""

from __future__ import annotations

from powerplan.engineering.circuits.drop import voltage_drop_v
from powerplan.model.findings import Finding, hold
from powerplan.model.rules import RuleSet
from powerplan.model.spec import SupplyKind


def low_drop_percent(kind: SupplyKind, rules: RuleSet) -> float | None:
    """Return the share of a supply's output that its chair cord loses at most.

    Parameters
    ----------
    kind : SupplyKind
        The supply, with its output and its chair cord.
    rules : RuleSet
        Lends the wires.

    Returns
    -------
    float or None
        Loss at the whole output current, of the output voltage; None where neither the cord's wire
        nor its resistance is known. [%]

    Notes
    -----
    Direct current, out and back. A supply that two seats share may give its whole output to one of
    them, so each cord is taken to carry it.

    Source: Ohm's law (first principles).
    """
    current_a, output_v = float(kind.output_a), float(kind.output_v)
    if kind.chair_cord_ohm is not None:
        return current_a * kind.chair_cord_ohm / output_v * 100
    if kind.chair_cord_wire is None:
        return None
    ohm_per_m = rules.wires[kind.chair_cord_wire].cord_ohm_per_m
    return voltage_drop_v(current_a, kind.chair_cord_m, ohm_per_m) / output_v * 100


def low_drop_finding(kind: SupplyKind, supply: str, rules: RuleSet) -> Finding:
    """Hold a chair cord's loss against what is advised.

    Parameters
    ----------
    kind : SupplyKind
        The supply.
    supply : str
        What people call it.
    rules : RuleSet
        Lends the limit and the wires.

    Returns
    -------
    Finding
        ``low-voltage-drop``; not checked where the cord's wire is unknown.
    """
    percent = low_drop_percent(kind, rules)
    limit = rules.exact("low_voltage_drop_percent")
    note = ""
    if percent is None:
        note = "Read the wire size off the cord from the supply to the chair, or measure the cord."
    elif percent > float(limit):
        note = (
            "The chair may run slow or stop under load: ask its maker for a thicker or a shorter "
            "cord from the supply to the chair."
        )
    return hold(rules.rules["low-voltage-drop"], supply, percent, limit, note=note)


def chair_cord_findings(kind: SupplyKind, cord: str, rules: RuleSet) -> tuple[Finding, ...]:
    """Hold a chair cord's wire against the whole output current; nothing where it is unknown.

    Parameters
    ----------
    kind : SupplyKind
        The supply.
    cord : str
        What people call the cord.
    rules : RuleSet
        Lends the wires.

    Returns
    -------
    tuple of Finding
        ``cord-wire``.
    """
    if kind.chair_cord_wire is None:
        return ()
    limit_a = rules.wires[kind.chair_cord_wire].cord_a
    note = ""
    if limit_a is None or kind.output_a > limit_a:
        note = f"A cord of {kind.chair_cord_wire} is too thin for what the supply gives."
    return (hold(rules.rules["cord-wire"], cord, kind.output_a, limit_a, note=note),)
