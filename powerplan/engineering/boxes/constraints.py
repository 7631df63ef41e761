"""What a box has to keep clear of: joists, no-cut areas, riser edges and obstacles."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

import shapely

from powerplan.engineering.boxes.framing import Deck, Joists, known_joists
from powerplan.engineering.boxes.outside import outside_cells
from powerplan.engineering.boxes.region import Cell, Region, Spot, cell, pieces, ticks
from powerplan.engineering.seating.frames import Outline, polygon
from powerplan.engineering.seating.parts import SweptPart
from powerplan.engineering.seating.rects import grid_rect
from powerplan.engineering.seating.zones import least_gap_for_cords_m, wide_enough
from powerplan.model.rules import RuleSet
from powerplan.model.spec import PlanSpec, Size

# Bounds of parts are taken this much larger, against rounding.
_BIT_M = 1e-6

FRAMING_RULE = "box-clears-framing"
NO_CUT_RULE = "box-clears-no-cut"
EDGE_RULE = "box-clears-riser-edge"
PLACE_RULE = "box-has-a-place"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sizes:
    """The cut-out and lid that a mark is made for, and whether they are known. [half micrometer]

    ``known`` counts those of the two that the plan gives; the others are the usual ones.
    """

    cut_width: int
    cut_depth: int
    lid_width: int
    lid_depth: int
    margin: int
    known: int

    @property
    def half_cut(self) -> Spot:
        """Half the cut-out, left to right and back to screen. [half micrometer]"""
        return (self.cut_width // 2, self.cut_depth // 2)

    @property
    def half_lid(self) -> Spot:
        """Half the lid, left to right and back to screen. [half micrometer]"""
        return (self.lid_width // 2, self.lid_depth // 2)


@dataclass(frozen=True, slots=True, kw_only=True)
class Constraint:
    """One thing a box has to clear.

    A middle may stand outside ``holes``. ``spare`` gives, for a middle, how far the cut-out (or,
    for an obstacle, the lid) is from the thing; it has to be ``limit`` at least. ``ridges`` are
    places across and along where that is greatest. [half micrometer]
    """

    rule: str
    name: str
    holes: tuple[Cell, ...]
    spare: Callable[[Spot], float]
    limit: int
    ridges: tuple[tuple[int, ...], tuple[int, ...]]

    def excludes(self, spot: Spot) -> bool:
        """True for a middle that this constraint does not allow. [half micrometer]"""
        return any(hole.surrounds(spot) for hole in self.holes)


def sizes_of(spec: PlanSpec, rules: RuleSet) -> Sizes:
    """Return the sizes that marks are made for: the plan's own, else the rule set's usual ones.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read.
    rules : RuleSet
        The numbers.
    """
    work = spec.new_work
    usual_cut_m, usual_lid_m = rules.length_m("usual_cut_out"), rules.length_m("usual_lid")
    cut = work.cut_out or Size(width_m=usual_cut_m, depth_m=usual_cut_m)
    lid = work.lid or Size(width_m=usual_lid_m, depth_m=usual_lid_m)
    return Sizes(
        cut_width=ticks(cut.width_m),
        cut_depth=ticks(cut.depth_m),
        lid_width=ticks(lid.width_m),
        lid_depth=ticks(lid.depth_m),
        margin=ticks(work.framing_margin_m),
        known=(work.cut_out is not None) + (work.lid is not None),
    )


def constraints_on(spec: PlanSpec, deck: Deck, clip: Cell, sizes: Sizes) -> tuple[Constraint, ...]:
    """Return what a box in a deck has to clear, near the floor where its middle may stand.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read.
    deck : Deck
        What the box is cut into. [half micrometer]
    clip : Cell
        The clear zone less half the lid all round. [half micrometer]
    sizes : Sizes
        The box. [half micrometer]

    Returns
    -------
    tuple of Constraint
        Joists, then the riser's own edge, other risers, no-cut areas, obstacles, and what lies past
        the walls of a room with corners. [half micrometer]
    """
    half_cut, half_lid = sizes.half_cut, sizes.half_lid
    found: list[Constraint] = []
    joists = known_joists(deck)
    if joists is not None:
        found.append(_clear_of_joists(joists, clip, half_cut, sizes))
    if deck.riser is not None:
        found.append(_inside_edge(cell(deck.riser.rect), deck.riser.id, half_cut, sizes.margin))
    for riser in spec.risers:
        if deck.riser is None or riser.id != deck.riser.id:
            name = f"the edge of riser {riser.id}"
            found.append(_outside(EDGE_RULE, name, cell(riser.rect), half_cut, sizes.margin))
    for area in spec.no_cut:
        name = f"no-cut area {area.id}"
        found.append(_outside(NO_CUT_RULE, name, cell(area.rect), half_cut, sizes.margin))
    for area in spec.obstacles:
        found.append(_outside(PLACE_RULE, area.id, cell(area.rect), half_lid, 0))
    if spec.room.walls:
        lids = clip.grown(*half_lid)
        for beyond in outside_cells(spec.room, lids):
            found.append(_outside(PLACE_RULE, "the floor past the walls", beyond, half_lid, 0))
    return tuple(found)


def clear_of_parts(
    spec: PlanSpec,
    parts: Iterable[SweptPart],
    clear: Outline,
    sizes: Sizes,
    rules: RuleSet,
) -> tuple[Constraint, ...]:
    """Return the moving parts that a box in a clear zone has to keep out of, by their bounds.

    A part may pass over a lid where its least gap is enough for a cord and for the plug.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read.
    parts : iterable of SweptPart
        What the parts of all chairs sweep. [m]
    clear : outline
        The clear zone. [m]
    sizes : Sizes
        The box. [half micrometer]
    rules : RuleSet
        The numbers.
    """
    cord_m = least_gap_for_cords_m(spec, rules)
    least_m = max(cord_m, spec.new_work.plug_height_m)
    found = []
    for part in parts:
        met = shapely.intersection(polygon(part.outline), polygon(clear))
        if met.area <= 0.0 or wide_enough(part.least_gap_m, least_m):
            continue
        left, back, right, front = (float(edge) for edge in met.bounds)
        box = grid_rect(left - _BIT_M, right + _BIT_M, back - _BIT_M, front + _BIT_M)
        name = f"the moving part {part.name}"
        found.append(_outside(PLACE_RULE, name, cell(box), sizes.half_lid, 0))
    return tuple(found)


def region_of(clip: Cell, constraints: Iterable[Constraint]) -> Region:
    """Return where a middle may stand under some constraints.

    Parameters
    ----------
    clip : Cell
        The clear zone less half the lid all round. [half micrometer]
    constraints : iterable of Constraint
        What has to be cleared. [half micrometer]
    """
    return Region(clip, tuple(hole for one in constraints for hole in one.holes))


def best_spare(clip: Cell, others: Iterable[Constraint], one: Constraint) -> float | None:
    """Return the most that a box could stand clear of one thing, the others being met.

    Parameters
    ----------
    clip : Cell
        The clear zone less half the lid all round. [half micrometer]
    others : iterable of Constraint
        What else has to be cleared. [half micrometer]
    one : Constraint
        The thing asked about. [half micrometer]

    Returns
    -------
    float or None
        None where the others leave no place at all. [half micrometer]
    """
    spots: set[Spot] = set()
    for part in pieces(region_of(clip, others)):
        xs = {part.left, part.right} | {min(max(x, part.left), part.right) for x in one.ridges[0]}
        ys = {part.back, part.front} | {min(max(y, part.back), part.front) for y in one.ridges[1]}
        spots |= {(x, y) for x in xs for y in ys}
    return max(map(one.spare, spots), default=None)


def _clear_of_joists(joists: Joists, clip: Cell, half_cut: Spot, sizes: Sizes) -> Constraint:
    reach = half_cut[0 if joists.across else 1] + joists.width // 2
    strips = joists.strips(clip, reach + sizes.margin)
    low, high = (clip.left, clip.right) if joists.across else (clip.back, clip.front)
    middle = joists.first + joists.spacing // 2
    first = (low - middle) // joists.spacing
    last = -(-(high - middle) // joists.spacing)
    between = tuple(middle + number * joists.spacing for number in range(first, last + 1))
    return Constraint(
        rule=FRAMING_RULE,
        name="joist",
        holes=strips,
        spare=lambda spot: joists.off(spot) - reach,
        limit=sizes.margin,
        ridges=(between, ()) if joists.across else ((), between),
    )


def _outside(rule: str, name: str, thing: Cell, half: Spot, margin: int) -> Constraint:
    near = thing.grown(*half)

    def spare(spot: Spot) -> float:
        aside = max(near.left - spot[0], spot[0] - near.right)
        ahead = max(near.back - spot[1], spot[1] - near.front)
        if aside > 0 and ahead > 0:
            return float((aside**2 + ahead**2) ** 0.5)
        return max(aside, ahead)

    return Constraint(
        rule=rule,
        name=name,
        holes=(near.grown(margin, margin),),
        spare=spare,
        limit=margin,
        ridges=((), ()),
    )


def _inside_edge(deck: Cell, riser: str, half: Spot, margin: int) -> Constraint:
    """Keep a box's cut-out inside its own riser's edges: all around is a hole."""
    inner = deck.grown(-half[0], -half[1])
    kept = inner.grown(-margin, -margin)
    far = max(map(abs, deck)) + ticks(1000.0)
    everywhere = Cell(-far, far, -far, far)
    holes: tuple[Cell, ...] = (everywhere,)
    if not kept.empty:
        holes = (
            everywhere._replace(right=kept.left),
            everywhere._replace(left=kept.right),
            everywhere._replace(front=kept.back),
            everywhere._replace(back=kept.front),
        )
    return Constraint(
        rule=EDGE_RULE,
        name=f"the edge of riser {riser}",
        holes=holes,
        spare=lambda spot: min(
            spot[0] - inner.left,
            inner.right - spot[0],
            spot[1] - inner.back,
            inner.front - spot[1],
        ),
        limit=margin,
        ridges=(((deck.left + deck.right) // 2,), ((deck.back + deck.front) // 2,)),
    )
