"""The room: walls, doors, risers, framing, and what is kept free or never cut."""

from __future__ import annotations

import math

from powerplan.model.geometry import Point, Rect
from powerplan.model.lengths import length_text
from powerplan.model.plan import Plan
from powerplan.model.spec import Area, Door, Room, Wall, WallLine
from powerplan.sheets.drawings.framing import draw_joists, say_framing
from powerplan.sheets.drawings.sketch import Sketch
from powerplan.sheets.levels import SIDES, steps
from powerplan.sheets.off_walls import printed_framing
from powerplan.sheets.scene import Text

WALL_MM = 1.8
NAME_MM = 4.0
_STRAIGHT = 1e-9
_AT = (0.5, 0.25, 0.75, 0.12, 0.88)


def draw_walls(sketch: Sketch, plan: Plan) -> None:
    """Draw walls as two lines, the inner one the finished face, with openings and doors."""
    thick = sketch.meters(WALL_MM)
    for wall in plan.spec.room.lines:
        doors = sorted((d for d in plan.spec.doors if d.wall == wall.id), key=lambda d: d.start_m)
        length = math.dist(wall.start, wall.end)
        starts = [0.0, *(door.end_m for door in doors)]
        ends = [*(door.start_m for door in doors), length]
        for start, end in zip(starts, ends, strict=True):
            if end > start:
                _wall_piece(sketch, plan, wall, (start, end), thick, length)
        for door in doors:
            _door(sketch, plan, door)


def _wall_piece(
    sketch: Sketch,
    plan: Plan,
    wall: WallLine,
    ends: tuple[float, float],
    thick: float,
    length: float,
) -> None:
    """One piece of wall: its face, its outer side reaching round the corner, and its jambs."""
    sketch.line([_on(plan, wall.id, at) for at in ends], "wall")
    corners = {0.0: wall.start, length: wall.end}
    outer = [
        _outer(plan.spec.room, wall, corners[at], thick)
        if at in corners
        else _on(plan, wall.id, at, -thick)
        for at in ends
    ]
    sketch.line(outer, "wall")
    for at in ends:
        if 0 < at < length:
            sketch.line((_on(plan, wall.id, at), _on(plan, wall.id, at, -thick)), "wall")


def _inward(room: Room, wall: WallLine) -> Point:
    """The way from a wall into the room, of length 1: on the left hand along an outline."""
    (x0, y0), (x1, y1) = wall.start, wall.end
    length = math.dist(wall.start, wall.end)
    turned = not room.walls and wall.id in (Wall.LEFT, Wall.SCREEN)
    side = -1.0 if turned else 1.0
    return (-side * (y1 - y0) / length, side * (x1 - x0) / length)


def _outer(room: Room, wall: WallLine, corner: Point, thick: float) -> Point:
    """Where the outer sides of two walls meet round a corner."""
    ax, ay = _inward(room, wall)
    others = (w for w in room.lines if w.id != wall.id and corner in (w.start, w.end))
    bx, by = _inward(room, next(others, wall))
    cross = ax * by - ay * bx
    if abs(cross) < _STRAIGHT:
        return (corner[0] - ax * thick, corner[1] - ay * thick)
    # the point whose distance from both walls is the thickness
    return (corner[0] - thick * (by - ay) / cross, corner[1] - thick * (ax - bx) / cross)


def _on(plan: Plan, wall: str, along: float, inward: float = 0.0) -> Point:
    """A place by its distance along a wall and into the room. [m]"""
    room = plan.spec.room
    line = room.line(wall)
    (x0, y0), (x1, y1) = line.start, line.end
    length = math.dist(line.start, line.end)
    nx, ny = _inward(room, line)
    return (
        x0 + (x1 - x0) / length * along + nx * inward,
        y0 + (y1 - y0) / length * along + ny * inward,
    )


