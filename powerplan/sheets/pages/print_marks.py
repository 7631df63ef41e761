"""Where the middle of every new outlet goes, how far it may move, and what lies beside it."""

from __future__ import annotations

from powerplan.model.geometry import Point
from powerplan.model.lengths import length_text
from powerplan.model.plan import Box, Plan
from powerplan.model.spec import Wall
from powerplan.sheets.beside import framing_under, joists_beside
from powerplan.sheets.levels import SIDES, faces
from powerplan.sheets.off_walls import off_wall
from powerplan.sheets.pages.print_words import BLANK, cord_exit, from_center, size_text
from powerplan.sheets.parts import Part, Table
from powerplan.sheets.words import FINE, UNKNOWN, fine_text, from_wall

FLOOR_BOX = "floor box"


def places(plan: Plan) -> list[Part]:
    """Return the tables of places: from walls, and on one level where a step lies between."""
    marks = [mark for box in plan.boxes for mark in _marks(box)]
    parts: list[Part] = [_from_walls(plan, marks)]
    found = [(name, at, faces(plan, at)) for name, _, at in marks]
    stepped = any(not face.is_wall for _, _, four in found for face in four.values())
    if stepped or plan.spec.room.walls:
        units = plan.spec.project.units
        rows = []
        for name, at, four in found:
            across = (Wall.LEFT, Wall.RIGHT)
            away = {side: abs(at[side not in across] - four[side].at_m) for side in SIDES}
            told = (f"{fine_text(away[side], units)} from {four[side].words}" for side in SIDES)
            rows.append((name, *told))
        caption = "The same places taped on one level, straight to the first face met"
        head = ("box", "on its left", "on its right", "behind it", "ahead of it")
        parts.append(Table(caption=caption, head=head, rows=tuple(rows)))
    return parts


def _marks(box: Box) -> list[tuple[str, Box, Point]]:
    first = (box.x_m, box.y_m)
    if box.second_mark_m is None:
        return [(box.id, box, first)]
    return [
        (f"{box.id}, first mark", box, first),
        (f"{box.id}, second mark", box, box.second_mark_m),
    ]


def _from_walls(plan: Plan, marks: list[tuple[str, Box, Point]]) -> Table:
    room, units = plan.spec.room, plan.spec.project.units

    def told(side: Wall, length_m: float) -> str:
        return off_wall(room, side, length_m, units, step=FINE)

    rows = tuple(
        (
            name,
            box.under if box.kind == FLOOR_BOX else f"behind {box.under}",
            told(Wall.LEFT, at[0]),
            told(Wall.RIGHT, room.width_m - at[0]),
            told(Wall.BACK, at[1]),
            told(Wall.SCREEN, room.depth_m - at[1]),
            from_center(at[0], plan, step=FINE),
            BLANK,
            BLANK,
        )
        for name, box, at in marks
    )
    left, right = from_wall(room, Wall.LEFT), from_wall(room, Wall.RIGHT)
    back, screen = from_wall(room, Wall.BACK), from_wall(room, Wall.SCREEN)
    cut = (f"as cut, {left}", f"as cut, {back}")
    head = ("box", "under", left, right, back, screen, "off the center line", *cut)
    return Table(caption="Where the middle of each box goes", head=head, rows=rows)


def fittings(plan: Plan) -> Table:
    """Return what each new outlet is: circuit, sockets, sizes, and where its cords leave."""
    work, units = plan.spec.new_work, plan.spec.project.units
    recessed = "recessed" if work.plug_height_m == 0 else "flush"
    rows = tuple(
        (
            box.id,
            box.circuit,
            f"{box.sockets} of {box.rating_a:g} A",
            *(
                (size_text(work.cut_out, units), size_text(work.lid, units), BLANK, recessed)
                if box.kind == FLOOR_BOX
                else ("on the wall", "-", "-", f"{length_text(box.height_m, units)} up")
            ),
            cord_exit(box, plan),
        )
        for box in plan.boxes
    )
    head = ("box", "circuit", "sockets", "cut-out", "lid", "depth", "set", "cords leave to the")
    caption = (
        "What each box is (sizes are left to right x back to screen; its depth is not in the "
        "plan: measure it, and what lies below)"
        if any(box.kind == FLOOR_BOX for box in plan.boxes)
        else "What each outlet is"
    )
    return Table(caption=caption, head=head, rows=rows)


def joists(plan: Plan) -> list[Part]:
    """Return the table of joists beside each floor box; nothing where no box is over joists."""
    rows = [_joist_row(box, plan) for box in plan.boxes if _over_joists(box, plan)]
    if not rows:
        return []
    caption = "The joists beside each box, from the middle of the box to the middle of the joist"
    head = ("box", "joists run", "to one side", "to the other side", "thickness of a joist")
    return [Table(caption=caption, head=head, rows=tuple(rows))]


def _over_joists(box: Box, plan: Plan) -> bool:
    return box.kind == FLOOR_BOX and framing_under(plan, box)[0].build == "joists"


def _joist_row(box: Box, plan: Plan) -> tuple[str, ...]:
    units, framing = plan.spec.project.units, framing_under(plan, box)[0]
    thick = framing.joist_width_m
    beside = joists_beside(plan, box)
    run = framing.joists_run or UNKNOWN
    if beside is None:
        sides: tuple[str, ...] = ("unknown: find it", "unknown: find it")
    else:
        at = box.x_m if beside.across else box.y_m
        ways = ("left", "right") if beside.across else ("back", "screen")
        sides = tuple(
            f"none before the {way} edge"
            if middle is None
            else f"{fine_text(abs(middle - at), units)} to the {way}"
            for middle, way in zip((beside.before_m, beside.after_m), ways, strict=True)
        )
    return (box.id, run, *sides, UNKNOWN if thick is None else length_text(thick, units))
