"""Plan records made by hand, in inches on paper, for the judge to pass or to refuse.

Row A is five clubs, headrests 14 in off the back wall of a 240 in wide room. Seats 23 in and arms
7 in put the chairs at 60, 90, 120, 150 and 180 in. Each clear zone is 14 in wide, 23 to 35 in from
the wall; the rear rail is high enough for a cord, so a strip runs from it back to 18 in. Leads
leave a chair 25 in from the wall. A cord is 0.36 in thick.
"""

import json
import math
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from typing import Any

from support import (
    NEC,
    inch,
)

from powerplan.judging.judge import judge
from powerplan.judging.report import Report
from powerplan.model.codec import plan_from_plain, to_plain
from powerplan.model.findings import Finding, hold
from powerplan.model.plan import (
    CAUTION,
    CircuitUse,
    Cord,
    Decision,
    NumberUsed,
    PlacedChair,
    Plan,
    RulesUsed,
    Spare,
    Step,
    Zone,
)
from powerplan.model.spec import PlanSpec

CHAIR_X = (60, 90, 120, 150, 180)

TOLD = tuple(
    hold(NEC.rules[rule], "by hand", value, limit)
    for rule, value, limit in (
        ("circuit-load", 0, 1),
        ("voltage-drop", 0, 1),
        ("cord-length", 1, 0),
        ("cord-clear-of-mechanism", 1, 0),
        ("box-has-a-place", 1, 1),
    )
)


def points(*pairs: tuple[float, float]) -> tuple[tuple[float, float], ...]:
    """Points from inches."""
    return tuple((inch(x), inch(y)) for x, y in pairs)


def cord(
    name: tuple[str, str, str],
    path: tuple[tuple[float, float], ...],
    *,
    plan: float,
    rises: float = 0,
    needed: str,
    bought: float,
    amps: float,
    near: str,
    wire: str = "16 AWG",
    coil: tuple[float, float, float, int] | None = None,
    tail: tuple[tuple[float, float], ...] = (),
) -> Cord:
    """A cord from inches: kind, from and to; its way; ``near`` is its distance to what moves;
    ``coil`` where its middle is, what is left for it, and in how many loops it lies."""
    kind, from_, to = name
    size = None if coil is None else (inch(oval(coil[2], coil[3])), inch(4))
    return Cord(
        id=f"{from_}-{to}",
        kind=kind,
        from_=from_,
        to=to,
        path_m=points(*path),
        rises_m=inch(rises),
        length_m=inch(plan + rises),
        needed_m=inch(needed),
        bought_m=inch(bought),
        wire=wire,
        current_a=amps,
        open_floor_m=0.0,
        clearance_m=inch(Fraction(near) - Fraction(18, 100)),
        park_m=None if coil is None else points(coil[:2])[0],
        coil_m=size,
        tail_m=points(*tail),
    )


def oval(left: float, loops: int) -> float:
    """How wide an oval 4 in deep is: a loop is two half circles and two straights. [in]"""
    return 4 + (left / loops - 4 * math.pi) / 2


def chairs(
    feeds: tuple[str | None, ...],
    circuit: str | None,
    lost_v: tuple[float | None, ...],
    places: tuple[float, ...] = CHAIR_X,
) -> tuple[PlacedChair, ...]:
    """Clubs of row A at those inches from the left."""
    return tuple(
        PlacedChair(
            id=f"A{n}",
            row="A",
            seat=n,
            x_m=inch(x),
            y_m=inch(14),
            angle_rad=0.0,
            input_a=1.8,
            continuous_a=0.3,
            circuit=circuit,
            fed_by=feed,
            volts=None if lost is None else round(120 - lost, 6),
            drop_percent=None if lost is None else round(lost / 1.2, 6),
        )
        for n, (x, feed, lost) in enumerate(zip(places, feeds, lost_v, strict=True), start=1)
    )


def zone(chair: str, kind: str, left: float, right: float, back: float, front: float) -> Zone:
    """A rectangle of one chair's floor, from inches."""
    corners = ((left, back), (right, back), (right, front), (left, front))
    return Zone(chair=chair, kind=kind, outline_m=points(*corners))


