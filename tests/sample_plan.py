"""A plan put together by hand, so that the sheets are tried without the planner."""

from dataclasses import replace
from fractions import Fraction
from typing import Any

from support import NEC, inch, make_chair, make_door, make_row, make_spec

from powerplan.model.findings import hold
from powerplan.model.plan import (
    CAUTION,
    EXISTING,
    LADDER,
    NEW_CIRCUITS,
    RECORD_VERSION,
    Box,
    CircuitUse,
    Condition,
    Cord,
    Decision,
    Drift,
    Flip,
    NumberUsed,
    PlacedChair,
    Plan,
    RulesUsed,
    Spare,
    Step,
    Zone,
)
from powerplan.model.spec import Assumption, PlanSpec, Wall


def sample_plan(seats: tuple[int, ...] = (5,), **changes: Any) -> Plan:
    """Rows of chairs, a floor box under each third chair, and a cord from it to its neighbors.

    Row A stands at the back, B in front of it. Nothing here has been judged; it only has the form.
    """
    spec = sample_spec(seats)
    chairs = tuple(chair for number, _ in enumerate(seats) for chair in _chairs(spec, number))
    boxes = tuple(_box(chair) for chair in chairs[1::3])
    base = Plan(
        record=RECORD_VERSION,
        program="powerplan 0.1.0",
        project="A test room",
        rules=_rules(),
        caution=CAUTION,
        plan_file_sha256="0123456789abcdef" * 4,
        spec=spec,
        decision=sample_decision(),
        chairs=chairs,
        boxes=boxes,
        cords=tuple(cord for box in boxes for cord in _cords(box, chairs)),
        circuits=(_circuit("7", new=False), _circuit("new 1", new=True)),
        zones=(Zone(chair="A1", kind="clear", outline_m=((0.1, 0.1), (0.2, 0.1), (0.2, 0.2))),),
        findings=sample_findings(),
        bounds=None,
    )
    return replace(base, **changes)


def sample_spec(seats: tuple[int, ...]) -> PlanSpec:
    """A room as wide as its longest row needs, with a door in the right wall."""
    width = max(240, 30 * max(seats) + 7 + 48)
    depth = 186 + 90 * (len(seats) - 1)
    rows = tuple(
        make_row(
            id="ABCDE"[number],
            seats=count,
            headrest_to_wall_m=inch(14 + 90 * number),
            center_x_m=inch(width / 2),
        )
        for number, count in enumerate(seats)
    )
    base = make_spec()
    return replace(
        base,
        rows=rows,
        room=replace(base.room, width_m=inch(width), depth_m=inch(depth), left_wall="stair side"),
        doors=(make_door(Wall.RIGHT, 132, 32),),
        assumed=(Assumption(subject="row A", words="fastened is not said: counts as bolted down"),),
    )


def _rules() -> RulesUsed:
    numbers = tuple(
        NumberUsed(
            name=number.name,
            value=float(number.value),
            unit=number.unit,
            source=number.source.cite,
            standing=number.source.standing,
        )
        for number in NEC.numbers.values()
    )
    return RulesUsed(
        id=NEC.id, edition=NEC.edition, resistance_basis=NEC.resistance_basis, numbers=numbers
    )


def _chairs(spec: PlanSpec, number: int) -> tuple[PlacedChair, ...]:
    row = spec.rows[number]
    kind = make_chair()
    pitch_m = kind.seat_width_m + kind.arm_width_m
    first_m = row.center_x_m - pitch_m * (row.seats - 1) / 2
    return tuple(
        PlacedChair(
            id=f"{row.id}{seat}",
            row=row.id,
            seat=seat,
            x_m=round(first_m + pitch_m * (seat - 1), 6),
            y_m=row.headrest_to_wall_m,
            angle_rad=0.0,
            input_a=1.8,
            continuous_a=0.3,
            circuit="7",
            fed_by="W1",
            volts=118.5,
            drop_percent=1.25,
        )
        for seat in range(1, row.seats + 1)
    )


