"""Arithmetic on upright rectangles of floor: cutting, tiling and distances, exact to 1 um."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from itertools import pairwise

from powerplan.model.geometry import Rect

# Half of the micrometer in which lengths are compared: what is nearer than this is one line.
_SAME_M = 5e-7

_Span = tuple[float, float]


def on_grid(length_m: float) -> float:
    """Return a length on the grid of one micrometer that all lengths of a plan keep to.

    Parameters
    ----------
    length_m : float
        Any length. [m]

    Returns
    -------
    float
        The nearest whole micrometer. [m]
    """
    return round(length_m, 6) + 0.0


def grid_rect(left_m: float, right_m: float, back_m: float, front_m: float) -> Rect:
    """Return a rectangle with its edges on the grid of one micrometer.

    Parameters
    ----------
    left_m, right_m, back_m, front_m : float
        Its edges. [m]
    """
    return Rect(
        left_m=on_grid(left_m),
        right_m=on_grid(right_m),
        back_m=on_grid(back_m),
        front_m=on_grid(front_m),
    )


def shared(one: Rect, other: Rect) -> Rect | None:
    """Return the floor that two rectangles share, or None; a shared edge is not shared floor.

    Parameters
    ----------
    one, other : Rect
        Two rectangles of floor. [m]
    """
    if not one.overlaps(other):
        return None
    return Rect(
        left_m=max(one.left_m, other.left_m),
        right_m=min(one.right_m, other.right_m),
        back_m=max(one.back_m, other.back_m),
        front_m=min(one.front_m, other.front_m),
    )


def gap_m(one: Rect, other: Rect) -> float:
    """Return how far two rectangles are apart; negative is the least shift that parts them.

    Parameters
    ----------
    one, other : Rect
        Two rectangles of floor. [m]

    Returns
    -------
    float
        Distance, 0 where they touch, negative where they overlap. [m]
    """
    aside = max(one.left_m - other.right_m, other.left_m - one.right_m)
    ahead = max(one.back_m - other.front_m, other.back_m - one.front_m)
    if aside > 0 and ahead > 0:
        return float((aside**2 + ahead**2) ** 0.5)
    return max(aside, ahead)


def tiles(floor: Iterable[Rect], holes: Iterable[Rect]) -> tuple[Rect, ...]:
    """Return rectangles that do not overlap and together are a floor less its holes.

    Rows of tiles and columns of tiles are both tried and the fewer are given (rows on a tie); for
    one rectangle with one hole, or with one notch, no tiling has fewer.

    Parameters
    ----------
    floor : iterable of Rect
        What there is; pieces may overlap. [m]
    holes : iterable of Rect
        What is taken away. [m]

    Returns
    -------
    tuple of Rect
        The tiles, from the back, then from the left. [m]
    """
    keep, away = tuple(floor), tuple(holes)
    by_rows = _slabs(keep, away)
    turned = _slabs(tuple(map(_turned, keep)), tuple(map(_turned, away)))
    best = by_rows if len(by_rows) <= len(turned) else tuple(map(_turned, turned))
    return tuple(sorted(best, key=lambda tile: (tile.back_m, tile.left_m)))


def spans_less(span: _Span, holes: Iterable[_Span]) -> tuple[_Span, ...]:
    """Return what is left of a stretch when others are taken out of it.

    Parameters
    ----------
    span : tuple of float
        Start and end. [m]
    holes : iterable of tuple of float
        Starts and ends of what is taken away. [m]

    Returns
    -------
    tuple of tuple of float
        The stretches left, rising. [m]
    """
    left: list[_Span] = []
    start = span[0]
    for hole_start, hole_end in sorted(holes):
        if hole_start - start > _SAME_M:
            left.append((start, min(hole_start, span[1])))
        start = max(start, hole_end)
        if span[1] - start <= _SAME_M:
            return tuple(left)
    if span[1] - start > _SAME_M:
        left.append((start, span[1]))
    return tuple(left)


def _slabs(keep: tuple[Rect, ...], away: tuple[Rect, ...]) -> tuple[Rect, ...]:
    """Tiles as wide as they can be, joined toward the front where their sides line up."""
    lines = _lines(keep + away, lambda rect: (rect.back_m, rect.front_m))
    done: list[Rect] = []
    open_tiles: list[Rect] = []
    for back_m, front_m in pairwise(lines):
        middle = (back_m + front_m) / 2
        spans = _spans_at(middle, keep, away)
        grown_tiles, ended = _carried_on(open_tiles, spans, back_m, front_m)
        done.extend(ended)
        open_tiles = grown_tiles
    return tuple(done + open_tiles)


def _carried_on(
    open_tiles: list[Rect], spans: tuple[_Span, ...], back_m: float, front_m: float
) -> tuple[list[Rect], list[Rect]]:
    """Carry tiles on into the next slab where the span is the same; return those and the ended."""
    carried: list[Rect] = []
    ended = list(open_tiles)
    for left_m, right_m in spans:
        same = [
            tile
            for tile in ended
            if abs(tile.left_m - left_m) <= _SAME_M and abs(tile.right_m - right_m) <= _SAME_M
        ]
        start = back_m
        if same:
            start = same[0].back_m
            ended.remove(same[0])
        carried.append(Rect(left_m=left_m, right_m=right_m, back_m=start, front_m=front_m))
    return carried, ended


def _spans_at(y_m: float, keep: tuple[Rect, ...], away: tuple[Rect, ...]) -> tuple[_Span, ...]:
    """The stretches, left to right, of floor that is there at a distance from the back wall."""
    there = sorted((r.left_m, r.right_m) for r in keep if r.back_m < y_m < r.front_m)
    merged: list[_Span] = []
    for left_m, right_m in there:
        if merged and left_m - merged[-1][1] <= _SAME_M:
            merged[-1] = (merged[-1][0], max(merged[-1][1], right_m))
        else:
            merged.append((left_m, right_m))
    holes = [(r.left_m, r.right_m) for r in away if r.back_m < y_m < r.front_m]
    return tuple(piece for span in merged for piece in spans_less(span, holes))


def _lines(rects: tuple[Rect, ...], ends: Callable[[Rect], _Span]) -> list[float]:
    """Every edge's place, rising, those nearer than half a micrometer taken as one."""
    lines: list[float] = []
    for place in sorted(place for rect in rects for place in ends(rect)):
        if not lines or place - lines[-1] > _SAME_M:
            lines.append(place)
    return lines


def _turned(rect: Rect) -> Rect:
    return Rect(left_m=rect.back_m, right_m=rect.front_m, back_m=rect.left_m, front_m=rect.right_m)
