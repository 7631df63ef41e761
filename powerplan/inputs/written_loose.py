"""The tables of a plan file about what lies loose on the floor, as they are written."""

from __future__ import annotations

from typing import ClassVar

from pydantic import Field

from powerplan.inputs import fields as f
from powerplan.inputs import fields_loose as fl
from powerplan.inputs.fields import needed
from powerplan.inputs.written import Written


class LooseSize(Written):
    """The table ``size`` of a supply or an outlet unit."""

    width: f.LooseSide = Field(description='along the row, such as "7 in"')
    depth: f.LooseSide = Field(description='across it, such as "3 in"')
    height: f.LooseSide = Field(description='as it lies on the floor, such as "2 in"')


class LooseCord(Written):
    """The table ``wall_cord`` of a supply, and ``cord`` of an outlet unit."""

    length: f.CordLength = Field(description='plug to plug, such as "6 ft"')
    wire: f.WireOrUnknown = None


class ChairCord(LooseCord):
    """The table ``chair_cord`` of a supply. ``resistance`` is of the whole cord, out and back."""

    resistance: fl.CordOhm = None


class Supply(Written):
    """[supply.NAME]"""

    inner: ClassVar[dict[str, type[Written]]] = {
        "size": LooseSize,
        "wall_cord": LooseCord,
        "chair_cord": ChairCord,
    }

    size: LooseSize = needed(
        'such as { width = "7 in", depth = "3 in", height = "2 in" }, as it lies on the floor'
    )
    wall_cord: LooseCord = needed(
        'the cord from the wall to it, such as { length = "6 ft", wire = "18 AWG" }'
    )
    longer_cords: tuple[f.CordLength, ...] | None = None
    chair_cord: ChairCord = needed(
        'the cord from it to the chair, such as { length = "5 ft", wire = "18 AWG" }'
    )
    output: fl.OutputVolts = needed('volts on the OUTPUT line of its label, such as "29 V"')
    output_current: fl.OutputAmps = needed('amperes on the OUTPUT line of its label, such as "2 A"')
    input: f.Input | None = None
    power: f.Power | None = None
    power_factor: f.PowerFactor | None = None
    continuous: f.ContinuousOrUnknown = None
    feeds: fl.SeatsFed | None = None


class OutletUnit(Written):
    """[outlet_unit.NAME]"""

    inner: ClassVar[dict[str, type[Written]]] = {"size": LooseSize, "cord": LooseCord}

    size: LooseSize = needed(
        'such as { width = "12 in", depth = "3 in", height = "2 in" }, as it lies on the floor'
    )
    sockets: f.Sockets = needed("how many plugs it takes, such as 4")
    rating: f.Rating = needed('the amperes on its label, such as "12 A"')
    cord: LooseCord = needed('its own cord, such as { length = "6 ft", wire = "14 AWG" }')
    listed: f.FlagOrUnknown = None
