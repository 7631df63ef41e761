"""Make the record from the ladder's answer."""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from typing import Any, TypeVar, cast

from powerplan import __version__
from powerplan.engineering.boxes.marks import BoxSpot
from powerplan.engineering.circuits.found import nobody_looked
from powerplan.engineering.circuits.load import more_chairs
from powerplan.engineering.seating.layout import layout_findings
from powerplan.model.findings import Finding, Outcome, hold
from powerplan.model.lengths import at_least_text, length_text
from powerplan.model.loose import OutletUnit, Supply
from powerplan.model.plan import (
    CAUTION,
    NOT_POSSIBLE,
    RECORD_VERSION,
    Bounds,
    Condition,
    Decision,
    Flip,
    FoundAndLeast,
    NumberUsed,
    Plan,
    RulesUsed,
    Spare,
    Step,
)
from powerplan.model.spare import spare_told_m
from powerplan.planning import record
from powerplan.planning.battery_notes import battery_notes
from powerplan.planning.conditions import conditions
from powerplan.planning.gaps import crossing_findings, shared_gaps
from powerplan.planning.ladder import Solved
from powerplan.planning.loads import CircuitLoad, Way, circuit_loads, load_findings, single_sockets
from powerplan.planning.measuring import measured_findings
from powerplan.planning.notes import count_notes, place_notes
from powerplan.planning.site import FLOOR_BOX, Site
from powerplan.planning.spare import served
from powerplan.planning.volts import CircuitVolts, circuit_volts, drop_finding, wiring
from powerplan.planning.words import mend_first, step_sentence, verdict_sentence

T = TypeVar("T")

EXIT_WORKS, EXIT_NOT_MET, EXIT_NOT_POSSIBLE, EXIT_HANGS = 0, 1, 3, 4


def assemble(site: Site, solved: tuple[Solved, ...], flips: tuple[Flip, ...], sha256: str) -> Plan:
    """Return the whole record, rounded."""
    chosen = next((entry for entry in solved if entry.works and entry.allowed), None)
    way = chosen.way if chosen is not None else None
    spec = site.spec
    site = (chosen.rated if chosen is not None else None) or site
    loads = circuit_loads(site, way)
    volts = volts_by_circuit(site, way, loads)
    findings = all_findings(site, way, loads, volts)
    plan = Plan(
        record=RECORD_VERSION,
        program=f"powerplan {__version__}",
        project=spec.project.name,
        rules=_rules_used(site),
        caution=CAUTION,
        plan_file_sha256=sha256,
        spec=spec,
        decision=_decision(site, solved, chosen, flips, loads, findings),
        chairs=record.placed_chairs(site, way, volts),
        boxes=record.boxes(site, way, wiring(site, way)) if way else (),
        cords=record.cords(site, way) if way else (),
        circuits=record.circuit_uses(loads, volts, site),
        zones=record.zones(site),
        findings=findings,
        bounds=_bounds(site, way),
        supplies=record.supplies(way) if way else (),
        outlet_units=record.outlet_units(way) if way else (),
    )
    return rounded(plan)


def volts_by_circuit(
    site: Site, way: Way | None, loads: tuple[CircuitLoad, ...]
) -> dict[str, CircuitVolts]:
    """Return the drop on each circuit that feeds a chair."""
    if way is None:
        return {}
    return {load.id: circuit_volts(site, way, load) for load in loads if load.chairs}


def all_findings(
    site: Site,
    way: Way | None,
    loads: tuple[CircuitLoad, ...],
    volts: dict[str, CircuitVolts],
) -> tuple[Finding, ...]:
    """Return every rule held against this way and this room."""
    used = {f"circuit {load.id}" for load in loads if load.chairs}
    used |= {f"outlet {fed.feed.id}" for fed in way.fed} if way else set()
    findings = [f for f in site.hazards if f.outcome is Outcome.NOT_MET or f.subject in used]
    layout = layout_findings(site.spec, site.rows, site.rules)
    findings.extend(layout)
    findings.extend(measured_findings(site))
    if way is None:
        return tuple(findings)
    findings.extend(finding for finding in site.looks if finding.subject in used)
    feeding = tuple(load.existing for load in loads if load.chairs and load.existing)
    findings.extend(nobody_looked(site.spec, feeding, site.rules))
    findings.extend(place_notes(site, way, layout))
    findings.extend(battery_notes(site))
    findings.extend(count_notes(site, way, loads))
    for load in loads:
        if load.chairs:
            findings.extend(load_findings(site, load))
            findings.append(drop_finding(site, load, volts[load.id]))
    for fed in way.fed:
        for run in fed.runs:
            findings.extend(run.findings)
            findings.extend(_parked(site, run))
    for fed in way.new_outlets:
        spot = site.spots.get(fed.feed.chair or "")
        if fed.feed.kind == FLOOR_BOX and isinstance(spot, BoxSpot):
            findings.extend(spot.findings)
    findings.extend(shared_gaps(site, way))
    findings.extend(crossing_findings(site, way))
    findings.extend(single_sockets(site, way))
    findings.extend(_panel(site, way))
    return tuple(dict.fromkeys(findings))


def _parked(site: Site, run: Any) -> list[Finding]:
    units, told = site.spec.project.units, []
    for leg in run.legs:
        over_m = record.left_over_m(leg)
        if over_m > record.park_over_m(site):
            loose = length_text(spare_told_m(leg.bought_m, leg.length_m, units), units)
            note = (
                f"{at_least_text(over_m, units)} is left over beyond the slack that every cord "
                f"keeps; with that slack {loose} of it lies loose: the cords page says where, "
                f"behind the base of {served(run, leg).id} if there is room; never under a "
                "mechanism."
            )
            rule = site.rules.rules["spare-parked"]
            told.append(hold(rule, f"cord {leg.id}", over_m, record.park_over_m(site), note=note))
    return told


