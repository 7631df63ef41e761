"""The box rules held against a mark, or against a chair that leaves no place for a box."""

from __future__ import annotations

from collections.abc import Iterable

from powerplan.engineering.boxes.constraints import (
    EDGE_RULE,
    FRAMING_RULE,
    NO_CUT_RULE,
    PLACE_RULE,
    Constraint,
    Sizes,
    best_spare,
    region_of,
    sizes_of,
)
from powerplan.engineering.boxes.framing import SLAB, Deck, still_to_find
from powerplan.engineering.boxes.region import TICKS_PER_UM, Cell, Spot, meters, pieces
from powerplan.model.findings import Finding, hold
from powerplan.model.lengths import joined, length_text, micrometers, plural
from powerplan.model.rules import RuleSet
from powerplan.model.spec import PlanSpec

_BOTH_SIZES = 2


def size_known(spec: PlanSpec, subject: str, sizes: Sizes, rules: RuleSet) -> Finding:
    """Return whether the box's cut-out and lid are known; not checked where one is not.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read.
    subject : str
        The box.
    sizes : Sizes
        What the mark is made for. [half micrometer]
    rules : RuleSet
        The rules.
    """
    units = spec.project.units
    usual = []
    if spec.new_work.cut_out is None:
        usual.append(f"a cut-out of {_by(sizes.cut_width, sizes.cut_depth, units)}")
    if spec.new_work.lid is None:
        usual.append(f"a lid of {_by(sizes.lid_width, sizes.lid_depth, units)}")
    note = ""
    if usual:
        note = (
            f"Computed with {joined(usual)}, which is usual but not known: choose the box, give "
            "its sizes and plan again before cutting."
        )
    rule = rules.rules["box-size-known"]
    known = sizes.known == _BOTH_SIZES
    return hold(rule, subject, sizes.known, _BOTH_SIZES, note=note, checked=known)


def plug_height(spec: PlanSpec, subject: str, clear_m: float | None, rules: RuleSet) -> Finding:
    """Return whether the plug is lower than the clear zone is high.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read.
    subject : str
        The box.
    clear_m : float or None
        Height of the clear zone, None under a chair that is not measured. [m]
    rules : RuleSet
        The rules.
    """
    plug_m, units = spec.new_work.plug_height_m, spec.project.units
    if clear_m is None:
        note = "Nobody measured how high it is clear under this chair."
        return hold(rules.rules["box-plug-height"], subject, plug_m, None, note=note)
    note = (
        f"A plug {length_text(plug_m, units)} high does not fit under a mechanism that leaves "
        f"{length_text(clear_m, units)}: choose a recessed box or a flatter plug."
    )
    found = hold(rules.rules["box-plug-height"], subject, plug_m, clear_m)
    if not found.stops:
        return found
    return hold(rules.rules["box-plug-height"], subject, plug_m, clear_m, note=note)


def framing_unknown(deck: Deck, subject: str, second: bool, units: str, rules: RuleSet) -> Finding:
    """Return that a cut-out could not be held against the framing, and what to find out.

    Parameters
    ----------
    deck : Deck
        What the box is cut into. [half micrometer]
    subject : str
        The box.
    second : bool
        True where a second mark is given.
    units : str
        How lengths print.
    rules : RuleSet
        The rules.
    """
    note = f"Find out {still_to_find(deck)}, and plan again before cutting."
    if second:
        note = (
            f"Find out {still_to_find(deck)}; wherever they lie, one of the two marks is clear: "
            "scan at both, cut neither, and plan again with what was found."
        )
    return hold(rules.rules[FRAMING_RULE], subject, None, None, note=note)


def at_mark(
    subject: str, mark: Spot, deck: Deck, constraints: Iterable[Constraint], rules: RuleSet
) -> tuple[Finding, ...]:
    """Return how far a mark's cut-out is from joists, riser edges and no-cut areas.

    Parameters
    ----------
    subject : str
        The box.
    mark : tuple of int
        Its middle. [half micrometer]
    deck : Deck
        What it is cut into. [half micrometer]
    constraints : iterable of Constraint
        What it has to clear. [half micrometer]
    rules : RuleSet
        The rules.
    """
    found = []
    everything = tuple(constraints)
    if deck.framing.build == SLAB:
        note = f"There are no joists in {deck.name}, a slab; scan it before cutting."
        found.append(hold(rules.rules[FRAMING_RULE], subject, 0.0, 0.0, note=note))
    for rule in (FRAMING_RULE, EDGE_RULE, NO_CUT_RULE):
        ours = [one for one in everything if one.rule == rule]
        if ours:
            tightest = min(ours, key=lambda one: one.spare(mark))
            spare_m, limit_m = _meters(tightest.spare(mark)), meters(tightest.limit)
            note = f"The nearest is {tightest.name}." if rule != FRAMING_RULE else ""
            found.append(hold(rules.rules[rule], subject, spare_m, limit_m, note=note))
    return tuple(found)


