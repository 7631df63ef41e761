"""What lies loose on the floor and feeds chairs: power supplies and outlet units.

Their kinds as read stand in the spec; where each lies stands in the plan record.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

WALL_CORD = "wall cord"
CHAIR_CORD = "chair cord"
UNIT_CORD = "unit cord"
"""Kinds of cord: to a supply, from a supply to its chair, and to an outlet unit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SupplyKind:
    """A kind of power supply that lies on the floor. Chairs that name it carry its input, and its
    wall cord as their lead.

    ``feeds`` is how many neighboring seats one may serve, 1 or 2. ``chair_cord_ohm`` is the whole
    chair cord, out and back; where it is None the wire says it, and where both are None nobody
    knows. ``output_a`` is all that the label's OUTPUT line gives. [m, V, A, ohm]
    """

    id: str
    width_m: float
    depth_m: float
    height_m: float
    wall_cord_m: float
    wall_cord_wire: str | None
    longer_cords_m: tuple[float, ...]
    chair_cord_m: float
    chair_cord_wire: str | None
    chair_cord_ohm: float | None
    output_v: Fraction
    output_a: Fraction
    feeds: int


@dataclass(frozen=True, slots=True, kw_only=True)
class OutletUnitKind:
    """A furniture outlet unit: several sockets on one cord, to be plugged into a fixed outlet.

    ``listed`` tells whether it is listed for this use, with its own overcurrent protection; None
    is unknown. [m, A]
    """

    id: str
    width_m: float
    depth_m: float
    height_m: float
    sockets: int
    rating_a: Fraction
    cord_m: float
    cord_wire: str | None
    listed: bool | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Supply:
    """A power supply where it lies. (x, y) is its middle; ``width_m`` is along the row that it
    belongs to, ``depth_m`` across it. ``under`` is the chair in whose clear zone it lies, None
    behind the base. ``drop_percent`` is the low voltage that the worst of its chair cords loses,
    None where its wire is unknown. [m, rad, V, %]"""

    id: str
    kind: str
    chairs: tuple[str, ...]
    x_m: float
    y_m: float
    angle_rad: float
    width_m: float
    depth_m: float
    height_m: float
    under: str | None
    drop_percent: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class OutletUnit:
    """An outlet unit where it lies; see ``Supply``. ``current_a`` is what its chairs take. [A]"""

    id: str
    kind: str
    chairs: tuple[str, ...]
    x_m: float
    y_m: float
    angle_rad: float
    width_m: float
    depth_m: float
    height_m: float
    under: str | None
    sockets: int
    rating_a: float
    current_a: float
