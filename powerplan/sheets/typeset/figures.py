"""Drawings on paper: whole at their true scale, or in lettered parts with a key plan."""

from __future__ import annotations

from math import ceil
from string import ascii_uppercase

from powerplan.sheets.lower import Stroke, lowered
from powerplan.sheets.paper import BELOW_FIGURE_MM, Paper
from powerplan.sheets.scene import View
from powerplan.sheets.typeset.blocks import STRONG, Block, base_mm
from powerplan.sheets.typeset.ink import Ink, Letters, Picture, Rule, Window, box, moved
from powerplan.sheets.typeset.lines import LEAST_PT, Face, clipped
from powerplan.sheets.typeset.scales import NO_SCALE

OVERLAP_MM = 30.0
"""How much of a drawing two neighboring parts both show. [mm]"""

_SMALL = Face(LEAST_PT + 0.5)
_HAIR_MM = 0.05
_NAME_MM = 9.0
_KEY_MM = (50.0, 30.0)
_KEY_GAP_MM = 3.0
_ABOVE_MM, _BESIDE_MM = 5.0, 11.0
_MATCH_DASH_MM = (6.0, 1.5, 1.5, 1.5)
_BARS = {True: (50.8, "2 in"), False: (50.0, "50 mm")}
_KEY_LAYERS = ("wall", "chair")


def fits(view: View, room_mm: tuple[float, float]) -> bool:
    """Return True when a view fits in a room at its scale.

    Parameters
    ----------
    view : View
        The drawing.
    room_mm : tuple of float
        Width and height there is. [mm]
    """
    return view.width_mm <= room_mm[0] + _HAIR_MM and view.height_mm <= room_mm[1] + _HAIR_MM


def figure_block(view: View, width_mm: float, units: str, scale: str) -> Block:
    """Return a whole drawing, its name and a check bar as one block.

    Parameters
    ----------
    view : View
        The drawing.
    width_mm : float
        The width there is. [mm]
    units : str
        ft-in, in, mm or m: decides how long the check bar is.
    scale : str
        The scale in words.
    """
    window = Window(0.0, 0.0, view.width_mm, view.height_mm)
    left = max(0.0, (width_mm - window.width_mm) / 2)
    below = _below(view.title, window.height_mm, width_mm, units, scale)
    height = window.height_mm + _below_mm(scale)
    return Block(height, (Picture((left, 0.0), view, window), *below), space_mm=3.0)


def upright_or_turned(view: View, paper: Paper) -> Paper:
    """Return the paper as it should lie for a view: upright where that needs no more sheets.

    Parameters
    ----------
    view : View
        The drawing.
    paper : Paper
        The paper, upright.
    """
    return min((paper, paper.turned), key=lambda way: len(_windows(view, _room_mm(view, way))))


def part_blocks(view: View, paper: Paper, units: str, scale: str) -> list[Block]:
    """Return a drawing that is too large for a sheet as parts, one a sheet, left to right and down.

    Neighbors overlap; a match line with the letters of both stands in the middle of what they
    share. Each part carries a key plan of all.

    Parameters
    ----------
    view : View
        The drawing.
    paper : Paper
        The paper as it lies.
    units : str
        ft-in, in, mm or m.
    scale : str
        The scale in words.
    """
    width_mm, _ = paper.most_mm
    windows = _windows(view, _room_mm(view, paper))
    key = _key_plan(view, windows)
    blocks = []
    for number, window in enumerate(windows):
        letter = _letter(number)
        left = _BESIDE_MM + max(0.0, (width_mm - _BESIDE_MM - window.width_mm) / 2)
        ink: list[Ink] = [Picture((left, _ABOVE_MM), view, window)]
        ink += [moved(piece, left, _ABOVE_MM) for piece in _match_lines(windows, number)]
        title = f"Part {letter} of {_letter(len(windows) - 1)}: {view.title}"
        down = _ABOVE_MM + window.height_mm
        ink += _below(title, down, width_mm, units, scale)
        down += BELOW_FIGURE_MM + _KEY_GAP_MM
        ink += _key_ink(key, windows, view, number, down)
        blocks.append(Block(down + _key_size(view)[1], tuple(ink), space_mm=3.0))
    return blocks


def _letter(number: int) -> str:
    """A to Z, then A2, B2 and so on."""
    lap, place = divmod(number, len(ascii_uppercase))
    return ascii_uppercase[place] + (str(lap + 1) if lap else "")


def _room_mm(view: View, paper: Paper) -> tuple[float, float]:
    """Room for a whole view, or for a part of it where the key plan also needs its place."""
    width, height = paper.most_mm
    if fits(view, (width, height)):
        return (width, height)
    return (width - _BESIDE_MM, height - _ABOVE_MM - _key_size(view)[1] - _KEY_GAP_MM)


def _windows(view: View, room_mm: tuple[float, float]) -> list[Window]:
    """Equal parts that overlap, left to right and from the top down."""
    across = _cuts(view.width_mm, room_mm[0])
    up = _cuts(view.height_mm, room_mm[1])
    return [Window(left, low, right, high) for low, high in reversed(up) for left, right in across]


def _cuts(length_mm: float, room_mm: float) -> list[tuple[float, float]]:
    if length_mm <= room_mm + _HAIR_MM:
        return [(0.0, length_mm)]
    count = ceil((length_mm - OVERLAP_MM) / (room_mm - OVERLAP_MM))
    step = (length_mm - OVERLAP_MM) / count
    return [(n * step, n * step + step + OVERLAP_MM) for n in range(count)]


