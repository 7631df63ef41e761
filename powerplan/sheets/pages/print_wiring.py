"""How new outlets are wired, what the electrician buys, and what is there already."""

from __future__ import annotations

from collections import Counter
from typing import NamedTuple

from powerplan.model.lengths import INCH_M, amps_text, joined, length_text, micrometers
from powerplan.model.plan import Box, CircuitUse, Plan
from powerplan.model.spec import Outlet
from powerplan.sheets.drawings.home_runs import place_of
from powerplan.sheets.pages.circuits import home_run_text
from powerplan.sheets.pages.print_found import found_rows, ground_text, load_text
from powerplan.sheets.pages.print_held import held_word
from powerplan.sheets.pages.print_marks import FLOOR_BOX
from powerplan.sheets.pages.print_protection import WHERE_ASKED, how_many, protections
from powerplan.sheets.pages.print_words import BLANK, capital, outlet_place, size_text
from powerplan.sheets.parts import Items, Part, Say, Table
from powerplan.sheets.words import UNKNOWN, wire_text

_UP_TO_UM = {"mm": 100_000, "m": 100_000}
_HALF_FOOT_UM = micrometers(float(6 * INCH_M))
_PANEL = "panel"
BUY_NOTHING_YET = "BUY NOTHING YET"
_PLAIN = ("circuit and rating", "place")  # what is said of these needs no name


class Bought(NamedTuple):
    """A line of the electrician's buying list. ``length_m`` None: not a length, or not known."""

    what: str
    size: str
    length_m: float | None
    how_many: int | None
    note: str


