"""Chairs that run from packs: what charging asks, and what it must not do."""

from __future__ import annotations

from fractions import Fraction

from powerplan.engineering.circuits.load import demand_a
from powerplan.model.findings import Finding, hold
from powerplan.model.lengths import amps_text, plural
from powerplan.model.seats import ELSEWHERE
from powerplan.planning.site import Site


def battery_notes(site: Site) -> tuple[Finding, ...]:
    """Return a note for each kind of chair that runs from a pack.

    A charger that stays plugged in at the chair is on its circuit, all of it lasting. Packs that
    are charged elsewhere load whatever circuit their chargers are plugged into: how much is told,
    and not checked.

    Parameters
    ----------
    site : Site
        The room surveyed.
    """
    notes = []
    for kind in site.spec.chairs:
        count = sum(chair.kind.id == kind.id for chair in site.chairs)
        if kind.battery is None or not count:
            continue
        asks_a = demand_a(count * kind.battery.charger_a, Fraction(0), site.rules)
        if kind.battery.charged == ELSEWHERE:
            note = (
                f"Charging {plural(count, 'pack')} asks {amps_text(asks_a, up=True)} for hours of "
                "the circuit on which that is done: it is not one of this plan."
            )
        else:
            note = "The chargers stay plugged in at the chairs, and count as lasting."
        note += (
            " Charge as the maker says, where nobody trips over a cord and nothing covers pack or "
            "charger."
        )
        rule = site.rules.rules["battery-charging"]
        notes.append(hold(rule, f"chairs of kind {kind.id}", asks_a, None, note=note))
    return tuple(notes)
