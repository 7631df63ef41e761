"""What the plan file left open and the program filled in: on page 1 what the answer rests on, on
page 5 the rest."""

from __future__ import annotations

from powerplan.model.lengths import joined
from powerplan.model.plan import EXISTING, EXTENSIONS, NEW_OUTLETS, Plan
from powerplan.model.spec import Assumption
from powerplan.sheets.page_names import FINDINGS
from powerplan.sheets.pages.print_words import capital, degrees
from powerplan.sheets.parts import Items, Part

_PLURAL = {"stands": "stand", "is": "are", "has": "have", "counts": "count"}
_MEASURED = (
    "Room, chairs, circuits and outlets are as they were measured and written down; say so before "
    "work starts if any of it is not so."
)
_NEW_WORK, _NEW_CIRCUIT = "new work", "a new circuit "
_GUESSED, _AS = "ASSUMED: ", ", as the invented "


def assumed_here(plan: Plan) -> Items:
    """Return what the answer rests on.

    Parameters
    ----------
    plan : Plan
        The plan.
    """
    bearing = [one for one in plan.spec.assumed if not _idle(one, plan)]
    rest = len(bearing) < len(plan.spec.assumed)
    more = (f"What was assumed of work that this answer does not need: {FINDINGS}.",)
    items = (*_told(bearing), _MEASURED, *(more if rest else ()))
    return Items(lead="What is assumed:", items=items)


def assumed_elsewhere(plan: Plan) -> list[Part]:
    """Return what was assumed of work that is no part of the answer; nothing where all is.

    Parameters
    ----------
    plan : Plan
        The plan.
    """
    idle = [one for one in plan.spec.assumed if _idle(one, plan)]
    lead = "What was assumed of work that the answer does not need:"
    return [Items(lead=lead, items=_told(idle))] if idle else []


def _idle(said: Assumption, plan: Plan) -> bool:
    """Whether an assumption is of new work while an answer that comes before it works without.

    A step is chosen because it works, whatever the steps after it assume. Where none works, any
    of them could turn the answer.
    """
    if said.subject != _NEW_WORK:
        return False
    if plan.decision.verdict in (EXISTING, EXTENSIONS):
        return True
    return plan.decision.verdict == NEW_OUTLETS and said.words.startswith(_NEW_CIRCUIT)


def _told(assumed: list[Assumption]) -> tuple[str, ...]:
    """Each thing once: what is said alike of several, and all that is said of the same ones."""
    subjects: dict[str, list[str]] = {}
    for said in assumed:
        subjects.setdefault(said.words, []).append(said.subject)
    sayings: dict[tuple[tuple[str, ...], bool], list[str]] = {}
    for words, of in subjects.items():
        guessed = words.startswith(_GUESSED)
        told = _of_several(words.removeprefix(_GUESSED), len(of))
        sayings.setdefault((tuple(of), guessed), []).append(told)
    return tuple(
        f"{capital(joined(list(of)))}: {_GUESSED if guessed else ''}{degrees(_together(told))}."
        for (of, guessed), told in sayings.items()
    )


def _together(told: list[str]) -> str:
    """Sayings one after another, of each that has the same source the source once."""
    sources: dict[str, list[str]] = {}
    for words in told:
        what, mark, source = words.partition(_AS)
        sources.setdefault(f"{mark}{source}", []).append(what)
    return "; ".join(
        f"{(', ' if source else '; ').join(what)}{source}" for source, what in sources.items()
    )


def _of_several(words: str, count: int) -> str:
    """What is said of one thing, of several."""
    verb, _, rest = words.partition(" ")
    return f"{_PLURAL[verb]} {rest}" if count > 1 and verb in _PLURAL else words
