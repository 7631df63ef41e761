"""What is drawn, as entities of a DXF file, not lowered: CAD can measure and edit it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

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

    from powerplan.sheets.writers.dxf_entities import Entities

Tag = tuple[int, str | float]
"""A group code and its value."""

STYLE = "POWERPLAN"
_MASK = 1.3  # of the height of the letters
_CANVAS = 3  # the mask has the color of the paper
_CHUNK = 250
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


def add_item(entities: Entities, item: Item, frame: Frame, document: Document, style: str) -> None:
    """Add one item of a view.

    Parameters
    ----------
    entities : Entities
        Those of model space.
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
        _line(entities, item, frame)
    elif isinstance(item, Arc):
        _arc(entities, item, frame)
    elif isinstance(item, Hatch):
        _hatch(entities, item, frame)
    elif isinstance(item, Text):
        _text(entities, item, frame)
    else:
        _dimension(entities, item, frame, document, style)


def _line(entities: Entities, line: Line, frame: Frame) -> None:
    points = [frame.place(point) for point in line.points]
    corners = [tag for x, y in points for tag in ((10, x), (20, y))]
    tags = (*_dashed(frame, "AcDbPolyline"), (90, len(points)), (70, int(line.closed)), *corners)
    entities.add("LWPOLYLINE", layer(line.layer).cad, tags)


def _dashed(frame: Frame, kind: str) -> tuple[Tag, Tag]:
    """How long a millimeter of dash is, and the class of what follows."""
    return ((48, frame.unit_per_mm), (100, kind))


def _place(code: int, point: Point) -> tuple[Tag, Tag, Tag]:
    """The three values of a point in the plane, of which the first has the code."""
    return ((code, point[0]), (code + 10, point[1]), (code + 20, 0.0))


def _arc(entities: Entities, arc: Arc, frame: Frame) -> None:
    center, radius = frame.place(arc.center), arc.radius_m * frame.unit_per_m
    tags = (*_dashed(frame, "AcDbCircle"), *_place(10, center), (40, radius))
    if arc.end_deg - arc.start_deg >= 360:
        entities.add("CIRCLE", layer(arc.layer).cad, tags)
    else:
        turn = ((100, "AcDbArc"), (50, arc.start_deg), (51, arc.end_deg))
        entities.add("ARC", layer(arc.layer).cad, (*tags, *turn))


def _hatch(entities: Entities, hatch: Hatch, frame: Frame) -> None:
    lined = hatch.spacing_mm > 0
    points = [frame.place(point) for point in hatch.outline]
    outline = [tag for x, y in points for tag in ((10, x), (20, y))]
    entities.add(
        "HATCH",
        layer(hatch.layer).cad,
        (
            (100, "AcDbHatch"),
            *_place(10, (0.0, 0.0)),
            *((210, 0.0), (220, 0.0), (230, 1.0)),
            *((2, "PLAN" if lined else "SOLID"), (70, 0 if lined else 1), (71, 0)),
            *((91, 1), (92, 3), (72, 0), (73, 1), (93, len(points)), *outline, (97, 0)),
            *(_pattern(hatch, frame) if lined else ((75, 0), (76, 1))),
            (98, 0),
        ),
    )


def _pattern(hatch: Hatch, frame: Frame) -> list[Tag]:
    """The lines of a hatch, one or two sets of them."""
    angles = [hatch.angle_deg, hatch.angle_deg + 90] if hatch.crossed else [hatch.angle_deg]
    spacing = hatch.spacing_mm * frame.unit_per_mm
    tags: list[Tag] = [(75, 1), (76, 0), (52, 0.0), (41, 1.0), (77, 0), (78, len(angles))]
    for angle in angles:
        across, up = _across(angle, spacing)
        tags += [(53, angle), (43, 0.0), (44, 0.0), (45, across), (46, up), (79, 0)]
    return tags


