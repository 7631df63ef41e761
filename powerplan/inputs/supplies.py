"""Outlets, new work and cords as the spec has them."""

from __future__ import annotations

from fractions import Fraction

from powerplan.inputs import written as w
from powerplan.inputs.inside import near
from powerplan.inputs.places import ACROSS, AHEAD, start_m
from powerplan.inputs.ratings import new_ratings
from powerplan.inputs.reading import (
    Reading,
    grid_m,
    grid_or_unknown_m,
    limit_a,
)
from powerplan.inputs.saying import meant, named
from powerplan.inputs.tables import PlanTables, Table
from powerplan.inputs.wall_places import point_on_wall, wall_of
from powerplan.model.geometry import Point
from powerplan.model.lengths import INCH_M, amps_text
from powerplan.model.spec import Cords, NewWork, Outlet, Size


def outlets_of(reading: Reading, tables: PlanTables) -> tuple[Outlet, ...]:
    """Return every existing outlet that could be read. [m, A]"""
    circuits = [table.name for table in tables.circuits]
    outlets = (_outlet(reading, table, circuits) for table in tables.outlets)
    return tuple(outlet for outlet in outlets if outlet is not None)


def _outlet(reading: Reading, table: Table[w.Outlet], circuits: list[str]) -> Outlet | None:
    it = table.it
    if table.has("circuit") and it.circuit not in circuits:
        hint = meant(it.circuit, circuits) or "; write [circuit.NAME] for it"
        words = f"circuit {named(it.circuit)} is not written{hint}"
        reading.faults.add(table.at("circuit"), words)
    if table.has("sockets", "free") and it.free > it.sockets:
        words = f"{it.free} free is more than the {it.sockets} there are"
        reading.faults.add(table.at("free"), words)
    place = _wall_place(reading, table) if it.wall else _floor_place(reading, table)
    rating = it.rating
    if rating is None and table.sound("rating"):
        rating = reading.rules.exact("usual_socket")
        reading.assume(f"outlet {table.name}", f"its sockets are rated {amps_text(rating)}")
    if table.spoiled or place is None or rating is None:
        return None
    return Outlet(
        id=table.name,
        circuit=it.circuit,
        wall=place[0],
        x_m=place[1][0],
        y_m=place[1][1],
        height_m=grid_m(it.height or Fraction(0)),
        sockets=it.sockets,
        free=it.free,
        rating_a=limit_a(rating),
        switched=it.switched,
        ground=it.ground,
        gfci=it.gfci,
    )


def _wall_place(reading: Reading, table: Table[w.Outlet]) -> tuple[str, Point] | None:
    if table.it.height is None and table.sound("height"):
        words = 'height is missing: floor to the middle of the outlet, such as "16 in"'
        reading.faults.add(table.path, words)
    wall = wall_of(reading, table)
    place = None if wall is None else point_on_wall(reading, table, wall)
    return None if wall is None or place is None else (wall.id, place)


def _floor_place(reading: Reading, table: Table[w.Outlet]) -> tuple[None, Point] | None:
    if not table.sound("wall"):
        return None
    if table.it.height:
        words = "an outlet in the floor has no height; write wall for one on a wall"
        reading.faults.add(table.at("height"), words)
    if table.it.from_corner is not None:
        words = "this places an outlet on a wall; write wall too"
        reading.faults.add(table.at("from_corner"), words)
    why = ": an outlet in the floor has both; for one on a wall, write wall"
    across = start_m(reading, table, ACROSS, Fraction(0), why)
    ahead = start_m(reading, table, AHEAD, Fraction(0), why)
    if across is None or ahead is None or reading.frame is None:
        return None
    x_m, y_m = map(grid_m, reading.frame.inside((across, ahead)))
    if not near(reading.frame.room.outline, (x_m, y_m)):
        reading.faults.add(table.path, "it lies outside the room's walls")
        return None
    return None, (x_m, y_m)