def estimate_m(length_m: float, units: str) -> float:
    """Return an estimate of wire rounded up: to half a foot, or to 100 mm. [m]"""
    step = _UP_TO_UM.get(units, _HALF_FOOT_UM)
    return -(-micrometers(length_m) // step) * step / 1e6


def estimate_text(length_m: float, units: str) -> str:
    """Return an estimate of wire as it is bought: rounded up, in feet or meters.

    Parameters
    ----------
    length_m : float
        Any length. [m]
    units : str
        ft-in, in, mm or m.
    """
    about_m = estimate_m(length_m, units)
    return f"{about_m:.1f} m" if units in ("mm", "m") else length_text(about_m, units)


def rises_m(box: Box, plan: Plan) -> float | None:
    """Return what of a box's wiring goes up and down; None where that is not known. [m]"""
    source = place_of(box.wired_from, plan)
    if source is None or box.wiring_m is None:
        return None
    square = abs(box.x_m - source[0]) + abs(box.y_m - source[1])
    return max(0.0, (micrometers(box.wiring_m) - micrometers(square)) / 1e6)


def wires(plan: Plan) -> list[Part]:
    """Return the list of wiring, and what is to be known about it."""
    units = plan.spec.project.units
    uses = {use.id: use for use in plan.circuits}
    rows = []
    for box in _as_run(plan.boxes):
        use = uses.get(box.circuit)
        breaker_a, wire = (None, None) if use is None else (use.breaker_a, use.wire)
        rise = rises_m(box, plan)
        about = None if box.wiring_m is None else estimate_text(box.wiring_m, units)
        rows.append(
            (
                box.wired_from,
                box.id,
                f"{box.circuit} (NEW)" if use is not None and use.new else box.circuit,
                UNKNOWN if breaker_a is None else amps_text(breaker_a),
                wire or UNKNOWN,
                UNKNOWN if about is None else f"about {about}",
                "not known" if rise is None else length_text(rise, units),
                BLANK,
            )
        )
    up = "of it up and down"
    head = ("from", "to", "circuit", "breaker", "wire", "length", up, "as run")
    caption = (
        "Wiring; lengths are estimates, square along the floor with rises and drops, rounded up"
    )
    return [
        Table(caption=_not_before(plan, held_word(plan)) + caption, head=head, rows=tuple(rows)),
        Items(lead="About the wiring:", items=_about(plan)),
    ]


def _not_before(plan: Plan, word: str) -> str:
    """A warning to stand first in a caption, where nothing may be cut yet; else nothing."""
    return f"{word}. " if held_word(plan) else ""


def _as_run(boxes: tuple[Box, ...]) -> list[Box]:
    """Boxes in an order in which each comes after what it is wired from."""
    told, left = [], list(boxes)
    while left:
        names = {box.id for box in left}
        ready = next((box for box in left if box.wired_from not in names), left[0])
        told.append(ready)
        left.remove(ready)
    return told


def _about(plan: Plan) -> tuple[str, ...]:
    units = plan.spec.project.units
    runs: dict[float | None, list[str]] = {}
    for box in plan.boxes:
        if box.wired_from == _PANEL:
            runs.setdefault(box.wiring_m, []).append(box.id)
    told = []
    for length_m, names in runs.items():
        if length_m is None:
            length = f"nobody has said how far it is to {joined(names)}"
        else:
            each = " each" if len(names) > 1 else ""
            length = (
                f"the {wire_text(length_m, units)}{each} to {joined(names)} "
                f"{'are estimates' if each else 'is the estimate'} in the plan file"
            )
        most = _most({box.circuit for box in plan.boxes if box.id in names}, plan)
        told.append(f"Panel: not on this plan; {length}: measure it before wire is bought.{most}")
    told += _order(plan)
    if any(_smaller(box, plan) for box in plan.boxes):
        told.append(
            "Pigtails: in the circuit's own wire. Whether thinner ones to a smaller socket are "
            "allowed is for the electrician and local code to say."
        )
    cut = [box.id for box in plan.boxes if box.kind == FLOOR_BOX]
    if cut:
        cable = "its cable" if len(cut) == 1 else "the cable to each"
        told.append(
            f"For the installers: mark on top of the floor where {joined(cut)} and {cable} lie, "
            "to where each cable leaves the rows. They drill no anchor there."
        )
    told.append(
        "Lengths hold nothing for slack at boxes and panel, nor for detours in the framing."
    )
    return tuple(told)


def _order(plan: Plan) -> list[str]:
    """Why a home run ends where it does, where its circuit has other boxes."""
    firsts = [box for box in plan.boxes if box.wired_from == _PANEL]
    on = [one.id for one in firsts if sum(box.circuit == one.circuit for box in plan.boxes) > 1]
    if not on:
        return []
    return [
        f"Order: where the panel is nobody has said, so the home run ends at {joined(on)}, and "
        "each box that follows is wired from the nearest that is wired already. Where another box "
        "of the circuit is nearer to the panel, ask before the run is turned round: the drop is "
        "worked out for this order."
    ]


def _most(names: set[str], plan: Plan) -> str:
    """How long a home run may be within the advised drop, where that is known."""
    known = (home_run_text(plan, use) for use in plan.circuits if use.id in names)
    told = "; ".join(text for text in known if text)
    return f" By the advised drop alone: {told}." if told else ""


def _smaller(box: Box, plan: Plan) -> bool:
    """Whether the sockets of an outlet are rated below its circuit."""
    uses = (use for use in plan.circuits if use.id == box.circuit)
    return any(use.breaker_a is not None and box.rating_a < use.breaker_a for use in uses)


def electrician_buys(plan: Plan) -> tuple[Bought, ...]:
    """Return what the electrician buys for the new outlets and circuits."""
    work, units = plan.spec.new_work, plan.spec.project.units
    lines: list[Bought] = []
    boxes = sum(box.kind == FLOOR_BOX for box in plan.boxes)
    if boxes:
        kind = "recessed" if work.plug_height_m == 0 else "flush"
        cut = f"cut-out {size_text(work.cut_out, units)}"
        lines.append(Bought(f"floor box, {kind}", cut, None, boxes, "listed for floors"))
        lid = size_text(work.lid, units)
        lines.append(Bought("lid of a floor box", lid, None, boxes, "made for the box"))
    walls = len(plan.boxes) - boxes
    if walls:
        lines.append(Bought("wall box and its plate", "", None, walls, ""))
    sockets = Counter[float]()
    for box in plan.boxes:
        sockets[box.rating_a] += box.sockets
    for rating_a, count in sorted(sockets.items()):
        note = "contact sets: a duplex receptacle is two"
        lines.append(Bought("receptacle socket", amps_text(rating_a), None, count, note))
    asked = protections(plan)
    new = [use for use in plan.circuits if use.new]
    sizes = Counter(use.breaker_a for use in new)
    for breaker_a, count in sorted(sizes.items(), key=lambda pair: pair[0] or 0.0):
        size = UNKNOWN if breaker_a is None else amps_text(breaker_a)
        note = "to suit the panel" + ("" if asked else f"; {WHERE_ASKED}")
        lines.append(Bought("breaker", size, None, count, note))
    for one in asked:
        count, how = how_many(one, plan)
        lines.append(Bought(one.kind, "", None, count, f"{one.told()}; {how}"))
    return (*lines, *_wire_bought(plan))


def _wire_bought(plan: Plan) -> list[Bought]:
    uses = {use.id: use for use in plan.circuits}
    pieces: dict[str, list[float | None]] = {}
    for box in plan.boxes:
        wire = _wire(uses.get(box.circuit))
        length = box.wiring_m
        units = plan.spec.project.units
        told = None if length is None else estimate_m(length, units)
        pieces.setdefault(wire, []).append(told)
    lines = []
    for wire, lengths in sorted(pieces.items()):
        known = [length for length in lengths if length is not None]
        missing = len(lengths) - len(known)
        note = "estimate; add for slack and detours"
        if missing:
            note += f"; {missing} of {len(lengths)} lengths not known and not in it"
        lines.append(
            Bought("cable with ground", wire, round(sum(known), 6) if known else None, None, note)
        )
    return lines


def _wire(use: CircuitUse | None) -> str:
    return UNKNOWN if use is None or use.wire is None else use.wire


def buying(plan: Plan) -> Table:
    """Return the electrician's buying list as a table."""
    units = plan.spec.project.units
    rows = tuple(
        (
            line.what,
            line.size,
            _amount(line, units),
            line.note,
        )
        for line in electrician_buys(plan)
    )
    head = ("what", "size", "how many", "mind")
    caption = f"{_not_before(plan, BUY_NOTHING_YET)}Buying list for the electrician"
    return Table(caption=caption, head=head, rows=rows)


def _amount(line: Bought, units: str) -> str:
    if line.how_many is not None:
        return str(line.how_many)
    return UNKNOWN if line.length_m is None else f"about {estimate_text(line.length_m, units)}"


def used_circuits(plan: Plan) -> set[str]:
    """Return the names of circuits that feed chairs, and of those that new outlets hang on."""
    fed = {chair.circuit for chair in plan.chairs if chair.circuit is not None}
    return fed | {box.circuit for box in plan.boxes}


def there(plan: Plan) -> list[Part]:
    """Return what is there, assumed against found: what the plan uses, and the rest for
    information."""
    used = used_circuits(plan)
    plugged = {cord.from_ for cord in plan.cords} | {box.wired_from for box in plan.boxes}
    rows, idle = [], []
    for circuit in plan.spec.circuits:
        told = _circuit_rows(circuit.id, plan)
        if circuit.id in used:
            rows += told
        else:
            idle.append(_in_short(told))
    for outlet in plan.spec.outlets:
        told = _outlet_rows(outlet, plan)
        if outlet.id in plugged:
            rows += told
        else:
            idle.append(_in_short(told))
    parts: list[Part] = []
    if rows:
        caption = "Existing circuits and outlets: what was assumed; write in what is found"
        head = ("what is there", "assumed", "found")
        parts.append(Table(caption=caption, head=head, rows=tuple(rows)))
    elif not idle:
        parts.append(Say(text="No existing circuit and no existing outlet is used."))
    if idle:
        lead = "For information: circuits and outlets that this plan does not use, as told"
        parts.append(Items(lead=lead, items=tuple(idle)))
    return parts


def _in_short(rows: list[tuple[str, str, str]]) -> str:
    """What was said of one thing, in one sentence."""
    name, _, _ = rows[0][0].partition(": ")
    told = []
    for label, said, _ in rows:
        what = label.partition(": ")[2]
        if "," in what:
            told.append("all else of its wiring unknown")
        else:
            told.append(said if what in _PLAIN else f"{what} {said}")
    return f"{capital(name)}: {'; '.join(told)}."


def _circuit_rows(name: str, plan: Plan) -> list[tuple[str, str, str]]:
    circuit, units = plan.spec.circuit(name), plan.spec.project.units
    weighs = any(number.name == "continuous_factor" for number in plan.rules.numbers)
    breaker, home = circuit.breaker_a, circuit.home_run_m
    return [
        (f"circuit {name}: breaker", UNKNOWN if breaker is None else amps_text(breaker), BLANK),
        (f"circuit {name}: wire", circuit.wire or UNKNOWN, BLANK),
        (
            f"circuit {name}: panel to its first outlet",
            UNKNOWN if home is None else wire_text(home, units),
            BLANK,
        ),
        (f"circuit {name}: already on it", load_text(circuit, weighs=weighs), BLANK),
        *found_rows(circuit),
    ]


def _outlet_rows(outlet: Outlet, plan: Plan) -> list[tuple[str, str, str]]:
    ground = ground_text(outlet, plan.spec.circuit(outlet.circuit))
    return [
        (
            f"outlet {outlet.id}: circuit and rating",
            f"circuit {outlet.circuit}, {amps_text(outlet.rating_a)}, {ground}",
            BLANK,
        ),
        (
            f"outlet {outlet.id}: free sockets",
            f"{outlet.free} of {outlet.sockets}",
            BLANK,
        ),
        (f"outlet {outlet.id}: place", outlet_place(outlet, plan), BLANK),
    ]


def circuits_named(plan: Plan) -> str:
    """Return the existing circuits that the plan uses, in words; "" where it uses none."""
    names = [one.id for one in plan.spec.circuits if one.id in used_circuits(plan)]
    return f"circuit{'s' if len(names) > 1 else ''} {joined(names)}" if names else ""
