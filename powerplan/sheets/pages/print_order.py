"""The order of work of one row: chairs from the middle outward, each with the cords it needs."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from powerplan.engineering.cords.clip import span_inside
from powerplan.model.geometry import Rect
from powerplan.model.lengths import joined
from powerplan.model.plan import Cord, PlacedChair, Plan
from powerplan.sheets.pages.print_rows import SetRow, outward, seams
from powerplan.sheets.pages.print_tags import (
    EXTENSION,
    JOINT,
    LINK,
    bag_of,
    ends_text,
    in_bags,
    plug_text,
    tag_numbers,
    tag_text,
)

_HAIR_M = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """One chair's turn: the cords that are laid in it, which of the chairs that already stand are
    drawn forward for each, and the pairs of seats that are clipped together after it."""

    chair: PlacedChair
    cords: tuple[Cord, ...]
    over: tuple[tuple[str, ...], ...]
    clips: tuple[tuple[str, str], ...]


def turns(row: SetRow, plan: Plan) -> tuple[Turn, ...]:
    """Return the turns of a row's chairs, the middle one first.

    A cord is laid in the turn of its own chair; one between two chairs in the turn of the later.
    Two seats are clipped together when both stand and every cord that runs, or is plugged in,
    under either of them is in: until then a chair can be drawn forward to lay it.

    Parameters
    ----------
    row : SetRow
        The row.
    plan : Plan
        For cords and boxes.
    """
    order = outward(row)
    number = {chair.id: turn for turn, chair in enumerate(order)}
    known = ((cord.id, _turn_of(cord, number, plan)) for cord in plan.cords)
    laid = {name: turn for name, turn in known if turn is not None}
    cords = tuple(cord for cord in in_bags(plan) if cord.id in laid)
    under = {cord.id: _under(cord, row, plan) for cord in cords}
    clips = _clips(row, plan, number, laid, under)
    found = []
    for turn, chair in enumerate(order):
        here = tuple(cord for cord in cords if laid[cord.id] == turn)
        over = tuple(tuple(n for n in under[cord.id] if number[n] < turn) for cord in here)
        pairs = tuple(pair for pair, at in clips.items() if at == turn)
        found.append(Turn(chair=chair, cords=here, over=over, clips=pairs))
    return tuple(found)


def turn_text(turn: Turn, row: SetRow, plan: Plan) -> str:
    """Return what is done in a chair's turn, in the order in which it is done."""
    name = turn.chair.id
    said = [f"{name}: bring it up, short of its mark."] if turn.cords else [f"{name}:"]
    said += [
        _lay(cord, turn, over, row, plan) for cord, over in zip(turn.cords, turn.over, strict=True)
    ]
    said.append(f"Set {name} on its mark, its rear on the line.")
    if turn.clips:
        pairs = [f"{left} to {right}" for left, right in turn.clips]
        said.append(f"Clip {joined(pairs)}.")
    return " ".join(said)


def _lay(cord: Cord, turn: Turn, over: tuple[str, ...], row: SetRow, plan: Plan) -> str:
    link = cord.kind == LINK
    start = plug_text(cord.from_, plan, last=False, link=link)
    goal = plug_text(cord.to, plan, last=True, link=link)
    number = tag_text(tag_numbers(plan)[cord.id])
    words = f"Lay {number} ({ends_text(cord, plan)})"
    if cord.kind == EXTENSION:
        words += f", the extension cord: plug it into {start}"
    elif cord.kind == "own":
        words += f": one end in {goal} (it may be fixed there), plug the other into {start}"
    else:
        words += f": plug one end into {start}, the other into {goal}"
    words += _box_now(cord, turn, over, row, plan)
    if over:
        stand = "stands" if len(over) == 1 else "stand"
        words += (
            f". {joined(over)} already {stand} there, not yet clipped: draw "
            f"{'it' if len(over) == 1 else 'them'} forward for this, then back onto the mark"
        )
    return f"{words}."


def _box_now(cord: Cord, turn: Turn, over: tuple[str, ...], row: SetRow, plan: Plan) -> str:
    """Whether the box that a cord goes into is still open."""
    box = next((b for b in plan.boxes if b.id == cord.from_ and b.kind == "floor box"), None)
    if box is None or box.under in over:
        return ""
    if box.under == turn.chair.id:
        return f", over which {box.under} then stands"
    return ", which is still open" if any(c.id == box.under for c in row.chairs) else ""


def _turn_of(cord: Cord, number: dict[str, int], plan: Plan) -> int | None:
    """The turn in which a cord is laid: that of its chair, or of the later of its two."""
    ends = {bag_of(cord, plan)}
    if cord.kind == LINK:
        ends.add(cord.from_)
    at = [number[name] for name in ends if name in number]
    return max(at, default=None)


def _under(cord: Cord, row: SetRow, plan: Plan) -> tuple[str, ...]:
    """The chairs of a row under whose base some of a cord lies."""
    return tuple(
        chair.id
        for chair in row.chairs
        if any(_lies_in(piece, _base(chair, row)) for piece in pairwise(cord.path_m))
        or _box_under(cord, plan) == chair.id
    )


def _box_under(cord: Cord, plan: Plan) -> str | None:
    if JOINT in cord.from_:
        return None
    boxes = (box for box in plan.boxes if box.kind == "floor box")
    return next((box.under for box in boxes if box.id == cord.from_), None)


def _base(chair: PlacedChair, row: SetRow) -> Rect:
    half_m = (row.kind.seat_width_m + row.kind.arm_width_m) / 2 - _HAIR_M
    return Rect(
        left_m=chair.x_m - half_m,
        right_m=chair.x_m + half_m,
        back_m=row.line_m + _HAIR_M,
        front_m=row.front_m - _HAIR_M,
    )


def _lies_in(piece: tuple[tuple[float, float], tuple[float, float]], rect: Rect) -> bool:
    if piece[0] == piece[1]:
        x, y = piece[0]
        return rect.left_m < x < rect.right_m and rect.back_m < y < rect.front_m
    span = span_inside(piece, rect)
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