def new_work_of(reading: Reading, tables: PlanTables) -> NewWork:
    """Return what new work is offered, with the rule set's usual values filled in. [A, m]"""
    table, rules = tables.new_work, reading.rules
    it = table.it
    boxes = True if it.floor_boxes is None else it.floor_boxes
    offered = boxes or bool(it.wall_outlets)
    ratings = new_ratings(reading, table)
    breaker_a, socket_a = ratings[0].breaker_a, ratings[0].socket_rating_a
    plug = rules.exact("plug_height") if it.plug_height is None else it.plug_height
    margin = rules.exact("framing_margin") if it.framing_margin is None else it.framing_margin
    per_box = 2 if it.sockets_per_box is None else it.sockets_per_box
    filled = (
        (it.floor_boxes is None, "floor boxes may be cut"),
        (offered and it.breaker is None, f"a new circuit has a breaker of {amps_text(breaker_a)}"),
        (offered and it.sockets_per_box is None, f"a new outlet takes {per_box} plugs"),
        (offered and it.socket_rating is None, f"its sockets are rated {amps_text(socket_a)}"),
        (boxes and it.plug_height is None, f"a plug stands {reading.text(plug)} above the lid"),
    )
    for left_out, words in filled:
        if left_out:
            reading.assume("new work", words)
    _check_lid(reading, table)
    return NewWork(
        floor_boxes=boxes,
        wall_outlets=bool(it.wall_outlets),
        circuits=it.circuits,
        breaker_a=breaker_a,
        wire=ratings[0].wire,
        home_run_m=grid_or_unknown_m(it.home_run),
        sockets_per_box=per_box,
        socket_rating_a=socket_a,
        cut_out=_size(it.cut_out),
        lid=_size(it.lid),
        plug_height_m=grid_m(plug),
        framing_margin_m=grid_m(margin),
        ratings=ratings if len(ratings) > 1 else (),
    )


def _size(size: w.BoxSize | None) -> Size | None:
    if size is None:
        return None
    return Size(width_m=grid_m(size.width), depth_m=grid_m(size.depth))


def _check_lid(reading: Reading, table: Table[w.NewWork]) -> None:
    cut_out, lid = table.it.cut_out, table.it.lid
    if cut_out is None or lid is None:
        return
    for key, whole, hole in (
        ("width", lid.width, cut_out.width),
        ("depth", lid.depth, cut_out.depth),
    ):
        if whole < hole:
            words = f"{reading.text(whole)} does not cover a cut-out of {reading.text(hole)}"
            reading.faults.add((*table.at("lid"), key), words)


def cords_of(reading: Reading, tables: PlanTables) -> Cords:
    """Return the cords that may be bought, with the usual values filled in. [m]"""
    table = tables.cords
    it = table.it
    extensions = it.extensions or "no"
    lengths_m = reading.rules.sold_m
    if it.lengths is not None:
        lengths_m = tuple(sorted({grid_m(length_m) for length_m in it.lengths}))
    elif extensions != "no":
        reading.assume("cords", "extension cords come in the lengths commonly sold")
    diameter = it.diameter
    if diameter is None:
        diameter = reading.rules.exact("cord_diameter")
        reading.assume("cords", f"a cord is {_thickness(diameter, reading.units)} thick")
    names = [unit.name for unit in tables.outlet_units]
    if it.outlet_unit is not None and it.outlet_unit not in names:
        hint = meant(it.outlet_unit, names) if names else "; write [outlet_unit.NAME] for it"
        words = f"outlet unit {named(it.outlet_unit)} is not written{hint}"
        reading.faults.add(table.at("outlet_unit"), words)
    return Cords(
        lengths_m=lengths_m,
        wire=reading.wire(table.at("wire"), it.wire),
        diameter_m=grid_m(diameter),
        extensions=extensions,
        open_floor_m=grid_m(it.open_floor or Fraction(0)),
        outlet_unit=it.outlet_unit,
    )


def _thickness(diameter_m: Fraction, units: str) -> str:
    """A thickness finer than a tape shows, in the units of the plan file. [m]"""
    if units in ("ft-in", "in"):
        return f"{float(diameter_m / INCH_M):.2f} in"
    return f"{float(diameter_m) * 1000:.1f} mm"
