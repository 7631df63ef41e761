"""Symbols as large on paper at every scale: outlets, floor boxes, joints, spare, arrows, numbers.

An outlet is a circle crossed by two parallel strokes; a floor box is the same in a square, as in
the open standards for symbols on building plans.
"""

from __future__ import annotations

import math

from powerplan.model.geometry import Point, Rect
from powerplan.sheets.drawings.sketch import Sketch
from powerplan.sheets.patches import around
from powerplan.sheets.scene import Text

OUTLET_MM = 1.3
DRIFT_DEG, DRIFT_MM = 45.0, 1.2
"""How floor in which a mark may be moved is hatched, at a large scale. [degrees, mm]"""
BOX_MM = 2.0
SECOND_MM = 1.2
_STROKE_MM, _APART_MM = 2.0, 0.5
_JOINT_MM, _SPARE_MM, _NUMBER_MM = 0.8, 1.5, 2.6
_HEAD_MM, _HEAD_DEG = 1.8, 18.0
_DOT_MM = 0.75
_WAVE_MM = 5.0
_WHOLE = (0.0, 360.0)


def outlet(sketch: Sketch, at: Point, layer: str = "box", *, level: bool = False) -> None:
    """Draw an outlet; ``level`` lays its strokes left to right. [m]"""
    x, y = at
    apart, reach = sketch.meters(_APART_MM), sketch.meters(_STROKE_MM)
    sketch.arc(at, sketch.meters(OUTLET_MM), layer, _WHOLE)
    for side in (-apart, apart):
        ends = ((x - reach, y + side), (x + reach, y + side))
        if not level:
            ends = ((x + side, y - reach), (x + side, y + reach))
        sketch.line(ends, layer, cut=False)
    sketch.keep_free(sketch.about(at, _STROKE_MM))


def floor_box(sketch: Sketch, at: Point) -> None:
    """Draw a floor box. [m]"""
    x, y = at
    half, apart = sketch.meters(BOX_MM), sketch.meters(_APART_MM)
    square = Rect(left_m=x - half, right_m=x + half, back_m=y - half, front_m=y + half)
    sketch.line(square.outline, "box", closed=True, cut=False)
    sketch.arc(at, sketch.meters(OUTLET_MM), "box", _WHOLE)
    for side in (-apart, apart):
        sketch.line(((x + side, y - half), (x + side, y + half)), "box", cut=False)
    sketch.keep_free(sketch.about(at, BOX_MM + 0.2))


def second_mark(sketch: Sketch, at: Point) -> None:
    """Draw the other of two marks: a small square with a cross. [m]"""
    x, y = at
    half = sketch.meters(SECOND_MM)
    square = Rect(left_m=x - half, right_m=x + half, back_m=y - half, front_m=y + half)
    sketch.line(square.outline, "second_mark", closed=True, cut=False)
    for side in (-half, half):
        sketch.line(((x - half, y - side), (x + half, y + side)), "second_mark", cut=False)
    sketch.keep_free(sketch.about(at, SECOND_MM + 0.2))


def joint(sketch: Sketch, at: Point) -> None:
    """Draw the joint of an extension cord and a lead: a filled lozenge. [m]"""
    x, y = at
    half = sketch.meters(_JOINT_MM)
    outline = ((x - half, y), (x, y - half), (x + half, y), (x, y + half))
    sketch.fill(outline, "extension")
    sketch.keep_free(sketch.about(at, _JOINT_MM))


def spare(sketch: Sketch, at: Point, size_m: tuple[float, float] = (0.0, 0.0)) -> None:
    """Draw where spare cord is parked: a coil seen from above, as large as it lies.

    Parameters
    ----------
    sketch : Sketch
        The drawing.
    at : Point
        Its middle. [m]
    size_m : tuple of float
        The oval, left to right and back to screen; where that is smaller on paper than the sign,
        the sign is drawn. [m]
    """
    least = 2 * sketch.meters(_SPARE_MM)
    wide, deep = max(1.6 * least, size_m[0]), max(least, size_m[1])
    gap = deep * 0.225
    for inset in (0.0, gap):
        sketch.line(_oval(at, wide - 2 * inset, deep - 2 * inset), "spare", closed=True, cut=False)
    corners = ((at[0] - wide / 2, at[1] - deep / 2), (at[0] + wide / 2, at[1] + deep / 2))
    sketch.keep_free(around(map(sketch.paper, corners)))


def _oval(at: Point, wide: float, deep: float) -> tuple[Point, ...]:
    """Two half circles and two straight sides, the half circles at the shorter ends. [m]"""
    radius = min(wide, deep) / 2
    aside, ahead = wide / 2 - radius, deep / 2 - radius
    points = []
    for turn in range(0, 360, 15):
        cos, sin = math.cos(math.radians(turn)), math.sin(math.radians(turn))
        x = at[0] + radius * cos + math.copysign(aside, cos)
        points.append((x, at[1] + radius * sin + math.copysign(ahead, sin)))
    return tuple(points)


def slack(sketch: Sketch, at: Point, angle_rad: float = 0.0) -> None:
    """Draw where a cord lies in gentle bends, as it is longer than its way: a wave along it. [m,
    rad]"""
    wide, high = sketch.meters(_WAVE_MM), sketch.meters(_WAVE_MM / 6)
    sine, cosine = math.sin(angle_rad), math.cos(angle_rad)
    wave = []
    for step in range(-12, 13):
        along, over = wide * step / 24, high * math.sin(math.tau * step / 8)
        wave.append((at[0] + along * cosine - over * sine, at[1] + along * sine + over * cosine))
    sketch.line(wave, "slack", cut=False)
    sketch.keep_free(around(map(sketch.paper, wave)))


def number(sketch: Sketch, at: Point, value: int) -> None:
    """Draw a number in a circle: its turn in the order of work. [m]"""
    sketch.arc(at, sketch.meters(_NUMBER_MM), "text", _WHOLE)
    sketch.words(Text(at=at, words=str(value), layer="text", height_mm=1.8, mask=True))
    sketch.keep_free(sketch.about(at, _NUMBER_MM))


def arrow(sketch: Sketch, start: Point, end: Point, layer: str) -> None:
    """Draw an arrow with a filled head at its end. [m]"""
    turn = math.atan2(start[1] - end[1], start[0] - end[0])
    size, half = sketch.meters(_HEAD_MM), math.radians(_HEAD_DEG)
    sides = [
        (end[0] + size * math.cos(turn + side), end[1] + size * math.sin(turn + side))
        for side in (-half, half)
    ]
    neck = ((sides[0][0] + sides[1][0]) / 2, (sides[0][1] + sides[1][1]) / 2)
    sketch.line((start, neck), layer, cut=False)
    sketch.fill((end, *sides), layer)
    sketch.keep_free(sketch.about(neck, _HEAD_MM / 2))


def dot(sketch: Sketch, at: Point, layer: str) -> None:
    """Draw where a cord ends at a chair: a filled dot. [m]"""
    reach = sketch.meters(_DOT_MM)
    turns = (math.radians(22.5 + 45 * number) for number in range(8))
    sketch.fill(
        tuple((at[0] + reach * math.cos(t), at[1] + reach * math.sin(t)) for t in turns), layer
    )
