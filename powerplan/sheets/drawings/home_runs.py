"""How new outlets are wired, as far as a drawing shows it: from each other, or to the panel."""

from __future__ import annotations

from powerplan.model.geometry import Point
from powerplan.model.plan import Box, Plan
from powerplan.sheets.drawings.sketch import Sketch
from powerplan.sheets.drawings.symbols import BOX_MM, OUTLET_MM, arrow

_ASIDE_MM = 1.2
_ARROW_MM = 7.0
_WAYS = ((1.0, 1.0), (-1.0, 1.0), (1.0, -1.0), (-1.0, -1.0))


def draw_home_run(sketch: Sketch, box: Box, plan: Plan) -> None:
    """Draw the way from what a box is wired from, square as it is estimated, or an arrow.

    The way runs a little beside the middles of the boxes, since measures lie on those; it is never
    longer than the estimate.

    Parameters
    ----------
    sketch : Sketch
        The drawing.
    box : Box
        The new outlet.
    plan : Plan
        For what it is wired from.
    """
    source = place_of(box.wired_from, plan)
    if source is None:
        _arrow(sketch, box)
        return
    aside = sketch.meters(_ASIDE_MM)
    start, end = ((x + aside, y + aside) for x, y in (source, (box.x_m, box.y_m)))
    corners = ((end[0], start[1]), (start[0], end[1]))
    # the corner that is away from walls: a way along a wall would be taken for the wall
    room = plan.spec.room
    corner = max(corners, key=lambda at: min(at[0], room.width_m - at[0], at[1]))
    way = [start, corner, end]
    half = sketch.meters(BOX_MM)
    near = half if _is_box(box.wired_from, plan) else sketch.meters(OUTLET_MM)
    line = _shortened(_shortened(way, near - aside)[::-1], half - aside)[::-1]
    if len(line) > 1:
        sketch.line(line, "home_run", cut=False)


def place_of(name: str, plan: Plan) -> Point | None:
    """Return where a new or an existing outlet is, None for what is not on the drawing. [m]"""
    for box in plan.boxes:
        if box.id == name:
            return (box.x_m, box.y_m)
    for there in plan.spec.outlets:
        if there.id == name:
            return (there.x_m, there.y_m)
    return None


def _is_box(name: str, plan: Plan) -> bool:
    return any(box.id == name for box in plan.boxes)


def _shortened(way: list[Point], by: float) -> list[Point]:
    """A square way without its first stretch, which lies in a symbol; nothing if that is all."""
    while len(way) > 1:
        (x0, y0), (x1, y1) = way[0], way[1]
        length = abs(x1 - x0) + abs(y1 - y0)
        if length > by:
            part = by / length
            return [(x0 + (x1 - x0) * part, y0 + (y1 - y0) * part), *way[1:]]
        by -= length
        way = way[1:]
    return []


def _arrow(sketch: Sketch, box: Box) -> None:
    """An arrow away from the box: it names where the wire goes on to, and shows no direction."""
    start = (box.x_m, box.y_m)
    half, reach = sketch.meters(BOX_MM + 0.2), sketch.meters(_ARROW_MM)
    across, up = next(
        (
            way
            for way in _WAYS
            if sketch.free(sketch.about(_toward(start, way, half + reach / 2), 2.0))
        ),
        _WAYS[0],
    )
    end = _toward(start, (across, up), half + reach / 2)
    arrow(sketch, _toward(start, (across, up), half), end, "home_run")
    words = "to panel" if box.wired_from == "panel" else f"to {box.wired_from}"
    sketch.label(f"panel {box.id}", (words,), (end,), clear_mm=0.5, height_mm=1.8)


def _toward(start: Point, way: Point, reach: float) -> Point:
    return (start[0] + way[0] * reach, start[1] + way[1] * reach)
