"""What forbids cutting on the electrician's pages, in one short word wherever it has to be seen."""

from __future__ import annotations

from powerplan.model.plan import Box, Plan
from powerplan.sheets.pages.print_next import spare_before_cutting, spare_to_settle
from powerplan.sheets.pages.print_words import capital
from powerplan.sheets.words import DO_NOT_CUT_YET, FIRM, cut_word, mark_word

_BY_MARK = ("framing",)


def hangs(plan: Plan) -> tuple[str, ...]:
    """Return what has to be confirmed before any box is cut, beside what makes marks provisional.

    Parameters
    ----------
    plan : Plan
        The plan.
    """
    if not any(mark_word(box, plan) == FIRM for box in plan.boxes):
        return ()
    return tuple(
        f"{capital(one.sentence.partition(':')[0])}."
        for one in plan.decision.depends_on
        if one.kind not in _BY_MARK
    )


def is_held(plan: Plan) -> bool:
    """Return whether firm marks are not cut before something is confirmed or settled."""
    if not any(mark_word(box, plan) == FIRM for box in plan.boxes):
        return False
    return bool(hangs(plan) or (spare_before_cutting(plan) and not cut_word(plan)))


def before_cutting(plan: Plan) -> tuple[str, ...]:
    """Return what is confirmed and what is settled before firm marks are cut; nothing where all
    may be cut.

    Parameters
    ----------
    plan : Plan
        The plan.
    """
    if not is_held(plan):
        return ()
    spare = f"The seller settles {spare_to_settle(plan)}."
    return (*hangs(plan), *((spare,) if spare_before_cutting(plan) else ()))


def held_word(plan: Plan) -> str:
    """Return what forbids cutting as ``cut_word`` does, and DO NOT CUT YET where marks are firm
    but something is confirmed or settled before they are cut; nothing where all may be cut.

    Parameters
    ----------
    plan : Plan
        The plan.
    """
    return cut_word(plan) or (DO_NOT_CUT_YET if is_held(plan) else "")


def mark_told(box: Box, plan: Plan) -> str:
    """Return what a mark is, with DO NOT CUT YET behind one that is firm but held."""
    word = mark_word(box, plan)
    return f"{word} but {DO_NOT_CUT_YET}" if word == FIRM and is_held(plan) else word


def warned(title: str, plan: Plan) -> str:
    """Return a title for the electrician, with what forbids cutting behind it."""
    word = held_word(plan)
    return f"{title}. {word}" if word else title
