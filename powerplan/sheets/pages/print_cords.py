"""Page 3, for the installers: set the chairs, lay the cords, test every chair."""

from __future__ import annotations

from powerplan.model.lengths import joined, length_text, micrometres
from powerplan.model.plan import NOT_POSSIBLE, Cord, PlacedChair, Plan
from powerplan.model.spec import Wall
from powerplan.sheets.pages.cords import buying_list
from powerplan.sheets.pages.print_rows import SetRow, outward, seams, set_rows
from powerplan.sheets.pages.print_words import from_center, not_yet
from powerplan.sheets.parts import Figure, Items, Part, Say, Table, Ticks
from powerplan.sheets.printed import SheetPage
from powerplan.sheets.scene import View
from powerplan.sheets.words import from_wall

_TIED = "Cords are tied only to the chair's fixed frame."


def cords_sheet(plan: Plan, views: tuple[View, ...], legend: View | None = None) -> SheetPage:
    """Return page 3.

    Parameters
    ----------
    plan : Plan
        The plan.
    views : tuple of View
        The drawings of the rows; empty where the job is not possible as drawn.
    legend : View, optional
        What their lines and signs mean.
    """
    if plan.decision.verdict == NOT_POSSIBLE:
        text = "Nothing is marked: the job is not possible as drawn. Lay no cord. See page 1."
        parts: tuple[Part, ...] = (Say(text=text),)
    else:
        rows = set_rows(plan)
        parts = (
            *not_yet("DO NOT LAY YET: the ways change when this is mended:", plan),
            Say(text=f"Left and right are as you sit watching the screen. {_TIED}"),
            *(Figure(view=view) for view in (*views, legend) if view is not None),
            *_lines(rows, plan),
            *_before(rows, plan),
            *_order(rows, plan),
            *_bags(plan),
            *_parked(plan),
            *_tests(plan),
        )
    return SheetPage(number="3", title="Cords", reader="installers", parts=parts)


def _lines(rows: tuple[SetRow, ...], plan: Plan) -> list[Part]:
    units, room = plan.spec.project.units, plan.spec.room
    left, back = from_wall(room, Wall.LEFT), from_wall(room, Wall.BACK)
    lines = tuple(
        (
            row.id,
            length_text(row.line_m, units),
            length_text(row.left_m, units),
            length_text(row.right_m, units),
        )
        for row in rows
    )
    middles = tuple(
        (chair.id, length_text(chair.x_m, units), from_center(chair.x_m, plan))
        for row in rows
        for chair in row.chairs
    )
    return [
        Table(
            caption="The chalk line to snap: the rear of the bases, at the floor",
            head=("row", f"line, {back}", f"left end, {left}", f"right end, {left}"),
            rows=lines,
        ),
        Table(
            caption="The middle of each chair, marked on the line",
            head=("chair", left, "off the center line"),
            rows=middles,
        ),
    ]


def _before(rows: tuple[SetRow, ...], plan: Plan) -> list[Part]:
    lines = tuple(
        (f"{left} and {right}", joined(cords))
        for row in rows
        for left, right, cords in seams(row, plan.cords)
        if cords
    )
    if not lines:
        return [Say(text="No cord passes from under one seat to under the next.")]
    caption = "Laid before two seats are clipped together"
    return [Table(caption=caption, head=("seats", "cords that pass between"), rows=lines)]


def _order(rows: tuple[SetRow, ...], plan: Plan) -> list[Part]:
    before = (
        "Power off at the breaker."
        + (" Boxes are cut, wired and proved by the electrician." if plan.boxes else ""),
        "Snap each row's line and mark the middle of each chair on it.",
    )
    after = (
        "Look under every chair: no cord touches a mechanism, none is stretched or tight.",
        "Power on, and do the test below, chair by chair.",
    )
    lead = "Order of work, row {}, from the middle outward (the numbers in circles):"
    return [
        Items(lead="Before the first chair:", items=before),
        *(
            Items(lead=lead.format(row.id), items=tuple(_row_order(row, plan)), numbered=True)
            for row in rows
        ),
        Items(lead="After the last chair:", items=after),
    ]


def _row_order(row: SetRow, plan: Plan) -> list[str]:
    """Each chair of a row in turn, with what has to lie there before it is set."""
    pairs = {frozenset((left, right)): cords for left, right, cords in seams(row, plan.cords)}
    under = {box.under: box.id for box in plan.boxes if box.kind == "floor box"}
    passing = {name for cords in pairs.values() for name in cords}
    told: list[str] = []
    laid: set[str] = set()
    standing: list[str] = []
    for chair in outward(row):
        mates = [name for name in standing if frozenset((name, chair.id)) in pairs]
        first = [cord for name in mates for cord in pairs[frozenset((name, chair.id))]]
        box = under.get(chair.id)
        first += [cord.id for cord in plan.cords if cord.from_ == box]
        first = [name for name in dict.fromkeys(first) if name not in laid]
        after = [c.id for c in plan.cords if _ends_at(c, chair) and c.id not in passing]
        after = [name for name in after if name not in (*laid, *first)]
        told.append(_set_words(chair, mates, first, after, box))
        laid |= {*first, *after}
        standing.append(chair.id)
    return told


