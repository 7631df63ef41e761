"""The order of work from the first look to the last bolt: before, between and after the chairs."""

from __future__ import annotations

from powerplan.model.lengths import at_most_text, joined, micrometers
from powerplan.model.plan import Box, Plan
from powerplan.sheets.page_names import CIRCUITS, floor_page
from powerplan.sheets.pages.box_reach import cords_allow_m, farthest_m
from powerplan.sheets.pages.loose import under_backs
from powerplan.sheets.pages.place_notes import count_notes
from powerplan.sheets.pages.print_order import turns
from powerplan.sheets.pages.print_rows import SetRow, armless
from powerplan.sheets.pages.print_spare import Lies, cords_named, homeless, lies
from powerplan.sheets.pages.print_steps import gap_text, turn_text, under_it
from powerplan.sheets.pages.print_tags import link_fed
from powerplan.sheets.parts import Items, Part

_OWN, _RUSH = "own", "switch-on-by-count"


def work_order(rows: tuple[SetRow, ...], plan: Plan, numbers: dict[str, int]) -> list[Part]:
    """Return what is done before the first chair, row by row, and after the last chair.

    Parameters
    ----------
    rows : tuple of SetRow
        The rows.
    plan : Plan
        The plan.
    numbers : dict
        The number on each cord's tag, by its id.
    """
    before = (
        "Power off at the breaker."
        + (" Boxes are cut, wired and proved by the electrician." if plan.boxes else ""),
        *_as_cut(plan),
        *_chalk(rows),
        "Hang its tag on each cord, at both ends: its number and its two ends, as in the table of "
        "cord bags.",
        *_what_comes(plan),
        "Before a chair that stands is moved, look that the cords plugged into it have slack for "
        "that; unplug what would be pulled, and plug it in again after.",
        "Nothing is pushed over a cord: lift the rear over it, or have somebody hold the cord out "
        "of the way, and look.",
        "Two neighbors are clipped together only when the order says so: until then a chair can be "
        "moved to reach under it.",
        *_one_piece(rows),
        *_tables(rows, plan),
    )
    lead = "Order of work, row {}, from the middle outward (the numbers in circles):"
    return [
        Items(lead="Before the first chair:", items=before),
        *(
            Items(
                lead=lead.format(row.id),
                items=tuple(turn_text(turn, row, plan, numbers) for turn in turns(row, plan)),
                numbered=True,
            )
            for row in rows
        ),
        Items(lead="After the last chair:", items=_after(rows, plan)),
    ]


def _after(rows: tuple[SetRow, ...], plan: Plan) -> tuple[str, ...]:
    """What is done once all stands: ties, a look, bolts, and only then power."""
    coiled = any(lies(cord, plan) is Lies.COILED for cord in plan.cords)
    aside = [thing.id for thing in under_backs(plan)]
    but = f", but not yet the cords of {joined(aside)}" if aside else ""
    ties = (
        f"Only now tie: each coil once and not tightly, each cord to the fixed frame{but}. A coil "
        "that is tied earlier leaves no slack to move a chair.",
    )
    return (
        *(ties if coiled else ()),
        "Look under every chair: no cord touches a mechanism, none is stretched or tight.",
        *(text for row in rows for text in _bolts(row)),
        f'Tick "Before power" below. {_trips(plan)}Then power on, and do the test, chair by chair.',
    )


def _trips(plan: Plan) -> str:
    """What is known before power goes on, where the supplies' rush may trip the breaker."""
    if not any(one.rule == _RUSH for one in count_notes(plan)):
        return ""
    return (
        "All supplies come on together, and the breaker may trip: if it does, switch it off, leave "
        f"it off and call the electrician ({CIRCUITS}); unplug nothing under a chair. "
    )


def _bolts(row: SetRow) -> list[str]:
    """When a row is bolted down: cords in, power still off, nobody seated."""
    if row.row.fastened is False:
        return []
    if row.row.fastened is None:
        lead = f"Row {row.id}: if it is to be bolted down (ask), bolt it now"
    else:
        lead = f"Bolt row {row.id} down now"
    return [
        f"{lead}, where scanned, clear of what is marked and of every cord: the power is still off "
        "for the drill, and in the test nobody sits in a chair that can tip. Then look under it "
        "once more."
    ]


