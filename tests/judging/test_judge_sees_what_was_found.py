"""Records of rooms in which something was found, edited so that it no longer shows."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import hand_made
import pytest
from hand_made import edited, found, refused
from support import make_load

from powerplan.model.findings import Force, Outcome

Edit = Callable[[Any], None]


def circuit(**changes: Any) -> Edit:
    """Overwrite keys of the first circuit of the spec."""

    def edit(plain: Any) -> None:
        plain["spec"]["circuits"][0].update(changes)

    return edit


def outlet(**changes: Any) -> Edit:
    """Overwrite keys of the first outlet of the spec."""

    def edit(plain: Any) -> None:
        plain["spec"]["outlets"][0].update(changes)

    return edit


@pytest.mark.parametrize("edit", [circuit(shared_neutral=True), circuit(conductor="aluminum")])
def test_nothing_new_is_wired_on_from_such_a_circuit(edit):
    report = edited(hand_made.wired_on(), edit)
    rules = {"shared-neutral", "aluminum-wire"}
    assert {rule for rule, subject in refused(report) if subject == "circuit 7"} & rules


def test_a_new_outlet_on_a_circuit_without_a_ground_is_refused():
    report = edited(hand_made.wired_on(), circuit(ground=False))
    assert ("grounded-outlet", "circuit 7") in refused(report)


def test_a_chair_on_an_outlet_without_a_ground_is_refused():
    for edit in (circuit(ground=False), outlet(ground=False)):
        assert ("grounded-outlet", "outlet W1") in refused(edited(hand_made.chained(), edit))
    both = edited(
        hand_made.chained(),
        lambda plain: (circuit(ground=False)(plain), outlet(ground=True)(plain)),
    )
    assert ("grounded-outlet", "outlet W1") not in refused(both)


def test_a_shared_neutral_and_aluminum_have_to_be_conditions():
    report = edited(hand_made.chained(), circuit(shared_neutral=True, conductor="aluminum"))
    notes = {f.note for f in report.findings if f.rule == "record-agrees" and f.stops}
    assert any("a condition on the neutral of circuit 7" in note for note in notes)
    assert any("a condition on the aluminum of circuit 7" in note for note in notes)


def test_the_drop_on_aluminum_is_worked_out_on_aluminum():
    report = edited(hand_made.wired_on(), circuit(conductor="aluminum", wire="12 AWG"))
    assert ("record-agrees", "circuit 7") in refused(report)
    copper = edited(hand_made.wired_on(), circuit(conductor="copper"))
    assert refused(copper) == set()


def test_a_breaker_is_held_to_aluminum():
    report = edited(hand_made.chained(), circuit(conductor="aluminum"))
    assert ("wire-matches-breaker", "circuit 7") in refused(report)  # 14 AWG is never aluminum
    unknown = edited(hand_made.chained(), circuit(conductor="aluminum", breaker_a=None))
    assert ("wire-matches-breaker", "circuit 7") in refused(unknown)


def test_a_switched_outlet_is_advice_to_the_judge_too():
    report = edited(hand_made.chained(), outlet(switched=True))
    held = found(report, "switched-outlet", "outlet W1")
    assert (held.force, held.outcome) == (Force.ADVICE, Outcome.NOT_MET)


def test_the_known_part_of_an_unknown_load_is_summed():
    record = hand_made.chained()
    [there] = record.spec.circuits
    partly = replace(
        there,
        already_on_it=None,
        partly_on_it=(make_load("rack", "1", True),),
        not_measured=("fridge",),
    )
    spec = replace(record.spec, circuits=(partly,))
    report = hand_made.judged(replace(record, spec=spec))
    held = found(report, "circuit-load", "circuit 7")
    assert held.outcome is Outcome.NOT_CHECKED
    assert held.value == record.circuits[0].asks_a + 1.25
