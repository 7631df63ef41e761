"""A small plan of the whole room that says which row is which."""

from __future__ import annotations

from powerplan.model.geometry import Rect
from powerplan.model.lengths import plural
from powerplan.model.plan import Plan
from powerplan.sheets.drawings.chairs import draw_upright
from powerplan.sheets.drawings.room import draw_wall_names, draw_walls
from powerplan.sheets.drawings.scales import scales
from powerplan.sheets.drawings.sketch import Sketch
from powerplan.sheets.drawings.symbols import floor_box, outlet
from powerplan.sheets.local import local_of
from powerplan.sheets.pages.print_rows import SetRow
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
    for row in rows:
        draw_upright(sketch, row)
        half = row.stands[len(row.stands) // 2]
        middle = half.at(0.0, (half.rear_m + half.front_m) / 2)
        if row.plain:
            middle = ((row.left_m + row.right_m) / 2, (row.line_m + row.front_m) / 2)
        words = f"row {row.id}: {plural(len(row.chairs), 'chair')}"
        sketch.label(f"row {row.id}", (words,), (middle,), on=True, height_mm=2.5)
    for box in plan.boxes:
        draw = floor_box if box.kind == "floor box" else outlet
        draw(sketch, (box.x_m, box.y_m))
    for there in plan.spec.outlets:
        outlet(sketch, (there.x_m, there.y_m))
    return sketch
