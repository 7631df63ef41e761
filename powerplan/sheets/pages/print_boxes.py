"""Page 2, for the electrician: where every outlet goes, how it is wired, and when to stop."""

from __future__ import annotations

import math

from powerplan.model.faces import STUDS
from powerplan.model.lengths import INCH_M, joined, length_text
from powerplan.model.plan import NOT_POSSIBLE, Box, Plan
from powerplan.model.spec import Framing, Riser, Wall
from powerplan.sheets.corners import corners_told
from powerplan.sheets.drawings.box_measures import taped_floor
from powerplan.sheets.levels import crosses_a_step
from powerplan.sheets.off_walls import (
    build_ups,
    from_back,
    from_left,
    off_wall,
    place_words,
    printed_corners,
    printed_room,
)
from powerplan.sheets.pages.boxes import moves_table, nearest
from powerplan.sheets.pages.print_marks import FLOOR_BOX, fittings, joists, places
from powerplan.sheets.pages.print_plugs import plugs_behind
from powerplan.sheets.pages.print_rows import set_rows
from powerplan.sheets.pages.print_wiring import buying, circuits_named, there, wires
from powerplan.sheets.pages.print_words import capital, not_yet
from powerplan.sheets.parts import Figure, Items, Marked, Part, Say, Table
from powerplan.sheets.printed import SheetPage
from powerplan.sheets.scene import View
from powerplan.sheets.words import DO_NOT_CUT, FINE, FIRM, fine_text, from_wall, mark_word

_NOT_YET = "DO NOT CUT YET: the marks move when this is mended:"
_ONLY_AFTER = "CUT ONLY AFTER this is confirmed"
_PROVISIONAL = ("framing",)
_SQUARE_WITHIN_M = float(INCH_M / 2)


def boxes_sheet(plan: Plan, views: tuple[View, ...], legend: View | None = None) -> SheetPage:
    """Return page 2.

    Parameters
    ----------
    plan : Plan
        The plan.
    views : tuple of View
        The floor-box drawing, then the boxes at a large scale.
    legend : View, optional
        What their lines and signs mean.
    """
    drawn, large = ([Figure(view=view) for view in some] for some in (views[:1], views[1:]))
    drawn += [] if legend is None else [Figure(view=legend)]
    parts: list[Part] = []
    if plan.decision.verdict == NOT_POSSIBLE:
        lines = (
            "DO NOT CUT. This is the room as it was measured, and the rows as they would stand; "
            "nothing is marked. See page 1.",
        )
        parts += [Marked(mark="NOT POSSIBLE AS DRAWN", lines=lines), Say(text=_lead(plan))]
        parts += [*drawn, *large, *_room(plan), *_rows(plan), *there(plan)]
    else:
        parts += not_yet(_NOT_YET, plan) or _mend_first(plan)
        parts += [Marked(mark=_ONLY_AFTER, lines=_hangs(plan))] if _hangs(plan) else []
        parts += [Say(text=_lead(plan)), *drawn, *_room(plan), *large]
        parts += [*_marks(plan), *there(plan), *plugs_behind(plan), _stop(plan)]
    return SheetPage(number="2", title=_title(plan), reader="electrician", parts=tuple(parts))


def _mend_first(plan: Plan) -> list[Part]:
    """What stops the work though no mark moves for it."""
    if not plan.boxes or mark_word(plan.boxes[0], plan) != DO_NOT_CUT:
        return []
    return [Say(text="DO NOT CUT YET: first mend what page 1 lists.")]


def _hangs(plan: Plan) -> tuple[str, ...]:
    """What has to be confirmed before any box is cut, beside what makes marks provisional."""
    if not any(mark_word(box, plan) == FIRM for box in plan.boxes):
        return ()
    return tuple(
        f"{capital(one.sentence.partition(':')[0])}."
        for one in plan.decision.depends_on
        if one.kind not in _PROVISIONAL
    )


def _title(plan: Plan) -> str:
    return "Floor boxes" if plan.boxes else "The room and its outlets"


def _lead(plan: Plan) -> str:
    told = "Left and right are as you sit watching the screen."
    face = "studs" if plan.spec.room.print_to == STUDS else "finished face"
    if plan.boxes:
        told += (
            " Every measure is to the middle of the box, with the tape level, from the "
            f"{face} of the wall named, to the nearest {nearest(plan)}; how far a box may be "
            "moved is rounded down. First prove the room as told below."
        )
    return told


