"""The order of work in words: what is done in the turn of each chair or table."""

from __future__ import annotations

from itertools import groupby

from powerplan.model.lengths import at_most_text, joined
from powerplan.model.plan import Cord, Plan
from powerplan.sheets.pages.loose import Loose, long_side
from powerplan.sheets.pages.print_order import OWN, Turn, is_free, lies_under
from powerplan.sheets.pages.print_over import how_text, passed
from powerplan.sheets.pages.print_rows import SetRow
from powerplan.sheets.pages.print_spare import NOT_COILED, Lies, cords_named, lies
from powerplan.sheets.pages.print_swings import from_line
from powerplan.sheets.pages.print_tags import (
    EXTENSION,
    LINK,
    bag_of,
    ends_text,
    in_bags,
    plug_text,
    tag_text,
)
from powerplan.sheets.pages.print_words import capital
from powerplan.sheets.stands import Stand

_Laid = tuple[Cord, tuple[str, ...], tuple[Loose, ...]]


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
    name, laid = turn.stand.name, turn.before
    early = under_table(turn, plan)
    waiting = _waiting(turn, plan)
    said = [f"{capital(name)}:", *_table_text(turn.stand, early, plan)]
    todo = tuple(zip(turn.cords, turn.over, turn.things, strict=True))
    brought = False
    for (free, over), some in groupby(todo, key=lambda one: (is_free(one[0]), one[1])):
        group = tuple(some)
        laid |= {cord.id for cord, _, _ in group}
        if not free and not brought:
            said.append(_bring_up(turn, row))
            brought = True
        out, back = _moved(over, laid, row, plan)
        said += out
        for cord, _, things in group:
            said += [f"Set down {one.id} {_where(one)}." for one in things]
            tag = tag_text(numbers[cord.id])
            said.append(f"Lay {tag} {_lay(cord, turn, over, row, plan)}.")
        said += back
    if waiting:
        said += [] if brought else [_bring_up(turn, row)]
        said += [_plug_in(cord, plan, numbers) for cord in waiting]
    laid |= {cord.id for cord in early}
    how = how_text(passed(turn.stand, laid, row, plan), plan)
    said.append(f"Set {name} {_on_marks(turn.stand, row, plan)}{'; ' if how else ''}{how}.")
    if turn.clips:
        pairs = [f"{left} to {right}" for left, right in turn.clips]
        said.append(f"Clip {joined(pairs)}.")
    return " ".join(said)


def _bring_up(turn: Turn, row: SetRow) -> str:
    clear = " and clear of its neighbors" if row.curved else ""
    return f"Bring {turn.stand.name} up, short of its mark{clear}."


def _waiting(turn: Turn, plan: Plan) -> tuple[Cord, ...]:
    """The longer leads that lie there, and are plugged into the chair now that it is there."""
    there = turn.before | {cord.id for cord in turn.cords}
    return tuple(
        cord
        for cord in in_bags(plan)
        if cord.kind == OWN and is_free(cord) and cord.id in there and cord.to == turn.stand.name
    )


def _plug_in(cord: Cord, plan: Plan, numbers: dict[str, int]) -> str:
    goal = plug_text(cord.to, plan, last=True, link=False)
    return (
        f"Take off {cord.to}'s own lead (where it is fixed, stop and ask its maker), and plug "
        f"{tag_text(numbers[cord.id])} into {goal}."
    )


def _where(thing: Loose) -> str:
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
    start += _box_now(cord, turn, over, row, plan)
    goal = plug_text(cord.to, plan, last=True, link=link)
    words = f"({ends_text(cord, plan)})"
    if cord.kind == EXTENSION:
        words += f", the extension cord: plug it into {start}"
    elif cord.kind == OWN and cord.longer:
        words += f", the longer lead: plug it into {start}"
        words += "" if cord.to == turn.stand.name else f"; its other end waits at {cord.to}'s place"
    elif cord.kind == OWN:
        words += f": one end in {goal} (it may be fixed there), plug the other into {start}"
    else:
        instead = " in place of the one that came with it" if cord.longer else ""
        words += f"{instead}: plug one end into {start}, the other into {goal}"
    spare = lies(cord, plan)
    if spare is Lies.NO_ROOM:
        words += f', its spare as its maker says, see "{NOT_COILED}"'
    elif spare is Lies.COILED:
        words += "; lay its coil loosely and do not tie it yet"
    return words


