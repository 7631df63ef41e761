"""One record on the judge's bench: what it states, and what the judge worked out to hold it to."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from powerplan.judging.feeding import Feeding, follow
from powerplan.judging.floor import Floor, read_floor
from powerplan.judging.rows import LaidRow, lay_rows
from powerplan.judging.seats import Seat
from powerplan.model.findings import Bound, Finding, Force, hold
from powerplan.model.lengths import micrometers
from powerplan.model.loose import OutletUnit, Supply, SupplyKind
from powerplan.model.plan import Box, CircuitUse, Plan
from powerplan.model.rules import RuleSet, Wire
from powerplan.model.spec import Circuit, Load, Outlet

LENIENT_UM = 2
LENIENT_M = 2e-6
AGREES = "record-agrees"
FLOOR_BOX, WALL_OUTLET = "floor box", "wall outlet"

_FINEST = 10**6
_CURRENT_TOLERANCE_A = Fraction(1, 10**6)


@dataclass(frozen=True, slots=True, kw_only=True)
class Branch:
    """A circuit as the judge sees it: from the spec where it is there, from the record where it is
    new. ``already`` is None where nobody knows all of it, ``partly`` what is known then; ``there``
    the circuit as the spec has it; ``stated`` what the record says of it. [A, m]"""

    id: str
    new: bool
    breaker_a: Fraction | None
    wire: str | None
    home_run_m: float | None
    already: tuple[Load, ...] | None
    stated: CircuitUse | None
    seats: tuple[Seat, ...]
    partly: tuple[Load, ...] = ()
    there: Circuit | None = None

    @property
    def subject(self) -> str:
        """Its name in a finding."""
        return f"circuit {self.id}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """A record and everything the judge derives from the statements it trusts."""

    plan: Plan
    rules: RuleSet
    rows: tuple[LaidRow, ...]
    seats: Mapping[str, Seat]
    floor: Floor
    outlets: Mapping[str, Outlet]
    boxes: Mapping[str, Box]
    feeding: Feeding
    branches: Mapping[str, Branch]
    supplies: Mapping[str, Supply]
    supply_kinds: Mapping[str, SupplyKind]
    units: Mapping[str, OutletUnit]

    def hold(
        self,
        rule: str,
        subject: str,
        value: Fraction | float | None,
        limit: Fraction | float | None,
        *,
        note: str = "",
        force: Force | None = None,
        checked: bool = True,
        lenient_um: int = LENIENT_UM,
    ) -> Finding:
        """Hold a rule against one thing; lengths that fall short by a hair count as the limit.

        Parameters
        ----------
        rule : str
            The rule's name.
        subject : str
            What it is held against.
        value, limit : Fraction, float or None
            As for ``findings.hold``. [the rule's unit]
        note : str
            One sentence for the reader.
        force : Force, optional
            Overrides the rule's force.
        checked : bool
            False where a met outcome would prove nothing.
        lenient_um : int
            How short a length may fall. [um]

        Returns
        -------
        Finding
            The outcome.
        """
        known = self.rules.rules[rule]
        if known.unit == "m" and value is not None and limit is not None:
            value = _forgiven(value, limit, known.bound, lenient_um)
        return hold(known, subject, value, limit, note=note, force=force, checked=checked)

    def same_words(self, subject: str, field: str, stated: object, follows: object) -> Finding:
        """Hold a stated name, text or flag against the one that follows."""
        differs = stated != follows
        note = (
            f"{field}: the record says {stated!r:.80}; {follows!r:.80} follows" if differs else ""
        )
        return self.hold(AGREES, subject, int(differs), 0, note=note)

    def same_length(
        self,
        subject: str,
        field: str,
        stated: float | None,
        follows: float | None,
        *,
        within_um: int = LENIENT_UM,
    ) -> Finding:
        """Hold a stated length against the one that follows. [m, um]"""
        if stated is None or follows is None:
            return self.same_words(subject, field, stated, follows)
        apart = Fraction(abs(micrometers(stated) - micrometers(follows)), 10**6)
        return self._compared(subject, field, stated, follows, apart, Fraction(within_um, 10**6))

    def same_number(
        self,
        subject: str,
        field: str,
        stated: float | None,
        follows: Fraction | float | None,
        *,
        within: Fraction = _CURRENT_TOLERANCE_A,
    ) -> Finding:
        """Hold a stated current, or another number, against the one that follows. [A]"""
        if stated is None or follows is None:
            return self.same_words(subject, field, stated, follows)
        apart = abs(Fraction(stated) - Fraction(follows))
        return self._compared(subject, field, stated, float(follows), apart, within)

    def broken(self, rule: str, subject: str, note: str, *, force: Force | None = None) -> Finding:
        """Say that a rule is not met where no number tells how far."""
        return self.hold(rule, subject, math.nan, 0, note=note, force=force)

    def branch_of(self, feed: str | None) -> Branch | None:
        """Return the circuit on which an outlet or a box is, None where there is none such."""
        if feed is None:
            return None
        if feed in self.outlets:
            return self.branches.get(self.outlets[feed].circuit)
        return self.branches.get(self.boxes[feed].circuit) if feed in self.boxes else None

    def breaker_or_least_a(self, branch: Branch) -> Fraction:
        """Return a circuit's breaker, the smallest there is where it is unknown. [A]"""
        return min(self.rules.breakers_a) if branch.breaker_a is None else branch.breaker_a

    def wire(self, name: str | None) -> Wire | None:
        """Return a wire of the rule set, None where it is unknown or not in it."""
        return None if name is None else self.rules.wires.get(name)

    def wire_of(self, branch: Branch) -> Wire | None:
        """Return the wire of a circuit, in aluminum where the spec says that it is."""
        if branch.there is not None and branch.there.conductor == "aluminum":
            return None if branch.wire is None else self.rules.aluminum.get(branch.wire)
        return self.wire(branch.wire)

    def _compared(
        self,
        subject: str,
        field: str,
        stated: float,
        follows: float,
        apart: Fraction,
        within: Fraction,
    ) -> Finding:
        note = f"{field}: the record says {stated:.9g}; {follows:.9g} follows"
        return self.hold(AGREES, subject, apart, within, note=note if apart > within else "")


def open_case(plan: Plan, rules: RuleSet) -> Case:
    """Return a record that hangs together (see ``sanity``), opened for judging."""
    spec = plan.spec
    rows = lay_rows(spec, spec.cords.diameter_m + rules.length_m("gap_over_cord"))
    seats = {seat.id: seat for row in rows for seat in row.seats}
    outlets = {outlet.id: outlet for outlet in spec.outlets}
    boxes = {box.id: box for box in reversed(plan.boxes)}
    feeding = follow(plan, seats, frozenset(outlets) | frozenset(boxes))
    feeds = {name: outlet.circuit for name, outlet in outlets.items()}
    feeds = {name: box.circuit for name, box in boxes.items()} | feeds
    return Case(
        plan=plan,
        rules=rules,
        rows=rows,
        seats=seats,
        floor=read_floor(spec, rows, rules.length_m("wall_strip"), rules.length_m("covered_gap")),
        outlets=outlets,
        boxes=boxes,
        feeding=feeding,
        branches=_branches(plan, seats, feeding, feeds),
        supplies={supply.id: supply for supply in reversed(plan.supplies)},
        supply_kinds={
            supply.id: kind
            for supply in reversed(plan.supplies)
            for kind in spec.supplies
            if kind.id == supply.kind
        },
        units={unit.id: unit for unit in reversed(plan.outlet_units)},
    )


def exact_a(current_a: float) -> Fraction:
    """Return the exact current that a rounded one stands for. [A]"""
    return Fraction(current_a).limit_denominator(_FINEST)


def _branches(
    plan: Plan, seats: Mapping[str, Seat], feeding: Feeding, feeds: Mapping[str, str]
) -> dict[str, Branch]:
    on: dict[str, list[Seat]] = {}
    for name, seat in seats.items():
        feed = feeding.feed_of(name)
        if feed is not None:
            on.setdefault(feeds[feed], []).append(seat)
    stated = {use.id: use for use in reversed(plan.circuits)}
    branches = {
        circuit.id: Branch(
            id=circuit.id,
            new=False,
            breaker_a=circuit.breaker_a,
            wire=circuit.wire,
            home_run_m=circuit.home_run_m,
            already=circuit.already_on_it,
            stated=stated.get(circuit.id),
            seats=tuple(on.get(circuit.id, ())),
            partly=circuit.partly_on_it,
            there=circuit,
        )
        for circuit in plan.spec.circuits
    }
    for use in stated.values():
        if use.new and use.id not in branches:
            branches[use.id] = Branch(
                id=use.id,
                new=True,
                breaker_a=None if use.breaker_a is None else exact_a(use.breaker_a),
                wire=use.wire,
                home_run_m=use.home_run_m,
                already=(),
                stated=use,
                seats=tuple(on.get(use.id, ())),
            )
    return branches


def _forgiven(
    value: Fraction | float, limit: Fraction | float, bound: Bound, lenient_um: int
) -> Fraction | float:
    if not (math.isfinite(value) and math.isfinite(limit)):
        return value
    spare = value - limit if bound is Bound.AT_LEAST else limit - value
    return limit if -lenient_um <= micrometers(float(spare)) < 0 else value
