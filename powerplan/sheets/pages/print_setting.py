"""Where the rows stand: what is chalked on the floor before the first chair comes."""

from __future__ import annotations

import math
import re
from itertools import pairwise

from powerplan.model.geometry import Point
from powerplan.model.lengths import joined, length_text, micrometers
from powerplan.model.plan import Plan
from powerplan.model.spec import Wall
from powerplan.sheets.chalk import marks_on
from powerplan.sheets.levels import crosses_a_step
from powerplan.sheets.off_walls import from_back, from_left, off_wall
from powerplan.sheets.pages.print_places import off_line
from powerplan.sheets.pages.print_rows import SetRow, about_row, neighbors
from powerplan.sheets.pages.print_swings import STRAIGHT_M
from powerplan.sheets.pages.print_taped import (
    level_words,
    long_told_m,
    on_floor_of,
    one_level,
    two_walls,
)
from powerplan.sheets.pages.print_words import from_center
from powerplan.sheets.parts import Items, Part, Table
from powerplan.sheets.stands import Stand
from powerplan.sheets.words import from_wall

_FROM_BEHIND = "line, level tape from behind its middle"
_FROM_AHEAD = "line, level tape from ahead of its middle"
_MARK_M = 0.001
"""Two marks that lie no farther apart are one. [m]"""
_SIDE = (
    "A side is the outer side of an arm; where two seats share an arm it is the middle of that arm"
)
_ENDS = ("left end, level tape", "right end, level tape")


def setting_out(rows: tuple[SetRow, ...], plan: Plan, warning: str = "") -> list[Part]:
    """Return how the rows stand, and every table of what is chalked for them.

    Parameters
    ----------
    rows : tuple of SetRow
        The rows.
    plan : Plan
        The plan, to finished walls.
    warning : str
        What stands in front of each caption.
    """
    units, room = plan.spec.project.units, plan.spec.room
    widest = ", at its widest and deepest" if room.walls else ""
    size = (
        f"The room is {length_text(room.width_m, units)} wide and "
        f"{length_text(room.depth_m, units)} deep, back wall to screen{widest}."
    )
    square = tuple(row for row in rows if row.square)
    plain = tuple(row for row in rows if row.plain)
    askew = tuple(row for row in rows if not row.square)
    curved = tuple(row for row in rows if row.curved)
    along = tuple(row for row in rows if not row.plain and not row.curved)
    return [
        Items(
            lead="How the rows stand:",
            items=(size, *(about_row(row, plan) for row in rows), *_kinds(rows, units)),
        ),
        *(_lines(square, plan, warning) if square else ()),
        *(_middles(plain, plan, warning) if plain else ()),
        *(_ends(askew, plan, warning) if askew else ()),
        *(_along(along, plan, warning) if along else ()),
        *(_on_arcs(curved, plan, warning) if curved else ()),
        *(_proofs(tuple(row for row in rows if not row.plain), plan)),
    ]


def _kinds(rows: tuple[SetRow, ...], units: str) -> tuple[str, ...]:
    """How wide the chairs of each kind are, so that a piece can be held against the plan."""
    kinds = {one.kind: one.seat for row in rows for one in row.stands if one.seat is not None}
    told = []
    for name, kind in kinds.items():
        seat, arm = (length_text(wide_m, units) for wide_m in (kind.seat_width_m, kind.arm_width_m))
        told.append(f"Chair kind {name}: its seat is {seat} between the arms, an arm {arm} wide.")
    return tuple(told)


def _lines(rows: tuple[SetRow, ...], plan: Plan, warning: str) -> list[Part]:
    """The lines of rows that are square to the room."""
    units, room = plan.spec.project.units, plan.spec.room
    left, back, screen = (from_wall(room, w) for w in (Wall.LEFT, Wall.BACK, Wall.SCREEN))
    uneven = _uneven(plan)
    lines = []
    for row in rows:
        ends, y_m = (row.chalk.left, row.chalk.right), row.chalk.left[1]
        middle = on_floor_of(row, row.middle_of_line)
        far = off_wall(room, Wall.SCREEN, room.depth_m - y_m, units)
        if uneven:
            walls = [level_words(middle, side, plan) for side in (Wall.BACK, Wall.SCREEN)]
            sides = [level_words(on_floor_of(row, end), Wall.LEFT, plan) for end in ends]
            lines.append((row.id, from_back(room, y_m, units), *walls, *sides))
        else:
            sides = [from_left(room, end[0], units) for end in ends]
            lines.append((row.id, from_back(room, y_m, units), far, *sides))
    head: tuple[str, ...] = ("row", f"line, {back}", _FROM_BEHIND, _FROM_AHEAD, *_ENDS)
    if not uneven:
        ends_head = (f"left end, {left}", f"right end, {left}")
        head = ("row", f"line, {back}", f"line, {screen}", *ends_head)
    caption = f"{warning}The chalk line to snap: the rear of the bases, at the floor"
    return [Table(caption=caption, head=head, rows=tuple(lines))]


