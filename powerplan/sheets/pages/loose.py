"""Where the supplies and outlet units lie that stand on no wall and in no chair."""

from __future__ import annotations

from powerplan.model.lengths import joined, micrometers
from powerplan.model.loose import OutletUnit, Supply
from powerplan.model.plan import Plan
from powerplan.model.spec import Wall
from powerplan.sheets.levels import crosses_a_step
from powerplan.sheets.off_walls import from_back, from_left
from powerplan.sheets.pages.print_places import place_words
from powerplan.sheets.pages.print_told import Places
from powerplan.sheets.parts import Part, Say, Table
from powerplan.sheets.words import from_wall

Loose = Supply | OutletUnit
"""What lies on the floor on its own and feeds chairs."""

_UNDER_BACK = "supply-under-back"
_HOW = (
    "Each lies flat on the bare floor, its cords tied to the fixed frame of its own chair{}; never "
    "under a mechanism, never covered, never on carpet that is folded over it."
)
_SHARED = " (where it feeds more than one, of {})"
_WARM = " Supplies get warm."
_BACKED = (
    " Where a back reclines over one, nobody has said how high it stays: the seller measures "
    "that beforehand, on a chair of that kind fed from any outlet. As the second check the "
    "installers measure it, with the chair reclined from its finished outlet and the thing set "
    "aside again: set down so that its cords can be laid, it is out of there before the power is "
    "on, and goes back only then."
)
_PLUGS = " Every plug in an outlet unit is pushed home, and nothing else is plugged in there."


def _how(plan: Plan) -> str:
    """How they lie, and what is said of each sort."""
    things: tuple[Loose, ...] = (*plan.supplies, *plan.outlet_units)
    first = [f"{one.chairs[0]} for {one.id}" for one in things if len(one.chairs) > 1]
    return "".join(
        (
            _HOW.format(_SHARED.format(joined(first)) if first else ""),
            _WARM if plan.supplies else "",
            _PLUGS if plan.outlet_units else "",
            _BACKED if under_backs(plan) else "",
        )
    )


def under_backs(plan: Plan) -> tuple[Loose, ...]:
    """Return what lies where a back reclines over it, at a height that nobody has said.

    Parameters
    ----------
    plan : Plan
        The plan.
    """
    names = {one.subject for one in plan.findings if one.rule == _UNDER_BACK and one.hangs}
    things: tuple[Loose, ...] = (*plan.supplies, *plan.outlet_units)
    return tuple(one for one in things if one.id in names)


def where_things_lie(plan: Plan, places: Places | None = None) -> list[Part]:
    """Return where each supply and outlet unit lies; nothing where there is none.

    Parameters
    ----------
    plan : Plan
        The plan.
    places : Places, optional
        Where places are told to be, where the rows are chalked: each is then told from its own row
        too, and from walls only where no step lies between.
    """
    things: list[Loose] = [*plan.supplies, *plan.outlet_units]
    if not things:
        return []
    units, room = plan.spec.project.units, plan.spec.room
    stepped = places is not None and crosses_a_step(plan)

    def walls(thing: Supply | OutletUnit) -> list[str]:
        return [from_left(room, thing.x_m, units), from_back(room, thing.y_m, units)]

    rows = tuple(
        (
            thing.id,
            joined(thing.chairs),
            *([] if stepped else walls(thing)),
            *([] if places is None else [_off_row(thing, places)]),
            _lies(thing),
        )
        for thing in things
    )
    head = (
        *("what", "feeds"),
        *(() if stepped else (from_wall(room, Wall.LEFT), from_wall(room, Wall.BACK))),
        *(() if places is None else ("from its row",)),
        "lies",
    )
    sorts = [
        name
        for name, some in (("supply", plan.supplies), ("outlet unit", plan.outlet_units))
        if some
    ]
    caption = f"Where each {joined(sorts)} lies: its middle"
    return [Table(caption=caption, head=head, rows=rows), Say(text=_how(plan))]


def _off_row(thing: Loose, places: Places) -> str:
    """Where a thing is from what is chalked for the row that it feeds."""
    row = next(r for r in places.rows if {c.id for c in r.chairs} & set(thing.chairs))
    return place_words((thing.x_m, thing.y_m), row, places)


def _lies(thing: Loose) -> str:
    place = "behind the base" if thing.under is None else f"in the clear zone of {thing.under}"
    side = long_side(thing)
    return f"{place}, {side}" if side else place


def long_side(thing: Loose) -> str:
    """Return which way a supply or outlet unit lies; nothing where it is as deep as wide."""
    wide_um, deep_um = micrometers(thing.width_m), micrometers(thing.depth_m)
    if wide_um == deep_um:
        return ""
    return f"its long side {'along' if wide_um > deep_um else 'across'} the row"
