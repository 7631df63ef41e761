"""The tables of a plan file as they are written, key by key.

A key that is not here is not known. Numbers are exact fractions in meters, amperes and watts; None
is "left out" or, where the key allows it, "unknown".
"""

from __future__ import annotations

from typing import Annotated, ClassVar

from pydantic import BaseModel, ConfigDict, Field

from powerplan.inputs import fields as f
from powerplan.inputs import fields_loose as fl
from powerplan.inputs import row_fields as rf
from powerplan.inputs.fields import OR_UNKNOWN, needed
from powerplan.inputs.on_it import AlreadyOnIt


class Written(BaseModel):
    """One table. ``inner`` names the models of the tables inside it."""

    model_config = ConfigDict(extra="forbid", frozen=True, defer_build=True)
    inner: ClassVar[dict[str, type[Written]]] = {}


class Project(Written):
    """[project]"""

    name: f.Text | None = None
    job: f.Job | None = None
    place: f.PlaceOrUnknown = None
    rules: f.Text | None = None
    units: f.Units | None = None
    bare_numbers: f.BareNumbers | None = None


class Corner(Written):
    """[[room.corner]]"""

    from_left: f.CornerPlace = Field(description='from the leftmost wall, such as "12 ft"')
    from_back: f.CornerPlace = Field(description='from the rearmost wall, such as "4 ft"')
    wall: f.Text | None = None


class Room(Written):
    """[room]; width and depth, or corners."""

    inner: ClassVar[dict[str, type[Written]]] = {"corner": Corner}

    width: f.RoomSide | None = None
    depth: f.RoomSide | None = None
    corner: Annotated[tuple[Corner, ...] | None, f.CornerList] = None
    measured_to: f.Face | None = None
    print_to: f.Face | None = None
    build_up: dict[str, f.BuildUp] | None = None
    left_wall: f.Text | None = None
    right_wall: f.Text | None = None
    back_wall: f.Text | None = None
    screen_wall: f.Text | None = None


class Placed(Written):
    """A table of something that stands at a place in the room."""

    from_left: f.Away | None = None
    from_right: f.Away | None = None
    from_back: f.Away | None = None
    from_screen: f.Away | None = None


class Door(Placed):
    """[door.NAME]"""

    wall: f.Text = needed("the wall it is in: left, right, back, screen, or one that you named")
    from_corner: f.Away | None = None
    width: f.DoorWidth = needed('the width of its opening, such as "32 in"')
    swings: f.Swings | None = None


class Floorspace(Placed):
    """[obstacle.NAME], [walkway.NAME] and [floor.no_cut.NAME]"""

    width: f.Extent = needed('left to right, such as "12 in"')
    depth: f.Extent = needed('back to screen, such as "12 in"')


class Floor(Written):
    """[floor]"""

    build: f.Build = None
    joists_run: f.JoistsRun = None
    spacing: f.Spacing = None
    first_joist: f.FirstJoist = None
    joist_width: f.JoistWidth = None


class Riser(Floorspace):
    """[riser.NAME]"""

    height: f.Step = needed('floor to the top of its deck, such as "10 in"')
    build: f.Build = None
    joists_run: f.JoistsRun = None
    spacing: f.Spacing = None
    first_joist: f.FirstJoist = None
    joist_width: f.JoistWidth = None


class Clear(Written):
    """The table ``clear`` of a chair."""

    from_: f.Ahead = Field(alias="from", description='from the headrest on, such as "9 in"')
    to: f.Ahead = Field(description='how far from the headrest it ends, such as "21 in"')
    width: f.ClearSide = Field(description='left to right, such as "14 in"')
    height: f.ClearHeight = Field(description='how high it stays clear, such as "3 in"')


class LeadFrom(Written):
    """The table ``lead_from`` of a chair."""

    right: f.Sideways = Field(description='right of the middle of the chair, such as "0 in"')
    forward: f.Ahead = Field(description='ahead of the back of the headrest, such as "10 in"')


