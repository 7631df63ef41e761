"""A spec whose supplies cannot be is refused with a sentence."""

from collections.abc import Callable
from typing import Any

import pytest
from laws import planned
from loose_rooms import make_unit, supply_spec
from support import NEC

from powerplan.judging.judge import judge
from powerplan.model.codec import plan_from_plain, to_plain

Spec = dict[str, Any]

EDITS: dict[str, Callable[[Spec], Any]] = {
    "has supply 'other', which is not there": lambda s: s["chairs"][0].update(supply="other"),
    "is there twice": lambda s: s["supplies"].append(s["supplies"][0]),
    "gives nothing": lambda s: s["supplies"][0].update(output_v=0.0),
    "has a negative cord": lambda s: s["supplies"][0].update(chair_cord_m=-1.0),
    "feeds 3 seats": lambda s: s["supplies"][0].update(feeds=3),
    "has no size": lambda s: s["supplies"][0].update(width_m=0.0),
    "pairs of neighbors": lambda s: s["rows"][0].update(shared_supplies=[[1, 3]]),
    "that two may share": lambda s: s["supplies"][0].update(feeds=1),
    "outlet unit 'strip' is not there": lambda s: s["cords"].update(outlet_unit="strip"),
    "has no socket": lambda s: s["outlet_units"].append(to_plain(make_unit(sockets=0))),
    "a chain or a battery too": lambda s: s["chairs"][0].update(
        battery={"charger_a": 0.5, "charged": "in place"}
    ),
}


@pytest.mark.parametrize("words", EDITS)
def test_it_is_refused_with_a_sentence(words: str) -> None:
    record = to_plain(planned(supply_spec(seats=2, shared=True)))
    EDITS[words](record["spec"])
    report = judge(plan_from_plain(record), NEC)
    assert any(words in finding.note for finding in report.findings), report.findings[0].note
