"""Pages 4 and 5: for those who inspect."""

from dataclasses import replace
from fractions import Fraction

from page_words import A_VIEW, listed, table, words
from sample_plan import sample_plan
from support import (
    NEC,
    inch,
    make_chair,
    make_circuit,
    make_joists,
    make_load,
    make_new_work,
    make_row,
    make_spec,
)

from powerplan.model.findings import hold
from powerplan.model.plan import NOT_POSSIBLE, Plan
from powerplan.model.spec import Size
from powerplan.planning.pipeline import make_plan
from powerplan.sheets.pages.print_circuits import circuits_sheet
from powerplan.sheets.pages.print_decision import decision_sheet
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


def test_each_kind_of_figure_has_a_line_of_its_own():
    plan = sample_plan()
    first, *others = plan.chairs
    other = replace(first, input_a=0.9, continuous_a=0.0)
    rows = table(circuits_sheet(replace(plan, chairs=(other, *others)), ()), "Chairs by").rows
    assert rows[:2] == (
        ("7", "1", "A1", "0.9 A"),
        ("7", "4", "A2, A3, A4 and A5", "1.25 x 0.3 A + 1.5 A = 1.875 A"),
    )


def test_what_the_seller_finds_out_is_not_asked_of_the_electrician():
    plan = sample_plan()
    (load,) = plan.decision.depends_on
    other = replace(load, kind="other", sentence="chair club is as assumed: measure one")
    look = replace(load, kind="wire", sentence="the wire is thick: have an electrician look")
    decision = replace(plan.decision, depends_on=(other, look))
    asked = listed(circuits_sheet(replace(plan, decision=decision), ()), "To confirm on site")
    assert not any("as assumed: measure" in line for line in asked)
    assert "The wire is thick." in asked
    assert not any("electrician look" in line for line in asked)


def overloaded() -> Plan:
    """Four chairs of 2.2 A, all of it lasting, beside 8 A that lasts, on one circuit of 20 A."""
    chair = make_chair(
        input_a=Fraction(22, 10), continuous_a=Fraction(22, 10), continuous_said=False
    )
    busy = make_circuit(
        breaker_a=Fraction(20), wire="12 AWG", already_on_it=(make_load("rack", "8", True),)
    )
    work = make_new_work(floor_boxes=True, circuits=0)
    spec = make_spec(new_work=work, chairs=(chair,), circuits=(busy,), rows=(make_row(seats=4),))
    kept = replace(spec, cords=replace(spec.cords, extensions="no"), outlets=())
    return make_plan(kept, NEC, "0" * 64)


def test_where_it_is_not_possible_the_sum_with_the_chairs_is_written_out():
    # 1.25 x 8 A = 10 A, 4 x 1.25 x 2.2 A = 11 A, together 21 A
    plan = overloaded()
    (told,) = listed(circuits_sheet(plan, ()), "With the chairs")
    assert told == (
        "Circuit 7: 10 A that is on it + 11 A of the chairs (4 x 1.25 x 2.2 A) = 21 A, and it may "
        "give 20 A: 1 A over."
    )


def test_what_stops_a_job_is_among_the_findings():
    plan = overloaded()
    page = findings_sheet(plan)
    assert any(
        part.mark == "NOT MET" and part.lines[0].startswith("circuit 7 (must)")
        for part in page.parts
        if isinstance(part, Marked)
    )
    assert " 0 NOT MET" not in words(page)
    assert "1 of the checks not met stops the last way that fails" in words(page)


def test_a_box_that_does_not_fit_is_told_once_with_the_cut_out_that_would():
    # Joists 12 in apart and 1 1/2 in thick leave 10 1/2 in, less 3/4 in on both sides 9 in; the
    # lid keeps the middle from half way between them.
    floor = make_joists(spacing_m=inch(12))
    work = make_new_work(
        cut_out=Size(width_m=inch(10), depth_m=inch(10)),
        lid=Size(width_m=inch(11), depth_m=inch(11)),
    )
    plan = make_plan(
        make_spec(floor=floor, new_work=work, outlets=(), circuits=(), rows=(make_row(seats=4),)),
        NEC,
        "0" * 64,
    )
    assert plan.decision.verdict == NOT_POSSIBLE
    first = words(decision_sheet(plan))
    (no,) = (line for line in first.splitlines() if line.startswith("A floor box does not fit"))
    assert no.count("The clear zone has no place") == 1
    assert "would fit" in no
    assert " 0 NOT MET" not in words(findings_sheet(plan))
    assert "cut-out clear of joists" in words(findings_sheet(plan))
