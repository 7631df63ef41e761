"""Rooms with mixed, turned and curved rows, and their pinch zones by plain shapely."""

import math
from dataclasses import replace
from itertools import pairwise
from typing import Any

from hypothesis import strategies as st
from shapely import MultiPoint, Polygon
from shapely.affinity import rotate, translate
from shapely.ops import unary_union
from strategies import chairs, circuits, framings, new_works, outlets
from support import NEC, inch, make_row, make_spec

from powerplan.model.plan import PlacedChair, Plan
from powerplan.model.seats import Curve, MovingPart, Piece, TableKind
from powerplan.model.spec import ChairKind, PlanSpec, Row

_MEET_M = 3e-6


@st.composite
def row_pieces(draw: st.DrawFn, kinds: list[ChairKind], console: TableKind) -> tuple[Piece, ...]:
    """Two to five things with the arms that stand between them."""
    seats = [draw(st.sampled_from(kinds)) for _ in range(draw(st.integers(1, 4)))]
    own = draw(st.booleans())
    pieces: list[Piece] = [_arm(seats[0])]
    for here, after in pairwise((*seats, None)):
        pieces.append(Piece(what="seat", kind=here.id, width_m=here.seat_width_m))
        between = draw(st.sampled_from(["arm", "arm", "table", "gap"])) if after else "end"
        if between == "end":
            pieces.append(_arm(here))
        elif between == "table":
            table = Piece(what="table", kind=console.id, width_m=console.width_m)
            pieces += [_arm(here), table, _arm(after)]
        elif between == "gap":
            gap = Piece(what="gap", kind=None, width_m=inch(draw(st.integers(1, 12))))
            pieces += [_arm(here), gap, _arm(after)]
        elif own:
            pieces += [_arm(here), _arm(after)]
        else:
            pieces.append(_arm(min((here, after), key=lambda kind: kind.arm_gap_m or -1.0)))
    return tuple(pieces)


def _arm(kind: ChairKind) -> Piece:
    return Piece(what="arm", kind=kind.id, width_m=kind.arm_width_m)


@st.composite
def row_rooms(draw: st.DrawFn) -> PlanSpec:
    """Rooms with a mixed, turned or curved row, and sometimes a plain one ahead of it."""
    club = draw(chairs())
    other = replace(draw(chairs()), id="other")
    still = replace(
        draw(chairs()), id="still", powered=False, input_a=0, continuous_a=0, chain=None
    )
    if draw(st.booleans()):
        bar = MovingPart(
            id="bar",
            outlines=(_box(-4, 4, draw(st.integers(0, 30)), 40),),
            least_gap_m=draw(st.sampled_from([None, inch("1/4"), inch(3)])),
        )
        club = replace(club, parts=(bar,))
    console = TableKind(
        id="console",
        width_m=inch(draw(st.integers(6, 18))),
        rear_m=club.rear_of_base_m,
        front_m=club.depth_m,
        under_m=draw(st.sampled_from([None, inch("1/4"), inch(2)])),
    )
    pieces = draw(row_pieces([club, other, still], console))
    seats = sum(piece.what == "seat" for piece in pieces)
    first = next(piece.kind for piece in pieces if piece.what == "seat")
    shape = draw(st.sampled_from(["straight", "turned", "front", "back"]))
    curve = None
    if shape in ("front", "back"):
        curve = Curve(radius_m=inch(draw(st.integers(150, 320))), touch=shape)
    degrees = 0 if shape == "straight" else draw(st.integers(-35, 35))
    row = make_row(
        chair=first,
        seats=seats,
        pieces=pieces,
        curve=curve,
        angle_rad=round(math.radians(degrees), 9),
        headrest_to_wall_m=inch(draw(st.sampled_from([8, 16, 50]))),
        center_x_m=inch(draw(st.integers(110, 130))),
        fastened=draw(st.booleans()),
    )
    rows: tuple[Row, ...] = (row,)
    if draw(st.booleans()):
        rows += (make_row(id="B", seats=2, headrest_to_wall_m=inch(130)),)
    known = draw(circuits())
    base = make_spec()
    return make_spec(
        chairs=(club, other, still),
        tables=(console,),
        rows=rows,
        circuits=known,
        outlets=draw(outlets(known)),
        floor=draw(framings()),
        new_work=draw(new_works()),
        cords=replace(base.cords, open_floor_m=draw(st.sampled_from([0.0, inch(36)]))),
    )


def _box(left: float, right: float, back: float, front: float) -> tuple[Any, ...]:
    corners = ((left, back), (right, back), (right, front), (left, front))
    return tuple((inch(x), inch(y)) for x, y in corners)


def pinch_of(plan: Plan) -> Any:
    """The pinch zone, from the chairs where the record has them, by plain polygons."""
    floors, opened = [], []
    for row in plan.spec.rows:
        chairs = sorted((c for c in plan.chairs if c.row == row.id), key=lambda c: c.seat)
        ends = _ends(plan.spec, row)
        for chair, (left_m, right_m, cone) in zip(chairs, ends, strict=True):
            kind = _kind_of(plan.spec, row, chair)
            floor = Polygon(_corners(-left_m, right_m, kind.rear_of_base_m, kind.reclined_reach_m))
            if cone is not None:
                floor = floor.intersection(cone)
            floors.append(_placed(floor, chair))
        opened += _openings(plan, row, chairs)
    low = [
        _placed(Polygon(outline), chair)
        for row in plan.spec.rows
        for chair in plan.chairs
        if chair.row == row.id
        for part in _kind_of(plan.spec, row, chair).parts
        for outline in part.outlines
        if not _wide(plan.spec, part.least_gap_m)
    ]
    high = [
        _placed(Polygon(outline), chair)
        for row in plan.spec.rows
        for chair in plan.chairs
        if chair.row == row.id
        for part in _kind_of(plan.spec, row, chair).parts
        for outline in part.outlines
    ]
    holes = (
        unary_union(opened)
        .buffer(_MEET_M, join_style="mitre")
        .buffer(-_MEET_M / 3, join_style="mitre")
    )
    return unary_union([unary_union([*floors, *high]).difference(holes), *low])


