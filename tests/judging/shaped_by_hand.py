"""Rows and rooms of other shapes, in round numbers that a pencil can follow. Meters."""

import math
from dataclasses import replace
from typing import Any

from by_hand import circuit_use, decision, plan, step
from support import inch, make_chair, make_new_work, make_outlet, make_row, make_spec

from powerplan.model.geometry import Point
from powerplan.model.plan import EXISTING, EXTENSIONS, NOT_POSSIBLE, PlacedChair, Plan, Zone
from powerplan.model.spec import ChairKind, Curve, MovingPart, Piece, PlanSpec, WallLine

Place = tuple[float, float, float]

ARMS_OF_THEIR_OWN = ("arm", "seat", "arm", "arm", "seat", "arm")


def walls(*corners: Point) -> tuple[WallLine, ...]:
    """The walls of an outline through those corners, a, b, c and so on."""
    ends = (*corners[1:], corners[0])
    return tuple(
        WallLine(id=name, label=f"wall {name}", start=start, end=end)
        for name, start, end in zip("abcdefgh", corners, ends, strict=False)
    )


def lounge(**changes: Any) -> ChairKind:
    """A chair 0.9 m wide between arms of 0.25 m, bases from 0.1 to 1 m, footrest out to 1.3 m."""
    base = make_chair(
        id="lounge",
        seat_width_m=0.9,
        arm_width_m=0.25,
        depth_m=1.0,
        rear_of_base_m=0.1,
        back_travel_m=0.1,
        reclined_reach_m=1.3,
        arm_gap_m=None,
        rear_gap_m=None,
        measured=False,
    )
    return replace(base, **changes)


def pieces(kind: str, *names: str, seat: float = 0.9, arm: float = 0.25) -> tuple[Piece, ...]:
    """Pieces of a row of one kind."""
    widths = {"arm": arm, "seat": seat}
    return tuple(Piece(what=name, kind=kind, width_m=widths[name]) for name in names)


def arc(touch: str, *, angle_rad: float = 0.0, radius_m: float = 2.5, **chair: Any) -> PlanSpec:
    """Two lounges with arms of their own, 1.4 m each, on a circle of 2.5 m.

    Half a block is 0.7 m: the sine of half its angle is 0.7 / 2.5 = 0.28, the cosine 0.96.
    """
    row = make_row(
        chair="lounge",
        seats=2,
        headrest_to_wall_m=2.0,
        center_x_m=3.0,
        pieces=pieces("lounge", *ARMS_OF_THEIR_OWN),
        curve=Curve(radius_m=radius_m, touch=touch),
        angle_rad=angle_rad,
    )
    return make_spec(chairs=(lounge(**chair),), rows=(row,), **unfed())


def unfed() -> dict[str, Any]:
    """Nothing that could feed a chair."""
    return {
        "new_work": make_new_work(floor_boxes=False, circuits=0),
        "outlets": (make_outlet(x_m=0.0, y_m=inch(150)),),
    }


def placed(spec: PlanSpec, places: dict[str, Place]) -> tuple[PlacedChair, ...]:
    """Chairs that nothing feeds, at those places; in the order of their rows."""
    found = []
    for row in spec.rows:
        seats = [piece.kind for piece in row.pieces if piece.what == "seat"] or [
            row.chair
        ] * row.seats
        for number, name in enumerate(seats, start=1):
            kind = spec.chair(name or row.chair)
            x, y, angle = places[f"{row.id}{number}"]
            found.append(
                PlacedChair(
                    id=f"{row.id}{number}",
                    row=row.id,
                    seat=number,
                    x_m=round(x, 6),
                    y_m=round(y, 6),
                    angle_rad=round(angle, 9),
                    input_a=float(kind.input_a),
                    continuous_a=float(kind.continuous_a),
                    circuit=None,
                    fed_by=None,
                    volts=None,
                    drop_percent=None,
                )
            )
    return tuple(found)


def standing(spec: PlanSpec, places: dict[str, Place], zones: tuple[Zone, ...] = ()) -> Plan:
    """A record of chairs that stand there, and that nothing reaches."""
    return plan(
        spec,
        chairs=placed(spec, places),
        zones=zones,
        circuits=(circuit_use("7", 0, None),),
        decision=decision(NOT_POSSIBLE, 3, step(EXISTING), step(EXTENSIONS)),
    )


def around(place: Place, *corners: Point) -> tuple[Point, ...]:
    """Corners in a chair's own frame, in the room."""
    x, y, angle = place
    cos, sin = math.cos(angle), math.sin(angle)
    return tuple(
        (round(x + u * cos - v * sin, 6), round(y + u * sin + v * cos, 6)) for u, v in corners
    )


def part(
    left: float, right: float, back: float, front: float, gap: float | None = None
) -> MovingPart:
    """A moving part that sweeps a rectangle, in inches of the chair's own frame."""
    corners = ((left, back), (right, back), (right, front), (left, front))
    outline = tuple((inch(u), inch(v)) for u, v in corners)
    return MovingPart(
        id="link arm", outlines=(outline,), least_gap_m=None if gap is None else inch(gap)
    )
