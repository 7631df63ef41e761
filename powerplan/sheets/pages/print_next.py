"""What happens next, and who does it: in an order in which nothing is done too soon."""

from __future__ import annotations

from powerplan.model.lengths import joined, plural
from powerplan.model.plan import NOT_POSSIBLE, Cord, Plan
from powerplan.sheets.bought import bought
from powerplan.sheets.page_names import CIRCUITS, CORDS, floor_page
from powerplan.sheets.pages.print_marks import FLOOR_BOX
from powerplan.sheets.pages.print_spare import cords_named, homeless, rows_that_may_move
from powerplan.sheets.pages.print_tags import bag_of
from powerplan.sheets.words import cut_word, lay_word

_NEW_SET = "Seller: has the room planned again; the new set replaces this one."
_AGAIN = f"{_NEW_SET} Nothing is ordered, cut or laid from this one."
_PLANNED_AGAIN = ("framing", "cut-out", "other")
"""Kinds of condition that take another plan, whatever is found."""


def next_steps(plan: Plan) -> tuple[str, ...]:
    """Return what is done next, each with who does it; where the room has to be planned again
    first, nothing that follows from this plan.

    Parameters
    ----------
    plan : Plan
        The plan.
    """
    if plan.decision.verdict == NOT_POSSIBLE:
        return (
            "Client and seller: choose which of the ways below is opened, or what in the room or "
            "the row is changed. Nothing is ordered, cut or laid until then.",
            _NEW_SET,
        )
    if any(finding.stops for finding in plan.findings):
        return ("Client and seller: settle what has to be mended first.", *_found_out(plan), _AGAIN)
    if is_planned_again(plan):
        return (*_found_out(plan), _AGAIN)
    settled = _settled_first(plan)
    first = [f"Seller: {settled}."] if settled else []
    return (*_found_out(plan), *first, *_work(plan), *_orders(plan), *_set(plan))


def is_planned_again(plan: Plan) -> bool:
    """Return whether this set cannot be worked from, whatever is found out: a mark or a way is
    provisional, or a part of the plan is a guess.

    Parameters
    ----------
    plan : Plan
        The plan, of a job that is possible.
    """
    if cut_word(plan) or lay_word(plan):
        return True
    return any(one.kind in _PLANNED_AGAIN for one in plan.decision.depends_on)


def _settled_first(plan: Plan) -> str:
    """What the seller settles before the floor is cut; nothing where the answer moves nothing."""
    rows = rows_that_may_move(plan)
    if not rows:
        return ""
    moving = _that_move(plan)
    others = tuple(cord for cord in homeless(plan) if cord not in moving)
    too, it = "", "it"
    if others:
        too = f", and where that of {cords_named(others, plan)} goes, which moves no box"
        it = f"that of {cords_named(moving, plan)}"
    return (
        f"asks the maker where {spare_named(plan, moving)} goes ({CORDS}), before anything is cut"
        f"{too}. If {it} has no place, "
        f"{_move(plan)}: then has the room planned again"
    )


def _that_move(plan: Plan) -> tuple[Cord, ...]:
    """The cords whose spare has no place and whose row may have to move for it."""
    seats = {chair.id for row in rows_that_may_move(plan) for chair in row.chairs}
    return tuple(cord for cord in homeless(plan) if bag_of(cord, plan) in seats)


def spare_before_cutting(plan: Plan) -> str:
    """Return the same for whoever cuts; nothing where the answer cannot move a new outlet.

    Parameters
    ----------
    plan : Plan
        The plan.
    """
    if not rows_that_may_move(plan):
        return ""
    return (
        f"first the seller settles {spare_to_settle(plan)} with its maker ({CORDS}); if there is "
        f"no place for it, {_move(plan)}."
    )


def spare_to_settle(plan: Plan) -> str:
    """Return the spare that is settled before the floor is cut: "the spare of cords 1 and 2"."""
    return spare_named(plan, _that_move(plan))


def spare_named(plan: Plan, cords: tuple[Cord, ...] | None = None) -> str:
    """Return the spare of some cords, or of all of which it has no place."""
    return f"the spare of {cords_named(homeless(plan) if cords is None else cords, plan)}"


def _move(plan: Plan) -> str:
    """Which rows may move, and which new outlets with them."""
    rows = rows_that_may_move(plan)
    seats = {chair.id for row in rows for chair in row.chairs}
    boxes = joined([box.id for box in plan.boxes if box.under in seats])
    names = joined([f"row {row.id}" for row in rows])
    return f"{names} may have to stand further off the wall, and {boxes} with it"


def _found_out(plan: Plan) -> list[str]:
    if not plan.decision.depends_on:
        return []
    if is_planned_again(plan):
        return ["Seller: has found out what is still unknown (below), before anything is done."]
    told = (
        "Seller: has found out first what is unknown (below); if it is not so, has the room planned"
    )
    return [f"{told} again."]


def _work(plan: Plan) -> list[str]:
    if not plan.boxes:
        return [
            "Licensed electrician: confirms the circuits and outlets as they stand on "
            f"{floor_page(plan)} and {CIRCUITS}."
        ]
    return [
        f"Client: agrees to {_agreed(plan)}.",
        f"Licensed electrician: confirms what {floor_page(plan)} and {CIRCUITS} ask, scans, "
        "cuts and wires, with the power off and proved dead; writes beside each mark where the "
        "outlet really went.",
    ]


def _agreed(plan: Plan) -> str:
    """New outlets with their sockets, new circuits, and what is cut for them."""
    kinds = {"new floor box": True, "new wall outlet": False}
    told, cut = [], []
    for noun, on_floor in kinds.items():
        found = [box for box in plan.boxes if (box.kind == FLOOR_BOX) == on_floor]
        if found:
            sockets = plural(sum(box.sockets for box in found), "socket")
            in_all = " in all" if len(found) > 1 else ""
            told.append(f"{plural(len(found), noun)} with {sockets}{in_all}")
            cut.append("floor" if on_floor else "wall")
    new = sum(circuit.new for circuit in plan.circuits)
    told += [plural(new, "new circuit")] if new else []
    return f"{joined(told)}, and to the {joined(cut)} being cut or drilled"


def _orders(plan: Plan) -> list[str]:
    orders = [f"orders the cords of the buying list on {CORDS}"] if bought(plan) else []
    if homeless(plan) and not rows_that_may_move(plan):
        orders.insert(0, f"asks the maker where {spare_named(plan)} goes ({CORDS})")
    return [f"Seller: {joined(orders)}."] if orders else []


def _set(plan: Plan) -> list[str]:
    return [
        f"Installers: set the chairs, lay the cords and test every chair, from {CORDS}.",
        "Client: sees the test, and keeps these sheets with the chairs' papers.",
    ]