def zones(places: tuple[float, ...] = CHAIR_X) -> tuple[Zone, ...]:
    """The floor under clubs of one row: shared arms are split in their middle."""
    found: list[Zone] = []
    for n, x in enumerate(places, start=1):
        left = x - (18.5 if n == 1 else 15)
        right = x + (18.5 if n == len(places) else 15)
        found += [
            zone(f"A{n}", "pinch", left, x - 7, 18, 80),
            zone(f"A{n}", "pinch", x + 7, right, 18, 80),
            zone(f"A{n}", "pinch", x - 7, x + 7, 35, 80),
            zone(f"A{n}", "clear", x - 7, x + 7, 23, 35),
            zone(f"A{n}", "rear strip", x - 7, x + 7, 18, 23),
        ]
    return tuple(found)


def circuit_use(name: str, chairs_on_it: int, worst: float | None, **changes: Any) -> CircuitUse:
    """What clubs ask of circuit 7 of the test room, or of another by its changes."""
    whole, lasting = Fraction(9, 5) * chairs_on_it, Fraction(3, 10) * chairs_on_it
    base = CircuitUse(
        id=name,
        new=False,
        breaker_a=15.0,
        wire="14 AWG",
        home_run_m=inch(576),
        continuous_a=float(lasting),
        other_a=float(whole - lasting),
        load_known=True,
        asks_a=float(whole + lasting / 4),
        may_give_a=15.0,
        drop_percent=None if worst is None else round(worst / 1.2, 6),
    )
    return replace(base, **changes)


def step(name: str, **changes: Any) -> Step:
    """A step that does not work, unless it is said to."""
    base = Step(
        step=name,
        works=False,
        allowed=True,
        sentence="By hand.",
        new_circuits=None,
        boxes=None,
        extensions=None,
        cord_m=None,
        findings=(),
    )
    return replace(base, **changes)


def decision(verdict: str, exit_code: int, *steps: Step, spare: tuple[Spare, ...] = ()) -> Decision:
    """A decision with those steps."""
    return Decision(
        verdict=verdict,
        sentence="By hand.",
        exit_code=exit_code,
        steps=steps,
        depends_on=(),
        spare=spare,
        flips=(),
    )


def plan(spec: PlanSpec, **parts: Any) -> Plan:
    """A record of a spec; what is not given is empty."""
    numbers = tuple(
        NumberUsed(
            name=number.name,
            value=round(float(number.value), 6),
            unit=number.unit,
            source=number.source.cite,
            standing=number.source.standing,
        )
        for number in NEC.numbers.values()
    )
    base: dict[str, Any] = {
        "record": 1,
        "program": "powerplan, by hand",
        "project": spec.project.name,
        "rules": RulesUsed(
            id=NEC.id,
            edition=NEC.edition,
            resistance_basis=NEC.resistance_basis,
            numbers=numbers,
        ),
        "caution": CAUTION,
        "plan_file_sha256": "0" * 64,
        "spec": spec,
        "boxes": (),
        "cords": (),
        "zones": zones(),
        "findings": TOLD,
        "bounds": None,
    }
    if parts.get("boxes"):  # in a home, circuits of new outlets have arc-fault protection
        arcs = hold(NEC.rules["afci-room"], "box A3", 0, 1, checked=False)
        base["findings"] = (*TOLD, arcs)
    return Plan(**{**base, **parts})


def judged(record: Plan) -> Report:
    """Judge a record after the way through its file."""
    return judged_plain(json.loads(json.dumps(to_plain(record), allow_nan=False)))


def judged_plain(plain: Any) -> Report:
    """Judge what a record's file holds."""
    return judge(plan_from_plain(plain), NEC)


def edited(record: Plan, edit: Callable[[Any], None]) -> Report:
    """Judge a record whose file was edited by hand."""
    plain = json.loads(json.dumps(to_plain(record), allow_nan=False))
    edit(plain)
    return judged_plain(plain)


def refused(report: Report) -> set[tuple[str, str]]:
    """Rule and subject of every must that is not met."""
    return {(finding.rule, finding.subject) for finding in report.findings if finding.stops}


def found(report: Report, rule: str, subject: str) -> Finding:
    """The first finding of that rule on that subject."""
    return next(f for f in report.findings if (f.rule, f.subject) == (rule, subject))