def _match_lines(windows: list[Window], number: int) -> list[Ink]:
    """A line in the middle of each overlap; the part beyond it is named outside the drawing."""
    here = windows[number]
    ink: list[Ink] = []
    half = OVERLAP_MM / 2
    for other, window in enumerate(windows):
        letter = _letter(other)
        if window.bottom_mm == here.bottom_mm:
            if _touch(here.right_mm, window.left_mm):
                ink += _upright_match(here.width_mm - half, here, letter)
            elif _touch(window.right_mm, here.left_mm):
                ink += _upright_match(half, here, letter)
        elif window.left_mm == here.left_mm:
            if _touch(here.top_mm, window.bottom_mm):
                ink += _level_match(half, here, letter)
            elif _touch(window.top_mm, here.bottom_mm):
                ink += _level_match(here.height_mm - half, here, letter)
    return ink


def _touch(end_mm: float, start_mm: float) -> bool:
    return abs(end_mm - OVERLAP_MM - start_mm) < _HAIR_MM


def _upright_match(x_mm: float, here: Window, letter: str) -> list[Ink]:
    words = f"match line, see part {letter}"
    wide = _SMALL.width_mm(words)
    start = min(max(0.0, x_mm - wide / 2), here.width_mm - wide)
    line = Rule(((x_mm, -1.0), (x_mm, here.height_mm)), 0.35, dash_mm=_MATCH_DASH_MM)
    return [line, Letters((start, -1.8), words, _SMALL.size_pt)]


def _level_match(y_mm: float, here: Window, letter: str) -> list[Ink]:
    words = f"see {letter}"
    start = -1.8 - _SMALL.width_mm(words)
    line = Rule(((-1.0, y_mm), (here.width_mm, y_mm)), 0.35, dash_mm=_MATCH_DASH_MM)
    return [line, Letters((start, y_mm + 0.9), words, _SMALL.size_pt)]


def _key_size(view: View) -> tuple[float, float]:
    shrink = min(_KEY_MM[0] / view.width_mm, _KEY_MM[1] / view.height_mm)
    return (view.width_mm * shrink, view.height_mm * shrink)


def _key_plan(view: View, windows: list[Window]) -> list[Rule]:
    """The walls and chairs of a view, small, in a frame."""
    width, height = _key_size(view)
    shrink = width / view.width_mm
    rules = [box(0.0, 0.0, width, height, 0.13)]
    for shape in lowered(view):
        if isinstance(shape, Stroke) and shape.layer in _KEY_LAYERS:
            points = tuple((x * shrink, height - y * shrink) for x, y in shape.points_mm)
            rules.append(Rule(points, 0.1, closed=shape.closed))
    return rules


def _key_ink(
    key: list[Rule], windows: list[Window], view: View, number: int, down_mm: float
) -> list[Ink]:
    """The key plan under a part, with the letters of all parts and this one framed heavily."""
    width, height = _key_size(view)
    shrink = width / view.width_mm
    ink: list[Ink] = [
        rule._replace(points_mm=tuple((x, y + down_mm) for x, y in rule.points_mm)) for rule in key
    ]
    for other, window in enumerate(windows):
        left, top = window.left_mm * shrink, height - window.top_mm * shrink
        size = (window.width_mm * shrink, window.height_mm * shrink)
        if other == number:
            ink.append(box(left, down_mm + top, *size, 0.6))
        middle = (left + size[0] / 2, down_mm + top + size[1] / 2 + 1.3)
        letter = _letter(other)
        middle = (middle[0] - STRONG.width_mm(letter) / 2, middle[1])
        ink.append(Letters(middle, letter, STRONG.size_pt, bold=True))
    words = f"Key plan; the heavy frame is part {_letter(number)}"
    ink.append(Letters((width + 2.0, down_mm + base_mm(_SMALL)), words, _SMALL.size_pt))
    return ink


def _below_mm(scale: str) -> float:
    """Height of what stands under a drawing: less where it has no scale to be checked. [mm]"""
    return _NAME_MM if scale == NO_SCALE else BELOW_FIGURE_MM


def _below(title: str, down_mm: float, width_mm: float, units: str, scale: str) -> list[Ink]:
    """The name and scale of a drawing at the left, the check bar at the right."""
    bar_mm, words = _BARS[units in ("ft-in", "in")]
    left, y = width_mm - bar_mm - 0.5, down_mm + 5.0
    name = clipped(title, left - 6.0, STRONG)
    end = down_mm + _below_mm(scale) - 0.5  # a line that parts it from what follows
    ink: list[Ink] = [name._replace(at_mm=(0.0, down_mm + 6.0))]
    ink.append(Rule(((0.0, end), (width_mm, end)), 0.18))
    if scale == NO_SCALE:
        return ink
    ink.append(Letters((0.0, down_mm + 10.2), scale, _SMALL.size_pt))
    ink.append(Rule(((left, y), (left + bar_mm, y)), 0.25))
    for part in (0.0, 0.25, 0.5, 0.75, 1.0):
        x, tall = left + part * bar_mm, 1.5 if part in (0.0, 1.0) else 0.9
        ink.append(Rule(((x, y - tall), (x, y + tall)), 0.25))
    said = f"{words} when printed at 100 %"
    start = left + (bar_mm - _SMALL.width_mm(said)) / 2
    ink.append(Letters((start, down_mm + 10.2), said, _SMALL.size_pt))
    return ink