def _room(plan: Plan) -> list[Part]:
    room, units = plan.spec.room, plan.spec.project.units
    printed, studs = printed_room(plan), room.print_to == STUDS
    between = "between studs" if studs else "between finished walls"
    if room.walls:
        between = "at its widest and deepest" + (", between studs" if studs else "")
    size = (
        f"The room is {fine_text(printed.width_m, units)} wide (left to right) and "
        f"{fine_text(printed.depth_m, units)} deep (back to screen), {between}."
    )
    if studs:
        finished = f"{fine_text(room.width_m, units)} by {fine_text(room.depth_m, units)}"
        size += f" Between finished walls it will be {finished}."
    size = " ".join((size, *build_ups(plan)))
    risers = tuple(_riser_size(riser, units) for riser in plan.spec.risers)
    limit = length_text(_SQUARE_WITHIN_M, units)
    every = f"First measure every wall; if one differs by more than {limit}, stop and call."
    proof = f"{every} {corners_told(plan, limit)}" if room.walls else _diagonals(plan)
    return [Items(lead="The room:", items=(size, *risers, proof)), *_walls(plan)]


def _walls(plan: Plan) -> list[Part]:
    """The walls of a room that is no plain rectangle."""
    room, units = plan.spec.room, plan.spec.project.units
    starts = printed_corners(room) if room.walls else ()
    rows = tuple(
        (
            wall.label,
            fine_text(math.dist(start, end), units),
            from_left(room, start[0], units, step=FINE),
            from_back(room, start[1], units, step=FINE),
        )
        for wall, start, end in zip(room.walls, starts, (*starts[1:], *starts[:1]), strict=True)
    )
    caption = "The walls, each from where the one before ends"
    left, back = from_wall(room, Wall.LEFT), from_wall(room, Wall.BACK)
    head = ("wall", "long", f"starts, {left}", f"starts, {back}")
    return [Table(caption=caption, head=head, rows=rows)] if rows else []


def _riser_size(riser: Riser, units: str) -> str:
    rect = riser.rect
    return (
        f"Riser {riser.id} is {fine_text(rect.width_m, units)} wide, "
        f"{fine_text(rect.depth_m, units)} deep and {fine_text(riser.height_m, units)} high."
    )


def _diagonals(plan: Plan) -> str:
    units, printed, part = plan.spec.project.units, printed_room(plan), taped_floor(plan)
    limit = length_text(_SQUARE_WITHIN_M, units)
    stop = f"If the two differ by more than {limit}, stop and call."
    whole = fine_text(math.hypot(printed.width_m, printed.depth_m), units)
    to = ", stud to stud" if plan.spec.room.print_to == STUDS else ""
    if part.back_m > 0:
        ahead = fine_text(math.hypot(part.width_m, part.depth_m), units)
        return (
            f"First measure both diagonals of the floor ahead of the riser{to}: if it is square, "
            f"each is {ahead}. Those of the whole room are {whole}, measured at one height, above "
            f"the riser. {stop}"
        )
    level = ", at one height, above the riser" if crosses_a_step(plan) else ""
    return (
        f"First measure both diagonals of the room{to}{level}: if it is square, each is {whole}. "
        f"{stop}"
    )


def _rows(plan: Plan) -> list[Part]:
    """Where the rows would stand."""
    units, room = plan.spec.project.units, plan.spec.room
    rows = tuple(
        (
            f"row {row.id}",
            from_left(room, row.left_m, units),
            from_left(room, row.right_m, units),
            from_back(room, row.line_m, units),
            from_back(room, row.front_m, units),
        )
        for row in set_rows(plan)
        if row.square
    )
    left, back = from_wall(room, Wall.LEFT), from_wall(room, Wall.BACK)
    head = ("row", f"left end, {left}", f"right end, {left}", f"rear of bases, {back}", "front")
    others = [f"Row {row.id}" for row in set_rows(plan) if not row.square]
    return [
        *([Table(caption="Where the rows would stand", head=head, rows=rows)] if rows else []),
        *([Say(text=f"Turned or on an arc, see the drawing: {joined(others)}.")] if others else []),
    ]


def _marks(plan: Plan) -> list[Part]:
    if not plan.boxes:
        return [Say(text="No new outlet is part of the answer: cut nothing.")]
    return [
        *places(plan),
        moves_table(plan, "How far a box may be moved: all four at once, moves may be combined"),
        *joists(plan),
        fittings(plan),
        *_notes(plan),
        _avoid(plan),
        *wires(plan),
        buying(plan),
    ]


def _notes(plan: Plan) -> list[Part]:
    """What is to be minded of boxes; of several alike it is said once."""
    told: dict[str, list[str]] = {}
    for box in plan.boxes:
        for note in _box_notes(box, plan):
            told.setdefault(note, []).append(box.id)
    items = []
    for note, names in told.items():
        verb = "has" if note.startswith("two marks") else "is"
        if len(names) > 1:
            verb = {"has": "have", "is": "are"}[verb]
        text = f"{capital(joined(names))} {verb} {note}"
        items.append(text if text.endswith(".") else f"{text}.")
    return [Items(lead="Box by box:", items=tuple(items))] if items else []


