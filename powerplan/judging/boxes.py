"""Where every new outlet sits, recomputed: zone, framing, no-cut floor, edges, heights, drift."""

from __future__ import annotations

import math
from collections.abc import Iterator

from powerplan.judging.case import AGREES, FLOOR_BOX, LENIENT_M, LENIENT_UM, WALL_OUTLET, Case
from powerplan.judging.convex import point_to_segment_m
from powerplan.judging.cuts import (
    Cutting,
    joists_known,
    pair_stays_clear,
    read_cutting,
    second_mark_is_clear,
)
from powerplan.judging.outlines import around_m, depth_m, unlike_m2
from powerplan.judging.walls import Face
from powerplan.model.findings import Finding
from powerplan.model.geometry import Point, Rect
from powerplan.model.plan import Box


def judge_boxes(case: Case) -> Iterator[Finding]:
    """Hold every new outlet to the place it may have."""
    for box in case.plan.boxes:
        if box.kind == FLOOR_BOX:
            yield from _floor_box(case, box)
        elif box.kind == WALL_OUTLET:
            yield from _wall_outlet(case, box)
        else:
            yield case.broken(AGREES, box.id, f"{box.kind!r:.40} is not a kind of outlet")


def _wall_outlet(case: Case, box: Box) -> Iterator[Finding]:
    seat = case.seats.get(box.under)
    if seat is None:
        yield case.broken(AGREES, box.id, f"no chair is called {box.under!r:.40}")
        return
    mark = (box.x_m, box.y_m)
    aside_m, ahead_m = seat.pose.back(mark)
    walls = [wall for wall in case.floor.walls if _on(wall, mark)]
    if not walls:
        yield case.broken(AGREES, box.id, "x_m, y_m: a wall outlet that is on no wall")
    left_m, right_m = seat.halves
    note = ""
    if not -left_m - LENIENT_M <= aside_m <= right_m + LENIENT_M or ahead_m > LENIENT_M:
        note = f"not on the wall behind chair {seat.id}"
    for door in case.plan.spec.doors:
        openings = [(w.at(door.start_m, 0.0), w.at(door.end_m, 0.0)) for w in walls]
        named = [one for one, w in zip(openings, walls, strict=True) if w.id == door.wall]
        if any(point_to_segment_m(mark, opening) <= LENIENT_M for opening in named):
            note = f"in the opening of door {door.id}"
    yield case.hold("box-has-a-place", box.id, 0 if note else 1, 1, note=note)


def _on(wall: Face, point: Point) -> bool:
    return point_to_segment_m(point, (wall.start, wall.end)) <= LENIENT_M


def _floor_box(case: Case, box: Box) -> Iterator[Finding]:
    seat = case.seats.get(box.under)
    cutting = read_cutting(case, box)
    if seat is None or cutting is None:
        note = f"{box.under!r:.40} is not a chair with a clear zone"
        yield case.broken("box-has-a-place", box.id, note)
        return
    ideal = cutting.zone.middle
    for axis, name in enumerate(("ideal_m x", "ideal_m y")):
        yield case.same_length(box.id, name, box.ideal_m[axis], ideal[axis])
    yield case.same_words(box.id, "deck", box.deck, cutting.deck)
    yield from _sizes(case, box)
    mark = (box.x_m, box.y_m)
    yield from _place(case, box, cutting, _spot(mark), "")
    if joists_known(cutting.framing):
        yield _joist_finding(case, box.id, cutting, _spot(mark))
    else:
        note = "how the floor is framed here is not known"
        yield case.hold(
            "box-clears-framing", box.id, None, cutting.margin_m, note=note, checked=False
        )
    yield from _drift(case, box, cutting)
    yield from _second_mark(case, box, cutting)
    yield from _may_sit(case, box, cutting)


def _spot(point: Point) -> Rect:
    x, y = point
    return Rect(left_m=x, right_m=x, back_m=y, front_m=y)


def _sizes(case: Case, box: Box) -> Iterator[Finding]:
    new, kind = case.plan.spec.new_work, case.seats[box.under].kind
    height_m = kind.clear.height_m if kind.clear and kind.measured else None
    yield case.hold("box-plug-height", box.id, new.plug_height_m, height_m)
    known = new.cut_out is not None and new.lid is not None
    yield case.hold("box-size-known", box.id, 2 if known else None, 2)