def _door(sketch: Sketch, plan: Plan, door: Door) -> None:
    """A door in its opening, both ways it may hang: nobody measured where its hinges are."""
    width = door.end_m - door.start_m
    thick = sketch.meters(WALL_MM)
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
    for wall in room.lines:
        out = side_room_mm(sketch, plan, wall.id)
        name = wall.label
        if wall.id == Wall.SCREEN and "screen" not in name.lower():
            name = f"{name} (screen)"
        length = math.dist(wall.start, wall.end)
        at = _on(plan, wall.id, length / 2, -sketch.meters(out + NAME_MM / 2))
        lies = Text(
            at=at, words=name, layer="text", height_mm=2.2, angle_deg=_upright(wall), mask=True
        )
        sketch.words(lies)
    outs = {wall.id: side_room_mm(sketch, plan, wall.id) for wall in room.lines}
    most = max(outs.values())
    return {side: sketch.meters((most if room.walls else outs[side]) + NAME_MM) for side in SIDES}


def _upright(wall: WallLine) -> float:
    """The angle of words along a wall, so that they stand on their feet or read upward."""
    (x0, y0), (x1, y1) = wall.start, wall.end
    angle = round(math.degrees(math.atan2(y1 - y0, x1 - x0)), 6)
    while angle <= -90:
        angle += 180
    while angle > 90:
        angle -= 180
    return angle


def draw_floor(sketch: Sketch, plan: Plan, *, framing: bool, apart: tuple[Rect, ...] = ()) -> None:
    """Draw what stands or lies on the floor; with ``framing`` also what is under it.

    Names stand outside the rectangles of ``apart`` where there is other floor to name. [m]
    """
    spec = plan.spec
    for riser in spec.risers:
        a, b, c, d = riser.rect.outline
        edges = {Wall.LEFT: (d, a), Wall.RIGHT: (b, c), Wall.BACK: (a, b), Wall.SCREEN: (c, d)}
        for side in steps(riser.rect, plan):
            sketch.line(edges[side], "riser")
        high = length_text(riser.height_m, spec.project.units)
        _name(sketch, f"riser {riser.id}", (f"riser {riser.id}, {high} high",), riser.rect, apart)
    for area in spec.walkways:
        sketch.line(area.rect.outline, "walkway", closed=True)
        _name(sketch, f"walkway {area.id}", (f"walkway {area.id}:", "no cord"), area.rect, apart)
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


def _name(
    sketch: Sketch,
    key: str,
    lines: tuple[str, ...],
    rect: Rect,
    apart: tuple[Rect, ...] = (),
) -> None:
    """Name an area somewhere inside it, if it can be seen."""
    w = sketch.window
    left, right = max(rect.left_m, w.left_m), min(rect.right_m, w.right_m)
    back, front = max(rect.back_m, w.back_m), min(rect.front_m, w.front_m)
    if left >= right or back >= front:
        return
    anchors = [
        (left + (right - left) * across, back + (front - back) * up)
        for up in (_AT[0], _AT[4], _AT[3], _AT[2], _AT[1])
        for across in (_AT if apart else _AT[:3])
    ]
    clear = [at for at in anchors if not any(other.has(at) for other in apart)]
    sketch.label(key, lines, clear or anchors, on=True, height_mm=1.8)


def _draw_framing(sketch: Sketch, plan: Plan) -> None:
    room, spec = plan.spec.room, plan.spec
    whole = room.rect
    decks = tuple(riser.rect for riser in spec.risers)
    draw_joists(sketch, spec.floor, whole, decks, room.outline if room.walls else ())
    edge = Wall.LEFT if spec.floor.joists_run == "back to screen" else Wall.BACK
    printed = printed_framing(spec.floor, room, edge)
    say_framing(sketch, "floor", printed, whole, spec.project.units)
    for riser in spec.risers:
        draw_joists(sketch, riser.framing, riser.rect)
        say_framing(sketch, f"deck {riser.id}", riser.framing, riser.rect, spec.project.units)
