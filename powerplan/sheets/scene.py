"""One drawing, many writers: the few primitives a drawing is made of.

A drawing lives in the room frame, in meters; what people read on it (letters, line widths, dashes)
is in millimeters of paper, because it must be legible at any scale. ``layer`` is a key of the layer
table (``sheets/data/layers.csv``), which gives each its CAD name, weight, dash and meaning.
"""

from __future__ import annotations

from dataclasses import dataclass

from powerplan.model.geometry import Point, Rect


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """Straight pieces from point to point; ``closed`` joins the last to the first. [m]"""

    points: tuple[Point, ...]
    layer: str
    closed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Arc:
    """Part of a circle, counter-clockwise; 0 to 360 is the whole. [m, degrees]"""

    center: Point
    radius_m: float
    start_deg: float
    end_deg: float
    layer: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Hatch:
    """An area filled with parallel lines, ``spacing_mm`` of paper apart, at an angle; a spacing of
    0 fills it with ink. ``crossed`` adds a second set square to the first. [m, mm, degrees]"""

    outline: tuple[Point, ...]
    layer: str
    angle_deg: float = 45.0
    spacing_mm: float = 1.5
    crossed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """Words at a point. ``height_mm`` is the height of a capital letter on paper. ``anchor`` is two
    letters: l, c or r across, and b, m or t up (``"cm"`` is the middle). ``mask`` clears the paper
    behind it. [m, mm, degrees]"""

    at: Point
    words: str
    layer: str
    height_mm: float = 2.0
    anchor: str = "cm"
    angle_deg: float = 0.0
    mask: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimension:
    """A measured distance from ``start`` to ``end`` along x or y only. ``line_at`` is where the
    dimension line stands: its y for one along x, its x for one along y. ``words`` is what is
    printed, ``words_at`` where its middle stands; ``turned`` sets the words square to the line.
    [m, mm]"""

    start: Point
    end: Point
    along: str
    line_at: float
    words: str
    words_at: Point
    layer: str = "dimension"
    height_mm: float = 2.0
    turned: bool = False


Item = Line | Arc | Hatch | Text | Dimension


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """A drawing made for one scale (``scale`` 48 is 1:48, that is 1/4 in to the foot).

    ``bounds`` is all the floor and margin it takes up, labels and dimensions included. ``title``
    and ``description`` are for those who cannot see it. [m]
    """

    title: str
    description: str
    scale: int
    bounds: Rect
    items: tuple[Item, ...]

    @property
    def width_mm(self) -> float:
        """Width on paper. [mm]"""
        return self.bounds.width_m * 1000 / self.scale

    @property
    def height_mm(self) -> float:
        """Height on paper. [mm]"""
        return self.bounds.depth_m * 1000 / self.scale

    @property
    def size_mm(self) -> tuple[float, float]:
        """Width and height on paper. [mm]"""
        return (self.width_mm, self.height_mm)
