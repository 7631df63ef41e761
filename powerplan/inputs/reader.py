"""The tables of a plan file, turned into the spec."""

from __future__ import annotations

from collections.abc import Callable

from powerplan.inputs import written as w
from powerplan.inputs.chairs import chairs_of
from powerplan.inputs.circuits import circuits_of
from powerplan.inputs.faults import Faults
from powerplan.inputs.outlet_units import outlet_units_of
from powerplan.inputs.outlines import frame_of
from powerplan.inputs.power import supplies_of
from powerplan.inputs.reading import Reading
from powerplan.inputs.rooms import areas_of, doors_of, floor_of, risers_of
from powerplan.inputs.rows import rows_of, tables_of
from powerplan.inputs.supplies import cords_of, new_work_of, outlets_of
from powerplan.inputs.tables import PlanTables, Table
from powerplan.inputs.tape_readings import tape_readings_of
from powerplan.model.errors import RulebookError
from powerplan.model.rules import RuleSet
from powerplan.model.spec import PlanSpec, Project

RulesFor = Callable[[str], RuleSet]

USUAL_RULES = "us-nec-2023"


def spec_of(tables: PlanTables, stem: str, rules_for: RulesFor, faults: Faults) -> PlanSpec | None:
    """Return the spec, or None where there are faults.

    Parameters
    ----------
    tables : PlanTables
        Every table as read.
    stem : str
        What the file is called, for a project without a name.
    rules_for : callable
        Gives a rule set by name, or raises a RulebookError.
    faults : Faults
        Where faults are noted.
    """
    project = tables.project
    rules = _rules(project, rules_for, faults)
    reading = Reading(
        rules=rules,
        faults=faults,
        units=project.it.units or rules.units,
    )
    if reading.rules.wiring_method:
        reading.assume("wiring", reading.rules.wiring_method)
    named = _project(reading, project, stem)
    frame = reading.frame = frame_of(reading, tables.room)
    doors = doors_of(reading, tables)
    obstacles = areas_of(reading, tables.obstacles)
    walkways = areas_of(reading, tables.walkways)
    floor = floor_of(reading, tables)
    no_cut = areas_of(reading, tables.no_cut)
    risers = risers_of(reading, tables)
    supplies = supplies_of(reading, tables)
    chairs = chairs_of(reading, tables, supplies)
    rows = rows_of(reading, tables)
    circuits = circuits_of(reading, tables)
    outlets = outlets_of(reading, tables)
    new_work = new_work_of(reading, tables)
    cords = cords_of(reading, tables)
    readings = tape_readings_of(reading, tables, doors, outlets)
    outlet_units = outlet_units_of(reading, tables)
    if faults or frame is None:
        return None
    return PlanSpec(
        project=named,
        room=frame.room,
        doors=doors,
        obstacles=obstacles,
        walkways=walkways,
        floor=floor,
        no_cut=no_cut,
        risers=risers,
        chairs=chairs,
        rows=rows,
        circuits=circuits,
        outlets=outlets,
        new_work=new_work,
        cords=cords,
        assumed=tuple(reading.assumed),
        tables=tables_of(tables),
        readings=readings,
        supplies=tuple(read.kind for read in supplies.values()),
        outlet_units=outlet_units,
    )


def _rules(table: Table[w.Project], rules_for: RulesFor, faults: Faults) -> RuleSet:
    wanted = table.it.rules
    if wanted is None:
        return rules_for(USUAL_RULES)
    try:
        return rules_for(wanted)
    except RulebookError as fault:
        faults.add(table.at("rules"), str(fault))
        return rules_for(USUAL_RULES)


def usual_or(name: object, rules_for: RulesFor) -> RuleSet:
    """Return the rule set of that name, the usual one where there is none."""
    try:
        return rules_for(name if isinstance(name, str) else USUAL_RULES)
    except RulebookError:
        return rules_for(USUAL_RULES)


def _project(reading: Reading, table: Table[w.Project], stem: str) -> Project:
    it = table.it
    if it.job is None and table.sound("job"):
        reading.assume("project", "planned as a retrofit")
    if it.place is None and table.sound("place"):
        words = "the kind of place is unknown, so extension cords count as in a business"
        reading.assume("project", words)
    return Project(
        name=it.name or _printable(stem),
        job=it.job or "retrofit",
        place=it.place,
        rules=it.rules or USUAL_RULES,
        units=reading.units,
    )


def _printable(stem: str) -> str:
    return "".join(char for char in stem if char.isprintable())[:100].strip() or "unnamed room"