def _wide(spec: PlanSpec, gap_m: float | None) -> bool:
    least_m = spec.cords.diameter_m + NEC.length_m("gap_over_cord")
    return gap_m is not None and round(gap_m * 1e6) >= round(least_m * 1e6)


def _kind_of(spec: PlanSpec, row: Row, chair: PlacedChair) -> ChairKind:
    kinds = [piece.kind for piece in row.pieces if piece.what == "seat"] or [row.chair] * row.seats
    return spec.chair(kinds[chair.seat - 1] or "")


def _corners(left: float, right: float, back: float, front: float) -> list[tuple[float, float]]:
    return [(left, back), (right, back), (right, front), (left, front)]


def _placed(shape: Any, chair: PlacedChair) -> Any:
    turned = rotate(shape, chair.angle_rad, origin=(0, 0), use_radians=True)
    return translate(turned, chair.x_m, chair.y_m)


def _ends(spec: PlanSpec, row: Row) -> list[tuple[float, float, Any]]:
    """Each chair's floor left and right of its middle, and its own part of an arc that tapers."""
    pieces = row.pieces
    if not pieces:
        kind = spec.chair(row.chair)
        arm = _arm(kind)
        seat = Piece(what="seat", kind=kind.id, width_m=kind.seat_width_m)
        pieces = (arm, *([seat, arm] * row.seats))
    found = []
    for n, piece in enumerate(pieces):
        if piece.what != "seat":
            continue
        halves = []
        for step in (-1, 1):
            arm = pieces[n + step] if pieces[n + step].what == "arm" else None
            beyond = n + 2 * step
            shared = arm is not None and 0 <= beyond < len(pieces)
            shared = shared and pieces[beyond].what == "seat"
            width_m = 0.0 if arm is None else arm.width_m
            halves.append(piece.width_m / 2 + width_m * (0.5 if shared and row.curve else 1.0))
        cone = None
        if row.curve is not None and row.curve.touch == "back":
            cone = _cone(spec, row, *halves)
        found.append((*halves, cone))
    return found


def _cone(spec: PlanSpec, row: Row, left_m: float, right_m: float) -> Any:
    radius_m, rear_m = row.curve.radius_m, spec.chair(row.chair).rear_of_base_m
    middle_m = (right_m - left_m) / 2
    half_m = (left_m + right_m) / 2
    apex = (middle_m, rear_m + math.sqrt(radius_m**2 - half_m**2))
    sides = [(-left_m, rear_m), (right_m, rear_m)]
    far = [(apex[0] + 3 * (x - apex[0]), apex[1] + 3 * (y - apex[1])) for x, y in sides]
    return Polygon([apex, *far])


def _openings(plan: Plan, row: Row, chairs: list[PlacedChair]) -> list[Any]:
    spec, found = plan.spec, []
    for chair in chairs:
        kind = _kind_of(spec, row, chair)
        zone = kind.clear
        if zone is None or not _wide(spec, zone.height_m):
            continue
        half_m = zone.width_m / 2
        found.append(_placed(Polygon(_corners(-half_m, half_m, zone.from_m, zone.to_m)), chair))
        if _wide(spec, kind.rear_gap_m):
            strip = _corners(-half_m, half_m, kind.rear_of_base_m, zone.from_m)
            found.append(_placed(Polygon(strip), chair))
    for one, other in pairwise(chairs):
        pair = [(chair, _kind_of(spec, row, chair)) for chair in (one, other)]
        if _arms_open(spec, row, one.seat) and all(
            kind.clear is not None and _wide(spec, kind.clear.height_m) for _, kind in pair
        ):
            back_m = max(kind.clear.from_m for _, kind in pair)
            front_m = min(kind.clear.to_m for _, kind in pair)
            sides = [
                _placed(
                    MultiPoint([(side * kind.clear.width_m / 2, v) for v in (back_m, front_m)]),
                    chair,
                )
                for (chair, kind), side in zip(pair, (1, -1), strict=True)
            ]
            if back_m < front_m:
                found.append(unary_union(sides).convex_hull)
    return found


def _arms_open(spec: PlanSpec, row: Row, seat: int) -> bool:
    if not row.pieces:
        return (seat, seat + 1) not in row.no_arm_between and _wide(
            spec, spec.chair(row.chair).arm_gap_m
        )
    places = [n for n, piece in enumerate(row.pieces) if piece.what == "seat"]
    between = row.pieces[places[seat - 1] + 1 : places[seat]]
    if not between or between[0].what != "arm" or between[-1].what != "arm":
        return False
    gaps = [
        spec.chair(piece.kind or "").arm_gap_m
        if piece.what == "arm"
        else spec.table(piece.kind or "").under_m
        for piece in between
        if piece.what != "gap"
    ]
    return all(_wide(spec, gap_m) for gap_m in gaps)
