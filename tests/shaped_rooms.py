"""Rooms of other shapes for laws: outlines, turned, curved and mixed rows, tables, moving parts."""

import math
from dataclasses import replace
from fractions import Fraction
from typing import Any

from hypothesis import strategies as st
from strategies import chairs, circuits, framings, new_works
from support import inch, make_area, make_door, make_outlet, make_riser, make_row, make_spec

from powerplan.model.geometry import Point
from powerplan.model.spec import (
    Area,
    ChairKind,
    Circuit,
    Curve,
    Door,
    MovingPart,
    Outlet,
    Piece,
    PlanSpec,
    Project,
    Riser,
    Room,
    Row,
    TableKind,
    TapeReading,
    Wall,
    WallLine,
)

WIDE, DEEP = 320, 280

OUTLINES: tuple[tuple[tuple[float, float], ...], ...] = (
    (),
    ((0, 0), (320, 0), (320, 200), (280, 200), (280, 280), (0, 280)),  # a corner cut out
    ((0, 0), (320, 0), (300, 280), (0, 280)),  # a slanted side
    ((0, 12), (150, 0), (320, 12), (320, 280), (0, 280)),  # a bent back wall
    ((0, 0), (320, 0), (320, 280), (60, 280), (0, 200)),  # a corner cut off
    ((0, 10), (60, 10), (60, 0), (260, 0), (260, 10), (320, 10), (320, 280), (0, 280)),  # alcove
)


def outline(corners: tuple[tuple[float, float], ...]) -> tuple[WallLine, ...]:
    """The walls through those corners, in inches."""
    points = [(inch(Fraction(x)), inch(Fraction(y))) for x, y in corners]
    ends = [*points[1:], *points[:1]]
    return tuple(
        WallLine(id=f"w{n}", label=f"wall {n}", start=start, end=end)
        for n, (start, end) in enumerate(zip(points, ends, strict=True))
    )


@st.composite
def kinds(draw: st.DrawFn, moving: bool) -> tuple[ChairKind, ...]:
    """A club; a slim one, as deep; one that moves by hand; one known from its sheet alone."""
    club = replace(draw(chairs()), id="club")
    if moving and draw(st.integers(0, 3)) == 0:
        club = replace(club, parts=(draw(parts()),))
    slim = replace(
        club,
        id="slim",
        seat_width_m=inch(draw(st.integers(19, 22))),
        arm_gap_m=draw(st.sampled_from([None, inch("1/4"), inch("3/2")])),
        reclined_reach_m=inch(draw(st.integers(58, 70))),
        back_travel_m=inch(draw(st.integers(3, 6))),
        parts=(),
    )
    still = replace(
        club,
        id="still",
        powered=False,
        input_a=Fraction(0),
        continuous_a=Fraction(0),
        chain=None,
        parts=(),
    )
    sheet = replace(club, id="sheet", measured=False, parts=())
    return club, slim, still, sheet


@st.composite
def parts(draw: st.DrawFn) -> MovingPart:
    left, back = draw(st.integers(-14, 8)), draw(st.integers(2, 40))
    wide, long = draw(st.integers(1, 8)), draw(st.integers(1, 10))
    corners = ((left, back), (left + wide, back), (left + wide, back + long), (left, back + long))
    return MovingPart(
        id="arm link",
        outlines=(tuple((inch(u), inch(v)) for u, v in corners),),
        least_gap_m=draw(st.sampled_from([None, inch("1/4"), inch(2)])),
    )


@st.composite
def listed(draw: st.DrawFn, named: dict[str, ChairKind], plain: bool) -> tuple[Piece, ...]:
    """Pieces of a row: one kind with arms of its own, or kinds mixed with tables and gaps."""
    names = ["club"] if plain else ["club"] * 4 + ["slim"] * 3 + ["still", "sheet"]
    seats = [draw(st.sampled_from(names)) for _ in range(draw(st.integers(1, 4)))]

    def arm(kind: str) -> Piece:
        return Piece(what="arm", kind=kind, width_m=named[kind].arm_width_m)

    found = [arm(seats[0])] if draw(st.booleans()) else []
    for n, kind in enumerate(seats):
        found.append(Piece(what="seat", kind=kind, width_m=named[kind].seat_width_m))
        if n == len(seats) - 1:
            continue
        between = draw(st.sampled_from(["arm", "arm", "arms", "table", "gap", ""]))
        beyond = seats[n + 1]
        if between == "arm":
            low = min((kind, beyond), key=lambda name: named[name].arm_gap_m or 0.0)
            found.append(arm(low))
        elif between == "arms":
            found += [arm(kind), arm(beyond)]
        elif between == "table":
            tray = Piece(what="table", kind="tray", width_m=inch(12))
            found += [arm(kind), tray, arm(beyond)]
        elif between == "gap":
            found += [arm(kind), Piece(what="gap", kind=None, width_m=inch(4)), arm(beyond)]
    if draw(st.booleans()):
        found.append(arm(seats[-1]))
    return tuple(found)


def row_of(name: str, pieces: tuple[Piece, ...], **changes: Any) -> Row:
    """A row of those pieces."""
    names = [piece.what for piece in pieces]
    number, pairs = 0, []
    for what, after in zip(names, [*names[1:], ""], strict=True):
        number += what == "seat"
        if what == after == "seat":
            pairs.append((number, number + 1))
    first = next(piece.kind for piece in pieces if piece.what == "seat")
    base = make_row(
        id=name, chair=first, seats=names.count("seat"), pieces=pieces, no_arm_between=tuple(pairs)
    )
    return replace(base, **changes)


