"""The way of each cord in words that an installer follows with a tape."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import pairwise

from powerplan.model.geometry import Point
from powerplan.model.lengths import at_mark_m, length_text, micrometers
from powerplan.model.plan import Cord, Plan
from powerplan.model.spare import path_length_m
from powerplan.model.spec import Wall
from powerplan.sheets.climbs import SLIVER, climbs
from powerplan.sheets.pages.print_places import bend_words, place_words
from powerplan.sheets.pages.print_rows import SetRow, number_m
from powerplan.sheets.pages.print_sums import Leg, added_up
from powerplan.sheets.pages.print_swings import STRAIGHT_M
from powerplan.sheets.pages.print_tags import LINK, plug_text
from powerplan.sheets.pages.print_told import Places
from powerplan.sheets.words import wall_name

_NEAR_M = 0.03
_APART_M = 1e-4
_SLANTING = "slanting"


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A straight piece of a cord's way, or a climb: up or down the edge of a riser, down a wall.

    ``words`` is how it goes, with braces where the measure stands; ``length_m`` is how far it is,
    ``told_m`` what is printed of that, and ``end`` where it arrives. Of all pieces of a way what is
    printed adds up to what is printed of the whole. [m]
    """

    words: str
    length_m: float
    told_m: float
    end: Point


def stretches(cord: Cord, row: SetRow, places: Places) -> tuple[Stretch, ...]:
    """Return the pieces of a cord's way from its feed on; together they are all that lies.

    Parameters
    ----------
    cord : Cord
        The cord.
    row : SetRow
        The row that it serves.
    places : Places
        Where its places are told to be; walls, risers and heights.
    """
    found, plan = [], places.plan
    height_m = _start_height_m(cord, plan)
    if micrometers(height_m):
        found.append(_climb(f"down {{}} to {_ground(cord, plan)}", height_m, cord.path_m[0]))
    for start, end in pairwise(cord.path_m):
        here, before = start, 0.0
        for climb in climbs(start, end, plan):
            if climb.share - before > SLIVER:
                found.append(_level(here, climb.at, row, places))
            found.append(_climb(climb.words, climb.height_m, climb.at))
            here, before = climb.at, climb.share
        if micrometers(math.dist(here, end)):
            found.append(_level(here, end, row, places))
    return _added_up(found, at_mark_m(cord.length_m, plan.spec.project.units), plan)


def _added_up(pieces: list[Stretch], whole_m: float, plan: Plan) -> tuple[Stretch, ...]:
    """Pieces with what is printed of them, which is the whole together. [m]"""
    legs = [Leg(one.length_m, one.told_m, one.words.startswith(_SLANTING)) for one in pieces]
    told = added_up(legs, whole_m, plan.spec.project.units)
    return tuple(replace(one, told_m=told_m) for one, told_m in zip(pieces, told, strict=True))


def way_text(cord: Cord, row: SetRow, places: Places, *, whole: bool = False) -> str:
    """Return a cord's way: each piece with its length, and each bend with where it is.

    Parameters
    ----------
    cord : Cord
        The cord.
    row : SetRow
        The row that it serves; its bends are measured from what is chalked for it.
    places : Places
        Where they are told to be.
    whole : bool
        True to tell where a bend is that has a letter, where the table of bends is not at hand.
    """
    plan = places.plan
    units, link = plan.spec.project.units, cord.kind == LINK
    start = plug_text(cord.from_, plan, last=False, link=link)
    goal = plug_text(cord.to, plan, last=True, link=link)
    pieces = stretches(cord, row, places)
    if not pieces:
        return f"from {start} straight to {goal}"
    told, here = [], cord.path_m[0]
    for piece, following in zip(pieces, (*pieces[1:], None), strict=True):
        words = piece.words.replace("{}", length_text(piece.told_m, units))
        words += _past(here, piece.end, cord, row, places)
        if following is None:
            words += f", to {goal}"
        elif micrometers(math.dist(piece.end, here)):
            words += f", to {_bend(here, piece.end, row, places, whole=whole)}"
        told.append(words)
        here = piece.end
    return f"from {start} {'; '.join(told)}"


def _past(start: Point, end: Point, cord: Cord, row: SetRow, places: Places) -> str:
    """The letter within a piece at which spare leaves it; nothing where there is none."""
    if len(cord.tail_m) < 2:
        return ""
    at = cord.tail_m[0]
    name = places.named(at, row)
    if name is None or any(math.dist(at, other) < _APART_M for other in (start, end)):
        return ""
    beyond_m = math.dist(start, at) + math.dist(at, end) - math.dist(start, end)
    return f" past {name}, where its spare leaves" if beyond_m < _APART_M else ""


