"""Floor boxes at a large scale: the hole, the lid, and how far the middle may move."""

from __future__ import annotations

from dataclasses import replace

from powerplan.model.geometry import Point, Rect
from powerplan.model.lengths import at_most_text, joined
from powerplan.model.plan import Box, Plan
from powerplan.model.spec import Size
from powerplan.sheets.beside import Beside, framing_under, joists_beside
from powerplan.sheets.drawings.framing import draw_joists
from powerplan.sheets.drawings.measures import Datum, Mark, measure
from powerplan.sheets.drawings.sketch import Sketch
from powerplan.sheets.drawings.symbols import DRIFT_DEG, DRIFT_MM
from powerplan.sheets.fonts import text_width_mm
from powerplan.sheets.local import local_of
from powerplan.sheets.lower import DESCENT
from powerplan.sheets.patches import around
from powerplan.sheets.scene import Arc, Dimension, Hatch, Item, Line, Text, View
from powerplan.sheets.words import DO_NOT_CUT, PROVISIONAL, fine_text, mark_word

FEET_SCALE, METER_SCALE = 8, 10
_AROUND_M = 0.05
_ALONE_M = 0.2
_LINE_MM, _CROSS_MM = 4.0, 3.0
_TITLE_MM, _TITLE_STEP_MM, _NAMES_MM = 2.2, 4.2, 58.0
_BETWEEN_MM = 6.0
_SAME = 6
_JOIST_WITHIN_M = 0.65
_WARNINGS = {DO_NOT_CUT: DO_NOT_CUT, PROVISIONAL: f"{PROVISIONAL}: {DO_NOT_CUT}"}


def box_detail_views(plan: Plan, room_mm: tuple[float, float]) -> tuple[View, ...]:
    """Return the floor boxes at a large scale, boxes that are alike drawn once, packed in views.

    Parameters
    ----------
    plan : Plan
        The plan.
    room_mm : tuple of float
        Width and height of paper for each view. [mm]
    """
    scale = FEET_SCALE if plan.spec.project.units in ("ft-in", "in") else METER_SCALE
    alike: dict[tuple[str, tuple[Item, ...]], tuple[View, list[Box]]] = {}
    for box in plan.boxes:
        if box.kind == "floor box":
            cell = _cell(plan, box, scale)
            same = tuple(_moved(item, (-box.x_m, -box.y_m)) for item in cell.items)
            alike.setdefault((mark_word(box, plan), same), (cell, []))[1].append(box)
    cells = [_titled(cell, boxes, plan) for cell, boxes in alike.values()]
    return _packed(cells, room_mm)


def _cell(plan: Plan, box: Box, scale: int) -> View:
    """One box in the clear floor of its chair, with what lies under that floor."""
    clear = next(
        (z.outline_m for z in plan.zones if z.chair == box.under and z.kind == "clear"), ()
    )
    beside = joists_beside(plan, box)
    sketch = Sketch(scale, _window(box, clear, beside), local_of(plan))
    _under(sketch, plan, box)
    if clear:
        sketch.line(clear, "clear", closed=True)
    at = (box.x_m, box.y_m)
    for size, layer in ((plan.spec.new_work.lid, "lid"), (plan.spec.new_work.cut_out, "cut_out")):
        if size is not None:
            sketch.line(_around(at, size).outline, layer, closed=True, cut=False)
    _cross(sketch, at, "mark")
    if box.second_mark_m is not None:
        _second(sketch, plan, box, box.second_mark_m)
    _drift(sketch, plan, box)
    if beside is not None:
        _joists(sketch, plan, box, beside)
    return sketch.view(box.id, "")


def _window(box: Box, clear: tuple[Point, ...], beside: Beside | None) -> Rect:
    xs = [x for x, _ in clear] or [box.x_m - _ALONE_M, box.x_m + _ALONE_M]
    ys = [y for _, y in clear] or [box.y_m - _ALONE_M, box.y_m + _ALONE_M]
    if box.second_mark_m is not None:
        xs, ys = [*xs, box.second_mark_m[0]], [*ys, box.second_mark_m[1]]
    if beside is not None:
        along = xs if beside.across else ys
        along += _near(box, beside)
    return Rect(
        left_m=min(xs) - _AROUND_M,
        right_m=max(xs) + _AROUND_M,
        back_m=min(ys) - _AROUND_M,
        front_m=max(ys) + _AROUND_M,
    )


def _near(box: Box, beside: Beside) -> list[float]:
    """The middles of the joists beside a box that are near enough to be drawn with it. [m]"""
    at = box.x_m if beside.across else box.y_m
    both = (beside.before_m, beside.after_m)
    return [one for one in both if one is not None and abs(one - at) <= _JOIST_WITHIN_M]


