"""One plug: its share, its socket, its chain and its cords; and extension cords."""

from fractions import Fraction

import pytest
from support import NEC, make_chain, make_chair

from powerplan.engineering.circuits.load import chair_demand_a
from powerplan.engineering.circuits.plugs import extension_findings, run_findings
from powerplan.model.findings import Finding, Force, Outcome, hold

MET, NOT_MET, OPEN = Outcome.MET, Outcome.NOT_MET, Outcome.NOT_CHECKED


def chair(current="2", **changes):
    chain = make_chain(current_a=Fraction(20), chairs=10, wire="12 AWG")
    base = {
        "input_a": Fraction(current),
        "continuous_a": Fraction(current),
        "coupler_a": Fraction(20),
        "lead_wire": "12 AWG",
        "chain": chain,
    }
    return make_chair(**{**base, **changes})


def run(kind, chairs=1, circuit="20", socket="15", **more) -> dict[str, Finding]:
    found = run_findings(kind, chairs, Fraction(circuit), Fraction(socket), "plug", NEC, **more)
    return {f.rule + f.subject.removeprefix("plug"): f for f in found}


def broken(found: dict[str, Finding]) -> set[str]:
    return {name for name, finding in found.items() if finding.outcome is NOT_MET}


def extension(current="5", length=3.0, wire="16 AWG", place="home"):
    return extension_findings(Fraction(current), length, wire, place, "W1+A3", NEC)


def test_eight_chairs_of_2_a_fill_a_new_20_a_circuit_exactly():
    asks_a = 8 * chair_demand_a(chair(), NEC)
    assert hold(NEC.rules["circuit-load"], "new 1", asks_a, Fraction(20)).outcome is MET


def test_one_chain_of_eight_is_refused_by_the_15_a_face_alone():
    found = run(chair(), 8)
    assert broken(found) == {"socket-limit"}
    assert (found["socket-limit"].value, found["socket-limit"].limit) == (16.0, 12.0)
    assert found["plug-share"].margin == 0.0


def test_two_chains_of_four_pass():
    assert broken(run(chair(), 4)) == set()


def test_a_chain_of_eight_passes_a_20_a_face():
    assert broken(run(chair(), 8, socket="20")) == set()


def test_a_coupler_of_2_5_a_refuses_a_chain_of_two():
    kind = chair("1.5", coupler_a=Fraction("2.5"))
    assert broken(run(kind, 2)) == {"coupler-rating"}
    assert broken(run(kind, 1)) == set()


def test_a_coupler_nobody_read_leaves_the_chain_open():
    found = run(chair(coupler_a=None), 2)["coupler-rating"]
    assert found.hangs
    assert "Read the ratings" in found.note


def test_a_single_chair_is_held_against_no_rule_of_chains():
    assert list(run(chair())) == [
        "plug-share",
        "socket-matches-circuit",
        "socket-limit",
        "coupler-rating",
        "cord-wire, lead",
    ]


def test_a_plug_rated_below_its_own_chair_is_not_met():
    # 1.8 A through a coupler of 1 A; unknown is the chair maker's affair.
    assert run(chair(coupler_a=Fraction(1)))["coupler-rating"].stops
    assert "coupler-rating" not in run(chair(coupler_a=None))


def test_a_chain_without_the_makers_instructions_is_one_chair():
    found = run(chair(chain=None), 2)
    assert broken(found) == {"chain-count"}
    assert found["chain-count"].limit == 1.0
    assert "listed instructions are needed" in found["chain-count"].note


def test_the_makers_count_and_current_are_both_limits_and_equal_passes():
    kind = chair("1", chain=make_chain(current_a=Fraction(3), chairs=3, wire="12 AWG"))
    assert broken(run(kind, 3)) == set()
    assert broken(run(kind, 4)) == {"chain-count", "chain-current"}


def test_the_first_lead_and_link_carry_the_whole_chain():
    kind = chair("2.1", lead_wire="16 AWG", chain=make_chain(current_a=Fraction(20), chairs=10))
    found = run(kind, 7, circuit="30", socket="30")
    assert broken(found) == {"cord-wire, lead", "cord-wire, link"}
    assert found["cord-wire, link"].value == 14.7


def test_the_one_link_of_a_chain_of_two_carries_both_chairs():
    kind = chair("5.1", chain=make_chain(current_a=Fraction(20), wire="18 AWG"))
    assert broken(run(kind, 2)) == {"cord-wire, link"}


def test_what_is_met_has_nothing_to_mend():
    found = run(chair("12"), circuit="15")
    assert found["plug-share"].margin == 0.0
    assert {finding.note for finding in found.values()} == {""}


def test_an_unknown_wire_hangs_in_a_chain_and_not_at_a_chair_of_its_own():
    kind = chair(lead_wire=None, chain=make_chain(wire=None))
    chained = run(kind, 2)
    assert chained["cord-wire, lead"].hangs
    assert chained["cord-wire, link"].hangs
    assert not any(name.startswith("cord-wire") for name in run(kind, 1))


def test_a_wire_without_a_cord_rating_leaves_the_cord_open():
    assert run(chair(lead_wire="2.5 mm2"))["cord-wire, lead"].hangs


def test_one_plug_may_take_four_fifths_of_its_circuit_and_no_hair_more():
    assert broken(run(chair("12"), circuit="15")) == set()
    over = run(chair("12.001"), circuit="15")
    assert broken(over) == {"plug-share", "socket-limit"}
    assert over["plug-share"].note == (
        "12.001 A is more than the 12 A one plug may take of this circuit."
    )


@pytest.mark.parametrize(
    ("circuit", "socket", "limit"), [("30", "15", 30.0), ("15", "20", None), ("40", "50", None)]
)
def test_a_socket_the_table_does_not_list_is_never_proposed(circuit, socket, limit):
    found = run(chair(), circuit=circuit, socket=socket)
    assert found["socket-matches-circuit"].stops
    assert found["socket-matches-circuit"].limit == limit
    assert "socket-limit" not in found


def test_a_plug_with_no_chair_is_refused():
    with pytest.raises(ValueError, match="at least one chair"):
        run(chair(), 0)


@pytest.mark.parametrize(
    ("place", "force"),
    [
        ("home", Force.ADVICE),
        ("home, basement", Force.ADVICE),
        ("business", Force.MUST),
        ("assembly", Force.MUST),
        (None, Force.MUST),
    ],
)
def test_an_extension_is_never_met_and_a_must_outside_a_home(place, force):
    temporary = extension(place=place)[1]
    assert (temporary.rule, temporary.outcome) == ("extension-temporary", NOT_MET)
    assert temporary.force is force
    assert ("not said" in temporary.note) is (place is None)


def test_an_extension_of_unknown_wire_is_not_checked():
    rating = extension(wire=None)[0]
    assert (rating.rule, rating.outcome) == ("extension-rating", OPEN)
    assert "jacket" in rating.note


def test_an_extension_of_wire_that_no_set_has_may_carry_nothing():
    rating = extension(current="0.1", wire="18 AWG")[0]
    assert rating.stops
    assert rating.limit == 0.0


@pytest.mark.parametrize("length", [-0.1, float("nan"), float("inf")])
def test_an_extension_without_a_proper_length_is_refused(length):
    with pytest.raises(ValueError, match="length is"):
        extension(length=length)
