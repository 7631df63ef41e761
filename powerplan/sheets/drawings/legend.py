"""What lines, hatches and symbols mean: in words, and as a small drawing of its own."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import partial

from powerplan.model.geometry import Point, Rect
from powerplan.sheets.drawings.room import swing
from powerplan.sheets.drawings.sketch import Sketch
from powerplan.sheets.drawings.symbols import (
    DRIFT_DEG,
    DRIFT_MM,
    arrow,
    dot,
    floor_box,
    joint,
    number,
    outlet,
    second_mark,
    slack,
    spare,
)
from powerplan.sheets.fonts import text_width_mm
from powerplan.sheets.layers import all_layers
from powerplan.sheets.local import Local
from powerplan.sheets.scene import Arc, Dimension, Hatch, Line, Text, View

_UNSAID = ("text", "frame", "dimension")
_HATCHED = {
    "drift": (DRIFT_DEG, DRIFT_MM, False),
    "obstacle": (135.0, 1.0, False),
    "no_cut": (45.0, 2.2, True),
    "pinch": (45.0, 1.5, False),
    "load": (45.0, 2.0, False),
    "load_there": (45.0, 2.0, True),
    "load_unknown": (135.0, 4.0, False),
}
_FRAMED = ("clear", "lid", "cut_out", "walkway")
_LINE_MM, _CELL_MM, _SAMPLE_MM, _AIR_MM = 6.0, 10.0, 14.0, 3.0
_ORDER = "turn in the order of work"

_Draw = Callable[[Sketch, Point], None]
_Entry = tuple[str, _Draw]


def legend(view: View) -> tuple[tuple[str, str], ...]:
    """Return key and meaning of each layer that a drawing uses, in the order of the table.

    Parameters
    ----------
    view : View
        The drawing.
    """
    used = {item.layer for item in view.items}
    return tuple(
        (one.key, one.meaning) for one in all_layers() if one.key in used and one.key not in _UNSAID
    )


def legend_view(views: Iterable[View], width_mm: float, local: Local = str) -> View | None:
    """Return a drawing of every sign that is used, with its meaning; None where there is none.

    Drawn at scale 1: a meter is a meter of paper.

    Parameters
    ----------
    views : iterable of View
        The drawings that it explains.
    width_mm : float
        Width of paper. [mm]
    local : callable
        Turns a text into the country's words.
    """
    entries = [(local(words), draw) for words, draw in _entries(tuple(views))]
    if not entries:
        return None
    sketch = Sketch(1, Rect(left_m=-1.0, right_m=9.0, back_m=-9.0, front_m=1.0))
    left = 0.0
    for column in _columns(entries, width_mm):
        for line, (words, draw) in enumerate(column):
            y_m = -line * _LINE_MM / 1000
            draw(sketch, ((left + _SAMPLE_MM / 2) / 1000, y_m))
            at = ((left + _SAMPLE_MM + _AIR_MM) / 1000, y_m)
            sketch.words(Text(at=at, words=words, layer="text", anchor="lm"))
        left += _wide_mm(column)
    told = "; ".join(words for words, _ in entries)
    return sketch.view("What the lines and signs mean", f"A legend: {told}.")


def _columns(entries: list[_Entry], width_mm: float) -> list[list[_Entry]]:
    """Entries from the top down in as many columns as stand side by side, each as wide as it is."""
    best = [entries]
    for count in range(2, len(entries) + 1):
        lines = -(-len(entries) // count)
        columns = [entries[at : at + lines] for at in range(0, len(entries), lines)]
        if sum(map(_wide_mm, columns)) - 2 * _AIR_MM <= width_mm and len(columns) > len(best):
            best = columns
    return best


def _wide_mm(column: list[_Entry]) -> float:
    widest = max(text_width_mm(words, 2.0) for words, _ in column)
    return _SAMPLE_MM + _AIR_MM + widest + 2 * _AIR_MM


def _entries(views: tuple[View, ...]) -> list[_Entry]:
    """Meaning and sample of each sign, in the order of the table of layers."""
    used = {key for view in views for key, _ in legend(view)}
    items = [item for view in views for item in view.items]
    squares = sum(isinstance(i, Line) and i.layer == "box" and i.closed for i in items)
    circles = sum(isinstance(i, Arc) and i.layer == "box" for i in items)
    entries: list[_Entry] = []
    for one in all_layers():
        if one.key not in used:
            continue
        if one.key == "box":
            if squares:
                entries.append(("floor box", floor_box))
            if circles > squares:
                entries.append(("outlet", outlet))
        else:
            entries.append((one.meaning, _sample(one.key)))
        if one.key == "extension":
            entries.append(("joint of extension cord and lead", joint))
        if one.key == "cord":
            entries.append(("where a cord enters a chair", partial(_dot, key="cord")))
    if any(isinstance(item, Arc) and item.layer == "text" for item in items):
        entries.append((_ORDER, partial(number, value=1)))
    if any(isinstance(item, Dimension) for item in items):
        entries.append(("measure", _measure))
    if any(isinstance(item, Hatch) and item.layer == "dimension" for item in items):
        entries.append(("to the back wall, which is not on the drawing", _down))
    return entries


def _sample(key: str) -> _Draw:
    special: dict[str, _Draw] = {
        "second_mark": second_mark,
        "spare": spare,
        "slack": slack,
        "home_run": _arrow,
        "limit": _cut,
        "wall": _wall,
        "mark": _cross,
        "door": _door,
        "chair": _chair,
        "supply": _supply,
        **{name: partial(_frame, key=name) for name in _FRAMED},
    }
    if key in special:
        return special[key]
    return partial(_hatched, key=key) if key in _HATCHED else partial(_line, key=key)


def _line(sketch: Sketch, at: Point, key: str) -> None:
    half = _SAMPLE_MM / 2000
    sketch.line(((at[0] - half, at[1]), (at[0] + half, at[1])), key)


def _wall(sketch: Sketch, at: Point) -> None:
    """Both faces of a wall."""
    half, aside = _SAMPLE_MM / 2000, 0.0009
    for y_m in (at[1] - aside, at[1] + aside):
        sketch.line(((at[0] - half, y_m), (at[0] + half, y_m)), "wall")


def _cross(sketch: Sketch, at: Point) -> None:
    half = 0.0025
    sketch.line(((at[0] - half, at[1]), (at[0] + half, at[1])), "mark")
    sketch.line(((at[0], at[1] - half), (at[0], at[1] + half)), "mark")


def _door(sketch: Sketch, at: Point) -> None:
    """An opening, and both ways a leaf may swing in it."""
    half, low = 0.0026, at[1] - 0.0024
    left, right = (at[0] - half, low), (at[0] + half, low)
    for hinge, far in ((left, right), (right, left)):
        swing(sketch, hinge, far, (hinge[0], low + 2 * half))


def _chair(sketch: Sketch, at: Point) -> None:
    """A base with its arms, and the back."""
    x, y = at
    for across, low, high in ((0.0042, -0.0018, 0.0022), (0.0026, -0.0018, 0.0022)):
        sides = ((x - across, y + low), (x + across, y + low), (x + across, y + high))
        sketch.line((*sides, (x - across, y + high)), "chair", closed=True)
    back = ((x - 0.0026, y - 0.0024), (x + 0.0026, y - 0.0024))
    sketch.line((*back, (x + 0.0026, y - 0.0006), (x - 0.0026, y - 0.0006)), "chair", closed=True)


def _supply(sketch: Sketch, at: Point) -> None:
    """A box with its diagonal."""
    a, b, c, d = _box(at).outline
    sketch.line((a, b, c, d), "supply", closed=True)
    sketch.line((a, c), "supply")


def _box(at: Point) -> Rect:
    half, high = _CELL_MM / 2000, 0.002
    return Rect(
        left_m=at[0] - half, right_m=at[0] + half, back_m=at[1] - high, front_m=at[1] + high
    )


def _hatched(sketch: Sketch, at: Point, key: str) -> None:
    angle, spacing, crossed = _HATCHED[key]
    rect = _box(at)
    if key != "pinch":
        sketch.line(rect.outline, key, closed=True)
    sketch.hatch(rect, key, angle_deg=angle, spacing_mm=spacing, crossed=crossed)


def _frame(sketch: Sketch, at: Point, key: str) -> None:
    sketch.line(_box(at).outline, key, closed=True)


def _arrow(sketch: Sketch, at: Point) -> None:
    half = _SAMPLE_MM / 2000
    arrow(sketch, (at[0] - half, at[1]), (at[0] + half, at[1]), "home_run")


def _dot(sketch: Sketch, at: Point, key: str) -> None:
    dot(sketch, at, key)


def _cut(sketch: Sketch, at: Point) -> None:
    sketch.line(((at[0], at[1] - 0.0025), (at[0], at[1] + 0.0025)), "limit")


def _down(sketch: Sketch, at: Point) -> None:
    arrow(sketch, (at[0], at[1] + 0.0025), (at[0], at[1] - 0.0025), "dimension")


def _measure(sketch: Sketch, at: Point) -> None:
    half, slash = _CELL_MM / 2000, 0.00085
    sketch.line(((at[0] - half, at[1]), (at[0] + half, at[1])), "dimension")
    for x_m in (at[0] - half, at[0] + half):
        ends = ((x_m - slash, at[1] - slash), (x_m + slash, at[1] + slash))
        sketch.line(ends, "dimension")
