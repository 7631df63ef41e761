"""What is drawn, as entities of a DXF file, not lowered: CAD can measure and edit it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from powerplan.model.geometry import Point
from powerplan.sheets.layers import layer
from powerplan.sheets.lower import (
    BEYOND_MM,
    GAP_MM,
    SLASH_MM,
    dimension_ends,
    dimension_text,
)
from powerplan.sheets.scene import Arc, Dimension, Hatch, Item, Line, Text
from powerplan.sheets.writers.dxf_words import dxf_words, mtext_words

if TYPE_CHECKING:
    from ezdxf.document import Drawing as Document
    from ezdxf.layouts.base import BaseLayout

STYLE = "POWERPLAN"
_BY_LAYER = 256
_MASK = 1.3  # of the height of the letters
_HALIGN = {"l": 0, "c": 1, "r": 2}
_VALIGN = {"b": 1, "m": 2, "t": 3}
_ATTACHED = {"t": 1, "m": 4, "b": 7}


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """Where a view stands in model space: ``unit_per_m`` drawing units are a meter of floor,
    ``unit_per_mm`` a millimeter of paper at the view's scale; ``shift`` is added, in units."""

    unit_per_m: float
    unit_per_mm: float
    shift: Point

    def place(self, point: Point) -> Point:
        """Return a point of the room in drawing units."""
        return (
            point[0] * self.unit_per_m + self.shift[0],
            point[1] * self.unit_per_m + self.shift[1],
        )


def add_item(space: BaseLayout, item: Item, frame: Frame, document: Document, style: str) -> None:
    """Add one item of a view.

    Parameters
    ----------
    space : BaseLayout
        Model space.
    item : Item
        What is drawn.
    frame : Frame
        Where, and how large.
    document : Document
        The file, for the blocks of dimensions.
    style : str
        The dimension style of the view's scale.
    """
    if isinstance(item, Line):
        points = [frame.place(point) for point in item.points]
        space.add_lwpolyline(points, close=item.closed, dxfattribs=_drawn(item.layer, frame))
    elif isinstance(item, Arc):
        _arc(space, item, frame)
    elif isinstance(item, Hatch):
        _hatch(space, item, frame)
    elif isinstance(item, Text):
        _text(space, item, frame)
    else:
        _dimension(space, item, frame, document, style)


def _drawn(key: str, frame: Frame) -> dict[str, Any]:
    return {"layer": layer(key).cad, "ltscale": frame.unit_per_mm}


def _arc(space: BaseLayout, arc: Arc, frame: Frame) -> None:
    center, radius = frame.place(arc.center), arc.radius_m * frame.unit_per_m
    attributes = _drawn(arc.layer, frame)
    if arc.end_deg - arc.start_deg >= 360:
        space.add_circle(center, radius, dxfattribs=attributes)
    else:
        space.add_arc(center, radius, arc.start_deg, arc.end_deg, dxfattribs=attributes)


def _hatch(space: BaseLayout, hatch: Hatch, frame: Frame) -> None:
    drawn = space.add_hatch(color=_BY_LAYER, dxfattribs={"layer": layer(hatch.layer).cad})
    if hatch.spacing_mm > 0:
        angles = [hatch.angle_deg, hatch.angle_deg + 90] if hatch.crossed else [hatch.angle_deg]
        spacing = hatch.spacing_mm * frame.unit_per_mm
        lines = [[angle, (0.0, 0.0), _across(angle, spacing), []] for angle in angles]
        drawn.set_pattern_fill("PLAN", color=_BY_LAYER, pattern_type=0, definition=lines)
    points = [frame.place(point) for point in hatch.outline]
    drawn.paths.add_polyline_path(points, is_closed=True)


def _across(angle_deg: float, spacing: float) -> Point:
    """The step from one line of a pattern to the next, square to the lines."""
    turned = math.radians(angle_deg + 90)
    return (spacing * math.cos(turned), spacing * math.sin(turned))


def _text(space: BaseLayout, text: Text, frame: Frame) -> None:
    at, cad = frame.place(text.at), layer(text.layer).cad
    height = text.height_mm * frame.unit_per_mm
    across, up = text.anchor[0], text.anchor[1]
    placed = {"layer": cad, "style": STYLE, "insert": at, "rotation": text.angle_deg}
    if text.mask:
        drawn = space.add_mtext(
            mtext_words(text.words),
            dxfattribs={
                **placed,
                "char_height": height,
                "attachment_point": _ATTACHED[up] + _HALIGN[across],
                "width": 0,
            },
        )
        drawn.set_bg_color("canvas", scale=_MASK)
        return
    aligned = {"halign": _HALIGN[across], "valign": _VALIGN[up], "align_point": at}
    attributes = {**placed, **aligned, "height": height}
    space.add_text(dxf_words(text.words), dxfattribs=attributes)


def _dimension(
    space: BaseLayout, item: Dimension, frame: Frame, document: Document, style: str
) -> None:
    start, end = frame.place(item.start), frame.place(item.end)
    feet = [frame.place(foot) for foot in dimension_ends(item)]
    along_x = item.along == "x"
    block = document.blocks.new_anonymous_block(type_char="D")
    _dimension_lines(block, (start, end), feet, frame, layer(item.layer).cad)
    _text(block, dimension_text(item), frame)
    space.new_entity(
        "DIMENSION",
        {
            "layer": layer(item.layer).cad,
            "dimstyle": style,
            "dimtype": 32 | 128,  # linear; its block is its own; its words are where we put them
            "geometry": block.name,
            "defpoint": (*feet[1], 0.0),
            "defpoint2": (*start, 0.0),
            "defpoint3": (*end, 0.0),
            "text_midpoint": (*frame.place(item.words_at), 0.0),
            "attachment_point": 5,
            "angle": 0.0 if along_x else 90.0,
            "text_rotation": dimension_text(item).angle_deg,
            "text": mtext_words(item.words),
            "actual_measurement": abs(end[0] - start[0]) if along_x else abs(end[1] - start[1]),
        },
    )


def _dimension_lines(
    block: BaseLayout, measured: tuple[Point, Point], feet: list[Point], frame: Frame, cad: str
) -> None:
    """The dimension line, its two extension lines, and a slash at each end."""
    attributes = {"layer": cad, "color": _BY_LAYER}
    block.add_line(feet[0], feet[1], dxfattribs=attributes)
    slash = SLASH_MM / 2 * math.sqrt(0.5) * frame.unit_per_mm
    gap, beyond = GAP_MM * frame.unit_per_mm, BEYOND_MM * frame.unit_per_mm
    for point, foot in zip(measured, feet, strict=True):
        length = math.dist(point, foot)
        if length > gap:
            way = ((foot[0] - point[0]) / length, (foot[1] - point[1]) / length)
            near = (point[0] + way[0] * gap, point[1] + way[1] * gap)
            far = (foot[0] + way[0] * beyond, foot[1] + way[1] * beyond)
            block.add_line(near, far, dxfattribs=attributes)
        low, high = (foot[0] - slash, foot[1] - slash), (foot[0] + slash, foot[1] + slash)
        block.add_line(low, high, dxfattribs=attributes)
