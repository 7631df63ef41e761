"""A metric lounge under the rules of IEC countries, and any spec carried there."""

from dataclasses import replace
from fractions import Fraction

from powerplan.inputs.plan_file import read_plan_text
from powerplan.model.plan import Plan
from powerplan.model.rules import RuleSet
from powerplan.model.spec import PlanSpec
from powerplan.planning.pipeline import make_plan
from powerplan.rulebook.loader import rule_set

IEC: RuleSet = rule_set("iec-60364-2009")
_MM2 = {"18": "0.75", "16": "1", "14": "1.5", "12": "2.5", "10": "4", "8": "6", "6": "10"}

LOUNGE = """\
plan_file = 1

[project]
name = "Panel road lounge"
job = "retrofit"
place = "home"
rules = "iec-60364-2009"
units = "mm"

[room]
width = "5,60 m"
depth = "4.4 m"
right_wall = "outlet side"

[door.hall]
wall = "right"
from_back = "3300 mm"
width = "880 mm"
swings = "out"

[floor]
build = "joists"
joists_run = "back to screen"
spacing = "400 mm"
first_joist = "300 mm"
joist_width = "60 mm"

[chair.lounge]
seat_width = "560 mm"
arm_width = "170 mm"
depth = "980 mm"
rear_of_base = "100 mm"
back_travel = "120 mm"
reclined_reach = "1,68 m"
clear = { from = "230 mm", to = "560 mm", width = "400 mm", height = "110 mm" }
arm_gap = "8 mm"
rear_gap = "40 mm"
input = "0,9 A"
continuous = "0.1 A"
lead = "2.5 m"
lead_wire = "0.75 mm2"
coupler = "2.5 A"
lead_from = { right = "0 mm", forward = "260 mm" }

[row.A]
chair = "lounge"
seats = 4
headrest_to_wall = "360 mm"

[circuit.5]
breaker = "16 A"
wire = "1,5 mm\u00b2"
home_run = "14 m"
already_on_it = { "screen" = "1,4 A", "breaker lamp" = "0,2 A, now and then" }

[outlet.W1]
circuit = "5"
wall = "back"
from_left = "2.6 m"
height = "300 mm"
sockets = 2
free = 2

[new_work]
circuits = 2
home_run = "16 m"
cut_out = { width = "120 mm", depth = "120 mm" }
lid = { width = "150 mm", depth = "150 mm" }
"""


def read(text: str = LOUNGE) -> PlanSpec:
    """The spec of a plan text."""
    return read_plan_text(text.encode(), "lounge.toml", rule_set).spec


def plan_of(text: str = LOUNGE) -> Plan:
    """The plan of a plan text under the rules it names."""
    spec = read(text)
    return make_plan(spec, rule_set(spec.project.rules), "0" * 64)


def _mm2(wire: str | None) -> str | None:
    return None if wire is None else f"{_MM2[wire.split()[0]]} mm2"


def _rating(current_a: Fraction | None) -> Fraction | None:
    return None if current_a is None else Fraction({15: 16}.get(int(current_a), int(current_a)))


def abroad(spec: PlanSpec) -> PlanSpec:
    """The same room with the wires, breakers and sockets of an IEC country."""
    sixteen = Fraction(16)
    return replace(
        spec,
        project=replace(spec.project, rules=IEC.id, units="mm"),
        chairs=tuple(
            replace(
                kind,
                lead_wire=_mm2(kind.lead_wire),
                chain=kind.chain and replace(kind.chain, wire=_mm2(kind.chain.wire)),
            )
            for kind in spec.chairs
        ),
        supplies=tuple(
            replace(
                kind,
                wall_cord_wire=_mm2(kind.wall_cord_wire),
                chair_cord_wire=_mm2(kind.chair_cord_wire),
            )
            for kind in spec.supplies
        ),
        outlet_units=tuple(
            replace(unit, cord_wire=_mm2(unit.cord_wire)) for unit in spec.outlet_units
        ),
        circuits=tuple(
            replace(circuit, breaker_a=_rating(circuit.breaker_a), wire=_mm2(circuit.wire))
            for circuit in spec.circuits
        ),
        outlets=tuple(replace(outlet, rating_a=sixteen) for outlet in spec.outlets),
        new_work=replace(
            spec.new_work,
            breaker_a=sixteen,
            wire=_mm2(spec.new_work.wire),
            socket_rating_a=sixteen,
        ),
        cords=replace(spec.cords, wire=_mm2(spec.cords.wire)),
    )
