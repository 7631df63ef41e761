"""How far apart rows stand where people gather."""

from __future__ import annotations

from fractions import Fraction

from powerplan.model.rules import RuleSet


def row_width_m(seats: int, rules: RuleSet) -> float:
    """Return the width that the way along a row asks, with an aisle at one end only.

    Parameters
    ----------
    seats : int
        Seats in the row.
    rules : RuleSet
        Lends the least width, the seats that it is enough for, what each further seat adds, and
        the most that is ever asked.

    Returns
    -------
    float
        Clear width between the row ahead and the nearest part of this one. [m]

    Notes
    -----
    An aisle at both ends asks less; the plan does not say where aisles are.
    """
    over = max(Fraction(0), seats - rules.exact("row_free_seats"))
    wanted_m = rules.exact("row_width_least") + over * rules.exact("row_per_seat")
    return round(float(min(wanted_m, rules.exact("row_width_most"))), 6)
