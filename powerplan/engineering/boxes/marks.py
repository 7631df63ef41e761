"""Where a floor box may sit under a chair, and where it is marked."""

from __future__ import annotations

from dataclasses import dataclass

from powerplan.engineering.boxes import verdicts
from powerplan.engineering.boxes.constraints import (
    Constraint,
    Sizes,
    clear_of_parts,
    constraints_on,
    region_of,
    sizes_of,
)
from powerplan.engineering.boxes.framing import Deck, deck_under, still_to_find
from powerplan.engineering.boxes.moved import fine_step, moved_because, tape_step
from powerplan.engineering.boxes.region import (
    TICKS_PER_UM,
    Cell,
    Spot,
    cell,
    largest_around,
    nearest,
    pieces,
    place,
)
from powerplan.engineering.boxes.second import bands_of, free_play, two_marks
from powerplan.engineering.boxes.slanted import lid_inside
from powerplan.engineering.seating.frames import Outline, bounds
from powerplan.engineering.seating.poses import SeatedChair
from powerplan.engineering.seating.zones import CLEAR, Zones
from powerplan.model.findings import Finding, hold
from powerplan.model.geometry import Point
from powerplan.model.plan import Drift
from powerplan.model.rules import RuleSet
from powerplan.model.spec import PlanSpec

