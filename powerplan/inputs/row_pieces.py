"""What stands in a row, from the left: seats, arms, tables and gaps."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from powerplan.inputs import written as w
from powerplan.inputs.reading import Reading, grid_m
from powerplan.inputs.saying import meant, named
from powerplan.inputs.tables import PlanTables, Table
from powerplan.model.lengths import length_text, plural
from powerplan.model.seats import ARM, GAP, SEAT, TABLE, Piece

_Chair = Table[w.Chair]
_Thing = Table[w.Chair] | Table[w.StandingTable] | Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """What a row is made of. ``kinds`` is the kind of each seat, from the left; ``pieces`` is empty
    for a plain row of one kind. [m]"""

    kinds: tuple[str, ...]
    pieces: tuple[Piece, ...]
    width_m: float


def made_of(reading: Reading, tables: PlanTables, table: Table[w.Row]) -> Made | None:
    """Return what a row is made of, or None where a fault is noted. [m]

    Parameters
    ----------
    reading : Reading
        Where faults and assumptions are noted.
    tables : PlanTables
        Chairs and tables as written.
    table : Table
        The row's table.
    """
    things = _things(reading, tables, table)
    if things is None or not table.sound("no_arm_between", "arm_widths"):
        return None
    if not all(isinstance(thing, Fraction) or _measured(thing) for thing in things):
        return None
    armless = frozenset(table.it.no_arm_between or ())
    _check_pairs(reading, table, things)
    pieces = _with_arm_widths(reading, table, _pieces(reading, table, things, armless))
    if pieces is None:
        return None
    kinds = tuple(piece.kind or "" for piece in pieces if piece.what == SEAT)
    return Made(
        kinds=kinds,
        pieces=() if _is_plain(tables, kinds, pieces, armless) else pieces,
        width_m=sum(piece.width_m for piece in pieces),
    )


def seat_count(table: Table[w.Row], tables: PlanTables) -> int:
    """Return how many seats a row has as written; 0 where that cannot be said.

    Parameters
    ----------
    table : Table
        The row's table.
    tables : PlanTables
        Chairs as written.
    """
    if table.it.made_of is not None:
        chairs = {chair.name for chair in tables.chairs}
        return sum(thing in chairs for thing in table.it.made_of if isinstance(thing, str))
    return table.it.seats if table.it.seats is not None else 0


def _things(reading: Reading, tables: PlanTables, table: Table[w.Row]) -> list[_Thing] | None:
    """The chairs, tables and gaps of a row, from the left."""
    it, faults = table.it, reading.faults
    chairs = {chair.name: chair for chair in tables.chairs}
    if it.made_of is None:
        if not table.sound("made_of"):
            return None
        for key, hint in (
            ("chair", "the name of a [chair.NAME]"),
            ("seats", "how many, such as 5"),
        ):
            if getattr(it, key) is None and table.sound(key):
                faults.add(table.path, f"{key} is missing: {hint}; or write made_of")
        if it.chair is not None and it.chair not in chairs:
            words = f"chair {named(it.chair)} is not written{meant(it.chair, chairs)}"
            faults.add(table.at("chair"), words)
        if it.chair not in chairs or it.seats is None:
            return None
        return [chairs[it.chair]] * it.seats
    for key in ("chair", "seats"):
        if getattr(it, key) is not None:
            faults.add(table.at(key), "made_of says it already; leave this out")
    return _named_things(reading, tables, table, chairs)


def _named_things(
    reading: Reading, tables: PlanTables, table: Table[w.Row], chairs: dict[str, _Chair]
) -> list[_Thing] | None:
    stands = {one.name: one for one in tables.tables}
    things: list[_Thing] = []
    written = table.it.made_of or ()
    before = len(reading.faults.found)
    for number, thing in enumerate(written):
        path = (*table.at("made_of"), number)
        if isinstance(thing, Fraction):
            things.append(thing)
            if number in (0, len(written) - 1):
                reading.faults.add(path, "a gap at the end of a row parts it from nothing")
        elif thing in chairs and thing in stands:
            words = f"{named(thing)} is a chair and a table; give one of them another name"
            reading.faults.add(path, words)
        elif thing in chairs or thing in stands:
            things.append(chairs[thing] if thing in chairs else stands[thing])
        else:
            words = f"no chair or table {named(thing)} is written{meant(thing, [*chairs, *stands])}"
            reading.faults.add(path, words)
    if not any(_is_chair(thing) for thing in things) and len(reading.faults.found) == before:
        reading.faults.add(table.at("made_of"), "no chair is in it; a row has one seat at least")
    return things if len(reading.faults.found) == before else None


def _is_chair(thing: _Thing) -> bool:
    return not isinstance(thing, Fraction) and isinstance(thing.it, w.Chair)


def _measured(thing: Table[w.Chair] | Table[w.StandingTable]) -> bool:
    if isinstance(thing.it, w.Chair):
        return thing.has("seat_width", "arm_width")
    return thing.has("width")


def _check_pairs(reading: Reading, table: Table[w.Row], things: Sequence[_Thing]) -> None:
    """Seats that share a cushion stand directly beside each other."""
    seats = [n for n, thing in enumerate(things) if _is_chair(thing)]
    pairs = table.it.no_arm_between or ()
    for number, pair in enumerate(pairs):
        path = (*table.at("no_arm_between"), number)
        if pair in pairs[:number]:
            reading.faults.add(path, f"seats {pair[0]} and {pair[1]} are written twice")
        elif pair[1] > len(seats):
            words = f"there is no seat {pair[1]}; the row has {len(seats)}"
            reading.faults.add(path, words)
        elif seats[pair[1] - 1] != seats[pair[0] - 1] + 1:
            words = f"something stands between seats {pair[0]} and {pair[1]}"
            reading.faults.add(path, words)


def _pieces(
    reading: Reading,
    table: Table[w.Row],
    things: Sequence[_Thing],
    armless: frozenset[tuple[int, int]],
) -> tuple[Piece, ...]:
    """Everything in its order, with the arms between."""
    pieces: list[Piece] = []
    seat = 0
    for before, thing in zip((None, *things), (*things, None), strict=True):
        pieces += _between(reading, table, before, thing, seat, armless)
        if thing is None:
            continue
        if isinstance(thing, Fraction):
            pieces.append(Piece(what=GAP, kind=None, width_m=grid_m(thing)))
        elif isinstance(thing.it, w.Chair):
            seat += 1
            width_m = grid_m(thing.it.seat_width)
            pieces.append(Piece(what=SEAT, kind=thing.name, width_m=width_m))
        else:
            pieces.append(Piece(what=TABLE, kind=thing.name, width_m=grid_m(thing.it.width)))
    return tuple(pieces)


def _between(
    reading: Reading,
    table: Table[w.Row],
    before: _Thing | None,
    after: _Thing | None,
    seat: int,
    armless: frozenset[tuple[int, int]],
) -> list[Piece]:
    """The arms between two things: one that two seats share, else each seat's own."""
    if before is not None and after is not None and _is_chair(before) and _is_chair(after):
        if (seat, seat + 1) in armless:
            return []
        if not (_own(before) or _own(after)):
            return [_shared_arm(reading, table, _arm(before), _arm(after), (before, after), seat)]
    return [
        _arm(one)
        for one, other in ((before, after), (after, before))
        if one is not None and _is_chair(one) and _wants_arm(other)
    ]


