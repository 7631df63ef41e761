from dataclasses import replace
from fractions import Fraction
from typing import Any

import hand_made
import pytest
from hand_made import edited, judged, refused
from support import inch, make_circuit, make_load, make_outlet

AGREES = "record-agrees"


def test_a_box_wired_on_from_an_outlet_is_passed() -> None:
    assert refused(judged(hand_made.wired_on())) == set()


@pytest.mark.parametrize("wiring", [inch(104), inch(106), None])
def test_wiring_that_is_not_square_with_its_drops_is_caught(wiring: float | None) -> None:
    def edit(plain: Any) -> None:
        plain["boxes"][0]["wiring_m"] = wiring

    assert (AGREES, "box A3") in refused(edited(hand_made.wired_on(), edit))


def test_wiring_from_another_circuit_is_caught() -> None:
    def edit(plain: Any) -> None:
        plain["boxes"][0]["circuit"] = "7"
        plain["spec"]["circuits"].append({**plain["spec"]["circuits"][0], "id": "9"})
        plain["spec"]["outlets"][0]["circuit"] = "9"

    assert (AGREES, "box A3") in refused(edited(hand_made.wired_on(), edit))


def test_a_later_outlet_of_a_circuit_is_wired_on_from_its_first() -> None:
    # W0 comes first, at the same height and 24 in to the left of W1: 16 + 24 + 16 = 56 in more
    # wire for 9 A: 2 x 9 x 56/12 x 0.00314 = 0.26376 V
    record = hand_made.chained()
    outlets = (make_outlet(id="W0", x_m=inch(36)), *record.spec.outlets)
    with_first = replace(record, spec=replace(record.spec, outlets=outlets))
    notes = [f.note for f in judged(with_first).findings if f.stops and f.subject == "chair A1"]
    follows = 120 - 3.25188 - 0.26376
    assert any(f"{follows:.9g} follows" in note for note in notes)


def test_an_existing_circuit_without_an_outlet_leaves_the_wiring_unknown() -> None:
    record = hand_made.wired_on()
    box = replace(record.boxes[0], wired_from="circuit 7", wiring_m=None)
    unknown = replace(
        record,
        spec=replace(record.spec, outlets=()),
        boxes=(box,),
        chairs=tuple(replace(c, volts=None, drop_percent=None) for c in record.chairs),
        circuits=(replace(record.circuits[0], drop_percent=None),),
    )
    assert refused(judged(unknown)) == set()
    known = replace(unknown, chairs=record.chairs)
    assert (AGREES, "chair A1") in refused(judged(known))


def test_what_is_on_a_circuit_already_lowers_its_voltage() -> None:
    # a lamp of 1 A on the home run: 2 x 48 x 0.00314 = 0.30144 V
    record = hand_made.chained()
    busy = make_circuit(already_on_it=(make_load("lamp", "1", False),))
    report = judged(replace(record, spec=replace(record.spec, circuits=(busy,))))
    notes = [f.note for f in report.findings if f.stops and f.subject == "chair A1"]
    follows = 120 - 3.25188 - 0.30144
    assert any(f"{follows:.9g} follows" in note for note in notes)


def test_an_unused_socket_too_strong_for_its_circuit_is_advice() -> None:
    record = hand_made.chained()
    strong = make_outlet(id="W2", x_m=inch(200), rating_a=Fraction(20))
    first = (replace(record.spec.circuits[0], first_outlet="W1"),)
    spec = replace(record.spec, circuits=first, outlets=(*record.spec.outlets, strong))
    report = judged(replace(record, spec=spec))
    assert refused(report) == set()
    assert [f.subject for f in report.findings if f.rule == "socket-matches-circuit"] == [
        "outlet W1", "outlet W2"
    ]  # fmt: skip


def test_a_single_chair_on_a_lead_of_unknown_wire_hangs_on_nothing() -> None:
    def edit(plain: Any) -> None:
        plain["spec"]["chairs"][0]["lead_wire"] = None
        plain["cords"][0]["wire"] = None
        plain["chairs"][0].update(volts=None, drop_percent=None)
        plain["circuits"][0]["drop_percent"] = None

    assert refused(edited(hand_made.raised(), edit)) == set()


def test_a_chain_on_a_lead_of_unknown_wire_hangs_on_it() -> None:
    def edit(plain: Any) -> None:
        plain["spec"]["chairs"][0]["lead_wire"] = None
        plain["cords"][0]["wire"] = None

    report = edited(hand_made.chained(), edit)
    assert any(f.hangs and f.rule == "cord-wire" for f in report.findings)
    assert (AGREES, "depends on") in refused(report)
