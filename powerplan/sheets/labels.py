"""Where labels stand on a drawing, so that none covers another, a measure or a symbol.

The most hemmed-in label is placed first, each at its best free place near what it names; a label
that finds none near moves one neighbor out of the way if that helps, and else goes outward on
growing rings and gets a leader. Guarantee: what is returned never overlaps, since the rings leave
every finite drawing at last. No claim that the whole is the best arrangement there is.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from powerplan.model.geometry import Point
from powerplan.sheets.fonts import text_width_mm
from powerplan.sheets.lower import DESCENT
from powerplan.sheets.patches import Patch, Shelf, any_over, span, those_near, within

PAD_MM = 0.5
# To each side more than a blank is wide, so that no two labels read as one phrase.
_ASIDE_MM = 1.0
LINE_STEP = 1.75
LEADER_FROM_MM = 2.2

_RINGS_MM = (0.7, 1.8, 3.6, 6.5)
_RING_STEP_MM = 4.0


def _sign(part: float) -> float:
    return 0.0 if abs(part) < 0.1 else math.copysign(1.0, part)


_NEAR = 5.0
_OUTSIDE, _ON_LEADER, _NEXT_ANCHOR, _TURNED = 4.0, 3.0, 0.2, 0.04
# Cosine and sine of each way that a label may stand off its anchor, their signs, and its cost.
_DIRECTIONS = tuple(
    (cos, sin, _sign(cos), _sign(sin), _TURNED * number)
    for number, turn in enumerate((90, 0, 180, 270, 45, 135, 315, 225, 22.5, 157.5, 337.5, 202.5))
    for cos, sin in [(math.cos(math.radians(turn)), math.sin(math.radians(turn)))]
)
_COVERED, _HEAVY = 3.5, 5.0
# Of hatching a little covered is better than much.
_EACH_HEAVY, _MOST_HEAVY = 0.4, 6.0
_FROM_HOME = 6.0
_MOVED_RINGS = 3
_PASSES = 2
_OWN_MM = 0.2


class Label(NamedTuple):
    """Lines of words that name something. ``anchors`` are places of it, the best first; labels
    keep ``clear_mm`` from them, or may stand right on them with ``on``. A label with ``home`` names
    the room around its anchors: it is placed first, and seldom leaves them. [mm]"""

    key: str
    lines: tuple[str, ...]
    anchors: tuple[Point, ...]
    clear_mm: float = 0.0
    on: bool = False
    height_mm: float = 2.0
    home: bool = False
    layer: str = "text"


class Inked(NamedTuple):
    """A straight piece of a line, and how bad it is to cover it. [mm]"""

    start: Point
    end: Point
    weight: float


class Placed(NamedTuple):
    """A label where it stands; ``leader`` leads from its anchor to it, where it stands apart."""

    label: Label
    patch: Patch
    leader: tuple[Point, Point] | None
    cost: float


def label_size(label: Label) -> tuple[float, float]:
    """Return width and height that a label takes up, with a little air around it. [mm]"""
    width = max(text_width_mm(line, label.height_mm) for line in label.lines)
    step = label.height_mm * LINE_STEP
    height = label.height_mm * (1 + DESCENT) + step * (len(label.lines) - 1)
    return (width + 2 * _ASIDE_MM, height + 2 * PAD_MM)


def line_places(placed: Placed) -> tuple[Point, ...]:
    """Return where the middle of each line of a placed label stands, the first on top. [mm]"""
    label, patch = placed.label, placed.patch
    x = patch.middle[0]
    first = patch.high - PAD_MM - label.height_mm / 2
    step = label.height_mm * LINE_STEP
    return tuple((x, first - step * number) for number in range(len(label.lines)))


def place_labels(
    labels: Sequence[Label], taken: Sequence[Patch], lines: Sequence[Inked], bounds: Patch
) -> tuple[Placed, ...]:
    """Return a place for every label, in the order given.

    Parameters
    ----------
    labels : sequence of Label
        What to place; each key once.
    taken : sequence of Patch
        What no label may cover. [mm]
    lines : sequence of Inked
        What labels had better not cover. [mm]
    bounds : Patch
        The drawing so far; labels stay inside where they can. [mm]

    Raises
    ------
    ValueError
        If two labels have the same key.
    """
    if len({label.key for label in labels}) < len(labels):
        raise ValueError("two labels have the same key")
    board = _Board(taken, lines, bounds)
    hemmed = {label.key: board.free_near(label) for label in labels}
    for label in sorted(labels, key=lambda label: (not label.home, hemmed[label.key], label.key)):
        board.place(label)
    for _ in range(_PASSES):
        before = dict(board.placed)
        for label in labels:
            board.lift(label.key)
            board.place(label)
        if board.placed == before:
            break
    return tuple(board.placed[label.key] for label in labels)


class _Spot:
    """A place that a label might take; its leader and what it costs are worked out when asked."""

    __slots__ = ("anchor", "base", "cost", "leader", "patch")

    def __init__(self, anchor: Point, patch: Patch, base: float) -> None:
        self.anchor, self.patch, self.base = anchor, patch, base
        self.cost: float | None = None
        self.leader: tuple[Point, Point] | None = None


class _Round(NamedTuple):
    """The places of a label round one anchor, the cheapest first; ``taken`` is what is taken within
    their ``reach``."""

    label: Label
    spots: list[_Spot]
    reach: Patch
    taken: list[Patch]


class _Board:
    """The drawing while labels are being placed."""

    def __init__(self, taken: Sequence[Patch], lines: Sequence[Inked], bounds: Patch) -> None:
        self.placed: dict[str, Placed] = {}
        self._bounds = bounds
        self._taken = tuple(taken)
        self._lines: Shelf[Inked] = Shelf()
        self._known: dict[str, list[list[_Round]]] = {}
        for line in lines:
            self._lines.put(line, span(line.start, line.end))

    def free_near(self, label: Label) -> int:
        """How many of the nearest places of a label nothing fixed covers."""
        return sum(
            not any_over(spot.patch, near.taken)
            for near in self._ring(label, 0)
            for spot in near.spots
        )

    def lift(self, key: str) -> None:
        """Take a label off the board."""
        del self.placed[key]

    def place(self, label: Label) -> None:
        """Put a label where it is best as things stand; move a neighbor if that helps."""
        best = self._best(label)
        if best.cost > _NEAR and self._make_way(label, best.cost):
            return
        self._put(best)

    def _put(self, placed: Placed) -> None:
        self.placed[placed.label.key] = placed

    def _make_way(self, label: Label, cost: float) -> bool:
        """Move one neighbor out of a near place, if both together then stand better."""
        rounds = [one for ring in range(_MOVED_RINGS) for one in self._ring(label, ring)]
        for near, spot in ((one, spot) for one in rounds for spot in one.spots):
            blockers = self._blockers(spot.patch)
            if len(blockers) != 1 or spot.base >= cost or self._cost(spot, near) >= cost:
                continue
            other = blockers[0]
            self.lift(other.label.key)
            self._put(Placed(label, spot.patch, spot.leader, self._cost(spot, near)))
            moved = self._best(other.label)
            if self._cost(spot, near) + moved.cost < cost + other.cost:
                self._put(moved)
                return True
            self.lift(label.key)
            self._put(other)
        return False

    def _blockers(self, patch: Patch) -> list[Placed]:
        return [other for other in self.placed.values() if other.patch.overlaps(patch)]

    def _best(self, label: Label) -> Placed:
        best: Placed | None = None
        most, ring = math.inf, 0
        placed = [other.patch for other in self.placed.values()]
        while best is None or most > ring_mm(ring):
            for near in self._ring(label, ring):
                if near.spots[0].base >= most:
                    continue
                others = those_near(near.reach, placed)
                for spot in near.spots:
                    if spot.base >= most or any_over(spot.patch, others):
                        continue
                    cost = self._cost(spot, near)
                    if cost < most:
                        cost += self._crossed(spot)
                    if cost < most:
                        best, most = Placed(label, spot.patch, spot.leader, cost), cost
            ring += 1
        return best

    def _crossed(self, spot: _Spot) -> float:
        """What it costs that a leader runs under a label, or a label stands on a leader."""
        cost = 0.0
        for other in self.placed.values():
            if spot.leader and within(*spot.leader, other.patch):
                cost += _ON_LEADER
            if other.leader and within(*other.leader, spot.patch):
                cost += _ON_LEADER
        return cost

    def _ring(self, label: Label, ring: int) -> list[_Round]:
        rings = self._known.setdefault(label.key, [])
        while len(rings) <= ring:
            found = _candidates(label, len(rings))
            rings.append([_Round(label, *one, those_near(one[1], self._taken)) for one in found])
        return rings[ring]

    def _cost(self, spot: _Spot, near: _Round) -> float:
        """What a place costs by what is drawn; endless where something fixed is in the way."""
        if spot.cost is None:
            if any_over(spot.patch, near.taken):
                spot.cost = math.inf
            else:
                spot.leader = _leader(near.label, spot.anchor, spot.patch)
                outside = 0.0 if self._bounds.holds(spot.patch) else _OUTSIDE
                spot.cost = spot.base + outside + self._ink_under(spot, near)
        return spot.cost

    def _ink_under(self, spot: _Spot, near: _Round) -> float:
        """What it costs to cover lines; one that a label stands on as its name costs nothing."""
        at = Patch(*spot.anchor, *spot.anchor)
        own = at.grown(_OWN_MM) if spot.patch.holds(at) else None
        light = heavy = more = 0.0
        for line in self._lines.near(spot.patch):
            if within(line.start, line.end, spot.patch) is None:
                continue
            if own is not None and within(line.start, line.end, own) is not None:
                continue
            if line.weight >= _HEAVY:
                heavy, more = max(heavy, line.weight), more + _EACH_HEAVY
            else:
                light += line.weight
        cost = min(light, _COVERED) + heavy + min(more, _MOST_HEAVY)
        if spot.leader is not None:
            under = [within(*spot.leader, other) for other in near.taken]
            cost += _ON_LEADER * (len(under) - under.count(None))
        return cost


def ring_mm(ring: int) -> float:
    """Return how far a ring's labels stand from what they name. [mm]"""
    if ring < len(_RINGS_MM):
        return _RINGS_MM[ring]
    return _RINGS_MM[-1] + _RING_STEP_MM * (ring - len(_RINGS_MM) + 1)


