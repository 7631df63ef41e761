"""New outlets as pieces of work: name, sockets, rating, wiring, and whether they were offered."""

from __future__ import annotations

from collections.abc import Iterator

from powerplan.judging.case import AGREES, FLOOR_BOX, LENIENT_UM, WALL_OUTLET, Branch, Case, exact_a
from powerplan.judging.convex import depth_inside_m
from powerplan.judging.cords import box_height_m
from powerplan.judging.cuts import joists_known, read_cutting
from powerplan.model.findings import Finding
from powerplan.model.plan import Box
from powerplan.model.spec import Outlet

_PANEL = "panel"


def judge_outlets(case: Case) -> Iterator[Finding]:
    """Hold what the record says of every new outlet to what was offered and to the rest of it."""
    names = [*case.outlets, *(box.id for box in case.plan.boxes)]
    new = case.plan.spec.new_work
    for box in case.plan.boxes:
        if names.count(box.id) > 1:
            yield case.broken(AGREES, box.id, "two outlets have this name")
        word = "wall" if box.kind == WALL_OUTLET else "box"
        yield case.same_words(box.id, "id", box.id, f"{word} {box.under}")
        yield case.same_words(box.id, "sockets", box.sockets, new.sockets_per_box)
        yield from _socket_rating(case, box)
        yield case.same_length(box.id, "height_m", box.height_m, box_height_m(case, box.kind))
        offered = new.floor_boxes if box.kind == FLOOR_BOX else new.wall_outlets
        if not offered:
            yield case.broken(AGREES, box.id, f"no {box.kind:.40} was offered")
        yield from _provisional(case, box)
        yield from _wiring(case, box)
    used = {cord.from_ for cord in case.plan.cords}
    for outlet in case.plan.spec.outlets:
        if outlet.wall is None and outlet.id in used:
            yield from _plug_under_chair(case, outlet)


def _socket_rating(case: Case, box: Box) -> Iterator[Finding]:
    """The sockets go with the rating of the new circuits; where there are none, the first."""
    new = case.plan.spec.new_work
    breakers = {exact_a(use.breaker_a) for use in case.plan.circuits if use.new and use.breaker_a}
    fit = [one.socket_rating_a for one in new.ratings if one.breaker_a in breakers]
    rating_a = fit[0] if fit else new.socket_rating_a
    yield case.same_number(box.id, "rating_a", box.rating_a, rating_a)


def _plug_under_chair(case: Case, outlet: Outlet) -> Iterator[Finding]:
    """A plug in a floor outlet under a chair stays below the clear zone's height."""
    for seat in case.seats.values():
        clear, zone = seat.clear, seat.kind.clear
        if clear is None or zone is None:
            continue
        if depth_inside_m(clear, (outlet.x_m, outlet.y_m)) >= 0.0 and seat.kind.measured:
            plug_m = case.plan.spec.new_work.plug_height_m
            yield case.hold("box-plug-height", f"outlet {outlet.id}", plug_m, zone.height_m)


def _provisional(case: Case, box: Box) -> Iterator[Finding]:
    """A mark to cut by rests on a measured chair, a known lid and cut-out, and known framing."""
    cutting = read_cutting(case, box)
    if box.kind != FLOOR_BOX or cutting is None or box.provisional:
        return
    new = case.plan.spec.new_work
    sure = new.lid is not None and new.cut_out is not None and joists_known(cutting.framing)
    sure = sure and case.seats[box.under].kind.measured
    yield case.same_words(box.id, "provisional", box.provisional, not sure)


def _wiring(case: Case, box: Box) -> Iterator[Finding]:
    branch = case.branches.get(box.circuit)
    if branch is None:
        return
    if box.wired_from == _PANEL:
        if box.wiring_m is not None or branch.home_run_m is not None:
            yield case.same_length(box.id, "wiring_m", box.wiring_m, branch.home_run_m)
        return
    sound = [outlet.id for outlet in case.outlets.values() if _sound(branch, outlet)]
    if box.wired_from == branch.subject and not sound:
        return
    if box.wired_from in case.outlets and box.wired_from not in sound:
        note = (
            f"it is wired from {box.wired_from}, which is switched, or not grounded, or not on it"
        )
        yield case.broken(AGREES, box.id, note)
    before = case.branch_of(box.wired_from)
    if before is None:
        note = f"it is wired from {box.wired_from!r:.60}, which is not there"
        yield case.broken(AGREES, box.id, note)
        return
    yield case.same_words(box.id, "circuit of what it is wired from", before.id, box.circuit)
    if _goes_round(case, box):
        yield case.broken(AGREES, box.id, "its wiring goes round")
    if box.wired_from not in case.outlets and box.wired_from == box.id:
        return
    wiring_m = square_m(case, box.wired_from, box.id)
    yield case.same_length(box.id, "wiring_m", box.wiring_m, wiring_m, within_um=2 * LENIENT_UM)


def square_m(case: Case, one: str, other: str) -> float:
    """Return the wire between two outlets: across, along, and up or down at both ends. [m]

    A box in a riser's deck is reached from under it, unless both are in the same deck.
    """
    (x_m, y_m, height_m), (to_x_m, to_y_m, to_height_m) = _place(case, one), _place(case, other)
    decks = {_deck(case, name) for name in (one, other)}
    heights = (riser.height_m for riser in case.plan.spec.risers if riser.id in decks)
    climb_m = sum(heights) if len(decks) > 1 else 0.0
    return abs(x_m - to_x_m) + abs(y_m - to_y_m) + abs(height_m) + abs(to_height_m) + climb_m


def _deck(case: Case, name: str) -> str | None:
    return case.boxes[name].deck if name in case.boxes and name not in case.outlets else None


def _sound(branch: Branch, outlet: Outlet) -> bool:
    """Whether new wiring may go on from an outlet of this circuit: grounded, and not switched."""
    if outlet.circuit != branch.id or branch.there is None:
        return False
    grounds, switches = (
        (outlet.ground, branch.there.ground),
        (outlet.switched, branch.there.switched),
    )
    grounded = next((said for said in grounds if said is not None), True)
    return grounded and not next((said for said in switches if said is not None), False)


def _goes_round(case: Case, box: Box) -> bool:
    seen, at = {box.id}, box.wired_from
    while at in case.boxes and at not in case.outlets:
        if at in seen:
            return True
        seen.add(at)
        at = case.boxes[at].wired_from
    return False


def _place(case: Case, name: str) -> tuple[float, float, float]:
    place = case.outlets[name] if name in case.outlets else case.boxes[name]
    return place.x_m, place.y_m, place.height_m
