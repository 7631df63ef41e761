"""Rows and risers: on one level, and reclining within the edge."""

from __future__ import annotations

from powerplan.engineering.seating.frames import bounds, least_apart_m
from powerplan.engineering.seating.poses import SeatedRow
from powerplan.model.findings import Finding, hold
from powerplan.model.geometry import Rect
from powerplan.model.lengths import length_text, micrometers
from powerplan.model.rules import RuleSet
from powerplan.model.spec import PlanSpec


def footrests_on_risers(
    spec: PlanSpec, rows: tuple[SeatedRow, ...], rules: RuleSet
) -> tuple[Finding, ...]:
    """Return, for each row on a riser, the room from its reclined footrests to the front edge.

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
    for row in rows:
        for riser in spec.risers:
            if riser.id != row.riser:
                continue
            value_m = _footrest_spare_m(row, riser.rect)
            note = ""
            if micrometers(value_m) < 0:
                short = length_text(-value_m, spec.project.units)
                note = (
                    f"Reclined, the footrests of row {row.row.id} go {short} past the front edge "
                    f"of riser {riser.id}: move the row back or make the riser {short} deeper."
                )
            subject = f"row {row.row.id}, riser {riser.id}"
            found.append(hold(rules.rules["footrest-on-riser"], subject, value_m, 0.0, note=note))
    return tuple(found)


def rows_on_one_level(
    spec: PlanSpec, rows: tuple[SeatedRow, ...], rules: RuleSet
) -> tuple[Finding, ...]:
    """Return, for each row and riser, how far the bases are from standing on two levels.

    The value is the room left before they would; negative is the least shift, one way, after which
    they are wholly on the riser or wholly off it.

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
    for row in rows:
        for riser in spec.risers:
            bases = row.bases
            value_m = max(
                _room_inside_m(bounds(bases), riser.rect),
                least_apart_m(bases, (riser.rect.outline,)),
            )
            note = ""
            if micrometers(value_m) < 0:
                short = length_text(-value_m, spec.project.units)
                note = (
                    f"Row {row.row.id} stands partly on riser {riser.id} and partly beside it: "
                    f"move the row, or change the riser, by {short}."
                )
            subject = f"row {row.row.id}, riser {riser.id}"
            found.append(hold(rules.rules["row-on-one-level"], subject, value_m, 0.0, note=note))
    return tuple(found)


def _footrest_spare_m(row: SeatedRow, deck: Rect) -> float:
    """How far the reclined footrests are from the front edge; of a turned row, from any edge."""
    if row.is_square:
        return deck.front_m - row.reclined.front_m
    ends = []
    for chair in row.chairs:
        corners = sorted(
            chair.outline(chair.floor), key=lambda corner: -chair.frame.place(corner)[1]
        )
        ends.append(tuple(corners[:2]))
    return _room_inside_m(bounds(ends), deck)


def _room_inside_m(inner: Rect, outer: Rect) -> float:
    """The least way from an inner rectangle's edges to the outer's; negative: it sticks out."""
    return min(
        inner.left_m - outer.left_m,
        outer.right_m - inner.right_m,
        inner.back_m - outer.back_m,
        outer.front_m - inner.front_m,
    )
