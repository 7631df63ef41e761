"""Specs for tests: one sensible room, and ways to change one thing in it."""

from dataclasses import replace
from fractions import Fraction
from typing import Any

from powerplan.model.geometry import Rect
from powerplan.model.rules import RuleSet
from powerplan.model.spec import (
    Area,
    Chain,
    ChairKind,
    Circuit,
    ClearZone,
    Cords,
    Door,
    Framing,
    Load,
    NewWork,
    Outlet,
    PlanSpec,
    Project,
    Riser,
    Room,
    Row,
    Size,
    Wall,
)
from powerplan.rulebook.loader import rule_set

NEC: RuleSet = rule_set("us-nec-2023")


def inch(value: float | Fraction | str) -> float:
    """Inches to meters on the spec's grid."""
    return round(float(Fraction(value) * Fraction(254, 10000)), 6)


def rect(left: float, back: float, width: float, depth: float) -> Rect:
    """A rectangle from inches."""
    return Rect(
        left_m=inch(left), right_m=inch(left + width), back_m=inch(back), front_m=inch(back + depth)
    )


def make_chain(**changes: Any) -> Chain:
    """A maker's chain: 8 A, four chairs, 4 ft links of 16 AWG."""
    base = Chain(current_a=Fraction(8), chairs=4, link_m=inch(48), wire="16 AWG")
    return replace(base, **changes)


def make_chair(**changes: Any) -> ChairKind:
    """A measured chair: 23 in seat, 7 in arms, 1.8 A of which 0.3 A lasts."""
    base = ChairKind(
        id="club",
        seat_width_m=inch(23),
        arm_width_m=inch(7),
        depth_m=inch(39),
        rear_of_base_m=inch(4),
        back_travel_m=inch(5),
        reclined_reach_m=inch(66),
        clear=ClearZone(from_m=inch(9), to_m=inch(21), width_m=inch(14), height_m=inch(3)),
        arm_gap_m=inch("1/4"),
        rear_gap_m=inch("3/2"),
        input_a=Fraction(9, 5),
        continuous_a=Fraction(3, 10),
        continuous_said=True,
        lead_m=inch(72),
        lead_wire="16 AWG",
        coupler_a=Fraction(10),
        lead_from=(0.0, inch(11)),
        chain=None,
    )
    return replace(base, **changes)


def make_row(**changes: Any) -> Row:
    """Row A: five clubs, headrests 14 in off the back wall, in the middle of a 20 ft room."""
    base = Row(
        id="A",
        chair="club",
        seats=5,
        headrest_to_wall_m=inch(14),
        center_x_m=inch(120),
        no_arm_between=(),
        fastened=False,
    )
    return replace(base, **changes)


def make_circuit(**changes: Any) -> Circuit:
    """Circuit 7: 15 A on 14 AWG, 48 ft home run, nothing else on it."""
    base = Circuit(
        id="7", breaker_a=Fraction(15), wire="14 AWG", home_run_m=inch(576), already_on_it=()
    )
    return replace(base, **changes)


def make_outlet(**changes: Any) -> Outlet:
    """Outlet W1: a duplex 16 in up the back wall, 9 ft from the left, on circuit 7."""
    base = Outlet(
        id="W1",
        circuit="7",
        wall=Wall.BACK,
        x_m=inch(108),
        y_m=0.0,
        height_m=inch(16),
        sockets=2,
        free=2,
        rating_a=Fraction(15),
    )
    return replace(base, **changes)


def make_new_work(**changes: Any) -> NewWork:
    """New work: boxes of two sockets, two free spaces, 20 A on 12 AWG, 60 ft away."""
    base = NewWork(
        floor_boxes=True,
        wall_outlets=False,
        circuits=2,
        breaker_a=Fraction(20),
        wire="12 AWG",
        home_run_m=inch(720),
        sockets_per_box=2,
        socket_rating_a=Fraction(15),
        cut_out=Size(width_m=inch(4), depth_m=inch(4)),
        lid=Size(width_m=inch(6), depth_m=inch(6)),
        plug_height_m=inch("9/4"),
        framing_margin_m=inch("3/4"),
    )
    return replace(base, **changes)


def make_spec(**changes: Any) -> PlanSpec:
    """A 20 ft by 15 ft 6 in room on a slab with one row, one circuit and one outlet.

    Any field of ``PlanSpec`` may be given instead.
    """
    base = PlanSpec(
        project=Project(
            name="A test room", job="retrofit", place="home", rules="us-nec-2023", units="ft-in"
        ),
        room=Room(
            width_m=inch(240),
            depth_m=inch(186),
            left_wall="left wall",
            right_wall="right wall",
            back_wall="back wall",
            screen_wall="screen wall",
        ),
        doors=(),
        obstacles=(),
        walkways=(),
        floor=make_framing(build="slab"),
        no_cut=(),
        risers=(),
        chairs=(make_chair(),),
        rows=(make_row(),),
        circuits=(make_circuit(),),
        outlets=(make_outlet(),),
        new_work=make_new_work(),
        cords=Cords(
            lengths_m=tuple(inch(12 * feet) for feet in (3, 6, 9, 12, 15)),
            wire="14 AWG",
            diameter_m=inch("9/25"),
            extensions="if needed",
            open_floor_m=0.0,
        ),
        assumed=(),
    )
    return replace(base, **changes)


def make_framing(**changes: Any) -> Framing:
    """Framing of which nothing is known, but for what is given."""
    base = Framing(
        build=None, joists_run=None, spacing_m=None, first_joist_m=None, joist_width_m=None
    )
    return replace(base, **changes)


def make_joists(**changes: Any) -> Framing:
    """Joists 16 in apart, back to screen, the first 7 1/4 in from the left, 1 1/2 in wide."""
    return make_framing(
        **{
            "build": "joists",
            "joists_run": "back to screen",
            "spacing_m": inch(16),
            "first_joist_m": inch("29/4"),
            "joist_width_m": inch("3/2"),
            **changes,
        }
    )


def make_area(name: str, left: float, back: float, width: float, depth: float) -> Area:
    """A named rectangle from inches."""
    return Area(id=name, rect=rect(left, back, width, depth))


def make_riser(left: float, back: float, width: float, depth: float, **changes: Any) -> Riser:
    """A riser 10 in high on a slab-like deck, from inches."""
    base = Riser(
        id="rear",
        rect=rect(left, back, width, depth),
        height_m=inch(10),
        framing=make_framing(build="slab"),
    )
    return replace(base, **changes)


def make_door(wall: Wall, start: float, width: float, **changes: Any) -> Door:
    """A door that swings in, from inches."""
    base = Door(id="hall", wall=wall, start_m=inch(start), end_m=inch(start + width), swings="in")
    return replace(base, **changes)


def make_load(name: str, current: str, continuous: bool) -> Load:
    """Something already on a circuit."""
    return Load(name=name, current_a=Fraction(current), continuous=continuous)
