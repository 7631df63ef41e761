"""Page 3, for the installers: set the chairs, lay the cords, test every chair."""

from __future__ import annotations

from powerplan.model.geometry import micrometres
from powerplan.model.lengths import joined, length_text
from powerplan.model.plan import NOT_POSSIBLE, Cord, PlacedChair, Plan
from powerplan.model.spec import Wall
from powerplan.sheets.pages.cords import buying_list
from powerplan.sheets.pages.print_rows import SetRow, outward, seams, set_rows
from powerplan.sheets.pages.print_words import capital, from_center, place_text
from powerplan.sheets.parts import Figure, Items, Part, Say, SheetPage, Table, Ticks
from powerplan.sheets.scene import View
from powerplan.sheets.words import at_least_text, from_wall

_TIED = "Cords are tied only to the chair's fixed frame."


def cords_sheet(plan: Plan, views: tuple[View, ...]) -> SheetPage:
    """Return page 3.

    Parameters
    ----------
    plan : Plan
        The plan.
    views : tuple of View
        The drawings of the rows; empty where the job is not possible as drawn.
    """
    if plan.decision.verdict == NOT_POSSIBLE:
        text = "Nothing is marked: the job is not possible as drawn. Lay no cord. See page 1."
        parts: tuple[Part, ...] = (Say(text=text),)
    else:
        rows = set_rows(plan)
        parts = (
            Say(text=f"Left and right are as you sit watching the screen. {_TIED}"),
            *(Figure(view=view) for view in views),
            *_lines(rows, plan),
            _order(rows, plan),
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


def _order(rows: tuple[SetRow, ...], plan: Plan) -> Items:
    told = ["Power off at the breaker. Boxes are cut, wired and proved by the electrician."]
    told.append("Snap each row's line and mark the middle of each chair on it.")
    for row in rows:
        told += _row_order(row, plan)
    told.append("Look under every chair: no cord touches a mechanism, none is stretched or tight.")
    told.append("Power on, and do the test below, chair by chair.")
    lead = "Order of work, from the middle of each row outward:"
    return Items(lead=lead, items=tuple(told), numbered=True)


def _row_order(row: SetRow, plan: Plan) -> list[str]:
    between = {frozenset((left, right)): cords for left, right, cords in seams(row, plan.cords)}
    told: list[str] = []
    laid: set[str] = set()
    standing: list[str] = []
    for chair in outward(row):
        mates = [name for name in standing if frozenset((name, chair.id)) in between]
        first = [c for name in mates for c in between[frozenset((name, chair.id))]]
        text = f"Lay {_cords(first)} first. Then set" if first else "Set"
        text += f" {chair.id} with its rear on the line, its middle on its mark"
        text += f", and clip it to {joined(mates)}." if mates else "."
        laid |= set(first)
        own = [c for c in _at(chair, plan) if c.id not in laid and _ready(c, standing, chair)]
        if own:
            text += f" Lay {_cords([cord.id for cord in own])}."
            laid |= {cord.id for cord in own}
        standing.append(chair.id)
        told.append(text)
    rest = [c.id for c in plan.cords if c.id not in laid and c.to in standing]
    if rest:
        told.append(f"Row {row.id}: lay {_cords(rest)}.")
    return told


def _at(chair: PlacedChair, plan: Plan) -> list[Cord]:
    return [cord for cord in plan.cords if chair.id in (cord.to, cord.from_)]


def _ready(cord: Cord, standing: list[str], chair: PlacedChair) -> bool:
    """Whether both ends of a cord are there, once this chair stands; a link waits for its chair."""
    return cord.kind != "link" or {cord.from_, cord.to} <= {*standing, chair.id}


def _cords(names: list[str]) -> str:
    unique = list(dict.fromkeys(names))
    return f"cord{'' if len(unique) == 1 else 's'} {joined(unique)}"


def _bags(plan: Plan) -> list[Part]:
    if not plan.cords:
        return [Say(text="There is no cord to lay.")]
    units = plan.spec.project.units
    rows = tuple(_bag_row(cord, units) for cord in plan.cords)
    head = ("bag", "tag", "what", "from", "to", "its way", "left over")
    bags = Table(caption="Cord bags, one for each chair", head=head, rows=rows)
    return [bags, buying_list(plan), Say(text=_wires_of_supplies())]


def _bag_row(cord: Cord, units: str) -> tuple[str, ...]:
    names = {"own": "its own lead", "link": "link", "extension": "extension cord"}
    bag = cord.to.partition("+")[2] or cord.to
    floor = length_text(cord.length_m, units)
    if micrometres(cord.open_floor_m) > 0:
        floor += f", {length_text(cord.open_floor_m, units)} of it ON OPEN FLOOR"
    return (
        bag,
        cord.id,
        f"{names.get(cord.kind, cord.kind)}, {length_text(cord.bought_m, units)}",
        cord.from_,
        cord.to,
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
    parked = tuple(
        f"{cord.id}: behind the base of {cord.to.partition('+')[2] or cord.to}, at "
        f"{place_text(cord.park_m, plan)}; {_over(cord, plan)} to coil."
        for cord in plan.cords
        if cord.park_m is not None
    )
    if not parked:
        return []
    lead = "Where spare lead is parked, coiled loosely, never under a mechanism:"
    return [Items(lead=lead, items=parked)]


def _over(cord: Cord, plan: Plan) -> str:
    return f"about {at_least_text(cord.bought_m - cord.length_m, plan.spec.project.units)}"


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
