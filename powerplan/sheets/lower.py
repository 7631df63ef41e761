"""A drawing brought down to what paper holds: strokes, words, and white behind words.

Everything is in millimeters of paper, y up, from the lower-left corner of the view. Strokes come
first, then the white areas, then the words, so that no line runs through what is read.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from powerplan.model.geometry import Point
from powerplan.sheets.fonts import text_width_mm
from powerplan.sheets.layers import layer
from powerplan.sheets.scene import Arc, Dimension, Hatch, Line, Text, View

ARC_ERROR_MM = 0.02
SLASH_MM = 2.4
GAP_MM = 1.0
BEYOND_MM = 1.2
DESCENT = 0.33
MASK_PAD_MM = 0.4

_SLASH_WEIGHT = 2.0


class Stroke(NamedTuple):
    """A line of ink, or with ``filled`` an area of it. [mm]"""

    points_mm: tuple[Point, ...]
    closed: bool
    weight_mm: float
    dash_mm: tuple[float, ...]
    layer: str
    filled: bool


class Words(NamedTuple):
    """Words; ``height_mm`` is that of a capital letter. ``anchor`` is two letters as in ``Text``:
    b is the base line, m the middle of a capital, t its top. [mm, degrees]"""

    at_mm: Point
    words: str
    height_mm: float
    anchor: str
    angle_deg: float
    layer: str


class Mask(NamedTuple):
    """White paper behind words. [mm]"""

    corners_mm: tuple[Point, ...]


Lowered = Stroke | Words | Mask


def lowered(view: View) -> tuple[Lowered, ...]:
    """Return a drawing as strokes, masks and words, in that order.

    Parameters
    ----------
    view : View
        A drawing in the room frame. [m]

    Returns
    -------
    tuple of Stroke, Mask or Words
        The same on paper, at the scale of the view. [mm]
    """
    strokes: list[Stroke] = []
    masks: list[Mask] = []
    words: list[Words] = []
    paper = _Paper(view)
    for item in view.items:
        if isinstance(item, Text):
            _put_words(item, paper, masks, words)
        elif isinstance(item, Dimension):
            strokes += _dimension_strokes(item, paper)
            _put_words(dimension_text(item), paper, masks, words)
        else:
            strokes += _strokes(item, paper)
    return (*strokes, *masks, *words)


def text_corners(
    at: Point, words: str, height_mm: float, anchor: str, angle_deg: float, pad_mm: float = 0.0
) -> tuple[Point, ...]:
    """Return the four corners of the rectangle that words take up, tails of letters included.

    Parameters
    ----------
    at : Point
        Where they are anchored. [mm]
    words : str
        One line.
    height_mm : float
        Height of a capital letter. [mm]
    anchor : str
        As in ``Text``.
    angle_deg : float
        Counter-clockwise. [degrees]
    pad_mm : float
        More on every side. [mm]
    """
    width = text_width_mm(words, height_mm)
    left = {"l": 0.0, "c": -width / 2, "r": -width}[anchor[0]]
    base = {"b": 0.0, "m": -height_mm / 2, "t": -height_mm}[anchor[1]]
    low, high = base - DESCENT * height_mm - pad_mm, base + height_mm + pad_mm
    left, right = left - pad_mm, left + width + pad_mm
    turn = math.radians(angle_deg)
    cos, sin = math.cos(turn), math.sin(turn)
    return tuple(
        (at[0] + x * cos - y * sin, at[1] + x * sin + y * cos)
        for x, y in ((left, low), (right, low), (right, high), (left, high))
    )


def dimension_text(item: Dimension) -> Text:
    """Return the words of a dimension, along it or square to it, and cleared behind."""
    return Text(
        at=item.words_at,
        words=item.words,
        layer=item.layer,
        height_mm=item.height_mm,
        angle_deg=90.0 if (item.along == "y") != item.turned else 0.0,
        mask=True,
    )


def dimension_ends(item: Dimension) -> tuple[Point, Point]:
    """Return both ends of a dimension line, where its slashes stand. [m]"""
    if item.along == "x":
        return (item.start[0], item.line_at), (item.end[0], item.line_at)
    return (item.line_at, item.start[1]), (item.line_at, item.end[1])


class _Paper:
    """Room frame to paper."""

    def __init__(self, view: View) -> None:
        self._left, self._back = view.bounds.left_m, view.bounds.back_m
        self.per_m = 1000.0 / view.scale

    def at(self, point: Point) -> Point:
        """A point of the room on paper. [m in, mm out]"""
        return ((point[0] - self._left) * self.per_m, (point[1] - self._back) * self.per_m)


def _strokes(item: Line | Arc | Hatch, paper: _Paper) -> list[Stroke]:
    if isinstance(item, Line):
        return [_stroke(tuple(paper.at(p) for p in item.points), item.layer, closed=item.closed)]
    if isinstance(item, Arc):
        return [_arc(item, paper)]
    outline = tuple(paper.at(p) for p in item.outline)
    if item.spacing_mm == 0:
        return [_stroke(outline, item.layer, closed=True, filled=True)]
    angles = (item.angle_deg, item.angle_deg + 90.0) if item.crossed else (item.angle_deg,)
    return [
        _stroke(piece, item.layer)
        for angle in angles
        for piece in hatch_lines(outline, angle, item.spacing_mm)
    ]


def _stroke(
    points: tuple[Point, ...], key: str, *, closed: bool = False, filled: bool = False
) -> Stroke:
    of = layer(key)
    return Stroke(
        points_mm=points,
        closed=closed,
        weight_mm=of.weight_mm,
        dash_mm=of.dash_mm,
        layer=key,
        filled=filled,
    )


def _arc(item: Arc, paper: _Paper) -> Stroke:
    center, radius = paper.at(item.center), item.radius_m * paper.per_m
    span = item.end_deg - item.start_deg
    widest = 2 * math.acos(max(0.0, 1 - ARC_ERROR_MM / radius)) if radius > 0 else math.pi
    pieces = max(2, math.ceil(math.radians(span) / widest))
    whole = math.isclose(span, 360.0)
    points = tuple(
        (center[0] + radius * math.cos(turn), center[1] + radius * math.sin(turn))
        for turn in (
            math.radians(item.start_deg + span * step / pieces)
            for step in range(pieces if whole else pieces + 1)
        )
    )
    return _stroke(points, item.layer, closed=whole)


def hatch_lines(
    outline: tuple[Point, ...], angle_deg: float, spacing_mm: float
) -> tuple[tuple[Point, Point], ...]:
    """Return parallel lines inside an outline, in step with those of every other outline.

    Parameters
    ----------
    outline : tuple of Point
        A simple outline. [mm]
    angle_deg : float
        Their direction. [degrees]
    spacing_mm : float
        Between two of them, above 0. [mm]
    """
    turn = math.radians(angle_deg)
    cos, sin = math.cos(turn), math.sin(turn)
    turned = [(x * cos + y * sin, y * cos - x * sin) for x, y in outline]
    edges = list(zip(turned, turned[1:] + turned[:1], strict=True))
    low, high = min(y for _, y in turned), max(y for _, y in turned)
    lines = []
    for number in range(math.ceil(low / spacing_mm), math.floor(high / spacing_mm) + 1):
        level = number * spacing_mm
        crossings = sorted(
            x1 + (level - y1) / (y2 - y1) * (x2 - x1)
            for (x1, y1), (x2, y2) in edges
            if (y1 <= level) != (y2 <= level)
        )
        for left, right in zip(crossings[::2], crossings[1::2], strict=True):
            if right - left > 1e-6:
                start = (left * cos - level * sin, left * sin + level * cos)
                lines.append((start, (right * cos - level * sin, right * sin + level * cos)))
    return tuple(lines)


def _dimension_strokes(item: Dimension, paper: _Paper) -> list[Stroke]:
    ends = tuple(paper.at(end) for end in dimension_ends(item))
    strokes = [_stroke(ends, item.layer)]
    for foot, end in zip((item.start, item.end), ends, strict=True):
        strokes += _extension(paper.at(foot), end, item.layer)
        half = SLASH_MM / 2 * math.sqrt(0.5)
        slash = ((end[0] - half, end[1] - half), (end[0] + half, end[1] + half))
        strokes.append(
            Stroke(
                points_mm=slash,
                closed=False,
                weight_mm=layer(item.layer).weight_mm * _SLASH_WEIGHT,
                dash_mm=(),
                layer=item.layer,
                filled=False,
            )
        )
    return strokes


def _extension(foot: Point, end: Point, key: str) -> list[Stroke]:
    """The thin line from what is measured to a little past the dimension line."""
    length = math.dist(foot, end)
    if length <= GAP_MM:
        return []
    way = ((end[0] - foot[0]) / length, (end[1] - foot[1]) / length)
    near = (foot[0] + way[0] * GAP_MM, foot[1] + way[1] * GAP_MM)
    far = (end[0] + way[0] * BEYOND_MM, end[1] + way[1] * BEYOND_MM)
    return [_stroke((near, far), key)]


def _put_words(item: Text, paper: _Paper, masks: list[Mask], words: list[Words]) -> None:
    at = paper.at(item.at)
    if item.mask:
        corners = text_corners(
            at, item.words, item.height_mm, item.anchor, item.angle_deg, MASK_PAD_MM
        )
        masks.append(Mask(corners_mm=corners))
    words.append(
        Words(
            at_mm=at,
            words=item.words,
            height_mm=item.height_mm,
            anchor=item.anchor,
            angle_deg=item.angle_deg,
            layer=item.layer,
        )
    )
