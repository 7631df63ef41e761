"""Which neighboring seats share a supply."""

from __future__ import annotations

from powerplan.inputs import written as w
from powerplan.inputs.reading import Reading
from powerplan.inputs.tables import PlanTables, Table
from powerplan.model.lengths import joined

Pairs = tuple[tuple[int, int], ...]


def shared_supplies(
    reading: Reading, tables: PlanTables, table: Table[w.Row], kinds: list[str]
) -> Pairs:
    """Return the pairs of a row's neighboring seats that share a supply.

    Where the row does not say, seats are paired from the left; the last of an odd number has a
    supply of its own.

    Parameters
    ----------
    reading : Reading
        Where faults and assumptions are noted.
    tables : PlanTables
        Chairs and supplies as written.
    table : Table
        The row's table.
    kinds : list of str
        The kind of chair on each seat, from the left.
    """
    shared = [_shared_by(tables, kind) for kind in kinds]
    if table.it.shared_supply is not None:
        _check(reading, table, shared)
        return tuple(sorted(table.it.shared_supply))
    if not table.sound("shared_supply"):
        return ()
    pairs: list[tuple[int, int]] = []
    for left in range(1, len(kinds)):
        free = not pairs or pairs[-1][1] < left
        if free and shared[left - 1] is not None and kinds[left - 1] == kinds[left]:
            pairs.append((left, left + 1))
    if pairs:
        told = joined([f"{left} with {right}" for left, right in pairs])
        reading.assume(f"row {table.name}", f"seats share a supply in pairs from the left: {told}")
    return tuple(pairs)


def _shared_by(tables: PlanTables, kind: str) -> str | None:
    """The supply of a kind of chair, where two seats may share it."""
    chair = next((table.it for table in tables.chairs if table.name == kind), None)
    if chair is None or chair.supply is None:
        return None
    supply = next((table.it for table in tables.supplies if table.name == chair.supply), None)
    return chair.supply if supply is not None and supply.feeds == 2 else None


def _check(reading: Reading, table: Table[w.Row], shared: list[str | None]) -> None:
    taken: set[int] = set()
    for number, pair in enumerate(table.it.shared_supply or ()):
        left, right = pair
        path = (*table.at("shared_supply"), number)
        again = sorted(taken & set(pair))
        taken |= set(pair)
        if right > len(shared):
            words = f"there is no seat {right}; the row has {len(shared)}"
        elif again:
            words = f"seat {again[0]} is in two pairs"
        elif shared[left - 1] is None or shared[left - 1] != shared[right - 1]:
            words = (
                f"seats {left} and {right} have no supply that two seats may share; write "
                "feeds = 2 in the [supply.NAME] that their chair names"
            )
        else:
            continue
        reading.faults.add(path, words)
