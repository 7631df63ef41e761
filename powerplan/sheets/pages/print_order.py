"""The order of work of one row: from the middle outward, each chair with the cords it needs."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from powerplan.engineering.cords.clip import Segment, span_inside
from powerplan.model.geometry import Rect
from powerplan.model.lengths import joined
from powerplan.model.loose import OutletUnit, Supply
from powerplan.model.plan import Cord, Plan
from powerplan.sheets.pages.loose import long_side
from powerplan.sheets.pages.print_rows import SetRow, outward, seams
from powerplan.sheets.pages.print_spare import NOT_COILED, Lies, lies
from powerplan.sheets.pages.print_swings import from_line
from powerplan.sheets.pages.print_tags import (
    EXTENSION,
    JOINT,
    LINK,
    bag_of,
    ends_text,
    in_bags,
    plug_text,
    tag_text,
)
from powerplan.sheets.pages.print_words import capital
from powerplan.sheets.stands import Stand

_HAIR_M = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """The turn of a chair or table: the cords that are laid in it, which of the things that already
    stand are drawn forward for each, the supplies and outlet units that are set down for each,
    and the pairs that are clipped together after it."""

    stand: Stand
    cords: tuple[Cord, ...]
    over: tuple[tuple[str, ...], ...]
    things: tuple[tuple[Supply | OutletUnit, ...], ...]
    clips: tuple[tuple[str, str], ...]


def turns(row: SetRow, plan: Plan) -> tuple[Turn, ...]:
    """Return the turns of what stands in a row, the middle first.

    A cord is laid in the turn of its own chair; one between two chairs in the turn of the later.
    Two neighbors are clipped together when both stand and every cord that runs, or is plugged in,
    under either of them is in: until then a chair can be drawn forward to lay it.

    Parameters
    ----------
    row : SetRow
        The row.
    plan : Plan
        For cords and boxes.
    """
    order = outward(row)
    number = {one.name: turn for turn, one in enumerate(order)}
    known = ((cord.id, _turn_of(cord, number, plan)) for cord in plan.cords)
    laid = {name: turn for name, turn in known if turn is not None}
    cords = tuple(cord for cord in in_bags(plan) if cord.id in laid)
    under = {cord.id: _under(cord, row, plan) for cord in cords}
    clips = _clips(row, plan, number, laid, under)
    loose: tuple[Supply | OutletUnit, ...] = (*plan.supplies, *plan.outlet_units)
    found, down = [], {one.id: one for one in loose}
    for turn, stand in enumerate(order):
        here = tuple(cord for cord in cords if laid[cord.id] == turn)
        over = tuple(tuple(n for n in under[cord.id] if number[n] < turn) for cord in here)
        pairs = tuple(pair for pair, at in clips.items() if at == turn)
        things = tuple(
            tuple(down.pop(end) for end in (cord.from_, cord.to) if end in down) for cord in here
        )
        found.append(Turn(stand=stand, cords=here, over=over, things=things, clips=pairs))
    return tuple(found)


def turn_text(turn: Turn, row: SetRow, plan: Plan, numbers: dict[str, int]) -> str:
    """Return what is done in the turn of a chair or table, in the order in which it is done.

    Parameters
    ----------
    turn : Turn
        The turn.
    row : SetRow
        Its row.
    plan : Plan
        For cords and boxes.
    numbers : dict
        The number on each cord's tag, by its id.
    """
    name = turn.stand.name
    said = [f"{capital(name)}:"]
    said += ["bring it up, short of its mark."] if turn.cords else []
    for cord, over, things in zip(turn.cords, turn.over, turn.things, strict=True):
        said += [f"Set down {one.id} {_where(one)}." for one in things]
        tag = tag_text(numbers[cord.id])
        said.append(f"Lay {tag} {_lay(cord, turn, over, row, plan)}{_clear_of(over, row)}.")
    said.append(f"Set {name} {_on_marks(turn.stand, row, plan)}.")
    if turn.clips:
        pairs = [f"{left} to {right}" for left, right in turn.clips]
        said.append(f"Clip {joined(pairs)}.")
    return " ".join(said)


def _where(thing: Supply | OutletUnit) -> str:
    """Where a supply or outlet unit is set down, and which way it lies."""
    side = long_side(thing)
    return "where the table of places has it" + (f", {side}" if side else "")


def _on_marks(stand: Stand, row: SetRow, plan: Plan) -> str:
    """How a chair or table stands on what is chalked."""
    if row.curved:
        return "with its rear corners on its two marks"
    ahead_m = row.chalk.place(stand.at(0.0, stand.rear_m))[1]
    mark = "on its mark" if row.plain else "between its marks"
    return f"{mark}, its rear {from_line(ahead_m, plan.spec.project.units)}"


def _lay(cord: Cord, turn: Turn, over: tuple[str, ...], row: SetRow, plan: Plan) -> str:
    link = cord.kind == LINK
    start = plug_text(cord.from_, plan, last=False, link=link)
    goal = plug_text(cord.to, plan, last=True, link=link)
    words = f"({ends_text(cord, plan)})"
    if cord.kind == EXTENSION:
        words += f", the extension cord: plug it into {start}"
    elif cord.kind == "own":
        words += f": one end in {goal} (it may be fixed there), plug the other into {start}"
    else:
        words += f": plug one end into {start}, the other into {goal}"
    words += _box_now(cord, turn, over, row, plan)
    if lies(cord, plan) is Lies.NO_ROOM:
        words += f', its spare as its maker says, see "{NOT_COILED}"'
    return words


def _clear_of(over: tuple[str, ...], row: SetRow) -> str:
    """What is done with chairs that already stand where a cord goes."""
    if not over:
        return ""
    stand, them = ("stands", "it") if len(over) == 1 else ("stand", "them")
    how = f"draw {them} forward for this, then back onto the mark"
    if row.chalk.touch == "back":
        how = (
            f"move {them} clear for this, straight back (tapered arms jam on the way forward), "
            "then onto the marks again"
        )
    return f". {capital(joined(over))} already {stand} there, not yet clipped: {how}"


def _box_now(cord: Cord, turn: Turn, over: tuple[str, ...], row: SetRow, plan: Plan) -> str:
    """Whether a chair stands over the box that a cord goes into."""
    box = next((b for b in plan.boxes if b.id == cord.from_ and b.kind == "floor box"), None)
    if box is None or box.under in over:
        return ""
    if box.under == turn.stand.name:
        return f", over which {box.under} then stands"
    return ", over which no chair stands yet" if any(c.id == box.under for c in row.chairs) else ""


def _turn_of(cord: Cord, number: dict[str, int], plan: Plan) -> int | None:
    """The turn in which a cord is laid: that of its chair, or of the later of its two."""
    ends = {bag_of(cord, plan)}
    if cord.kind == LINK:
        ends.add(cord.from_)
    at = [number[name] for name in ends if name in number]
    return max(at, default=None)


def _under(cord: Cord, row: SetRow, plan: Plan) -> tuple[str, ...]:
    """What of a row has some of a cord under its base."""
    return tuple(
        one.name
        for one in row.stands
        if any(_lies_under(piece, one) for piece in pairwise(cord.path_m))
        or _box_under(cord, plan) == one.name
    )


def _box_under(cord: Cord, plan: Plan) -> str | None:
    if JOINT in cord.from_:
        return None
    boxes = (box for box in plan.boxes if box.kind == "floor box")
    return next((box.under for box in boxes if box.id == cord.from_), None)


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
