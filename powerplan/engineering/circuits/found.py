"""What an electrician may find in a circuit or outlet, and what comes of it for the chairs.

Nothing here is a number of amperes: a shared neutral, a switch, a missing ground, aluminum wire.
"""

from __future__ import annotations

from powerplan.model.findings import Finding, hold
from powerplan.model.lengths import joined
from powerplan.model.rules import RuleSet, Wire
from powerplan.model.spec import Circuit, Outlet, PlanSpec

ALUMINUM = "aluminum"


def circuit_wire(circuit: Circuit, rules: RuleSet) -> Wire | None:
    """Return a circuit's wire in the metal it is of; copper where that is not said.

    Parameters
    ----------
    circuit : Circuit
        An existing circuit.
    rules : RuleSet
        Lends the tables of wire.

    Returns
    -------
    Wire or None
        None where the size is unknown, or the rule set has none of that metal.
    """
    if circuit.wire is None:
        return None
    metal = rules.aluminum if circuit.conductor == ALUMINUM else rules.wires
    return metal.get(circuit.wire)


def is_grounded(outlet: Outlet, circuit: Circuit) -> bool | None:
    """Return whether an outlet has a ground: its own word goes before its circuit's."""
    return circuit.ground if outlet.ground is None else outlet.ground


def is_switched(outlet: Outlet, circuit: Circuit) -> bool | None:
    """Return whether a wall switch turns an outlet off: its own word before its circuit's."""
    return circuit.switched if outlet.switched is None else outlet.switched


def hangs_on_a_look(circuit: Circuit) -> bool:
    """Return whether chairs may be on a circuit only after an electrician has looked at it."""
    return circuit.shared_neutral is True or circuit.conductor == ALUMINUM


def use_findings(circuit: Circuit, rules: RuleSet) -> tuple[Finding, ...]:
    """Hold a circuit against what has to be looked at before any chair is on it.

    Parameters
    ----------
    circuit : Circuit
        An existing circuit.
    rules : RuleSet
        Lends the rules.

    Returns
    -------
    tuple of Finding
        ``shared-neutral`` and ``aluminum-wire``: not checked where it is so, met where it is said
        that it is not, nothing where nobody has said.
    """
    found = []
    subject = f"circuit {circuit.id}"
    if circuit.shared_neutral is not None and rules.has("shared-neutral"):
        note = (
            "It shares its neutral with another circuit: both must go off by one handle and sit "
            "on opposite poles, or the neutral runs hot as the chairs add to it."
        )
        shares = circuit.shared_neutral
        found.append(_looked_at(rules, "shared-neutral", subject, shares, note))
    if circuit.conductor is not None:
        note = (
            "Its wire is aluminum: outlets and splices must be made for it and be tight, or they "
            "run hot under the chairs' load."
        )
        is_aluminum = circuit.conductor == ALUMINUM
        found.append(_looked_at(rules, "aluminum-wire", subject, is_aluminum, note))
    return tuple(found)


def _looked_at(rules: RuleSet, rule: str, subject: str, so: bool, note: str) -> Finding:
    return hold(rules.rules[rule], subject, None if so else 0, 0, note=note if so else "")


def extend_findings(circuit: Circuit, rules: RuleSet) -> tuple[Finding, ...]:
    """Return what forbids that a new outlet is wired on from a circuit: musts not met.

    Parameters
    ----------
    circuit : Circuit
        An existing circuit.
    rules : RuleSet
        Lends the rules.

    Returns
    -------
    tuple of Finding
        ``shared-neutral``, ``aluminum-wire`` and ``grounded-outlet`` as far as they forbid it.
    """
    subject, found = f"circuit {circuit.id}", []
    if circuit.shared_neutral and rules.has("shared-neutral"):
        note = "It shares its neutral with another circuit: nothing new is wired on from it."
        found.append(hold(rules.rules["shared-neutral"], subject, 1, 0, note=note))
    if circuit.conductor == ALUMINUM:
        note = "Its wire is aluminum: nothing new is wired on from it."
        found.append(hold(rules.rules["aluminum-wire"], subject, 1, 0, note=note))
    if circuit.ground is False:
        note = "It has no ground, and a new outlet must have one."
        found.append(hold(rules.rules["grounded-outlet"], subject, 0, 1, note=note))
    return tuple(found)


def outlet_findings(outlet: Outlet, circuit: Circuit, rules: RuleSet) -> tuple[Finding, ...]:
    """Hold an outlet's ground and switch against what a chair's plug asks.

    Parameters
    ----------
    outlet : Outlet
        An existing outlet.
    circuit : Circuit
        Its circuit.
    rules : RuleSet
        Lends the rules.

    Returns
    -------
    tuple of Finding
        ``grounded-outlet`` and ``switched-outlet``, each only where it is said.
    """
    subject, found = f"outlet {outlet.id}", []
    grounded, switched = is_grounded(outlet, circuit), is_switched(outlet, circuit)
    if grounded is not None:
        note = (
            ""
            if grounded
            else "It has no ground, and a chair's plug needs one: no adapter; an electrician "
            "must ground it or wire another."
        )
        found.append(hold(rules.rules["grounded-outlet"], subject, int(grounded), 1, note=note))
    if switched is not None:
        note = (
            "A wall switch turns it off, and with it a chair that is reclined: have the switch "
            "taken out of its way, or put a guard on it."
            if switched
            else ""
        )
        found.append(hold(rules.rules["switched-outlet"], subject, int(switched), 0, note=note))
    return tuple(found)


def nobody_looked(spec: PlanSpec, used: tuple[Circuit, ...], rules: RuleSet) -> tuple[Finding, ...]:
    """Return one line on all that nobody has said of the circuits that feed chairs.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read.
    used : tuple of Circuit
        The existing circuits that feed chairs.
    rules : RuleSet
        Lends the rule.

    Returns
    -------
    tuple of Finding
        One ``circuit-looked-at``, not checked, with the unknowns counted; none where there is
        nothing to find out. Copper is assumed meanwhile.
    """
    unknown: dict[str, list[str]] = {}
    for circuit in used:
        outlets = [outlet for outlet in spec.outlets if outlet.circuit == circuit.id]
        grounds = [is_grounded(outlet, circuit) for outlet in outlets] or [circuit.ground]
        switches = [is_switched(outlet, circuit) for outlet in outlets] or [False]
        for words, missing in (
            ("whether it shares its neutral", circuit.shared_neutral is None),
            ("whether its outlets are grounded", None in grounds),
            ("whether its wire is copper, as is assumed", circuit.conductor is None),
            ("whether a wall switch turns it off", None in switches),
            ("whether it has ground-fault protection", circuit.gfci is None),
            ("whether it has arc-fault protection", circuit.afci is None),
        ):
            if missing:
                unknown.setdefault(words, []).append(circuit.id)
    if not unknown:
        return ()
    names = list(dict.fromkeys(name for names in unknown.values() for name in names))
    asked = "; ".join(
        words if of == names else f"{words} ({joined(of)})" for words, of in unknown.items()
    )
    one = len(names) == 1
    return (
        hold(
            rules.rules["circuit-looked-at"],
            f"{'circuit' if one else 'circuits'} {joined(names)}",
            sum(len(of) for of in unknown.values()),
            0,
            checked=False,
            note=f"Not said: {asked}. The electrician looks.",
        ),
    )
