"""The order of work of one row: from the middle outward, each chair with the cords it needs."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from powerplan.engineering.cords.clip import Segment, span_inside
from powerplan.engineering.seating.frames import Frame
from powerplan.model.geometry import Point, Rect
from powerplan.model.loose import UNIT_CORD, WALL_CORD
from powerplan.model.plan import Cord, Plan
from powerplan.sheets.pages.loose import Loose
from powerplan.sheets.pages.print_rows import SetRow, outward, seams
from powerplan.sheets.pages.print_tags import EXTENSION, JOINT, LINK, bag_of, in_bags
from powerplan.sheets.stands import Stand

OWN = "own"
_FREE = (EXTENSION, WALL_CORD, UNIT_CORD)

_HAIR_M = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """The turn of a chair or table: the cords that are laid in it, which of the things that already
    stand are moved for each, the supplies and outlet units that are set down for each, the pairs
    that are clipped together after it, and the ids of the cords that lay there before it."""

    stand: Stand
    cords: tuple[Cord, ...]
    over: tuple[tuple[str, ...], ...]
    things: tuple[tuple[Loose, ...], ...]
    clips: tuple[tuple[str, str], ...]
    before: frozenset[str]


def turns(row: SetRow, plan: Plan) -> tuple[Turn, ...]:
    """Return the turns of what stands in a row, the middle first.

    A cord is laid in the turn of its own chair; one between two chairs in the turn of the later.
    One that is fixed to no chair is laid before anything stands over it. Two neighbors are clipped
    together when both stand and every cord that runs, or is plugged in, under either of them is
    in: until then a chair can be moved to lay it.

    Parameters
    ----------
    row : SetRow
        The row.
    plan : Plan
        For cords and boxes.
    """
    order = outward(row)
    number = {one.name: turn for turn, one in enumerate(order)}
    under = {
        cord.id: tuple(one.name for one in row.stands if lies_under(cord, one, plan))
        for cord in plan.cords
    }
    known = ((cord.id, _turn_of(cord, number, under, plan)) for cord in plan.cords)
    laid = {name: turn for name, turn in known if turn is not None}
    cords = sorted(
        (cord for cord in in_bags(plan) if cord.id in laid), key=lambda cord: not is_free(cord)
    )
    clips = _clips(row, plan, number, laid, under)
    found, down = [], {one.id: one for one in loose_things(plan)}
    for turn, stand in enumerate(order):
        here = tuple(cord for cord in cords if laid[cord.id] == turn)
        over = tuple(tuple(n for n in under[cord.id] if number[n] < turn) for cord in here)
        pairs = tuple(pair for pair, at in clips.items() if at == turn)
        things = tuple(
            tuple(down.pop(end) for end in (cord.from_, cord.to) if end in down) for cord in here
        )
        before = frozenset(name for name, at in laid.items() if at < turn)
        found.append(
            Turn(stand=stand, cords=here, over=over, things=things, clips=pairs, before=before)
        )
    return tuple(found)


def is_free(cord: Cord) -> bool:
    """Return whether a cord is fixed to no chair, so that it can be laid before any chair stands
    over it: one to a supply or outlet unit, an extension, and a longer lead that was bought."""
    return cord.kind in _FREE or (cord.kind == OWN and cord.longer)


def loose_things(plan: Plan) -> tuple[Loose, ...]:
    """Return every supply and outlet unit."""
    return (*plan.supplies, *plan.outlet_units)


def lies_under(cord: Cord, stand: Stand, plan: Plan) -> bool:
    """Return whether some of a cord is under a base: its way, or what it is plugged into.

    Parameters
    ----------
    cord : Cord
        The cord.
    stand : Stand
        A chair or table.
    plan : Plan
        For boxes and what lies on the floor.
    """
    return (
        any(_lies_under(piece, stand) for piece in pairwise(cord.path_m))
        or _box_under(cord, plan) == stand.name
        or any(
            is_under(point, stand)
            for thing in loose_things(plan)
            if thing.id in (cord.from_, cord.to)
            for point in corners_of(thing)
        )
    )


def corners_of(thing: Loose) -> tuple[Point, ...]:
    """Return the middle and the corners of the floor that a supply or outlet unit takes. [m]"""
    frame = Frame(x_m=thing.x_m, y_m=thing.y_m, angle_rad=thing.angle_rad)
    return (
        (thing.x_m, thing.y_m),
        *(
            frame.point((across * thing.width_m / 2, along * thing.depth_m / 2))
            for across in (-1, 1)
            for along in (-1, 1)
        ),
    )


def _turn_of(
    cord: Cord, number: dict[str, int], under: dict[str, tuple[str, ...]], plan: Plan
) -> int | None:
    """The turn in which a cord is laid: that of its chair, or of the later of its two; the first
    of all where it is fixed to none."""
    ends = {bag_of(cord, plan)}
    if cord.kind == LINK:
        ends.add(cord.from_)
    if not is_free(cord):
        return max((number[name] for name in ends if name in number), default=None)
    if not any(name in number for name in ends):
        return None
    ends |= {name for one in loose_things(plan) if one.id == cord.to for name in one.chairs}
    return min(number[name] for name in (*ends, *under[cord.id]) if name in number)


def _box_under(cord: Cord, plan: Plan) -> str | None:
    if JOINT in cord.from_:
        return None
    boxes = (box for box in plan.boxes if box.kind == "floor box")
    return next((box.under for box in boxes if box.id == cord.from_), None)


def is_under(point: Point, stand: Stand) -> bool:
    """Return whether a place is under a base, seen from its own frame. [m]"""
    return _lies_under((point, point), stand)


def _lies_under(piece: Segment, stand: Stand) -> bool:
    """Whether some of a straight piece lies under a base, seen from its own frame."""
    base = Rect(
        left_m=-stand.left_m + _HAIR_M,
        right_m=stand.right_m - _HAIR_M,
        back_m=stand.rear_m + _HAIR_M,
        front_m=stand.front_m - _HAIR_M,
    )
    start, end = stand.place(piece[0]), stand.place(piece[1])
    if piece[0] == piece[1]:
        x, y = start
        return base.left_m < x < base.right_m and base.back_m < y < base.front_m
    span = span_inside((start, end), base)
    return span is not None and span[1] - span[0] > _HAIR_M


def _clips(
    row: SetRow,
    plan: Plan,
    number: dict[str, int],
    laid: dict[str, int],
    under: dict[str, tuple[str, ...]],
) -> dict[tuple[str, str], int]:
    """The turn after which each two neighbors are clipped together."""
    found = {}
    for left, right, passing in seams(row, plan.cords):
        at = [number[left], number[right]]
        at += [turn for name, turn in laid.items() if {left, right} & set(under[name])]
        at += [laid[name] for name in passing if name in laid]
        found[left, right] = max(at)
    return found
