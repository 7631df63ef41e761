"""Page 3, for the installers: set the chairs, lay the cords, test every chair."""

from __future__ import annotations

from powerplan.model.lengths import joined, length_text, micrometres
from powerplan.model.plan import NOT_POSSIBLE, Cord, Plan
from powerplan.model.spec import Wall
from powerplan.sheets.levels import crosses_a_step, faces
from powerplan.sheets.off_walls import from_back, from_left, off_wall, to_finish
from powerplan.sheets.pages.cords import buying_list
from powerplan.sheets.pages.loose import where_things_lie
from powerplan.sheets.pages.print_order import turn_text, turns
from powerplan.sheets.pages.print_rows import (
    SetRow,
    about_row,
    seams,
    set_rows,
)
from powerplan.sheets.pages.print_spare import coils, spare_text
from powerplan.sheets.pages.print_tags import bag_of, end_name, in_bags, tag_numbers, tag_text
from powerplan.sheets.pages.print_ways import row_of, way_text
from powerplan.sheets.pages.print_words import from_center, not_yet
from powerplan.sheets.parts import Figure, Items, Part, Say, Table, Ticks
from powerplan.sheets.placed import turn_text as turn_of
from powerplan.sheets.printed import SheetPage
from powerplan.sheets.scene import View
from powerplan.sheets.words import from_wall

_TIED = "Cords are tied only to the chair's fixed frame."
_STOP = (
    "NOT POSSIBLE AS DRAWN: DO NOT SET OUT. Lay no cord, drill no anchor. The rows are shown as "
    "they would stand, so that people can talk about what to change; page 1 says what stops them."
)
_LEVEL = ("line, level tape from behind", "line, level tape from ahead")
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
    rows = set_rows(plan)
    drawn = [Figure(view=view) for view in (*views, legend) if view is not None]
    parts: tuple[Part, ...]
    if plan.decision.verdict == NOT_POSSIBLE:
        parts = (Say(text=_STOP), *drawn, *_lines(rows, plan, "DO NOT SET OUT. "))
    else:
        parts = (
            *not_yet("DO NOT LAY YET: the ways change when this is mended:", plan),
            Say(text=f"Left and right are as you sit watching the screen. {_TIED}"),
            *drawn,
            *_lines(rows, plan),
            *_before(rows, plan),
            *_order(rows, plan),
            *where_things_lie(plan),
            *_bags(rows, plan),
            *coils(rows, plan),
            *_buying(plan),
            *_tests(plan),
        )
    return SheetPage(number="3", title="Cords", reader="installers", parts=parts)


def _lines(rows: tuple[SetRow, ...], plan: Plan, warning: str = "") -> list[Part]:
    units, room = plan.spec.project.units, plan.spec.room
    left, back, screen = (from_wall(room, w) for w in (Wall.LEFT, Wall.BACK, Wall.SCREEN))
    size = (
        f"The room is {length_text(room.width_m, units)} wide and "
        f"{length_text(room.depth_m, units)} deep, back wall to screen."
    )
    stepped = crosses_a_step(plan)
    lines = tuple(
        (
            row.id,
            from_back(room, row.line_m, units),
            *(
                _level(row, plan)
                if stepped
                else (off_wall(room, Wall.SCREEN, room.depth_m - row.line_m, units),)
            ),
            from_left(room, row.left_m, units),
            from_left(room, row.right_m, units),
        )
        for row in rows
        if row.plain
    )
    middles = tuple(
        (chair.id, from_left(room, chair.x_m, units), from_center(chair.x_m, plan))
        for row in rows
        if row.plain
        for chair in row.chairs
    )
    others = tuple(
        (
            one.chair.id,
            one.kind.id,
            length_text(one.chair.x_m, units),
            length_text(one.chair.y_m, units),
            turn_of(one.chair.angle_rad) if one.chair.angle_rad else "straight to the screen",
        )
        for row in rows
        for one in row.others
    )
    head = (
        "row",
        f"line, {back}",
        *(_LEVEL if stepped else (f"line, {screen}",)),
        f"left end, {left}",
        f"right end, {left}",
    )
    caption = f"{warning}The chalk line to snap: the rear of the bases, at the floor"
    return [
        Items(lead="How the rows stand:", items=(size, *(about_row(row, plan) for row in rows))),
        *([Table(caption=caption, head=head, rows=lines)] if lines else []),
        *(
            [
                Table(
                    caption=f"{warning}The middle of each chair, marked on the line",
                    head=("chair", left, "off the center line"),
                    rows=middles,
                )
            ]
            if middles
            else []
        ),
        *(
            [
                Table(
                    caption=f"{warning}Chairs set one by one: the rearmost point of the headrest, "
                    "upright, on the chair's middle",
                    head=("chair", "kind", left, back, "looks, as sitters do"),
                    rows=others,
                )
            ]
            if others
            else []
        ),
    ]


