"""Generated rooms of mixed, turned and curved rows: planned, and cords clear of what moves."""

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, assume, given
from laws import held_over
from row_rooms import pinch_of, row_rooms
from shapely import LineString, Polygon
from support import NEC

from powerplan.inputs.record_file import read_record_text
from powerplan.planning.pipeline import make_plan
from powerplan.sheets.writers.json import record_text

SLOW = held_over(
    12,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)


@pytest.mark.published(
    source="distances of straight lines to polygons, by another library's own shapes",
    standing="derived",
)
@SLOW
@given(row_rooms())
def test_every_cord_keeps_its_clearance_from_what_moves(spec):
    assume(any(spec.chair(kind).powered for row in spec.rows for kind in row.kinds))
    plan = make_plan(spec, NEC, "0" * 64)
    assert read_record_text(record_text(plan).encode()) == plan
    pinch = pinch_of(plan)
    keep_m = spec.cords.diameter_m / 2 + NEC.length_m("cord_clearance")
    for cord in plan.cords:
        assert LineString(cord.path_m).distance(pinch) >= keep_m - 5e-6, cord.id
    for zone in plan.zones:
        outline = Polygon(zone.outline_m)
        assert outline.is_valid
        assert not outline.interiors
    fed = {chair.id for chair in plan.chairs if chair.circuit is not None}
    still = {
        f"{row.id}{n}"
        for row in spec.rows
        for n, kind in enumerate(_kinds(row), start=1)
        if not spec.chair(kind).powered
    }
    assert not fed & still
    if plan.cords:
        assert fed | still == {chair.id for chair in plan.chairs}


@SLOW
@given(row_rooms())
def test_the_room_seen_in_a_mirror_needs_as_much(spec):
    assume(any(spec.chair(kind).powered for row in spec.rows for kind in row.kinds))
    wide_m = spec.room.width_m
    kinds = tuple(
        replace(
            kind,
            lead_from=(-kind.lead_from[0], kind.lead_from[1]),
            parts=tuple(
                replace(part, outlines=tuple(_flipped(o) for o in part.outlines))
                for part in kind.parts
            ),
        )
        for kind in spec.chairs
    )
    rows = tuple(
        replace(
            row,
            center_x_m=round(wide_m - row.center_x_m, 6),
            pieces=row.pieces[::-1],
            chair=_kinds(row)[-1],
            angle_rad=-row.angle_rad,
        )
        for row in spec.rows
    )
    outlets = tuple(
        replace(
            outlet,
            x_m=round(wide_m - outlet.x_m, 6),
            wall={"left": "right", "right": "left"}.get(outlet.wall or "", outlet.wall),
        )
        for outlet in spec.outlets
    )
    bare = replace(spec.floor, build="slab", joists_run=None, first_joist_m=None)
    one = make_plan(replace(spec, floor=bare), NEC, "0" * 64)
    other = make_plan(
        replace(spec, chairs=kinds, rows=rows, outlets=outlets, floor=bare), NEC, "0" * 64
    )
    assert [
        (s.step, s.works, s.new_circuits, s.boxes, s.extensions) for s in one.decision.steps
    ] == [(s.step, s.works, s.new_circuits, s.boxes, s.extensions) for s in other.decision.steps]


def _kinds(row):
    kinds = [piece.kind for piece in row.pieces if piece.what == "seat"]
    return kinds or [row.chair] * row.seats


def _flipped(outline):
    return tuple((-x, y) for x, y in outline[::-1])