def _box_notes(box: Box, plan: Plan) -> list[str]:
    notes: list[str] = []
    if _hangs(plan) and mark_word(box, plan) == FIRM:
        notes.append("cut only after what stands at the top of this page is confirmed")
    if box.provisional:
        notes.append(
            "PROVISIONAL: do not cut. First find out what page 1 asks, then have the room planned "
            "again with what was found; that set shows the mark to cut"
        )
    if box.deck is not None:
        notes.append(f"cut into the deck of riser {box.deck}, not into the floor")
    if box.moved_because:
        notes.append(_moved(box.moved_because))
    if box.second_mark_m is not None:
        notes.append(
            "two marks, since nobody knows where the joists lie. If they run and are spaced as the "
            "plan says, one of the two is clear of them. Scan at both, cut neither, and have the "
            "room planned again with what was found. A second mark may not be moved"
        )
    return notes


def _moved(because: str) -> str:
    """How far a mark is off the middle of its clear floor, and in brackets why."""
    why, _, by = because.rpartition(": ")
    if not why:
        return f"moved from the middle of its clear floor: {because}"
    return f"moved {by} from the middle of its clear floor ({why})"


def _avoid(plan: Plan) -> Items:
    spec, units = plan.spec, plan.spec.project.units
    decks = list(dict.fromkeys(box.deck for box in plan.boxes))
    told: list[str] = []
    for riser in spec.risers:
        if riser.id in decks:
            told.append(f"Riser {riser.id}: {_framing(riser.framing, plan, riser.id)}")
            told.append(f"Riser {riser.id}: the framing along its edges.")
    if None in decks:
        told.append(f"Floor: {_framing(spec.floor, plan, None)}")
    for area in spec.no_cut:
        rect = area.rect
        corner = place_words((rect.left_m, rect.back_m), plan, step=FINE)
        size = f"{fine_text(rect.width_m, units)} x {fine_text(rect.depth_m, units)}"
        told.append(
            f"{capital(area.id)}: cut nothing over it; its back left corner is {corner}; {size}."
        )
    told.append("Whatever a scan shows: cable, pipe, duct, tendon or bar.")
    return Items(lead="What to avoid:", items=tuple(told))


def _framing(framing: Framing, plan: Plan, riser: str | None) -> str:
    units = plan.spec.project.units
    if framing.build == "slab":
        return "a slab; scan for tendons, bars, heating and pipes before coring."
    if framing.build is None:
        return "nobody knows what it is built of; scan before cutting."
    where = "direction unknown" if framing.joists_run is None else f"running {framing.joists_run}"
    text = f"joists, {where}"
    if framing.spacing_m is not None:
        text += f", {fine_text(framing.spacing_m, units)} apart"
    if framing.joist_width_m is not None:
        text += f", each {fine_text(framing.joist_width_m, units)} thick"
    if framing.first_joist_m is None or framing.joists_run is None:
        return f"{text}; where they lie is unknown: find them before cutting."
    wall = Wall.LEFT if framing.joists_run == "back to screen" else Wall.BACK
    edge = from_wall(plan.spec.room, wall)
    first_m = framing.first_joist_m
    if riser is None:
        away = off_wall(plan.spec.room, wall, first_m, units, step=FINE)
        first = f"the middle of the first is {away} {edge}"
    else:
        rect = next(one.rect for one in plan.spec.risers if one.id == riser)
        start = rect.left_m if wall == Wall.LEFT else rect.back_m
        away = off_wall(plan.spec.room, wall, start + first_m, units, step=FINE)
        first = (
            f"the middle of the first is {fine_text(first_m, units)} from the riser's own "
            f"{wall.value} edge, {away} {edge}"
        )
    return f"{text}; {first}. Prove it with a scan before cutting."


def _stop(plan: Plan) -> Items:
    within = length_text(_SQUARE_WITHIN_M, plan.spec.project.units)
    cutting = (
        "A scan shows a tendon, bar, duct, pipe, cable or joist inside a cut-out, and the box "
        "cannot be moved clear of it within the table above.",
        "The framing or the walls are not as drawn, or the measures that prove the room differ by "
        f"more than {within}.",
        "The floor is fire-rated, or has old tile, glue or insulation that may hold asbestos.",
    )
    used = circuits_named(plan)
    existing = (
        f"{capital(used)}: it shares its neutral with another, or its neutral or ground cannot be "
        "proved.",
        "An outlet that is used has two slots and no ground, or the wire is aluminum or "
        "cloth-covered.",
        "A breaker, a wire or what is already on a circuit is not as assumed above.",
    )
    stops = (
        *(cutting if any(box.kind == FLOOR_BOX for box in plan.boxes) else ()),
        *(existing if used else ("The panel has no free space, or its wiring is aluminum.",)),
        "Local code, or the authority having jurisdiction, asks for something else.",
    )
    return Items(lead="Stop, and call whoever made this plan, when:", items=stops)
