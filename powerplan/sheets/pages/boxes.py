"""For the electrician: where to mark each floor box, measured from the walls."""

from __future__ import annotations

from powerplan.model.lengths import at_least_text, at_most_text, length_text
from powerplan.model.plan import NOT_POSSIBLE, Box, Plan
from powerplan.model.spec import Wall
from powerplan.sheets.off_walls import (
    beside_words,
    build_ups,
    from_back,
    from_left,
    place_words,
)
from powerplan.sheets.pages.box_reach import limits_m
from powerplan.sheets.pages.print_held import before_cutting
from powerplan.sheets.pages.print_words import not_yet
from powerplan.sheets.parts import Items, Page, Part, Say, Table
from powerplan.sheets.words import DO_NOT_CUT_YET, FINE, from_wall, mark_word

_MOVES = "Its middle may lie anywhere in the rectangle this far from the mark (rounded down)"


def boxes_page(plan: Plan) -> Page:
    """Return the marks, how far each may move, and why any is not at its best place."""
    title = "Where the floor boxes go"
    if not plan.boxes:
        if plan.decision.verdict == NOT_POSSIBLE:
            text = "None is marked: the job is not possible as drawn."
        else:
            text = "None is needed: no new outlet is part of the answer."
        return Page(title=title, parts=(Say(text=text),))
    notes = tuple(note for box in plan.boxes for note in _notes(box, plan))
    first = before_cutting(plan)
    parts: list[Part] = [
        *not_yet(f"{DO_NOT_CUT_YET}: the marks move when this is mended:", plan),
        *([Items(lead=f"{DO_NOT_CUT_YET}; before that:", items=first)] if first else []),
        _marks(plan),
        moves_table(plan, _MOVES),
    ]
    if notes:
        parts.append(Items(lead="Box by box:", items=notes))
    finish = build_ups(plan)
    if finish:
        parts.append(Items(lead="The walls:", items=finish))
    return Page(title=title, parts=tuple(parts))


def _marks(plan: Plan) -> Table:
    units, room = plan.spec.project.units, plan.spec.room
    rows = tuple(
        (
            box.id,
            box.under,
            from_left(room, box.x_m, units, step=FINE),
            from_back(room, box.y_m, units, step=FINE),
            box.circuit,
            str(box.sockets),
            mark_word(box, plan),
        )
        for box in plan.boxes
    )
    left, back = from_wall(room, Wall.LEFT), from_wall(room, Wall.BACK)
    head = ("box", "under", left, back, "circuit", "sockets", "mark")
    return Table(
        caption=f"The middle of each box, to the nearest {nearest(plan)}", head=head, rows=rows
    )


def nearest(plan: Plan) -> str:
    """Return to what places of outlets are rounded."""
    return "millimeter" if plan.spec.project.units in ("mm", "m") else f"1/{FINE} in"


def moves_table(plan: Plan, caption: str) -> Table:
    """Return how far each box's middle may be from its mark, all four directions at once, and
    how far its cords allow where that is less."""
    units = plan.spec.project.units
    rows: list[tuple[str, ...]] = []
    limits = {box.id: limits_m(box, plan) for box in plan.boxes}
    limited = any(most_m is not None for most_m in limits.values())
    for box in plan.boxes:
        drift, two = box.drift, box.second_mark_m is not None
        ways = (drift.left_m, drift.right_m, drift.back_m, drift.screen_m)
        far = tuple(at_most_text(way_m, units) for way_m in ways)
        reach = (_reach_text(limits[box.id], units),) if limited else ()
        rows.append((f"{box.id}, first mark" if two else box.id, *far, *reach))
        if two:
            stays = ("not at all" for _ in (*ways, *reach))
            rows.append((f"{box.id}, second mark", *stays))
    head: tuple[str, ...] = ("box", "to the left", "to the right", "toward the back")
    head += ("toward the screen", *(("and no farther than",) if limited else ()))
    caption += ", but no farther from the mark than its cords reach" if limited else ""
    return Table(caption=caption, head=head, rows=tuple(rows))


def _reach_text(most_m: float | None, units: str) -> str:
    """How far from the mark cords reach, of a box that they limit; else that they do not."""
    if most_m is None:
        return "cords reach everywhere there"
    return f"cords reach only {at_most_text(most_m, units)} from the mark"


def _notes(box: Box, plan: Plan) -> list[str]:
    units = plan.spec.project.units
    notes = []
    if box.kind != "floor box":
        notes.append(f"{box.id}: on the wall, {length_text(box.height_m, units)} up")
    if box.deck is not None:
        notes.append(f"{box.id}: cut into the deck of riser {box.deck}, not into the floor")
    if box.moved_because:
        notes.append(f"{box.id}: not at its best place: {box.moved_because}")
    if box.provisional:
        notes.append(f"{box.id}: PROVISIONAL: do not cut before what is not checked is known")
    if box.second_mark_m is not None:
        where = place_words(box.second_mark_m, plan, step=FINE)
        notes.append(
            f"{box.id}: second mark {where}: of the two, one is clear of joists wherever they lie; "
            "scan at both, cut neither, and plan again with what was found; it may not be moved"
        )
    for side in (Wall.LEFT, Wall.RIGHT, Wall.BACK, Wall.SCREEN):
        notes += beside_words(box.id, (box.x_m, box.y_m), side, plan)
    wiring = (
        "length unknown" if box.wiring_m is None else f"about {at_least_text(box.wiring_m, units)}"
    )
    notes.append(f"{box.id}: wired from {box.wired_from}, {wiring}")
    return notes
