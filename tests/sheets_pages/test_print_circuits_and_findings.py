"""Pages 4 and 5: for those who inspect."""

from dataclasses import replace

from page_words import A_VIEW, listed, table, words
from sample_plan import sample_plan
from support import NEC, make_spec

from powerplan.model.findings import hold
from powerplan.planning.pipeline import make_plan
from powerplan.sheets.pages.print_circuits import circuits_sheet
from powerplan.sheets.pages.print_findings import findings_sheet
from powerplan.sheets.parts import Figure, Marked


def test_every_circuit_is_in_the_table_with_what_it_has_left():
    rows = table(circuits_sheet(sample_plan(), ()), "Each circuit").rows
    assert [row[0] for row in rows] == ["7", "new 1 (NEW)"]
    assert rows[1][3] == "10.62 A"


def test_chairs_are_listed_by_circuit():
    rows = table(circuits_sheet(sample_plan(), ()), "Chairs by circuit").rows
    assert rows == (
        ("7", "5", "A1, A2, A3, A4 and A5", "1.25 x 0.3 A + 1.5 A = 1.875 A"),
        ("new 1", "0", "none", "-"),
    )


def test_what_to_confirm_holds_every_circuit_that_feeds_and_every_condition():
    asked = listed(circuits_sheet(sample_plan(), ()), "To confirm on site")
    assert asked[0] == "Circuit 7: breaker and wire are 15 A and 14 AWG."
    assert any(line.startswith("Circuit 7 carries no more than 4.5 A") for line in asked)


def test_the_tape_of_amperes_is_drawn_where_there_is_one():
    for views, figures in (((A_VIEW,), 1), ((A_VIEW, A_VIEW), 2), ((), 0)):
        page = circuits_sheet(sample_plan(), views)
        assert sum(isinstance(part, Figure) for part in page.parts) == figures


def test_a_plan_without_circuits_says_so():
    page = circuits_sheet(replace(sample_plan(), circuits=()), ())
    assert "No circuit feeds these chairs." in words(page)


def test_findings_come_not_met_then_not_checked_then_met():
    page = findings_sheet(sample_plan())
    marks = [part.mark for part in page.parts if isinstance(part, Marked)]
    assert marks == ["NOT MET", "NOT MET", "NOT CHECKED"]
    assert page.parts[-1] == table(page, "Met")


def test_what_is_met_comes_by_least_room_left():
    rules = NEC.rules
    loose = hold(rules["circuit-load"], "circuit 1", 5, 20)
    tight = hold(rules["passage-in-front"], "row A", 0.31, 0.3)
    rows = table(findings_sheet(replace(sample_plan(), findings=(loose, tight))), "Met").rows
    assert [row[1] for row in rows] == ["row A", "circuit 1"]


def test_each_finding_carries_its_force_its_source_and_its_standing():
    plan = sample_plan()
    told = words(findings_sheet(plan))
    for finding in plan.findings:
        standing = finding.standing.value
        assert finding.source in told
        assert standing in finding.source or f"{finding.source} [{standing}]" in told
        assert finding.force.value in told


def test_many_notes_of_one_rule_are_one_entry_and_every_must_is_named():
    rule, must = NEC.rules["spare-parked"], NEC.rules["circuit-load"]
    notes = tuple(hold(rule, f"cord A{n}", 1.0 + n / 10, 0.6) for n in range(1, 4))
    musts = tuple(hold(must, f"circuit {n}", asks, 15) for n, asks in enumerate((20, 20, 18), 1))
    page = findings_sheet(replace(sample_plan(), findings=(*notes, *musts)))
    firsts = [part.lines[0] for part in page.parts if isinstance(part, Marked)]
    assert [line.partition(" (")[0] for line in firsts] == [
        "circuit 1 and circuit 2",
        "circuit 3",
        "tightest of 3: cord A3",
    ]


def test_on_a_slab_no_joist_is_measured_to():
    plan = make_plan(make_spec(outlets=(), circuits=()), NEC, "0" * 64)
    assert plan.boxes
    assert plan.spec.floor.build == "slab"
    (row,) = [row for row in table(findings_sheet(plan), "Met").rows if "joists" in row[0]]
    assert row[3:6] == ("a slab: no joists", "-", "-")
