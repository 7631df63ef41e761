"""Page 2, for the electrician: where every outlet goes, how it is wired, and when to stop."""

from __future__ import annotations

import math

from powerplan.model.lengths import INCH_M, amps_text, length_text
from powerplan.model.plan import NOT_POSSIBLE, Box, Plan
from powerplan.model.spec import Framing, Outlet, Wall
from powerplan.sheets.pages.boxes import moves_table
from powerplan.sheets.pages.print_words import (
    BLANK,
    capital,
    cord_exit,
    from_center,
    not_yet,
    outlet_place,
    place_text,
    size_text,
)
from powerplan.sheets.parts import Figure, Items, Part, Say, Table
from powerplan.sheets.printed import SheetPage
from powerplan.sheets.scene import View
from powerplan.sheets.words import UNKNOWN, from_wall

_FLOOR_BOX = "floor box"
_FINE = 16  # a mark on an eighth may stand on a sixteenth from the other wall
_SQUARE_WITHIN_M = float(INCH_M / 2)


def boxes_sheet(plan: Plan, view: View | None, legend: View | None = None) -> SheetPage:
    """Return page 2.

    Parameters
    ----------
    plan : Plan
        The plan.
    view : View or None
        The floor-box drawing; None where the job is not possible as drawn.
    legend : View, optional
        What its lines and signs mean.
    """
    parts: list[Part] = []
    if view is None or plan.decision.verdict == NOT_POSSIBLE:
        text = "Nothing is marked: the job is not possible as drawn. Cut nothing. See page 1."
        parts.append(Say(text=text))
    else:
        parts += not_yet("DO NOT CUT YET: the marks move when this is mended:", plan)
        parts += [Say(text=_square(plan)), Figure(view=view)]
        parts += [] if legend is None else [Figure(view=legend)]
        parts += [*_marks(plan), *_there(plan), _stop(plan)]
    return SheetPage(number="2", title="Floor boxes", reader="electrician", parts=tuple(parts))


def _square(plan: Plan) -> str:
    room, units = plan.spec.room, plan.spec.project.units
    diagonal_m = math.hypot(room.width_m, room.depth_m)
    if not plan.boxes:
        return "Left and right are as you sit watching the screen."
    return (
        "Left and right are as you sit watching the screen. Every measure is to the middle of "
        "the box, from the finished face of the wall named. First measure both diagonals of the "
        f"room: if it is square, each is {length_text(diagonal_m, units)}. If the two differ by "
        f"more than {length_text(_SQUARE_WITHIN_M, units)}, stop and call."
    )


def _marks(plan: Plan) -> list[Part]:
    if not plan.boxes:
        return [Say(text="No new outlet is part of the answer: cut nothing.")]
    return [
        _places(plan),
        moves_table(plan, "How far a box may be moved: all four at once, moves may be combined"),
        _fittings(plan),
        *_notes(plan),
        _avoid(plan),
        _wires(plan),
    ]


def _places(plan: Plan) -> Table:
    room = plan.spec.room
    rows: list[tuple[str, ...]] = []
    for box in plan.boxes:
        second = box.second_mark_m
        first = box.id if second is None else f"{box.id}, first mark"
        rows.append(_place(first, box, (box.x_m, box.y_m), plan))
        if second is not None:
            rows.append(_place(f"{box.id}, second mark", box, second, plan))
    left, right = from_wall(room, Wall.LEFT), from_wall(room, Wall.RIGHT)
    back = from_wall(room, Wall.BACK)
    head = ("box", "under", left, right, back, "off the center line", "as cut")
    return Table(caption="Where the middle of each box goes", head=head, rows=tuple(rows))


def _place(name: str, box: Box, at: tuple[float, float], plan: Plan) -> tuple[str, ...]:
    units = plan.spec.project.units
    under = box.under if box.kind == _FLOOR_BOX else f"behind {box.under}"
    return (
        name,
        under,
        length_text(at[0], units, step=_FINE),
        length_text(plan.spec.room.width_m - at[0], units, step=_FINE),
        length_text(at[1], units, step=_FINE),
        from_center(at[0], plan),
        BLANK,
    )


def _fittings(plan: Plan) -> Table:
    work, units = plan.spec.new_work, plan.spec.project.units
    recessed = "recessed" if work.plug_height_m == 0 else "flush"
    rows = tuple(
        (
            box.id,
            box.circuit,
            f"{box.sockets} of {amps_text(box.rating_a)}",
            *(
                (size_text(work.cut_out, units), size_text(work.lid, units), recessed)
                if box.kind == _FLOOR_BOX
                else ("on the wall", "-", f"{length_text(box.height_m, units)} up")
            ),
            cord_exit(box, plan),
        )
        for box in plan.boxes
    )
    head = ("box", "circuit", "sockets", "cut-out", "lid", "set", "cords leave to the")
    caption = "What each box is (sizes are left to right x back to screen)"
    return Table(caption=caption, head=head, rows=rows)