def _set_words(
    chair: PlacedChair, mates: list[str], first: list[str], after: list[str], box: str | None
) -> str:
    text = f"Lay {_cords(first)}" if first else ""
    if box is not None and any(name.startswith(f"{box}-") for name in first):
        text += f", plugged into {box}, over which {chair.id} will stand"
    text += ". Set " if first else "Set "
    text += f"{chair.id} on its mark, its rear on the line"
    text += f", and clip it to {joined(mates)}." if mates else "."
    return f"{text} Lay {_cords(after)}." if after else text


def _ends_at(cord: Cord, chair: PlacedChair) -> bool:
    return chair.id in (cord.from_, cord.to.rpartition("+")[2])


def _cords(names: list[str]) -> str:
    unique = list(dict.fromkeys(names))
    return f"cord{'' if len(unique) == 1 else 's'} {joined(unique)}"


def _bags(plan: Plan) -> list[Part]:
    if not plan.cords:
        return [Say(text="There is no cord to lay.")]
    units = plan.spec.project.units
    order = {chair.id: number for number, chair in enumerate(plan.chairs)}
    cords = sorted(plan.cords, key=lambda cord: order.get(_bag_of(cord), len(order)))
    rows = tuple(_bag_row(cord, units) for cord in cords)
    head = ("bag", "tag", "what", "plugs into", "its way", "left over")
    bags = Table(caption="Cord bags, one for each chair", head=head, rows=rows)
    return [bags, buying_list(plan), Say(text=_wires_of_supplies())]


def _bag_of(cord: Cord) -> str:
    """The chair in whose bag a cord is; the extension of a lead is in its chair's."""
    return cord.to.rpartition("+")[2]


def _bag_row(cord: Cord, units: str) -> tuple[str, ...]:
    names = {"own": "its own lead", "link": "link", "extension": "extension cord"}
    floor = length_text(cord.length_m, units)
    if micrometres(cord.open_floor_m) > 0:
        floor += f", {length_text(cord.open_floor_m, units)} of it ON OPEN FLOOR"
    joint = cord.from_.partition("+")
    return (
        _bag_of(cord),
        cord.id,
        f"{names.get(cord.kind, cord.kind)}, {length_text(cord.bought_m, units)}",
        "the extension cord" if joint[1] else cord.from_,
        floor,
        length_text(cord.bought_m - cord.length_m, units),
    )


def _wires_of_supplies() -> str:
    return (
        "A supply that is built in stays where it is. A loose one lies flat on the floor behind "
        "the base of its own chair, its cord tied to the fixed frame; never under a mechanism, "
        "never covered."
    )


def _parked(plan: Plan) -> list[Part]:
    units, room = plan.spec.project.units, plan.spec.room
    parked = tuple(
        (
            cord.id,
            _bag_of(cord),
            length_text(cord.park_m[0], units),
            length_text(cord.park_m[1], units),
            length_text(cord.bought_m - cord.length_m, units),
        )
        for cord in plan.cords
        if cord.park_m is not None
    )
    if not parked:
        return []
    left, back = from_wall(room, Wall.LEFT), from_wall(room, Wall.BACK)
    head = ("cord", "behind the base of", left, back, "left over")
    caption = "Where spare lead is parked, coiled loosely, never under a mechanism"
    return [Table(caption=caption, head=head, rows=parked)]


def _tests(plan: Plan) -> list[Part]:
    before = (
        "Every plug is home, every cord carries its tag, every tie is on a fixed frame.",
        "No cord lies across a walkway, a doorway or open floor that this page does not show.",
        "Nobody's hands are under a chair.",
    )
    chairs = tuple(
        f"{chair.id}: somebody seated, down all the way, and up all the way; no cord was touched, "
        "pulled or pinched."
        for chair in plan.chairs
    )
    last = (
        "Every chair of a row down at once, then up at once; no breaker trips.",
        "Cords looked at once more from behind and from below; plugs and cords are not warm.",
        "Tested by ____________________ on ____________",
    )
    return [
        Ticks(lead="Before power:", items=before),
        Ticks(lead="The test, each chair loaded and both ways, every cord watched:", items=chairs),
        Ticks(lead="All together:", items=last),
    ]
