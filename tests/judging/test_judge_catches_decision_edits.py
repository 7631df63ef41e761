from collections.abc import Callable
from typing import Any

import hand_made
import pytest
from hand_made import edited, refused
from support import inch

from powerplan.model.plan import EXISTING, EXTENSIONS, LADDER, NEW_CIRCUITS, NOT_POSSIBLE

Edit = Callable[[Any], None]
AGREES = "record-agrees"


def decision(**changes: Any) -> Edit:
    """Overwrite keys of the decision."""

    def edit(plain: Any) -> None:
        assert changes.keys() <= plain["decision"].keys()
        plain["decision"].update(changes)

    return edit


def chosen(**changes: Any) -> Edit:
    """Overwrite keys of the last step listed, the chosen one."""

    def edit(plain: Any) -> None:
        assert changes.keys() <= plain["decision"]["steps"][-1].keys()
        plain["decision"]["steps"][-1].update(changes)

    return edit


def first_works(plain: Any) -> None:
    plain["decision"]["steps"][0]["works"] = True


def new_build(plain: Any) -> None:
    plain["spec"]["project"]["job"] = "new"


CASES: list[tuple[str, str, Edit, str]] = [
    ("chained", "verdict unheard of", decision(verdict="perhaps"), "decision"),
    ("chained", "another verdict", decision(verdict=NEW_CIRCUITS), "decision"),
    ("boxed", "a milder verdict", decision(verdict=EXISTING), "decision"),
    ("extended", "a milder verdict", decision(verdict=EXISTING), "decision"),
    ("chained", "called impossible, and 0", decision(verdict=NOT_POSSIBLE), "decision"),
    ("chained", "not met for nothing", decision(exit_code=1), "decision"),
    ("chained", "hangs on nothing", decision(exit_code=4), "decision"),
    ("chained", "impossible by its code alone", decision(exit_code=3), "decision"),
    ("impossible", "works by its code alone", decision(exit_code=0), "decision"),
    ("boxed", "an earlier step works", first_works, "decision"),
    ("chained", "chosen step does not work", chosen(works=False), "decision"),
    ("chained", "chosen step is not allowed", chosen(allowed=False), "decision"),
    ("chained", "no steps", decision(steps=[]), "decision"),
    ("chained", "a step unheard of", chosen(step="magic"), "decision"),
    ("extended", "fewer extensions", chosen(extensions=0), f"step {EXTENSIONS}"),
    ("boxed", "fewer boxes", chosen(boxes=0), f"step {NEW_CIRCUITS}"),
    ("boxed", "fewer circuits", chosen(new_circuits=0), f"step {NEW_CIRCUITS}"),
    ("boxed", "less cord", chosen(cord_m=1.0), f"step {NEW_CIRCUITS}"),
    ("chained", "a new build at step 1", new_build, "decision"),
]


@pytest.mark.parametrize(
    ("name", "edit", "subject"),
    [(case[0], *case[2:]) for case in CASES],
    ids=[f"{case[0]}: {case[1]}" for case in CASES],
)
def test_a_decision_edited_by_hand_is_caught(name: str, edit: Edit, subject: str) -> None:
    report = edited(getattr(hand_made, name)(), edit)
    assert (AGREES, subject) in refused(report)


def condition(**changes: Any) -> Edit:
    """Add a condition that hangs on nothing in the plan."""

    def edit(plain: Any) -> None:
        base = {
            "kind": "load",
            "subject": "x",
            "circuit": None,
            "if_continuous_a": None,
            "if_not_continuous_a": None,
            "sentence": "By hand.",
        }
        plain["decision"]["depends_on"].append({**base, **changes})

    return edit


@pytest.mark.parametrize(
    ("changes", "subject"),
    [
        ({"kind": "weather"}, "depends on weather of x"),
        ({"circuit": "9", "kind": "wire"}, "depends on wire of x"),
        ({"circuit": "7"}, "depends on load of x"),
        ({}, "depends on load of x"),
    ],
)
def test_a_condition_on_nothing_is_caught(changes: dict[str, Any], subject: str) -> None:
    assert (AGREES, subject) in refused(edited(hand_made.chained(), condition(**changes)))