_NO_DRIFT = Drift(left_m=0.0, right_m=0.0, back_m=0.0, screen_m=0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxSpot:
    """A place for a box: ``mark`` is where its middle goes, ``ideal`` the clear zone's middle.

    ``may_sit`` are rectangles on which the middle may stand; they may touch, and one may be as thin
    as a line. ``drift`` is the largest rectangle around the mark that is true all at once.
    ``provisional``: not to be cut before what the findings name is known. ``second_mark``: with
    framing unknown, one of the two marks is clear wherever the joists lie. ``deck`` is the id of
    the riser it is cut into. [m]
    """

    chair: str
    mark: Point
    ideal: Point
    may_sit: tuple[tuple[Point, ...], ...]
    drift: Drift
    moved_because: str
    provisional: bool
    second_mark: Point | None
    deck: str | None
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class NoSpot:
    """No place for a box under a chair; the findings say what empties it."""

    chair: str
    findings: tuple[Finding, ...]


def mark_box(spec: PlanSpec, chair: SeatedChair, zones: Zones, rules: RuleSet) -> BoxSpot | NoSpot:
    """Return where a floor box under a chair goes, or why there is no place for one.

    Its lid lies in the clear zone and off obstacles; its cut-out keeps the margin from joists,
    no-cut areas and riser edges; a box under a chair on a riser is cut into the riser's deck. The
    mark is the point of the tape's grid, measured from the back-left corner, that is nearest the
    middle of the clear zone.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read.
    chair : SeatedChair
        The chair. [m]
    zones : Zones
        The room's openings, its clear zones among them. [m]
    rules : RuleSet
        The rules and numbers.

    Returns
    -------
    BoxSpot or NoSpot
        With every box rule that could be held, met ones too. [m]
    """
    subject = f"box {chair.id}"
    sizes = sizes_of(spec, rules)
    clear = _clear_zone(chair, zones) if chair.kind.measured else _guess(chair)
    if clear is None or chair.kind.clear is None:
        note = (
            f"Nobody measured a clear zone under a {chair.kind.id}, so nothing under it is known "
            "to be clear: measure it, or feed the chair from a wall."
        )
        if chair.kind.clear is not None:
            note = (
                "The clear zone is too low for a cord, or moving parts sweep all of it, so no box "
                "can stand in it."
            )
        return NoSpot(
            chair=chair.id,
            findings=(hold(rules.rules["box-has-a-place"], subject, 0, 1, note=note),),
        )
    general = (
        verdicts.plug_height(
            spec, subject, chair.kind.clear.height_m if chair.kind.measured else None, rules
        ),
        verdicts.size_known(spec, subject, sizes, rules),
    )
    clip, slanted = lid_inside(clear, spec.room, sizes)
    if clip.empty:
        too_large = verdicts.lid_too_large(spec, subject, sizes, rules)
        return NoSpot(chair=chair.id, findings=(too_large, *general))
    deck = deck_under(spec, chair)
    constraints = (
        *slanted,
        *constraints_on(spec, deck, clip, sizes),
        *clear_of_parts(spec, zones.parts, clear, sizes, rules),
    )
    parts = pieces(region_of(clip, constraints))
    if not parts:
        emptied = verdicts.no_place(spec, subject, clip, constraints, rules)
        return NoSpot(chair=chair.id, findings=(*emptied, *general))
    if general[0].stops:
        found = verdicts.has_place(subject, parts, rules, measured=chair.kind.measured)
        return NoSpot(chair=chair.id, findings=(found, *general))
    ideal = _middle(cell(bounds((clear,))))
    return _spot(spec, chair, deck, sizes, ideal, clip, constraints, general, rules)


def _spot(
    spec: PlanSpec,
    chair: SeatedChair,
    deck: Deck,
    sizes: Sizes,
    ideal: Spot,
    clip: Cell,
    constraints: tuple[Constraint, ...],
    general: tuple[Finding, ...],
    rules: RuleSet,
) -> BoxSpot:
    """Mark a box where there is a place for one."""
    subject, units = f"box {chair.id}", spec.project.units
    region = region_of(clip, constraints)
    parts = pieces(region)
    steps = (tape_step(units), fine_step(units), TICKS_PER_UM, 1)
    mark = next(m for m in (nearest(parts, ideal, step) for step in steps) if m is not None)
    unknown = bool(still_to_find(deck))
    second = None
    bands = bands_of(deck, sizes) if unknown else None
    pair = None if bands is None else two_marks(parts, ideal, bands, (steps[0], steps[2]))
    roaming = region
    if pair is not None and bands is not None:
        mark, second = pair
        roaming = region._replace(clip=free_play(clip, mark, second, bands))
    held = verdicts.at_mark(subject, mark, deck, constraints, rules)
    if unknown:
        held = (
            verdicts.framing_unknown(deck, subject, second is not None, units, rules),
            *held,
        )
    return BoxSpot(
        chair=chair.id,
        mark=place(mark),
        ideal=place(ideal),
        may_sit=tuple(_outline(part) for part in parts),
        drift=_drift(largest_around(roaming, mark), mark) if chair.kind.measured else _NO_DRIFT,
        moved_because=moved_because(mark, ideal, clip, constraints, second is not None, units),
        provisional=unknown or any(finding.hangs for finding in general),
        second_mark=None if second is None else place(second),
        deck=None if deck.riser is None else deck.riser.id,
        findings=(
            verdicts.has_place(subject, parts, rules, measured=chair.kind.measured),
            *held,
            *general,
        ),
    )


def _clear_zone(chair: SeatedChair, zones: Zones) -> Outline | None:
    """The chair's own clear zone among the room's openings, in the room. [m]"""
    for opening in zones.openings:
        if opening.chair == chair.id and opening.kind == CLEAR:
            return opening.frame.outline(opening.rect)
    return None


def _guess(chair: SeatedChair) -> Outline | None:
    """The middle of the seat of a chair that is not measured, in the room. [m]"""
    return None if chair.clear is None else chair.frame.outline(chair.clear)


def _middle(one: Cell) -> Spot:
    return ((one.left + one.right) // 2, (one.back + one.front) // 2)


def _outline(part: Cell) -> tuple[Point, ...]:
    """Four corners, counter-clockwise from the back left. [m]"""
    corners = (
        (part.left, part.back),
        (part.right, part.back),
        (part.right, part.front),
        (part.left, part.front),
    )
    return tuple(place(corner) for corner in corners)


def _drift(free: Cell, mark: Spot) -> Drift:
    """How far the middle may move each way, rounded down to whole micrometers. [m]"""

    def down(length: int) -> float:
        return length // TICKS_PER_UM / 1e6

    return Drift(
        left_m=down(mark[0] - free.left),
        right_m=down(free.right - mark[0]),
        back_m=down(mark[1] - free.back),
        screen_m=down(free.front - mark[1]),
    )
