"""The plan record: one frozen ``Plan``, of which every sheet and format is a view.

Lengths are meters rounded to one micrometer, currents amperes rounded to one microampere, so that
reading back what was written gives an equal ``Plan``. Keys are added over time, never renamed. A
field whose name ends in an underscore is written without it.
"""

from __future__ import annotations

from dataclasses import dataclass

from powerplan.model.findings import Finding, Standing
from powerplan.model.geometry import Point
from powerplan.model.loose import OutletUnit, Supply
from powerplan.model.spec import PlanSpec

RECORD_VERSION = 1

CAUTION = (
    "This is a planning aid, not a design by a licensed person. Local code and the authority "
    "having jurisdiction govern. A licensed electrician does and confirms all fixed wiring. "
    "Switch off and prove dead before work. Scan before cutting. The makers' listed instructions "
    "come first. "
    "Before use, recline each chair loaded, both ways, watching every cord."
)

EXISTING = "existing outlets"
EXTENSIONS = "existing outlets with extension cords"
NEW_OUTLETS = "new outlets on existing circuits"
NEW_CIRCUITS = "new circuits"
NOT_POSSIBLE = "not possible as drawn"
LADDER = (EXISTING, EXTENSIONS, NEW_OUTLETS, NEW_CIRCUITS)


@dataclass(frozen=True, slots=True, kw_only=True)
class NumberUsed:
    """One number of the rule set, as used."""

    name: str
    value: float
    unit: str
    source: str
    standing: Standing


