"""What was said of an existing circuit's load and wiring, for the electrician to hold against."""

from __future__ import annotations

from powerplan.model.lengths import amps_text
from powerplan.model.spec import Circuit, Load, Outlet
from powerplan.sheets.pages.print_words import BLANK
from powerplan.sheets.words import UNKNOWN


def load_text(circuit: Circuit, *, weighs: bool) -> str:
    """Return what is already on a circuit, thing by thing, with what is not measured.

    Parameters
    ----------
    circuit : Circuit
        An existing circuit. [A]
    weighs : bool
        Whether the rule set asks how long a load lasts.
    """
    loads = circuit.already_on_it
    told = [_one(load, weighs=weighs) for load in loads or circuit.partly_on_it]
    told += [f"{name} {UNKNOWN}" for name in circuit.not_measured]
    return "; ".join(told) or (UNKNOWN if loads is None else "nothing")


def _one(load: Load, *, weighs: bool) -> str:
    lasts = (" for hours" if load.continuous else " now and then") if weighs else ""
    return f"{load.name} {amps_text(load.current_a)}{lasts}"


def found_rows(circuit: Circuit) -> list[tuple[str, str, str]]:
    """Return what was said of the wiring itself; what was not said has a blank in one line."""
    said = (
        ("neutral", circuit.shared_neutral, "shared", "its own"),
        ("ground", circuit.ground, "yes", "none"),
        ("wall switch", circuit.switched, "turns it off", "none"),
        ("ground-fault protection", circuit.gfci, "yes", "no"),
        ("arc-fault protection", circuit.afci, "yes", "no"),
    )
    name = f"circuit {circuit.id}"
    rows = [
        (f"{name}: {what}", yes if so else no, BLANK)
        for what, so, yes, no in said
        if so is not None
    ]
    if circuit.conductor is not None:
        rows.append((f"{name}: metal of its wire", circuit.conductor, BLANK))
    missing = [what for what, so, _, _ in said if so is None]
    missing += ["metal (taken as copper)"] if circuit.conductor is None else []
    if missing:
        rows.append((f"{name}: {', '.join(missing)}", UNKNOWN, BLANK))
    return rows


def ground_text(outlet: Outlet, circuit: Circuit) -> str:
    """Return whether an outlet has a ground, as it is assumed."""
    said = circuit.ground if outlet.ground is None else outlet.ground
    if said is None:
        return f"ground {UNKNOWN}"
    return "grounded" if said else "NO GROUND"
