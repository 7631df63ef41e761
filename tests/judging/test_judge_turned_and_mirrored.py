"""What is right, or wrong, of a room stays so when the paper is turned or held to a mirror."""

import math
from collections.abc import Callable
from dataclasses import replace

import hand_made
import pytest
from by_hand import refused
from hand_made import judged
from hypothesis import given, settings
from laws import cases, held_over
from moved import QUARTER, mirror, turn
from strategies import rooms
from support import NEC, inch

from powerplan.judging.report import Report
from powerplan.model.plan import Plan
from powerplan.model.spec import PlanSpec
from powerplan.planning.pipeline import make_plan

WITHOUT_BOXES = ("chained", "extended")
EVERY = ("chained", "boxed", "wired_on", "extended", "raised")
ANGLES = (math.atan2(3, 4), 2.0, math.pi, -1.1, QUARTER)


def made(name: str) -> Plan:
    record = getattr(hand_made, name)()
    assert isinstance(record, Plan)
    return record


@pytest.mark.parametrize("angle", ANGLES)
@pytest.mark.parametrize("name", WITHOUT_BOXES)
def test_a_true_record_stays_true_when_it_is_turned(name: str, angle: float) -> None:
    assert refused(judged(turn(made(name), angle))) == set()


@pytest.mark.parametrize("name", EVERY)
def test_a_true_record_stays_true_after_a_quarter_turn(name: str) -> None:
    record = made(name)
    for _ in range(4):
        record = turn(record, QUARTER)
        assert refused(judged(record)) == set()


@pytest.mark.parametrize("name", EVERY)
def test_a_true_record_stays_true_in_a_mirror(name: str) -> None:
    assert refused(judged(mirror(made(name)))) == set()
    assert refused(judged(mirror(turn(made(name), QUARTER)))) == set()


def moved_chair(record: Plan) -> Plan:
    chair = replace(record.chairs[1], x_m=record.chairs[1].x_m + 0.001)
    return replace(record, chairs=(record.chairs[0], chair, *record.chairs[2:]))


def turned_chair(record: Plan) -> Plan:
    return replace(record, chairs=(replace(record.chairs[0], angle_rad=1e-5), *record.chairs[1:]))


def through_a_rail(record: Plan) -> Plan:
    link = record.cords[1]
    return _with_path(record, 1, (link.path_m[0], link.path_m[-1]))


def nearer_by_a_millimeter(record: Plan) -> Plan:
    # the lead comes in over the rear strip of A1, 7 in off its sides; 6.5 in aside it is 0.5 in off
    (x, y), (_, to_y) = record.cords[0].path_m
    bent = ((x, y), (x + inch("6.2"), inch(20)), (x, to_y))
    return _with_path(record, 0, bent)


def out_of_the_room(record: Plan) -> Plan:
    path = record.cords[0].path_m
    return _with_path(record, 0, (path[0], (path[0][0], -0.01), *path[1:]))


def _with_path(record: Plan, n: int, path: tuple[tuple[float, float], ...]) -> Plan:
    cords = list(record.cords)
    cords[n] = replace(cords[n], path_m=path)
    return replace(record, cords=tuple(cords))


def shrunk_zone(record: Plan) -> Plan:
    zone = record.zones[0]
    first, *rest = zone.outline_m
    smaller = replace(zone, outline_m=((first[0] + 0.05, first[1]), *rest))
    return replace(record, zones=(smaller, *record.zones[1:]))


def too_near_the_wall(record: Plan) -> Plan:
    row = replace(record.spec.rows[0], center_x_m=record.spec.rows[0].center_x_m + inch(60))
    return replace(record, spec=replace(record.spec, rows=(row,)))


FAULTS: tuple[Callable[[Plan], Plan], ...] = (
    moved_chair,
    turned_chair,
    through_a_rail,
    nearer_by_a_millimeter,
    out_of_the_room,
    shrunk_zone,
    too_near_the_wall,
)


@pytest.mark.parametrize("angle", cases(ANGLES[:1], *ANGLES[1:]))
@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: str(fault.__name__))
def test_a_fault_is_the_same_fault_however_the_paper_lies(
    fault: Callable[[Plan], Plan], angle: float
) -> None:
    wrong = fault(hand_made.chained())
    caught = refused(judged(wrong))
    assert caught
    assert refused(judged(turn(wrong, angle))) == caught


def _stays_right(spec: PlanSpec) -> None:
    """What the judge finds unmet is the same in a mirror; turned, what it disputes is nothing.

    Of a room with a fault of its own the finding's name may change as it is turned: behind and
    ahead are told otherwise of rows that do not look straight at the screen.
    """
    plan = make_plan(spec, NEC, "0" * 64)
    if any(finding.stops for finding in plan.findings):
        assert refused(judged(plan))
        assert _rules(judged(mirror(plan))) == _rules(judged(plan))
        return
    assert refused(judged(turn(plan, QUARTER))) == set()
    assert refused(judged(mirror(plan))) == set()
    assert refused(judged(mirror(turn(plan, QUARTER)))) == set()


def _rules(report: Report) -> set[str]:
    return {rule for rule, _ in refused(report)}


@held_over(15)
@given(rooms())
def test_a_plan_stays_right_turned_and_mirrored(spec: PlanSpec) -> None:
    _stays_right(spec)


@pytest.mark.slow
@settings(max_examples=600)
@given(rooms())
def test_very_many_plans_stay_right_turned_and_mirrored(spec: PlanSpec) -> None:
    _stays_right(spec)
