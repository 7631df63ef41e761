"""Rooms of every kind at once, for closing laws: corners, risers, rows of every shape, both sets of
rules, chairs measured or not, supplies and outlet units on the floor."""

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import shapely
from abroad import abroad
from hypothesis import strategies as st
from loose_rooms import make_supply, make_unit, on_supply
from outlined import as_outline, outlines, room_of
from row_rooms import row_rooms
from strategies import rooms
from support import inch, make_riser

from powerplan.model.geometry import Rect
from powerplan.model.rules import RuleSet
from powerplan.model.spec import (
    Area,
    Battery,
    ChairKind,
    Door,
    Outlet,
    PlanSpec,
    Row,
    TapeReading,
    Wall,
)
from powerplan.rulebook.loader import rule_set


def rules_of(spec: PlanSpec) -> RuleSet:
    """The rule set that a spec names."""
    return rule_set(spec.project.rules)


@st.composite
def any_rooms(draw: st.DrawFn) -> PlanSpec:
    """A room of any kind with at least one seat that wants power."""
    spec = draw(rooms())
    if draw(st.integers(0, 3)):
        told = draw(row_rooms())
        spec = replace(spec, chairs=told.chairs, tables=told.tables, rows=told.rows)
    spec = replace(spec, chairs=tuple(draw(_other_chairs(kind)) for kind in spec.chairs))
    spec = draw(_shaped(spec))
    if not any(spec.chair(kind).powered for row in spec.rows for kind in row.kinds):
        still = tuple(
            replace(kind, powered=True, input_a=Fraction(1), continuous_a=Fraction(1))
            for kind in spec.chairs
        )
        spec = replace(spec, chairs=still)
    spec = draw(_with_loose_things(spec))
    if draw(st.booleans()):
        spec = replace(spec, readings=(_reading(draw(st.integers(200, 320))),))
    return abroad(spec) if draw(st.booleans()) else spec


@st.composite
def _other_chairs(draw: st.DrawFn, kind: ChairKind) -> ChairKind:
    """The kind as it is, or with longer leads, a battery, or known from a spec sheet alone."""
    if not kind.powered:
        return kind
    other = draw(st.sampled_from(["as it is"] * 5 + ["longer", "battery", "sheet"]))
    if other == "longer":
        return replace(
            kind, longer_leads_m=tuple(round(kind.lead_m + inch(more), 6) for more in (24, 60))
        )
    if other == "battery":
        pack = Battery(
            charger_a=kind.input_a, charged=draw(st.sampled_from(["in place", "elsewhere"]))
        )
        return replace(kind, battery=pack, continuous_a=kind.input_a, continuous_said=True)
    if other == "sheet":
        return replace(
            kind, measured=False, clear=None, arm_gap_m=None, rear_gap_m=None, parts=(), chain=None
        )
    return kind


@st.composite
def _with_loose_things(draw: st.DrawFn, spec: PlanSpec) -> PlanSpec:
    """The same as it is, with one kind of chair on supplies, or with an outlet unit that may be
    used."""
    thing = draw(st.sampled_from(["nothing"] * 5 + ["supply", "shared supply", "unit"]))
    if thing == "nothing":
        return spec
    if thing == "unit":
        unit = make_unit(listed=draw(st.sampled_from([True, None])))
        return replace(spec, outlet_units=(unit,), cords=replace(spec.cords, outlet_unit=unit.id))
    supply = make_supply(feeds=2 if thing == "shared supply" else 1)
    on_it = next(
        (kind.id for kind in spec.chairs if kind.powered and kind.measured and not kind.battery),
        None,
    )
    chairs = tuple(on_supply(kind, supply) if kind.id == on_it else kind for kind in spec.chairs)
    rows = spec.rows
    if supply.feeds == 2:
        rows = tuple(_paired(row, on_it) for row in rows)
    return replace(spec, supplies=(supply,), chairs=chairs, rows=rows)


def _paired(row: Row, on_it: str | None) -> Row:
    """The row with neighbors of one kind sharing by two, from the left."""
    pairs: list[tuple[int, int]] = []
    for left, (one, other) in enumerate(pairwise(row.kinds), start=1):
        if one == other == on_it and (not pairs or pairs[-1][1] < left):
            pairs.append((left, left + 1))
    return replace(row, shared_supplies=tuple(pairs))


@st.composite
def _shaped(draw: st.DrawFn, spec: PlanSpec) -> PlanSpec:
    """The same room as it is, as an outline, or without one of its corners."""
    shape = draw(st.sampled_from(["plain", "as outline", "cornered", "cornered"]))
    if shape == "plain":
        return spec
    if shape == "as outline":
        return as_outline(spec)
    room = room_of(draw(outlines()), ("back", "right", "screen"))
    floor = shapely.Polygon(room.outline).buffer(1e-9)

    def inside(rect: Rect) -> bool:
        return bool(floor.covers(shapely.box(rect.left_m, rect.back_m, rect.right_m, rect.front_m)))

    def areas(given: tuple[Area, ...]) -> tuple[Area, ...]:
        return tuple(area for area in given if inside(area.rect))

    risers = spec.risers
    if risers and not all(inside(riser.rect) for riser in risers):
        risers = (make_riser(40, 0, 200, 80, framing=risers[0].framing),)
        risers = tuple(riser for riser in risers if inside(riser.rect))
    return replace(
        spec,
        room=room,
        doors=tuple(_on_the_right(door) for door in spec.doors),
        obstacles=areas(spec.obstacles),
        walkways=areas(spec.walkways),
        no_cut=areas(spec.no_cut),
        risers=risers,
        outlets=tuple(_outlet(outlet) for outlet in spec.outlets),
    )


def _on_the_right(door: Door) -> Door:
    return replace(door, wall=Wall.RIGHT)


def _outlet(outlet: Outlet) -> Outlet:
    """No outlet on the left, where a corner may be gone, nor in the floor beside it."""
    if outlet.wall == Wall.LEFT:
        return replace(outlet, wall=Wall.RIGHT, x_m=inch(240))
    if outlet.wall is None:
        return replace(outlet, y_m=min(outlet.y_m, inch(100)), x_m=max(outlet.x_m, inch(60)))
    return outlet


def _reading(inches: int) -> TapeReading:
    """A diagonal of the floor, right or not."""
    return TapeReading(
        id="diagonal", start=(0.0, 0.0), end=(inch(240), inch(186)), length_m=inch(inches)
    )
