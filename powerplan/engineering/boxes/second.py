"""Two marks of which one is clear wherever the joists lie."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from powerplan.engineering.boxes.constraints import Sizes
from powerplan.engineering.boxes.framing import BACK_TO_SCREEN, Deck
from powerplan.engineering.boxes.region import Cell, Spot, nearest_step, squared, ticks

_Pair = tuple[int, int]


class Band(NamedTuple):
    """How wide a strip across each joist is forbidden to a middle, and how far joists are apart.

    Two middles D apart across the joists are never both in a strip when
    ``width <= D mod spacing <= spacing - width``. [half micrometer]
    """

    width: int
    spacing: int


def bands_of(deck: Deck, sizes: Sizes) -> tuple[Band | None, Band | None] | None:
    """Return the bands that two marks have to be parted by: left to right, and back to screen.

    Parameters
    ----------
    deck : Deck
        What the box is cut into; where its joists lie is not known. [half micrometer]
    sizes : Sizes
        The box. [half micrometer]

    Returns
    -------
    tuple of (Band or None), or None
        None for a direction across which no joist can run; None for all where spacing or width is
        not known, so that nothing can be promised. [half micrometer]
    """
    framing = deck.framing
    if framing.spacing_m is None or framing.joist_width_m is None:
        return None
    spacing, wood = ticks(framing.spacing_m), ticks(framing.joist_width_m) + 2 * sizes.margin
    across = Band(wood + sizes.cut_width, spacing)
    along = Band(wood + sizes.cut_depth, spacing)
    if framing.joists_run is None:
        return across, along
    return (across, None) if framing.joists_run == BACK_TO_SCREEN else (None, along)


def two_marks(
    parts: tuple[Cell, ...],
    ideal: Spot,
    bands: tuple[Band | None, Band | None],
    steps: Iterable[int],
) -> tuple[Spot, Spot] | None:
    """Return two middles, one of which is clear wherever the joists lie, the nearer one first.

    The pair's farther middle is as near the ideal as can be, direction by direction. The first step
    whose grid has a pair is used, so a pair is found wherever one exists on the finest.

    Parameters
    ----------
    parts : tuple of Cell
        Where a middle may stand, joists apart. [half micrometer]
    ideal : tuple of int
        Where it would stand best. [half micrometer]
    bands : tuple of (Band or None)
        What the two have to be parted by, left to right and back to screen. [half micrometer]
    steps : iterable of int
        Grids to try in turn, from the room's back-left corner. [half micrometer]

    Returns
    -------
    tuple of tuple of int, or None
        None where there is no such pair. [half micrometer]
    """
    for step in steps:
        found = []
        for one in parts:
            for other in parts:
                xs = _axis(
                    (one.left, one.right), (other.left, other.right), ideal[0], bands[0], step
                )
                ys = _axis(
                    (one.back, one.front), (other.back, other.front), ideal[1], bands[1], step
                )
                if xs is not None and ys is not None:
                    found.append(((xs[0], ys[0]), (xs[1], ys[1])))
        if found:
            ordered = (
                sorted(pair, key=lambda spot: (squared(spot, ideal), spot)) for pair in found
            )
            first, second = min(ordered, key=lambda pair: (squared(pair[1], ideal), pair))
            return first, second
    return None


def free_play(clip: Cell, mark: Spot, second: Spot, bands: tuple[Band | None, Band | None]) -> Cell:
    """Return where the first mark may move so that one of the two is still clear.

    Parameters
    ----------
    clip : Cell
        Where it might move but for that. [half micrometer]
    mark, second : tuple of int
        The two marks, parted by the bands. [half micrometer]
    bands : tuple of (Band or None)
        Left to right and back to screen. [half micrometer]
    """
    left, right = _play((clip.left, clip.right), mark[0], second[0], bands[0])
    back, front = _play((clip.back, clip.front), mark[1], second[1], bands[1])
    return Cell(left, right, back, front)


def _play(limits: _Pair, one: int, other: int, band: Band | None) -> _Pair:
    if band is None:
        return limits
    apart = (other - one) % band.spacing
    low, high = one + apart - (band.spacing - band.width), one + apart - band.width
    return max(limits[0], low), min(limits[1], high)


def _axis(one: _Pair, other: _Pair, ideal: int, band: Band | None, step: int) -> _Pair | None:
    """The best places, one in each of two stretches, that a band parts; any where there is none."""
    if band is None:
        a = nearest_step(*one, ideal, step)
        b = nearest_step(*other, ideal, step)
        return None if a is None or b is None else (a, b)
    if 2 * band.width > band.spacing:
        return None
    found = []
    first = (other[0] - one[1]) // band.spacing - 1
    last = (other[1] - one[0]) // band.spacing + 1
    for number in range(first, last + 1):
        low = number * band.spacing + band.width
        high = (number + 1) * band.spacing - band.width
        found.extend(_in_window(one, other, ideal, (low, high), step))
    return min(found, key=lambda pair: _worth(pair, ideal), default=None)


def _in_window(one: _Pair, other: _Pair, ideal: int, window: _Pair, step: int) -> list[_Pair]:
    """Pairs (a, b) on a grid with b - a in a window: at the limits and as even as can be."""
    one, other = _on_grid(one, step), _on_grid(other, step)
    low, high = _on_grid(window, step)
    if low > high or one[0] > one[1] or other[0] > other[1]:
        return []
    start, stop = max(one[0], other[0] - high), min(one[1], other[1] - low)
    apart = min(max(0, low), high)
    wanted = {start, stop, ideal, ideal - apart // 2, ideal - apart}
    pairs = []
    for place in wanted:
        a = nearest_step(start, stop, place, step)
        if a is None:
            continue
        b = nearest_step(max(other[0], a + low), min(other[1], a + high), ideal, step)
        if b is not None:
            pairs.append((a, b))
    return pairs


def _on_grid(limits: _Pair, step: int) -> _Pair:
    return -(-limits[0] // step) * step, limits[1] // step * step


def _worth(pair: _Pair, ideal: int) -> tuple[int, int, int]:
    far, near = sorted((abs(place - ideal) for place in pair), reverse=True)
    return far, near, pair[0]
