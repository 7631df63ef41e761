"""What the pages of a set are called, wherever one is named: by number and title.

A number alone would be looked for among the sheets of paper, which are counted through the set.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from powerplan.model.plan import Plan

DECISION = "page 1 Decision"
CORDS = "page 3 Cords"
CIRCUITS = "page 4 Circuits"
FINDINGS = "page 5 Findings"


def floor_title(plan: Plan) -> str:
    """Return the title of page 2.

    Parameters
    ----------
    plan : Plan
        The plan: with new outlets or without.
    """
    return "Floor boxes" if plan.boxes else "The room and its outlets"


def floor_page(plan: Plan) -> str:
    """Return page 2 as it is referred to.

    Parameters
    ----------
    plan : Plan
        The plan: with new outlets or without.
    """
    return f"page 2 {floor_title(plan)}"
