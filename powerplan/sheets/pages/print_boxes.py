"""Page 2, for the electrician: where every outlet goes, how it is wired, and when to stop."""

from __future__ import annotations

from dataclasses import replace

from powerplan.model.faces import STUDS
from powerplan.model.lengths import joined
from powerplan.model.plan import NOT_POSSIBLE, Box, Plan
from powerplan.model.spec import Framing, Wall
from powerplan.sheets.off_walls import off_wall, place_words
from powerplan.sheets.page_names import DECISION, floor_page, floor_title
from powerplan.sheets.pages.boxes import moves_table, nearest
from powerplan.sheets.pages.print_held import hangs, held_word, is_held, warned
from powerplan.sheets.pages.print_marks import FLOOR_BOX, fittings, joists, places
from powerplan.sheets.pages.print_next import spare_before_cutting, spare_to_settle
from powerplan.sheets.pages.print_plugs import plugs_behind
from powerplan.sheets.pages.print_room import (
    first_proof,
    proof_within,
    room_parts,
    rows_as_drawn,
)
from powerplan.sheets.pages.print_slab import slab_stops, slab_ways
from powerplan.sheets.pages.print_wiring import buying, circuits_named, there, wires
from powerplan.sheets.pages.print_words import capital, not_yet
from powerplan.sheets.parts import Figure, Items, Marked, Part, Say
from powerplan.sheets.printed import SheetPage
from powerplan.sheets.scene import View
from powerplan.sheets.words import (
    DO_NOT_CUT,
    DO_NOT_CUT_YET,
    FINE,
    FIRM,
    cut_word,
    fine_text,
    from_wall,
    mark_word,
)

_SIDES = "Left and right are as you sit watching the screen."
_NOTHING = "No new outlet is part of the answer: cut nothing."
_NOT_YET = "DO NOT CUT YET: the marks move when this is mended:"
_ONLY_AFTER = "CUT ONLY AFTER this is confirmed"


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
    word = "" if cut_word(plan) else held_word(plan)  # marks that are not firm are drawn so
    told = [replace(view, title=f"{view.title}. {word}") if word else view for view in views]
    drawn, large = ([Figure(view=view) for view in some] for some in (told[:1], told[1:]))
    drawn += [] if legend is None else [Figure(view=legend)]
    if plan.decision.verdict == NOT_POSSIBLE:
        parts = [*_not_possible(), *drawn, *large, *room_parts(plan)]
        parts += [*rows_as_drawn(plan), *there(plan)]
    elif not plan.boxes:
        parts = [Say(text=f"{_NOTHING} {_SIDES}"), *drawn]
        parts += [*room_parts(plan), *there(plan), *plugs_behind(plan), _stop(plan)]
    else:
        why = [*not_yet(_NOT_YET, plan)]
        spare = spare_before_cutting(plan)
        settle = [Say(text=f"{DO_NOT_CUT_YET}: {spare}")] if spare else []
        parts = [*_before_all(plan, why), *drawn, *why, *settle, Say(text=_read(plan))]
        parts += _marks(plan)
        parts += [*large, *_work(plan), *plugs_behind(plan), *there(plan)]
    title = warned(floor_title(plan), plan)
    return SheetPage(number="2", title=title, reader="electrician", parts=tuple(parts))


def _not_possible() -> list[Part]:
    lines = (
        "DO NOT CUT. This is the room as it was measured, and the rows as they would stand; "
        f"nothing is marked. See {DECISION}. {_SIDES}",
    )
    return [Marked(mark="NOT POSSIBLE AS DRAWN", lines=lines)]


def _before_all(plan: Plan, why: list[Items]) -> list[Part]:
    """What is read before the drawing, in a few lines: what forbids cutting, and the proof."""
    parts: list[Part] = []
    proof, word = first_proof(plan), f"{DO_NOT_CUT_YET}:"
    if why:
        parts.append(Say(text=f"{word} the marks may still move (why: after the drawing)."))
    elif mark_word(plan.boxes[0], plan) == DO_NOT_CUT:
        parts.append(Say(text=f"{word} first mend what {DECISION} lists."))
    elif cut_word(plan):
        proof = f"{word} first find out what {DECISION} asks. {proof}"
    elif spare_before_cutting(plan):
        proof = f"{word} first the seller settles {spare_to_settle(plan)}. {proof}"
    confirmed = hangs(plan)
    if confirmed:
        parts.append(Items(lead=f"{_ONLY_AFTER}:", items=confirmed))
    return [*parts, Say(text=proof)]


def _read(plan: Plan) -> str:
    """How the drawing and the tables are read."""
    face = "studs" if plan.spec.room.print_to == STUDS else "finished face"
    return (
        f"{_SIDES} Every measure is to the middle of the box, with the tape level, from the {face} "
        f"of the wall named, to the nearest {nearest(plan)}; how far a box may be moved is rounded "
        "down."
    )


def _marks(plan: Plan) -> list[Part]:
    """Where the middle of every box goes and how far it may move."""
    caption = (
        "How far a box may be moved: its middle may lie anywhere in the rectangle this far from "
        "the mark"
    )
    return [*places(plan), moves_table(plan, caption), *joists(plan)]


def _work(plan: Plan) -> list[Part]:
    """What is cut, what is kept clear of, when to stop, and how the boxes are wired."""
    return [
        fittings(plan),
        *_notes(plan),
        *room_parts(plan),
        _avoid(plan),
        _stop(plan),
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
    if is_held(plan) and mark_word(box, plan) == FIRM:
        notes.append(f"cut only after what {floor_page(plan)} begins with is confirmed")
    if box.provisional:
        notes.append(
            f"PROVISIONAL: do not cut. First find out what {DECISION} asks, then have the room "
            "planned again with what was found; that set shows the mark to cut"
        )
    if box.deck is not None:
        notes.append(f"cut into the deck of riser {box.deck}, not into the floor")
    if box.moved_because:
        notes.append(_stands(box.moved_because))
    if box.second_mark_m is not None:
        notes.append(
            "two marks, since nobody knows where the joists lie. If they run and are spaced as the "
            "plan says, one of the two is clear of them. Scan at both, cut neither, and have the "
            "room planned again with what was found. A second mark may not be moved"
        )
    return notes


def _stands(because: str) -> str:
    """How far a mark stands off the middle of its clear floor, and in brackets why: it is no order
    to move it."""
    why, _, by = because.rpartition(": ")
    middle, again = "from the middle of its clear floor", "not to be moved by that again"
    if not why:
        return f"already marked away {middle} ({because}); {again}"
    return f"already marked {by} {middle} ({why}); {again}"


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
    told += slab_ways(plan)
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
    within = proof_within(plan)
    cutting = (
        "A scan shows a tendon, bar, duct, pipe, cable or joist inside a cut-out, and nowhere that "
        "the box may be moved to is clear of it.",
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
        "A breaker, a wire or what is already on a circuit is not as assumed here.",
    )
    stops = (
        *(cutting if any(box.kind == FLOOR_BOX for box in plan.boxes) else ()),
        *slab_stops(plan),
        *(existing if used else ("The panel has no free space, or its wiring is aluminum.",)),
        "Local code, or the authority having jurisdiction, asks for something else.",
    )
    return Items(lead="Stop, and call whoever made this plan, when:", items=stops)
