"""Outlet units: straight into a fixed outlet, within their rating, a socket for each plug."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from powerplan.judging.case import AGREES, Case
from powerplan.judging.feeding import EXTENSION
from powerplan.model.findings import Finding, Force
from powerplan.model.loose import UNIT_CORD, OutletUnit
from powerplan.model.spec import OutletUnitKind

_FEWEST = 2
_INTO = "unit-into-outlet"


def judge_unit(case: Case, unit: OutletUnit, kind: OutletUnitKind) -> Iterator[Finding]:
    """Hold an outlet unit to its label, to what it is plugged into, and to what hangs on it.

    Parameters
    ----------
    case : Case
        The record on the bench.
    unit : OutletUnit
        The unit where it lies. [m, A]
    kind : OutletUnitKind
        The unit of the plan file.
    """
    cords = case.plan.cords
    into = [n for n, cord in enumerate(cords) if cord.to == unit.id]
    out = [cord for cord in cords if cord.from_ == unit.id]
    yield case.same_words(unit.id, "unit cords", [cords[n].kind for n in into], [UNIT_CORD])
    fixed = all(cords[n].from_ in (*case.outlets, *case.boxes) for n in into)
    linked = any(cord.kind in (EXTENSION, UNIT_CORD) for cord in out)
    wrong = int(not fixed) + int(linked)
    note = "a unit or an extension is plugged into another" if wrong else ""
    yield case.hold(_INTO, unit.id, wrong, 0, note=note)
    yield case.hold("sockets-free", unit.id, len(out), kind.sockets)
    if len(out) < _FEWEST:
        yield case.broken(AGREES, unit.id, "fewer than two plugs are in it")
    chairs = sorted({name for n in into for name in case.feeding.carries[n]})
    yield case.same_words(unit.id, "chairs", sorted(unit.chairs), chairs)
    whole = sum((case.seats[name].input_a for name in chairs), Fraction(0))
    yield case.same_number(unit.id, "current_a", unit.current_a, whole)
    yield case.same_number(unit.id, "rating_a", unit.rating_a, kind.rating_a)
    yield case.same_words(unit.id, "sockets", unit.sockets, kind.sockets)
    yield case.hold("unit-rating", unit.id, whole, kind.rating_a)
    home = (case.plan.spec.project.place or "").startswith("home")
    listed = None if kind.listed is None else int(kind.listed)
    force = Force.ADVICE if home else Force.MUST
    yield case.hold("unit-listed", unit.id, listed, 1, force=force)
