"""Notes taken out of a record, or put in where they do not belong."""

from dataclasses import replace
from fractions import Fraction
from functools import cache
from typing import Any

import pytest
from hand_made import edited, judged, refused
from support import NEC, inch, make_chair, make_circuit, make_outlet, make_row, make_spec

from powerplan.model.findings import Outcome
from powerplan.model.plan import Plan
from powerplan.model.seats import Curve
from powerplan.model.spec import Row
from powerplan.planning.pipeline import make_plan

AGREES = "record-agrees"


@cache
def made(place: str, *, job: str = "new", seats: int = 3, **circuit: Any) -> Plan:
    kind = make_chair(lead_m=inch(120))
    base = make_spec(
        chairs=(kind,),
        rows=(make_row(seats=seats),),
        circuits=(make_circuit(**circuit),),
        outlets=(make_outlet(x_m=inch(120)),),
    )
    return make_plan(
        replace(base, project=replace(base.project, place=place, job=job)), NEC, "0" * 64
    )


def without(rule: str) -> Any:
    def edit(plain: Any) -> None:
        plain["findings"] = [one for one in plain["findings"] if one["rule"] != rule]

    return edit


def changed(rule: str, **changes: Any) -> Any:
    def edit(plain: Any) -> None:
        next(one for one in plain["findings"] if one["rule"] == rule).update(changes)

    return edit


@pytest.mark.parametrize("place", ["home", "home, basement", "business", "assembly"])
def test_a_true_record_passes(place):
    assert refused(judged(made(place))) == set()


@pytest.mark.parametrize(
    ("place", "rule"),
    [
        ("home, basement", "gfci-basement"),
        ("home", "afci-room"),
        ("business", "cord-fire-code"),
        ("business", "wiring-method"),
        ("assembly", "row-width-assembly"),
    ],
)
def test_a_note_left_out_is_missed(place, rule):
    assert (AGREES, "findings") in refused(edited(made(place), without(rule)))


def test_a_note_of_another_place_is_refused():
    def moved(plain: Any) -> None:
        plain["spec"]["project"]["place"] = "business"

    assert (AGREES, "findings") in refused(edited(made("home"), moved))


def test_protection_yet_to_be_fitted_is_not_met():
    edit = changed("gfci-basement", outcome="met", value=1, limit=1, margin=0)
    assert (AGREES, "finding gfci-basement") in refused(edited(made("home, basement"), edit))


def test_a_row_made_wider_is_refused():
    edit = changed("row-width-assembly", value=9.0, margin=8.6952)
    assert (AGREES, "finding row-width-assembly") in refused(edited(made("assembly"), edit))


def gathered(*rows: Row) -> Plan:
    base = make_spec(rows=rows, outlets=(make_outlet(x_m=inch(120)),))
    spec = replace(base, project=replace(base.project, place="assembly", job="new"))
    return make_plan(spec, NEC, "0" * 64)


TURNED = make_row(seats=2, angle_rad=0.3, headrest_to_wall_m=inch(40))
CURVED = make_row(seats=3, curve=Curve(radius_m=inch(200), touch="front"))
PLAIN = make_row(id="B", seats=2, headrest_to_wall_m=inch(110), center_x_m=inch(160))


@pytest.mark.parametrize(
    "rows",
    [(TURNED,), (CURVED,), (TURNED, PLAIN), (CURVED, PLAIN)],
    ids=["turned", "curved", "turned and plain", "curved and plain"],
)
def test_a_row_made_wider_is_refused_whatever_its_shape(rows):
    record = gathered(*rows)
    told = next(one for one in record.findings if one.rule == "row-width-assembly")
    assert (AGREES, "finding row-width-assembly") not in refused(judged(record))
    wider = changed(
        told.rule, value=round(told.value + 0.001, 6), margin=round(told.margin + 0.001, 6)
    )
    assert (AGREES, "finding row-width-assembly") in refused(edited(record, wider))


@pytest.mark.parametrize("rule", ["leakage-by-count", "switch-on-by-count"])
def test_a_count_made_smaller_is_refused(rule):
    record = made("home", job="retrofit", seats=2, gfci=True)
    assert refused(judged(record)) == set()
    edit = changed(rule, value=0.5, margin=3.5)
    assert (AGREES, f"finding {rule}") in refused(edited(record, edit))


def test_too_many_supplies_have_to_be_told():
    """Nine supplies leak 4.5 mA behind a device that may trip from 4 mA."""
    kind = make_chair(seat_width_m=inch(18), arm_width_m=inch(3), lead_m=inch(120))
    spec = make_spec(
        chairs=(kind,),
        rows=(make_row(seats=9),),
        circuits=(make_circuit(gfci=True, breaker_a=Fraction(20), wire="12 AWG"),),
        outlets=(make_outlet(x_m=inch(120), sockets=10, free=10),),
    )
    record = make_plan(spec, NEC, "0" * 64)
    assert record.circuits[0].asks_a == 16.875
    assert refused(judged(record)) == set()
    report = edited(record, without("leakage-by-count"))
    assert (AGREES, "finding leakage-by-count") in refused(report)


def test_leakage_from_which_a_device_may_trip_is_not_met():
    """Eight supplies of 0.5 mA leak the 4 mA from which a device may trip (UL 943, class A)."""
    kind = make_chair(seat_width_m=inch(18), arm_width_m=inch(3), lead_m=inch(120))
    spec = make_spec(
        chairs=(kind,),
        rows=(make_row(seats=8),),
        circuits=(make_circuit(gfci=True, breaker_a=Fraction(20), wire="12 AWG"),),
        outlets=(make_outlet(x_m=inch(120), sockets=10, free=10),),
    )
    record = make_plan(spec, NEC, "0" * 64)
    (told,) = (one for one in record.findings if one.rule == "leakage-by-count")
    assert (told.value, told.limit, told.outcome) == (4, 4, Outcome.NOT_MET)
    assert refused(judged(record)) == set()
    report = edited(record, changed("leakage-by-count", outcome="met"))
    assert (AGREES, "finding leakage-by-count") in refused(report)