def _own(thing: _Thing) -> bool:
    return not isinstance(thing, Fraction) and getattr(thing.it, "arms", None) == "own"


def _wants_arm(beside: _Thing | None) -> bool:
    """A console may take the place of the arms beside it."""
    if beside is None or isinstance(beside, Fraction) or isinstance(beside.it, w.Chair):
        return True
    return beside.it.arms_beside is not False


def _arm(thing: _Thing) -> Piece:
    if isinstance(thing, Fraction) or not isinstance(thing.it, w.Chair):
        raise ValueError("only a chair has arms")
    return Piece(what=ARM, kind=thing.name, width_m=grid_m(thing.it.arm_width))


def _shared_arm(
    reading: Reading,
    table: Table[w.Row],
    left: Piece,
    right: Piece,
    chairs: tuple[_Thing, _Thing],
    seat: int,
) -> Piece:
    """An arm between two kinds: as wide as the wider, and as low as the lower."""
    width_m = max(left.width_m, right.width_m)
    gaps = [
        getattr(chair.it, "arm_gap", None) for chair in chairs if not isinstance(chair, Fraction)
    ]
    known = [Fraction(-1) if gap is None else gap for gap in gaps]
    lower = left if known[0] <= known[1] else right
    if left.width_m != right.width_m and table.it.arm_widths is None:
        words = f"the arm between seats {seat} and {seat + 1} is taken as "
        words += f"{length_text(width_m, reading.units)} wide, the wider of the two kinds"
        reading.assume(f"row {table.name}", words)
    return replace(lower, width_m=width_m)


def _with_arm_widths(
    reading: Reading, table: Table[w.Row], pieces: tuple[Piece, ...]
) -> tuple[Piece, ...] | None:
    widths = table.it.arm_widths
    if widths is None:
        return pieces
    arms = sum(piece.what == ARM for piece in pieces)
    if len(widths) != arms:
        words = f"{plural(len(widths), 'width')} for {plural(arms, 'arm')}; write one for each arm"
        reading.faults.add(table.at("arm_widths"), f"{words}, from the left")
        return None
    left = iter(widths)
    return tuple(
        replace(piece, width_m=grid_m(next(left))) if piece.what == ARM else piece
        for piece in pieces
    )


def _is_plain(
    tables: PlanTables,
    kinds: tuple[str, ...],
    pieces: tuple[Piece, ...],
    armless: frozenset[tuple[int, int]],
) -> bool:
    """True where a row is what a plain row of its one kind would be."""
    if len(set(kinds)) != 1:
        return False
    chair = next(table.it for table in tables.chairs if table.name == kinds[0])
    arm = Piece(what=ARM, kind=kinds[0], width_m=grid_m(chair.arm_width))
    plain = [arm]
    for seat in range(1, len(kinds) + 1):
        plain.append(Piece(what=SEAT, kind=kinds[0], width_m=grid_m(chair.seat_width)))
        if (seat, seat + 1) not in armless:
            plain.append(arm)
    return tuple(plain) == pieces
