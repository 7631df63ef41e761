"""Circuits, outlets, new work and cords as read. See ``spec``."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """Something already on a circuit. [A]"""

    name: str
    current_a: Fraction
    continuous: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Circuit:
    """An existing circuit; ``already_on_it`` is None when nobody knows, () when it is empty.

    Where only a part of it is known, ``already_on_it`` is None, ``partly_on_it`` is the known part
    and ``not_measured`` names the rest. ``conductor`` is copper, aluminum, or None: not said.
    ``shared_neutral``, ``switched``, ``ground``, ``gfci`` and ``afci`` are None where nobody has
    looked. ``first_outlet`` ends the home run; None is unknown. [A, m]
    """

    id: str
    breaker_a: Fraction | None
    wire: str | None
    home_run_m: float | None
    already_on_it: tuple[Load, ...] | None
    partly_on_it: tuple[Load, ...] = ()
    not_measured: tuple[str, ...] = ()
    shared_neutral: bool | None = None
    switched: bool | None = None
    ground: bool | None = None
    conductor: str | None = None
    gfci: bool | None = None
    afci: bool | None = None
    first_outlet: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlet:
    """An existing outlet. ``wall`` is the wall it is on, None for one in the floor. ``height_m``
    adds to the cord. ``sockets`` plugs fit, ``free`` of them are free, each rated ``rating_a``.
    ``switched``, ``ground`` and ``gfci`` None: as its circuit has it. [m, A]"""

    id: str
    circuit: str
    wall: str | None
    x_m: float
    y_m: float
    height_m: float
    sockets: int
    free: int
    rating_a: Fraction
    switched: bool | None = None
    ground: bool | None = None
    gfci: bool | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """Left to right and back to screen. [m]"""

    width_m: float
    depth_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class NewRating:
    """One rating that new circuits may have; ``wire`` None: chosen for load and drop. [A]"""

    breaker_a: Fraction
    wire: str | None
    socket_rating_a: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class NewWork:
    """What new work is offered. ``circuits`` is the free spaces in the panel (None: unknown);
    ``wire`` None: chosen for load and drop; ``cut_out`` or ``lid`` None: the mark is provisional.
    ``ratings`` are several that new circuits may have, rising, the first as above; empty for one.
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
    ratings: tuple[NewRating, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Cords:
    """Extension cords that may be bought, and how much open floor is accepted. ``extensions``: no,
    if needed, yes. ``outlet_unit`` names the outlet unit that may be used. [m]"""

    lengths_m: tuple[float, ...]
    wire: str | None
    diameter_m: float
    extensions: str
    open_floor_m: float
    outlet_unit: str | None = None
