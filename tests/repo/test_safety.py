"""SAFETY.md names every must, and its table of numbers is fresh."""

import pytest
from safety_table import SAFETY, fresh_safety_text

from powerplan.model.findings import Force
from powerplan.rulebook.loader import rule_set

pytestmark = pytest.mark.repo


def test_the_table_of_numbers_is_fresh() -> None:
    assert SAFETY.read_text(encoding="utf-8") == fresh_safety_text()


def test_every_must_that_guards_people_stands_beside_a_hazard() -> None:
    hazards = SAFETY.read_text(encoding="utf-8").split("## What is not looked at")[0]
    about_the_plan_itself = {
        "panel-space",
        "outlet-there",
        "sockets-free",
        "cord-length",
        "link-length",
        "row-fits-walls",
        "fed-once",
        "ends-meet",
        "record-agrees",
    }
    musts = {rule.id for rule in rule_set("us-nec-2023").rules.values() if rule.force is Force.MUST}
    unnamed = {rule for rule in musts - about_the_plan_itself if f"`{rule}`" not in hazards}
    assert unnamed == set()
