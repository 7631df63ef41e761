"""A drawing as it grows: what is drawn, what must stay free, and labels still without a place."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from itertools import pairwise
from operator import gt

from powerplan.model.geometry import Point, Rect
from powerplan.sheets.labels import Inked, Label, Placed, line_places, place_labels
from powerplan.sheets.lower import (
    BEYOND_MM,
    MASK_PAD_MM,
    dimension_ends,
    dimension_text,
    text_corners,
)
from powerplan.sheets.patches import Patch, around, within
from powerplan.sheets.scene import Arc, Dimension, Hatch, Item, Line, Text, View

_EDGE_MM = 1.0
_WEIGHTS = {
    "wall": 10.0,
    "cord": 6.0,
    "link": 6.0,
    "extension": 6.0,
    "home_run": 1.0,
    "chalk": 0.8,
    "drift": 0.6,
    "box": 1.0,
    "door": 0.3,
    "center": 0.4,
    "dimension": 0.5,
    "diagonal": 0.3,
    "joist": 0.05,
}
_LIGHT = 0.25


@dataclass(slots=True)
class Sketch:
    """A drawing at one scale. Points are in the room frame [m]; what lies outside ``window`` is
    cut off, but for what is drawn with ``cut=False``. Words pass through ``local`` first."""

    scale: int
    window: Rect
    local: Callable[[str], str] = str
    items: list[Item] = field(default_factory=list)
    _taken: list[Patch] = field(default_factory=list)
    _inked: list[Inked] = field(default_factory=list)
    _labels: list[Label] = field(default_factory=list)
    _extent: list[Patch] = field(default_factory=list)

    def meters(self, paper_mm: float) -> float:
        """Millimeters of paper as meters of floor. [mm in, m out]"""
        return paper_mm * self.scale / 1000

    def paper(self, point: Point) -> Point:
        """A point of the room on paper. [m in, mm out]"""
        return (point[0] * 1000 / self.scale, point[1] * 1000 / self.scale)

    def sees(self, point: Point) -> bool:
        """True when a point lies in the window. [m]"""
        return self.window.has(point)

    def seen(self, way: tuple[Point, ...]) -> tuple[tuple[Point, ...], ...]:
        """The pieces of a way that lie in the window. [m]"""
        return (way,) if all(map(self.sees, way)) else tuple(self._cut(way))

    def line(
        self, points: Iterable[Point], layer: str, *, closed: bool = False, cut: bool = True
    ) -> None:
        """Draw straight pieces from point to point. [m]"""
        way = tuple(points)
        if cut and not all(map(self.sees, way)):
            ring = (*way, way[0]) if closed else way
            for piece in self._cut(ring):
                self._ink(Line(points=piece, layer=layer))
            return
        self._ink(Line(points=way, layer=layer, closed=closed))

    def _cut(self, way: tuple[Point, ...]) -> list[tuple[Point, ...]]:
        """The parts of a way that lie in the window; pieces that follow each other stay one."""
        pieces: list[list[Point]] = []
        frame = _patch(self.window)
        for start, end in pairwise(way):
            part = within(start, end, frame)
            if part is None:
                continue
            one = _along(start, end, part[0])
            two = _along(start, end, part[1])
            if pieces and pieces[-1][-1] == one:
                pieces[-1].append(two)
            else:
                pieces.append([one, two])
        return [tuple(piece) for piece in pieces]

    def _ink(self, line: Line) -> None:
        self.items.append(line)
        way = [self.paper(point) for point in line.points]
        self._extent.append(around(way))
        ring = [*way, way[0]] if line.closed else way
        weight = _WEIGHTS.get(line.layer, _LIGHT)
        self._inked += [Inked(start, end, weight) for start, end in pairwise(ring)]

    def arc(self, center: Point, radius_m: float, layer: str, turn: tuple[float, float]) -> None:
        """Draw an arc from one angle to another, counter-clockwise. [m, degrees]"""
        x, y = center
        patch = Patch(x - radius_m, y - radius_m, x + radius_m, y + radius_m)
        item = Arc(
            center=center, radius_m=radius_m, start_deg=turn[0], end_deg=turn[1], layer=layer
        )
        self.items.append(item)
        low, high = self.paper((patch.left, patch.low)), self.paper((patch.right, patch.high))
        self._extent.append(Patch(*low, *high))

    def hatch(
        self,
        rect: Rect,
        layer: str,
        *,
        angle_deg: float = 45.0,
        spacing_mm: float = 1.5,
        crossed: bool = False,
    ) -> None:
        """Hatch a rectangle, as far as it lies in the window. [m, degrees, mm]"""
        w = self.window
        left, right = max(rect.left_m, w.left_m), min(rect.right_m, w.right_m)
        back, front = max(rect.back_m, w.back_m), min(rect.front_m, w.front_m)
        if left >= right or back >= front:
            return
        seen = Rect(left_m=left, right_m=right, back_m=back, front_m=front)
        self.fill(seen.outline, layer, angle_deg=angle_deg, spacing_mm=spacing_mm, crossed=crossed)

    def fill(
        self,
        outline: tuple[Point, ...],
        layer: str,
        *,
        angle_deg: float = 45.0,
        spacing_mm: float = 0.0,
        crossed: bool = False,
    ) -> None:
        """Hatch an outline, or with a spacing of 0 fill it with ink. [m, degrees, mm]"""
        self.items.append(
            Hatch(
                outline=outline,
                layer=layer,
                angle_deg=angle_deg,
                spacing_mm=spacing_mm,
                crossed=crossed,
            )
        )
        self._extent.append(around(map(self.paper, outline)))

    def words(self, item: Text) -> Patch:
        """Write words at a fixed place, and keep it free of labels. [m in, mm out]"""
        item = replace(item, words=self.local(item.words))
        self.items.append(item)
        patch = self.patch_of(item)
        self._taken.append(patch)
        self._extent.append(patch)
        return patch

    def patch_of(self, item: Text) -> Patch:
        """The upright rectangle that words take up, with what is cleared behind them. [mm]"""
        at = self.paper(item.at)
        return around(
            text_corners(at, item.words, item.height_mm, item.anchor, item.angle_deg, MASK_PAD_MM)
        )

    def free(self, patch: Patch) -> bool:
        """True when nothing fixed that must be read lies there. [mm]"""
        return not any(patch.overlaps(other) for other in self._taken)

    def dimension(self, item: Dimension) -> None:
        """Draw a measure, and keep its words free of labels. [m]"""
        self.items.append(item)
        ends = [self.paper(end) for end in dimension_ends(item)]
        feet = [self.paper(item.start), self.paper(item.end)]
        patch = self.patch_of(dimension_text(item))
        self._taken.append(patch)
        self._extent += [patch, around((*feet, *ends)).grown(BEYOND_MM)]
        pieces = [(ends[0], ends[1]), (feet[0], ends[0]), (feet[1], ends[1])]
        self._inked += [Inked(*piece, _WEIGHTS["dimension"]) for piece in pieces]

    def reach(self, point: Point) -> None:
        """Let the drawing reach as far as a point, so that labels may stand there. [m]"""
        self._extent.append(around((self.paper(point),)))

    def keep_free(self, patch: Patch) -> None:
        """Let no label stand there. [mm]"""
        self._taken.append(patch)

    def avoid(self, rect: Rect, weight: float) -> None:
        """Make it costly for a label to stand in a rectangle. [m]"""
        a, b, c, d = map(self.paper, rect.outline)
        self._inked += [Inked(a, c, weight), Inked(b, d, weight)]

    def about(self, point: Point, half_mm: float) -> Patch:
        """A square of paper around a point of the room. [m and mm in, mm out]"""
        x, y = self.paper(point)
        return Patch(x - half_mm, y - half_mm, x + half_mm, y + half_mm)

    def label(
        self,
        key: str,
        lines: tuple[str, ...],
        anchors: Iterable[Point],
        *,
        clear_mm: float = 0.0,
        on: bool = False,
        height_mm: float = 2.0,
        home: bool = False,
    ) -> None:
        """Name something; where the label stands is found when the drawing is done. [m, mm]"""
        places = tuple(self.paper(anchor) for anchor in anchors)
        self._labels.append(
            Label(key, tuple(map(self.local, lines)), places, clear_mm, on, height_mm, home)
        )
        self._extent.append(around(places))

    @property
    def least_mm(self) -> tuple[float, float]:
        """Width and height that the drawing takes at least, before its labels have a place. [mm]"""
        whole = _all_around(self._extent).grown(_EDGE_MM)
        return (whole.right - whole.left, whole.high - whole.low)

    def fitted(self, title: str, description: str, room_mm: tuple[float, float]) -> View | None:
        """Place every label, and return the drawing if it fits in a room of paper. [mm]"""
        if any(map(gt, self.least_mm, room_mm)):
            return None
        view = self.view(title, description)
        return None if any(map(gt, view.size_mm, room_mm)) else view

    def view(self, title: str, description: str) -> View:
        """Place every label, and return the drawing with bounds that hold it all."""
        bounds = _all_around(self._extent)
        placed = place_labels(self._labels, self._taken, self._inked, bounds)
        for one in placed:
            self.items += self._label_items(one)
        whole = _all_around([bounds, *(one.patch for one in placed)]).grown(_EDGE_MM)
        left, back = self.meters(whole.left), self.meters(whole.low)
        right, front = self.meters(whole.right), self.meters(whole.high)
        return View(
            title=self.local(title),
            description=self.local(description),
            scale=self.scale,
            bounds=Rect(left_m=left, right_m=right, back_m=back, front_m=front),
            items=tuple(self.items),
        )

    def _label_items(self, placed: Placed) -> list[Item]:
        items: list[Item] = []
        if placed.leader is not None:
            start, end = (self._floor(point) for point in placed.leader)
            items.append(Line(points=(start, end), layer="dimension"))
        for at, line in zip(line_places(placed), placed.label.lines, strict=True):
            items.append(
                Text(
                    at=self._floor(at),
                    words=line,
                    layer=placed.label.layer,
                    height_mm=placed.label.height_mm,
                    mask=True,
                )
            )
        return items

    def _floor(self, point: Point) -> Point:
        """A point of paper in the room. [mm in, m out]"""
        return (self.meters(point[0]), self.meters(point[1]))


def _all_around(patches: Iterable[Patch]) -> Patch:
    corners = [corner for p in patches for corner in ((p.left, p.low), (p.right, p.high))]
    return around(corners)


def _patch(rect: Rect) -> Patch:
    return Patch(rect.left_m, rect.back_m, rect.right_m, rect.front_m)


def _along(start: Point, end: Point, part: float) -> Point:
    if part in (0, 1):
        return end if part else start
    return (start[0] + (end[0] - start[0]) * part, start[1] + (end[1] - start[1]) * part)