def _panel(site: Site, way: Way) -> list[Finding]:
    needed, spaces = len(way.new_circuits), site.spec.new_work.circuits
    if not needed:
        return []
    note = "" if spaces is not None else "Nobody has said how many free spaces the panel has."
    rule = site.rules.rules["panel-space"]
    return [hold(rule, "panel", needed, spaces, note=note)]


def _rules_used(site: Site) -> RulesUsed:
    rules = site.rules
    return RulesUsed(
        id=rules.id,
        edition=rules.edition,
        resistance_basis=rules.resistance_basis,
        numbers=tuple(
            NumberUsed(
                name=number.name,
                value=float(number.value),
                unit=number.unit,
                source=number.source.cite,
                standing=number.source.standing,
            )
            for number in rules.numbers.values()
        ),
    )


def _decision(
    site: Site,
    solved: tuple[Solved, ...],
    chosen: Solved | None,
    flips: tuple[Flip, ...],
    loads: tuple[CircuitLoad, ...],
    findings: tuple[Finding, ...],
) -> Decision:
    hanging: tuple[Condition, ...] = ()
    if chosen is not None and chosen.way is not None:
        way = chosen.way
        loose: tuple[Supply | OutletUnit, ...] = (*record.supplies(way), *record.outlet_units(way))
        hanging = conditions(site, loads, findings, {one.id: one.height_m for one in loose})
    steps = tuple(_step(site, entry) for entry in solved)
    return Decision(
        verdict=NOT_POSSIBLE if chosen is None else chosen.step,
        sentence=mend_first(site, findings)
        + verdict_sentence(site, chosen, solved, _wire(site, chosen), hanging),
        exit_code=_exit_code(chosen, findings, bool(hanging)),
        steps=steps,
        depends_on=hanging,
        spare=_spare(site, loads),
        flips=flips,
    )


def _exit_code(chosen: Solved | None, findings: tuple[Finding, ...], hangs: bool) -> int:
    if chosen is None:
        return EXIT_NOT_POSSIBLE
    if any(finding.stops for finding in findings):
        return EXIT_NOT_MET
    if hangs or any(finding.hangs for finding in findings):
        return EXIT_HANGS
    return EXIT_WORKS


def _step(site: Site, solved: Solved) -> Step:
    site, way, findings = solved.rated or site, solved.way, solved.why
    if way is not None and solved.works:
        loads = circuit_loads(site, way)
        told = all_findings(site, way, loads, volts_by_circuit(site, way, loads))
        findings = tuple(finding for finding in told if finding.hangs)
    return Step(
        step=solved.step,
        works=solved.works,
        allowed=solved.allowed,
        sentence=step_sentence(site, solved, _wire(site, solved)),
        new_circuits=None if way is None else len(way.new_circuits),
        boxes=None if way is None else len(way.new_outlets),
        extensions=None if way is None else way.extensions,
        cord_m=None if way is None else way.cord_m,
        findings=findings,
    )


def _wire(site: Site, solved: Solved | None) -> str | None:
    """The wire of the new circuits of a step; the thickest where they differ."""
    if solved is None or solved.way is None or not solved.way.new_circuits:
        return None
    site = solved.rated or site
    wires = {
        circuit_volts(site, solved.way, load).wire
        for load in circuit_loads(site, solved.way)
        if load.existing is None
    }
    known = [wire for wire in wires if wire is not None]
    return max(known, key=lambda name: site.rules.wires[name].rank, default=None)


def _spare(site: Site, loads: tuple[CircuitLoad, ...]) -> tuple[Spare, ...]:
    """What each known circuit has left, told in chairs of each kind that stands in the room."""
    used = {kind for row in site.spec.rows for kind in row.kinds}
    told = []
    for load in loads:
        known = load.load_known and (load.existing is None or load.existing.breaker_a is not None)
        for kind in site.spec.chairs:
            if kind.id in used and kind.takes_power:
                told.append(
                    Spare(
                        circuit=load.id,
                        chair=kind.id,
                        spare_a=float(load.spare_a) if known else None,
                        more_chairs=more_chairs(load.spare_a, kind, site.rules) if known else None,
                    )
                )
    return tuple(told)


def _bounds(site: Site, way: Way | None) -> Bounds | None:
    if way is None:
        return None
    circuits, boxes = len(way.new_circuits), len(way.new_outlets)
    sure = (circuits, boxes, way.cord_m)
    least = sure if way.proved else (min(circuits, 1), min(boxes, 1), 0.0)
    return Bounds(
        new_circuits=FoundAndLeast(found=circuits, at_least=least[0]),
        boxes=FoundAndLeast(found=boxes, at_least=least[1]),
        cord_m=FoundAndLeast(found=way.cord_m, at_least=least[2]),
        proved=way.proved,
    )


def rounded(value: T) -> T:
    """Return a value of the model with every float rounded to six decimals, angles to nine."""
    plain: Any = value
    if isinstance(plain, float):
        plain = round(plain, 6) + 0.0
    elif isinstance(plain, tuple):
        plain = tuple(rounded(item) for item in plain)
    elif is_dataclass(plain) and not isinstance(plain, type):
        plain = replace(
            plain,
            **{
                f.name: round(getattr(plain, f.name), 9) + 0.0
                if f.name.endswith("_rad")
                else rounded(getattr(plain, f.name))
                for f in fields(plain)
            },
        )
    return cast(T, plain)  # the same type, field by field
