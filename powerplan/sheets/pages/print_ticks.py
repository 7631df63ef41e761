"""What installers tick: before power, backs over what lies there, every chair, all together."""

from __future__ import annotations

from powerplan.model.findings import Outcome
from powerplan.model.lengths import (
    at_least_text,
    at_most_text,
    joined,
    length_text,
    mark_um,
    micrometers,
)
from powerplan.model.plan import Plan
from powerplan.sheets.pages.loose import Loose, under_backs
from powerplan.sheets.pages.print_order import corners_of, loose_things
from powerplan.sheets.pages.print_rows import SetRow
from powerplan.sheets.pages.print_tags import end_name
from powerplan.sheets.pages.print_words import BLANK, capital
from powerplan.sheets.parts import Part, Ticks
from powerplan.sheets.stands import Stand

_CLEAR = "seats-clear-of-each-other"
_AGAIN = (
    "What went back: only now its cords are tied, to the fixed frame of {}; every tie and cord "
    "there is looked at; only then power on again."
)
_OFF_MM_UM, _OFF_IN_UM = 3000, 3175
"""How far off its marks a chair may stand: 3 mm or 1/8 in (common practice, no source). [um]"""


def ticks(rows: tuple[SetRow, ...], plan: Plan) -> list[Part]:
    """Return every tick, in the order of the work.

    Parameters
    ----------
    rows : tuple of SetRow
        The rows.
    plan : Plan
        The plan.
    """
    before = (
        "Every plug is home, every cord carries its tag, every tie is on a fixed frame"
        f"{_not_tied(plan)}.",
        *_plugged(plan),
        "No cord lies across a walkway, a doorway or open floor that this page does not show.",
        "Nobody's hands are under a chair.",
    )
    stands = {one.name: one for row in rows for one in row.stands}
    chairs = tuple(
        f"{chair.id}: {_by_hand(stands.get(chair.id))}somebody seated, all the way down and up; no "
        f"cord or coil touched, pulled or "
        f"pinched{_on_nothing(stands.get(chair.id), chair.row, plan)}."
        for chair in plan.chairs
    )
    last = (
        "Every chair of a row down at once, then up at once; no breaker trips.",
        "Cords looked at once more from behind and from below; plugs and cords are not warm.",
        "Tested by ____________________ on ____________",
    )
    return [
        Ticks(lead="Before power:", items=before),
        *_first_reclined(stands, plan),
        *_side_by_side(plan),
        Ticks(lead="The test, each chair loaded and both ways, every cord watched:", items=chairs),
        Ticks(lead="All together:", items=last),
    ]


def _plugged(plan: Plan) -> list[str]:
    """Into which outlets the cords go, and which are not used."""
    used = {cord.from_ for cord in plan.cords}
    outlets = [one.id for one in plan.spec.outlets]
    places = [name for name in (*outlets, *(box.id for box in plan.boxes)) if name in used]
    if not places:
        return []
    told = [
        f"Cords start at {joined([end_name(name, plan) for name in places])}, and nowhere else."
    ]
    free = [end_name(name, plan) for name in outlets if name not in used]
    if free:
        told.append(f"NOT USED: {joined(free)}. Plug nothing of the chairs in there.")
    return told


def _not_tied(plan: Plan) -> str:
    """Which cords are not tied before power: those of what is set aside for the first reclining."""
    things = [thing.id for thing in under_backs(plan)]
    if not things:
        return ""
    return f"; the cords of {joined(things)} are NOT tied yet: that comes when it is back in place"