def no_place(
    spec: PlanSpec,
    subject: str,
    clip: Cell,
    constraints: tuple[Constraint, ...],
    rules: RuleSet,
) -> tuple[Finding, ...]:
    """Return what empties a clear zone: each constraint without which there is a place, else all.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read.
    subject : str
        The box.
    clip : Cell
        The clear zone less half the lid all round. [half micrometer]
    constraints : tuple of Constraint
        What has to be cleared, and together leaves nothing. [half micrometer]
    rules : RuleSet
        The rules.
    """
    alone = [
        one
        for one in constraints
        if pieces(region_of(clip, [c for c in constraints if c is not one]))
    ]
    to_name = alone or [one for one in constraints if any(h.cuts_into(clip) for h in one.holes)]
    names = [_called(one) for one in to_name]
    if len(alone) == 1:
        why = f"without {names[0]} there would be one"
    elif alone:
        why = f"without any one of {joined(names)} there would be one"
    else:
        why = f"{joined(names)} together take all of it"
    note = f"The clear zone has no place for the box: {why}. Move the row, or choose a smaller box."
    found = [hold(rules.rules[PLACE_RULE], subject, 0, 1, note=note)]
    for one in to_name:
        if one.rule != PLACE_RULE:
            found.append(_best_held(spec, subject, clip, constraints if alone else (), one, rules))
    return tuple(found)


def _best_held(
    spec: PlanSpec,
    subject: str,
    clip: Cell,
    constraints: tuple[Constraint, ...],
    one: Constraint,
    rules: RuleSet,
) -> Finding:
    """Hold one constraint against the best that it would leave, the others being met."""
    best = best_spare(clip, [other for other in constraints if other is not one], one)
    value_m = None if best is None else _meters(best)
    limit_m = meters(one.limit)
    found = hold(rules.rules[one.rule], subject, value_m, limit_m)
    if not found.stops or value_m is None:
        return found
    units = spec.project.units
    note = (
        f"At best the cut-out is {length_text(value_m, units, step=32)} from {_called(one)}, and "
        f"{length_text(limit_m, units, step=32)} is wanted."
    )
    if value_m < 0:
        note = (
            f"At best the cut-out goes {length_text(-value_m, units, step=32)} into {_called(one)}."
        )
    if constraints:  # else other things leave no place either
        note += _would_fit(spec, one, limit_m - value_m, rules)
    return hold(rules.rules[one.rule], subject, value_m, limit_m, note=note)


def _would_fit(spec: PlanSpec, one: Constraint, short_m: float, rules: RuleSet) -> str:
    """The cut-out that a row of joists leaves room for, rounded down; nothing of other things.

    Where the best place is, each side of the hole is ``short_m`` too near: a hole that much smaller
    on both sides stands there with the margin that is wanted. [m]
    """
    if one.rule != FRAMING_RULE:
        return ""
    sizes, across = sizes_of(spec, rules), bool(one.ridges[0])
    size_m = meters(sizes.cut_width if across else sizes.cut_depth) - 2 * short_m
    units = spec.project.units
    step_um = 1000 if units in ("mm", "m") else 3175
    fits_um = micrometers(size_m) // step_um * step_um
    if fits_um <= 0:
        return ""
    way = "left to right" if across else "back to screen"
    return f" A cut-out of {length_text(fits_um / 1e6, units)} {way} would fit."


def lid_too_large(spec: PlanSpec, subject: str, sizes: Sizes, rules: RuleSet) -> Finding:
    """Return that a lid is larger than the clear zone.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read.
    subject : str
        The box.
    sizes : Sizes
        The box. [half micrometer]
    rules : RuleSet
        The rules.
    """
    lid = _by(sizes.lid_width, sizes.lid_depth, spec.project.units)
    note = f"A lid of {lid} is larger than the clear zone: choose a smaller box."
    return hold(rules.rules[PLACE_RULE], subject, 0, 1, note=note)


def has_place(subject: str, parts: tuple[Cell, ...], rules: RuleSet, *, measured: bool) -> Finding:
    """Return that there is a place, and in how many pieces; not checked in a clear zone that is
    guessed.

    Parameters
    ----------
    subject : str
        The box.
    parts : tuple of Cell
        Where its middle may stand. [half micrometer]
    rules : RuleSet
        The rules.
    measured : bool
        Whether somebody measured the chair over it.
    """
    if not measured:
        note = "Nobody measured what stays clear under this chair: the place is a guess."
        return hold(rules.rules[PLACE_RULE], subject, len(parts), 1, note=note, checked=False)
    note = "" if len(parts) == 1 else f"Its middle may sit in {plural(len(parts), 'piece')}."
    return hold(rules.rules[PLACE_RULE], subject, len(parts), 1, note=note)


def _called(one: Constraint) -> str:
    return "the joists" if one.rule == FRAMING_RULE else one.name


def _meters(length: float) -> float:
    """A distance in half-micrometers as meters. [m]"""
    return length / TICKS_PER_UM / 1e6


def _by(width: int, depth: int, units: str) -> str:
    return f"{length_text(meters(width), units)} by {length_text(meters(depth), units)}"