class Chain(Written):
    """The table ``chain`` of a chair."""

    current: f.Rating = Field(description='the most its maker lets through it, such as "8 A"')
    chairs: f.ChainChairs = Field(description="how many chairs its maker allows, such as 4")
    link: f.CordLength = Field(description='the cord to the next chair, such as "4 ft"')
    wire: f.WireOrUnknown = None


class Part(Written):
    """[chair.NAME.part.NAME]"""

    inner: ClassVar[dict[str, type[Written]]] = {"pivot": LeadFrom}

    positions: tuple[rf.PartPosition, ...] = needed(
        'where it is in turn, such as [{ from = "30 in", to = "39 in", left = "9 in", '
        'right = "9 in" }]'
    )
    travel: rf.Travel | None = None
    pivot: LeadFrom | None = None
    least_gap: f.Gap = None


class Battery(Written):
    """The table ``battery`` of a chair."""

    charger_input: f.Input = Field(description='the charger\'s INPUT line, such as "0.5 A"')
    charged: fl.Charged = Field(
        description='"in place" where the charger stays plugged in at the chair, or "elsewhere"'
    )


class Chair(Written):
    """[chair.NAME]"""

    inner: ClassVar[dict[str, type[Written]]] = {
        "clear": Clear,
        "lead_from": LeadFrom,
        "chain": Chain,
        "battery": Battery,
    }

    seat_width: f.SeatWidth = needed('between the arms, such as "23 in"')
    arm_width: f.ArmWidth = needed('one arm, such as "7 in"')
    arms: rf.Arms | None = None
    powered: f.Flag | None = None
    depth: f.ChairDepth = needed('headrest to front of base, upright, such as "39 in"')
    rear_of_base: f.Ahead = needed('headrest to the rear of the base, such as "4 in"')
    back_travel: f.Ahead = needed('how far the headrest moves back, such as "5 in"')
    reclined_reach: f.ChairDepth = needed(
        'upright headrest to the end of the footrest, such as "66 in"'
    )
    clear: Annotated[Clear | None, OR_UNKNOWN] = None
    arm_gap: f.Gap = None
    rear_gap: f.Gap = None
    measured: f.Flag | None = None
    input: f.Input | None = None
    power: f.Power | None = None
    power_factor: f.PowerFactor | None = None
    continuous: f.ContinuousOrUnknown = None
    supply: f.Text | None = None
    battery: Battery | None = None
    lead: f.CordLength | None = None
    lead_wire: f.WireOrUnknown = None
    longer_cords: tuple[f.CordLength, ...] | None = None
    coupler: f.RatingOrUnknown = None
    lead_from: LeadFrom | None = None
    chain: Chain | None = None


class SheetChair(Written):
    """What a [chair.NAME] with ``measured = false`` or ``like`` says of its size."""

    like: f.Text | None = None
    width: f.SeatWidth | None = None
    row_widths: tuple[f.Extent, ...] | None = None
    arm_width: f.ArmWidth | None = None
    depth: f.ChairDepth | None = None
    depth_reclined: f.ChairDepth | None = None
    wall_clearance: f.Ahead | None = None


class StandingTable(Written):
    """[table.NAME]: a console or table that stands in a row."""

    width: f.ArmWidth = needed('left to right, such as "12 in"')
    rear: f.Ahead = needed('line of the headrests to its rear, such as "4 in"')
    depth: f.ChairDepth = needed('rear to front, such as "30 in"')
    under: f.Gap = None
    arms_beside: f.Flag | None = None


class RowCurve(Written):
    """The table ``curve`` of a row."""

    radius: rf.Radius = Field(
        description='middle of the arc to where chairs touch, such as "14 ft"'
    )
    touch: rf.Touch = Field(description='where neighbors touch: "front" or "back"')


