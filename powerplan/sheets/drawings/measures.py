"""Measures from one datum, each on a line of its own: never a chain of them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from powerplan.model.geometry import Point
from powerplan.model.lengths import micrometers
from powerplan.sheets.drawings.sketch import Sketch
from powerplan.sheets.fonts import text_width_mm
from powerplan.sheets.lower import BEYOND_MM, dimension_text
from powerplan.sheets.patches import Patch
from powerplan.sheets.scene import Dimension

STEP_MM = 5.0
MOST_LINES = 5
_OVER_MM = 2.2
_AIR_MM = 1.5
_NUDGE_MM = 1.0
_APART_MM, _JOG_MM, _HAIR_MM = 3.8, 3.0, 0.1
_APART_WORDS_MM = 2.5


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

    Marks on both sides of the datum share lines. A mark on the datum has no measure. Where more
    than ``MOST_LINES`` would stand over one another, all share one line, and each has its words
    square to it at its mark: running measures.

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
        old = each.get(micrometers(mark.at))
        if old is None or abs(mark.foot - datum.first) < abs(old.foot - datum.first):
            each[micrometers(mark.at)] = mark
    zero = micrometers(datum.at)
    sides = [
        sorted((um for um in each if (um - zero) * side > 0), key=lambda um: abs(um - zero))
        for side in (-1, 1)
    ]
    if max(map(len, sides)) > MOST_LINES:
        return _running(sketch, datum, [each[um] for um in sorted(each) if um != zero])
    last = datum.first
    feet = tuple(each)
    line = datum.first
    for level in range(max(map(len, sides))):
        here = [each[side[level]] for side in sides if level < len(side)]
        used = [_put(sketch, datum, mark, line, feet, out=all(sides)) for mark in here]
        last = max(used, key=lambda at: at * datum.out)
        line = last + datum.out * sketch.meters(STEP_MM)
    return last


def _running(sketch: Sketch, datum: Datum, marks: list[Mark]) -> float:
    """All measures on one line; words stand at their marks, moved apart where they would touch."""
    wide = max(sketch.meters(text_width_mm(mark.words, 2.0)) for mark in marks)
    beyond, jog = (datum.out * sketch.meters(mm) for mm in (BEYOND_MM, _JOG_MM))
    places = spread([mark.at for mark in marks], sketch.meters(_APART_MM))
    line = datum.first
    while True:
        middle = line + beyond + jog + datum.out * (wide / 2 + sketch.meters(1.0))
        made = [
            _turned(datum, mark, line, (place, middle))
            for mark, place in zip(marks, places, strict=True)
        ]
        if all(sketch.free(sketch.patch_of(dimension_text(one))) for one in made):
            break
        line += datum.out * sketch.meters(_NUDGE_MM)
    for one, mark, place in zip(made, marks, places, strict=True):
        sketch.dimension(one)
        if abs(place - mark.at) > sketch.meters(_HAIR_MM):
            ends = ((mark.at, line + beyond), (place, line + beyond + jog))
            sketch.line([_point(datum, *end) for end in ends], "dimension", cut=False)
    return line + beyond + jog + datum.out * (wide + sketch.meters(1.0))


def _turned(datum: Datum, mark: Mark, line: float, words: Point) -> Dimension:
    return Dimension(
        start=_point(datum, datum.at, datum.foot),
        end=_point(datum, mark.at, mark.foot),
        along=datum.along,
        line_at=line,
        words=mark.words,
        words_at=_point(datum, *words),
        turned=True,
    )


def spread(places: Sequence[float], apart: float) -> list[float]:
    """Return places moved as little as may be (by squares) so that neighbors stand apart.

    Parameters
    ----------
    places : sequence of float
        From the least to the greatest. [any length]
    apart : float
        The least distance of two neighbors. [the same]
    """
    pools: list[tuple[float, int]] = []  # the mean of places without their gaps, and how many
    for number, place in enumerate(places):
        mean, count = place - number * apart, 1
        while pools and pools[-1][0] > mean:
            before, many = pools.pop()
            mean, count = (before * many + mean * count) / (many + count), count + many
        pools.append((mean, count))
    means = [mean for mean, count in pools for _ in range(count)]
    return [mean + number * apart for number, mean in enumerate(means)]


def _point(datum: Datum, along: float, across: float) -> Point:
    return (along, across) if datum.along == "x" else (across, along)


def _put(
    sketch: Sketch, datum: Datum, mark: Mark, line: float, feet: tuple[int, ...], *, out: bool
) -> float:
    """Draw one measure at the first line from ``line`` outward where its words are free; with
    ``out`` words that do not fit stand past the mark rather than past the datum."""
    places = _words(sketch, datum, mark)
    places = places[::-1] if out else places
    while True:
        options = [_dimension(sketch, datum, mark, line, at) for at in places]
        free = [one for one in options if sketch.free(_with_air(sketch, one))]
        clear = [one for one in free if not _struck(sketch, one, mark, feet)]
        if clear or free:
            sketch.dimension((clear or free)[0])
            return line
        line += datum.out * sketch.meters(_NUDGE_MM)


def _with_air(sketch: Sketch, item: Dimension) -> Patch:
    """The paper of a measure's words, and so much beside them that two are not read as one."""
    left, low, right, high = sketch.patch_of(dimension_text(item))
    if item.along == "x":
        return Patch(left - _APART_WORDS_MM, low, right + _APART_WORDS_MM, high)
    return Patch(left, low - _APART_WORDS_MM, right, high + _APART_WORDS_MM)


def _words(sketch: Sketch, datum: Datum, mark: Mark) -> list[float]:
    """Where along the measure its words may have their middle, best first. [m]"""
    wide_mm = text_width_mm(mark.words, 2.0)
    span = abs(mark.at - datum.at)
    away = 1.0 if mark.at > datum.at else -1.0
    half = sketch.meters(wide_mm / 2 + _AIR_MM)
    if span >= 2 * half:
        return [(mark.at + datum.at) / 2]
    return [datum.at - away * half, mark.at + away * half]


def _dimension(sketch: Sketch, datum: Datum, mark: Mark, line: float, words: float) -> Dimension:
    over = sketch.meters(_OVER_MM)
    # words stand on their line: above one along x, to the left of one along y
    beside = line + over if datum.along == "x" else line - over
    return Dimension(
        start=_point(datum, datum.at, datum.foot),
        end=_point(datum, mark.at, mark.foot),
        along=datum.along,
        line_at=line,
        words=mark.words,
        words_at=_point(datum, words, beside),
    )


def _struck(sketch: Sketch, item: Dimension, mark: Mark, feet: tuple[int, ...]) -> bool:
    """Whether a thin line to another mark would run through the words."""
    patch = sketch.patch_of(dimension_text(item))
    low, high = (patch.left, patch.right) if item.along == "x" else (patch.low, patch.high)
    others = (um / 1000 / sketch.scale for um in feet if um != micrometers(mark.at))
    return any(low < other < high for other in others)