def _across(angle_deg: float, spacing: float) -> Point:
    """The step from one line of a pattern to the next, square to the lines."""
    turned = math.radians(angle_deg + 90)
    return (spacing * math.cos(turned), spacing * math.sin(turned))


def _text(entities: Entities, text: Text, frame: Frame) -> None:
    at, cad = frame.place(text.at), layer(text.layer).cad
    height = text.height_mm * frame.unit_per_mm
    across, up = text.anchor[0], text.anchor[1]
    if text.mask:
        attached = _ATTACHED[up] + _HALIGN[across]
        tags = (
            *((100, "AcDbMText"), *_place(10, at), (40, height), (41, 0.0), (71, attached)),
            *(*_long_text(mtext_words(text.words)), (7, STYLE), (50, text.angle_deg)),
            *((45, _MASK), (90, _CANVAS), (63, 0)),
        )
        entities.add("MTEXT", cad, tags)
        return
    aligned = ((72, _HALIGN[across]), *_place(11, at), (100, "AcDbText"), (73, _VALIGN[up]))
    tags = (
        *((100, "AcDbText"), *_place(10, at), (40, height), (1, dxf_words(text.words))),
        *((50, text.angle_deg), (7, STYLE), *aligned),
    )
    entities.add("TEXT", cad, tags)


def _long_text(words: str) -> list[Tag]:
    """The words of a masked text, in pieces of 250 letters of which the last has code 1."""
    pieces = [words[start : start + _CHUNK] for start in range(0, len(words), _CHUNK)] or [""]
    return [*((3, piece) for piece in pieces[:-1]), (1, pieces[-1])]


def _dimension(
    entities: Entities, item: Dimension, frame: Frame, document: Document, style: str
) -> None:
    start, end = frame.place(item.start), frame.place(item.end)
    feet = [frame.place(foot) for foot in dimension_ends(item)]
    along_x = item.along == "x"
    words = dimension_text(item)
    turned = ((53, words.angle_deg),) if words.angle_deg else ()
    block = document.blocks.new_anonymous_block(type_char="D")
    inside = entities.inside(block)
    _dimension_lines(inside, (start, end), feet, frame, layer(item.layer).cad)
    _text(inside, words, frame)
    measured = abs(end[0] - start[0]) if along_x else abs(end[1] - start[1])
    entities.add(
        "DIMENSION",
        layer(item.layer).cad,
        (
            *((100, "AcDbDimension"), (280, 0), (2, block.name), (3, style)),
            *(*_place(10, feet[1]), *_place(11, frame.place(item.words_at))),
            (70, 32 | 128),  # linear; its block is its own; its words are where we put them
            *((71, 5), (42, measured), (1, mtext_words(item.words)), *turned),
            *((100, "AcDbAlignedDimension"), *_place(13, start), *_place(14, end)),
            *((50, 0.0 if along_x else 90.0), (100, "AcDbRotatedDimension")),
        ),
    )


def _dimension_lines(
    entities: Entities, measured: tuple[Point, Point], feet: list[Point], frame: Frame, cad: str
) -> None:
    """The dimension line, its two extension lines, and a slash at each end."""

    def straight(start: Point, end: Point) -> None:
        entities.add("LINE", cad, ((100, "AcDbLine"), *_place(10, start), *_place(11, end)))

    straight(feet[0], feet[1])
    slash = SLASH_MM / 2 * math.sqrt(0.5) * frame.unit_per_mm
    gap, beyond = GAP_MM * frame.unit_per_mm, BEYOND_MM * frame.unit_per_mm
    for point, foot in zip(measured, feet, strict=True):
        length = math.dist(point, foot)
        if length > gap:
            way = ((foot[0] - point[0]) / length, (foot[1] - point[1]) / length)
            near = (point[0] + way[0] * gap, point[1] + way[1] * gap)
            straight(near, (foot[0] + way[0] * beyond, foot[1] + way[1] * beyond))
        straight((foot[0] - slash, foot[1] - slash), (foot[0] + slash, foot[1] + slash))
