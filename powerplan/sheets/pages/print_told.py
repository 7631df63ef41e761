"""Where each place of a cord is told to be, rounded once, as whoever lays it tapes it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from powerplan.model.geometry import Point, Rect
from powerplan.model.lengths import at_mark_m, mark_um
from powerplan.model.plan import Cord, Plan
from powerplan.sheets.climbs import level_pieces
from powerplan.sheets.keep_off import Body, Kept, Key, Sides, key_of, sides_of
from powerplan.sheets.pages.print_rows import SetRow, number_m, row_of, set_rows, swept_of
from powerplan.sheets.pages.print_swings import Taped, taped
from powerplan.sheets.pages.print_tags import in_bags
from powerplan.sheets.pages.print_tape import told_at

# Without those that a chalked hand makes look like figures.
_LETTERS = "abcdefghjkmnpqrstuvwxyz"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Places:
    """Every place that is told of the cords of a plan, so that all words of it agree.

    ``spots`` are the told places of rows that are square to the room, ``letters`` the names of the
    bends of other rows in the order of their cords, and ``unsafe`` the places that no mark of a
    tape keeps as far off hatched floor as their cords lie. [m]
    """

    plan: Plan
    rows: tuple[SetRow, ...]
    sides: Sides
    spots: Mapping[Key, Point]
    taped_at: Mapping[tuple[str, Key], Taped]
    letters: Mapping[tuple[str, Key], str]
    unsafe: frozenset[Key]

    def spot(self, point: Point, row: SetRow) -> Point:
        """Return the place in the room that the words for a place lead to. [m]"""
        if not row.square:
            found = self.taped_at.get((row.id, key_of(point)))
            return point if found is None else found.at
        units, found_at = self.plan.spec.project.units, self.spots.get(key_of(point))
        if found_at is None:
            return (at_mark_m(point[0], units), at_mark_m(point[1], units))
        return found_at

    def in_room(self, point: Point) -> Point:
        """Return a place as it is told from the left and the back of the room. [m]"""
        sides = self.sides.get(key_of(point), ())
        told = told_at(point, lambda x, y: (x, y), sides, self.plan.spec.project.units)
        return point if told is None else told.at

    def taped(self, point: Point, row: SetRow) -> Taped:
        """Return how a place of a turned or curved row is taped. [m]"""
        key = key_of(point)
        found = self.taped_at.get((row.id, key))
        return found or taped(point, row, self.sides.get(key, ()), self.plan)

    def bends_of(self, cord: Cord) -> tuple[Point, ...]:
        """Return where a cord bends, climbs, or leaves its way for its coil. [m]"""
        return tuple(dict.fromkeys(_bends(cord, self.plan)))

    def named(self, point: Point, row: SetRow) -> str | None:
        """Return what a bend of a turned or curved row is called, None where it has no name."""
        letter = self.letters.get((row.id, key_of(point)))
        return None if letter is None else f"bend {letter}"


def places_of(plan: Plan) -> Places:
    """Return every place that is told of the cords of a plan.

    Parameters
    ----------
    plan : Plan
        The plan, to finished walls.
    """
    rows = set_rows(plan)
    sides = _sides(plan, rows) if rows else {}
    units, spots = plan.spec.project.units, dict[Key, Point]()
    found, letters, unsafe = dict[tuple[str, Key], Taped](), dict[tuple[str, Key], str](), set()
    for cord in in_bags(plan) if rows else ():
        row = row_of(cord, rows, plan)
        bends = tuple(dict.fromkeys(_bends(cord, plan)))
        for point in (*bends, *_ends(cord)):
            key = key_of(point)
            near = sides.get(key, ()) if point not in (cord.path_m[0], cord.path_m[-1]) else ()
            if row.square:
                told = told_at(point, lambda x, y: (x, y), near, units)
                assert told is not None
                spots.setdefault(key, told.at)
                safe = told.safe
            else:
                one = found.setdefault((row.id, key), taped(point, row, near, plan))
                safe = one.safe
                if point in bends and (row.id, key) not in letters:
                    letters[row.id, key] = letter(len(letters))
            if not safe:
                unsafe.add(key)
    return Places(
        plan=plan,
        rows=rows,
        sides=sides,
        spots=spots,
        taped_at=found,
        letters=letters,
        unsafe=frozenset(unsafe),
    )


def letter(number: int) -> str:
    """Return the letters of a bend: a, b, and so on; after the last aa, ab, and so on."""
    more, last = divmod(number, len(_LETTERS))
    return (letter(more - 1) if more else "") + _LETTERS[last]


def _bends(cord: Cord, plan: Plan) -> Iterator[Point]:
    """The places where a cord bends, climbs, or leaves its way for its coil."""
    for _, end in level_pieces(cord.path_m, plan)[:-1]:
        yield end
    ends = {key_of(cord.path_m[0]), key_of(cord.path_m[-1])}
    yield from (at for at in cord.tail_m[:-1] if key_of(at) not in ends)


def _ends(cord: Cord) -> tuple[Point, ...]:
    """Both ends of a cord, the end of its tail, and the middle of its coil."""
    coil = () if cord.park_m is None else (cord.park_m,)
    return (cord.path_m[0], cord.path_m[-1], *cord.tail_m[-1:], *coil)


def _sides(plan: Plan, rows: tuple[SetRow, ...]) -> Sides:
    """To which sides each told place may be rounded."""
    laid, coils = [], []
    for cord in plan.cords:
        fixed = (cord.path_m[0], cord.path_m[-1])
        for path in (cord.path_m, cord.tail_m):
            for start, end in level_pieces(path, plan):
                if math.dist(start, end) > 1e-6:
                    told = tuple(at for at in (start, end) if at not in fixed)
                    laid.append(Body((start, end), told))
        if cord.park_m is not None and cord.coil_m is not None:
            coils.append(Body(_around(cord.park_m, cord.coil_m).outline, (cord.park_m,)))
    near_m = number_m(plan, "cord_clearance")
    half_m, mark_m = plan.spec.cords.diameter_m / 2, mark_um(plan.spec.project.units) / 1e6
    better_m = math.ceil(near_m / mark_m - 1e-6) * mark_m + half_m
    hatched = _hatched(plan, rows, near_m + half_m, better_m)
    swept = [
        Kept(swept_of(one), near_m, near_m, _moved_m(row, one.at(0.0, 0.0), plan))
        for row in rows
        for one in row.stands
        if one.seat is not None
    ]
    both = sides_of((*laid, *coils), hatched, plan), sides_of(coils, swept, plan)
    keys = dict.fromkeys((*both[0], *both[1]))
    return {key: (*both[0].get(key, ()), *both[1].get(key, ())) for key in keys}


def _around(middle: Point, size_m: tuple[float, float]) -> Rect:
    (x, y), (wide_m, deep_m) = middle, size_m
    return Rect(
        left_m=x - wide_m / 2,
        right_m=x + wide_m / 2,
        back_m=y - deep_m / 2,
        front_m=y + deep_m / 2,
    )


def _hatched(plan: Plan, rows: tuple[SetRow, ...], keep_m: float, better_m: float) -> list[Kept]:
    """Pinch zones, as the chairs stand and as they are set on marks; obstacles and tables."""
    moved = {
        chair.id: _moved_m(row, (chair.x_m, chair.y_m), plan)
        for row in rows
        for chair in row.chairs
    }
    found = [
        Kept(zone.outline_m, keep_m, better_m, moved.get(zone.chair, (0.0, 0.0)))
        for zone in plan.zones
        if zone.kind == "pinch"
    ]
    found += [Kept(area.rect.outline, keep_m, better_m) for area in plan.spec.obstacles]
    found += [
        Kept(one.base, keep_m, better_m) for row in rows for one in row.stands if one.seat is None
    ]
    return found


def _moved_m(row: SetRow, at: Point, plan: Plan) -> Point:
    """By how much what stands in a row moves when it is set on marks that a tape shows. [m]"""
    units = plan.spec.project.units
    if row.curved:
        return (0.0, 0.0)
    if row.square:
        line_m = row.chalk.left[1]
        return (at_mark_m(at[0], units) - at[0], at_mark_m(line_m, units) - line_m)
    along_m = row.chalk.place(at)[0]
    (x, y), (to_x, to_y) = row.chalk.at(0.0, 0.0), row.chalk.at(1.0, 0.0)
    off_m = at_mark_m(along_m, units) - along_m
    return ((to_x - x) * off_m, (to_y - y) * off_m)