def _as_cut(plan: Plan) -> list[str]:
    """Where cords start if a box is not where its mark was, and how far that may be off."""
    told = [text for box in plan.boxes if (text := _moved(box, plan))]
    if not told:
        return []
    return [
        f'Compare "as cut" on {floor_page(plan)} with the mark of each box. A cord starts where '
        "the box really is: lay it from there to where the mark is, then as its way says. "
        f"{' '.join(told)} Moved farther, or nothing written down: stop and call whoever planned "
        "it."
    ]


def _moved(box: Box, plan: Plan) -> str:
    """How far from its mark a box may be before one of its cords is too short."""
    cords = tuple(cord for cord in plan.cords if cord.from_ == box.id)
    if not cords:
        return ""
    units, far_m = plan.spec.project.units, farthest_m(box)
    most_m = cords_allow_m(box, plan) or 0.0
    named = cords_named(cords, plan)
    are = "is" if len(cords) == 1 else "are"
    if 0 < micrometers(far_m) <= micrometers(most_m):
        return (
            f"From {box.id}, {named} {are} long enough wherever in the rectangle of that page it "
            "was cut."
        )
    other = any(cord in homeless(plan) for cord in cords)
    return (
        f"From {box.id}, {named} {are} long enough up to {at_most_text(most_m, units)} from the "
        f"mark{' (a shorter one than on this page: first measure its way anew)' if other else ''}."
    )


def _what_comes(plan: Plan) -> list[str]:
    """With which cords chairs and supplies come."""
    told = []
    if any(cord.kind == _OWN for cord in plan.cords):
        told.append(
            "A chair comes with its own lead. Where the lead comes off the chair, chair and lead "
            "may also come one by one; the order below works for both."
        )
    linked = link_fed(plan)
    if linked:
        leads = "lead" if len(linked) == 1 else "leads"
        told.append(
            f"A link is plugged into the inlet that a chair's own lead leaves free: take the own "
            f"{leads} of {joined(list(linked))} off and away before the first chair. Where one is "
            "fixed, stop and ask its maker: no link can go in."
        )
    if plan.supplies:
        told.append(
            "A supply comes with its wall cord and its chair cords. The wall cord is fixed to no "
            "chair: it is laid before a chair stands over it."
        )
    return told


def _one_piece(rows: tuple[SetRow, ...]) -> list[str]:
    """How two seats with no arm between them are set, where they come as one piece."""
    pairs = [f"{one.name} and {other.name}" for row in rows for one, other in armless(row)]
    if not pairs:
        return []
    return [
        f"No arm stands between {'; nor between '.join(pairs)}: such two may come as one piece. "
        "Then the two are brought up, lifted and moved together, by as many people as it takes: "
        "whatever the order says of one is done with both, and no cord of either is left for when "
        "the piece stands on its marks."
    ]


def _chalk(rows: tuple[SetRow, ...]) -> list[str]:
    """What is chalked, of rows of each sort."""
    plain = [row.id for row in rows if row.plain]
    straight = [row.id for row in rows if not row.plain and not row.curved]
    curved = [row.id for row in rows if row.curved]
    sorts = (
        (plain, "snap the line and mark the middle of each chair on it"),
        (
            straight,
            "snap the line between its two ends and mark on it, from the left end, both sides and "
            "the middle of all that stands there",
        ),
        (
            curved,
            "snap the straight line between its two ends, set off the marks of the arc and both "
            "rear corners of all that stands there, and write the name at each",
        ),
    )
    told = [
        f"Row{'' if len(names) == 1 else 's'} {joined(names)}: {what}."
        for names, what in sorts
        if names
    ]
    if straight or curved:
        told.append("Mark the bends of cords too, each with its letter, and where cords enter.")
    return told


def _tables(rows: tuple[SetRow, ...], plan: Plan) -> list[str]:
    """What is said of tables and gaps, where a row has some."""
    told = []
    stands = [one for row in rows for one in row.stands]
    if any(one.seat is None for one in stands):
        told.append(
            "A table is set in its turn too; how it is clipped to its seats, its maker says."
        )
    told += [gap_text(one, cords, plan) for one in stands if (cords := under_it(one, plan))]
    if any(one.free_right for one in stands):
        told.append("Over a gap nothing is clipped.")
    return told