def _candidates(label: Label, ring: int) -> Iterator[tuple[list[_Spot], Patch]]:
    """The places of a ring and their reach, for each anchor; the cheapest place first."""
    size = label_size(label)
    wide, high = size[0] / 2, size[1] / 2
    apart = ring_mm(ring)
    away = label.clear_mm + apart
    home = apart + _FROM_HOME * label.home
    middles = [
        (away * cos + wide * aside, away * sin + high * above, home + cost)
        for cos, sin, aside, above, cost in _DIRECTIONS
    ]
    if label.on and ring == 0:
        middles = [(0.0, 0.0, 0.0), *middles]
    offsets = [(x - wide, y - high, x + wide, y + high, cost) for x, y, cost in middles]
    reach = (away + size[0], away + size[1])
    for number, anchor in enumerate(label.anchors):
        x, y = anchor
        behind = _NEXT_ANCHOR * number
        yield (
            [
                _Spot(anchor, Patch(x + a, y + b, x + c, y + d), behind + cost)
                for a, b, c, d, cost in offsets
            ],
            Patch(x - reach[0], y - reach[1], x + reach[0], y + reach[1]),
        )


def _leader(label: Label, anchor: Point, patch: Patch) -> tuple[Point, Point] | None:
    end = patch.grown(-PAD_MM / 2).nearest(anchor)
    apart = math.dist(anchor, end)
    if apart <= label.clear_mm + LEADER_FROM_MM:
        return None
    part = label.clear_mm / apart
    start = (anchor[0] + (end[0] - anchor[0]) * part, anchor[1] + (end[1] - anchor[1]) * part)
    return (start, end)
