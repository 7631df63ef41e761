"""The room: walls, doors, risers, framing, and what is kept free or never cut."""

from __future__ import annotations

import math

from powerplan.model.geometry import Point, Rect
from powerplan.model.lengths import length_text
from powerplan.model.plan import Plan
from powerplan.model.spec import Area, Door, Framing, Wall
from powerplan.sheets.drawings.sketch import Sketch
from powerplan.sheets.levels import steps
from powerplan.sheets.scene import Text
from powerplan.sheets.words import wall_name

WALL_MM = 1.8
NAME_MM = 4.0
_SIDES = (Wall.LEFT, Wall.RIGHT, Wall.BACK, Wall.SCREEN)
_AT = (0.5, 0.25, 0.75, 0.12, 0.88)


def draw_walls(sketch: Sketch, plan: Plan) -> None:
    """Draw walls as two lines, the inner one the finished face, with openings and doors."""
    room = plan.spec.room
    thick = sketch.metres(WALL_MM)
    for wall in _SIDES:
        doors = sorted((d for d in plan.spec.doors if d.wall == wall), key=lambda d: d.start_m)
        length = room.width_m if wall in (Wall.BACK, Wall.SCREEN) else room.depth_m
        starts = [0.0, *(door.end_m for door in doors)]
        ends = [*(door.start_m for door in doors), length]
        for start, end in zip(starts, ends, strict=True):
            if end > start:
                _wall_piece(sketch, plan, wall, (start, end), thick, length)
        for door in doors:
            _door(sketch, plan, door)


def _wall_piece(
    sketch: Sketch, plan: Plan, wall: str, ends: tuple[float, float], thick: float, length: float
) -> None:
    """One piece of wall: its face, its outer side reaching round the corner, and its jambs."""
    start, end = ends
    sketch.line((_on(plan, wall, start), _on(plan, wall, end)), "wall")
    outer = (start - thick if start == 0 else start, end + thick if end == length else end)
    sketch.line([_on(plan, wall, at, -thick) for at in outer], "wall")
    for at in ends:
        if 0 < at < length:
            sketch.line((_on(plan, wall, at), _on(plan, wall, at, -thick)), "wall")


def _on(plan: Plan, wall: str, along: float, inward: float = 0.0) -> Point:
    """A place by its distance along a wall and into the room. [m]"""
    room = plan.spec.room
    places: dict[str, Point] = {
        Wall.LEFT: (inward, along),
        Wall.RIGHT: (room.width_m - inward, along),
        Wall.BACK: (along, inward),
        Wall.SCREEN: (along, room.depth_m - inward),
    }
    return places[wall]


def _door(sketch: Sketch, plan: Plan, door: Door) -> None:
    """A door in its opening, both ways it may hang: nobody measured where its hinges are."""
    width = door.end_m - door.start_m
    thick = sketch.metres(WALL_MM)
    ends = (_on(plan, door.wall, door.start_m), _on(plan, door.wall, door.end_m))
    middle = _on(plan, door.wall, (door.start_m + door.end_m) / 2)
    if not all(map(sketch.sees, ends)):
        return
    if door.swings == "slides":
        leaf = [_on(plan, door.wall, at, -thick / 2) for at in (door.start_m, door.end_m)]
        sketch.line(leaf, "door", cut=False)
    else:
        inward = width if door.swings == "in" else -width
        for hinge, far, at in zip(ends, ends[::-1], (door.start_m, door.end_m), strict=True):
            swing(sketch, hinge, far, _on(plan, door.wall, at, inward))
        middle = _on(plan, door.wall, (door.start_m + door.end_m) / 2, inward * 0.4)
    sketch.label(f"door {door.id}", (f"door {door.id}",), (middle,), on=True, height_mm=1.8)


def swing(sketch: Sketch, hinge: Point, far: Point, tip: Point) -> None:
    """Draw one way that a door may swing.

    Parameters
    ----------
    sketch : Sketch
        The drawing.
    hinge, far : Point
        Both sides of the opening. [m]
    tip : Point
        Where the leaf ends when it stands open. [m]
    """
    sketch.line((hinge, tip), "door", cut=False)
    turns = sorted(math.degrees(math.atan2(p[1] - hinge[1], p[0] - hinge[0])) for p in (tip, far))
    if turns[1] - turns[0] > 180:
        turns = [turns[1], turns[0] + 360]
    sketch.arc(hinge, math.dist(hinge, tip), "door", (turns[0], turns[1]))