def _joists(sketch: Sketch, plan: Plan, box: Box, beside: Beside) -> None:
    """From the mark to the middle of the joist on either side."""
    units, step = plan.spec.project.units, sketch.meters(_LINE_MM)
    at, foot = (box.x_m, box.y_m) if beside.across else (box.y_m, box.x_m)
    window = sketch.window
    line = (window.front_m if beside.across else window.right_m) + step
    edge = line - step
    marks = [
        Mark(middle, edge, fine_text(abs(middle - at), units)) for middle in _near(box, beside)
    ]
    along = "x" if beside.across else "y"
    if marks:
        line += 0.0 if beside.across else step
        measure(sketch, Datum(along, at, foot, line, 1.0), marks)


def _under(sketch: Sketch, plan: Plan, box: Box) -> None:
    """Joists under the floor or the deck, and what is never cut."""
    framing, rect = framing_under(plan, box)
    walls = plan.spec.room.walls if box.deck is None else ()
    draw_joists(sketch, framing, rect, outline=plan.spec.room.outline if walls else ())
    for area in plan.spec.no_cut:
        sketch.line(area.rect.outline, "no_cut", closed=True)
        sketch.hatch(area.rect, "no_cut", spacing_mm=2.2, crossed=True)


def _around(at: Point, size: Size) -> Rect:
    across, deep = size.width_m / 2, size.depth_m / 2
    return Rect(
        left_m=at[0] - across, right_m=at[0] + across, back_m=at[1] - deep, front_m=at[1] + deep
    )


def _cross(sketch: Sketch, at: Point, layer: str) -> None:
    x, y = at
    half = sketch.meters(_CROSS_MM)
    sketch.line(((x - half, y), (x + half, y)), layer, cut=False)
    sketch.line(((x, y - half), (x, y + half)), layer, cut=False)


def _second(sketch: Sketch, plan: Plan, box: Box, at: Point) -> None:
    """The other of two marks, its sign turned, with its hole, and measured from the first: above
    and at the right, where nothing else is measured while nobody knows the joists."""
    (x, y), units = at, plan.spec.project.units
    half = sketch.meters(_CROSS_MM) / 2
    for side in (-half, half):
        sketch.line(((x - half, y - side), (x + half, y + side)), "second_mark", cut=False)
    size = plan.spec.new_work.cut_out
    if size is not None:
        hole = _around(at, size).outline
        sketch.line(hole, "second_mark", closed=True, cut=False)
        sketch.keep_free(around(map(sketch.paper, hole)))
    window, step = sketch.window, sketch.meters(_LINE_MM)
    across = Mark(x, y, fine_text(abs(x - box.x_m), units))
    measure(sketch, Datum("x", box.x_m, box.y_m, window.front_m + step, 1.0), [across])
    ahead = Mark(y, x, fine_text(abs(y - box.y_m), units))
    measure(sketch, Datum("y", box.y_m, box.x_m, window.right_m + 2 * step, 1.0), [ahead])
    lines = ("second mark:", "not to be moved")
    sketch.label("second", lines, (at,), clear_mm=_CROSS_MM + 0.5)


def _drift(sketch: Sketch, plan: Plan, box: Box) -> None:
    """The drift, measured from the mark on all four sides, and rounded down as in the table."""
    units, drift = plan.spec.project.units, box.drift
    left, right = box.x_m - drift.left_m, box.x_m + drift.right_m
    back, front = box.y_m - drift.back_m, box.y_m + drift.screen_m
    if left < right and back < front:
        rect = Rect(left_m=left, right_m=right, back_m=back, front_m=front)
        sketch.line(rect.outline, "drift", closed=True, cut=False)
        # by its outline alone it could not be told from a lid or cut-out whose edge it lies on
        sketch.hatch(rect, "drift", angle_deg=DRIFT_DEG, spacing_mm=DRIFT_MM)
    step = sketch.meters(_LINE_MM)
    low, aside = sketch.window.back_m - step, sketch.window.left_m - step
    sides = ((left, drift.left_m), (right, drift.right_m))
    across = [Mark(at, back, at_most_text(far, units)) for at, far in sides]
    measure(sketch, Datum("x", box.x_m, box.y_m, low, -1.0), across)
    ends = ((back, drift.back_m), (front, drift.screen_m))
    deep = [Mark(at, left, at_most_text(far, units)) for at, far in ends]
    measure(sketch, Datum("y", box.y_m, box.x_m, aside, -1.0), deep)


