"""Measures from one datum, each on a line of its own: never a chain of them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from powerplan.model.geometry import Point
from powerplan.model.lengths import micrometres
from powerplan.sheets.drawings.sketch import Sketch
from powerplan.sheets.fonts import text_width_mm
from powerplan.sheets.lower import dimension_text
from powerplan.sheets.scene import Dimension

STEP_MM = 5.0
_OVER_MM = 2.2
_AIR_MM = 1.5
_NUDGE_MM = 1.0


class Mark(NamedTuple):
    """What is measured to: its place along the measure, its place across it, and the words. [m]"""

    at: float
    foot: float
    words: str


class Datum(NamedTuple):
    """Where measures start and where their lines stand. ``along`` is x or y; ``out`` is 1 or -1:
    the way in which lines follow one another, the first at ``first``. [m]"""

    along: str
    at: float
    foot: float
    first: float
    out: float


def measure(sketch: Sketch, datum: Datum, marks: Sequence[Mark]) -> float:
    """Draw a measure from the datum to each mark, the shortest nearest, and return the last line.

    Marks on both sides of the datum share lines. A mark on the datum has no measure.

    Parameters
    ----------
    sketch : Sketch
        The drawing.
    datum : Datum
        Where from.
    marks : sequence of Mark
        Where to; several at one place count once.
    """
    each: dict[int, Mark] = {}
    for mark in marks:
        old = each.get(micrometres(mark.at))
        if old is None or abs(mark.foot - datum.first) < abs(old.foot - datum.first):
            each[micrometres(mark.at)] = mark
    zero = micrometres(datum.at)
    sides = [
        sorted((um for um in each if (um - zero) * side > 0), key=lambda um: abs(um - zero))
        for side in (-1, 1)
    ]
    last = datum.first
    feet = tuple(each)
    line = datum.first
    for level in range(max(map(len, sides))):
        here = [each[side[level]] for side in sides if level < len(side)]
        used = [_put(sketch, datum, mark, line, feet) for mark in here]
        last = max(used, key=lambda at: at * datum.out)
        line = last + datum.out * sketch.metres(STEP_MM)
    return last


def _put(sketch: Sketch, datum: Datum, mark: Mark, line: float, feet: tuple[int, ...]) -> float:
    """Draw one measure at the first line from ``line`` outward where its words are free."""
    while True:
        options = [_dimension(sketch, datum, mark, line, at) for at in _words(sketch, datum, mark)]
        free = [one for one in options if sketch.free(sketch.patch_of(dimension_text(one)))]
        clear = [one for one in free if not _struck(sketch, one, mark, feet)]
        if clear or free:
            sketch.dimension((clear or free)[0])
            return line
        line += datum.out * sketch.metres(_NUDGE_MM)


def _words(sketch: Sketch, datum: Datum, mark: Mark) -> list[float]:
    """Where along the measure its words may have their middle, best first. [m]"""
    wide_mm = text_width_mm(mark.words, 2.0)
    span = abs(mark.at - datum.at)
    away = 1.0 if mark.at > datum.at else -1.0
    half = sketch.metres(wide_mm / 2 + _AIR_MM)
    if span >= 2 * half:
        return [(mark.at + datum.at) / 2]
    return [datum.at - away * half, mark.at + away * half]


def _dimension(sketch: Sketch, datum: Datum, mark: Mark, line: float, words: float) -> Dimension:
    over = sketch.metres(_OVER_MM)

    def point(along: float, across: float) -> Point:
        return (along, across) if datum.along == "x" else (across, along)

    # words stand on their line: above one along x, to the left of one along y
    beside = line + over if datum.along == "x" else line - over
    return Dimension(
        start=point(datum.at, datum.foot),
        end=point(mark.at, mark.foot),
        along=datum.along,
        line_at=line,
        words=mark.words,
        words_at=point(words, beside),
    )


def _struck(sketch: Sketch, item: Dimension, mark: Mark, feet: tuple[int, ...]) -> bool:
    """Whether a thin line to another mark would run through the words."""
    patch = sketch.patch_of(dimension_text(item))
    low, high = (patch.left, patch.right) if item.along == "x" else (patch.low, patch.high)
    others = (um / 1000 / sketch.scale for um in feet if um != micrometres(mark.at))
    return any(low < other < high for other in others)