@dataclass(frozen=True, slots=True, kw_only=True)
class RulesUsed:
    """Which rule set, and every number it lent."""

    id: str
    edition: str
    resistance_basis: str
    numbers: tuple[NumberUsed, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step of the ladder, solved. ``findings`` are why it fails, or what it still hangs on.

    ``sentence`` says in plain words why it works or fails. Counts and ``cord_m`` (all routed cord)
    are None where no way was found. [m]
    """

    step: str
    works: bool
    allowed: bool
    sentence: str
    new_circuits: int | None
    boxes: int | None
    extensions: int | None
    cord_m: float | None
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Condition:
    """Something still to be measured or found, on which the verdict hangs.

    ``kind`` is load, breaker, wire, laying (of a cable whose wire is known), neutral, aluminum,
    fastening, framing, cut-out, panel, cord, back (that reclines over what lies on the floor) or
    other. For a load: the most that may be on the circuit beside what is known, if it runs for
    hours (the stricter), or now and then. [A]
    """

    kind: str
    subject: str
    circuit: str | None
    if_continuous_a: float | None
    if_not_continuous_a: float | None
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Spare:
    """What a circuit has left, and how many more of a kind of chair it would carry by load alone.
    None: not known. [A]"""

    circuit: str
    chair: str
    spare_a: float | None
    more_chairs: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Flip:
    """The value at which a step's answer turns, where all-continuous is only a default. [A]"""

    step: str
    chair: str
    continuous_a: float
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Decision:
    """The answer to the first question. ``exit_code`` is what the program returns."""

    verdict: str
    sentence: str
    exit_code: int
    steps: tuple[Step, ...]
    depends_on: tuple[Condition, ...]
    spare: tuple[Spare, ...]
    flips: tuple[Flip, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedChair:
    """A chair where it stands, upright: (x, y) is the rearmost point of its headrest. ``fed_by`` is
    an outlet, a box, or the chair before it in a chain. None: not fed. [m, rad, A, V, %]"""

    id: str
    row: str
    seat: int
    x_m: float
    y_m: float
    angle_rad: float
    input_a: float
    continuous_a: float
    circuit: str | None
    fed_by: str | None
    volts: float | None
    drop_percent: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Drift:
    """How far a box's middle may move; any move within all four holds at once. [m]"""

    left_m: float
    right_m: float
    back_m: float
    screen_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """A new outlet: a floor box under a chair, or one on the wall behind it. ``kind`` is
    "floor box" or "wall outlet". ``ideal_m`` is the clear zone's middle; ``may_sit_m`` the floor on
    which its middle may stand (empty for a wall outlet); ``moved_because`` why it is not at the
    ideal. ``provisional``: not to be cut before what is named in the findings is known;
    ``second_mark_m``: of two marks one is clear wherever the joists lie. ``deck`` names the riser
    it is cut into. ``wired_from`` is "panel", an outlet, another box, or "circuit 7" where
    that circuit has no outlet on the plan, and ``wiring_m`` the estimated length from there, None
    where unknown. [m, A]"""

    id: str
    kind: str
    x_m: float
    y_m: float
    height_m: float
    under: str
    circuit: str
    sockets: int
    rating_a: float
    ideal_m: Point
    may_sit_m: tuple[tuple[Point, ...], ...]
    drift: Drift
    moved_because: str
    provisional: bool
    second_mark_m: Point | None
    deck: str | None
    wired_from: str
    wiring_m: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cord:
    """A cord as it lies. ``kind`` is own, link or extension; wall cord (to a supply on the floor),
    chair cord (from it to its chair), or unit cord (to an outlet unit). ``from_`` is an outlet, a
    box, a chair, a supply, an outlet unit, or a joint ("W1+A3", where an extension ends and a lead
    begins). ``length_m`` is what lies on the floor and up steps and walls (``path_m`` plus
    ``rises_m``); ``needed_m`` what the cord must measure at least; ``bought_m`` what it measures;
    ``longer`` tells that it is a longer one from its maker, bought in place of the usual.
    ``park_m`` is the middle of the flat oval in which spare cord is parked, and ``coil_m`` its
    size, left to right and back to screen; None where little is to spare, or no room for it.
    ``tail_m`` is how the cord goes from its way to that oval, and back the same; empty where the
    oval lies on the way itself.
    ``clearance_m`` is the least distance kept from pinch zones and obstacles. [m, A]"""

    id: str
    kind: str
    from_: str
    to: str
    path_m: tuple[Point, ...]
    rises_m: float
    length_m: float
    needed_m: float
    bought_m: float
    wire: str | None
    current_a: float
    open_floor_m: float
    clearance_m: float
    park_m: Point | None
    longer: bool = False
    coil_m: tuple[float, float] | None = None
    tail_m: tuple[Point, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class CircuitUse:
    """A circuit that is there or is needed. ``continuous_a`` and ``other_a`` are all that is known
    to be on it, chairs included; ``load_known`` is False where what was on it is unknown, and then
    ``asks_a`` is the chairs' part and what is known beside it. ``asks_a`` is factor x continuous +
    other. ``home_run_most_m`` is the longest home run in its wire with which the farthest chair
    keeps within the advised drop, 0 where none does and None where it is not known. [A, m, %]"""

    id: str
    new: bool
    breaker_a: float | None
    wire: str | None
    home_run_m: float | None
    continuous_a: float
    other_a: float
    load_known: bool
    asks_a: float
    may_give_a: float | None
    drop_percent: float | None
    home_run_most_m: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Zone:
    """A piece of floor of one chair: ``kind`` is pinch, clear, rear strip or arm strip. Outlines
    are simple, without holes. An arm strip belongs to the chair on its left. [m]"""

    chair: str
    kind: str
    outline_m: tuple[Point, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundAndLeast:
    """A count or length found, and the least it could be. [count or m]"""

    found: float
    at_least: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Bounds:
    """How good the choice is; ``proved`` when no better one exists over the listed candidates."""

    new_circuits: FoundAndLeast
    boxes: FoundAndLeast
    cord_m: FoundAndLeast
    proved: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """Everything a reader is told. See the module's first lines."""

    record: int
    program: str
    project: str
    rules: RulesUsed
    caution: str
    plan_file_sha256: str
    spec: PlanSpec
    decision: Decision
    chairs: tuple[PlacedChair, ...]
    boxes: tuple[Box, ...]
    cords: tuple[Cord, ...]
    circuits: tuple[CircuitUse, ...]
    zones: tuple[Zone, ...]
    findings: tuple[Finding, ...]
    bounds: Bounds | None
    supplies: tuple[Supply, ...] = ()
    outlet_units: tuple[OutletUnit, ...] = ()
