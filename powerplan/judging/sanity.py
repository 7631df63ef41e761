"""What must hold of a record before anything in it can be recomputed at all."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import fields, is_dataclass
from fractions import Fraction
from typing import Any

from powerplan.judging.sanity_loose import loose_faults
from powerplan.judging.sanity_shapes import shape_faults
from powerplan.model.geometry import Rect
from powerplan.model.lengths import MICROMETER_M
from powerplan.model.plan import Plan
from powerplan.model.spec import ChairKind, Framing, PlanSpec, Row

_BEYOND_ALL_SENSE = 10**6
_MOST_MISSING = 200


def faults(plan: Plan) -> tuple[str, ...]:
    """Return why a record cannot be judged: one sentence a fault, none where it can be."""
    wild = tuple(_wild_numbers(plan, "record"))
    if wild:
        return wild
    return _spec_faults(plan) or tuple(shape_faults(plan.spec))


def _spec_faults(plan: Plan) -> tuple[str, ...]:
    spec = plan.spec
    return (
        *_doubled(spec),
        *_dangling(spec),
        *_rooms(spec),
        *(words for kind in spec.chairs for words in _kinds(kind)),
        *(words for row in spec.rows for words in _rows(row)),
        *_framings(spec),
        *_supplies(spec),
        *loose_faults(spec),
        *_too_few_chairs(plan),
    )


def _wild_numbers(value: Any, where: str) -> Iterator[str]:
    """Say which numbers are larger than anything in a room could be."""
    if is_dataclass(value) and not isinstance(value, type):
        for field in fields(value):
            yield from _wild_numbers(getattr(value, field.name), f"{where}.{field.name}")
    elif isinstance(value, tuple):
        for n, item in enumerate(value):
            yield from _wild_numbers(item, f"{where}[{n}]")
    elif isinstance(value, int | float | Fraction) and _is_wild(value):
        yield f"{where} is larger than anything in a room"


def _is_wild(number: float | Fraction) -> bool:
    return not -_BEYOND_ALL_SENSE <= number <= _BEYOND_ALL_SENSE


def _doubled(spec: PlanSpec) -> Iterator[str]:
    named: dict[str, Iterable[Any]] = {
        "door": spec.doors,
        "riser": spec.risers,
        "chair": spec.chairs,
        "row": spec.rows,
        "circuit": spec.circuits,
        "outlet": spec.outlets,
        "wall": spec.room.walls,
        "table": spec.tables,
        "reading": spec.readings,
    }
    for what, things in named.items():
        names = [thing.id for thing in things]
        for name in sorted({name for name in names if names.count(name) > 1}):
            yield f"spec: {what} {name!r} is there twice"
    chairs = [f"{row.id}{n}" for row in spec.rows for n in range(1, min(row.seats, 10**4) + 1)]
    if len(set(chairs)) < len(chairs):
        yield "spec: two chairs have the same name"


def _dangling(spec: PlanSpec) -> Iterator[str]:
    kinds = {kind.id for kind in spec.chairs}
    circuits = {circuit.id for circuit in spec.circuits}
    for row in spec.rows:
        if row.chair not in kinds:
            yield f"spec: row {row.id!r} has chair {row.chair!r}, which is not there"
    for outlet in spec.outlets:
        if outlet.circuit not in circuits:
            yield f"spec: outlet {outlet.id!r} is on circuit {outlet.circuit!r}, which is not there"


def _rooms(spec: PlanSpec) -> Iterator[str]:
    if min(spec.room.width_m, spec.room.depth_m) < MICROMETER_M:
        yield "spec: the room has no floor"
    areas = [(area.id, area.rect) for area in (*spec.obstacles, *spec.walkways, *spec.no_cut)]
    areas += [(riser.id, riser.rect) for riser in spec.risers]
    for name, rect in areas:
        if not _is_area(rect):
            yield f"spec: {name!r} has no floor"
    for riser in spec.risers:
        if riser.height_m < 0.0:
            yield f"spec: riser {riser.id!r} is sunk"


def _is_area(rect: Rect) -> bool:
    return rect.left_m < rect.right_m and rect.back_m < rect.front_m


def _kinds(kind: ChairKind) -> Iterator[str]:
    where = f"spec: chair {kind.id!r}"
    if kind.seat_width_m < MICROMETER_M or kind.arm_width_m < 0.0:
        yield f"{where} has no width"
    if not 0.0 <= kind.rear_of_base_m < kind.depth_m <= kind.reclined_reach_m:
        yield f"{where}: rear of base, depth and reach are not in that order"
    if kind.back_travel_m < 0.0 or kind.lead_m < 0.0:
        yield f"{where} has a negative travel or lead"
    if not 0 <= kind.continuous_a <= kind.input_a or (kind.powered and kind.input_a == 0):
        yield f"{where}: the continuous part is not within an input above 0"
    zone = kind.clear
    if zone is not None and not (zone.from_m < zone.to_m and zone.width_m > 0.0):
        yield f"{where} has a clear zone without floor"
    if kind.chain is not None and kind.chain.current_a < 0:
        yield f"{where} has a chain of negative current"


def _rows(row: Row) -> Iterator[str]:
    if row.seats < 1:
        yield f"spec: row {row.id!r} has no seats"
    lefts = [left for left, _ in row.no_arm_between]
    neighbors = all(
        1 <= left < row.seats and right == left + 1 for left, right in row.no_arm_between
    )
    if not neighbors or len(set(lefts)) < len(lefts):
        yield f"spec: row {row.id!r}: no_arm_between does not name pairs of neighbors once each"


def _framings(spec: PlanSpec) -> Iterator[str]:
    for name, framing in (("floor", spec.floor), *((r.id, r.framing) for r in spec.risers)):
        if not _is_framing(framing):
            yield f"spec: the framing of {name!r} cannot be"


def _is_framing(framing: Framing) -> bool:
    known = framing.build in (None, "joists", "slab")
    known = known and framing.joists_run in (None, "back to screen", "side to side")
    spacing_m, width_m = framing.spacing_m, framing.joist_width_m
    known = known and (spacing_m is None or spacing_m >= MICROMETER_M)
    return known and (width_m is None or width_m >= 0.0)


def _supplies(spec: PlanSpec) -> Iterator[str]:
    for circuit in spec.circuits:
        if circuit.breaker_a is not None and circuit.breaker_a <= 0:
            yield f"spec: circuit {circuit.id!r} has a breaker of nothing"
        if any(load.current_a < 0 for load in circuit.already_on_it or ()):
            yield f"spec: circuit {circuit.id!r} carries a negative load"
        if circuit.home_run_m is not None and circuit.home_run_m < 0.0:
            yield f"spec: circuit {circuit.id!r} has a negative home run"
    new, cords = spec.new_work, spec.cords
    if new.breaker_a <= 0 or new.socket_rating_a <= 0:
        yield "spec: new work has a breaker or socket of nothing"
    if any(one.breaker_a <= 0 or one.socket_rating_a <= 0 for one in new.ratings):
        yield "spec: new work has a rating of nothing"
    if new.home_run_m is not None and new.home_run_m < 0.0:
        yield "spec: new work has a negative home run"
    sizes = [size for size in (new.cut_out, new.lid) if size is not None]
    if any(min(size.width_m, size.depth_m) <= 0.0 for size in sizes):
        yield "spec: new work has a lid or cut-out of nothing"
    if min(new.framing_margin_m, new.plug_height_m, cords.diameter_m) < 0.0:
        yield "spec: a margin, a plug or a cord is thinner than nothing"


def _too_few_chairs(plan: Plan) -> Iterator[str]:
    seats = sum(max(row.seats, 0) for row in plan.spec.rows)
    if seats > len(plan.chairs) + _MOST_MISSING:
        yield f"the spec seats {seats} and the record places {len(plan.chairs)}"