def side_room_mm(sketch: Sketch, plan: Plan, wall: str) -> float:
    """Return how far outside a wall its doors reach, the wall itself included. [mm]"""
    out = [
        (door.end_m - door.start_m) * 1000 / sketch.scale
        for door in plan.spec.doors
        if door.wall == wall and door.swings == "out"
    ]
    return max([WALL_MM, *out]) + 1.0


def clear_of_doors(plan: Plan, wall: str, ends: tuple[float, float], half: float) -> float:
    """Return where along a wall words may have their middle with no door beside them.

    Parameters
    ----------
    plan : Plan
        The plan.
    wall : str
        Which wall.
    ends : tuple of float
        The part of it that is drawn. [m]
    half : float
        Half the length of the words. [m]
    """
    doors = [door for door in plan.spec.doors if door.wall == wall]
    places = [ends[0] + (ends[1] - ends[0]) * part for part in _AT]
    free = (
        at
        for at in places
        if all(at + half <= door.start_m or door.end_m <= at - half for door in doors)
    )
    return next(free, places[0])


def draw_wall_names(sketch: Sketch, plan: Plan) -> dict[Wall, float]:
    """Write what each wall is called along it; return where each name's band ends. [m]"""
    room = plan.spec.room
    ends = {}
    for wall in _SIDES:
        out = side_room_mm(sketch, plan, wall)
        upright = wall in (Wall.LEFT, Wall.RIGHT)
        length = room.depth_m if upright else room.width_m
        name = wall_name(room, wall)
        if wall == Wall.SCREEN and "screen" not in name.lower():
            name = f"{name} (screen)"
        at = _on(plan, wall, length / 2, -sketch.metres(out + NAME_MM / 2))
        sketch.words(
            Text(
                at=at, words=name, layer="text", height_mm=2.2, angle_deg=90.0 * upright, mask=True
            )
        )
        ends[wall] = sketch.metres(out + NAME_MM)
    return ends


def draw_floor(sketch: Sketch, plan: Plan, *, framing: bool) -> None:
    """Draw what stands or lies on the floor; with ``framing`` also what is under it."""
    spec = plan.spec
    for riser in spec.risers:
        a, b, c, d = riser.rect.outline
        edges = {Wall.LEFT: (d, a), Wall.RIGHT: (b, c), Wall.BACK: (a, b), Wall.SCREEN: (c, d)}
        for side in steps(riser.rect, plan):
            sketch.line(edges[side], "riser")
        high = length_text(riser.height_m, spec.project.units)
        _name(sketch, f"riser {riser.id}", (f"riser {riser.id}, {high} high",), riser.rect)
    for area in spec.walkways:
        sketch.line(area.rect.outline, "walkway", closed=True)
        _name(sketch, f"walkway {area.id}", (f"walkway {area.id}:", "no cord"), area.rect)
    for area in spec.obstacles:
        sketch.line(area.rect.outline, "obstacle", closed=True)
        sketch.hatch(area.rect, "obstacle", angle_deg=135.0, spacing_mm=1.0)
        _name(sketch, f"obstacle {area.id}", (area.id,), area.rect)
    if framing:
        _draw_framing(sketch, plan)
        for area in spec.no_cut:
            _draw_no_cut(sketch, area)


def _draw_no_cut(sketch: Sketch, area: Area) -> None:
    sketch.line(area.rect.outline, "no_cut", closed=True)
    sketch.hatch(area.rect, "no_cut", spacing_mm=2.2, crossed=True)
    sketch.avoid(area.rect, 1.0)
    _name(sketch, f"no cut {area.id}", ("NO CUT:", area.id), area.rect)


