"""What an electrician may find: each told once, and an unknown never as a fault."""

from fractions import Fraction

import pytest
from support import NEC, make_circuit, make_outlet, make_spec

from powerplan.engineering.circuits.found import (
    circuit_wire,
    extend_findings,
    nobody_looked,
    outlet_findings,
    use_findings,
)
from powerplan.engineering.circuits.hazards import existing_findings
from powerplan.model.findings import Force, Outcome

KNOWN = {
    "shared_neutral": False,
    "switched": False,
    "ground": True,
    "conductor": "copper",
    "gfci": False,
    "afci": False,
}


def outcomes(findings):
    return {finding.rule: finding.outcome for finding in findings}


@pytest.mark.published(
    source="NEC 2023 210.4(B): all ungrounded conductors of a multiwire circuit open together",
    standing="from memory",
)
def test_a_shared_neutral_is_not_checked_in_use_and_never_extended():
    circuit = make_circuit(shared_neutral=True)
    assert outcomes(use_findings(circuit, NEC)) == {"shared-neutral": Outcome.NOT_CHECKED}
    assert outcomes(extend_findings(circuit, NEC)) == {"shared-neutral": Outcome.NOT_MET}


def test_aluminum_is_not_checked_in_use_and_never_extended():
    circuit = make_circuit(conductor="aluminum")
    assert outcomes(use_findings(circuit, NEC)) == {"aluminum-wire": Outcome.NOT_CHECKED}
    assert outcomes(extend_findings(circuit, NEC)) == {"aluminum-wire": Outcome.NOT_MET}


def test_what_is_said_to_be_well_is_met_and_may_be_extended():
    circuit = make_circuit(**KNOWN)
    assert set(outcomes(use_findings(circuit, NEC)).values()) == {Outcome.MET}
    assert extend_findings(circuit, NEC) == ()
    assert nobody_looked(make_spec(circuits=(circuit,)), (circuit,), NEC) == ()


def test_what_nobody_said_is_no_finding_of_its_own():
    circuit = make_circuit()
    assert use_findings(circuit, NEC) == ()
    assert extend_findings(circuit, NEC) == ()
    assert outlet_findings(make_outlet(), circuit, NEC) == ()


def test_all_that_nobody_said_is_one_note():
    circuits = (make_circuit(), make_circuit(id="9", **{**KNOWN, "gfci": None}))
    [told] = nobody_looked(make_spec(circuits=circuits), circuits, NEC)
    assert told.rule == "circuit-looked-at"
    assert (told.force, told.outcome, told.value) == (Force.NOTE, Outcome.NOT_CHECKED, 7.0)
    assert told.subject == "circuits 7 and 9"
    assert told.note.count("(7)") == 5
    assert "ground-fault protection;" in told.note


@pytest.mark.published(
    source="NEC 2023 250.114, 406.4(A): equipment with a grounding plug is grounded",
    standing="from memory",
)
@pytest.mark.parametrize(
    ("outlet", "circuit", "outcome"),
    [
        (False, None, Outcome.NOT_MET),
        (None, False, Outcome.NOT_MET),
        (False, True, Outcome.NOT_MET),
        (True, False, Outcome.MET),
        (True, None, Outcome.MET),
    ],
)
def test_an_outlet_has_to_have_a_ground_and_its_own_word_counts(outlet, circuit, outcome):
    held = outlet_findings(make_outlet(ground=outlet), make_circuit(ground=circuit), NEC)
    assert outcomes(held) == {"grounded-outlet": outcome}
    assert held[0].force is Force.MUST


def test_a_switched_outlet_is_advice():
    [held] = outlet_findings(make_outlet(switched=True), make_circuit(), NEC)
    assert (held.rule, held.force, held.outcome) == (
        "switched-outlet",
        Force.ADVICE,
        Outcome.NOT_MET,
    )


@pytest.mark.published(
    source="NEC 2023 240.4(D): 12 AWG aluminum 15 A, 10 AWG aluminum 25 A", standing="from memory"
)
@pytest.mark.parametrize(
    ("breaker", "wire", "outcome"),
    [
        ("15", "12 AWG", Outcome.MET),
        ("20", "12 AWG", Outcome.NOT_MET),
        ("20", "10 AWG", Outcome.MET),
        ("30", "10 AWG", Outcome.NOT_MET),
        ("15", "14 AWG", Outcome.NOT_MET),
        ("15", "18 AWG", Outcome.NOT_CHECKED),
    ],
)
def test_a_breaker_is_held_to_aluminum_wire(breaker, wire, outcome):
    circuit = make_circuit(breaker_a=Fraction(breaker), wire=wire, conductor="aluminum")
    found = existing_findings(make_spec(circuits=(circuit,)), NEC)
    assert outcomes(found)["wire-matches-breaker"] is outcome


def test_wire_is_copper_unless_said_and_unknown_where_its_size_is():
    assert circuit_wire(make_circuit(), NEC) is NEC.wires["14 AWG"]
    assert circuit_wire(make_circuit(conductor="copper"), NEC) is NEC.wires["14 AWG"]
    assert circuit_wire(make_circuit(wire=None, conductor="aluminum"), NEC) is None