def finding(**changes: Any) -> Edit:
    """Add a finding of the circuit's load to the record."""

    def edit(plain: Any) -> None:
        base = {
            "rule": "circuit-load",
            "force": "must",
            "subject": "circuit 7",
            "requirement": "1.25 x continuous + other within the breaker",
            "value": 9.375,
            "limit": 15.0,
            "unit": "A",
            "margin": 5.625,
            "outcome": "met",
            "source": "NEC 2023 210.19(A), 210.20(A)",
            "standing": "published copy",
            "note": "",
        }
        plain["findings"].append({**base, **changes})

    return edit


def test_a_true_finding_is_passed() -> None:
    assert refused(edited(hand_made.chained(), finding())) == set()


@pytest.mark.parametrize(
    "changes",
    [
        {"value": 15.1},
        {"value": None},
        {"limit": None},
        {"requirement": "anything goes"},
        {"unit": "m"},
    ],
)
def test_a_finding_that_does_not_follow_from_itself_is_caught(changes: dict[str, Any]) -> None:
    report = edited(hand_made.chained(), finding(**changes))
    assert (AGREES, "finding circuit-load on circuit 7") in refused(report)


def test_a_finding_under_a_rule_unheard_of_is_caught() -> None:
    report = edited(hand_made.chained(), finding(rule="luck"))
    assert (AGREES, "finding luck on circuit 7") in refused(report)


def test_a_record_that_owns_up_to_an_unmet_must_may_not_return_0() -> None:
    report = edited(hand_made.chained(), finding(outcome="not met", value=16.0))
    assert (AGREES, "decision") in refused(report)


def bounds(plain: Any, **changes: Any) -> None:
    pair = {"found": 0.0, "at_least": 0.0}
    laid = {"found": inch(41 + 4 * 48), "at_least": 0.0}  # a lead and four links
    base = {"new_circuits": pair, "boxes": pair, "cord_m": laid, "proved": True}
    plain["bounds"] = {**base, **changes}


def test_bounds_that_fit_are_passed() -> None:
    assert refused(edited(hand_made.chained(), bounds)) == set()


@pytest.mark.parametrize(
    "changes",
    [
        {"new_circuits": {"found": 1.0, "at_least": 0.0}},
        {"boxes": {"found": 1.0, "at_least": 0.0}},
        {"cord_m": {"found": 1.0, "at_least": 0.0}},
        {"cord_m": {"found": inch(41 + 4 * 48), "at_least": 6.0}},
    ],
)
def test_bounds_that_do_not_fit_are_caught(changes: dict[str, Any]) -> None:
    report = edited(hand_made.chained(), lambda plain: bounds(plain, **changes))
    assert (AGREES, "bounds") in refused(report)


STATED: list[tuple[str, Edit, str]] = [
    ("the caution cut", lambda plain: plain.update(caution="Have fun."), "caution"),
    ("another project", lambda plain: plain.update(project="Elsewhere"), "project"),
    ("another rule set", lambda plain: plain["rules"].update(id="xx"), "rules"),
    ("another edition", lambda plain: plain["rules"].update(edition="2020"), "rules"),
    ("another basis", lambda plain: plain["rules"].update(resistance_basis="tin"), "rules"),
    ("a number left out", lambda plain: plain["rules"]["numbers"].pop(0), "rules"),
    (
        "a number changed",
        lambda plain: plain["rules"]["numbers"][0].update(value=1.2),
        "rule number continuous_factor",
    ),
    (
        "a source changed",
        lambda plain: plain["rules"]["numbers"][0].update(source="hearsay"),
        "rule number continuous_factor",
    ),
    (
        "a standing changed",
        lambda plain: plain["rules"]["numbers"][0].update(standing="yours"),
        "rule number continuous_factor",
    ),
]


@pytest.mark.parametrize(
    ("edit", "subject"), [case[1:] for case in STATED], ids=[case[0] for case in STATED]
)
def test_a_statement_about_the_rules_is_held_to_them(edit: Edit, subject: str) -> None:
    assert (AGREES, subject) in refused(edited(hand_made.chained(), edit))


def test_an_impossible_job_is_still_judged_for_its_layout() -> None:
    def edit(plain: Any) -> None:
        plain["spec"]["room"]["depth_m"] = 1.9
        plain["spec"]["outlets"] = []

    assert ("row-fits-walls", "row A") in refused(edited(hand_made.impossible(), edit))


def test_steps_may_be_listed_in_any_order() -> None:
    def edit(plain: Any) -> None:
        step = plain["decision"]["steps"][0]
        plain["decision"]["steps"] = [dict(step, step=name) for name in reversed(LADDER)]

    assert refused(edited(hand_made.chained(), edit)) == set()
