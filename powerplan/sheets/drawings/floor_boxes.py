"""The electrician's drawing: the room to scale, and every new outlet measured from its walls."""

from __future__ import annotations

from powerplan.model.geometry import Rect
from powerplan.model.lengths import length_text, micrometers, plural
from powerplan.model.plan import NOT_POSSIBLE, Box, Plan
from powerplan.model.spec import Wall
from powerplan.sheets.drawings.box_measures import draw_diagonal, draw_measures
from powerplan.sheets.drawings.chairs import draw_upright, name_chairs
from powerplan.sheets.drawings.home_runs import draw_home_run
from powerplan.sheets.drawings.outlets import draw_outlets
from powerplan.sheets.drawings.room import draw_floor, draw_wall_names, draw_walls
from powerplan.sheets.drawings.scales import choose_scale, scales
from powerplan.sheets.drawings.sketch import Sketch
from powerplan.sheets.drawings.symbols import (
    BOX_MM,
    OUTLET_MM,
    SECOND_MM,
    floor_box,
    outlet,
    second_mark,
)
from powerplan.sheets.local import local_of
from powerplan.sheets.off_walls import off_wall
from powerplan.sheets.page_names import DECISION
from powerplan.sheets.pages.print_rows import set_rows
from powerplan.sheets.scene import View
from powerplan.sheets.words import DO_NOT_CUT, FINE, FIRM, PROVISIONAL, from_wall, mark_word

_WARNINGS = {
    DO_NOT_CUT: f"DO NOT CUT before what {DECISION} lists is mended",
    PROVISIONAL: f"PROVISIONAL: DO NOT CUT before what {DECISION} asks is found out",
}
_SMALL = 50


def floor_box_view(plan: Plan, room_mm: tuple[float, float]) -> View:
    """Return the drawing of page 2 at the largest scale that fits, else at the smallest.

    Parameters
    ----------
    plan : Plan
        The plan.
    room_mm : tuple of float
        Width and height of paper for it. [mm]
    """
    room, units = plan.spec.room, plan.spec.project.units
    least = choose_scale(room.width_m, room.depth_m, room_mm, units)
    *larger, small = (scale for scale in scales(units) if scale >= least)
    words = (_title(plan), _description(plan))
    for scale in larger:
        view = _sketched(plan, scale).fitted(*words, room_mm)
        if view is not None:
            return view
    return _sketched(plan, small).view(*words)


def _sketched(plan: Plan, scale: int) -> Sketch:
    room = plan.spec.room
    reach = scale * 0.1
    window = Rect(
        left_m=-reach, right_m=room.width_m + reach, back_m=-reach, front_m=room.depth_m + reach
    )
    sketch = Sketch(scale, window, local_of(plan))
    draw_walls(sketch, plan)
    bands = draw_wall_names(sketch, plan)
    draw_floor(sketch, plan, framing=True)
    for row in set_rows(plan):
        draw_upright(sketch, row)
        name_chairs(sketch, row)
    draw_outlets(sketch, plan, mark_unused=plan.decision.verdict != NOT_POSSIBLE)
    for box in plan.boxes:
        _draw_box(sketch, box, plan)
    _center_line(sketch, plan)
    draw_measures(sketch, plan, bands)
    draw_diagonal(sketch, plan)
    for box in plan.boxes:
        draw_home_run(sketch, box, plan)
    return sketch


def _title(plan: Plan) -> str:
    if plan.decision.verdict == NOT_POSSIBLE:
        return "NOT POSSIBLE AS DRAWN: do not cut"
    words = {mark_word(box, plan) for box in plan.boxes}
    for word, warning in _WARNINGS.items():
        if word in words:
            return f"Floor boxes. {warning}"
    return "Floor boxes" if plan.boxes else "The room: nothing is cut"


def _description(plan: Plan) -> str:
    room, units = plan.spec.room, plan.spec.project.units
    start = "" if plan.decision.verdict != NOT_POSSIBLE else "Not possible as drawn: do not cut. "
    size = f"{length_text(room.width_m, units)} wide and {length_text(room.depth_m, units)} deep"
    return (
        f"{start}The room from above, {size}, screen at the top, with "
        f"{plural(len(plan.chairs), 'chair')}, {plural(len(plan.boxes), 'new outlet')} and "
        f"{plural(len(plan.spec.outlets), 'existing outlet')}. Every measure of a new outlet is "
        "also in the table of places."
    )


def _draw_box(sketch: Sketch, box: Box, plan: Plan) -> None:
    at = (box.x_m, box.y_m)
    lines: tuple[str, ...] = (box.id, f"circuit {box.circuit}")
    if sketch.scale > _SMALL:
        lines = lines[:1]  # the table says the rest
    if mark_word(box, plan) != FIRM:
        lines = (*lines, "do not cut")
    if box.kind != "floor box":
        outlet(sketch, at)
        sketch.label(box.id, lines, (at,), clear_mm=OUTLET_MM + 0.8)
        return
    floor_box(sketch, at)
    _drift(sketch, box)
    sketch.label(box.id, lines, (at,), clear_mm=BOX_MM + 0.4)
    if box.second_mark_m is not None:
        second_mark(sketch, box.second_mark_m)
        lines = (f"or {box.id}:", *_second_words(box, plan))
        sketch.label(f"or {box.id}", lines, (box.second_mark_m,), clear_mm=SECOND_MM + 0.4)


def _second_words(box: Box, plan: Plan) -> tuple[str, ...]:
    """Where a second mark is, in what it differs from the first; the table has both measures."""
    assert box.second_mark_m is not None
    units, room = plan.spec.project.units, plan.spec.room
    both = zip((box.x_m, box.y_m), box.second_mark_m, (Wall.LEFT, Wall.BACK), strict=True)
    return tuple(
        f"{off_wall(room, wall, second, units, step=FINE)} {from_wall(room, wall)}"
        for first, second, wall in both
        if micrometers(first) != micrometers(second)
    )


def _drift(sketch: Sketch, box: Box) -> None:
    drift = box.drift
    left, right = box.x_m - drift.left_m, box.x_m + drift.right_m
    back, front = box.y_m - drift.back_m, box.y_m + drift.screen_m
    if left < right and back < front:
        rect = Rect(left_m=left, right_m=right, back_m=back, front_m=front)
        sketch.line(rect.outline, "drift", closed=True)


def _center_line(sketch: Sketch, plan: Plan) -> None:
    room = plan.spec.room
    x_m = room.width_m / 2
    sketch.line(((x_m, 0.0), (x_m, room.depth_m)), "center")
    anchors = [(x_m, room.depth_m * part) for part in (0.75, 0.85, 0.65, 0.93, 0.1)]
    sketch.label("center line", ("center line",), anchors, clear_mm=0.3, height_mm=1.8)