@st.composite
def shaped_rows(draw: st.DrawFn, named: dict[str, ChairKind]) -> tuple[Row, ...]:
    shape = draw(st.sampled_from(["mixed", "mixed", "turned", "turned", "front", "back"]))
    curve, angle = None, 0.0
    if shape in ("front", "back"):
        curve = Curve(radius_m=inch(draw(st.integers(150, 400))), touch=shape)
    if shape != "mixed" and draw(st.booleans()):
        angle = round(math.radians(draw(st.integers(-40, 40))), 9)
    if shape == "turned" and draw(st.integers(0, 3)) == 0:
        angle = round(draw(st.sampled_from([math.pi / 2, -math.pi / 2, math.pi])), 9)
    pieces = draw(listed(named, plain=draw(st.booleans())))
    if curve is not None:
        # a table of the depth at which the row touches
        pieces = tuple(piece for piece in pieces if piece.what != "table")
    # turned rows stand far enough in the room that no lead ends in a wall
    near = st.integers(6, 24) if angle == 0.0 else st.integers(90, 150)
    first = row_of(
        "A",
        pieces,
        headrest_to_wall_m=inch(draw(near)),
        center_x_m=inch(draw(st.integers(140, 180))),
        angle_rad=angle,
        curve=curve,
        fastened=draw(st.sampled_from([False, False, True])),
    )
    if draw(st.integers(0, 2)):
        return (first,)
    second = row_of(
        "B",
        draw(listed(named, plain=True)),
        headrest_to_wall_m=inch(draw(st.integers(110, 190))),
        center_x_m=inch(draw(st.integers(140, 180))),
        angle_rad=round(math.radians(draw(st.sampled_from([0, 0, 10, -20]))), 9),
    )
    return (first, second)


def along(room: Room, wall: WallLine, share: float) -> Point:
    """A place on a wall."""
    (x, y), (to_x, to_y) = wall.start, wall.end
    return round(x + share * (to_x - x), 6), round(y + share * (to_y - y), 6)


@st.composite
def shaped_outlets(draw: st.DrawFn, room: Room, known: tuple[Circuit, ...]) -> tuple[Outlet, ...]:
    found = []
    for number in range(draw(st.integers(0, 3)) if known else 0):
        wall = draw(st.sampled_from(room.lines))
        x_m, y_m = along(room, wall, draw(st.integers(1, 19)) / 20)
        found.append(
            make_outlet(
                id=f"W{number}",
                circuit=draw(st.sampled_from([circuit.id for circuit in known])),
                wall=wall.id,
                x_m=x_m,
                y_m=y_m,
            )
        )
    return tuple(found)


@st.composite
def shaped_rooms(draw: st.DrawFn, *, moving: bool = False) -> PlanSpec:
    """Rooms of every shape with rows of every shape; ``moving``: chairs with moving parts, too."""
    made = draw(kinds(moving))
    named = {kind.id: kind for kind in made}
    base = make_spec()
    room = replace(
        base.room,
        width_m=inch(WIDE),
        depth_m=inch(DEEP),
        walls=outline(draw(st.sampled_from(OUTLINES))),
    )
    known = draw(circuits())
    doors: tuple[Door, ...] = ()
    if draw(st.booleans()):
        wall = draw(st.sampled_from([w for w in room.lines if math.dist(w.start, w.end) > 1.5]))
        doors = (replace(make_door(Wall.BACK, draw(st.integers(0, 20)), 32), wall=wall.id),)
    risers: tuple[Riser, ...] = ()
    if draw(st.integers(0, 3)) == 0:
        risers = (make_riser(20, 0, 280, draw(st.integers(90, 130)), framing=draw(framings())),)
    obstacles: tuple[Area, ...] = ()
    if draw(st.integers(0, 3)) == 0:
        obstacles = (
            make_area("column", draw(st.integers(0, 300)), draw(st.integers(0, 240)), 8, 8),
        )
    no_cut: tuple[Area, ...] = ()
    if draw(st.integers(0, 3)) == 0:
        no_cut = (make_area("duct", draw(st.integers(60, 220)), 10, 14, 90),)
    walkways: tuple[Area, ...] = ()
    if draw(st.integers(0, 3)) == 0:
        walkways = (make_area("aisle", 0, 0, draw(st.integers(10, 60)), DEEP),)
    tray = TableKind(
        id="tray",
        width_m=inch(12),
        rear_m=inch(6),
        front_m=inch(34),
        under_m=draw(st.sampled_from([None, inch("1/4"), inch(3)])),
    )
    readings: tuple[TapeReading, ...] = ()
    if draw(st.booleans()):
        a, b = room.lines[0].start, room.lines[1].end
        off = draw(st.sampled_from([0.0, 0.01, 0.0127, 0.02, -0.5]))
        long_m = round(math.dist(a, b) + off, 6)
        readings = (TapeReading(id="diagonal", start=a, end=b, length_m=long_m),)
    return make_spec(
        project=Project(
            name="A drawn room",
            job=draw(st.sampled_from(["retrofit", "new"])),
            place=draw(st.sampled_from(["home", "business"])),
            rules="us-nec-2023",
            units=draw(st.sampled_from(["ft-in", "mm"])),
        ),
        room=room,
        chairs=made,
        rows=draw(shaped_rows(named)),
        circuits=known,
        outlets=draw(shaped_outlets(room, known)),
        floor=draw(framings()),
        no_cut=no_cut,
        risers=risers,
        walkways=walkways,
        obstacles=obstacles,
        doors=doors,
        tables=(tray,),
        readings=readings,
        new_work=draw(new_works()),
        cords=replace(
            base.cords,
            extensions=draw(st.sampled_from(["no", "if needed", "yes"])),
            open_floor_m=draw(st.sampled_from([0.0, inch(36)])),
        ),
    )
