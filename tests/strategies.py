"""Rooms of the kinds that are planned, for laws."""

from dataclasses import replace
from fractions import Fraction
from typing import Any, TypeVar

from hypothesis import strategies as st
from support import (
    inch,
    make_area,
    make_chain,
    make_chair,
    make_circuit,
    make_door,
    make_framing,
    make_joists,
    make_load,
    make_new_work,
    make_outlet,
    make_riser,
    make_row,
    make_spec,
)

from powerplan.model.spec import (
    Area,
    ChairKind,
    Circuit,
    Framing,
    Load,
    NewRating,
    NewWork,
    Outlet,
    PlanSpec,
    Project,
    Riser,
    Row,
    Wall,
)

T = TypeVar("T")

WIDTH, DEPTH = 240, 186


def _inches(low: int, high: int) -> st.SearchStrategy[float]:
    """Lengths to an eighth of an inch."""
    return st.integers(low * 8, high * 8).map(lambda eighths: inch(Fraction(eighths, 8)))


def _mostly(usual: T, *others: T) -> st.SearchStrategy[T]:
    """The usual as often as all others together, and at least every second time."""
    return st.sampled_from([usual, *others, *[usual] * len(others)])


@st.composite
def chairs(draw: st.DrawFn) -> ChairKind:
    input_a = Fraction(draw(st.integers(5, 30)), 10)
    said = draw(st.booleans())
    chained = draw(st.booleans())
    return make_chair(
        seat_width_m=draw(_inches(20, 26)),
        arm_width_m=draw(_inches(3, 8)),
        arm_gap_m=draw(st.sampled_from([None, inch("1/4"), inch("5/8"), inch("3/2")])),
        rear_gap_m=draw(_mostly(inch("3/2"), None, inch("1/4"))),
        input_a=input_a,
        continuous_a=input_a * Fraction(draw(st.integers(0, 4)), 4) if said else input_a,
        continuous_said=said,
        lead_m=inch(draw(st.sampled_from([48, 72, 96, 120]))),
        lead_wire=draw(st.sampled_from([None, "16 AWG", "18 AWG"])),
        coupler_a=Fraction(draw(st.sampled_from([3, 7, 10]))),
        lead_from=(
            draw(st.sampled_from([0.0, inch(3), inch(-3)])),
            draw(_mostly(inch(11), inch(2), inch(15))),
        ),
        chain=make_chain(chairs=draw(st.integers(2, 4)), link_m=inch(draw(st.integers(36, 72))))
        if chained
        else None,
    )


def framings() -> st.SearchStrategy[Framing]:
    return st.one_of(
        st.just(make_framing(build="slab")),
        st.just(make_framing()),
        st.builds(
            make_joists,
            joists_run=st.sampled_from(["back to screen", "side to side", None]),
            spacing_m=st.sampled_from([inch(12), inch(16), inch(24), None]),
            first_joist_m=st.one_of(st.none(), _inches(0, 16)),
            joist_width_m=st.sampled_from([inch("3/2"), None]),
        ),
    )


@st.composite
def circuits(draw: st.DrawFn) -> tuple[Circuit, ...]:
    loads = st.one_of(
        st.none(),
        st.just(()),
        st.builds(
            lambda tenths, lasting: (make_load("rack", f"{tenths}/10", lasting),),
            st.integers(1, 80),
            st.booleans(),
        ),
    )
    return tuple(
        make_circuit(
            id=str(number),
            breaker_a=draw(_mostly(Fraction(15), Fraction(20), None)),
            wire=draw(_mostly("12 AWG", "14 AWG", None)),
            home_run_m=draw(_mostly(inch(600), None)),
            **_on_it(draw(loads), draw(st.booleans())),
            shared_neutral=draw(_mostly(None, True, False)),
            switched=draw(_mostly(None, True, False)),
            ground=draw(_mostly(None, True, False)),
            conductor=draw(_mostly(None, "copper", "aluminum")),
            gfci=draw(_mostly(None, True, False)),
            afci=draw(_mostly(None, True, False)),
        )
        for number in range(draw(st.integers(0, 2)))
    )


def _on_it(loads: tuple[Load, ...] | None, whole: bool) -> dict[str, Any]:
    """The loads as all that is on a circuit, or as the known part beside a fridge."""
    if whole or not loads:
        return {"already_on_it": loads}
    return {"already_on_it": None, "partly_on_it": loads, "not_measured": ("fridge",)}