def _box(chair: PlacedChair) -> Box:
    y_m = round(chair.y_m + inch(15), 6)
    return Box(
        id=f"box {chair.id}",
        kind="floor box",
        x_m=chair.x_m,
        y_m=y_m,
        height_m=0.0,
        under=chair.id,
        circuit="new 1",
        sockets=2,
        rating_a=15.0,
        ideal_m=(chair.x_m, y_m),
        may_sit_m=(),
        drift=Drift(left_m=inch(4), right_m=inch(3), back_m=inch(2), screen_m=inch(1)),
        moved_because="",
        provisional=False,
        second_mark_m=None,
        deck=None,
        wired_from="panel",
        wiring_m=inch(720),
    )


def _cords(box: Box, chairs: tuple[PlacedChair, ...]) -> tuple[Cord, ...]:
    place = [chair.id for chair in chairs].index(box.under)
    near = [c for c in chairs[max(0, place - 1) : place + 2] if c.y_m == chairs[place].y_m]
    return tuple(_cord(box, chair) for chair in near)


def _cord(box: Box, chair: PlacedChair) -> Cord:
    behind_m = round(chair.y_m - inch(2), 6)
    end = (chair.x_m, round(chair.y_m + inch(11), 6))
    return Cord(
        id=f"{box.id}-{chair.id}",
        kind="own",
        from_=box.id,
        to=chair.id,
        path_m=((box.x_m, box.y_m), (box.x_m, behind_m), (chair.x_m, behind_m), end),
        rises_m=0.0,
        length_m=inch(40),
        needed_m=inch("352/5"),
        bought_m=inch(72),
        wire="16 AWG",
        current_a=1.8,
        open_floor_m=0.0,
        clearance_m=inch(1),
        park_m=(chair.x_m, behind_m),
    )


def _circuit(name: str, *, new: bool) -> CircuitUse:
    return CircuitUse(
        id=name,
        new=new,
        breaker_a=20.0 if new else 15.0,
        wire="12 AWG" if new else "14 AWG",
        home_run_m=inch(576),
        continuous_a=1.5,
        other_a=7.5,
        load_known=new,
        asks_a=9.375,
        may_give_a=20.0 if new else 15.0,
        drop_percent=1.25,
    )


def sample_findings() -> tuple[Any, ...]:
    """One finding of each outcome, and a met one that is tight."""
    rules = NEC.rules
    return (
        hold(rules["circuit-load"], "circuit new 1", Fraction(75, 8), Fraction(20)),
        hold(rules["circuit-load"], "circuit 7", None, Fraction(15), note="Have it measured."),
        hold(rules["wire-matches-breaker"], "circuit 9", Fraction(20), Fraction(15)),
        hold(rules["cord-length"], "A2", inch(72), inch(71)),
        hold(rules["passage-in-front"], "row A", inch(10), inch(12)),
    )


def sample_decision(verdict: str = NEW_CIRCUITS, exit_code: int = 4) -> Decision:
    """A ladder whose first steps fail and whose last works."""
    over = hold(NEC.rules["circuit-load"], "circuit 7", Fraction(81, 5), Fraction(15))
    steps = tuple(
        Step(
            step=step,
            works=step == NEW_CIRCUITS,
            allowed=True,
            sentence=f"About {step}.",
            new_circuits=1 if step == NEW_CIRCUITS else None,
            boxes=2 if step == NEW_CIRCUITS else None,
            extensions=0 if step == NEW_CIRCUITS else None,
            cord_m=5.0 if step == NEW_CIRCUITS else None,
            findings=() if step == NEW_CIRCUITS else (over,),
        )
        for step in LADDER
    )
    return Decision(
        verdict=verdict,
        sentence="One new 20 A circuit on 12 AWG feeds two floor boxes.",
        exit_code=exit_code,
        steps=steps,
        depends_on=(
            Condition(
                kind="load",
                subject="circuit 7",
                circuit="7",
                if_continuous_a=4.5,
                if_not_continuous_a=5.625,
                sentence="circuit 7 carries no more than 4.5 A for hours, or 5.6 A now and then",
            ),
        ),
        spare=(Spare(circuit="new 1", chair="club", spare_a=10.625, more_chairs=5),),
        flips=(Flip(step=EXISTING, chair="club", continuous_a=0.57, sentence="It turns."),),
    )