def _middles(rows: tuple[SetRow, ...], plan: Plan, warning: str) -> list[Part]:
    """The middles of chairs: from the wall, or along the line where a tape would meet a step."""
    units, room = plan.spec.project.units, plan.spec.room
    uneven = _uneven(plan)
    lines = tuple(
        (
            chair.id,
            length_text(chair.x_m - row.left_m, units)
            if uneven
            else from_left(room, chair.x_m, units),
            from_center(chair.x_m, plan),
        )
        for row in rows
        for chair in row.chairs
    )
    start = "from the line's left end" if uneven else from_wall(room, Wall.LEFT)
    caption = f"{warning}The middle of each chair, marked on the line"
    return [Table(caption=caption, head=("chair", start, "off the center line"), rows=lines)]


def _uneven(plan: Plan) -> bool:
    """Whether a tape from wall to wall may meet a step, or another wall than one thinks."""
    return crosses_a_step(plan) or bool(plan.spec.room.walls)


def _ends(rows: tuple[SetRow, ...], plan: Plan, warning: str) -> list[Part]:
    """The ends of lines that no wall runs along."""
    units = plan.spec.project.units
    lines = tuple(
        (
            row.id,
            name,
            *two_walls(on_floor_of(row, end), plan),
            length_text(long_told_m(row, plan), units),
        )
        for row in rows
        for name, end in (("left", row.chalk.left), ("right", row.chalk.right))
    )
    head = ("row", "end", "side to side", "back to screen", "from end to end")
    caption = (
        f"{warning}The two ends of each chalk line to snap, each taped level and square from two "
        "faces"
    )
    return [Table(caption=caption, head=head, rows=lines)]


def _along(rows: tuple[SetRow, ...], plan: Plan, warning: str) -> list[Part]:
    """What stands along the lines of rows of several kinds, or turned ones."""
    units = plan.spec.project.units
    lines = []
    for row in rows:
        for one in row.stands:
            spots = [row.chalk.place(one.at(u, one.rear_m)) for u in (-one.left_m, 0, one.right_m)]
            alongs_m = [along_m for along_m, _ in spots]
            if one is row.stands[-1]:  # the line's right end: as long as the line is told to be
                alongs_m[2] = long_told_m(row, plan)
            told = (length_text(along_m, units) for along_m in alongs_m)
            rear = off_line(spots[1][1], units)
            lines.append((row.id, one.name, one.kind, *told, rear))
    head = ("row", "what", "kind", "left side", "middle", "right side", "its rear, off the line")
    caption = f"{warning}What stands along each line, measured from its left end"
    return [Table(caption=caption, head=head, rows=tuple(lines))]


def _on_arcs(rows: tuple[SetRow, ...], plan: Plan, warning: str) -> list[Part]:
    units = plan.spec.project.units
    marks = tuple(line for row in rows for line in _mark_rows(row, plan))
    corners = tuple(
        (row.id, one.name, one.kind, *(_off_line(row, one.at(*spot), units) for spot in _rear(one)))
        for row in rows
        for one in row.stands
        if not _on_marks(row, one)
    )
    head = ("row", "mark", "along the line", "off the line", "from the mark before")
    caption = (
        f"{warning}The chalk arc: its marks, along and square off the straight line between its "
        "ends"
    )
    parts: list[Part] = [Table(caption=caption, head=(*head, "from the left end"), rows=marks)]
    if corners:
        head = ("row", "what", "kind", "left rear corner", "right rear corner")
        caption = f"{warning}The rear corners of each base that are on no mark, from the same line"
        parts.append(Table(caption=caption, head=head, rows=corners))
    return parts


def _on_marks(row: SetRow, one: Stand) -> bool:
    """Whether the rear corners of a base are the marks of the arc at its sides."""
    on_arc_um = micrometers(row.kind.rear_of_base_m)
    return row.chalk.touch == "back" and micrometers(one.rear_m) == on_arc_um


def _mark_rows(row: SetRow, plan: Plan) -> list[tuple[str, ...]]:
    """The marks on an arc: from the straight line, and from one another."""
    assert row.row.curve is not None
    units, marks = plan.spec.project.units, marks_on(row.stands, row.row.curve)
    found: list[tuple[str, ...]] = []
    for before, mark in pairwise((None, *marks)):
        assert mark is not None
        step, far = "-", "-"
        if before is not None:
            step = length_text(math.dist(before.at, mark.at), units)
            far_m = math.dist(marks[0].at, mark.at)
            far = length_text(long_told_m(row, plan) if mark is marks[-1] else far_m, units)
        beside = [name for name in (mark.left_of_it, mark.right_of_it) if name]
        name = " / ".join(beside)
        if len(beside) == 1:
            name += ", its right side" if mark.left_of_it else ", its left side"
        along_m, ahead_m = row.chalk.place(mark.at)
        if mark is marks[-1]:  # the line's right end: as long as the line is told to be
            along_m = long_told_m(row, plan)
        found.append(
            (row.id, name, length_text(along_m, units), off_line(ahead_m, units), step, far)
        )
    return found


