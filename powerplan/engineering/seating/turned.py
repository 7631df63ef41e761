"""Rows that are turned or curved: clear of other rows, of their neighbors, and room in front."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

import shapely

from powerplan.engineering.seating.frames import least_apart_m, polygon
from powerplan.engineering.seating.poses import SeatedChair, SeatedRow
from powerplan.engineering.seating.shapes import room_shape
from powerplan.model.findings import Finding, hold
from powerplan.model.geometry import Rect
from powerplan.model.lengths import length_text, micrometers
from powerplan.model.rules import RuleSet
from powerplan.model.spec import PlanSpec

# How far ahead something is sought.
_FAR_M = 1000.0


def askew_pairs(rows: tuple[SeatedRow, ...]) -> Iterator[tuple[SeatedRow, SeatedRow]]:
    """Yield each two rows of which one at least is turned or curved, in the plan's order.

    Parameters
    ----------
    rows : tuple of SeatedRow
        Every row of the room. [m]
    """
    for one, other in combinations(rows, 2):
        if not (one.is_square and other.is_square):
            yield one, other


def seats_clear(spec: PlanSpec, rows: tuple[SeatedRow, ...], rules: RuleSet) -> tuple[Finding, ...]:
    """Return whether seats of turned and curved rows recline clear of each other.

    On an arc each cushion, rear of base to the end of its footrest, keeps between the lines from
    the arc's middle through the corners at which it touches its neighbors. Two rows of which one
    is turned or curved keep apart reclined.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read.
    rows : tuple of SeatedRow
        Every row of the room. [m]
    rules : RuleSet
        The rules.
    """
    rule, units = rules.rules["seats-clear-of-each-other"], spec.project.units
    found = []
    for row in rows:
        if row.row.curve is not None:
            tightest = min(row.chairs, key=lambda chair: micrometers(_aside_m(chair)))
            value_m, note = _aside_m(tightest), ""
            if micrometers(value_m) < 0:
                note = (
                    f"The cushion of {tightest.id} goes {length_text(-value_m, units)} into its "
                    "neighbor's floor as it reclines: take a larger radius."
                )
            found.append(hold(rule, f"row {row.row.id}", value_m, 0.0, note=note))
    for one, other in askew_pairs(rows):
        value_m = least_apart_m(one.swept, other.swept)
        names, note = f"rows {one.row.id} and {other.row.id}", ""
        if micrometers(value_m) < 0:
            short = length_text(-value_m, units)
            note = f"Both reclined, {names} are {short} in each other: move them further apart."
        found.append(hold(rule, names, value_m, 0.0, note=note))
    return tuple(found)


def _aside_m(chair: SeatedChair) -> float:
    """How far a cushion is from its neighbors' floor; a chair's cone is in its own frame. [m]"""
    return _FAR_M if chair.cone is None else chair.cone.spare_m(chair.cushion)


def free_ahead(spec: PlanSpec, row: SeatedRow, rows: tuple[SeatedRow, ...]) -> tuple[float, str]:
    """Return how far the nearest thing ahead of a turned or curved row is, each chair looking its
    own way, and what it is.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read. [m]
    row : SeatedRow
        The row. [m]
    rows : tuple of SeatedRow
        Every row of the room. [m]

    Returns
    -------
    tuple of float and str
        Free depth ahead of the reclined footrests, 0 where there is none. [m]
    """
    room = room_shape(spec.room)
    beyond = shapely.difference(shapely.buffer(room, _FAR_M), room)
    things = [("the wall", beyond)]
    for riser in spec.risers:
        if riser.id == row.riser:
            off = shapely.difference(room, polygon(riser.rect.outline))
            things.append((f"the edge of riser {riser.id}", off))
    things += [(area.id, polygon(area.rect.outline)) for area in spec.obstacles]
    for other in rows:
        if other.row.id != row.row.id:
            things.append((f"row {other.row.id}, reclined", _swept_shape(other)))
    found = [(_ahead_m(chair, shape), name) for chair in row.chairs for name, shape in things]
    return min(found, key=lambda thing: micrometers(thing[0]))


def turned_ahead(row: SeatedRow, rows: tuple[SeatedRow, ...]) -> list[tuple[float, str]]:
    """Return how far ahead of a row's reclined footrests turned and curved rows are.

    Parameters
    ----------
    row : SeatedRow
        A row that looks straight at the screen. [m]
    rows : tuple of SeatedRow
        Every row of the room. [m]

    Returns
    -------
    list of (float, str)
        Free depth, and what is there. [m]
    """
    found = []
    for other in rows:
        if not other.is_square:
            shape = _swept_shape(other)
            off_m = min(_ahead_m(chair, shape) for chair in row.chairs)
            if off_m < _FAR_M:
                found.append((off_m, f"row {other.row.id}, reclined"))
    return found


def _swept_shape(row: SeatedRow) -> object:
    """The floor that a row sweeps, as one shape. [m]"""
    return shapely.union_all([polygon(outline) for outline in row.swept])


def _ahead_m(chair: SeatedChair, shape: object) -> float:
    """How far ahead of a chair's reclined footrest a shape begins. [m]"""
    floor = chair.floor
    strip = Rect(
        left_m=floor.left_m,
        right_m=floor.right_m,
        back_m=floor.front_m,
        front_m=floor.front_m + _FAR_M,
    )
    met = shapely.intersection(polygon(chair.frame.outline(strip)), shape)
    points = shapely.get_coordinates(met)
    ahead = [chair.frame.place((float(x), float(y)))[1] - floor.front_m for x, y in points]
    return max(0.0, min(ahead)) if ahead and met.area > 0.0 else _FAR_M