def _moved(
    over: tuple[str, ...], laid: frozenset[str], row: SetRow, plan: Plan
) -> tuple[list[str], list[str]]:
    """What is done with chairs that already stand where a cord goes: before it, and after it."""
    if not over:
        return [], []
    stand, them = ("stands", "it") if len(over) == 1 else ("stand", "them")
    lead = f"{capital(joined(over))} already {stand} there, not yet clipped:"
    way, back = f"move {them} straight ahead for this", "the mark"
    if row.chalk.touch == "back":
        way = f"move {them} straight back for this (tapered arms jam on the way forward)"
        back = "the marks"
    elif row.curved:
        back = "the marks"
        way += ", the way each looks" if len(over) > 1 else ", the way it looks"
        if len(over) > 1:
            way += (
                ", one at a time, and put each back before the next is moved (on this arc two that "
                "are both ahead run into each other)"
            )
    said = [f"{lead} {way}.", *_how_each(over, laid, row, plan)]
    return [" ".join(said)], [f"Then {joined(over)} back onto {back}, moved in the same way."]


def _how_each(over: tuple[str, ...], laid: frozenset[str], row: SetRow, plan: Plan) -> list[str]:
    """How each is moved over what lies there."""
    stands = {one.name: one for one in row.stands}
    told = [how_text(passed(stands[name], laid, row, plan), plan, name) for name in over]
    return [f"{capital(how)}." for how in told if how]


def _box_now(cord: Cord, turn: Turn, over: tuple[str, ...], row: SetRow, plan: Plan) -> str:
    """Whether a chair stands over the box that a cord goes into."""
    box = next((b for b in plan.boxes if b.id == cord.from_ and b.kind == "floor box"), None)
    if box is None or box.under in over:
        return ""
    if box.under == turn.stand.name:
        return f" (it will be under {box.under})"
    if any(c.id == box.under for c in row.chairs):
        return " (no chair stands over it yet)"
    return ""


def under_table(turn: Turn, plan: Plan) -> tuple[Cord, ...]:
    """Return the leads that run under a table and can be laid before it, where they come off
    their chairs; none in the turn of a chair.

    Parameters
    ----------
    turn : Turn
        The turn of a chair or table.
    plan : Plan
        For cords.
    """
    cords, there = under_it(turn.stand, plan), turn.before | {one.id for one in turn.cords}
    return tuple(one for one in cords if one.kind == OWN and one.id not in there)


def under_it(stand: Stand, plan: Plan) -> tuple[Cord, ...]:
    """Return the cords that run under a table; none for a chair.

    Parameters
    ----------
    stand : Stand
        What is set.
    plan : Plan
        For cords.
    """
    if stand.seat is not None:
        return ()
    return tuple(cord for cord in in_bags(plan) if lies_under(cord, stand, plan))


def gap_text(stand: Stand, cords: tuple[Cord, ...], plan: Plan) -> str:
    """Return which cords run under a table, and the gap to be measured there.

    Parameters
    ----------
    stand : Stand
        The table.
    cords : tuple of Cord
        Those that run under it.
    plan : Plan
        For the gap and the units.
    """
    gap_m, units = plan.spec.table(stand.kind).under_m, plan.spec.project.units
    gap = "is NOT KNOWN" if gap_m is None else f"is {at_most_text(gap_m, units)} by the plan"
    run = "runs" if len(cords) == 1 else "run"
    return (
        f"{capital(cords_named(cords, plan))} {run} under {stand.name}: from floor to underside it "
        f"{gap}, and no foot or plinth may stand in the way. Measure before {stand.name} is set."
    )


def _table_text(stand: Stand, early: tuple[Cord, ...], plan: Plan) -> list[str]:
    """What is looked at before a table is set over cords, and what can be laid before it."""
    cords = under_it(stand, plan)
    if not cords:
        return []
    said = [gap_text(stand, cords, plan)]
    if early:
        chairs, one = joined([bag_of(cord, plan) for cord in early]), len(early) == 1
        comes = "the lead of {} comes off its chair, plug it in and lay it"
        come = "the leads of {} come off their chairs, plug them in and lay them"
        said.append(
            f"Where {(comes if one else come).format(chairs)} now, before {stand.name} stands; "
            f"else {stand.name} is moved for {'it' if one else 'them'} below."
        )
    return said
