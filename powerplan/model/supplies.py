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
    """An existing circuit; ``already_on_it`` is None when nobody knows, () when it is empty."""

    id: str
    breaker_a: Fraction | None
    wire: str | None
    home_run_m: float | None
    already_on_it: tuple[Load, ...] | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlet:
    """An existing outlet. ``wall`` is the wall it is on, None for one in the floor. ``height_m``
    adds to the cord. ``sockets`` plugs fit, ``free`` of them are free, each rated ``rating_a``.
    [m, A]"""

    id: str
    circuit: str
    wall: str | None
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
    if needed, yes. ``outlet_unit`` names the outlet unit that may be used. [m]"""

    lengths_m: tuple[float, ...]
    wire: str | None
    diameter_m: float
    extensions: str
    open_floor_m: float
    outlet_unit: str | None = None
