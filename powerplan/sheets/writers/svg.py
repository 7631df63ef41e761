"""A drawing as SVG: paper millimeters, black only, letters that can be selected and searched."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from html import escape
from itertools import groupby
from typing import TYPE_CHECKING

from powerplan.sheets.fonts import CAP, FAMILY, text_width_mm
from powerplan.sheets.lower import Mask, Stroke, Words, lowered
from powerplan.sheets.writers.columns import printable

if TYPE_CHECKING:
    from powerplan.model.geometry import Point
    from powerplan.sheets.scene import View

FAMILIES = f"'{FAMILY}', 'DejaVu Sans', Verdana, sans-serif"
"""The letters of a sheet, and what stands in where a reader has not got them."""

BAR_MM = 9.0
"""Height of the strip under a drawing in which its check bar stands. [mm]"""

_BARS = {True: (50.8, "2 in"), False: (50.0, "50 mm")}
_BAR_LEFT_MM, _BAR_UP_MM, _BAR_WEIGHT_MM = 0.5, 6.0, 0.25
_BAR_WORDS_MM = 2.0
_ACROSS = {"l": "start", "c": "middle", "r": "end"}
_UP = {"b": 0.0, "m": 0.5, "t": 1.0}


def svg_text(view: View, name: str = "drawing", units: str = "") -> str:
    """Return a drawing as one SVG element, which is a whole file as well.

    It is as large as on paper, and on a screen no wider than its column. Its title and description
    are read out in place of its lines.

    Parameters
    ----------
    view : View
        The drawing.
    name : str
        What its ids begin with: another one for each drawing of a document.
    units : str
        ft-in, in, mm or m: a drawing that has a scale gets a check bar of such a length under it,
        and is ``BAR_MM`` higher, and at least as wide as the bar. Empty: none.
    """
    name = escape(name)
    things: tuple[Stroke | Words | Mask, ...] = lowered(view)
    wide_mm, high_mm = view.width_mm, view.height_mm
    if units and view.scale > 1:
        bar, said = _check_bar(units)
        things = (*things, bar, said)
        wide_mm = max(wide_mm, said.at_mm[0] + text_width_mm(said.words, said.height_mm))
        high_mm += BAR_MM
    width, height = _number(wide_mm), _number(high_mm)
    drawn = "\n".join(_drawn(things, view.height_mm))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" '
        f'aria-labelledby="{name}-title {name}-desc" '
        f'width="{width}mm" height="{height}mm" viewBox="0 0 {width} {height}" '
        f'style="max-width: 100%; height: auto" '
        f'font-family="{FAMILIES}" fill="none" stroke="none" '
        f'stroke-linejoin="round">\n'
        f'<title id="{name}-title">{_told(view.title)}</title>\n'
        f'<desc id="{name}-desc">{_told(view.description)}</desc>\n'
        f"{drawn}\n</svg>\n"
    )


def _check_bar(units: str) -> tuple[Stroke, Words]:
    """A bar of known length under the drawing, which shrinks with it, and what it measures."""
    long_mm, words = _BARS[units in ("ft-in", "in")]
    left, up = _BAR_LEFT_MM, _BAR_UP_MM - BAR_MM
    way: list[Point] = [(left, up)]
    for part in (0.0, 0.25, 0.5, 0.75, 1.0):
        x, tall = left + part * long_mm, 1.5 if part in (0.0, 1.0) else 0.9
        way += [(x, up), (x, up + tall), (x, up - tall), (x, up)]
    bar = Stroke(
        points_mm=tuple(way),
        closed=False,
        weight_mm=_BAR_WEIGHT_MM,
        dash_mm=(),
        layer="frame",
        filled=False,
    )
    said = Words(
        at_mm=(left + long_mm + 3.0, up),
        words=f"{words} when printed at 100 %",
        height_mm=_BAR_WORDS_MM,
        anchor="lm",
        angle_deg=0.0,
        layer="text",
    )
    return bar, said


def _drawn(things: Iterable[Stroke | Words | Mask], height_mm: float) -> Iterator[str]:
    """The elements in their order; open lines of one kind that follow each other are one path."""
    for _, group in groupby(things, key=_kind):
        first, *rest = group
        if isinstance(first, Stroke) and not first.filled:
            strokes = [first, *(thing for thing in rest if isinstance(thing, Stroke))]
            yield _path(strokes, height_mm)
            continue
        for thing in (first, *rest):
            yield _single(thing, height_mm)


def _kind(thing: Stroke | Words | Mask) -> tuple[object, ...]:
    if isinstance(thing, Stroke):
        return ("stroke", thing.weight_mm, thing.dash_mm, thing.filled)
    return (type(thing).__name__,)


def _single(thing: Stroke | Words | Mask, height_mm: float) -> str:
    if isinstance(thing, Stroke):
        return _path([thing], height_mm)
    if isinstance(thing, Mask):
        return f'<path d="{_way(thing.corners_mm, True, height_mm)}" fill="white"/>'
    return _words(thing, height_mm)


def _path(strokes: list[Stroke], height_mm: float) -> str:
    """One path of strokes that share weight, dash and fill."""
    first = strokes[0]
    ways = "".join(_way(stroke.points_mm, stroke.closed, height_mm) for stroke in strokes)
    told = [f'd="{ways}"']
    if first.filled:
        told.append('fill="black"')
    if first.weight_mm > 0:
        told.append(f'stroke="black" stroke-width="{_number(first.weight_mm)}"')
    if first.dash_mm:
        told.append(f'stroke-dasharray="{" ".join(map(_number, first.dash_mm))}"')
    return f"<path {' '.join(told)}/>"


def _way(points: tuple[Point, ...], closed: bool, height_mm: float) -> str:
    pairs = (f"{_number(x)} {_number(height_mm - y)}" for x, y in points)
    return f"M{'L'.join(pairs)}{'Z' if closed else ''}"


def _words(thing: Words, height_mm: float) -> str:
    x, y = thing.at_mm[0], height_mm - thing.at_mm[1]
    across, below = _ACROSS[thing.anchor[0]], thing.height_mm * _UP[thing.anchor[1]]
    told = [
        f'x="{_number(x)}" y="{_number(y + below)}"',
        f'font-size="{_number(thing.height_mm / CAP)}" text-anchor="{across}"',
    ]
    if thing.angle_deg:
        turn = f"{_number(-thing.angle_deg)} {_number(x)} {_number(y)}"
        told.append(f'transform="rotate({turn})"')
    return (
        f'<text {" ".join(told)} fill="black" style="white-space: pre">{_told(thing.words)}</text>'
    )


def _told(text: str) -> str:
    return escape(printable(text))


def _number(value: float) -> str:
    """A number of millimeters or degrees to a thousandth, as short as it goes."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