def _notes(plan: Plan) -> list[Part]:
    notes: list[str] = []
    for box in plan.boxes:
        name = capital(box.id)
        if box.provisional:
            notes.append(f"{name} is PROVISIONAL: cut nothing before page 1's question is answered")
        if box.deck is not None:
            notes.append(f"{name} is cut into the deck of riser {box.deck}, not into the floor")
        if box.moved_because:
            notes.append(f"{name} is moved from the middle of its clear floor: {box.moved_because}")
        if box.second_mark_m is not None:
            notes.append(
                f"{name} has two marks, since nobody knows where the joists lie: scan, and cut "
                "the one that is clear; one of the two always is. Never cut both"
            )
    ended = tuple(note if note.endswith(".") else f"{note}." for note in notes)
    return [Items(lead="Box by box:", items=ended)] if ended else []


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
        corner = place_text((rect.left_m, rect.back_m), plan)
        size = f"{length_text(rect.width_m, units)} x {length_text(rect.depth_m, units)}"
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
        text += f", {length_text(framing.spacing_m, units)} apart"
    if framing.first_joist_m is None or framing.joists_run is None:
        return f"{text}; where they lie is unknown: find them before cutting."
    wall = Wall.LEFT if framing.joists_run == "back to screen" else Wall.BACK
    edge = from_wall(plan.spec.room, wall)
    if riser is not None:
        edge = f"from the riser's own {wall.value} edge"
    first = f"the middle of the first is {length_text(framing.first_joist_m, units)} {edge}"
    return f"{text}; {first}. Prove it with a scan before cutting."


def _wires(plan: Plan) -> Table:
    units = plan.spec.project.units
    uses = {use.id: use for use in plan.circuits}
    rows = []
    for box in plan.boxes:
        use = uses.get(box.circuit)
        breaker_a, wire = (None, None) if use is None else (use.breaker_a, use.wire)
        rows.append(
            (
                box.wired_from,
                box.id,
                f"{box.circuit} (NEW)" if use is not None and use.new else box.circuit,
                UNKNOWN if breaker_a is None else amps_text(breaker_a),
                wire or UNKNOWN,
                UNKNOWN if box.wiring_m is None else f"about {length_text(box.wiring_m, units)}",
                BLANK,
            )
        )
    head = ("from", "to", "circuit", "breaker", "wire", "length", "as run")
    return Table(caption="Wiring; lengths are estimates", head=head, rows=tuple(rows))


def _there(plan: Plan) -> list[Part]:
    rows = [row for circuit in plan.spec.circuits for row in _circuit_rows(circuit.id, plan)]
    rows += [row for outlet in plan.spec.outlets for row in _outlet_rows(outlet, plan)]
    if not rows:
        return [Say(text="No existing circuit and no existing outlet is used.")]
    head = ("what is there", "assumed", "found")
    caption = "Existing circuits and outlets: what was assumed; write in what is found"
    return [Table(caption=caption, head=head, rows=tuple(rows))]


def _circuit_rows(name: str, plan: Plan) -> list[tuple[str, ...]]:
    circuit, units = plan.spec.circuit(name), plan.spec.project.units
    loads = circuit.already_on_it
    told = UNKNOWN if loads is None else "nothing" if not loads else ""
    for load in loads or ():
        lasts = "for hours" if load.continuous else "now and then"
        told += f"{'; ' if told else ''}{load.name} {amps_text(load.current_a)} {lasts}"
    breaker, home = circuit.breaker_a, circuit.home_run_m
    return [
        (f"circuit {name}: breaker", UNKNOWN if breaker is None else amps_text(breaker), BLANK),
        (f"circuit {name}: wire", circuit.wire or UNKNOWN, BLANK),
        (
            f"circuit {name}: panel to its first outlet",
            UNKNOWN if home is None else length_text(home, units),
            BLANK,
        ),
        (f"circuit {name}: already on it", told, BLANK),
    ]


def _outlet_rows(outlet: Outlet, plan: Plan) -> list[tuple[str, ...]]:
    return [
        (
            f"outlet {outlet.id}: circuit and rating",
            f"circuit {outlet.circuit}, {amps_text(outlet.rating_a)}, grounded",
            BLANK,
        ),
        (
            f"outlet {outlet.id}: free sockets",
            f"{outlet.free} of {outlet.sockets}",
            BLANK,
        ),
        (f"outlet {outlet.id}: place", outlet_place(outlet, plan), BLANK),
    ]


def _stop(plan: Plan) -> Items:
    within = length_text(_SQUARE_WITHIN_M, plan.spec.project.units)
    cutting = (
        "A scan shows a tendon, bar, duct, pipe, cable or joist inside a cut-out, and the box "
        "cannot be moved clear of it within the table above.",
        "The framing or the walls are not as drawn, or the room's diagonals differ by more than "
        f"{within}.",
        "The floor is fire-rated, or has old tile, glue or insulation that may hold asbestos.",
    )
    stops = (
        *(cutting if plan.boxes else ()),
        "A circuit shares its neutral with another, or its neutral or ground cannot be proved.",
        "An outlet has two slots and no ground, or the wire is aluminum or cloth-covered.",
        "A breaker, a wire or what is already on a circuit is not as assumed above.",
        "Local code, or the authority having jurisdiction, asks for something else.",
    )
    return Items(lead="Stop, and call whoever made this plan, when:", items=stops)
