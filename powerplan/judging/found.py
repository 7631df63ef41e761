"""What was found in circuits and outlets: grounds, switches, shared neutrals, aluminum wire."""

from __future__ import annotations

from collections.abc import Iterator

from powerplan.judging.case import Branch, Case
from powerplan.model.findings import Finding
from powerplan.model.spec import Outlet


def judge_found(case: Case) -> Iterator[Finding]:
    """Hold every circuit that feeds chairs, every outlet in use and every new one to it."""
    for branch in case.branches.values():
        if branch.there is not None and branch.seats:
            yield from _circuit(case, branch)
    in_use = {trace.feed for trace in case.feeding.traces.values()}
    for outlet in case.plan.spec.outlets:
        if outlet.id in in_use:
            yield from _outlet(case, outlet)


def _circuit(case: Case, branch: Branch) -> Iterator[Finding]:
    there = branch.there
    if there is None:
        return
    extended = any(box.circuit == branch.id for box in case.plan.boxes)
    for rule, is_so in (
        ("shared-neutral", there.shared_neutral),
        ("aluminum-wire", None if there.conductor is None else there.conductor == "aluminum"),
    ):
        if is_so and extended:
            note = "nothing new may be wired on from such a circuit"
            yield case.hold(rule, branch.subject, 1, 0, note=note)
        elif is_so:
            note = "an electrician has to look before any chair is on it"
            yield case.hold(rule, branch.subject, None, 0, note=note)
        elif is_so is False:
            yield case.hold(rule, branch.subject, 0, 0)
    if extended and there.ground is False:
        note = "a new outlet has to have a ground"
        yield case.hold("grounded-outlet", branch.subject, 0, 1, note=note)


def _outlet(case: Case, outlet: Outlet) -> Iterator[Finding]:
    circuit = case.branches[outlet.circuit].there
    if circuit is None:
        return
    own = {"ground": outlet.ground, "switch": outlet.switched}
    behind = {"ground": circuit.ground, "switch": circuit.switched}
    said = {what: behind[what] if own[what] is None else own[what] for what in own}
    subject = f"outlet {outlet.id}"
    if said["ground"] is not None:
        note = "" if said["ground"] else "a chair plugs into an outlet without a ground"
        yield case.hold("grounded-outlet", subject, int(said["ground"]), 1, note=note)
    if said["switch"] is not None:
        yield case.hold("switched-outlet", subject, int(said["switch"]), 0)