class Repeat(Written):
    """The table ``repeat`` of a row."""

    as_: tuple[f.Text, ...] = Field(alias="as", description='names of new rows, such as ["B"]')
    by: rf.Pitch = Field(description='from headrests to headrests, such as "64 in"')


class Row(Written):
    """[row.NAME]"""

    inner: ClassVar[dict[str, type[Written]]] = {"curve": RowCurve, "repeat": Repeat}

    chair: f.Text | None = None
    seats: f.Seats | None = None
    made_of: tuple[rf.RowThing, ...] | None = None
    headrest_to_wall: f.Away | None = None
    ahead_of: f.Text | None = None
    by: rf.Pitch | None = None
    center_from_left: f.Away | None = None
    turned: rf.Turned | None = None
    curve: RowCurve | None = None
    repeat: Repeat | None = None
    no_arm_between: tuple[f.Pair, ...] | None = None
    arm_widths: tuple[f.ArmWidth, ...] | None = None
    shared_supply: tuple[f.Pair, ...] | None = None
    fastened: f.FlagOrUnknown = None


class TapeReading(Placed):
    """[reading.NAME]: two places of the floor, and what the tape read between them."""

    to_left: f.Away | None = None
    to_right: f.Away | None = None
    to_back: f.Away | None = None
    to_screen: f.Away | None = None
    between: tuple[f.Text, ...] | None = None
    reads: f.Extent = needed('what the tape read, such as "24 ft 9 in"')


class Circuit(Written):
    """[circuit.NAME]"""

    breaker: f.RatingOrUnknown = None
    wire: f.WireOrUnknown = None
    home_run: f.HomeRun = None
    already_on_it: AlreadyOnIt = None
    shared_neutral: f.FlagOrUnknown = None
    switched: f.FlagOrUnknown = None
    ground: f.FlagOrUnknown = None
    conductor: f.Conductor = None
    gfci: f.FlagOrUnknown = None
    afci: f.FlagOrUnknown = None
    first_outlet: f.TextOrUnknown = None


class Outlet(Placed):
    """[outlet.NAME]"""

    circuit: f.Text = needed("the name of a [circuit.NAME]")
    wall: f.Text | None = None
    from_corner: f.Away | None = None
    height: f.OutletHeight | None = None
    sockets: f.Sockets = needed("how many plugs it takes, such as 2")
    free: f.FreeSockets = needed("how many of its sockets are free, such as 1")
    rating: f.Rating | None = None
    switched: f.FlagOrUnknown = None
    ground: f.FlagOrUnknown = None
    gfci: f.FlagOrUnknown = None


class BoxSize(Written):
    """The tables ``cut_out`` and ``lid`` of new work."""

    width: f.BoxSide = Field(description='left to right, such as "4 in"')
    depth: f.BoxSide = Field(description='back to screen, such as "4 in"')


class NewWork(Written):
    """[new_work]"""

    inner: ClassVar[dict[str, type[Written]]] = {"cut_out": BoxSize, "lid": BoxSize}

    floor_boxes: f.Flag | None = None
    wall_outlets: f.Flag | None = None
    circuits: f.PanelSpacesOrUnknown = None
    breaker: f.Ratings = None
    wire: f.Wires = None
    home_run: f.HomeRun = None
    sockets_per_box: f.Sockets | None = None
    socket_rating: f.Ratings = None
    cut_out: Annotated[BoxSize | None, OR_UNKNOWN] = None
    lid: Annotated[BoxSize | None, OR_UNKNOWN] = None
    plug_height: f.Small | None = None
    framing_margin: f.Small | None = None


class Cords(Written):
    """[cords]"""

    lengths: tuple[f.CordLength, ...] | None = None
    wire: f.WireOrUnknown = None
    diameter: f.CordDiameter | None = None
    extensions: f.Extensions | None = None
    open_floor: f.Away | None = None
    outlet_unit: f.Text | None = None
