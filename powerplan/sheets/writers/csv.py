"""Tables for a spreadsheet: boxes, cords, what to buy and for whom, circuits.

Every length stands twice: in meters as a number, and as a tape shows it. Currents are numbers in
amperes. What is not known says so. Lines end as RFC 4180 has it.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Callable, Iterable

from powerplan.model.faces import printed_from_m
from powerplan.model.geometry import Point
from powerplan.model.lengths import at_least_text, at_most_text, joined, length_text
from powerplan.model.plan import Box, CircuitUse, Cord, Plan
from powerplan.model.spare import loops_of, spare_m, spare_told_m
from powerplan.sheets.bought import bought, bought_as, is_bought
from powerplan.sheets.local import Local, local_of
from powerplan.sheets.pages.box_reach import limits_m
from powerplan.sheets.pages.print_asked import asked_of_makers
from powerplan.sheets.pages.print_held import held_word, mark_told
from powerplan.sheets.pages.print_rows import row_of
from powerplan.sheets.pages.print_tags import tag_numbers, tag_text
from powerplan.sheets.pages.print_told import places_of
from powerplan.sheets.pages.print_ways import way_text
from powerplan.sheets.pages.print_wiring import BUY_NOTHING_YET, electrician_buys
from powerplan.sheets.sixty_fourths import down_text
from powerplan.sheets.words import UNKNOWN, fine_text

Cell = str | int | float
Tell = Callable[[float, str], str]
Row = dict[str, Cell]

_NUMBER = re.compile(r"[+-]?[0-9]+(\.[0-9]+)?")
_STARTS_A_FORMULA = ("=", "+", "-", "@", "＝", "＋", "－", "＠")
_YES = {True: "yes", False: "no"}

_BUYING = ("what", "length_m", "length", "wire", "how_many", "ask_the_maker_first")
_ELECTRICIAN = ("what", "size", "length_m", "length", "how_many", "mind")


def csv_files(plan: Plan) -> dict[str, str]:
    """Return each table by the name of its file, to be written in UTF-8 as it stands.

    Parameters
    ----------
    plan : Plan
        The plan.
    """
    tables: dict[str, tuple[tuple[str, ...], Iterable[Row]]] = {
        "boxes.csv": (_box_head(), (_box(box, plan) for box in plan.boxes)),
        "cords.csv": (_cord_head(), _cords(plan)),
        "buying.csv": (_BUYING, _buying(plan)),
        "buying-electrician.csv": (_ELECTRICIAN, _electrician(plan)),
        "circuits.csv": (_circuit_head(), (_circuit(use, plan) for use in plan.circuits)),
    }
    local = local_of(plan)
    return {name: _file(head, rows, local) for name, (head, rows) in tables.items()}


def _box_head() -> tuple[str, ...]:
    lengths = ("from_left", "from_right", "from_back", "from_screen", "height")
    moves = ("move_left", "move_right", "move_back", "move_screen")
    sizes = ("cut_out_width", "cut_out_depth", "lid_width", "lid_depth")
    seconds = ("second_mark_from_left", "second_mark_from_back")
    return (
        *("box", "kind", "under", "mark"),
        *_both(lengths),
        *_both(moves),
        *("circuit", "sockets", "socket_rating_A"),
        *_both(sizes),
        *("cut_into", "moved_because"),
        *_both(seconds),
        "wired_from",
        *_both(("wiring",)),
        *("as_cut_from_left", "as_cut_from_back", "walls_to"),
        *_both(("cords_reach_only",)),
    )


def _box(box: Box, plan: Plan) -> Row:
    room, units, work = plan.spec.room, plan.spec.project.units, plan.spec.new_work
    on_floor = box.kind == "floor box"
    cut_out, lid = (work.cut_out, work.lid) if on_floor else (None, None)
    second_x_m, second_y_m = _printed(box.second_mark_m, plan)
    sizes = {
        "cut_out_width": None if cut_out is None else cut_out.width_m,
        "cut_out_depth": None if cut_out is None else cut_out.depth_m,
        "lid_width": None if lid is None else lid.width_m,
        "lid_depth": None if lid is None else lid.depth_m,
    }
    return {
        "box": box.id,
        "kind": box.kind,
        "under": box.under,
        "mark": mark_told(box, plan),
        **_from_walls(box, plan),
        **_length("height", box.height_m, units),
        **_length("move_left", box.drift.left_m, units, tell=at_most_text),
        **_length("move_right", box.drift.right_m, units, tell=at_most_text),
        **_length("move_back", box.drift.back_m, units, tell=at_most_text),
        **_length("move_screen", box.drift.screen_m, units, tell=at_most_text),
        "circuit": box.circuit,
        "sockets": box.sockets,
        "socket_rating_A": box.rating_a,
        **_lengths(sizes, units, UNKNOWN if on_floor else ""),
        "cut_into": f"riser {box.deck}" if box.deck else ("floor" if on_floor else "wall"),
        "moved_because": box.moved_because,
        **_length("second_mark_from_left", second_x_m, units, "", fine_text),
        **_length("second_mark_from_back", second_y_m, units, "", fine_text),
        "wired_from": box.wired_from,
        **_length("wiring", box.wiring_m, units, tell=at_least_text),
        "as_cut_from_left": "",
        "as_cut_from_back": "",
        "walls_to": room.print_to,
        **_length("cords_reach_only", limits_m(box, plan), units, "", at_most_text),
    }


def _from_walls(box: Box, plan: Plan) -> Row:
    """The middle of a box from all four sides, to the face that is printed."""
    room, cells = plan.spec.room, Row()
    for side, away_m in (
        ("left", box.x_m),
        ("right", room.width_m - box.x_m),
        ("back", box.y_m),
        ("screen", room.depth_m - box.y_m),
    ):
        printed_m = printed_from_m(room, side, away_m)
        cells |= _length(f"from_{side}", printed_m, plan.spec.project.units, tell=fine_text)
    return cells


def _cord_head() -> tuple[str, ...]:
    return (
        *("tag", "cord", "kind", "from", "to", "way"),
        *_both(("lies", "of_it_up_and_down", "needed", "use", "open_floor", "keeps_clear")),
        *("wire", "current_A"),
        *_both(("left_over", "park_from_left", "park_from_back", "coil_width", "coil_depth")),
        "loops",
    )


def _cords(plan: Plan) -> Iterable[Row]:
    places, numbers = places_of(plan), tag_numbers(plan)
    for cord in plan.cords:
        yield {
            "tag": numbers[cord.id],
            "way": way_text(cord, row_of(cord, places.rows, plan), places, whole=True),
            **_cord(cord, plan),
        }


def _printed(place: Point | None, plan: Plan) -> tuple[float | None, float | None]:
    """A place from the left and the back, to the face that is printed. [m]"""
    if place is None:
        return (None, None)
    room = plan.spec.room
    return (printed_from_m(room, "left", place[0]), printed_from_m(room, "back", place[1]))


def _cord(cord: Cord, plan: Plan) -> Row:
    units = plan.spec.project.units
    park_x_m, park_y_m = cord.park_m or (None, None)  # installers measure from finished walls
    wide_m, deep_m = cord.coil_m or (None, None)
    return {
        "cord": cord.id,
        "kind": cord.kind,
        "from": cord.from_,
        "to": cord.to,
        **_length("lies", cord.length_m, units),
        **_length("of_it_up_and_down", cord.rises_m, units),
        **_length("needed", cord.needed_m, units, tell=at_least_text),
        **_length("use", cord.bought_m, units),
        **_length("open_floor", cord.open_floor_m, units),
        **_length("keeps_clear", cord.clearance_m, units, tell=down_text),
        "wire": cord.wire or UNKNOWN,
        "current_A": cord.current_a,
        "left_over_m": spare_m(cord),
        "left_over": length_text(spare_told_m(cord.bought_m, cord.length_m, units), units),
        **_length("park_from_left", park_x_m, units, ""),
        **_length("park_from_back", park_y_m, units, ""),
        **_length("coil_width", wide_m, units, "", at_least_text),
        **_length("coil_depth", deep_m, units, "", at_least_text),
        "loops": "" if cord.park_m is None else loops_of(cord),
    }


def _buying(plan: Plan) -> Iterable[Row]:
    """What is bought; then a line for each cord of which the maker is asked first, which counts
    nothing, so that nothing is bought twice."""
    tags, units, asked = tag_numbers(plan), plan.spec.project.units, asked_of_makers(plan)
    for (what, length_m, wire), count in bought(plan).items():
        one = (what, length_m, wire)
        held = [tags[c.id] for c, _ in asked if is_bought(c) and bought_as(c) == one]
        names = joined([tag_text(number) for number in sorted(held)])
        yield {
            "what": what,
            **_length("length", length_m, units),
            "wire": wire or UNKNOWN,
            "how_many": count,
            "ask_the_maker_first": f"{names}: order when the maker has answered" if held else "",
        }
    for cord, words in asked:
        yield {
            "what": f"to ask the maker, {tag_text(tags[cord.id])}",
            **_length("length", cord.bought_m, units),
            "wire": cord.wire or UNKNOWN,
            "how_many": "",
            "ask_the_maker_first": words,
        }


def _electrician(plan: Plan) -> Iterable[Row]:
    first = f"{BUY_NOTHING_YET}; " if held_word(plan) else ""
    for line in electrician_buys(plan):
        missing = UNKNOWN if line.how_many is None else ""
        length = _length("length", line.length_m, plan.spec.project.units, missing)
        count = "" if line.how_many is None else line.how_many
        yield {
            "what": line.what,
            "size": line.size,
            **length,
            "how_many": count,
            "mind": (first + line.note).removesuffix("; "),
        }


def _circuit_head() -> tuple[str, ...]:
    return (
        *("circuit", "new", "breaker_A", "wire"),
        *_both(("home_run",)),
        *("lasting_A", "other_A", "all_load_known", "asks_A", "may_give_A", "left_A"),
        *("drop_percent", "chairs"),
    )


def _circuit(use: CircuitUse, plan: Plan) -> Row:
    spare = next((known for known in plan.decision.spare if known.circuit == use.id), None)
    return {
        "circuit": use.id,
        "new": _YES[use.new],
        "breaker_A": _known(use.breaker_a),
        "wire": use.wire or UNKNOWN,
        **_length("home_run", use.home_run_m, plan.spec.project.units),
        "lasting_A": use.continuous_a,
        "other_A": use.other_a,
        "all_load_known": _YES[use.load_known],
        "asks_A": use.asks_a,
        "may_give_A": _known(use.may_give_a),
        "left_A": _known(None if spare is None else spare.spare_a),
        "drop_percent": _known(use.drop_percent),
        "chairs": " ".join(chair.id for chair in plan.chairs if chair.circuit == use.id),
    }


def _known(value: float | None) -> Cell:
    return UNKNOWN if value is None else value


def _both(names: Iterable[str]) -> Iterable[str]:
    return (head for name in names for head in (f"{name}_m", name))


def _length(
    name: str,
    length_m: float | None,
    units: str,
    missing: str = UNKNOWN,
    tell: Tell = length_text,
) -> Row:
    """A length in meters and as a tape shows it."""
    if length_m is None:
        return {f"{name}_m": missing, name: missing}
    return {f"{name}_m": length_m, name: tell(length_m, units)}


def _lengths(lengths_m: dict[str, float | None], units: str, missing: str) -> Row:
    cells: Row = {}
    for name, length_m in lengths_m.items():
        cells |= _length(name, length_m, units, missing)
    return cells


def _file(head: tuple[str, ...], rows: Iterable[Row], local: Local) -> str:
    """A table with its heads and texts in the words of the country."""
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow([_head(name, local) for name in head])
    writer.writerows([_cell(row[name], local) for name in head] for row in rows)
    return text.getvalue()


def _head(name: str, local: Local) -> str:
    """A head in one word: ``breaker_A`` is ``circuit_breaker_A`` in some countries."""
    told = local(name.replace("_", " "))
    return name if told == name.replace("_", " ") else re.sub(r"[ -]", "_", told)


def _cell(value: Cell, local: Local) -> str:
    if isinstance(value, str):
        return _guarded(local(value))
    if isinstance(value, int):
        return str(value)
    number = f"{value:.6f}".rstrip("0").rstrip(".")
    return "0" if number == "-0" else number


def _guarded(text: str) -> str:
    """A text that no spreadsheet takes for a formula; a number stays one."""
    if _NUMBER.fullmatch(text):
        return text
    bare = text.lstrip()
    risky = bare.startswith(_STARTS_A_FORMULA) or text[:1] in ("\t", "\r", "\n")
    return f"'{text}" if risky else text
