"""The plan as read: what stands in the room, in SI units, with defaults filled in.

Lengths are metres on a grid of one micrometre, in the room frame (see ``geometry``). Currents are
exact fractions of an ampere whose denominators do not exceed one million. ``None`` means unknown
(or, for a whole feature such as a chain, that there is none); unknown is never zero.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from powerplan.model.geometry import Point, Rect


class Wall(StrEnum):
    """The four walls, as you sit watching the screen."""

    LEFT = "left"
    RIGHT = "right"
    BACK = "back"
    SCREEN = "screen"


@dataclass(frozen=True, slots=True, kw_only=True)
class Project:
    """What job this is. ``job`` is retrofit or new; ``place`` is home; home, basement; business;
    assembly; or None. ``units`` is how sheets print: ft-in, in, mm or m."""

    name: str
    job: str
    place: str | None
    rules: str
    units: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """A rectangular room, and what people on site call its walls. [m]"""

    width_m: float
    depth_m: float
    left_wall: str
    right_wall: str
    back_wall: str
    screen_wall: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Door:
    """An opening in a wall. ``start_m`` and ``end_m`` run along the wall: from the left for back
    and screen walls, from the back for left and right walls. ``swings``: in, out or slides. [m]"""

    id: str
    wall: Wall
    start_m: float
    end_m: float
    swings: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Area:
    """A named rectangle of floor: an obstacle, a walkway, or a place where nothing is cut. [m]"""

    id: str
    rect: Rect


@dataclass(frozen=True, slots=True, kw_only=True)
class Framing:
    """What the floor (or a riser's deck) is made of; None is unknown everywhere.

    ``build`` is joists or slab; ``joists_run`` is "back to screen" or "side to side". For joists
    running back to screen ``first_joist_m`` is from the left edge to the middle of the first joist;
    for side to side from the back edge. The edges are the room's walls, or the riser's own. [m]
    """

    build: str | None
    joists_run: str | None
    spacing_m: float | None
    first_joist_m: float | None
    joist_width_m: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Riser:
    """A raised platform; a row on it has its box in the riser's deck. [m]"""

    id: str
    rect: Rect
    height_m: float
    framing: Framing


@dataclass(frozen=True, slots=True, kw_only=True)
class ClearZone:
    """Floor under a seat that stays clear up to ``height_m``, in the chair frame: from and to are
    ahead of the headrest, the width is centred on the chair. [m]"""

    from_m: float
    to_m: float
    width_m: float
    height_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Chain:
    """The chair maker's listed chair-to-chair supply: current through it, how many chairs, and the
    link cord. [A, m]"""

    current_a: Fraction
    chairs: int
    link_m: float
    wire: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ChairKind:
    """A kind of chair, measured. Lengths in the chair frame. [m, A]

    ``continuous_a`` is the part of ``input_a`` that lasts three hours or more; where it was not
    said, it is all of it and ``continuous_said`` is False. ``lead_from`` is (right, forward).
    """

    id: str
    seat_width_m: float
    arm_width_m: float
    depth_m: float
    rear_of_base_m: float
    back_travel_m: float
    reclined_reach_m: float
    clear: ClearZone | None
    arm_gap_m: float | None
    rear_gap_m: float | None
    input_a: Fraction
    continuous_a: Fraction
    continuous_said: bool
    lead_m: float
    lead_wire: str | None
    coupler_a: Fraction | None
    lead_from: Point
    chain: Chain | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A straight row of one kind. ``no_arm_between`` holds pairs of neighbouring seats, counted
    from the left, that share a cushion. ``fastened`` None is unknown and counts as fastened. [m]"""

    id: str
    chair: str
    seats: int
    headrest_to_wall_m: float
    center_x_m: float
    no_arm_between: tuple[tuple[int, int], ...]
    fastened: bool | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """Something already on a circuit. [A]"""

    name: str
    current_a: Fraction
    continuous: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Circuit:
    """An existing circuit; ``already_on_it`` is None when nobody knows, () when it is empty."""

    id: str
    breaker_a: Fraction | None
    wire: str | None
    home_run_m: float | None
    already_on_it: tuple[Load, ...] | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlet:
    """An existing outlet. ``wall`` is None for one in the floor. ``height_m`` adds to the cord.
    ``sockets`` plugs fit, ``free`` of them are free, each rated ``rating_a``. [m, A]"""

    id: str
    circuit: str
    wall: Wall | None
    x_m: float
    y_m: float
    height_m: float
    sockets: int
    free: int
    rating_a: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """Left to right and back to screen. [m]"""

    width_m: float
    depth_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class NewWork:
    """What new work is offered. ``circuits`` is the free spaces in the panel (None: unknown);
    ``wire`` None: chosen for load and drop; ``cut_out`` or ``lid`` None: the mark is provisional.
    """

    floor_boxes: bool
    wall_outlets: bool
    circuits: int | None
    breaker_a: Fraction
    wire: str | None
    home_run_m: float | None
    sockets_per_box: int
    socket_rating_a: Fraction
    cut_out: Size | None
    lid: Size | None
    plug_height_m: float
    framing_margin_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Cords:
    """Extension cords that may be bought, and how much open floor is accepted. ``extensions``: no,
    if needed, yes. [m]"""

    lengths_m: tuple[float, ...]
    wire: str | None
    diameter_m: float
    extensions: str
    open_floor_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Assumption:
    """A default that was filled in, said so that a reader can refuse it."""

    subject: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanSpec:
    """The whole plan as read. Everything is in the order of its name, digits by value."""

    project: Project
    room: Room
    doors: tuple[Door, ...]
    obstacles: tuple[Area, ...]
    walkways: tuple[Area, ...]
    floor: Framing
    no_cut: tuple[Area, ...]
    risers: tuple[Riser, ...]
    chairs: tuple[ChairKind, ...]
    rows: tuple[Row, ...]
    circuits: tuple[Circuit, ...]
    outlets: tuple[Outlet, ...]
    new_work: NewWork
    cords: Cords
    assumed: tuple[Assumption, ...]

    def chair(self, name: str) -> ChairKind:
        """Return the kind of that name."""
        return next(kind for kind in self.chairs if kind.id == name)

    def row(self, name: str) -> Row:
        """Return the row of that name."""
        return next(row for row in self.rows if row.id == name)

    def circuit(self, name: str) -> Circuit:
        """Return the existing circuit of that name."""
        return next(circuit for circuit in self.circuits if circuit.id == name)

    def outlet(self, name: str) -> Outlet:
        """Return the existing outlet of that name."""
        return next(outlet for outlet in self.outlets if outlet.id == name)