@st.composite
def outlets(draw: st.DrawFn, known: tuple[Circuit, ...]) -> tuple[Outlet, ...]:
    made = []
    for number in range(draw(st.integers(0, 3)) if known else 0):
        wall = draw(_mostly(Wall.BACK, Wall.LEFT, Wall.RIGHT, None))
        along = draw(_inches(50, 180))
        x_m = {Wall.LEFT: 0.0, Wall.RIGHT: inch(WIDTH)}.get(wall or Wall.BACK, along)
        y_m = {Wall.BACK: 0.0, None: draw(_inches(1, 180))}.get(wall, along)
        sockets = draw(st.integers(1, 2))
        made.append(
            make_outlet(
                id=f"W{number}",
                circuit=draw(st.sampled_from([circuit.id for circuit in known])),
                wall=wall,
                x_m=x_m,
                y_m=y_m,
                height_m=0.0 if wall is None else inch(16),
                sockets=2,
                free=sockets,
                ground=draw(_mostly(None, True, False)),
                switched=draw(_mostly(None, True, False)),
            )
        )
    return tuple(made)


@st.composite
def rows(draw: st.DrawFn, kind: ChairKind) -> tuple[Row, ...]:
    seats = st.integers(1, 5)
    first = make_row(
        seats=draw(seats),
        headrest_to_wall_m=draw(_inches(5, 24)),
        center_x_m=draw(_inches(100, 140)),
        fastened=draw(_mostly(False, True, None)),
    )
    if first.seats > 2 and draw(st.booleans()):
        first = replace(first, no_arm_between=((1, 2),))
    if draw(st.booleans()):
        return (first,)
    second = make_row(id="B", seats=draw(seats), headrest_to_wall_m=draw(_inches(94, 110)))
    return (first, second)


@st.composite
def new_works(draw: st.DrawFn) -> NewWork:
    return make_new_work(
        floor_boxes=draw(_mostly(True, False)),
        wall_outlets=draw(st.booleans()),
        circuits=draw(_mostly(3, 0, 1, None)),
        wire=draw(st.sampled_from(["12 AWG", None])),
        home_run_m=draw(st.sampled_from([inch(720), None])),
        sockets_per_box=draw(st.integers(1, 3)),
        cut_out=draw(st.sampled_from([make_new_work().cut_out, None])),
        plug_height_m=draw(_mostly(inch("9/4"), 0.0, inch(4))),
        ratings=draw(_mostly((), _ratings())),
    )


def _ratings() -> tuple[NewRating, ...]:
    return tuple(
        NewRating(breaker_a=Fraction(amps), wire=None, socket_rating_a=Fraction(15))
        for amps in (15, 20)
    )


@st.composite
def rooms(draw: st.DrawFn) -> PlanSpec:
    """Rectangular rooms with straight rows: risers, joists, doors, walkways, unknowns."""
    kind = draw(chairs())
    known = draw(circuits())
    risers: tuple[Riser, ...] = ()
    if draw(st.booleans()):
        risers = (make_riser(0, 0, WIDTH, draw(st.integers(80, 92)), framing=draw(framings())),)
    areas: tuple[Area, ...] = ()
    if draw(st.booleans()):
        areas = (make_area("duct", draw(st.integers(60, 160)), 10, 14, 70),)
    walkways: tuple[Area, ...] = ()
    if draw(st.booleans()):
        walkways = (make_area("aisle", 0, 0, draw(st.integers(10, 40)), DEPTH),)
    obstacles: tuple[Area, ...] = ()
    if draw(st.booleans()):
        obstacles = (
            make_area("column", draw(st.integers(0, 220)), draw(st.integers(0, 150)), 8, 8),
        )
    doors = (make_door(Wall.LEFT, draw(st.integers(0, 140)), 32),) if draw(st.booleans()) else ()
    base = make_spec()
    return make_spec(
        project=Project(
            name="A drawn room",
            job=draw(st.sampled_from(["retrofit", "new"])),
            place=draw(st.sampled_from(["home", "business", None])),
            rules="us-nec-2023",
            units=draw(st.sampled_from(["ft-in", "mm"])),
        ),
        chairs=(kind,),
        rows=draw(rows(kind)),
        circuits=known,
        outlets=draw(outlets(known)),
        floor=draw(framings()),
        no_cut=areas,
        risers=risers,
        walkways=walkways,
        obstacles=obstacles,
        doors=doors,
        new_work=draw(new_works()),
        cords=replace(
            base.cords,
            extensions=draw(st.sampled_from(["no", "if needed", "yes"])),
            open_floor_m=draw(st.sampled_from([0.0, inch(36)])),
            wire=draw(st.sampled_from(["14 AWG", "16 AWG", None])),
        ),
    )
