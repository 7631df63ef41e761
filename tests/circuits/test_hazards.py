"""Faults of what is there, found however small the load."""

from fractions import Fraction

import pytest
from support import NEC, make_circuit, make_outlet, make_spec

from powerplan.engineering.circuits.hazards import existing_findings
from powerplan.model.findings import Finding, Force, Outcome


def findings(breaker, wire="14 AWG", rating="15") -> dict[str, Finding]:
    breaker_a = None if breaker is None else Fraction(breaker)
    spec = make_spec(
        circuits=(make_circuit(breaker_a=breaker_a, wire=wire),),
        outlets=(make_outlet(rating_a=Fraction(rating)),),
    )
    return {finding.rule: finding for finding in existing_findings(spec, NEC)}


def test_a_sound_circuit_meets_every_rule_and_says_nothing():
    found = findings(15)
    assert set(found) == {"breaker-size", "wire-matches-breaker", "socket-matches-circuit"}
    assert all(finding.outcome is Outcome.MET for finding in found.values())
    assert not any(finding.note for finding in found.values())


def test_findings_come_circuit_by_circuit_and_then_outlet_by_outlet():
    spec = make_spec(
        circuits=(make_circuit(id="3"), make_circuit(id="7")),
        outlets=(make_outlet(id="W1"), make_outlet(id="W2", circuit="3")),
    )
    assert [finding.subject for finding in existing_findings(spec, NEC)] == [
        "circuit 3",
        "circuit 3",
        "circuit 7",
        "circuit 7",
        "outlet W1",
        "outlet W2",
    ]


def test_a_20_a_breaker_on_14_awg_is_a_hazard_and_says_who_mends_it():
    found = findings(20)["wire-matches-breaker"]
    assert found.stops
    assert (found.value, found.limit, found.margin) == (20.0, 15.0, -5.0)
    assert "an electrician must change the breaker to 15 A or rewire" in found.note


def test_an_empty_circuit_does_not_excuse_the_breaker():
    spec = make_spec(circuits=(make_circuit(breaker_a=Fraction(20), already_on_it=()),), rows=())
    assert any(f.stops and f.rule == "wire-matches-breaker" for f in existing_findings(spec, NEC))


@pytest.mark.parametrize("breaker", ["15", "20", None])
@pytest.mark.parametrize("wire", ["18 AWG", "16 AWG"])
def test_cord_wire_is_never_the_wire_of_a_circuit(breaker, wire):
    found = findings(breaker, wire)["wire-matches-breaker"]
    assert found.stops
    assert found.limit == 0.0
    assert f"{wire} may never be the wire" in found.note


@pytest.mark.parametrize(("breaker", "wire"), [(None, "14 AWG"), ("15", None), (None, None)])
def test_what_is_unknown_is_not_checked_and_says_what_to_find_out(breaker, wire):
    found = findings(breaker, wire)["wire-matches-breaker"]
    assert found.hangs
    assert ("breaker's handle" if wire else "size of this circuit's wire") in found.note


def test_a_wire_the_rule_set_does_not_know_is_not_checked():
    assert findings(15, "2.5 mm2")["wire-matches-breaker"].hangs


@pytest.mark.parametrize(("breaker", "limit"), [("10", 15.0), ("25", 30.0), ("35", 40.0)])
def test_a_breaker_between_the_sizes_is_not_met(breaker, limit):
    found = findings(breaker, "6 AWG", "50")["breaker-size"]
    assert found.stops
    assert (found.value, found.limit) == (float(breaker), limit)


def test_a_breaker_beyond_every_size_is_not_met():
    found = findings(60, "6 AWG", "50")["breaker-size"]
    assert found.stops
    assert found.limit is None
    assert "change the breaker to 50 A or less" in found.note


def test_a_breaker_under_every_size_is_not_to_be_changed_for_a_smaller_one():
    assert "make this a circuit of such a size" in findings(10)["breaker-size"].note


def test_an_unknown_breaker_leaves_its_size_and_its_sockets_open():
    found = findings(None)
    assert found["breaker-size"].hangs
    assert found["socket-matches-circuit"].hangs
    assert "circuit 7" in found["socket-matches-circuit"].note


@pytest.mark.parametrize("breaker", ["15", None])
def test_a_socket_too_small_for_every_circuit_needs_no_breaker_to_be_wrong(breaker):
    found = findings(breaker, rating="10")["socket-matches-circuit"]
    assert found.stops
    assert found.limit == 15.0


@pytest.mark.parametrize(
    ("breaker", "rating"), [("30", "15"), ("30", "20"), ("40", "15"), ("50", "40")]
)
def test_a_socket_smaller_than_its_circuit_may_have_is_a_must(breaker, rating):
    found = findings(breaker, "6 AWG", rating)["socket-matches-circuit"]
    assert found.stops
    assert found.limit == float(breaker)


def test_an_existing_20_a_face_on_15_a_is_advice_and_never_met():
    found = findings(15, rating="20")["socket-matches-circuit"]
    assert found.outcome is Outcome.NOT_MET
    assert found.force is Force.ADVICE
    assert "invites more than the circuit can give" in found.note


@pytest.mark.parametrize(("breaker", "rating"), [("20", "15"), ("20", "20"), ("40", "50")])
def test_a_socket_that_the_circuit_may_have_is_met(breaker, rating):
    found = findings(breaker, "6 AWG", rating)["socket-matches-circuit"]
    assert found.outcome is Outcome.MET