def _place(case: Case, box: Box, cutting: Cutting, middles: Rect, note: str) -> Iterator[Finding]:
    """Hold all middles of a rectangle to the zone, the no-cut floor and the riser edges at once."""
    subject, measured = box.id, case.seats[box.under].kind.measured
    inside_m = cutting.lid_room_m(middles)
    fits = inside_m >= -LENIENT_M
    aside = note or ("" if fits else f"the lid leaves the clear zone by {-inside_m:.6f} m")
    known = measured or not fits  # that a lid fits in a clear zone that is guessed proves nothing
    yield case.hold("box-has-a-place", subject, int(fits), 1, note=aside, checked=known)
    for name, apart_m in cutting.obstacles_m(middles):
        if apart_m < -LENIENT_M:
            words = f"{note}: {name} is in the way" if note else f"on {name}"
            yield case.hold("box-has-a-place", subject, 0, 1, note=words)
    if cutting.lid_in_room_m(middles) < -LENIENT_M:
        words = f"{note}: the lid leaves the room" if note else "the lid leaves the room"
        yield case.hold("box-has-a-place", subject, 0, 1, note=words)
    for name, apart_m in cutting.no_cut_m(middles):
        words = f"{note}: {name}" if note else name
        yield case.hold("box-clears-no-cut", subject, apart_m, cutting.margin_m, note=words)
    for name, apart_m in cutting.edges_m(middles):
        words = f"{note}: {name}" if note else name
        yield case.hold("box-clears-riser-edge", subject, apart_m, cutting.margin_m, note=words)


def _joist_finding(case: Case, subject: str, cutting: Cutting, middles: Rect) -> Finding:
    apart_m = cutting.joists_m(middles)
    if math.isinf(apart_m):
        apart_m = cutting.margin_m
    return case.hold("box-clears-framing", subject, apart_m, cutting.margin_m)


def _drift(case: Case, box: Box, cutting: Cutting) -> Iterator[Finding]:
    """All of the stated drift must hold at once."""
    drift = box.drift
    if min(drift.left_m, drift.right_m, drift.back_m, drift.screen_m) < -LENIENT_M:
        yield case.broken(AGREES, box.id, "drift: a distance is negative")
        return
    reach = Rect(
        left_m=box.x_m - drift.left_m,
        right_m=box.x_m + drift.right_m,
        back_m=box.y_m - drift.back_m,
        front_m=box.y_m + drift.screen_m,
    )
    seat = case.seats[box.under]
    if not seat.kind.measured and max(reach.width_m, reach.depth_m) > 2 * LENIENT_M:
        yield case.broken(AGREES, box.id, "drift: nobody measured the chair that it is under")
    second = box.second_mark_m
    if second is not None and pair_stays_clear(cutting, reach, second) is False:
        note = "drift: where it goes joists can lie so that neither of the two marks is clear"
        yield case.broken(AGREES, box.id, note)
    found = list(_place(case, box, cutting, reach, "drift"))
    if joists_known(cutting.framing):
        found.append(_joist_finding(case, box.id, cutting, reach))
    wrong = next((finding for finding in found if finding.stops), None)
    if wrong is not None:
        note = f"drift: not all of it holds ({wrong.rule})"
        yield case.broken(AGREES, box.id, note)


def _second_mark(case: Case, box: Box, cutting: Cutting) -> Iterator[Finding]:
    second = box.second_mark_m
    if second is None:
        return
    yield from _place(case, box, cutting, _spot(second), "second mark")
    if second_mark_is_clear(cutting, (box.x_m, box.y_m), second) is False:
        note = "joists can lie so that neither of the two marks is clear"
        yield case.broken("box-clears-framing", box.id, note)


def _may_sit(case: Case, box: Box, cutting: Cutting) -> Iterator[Finding]:
    """Hold the stated floor for the middle of the box to the recomputed one."""
    outlines = [outline for outline in box.may_sit_m if len(outline) > 2]
    allowed = cutting.allowed()
    missing, beyond = unlike_m2(outlines, allowed, allowed)
    edge_m = sum(around_m(outline) for outline in outlines) + cutting.zone.around_m
    edge_m += sum(piece.around_m for piece in allowed)
    if case.seats[box.under].pose.angle_rad != 0.0 or cutting.by_a_slant:
        missing = 0.0  # less than there is cannot hurt, and slanted sides are drawn in steps
    if max(missing, beyond) > (LENIENT_UM + 1) * 1e-6 * edge_m + 1e-9:
        note = f"may_sit_m: {missing:.6f} m2 of it missing, {beyond:.6f} m2 stated beyond it"
        yield case.broken(AGREES, box.id, note)
    mark = (box.x_m, box.y_m)
    held = any(depth_m(outline, mark) >= -LENIENT_M for outline in outlines)
    yield case.same_words(box.id, "may_sit_m holds the mark", held, True)
    corners = (point for outline in box.may_sit_m for point in outline)
    strays = any(cutting.lid_room_m(_spot(point)) < -LENIENT_M for point in corners)
    yield case.same_words(box.id, "may_sit_m leaves the clear zone", strays, False)