def _bend(old: Point, new: Point, row: SetRow, places: Places, *, whole: bool) -> str:
    words = bend_words(old, new, row, places).removeprefix("at ").removeprefix("on ")
    if whole and places.named(new, row) is not None:
        words += f" ({place_words(new, row, places)})"
    return words


def legs_text(path: tuple[Point, ...], row: SetRow, places: Places) -> str:
    """Return the pieces of a level path, each bend with where it is, as ways are told.

    Parameters
    ----------
    path : tuple of Point
        Its points. [m]
    row : SetRow
        The row from which its bends are measured.
    places : Places
        Where they are told to be.
    """
    units, told = places.plan.spec.project.units, []
    whole_m = at_mark_m(path_length_m(path), units)
    levels = [_level(start, end, row, places) for start, end in pairwise(path)]
    pieces = _added_up(levels, whole_m, places.plan)
    for (start, end), piece in zip(pairwise(path), pieces, strict=True):
        words = piece.words.replace("{}", length_text(piece.told_m, units))
        bend = _bend(start, end, row, places, whole=False)
        told.append(words if end == path[-1] else f"{words}, to {bend}")
    return "; ".join(told)


def _climb(words: str, height_m: float, at: Point) -> Stretch:
    return Stretch(words=words, length_m=height_m, told_m=height_m, end=at)


def _level(start: Point, end: Point, row: SetRow, places: Places) -> Stretch:
    """A level piece: its way as the row looks, or on an arc as the room does."""
    length_m = math.dist(start, end)
    told_m = math.dist(places.spot(start, row), places.spot(end, row))
    (right_m, ahead_m) = (end[0] - start[0], end[1] - start[1])
    if not row.curved and not row.square:
        (from_m, to_m) = (row.chalk.place(at) for at in (start, end))
        right_m, ahead_m = to_m[0] - from_m[0], to_m[1] - from_m[1]
    aside = "right" if right_m > 0 else "left"
    along = "forward" if ahead_m > 0 else "back"
    if row.curved:  # its chairs look each its own way
        along = "toward the screen" if ahead_m > 0 else "toward the back"
    if abs(right_m) < STRAIGHT_M:
        words = along
    elif abs(ahead_m) < STRAIGHT_M:
        words = aside
    else:
        words = f"{_SLANTING} {aside} and {along}"
    words += " {}"
    beside = _beside(start, end, row, places.plan)
    if beside:
        words += f" along {beside}"
    return Stretch(words=words, length_m=length_m, told_m=told_m, end=end)


def _beside(start: Point, end: Point, row: SetRow, plan: Plan) -> str:
    """What a piece runs along: a wall, or the rear of the bases."""
    room = plan.spec.room
    edges = (
        (0, 0.0, Wall.LEFT),
        (0, room.width_m, Wall.RIGHT),
        (1, 0.0, Wall.BACK),
        (1, room.depth_m, Wall.SCREEN),
    )
    for axis, at_m, wall in edges:
        if all(abs(point[axis] - at_m) <= _NEAR_M for point in (start, end)):
            return f"the {wall_name(room, wall)}"
    keep_m = number_m(plan, "cord_clearance") + plan.spec.cords.diameter_m
    behind = [-row.chalk.place(at)[1] for at in (start, end)]
    even = len({micrometers(one.rear_m) for one in row.stands}) == 1
    if even and not row.curved and all(0.0 < off_m <= keep_m + STRAIGHT_M for off_m in behind):
        return "the rear of the bases"
    return ""


def _ground(cord: Cord, plan: Plan) -> str:
    """What a cord comes down to from its socket."""
    at = cord.path_m[0]
    on = [one for one in plan.spec.risers if one.rect.has(at)]
    top = max(on, key=lambda one: (one.height_m, one.id), default=None)
    return "the floor" if top is None else f"the deck of riser {top.id}"


def _start_height_m(cord: Cord, plan: Plan) -> float:
    """How high over the floor the socket is that a cord starts from. [m]"""
    if cord.kind == LINK:
        return 0.0
    heights = {outlet.id: outlet.height_m for outlet in plan.spec.outlets}
    heights |= {box.id: box.height_m for box in plan.boxes}
    return heights.get(cord.from_, 0.0)