def _name(sketch: Sketch, key: str, lines: tuple[str, ...], rect: Rect) -> None:
    """Name an area somewhere inside it, if it can be seen."""
    w = sketch.window
    left, right = max(rect.left_m, w.left_m), min(rect.right_m, w.right_m)
    back, front = max(rect.back_m, w.back_m), min(rect.front_m, w.front_m)
    if left >= right or back >= front:
        return
    anchors = [
        (left + (right - left) * across, back + (front - back) * up)
        for up in (_AT[0], _AT[4], _AT[3], _AT[2], _AT[1])
        for across in _AT[:3]
    ]
    sketch.label(key, lines, anchors, on=True, height_mm=1.8)


def _draw_framing(sketch: Sketch, plan: Plan) -> None:
    room, spec = plan.spec.room, plan.spec
    whole = Rect(left_m=0.0, right_m=room.width_m, back_m=0.0, front_m=room.depth_m)
    decks = tuple(riser.rect for riser in spec.risers)
    draw_joists(sketch, spec.floor, whole, decks)
    _say_framing(sketch, "floor", spec.floor, whole, spec.project.units)
    for riser in spec.risers:
        draw_joists(sketch, riser.framing, riser.rect, ())
        _say_framing(sketch, f"deck {riser.id}", riser.framing, riser.rect, spec.project.units)


def draw_joists(sketch: Sketch, framing: Framing, rect: Rect, decks: tuple[Rect, ...] = ()) -> None:
    """Draw both sides of each joist, or its middle where its width is unknown.

    Parameters
    ----------
    sketch : Sketch
        The drawing.
    framing : Framing
        What is known of them.
    rect : Rect
        The floor or the deck that lies on them. [m]
    decks : tuple of Rect
        Decks that cover them. [m]
    """
    if framing.build != "joists" or framing.first_joist_m is None or not framing.spacing_m:
        return
    if framing.joists_run is None:
        return
    ahead = framing.joists_run == "back to screen"
    size = rect.width_m if ahead else rect.depth_m
    at = framing.first_joist_m
    half = (framing.joist_width_m or 0.0) / 2
    while at < size:
        for side in sorted({-half, half}):
            if 0 < at + side < size:
                _joist_line(sketch, rect, ahead, at + side, decks)
        at += framing.spacing_m


def _joist_line(
    sketch: Sketch, rect: Rect, ahead: bool, at: float, decks: tuple[Rect, ...]
) -> None:
    place = (rect.left_m if ahead else rect.back_m) + at
    spans = [(rect.back_m, rect.front_m) if ahead else (rect.left_m, rect.right_m)]
    for deck in decks:
        low, high = (deck.left_m, deck.right_m) if ahead else (deck.back_m, deck.front_m)
        if not low < place < high:
            continue
        cover = (deck.back_m, deck.front_m) if ahead else (deck.left_m, deck.right_m)
        spans = [
            part
            for span in spans
            for part in ((span[0], min(span[1], cover[0])), (max(span[0], cover[1]), span[1]))
            if part[0] < part[1]
        ]
    for low, high in spans:
        sketch.line(
            ((place, low), (place, high)) if ahead else ((low, place), (high, place)), "joist"
        )


def _say_framing(sketch: Sketch, what: str, framing: Framing, rect: Rect, units: str) -> None:
    lines = _framing_words(what, framing, units)
    front, back = rect.front_m, rect.back_m
    anchors = [
        (rect.left_m + rect.width_m * across, back + (front - back) * up)
        for up in (0.92, 0.8, 0.68, 0.08)
        for across in (0.8, 0.2, 0.5)
    ]
    sketch.label(f"framing {what}", lines, anchors, on=True, height_mm=1.8)


def _framing_words(what: str, framing: Framing, units: str) -> tuple[str, ...]:
    if framing.build == "slab":
        return (f"{what}: slab", "scan before cutting")
    known = framing.spacing_m is not None and framing.first_joist_m is not None
    if framing.build is None or framing.joists_run is None or not known:
        built = "framing" if framing.build is None else "where its joists lie"
        return (f"{what}: {built} unknown", "scan before cutting")
    assert framing.spacing_m is not None
    assert framing.first_joist_m is not None
    first = length_text(framing.first_joist_m, units)
    edge = "left" if framing.joists_run == "back to screen" else "back"
    return (
        f"{what}: joists {length_text(framing.spacing_m, units)} apart,",
        f"the first {first} from the {edge}",
    )