def _rear(one: Stand) -> tuple[Point, Point]:
    """The rear corners of a base in its own frame, left and right. [m]"""
    left_m, right_m = one.sides_m(one.rear_m)
    return ((left_m, one.rear_m), (right_m, one.rear_m))


def _off_line(row: SetRow, point: Point, units: str) -> str:
    along_m, ahead_m = row.chalk.place(point)
    along = f"{length_text(abs(along_m), units)} along"
    if along_m < -STRAIGHT_M:
        along = f"{length_text(-along_m, units)} beyond the left end"
    return f"{along}, {off_line(ahead_m, units)}"


def _proofs(rows: tuple[SetRow, ...], plan: Plan) -> list[Part]:
    """What is measured again before and after the chairs of a row are set."""
    told = [text for row in rows for text in _proof(row, plan)]
    return (
        [Items(lead="What the marks mean, and how they are proved:", items=tuple(told))]
        if told
        else []
    )


def _proof(row: SetRow, plan: Plan) -> tuple[str, str]:
    if row.curved:
        return (_about_arc(row, plan), _diagonals(row, plan))
    about = (
        f"Row {row.id}: its line lies along the rear of the bases, at the floor, the screen ahead "
        f"of it. {_SIDE}."
    )
    return (about, _diagonals(row, plan))


def _diagonals(row: SetRow, plan: Plan) -> str:
    """From corner to corner of all that stands in a row, from each end of its rear."""
    units, first, last = plan.spec.project.units, row.stands[0], row.stands[-1]
    to_right = length_text(math.dist(first.base[0], last.base[2]), units)
    to_left = length_text(math.dist(last.base[1], first.base[3]), units)
    return (
        f"Row {row.id}, when all stands: from the left rear corner of {first.name} to the right "
        f"front corner of {last.name} is {to_right}; from the right rear corner of {last.name} to "
        f"the left front corner of {first.name}, {to_left}."
    )


def _or_on(words: str) -> str:
    """A distance from a face, or that it is none."""
    return re.sub(r"^0(\.0+)? (in|mm|m) from ", "on ", words)


def _wedges(row: SetRow, units: str) -> str:
    """What fills an arc between seats that share an arm and gape behind, and whose mark is whose;
    nothing where none does."""
    told: dict[str, list[str]] = {}
    for one, other in neighbors(row):
        if one.seat is None or other.seat is None:
            continue
        halves = one.seat.seat_width_m / 2, other.seat.seat_width_m / 2
        outs = one.right_m - halves[0], other.left_m - halves[1]
        rear_m = math.dist(one.base[1], other.base[0])
        shared = min(micrometers(out) for out in outs) > 0 and (
            outs[0] < one.seat.arm_width_m - _MARK_M or outs[1] < other.seat.arm_width_m - _MARK_M
        )
        if not shared or rear_m < _MARK_M:
            continue
        wide = [
            math.dist(one.at(halves[0], at[0]), other.at(-halves[1], at[1]))
            for at in ((one.front_m, other.front_m), (one.rear_m, other.rear_m))
        ]
        front, rear, apart, out = (length_text(m, units) for m in (*wide, rear_m, outs[0]))
        words = (
            f"the two marks of their rear corners lie {apart} apart, each {out} outside its own "
            f"seat; one arm that fills this is a wedge, {front} wide in front and {rear} behind"
        )
        told.setdefault(words, []).append(f"{one.name} / {other.name}")
    if not told:
        return ""
    said = "; ".join(f"{joined(pairs)}: {words}" for words, pairs in told.items())
    return (
        f" Behind, a shared arm has no such middle on one mark. {said}. Where the arm "
        "that comes is no such wedge, stop and ask its maker."
    )


def _about_arc(row: SetRow, plan: Plan) -> str:
    """How an arc is set off, and whether a string from its middle can draw it."""
    units, chalk = plan.spec.project.units, row.chalk
    radius = length_text(chalk.radius_m or 0.0, units)
    string = (
        f"The middle of its radius of {radius} is outside the room or on another level: no string "
        "reaches from there, and every mark is set off from the straight line alone."
    )
    if one_level(row, chalk.middle, plan):
        across, deep = map(_or_on, two_walls(on_floor_of(row, chalk.middle), plan))
        string = (
            f"Its middle is {across} and {deep}: a string of {radius} held there meets every mark."
        )
    touch = "front" if chalk.touch == "front" else "rear"
    standing = [one.name for one in row.stands if _on_marks(row, one)]
    on_marks = f" The rear corners of {joined(standing)} stand on the marks at their sides."
    return (
        f"Row {row.id}: snap the straight line between its two ends, on past them, and set off "
        f"every mark square from it. The arc goes through the marks, where the {touch} corners of "
        f"neighbors touch. {_SIDE}: a corner told "
        "there is at the middle of the arm's end, not at a corner of the piece."
        f"{_wedges(row, units)}{on_marks if standing else ''} {string} At its deepest, half "
        f"way along the line, the arc is {length_text(chalk.deepest_m, units)} behind it."
    )
