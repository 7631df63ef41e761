"""Page 3, for the installers: set the chairs, lay the cords, test every chair."""

from __future__ import annotations

from powerplan.model.lengths import at_least_text, joined, length_text, micrometers
from powerplan.model.plan import NOT_POSSIBLE, Cord, Plan
from powerplan.sheets.off_walls import to_finish
from powerplan.sheets.page_names import DECISION
from powerplan.sheets.pages.cords import buying_list
from powerplan.sheets.pages.loose import where_things_lie
from powerplan.sheets.pages.print_asked import to_ask_for
from powerplan.sheets.pages.print_bends import bends
from powerplan.sheets.pages.print_order import turn_text, turns
from powerplan.sheets.pages.print_plugs import plugs_behind
from powerplan.sheets.pages.print_rows import SetRow, number_m, row_of, seams
from powerplan.sheets.pages.print_setting import setting_out
from powerplan.sheets.pages.print_spare import coils, spare_text
from powerplan.sheets.pages.print_tags import LINK, bag_of, end_name, in_bags, tag_numbers, tag_text
from powerplan.sheets.pages.print_told import Places, places_of
from powerplan.sheets.pages.print_ways import way_text
from powerplan.sheets.pages.print_words import not_yet
from powerplan.sheets.parts import Figure, Items, Part, Say, Table, Ticks
from powerplan.sheets.printed import SheetPage
from powerplan.sheets.scene import View
from powerplan.sheets.words import DO_NOT_LAY, lay_word

_TIED = "Cords are tied only to the chair's fixed frame."
_STOP = (
    "NOT POSSIBLE AS DRAWN: DO NOT SET OUT. Lay no cord, drill no anchor. The rows are shown as "
    f"they would stand, so that people can talk about what to change; {DECISION} says what stops "
    "them."
)
_NAMES = {"own": "lead"}


def cords_sheet(plan: Plan, views: tuple[View, ...], legend: View | None = None) -> SheetPage:
    """Return page 3.

    Parameters
    ----------
    plan : Plan
        The plan.
    views : tuple of View
        The drawings of the rows.
    legend : View, optional
        What their lines and signs mean.
    """
    plan = to_finish(plan)
    places, numbers = places_of(plan), tag_numbers(plan)
    rows = places.rows
    drawn = [Figure(view=view) for view in (*views, legend) if view is not None]
    parts: tuple[Part, ...]
    if plan.decision.verdict == NOT_POSSIBLE:
        parts = (Say(text=_STOP), *drawn, *setting_out(rows, plan, "DO NOT SET OUT. "))
    else:
        parts = (
            *_not_yet(plan),
            Say(text=f"{_sides(rows)} {_TIED}"),
            *drawn,
            *setting_out(rows, plan),
            *bends(places, numbers),
            *_before(rows, plan, numbers),
            *_order(rows, plan, numbers),
            *where_things_lie(plan, places),
            *plugs_behind(plan),
            *_bags(places, numbers),
            *coils(places, numbers),
            *_buying(plan),
            *_tests(plan),
        )
    return SheetPage(number="3", title=_title(plan), reader="installers", parts=parts)


def _sides(rows: tuple[SetRow, ...]) -> str:
    """What left, right, forward and back mean on the page."""
    told = "Left and right are as you sit watching the screen."
    straight = [row.id for row in rows if not row.curved]
    turned = any(row.row.angle_rad for row in rows if not row.curved)
    if straight:
        told += " Forward and ahead are toward the screen, back and behind away from it"
        told += "; in a turned row the way its chairs look and away from that" if turned else ""
        told += "."
    if any(row.curved for row in rows):
        told += (
            " In a row on an arc ahead, behind, left and right of a chair are as that chair looks; "
            "ways say instead toward the screen and toward the back."
        )
    return told


def _title(plan: Plan) -> str:
    """The heading of every sheet of the page; it says so where nothing may be laid yet."""
    if plan.decision.verdict == NOT_POSSIBLE:
        return "Cords. DO NOT SET OUT"
    return f"Cords. {DO_NOT_LAY}" if lay_word(plan) else "Cords"


def _not_yet(plan: Plan) -> list[Part]:
    """Why nothing is laid yet."""
    told = not_yet(f"{DO_NOT_LAY}: the ways change when this is mended:", plan)
    word = lay_word(plan)
    if told or not word:
        return [*told]
    why = f"first mend what {DECISION} lists"
    if word != DO_NOT_LAY:
        why = f"a box that cords start from may still move; first find out what {DECISION} asks"
    return [Say(text=f"{word}: {why}.")]


def _before(rows: tuple[SetRow, ...], plan: Plan, numbers: dict[str, int]) -> list[Part]:
    lines = tuple(
        (f"{left} and {right}", joined([tag_text(number) for number in sorted(told)]))
        for row in rows
        for left, right, cords in seams(row, plan.cords)
        if (told := {numbers[name] for name in cords})
    )
    if not lines:
        return [Say(text="No cord passes from under one seat to under the next.")]
    caption = "Laid before two neighbors are clipped together"
    return [Table(caption=caption, head=("neighbors", "cords that pass between"), rows=lines)]