def _titled(cell: View, boxes: list[Box], plan: Plan) -> View:
    """A cell with the names of its boxes under it, and whether they may be cut."""
    per_mm = cell.scale / 1000
    word = mark_word(boxes[0], plan)
    lines = [_WARNINGS[word], ""] if word in _WARNINGS else [""]
    for box in boxes:
        longer = f"{lines[-1]}, {box.id}" if lines[-1] else box.id
        if text_width_mm(longer, _TITLE_MM) <= _NAMES_MM or not lines[-1]:
            lines[-1] = longer
        else:
            lines.append(box.id)
    bounds, items = cell.bounds, list(cell.items)
    middle = bounds.middle[0]
    for number, line in enumerate(lines):
        at = (middle, bounds.back_m - (_TITLE_MM + number * _TITLE_STEP_MM) * per_mm)
        items.append(Text(at=at, words=line, layer="text", height_mm=_TITLE_MM))
    half = max(text_width_mm(line, _TITLE_MM) for line in lines) / 2 * per_mm + per_mm
    low = _TITLE_MM * (1.5 + DESCENT) + (len(lines) - 1) * _TITLE_STEP_MM + 1.0
    grown = Rect(
        left_m=min(bounds.left_m, middle - half),
        right_m=max(bounds.right_m, middle + half),
        back_m=bounds.back_m - low * per_mm,
        front_m=bounds.front_m,
    )
    told = joined(tuple(box.id for box in boxes))
    return replace(cell, title=told, bounds=grown, items=tuple(items))


def _packed(cells: list[View], room_mm: tuple[float, float]) -> tuple[View, ...]:
    """Cells side by side and line under line, in as many views as it takes."""
    views: list[View] = []
    placed: list[tuple[View, Point]] = []
    across = down = line = 0.0
    for cell in cells:
        if across > 0 and across + cell.width_mm > room_mm[0]:
            across, down, line = 0.0, down + line + _BETWEEN_MM, 0.0
        if placed and down + cell.height_mm > room_mm[1]:
            views.append(_one(placed))
            placed, across, down, line = [], 0.0, 0.0, 0.0
        placed.append((cell, (across, down)))
        across += cell.width_mm + _BETWEEN_MM
        line = max(line, cell.height_mm)
    if placed:
        views.append(_one(placed))
    return tuple(views)


def _one(placed: list[tuple[View, Point]]) -> View:
    """One view of cells, each with its upper left corner so far right and down. [mm]"""
    scale = placed[0][0].scale
    items: list[Item] = []
    for cell, (across, down) in placed:
        by = (
            across * scale / 1000 - cell.bounds.left_m,
            -down * scale / 1000 - cell.bounds.front_m,
        )
        items += [_shifted(item, by) for item in cell.items]
    right = max(across + cell.width_mm for cell, (across, _) in placed)
    low = max(down + cell.height_mm for cell, (_, down) in placed)
    told = "; ".join(cell.title for cell, _ in placed)
    return View(
        title="Floor boxes, large; screen at the top",
        description=(
            f"Each floor box from above at a large scale, screen at the top: {told}. Its hole, its "
            "lid, how far its middle may move, and the joists beside it; the same is in the tables."
        ),
        scale=scale,
        bounds=Rect(
            left_m=0.0, right_m=right * scale / 1000, back_m=-low * scale / 1000, front_m=0.0
        ),
        items=tuple(items),
    )


def _moved(item: Item, by: Point) -> Item:
    """An item moved, to a micrometer, so that alike items become equal. [m]"""
    return _shifted(item, by, digits=_SAME)


def _shifted(item: Item, by: Point, digits: int = 12) -> Item:
    def to(point: Point) -> Point:
        return (round(point[0] + by[0], digits), round(point[1] + by[1], digits))

    if isinstance(item, Line):
        return replace(item, points=tuple(map(to, item.points)))
    if isinstance(item, Arc):
        return replace(item, center=to(item.center))
    if isinstance(item, Hatch):
        return replace(item, outline=tuple(map(to, item.outline)))
    if isinstance(item, Text):
        return replace(item, at=to(item.at))
    return _shifted_dimension(item, by, to(item.start), to(item.end), digits)


def _shifted_dimension(
    item: Dimension, by: Point, start: Point, end: Point, digits: int
) -> Dimension:
    across = by[1] if item.along == "x" else by[0]
    return replace(
        item,
        start=start,
        end=end,
        line_at=round(item.line_at + across, digits),
        words_at=(round(item.words_at[0] + by[0], digits), round(item.words_at[1] + by[1], digits)),
    )
