"""What lies on the floor of a row: pinch zones, feeds, cords, joints and spare."""

from __future__ import annotations

from powerplan.model.geometry import Point, Rect
from powerplan.model.lengths import micrometres
from powerplan.model.plan import Cord, Plan
from powerplan.sheets.drawings.outlets import draw_outlets
from powerplan.sheets.drawings.sketch import Sketch
from powerplan.sheets.drawings.symbols import (
    BOX_MM,
    OUTLET_MM,
    dot,
    floor_box,
    joint,
    outlet,
    spare,
)
from powerplan.sheets.drawings.tags import tag_anchors
from powerplan.sheets.pages.print_rows import SetRow

_LAYERS = {"own": "cord", "link": "link", "extension": "extension"}


def draw_pinch(sketch: Sketch, plan: Plan, row: SetRow) -> None:
    """Hatch the pinch zones of a row; what is clear stays white."""
    names = {chair.id for chair in row.chairs}
    for zone in plan.zones:
        if zone.kind == "pinch" and zone.chair in names:
            xs, ys = zip(*zone.outline_m, strict=True)
            rect = Rect(left_m=min(xs), right_m=max(xs), back_m=min(ys), front_m=max(ys))
            sketch.hatch(rect, "pinch")


def draw_feeds(sketch: Sketch, plan: Plan, row: SetRow, cords: tuple[Cord, ...]) -> None:
    """Draw every outlet that is in sight, and the new ones of the row."""
    names = {chair.id for chair in row.chairs} | {cord.from_ for cord in cords}
    for box in plan.boxes:
        at = (box.x_m, box.y_m)
        if box.under not in names and box.id not in names:
            continue
        if box.kind == "floor box":
            floor_box(sketch, at)
            sketch.label(box.id, (box.id,), (at,), clear_mm=BOX_MM + 0.4)
        else:
            outlet(sketch, at)
            sketch.label(box.id, (box.id,), (at,), clear_mm=OUTLET_MM + 0.8)
    draw_outlets(sketch, plan)


def draw_cords(sketch: Sketch, cords: tuple[Cord, ...]) -> None:
    """Draw cords with their tags, their joints, and where their spare is parked."""
    for cord in cords:
        sketch.line(cord.path_m, _LAYERS.get(cord.kind, "cord"), cut=False)
        if cord.kind == "extension":
            joint(sketch, cord.path_m[-1])
            sketch.label(f"joint {cord.to}", ("joint",), cord.path_m[-1:], clear_mm=1.0)
        else:
            dot(sketch, cord.path_m[-1], "cord")
    for cord in cords:
        others = [other.path_m for other in cords if other is not cord]
        anchors = tag_anchors(cord.path_m, others, 1000 / sketch.scale)
        sketch.label(f"cord {cord.id}", (cord.id,), anchors, clear_mm=0.4, on=True)
    for at, names in _parked(cords).items():
        spare(sketch, at)
        sketch.label(f"spare {names[0]}", ("spare of", *names), (at,), clear_mm=1.6, height_mm=1.8)


def _parked(cords: tuple[Cord, ...]) -> dict[Point, list[str]]:
    """Each place where spare is parked, with the cords it is of."""
    places: dict[tuple[int, int], tuple[Point, list[str]]] = {}
    for cord in cords:
        if cord.park_m is not None:
            key = (micrometres(cord.park_m[0]), micrometres(cord.park_m[1]))
            places.setdefault(key, (cord.park_m, []))[1].append(cord.id)
    return dict(places.values())
