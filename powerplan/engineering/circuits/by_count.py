"""What many supplies do together: leak to ground all the time, and rush when switched on."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from powerplan.model.findings import Finding, hold
from powerplan.model.lengths import amps_text
from powerplan.model.rules import RuleSet


def leakage_finding(subject: str, supplies: int, rules: RuleSet) -> Finding:
    """Hold the leakage of supplies behind one ground-fault device against its trip band.

    Parameters
    ----------
    subject : str
        The circuit, as people call it.
    supplies : int
        How many hang behind the device.
    rules : RuleSet
        Lends the leakage of one supply and the current from which a device may trip. [mA]

    Returns
    -------
    Finding
        ``leakage-by-count``, a note. Equal is not met: from the limit on a device may trip.
    """
    each, hold_ma = rules.exact("standing_leakage"), rules.exact("ground_fault_hold")
    leaks, most = supplies * each, ceil(hold_ma / each) - 1
    note = ""
    if leaks >= hold_ma:
        note = (
            f"{supplies} supplies may leak {float(leaks):g} mA between them, and a ground-fault "
            f"device may trip from {float(hold_ma):g} mA: no more than {most} chairs behind "
            "one device, so one at each outlet, or ask the chair maker for the true leakage."
        )
    return hold(rules.rules["leakage-by-count"], subject, leaks, hold_ma, note=note)


def switch_on_finding(
    subject: str, supplies: int, breaker_a: Fraction, rules: RuleSet, *, built_in: bool = False
) -> Finding:
    """Hold the rush of supplies that come on together against what a breaker lets pass.

    Parameters
    ----------
    subject : str
        The circuit, as people call it.
    supplies : int
        How many are on it.
    breaker_a : Fraction
        The breaker's rating. [A]
    rules : RuleSet
        Lends the rush of one supply and how many times its rating a breaker lets pass.
    built_in : bool
        True where each is built into its chair.

    Returns
    -------
    Finding
        ``switch-on-by-count``, a note; it excuses no overload. Equal to the limit passes.
    """
    rush_a = supplies * rules.exact("switch_on")
    passes_a = rules.exact("switch_on_times") * breaker_a
    note = ""
    if rush_a > passes_a:
        which = f"the chairs' {supplies} built-in supplies" if built_in else f"{supplies} supplies"
        note = (
            f"After a power cut {which} come on together and may draw "
            f"{amps_text(rush_a)} for an instant: the breaker may trip. If it does, switch it off "
            "and leave it off; nobody reaches under a chair to a plug. The electrician chooses "
            "what keeps it from tripping: a breaker of another type, or feeds switched on in turn."
        )
    return hold(rules.rules["switch-on-by-count"], subject, rush_a, passes_a, note=note)
