"""Every number of a record outside its spec is changed, and the judge has to dispute it.

What may be changed undisputed is listed, with the reason why nobody is hurt and nothing cut wrong.
"""

import copy
import json
import random
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import as_planned
import hand_made
import pytest

from powerplan.judging.judge import judge
from powerplan.model.codec import plan_from_plain, to_plain
from powerplan.model.errors import RecordError
from powerplan.rulebook.loader import rule_set

EXAMPLES = Path(__file__).parents[2] / "examples"
Way = tuple[str | int, ...]

LESS, MORE = -0.03, 0.03
# By pattern: in which direction a change is passed, and why.
UNJUDGED = {
    "bounds.boxes.at_least": (LESS,),  # claims less than is proved
    "bounds.cord_m.at_least": (LESS,),
    "bounds.new_circuits.at_least": (LESS,),
    # a smaller drift allows less, a larger one is passed only where all of it holds
    "boxes.*.drift.left_m": (LESS, MORE),
    "boxes.*.drift.right_m": (LESS, MORE),
    "boxes.*.drift.back_m": (LESS, MORE),
    "boxes.*.drift.screen_m": (LESS, MORE),
    "boxes.*.second_mark_m.*": (LESS, MORE),  # along joists, as clear as before
    "cords.*.park_m.*": (LESS, MORE),  # a coil may lie anywhere that its tail meets it
    # the planner's own word, as the report says: steps not chosen, and where answers turn
    "decision.flips.*.continuous_a": (LESS, MORE),
    "decision.steps.*.boxes": (LESS, MORE),
    "decision.steps.*.cord_m": (LESS, MORE),
    "decision.steps.*.extensions": (LESS, MORE),
    "decision.steps.*.new_circuits": (LESS, MORE),
    # of a rule that is not checked there is no margin that could follow
    "decision.steps.*.findings.*.limit": (LESS, MORE),
    "decision.steps.*.findings.*.value": (LESS, MORE),
    "findings.*.limit": (LESS, MORE),
    "findings.*.value": (LESS, MORE),
}


def record(name: str) -> Any:
    """A record as its file has it."""
    for place in (hand_made, as_planned):
        if hasattr(place, name):
            return json.loads(json.dumps(to_plain(getattr(place, name)())))
    return json.loads((EXAMPLES / f"{name}.record.json").read_text(encoding="utf-8"))


def numbers(value: Any, way: Way = ()) -> Iterator[tuple[Way, float]]:
    """Every number in a record's file, and the way to it."""
    if isinstance(value, dict | list):
        for key, inner in value.items() if isinstance(value, dict) else enumerate(value):
            yield from numbers(inner, (*way, key))
    elif isinstance(value, int | float) and not isinstance(value, bool):
        yield way, value


def pattern(way: Way) -> str:
    return ".".join("*" if isinstance(key, int) else key for key in way)


def put(plain: Any, way: Way, value: float) -> Any:
    changed = copy.deepcopy(plain)
    place = changed
    for key in way[:-1]:
        place = place[key]
    place[way[-1]] = value
    return changed


def passed(plain: Any, way: Way, value: float) -> bool:
    """Whether a record is taken, and not disputed, with another number there."""
    try:
        plan = plan_from_plain(put(plain, way, value))
    except RecordError:
        return False
    return not judge(plan, rule_set(plain["rules"]["id"])).disputed


def undisputed(plain: Any, most: int) -> list[tuple[str, float, Way]]:
    """What may be changed undisputed, trying that many numbers of each pattern at most."""
    by_pattern: dict[str, list[tuple[Way, float]]] = {}
    for way, value in numbers(plain):
        if way[0] != "spec":
            by_pattern.setdefault(pattern(way), []).append((way, value))
    picked = random.Random(7)
    found = []
    for name, places in sorted(by_pattern.items()):
        for way, value in picked.sample(places, min(most, len(places))):
            for by in (LESS, MORE):
                step = by if isinstance(value, float) else round(by / MORE)
                if passed(plain, way, value + step):
                    found.append((name, by, way))
    return found


@pytest.mark.parametrize(
    "name",
    [
        "extended",
        *(
            pytest.param(name, marks=pytest.mark.slow)
            for name in (
                *("boxed", "wired_on", "supplied", "with_a_unit", "curved", "small-den"),
                *("curved-den", "metric-lounge", "media-loft", "tight-lounge"),
                *("two-row-theater", "three-row-cinema", "spec-sheet-den"),
            )
        ),
    ],
)
def test_every_number_outside_the_spec_is_held_to_something(name: str) -> None:
    found = undisputed(record(name), 1 if name == "extended" else 3)
    assert [one for one in found if one[1] not in UNJUDGED.get(one[0], ())] == []


def test_a_drift_across_the_play_of_two_marks_is_caught() -> None:
    """Two marks 7 in apart, where joists of 1 1/2 in and a cut-out of 4 in with 3/4 in to either
    side need just 7: nearer to the other mark there is no play, and 3 cm are too many."""
    plain = record("three-row-cinema")
    (number,) = [n for n, box in enumerate(plain["boxes"]) if box["id"] == "box A1"]
    box = plain["boxes"][number]
    assert box["second_mark_m"][1] - box["y_m"] == pytest.approx(7 * 0.0254)
    assert not passed(plain, ("boxes", number, "drift", "screen_m"), 0.03)


def test_a_drift_under_a_chair_that_nobody_measured_is_caught() -> None:
    plain = record("spec-sheet-den")
    assert not passed(plain, ("boxes", 0, "drift", "left_m"), 0.03)


def test_a_whole_length_of_cord_that_does_not_follow_is_caught() -> None:
    plain = record("small-den")
    whole_m = plain["bounds"]["cord_m"]["found"]
    assert not passed(plain, ("bounds", "cord_m", "found"), whole_m + 0.01)