def _order(rows: tuple[SetRow, ...], plan: Plan, numbers: dict[str, int]) -> list[Part]:
    before = (
        "Power off at the breaker."
        + (" Boxes are cut, wired and proved by the electrician." if plan.boxes else ""),
        *_chalk(rows),
        "Hang its tag on each cord, at both ends: its number and its two ends, as in the table of "
        "cord bags.",
        "A chair comes with its own lead. Where the lead comes off the chair, chair and lead may "
        "also come one by one; the order below works for both.",
        "Two neighbors are clipped together only when the order says so: until then a chair can be "
        "moved to reach under it.",
        *_tables(rows),
    )
    after = (
        "Look under every chair: no cord touches a mechanism, none is stretched or tight.",
        "Power on, and do the test below, chair by chair.",
    )
    lead = "Order of work, row {}, from the middle outward (the numbers in circles):"
    return [
        Items(lead="Before the first chair:", items=before),
        *(
            Items(
                lead=lead.format(row.id),
                items=tuple(turn_text(turn, row, plan, numbers) for turn in turns(row, plan)),
                numbered=True,
            )
            for row in rows
        ),
        Items(lead="After the last chair:", items=after),
    ]


def _chalk(rows: tuple[SetRow, ...]) -> list[str]:
    """What is chalked, of rows of each sort."""
    plain = [row.id for row in rows if row.plain]
    straight = [row.id for row in rows if not row.plain and not row.curved]
    curved = [row.id for row in rows if row.curved]
    sorts = (
        (plain, "snap the line and mark the middle of each chair on it"),
        (
            straight,
            "snap the line between its two ends and mark on it, from the left end, both sides and "
            "the middle of all that stands there",
        ),
        (
            curved,
            "snap the straight line between its two ends, set off the marks of the arc and both "
            "rear corners of all that stands there, and write the name at each",
        ),
    )
    told = [
        f"Row{'' if len(names) == 1 else 's'} {joined(names)}: {what}."
        for names, what in sorts
        if names
    ]
    if straight or curved:
        told.append("Mark the bends of cords too, each with its letter, and where cords enter.")
    return told


def _tables(rows: tuple[SetRow, ...]) -> list[str]:
    """What is said of tables and gaps, where a row has some."""
    told = []
    if any(one.seat is None for row in rows for one in row.stands):
        told.append(
            "A table is set in its turn too; how it is clipped to its seats, its maker says."
        )
    if any(one.free_right for row in rows for one in row.stands):
        told.append("Over a gap nothing is clipped.")
    return told


def _bags(places: Places, numbers: dict[str, int]) -> list[Part]:
    plan, rows = places.plan, places.rows
    if not plan.cords:
        return [Say(text="There is no cord to lay.")]
    lines = tuple(
        _bag_row(cord, row_of(cord, rows, plan), places, numbers) for cord in in_bags(plan)
    )
    way = "its way, from the feed to the chair"
    head = ("bag", "tag", "from", "to", "what", way, "lies", "left over")
    caption = "Cord bags, one for each chair"
    return [Table(caption=caption, head=head, rows=lines), Say(text=_about_ways(places))]


def _about_ways(places: Places) -> str:
    """Where the ways of cords are told from, and that hatched floor counts before them."""
    plan, rows, told = places.plan, places.rows, list[str]()
    if any(not row.curved for row in rows):
        told.append(
            "The line is the chalk line at the rear of the bases; a chair's middle is its mark on "
            "that line."
        )
    if places.letters:
        told.append("Bends with letters are in the table of bends.")
    if any(cord.kind == LINK for cord in plan.cords):
        told.append(
            "Where a chair's link socket is nobody has measured: it is taken to be at its inlet."
        )
    units = plan.spec.project.units
    mark = "a millimeter" if units in ("mm", "m") else "1/8 in"
    keep = at_least_text(number_m(plan, "cord_clearance"), units)
    told.append(
        f"Places are told to {mark}, rounded away from hatched floor and walkways, never nearer: "
        f"where a cord passes hatched floor, measure there that it lies {keep} off it or more."
    )
    if places.unsafe:
        told.append(
            "In a passage that is only just wide enough no mark of a tape is as far off both its "
            "sides: there lay the cord in the middle of it."
        )
    return " ".join(told)


def _bag_row(cord: Cord, row: SetRow, places: Places, numbers: dict[str, int]) -> tuple[str, ...]:
    plan = places.plan
    units = plan.spec.project.units
    lies = length_text(cord.length_m, units)
    if micrometers(cord.open_floor_m) > 0:
        lies += f", {length_text(cord.open_floor_m, units)} of it ON OPEN FLOOR"
    return (
        bag_of(cord, plan),
        tag_text(numbers[cord.id]),
        end_name(cord.from_, plan),
        end_name(cord.to, plan),
        f"{_NAMES.get(cord.kind, cord.kind)} {length_text(cord.bought_m, units)}",
        way_text(cord, row, places),
        lies,
        spare_text(cord, row, places),
    )


def _buying(plan: Plan) -> list[Part]:
    if not plan.cords:
        return []
    supply = (
        "No chair of this plan has a supply that lies on the floor. Should one come with a loose "
        "supply, stop and ask where it goes: never under a mechanism, never covered."
    )
    told = [] if plan.supplies else [Say(text=supply)]
    return [*told, buying_list(plan), *to_ask_for(plan)]


def _tests(plan: Plan) -> list[Part]:
    before = (
        "Every plug is home, every cord carries its tag, every tie is on a fixed frame.",
        "No cord lies across a walkway, a doorway or open floor that this page does not show.",
        "Nobody's hands are under a chair.",
    )
    chairs = tuple(
        f"{chair.id}: somebody seated, all the way down and up; no cord or coil touched, pulled or "
        "pinched."
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
