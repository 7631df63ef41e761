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
from powerplan.sheets.pages.print_plugs import plugs_behind
from powerplan.sheets.pages.print_rows import SetRow, number_m, row_of, seams
from powerplan.sheets.pages.print_setting import setting_out
from powerplan.sheets.pages.print_spare import coils, spare_text
from powerplan.sheets.pages.print_tags import LINK, bag_of, end_name, in_bags, tag_numbers, tag_text
from powerplan.sheets.pages.print_ticks import ticks
from powerplan.sheets.pages.print_told import Places, places_of
from powerplan.sheets.pages.print_ways import way_text
from powerplan.sheets.pages.print_words import not_yet
from powerplan.sheets.pages.print_work import work_order
from powerplan.sheets.parts import Figure, Part, Say, Table
from powerplan.sheets.printed import SheetPage
from powerplan.sheets.scene import View
from powerplan.sheets.words import DO_NOT_LAY, lay_word

_TIED = "Cords are tied only to the chair's fixed frame."
_STOP = (
    "NOT POSSIBLE AS DRAWN: DO NOT SET OUT. Lay no cord, drill no anchor. The rows are shown as "
    f"they would stand, so that people can talk about what to change; {DECISION} says what stops "
    "them."
)
_LONGER = (
    "A longer lead takes the place of the chair's own, which is taken off first. Before it "
    "is ordered, ask the chair's maker whether the chair's own comes off; if it is fixed, have the "
    "room planned again."
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
            *work_order(rows, plan, numbers),
            *where_things_lie(plan, places),
            *plugs_behind(plan),
            *_bags(places, numbers),
            *coils(places, numbers),
            *_buying(plan),
            *ticks(rows, plan),
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
    behind = _behind(rows, plan, numbers)
    if not lines:
        none = "No cord passes from under one seat to under the next"
        return [Say(text=f"{none}. {behind[0].text}" if behind else f"{none}.")]
    caption = "Laid before two neighbors are clipped together"
    head = ("neighbors", "cords that pass between")
    return [Table(caption=caption, head=head, rows=lines), *behind]


def _behind(rows: tuple[SetRow, ...], plan: Plan, numbers: dict[str, int]) -> list[Say]:
    """Which cords of a row pass from chair to chair behind the bases; nothing where none does."""
    told = []
    for row in rows:
        own = tuple(cord for cord in plan.cords if row_of(cord, rows, plan) is row)
        for left, right, cords in seams(row, own, behind=True):
            tags = [tag_text(number) for number in sorted({numbers[name] for name in cords})]
            told += [f"between {left} and {right} {joined(tags)}"] if tags else []
    return [Say(text=f"Behind the bases, not under a seat, pass: {'; '.join(told)}.")] * bool(told)


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
    things = ["a supply"] if plan.supplies else []
    things += ["an outlet unit"] if plan.outlet_units else []
    if things:
        caption += f"; the cord to {joined(things, 'or')} is in the bag of its first chair"
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
    numbers = tag_numbers(plan)
    names = {cord.id: f"{tag_text(numbers[cord.id])} ({bag_of(cord, plan)})" for cord in plan.cords}
    if any(cord.kind == "own" and cord.longer for cord in plan.cords):
        told.append(Say(text=_LONGER))
    return [*told, buying_list(plan, names), *to_ask_for(plan)]
