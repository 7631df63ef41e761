"""For the electrician: every circuit, what is asked of it and what it may give."""

from __future__ import annotations

from powerplan.model.lengths import FOOT_M, amps_text, micrometers
from powerplan.model.plan import CircuitUse, Plan
from powerplan.sheets.amounts import factor_of
from powerplan.sheets.parts import Items, Page, Part, Say, Table
from powerplan.sheets.words import UNKNOWN, wire_text

_DOWN_TO_M = {"mm": 0.1, "m": 0.1}
_HEAD = ("circuit", "asks", "may give", "left", "breaker", "wire", "home run", "drop")


def circuits_page(plan: Plan) -> Page:
    """Return the table of circuits and which chairs hang on each."""
    title = "Circuits"
    if not plan.circuits:
        return Page(title=title, parts=(Say(text="No circuit feeds these chairs."),))
    rows = tuple(_row(plan, circuit) for circuit in plan.circuits)
    parts: list[Part] = [Table(caption="Each circuit and its load", head=_HEAD, rows=rows)]
    unknown = {circuit.id for circuit in plan.circuits if not circuit.load_known}
    partly = [one for one in plan.spec.circuits if one.id in unknown and one.partly_on_it]
    for one in partly:
        known = ", ".join(load.name for load in one.partly_on_it)
        text = f"Of what is already on circuit {one.id}, {', '.join(one.not_measured)} is unknown: "
        parts.append(Say(text=f"{text}the figure under asks is the chairs and {known}."))
    wholly = [name for name in unknown if name not in {one.id for one in partly}]
    if wholly:
        parts.append(
            Say(
                text=f"What is already on circuit {', '.join(sorted(wholly))} is unknown: "
                "the figure under asks is the chairs alone."
            )
        )
    fed = tuple(_fed(plan, circuit.id) for circuit in plan.circuits)
    parts.append(Items(lead="Which chairs hang on it:", items=fed))
    parts.append(
        Say(
            text=f"Asks is {_factor(plan)}. "
            f"Drop is at the farthest chair; resistance: {plan.rules.resistance_basis}."
        )
    )
    runs = tuple(filter(None, (home_run_text(plan, circuit) for circuit in plan.circuits)))
    if runs:
        told = "; ".join(runs)
        text = f"Within the drop that is advised, at the farthest chair, and by that alone: {told}."
        parts.append(Say(text=text))
    return Page(title=title, parts=tuple(parts))


def home_run_text(plan: Plan, circuit: CircuitUse) -> str:
    """Return the longest home run within the advised drop, down to half a foot or 100 mm; nothing
    where it is not known."""
    if circuit.home_run_most_m is None:
        return ""
    wire = f"on {circuit.wire} " if circuit.wire else ""
    most = home_run_most_text(circuit, plan.spec.project.units)
    if not most:
        return f"{circuit.id} {wire}has no home run short enough"
    return f"{circuit.id} {wire}a home run of {most} at most"


def home_run_most_text(circuit: CircuitUse, units: str) -> str:
    """Return the longest home run within the advised drop alone, rounded down; nothing where it is
    not known or no run is short enough."""
    step_um = micrometers(float(_DOWN_TO_M.get(units, FOOT_M / 2)))
    most_um = micrometers(circuit.home_run_most_m or 0.0) // step_um * step_um
    return wire_text(most_um / 1e6, units) if most_um > 0 else ""


def _row(plan: Plan, circuit: CircuitUse) -> tuple[str, ...]:
    asks = amps_text(circuit.asks_a, up=True)
    home = circuit.home_run_m
    return (
        f"{circuit.id} (NEW)" if circuit.new else circuit.id,
        asks if circuit.load_known else f"{asks} + ?",
        _amps(circuit.may_give_a),
        _left(plan, circuit),
        _amps(circuit.breaker_a),
        circuit.wire or UNKNOWN,
        UNKNOWN if home is None else wire_text(home, plan.spec.project.units),
        _drop(plan, circuit),
    )


def _drop(plan: Plan, circuit: CircuitUse) -> str:
    if not any(chair.circuit == circuit.id for chair in plan.chairs):
        return "no chair"
    return UNKNOWN if circuit.drop_percent is None else f"{circuit.drop_percent:.2f} %"


def _left(plan: Plan, circuit: CircuitUse) -> str:
    for spare in plan.decision.spare:
        if spare.circuit == circuit.id and spare.spare_a is not None:
            return amps_text(spare.spare_a, down=spare.spare_a > 0)
    return UNKNOWN


def _amps(current_a: float | None) -> str:
    return UNKNOWN if current_a is None else amps_text(current_a)


def _fed(plan: Plan, circuit: str) -> str:
    names = [chair.id for chair in plan.chairs if chair.circuit == circuit]
    return f"{circuit}: {', '.join(names) if names else 'none'}"


def _factor(plan: Plan) -> str:
    factor = factor_of(plan)
    if factor == 1.0:
        return "the sum of all currents"
    return f"{factor:g} x what lasts 3 h or more, plus the rest"
