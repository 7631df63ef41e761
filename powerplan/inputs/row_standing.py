"""Where each row stands: from the wall, or ahead of another row; and rows made again ahead."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from powerplan.inputs import written as w
from powerplan.inputs.names import name_fault
from powerplan.inputs.reading import Reading, micro
from powerplan.inputs.row_places import center_x_m
from powerplan.inputs.saying import meant, named
from powerplan.inputs.tables import PlanTables, Table
from powerplan.model.lengths import joined

_Rows = Mapping[str, Table[w.Row]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """A row's middle on the line of its headrests, and how far the row is turned. [m, rad]"""

    x_m: Fraction
    y_m: Fraction
    angle_rad: float

    def ahead(self, by_m: Fraction) -> Standing:
        """Return the same, further the way that the row looks. [m]"""
        if self.angle_rad == 0.0:
            return Standing(x_m=self.x_m, y_m=self.y_m + by_m, angle_rad=0.0)
        far_m = float(by_m)
        return Standing(
            x_m=self.x_m + _fine(-far_m * math.sin(self.angle_rad)),
            y_m=self.y_m + _fine(far_m * math.cos(self.angle_rad)),
            angle_rad=self.angle_rad,
        )


def _fine(length_m: float) -> Fraction:
    return Fraction(round(length_m * 10**9), 10**9)


def stand_rows(reading: Reading, tables: PlanTables) -> dict[str, Standing]:
    """Return where the written rows and those that are made again stand, by name.

    A row whose place cannot be said is left out, and a fault is noted. [m, rad]

    Parameters
    ----------
    reading : Reading
        Where faults and assumptions are noted.
    tables : PlanTables
        Rows as written.
    """
    written = {table.name: table for table in tables.rows}
    again = _made_again(reading, written)
    for table in tables.rows:
        _check_keys(reading, table, [*written, *again])
    found: dict[str, Standing] = {}
    for name in written:
        _stand(reading, written, again, name, (), found)
    for name, (base, times) in again.items():
        repeat = written[base].it.repeat
        if base in found and repeat is not None:
            found[name] = found[base].ahead(repeat.by * times)
    for table in tables.rows:
        _check_inside(reading, table, found, [n for n, (b, _) in again.items() if b == table.name])
    return found


def names_again(table: Table[w.Row]) -> tuple[str, ...]:
    """Return the names of the rows that are made like this one, ahead of it."""
    return () if table.it.repeat is None else tuple(table.it.repeat.as_)


def _made_again(reading: Reading, written: _Rows) -> dict[str, tuple[str, int]]:
    """The rows made by repeat: which row each is like, and how many steps ahead of it."""
    again: dict[str, tuple[str, int]] = {}
    for table in written.values():
        for number, name in enumerate(names_again(table)):
            path = (*table.at("repeat"), "as", number)
            fault = name_fault("row", name)
            if fault is not None:
                reading.faults.add(path, fault)
            elif name in written or name in again:
                words = f"a row is called {named(name)} already; repeat makes rows of new names"
                reading.faults.add(path, words)
            else:
                again[name] = (table.name, number + 1)
    return again


def _check_keys(reading: Reading, table: Table[w.Row], names: list[str]) -> None:
    it, faults = table.it, reading.faults
    if it.ahead_of is None and it.headrest_to_wall is None:
        if table.sound("ahead_of", "headrest_to_wall"):
            words = 'headrest_to_wall is missing: back wall to headrest, upright, such as "14 in"'
            faults.add(table.path, f"{words}; or write ahead_of and by")
    elif it.ahead_of is not None and it.headrest_to_wall is not None:
        faults.add(
            table.at("ahead_of"), "headrest_to_wall is written too; one of the two is wanted"
        )
    if it.by is not None and it.ahead_of is None and table.sound("ahead_of"):
        faults.add(table.at("by"), "this says how far ahead of a row; ahead_of names that row")
    if it.ahead_of is None:
        return
    if it.by is None and table.sound("by"):
        words = 'by is missing beside it: from headrests to headrests, such as "64 in"'
        faults.add(table.at("ahead_of"), words)
    if it.ahead_of not in names:
        others = [name for name in names if name != table.name]
        words = f"row {named(it.ahead_of)} is not written{meant(it.ahead_of, others)}"
        faults.add(table.at("ahead_of"), words)


def _stand(
    reading: Reading,
    written: _Rows,
    again: Mapping[str, tuple[str, int]],
    name: str,
    waiting: tuple[str, ...],
    found: dict[str, Standing],
) -> None:
    """Find where one row stands, first the row that it stands ahead of."""
    if name in found:
        return
    table = written[name]
    it = table.it
    if name in waiting:
        circle = waiting[waiting.index(name) :]
        if name == min(circle):
            words = f"rows {joined(sorted(circle))} stand ahead of each other"
            words = "a row cannot stand ahead of itself" if len(circle) == 1 else words
            reading.faults.add(table.at("ahead_of"), f"{words}; give one of them headrest_to_wall")
        return
    if not table.sound("headrest_to_wall", "ahead_of", "by", "center_from_left", "turned"):
        return
    turned_rad = None if it.turned is None else it.turned
    if it.ahead_of is None:
        center = center_x_m(reading, table)
        if center is not None and it.headrest_to_wall is not None:
            found[name] = Standing(x_m=center, y_m=it.headrest_to_wall, angle_rad=turned_rad or 0.0)
        return
    base, times = again.get(it.ahead_of, (it.ahead_of, 0))
    if base not in written or it.by is None:
        return
    _stand(reading, written, again, base, (*waiting, name), found)
    repeat = written[base].it.repeat
    if base not in found:
        return
    behind = found[base] if repeat is None else found[base].ahead(repeat.by * times)
    place = behind.ahead(it.by)
    center = place.x_m if it.center_from_left is None else center_x_m(reading, table)
    if center is not None:
        angle_rad = place.angle_rad if turned_rad is None else turned_rad
        found[name] = Standing(x_m=center, y_m=place.y_m, angle_rad=angle_rad)


def _check_inside(
    reading: Reading, table: Table[w.Row], found: Mapping[str, Standing], again: list[str]
) -> None:
    """Only slips are caught here; whether the row fits is for the plan to say."""
    it, text = table.it, reading.text
    if it.center_from_left is not None and reading.width_m is not None:
        past = it.center_from_left - reading.width_m
        if micro(past) > 0:
            words = f"this is {text(past)} past the right wall; the room is"
            reading.faults.add(
                table.at("center_from_left"), f"{words} {text(reading.width_m)} wide"
            )
    if it.headrest_to_wall is not None and it.ahead_of is None:
        _check_depth(reading, table, "headrest_to_wall", it.headrest_to_wall)
    elif table.name in found and it.by is not None:
        _check_depth(reading, table, "by", found[table.name].y_m)
    for name in again:
        if name in found and _check_depth(reading, table, "repeat", found[name].y_m):
            return


def _check_depth(reading: Reading, table: Table[w.Row], key: str, y_m: Fraction) -> bool:
    """Note headrests past the screen wall, or behind the back wall."""
    if reading.depth_m is None:
        return False
    past = y_m - reading.depth_m
    if micro(past) >= 0:
        words = f"this is {reading.text(past)} past the screen wall; the room is"
        reading.faults.add(table.at(key), f"{words} {reading.text(reading.depth_m)} deep")
    elif micro(y_m) < 0:
        words = f"this is {reading.text(-y_m)} behind the back wall"
        reading.faults.add(table.at(key), words)
    else:
        return False
    return True