def _first_reclined(stands: dict[str, Stand], plan: Plan) -> list[Part]:
    """How the least height of a back is found before anything is left under it."""
    things, units = under_backs(plan), plan.spec.project.units
    if not things:
        return []
    backs = dict.fromkeys(name for thing in things for name in _over(thing, stands, plan))
    how = (
        f"{capital(joined([thing.id for thing in things]))}: set aside, out from under every back, "
        "still plugged in at the finished outlet.",
        f"Power on. {joined(list(backs))}: reclined one at a time with nobody seated, a finger on "
        "the switch and somebody watching, and stopped before anything is touched; then with "
        "somebody seated.",
    )
    told = tuple(
        f"{capital(thing.id)}: power off, {joined(_over(thing, stands, plan))} still reclined. The "
        "least height of the back over the floor there, measured from the side with no hand under "
        f"it: {BLANK}. It goes back only where that is more than "
        f"{at_least_text(thing.height_m, units)} and leaves its cords room; else it stays out: "
        "stop and call whoever planned it."
        for thing in things
    )
    frames = list(dict.fromkeys(thing.chairs[0] for thing in things))
    return [
        Ticks(
            lead="First, where a back reclines over what lies on the floor:",
            items=(*how, *told, _AGAIN.format(joined(frames))),
        )
    ]


def _over(thing: Loose, stands: dict[str, Stand], plan: Plan) -> list[str]:
    """The chairs that a thing lies behind; those that it feeds where it is behind none."""
    rows = {chair.id: chair.row for chair in plan.chairs}
    names = [name for name, one in stands.items() if name in rows and _behind(thing, one)]
    own = {rows[name] for name in thing.chairs if name in rows}
    return [name for name in names if rows[name] in own] or list(thing.chairs)


def _on_nothing(stand: Stand | None, row: str, plan: Plan) -> str:
    """What the back of a chair must not come down on."""
    rows = {chair.id: chair.row for chair in plan.chairs}
    found = [
        thing.id
        for thing in loose_things(plan)
        if stand is not None
        and row in {rows.get(name) for name in thing.chairs}
        and _behind(thing, stand)
    ]
    return f"; the back comes down on nothing of {joined(found)}" if found else ""


def _behind(thing: Loose, stand: Stand) -> bool:
    """Whether some of a thing lies behind a base, between its sides."""
    if thing.under is not None:
        return False
    seen = [stand.place(point) for point in corners_of(thing)]
    beside = max(u for u, _ in seen) <= -stand.left_m or min(u for u, _ in seen) >= stand.right_m
    return not beside and min(v for _, v in seen) < stand.rear_m


def _by_hand(stand: Stand | None) -> str:
    """What is said of a chair that no cord goes to."""
    if stand is None or stand.seat is None or stand.seat.takes_power:
        return ""
    return (
        "runs from its pack, no cord; "
        if stand.seat.powered
        else ("not powered, no cord; reclined by hand; ")
    )


def _side_by_side(plan: Plan) -> list[Part]:
    """How neighbors that hardly clear each other are measured before anybody sits in them."""
    told = _close(plan)
    if not told:
        return []
    how = (
        "With power on, one pair of neighbors at a time, nobody seated, all others upright: each "
        "reclined slowly, stopped before the two touch, and measured with no hand between them. "
        "Too little: power off, unclip the two, set them on their marks again, measure again; else "
        "stop and call whoever planned it."
    )
    return [Ticks(lead="First, where reclined neighbors come close:", items=(how, *told))]


def _close(plan: Plan) -> list[str]:
    """Where reclined seats clear each other by no more than two marks may be off together."""
    units = plan.spec.project.units
    off_um = _OFF_MM_UM if units in ("mm", "m") else _OFF_IN_UM
    keep, one = (length_text(um / 1e6, units) for um in (2 * off_um, off_um))
    return [
        f"{capital(finding.subject)}: keep {keep} between reclined neighbors, measured at their "
        f"nearest. The plan leaves {at_most_text(finding.value, units)} from one to the floor of "
        f"the next, and each chair stands on its marks to {one} at best (common practice)."
        for finding in plan.findings
        if finding.rule == _CLEAR
        and finding.outcome is Outcome.MET
        and finding.value is not None
        and micrometers(finding.value) // mark_um(units) * mark_um(units) <= 2 * off_um
    ]