def _level(row: SetRow, plan: Plan) -> tuple[str, ...]:
    """The line from what is behind and from what is ahead of it, without a step between."""
    units, met = plan.spec.project.units, faces(plan, row.middle_of_line)
    return tuple(
        f"{length_text(abs(met[side].at_m - row.line_m), units)} from the {met[side].words}"
        for side in (Wall.BACK, Wall.SCREEN)
    )


def _before(rows: tuple[SetRow, ...], plan: Plan) -> list[Part]:
    numbers = tag_numbers(plan)
    lines = tuple(
        (f"{left} and {right}", joined([tag_text(number) for number in sorted(told)]))
        for row in rows
        for left, right, cords in seams(row, plan.cords)
        if (told := {numbers[name] for name in cords})
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
        "Hang its tag on each cord, at both ends: its number and its two ends, as in the table of "
        "cord bags.",
        "A chair comes with its own lead. Where the lead comes off the chair, chair and lead may "
        "also come one by one; the order below works for both.",
        "Two seats are clipped together only when the order says so: until then a chair can be "
        "drawn forward to reach under it.",
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
                items=tuple(turn_text(turn, row, plan) for turn in turns(row, plan)),
                numbered=True,
            )
            for row in rows
        ),
        Items(lead="After the last chair:", items=after),
    ]


def _bags(rows: tuple[SetRow, ...], plan: Plan) -> list[Part]:
    if not plan.cords:
        return [Say(text="There is no cord to lay.")]
    lines = tuple(_bag_row(cord, row_of(cord, rows, plan), plan) for cord in in_bags(plan))
    way = "its way, from the feed to the chair"
    head = ("bag", "tag", "from", "to", "what", way, "lies", "left over")
    caption = "Cord bags, one for each chair"
    about = (
        "The line is the chalk line at the rear of the bases; a chair's middle is its mark on that "
        "line. Forward is toward the screen."
    )
    if not all(row.plain for row in rows):
        about += " Where a row has no line, places are measured from the walls."
    return [Table(caption=caption, head=head, rows=lines), Say(text=about)]


def _bag_row(cord: Cord, row: SetRow, plan: Plan) -> tuple[str, ...]:
    units = plan.spec.project.units
    lies = length_text(cord.length_m, units)
    if micrometres(cord.open_floor_m) > 0:
        lies += f", {length_text(cord.open_floor_m, units)} of it ON OPEN FLOOR"
    return (
        bag_of(cord, plan),
        tag_text(tag_numbers(plan)[cord.id]),
        end_name(cord.from_, plan),
        end_name(cord.to, plan),
        f"{_NAMES.get(cord.kind, cord.kind)} {length_text(cord.bought_m, units)}",
        way_text(cord, row, plan),
        lies,
        spare_text(cord, row, plan),
    )


def _buying(plan: Plan) -> list[Part]:
    if not plan.cords:
        return []
    supply = (
        "A supply that is built in stays where it is. A loose one lies flat on the floor behind "
        "the base of its own chair, its cord tied to the fixed frame; never under a mechanism, "
        "never covered."
    )
    return [Say(text=supply), buying_list(plan)]


def _tests(plan: Plan) -> list[Part]:
    before = (
        "Every plug is home, every cord carries its tag, every tie is on a fixed frame.",
        "No cord lies across a walkway, a doorway or open floor that this page does not show.",
        "Nobody's hands are under a chair.",
    )
    chairs = tuple(
        f"{chair.id}: somebody seated, down all the way, and up all the way; no cord and no coil "
        "was touched, pulled or pinched."
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
