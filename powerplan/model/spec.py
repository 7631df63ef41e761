"""The plan as read: what stands in the room, in SI units, with defaults filled in.

Lengths are meters on a grid of one micrometer, in the room frame (see ``geometry``). Currents are
exact fractions of an ampere whose denominators do not exceed one million. ``None`` means unknown
(or, for a whole feature such as a chain, that there is none); unknown is never zero. A field with a
default came after the first records: a record without it is read as if it had the default.
"""

from __future__ import annotations

from dataclasses import dataclass

from powerplan.model.loose import OutletUnitKind, SupplyKind
from powerplan.model.places import (
    Area,
    Door,
    Framing,
    Riser,
    Room,
    TapeReading,
    Wall,
    WallLine,
)
from powerplan.model.seats import (
    Battery,
    Chain,
    ChairKind,
    ClearZone,
    Curve,
    MovingPart,
    Piece,
    Row,
    TableKind,
)
from powerplan.model.supplies import Circuit, Cords, Load, NewRating, NewWork, Outlet, Size

__all__ = [
    "Area",
    "Assumption",
    "Battery",
    "Chain",
    "ChairKind",
    "Circuit",
    "ClearZone",
    "Cords",
    "Curve",
    "Door",
    "FileRead",
    "Framing",
    "Load",
    "MovingPart",
    "NewRating",
    "NewWork",
    "Outlet",
    "OutletUnitKind",
    "Piece",
    "PlanSpec",
    "Project",
    "Riser",
    "Room",
    "Row",
    "Size",
    "SupplyKind",
    "TableKind",
    "TapeReading",
    "Wall",
    "WallLine",
]


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
class Assumption:
    """A default that was filled in, said so that a reader can refuse it."""

    subject: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FileRead:
    """A file that was read beside the plan file, and the SHA-256 of its bytes."""

    name: str
    sha256: str


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
    tables: tuple[TableKind, ...] = ()
    readings: tuple[TapeReading, ...] = ()
    files: tuple[FileRead, ...] = ()
    supplies: tuple[SupplyKind, ...] = ()
    outlet_units: tuple[OutletUnitKind, ...] = ()

    def chair(self, name: str) -> ChairKind:
        """Return the kind of that name."""
        return next(kind for kind in self.chairs if kind.id == name)

    def supply(self, name: str) -> SupplyKind:
        """Return the kind of supply of that name."""
        return next(kind for kind in self.supplies if kind.id == name)

    def outlet_unit(self, name: str) -> OutletUnitKind:
        """Return the kind of outlet unit of that name."""
        return next(kind for kind in self.outlet_units if kind.id == name)

    def table(self, name: str) -> TableKind:
        """Return the console or table of that name."""
        return next(kind for kind in self.tables if kind.id == name)

    def row(self, name: str) -> Row:
        """Return the row of that name."""
        return next(row for row in self.rows if row.id == name)

    def circuit(self, name: str) -> Circuit:
        """Return the existing circuit of that name."""
        return next(circuit for circuit in self.circuits if circuit.id == name)

    def outlet(self, name: str) -> Outlet:
        """Return the existing outlet of that name."""
        return next(outlet for outlet in self.outlets if outlet.id == name)
