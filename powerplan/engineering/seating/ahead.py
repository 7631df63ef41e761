"""Row behind row: bases, reclined footrests and the passage in front."""

from __future__ import annotations

from powerplan.engineering.seating.frames import Outline, bounds, least_apart_m
from powerplan.engineering.seating.poses import SeatedRow
from powerplan.engineering.seating.rects import spans_less
from powerplan.engineering.seating.turned import askew_pairs, free_ahead, turned_ahead
from powerplan.engineering.seating.walls import wall_ahead
from powerplan.model.findings import Finding, hold
from powerplan.model.geometry import Rect
from powerplan.model.lengths import length_text, micrometers
from powerplan.model.rules import RuleSet
from powerplan.model.spec import PlanSpec

_Pair = tuple[SeatedRow, SeatedRow]


def pairs_in_line(rows: tuple[SeatedRow, ...]) -> tuple[_Pair, ...]:
    """Return each row with each row ahead of it that it faces, no other row fully between.

    Only rows that look straight at the screen are in line; see ``turned`` for others.

    Parameters
    ----------
    rows : tuple of SeatedRow
        Every row of the room. [m]

    Returns
    -------
    tuple of (SeatedRow, SeatedRow)
        (behind, ahead); two rows equally far from the back wall are in the plan's order. [m]
    """
    order = sorted(_square(rows), key=lambda row: micrometers(row.base.middle[1]))
    pairs: list[_Pair] = []
    for n, behind in enumerate(order):
        open_spans: tuple[tuple[float, float], ...] = ((behind.left_m, behind.right_m),)
        for row_ahead in order[n + 1 :]:
            if any(_meets(row_ahead, start_m, end_m) for start_m, end_m in open_spans):
                pairs.append((behind, row_ahead))
            taken = [(row_ahead.left_m, row_ahead.right_m)]
            open_spans = tuple(left for span in open_spans for left in spans_less(span, taken))
    return tuple(pairs)


def rows_apart(spec: PlanSpec, rows: tuple[SeatedRow, ...], rules: RuleSet) -> tuple[Finding, ...]:
    """Return how far the bases of two rows are apart, for each two of which one is turned or
    curved, and each two others that are in line.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read.
    rows : tuple of SeatedRow
        Every row of the room. [m]
    rules : RuleSet
        The rules.
    """
    apart = [(one, other, _between_m(one.bases, other.bases)) for one, other in pairs_in_line(rows)]
    apart += [
        (one, other, least_apart_m(one.bases, other.bases)) for one, other in askew_pairs(rows)
    ]
    found = []
    for one, other, value_m in apart:
        names, note = f"rows {one.row.id} and {other.row.id}", ""
        if micrometers(value_m) < 0:
            short = length_text(-value_m, spec.project.units)
            note = (
                f"The bases of {names} stand in each other by {short}: move one of the rows by at "
                "least that."
            )
        found.append(hold(rules.rules["rows-apart"], names, value_m, 0.0, note=note))
    return tuple(found)


def footrests_clear_rows_ahead(
    spec: PlanSpec, rows: tuple[SeatedRow, ...], rules: RuleSet
) -> tuple[Finding, ...]:
    """Return, for each two rows in line, the gap from footrest to headrest, both reclined.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read.
    rows : tuple of SeatedRow
        Every row of the room. [m]
    rules : RuleSet
        The rules.
    """
    found = []
    for behind, row_ahead in pairs_in_line(rows):
        value_m = _between_m(behind.swept, row_ahead.swept)
        note = ""
        if micrometers(value_m) < 0:
            short = length_text(-value_m, spec.project.units)
            note = (
                f"Both reclined, the footrests of row {behind.row.id} go {short} into the "
                f"headrests of row {row_ahead.row.id}: move the rows {short} further apart."
            )
        subject = f"row {behind.row.id} behind row {row_ahead.row.id}"
        found.append(
            hold(rules.rules["footrest-clears-row-ahead"], subject, value_m, 0.0, note=note)
        )
    return tuple(found)


def passages_in_front(
    spec: PlanSpec, rows: tuple[SeatedRow, ...], rules: RuleSet
) -> tuple[Finding, ...]:
    """Return, for each row, the free depth ahead of its reclined footrests.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read.
    rows : tuple of SeatedRow
        Every row of the room. [m]
    rules : RuleSet
        The rules; ``passage`` is the limit.
    """
    limit_m = rules.length_m("passage")
    pairs = pairs_in_line(rows)
    found = []
    for row in rows:
        value_m, thing = (
            _nearest_ahead(spec, row, rows, pairs) if row.is_square else free_ahead(spec, row, rows)
        )
        note = ""
        if micrometers(value_m) < micrometers(limit_m):
            units = spec.project.units
            left = (
                "nothing is" if micrometers(value_m) <= 0 else f"{length_text(value_m, units)} is"
            )
            note = (
                f"Reclined, {left} left between row {row.row.id} and {thing}: "
                f"{length_text(limit_m - value_m, units)} more lets a person pass."
            )
        rule = rules.rules["passage-in-front"]
        found.append(hold(rule, f"row {row.row.id}", value_m, limit_m, note=note))
    return tuple(found)


def _nearest_ahead(
    spec: PlanSpec, row: SeatedRow, rows: tuple[SeatedRow, ...], pairs: tuple[_Pair, ...]
) -> tuple[float, str]:
    """How far the nearest thing ahead of the reclined footrests is, and what it is."""
    end_m = row.reclined.front_m
    wall_m, wall = wall_ahead(spec.room, row.left_m, row.right_m, row.y_m)
    things = [(wall_m - end_m, f"the {wall}")]
    for riser in spec.risers:
        if riser.id == row.riser:
            things.append((riser.rect.front_m - end_m, f"the front edge of riser {riser.id}"))
    for behind, row_ahead in pairs:
        if behind.row.id == row.row.id:
            gap = _between_m(behind.swept, row_ahead.swept)
            things.append((gap, f"the reclined headrests of row {row_ahead.row.id}"))
    things += turned_ahead(row, rows)
    for obstacle in spec.obstacles:
        if _stands_ahead(obstacle.rect, row):
            things.append((obstacle.rect.back_m - end_m, obstacle.id))
    return min(things, key=lambda thing: micrometers(thing[0]))


def _between_m(behind: tuple[Outline, ...], ahead: tuple[Outline, ...]) -> float:
    """The least depth between two rows in line, where they face each other."""
    gaps = [
        other.back_m - one.front_m
        for one in (bounds((outline,)) for outline in behind)
        for other in (bounds((outline,)) for outline in ahead)
        if micrometers(one.left_m) < micrometers(other.right_m)
        and micrometers(other.left_m) < micrometers(one.right_m)
    ]
    if gaps:
        return min(gaps)
    return bounds(ahead).back_m - bounds(behind).front_m


def _square(rows: tuple[SeatedRow, ...]) -> list[SeatedRow]:
    return [row for row in rows if row.is_square]


def _stands_ahead(rect: Rect, row: SeatedRow) -> bool:
    """True for what stands in front of a row, beyond its bases."""
    return _meets(row, rect.left_m, rect.right_m) and micrometers(rect.back_m) >= micrometers(
        row.base.front_m
    )


def _meets(row: SeatedRow, left_m: float, right_m: float) -> bool:
    return micrometers(row.left_m) < micrometers(right_m) and micrometers(left_m) < micrometers(
        row.right_m
    )
