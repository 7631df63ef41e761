"""A small plan of the whole room that says which row is which."""

from __future__ import annotations

from powerplan.model.geometry import Rect
from powerplan.model.lengths import plural
from powerplan.model.plan import Plan
from powerplan.sheets.drawings.chairs import draw_upright
from powerplan.sheets.drawings.outlets import draw_outlets
from powerplan.sheets.drawings.room import draw_floor, draw_wall_names, draw_walls
from powerplan.sheets.drawings.scales import scales
from powerplan.sheets.drawings.sketch import Sketch
from powerplan.sheets.drawings.symbols import BOX_MM, floor_box, outlet
from powerplan.sheets.local import local_of
from powerplan.sheets.pages.print_rows import SetRow
from powerplan.sheets.patches import around
from powerplan.sheets.scene import View

_PART = 0.55


def key_view(plan: Plan, rows: tuple[SetRow, ...], room_mm: tuple[float, float]) -> View:
    """Return the key plan: rows and new outlets by name, no measures.

    Parameters
    ----------
    plan : Plan
        The plan.
    rows : tuple of SetRow
        Its rows.
    room_mm : tuple of float
        Width and height of a sheet's room; the key plan takes about half. [mm]
    """
    larger = scales(plan.spec.project.units)[1:]
    described = f"A key plan of the room: {plural(len(rows), 'row')}, from the back wall forward."
    words = ("Key plan of the rows", described)
    for scale in larger:
        view = _sketched(plan, rows, scale).fitted(*words, (room_mm[0], room_mm[1] * _PART))
        if view is not None:
            return view
    return _sketched(plan, rows, 2 * larger[-1]).view(*words)


def _sketched(plan: Plan, rows: tuple[SetRow, ...], scale: int) -> Sketch:
    room = plan.spec.room
    reach = scale * 0.1
    sketch = Sketch(
        scale,
        Rect(
            left_m=-reach, right_m=room.width_m + reach, back_m=-reach, front_m=room.depth_m + reach
        ),
        local_of(plan),
    )
    draw_walls(sketch, plan)
    draw_wall_names(sketch, plan)
    draw_floor(sketch, plan, framing=False, apart=tuple(row.swept for row in rows))
    for row in rows:
        draw_upright(sketch, row)
        _name(sketch, row)
    for box in plan.boxes:
        draw = floor_box if box.kind == "floor box" else outlet
        draw(sketch, (box.x_m, box.y_m))
        at, clear_mm = ((box.x_m, box.y_m),), BOX_MM + 0.4
        sketch.label(box.id, (box.id,), at, clear_mm=clear_mm, height_mm=1.8)
    draw_outlets(sketch, plan, for_plugs=True)
    return sketch


def _name(sketch: Sketch, row: SetRow) -> None:
    """The name of a row beside it, at either end or ahead of it, never on its chairs."""
    for one in row.stands:
        sketch.keep_free(around(map(sketch.paper, one.corners(one.rear_m, one.front_m))))
    first, last = row.stands[0], row.stands[-1]
    ends = [
        one.at(side * one.width_m / 2, (one.rear_m + one.front_m) / 2)
        for one, side in ((last, 1.0), (first, -1.0))
    ]
    half = row.stands[len(row.stands) // 2]
    words = (f"row {row.id}: {plural(len(row.chairs), 'chair')}",)
    anchors = (*ends, half.at(0.0, half.front_m))
    sketch.label(f"row {row.id}", words, anchors, clear_mm=0.8, height_mm=2.5)
